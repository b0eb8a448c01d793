// Keeps the page usable without a network.
//
// No list of files is kept by hand: the page tells which files it has loaded, and those are
// stored. With a network the newest files win, so a stored part never meets a newer one.

const STORE = "axlewright-files";

self.addEventListener("install", () => self.skipWaiting());

self.addEventListener("activate", event => event.waitUntil(self.clients.claim()));

self.addEventListener("message", event => {
  if (!Array.isArray(event.data?.keep)) return;
  event.waitUntil(keep(event.data.keep).then(
    () => event.source.postMessage({ kept: true }),
    () => event.source.postMessage({ kept: false }),
  ));
});

self.addEventListener("fetch", event => {
  const { request } = event;
  const ours = new URL(request.url).origin === self.location.origin;
  if (request.method === "GET" && ours) event.respondWith(newestOrKept(request));
});

async function keep(addresses) {
  const store = await caches.open(STORE);
  await store.addAll(addresses);
  const wanted = new Set(addresses);
  for (const request of await store.keys()) {
    if (!wanted.has(request.url)) await store.delete(request);
  }
}

async function newestOrKept(request) {
  const store = await caches.open(STORE);
  try {
    const answer = await fetch(request);
    if (answer.ok && answer.status === 200) await store.put(request, answer.clone());
    return answer;
  } catch (failure) {
    const kept = await store.match(request, { ignoreSearch: true, ignoreVary: true });
    if (kept) return kept;
    throw failure;
  }
}
