// How the check is asked: one question a screen. On a screen with several signs people tick what is so; *none* and *cannot
// tell* are about whatever they did not tick. What was chosen is kept by question, in the words of the form.

import { QUESTIONS } from "./answers.js";

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

// `said` ("none" or *cannot tell*) of every sign of a screen that is not ticked.
export function restOf(chosen, screen, said) {
  const open = SIGNS[screen].filter((name) => !isTicked(chosen, name));
  return { ...chosen, ...Object.fromEntries(open.map((name) => [name, said === CANNOT_TELL ? said : good(name)])) };
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
