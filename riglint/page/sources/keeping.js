// Drafts on this device: only when somebody has asked for it, and with a sentence when the browser will not.
const NAME = "riglint drafts";

export function keeps() {
  try {
    return localStorage.getItem(NAME) !== null;
  } catch {
    return false;
  }
}

export function drafts() {
  try {
    const held = JSON.parse(localStorage.getItem(NAME) ?? "{}");
    return Object.keys(held).length ? held : null;
  } catch {
    return null;
  }
}

export function setKeeps(page, wanted) {
  return wanted ? keep(page) || "Your files are kept in this browser from now on." : forget();
}

export function forget() {
  try {
    localStorage.removeItem(NAME);
    return "Nothing is kept in this browser any more.";
  } catch (error) {
    return `The browser does not let the page forget (${error.message}).`;
  }
}

function keep(page) {
  try {
    const texts = Object.fromEntries([...page.library.states.keys()].map((name) => [name, page.library.text(name)]));
    localStorage.setItem(NAME, JSON.stringify(texts));
    return "";
  } catch (error) {
    return `Your files could not be kept in this browser (${error.name}). Save them with Save.`;
  }
}

export function keepDrafts(page) {
  if (!keeps() || !page.library.states.size) return;
  const wrong = keep(page);
  if (wrong) page.tell(wrong);
}
