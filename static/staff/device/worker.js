// Keeps the staff's page for work without a signal, sends what waits, and shows pushes.
// KEPT is written in front of this by the server.

import { currentSheet, openDeviceDatabase } from "/static/staff/device/day-key.js";
import { DeviceOutbox } from "/static/staff/device/outbox.js";
import { timed } from "/static/shared/requests.js";
import { keepAssets, keptFor, ownAddress, startWorker } from "/static/shared/worker.js";

const PREFIX = "followup-clinic-";
const SHELL = KEPT.assets[0];
const PATIENCE_MS = 6000;
const LONGEST_MS = 60000;
const LOADING_MS = 10000;
let shellAt = -Infinity; // when a page last had to come from here
const HURRIED = /^\/clinic\/($|without-signal$|eyes\/[^/]+\/visit$)/; // pages that nurses wait for in a basement

const kept = startWorker(self, KEPT.version, {
  prefix: PREFIX,
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

// A request that nobody waits for any more is given up: a browser has six connections to a clinic, and pages that were
// opened on a line that stalls would hold them all, also when there is a signal again.
async function page(request, path) {
  const patience = new AbortController();
  const late = setTimeout(() => patience.abort(), HURRIED.test(path) ? PATIENCE_MS : LONGEST_MS);
  try {
    const answer = await fetch(request, { signal: patience.signal }); // eslint-disable-line no-restricted-globals -- a file may be long
    return isPage(answer) ? await whole(answer) : answer;
  } catch {
    shellAt = performance.now();
    return (await fromHere(SHELL)) ?? Response.error();
  } finally {
    clearTimeout(late);
  }
}

// From where its page came, so that pages and their code are of one version: from the network while there is one.
async function asset(request, path) {
  const withShell = performance.now() - shellAt < LOADING_MS && (await fromHere(path));
  if (withShell) return withShell;
  try {
    return await whole(await timed(request, {}, PATIENCE_MS));
  } catch {
    return (await fromHere(path)) ?? Response.error();
  }
}

const isPage = ({ headers }) => headers.get("Content-Type")?.startsWith("text/html");

// An answer that is all here, or else fails within the time of its request: a line may also stall after the head.
async function whole(answer) {
  if (!answer.body) return answer;
  const { status, statusText, headers } = answer;
  return new Response(await answer.blob(), { status, statusText, headers });
}

async function fromHere(path) {
  return keptFor(await kept(), PREFIX, path);
}
