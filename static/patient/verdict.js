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

// Colours the box of a verdict by how soon, and shows the emergency number wherever it may be needed; the clinic's is always there.
export function dress(box, calls, level, emergency) {
  box.dataset.level = level;
  byId(`${calls}-emergency`).hidden = !emergency;
}
