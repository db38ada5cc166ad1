// A verdict as the patient reads it: a title, why, and whom to call.

import { momentWords } from "../shared/dates.js";
import { byId, paragraph } from "../shared/dom.js";
import { text } from "./texts.js";

export function titleOf(verdict) {
  return text(verdict.level === "call" ? "call-us" : `call-${verdict.level}`);
}

// The rules' words, when to look again, and what this page could not judge.
export function reasonsOf(verdict) {
  const open = verdict.reasons.map((reason) => text(`why-${reason}`)).join(" ");
  const said = verdict.words.map((words) => paragraph(words));
  if (verdict.level === "again") {
    const due = Math.min(...verdict.looks.map((look) => look.due_at));
    said.push(paragraph(text("look-again", { time: momentWords(new Date(due)) })), paragraph(text("call-at-once")));
  }
  return open && verdict.level !== "now" ? [...said, paragraph(`${open} ${text("cannot-judge")}`)] : said;
}

// Colours the box of a verdict by how soon, and shows the emergency number wherever it may be needed; the clinic's is always there.
export function dress(box, calls, level, emergency) {
  box.dataset.level = level;
  byId(`${calls}-emergency`).hidden = !emergency;
}
