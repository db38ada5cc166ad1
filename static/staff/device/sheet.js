// The day's sheet once it is open: whose eye a line is about, and what was entered here since.

import { isoDay } from "../../shared/dates.js";

export const eyeOf = (sheet, operation) => sheet.eyes.find((eye) => eye.operation === operation);

// With all others who are followed: of them it says who they are and what they may come for, and no more.
export function withFollowed(sheet, followed, now = new Date()) {
  const listed = new Set(sheet.eyes.map(({ operation }) => operation));
  const others = followed.filter(({ operation }) => !listed.has(operation)).map((eye) => ({
    ...eye, visit: eye.visits.find((visit) => isDue(visit, now))?.id ?? "", chart: sheet.chart, right: null, left: null,
  }));
  return { ...sheet, eyes: [...sheet.eyes, ...others] };
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
