// What the device's worker has of an address. A newer version lets go of the cache of this one while a page of this one may still
// load: then it is the newer one's, the first that is left. A search through all at once waits for one that is being filled.

export async function keptFor(cache, prefix, address) {
  let found = await cache.match(address);
  for (const name of found ? [] : await caches.keys()) {
    if (!found && name.startsWith(prefix)) found = await (await caches.open(name)).match(address);
  }
  return found;
}
