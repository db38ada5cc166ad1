// Visits and drops, and everything entered with its three honest states.

import { item, redraw } from "../shared/dom.js";
import { isoDay } from "./hours.js";
import { byId, momentWords, numberWords, text } from "./texts.js";

export class VisitsView {
  #actions;

  constructor(actions) {
    this.#actions = actions;
  }

  show({ eye, entries }, now = new Date()) {
    redraw(byId("visit-list"), eye.visits.map((visit) => this.#visit(visit)));
    const drops = eye.drops.filter((drop) => drop.until >= isoDay(now));
    byId("no-drops").hidden = drops.length > 0;
    redraw(byId("drop-list"), drops.map((drop) => this.#drop(drop, eye, entries, now)));
    redraw(byId("entries"), this.#entries(eye, entries));
  }

  #visit(visit) {
    const row = item(this.#actions.visitWords(visit) + (visit.seen ? ` (${text("seen")})` : ""));
    if (visit.seen) return row;
    row.append(this.#button(text("other-time"), visit.words, async () => {
      if (await this.#actions.save("visit-request", { visit: visit.name })) byId("visits-told").textContent = text("told");
    }));
    return row;
  }

  #button(words, what, act) {
    const button = document.createElement("button");
    button.textContent = words;
    button.setAttribute("aria-label", `${words}: ${what}`);
    button.addEventListener("click", act);
    return button;
  }

  #drop(drop, eye, entries, now) {
    const ids = new Set();
    const isToday = (kind, at, name) => kind === "drops" && name === drop.name && isoDay(new Date(at)) === isoDay(now);
    for (const r of eye.receipts) if (isToday(r.kind, r.at, r.body.name)) ids.add(r.id);
    for (const { id, event, state } of entries) if (state !== "refused" && isToday(event.kind, event.at, event.body.name)) ids.add(id);
    const row = item(text("drop", { name: drop.name, done: numberWords(ids.size), times: numberWords(drop.times_a_day) }));
    row.append(this.#button(text("took-it"), drop.name, () => this.#actions.save("drops", { name: drop.name })));
    return row;
  }

  #entries(eye, entries) {
    const looked = new Map(eye.receipts.map((receipt) => [receipt.id, receipt.looked_at]));
    const mine = entries.map(({ id, event, state, reason }) => ({ id, kind: event.kind, at: event.at, state, reason }));
    const theirs = eye.receipts.filter((r) => !mine.some((m) => m.id === r.id)).map((r) => ({ ...r, state: "received" }));
    return [...mine, ...theirs].sort((a, b) => b.at.localeCompare(a.at)).slice(0, 60).map((entry) => {
      const state = looked.get(entry.id) ? "looked" : entry.state;
      return item(`${momentWords(new Date(entry.at))}: ${text(`kind-${entry.kind}`)}. ${text(state, { reason: entry.reason ?? "" })}.`);
    });
  }
}
