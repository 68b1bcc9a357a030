// Opening: files, a folder, a zip, pasted text, what is dragged here, and a link that holds a rig after its #.
import { button, choice, h, labelled } from "./dom.js";
import { fromLink } from "./linking.js";
import { drafts, forget, keeps, setKeeps } from "./keeping.js";

const MOST_BYTES = 20_000_000;
const TEXT = /\.(ya?ml|txt)$/i;
const STARTS = [["lowline", "low line"], ["longline", "long line"], ["highline", "highline"], ["slackrope", "rodeo line"]];

export function begin(page) {
  window.addEventListener("dragover", (event) => event.preventDefault());
  window.addEventListener("drop", (event) => {
    event.preventDefault();
    take(page, [...event.dataTransfer.files]);
  });
  window.addEventListener("hashchange", () => openLink(page));
  window.addEventListener("beforeunload", (event) => {
    if (page.library.changed.length && !keeps()) event.preventDefault();
  });
  fetch("library.json").then((got) => got.json()).then((shared) => {
    page.shared = shared;
    page.refresh("open");
  }).catch(() => {});
  openLink(page);
}

async function openLink(page) {
  if (!location.hash.startsWith("#rig=")) return;
  const { files, wrong } = await fromLink(location.hash.slice(5));
  if (wrong) return page.tell(wrong);
  history.replaceState(null, "", location.pathname + location.search);
  opened(page, files);
}

function opened(page, files, also = "") {
  const names = page.library.open(files);
  const rigs = Object.values(names).filter((name) => page.library.rigs.includes(name));
  page.tell(`${Object.keys(files).length === 1 ? "1 file is" : `${Object.keys(files).length} files are`} open. ${also}`.trim());
  if (rigs.length) page.choose(rigs[0]);
  else page.refresh("open");
}

// Reads what somebody chose; each file that cannot be taken is named.
export async function take(page, chosen) {
  const files = {}, left = [];
  let rules = 0, size = 0;
  for (const file of chosen) {
    const name = file.webkitRelativePath || file.name;
    size += file.size;
    rules += /\.py$/.test(name);
    if (size > MOST_BYTES) return page.tell("That is more than 20 MB. Open a smaller part of the library.");
    try {
      if (/\.zip$/i.test(name)) {
        const held = await page.engine.call("unpack", { archive: "/opened.zip" }, null, new Uint8Array(await file.arrayBuffer()));
        if (held.wrong) return page.tell(held.wrong);
        rules += held.rules;
        for (const [path, text] of Object.entries(held.files)) files[path] = Uint8Array.from(text, (one) => one.charCodeAt(0));
      } else if (TEXT.test(name) || /(^|\/)rig-library$/.test(name)) {
        files[name] = new Uint8Array(await file.arrayBuffer());
      } else if (!file.webkitRelativePath) {
        left.push(name);
      }
    } catch (error) {
      left.push(`${name} (${error.message})`);
    }
  }
  const also = [
    left.length ? `Not opened: ${left.slice(0, 5).join(", ")}. Rig files end in .yaml.` : "",
    rules ? "House rules are programs, and this page does not run them. Judge with them on the command line." : "",
  ].filter(Boolean).join(" ");
  if (!Object.keys(files).length) return page.tell(also || "There is no rig file in it. Rig files end in .yaml.");
  opened(page, files, also);
}

export function openScreen(page) {
  const { library } = page;
  const pick = (given) => h("input", { type: "file", ...given, onchange: (event) => take(page, [...event.target.files]) });
  const pasted = h("textarea", { rows: 5, spellcheck: "false", autocapitalize: "off" });
  return h("div", { class: "open" },
    h("h2", {}, "Open a rig"),
    labelled("Files or a zip", pick({ multiple: true, accept: ".yaml,.yml,.txt,.zip" })),
    labelled("A whole folder: rigs, spots and gear lists", pick({ webkitdirectory: true })),
    labelled("Or paste a rig here", pasted),
    button("Open what I pasted", () => (pasted.value.trim() ? opened(page, { "rig.yaml": pasted.value }) : page.tell("There is nothing pasted yet."))),
    h("p", { class: "quiet" }, "You can also drag files onto this page. Everything stays on this device: the page sends nothing anywhere."),
    shared(page),
    h("h2", {}, "Start one"),
    h("p", {}, button("Answer questions", () => page.show("ask"), { class: "strong" })),
    h("div", { class: "row wrap" }, STARTS.map(([kind, words]) => button(`Draft of a ${words}`, () => start(page, kind)))),
    library.names.length ? held(page) : null,
    h("h2", {}, "Keep on this device"),
    keeping(page));
}

async function start(page, kind) {
  const said = await page.engine.call("command", { arguments: ["draft", kind] });
  if (said.wrong || said.status) return page.tell(said.wrong || said.err);
  opened(page, { [`${kind}.yaml`]: said.out });
}

function shared(page) {
  const files = page.shared?.files ?? {};
  if (!Object.keys(files).length) return null;
  return h("section", {}, h("h2", {}, `From ${page.shared.name}`),
    button(`Open all ${Object.keys(files).length} files`, () => opened(page, files), { class: "strong" }));
}

function held(page) {
  const { library } = page;
  const policies = [["", "limits of the library"], ...library.of("policy").map((name) => [name, name])];
  return h("section", {}, h("h2", {}, "Open now"),
    h("ul", { class: "files" }, library.names.map((name) => h("li", {},
      h("span", {}, name, library.changed.includes(name) ? h("b", {}, " changed") : ""),
      library.rigs.includes(name) ? button("Show", () => page.choose(name), { "aria-label": `Show ${name}` })
        : button("Text", () => { page.text.choose(name); page.show("text"); }, { "aria-label": `Text of ${name}` })))),
    choice("Limits", policies, page.policy ?? "", (value) => { page.policy = value || null; page.audits.ask(); }),
    labelled("Day to judge by", h("input", { type: "date", value: page.on, onchange: (event) => { page.on = event.target.value || page.on; page.audits.ask(); } })));
}

function keeping(page) {
  const there = drafts();
  return h("div", {},
    h("label", { class: "tick" }, h("input", { type: "checkbox", checked: keeps(), onchange: (event) => { page.tell(setKeeps(page, event.target.checked)); page.refresh("open"); } }),
      "Keep my files in this browser. Without it they are gone when you close the page."),
    there ? h("div", { class: "row wrap" },
      button(`Open the ${Object.keys(there).length} kept files`, () => opened(page, there)),
      button("Forget the kept files", () => { page.tell(forget()); page.refresh("open"); })) : null);
}
