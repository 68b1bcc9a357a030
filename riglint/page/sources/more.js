// What is needed less often: saving everything, a link, comparing with the file as opened, the calculation sheet.
import { button, download, h } from "./dom.js";
import { takeNewer } from "./keeping_offline.js";
import { toLink } from "./linking.js";

export function moreScreen(page) {
  const { held } = page;
  return h("div", { class: "more" },
    page.rig ? h("section", {}, h("h2", {}, "Take it with you"), h("div", { class: "row wrap" },
      button("Save this rig", () => download(page.rig.split("/").pop(), page.library.text(page.rig)), { class: "strong" }),
      button("Save the report", () => download("audit.json", page.audits.found?.report ?? "", "application/json")),
      button("Make a link", () => link(page))),
      held.link ? h("textarea", { readonly: true, rows: 4, "aria-label": "Link that holds the rig" }, held.link) : null) : null,
    page.rig ? h("section", {}, h("h2", {}, "Compare with the file as opened"),
      button("Compare", () => run(page, "compared"), { disabled: !page.library.changed.length }), h("pre", { tabindex: "0", "aria-label": "Comparison", hidden: !held.compared }, held.compared ?? "")) : null,
    page.rig ? h("section", {}, h("h2", {}, "Calculation sheet"), button("Show the sheet", () => run(page, "sheet")),
      held.sheet ? h("iframe", { class: "paper", title: "Calculation sheet", sandbox: "allow-same-origin allow-modals", srcdoc: held.sheet }) : null) : null,
    h("section", {}, h("h2", {}, "About this page"),
      h("p", {}, page.about ? `riglint ${page.about.version}, ${page.about.rules} rules, rulebook ${page.about.seal}.` : "Loading …"),
      h("p", {}, "It runs the same program as the command line, on this device. Nothing that you type leaves it."),
      h("p", {}, "House rules are programs, and this page does not run them. Judge with them on the command line."),
      h("p", {}, page.offline ? "This page is kept on the device: it opens without a network." : "This page is not kept on the device yet."),
      page.waiting ? h("p", {}, "A newer version is here. Save your files before you take it. ", button("Take the newer version", () => takeNewer(page))) : null,
      h("p", { class: "caution-text" }, page.about?.caution ?? "")));
}

async function link(page) {
  page.held.link = await toLink(page.library.files).catch((error) => `No link: ${error.message}`);
  page.draw();
}

async function run(page, what) {
  const policy = page.policy ? ["--policy", page.policy] : [];
  let files = page.library.files, call = ["sheet", page.rig, "--on", page.on, "--format", "html", ...policy];
  if (what === "compared") {
    const before = Object.fromEntries(Object.entries(page.library.opened).map(([name, text]) => [`as-opened/${name}`, text]));
    files = { ...files, ...before };
    call = ["compare", `as-opened/${page.rig}`, page.rig, "--on", page.on, ...policy];
  }
  const said = await page.engine.call("command", { arguments: call }, files);
  page.held[what] = said.out || said.wrong || said.err;
  page.refresh("more");
}
