// Keeps the staff's page for work without a signal, sends what waits, and shows pushes.
// KEPT is written in front of this by the server.

import { currentSheet, openDeviceDatabase } from "/static/staff/device/day-key.js";
import { SYNC_TAG, sendEntries } from "/static/staff/device/queue.js";
import { showPushes } from "/static/shared/push.js";
import { keep, timed } from "/static/shared/requests.js";

const PREFIX = "followup-clinic-";
const CACHE = PREFIX + KEPT.version;
const SHELL = KEPT.assets[0];
const PATIENCE_MS = 6000;
const HURRIED = /^\/clinic\/($|eyes\/[^/]+\/visit$)/; // pages that nurses wait for in a basement

self.addEventListener("install", (event) => {
  const all = (cache) => Promise.all(KEPT.assets.map((address) => keep(cache, address, KEPT.hashes[address])));
  event.waitUntil(caches.open(CACHE).then(all).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const names = await caches.keys();
    await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
    await self.clients.claim();
    await currentSheet(await openDeviceDatabase());
  })());
});

self.addEventListener("fetch", (event) => {
  const address = new URL(event.request.url);
  if (event.request.method !== "GET" || address.origin !== location.origin) return;
  if (event.request.mode === "navigate") event.respondWith(page(event.request, address.pathname));
  else if (KEPT.assets.includes(address.pathname)) event.respondWith(asset(event.request, address.pathname));
});

self.addEventListener("sync", (event) => {
  if (event.tag === SYNC_TAG) event.waitUntil(sendWaiting());
});

showPushes(self, { icon: "/static/icons/icon-192.png" });

async function page(request, path) {
  // A page that somebody opens is the browser's own request, with the browser's own patience.
  const network = fetch(request); // eslint-disable-line no-restricted-globals
  const tooSlow = new Promise((_, reject) => {
    if (HURRIED.test(path)) setTimeout(reject, PATIENCE_MS, new Error("too slow"));
  });
  try {
    return await Promise.race([network, tooSlow]);
  } catch {
    return (await (await caches.open(CACHE)).match(SHELL)) ?? Response.error();
  }
}

// From the network while there is one, so that pages and their code are of one version.
async function asset(request, path) {
  try {
    return await timed(request, {}, PATIENCE_MS);
  } catch {
    return (await (await caches.open(CACHE)).match(path)) ?? Response.error();
  }
}

async function sendWaiting() {
  if ((await sendEntries(await openDeviceDatabase())) === "unreachable") throw new Error("no answer yet");
}
