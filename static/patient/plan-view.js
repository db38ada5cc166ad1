// Now, for all eyes together: which have gas, the next visit, and whether all that can be relied on.

import { isoDay, listWords } from "../shared/dates.js";
import { byId } from "../shared/dom.js";
import { endedWithGas } from "./ended-view.js";
import { text } from "./texts.js";

export class PlanView {
  #actions;
  #words;

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
  }

  // `fault`: why clock and plan cannot be relied on, or null.
  show({ eyes, pack, names, fault }, now = new Date()) {
    const gas = [...eyes.filter((eye) => eye.gas.caution).map((eye) => names.get(eye.operation)), ...endedWithGas(pack, this.#words)];
    byId("gas-card").hidden = gas.length === 0;
    byId("gas-eyes").textContent = text("gas-in", { eye: listWords(gas) });
    const next = this.#next(eyes, now);
    byId("in-doubt").hidden = !fault;
    byId("in-doubt").textContent = fault ? `${text(`why-${fault}`)} ${text("in-doubt")}` : "";
    byId("next-visit").textContent = next || text(fault ? "in-doubt" : "none-planned");
    byId("next-place").textContent = next ? [pack.clinic, pack.place].filter(Boolean).join(", ") : "";
  }

  // All that is on the next day with a visit, whichever eye it is for.
  #next(eyes, now) {
    const open = eyes.flatMap((eye) => eye.visits.filter((visit) => !visit.seen && visit.latest >= isoDay(now)).map((visit) => ({ eye, visit })));
    const first = open.map(({ visit }) => visit.target).sort()[0];
    return open.filter(({ visit }) => visit.target === first).map(({ eye, visit }) => this.#actions.visitWords(eye, visit)).join("\n");
  }
}
