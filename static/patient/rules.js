// What the answers of a check mean by the clinic's rules. Nothing clinical is worked out here: answers are compared with
// tables, and whatever the tables cannot answer is a reason to call.

import { badOf, given, looksAt, QUESTIONS } from "./questions.js";
import { clinicTime, faultOf, NEAR_MS } from "../shared/clock.js";
import { againWithin, lookAtRules } from "./second-looks.js";

// From the worst. `call` is for what nobody can judge from here, `again` asks for a second look; only `well` reassures.
export const LEVELS = ["now", "today", "call", "again", "this-week", "well"];

export const rank = (level) => LEVELS.indexOf(level);

// The verdict on one check, over every eye of the phone: { level, words, reasons, complete, looks }.
// Well needs every question answered well, rules in force for each eye, a clock near the clinic's and nothing in words.
// `earlier` are the checks of this eye before ({ at, answers }); `looks` are second looks still to come. What another phone told
// and is `calling` at the clinic, or `unseen` there, calls here too.
export function judge(eyes, answers, receipt, now = Date.now(), earlier = []) {
  const fault = faultOf(receipt, now);
  const inForce = inForceBy(fault, receipt);
  const answered = given(answers);
  const open = QUESTIONS.filter((name) => !answered.includes(name));
  const unknown = [];
  if (open.length > 0) unknown.push(open.some((name) => !answers.cannot_tell?.includes(name)) ? "skipped" : "cannot-tell");
  const told = earlier.map((_one, n) => stillCalled(eyes, earlier, n, inForce, now));
  if (answers.words || told.some(({ words }) => words)) unknown.push("words");
  if (fault) unknown.push(fault);
  const judged = ({ symptom_rules: rules = [] }) => rules.some((rule) => rule.pain !== null && inForce(rule, now));
  if (eyes.length === 0 || !eyes.every(judged)) unknown.push("no-rules");
  const found = lookAtRules(eyes, [...earlier, { at: now, answers }], inForce);
  const bad = badOf(answers).length > 0 && found.call.length + found.wait.length === 0;
  const all = (what) => [found, ...told].flatMap((one) => one[what]);
  return verdict({ call: all("call"), wait: found.wait, other_days: all("other_days") }, unknown, bad || told.some((one) => one.bad));
}

// The verdict on the nth of one eye's checks, as the clinic has it and nobody there has settled it.
export function judgeTold(eyes, checks, n, receipt, now = Date.now()) {
  const { words, bad, ...found } = stillCalled(eyes, checks, n, inForceBy(faultOf(receipt, now), receipt), now);
  return verdict({ ...found, wait: [] }, words ? ["words"] : [], bad);
}

function stillCalled(eyes, checks, n, inForce, now) {
  const { answers, calling, unseen } = checks[n];
  if (!calling && !unseen) return { call: [], other_days: [], words: false, bad: false };
  const { call, wait, other_days: otherDays } = lookAtRules(eyes, checks.slice(0, n + 1), inForce);
  const looked = ({ rule, due_at: due }) => checks.slice(n + 1).some((one) => one.at <= due && looksAt(rule, given(one.answers)));
  // That it calls at the clinic means that no second look came in time.
  const late = wait.filter((one) => call.length === 0 || (one.due_at < now && !looked(one)));
  const rules = [...call, ...late.map(({ rule }) => rule)];
  return {
    call: calling ? rules : [], other_days: calling ? otherDays : [], words: Boolean(calling && answers.words),
    bad: rules.length === 0 && Boolean(unseen || !answers.words),
  };
}

// The verdict on a journey by its heights above the sea in metres, in order. The first may lie below where the operation was
// done: the climb counts from there. A pack from before that was asked has no `climb_metres`.
export function judgeHeight(eyes, heights, receipt, now = Date.now()) {
  const highest = Math.max(...heights);
  const climbs = (rule) => highest >= rule.from_metres || highest - heights[0] >= rule.climb_metres;
  return judgeGas(eyes, (gas) => gas.heights, climbs, receipt, now);
}

// The verdict on an anaesthetic, a sedation or dental treatment.
export function judgeAnaesthetic(eyes, receipt, now = Date.now()) {
  return judgeGas(eyes, (gas) => gas.anaesthetics, () => true, receipt, now);
}

function judgeGas(eyes, table, holds, receipt, now) {
  const fault = faultOf(receipt, now);
  const valid = inForceBy(fault, receipt);
  const inForce = (rule) => valid(rule, now);
  const cautious = eyes.filter((eye) => eye.gas.caution);
  const rules = cautious.map((eye) => table(eye.gas) ?? []);
  const unknown = fault ? [fault] : [];
  if (eyes.length === 0 || !rules.every((of) => of.some(inForce))) unknown.push("no-rules");
  const held = rules.flat().filter(holds);
  return verdict({ call: held.filter(inForce), wait: [], other_days: held.filter((rule) => !inForce(rule)) }, unknown, false);
}

// A rule counts if it was in force at any time since the pack was made: a clock put forward since then by less than a pack
// lasts cannot be told from days gone by. Where the clock or the pack is at fault no rule drops out for its date.
function inForceBy(fault, receipt) {
  if (fault) return () => true;
  return (rule, now) => {
    const at = clinicTime(receipt, now);
    return at >= Date.parse(rule.valid_from) && Math.min(at, receipt.made_at) <= Date.parse(rule.valid_until);
  };
}

