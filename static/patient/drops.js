// The rows of today's drops, of every eye that has some: how often they were taken, and a button.

import { item } from "../shared/dom.js";
import { isoDay } from "./hours.js";
import { entriesOf } from "./standing.js";
import { onTap } from "./taps.js";
import { listWords, numberWords, text, timeWords } from "./texts.js";

export function dropRows(eyes, names, entries, actions, now) {
  return eyes.flatMap((eye) => eye.drops.filter((drop) => drop.until >= isoDay(now)).map((drop) => row(drop, eye, names, entries, actions, now)));
}

// How often a day on that day: what the step of a taper says that has not ended.
export function timesOn(drop, day) {
  return drop.steps?.find(({ until }) => until >= day)?.times_a_day ?? drop.times_a_day;
}

function row(drop, eye, names, entries, actions, now) {
  const name = names.size > 1 ? `${drop.name} (${names.get(eye.operation)})` : drop.name;
  const due = timesOn(drop, isoDay(now));
  const taken = takenToday(drop, eye, entries, now);
  const said = text("drop", { name, done: numberWords(taken.length), times: numberWords(due) });
  const times = listWords(taken.map(({ at }) => timeWords(new Date(at))));
  const made = item(times ? `${said}. ${text("drop-times", { times })}` : said);
  made.append(button(text("took-it"), name, "", () => actions.save("drops", { name: drop.name }, { operation: eye.operation })));
  if (taken.length > 0) made.append(button(text("undo"), name, "quiet", () => actions.takeBack([taken.at(-1)], text("undo"))));
  return made;
}

function button(words, name, look, press) {
  const made = document.createElement("button");
  made.className = look;
  made.textContent = words;
  made.setAttribute("aria-label", `${words}: ${name}`);
  onTap(made, press);
  return made;
}

// In their order, what the clinic has of today and what is still on the phone; each entry once.
function takenToday(drop, eye, entries, now) {
  const today = entriesOf(eye, entries).filter(({ kind, at, body }) => kind === "drops" && body.name === drop.name && isoDay(new Date(at)) === isoDay(now));
  return today.sort((a, b) => a.at.localeCompare(b.at));
}
