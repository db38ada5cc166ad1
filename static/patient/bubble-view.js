// Bubble: what the patient sees, the forecast, and the card for an anaesthetist.

import { dayWords, isoDay, metresWords, percentWords } from "../shared/dates.js";
import { byId, item, onSubmit, paragraph } from "../shared/dom.js";
import { endedWithGas } from "./plan-view.js";
import { text } from "./texts.js";
import { dress, JUDGED, REASSURES_MS, reasonsOf, titleOf } from "./verdict-view.js";

const STEP = 5;
const OIL_VISIT = "list for oil removal"; // as the review protocol names it

const isOil = ({ gas }) => /(^|-)silicone-oil$/.test(gas.agent);

export class BubbleView {
  #actions;
  #words;
  #eyes = []; // also those with gas that are followed no more: there are no rules for them
  #holds = null; // whether what reassured would still be said

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
    const level = byId("bubble-level");
    level.addEventListener("input", () => this.#draw());
    byId("bubble-less").addEventListener("click", () => { level.value = String(Number(level.value) - STEP); this.#draw(); });
    byId("bubble-more").addEventListener("click", () => { level.value = String(Number(level.value) + STEP); this.#draw(); });
    onSubmit(byId("bubble-seen"), (beside) => actions.save("bubble-seen", { percent: Number(level.value) }, { beside }));
    onSubmit(byId("journey"), () => this.#journey());
    onSubmit(byId("anaesthetic"), () => this.#tell("anaesthetic", {}));
    this.#draw();
  }

  // The bubble is that of the eye chosen; the card and the journey are about every eye with gas.
  show({ eye, eyes, names, pack, fault }, now = new Date()) {
    const gas = eyes.filter((known) => known.gas.caution);
    const ended = endedWithGas(pack, this.#words);
    this.#eyes = [...eyes, ...ended.map(() => ({ gas: { caution: true } }))];
    if (this.#holds?.() === false) byId("journey-said").hidden = true;
    byId("bubble-card").hidden = !eye.gas.caution;
    byId("no-bubble").hidden = eye.gas.caution || isOil(eye);
    this.#oil(eye, eyes);
    byId("anaesthetist").hidden = gas.length + ended.length === 0;
    byId("anaesthetist-eyes").replaceChildren(...gas.map((known) => this.#inside(known, names)), ...ended.map(item));
    if (!eye.gas.caution) return;
    const today = fault ? null : eye.bubble.find((day) => day.date >= isoDay(now)) ?? eye.bubble.at(-1);
    const clear = eye.gas.clear_of_sight ? dayWords(eye.gas.clear_of_sight) : "–";
    byId("bubble-forecast").textContent = today ? text("bubble-now", { now: percentWords(today.meniscus_percent), clear }) : "";
  }

  // Oil fades by nothing: what counts is when it comes out.
  #oil(eye, eyes) {
    const only = eyes.some(isOil) && !eyes.some((known) => known.gas.caution);
    byId("bubble-title").textContent = text(isOil(eye) ? "the-oil" : "the-bubble");
    byId("bubble-tab").textContent = text(only ? "oil" : "bubble");
    byId("oil").hidden = !isOil(eye);
    const planned = eye.visits.find(({ name, seen }) => name === OIL_VISIT && !seen);
    byId("oil-removal").textContent = planned ? text("oil-removal", { day: dayWords(planned.target) }) : text("oil-no-day");
  }

  // What is in an eye, and until when it is expected there.
  #inside(eye, names) {
    const row = item(`${names.get(eye.operation)}: ${this.#words.agent[eye.gas.agent]}`);
    const { gone_from: from, gone_to: to } = eye.gas;
    const gone = document.createElement("p");
    gone.textContent = from && to ? text("gone", { from: dayWords(from), to: dayWords(to) }) : "";
    row.append(gone);
    return row;
  }

  #draw() {
    const value = byId("bubble-level").value;
    byId("bubble-value").textContent = percentWords(value);
    byId("bubble-fill").style.height = `${value}%`;
  }

  // What calls stays beside a height that cannot be read.
  async #journey() {
    const typed = ["journey-home", "journey-height"].map((id) => byId(id).value.trim());
    const heights = (typed[0] ? typed : typed.slice(1)).map(metresIn);
    const wrong = !heights.every((height) => height >= -430 && height <= 11000);
    byId("journey-error").textContent = wrong ? text("metres") : "";
    if (wrong) {
      if (this.#holds && typed.join("")) byId("journey-said").hidden = true;
      return;
    }
    if (await this.#tell("journey", { heights_metres: heights }, [paragraph(`${metresWords(heights)}:`)])) byId("journey").reset();
  }

  // What the rulebook says, at once and before anything is kept or sent. Once it is kept it stands on top of the page too, and
  // the answer stays in view.
  async #tell(kind, body, about = []) {
    const judged = () => JUDGED[kind](this.#eyes, this.#actions.receipt(), body);
    const [verdict, at, said] = [judged(), Date.now(), byId("journey-said")];
    const well = this.#well(verdict);
    this.#holds = well && (() => Math.abs(Date.now() - at) < REASSURES_MS && this.#well(judged()) === well);
    byId("journey-title").textContent = well ? "" : titleOf(verdict);
    byId("journey-words").replaceChildren(...about, ...(well ? [paragraph(well)] : reasonsOf(verdict)));
    dress(said, "journey", [{ ...verdict, kind }]);
    said.hidden = false;
    said.focus();
    const kept = await this.#actions.save(kind, body, { beside: said });
    if (kept) said.scrollIntoView({ block: "nearest" });
    return kept;
  }

  // What reassures, or null.
  #well({ level }) {
    const gas = this.#eyes.map((eye) => eye.gas);
    const lifted = gas.some((one) => one.fades) ? "caution-lifted" : "no-gas";
    return level === "well" ? text(gas.some((one) => one.caution) ? "journey-low" : lifted) : null;
  }
}

// A height as people type it, in whole metres, with or without a mark of thousands, also in Arabic digits; else NaN.
function metresIn(typed) {
  const plain = typed.replace(/[٠-٩۰-۹]/g, (digit) => String(digit.charCodeAt(0) % 16)).replace("\u2212", "-");
  return /^-?(\d+|[1-9]\d?[.,'’٬،\s]\d{3})(\s?m)?$/.test(plain) ? Number(plain.replace(/[^-\d]/g, "")) : NaN;
}