function verdict({ call, wait, other_days: otherDays }, unknown, bad) {
  const said = worstOf([...call.map((rule) => rule.how_soon), ...(wait.length > 0 ? ["again"] : [])]);
  // A danger outside the days of its rule, or one that no rule names, is still no reason to reassure. Where a sign waits for
  // its second look, a rule of other days that would wait for one too adds nothing.
  const known = worstOf([...call, ...wait.map(({ rule }) => rule)].map((rule) => rule.how_soon));
  const others = otherDays.filter((rule) => wait.length === 0 || !(rule.second_look || againWithin(rule)));
  const unruled = rank(worstOf(others.map((rule) => rule.how_soon))) < rank(known) || bad;
  const reasons = unruled ? [...unknown, "not-well"] : unknown;
  const level = worstOf(reasons.length > 0 ? [said, "call"] : [said]);
  const asks = level === "again" ? wait.map(({ rule }) => rule.second_look.ask) : [];
  const lesser = call.filter((rule) => rank(rule.how_soon) > rank(level)).map((rule) => rule.words);
  const called = level === "again" ? lesser : call.filter((rule) => rule.how_soon === level).map((rule) => rule.words);
  const looks = wait.map(({ rule, asked_at, due_at }) => ({ asked_at, due_at, how_soon: rule.how_soon, words: rule.words }));
  return { level, words: [...new Set([...asks, ...called])], reasons, complete: unknown.length === 0, looks, lesser };
}

// A verdict as it stands now: a second look that did not come in time calls, and a clock that was set back hides none.
export function atTime(said, now = Date.now()) {
  const over = ({ asked_at: asked, due_at: due }) => now > due || now < asked - NEAR_MS;
  const looks = said.looks ?? [];
  const late = looks.filter(over);
  if (late.length === 0) return said;
  const answered = said.level === "again" && late.length === looks.length ? "well" : said.level;
  const level = worstOf([answered, ...late.map((look) => look.how_soon)]);
  const words = late.filter((look) => look.how_soon === level).map((look) => look.words);
  return {
    ...said, level, words: [...new Set([...words, ...(level === said.level ? said.words : [])])],
    looks: looks.filter((look) => !over(look)),
  };
}

// What of a verdict only the clinic can answer, or null: the rest is unanswered, and a whole check answers it.
function owed(said) {
  const { level, reasons = [], lesser = [] } = said;
  if (["now", "today", "this-week"].includes(level) || reasons.some((why) => ["words", "not-well"].includes(why))) return said;
  return lesser.length > 0 ? { ...said, level: "this-week", words: lesser, reasons: [] } : null;
}

// What stands of the verdicts on one eye, the worst first, the others `under` it: the fresh one; what the clinic owes an answer,
// as long as somebody `waits(verdict)` for it and the fresh one does not ask as much; and what is worse than a check that is not
// complete. The second looks are those of the fresh one, which has judged the earlier ones too.
export function standing(before, fresh, waits) {
  const asked = owed(fresh);
  const stays = (former) => {
    if (!waits(former)) return !fresh.complete && rank(fresh.level) > rank(former.level) ? former : null;
    const left = owed(former);
    return asked && rank(asked.level) <= rank(left.level) ? null : left;
  };
  const formers = listed(before).map((former) => stays(atTime(former)));
  const all = [fresh, ...formers].filter((one) => one && one.level !== "well").map((one) => ({ ...one, looks: fresh.looks }));
  return stacked(all.sort(worstFirst)) ?? fresh;
}

export const listed = (said) => (said ? [said, ...listed(said.under)] : []);
const stacked = ([first = null, ...others]) => (first ? { ...first, under: stacked(others) } : undefined);

// Whether the clinic may still have to answer it. Once its pack knows the entry, or that it was taken back, the pack says (what no
// rule could judge opens no call: there a person has to look); before that it waits as long as the phone has the entry to send, or
// the answers that it could not keep (`missed`), or nobody has seen that the clinic could not take it.
export function waitsForClinic(said, eye, entries) {
  const { level, entry, missed, reasons = [], lesser = [] } = said;
  if (!owed(said)) return false;
  if (!entry) return Boolean(missed);
  const undone = entries.some(({ event, state }) => event.corrects === entry && event.kind === "withdrawal" && state === "received");
  const known = eye?.receipts.find(({ id }) => id === entry);
  const unruled = level === "call" && !reasons.includes("words") && lesser.length === 0;
  if (unruled && known) return known.calling || !known.looked_at;
  if (undone || known) return eye?.calling !== false;
  return entries.some(({ event, state, seen }) => event.id === entry && !(state === "refused" && seen));
}

// What the clinic has settled since, and eyes it follows no more, need no call from here; what stood with it may.
export function withoutSettled(verdicts, pack) {
  const settled = new Set(pack.eyes.flatMap((eye) => eye.receipts.filter((entry) => entry.settled).map((entry) => entry.id)));
  const left = (kept) => stacked(listed(kept).filter(({ entry }) => !settled.has(entry)));
  const followed = pack.eyes.map(({ operation }) => [operation, left(verdicts[operation])]);
  return Object.fromEntries(followed.filter(([, kept]) => kept));
}

export const worstFirst = (a, b) => rank(a.level) - rank(b.level);

function worstOf(levels) {
  return LEVELS.find((level) => levels.includes(level)) ?? "well";
}
