// The rig: what was found and what to do, the line to scale, and the values that people choose.
import { button, choice, drawing, h, sign } from "./dom.js";
import { sliders } from "./sliders.js";

export function rigScreen(page) {
  if (!page.rig) return h("div", {}, h("h2", {}, "No rig is open"), button("Open a rig", () => page.show("open"), { class: "strong" }));
  const file = page.file;
  const { rigs } = page.library;
  const others = rigs.length > 1 ? choice("Rig", rigs.map((name) => [name, name]), page.rig, (name) => page.choose(name)) : null;
  if (!file) return h("div", {}, others, h("p", { class: "quiet" }, page.audits.found ? "" : "The first answer takes a few seconds."));
  return h("div", { class: "rig" }, h("p", { class: "next" }, h("b", { class: "whole" }, `${file.answer.sentence} `), h("b", {}, "Next: "), file.answer.next), others,
    h("div", { class: "both" },
      h("div", {}, part("The line", file.drawings.profile), sliders(page, file)),
      h("div", {},
        findings(page, "Put right", [...file.faults, ...file.shared]),
        file.not_judged.map((one) => h("p", { class: "open-box" }, h("b", {}, "Not judged: "), `${one.rules} rules, because ${one.because}.`)),
        findings(page, "Fill in", file.blanks),
        findings(page, "Look at on site", file.looks),
        file.checks.length ? h("section", {}, h("h2", {}, `Checks on site: ${file.checks.length}`),
          button("Tick them on the card", () => page.show("card"))) : null,
        findings(page, "Accepted", file.accepted))),
    file.stake.length ? h("dl", { class: "stake" }, file.stake.map(([label, told]) => [h("dt", {}, label), h("dd", {}, told)])) : null,
    h("div", { class: "both" }, part("Pulley system", file.drawings.haul),
      h("div", {}, file.drawings.chains.map((one, n) => part(n ? `Backup ${n}` : "Every part of the line", one)))),
    h("p", { class: "caution-text" }, page.about?.caution ?? ""),
    h("p", { class: "quiet" }, page.audits.found.answer.closing));
}

function part(words, drawn) {
  return drawn ? h("section", {}, h("h2", {}, words), drawing(drawn)) : null;
}

function findings(page, words, several) {
  if (!several.length) return null;
  return h("section", {}, h("h2", {}, `${words}: ${several.length}`), several.map((one) => finding(page, one)));
}

function finding(page, one) {
  const number = one.value === null ? null
    : h("p", { class: "number" }, told(one.value, one.unit), one.limit === null ? "" : h("span", {}, ` limit ${told(one.limit, one.unit)}`));
  const source = h("details", {}, h("summary", {}, "Where this comes from"),
    one.formula ? h("p", { class: "sum" }, one.formula) : null,
    one.inputs.map((input) => h("p", { class: "sum" }, `${input.name} ${input.symbol ?? ""} = ${input.value} ${input.unit}`)),
    h("p", { class: "quiet" }, `${one.source.text} (${one.source.mark}). Rule ${one.rule}.`));
  return h("article", { class: `finding ${one.signal.toLowerCase()}` },
    h("p", {}, sign(one.signal, one.signal, one.kind), one.kind === "open" ? h("b", {}, " not known") : one.kind === "review" ? h("b", {}, " look") : ""),
    h("h3", {}, one.message), number,
    h("p", {}, one.why),
    h("p", { class: "do" }, h("b", {}, "What to do: "), one.do),
    one.accepted ? h("p", {}, `${one.known ? "Known" : "Accepted"} until ${one.accepted.until}: ${one.accepted.reason}`) : null,
    h("div", { class: "row wrap" },
      one.ways.map((way) => remedy(page, way)),
      button(`Line ${one.at.line}`, () => { page.text.goTo(one.at); page.show("text"); }, { "aria-label": `Show line ${one.at.line} of ${one.at.path}` })),
    source);
}

// One tap: what it writes stands on the button.
function remedy(page, way) {
  const shown = way.changes.map((one) => `${one.old} → ${one.new}`).join(", ");
  return button([h("b", {}, `${way.words[0].toUpperCase()}${way.words.slice(1)}`), h("span", { class: "change" }, `in the file: ${shown}`)],
    () => { if (!page.library.change(way.changes)) page.tell("That file is not open here, so it was not changed."); },
    { class: "remedy", disabled: !page.audits.fresh });
}

function told(value, unit) {
  const figure = typeof value === "number" ? Number(value.toPrecision(3)) : value;
  return `${figure}${unit && unit !== "1" ? ` ${unit === "deg" ? "°" : unit}` : ""}`;
}
