// Timers that run, each {operation, eye, position, start, ahead}: a timer belongs to the eye and position it was started for.
// `sure_at` is when the person last said that they still lie so; `on_break` one counts nothing and waits to go on; `ahead` is
// what was known of the clock at the start (`aheadOf`). Where nobody can tell how long it ran, it stays until the person says so.

import { SKEW_MS, aheadOf } from "../shared/clock.js";
import { transact } from "../shared/database.js";
import { minutesOf } from "./hours.js";
import { text } from "./texts.js";

const HOUR_MS = 3600000;

// Somebody may sleep, or have got up and forgotten: after so long they are asked, and until they answer no more is counted.
// Common practice, no source.
export const ASK_AFTER_MS = 3 * HOUR_MS;

// More is not taken for posturing that nobody spoke for: the core's LONGEST_OPEN_HOURS.
export const LONGEST_MS = 12 * HOUR_MS;

// What the fact "timer" keeps, as a list. One that an earlier version started goes to the eye whose plan it fits.
export function runningTimers(kept, eyes) {
  return listed(kept).map((timer) => {
    if (timer.operation) return timer;
    const { operation, eye } = eyes.find(({ posture }) => posture?.position === timer.position) ?? eyes[0] ?? {};
    return { ...timer, operation, eye };
  });
}

// What is done with the timers on this page: each for the plan of an eye, started, stopped, paused.
export class Timers {
  #database;
  #keeping;
  #page;
  running = [];

  // `page` gives the plan of an eye (`planOf(operation)`: its `eye` and `position`) and what is known of the clock (`receipt()`),
  // keeps that hours are right (`sure(id)`), and is told that something `changed()`.
  constructor(database, keeping, page) {
    this.#database = database;
    this.#keeping = keeping;
    this.#page = page;
  }

