// Now, for all eyes together: which have gas, the next visit, and whether all that can be relied on. And what is over: a follow-up
// that has ended (the gas caution stays), or a phone that was closed; and by whom. Whom to call stays.

import { dayWords, isoDay, listWords } from "../shared/dates.js";
import { byId } from "../shared/dom.js";
import { countedText, text } from "./texts.js";

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
    const [next, past] = this.#visits(eyes, isoDay(now));
    byId("in-doubt").hidden = !fault;
    byId("in-doubt").textContent = fault ? `${text(`why-${fault}`)} ${text("in-doubt")}` : "";
    byId("next-visit").textContent = next || past || text(fault ? "in-doubt" : "none-planned");
    const place = next && [pack.clinic, pack.place].filter(Boolean).join(", ");
    byId("next-place").textContent = [place, next && past].filter(Boolean).join("\n");
  }

  // In words, whichever eye they are for: all on the next day with a visit, and those whose day is over that may still be made up for.
  #visits(eyes, today) {
    const open = eyes.flatMap((eye) => eye.visits.filter(({ seen, latest }) => !seen && latest >= today).map((visit) => ({ eye, visit })));
    const first = open.map(({ visit }) => visit.target).filter((day) => day >= today).sort()[0];
    const said = (one) => this.#actions.visitWords(one.eye, one.visit);
    return [
      open.filter(({ visit }) => visit.target === first).map(said).join("\n"),
      open.filter(({ visit }) => visit.target < today).map((one) => text("visit-over", { visit: said(one) })).join("\n"),
    ];
  }
}

// Says which eyes are followed no more. True where none is followed: then that is all there is to show.
export function showEnded(pack, words, locked) {
  const ended = pack?.ended ?? [];
  const said = ended.map(({ eye, ended_on: on }) => text("ended", { eye: words.eye[eye], day: dayWords(on) })).join(" ");
  const over = ended.length > 0 && !pack.eyes.length && !locked;
  byId("ended").hidden = !over;
  byId("ended-words").textContent = said;
  byId("ended-beside").hidden = over || !ended.length;
  byId("ended-beside").textContent = said;
  const gas = endedWithGas(pack, words);
  byId("ended-gas").hidden = gas.length === 0;
  byId("ended-gas-eyes").textContent = text("gas-in", { eye: listWords(gas) });
  return over;
}

// Says who closed this phone ("clinic" or "patient", null: nobody), and how many entries are still sealed on it.
export function showClosed(by, kept) {
  byId("locked").hidden = by === null;
  byId("closed-by-clinic").hidden = by === "patient";
  byId("closed-by-patient").hidden = by !== "patient";
  byId("sealed-here").hidden = kept === 0;
  byId("sealed-count").textContent = kept ? countedText("to-send", kept) : "";
}

// The words for the eyes that are followed no more and in which gas may be left: only a clinician can say that it is gone.
export function endedWithGas(pack, words) {
  return (pack?.ended ?? []).filter(({ caution }) => caution).map(({ eye }) => words.eye[eye]);
}
