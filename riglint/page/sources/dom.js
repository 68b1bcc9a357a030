// Elements, without markup: whatever somebody wrote becomes text and nothing else.
export function h(tag, given = {}, ...inside) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(given)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "value" || name === "checked" || name === "disabled" || name === "hidden") element[name] = value;
    else element.setAttribute(name, value === true ? "" : value);
  }
  element.append(...inside.flat(3).filter((one) => one !== null && one !== undefined && one !== false));
  return element;
}

export const button = (words, onclick, given = {}) => h("button", { type: "button", onclick, ...given }, words);

let fields = 0;
// A label and its field, tied together.
export function labelled(words, field, note = "") {
  field.id ||= `field${++fields}`;
  const about = note ? h("span", { class: "quiet", id: `${field.id}-note` }, note) : null;
  if (about) field.setAttribute("aria-describedby", about.id);
  return h("div", { class: "labelled" }, h("label", { for: field.id }, words), field, about);
}

export function choice(words, options, value, onchange) {
  const field = h("select", { onchange: (event) => onchange(event.target.value) },
    options.map(([key, told]) => h("option", { value: key }, told)));
  field.value = value;
  return labelled(words, field);
}

const ALERT = "M10 0 20 18H0Z M8.9 6 9.4 12h1.2L11.1 6Z M9 13.3h2v2H9Z";
const SVG = "http://www.w3.org/2000/svg";

// The panel of a signal word, in the colours of the standards; the word is always there.
export function sign(word, signal, kind = "fail") {
  const panel = h("span", { class: `sign ${(signal ?? "none").toLowerCase()}${kind === "review" ? " look" : ""}` });
  if (signal && signal !== "NOTICE") {
    const mark = document.createElementNS(SVG, "svg");
    mark.setAttribute("viewBox", "0 0 20 18");
    mark.setAttribute("aria-hidden", "true");
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("d", ALERT);
    path.setAttribute("fill", "currentColor");
    path.setAttribute("fill-rule", "evenodd");
    mark.append(path);
    panel.append(mark);
  }
  panel.append(word);
  return panel;
}

const DRAWN = new Set(["figure", "div", "figcaption", "b", "svg", "title", "desc", "g", "line", "polyline", "polygon",
  "path", "rect", "circle", "ellipse", "text", "tspan"]);
const LOOKS = new Set(["xmlns", "viewBox", "role", "aria-labelledby", "aria-label", "tabindex", "id", "class",
  "font-family", "font-size", "font-weight", "fill", "fill-rule", "fill-opacity", "stroke", "stroke-width",
  "stroke-dasharray", "stroke-linejoin", "stroke-linecap", "stroke-opacity", "opacity", "paint-order", "text-anchor",
  "transform", "points", "d", "x", "y", "x1", "x2", "y1", "y2", "cx", "cy", "r", "rx", "ry", "width", "height",
  "dominant-baseline", "marker-end", "dx", "dy"]);

// A drawing of the reports: built anew from the few elements that drawings are made of.
export function drawing(written) {
  if (!written) return null;
  const read = new DOMParser().parseFromString(written, "text/html");
  return copied(read.body.firstElementChild);
}

function copied(node) {
  if (node.nodeType === Node.TEXT_NODE) return document.createTextNode(node.data);
  if (node.nodeType !== Node.ELEMENT_NODE || !DRAWN.has(node.localName)) return null;
  const made = document.createElementNS(node.namespaceURI, node.localName);
  for (const { name, value } of node.attributes) if (LOOKS.has(name)) made.setAttribute(name, value);
  for (const child of node.childNodes) {
    const one = copied(child);
    if (one) made.append(one);
  }
  return made;
}

export function download(name, text, type = "application/yaml") {
  const link = h("a", { href: URL.createObjectURL(new Blob([text], { type })), download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10000);
}
