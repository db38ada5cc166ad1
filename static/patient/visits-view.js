// Visits of every eye: when and where, another time where one does not suit, and a calendar file of them.

import { momentWords } from "../shared/dates.js";
import { RowForm, byId, item, onSubmit, paragraph } from "../shared/dom.js";
import { entriesOf } from "./standing.js";
import { text } from "./texts.js";

export class VisitsView {
  #actions;
  #shown;
  #wish;

  constructor(actions) {
    this.#actions = actions;
    this.#wish = new RowForm("wish", (about, words) => this.#ask(about, words), actions.show, text("say-what-suits"));
    onSubmit(byId("calendar"), () => this.#calendar());
  }

  show(shown) {
    this.#shown = shown;
    byId("calendar-drops").closest("label").hidden = !shown.eyes.some(({ drops }) => drops.length > 0);
    const visits = shown.eyes.flatMap((eye) => eye.visits.map((visit) => ({ eye, visit })));
    visits.sort((a, b) => a.visit.target.localeCompare(b.visit.target));
    const fresh = JSON.stringify(visits.map(({ visit }) => visit));
    this.#wish.redraw(byId("visit-list"), fresh, () => visits.map(({ eye, visit }) => this.#visit(eye, visit)));
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
    const about = { id: visit.id, eye, visit };
    button.addEventListener("click", () => this.#wish.open(about, row));
    row.append(button);
    this.#wish.stand(about, row);
    return row;
  }

  async #ask({ eye, visit }, words) {
    const body = { visit: visit.name, visit_id: visit.id, words };
    const kept = await this.#actions.save("visit-request", body, { operation: eye.operation, beside: byId("visits-told") });
    if (kept) byId("visits-told").textContent = text("told");
    return kept;
  }

  async #calendar() {
    byId("calendar-told").textContent = "";
    try {
      await this.#actions.calendar(this.#shown, byId("calendar-drops").checked);
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
