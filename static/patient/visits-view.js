// Visits and drops of every eye, and everything entered with its three honest states.

import { item, redraw } from "../shared/dom.js";
import { dropRows } from "./drops.js";
import { byId, momentWords, text } from "./texts.js";

export class VisitsView {
  #actions;

  constructor(actions) {
    this.#actions = actions;
  }

  show({ eyes, names, entries }, now = new Date()) {
    const visits = eyes.flatMap((eye) => eye.visits.map((visit) => ({ eye, visit })));
    visits.sort((a, b) => a.visit.target.localeCompare(b.visit.target));
    redraw(byId("visit-list"), visits.map(({ eye, visit }) => this.#visit(eye, visit)));
    const drops = dropRows(eyes, names, entries, this.#actions, now);
    byId("no-drops").hidden = drops.length > 0;
    redraw(byId("drop-list"), drops);
    redraw(byId("entries"), this.#entries(eyes, names, entries));
  }

  #visit(eye, visit) {
    const row = item(this.#actions.visitWords(eye, visit) + (visit.seen ? ` (${text("seen")})` : ""));
    if (visit.seen) return row;
    const button = document.createElement("button");
    button.textContent = text("other-time");
    button.setAttribute("aria-label", `${text("other-time")}: ${this.#actions.visitName(eye, visit)}`);
    button.addEventListener("click", async () => {
      const kept = await this.#actions.save("visit-request", { visit: visit.name }, { operation: eye.operation });
      if (kept) byId("visits-told").textContent = text("told");
    });
    row.append(button);
    return row;
  }

  #entries(eyes, names, entries) {
    const receipts = eyes.flatMap((eye) => eye.receipts.map((receipt) => ({ ...receipt, operation: eye.operation, state: "received" })));
    const looked = new Set(receipts.filter((receipt) => receipt.looked_at).map(({ id }) => id));
    const mine = entries.map(({ id, event, state, reason }) => ({ id, kind: event.kind, at: event.at, operation: event.operation, state, reason }));
    const theirs = receipts.filter((receipt) => !mine.some(({ id }) => id === receipt.id));
    return [...mine, ...theirs].sort((a, b) => b.at.localeCompare(a.at)).slice(0, 60).map((entry) => {
      const state = looked.has(entry.id) ? "looked" : entry.state;
      const eye = names.size > 1 && names.has(entry.operation) ? ` (${names.get(entry.operation)})` : "";
      return item(`${momentWords(new Date(entry.at))}: ${text(`kind-${entry.kind}`)}${eye}. ${text(state, { reason: entry.reason ?? "" })}.`);
    });
  }
}
