// Boxes of the card that stay ticked on this device, are signed, and come out as lines for the rig file.
// Nothing is fetched or sent; without this script the boxes can still be ticked, and paper prints the same.
"use strict";
(() => {
  const card = document.querySelector("main");
  const by = (name) => document.getElementById(name);
  const boxes = [...document.querySelectorAll("input[data-box]")];
  const fields = ["role", "initials", "day", "tension", "unit"].map(by);
  const PREFIX = `riglint card ${card.dataset.rig} `;
  const PLACE = PREFIX + card.dataset.content;
  const ROLE = /^[A-Za-zÀ-ž][A-Za-z0-9À-ž ._-]{0,60}$/;
  const state = { ticked: [], signed: {}, fields: {} };

  const two = (number) => String(number).padStart(2, "0");
  const today = () => {
    const now = new Date();
    return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
  };
  const tell = (words) => { by("told").textContent = words; };

  // A browser may refuse to keep anything: in a private window, or for a file that was opened from a message.
  function kept() {
    try {
      return JSON.parse(localStorage.getItem(PLACE) ?? "null");
    } catch {
      return null;
    }
  }

  function keep() {
    try {
      localStorage.setItem(PLACE, JSON.stringify(state));
      return true;
    } catch {
      by("kept").textContent = "This browser keeps nothing. Save the lines before you close this page.";
      return false;
    }
  }

  function hasOthers() {
    try {
      return Object.keys(localStorage).some((key) => key.startsWith(PREFIX) && key !== PLACE);
    } catch {
      return false;
    }
  }

  function show() {
    for (const box of boxes) {
      box.checked = state.ticked.includes(box.dataset.box);
      const who = state.signed[box.dataset.box];
      const told = box.parentElement.querySelector(".who");
      if (told) told.textContent = who ? `${who.by}, ${who.day}${who.tension ? `, ${who.tension}` : ""}` : "";
    }
    const open = boxes.filter((one) => !one.checked).length;
    by("count").textContent = open ? `Still to tick on this card: ${open} of ${boxes.length}.` : `All ${boxes.length} boxes are ticked.`;
    const isSigned = Object.keys(state.signed).length > 0;
    by("export").disabled = !isSigned;
    document.querySelector(".last-look").classList.toggle("signed", isSigned); // then paper has it too
  }

  function tick(box) {
    const name = box.dataset.box;
    state.ticked = state.ticked.filter((one) => one !== name);
    if (box.checked) state.ticked.push(name);
    if (state.signed[name]) tell("You took the tick away, so its signature is gone too.");
    delete state.signed[name];
    by("lines").hidden = true;
    keep();
    show();
  }

  // Returns who signs and at which tension, or says what is missing and returns nothing.
  function signature() {
    const [role, initials, day, tension, unit] = fields.map((one) => one.value.trim());
    const name = `${role} ${initials}`;
    if (!role || !initials || !ROLE.test(name)) return tell("Type your role and your initials, such as rigger and ab.");
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day)) return tell("Choose the day.");
    const number = tension.replace(",", ".");
    if (tension && !(/^\d+(\.\d+)?$/.test(number) && Number(number) > 0)) return tell(`'${tension}' is no tension. Type a number such as 4.5.`);
    if (!tension && card.dataset.standing) return tell(`Type the tension you read. ${card.dataset.standing} is planned.`);
    return { by: name, day, tension: tension ? `${number} ${unit}` : "" };
  }

  function sign() {
    const open = boxes.filter((one) => one.dataset.names && one.checked && !state.signed[one.dataset.box]);
    if (!open.length) return tell("Tick what you have checked at full tension, then sign.");
    const signed = signature();
    if (!signed) return undefined;
    const others = boxes.filter((one) => !("second" in one.dataset));
    const ours = open.filter((one) => others.includes(one));
    for (const one of ours) state.signed[one.dataset.box] = signed;
    // Whoever signed any other box is no second person.
    const isSecond = !others.some((one) => state.signed[one.dataset.box]?.by === signed.by);
    const seconds = open.filter((one) => !ours.includes(one));
    if (isSecond) for (const one of seconds) state.signed[one.dataset.box] = signed;
    const count = ours.length + (isSecond ? seconds.length : 0);
    tell(`${signed.by} signed ${count === 1 ? "1 box" : `${count} boxes`}.${isSecond || !seconds.length ? "" : " A second person signs the boxes marked so, with their own role and initials."}`);
    by("lines").hidden = true;
    keep();
    show();
    return undefined;
  }

  function entry(name, { by: who, day, tension }, isLast) {
    const after = tension ? `, after_tension: ${tension}` : "";
    const files = isLast ? `, fingerprint: ${card.dataset.files}` : "";
    return `  - {what: ${JSON.stringify(name)}, by: ${who}, date: ${day}${after}${files}}`;
  }

  function lines() {
    const signed = boxes.filter((one) => state.signed[one.dataset.box]);
    const checks = signed.flatMap((one) => JSON.parse(one.dataset.names).map((name) => [name, one]));
    const rows = checks.map(([name, one], n) => {
      const who = state.signed[one.dataset.box];
      return entry(name, "slack" in one.dataset ? { ...who, tension: "" } : who, n === checks.length - 1);
    });
    const open = boxes.filter((one) => !one.checked).length;
    return [
      `# Checks of ${card.dataset.rig}, signed on its card. Boxes of the card left open: ${open} of ${boxes.length}.`,
      "# Save as checks.yaml and enter it with: riglint tick RIG --checks checks.yaml",
      "checks:", ...rows, "",
    ].join("\n");
  }

  function exported() {
    by("text").value = lines();
    by("lines").hidden = false;
    by("text").focus();
    by("text").select();
  }

  function copy() {
    by("text").select();
    const done = document.execCommand("copy"); // works in a file that no server sent
    tell(done ? "Copied." : "This browser copies nothing. Mark the lines and copy them by hand.");
  }

  function save() {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([lines()], { type: "text/yaml" }));
    link.download = "checks.yaml";
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
    tell("Saved as checks.yaml.");
  }

  function empty() {
    if (!confirm("Empty all boxes of this card and take the signatures away?")) return;
    Object.assign(state, { ticked: [], signed: {}, fields: {} });
    for (const one of fields) if (one.id !== "unit") one.value = "";
    by("day").value = today();
    by("lines").hidden = true;
    keep();
    show();
    tell("All boxes are empty.");
  }

  by("day").value = today();
  const old = kept();
  if (old) {
    Object.assign(state, old);
    for (const one of fields) one.value = state.fields[one.id] ?? one.value;
    by("kept").textContent = "This device kept your ticks.";
  } else if (hasOthers()) {
    by("kept").textContent = "The rig or its checklist has changed since this device kept ticks. All boxes start empty.";
  }
  for (const one of boxes) one.addEventListener("change", () => tick(one));
  for (const one of fields) {
    one.addEventListener("input", () => {
      state.fields[one.id] = one.value;
      keep();
    });
  }
  for (const [name, done] of Object.entries({ sign, export: exported, copy, save, empty })) by(name).addEventListener("click", done);
  by("pen").hidden = false;
  show();
})();
