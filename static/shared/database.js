// IndexedDB with promises. A write resolves only when its transaction is complete, on the disk.

const VERSION = 1;

// The patient's phone and a clinic device keep databases of their own, of the same shape.
export function openDatabase(name = "followup") {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(name, VERSION);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("entries", { keyPath: "id" });
      request.result.createObjectStore("facts");
    };
    request.onsuccess = () => {
      request.result.onversionchange = () => request.result.close();
      resolve(request.result);
    };
    request.onerror = () => reject(request.error);
  });
}

// Runs `work(stores)` in one transaction; resolves with its request's result once all is written.
export function transact(database, stores, mode, work) {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(stores, mode, { durability: "strict" });
    const open = Object.fromEntries(stores.map((name) => [name, transaction.objectStore(name)]));
    const outcome = {};
    transaction.oncomplete = () => resolve(outcome.value);
    transaction.onerror = () => reject(transaction.error);
    transaction.onabort = () => reject(transaction.error ?? new DOMException("aborted", "AbortError"));
    work(open, (value) => { outcome.value = value; });
  });
}

export function readFact(database, key) {
  return transact(database, ["facts"], "readonly", ({ facts }, give) => {
    facts.get(key).onsuccess = (event) => give(event.target.result);
  });
}

// Several facts as they stood at one moment, in the order asked.
export function readFacts(database, keys) {
  return transact(database, ["facts"], "readonly", ({ facts }, give) => {
    const found = [];
    give(found);
    for (const [n, key] of keys.entries()) facts.get(key).onsuccess = (event) => { found[n] = event.target.result; };
  });
}

export function writeFact(database, key, value) {
  return transact(database, ["facts"], "readwrite", ({ facts }) => { facts.put(value, key); });
}
