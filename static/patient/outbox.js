// Every entry is on the phone's disk before the screen says so, and leaves only when the clinic confirmed its id.

import { transact } from "../shared/database.js";
import { uuid7 } from "../shared/ids.js";
import { LIMIT_MS, isTimeout, timed } from "../shared/requests.js";
import { inTurn } from "../shared/turns.js";

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

  // Keeps an entry; resolves with it. `alongside(facts, keep, event)` may read and change facts in the same transaction,
  // and calls `keep` for the entry to be kept; if it throws, nothing is.
  async add(kind, operation, by, body, { at = new Date(), corrects = null, alongside = (_facts, keep, _event) => keep() } = {}) {
    const event = eventOf(kind, operation, by, body, at, corrects);
    const entry = await transact(this.#database, ["entries", "facts"], "readwrite", ({ entries, facts }, give) => {
      facts.get("sequence").onsuccess = (read) => {
        event.sequence = (read.target.result ?? 0) + 1;
        alongside(facts, () => {
          const saved = { id: event.id, event, state: "saved", reason: null };
          facts.put(event.sequence, "sequence");
          entries.add(saved);
          give(saved);
        }, event);
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
  // Resolves with "sent", "unreachable", "locked" or "unknown".
  async flush() {
    clearTimeout(this.#timer);
    let outcome;
    do outcome = await inTurn("followup-outbox", () => this.#sendSome());
    while (outcome === "more");
    const stalled = outcome === "stalled";
    if (stalled) outcome = "unreachable";
    if (outcome === "unreachable") this.#tryLater(stalled, (await this.#waiting()).some(isUrgent));
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

  // Checks come first, in the order entered; then the rest.
  async #waiting() {
    const saved = (await this.all()).filter((entry) => entry.state === "saved");
    return saved.sort((a, b) => Number(isUrgent(b)) - Number(isUrgent(a)));
  }

  // One request: nobody holds the turn for longer than its limit.
  async #sendSome() {
    const waiting = (await this.#waiting()).slice(0, BATCH);
    if (waiting.length === 0) return "sent";
    const answer = await this.#send(waiting.map((entry) => entry.event));
    if (typeof answer === "string") return answer;
    const known = answer.results.filter((result) => waiting.some((entry) => entry.id === result.id));
    await this.#settle(known);
    await this.sendAgain(answer.generation);
    return known.length > 0 ? "more" : "unreachable";
  }

  // After the clinic put back an older copy of its records (another generation), what it had received may be gone: all
  // that is still here waits again. The same id twice changes nothing. Resolves with how many.
  sendAgain(generation) {
    return transact(this.#database, ["entries", "facts"], "readwrite", ({ entries, facts }, give) => {
      let again = 0;
      give(again);
      facts.get("generation").onsuccess = ({ target: { result: known = "" } }) => {
        if (typeof generation !== "string" || generation === known) return;
        facts.put(generation, "generation");
        entries.openCursor().onsuccess = ({ target: { result: cursor } }) => {
          if (!cursor) return;
          if (cursor.value.state === "received") {
            cursor.update({ ...cursor.value, state: "saved" });
            give(++again);
          }
          cursor.continue();
        };
      };
    });
  }

  async #send(events) {
    try {
      const answer = await timed(`/api/v1/events?language=${LANGUAGE}`, await request({ sent_at: new Date().toISOString(), events }));
      if (answer.status === 401) return (await answer.json()).locked ? "locked" : "unknown";
      if (!answer.ok) return "unreachable";
      return await answer.json();
    } catch (error) {
      return isTimeout(error) ? "stalled" : "unreachable";
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

  // The pause grows with each failure, for a check only a little; a check that met a stalled line goes again at once.
  #tryLater(stalled, urgent) {
    const longest = urgent ? LIMIT_MS : LONGEST_WAIT_MS;
    const jitter = 0.5 + Math.random();
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.flush(), stalled && urgent ? 0 : Math.min(longest, this.#wait) * jitter);
    this.#wait = Math.min(longest, this.#wait * 2);
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

// An event as phones make it; its `sequence` is given where it is kept.
export function eventOf(kind, operation, by, body, at = new Date(), corrects = null) {
  return { id: uuid7(), operation, kind, at: at.toISOString(), offset_minutes: -at.getTimezoneOffset(), by, corrects, body };
}

function isUrgent(entry) {
  return entry.event.kind === "symptoms";
}

async function request(content) {
  const text = JSON.stringify(content);
  const headers = { "Content-Type": "application/json" };
  if (text.length < GZIP_FROM_BYTES || typeof CompressionStream === "undefined") return { method: "POST", headers, body: text };
  const packed = new Blob([text]).stream().pipeThrough(new CompressionStream("gzip"));
  return { method: "POST", headers: { ...headers, "Content-Encoding": "gzip" }, body: await new Response(packed).arrayBuffer() };
}