  // Stops the timer of an eye's plan, or starts it; resolves with the `position` that runs now, or with `asks` where the person
  // has to say first how long it was. A head has one position: what runs for another one ends.
  async toggle(operation, beside) {
    const { eye, position } = this.#page.planOf(operation);
    const own = this.#own(operation);
    if (own && !own.on_break) {
      return { asks: !(await this.stop(own, new Date(), beside)) && isUnsure(own, this.#page.receipt()) };
    }
    for (const timer of this.running.filter((known) => known.position !== position)) await this.stop(timer);
    this.#keeping.hideNote();
    return (await this.#start(this.#fresh({ operation, eye, position }))) ? { position } : {};
  }

  // A break is no posturing: what ran until now is kept, and the phone calls back. On a break it ends for now.
  async pause(operation, beside) {
    const own = this.#own(operation);
    if (!own) return {};
    if (own.on_break) await this.stop(own);
    else if (!(await this.#keep(own, [breakOf(own)], new Date(), beside))) return { asks: isUnsure(own, this.#page.receipt()) };
    return { pause: own.on_break ? null : this.#page.planOf(operation).posture };
  }

  // The stretch goes to the eye and the position that the timer was started for, whatever is planned or shown by now.
  async stop(timer, until = new Date(), beside = undefined) {
    return timer.on_break ? this.#put(timer, []) : this.#keep(timer, [], until, beside);
  }

  // Somebody says until when it was; false where that lies before the start, null where it could not be kept.
  async stopAt(operation, until, beside) {
    const own = this.#own(operation);
    if (!own || until <= new Date(own.start)) return false;
    return this.stop(own, until, beside);
  }

  // Somebody says that they still lie so. What grew too long for one stretch is kept, and another begins.
  async stillSo(operation) {
    const own = this.#own(operation);
    if (!own) return;
    if (isLong(own) || isUnsure(own, this.#page.receipt())) await this.#keep(own, [this.#fresh(own)]);
    else await this.#put(own, [sureOf(own)]);
  }

  // Somebody says for how many minutes until now it was, where nobody else can tell.
  async ran(timer, minutes) {
    if (minutes === 0) return this.#put(timer, []);
    const until = new Date();
    return this.#save({ ...timer, start: new Date(until.getTime() - minutes * 60000).toISOString() }, until, takingOut(timer));
  }

  // The same of hours that are kept (`body` as the clinic has them). When they ended is known, since entries go by their own time.
  lasted({ id, operation, body }, minutes) {
    if (minutes === minutesOf(body)) return this.#page.sure(id);
    const end = Date.parse(body.to) - (aheadOf(this.#page.receipt()) || 0);
    const [from, to] = [end - minutes * 60000, end].map((at) => new Date(at).toISOString());
    return this.#keeping.save("posture", { position: body.position, from, to }, { operation, corrects: id });
  }

  // The timer of an eye's plan, running or on a break.
  #own(operation) {
    const { position } = this.#page.planOf(operation);
    return this.running.find((timer) => timer.operation === operation && timer.position === position);
  }

  #fresh({ operation, eye, position }) {
    return { operation, eye, position, start: new Date().toISOString(), ahead: aheadOf(this.#page.receipt()) };
  }

  // Null where it stays, since the person has to say first how long it was. Undone, it runs on.
  async #keep(timer, instead, until = new Date(), beside = undefined) {
    if (isUnsure(timer, this.#page.receipt(), until)) {
      await this.#page.changed();
      return null;
    }
    const kept = await this.#save(timer, until, takingOut(timer, instead));
    if (kept?.[0] && beside) {
      this.#keeping.noteBeside(beside, async () => {
        if (await this.#keeping.takeBack([kept[0].event], text("undo"))) await this.#start(timer);
      });
    }
    return kept;
  }

  #save(timer, until, alongside) {
    return this.#keeping.save("posture", stretch(timer, until), { operation: timer.operation, alongside });
  }

  #start(timer) {
    return this.#trying(() => startTimer(this.#database, timer));
  }

  #put(timer, instead) {
    return this.#trying(() => transact(this.#database, ["facts"], "readwrite", ({ facts }) => takingOut(timer, instead)(facts, () => {})));
  }

  async #trying(work) {
    const kept = await this.#keeping.trying(work);
    this.#page.changed();
    return kept;
  }
}

// Another tab may have started the same one: then that one runs on. A break of that eye is over.
export function startTimer(database, fresh) {
  const { operation, position } = fresh;
  return transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.get("timer").onsuccess = ({ target: { result } }) => {
      const running = listed(result).filter((timer) => !(timer.on_break && timer.operation === operation));
      if (running.some((timer) => timer.operation === operation && timer.position === position)) return;
      facts.put([...running, fresh], "timer");
    };
  });
}

// For the transaction that keeps the stretch: takes the timer out, with another `instead`, and keeps nothing if another tab
// was faster.
export function takingOut(timer, instead = []) {
  return (facts, keep) => {
    facts.get("timer").onsuccess = ({ target: { result } }) => {
      const running = listed(result);
      const left = running.filter((known) => !isSame(known, timer));
      if (left.length === running.length) return;
      facts.put([...left, ...instead], "timer");
      keep();
    };
  };
}

// The same timer, known to be right until now.
export function sureOf(timer, now = new Date()) {
  return { ...timer, sure_at: now.toISOString() };
}

export function breakOf({ operation, eye, position }, now = new Date()) {
  return { operation, eye, position, start: now.toISOString(), on_break: true };
}

// Whether nobody can tell how long it was: the clock was changed since the start, or it says more than anybody spoke for.
export function isUnsure(timer, receipt, until = new Date()) {
  if (timer.on_break) return false;
  const changed = Math.abs(aheadOf(receipt) - timer.ahead) >= SKEW_MS || Date.parse(timer.start) >= until.getTime() + SKEW_MS;
  return changed || until.getTime() - sureAt(timer) > LONGEST_MS;
}

// When somebody last said that they lie so.
const sureAt = ({ start, sure_at: sure = start }) => Date.parse(sure);

export function isInDoubt(timer, now = new Date()) {
  return now.getTime() - sureAt(timer) > ASK_AFTER_MS;
}

// What of a running timer counts so far, as a span.
export function counted(timer, now = new Date()) {
  return [Date.parse(timer.start), Math.min(now.getTime(), sureAt(timer) + ASK_AFTER_MS)];
}

// Longer than this one stretch must not get: it is kept, and another begins.
export function isLong(timer, now = new Date()) {
  return now.getTime() - Date.parse(timer.start) > LONGEST_MS;
}

export function stretch(timer, until = new Date()) {
  const from = new Date(Math.min(Date.parse(timer.start), until.getTime()));
  return { position: timer.position, from: from.toISOString(), to: until.toISOString() };
}

function listed(kept) {
  return kept === undefined ? [] : [kept].flat();
}

function isSame(one, other) {
  return one.start === other.start && one.position === other.position && (!one.operation || one.operation === other.operation);
}
