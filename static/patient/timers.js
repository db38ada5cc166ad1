// Timers that run, each {operation, eye, position, start}: a timer belongs to the eye and position it was started for.

import { transact } from "../shared/database.js";

// What the fact "timer" keeps, as a list. One that an earlier version started goes to the eye whose plan it fits.
export function runningTimers(kept, eyes) {
  return listed(kept).map((timer) => {
    if (timer.operation) return timer;
    const { operation, eye } = eyes.find(({ posture }) => posture?.position === timer.position) ?? eyes[0] ?? {};
    return { ...timer, operation, eye };
  });
}

// Another tab may have started the same one: then that one runs on.
export function startTimer(database, { operation, eye, position }, at = new Date()) {
  return transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.get("timer").onsuccess = ({ target: { result } }) => {
      const running = listed(result);
      if (running.some((timer) => timer.operation === operation && timer.position === position)) return;
      facts.put([...running, { operation, eye, position, start: at.toISOString() }], "timer");
    };
  });
}

// For the transaction that keeps the stretch: takes the timer out, and keeps nothing if another tab was faster.
export function takingOut(timer) {
  return (facts, keep) => {
    facts.get("timer").onsuccess = ({ target: { result } }) => {
      const running = listed(result);
      const left = running.filter((known) => !isSame(known, timer));
      if (left.length === running.length) return;
      facts.put(left, "timer");
      keep();
    };
  };
}

export function stretch({ position, start }, until = new Date()) {
  return { position, from: start, to: until.toISOString() };
}

function listed(kept) {
  return kept === undefined ? [] : [kept].flat();
}

function isSame(one, other) {
  return one.start === other.start && one.position === other.position && (!one.operation || one.operation === other.operation);
}
