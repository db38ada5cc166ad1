// What the answers of a check mean by the clinic's rules. Nothing clinical is worked out here: answers are compared with
// tables, and whatever the tables cannot answer is a reason to call.

import { clinicTime, faultOf } from "./clock.js";

export const QUESTIONS = [
  "pain", "vision", "redness", "discharge", "curtain", "flashes", "floaters", "vomiting", "fever", "injury", "other_eye",
];

// From the worst. `call` is for what nobody can judge from here; only `well` reassures.
export const LEVELS = ["now", "today", "call", "this-week", "well"];

const rank = (level) => LEVELS.indexOf(level);

// `answers` is what the form said: { pain: 7, vision: "worse", discharge: true, cannot_tell: ["fever"], words: "…" }.
export function said(answers) {
  return new Set(Object.entries(answers).flatMap(([name, value]) => {
    if (value === true) return [name];
    return typeof value === "string" && name !== "words" ? [`${name}=${value}`] : [];
  }));
}

// The rules that the answers meet, whatever the date.
export function matching(rules, answers) {
  const told = said(answers);
  const pain = answers.pain ?? 0;
  return rules.filter((rule) => {
    const number = rule.answers.filter((answer) => told.has(answer)).length + (rule.pain !== null && pain >= rule.pain ? 1 : 0);
    return number >= rule.count && rule.also.every((answer) => told.has(answer));
  });
}

// The verdict on one check, over every eye of the phone: { level, words, reasons, emergency, complete }.
// Well needs every question answered well, rules in force for each eye, a clock near the clinic's and nothing in words.
export function judge(eyes, answers, receipt, now = Date.now()) {
  const rules = eyes.map((eye) => eye.symptom_rules ?? []);
  const fault = faultOf(receipt, now);
  const inForce = inForceAt(fault, receipt, now);
  const open = QUESTIONS.filter((name) => answers[name] === undefined || Number.isNaN(answers[name]));
  const unknown = [];
  if (open.length > 0) unknown.push(open.some((name) => !answers.cannot_tell?.includes(name)) ? "skipped" : "cannot-tell");
  if (answers.words) unknown.push("words");
  if (fault) unknown.push(fault);
  const judged = (of) => of.some((rule) => rule.pain !== null && inForce(rule));
  if (rules.length === 0 || !rules.every(judged)) unknown.push("no-rules");
  const bad = [...said(answers)].some((answer) => !/=(same|better)$/.test(answer));
  return verdict(matching(rules.flat(), answers), inForce, unknown, bad);
}

// The verdict on a journey up to `metres` above the sea.
export function judgeHeight(eyes, metres, receipt, now = Date.now()) {
  return judgeGas(eyes, (gas) => gas.heights, (rule) => metres >= rule.from_metres, receipt, now);
}

// The verdict on an anaesthetic, a sedation or dental treatment.
export function judgeAnaesthetic(eyes, receipt, now = Date.now()) {
  return judgeGas(eyes, (gas) => gas.anaesthetics, () => true, receipt, now);
}

function judgeGas(eyes, table, holds, receipt, now) {
  const fault = faultOf(receipt, now);
  const inForce = inForceAt(fault, receipt, now);
  const cautious = eyes.filter((eye) => eye.gas.caution);
  const rules = cautious.map((eye) => table(eye.gas) ?? []);
  const unknown = fault ? [fault] : [];
  if (eyes.length === 0 || !rules.every((of) => of.some(inForce))) unknown.push("no-rules");
  return verdict(rules.flat().filter(holds), inForce, unknown, false);
}

// A rule counts if it was in force at any time since the pack was made: a clock put forward since then by less than a pack
// lasts cannot be told from days gone by. Where the clock or the pack is at fault no rule drops out for its date.
function inForceAt(fault, receipt, now) {
  if (fault) return () => true;
  const at = clinicTime(receipt, now);
  return (rule) => at >= Date.parse(rule.valid_from) && receipt.made_at <= Date.parse(rule.valid_until);
}

function verdict(met, inForce, unknown, bad) {
  const counting = met.filter(inForce);
  const soonest = worstOf(counting.map((rule) => rule.how_soon));
  // A danger outside the days of its rule, or one that no rule names, is still no reason to reassure.
  const unruled = rank(worstOf(met.map((rule) => rule.how_soon))) < rank(soonest) || (bad && counting.length === 0);
  const reasons = unruled ? [...unknown, "not-well"] : unknown;
  const level = worstOf(reasons.length > 0 ? [soonest, "call"] : [soonest]);
  const words = counting.filter((rule) => rule.how_soon === level).map((rule) => rule.words);
  const emergency = level === "now" || unknown.length > 0 || met.some((rule) => rule.how_soon === "now");
  return { level, words: [...new Set(words)], reasons, emergency, complete: unknown.length === 0 };
}

// Which of two verdicts on one eye stands: a worse answer always wins, a lesser one only when it is complete.
export function standing(before, fresh) {
  return !before || fresh.complete || rank(fresh.level) <= rank(before.level) ? fresh : before;
}

// What the clinic has settled since, and eyes it follows no more, need no call from here.
export function withoutSettled(verdicts, pack) {
  const settled = new Set(pack.eyes.flatMap((eye) => eye.receipts.filter((entry) => entry.settled).map((entry) => entry.id)));
  const followed = new Set(pack.eyes.map((eye) => eye.operation));
  return Object.fromEntries(Object.entries(verdicts).filter(([operation, { entry }]) => followed.has(operation) && !settled.has(entry)));
}

export const worstFirst = (a, b) => rank(a.level) - rank(b.level);

function worstOf(levels) {
  return LEVELS.find((level) => levels.includes(level)) ?? "well";
}
