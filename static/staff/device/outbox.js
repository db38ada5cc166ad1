// Entries made without a signal. Each is sealed for the clinic before it is kept, so it can be sent by whoever opens
// this device next, and read by nobody on it. A copy under the day's key lets its author look at it until the day ends.

import { readFact, transact } from "../../shared/database.js";
import { eventOf } from "../../shared/events.js";
import { Outbox } from "../../shared/outbox.js";
import { sealed } from "../../shared/seal.js";

export class DeviceOutbox extends Outbox {
  #database;

  constructor(database, onChange) {
    const way = {
      turn: "followup-clinic-entries",
      scope: "/clinic/",
      batch: 20,
      request: (entries) => ({ address: "/api/v1/clinic/entries", content: { sealed: entries.map(({ packet }) => packet) } }),
      results: (answer, entries) => outcomes(database, answer, entries),
      settle: keepForAuthor,
      isUrgent: () => false,
    };
    super(database, way, onChange);
    this.#database = database;
  }

  // `facts` are {kind, body} of one eye; all of them are kept together or not at all. Resolves with the entry's id.
  async add({ operation, facts, about, authorPass, sealingKey }, at = new Date()) {
    const { key, sequence, receipt } = await this.#begun(facts.length);
    const events = facts.map(({ kind, body }, n) => eventOf(kind, operation, body, { at, sequence: sequence + n, receipt }));
    const packet = await sealed({ author_pass: authorPass, events }, sealingKey);
    const copy = key && (await sealed({ about, operation, at: at.toISOString(), facts }, key.publicKey));
    const entry = { id: events[0].id, sequence, state: "saved", packet };
    return this.keep(({ entries, facts: kept }, give) => {
      kept.get("day-key").onsuccess = ({ target: { result: now } }) => {
        entries.add(copy && now?.publicKey === key.publicKey ? { ...entry, copy } : entry); // the day may have ended meanwhile
        give(entry.id);
      };
    });
  }

  // The day's key, the first of so many numbers, and when this device last heard the clinic.
  #begun(count) {
    return transact(this.#database, ["facts"], "readwrite", ({ facts }, give) => {
      const found = {};
      give(found);
      facts.get("day-key").onsuccess = (read) => { found.key = read.target.result; };
      facts.get("clock").onsuccess = (read) => { found.receipt = read.target.result; };
      facts.get("sequence").onsuccess = (read) => {
        found.sequence = (read.target.result ?? 0) + 1;
        facts.put(found.sequence + count - 1, "sequence");
      };
    });
  }
}

// What became of each packet, in the order sent; nothing of one that the answer says nothing about. It is sealed as the copy
// is: a reason may quote what was typed.
async function outcomes(database, { packets }, entries) {
  if (packets.length !== entries.length) throw new Error("another number of answers than of packets");
  const key = await readFact(database, "day-key");
  const told = await Promise.all(packets.map(async ({ error, results, raised = [], differing = [] }, n) => {
    const { id } = entries[n];
    if (!error && !results.some((result) => result.id === id)) return null;
    const refused = error ?? results.find(({ status }) => status === "refused")?.reason ?? null;
    const outcome = key && (await sealed({ refused, raised, differing }, key.publicKey));
    return { id, state: refused ? "refused" : "received", outcome };
  }));
  return told.filter(Boolean);
}

// With the copy goes the author's day (`forgetDay`): after that nobody here looks at what became of it.
function keepForAuthor(store, entry) {
  if (entry.copy) store.put(entry);
  else store.delete(entry.id);
}
