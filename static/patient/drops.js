// Drops as the clinic entered them: which today, which of their times are taken, and what comes next. The times come in the
// pack, spread over the waking day by the server; here is nothing about how many to take.

import { isoDay } from "../shared/dates.js";
import { entriesOf } from "./standing.js";

// An earlier pack has no first day and no times.
export function dropsOn(eye, now) {
  const today = isoDay(now);
  return eye.drops.filter(({ first = "", until }) => first <= today && today <= until);
}

// In their order, what the clinic has of today and what is still on the phone; each entry once.
export function takenToday(drop, eye, entries, now) {
  const same = (name) => name.toLowerCase() === drop.name.toLowerCase();
  const today = entriesOf(eye, entries).filter(({ kind, at, body }) => kind === "drops" && same(body.name) && isoDay(new Date(at)) === isoDay(now));
  return today.sort((a, b) => a.at.localeCompare(b.at));
}

// Each time of today, { at, opens, taken }: what is taken from `opens` on until the next one opens is it.
export function timesOf({ times = [] }, taken, now) {
  const on = (clock) => new Date(now.getFullYear(), now.getMonth(), now.getDate(), ...clock.split(":").map(Number));
  const opens = times.map((one) => on(one.opens));
  return times.map((one, n) => {
    const inIt = ({ at }) => new Date(at) >= opens[n] && !(new Date(at) >= opens[n + 1]);
    return { at: on(one.at), opens: opens[n], taken: taken.some(inIt) };
  });
}

// The next that is to be taken today, of every eye, { eye, drop, at }, the earliest first: the one whose time it is, else the
// one after it. What was not ticked off when its time is over is let be: only the clinic says what to do then.
export function nextDrops(eyes, entries, now) {
  const open = eyes.flatMap((eye) => dropsOn(eye, now).map((drop) => {
    const times = timesOf(drop, takenToday(drop, eye, entries, now), now);
    const next = times.find(({ taken }, n) => !taken && !(times[n + 1]?.opens <= now));
    return next && { eye, drop, at: next.at };
  }));
  return open.filter(Boolean).sort((a, b) => a.at - b.at);
}
