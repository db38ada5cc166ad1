// Hours in a position on one day: overlaps count once, the day is the phone's own.

import { isoDay } from "../shared/dates.js";

export function hoursOn(blocks, day) {
  const start = new Date(day.getFullYear(), day.getMonth(), day.getDate()).getTime();
  const end = new Date(day.getFullYear(), day.getMonth(), day.getDate() + 1).getTime();
  const spans = blocks
    .map(([from, to]) => [Math.max(from, start), Math.min(to, end)])
    .filter(([from, to]) => to > from)
    .sort((a, b) => a[0] - b[0]);
  let total = 0;
  let reached = start;
  for (const [from, to] of spans) {
    total += Math.max(0, to - Math.max(from, reached));
    reached = Math.max(reached, to);
  }
  return total / 3600000;
}

// The plan that an eye has for this day, or undefined.
export function planOn({ posture }, day) {
  return posture?.dates.includes(isoDay(day)) ? posture : undefined;
}

// From a time of day to another on the day given; an end that is not after its start is on the day after.
export function spanOf(day, from, to) {
  const [year, month, date] = day.split("-").map(Number);
  const at = (time, later) => new Date(year, month - 1, date + later, ...time.split(":").map(Number));
  const start = at(from, 0);
  return [start, at(to, to > from ? 0 : 1)];
}

// The last time that a clock showed this time of day.
export function lastTime(time, now = new Date()) {
  const [hours, minutes] = time.split(":").map(Number);
  const today = new Date(now.getFullYear(), now.getMonth(), now.getDate(), hours, minutes);
  return today <= now ? today : new Date(now.getFullYear(), now.getMonth(), now.getDate() - 1, hours, minutes);
}

// How long a stretch was that is kept.
export function minutesOf({ from, to }) {
  return Math.round((Date.parse(to) - Date.parse(from)) / 60000);
}
