// The day's sheet once it is open: whose eye a line is about, and what was entered here since.

import { isoDay } from "../../shared/dates.js";

const LOOK_AHEAD_DAYS = 7; // as the list with a signal

export const eyeOf = (sheet, operation) => sheet.eyes.find((eye) => eye.operation === operation);

// With all others who are followed: of them it says who they are and what they may come for, and no more. Whose visit comes
// within the week is on the list by that; the sheet itself lists of the coming ones only those with an open worry.
export function withFollowed(sheet, followed, now = new Date()) {
  const listed = new Set(sheet.eyes.map(({ operation }) => operation));
  const others = followed.filter(({ operation }) => !listed.has(operation)).map((eye) => ({
    ...eye, visit: eye.visits.find((visit) => isDue(visit, now))?.id ?? "", chart: sheet.chart, right: null, left: null,
  }));
  const eyes = [...sheet.eyes, ...others];
  return { ...sheet, eyes, rows: [...sheet.rows, ...coming(sheet.rows, eyes, now)] };
}

function coming(rows, eyes, now) {
  const [today, listed] = [isoDay(now), new Set(rows.map((row) => row.visit_id))];
  const until = isoDay(new Date(now.getFullYear(), now.getMonth(), now.getDate() + LOOK_AHEAD_DAYS));
  const found = eyes.flatMap(({ operation, patient, visits }) => visits
    .filter(({ id, target }) => !listed.has(id) && today < target && target <= until)
    .map(({ id, name, target }) => ({ patient, operation, visit: name, visit_id: id, target, state: "coming", how_soon: null, reason: "" })));
  return found.sort((one, other) => one.target.localeCompare(other.target) || one.patient.localeCompare(other.patient));
}

// What was entered on this device shows on the list, also after the page was opened anew.
export function mark(sheet, operation, facts) {
  for (const { kind, body } of facts.filter((fact) => fact.kind === "arrived" || fact.kind === "seen")) {
    const due = sheet.rows.find((known) => known.operation === operation && known.visit_id === body.visit_id);
    if (due && due.state !== "seen") due.state = kind === "seen" ? "seen" : "here";
    const eye = eyeOf(sheet, operation);
    if (kind === "arrived" && eye) eye.visit = body.visit_id;
    if (kind === "seen" && eye?.visit === body.visit_id) eye.visit = "";
    if (kind === "seen" && eye) eye.visits = eye.visits.filter(({ id }) => id !== body.visit_id);
  }
}

// Whether the window of a visit holds today.
export function isDue({ earliest, latest }, now = new Date()) {
  const today = isoDay(now);
  return earliest <= today && today <= latest;
}
