// The phone's entries: numbered and kept in one transaction, the checks sent before the rest.

import { transact } from "../shared/database.js";
import { eventOf } from "../shared/events.js";
import { Outbox } from "../shared/outbox.js";

const KEPT_DAYS = 30;
const DAY_MS = 86400000;

// `language`: of what the clinic says of an entry that it could not take.
const wayIn = (language) => ({
  turn: "followup-outbox",
  scope: "/me/",
  batch: 50,
  request: (entries) => ({ address: `/api/v1/events?language=${language}`, content: { events: entries.map(({ event }) => event) } }),
  results: (answer, _entries) => answer.results.map(({ id, status, reason }) => ({ id, state: status, reason })),
  settle: (store, entry) => store.put(entry),
  isUrgent: ({ event }) => event.kind === "symptoms",
});

export class PhoneOutbox extends Outbox {
  #database;

  constructor(database, onChange, language = globalThis.document?.documentElement.lang) {
    super(database, wayIn(language ?? ""), onChange);
    this.#database = database;
  }

  // Keeps an entry; resolves with it. `alongside(facts, keep, event)` may read and change facts in the same transaction,
  // and calls `keep` for the entry to be kept; if it throws, nothing is.
  add(kind, operation, by, body, { at = new Date(), corrects = null, alongside = (_facts, keep, _event) => keep() } = {}) {
    return this.keep(({ entries, facts }, give) => {
      const found = {};
      facts.get("clock").onsuccess = (read) => { found.receipt = read.target.result; };
      facts.get("sequence").onsuccess = (read) => {
        const sequence = (read.target.result ?? 0) + 1;
        const event = eventOf(kind, operation, body, { at, sequence, receipt: found.receipt, by, corrects });
        alongside(facts, () => {
          const saved = { id: event.id, event, state: "saved", reason: null };
          facts.put(event.sequence, "sequence");
          entries.add(saved);
          give(saved);
        }, event);
      };
    });
  }

  // What the clinic could not take stays among the entries; it leaves the first screen once it was seen there.
  refusedSeen() {
    return this.#eachEntry((cursor) => {
      if (cursor.value.state === "refused") cursor.update({ ...cursor.value, seen: true });
    });
  }

  // Somebody said how long these hours were.
  sure(id) {
    return this.#eachEntry((cursor) => {
      if (cursor.value.id === id) cursor.update({ ...cursor.value, unsure: false });
    });
  }

  // What the clinic confirmed long ago is in its records; the phone need not keep it. `now` is by the clinic's clock, and
  // so is when it was last heard before an entry: this phone's own may have been changed by the one or by the other.
  prune(now) {
    const isOld = (time) => time === undefined || Date.parse(time) < now - KEPT_DAYS * DAY_MS;
    return this.#eachEntry((cursor) => {
      const { state, event } = cursor.value;
      if (state === "received" && isOld(event.at) && isOld(event.heard?.clinic_at)) cursor.delete();
    });
  }

  #eachEntry(work) {
    return transact(this.#database, ["entries"], "readwrite", ({ entries }) => {
      entries.openCursor().onsuccess = ({ target: { result: cursor } }) => {
        if (!cursor) return;
        work(cursor);
        cursor.continue();
      };
    });
  }
}
