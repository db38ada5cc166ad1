// The entry screen for one eye, with what was last measured beside the fields.

import { dayWords } from "../../shared/dates.js";
import { byId } from "../../shared/dom.js";
import { asksBack, factsOf, showConversions, showHow } from "../measures.js";
import { isDue } from "./sheet.js";

export class FormView {
  #form = byId("entry-form");
  #words;
  #eye;
  #limits;

  #kept = false; // what stands in the form now

  // `table` is the acuity table; `keep(eye, facts)` keeps what was entered and says whether it could: once, also where *Keep* is pressed twice.
  constructor(words, table, keep) {
    this.#words = words;
    this.#form.addEventListener("change", () => showHow(this.#form));
    this.#form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#submit(table, keep);
    });
    showConversions(this.#form, table);
  }

  async #submit(table, keep) {
    const facts = factsOf(this.#form);
    if (this.#kept || asksBack(this.#form, facts, table, this.#limits, this.#visitDoubts())) return;
    this.#kept = true;
    if (!(await keep(this.#eye, facts))) this.#kept = false; // a try that failed may be tried again
  }

  show(eye, { limits, may_lift_caution: mayLift }) {
    [this.#eye, this.#limits, this.#kept] = [eye, limits, false];
    const [form, { eye: words, agent }] = [this.#form, this.#words];
    form.reset();
    byId("wrong").hidden = true;
    byId("entry-title").textContent = `Enter a visit: ${eye.patient}`;
    byId("entry-about").textContent = `${eye.number} · operated: ${words[eye.eye]}, ${agent[eye.agent]}, ${dayWords(eye.operated_on, "short")}`;
    form.elements.visit.replaceChildren(...eye.visits.map(visitOption), new Option("Not a planned visit", ""));
    form.elements.visit.value = eye.visit;
    byId("no-gas").hidden = !eye.fades || !mayLift;
    for (const side of ["right", "left"]) this.#showSide(side, eye[side]);
    showHow(form);
    byId("right-acuity").focus();
  }

  #showSide(side, last) {
    const [form, operated] = [this.#form, side === this.#eye.eye];
    form.querySelector(`[data-side=${side}]`).classList.toggle("operated", operated);
    for (const part of form.querySelectorAll(`[data-side=${side}] :is(.operated-mark, .operated-only)`)) part.hidden = !operated;
    if (last?.correction) form.elements[`${side}-correction`].value = last.correction;
    form.elements[`${side}-notation`].value = this.#eye.chart;
    if (last?.instrument) form.elements[`${side}-instrument`].value = last.instrument;
    byId(`${side}-acuity-hint`).textContent = last?.acuity ? `last: ${last.acuity} ${last.correction}` : "6/12, 70 letters, CF";
    byId(`${side}-iop-hint`).textContent = last?.iop_mmhg != null ? `last: ${last.iop_mmhg} mmHg` : "mmHg, or write kPa";
    form.querySelector(`output[data-field=${side}-acuity]`).dataset.last = last?.acuity ?? "";
    byId(`${side}-pinhole-hint`).textContent = last?.pinhole ? `last: ${last.pinhole}` : "if read too";
    for (const output of form.querySelectorAll(`[data-side=${side}] output`)) output.textContent = "";
  }

  // A visit that is entered on a day outside its window.
  #visitDoubts() {
    const visit = this.#eye.visits.find(({ id }) => id === this.#form.elements.visit.value);
    if (!visit || isDue(visit)) return [];
    const [from, to] = [visit.earliest, visit.latest].map((day) => dayWords(day, "short"));
    return [`${visit.name} is due ${from} to ${to}: is it this visit that takes place today?`];
  }
}

function visitOption({ id, name, target }) {
  const made = new Option(`${name}, ${dayWords(target, "short")}`, id);
  made.dataset.name = name;
  return made;
}
