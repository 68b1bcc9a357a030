// The questions of `riglint ask`, one screen each; what is answered is judged at once, and the last one gives the file.
import { button, choice, h, labelled } from "./dom.js";

export function askScreen(page) {
  const asked = (page.asked ??= { title: "", typed: [], lists: null, said: null });
  if (!asked.lists) return beginning(page, asked);
  if (!asked.said) return h("p", { "aria-busy": "true" }, "Looking for the next question …");
  if (asked.said.stop || asked.said.wrong) return h("div", {}, h("p", { role: "alert" }, asked.said.stop ?? asked.said.wrong), button("Begin again", () => { page.asked = null; page.draw(); }));
  return asked.said.rig ? done(page, asked) : question(page, asked);
}

function beginning(page, asked) {
  const title = h("input", { value: asked.title, placeholder: "Evening line in the park" });
  const chosen = new Set(page.library.of("shelf"));
  const lists = [...chosen].map((name) => h("label", { class: "tick" },
    h("input", { type: "checkbox", checked: true, onchange: (event) => (event.target.checked ? chosen.add(name) : chosen.delete(name)) }), name));
  return h("div", { class: "ask" }, h("h2", {}, "A rig by answering questions"),
    h("p", {}, "About twelve questions for a line on a ratchet, twenty for a highline. You can leave any value open; the audit then asks for it."),
    labelled("Name of the rig", title),
    lists.length ? h("fieldset", {}, h("legend", {}, "Choose pieces from"), lists) : h("p", { class: "quiet" }, "Open a gear list first to choose your pieces by name."),
    button("Begin", () => { asked.title = title.value.trim() || "My rig"; asked.lists = [...chosen]; next(page); }, { class: "strong wide" }));
}

async function next(page) {
  const { asked } = page;
  asked.said = null;
  page.refresh("ask");
  asked.said = await page.engine.call("question", { title: asked.title, typed: asked.typed, gear_lists: asked.lists, on: page.on }, page.library.files);
  if (asked.said.wrong_answer) asked.typed.pop();
  page.refresh("ask");
}

function question(page, asked) {
  const { question: one, place, asked: count, of, wrong_answer: wrong, moved } = asked.said;
  const groups = one.groups.length ? one.groups : [""];
  const filled = groups.map((group) => one.blanks.map((blank) => field(group, blank, one.ticks)));
  const answer = () => {
    const values = filled.map((fields) => fields.map((each) => each.value()));
    if (one.ticks) return one.blanks.filter((_, n) => values[0][n]).map((blank) => blank.words).join(", ") || "none";
    return values.map((group) => group.join(", ")).join("; ");
  };
  const more = one.any_number ? h("p", { class: "quiet" }, "Write more than one with , or ; between them.") : null;
  return h("form", { class: "ask", onsubmit: (event) => { event.preventDefault(); asked.typed.push(answer()); next(page); } },
    h("p", { class: "quiet" }, `Question ${place}`),
    h("progress", { max: of, value: count, "aria-label": "Questions answered" }),
    h("h2", {}, one.ask), h("p", {}, one.why),
    wrong ? h("p", { class: "open-box", role: "alert" }, wrong) : null,
    groups.map((group, n) => h("fieldset", {}, h("legend", {}, group || "Your answer"), filled[n].map((each) => each.element))),
    more,
    h("div", { class: "row wrap" },
      button("Back", () => { asked.typed.length ? asked.typed.pop() : (asked.lists = null); asked.lists ? next(page) : page.draw(); }),
      button("I don't know", () => { asked.typed.push(one.ticks ? "" : "?"); next(page); }),
      h("button", { type: "submit", class: "strong" }, "Next")),
    moved.length ? h("section", { role: "status" }, h("h3", {}, "What your last answer changed"), moved.map((sentence) => h("p", {}, sentence))) : null);
}

// One blank; `value` gives it as it would be typed.
function field(group, blank, ticks) {
  const words = blank.words || group;
  if (ticks) {
    const box = h("input", { type: "checkbox" });
    return { element: h("label", { class: "tick" }, box, words), value: () => box.checked };
  }
  if (blank.choices.length && blank.kind !== "quantity") {
    let chosen = blank.usual ?? (blank.kind === "gear" ? "?" : blank.choices[0]);
    const options = [...new Set([...(blank.usual ? [blank.usual] : []), ...blank.choices])].map((one) => [one, one]);
    if (blank.may_be_none) options.push(["-", "none"]);
    options.push(["?", "I don't know"]);
    return { element: choice(words, options, chosen, (value) => { chosen = value; }), value: () => chosen };
  }
  const box = h("input", { value: blank.usual ?? "", placeholder: blank.such_as, autocapitalize: "off" });
  return { element: labelled(words, box, blank.such_as ? `Such as ${blank.such_as}` : ""), value: () => box.value.trim() || "?" };
}

function done(page, asked) {
  return h("div", { class: "ask" }, h("h2", {}, "Your rig is written"),
    h("p", {}, `${asked.typed.length} answers made a file of ${asked.said.rig.split("\n").length - 1} lines.`),
    h("div", { class: "row wrap" },
      button("Open it", () => { const named = page.library.open({ "rig.yaml": asked.said.rig }); page.asked = null; page.choose(named["rig.yaml"]); }, { class: "strong" }),
      button("Back", () => { asked.typed.pop(); next(page); })));
}
