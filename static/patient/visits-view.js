// Visits of every eye: when and where, another time where one does not suit, and a calendar file of them.

import { momentWords } from "../shared/dates.js";
import { byId, item, onSubmit, paragraph, redraw } from "../shared/dom.js";
import { entriesOf } from "./standing.js";
import { text } from "./texts.js";

export class VisitsView {
  #actions;
  #shown;
  #asking = null; // { eye, visit } for which another time is asked
  #drawn;

  constructor(actions) {
    this.#actions = actions;
    onSubmit(byId("wish"), () => this.#ask());
    byId("wish-not").addEventListener("click", () => this.#close());
    onSubmit(byId("calendar"), () => this.#calendar());
  }

  show(shown) {
    this.#shown = shown;
    byId("calendar-drops").closest("label").hidden = !shown.eyes.some(({ drops }) => drops.length > 0);
    const visits = shown.eyes.flatMap((eye) => eye.visits.map((visit) => ({ eye, visit })));
    visits.sort((a, b) => a.visit.target.localeCompare(b.visit.target));
    const fresh = JSON.stringify(visits.map(({ visit }) => visit));
    if (this.#asking && fresh === this.#drawn) return; // nobody loses the field that they are typing in
    this.#drawn = fresh;
    byId("visit-list").after(byId("wish")); // the list is drawn anew
    redraw(byId("visit-list"), visits.map(({ eye, visit }) => this.#visit(eye, visit)));
  }

  #visit(eye, visit) {
    const row = item(this.#actions.visitWords(eye, visit) + (visit.seen ? ` (${text("seen")})` : ""));
    if (visit.seen) return row;
    const wish = wishOf(eye, visit, this.#shown);
    if (wish) row.append(paragraph(text("wished", { when: momentWords(new Date(wish.at)), state: text(wish.state) })), ...(wish.words ? [paragraph(`“${wish.words}”`)] : []));
    const button = document.createElement("button");
    button.textContent = text("other-time");
    button.className = "quiet";
    button.setAttribute("aria-label", `${text("other-time")}: ${this.#actions.visitName(eye, visit)}`);
    button.addEventListener("click", () => {
      this.#asking = { eye, visit };
      row.append(byId("wish"));
      byId("wish").hidden = false;
      byId("wish-words").focus();
    });
    row.append(button);
    return row;
  }

  async #ask() {
    const { eye, visit } = this.#asking;
    const body = { visit: visit.name, visit_id: visit.id, words: byId("wish-words").value.trim() };
    byId("wish-error").textContent = body.words ? "" : text("say-what-suits");
    if (!body.words) return;
    const kept = await this.#actions.save("visit-request", body, { operation: eye.operation, beside: byId("visits-told") });
    if (!kept) return;
    byId("visits-told").textContent = text("told");
    this.#close();
  }

  #close() {
    this.#asking = null;
    byId("wish").hidden = true;
    byId("wish").reset();
    byId("wish-error").textContent = "";
    this.#actions.show();
  }

  async #calendar() {
    byId("calendar-told").textContent = "";
    try {
      const words = await this.#actions.calendar(this.#shown, byId("calendar-drops").checked);
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([words], { type: "text/calendar" }));
      link.download = "followup.ics";
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 60000);
      byId("calendar-told").textContent = text("calendar-made");
    } catch {
      byId("calendar-told").textContent = text("not-sent");
    }
  }
}

// What was asked of a visit and is not answered: on this phone, or as the clinic has it.
export function wishOf(eye, visit, { entries, pack }) {
  const isIt = ({ visit_id: id, visit: name }) => (id ? id === visit.id : name === visit.name); // of an earlier version: by name
  const mine = entriesOf(eye, entries).filter(({ kind, body }) => kind === "visit-request" && isIt(body));
  const fresh = mine.filter(({ state, at }) => state === "saved" || Date.parse(at) > Date.parse(pack.made_at));
  const last = fresh.sort((a, b) => a.at.localeCompare(b.at)).at(-1);
  if (last) return { at: last.at, words: last.body.words ?? "", state: last.state };
  return visit.wish ? { ...visit.wish, state: "received" } : null;
}
