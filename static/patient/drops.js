// The rows of today's drops, of every eye that has some: how often they were taken, and a button.

import { item } from "../shared/dom.js";
import { isoDay } from "./hours.js";
import { numberWords, text } from "./texts.js";

export function dropRows(eyes, names, entries, actions, now) {
  return eyes.flatMap((eye) => eye.drops.filter((drop) => drop.until >= isoDay(now)).map((drop) => row(drop, eye, names, entries, actions, now)));
}

function row(drop, eye, names, entries, actions, now) {
  const name = names.size > 1 ? `${drop.name} (${names.get(eye.operation)})` : drop.name;
  const made = item(text("drop", { name, done: numberWords(taken(drop, eye, entries, now)), times: numberWords(drop.times_a_day) }));
  const button = document.createElement("button");
  button.textContent = text("took-it");
  button.setAttribute("aria-label", `${text("took-it")}: ${name}`);
  button.addEventListener("click", () => actions.save("drops", { name: drop.name }, { operation: eye.operation }));
  made.append(button);
  return made;
}

// What the clinic has of today, and what is still on the phone; each entry once.
function taken(drop, eye, entries, now) {
  const isToday = (kind, at, name) => kind === "drops" && name === drop.name && isoDay(new Date(at)) === isoDay(now);
  const ids = new Set(eye.receipts.filter((r) => isToday(r.kind, r.at, r.body.name)).map((r) => r.id));
  for (const { id, event, state } of entries) {
    if (event.operation === eye.operation && state !== "refused" && isToday(event.kind, event.at, event.body.name)) ids.add(id);
  }
  return ids.size;
}
