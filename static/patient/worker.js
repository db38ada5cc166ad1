// Keeps the shell of the patient's pages, so that they open without a signal. KEPT is written in front of this by the server.

const PREFIX = "followup-shell-";
const CACHE = PREFIX + KEPT.version;

self.addEventListener("install", (event) => {
  const fresh = KEPT.assets.map((address) => new Request(address, { cache: "reload" }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(fresh)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
    await self.clients.claim();
  })());
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== location.origin) return;
  const isShell = event.request.mode === "navigate" && address.pathname === "/me/";
  if (isShell || KEPT.assets.includes(address.pathname)) {
    event.respondWith(fromCache(isShell ? "/me/" : address.pathname, event.request));
  }
});

async function fromCache(key, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(key)) ?? fetch(request);
}
