// The text of a file, with findings at their lines, what belongs at each place, and completion.
import { EditorView, drawSelection, highlightActiveLine, hoverTooltip, keymap, lineNumbers } from "@codemirror/view";
import { defaultKeymap, historyKeymap } from "@codemirror/commands";
import { HighlightStyle, indentUnit, syntaxHighlighting } from "@codemirror/language";
import { autocompletion, completionKeymap } from "@codemirror/autocomplete";
import { lintGutter, setDiagnostics } from "@codemirror/lint";
import { yaml } from "@codemirror/lang-yaml";
import { tags } from "@lezer/highlight";
import { button, choice, download, h } from "./dom.js";

const GRAVE = { DANGER: "error", WARNING: "error", CAUTION: "warning", NOTICE: "info" };
const LOOK = EditorView.theme({
  "&": { fontSize: "16px", height: "100%", color: "var(--ink)", backgroundColor: "var(--ground)" },
  ".cm-scroller": { fontFamily: "ui-monospace, 'Liberation Mono', monospace", lineHeight: "1.6" },
  ".cm-gutters": { color: "var(--quiet)", backgroundColor: "var(--sunk)", border: "0" },
  ".cm-activeLine, .cm-activeLineGutter": { backgroundColor: "var(--sunk)" },
  ".cm-cursor": { borderLeftColor: "var(--ink)" },
  ".cm-tooltip": { color: "var(--ink)", backgroundColor: "var(--sunk)", border: "1px solid var(--quiet)", maxWidth: "min(32rem, 90vw)" },
  ".cm-told": { padding: ".4rem .6rem", whiteSpace: "pre-wrap", fontFamily: "system-ui, sans-serif" },
  ".cm-tooltip-autocomplete ul li[aria-selected]": { color: "var(--ground)", backgroundColor: "var(--ink)" },
  ".cm-tooltip-autocomplete ul li": { padding: ".5rem .6rem", minHeight: "44px" },
  ".cm-diagnosticText": { whiteSpace: "pre-wrap" },
});
const COLOURS = HighlightStyle.define([
  { tag: [tags.propertyName, tags.definition(tags.propertyName)], color: "var(--key)" },
  { tag: tags.comment, color: "var(--quiet)" },
]);

export class TextScreen {
  constructor(page) {
    this.page = page;
    this.name = "";
    page.library.extensions.push(
      yaml(), syntaxHighlighting(COLOURS), lineNumbers(), lintGutter(), highlightActiveLine(), drawSelection(), indentUnit.of("  "),
      EditorView.lineWrapping, LOOK, EditorView.contentAttributes.of({ "aria-label": "Text of the file", autocapitalize: "off", spellcheck: "false" }),
      hoverTooltip((view, at) => this.told(view, at)), autocompletion({ override: [(context) => this.words(context)] }),
      keymap.of([...completionKeymap, ...historyKeymap, ...defaultKeymap]));
  }

  choose(name) {
    this.name = name;
  }

  goTo({ path, line, column }) {
    this.name = path;
    this.line = line;
    this.column = column;
  }

  // The editor lives in a shadow of its own, where its style sheets need no leave from the page's policy.
  mount() {
    this.room = h("div", { class: "editor" });
    const root = this.room.attachShadow({ mode: "open" });
    const place = document.createElement("div");
    place.style.height = "100%";
    root.append(place);
    this.view = new EditorView({
      parent: place, root,
      dispatchTransactions: (steps, view) => {
        const { library } = this.page, held = library.states.get(this.shown);
        // The editor works on in the background. What was opened or changed meanwhile stays; it must not write over that.
        if (held?.doc !== view.state.doc) {
          if (held) view.setState(held);
          return;
        }
        view.update(steps);
        if (steps.some((step) => step.docChanged)) library.typed(this.shown, view.state);
        else library.states.set(this.shown, view.state);
      },
    });
  }

  // What scrolls can be reached by key.
  reachable() {
    const { scrollDOM } = this.view;
    scrollDOM.tabIndex = 0;
    scrollDOM.setAttribute("role", "group");
    scrollDOM.setAttribute("aria-label", "Lines of the file");
  }

  element() {
    const { library } = this.page;
    const names = [...library.states.keys()].sort();
    if (!names.includes(this.name)) this.name = names.includes(this.page.rig) ? this.page.rig : names[0] ?? "";
    if (!this.name) return h("div", {}, h("h2", {}, "No file is open"), button("Open a rig", () => this.page.show("open"), { class: "strong" }));
    if (!this.view) this.mount();
    this.reachable();
    this.show();
    this.told_here = h("p", { class: "here", role: "status" });
    return h("div", { class: "text" },
      h("div", { class: "row wrap" },
        choice("File", names.map((name) => [name, name]), this.name, (name) => { this.name = name; this.page.draw(); }),
        button("What belongs here?", () => this.explain()),
        button("Save", () => download(this.name.split("/").pop(), library.text(this.name)), { class: "strong" })),
      this.told_here, this.room);
  }

  show() {
    this.shown = this.name;
    this.view.setState(this.page.library.states.get(this.name));
    this.mark();
    if (!this.line) return;
    const line = this.view.state.doc.line(Math.min(this.line, this.view.state.doc.lines));
    const at = Math.min(line.to, line.from + Math.max(0, (this.column ?? 1) - 1));
    this.line = 0;
    requestAnimationFrame(() => {
      this.view.dispatch({ selection: { anchor: at }, effects: EditorView.scrollIntoView(at, { y: "center" }) });
      this.view.focus();
    });
  }

  // Puts the findings at their lines, and takes a text that the form has changed.
  mark() {
    if (!this.view || !this.shown || this.page.screen !== "text") return;
    const held = this.page.library.states.get(this.shown);
    if (!held) return;
    if (held.doc !== this.view.state.doc) this.view.setState(held);
    const { doc } = this.view.state;
    const file = this.page.file;
    const found = file && this.page.audits.fresh
      ? ["faults", "shared", "blanks", "looks", "checks"].flatMap((block) => file[block]) : [];
    const marks = found.filter((one) => one.at.path === this.shown && one.at.line <= doc.lines).map((one) => {
      const line = doc.line(one.at.line);
      const from = Math.min(line.to, line.from + one.at.column - 1);
      return { from, to: line.to, severity: GRAVE[one.signal], source: one.rule, message: `${one.signal}: ${one.message}\n${one.do}` };
    });
    this.view.dispatch(setDiagnostics(this.view.state, marks));
  }

  place(state, at) {
    const line = state.doc.lineAt(at);
    return { text: state.sliceDoc(), line: line.number, column: at - line.from + 1 };
  }

  async told(view, at) {
    const words = await this.page.engine.call("here", this.place(view.state, at));
    if (!words || words.wrong) return null;
    return { pos: at, create: () => ({ dom: h("div", { class: "cm-told" }, plain(words)) }) };
  }

  async explain() {
    const words = await this.page.engine.call("here", this.place(this.view.state, this.view.state.selection.main.head));
    this.told_here.textContent = words && !words.wrong ? plain(words) : "Put the cursor on a key or a value first.";
  }

  async words(context) {
    const word = context.matchBefore(/[\w.-]*/);
    if (!context.explicit && word.from === word.to) return null;
    const found = await this.page.engine.call("words", this.place(context.state, word.from), this.page.library.files);
    if (!Array.isArray(found) || !found.length) return null;
    return { from: word.from, options: found.map(({ word: label, about }) => ({ label, detail: about })), validFor: /^[\w.-]*$/ };
  }
}

const plain = (words) => words.replaceAll("**", "");
