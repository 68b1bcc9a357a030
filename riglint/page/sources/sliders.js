// The values that people choose at the tree: change one and see at once. The range that passes is drawn when asked for:
// it takes some hundred audits, so a second worker finds it and the answer does not wait.
import { button, h } from "./dom.js";
import { Engine } from "./engine.js";

const READ = /^\s*(\d+(?:\.\d+)?)\s*([^\d±]*?)\s*(±.*)?$/;

export function sliders(page, file) {
  const found = file.choices.map((one) => [one, READ.exec(one.value)]).filter(([, read]) => read && Number(read[1]) > 0);
  if (!found.length) return null;
  const ranges = page.held.ranges?.of === page.library.text(page.rig) ? page.held.ranges.found : null;
  return h("section", { class: "choose" }, h("h2", {}, "Change and see"),
    found.map(([one, read]) => slider(page, one, Number(read[1]), read[2].trim(), passing(ranges, one))),
    ranges ? h("p", { class: "quiet" }, "The band is the range in which no rule says more than today, all other values as they are.")
      : button(page.held.finding ? "Finding the ranges …" : "Show the range that passes", () => find(page), { disabled: Boolean(page.held.finding) }));
}

function slider(page, one, now, unit, range) {
  const { least, most, step } = scale(now, unit);
  const { name } = one;
  const shown = h("output", { class: "big" }, one.value);
  const field = h("input", {
    type: "range", min: least, max: most, step, "aria-label": name, "aria-valuetext": one.value,
    oninput: () => { shown.textContent = written(field.value, unit); field.setAttribute("aria-valuetext", shown.textContent); },
    onchange: () => page.library.change([{ ...one, path: page.rig, new: written(field.value, unit) }]),
  });
  field.value = now;
  const move = (by) => { field.value = Number(field.value) + by * step; field.dispatchEvent(new Event("input")); field.dispatchEvent(new Event("change")); };
  return h("div", { class: "slider" },
    h("p", {}, h("span", {}, name), shown),
    h("div", { class: "row" },
      button("−", () => move(-1), { "aria-label": `Less ${name}` }),
      h("div", { class: "track" }, band(range, least, most), field),
      button("+", () => move(1), { "aria-label": `More ${name}` })),
    range ? h("p", { class: "quiet" }, range.words) : null);
}

const written = (value, unit) => `${Number(Number(value).toPrecision(6))}${unit ? ` ${unit}` : ""}`;

function scale(now, unit) {
  if (!unit) return { least: 1, most: Math.max(6, now), step: 1 };
  const step = 10 ** Math.floor(Math.log10(now / 10));
  return { least: Number(step.toPrecision(1)), most: Number((now * 2.5).toPrecision(2)), step: Number(step.toPrecision(1)) };
}

function band(range, least, most) {
  if (!range?.low) return null;
  const part = (value) => Math.min(100, Math.max(0, ((value - least) / (most - least)) * 100));
  const drawn = h("i", { class: "band" });
  drawn.style.left = `${part(range.low)}%`;
  drawn.style.width = `${part(range.high) - part(range.low)}%`;
  return drawn;
}

function passing(ranges, one) {
  const range = ranges?.ranges.find((each) => each.keys.includes(one.key));
  if (!range) return null;
  if (!range.lower) return { words: "Some rule stops it at every value that was tried, while the others stay." };
  const [low, high] = [range.lower, range.upper].map((end) => Number(READ.exec(end.last)?.[1]));
  const stop = range.upper.beyond ?? range.lower.beyond;
  const ends = `${range.lower.last}${range.lower.beyond ? "" : " (not tried below)"} to ${range.upper.last}${range.upper.beyond ? "" : " (not tried above)"}`;
  return { low, high, words: `No rule stops it from ${ends}.${stop ? ` Beyond: ${stop.message}` : ""}` };
}

async function find(page) {
  const of = page.library.text(page.rig);
  const second = new Engine();
  page.held.finding = true;
  page.refresh("rig");
  const call = ["limits", page.rig, "--on", page.on, "--format", "json", ...(page.policy ? ["--policy", page.policy] : [])];
  const said = await second.call("command", { arguments: call }, page.library.files);
  second.close();
  page.held.finding = false;
  if (said.wrong || !said.out) page.tell(said.wrong || said.err);
  else page.held.ranges = { of, found: JSON.parse(said.out) };
  page.refresh("rig");
}
