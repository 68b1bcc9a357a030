// Keeps the page for flight mode once it has loaded. A newer build waits: it takes over when somebody asks for it.
export async function keepOffline(page) {
  if (!navigator.serviceWorker) return;
  try {
    const kept = await navigator.serviceWorker.register(new URL("offline.js", document.baseURI));
    const look = () => {
      if (!kept.waiting || !navigator.serviceWorker.controller) return;
      page.waiting = kept.waiting;
      page.refresh("more");
    };
    look();
    kept.addEventListener("updatefound", () => kept.installing?.addEventListener("statechange", look));
    await navigator.serviceWorker.ready;
    page.offline = true;
    page.refresh("more");
  } catch (error) {
    page.tell(`This page needs a network next time: the browser did not keep it (${error.message}).`);
  }
}

export function takeNewer(page) {
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
  page.waiting.postMessage("take over");
}
