// A lone mild sign is asked back and looked at again before anybody is called, as the rulebook does it
// (clinical/second_looks.py); anything in company calls at once. All is worked out from the checks of one eye in their order.
// Of each rule it is known what the last check found: { asked_at, due_at, number } while it waits for a second look, the next
// one counted on, FOUND once it called, { at, looks } for a rule that must hold several times in a row.

import { badOf, given, holds, looksAt, said, standingAnswers } from "./questions.js";

const [MINUTE_MS, HOUR_MS] = [60000, 3600000];
const FOUND = { found: true };

// A pack from before `looks` were counted says `twice_within_hours`: two in a row, and one more look at what is asked back.
export const againWithin = (rule) => rule.again_within_hours ?? rule.twice_within_hours;

// The checks of one eye so far, by this phone's clock: its own, and what the clinic has of them from other phones, with whether
// that is still `calling`, or bad and `unseen` by any person there.
export function checksOf(operation, entries, eyes, receipt) {
  const taken = entries.filter(({ state }) => state !== "refused");
  const undone = new Set(taken.map(({ event }) => event.corrects));
  const own = taken.filter(({ event }) => isCheck(event, operation) && !undone.has(event.id));
  const known = new Set(taken.map(({ id }) => id));
  const receipts = eyes.find((eye) => eye.operation === operation)?.receipts ?? [];
  const others = receipts.filter(({ id, kind }) => kind === "symptoms" && !known.has(id));
  const ahead = receipt ? receipt.received_at - receipt.made_at : 0;
  const checks = [
    ...own.map(({ id, event }) => ({ id, at: Date.parse(event.at), answers: event.body })),
    ...others.map(({ id, at, body, calling, ...told }) => ({
      id, at: Date.parse(at) + ahead, answers: body, calling, unseen: !told.looked_at && !told.settled && badOf(body).length > 0,
    })),
  ];
  return checks.sort((a, b) => a.at - b.at);
}

const isCheck = (event, operation) => event.kind === "symptoms" && event.operation === operation;

// What the rules of the eyes say of the last of these checks: which `call`, which `wait` ({ rule, asked_at, due_at }), and
// which would call on `other_days`. `inForce(rule, at)`.
export function lookAtRules(eyes, checks, inForce) {
  const asking = eyes[0]?.asking; // a pack from before there were second looks has none
  let stands = {};
  let found = {};
  let told;
  for (const { at, answers } of checks) {
    stands = standingAnswers(stands, answers, at, asking?.answers_stand_hours ?? 0);
    const standing = Object.fromEntries(Object.entries(stands).map(([name, { answer }]) => [name, answer]));
    const alone = Boolean(asking) && isAlone(standing, asking);
    const check = { now: at, told: said(standing), pain: standing.pain, names: given(answers), alone, asking };
    [told, found] = lookOnce(eyes, found, check, inForce);
  }
  return told;
}

function lookOnce(eyes, before, check, inForce) {
  const found = {};
  const told = { call: [], wait: [], other_days: [] };
  for (const eye of eyes) {
    for (const rule of eye.symptom_rules ?? []) {
      const key = `${eye.operation} ${rule.id}`;
      const { keep, wait, call, other_day: otherDay } = look(rule, before[key] ?? null, { ...check, inForce: inForce(rule, check.now) });
      if (keep) found[key] = keep;
      if (wait) told.wait.push({ rule, ...wait });
      if (call) told.call.push(rule);
      if (otherDay) told.other_days.push(rule);
    }
  }
  return [told, found];
}

function look(rule, before, check) {
  const looked = looksAt(rule, check.names);
  const held = looked && holds(rule, check.told, check.pain);
  if (againWithin(rule)) return inARow(rule, before, looked, held, check);
  if (!rule.second_look) return callsOn(held, check);
  const waiting = before?.due_at ? before : null;
  const overdue = waiting !== null && check.now > waiting.due_at;
  const state = overdue ? FOUND : before;
  if (!looked) return { keep: state, wait: overdue ? null : waiting, call: overdue };
  if (!held) return { call: overdue };
  const since = check.now - waiting?.asked_at;
  const soon = since >= 0 && since < check.asking.asked_back_minutes * MINUTE_MS;
  if (waiting && !overdue && soon && check.alone) return { keep: waiting, wait: waiting };
  if (!check.inForce && (overdue || !waiting)) return { keep: state, call: overdue, other_day: true };
  const looks = state === null ? 0 : (state.number ?? Infinity);
  if (looks < (rule.second_look.looks ?? 1) && check.alone) {
    const wait = { asked_at: check.now, due_at: check.now + rule.second_look.hours * HOUR_MS, number: looks + 1 };
    return { keep: wait, wait };
  }
  return { keep: FOUND, call: true };
}

function inARow(rule, before, looked, held, check) {
  if (!looked) return { keep: before };
  if (!held) return {};
  const since = before === null ? Infinity : Math.abs(check.now - before.at);
  if (since < (check.asking?.asked_back_minutes ?? 0) * MINUTE_MS) return { keep: before };
  const looks = since <= againWithin(rule) * HOUR_MS ? before.looks + 1 : 1;
  return { keep: { at: check.now, looks }, ...callsOn(looks >= (rule.looks ?? 2), check) };
}

const callsOn = (held, { inForce }) => ({ call: held && inForce, other_day: held && !inForce });

function isAlone(answers, { telling_pain: telling, severe_pain: severe }) {
  const pain = answers.pain ?? 0;
  return badOf(answers).length + (pain >= telling ? 1 : 0) === 1 && pain < severe;
}
