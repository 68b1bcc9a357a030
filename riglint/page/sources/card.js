// The card: what to tick at the tree, who did it, and the checks as lines of the file. The printed card is the one that
// the command line writes.
import { button, download, h, labelled, sign } from "./dom.js";

export function cardScreen(page) {
  if (!page.rig) return h("div", {}, h("h2", {}, "No rig is open"), button("Open a rig", () => page.show("open"), { class: "strong" }));
  const { held } = page;
  const text = JSON.stringify([page.rig, page.on, page.policy, page.library.files]);
  if (held.card?.of !== text) {
    load(page, text);
    return h("p", { "aria-busy": "true" }, "Writing the card …");
  }
  if (!held.card.data) return h("div", {}, h("h2", {}, "There is no card yet"), h("p", {}, held.card.wrong));
  held.ticked ??= new Map();
  const card = held.card.data;
  return h("div", { class: "card" },
    h("p", { class: "quiet" }, `${card.spot}. Fingerprint ${card.fingerprint}.`),
    facts("The line", card.line), facts("Read the tension", card.reading),
    h("h2", {}, "Tick only what you have checked yourself"),
    card.work.map(({ step, ticks }) => h("fieldset", {}, h("legend", {}, step), ticks.map((one) => tick(page, `${step}: ${one.words}`, one.words, one.second_person)))),
    forTheFile(page, card),
    card.stop?.length ? h("section", {}, h("h2", {}, "Stop when"), list(card.stop)) : null,
    h("h2", {}, "Paper"),
    h("div", { class: "row wrap" },
      button("Print the card (A4)", () => printCard(page), { class: "strong" }),
      button("Save the card as a page", () => download("card.html", held.card.html, "text/html"))),
    h("iframe", { class: "paper", title: "The card as it prints", sandbox: "allow-same-origin allow-modals", srcdoc: held.card.html.replace(/<script>[^]*?<\/script>/, "") }),
    h("p", { class: "caution-text" }, card.caution));
}

async function load(page, of) {
  const call = (form) => page.engine.call("command", { arguments: ["card", page.rig, "--on", page.on, "--format", form, ...(page.policy ? ["--policy", page.policy] : [])] }, page.library.files);
  const [data, html] = [await call("json"), await call("html")];
  page.held.card = { of, data: data.out ? JSON.parse(data.out) : null, html: html.out ?? "", wrong: data.wrong || data.err };
  page.refresh("card");
}

function facts(words, several) {
  return several?.length ? h("section", {}, h("h2", {}, words),
    h("dl", {}, several.map(({ label, text }) => [h("dt", {}, label), h("dd", {}, text)]))) : null;
}

const list = (several) => h("ul", {}, several.map((one) => h("li", {}, typeof one === "string" ? one : one.text ?? one.words)));

function tick(page, key, words, second) {
  const { ticked } = page.held;
  return h("label", { class: "tick" },
    h("input", { type: "checkbox", checked: ticked.has(key), onchange: (event) => (event.target.checked ? ticked.set(key, true) : ticked.delete(key)) }),
    h("span", {}, words, second ? h("b", {}, " Second person.") : ""));
}

// The checks that the file itself waits for, each under the name that the rules know.
function forTheFile(page, card) {
  const checks = (page.file?.checks ?? []).filter((one) => /[.[]/.test(one.at.key));
  if (!checks.length) return null;
  const by = h("input", { value: page.held.by ?? "", placeholder: "rigger", oninput: (event) => { page.held.by = event.target.value; } });
  const tension = h("input", { value: page.held.at ?? "", placeholder: `${card.figures.standing_kN ?? 3} kN`, oninput: (event) => { page.held.at = event.target.value; } });
  return h("section", {}, h("h2", {}, "Checks that the file keeps"),
    checks.map((one) => tick(page, one.at.key, h("span", {}, sign(one.signal, one.signal, one.kind), ` ${one.do}`))),
    labelled("Checked by (role)", by, "A role, such as rigger or second person. No names."),
    labelled("Standing tension when you checked", tension),
    h("div", { class: "row wrap" },
      button("Write them into the file", () => sign_off(page, card, checks, (lines) => write(page, lines)), { class: "strong" }),
      button("Save them as a file", () => sign_off(page, card, checks, (lines) => download("checks.yaml", `checks:\n${lines}`)))));
}

function sign_off(page, card, checks, put) {
  const done = checks.filter((one) => page.held.ticked.has(one.at.key));
  if (!done.length) return page.tell("Tick at least one check of the file first.");
  if (!page.held.by?.trim()) return page.tell("Write who checked: a role, such as rigger.");
  const at = page.held.at?.trim();
  const said = (text) => JSON.stringify(text);
  const lines = done.flatMap((one) => one.keys).map((key) => `  - {what: ${said(key)}, by: ${said(page.held.by.trim())}, date: ${page.on}${at ? `, after_tension: ${said(at)}` : ""}, fingerprint: ${said(card.fingerprint)}}\n`);
  put(lines.join(""));
  page.tell(done.length === 1 ? "1 check is written." : `${done.length} checks are written.`);
}

function write(page, lines) {
  const rows = page.library.text(page.rig).split(/\r\n|\r|\n/);
  const at = rows.findIndex((row) => /^checks:\s*(\[\])?\s*(#.*)?$/.test(row));
  if (at < 0) return page.library.append(page.rig, `checks:\n${lines}`);
  if (/\[\]/.test(rows[at])) {
    const start = rows[at].indexOf("[]") + 1;
    return page.library.change([{ path: page.rig, line: at + 1, start, end: start + 2, quote: "", new: `\n${lines.trimEnd()}` }]);
  }
  page.library.insertAfter(page.rig, at + 1, lines.trimEnd());
}

function printCard(page) {
  document.querySelector(".paper").contentWindow.print();
  page.tell("The browser prints the card, or saves it as PDF.");
}
