// Every entry is on the phone's disk before the screen says so, and leaves only when the clinic confirmed its id.

import { transact } from "../shared/database.js";
import { uuid7 } from "../shared/ids.js";

const BATCH = 50;
const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 300000;
const KEPT_DAYS = 30;
const GZIP_FROM_BYTES = 2000;
const DAY_MS = 86400000;
const LANGUAGE = globalThis.document?.documentElement.lang ?? "";

export class Outbox {
  #database;
  #onChange;
  #wait = FIRST_WAIT_MS;
  #timer = null;

  constructor(database, onChange) {
    this.#database = database;
    this.#onChange = onChange;
  }

  // `alongside(facts, entry)` may change facts in the same transaction; if it throws, nothing is kept.
  async add(kind, operation, by, body, { at = new Date(), corrects = null, alongside = () => {} } = {}) {
    const event = {
      id: uuid7(), operation, kind, at: at.toISOString(), offset_minutes: -at.getTimezoneOffset(), by, corrects, body,
    };
    const entry = await transact(this.#database, ["entries", "facts"], "readwrite", ({ entries, facts }, give) => {
      facts.get("sequence").onsuccess = (read) => {
        event.sequence = (read.target.result ?? 0) + 1;
        facts.put(event.sequence, "sequence");
        const saved = { id: event.id, event, state: "saved", reason: null };
        alongside(facts, event);
        entries.add(saved);
        give(saved);
      };
    });
    this.#onChange();
    this.#wakeLater();
    this.flush();
    return entry;
  }

  all() {
    return transact(this.#database, ["entries"], "readonly", ({ entries }, give) => {
      entries.getAll().onsuccess = (event) => give(event.target.result.sort((a, b) => a.event.sequence - b.event.sequence));
    });
  }

  // Only one tab (or the worker) sends at a time; a second one waits its turn and finds nothing left.
  async flush() {
    clearTimeout(this.#timer);
    const outcome = await navigator.locks.request("followup-outbox", () => this.#sendAll());
    if (outcome === "unreachable") this.#tryLater();
    else this.#wait = FIRST_WAIT_MS;
    this.#onChange(outcome);
    return outcome;
  }

  // What the clinic confirmed long ago is in its records; the phone need not keep it.
  prune(now = Date.now()) {
    return transact(this.#database, ["entries"], "readwrite", ({ entries }) => {
      entries.openCursor().onsuccess = ({ target: { result: cursor } }) => {
        if (!cursor) return;
        const { state, event } = cursor.value;
        if (state === "received" && Date.parse(event.at) < now - KEPT_DAYS * DAY_MS) cursor.delete();
        cursor.continue();
      };
    });
  }

  async #sendAll() {
    for (;;) {
      const waiting = (await this.all()).filter((entry) => entry.state === "saved").slice(0, BATCH);
      if (waiting.length === 0) return "sent";
      const answer = await this.#send(waiting.map((entry) => entry.event));
      if (typeof answer === "string") return answer;
      const known = answer.filter((result) => waiting.some((entry) => entry.id === result.id));
      await this.#settle(known);
      if (known.length === 0) return "unreachable";
    }
  }

  async #send(events) {
    try {
      const answer = await fetch(`/api/v1/events?language=${LANGUAGE}`, await request({ sent_at: new Date().toISOString(), events }));
      if (answer.status === 401) return (await answer.json()).locked ? "locked" : "unknown";
      if (!answer.ok) return "unreachable";
      return (await answer.json()).results;
    } catch {
      return "unreachable";
    }
  }

  #settle(results) {
    return transact(this.#database, ["entries"], "readwrite", ({ entries }) => {
      for (const result of results) {
        entries.get(result.id).onsuccess = (read) => {
          const entry = read.target.result;
          if (entry) entries.put({ ...entry, state: result.status, reason: result.reason });
        };
      }
    });
  }

  #tryLater() {
    const jitter = 0.5 + Math.random();
    this.#timer = setTimeout(() => this.flush(), this.#wait * jitter);
    this.#wait = Math.min(LONGEST_WAIT_MS, this.#wait * 2);
  }

  // Where the browser has it, the worker sends once there is a signal, even with the page closed.
  async #wakeLater() {
    try {
      const registration = await navigator.serviceWorker?.getRegistration("/me/");
      await registration?.sync?.register("followup-outbox");
    } catch {
      // Not allowed here: the page sends on its own when it is open.
    }
  }
}

async function request(content) {
  const text = JSON.stringify(content);
  const headers = { "Content-Type": "application/json" };
  if (text.length < GZIP_FROM_BYTES || typeof CompressionStream === "undefined") return { method: "POST", headers, body: text };
  const packed = new Blob([text]).stream().pipeThrough(new CompressionStream("gzip"));
  return { method: "POST", headers: { ...headers, "Content-Encoding": "gzip" }, body: await new Response(packed).arrayBuffer() };
}
