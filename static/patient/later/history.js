// One's own history, day by day: what was entered about an eye and what the clinic has of its visits.

import { isoDay } from "../../shared/dates.js";
import { hoursOn, planOn } from "../hours.js";
import { entriesOf } from "../standing.js";

export const DAYS_SHOWN = 30; // as long as phone and clinic's answer keep entries

// The days from the operation on, at most the last thirty, the earliest first: { day, hours, target, pain, bubble, drops,
// checks, others, visits }. `pain` is the day's worst, `bubble` the last level seen, null where nothing was said; `hours` is
// null where no position was planned and none was held; `drops` are [name, number]; `others` what else was entered.
export function historyOf(eye, entries, now) {
  const known = entriesOf(eye, entries).sort((a, b) => a.at.localeCompare(b.at));
  return daysUntil(now, eye.operated_on).map((date) => {
    const day = isoDay(date);
    const here = known.filter(({ at }) => isoDay(new Date(at)) === day);
    const of = (kind) => here.filter((entry) => entry.kind === kind);
    const checks = of("symptoms");
    const pains = checks.map(({ body }) => body.pain).filter((pain) => typeof pain === "number");
    const plan = planOn(eye, date);
    const fits = ({ kind, body }) => kind === "posture" && body.to && (!plan || body.position === plan.position);
    const spans = known.filter(fits).map(({ body }) => [Date.parse(body.from), Date.parse(body.to)]);
    const hours = hoursOn(spans, date);
    return {
      day, hours: plan || hours > 0 ? hours : null, target: plan?.hours_a_day ?? null, pain: pains.length ? Math.max(...pains) : null,
      bubble: of("bubble-seen").at(-1)?.body.percent ?? null, drops: counted(of("drops").map(({ body }) => body.name)), checks,
      others: here.filter(({ kind }) => ["journey", "anaesthetic", "visit-request"].includes(kind)),
      visits: eye.visits.filter(({ target }) => target === day),
    };
  });
}

// What a check answered, each [question, answer], the rest being well; `cannot_tell` and the words come with it.
export function answersOf({ pain, cannot_tell: unsure = [], words = "", ...signs }) {
  const told = Object.entries(signs).filter(([, answer]) => answer === true || answer === "worse" || answer === "better");
  return {
    pain: pain ?? null, told: told.map(([question, answer]) => [question, answer === true ? "yes" : answer]), unsure, words,
    rest: Object.values(signs).some((answer) => answer === false || answer === "same"),
  };
}

function daysUntil(now, first) {
  const found = [];
  for (let back = DAYS_SHOWN - 1; back >= 0; back -= 1) {
    const date = new Date(now.getFullYear(), now.getMonth(), now.getDate() - back);
    if (isoDay(date) >= first) found.push(date);
  }
  return found;
}

function counted(names) {
  const found = new Map();
  for (const name of names) found.set(name, (found.get(name) ?? 0) + 1);
  return [...found];
}
