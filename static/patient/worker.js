// Keeps the shell of the patient's pages, so that they open without a signal, and sends what waits once there is one.
// KEPT is written in front of this by the server.

import { openDatabase } from "/static/shared/database.js";
import { Outbox } from "/static/patient/outbox.js";
import { showPushes } from "/static/shared/push.js";
import { keep, timed } from "/static/shared/requests.js";

const PREFIX = "followup-shell-";
const CACHE = PREFIX + KEPT.version;
const CHOICE = "followup-language";
const LATER = "/me/later";

self.addEventListener("install", (event) => event.waitUntil(keepAll()));

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
  if (event.request.mode === "navigate" && address.pathname === "/me/") {
    event.respondWith(inLanguage("/me/", address));
    event.waitUntil(keepLater().catch(() => {})); // no visit but the first comes without a worker
  } else if (address.pathname === LATER) event.respondWith(inLanguage(LATER, address));
  else if ([...KEPT.assets, ...KEPT.later].includes(address.pathname)) event.respondWith(fromCache(address.pathname, event.request));
});

showPushes(self, { icon: "/static/icons/icon-192.png" });

self.addEventListener("sync", (event) => {
  if (event.tag === "followup-outbox") event.waitUntil(sendWaiting());
});

async function keepAll() {
  const cache = await caches.open(CACHE);
  const language = (await remembered()) ?? (await shownLanguage());
  const known = await caches.match(KEPT.later[0]); // an earlier version had them
  await Promise.all([keep(cache, inWords("/me/", language)), ...KEPT.assets.map((address) => keep(cache, address, KEPT.hashes[address]))]);
  if (language) await remember(language);
  if (known) await keepLater();
}

// What is not needed at first sight: from the second visit on it is here without a signal.
async function keepLater() {
  const cache = await caches.open(CACHE);
  const wanted = [inWords(LATER, await remembered()), ...KEPT.later];
  for (const address of wanted) if (!(await cache.match(address))) await keep(cache, address, KEPT.hashes[address]);
}

// The language of the page that brought this worker.
async function shownLanguage() {
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  return pages.map((page) => new URL(page.url).searchParams.get("language")).find(Boolean);
}

const inWords = (path, language) => (language ? `${path}?language=${language}` : path);

// The shell, or what comes later, in the language of the address, else in the one last chosen on this phone; a language is
// kept once it was chosen.
async function inLanguage(path, address) {
  const chosen = address.searchParams.get("language");
  if (chosen) await remember(chosen);
  const wanted = inWords(path, chosen ?? (await remembered()));
  const cache = await caches.open(CACHE);
  const kept = await cache.match(wanted);
  if (kept) return kept;
  try {
    const fresh = await timed(wanted);
    if (fresh.ok) await cache.put(wanted, fresh.clone());
    return fresh;
  } catch (error) {
    const other = await cache.match(path, { ignoreSearch: true });
    if (other) return other;
    throw error;
  }
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
  const kept = await cache.match(key);
  if (kept) return kept;
  const fresh = await timed(request.url);
  if (fresh.ok) await cache.put(key, fresh.clone());
  return fresh;
}

async function sendWaiting() {
  const outcome = await new Outbox(await openDatabase(), () => {}).flush();
  if (outcome === "unreachable") throw new Error("no answer yet");
}
