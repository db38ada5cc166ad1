// Keeps the shell of the patient's pages, so that they open without a signal, and sends what waits once there is one.
// KEPT is written in front of this by the server.

import { openDatabase } from "/static/shared/database.js";
import { Outbox } from "/static/patient/outbox.js";
import { showPushes } from "/static/shared/push.js";
import { timed, toKeep } from "/static/shared/requests.js";

const PREFIX = "followup-shell-";
const CACHE = PREFIX + KEPT.version;
const CHOICE = "followup-language";

self.addEventListener("install", (event) => {
  const fresh = KEPT.assets.map(toKeep);
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
  if (event.request.mode === "navigate" && address.pathname === "/me/") event.respondWith(shell(address, event.request));
  else if (KEPT.assets.includes(address.pathname)) event.respondWith(fromCache(address.pathname, event.request));
});

showPushes(self, { icon: "/static/icons/icon-192.png" });

self.addEventListener("sync", (event) => {
  if (event.tag === "followup-outbox") event.waitUntil(sendWaiting());
});

// The shell in the language of the address, else in the one last chosen on this phone.
async function shell(address, request) {
  const chosen = address.searchParams.get("language");
  if (chosen) await remember(chosen);
  const language = chosen ?? (await remembered());
  return fromCache(language ? `/me/?language=${language}` : KEPT.assets[0], request);
}

async function remember(language) {
  const cache = await caches.open(CHOICE);
  await cache.put("/me/language", new Response(language));
}

async function remembered() {
  const found = await (await caches.open(CHOICE)).match("/me/language");
  return found?.text();
}

async function fromCache(key, request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(key)) ?? timed(request.url);
}

async function sendWaiting() {
  const outcome = await new Outbox(await openDatabase(), () => {}).flush();
  if (outcome === "unreachable") throw new Error("no answer yet");
}
