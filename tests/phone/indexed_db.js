// As much of IndexedDB as the phone's modules use, in memory: transactions that hold together, in order, each kept whole or
// not at all. And the web locks and timers that a page has.

export class Database {
  constructor(stores = {}) {
    this.stores = Object.fromEntries(["entries", "facts"].map((name) => [name, new Map(stores[name] ?? [])]));
    this.turn = Promise.resolve();
  }

  transaction(names) {
    const made = new Transaction(this, names);
    this.turn = this.turn.then(() => made.run());
    return made;
  }
}

class Transaction {
  constructor(database, names) {
    this.database = database;
    this.waiting = [];
    this.copies = Object.fromEntries(names.map((name) => [name, null]));
  }

  objectStore(name) {
    const ask = (work) => {
      const request = {};
      this.waiting.push([request, work]);
      return request;
    };
    const rows = () => (this.copies[name] ??= new Map(structuredClone([...this.database.stores[name]])));
    const keyOf = (value, key) => (name === "entries" ? value.id : key);
    return {
      get: (key) => ask(() => rows().get(key)),
      getAll: () => ask(() => [...rows().values()]),
      delete: (key) => ask(() => void rows().delete(key)),
      put: (value, key) => ask(() => void rows().set(keyOf(value, key), structuredClone(value))),
      add: (value, key) => ask(() => {
        if (rows().has(keyOf(value, key))) throw new Error("this key is there");
        rows().set(keyOf(value, key), structuredClone(value));
      }),
      openCursor: () => {
        const left = () => [...rows().keys()];
        const request = {};
        const step = (keys) => this.waiting.push([request, () => {
          const [key, ...others] = keys ?? left();
          if (key === undefined) return null;
          const update = (value) => void rows().set(key, structuredClone(value));
          return { value: rows().get(key), update, delete: () => rows().delete(key), continue: () => step(others) };
        }]);
        step(null);
        return request;
      },
    };
  }

  async run() {
    await null; // the handlers are set in the turn that asked for it
    try {
      while (this.waiting.length > 0) {
        const [request, work] = this.waiting.shift();
        request.result = work();
        request.onsuccess?.({ target: request });
        await null;
      }
    } catch (error) {
      this.error = error;
      this.onabort?.();
      return;
    }
    for (const [name, rows] of Object.entries(this.copies)) if (rows) this.database.stores[name] = rows;
    this.oncomplete?.();
  }
}

// A page: one at a time for each lock, no service worker, and timers that somebody lets run out.
export function page() {
  const turns = new Map();
  const timers = new Map();
  const request = (name, _options, work) => {
    const mine = (turns.get(name) ?? Promise.resolve()).then(work);
    turns.set(name, mine.catch(() => {}));
    return mine;
  };
  Object.defineProperty(globalThis, "navigator", { value: { locks: { request } }, configurable: true });
  globalThis.setTimeout = (work, after = 0) => {
    const id = timers.size + 1;
    timers.set(id, { work, after });
    return id;
  };
  globalThis.clearTimeout = (id) => timers.delete(id);
  return timers;
}
