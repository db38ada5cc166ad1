// A verdict as the patient reads it: a title, why, and whom to call.

import { paragraph } from "../shared/dom.js";
import { byId, text } from "./texts.js";

export function titleOf(verdict) {
  return text(verdict.level === "call" ? "call-us" : `call-${verdict.level}`);
}

// The rules' words, and what this page could not judge.
export function reasonsOf(verdict) {
  const open = verdict.reasons.map((reason) => text(`why-${reason}`)).join(" ");
  const said = verdict.words.map((words) => paragraph(words));
  return open && verdict.level !== "now" ? [...said, paragraph(`${open} ${text("cannot-judge")}`)] : said;
}

// Shows the buttons to call: the clinic's always, the emergency one wherever it may be needed.
export function showCalls(id, emergency) {
  byId(`${id}-emergency`).hidden = !emergency;
}
