// Keeps the page for flight mode: every file of this build, whole or not at all. A newer build waits until it is asked
// for, so that nothing changes in the middle of a rig.
const STORE = `riglint-page-${BUILD}`;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(STORE).then((store) => store.addAll([...FILES.filter((name) => name !== "index.html"), "./"].map(
      (name) => new Request(name, { cache: "no-cache" })))),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(
        names.filter((name) => name.startsWith("riglint-page-") && name !== STORE).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

function guarded(answer) {
  const headers = new Headers(answer.headers);
  headers.set("Content-Security-Policy", POLICY);
  return new Response(answer.body, { status: answer.status, statusText: answer.statusText, headers });
}

self.addEventListener("fetch", (event) => {
  const asked = new URL(event.request.url);
  if (event.request.method !== "GET" || asked.origin !== self.location.origin) return;
  const page = event.request.mode === "navigate";
  event.respondWith(
    caches.open(STORE)
      .then((store) => store.match(page ? "./" : event.request, { ignoreSearch: true }))
      .then((kept) => (kept ? guarded(kept) : fetch(event.request))),
  );
});
