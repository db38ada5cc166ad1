// What the service workers of the phone and of clinic devices do in the same way.

import { keep } from "./requests.js";

const AT_ONCE = 3;
const ICON = "/static/icons/icon-192.png";

// A worker whose caches begin with `prefix`: it keeps what `keepAll(cache)` keeps, lets go of earlier versions once it is in
// charge, sends what waits in `outbox()` when that asked for it by its `turn`, shows pushes and opens the page of one that is
// pressed. Gives what opens its cache.
export function startWorker(worker, version, { prefix, keepAll, turn, outbox, begin = async () => {} }) {
  const current = prefix + version;
  const open = () => caches.open(current);

  worker.addEventListener("install", (event) => event.waitUntil(open().then(keepAll)));

  worker.addEventListener("activate", (event) => {
    event.waitUntil((async () => {
      const names = await caches.keys();
      await Promise.all(names.filter((name) => name.startsWith(prefix) && name !== current).map((name) => caches.delete(name)));
      await worker.clients.claim();
    })());
    begin().catch(() => {}); // pages open only once this event is over: they do not wait for a database that is busy
  });

  worker.addEventListener("sync", (event) => {
    if (event.tag === turn) event.waitUntil(sendWaiting(outbox));
  });

  worker.addEventListener("push", (event) => {
    const { title, words, path, language } = event.data.json();
    const shown = { body: words, lang: language, dir: "auto", icon: ICON, badge: ICON, tag: title, data: { path } };
    event.waitUntil(worker.registration.showNotification(title, shown));
  });

  worker.addEventListener("notificationclick", (event) => {
    event.notification.close();
    event.waitUntil(goTo(worker, event.notification.data.path));
  });
  return open;
}

async function goTo(worker, path) {
  const pages = await worker.clients.matchAll({ type: "window", includeUncontrolled: true });
  const here = pages.find((page) => new URL(page.url).pathname === path);
  return here ? here.focus() : worker.clients.openWindow(path);
}

// Every file that the server names, a few at once: on a line that stalls, pages need connections of their own.
export async function keepAssets(cache, { assets, hashes }) {
  const waiting = [...assets];
  const keepNext = async () => {
    for (let address = waiting.shift(); address; address = waiting.shift()) await keep(cache, address, hashes[address]);
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, keepNext));
  } finally {
    waiting.length = 0; // after one that could not be kept, none is asked for any more
  }
}

// What is kept for this address. A newer version lets go of the cache of this one while a page of this one may still load: then
// it is the newer one's, the first that is left. A search through all at once waits for one that is being filled.
export async function keptFor(cache, prefix, address) {
  let found = await cache.match(address);
  for (const name of found ? [] : await caches.keys()) {
    if (!found && name.startsWith(prefix)) found = await (await caches.open(name)).match(address);
  }
  return found;
}

// A request for something of our own that somebody only reads: its address; else nothing.
export function ownAddress({ method, url }) {
  const address = new URL(url);
  return method === "GET" && address.origin === location.origin ? address : null;
}

async function sendWaiting(outbox) {
  if ((await (await outbox()).flush()) === "unreachable") throw new Error("no answer yet"); // the browser wakes it again
}
