// Visits of every eye.

import { item, redraw } from "../shared/dom.js";
import { byId, text } from "./texts.js";

export class VisitsView {
  #actions;

  constructor(actions) {
    this.#actions = actions;
  }

  show({ eyes }) {
    const visits = eyes.flatMap((eye) => eye.visits.map((visit) => ({ eye, visit })));
    visits.sort((a, b) => a.visit.target.localeCompare(b.visit.target));
    redraw(byId("visit-list"), visits.map(({ eye, visit }) => this.#visit(eye, visit)));
  }

  #visit(eye, visit) {
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
    return row;
  }
}
