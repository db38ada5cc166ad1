// Entries of a device: each is on its disk before the screen says so, and leaves only when the clinic confirmed its id. The
// patient's phone and the clinic's devices keep and send in this one way; where they differ, a `way` says how:
//
//   turn               the lock of its senders, and what wakes its worker
//   scope              the pages of that worker
//   batch              how many go at once
//   request(entries)   { address, content }
//   results(answer, entries)   what became of each: { id, state: "received" or "refused", and what the entry keeps of it }
//   settle(store, entry)       puts an entry with what became of it back
//   isUrgent(entry)    goes before the others, and is tried again soon

import { transact } from "./database.js";
import { LIMIT_MS, isTimeout, posted, timed, within } from "./requests.js";

const FIRST_WAIT_MS = 2000;
const LONGEST_WAIT_MS = 300000;
const UNFIT = [400, 413, 422]; // nothing of what was sent was looked at

export class Outbox {
  #database;
  #way;
  #onChange;
  #wait = FIRST_WAIT_MS;
  #timer = null;

  constructor(database, way, onChange = (_outcome) => {}) {
    this.#database = database;
    this.#way = way;
    this.#onChange = onChange;
  }

  // `work(stores, give)` keeps something in one transaction; what it gives comes back once that is on the disk, and is sent.
  async keep(work) {
    const kept = await transact(this.#database, ["entries", "facts"], "readwrite", work);
    this.#onChange();
    this.#wakeLater();
    this.flush();
    return kept;
  }

  // In the order in which they were made, whatever the clock showed.
  all() {
    return transact(this.#database, ["entries"], "readonly", ({ entries }, give) => {
      entries.getAll().onsuccess = (read) => give(read.target.result.sort((a, b) => numberOf(a) - numberOf(b) || a.id.localeCompare(b.id)));
    });
  }

  // What waits to be sent: the urgent first, in the order made; then the rest.
  async waiting() {
    const saved = (await this.all()).filter((entry) => entry.state === "saved");
    return saved.sort((a, b) => Number(this.#way.isUrgent(b)) - Number(this.#way.isUrgent(a)));
  }

  // Only one tab (or the worker) sends at a time; a second one waits its turn and finds nothing left.
  // Resolves with "sent", "unreachable", "locked" or "unknown".
  async flush() {
    clearTimeout(this.#timer);
    const round = { most: this.#way.batch, unfit: new Set() };
    let outcome;
    do outcome = await inTurn(this.#way.turn, () => this.#sendSome(round));
    while (outcome === "more");
    const stalled = outcome === "stalled";
    if (stalled) outcome = "unreachable";
    if (outcome === "unreachable") this.#tryLater(stalled, (await this.waiting()).some(this.#way.isUrgent));
    else this.#wait = FIRST_WAIT_MS;
    this.#onChange(outcome);
    return outcome;
  }

  // One request: nobody holds the turn for longer than its limit. What the clinic cannot take as a whole goes in smaller
  // parts, and one that it cannot take alone lets the others pass.
  async #sendSome(round) {
    const waiting = (await this.waiting()).filter(({ id }) => !round.unfit.has(id)).slice(0, round.most);
    if (waiting.length === 0) return round.unfit.size > 0 ? "unreachable" : "sent";
    const answer = await this.#ask(waiting);
    if (answer === "unfit" && waiting.length === 1) round.unfit.add(waiting[0].id);
    if (answer === "unfit") {
      round.most = Math.ceil(waiting.length / 2);
      return "more";
    }
    if (typeof answer === "string") return answer;
    await this.#settle(answer.known);
    await this.sendAgain(answer.generation);
    return answer.known.length > 0 ? "more" : "unreachable";
  }

  async #ask(waiting) {
    try {
      const { address, content } = this.#way.request(waiting);
      const answer = await timed(address, await posted({ sent_at: new Date().toISOString(), ...content }));
      if (answer.status === 401) return (await answer.json()).locked ? "locked" : "unknown";
      if (!answer.ok) return UNFIT.includes(answer.status) ? "unfit" : "unreachable";
      const told = await answer.json();
      const results = await this.#way.results(told, waiting);
      return { generation: told.generation, known: results.filter((result) => waiting.some((entry) => entry.id === result.id)) };
    } catch (error) {
      return isTimeout(error) ? "stalled" : "unreachable";
    }
  }

  #settle(results) {
    return transact(this.#database, ["entries"], "readwrite", ({ entries }) => {
      for (const result of results) {
        entries.get(result.id).onsuccess = (read) => {
          const entry = read.target.result;
          if (entry) this.#way.settle(entries, { ...entry, ...result });
        };
      }
    });
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

  // The pause grows with each failure, for what is urgent only a little; that goes again at once when a line stalled.
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
      const registration = await navigator.serviceWorker?.getRegistration(this.#way.scope);
      await registration?.sync?.register(this.#way.turn);
    } catch {
      // Not allowed here: pages send on their own when they are open.
    }
  }
}

// The number under which the device made an entry.
function numberOf({ sequence, event }) {
  return sequence ?? event?.sequence ?? 0;
}

// Runs `work` when nobody else does. Whoever has had its turn for longer than a request may take hangs, and loses it:
// what is sent twice changes nothing, what is never sent may hurt.
export function inTurn(name, work) {
  let running;
  const run = () => (running = work());
  const take = async (options) => {
    try {
      return await navigator.locks.request(name, options, run);
    } catch (error) {
      if (running) return running; // another took over meanwhile: what this one did stands
      if (isTimeout(error)) return take({ steal: true });
      throw error;
    }
  };
  return take({ signal: within(LIMIT_MS) });
}
