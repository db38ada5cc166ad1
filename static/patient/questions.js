// How the check is asked, one question a screen, and what its answers say. On a screen with several signs people tick what is so;
// *none* and *cannot tell* are about whatever they did not tick. What was chosen is kept by question, in the words of the form.

const HOUR_MS = 3600000;

export const QUESTIONS = [
  "pain", "vision", "redness", "discharge", "curtain", "flashes", "floaters", "vomiting", "fever", "injury", "other_eye",
];

export const CANNOT_TELL = "cannot-tell";

export const SCREENS = ["eye", "pain", "vision", "seeing", "looking", "body", "other_eye", "words"];
export const SIGNS = {
  seeing: ["curtain", "flashes", "floaters"],
  looking: ["redness", "discharge", "injury"],
  body: ["vomiting", "fever"],
};

const YES_NO = ["discharge", "curtain", "vomiting", "fever", "injury"];
const good = (name) => (YES_NO.includes(name) ? "no" : "same");
export const bad = (name) => (YES_NO.includes(name) ? "yes" : "worse");

export const isTicked = (chosen, name) => chosen[name] === bad(name);

// A sign ticked, or the tick taken off: then it has no answer.
export function ticked(chosen, name, on) {
  const { [name]: _before, ...others } = chosen;
  return on ? { ...others, [name]: bad(name) } : others;
}

// `answer` ("none" or *cannot tell*) of every sign of a screen that is not ticked.
export function restOf(chosen, screen, answer) {
  const open = SIGNS[screen].filter((name) => !isTicked(chosen, name));
  return { ...chosen, ...Object.fromEntries(open.map((name) => [name, answer === CANNOT_TELL ? answer : good(name)])) };
}

// The body of the entry: what has no answer stays out, what cannot be told is named.
export function bodyOf(chosen, words = "") {
  const body = {};
  const unsure = QUESTIONS.filter((name) => chosen[name] === CANNOT_TELL);
  for (const name of QUESTIONS) {
    const value = chosen[name];
    if (value === undefined || value === CANNOT_TELL) continue;
    if (name === "pain") body.pain = Number(value);
    else body[name] = YES_NO.includes(name) ? value === "yes" : value;
  }
  if (unsure.length > 0) body.cannot_tell = unsure;
  if (words.trim()) body.words = words.trim();
  return body;
}

// `answers` is what the form said: { pain: 7, vision: "worse", discharge: true, cannot_tell: ["fever"], words: "…" }.
export function said(answers) {
  return new Set(Object.entries(answers).flatMap(([name, value]) => {
    if (value === true) return [name];
    return typeof value === "string" && name !== "words" ? [`${name}=${value}`] : [];
  }));
}

export const badOf = (answers) => [...said(answers)].filter((answer) => !/=(same|better)$/.test(answer));

export function given(answers) {
  return QUESTIONS.filter((name) => answers[name] !== undefined && !Number.isNaN(answers[name]));
}

// By question, the answer and when it was given: what a check leaves out stands as it was last said, for some hours.
export function standingAnswers(before, answers, now, hours) {
  const fresh = given(answers).map((name) => [name, { answer: answers[name], at: now }]);
  const all = Object.entries({ ...before, ...Object.fromEntries(fresh) });
  return Object.fromEntries(all.filter(([, { at }]) => Math.abs(now - at) <= hours * HOUR_MS));
}

// Whether one rule holds for what was `said`, whatever the date.
export function holds(rule, told, pain = 0) {
  const painful = rule.pain !== null && pain >= rule.pain ? 1 : 0;
  const number = rule.answers.filter((answer) => told.has(answer)).length + painful;
  return number >= rule.count && rule.also.every((answer) => told.has(answer));
}

// Whether any question that the rule looks at was answered.
export function looksAt(rule, names) {
  const asked = [...rule.answers, ...rule.also].map((answer) => answer.split("=")[0]);
  return names.some((name) => asked.includes(name) || (name === "pain" && rule.pain !== null));
}
