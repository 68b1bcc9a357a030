// The gauge: one reading becomes the standing tension. The stopwatch counts the returns of a tap.
import { button, choice, h, labelled } from "./dom.js";

const KINDS = [["pulse", "Pulse: tap the line and time its returns"], ["sag", "Sag under somebody at rest"], ["force", "Pull in the lead strand"]];
const HAND_S = 0.2; // of a hand on a stopwatch, start and stop together; common practice, no source

export function gaugeScreen(page) {
  if (!page.rig) return h("div", {}, h("h2", {}, "No rig is open"), button("Open a rig", () => page.show("open"), { class: "strong" }));
  const held = (page.held.gauge ??= { kind: "pulse", values: {} });
  return h("div", { class: "gauge" },
    choice("Reading", KINDS, held.kind, (kind) => { held.kind = kind; held.said = null; page.draw(); }),
    held.kind === "pulse" ? watch(page, held) : null,
    fields(page, held),
    button("Work out the tension", () => ask(page, held), { class: "strong wide" }),
    result(held));
}

function field(held, name, words, example, note = "") {
  return labelled(words, h("input", { value: held.values[name] ?? "", placeholder: example, autocapitalize: "off", oninput: (event) => { held.values[name] = event.target.value; } }), note);
}

function fields(page, held) {
  if (held.kind === "pulse") return h("div", {},
    field(held, "time", "Time of all returns", "7.9 s ± 0.2 s"),
    field(held, "returns", "Returns", "10"),
    field(held, "over", "Webbing between its fittings", "12.5 m", "Leave it empty to take the rig's own."));
  if (held.kind === "sag") return h("div", {},
    field(held, "sag", "Sag under the person", "0.8 m ± 0.05 m"),
    field(held, "under", "Mass of the person", "75 kg ± 1 kg", "Weighed, with clothes and shoes."),
    field(held, "at", "Place from the first anchor", "8 m", "Leave it empty for the middle."));
  return field(held, "pull", "Pull in the lead strand", "1.3 kN");
}

// One large button: the first tap starts, each further tap is a return, and the field has the whole time.
function watch(page, held) {
  const words = () => (held.began ? `${held.returns ?? 0} returns` : "Start at your tap");
  const big = button(words(), (event) => {
    const now = event.timeStamp / 1000;
    if (!held.began) {
      Object.assign(held, { began: now, returns: 0 });
    } else {
      held.returns += 1;
      held.values.time = `${(now - held.began).toFixed(2)} s ± ${HAND_S} s`;
      held.values.returns = String(held.returns);
    }
    big.textContent = words();
  }, { class: "watch" });
  const again = button("Take this time", () => { held.began = 0; page.draw(); });
  return h("section", {}, h("p", {}, "Start when you tap the line. Tap again each time the pulse comes back."), big, again);
}

async function ask(page, held) {
  const options = Object.entries(held.values).filter(([name, value]) => value.trim() && fits(held.kind, name));
  const call = ["gauge", page.rig, "--on", page.on, "--format", "json", ...options.map(([name, value]) => `--${name}=${value.trim()}`)];
  if (page.policy) call.push("--policy", page.policy);
  held.said = await page.engine.call("command", { arguments: call }, page.library.files);
  page.refresh("gauge");
}

const fits = (kind, name) => ({ pulse: ["time", "returns", "over"], sag: ["sag", "under", "at"], force: ["pull"] })[kind].includes(name);

function result(held) {
  if (!held.said) return null;
  if (!held.said.out) return h("div", { class: "answer danger", role: "alert" }, h("p", {}, held.said.wrong || held.said.err));
  const found = JSON.parse(held.said.out);
  const kilo = (value) => `${value.toFixed(2)} kN`;
  const word = found.plan?.verdict ?? "";
  return h("div", { class: `answer ${word === "fits" ? "none" : word === "may fit" ? "caution" : "danger"}`, role: "status" },
    h("p", { class: "huge" }, kilo(found.tension_kN)),
    h("p", {}, `between ${kilo(found.low_kN)} and ${kilo(found.high_kN)}`),
    found.plan ? h("p", { class: "sentence" }, `${word[0].toUpperCase()}${word.slice(1)} the plan of ${kilo(found.plan.tension_kN)}.`) : null,
    h("details", {}, h("summary", {}, "How it was worked out"), h("p", { class: "sum" }, `${found.formula} = ${found.working}`),
      found.notes.map((one) => h("p", { class: "quiet" }, one)), h("p", { class: "quiet" }, found.source.text)),
    h("p", { class: "caution-text" }, found.caution));
}
