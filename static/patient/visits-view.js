// Visits and drops of every eye.

import { item, redraw } from "../shared/dom.js";
import { dropRows } from "./drops.js";
import { entriesOf } from "./standing.js";
import { byId, momentWords, text } from "./texts.js";

export class VisitsView {
  #actions;

  constructor(actions) {
    this.#actions = actions;
  }

  show({ eyes, names, entries }, now = new Date()) {
    const visits = eyes.flatMap((eye) => eye.visits.map((visit) => ({ eye, visit })));
    visits.sort((a, b) => a.visit.target.localeCompare(b.visit.target));
    redraw(byId("visit-list"), visits.map(({ eye, visit }) => this.#visit(eye, visit, entries)));
    const drops = dropRows(eyes, names, entries, this.#actions, now);
    byId("no-drops").hidden = drops.length > 0;
    redraw(byId("drop-list"), drops);
  }

  #visit(eye, visit, entries) {
    const row = item(this.#actions.visitWords(eye, visit) + (visit.seen ? ` (${text("seen")})` : ""));
    if (visit.seen) return row;
    const button = document.createElement("button");
    button.textContent = text("other-time");
    button.setAttribute("aria-label", `${text("other-time")}: ${this.#actions.visitName(eye, visit)}`);
    button.addEventListener("click", async () => {
      const kept = await this.#actions.save("visit-request", { visit: visit.name }, { operation: eye.operation, beside: byId("visits-told") });
      if (kept) byId("visits-told").textContent = text("told");
    });
    row.append(button);
    const asked = lastWish(eye, visit, entries);
    if (asked) {
      const said = document.createElement("p");
      said.className = "asked";
      said.textContent = `${text("asked-time", { when: momentWords(new Date(asked.at)) })} ${text(asked.state)}.`;
      row.append(said);
    }
    return row;
  }
}

// The latest wish for another time of a visit that stands, and whether the clinic has it; undefined where there is none.
export function lastWish(eye, visit, entries) {
  return entriesOf(eye, entries).filter(({ kind, body }) => kind === "visit-request" && body.visit === visit.name)
    .sort((a, b) => a.at.localeCompare(b.at)).at(-1);
}
