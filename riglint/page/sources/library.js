// The files as the page holds them: one text each, which the form and the text screen both change; every change can be
// undone, and the text as it was opened stays beside it.
import { EditorState } from "@codemirror/state";
import { history, undo } from "@codemirror/commands";

export class Library {
  constructor(onChange) {
    this.onChange = onChange;
    this.extensions = [history({ newGroupDelay: 700 })];
    this.states = new Map();
    this.opened = {};
    this.raw = {}; // bytes that are no text: judged as they are, and not to be edited
    this.trail = [];
  }

  get names() {
    return [...this.states.keys(), ...Object.keys(this.raw)].sort();
  }

  kind(name) {
    return /^\uFEFF?(?:\s*#.*\n|\s*\n)*riglint\s*:\s*["']?(\w+)\/\d/.exec(this.text(name).slice(0, 4000))?.[1] ?? "";
  }

  get rigs() {
    const rigs = this.names.filter((name) => this.kind(name) === "rig");
    return rigs.length ? rigs : this.names.filter((name) => !["spot", "shelf", "policy"].includes(this.kind(name)));
  }

  of(kind) {
    return this.names.filter((name) => this.kind(name) === kind);
  }

  text(name) {
    return this.states.get(name)?.sliceDoc() ?? "";
  }

  get files() {
    return { ...Object.fromEntries([...this.states].map(([name]) => [name, this.text(name)])), ...this.raw };
  }

  get changed() {
    return [...this.states.keys()].filter((name) => this.text(name) !== this.opened[name]);
  }

  // Takes files as text or bytes; what is there already under the same name gives way only when `over` says so.
  open(files, { over = false } = {}) {
    const named = {};
    for (const [name, held] of Object.entries(files)) {
      let free = name;
      for (let n = 2; !over && this.states.has(free) && this.text(free) !== held; n++) {
        free = name.replace(/(\.\w+)?$/, `-${n}$1`);
      }
      named[name] = free;
      this.take(free, held);
    }
    this.onChange();
    return named;
  }

  take(name, held) {
    let text = held;
    if (typeof held !== "string") {
      try {
        text = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(held);
      } catch {
        this.raw[name] = held;
        return;
      }
    }
    this.states.set(name, this.fresh(text));
    this.opened[name] = text;
  }

  fresh(text) {
    const ends = /\r\n|\r|\n/.exec(text)?.[0] ?? "\n";
    return EditorState.create({ doc: text, extensions: [EditorState.lineSeparator.of(ends), this.extensions] });
  }

  // Changes spans of lines in one or several files, as one step that can be taken back.
  change(changes) {
    const byFile = new Map();
    for (const one of changes) byFile.set(one.path, [...(byFile.get(one.path) ?? []), one]);
    for (const [path, several] of byFile) {
      const state = this.states.get(path);
      if (!state) return false;
      const specs = several.map(({ line, start, end, quote, new: text }) => {
        const begin = state.doc.line(line).from;
        return { from: begin + start - 1, to: begin + end - 1, insert: `${quote}${text}${quote}` };
      });
      this.set(path, state.update({ changes: specs, userEvent: "input.form" }));
    }
    this.trail.push([...byFile.keys()]);
    this.onChange();
    return true;
  }

  append(path, text) {
    const state = this.states.get(path);
    const lines = /\n$/.test(this.text(path)) || !this.text(path) ? text : `\n${text}`;
    this.set(path, state.update({ changes: { from: state.doc.length, insert: lines }, userEvent: "input.form" }));
    this.trail.push([path]);
    this.onChange();
  }

  insertAfter(path, line, text) {
    const state = this.states.get(path);
    this.set(path, state.update({ changes: { from: state.doc.line(line).to, insert: `\n${text}` }, userEvent: "input.form" }));
    this.trail.push([path]);
    this.onChange();
  }

  set(path, transaction) {
    this.states.set(path, transaction.state);
  }

  // What was typed on the text screen.
  typed(path, state) {
    this.states.set(path, state);
    const last = this.trail.at(-1);
    if (!last || last.length !== 1 || last[0] !== path) this.trail.push([path]);
    this.onChange();
  }

  get canUndo() {
    return this.changed.length > 0 && this.trail.length > 0;
  }

  undo() {
    const last = this.trail.at(-1);
    if (!last) return;
    let more = false;
    for (const path of last) {
      const before = this.states.get(path);
      undo({ state: before, dispatch: (step) => this.states.set(path, step.state) });
      more ||= undo({ state: this.states.get(path), dispatch: () => {} });
    }
    const earlier = this.trail.slice(0, -1).some((paths) => paths.some((path) => last.includes(path)));
    if (!more || earlier || last.length > 1) this.trail.pop();
    this.onChange();
  }
}
