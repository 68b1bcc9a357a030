// The page: which screen is shown, which rig, and what stands at the top.
import { Engine } from "./engine.js";
import { Library } from "./library.js";
import { Audits } from "./audits.js";
import { button, h, sign } from "./dom.js";
import { begin as beginOpening, openScreen, take } from "./opening.js";
import { rigScreen } from "./rig.js";
import { TextScreen } from "./text.js";
import { cardScreen } from "./card.js";
import { gaugeScreen } from "./gauge.js";
import { askScreen } from "./ask.js";
import { moreScreen } from "./more.js";
import { keepDrafts } from "./keeping.js";
import { keepOffline } from "./keeping_offline.js";

const SCREENS = [["open", "Open"], ["ask", "Ask"], ["rig", "Rig"], ["text", "Text"], ["card", "Card"], ["gauge", "Gauge"], ["more", "More"]];
const MADE = { open: openScreen, ask: askScreen, rig: rigScreen, card: cardScreen, gauge: gaugeScreen, more: moreScreen };

// What a button or field is called: whoever was there before a screen was drawn anew is there again after it.
const called = (one) => `${one.localName} ${one.getAttribute("aria-label") ?? one.labels?.[0]?.textContent ?? one.textContent}`;

class Page {
  constructor() {
    const now = new Date();
    this.on = new Date(now - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
    this.rig = "";
    this.policy = null;
    this.screen = "open";
    this.note = "";
    this.held = {}; // what a screen keeps while another is shown
    this.loading = { done: 0, words: "Loading" };
    this.engine = new Engine((done, words) => this.progress(done, words));
    this.library = new Library(() => this.changed());
    this.audits = new Audits(this.engine, this.library, this);
    this.text = new TextScreen(this);
    this.build();
  }

  build() {
    this.bar = h("div", { class: "loading", role: "progressbar", "aria-label": "Loading riglint", "aria-valuemin": "0", "aria-valuemax": "100" }, h("i"));
    this.said = h("p", { class: "note", role: "status" });
    this.top = h("header", { class: "top" });
    this.main = h("main", { id: "screen", tabindex: "-1" });
    this.ways = h("nav", { class: "ways", "aria-label": "Screens" },
      SCREENS.map(([name, words]) => button(words, () => this.show(name), { "data-screen": name })));
    document.getElementById("page").replaceChildren(this.bar, this.top, this.said, this.main, this.ways);
    this.show("open", false);
  }

  progress(done, words) {
    this.loading = { done, words };
    this.bar.hidden = done >= 1;
    this.bar.firstChild.style.width = `${done * 100}%`;
    this.bar.setAttribute("aria-valuenow", String(Math.round(done * 100)));
    this.heading();
    if (done >= 1) this.engine.call("about").then((about) => { this.about = about; this.refresh("more"); });
  }

  show(name, focus = true) {
    this.screen = name;
    for (const way of this.ways.children) {
      way.toggleAttribute("aria-current", way.dataset.screen === name);
      if (way.dataset.screen === name) way.setAttribute("aria-current", "page");
    }
    this.draw();
    window.scrollTo(0, 0);
    if (focus) this.main.focus({ preventScroll: true });
  }

  draw() {
    document.body.dataset.screen = this.screen;
    this.heading();
    const held = this.main.contains(document.activeElement) ? called(document.activeElement) : "";
    this.main.replaceChildren(this.screen === "text" ? this.text.element() : MADE[this.screen](this));
    if (held) [...this.main.querySelectorAll("button, input, select, textarea")].find((one) => called(one) === held)?.focus({ preventScroll: true });
  }

  refresh(...names) {
    if (names.includes(this.screen)) this.draw();
  }

  tell(sentence) {
    this.said.textContent = sentence;
  }

  choose(rig) {
    this.rig = this.text.name = rig;
    this.held = {};
    this.audits.found = null;
    this.audits.ask();
    this.show("rig");
  }

  changed() {
    if (!this.library.rigs.includes(this.rig)) this.rig = this.library.rigs[0] ?? "";
    keepDrafts(this);
    this.audits.ask();
  }

  working() {
    this.heading();
  }

  judged() {
    this.heading();
    this.text.mark();
    this.refresh("rig", "card");
    document.body.dataset.judged = String(Number(document.body.dataset.judged ?? 0) + 1);
  }

  // The file of the rig on the screen, as the last audit told it.
  get file() {
    return this.audits.found?.files?.find((one) => one.path === this.rig) ?? null;
  }

  heading() {
    const { found, fresh } = this.audits;
    const title = this.file?.title || this.rig || "riglint";
    const undo = button("Undo", () => this.library.undo(), { class: "small", disabled: !this.library.canUndo });
    this.top.replaceChildren(
      h("div", { class: "row" }, h("h1", {}, title), this.rig ? undo : null),
      this.rig ? this.answer(found, fresh) : h("p", { class: "quiet" }, this.engine.failed ? this.loading.words
        : this.loading.done < 1 ? `${this.loading.words} …` : "Open a rig file, or answer questions to write one."),
    );
  }

  answer(found, fresh) {
    // What the whole call comes to where something keeps rules from judging, else what this rig comes to.
    const { word, signal, sentence } = (found?.answer?.word === "NOT JUDGED" ? null : this.file?.answer) ?? found?.answer ?? {};
    if (found?.wrong) return h("div", { class: "answer danger" }, sign("NOT JUDGED", "DANGER"), h("p", {}, found.wrong));
    if (!word) return h("div", { class: "answer waiting", "aria-busy": "true" }, h("p", {}, `${this.loading.done < 1 ? this.loading.words : "Judging the rig"} …`));
    return h("div", { class: `answer ${(signal ?? "none").toLowerCase()}${fresh ? "" : " old"}`, "aria-live": "polite", "aria-busy": String(!fresh) },
      h("p", { class: "word" }, sign(word, signal), fresh ? null : h("b", {}, " before your last change; judging again …")),
      found.answer.top.map((one) => h("p", {}, h("b", {}, one))),
      h("p", { class: "sentence" }, sentence),
      found.answer.policy ? h("p", { class: "quiet" }, found.answer.policy) : null);
  }
}

const page = new Page();
window.riglint = { engine: page.engine, page, opening: { take } }; // what tests and scripts of yours may hold on to
beginOpening(page);
page.engine.call("about").then((about) => { if (!about.wrong) keepOffline(page); });
