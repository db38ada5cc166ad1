// What a check said, and what of it stands.

const HOUR_MS = 3600000;

export const QUESTIONS = [
  "pain", "vision", "redness", "discharge", "curtain", "flashes", "floaters", "vomiting", "fever", "injury", "other_eye",
];

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

// Whether one rule holds for these answers, whatever the date.
export function holds(rule, answers) {
  const told = said(answers);
  const painful = rule.pain !== null && (answers.pain ?? 0) >= rule.pain ? 1 : 0;
  const number = rule.answers.filter((answer) => told.has(answer)).length + painful;
  return number >= rule.count && rule.also.every((answer) => told.has(answer));
}

// Whether any question that the rule looks at was answered.
export function looksAt(rule, names) {
  const asked = [...rule.answers, ...rule.also].map((answer) => answer.split("=")[0]);
  return names.some((name) => asked.includes(name) || (name === "pain" && rule.pain !== null));
}
