// Keeps the staff's page for work without a signal, sends what waits, and shows pushes.
// KEPT is written in front of this by the server.

import { currentSheet, openDeviceDatabase } from "/static/staff/device/day-key.js";
import { DeviceOutbox } from "/static/staff/device/outbox.js";
import { timed } from "/static/shared/requests.js";
import { keepAssets, ownAddress, startWorker } from "/static/shared/worker.js";

const SHELL = KEPT.assets[0];
const PATIENCE_MS = 6000;
const HURRIED = /^\/clinic\/($|eyes\/[^/]+\/visit$)/; // pages that nurses wait for in a basement

const kept = startWorker(self, KEPT.version, {
  prefix: "followup-clinic-",
  keepAll: (cache) => keepAssets(cache, KEPT).then(() => self.skipWaiting()),
  begin: async () => currentSheet(await openDeviceDatabase()),
  turn: "followup-clinic-entries",
  outbox: async () => new DeviceOutbox(await openDeviceDatabase()),
});

self.addEventListener("fetch", (event) => {
  const address = ownAddress(event.request);
  if (!address) return;
  if (event.request.mode === "navigate") event.respondWith(page(event.request, address.pathname));
  else if (KEPT.assets.includes(address.pathname)) event.respondWith(asset(event.request, address.pathname));
});

async function page(request, path) {
  // A page that somebody opens is the browser's own request, with the browser's own patience.
  const network = fetch(request); // eslint-disable-line no-restricted-globals
  const tooSlow = new Promise((_, reject) => {
    if (HURRIED.test(path)) setTimeout(reject, PATIENCE_MS, new Error("too slow"));
  });
  try {
    return await Promise.race([network, tooSlow]);
  } catch {
    return (await (await kept()).match(SHELL)) ?? Response.error();
  }
}

// From the network while there is one, so that pages and their code are of one version.
async function asset(request, path) {
  try {
    return await timed(request, {}, PATIENCE_MS);
  } catch {
    return (await (await kept()).match(path)) ?? Response.error();
  }
}
