// Keeps the shell of the patient's pages, so that they open without a signal, and sends what waits once there is one.
// KEPT is written in front of this by the server.

import { openDatabase } from "/static/shared/database.js";
import { PhoneOutbox } from "/static/patient/outbox.js";
import { keep, timed } from "/static/shared/requests.js";
import { keepAssets, ownAddress, startWorker } from "/static/shared/worker.js";

const CHOICE = "followup-language";
const LATER = "/me/later";

const kept = startWorker(self, KEPT.version, {
  prefix: "followup-shell-",
  keepAll,
  turn: "followup-outbox",
  outbox: async () => new PhoneOutbox(await openDatabase(), undefined, await remembered().catch(() => undefined)),
});

self.addEventListener("message", (event) => {
  if (event.data === "take over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const address = ownAddress(event.request);
  if (!address) return;
  if (event.request.mode === "navigate" && address.pathname === "/me/") {
    event.respondWith(inLanguage("/me/", address));
    event.waitUntil(keepLater().catch(() => {})); // no visit but the first comes without a worker
  } else if (address.pathname === LATER) event.respondWith(inLanguage(LATER, address));
  else if ([...KEPT.assets, ...KEPT.later].includes(address.pathname)) event.respondWith(fromCache(address.pathname, event.request));
});

async function keepAll(cache) {
  const language = (await remembered()) ?? (await shownLanguage());
  const known = await caches.match(KEPT.later[0]); // an earlier version had them
  await Promise.all([keep(cache, inWords("/me/", language)), keepAssets(cache, KEPT)]);
  if (language) await remember(language);
  if (known) await keepLater();
}

// What is not needed at first sight: from the second visit on it is here without a signal.
async function keepLater() {
  const cache = await kept();
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
  const cache = await kept();
  const known = await cache.match(wanted);
  if (known) return known;
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
  const cache = await kept();
  const known = await cache.match(key);
  if (known) return known;
  const fresh = await timed(request.url);
  if (fresh.ok) await cache.put(key, fresh.clone());
  return fresh;
}
