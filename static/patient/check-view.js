// Check: one question a screen, and back; what is dangerous is answered at once by the phone from the clinic's rules.

import { faultOf } from "../shared/clock.js";
import { momentWords, numberWords } from "../shared/dates.js";
import { DOUBLE_TAP_MS, byId } from "../shared/dom.js";
import { isOver } from "./draft.js";
import { bodyOf, isTicked, restOf, SCREENS, SIGNS, ticked } from "./questions.js";
import { judge } from "./rules.js";
import { checksOf } from "./second-looks.js";
import { text } from "./texts.js";
import { keepVerdict, REASSURES_MS } from "./verdict-view.js";

const isEmpty = (answers) => Object.keys(answers).length === 0;

export class CheckView {
  #actions;
  #form = byId("symptoms");
  #words = byId("symptom-words");
  #chosen = {};
  #screen = null; // the first one
  #entries = [];
  #names = new Map();
  #done = null; // { at, well, id } once the check is kept
  #saving = false;
  #touchedAt = Date.now();
  #resting = new Set(); // questions just answered

  constructor(actions) {
    this.#actions = actions;
    this.#form.addEventListener("click", (event) => this.#pressed(event));
    this.#form.addEventListener("change", (event) => this.#ticked(event.target));
    this.#form.addEventListener("submit", (event) => this.#submit(event));
    this.#words.addEventListener("input", () => this.#touched());
    byId("check-back").addEventListener("click", (event) => this.#go(-1, event));
    for (const id of ["check-stop", "so-far-send"]) byId(id).addEventListener("click", () => this.#stop());
    byId("check-again").addEventListener("click", () => this.again());
  }

  /**
   * What was half typed when the page was last open.
   * @param {import("./draft.js").Draft} draft
   */
  take({ chosen, words, screen, kept_at: keptAt = Date.now() }) {
    [this.#chosen, this.#screen, this.#words.value, this.#touchedAt] = [chosen, screen ?? null, words, keptAt];
    byId("words-from").hidden = true;
  }

  show({ entries, names }) {
    this.#entries = entries;
    this.#offerEyes(names);
    if (isOver(this.#touchedAt)) this.#letGo();
    if (this.#done && Math.abs(Date.now() - this.#done.at) > REASSURES_MS) this.#done = null;
    this.#draw();
  }

  // Answers are no longer about the eye as it is; what called for somebody is kept, as a check that was not finished.
  #letGo() {
    const [at, operation, answers] = [this.#touchedAt, this.#chosen.eye ?? this.#operation, bodyOf(this.#chosen)];
    [this.#chosen, this.#screen] = [{}, null];
    byId("words-from").hidden = !this.#words.value;
    byId("words-from").textContent = text("words-from", { when: momentWords(new Date(at)) });
    if (["now", "today"].includes(this.#soFar(operation, answers, at).level)) this.#keep(operation, answers, at);
  }

  // What was said of the last check is over: the questions again.
  again() {
    if (!this.#done) return;
    this.#done = null;
    this.#draw();
    this.#focus();
  }

  get #screens() {
    return SCREENS.filter((name) => name !== "eye" || this.#names.size > 1);
  }

  get #current() {
    return this.#screens.includes(this.#screen) ? this.#screen : this.#screens[0];
  }

  get #operation() {
    return this.#names.size > 1 ? this.#chosen.eye : [...this.#names.keys()][0];
  }

  #offerEyes(names) {
    const same = JSON.stringify([...names]) === JSON.stringify([...this.#names]);
    this.#names = names;
    if (this.#chosen.eye !== undefined && !names.has(this.#chosen.eye)) this.#letGo();
    if (!this.#operation) this.#screen = null; // a second eye came in the middle of a check: which one is this about?
    if (same) return;
    byId("check-eyes").replaceChildren(...[...names].map(([operation, name]) => {
      const made = byId("check-eye-option").content.cloneNode(true).firstElementChild;
      made.setAttribute("value", operation);
      made.textContent = name;
      return made;
    }));
  }

  #pressed(event) {
    const button = event.target.closest("button[value]");
    if (!button) return;
    const { question } = button.dataset;
    this.#chosen = question ? { ...this.#chosen, [question]: button.value } : restOf(this.#chosen, this.#current, button.value);
    this.#go(1, event);
  }

  #ticked(box) {
    if (box.type !== "checkbox") return;
    this.#chosen = ticked(this.#chosen, box.name, box.checked);
    this.#touched();
    this.#draw();
  }

  #go(step, event) {
    this.#screen = this.#screens[this.#screens.indexOf(this.#current) + step] ?? this.#current;
    this.#touched();
    this.#draw();
    this.#focus();
    if (event.detail > 0) this.#rest(this.#field());
  }

  #touched() {
    this.#touchedAt = Date.now();
    this.#actions.keepDraft({ chosen: this.#chosen, words: this.#words.value, screen: this.#current, kept_at: this.#touchedAt });
  }

  #submit(event) {
    event.preventDefault();
    this.#save();
  }

  // What was written before is not sent without having been seen now.
  #stop() {
    if (!this.#words.value.trim()) { this.#save(); return; }
    location.hash = "check";
    this.#screen = "words";
    this.#draw();
    this.#focus();
  }

  // Saves once, however often it is pressed.
  async #save() {
    if (this.#saving) return;
    this.#saving = true;
    try {
      await this.#keep(this.#operation, bodyOf(this.#chosen, this.#words.value));
    } finally {
      this.#saving = false;
    }
  }

  // Answers of now, or those that are let go: another tab may have kept them already.
  async #keep(operation, answers, touchedAt = null) {
    const at = touchedAt ?? Date.now();
    const missed = this.#missed(operation, answers);
    const verdict = { ...this.#judged(operation, answers, at), at: new Date(at).toISOString() };
    const well = verdict.level === "well";
    if (!well) this.#actions.say(operation, { ...verdict, missed: answers });
    const left = [];
    for (const one of missed) if (!(await this.#saved(operation, one.missed, one))) left.push(one);
    const kept = await this.#saved(operation, answers, verdict, (facts, keep) => {
      facts.get("draft").onsuccess = ({ target: { result } }) => {
        const same = result?.kept_at === touchedAt;
        if (same && isEmpty(bodyOf(result))) return;
        if (same) facts.put({ words: result.words, kept_at: touchedAt }, "draft");
        if (!touchedAt) facts.delete("draft"); // a page closed from here on does not bring these answers back
        keep();
      };
    });
    if (kept) {
      if (!touchedAt) {
        this.take({ chosen: {}, words: "" });
        this.#done = { at, well, id: kept[0]?.id };
      }
      this.#actions.verdictKept(operation, left);
      this.#draw();
      if (well) byId("check-done").focus();
    } else if (!well) {
      await this.#actions.change((facts) => keepVerdict(facts, operation, { ...verdict, missed: answers }, this.#actions.waits)).catch(() => {});
    }
  }

  #saved(operation, answers, verdict, beside = (_facts, keep) => keep()) {
    const alongside = (facts, keep, { id }) => beside(facts, () => {
      keepVerdict(facts, operation, { ...verdict, missed: undefined, entry: id }, this.#actions.waits);
      keep();
    });
    return this.#actions.save("symptoms", answers, { operation, alongside, at: new Date(verdict.at) });
  }

  // What earlier checks called for that could not be kept, but for one with these answers: they go with the next one.
  #missed(operation, answers) {
    return this.#actions.missed(operation).filter(({ missed }) => JSON.stringify(missed) !== JSON.stringify(answers));
  }

  #judged(operation, answers, now, beside = {}) {
    const [eyes, receipt] = [this.#actions.eyes(), this.#actions.receipt()];
    const missed = this.#missed(operation, answers).map((one) => ({ at: Date.parse(one.at), answers: one.missed }));
    const earlier = [...checksOf(operation, this.#entries, eyes, receipt), ...missed];
    return judge(eyes, answers, receipt, now, earlier.map((one) => ({ ...one, ...beside })).sort((a, b) => a.at - b.at));
  }

  // What answers say by themselves, whatever other phones told.
  #soFar(operation, answers, at = Date.now()) {
    return operation && !isEmpty(answers) ? this.#judged(operation, answers, at, { calling: false, unseen: false }) : {};
  }

  // Whether what reassured would still be said: by this check and all since, of either eye and whatever phone, and by what another
  // phone told before and the clinic has not answered.
  #isStillWell() {
    const [{ id, at }, eyes, receipt] = [this.#done, this.#actions.eyes(), this.#actions.receipt()];
    const checks = eyes.flatMap(({ operation }) => checksOf(operation, this.#entries, eyes, receipt).map((check, n, all) => (
      { ...check, ...judge(eyes, check.answers, receipt, check.at, all.slice(0, n)) }
    )));
    const counts = (check) => check.id === id || check.at >= at || check.calling || (check.unseen && check.reasons.includes("not-well"));
    return !faultOf(receipt) && checks.some((check) => check.id === id) && checks.every((check) => check.level === "well" || !counts(check));
  }

  #field() {
    return this.#form.querySelector(`[data-screen="${this.#current}"]`);
  }

  #focus() {
    const heading = this.#field().querySelector("h2");
    heading.focus({ preventScroll: true });
    byId(byId("so-far").hidden ? "symptoms" : "verdict").scrollIntoView({ block: "start" });
  }

  #draw() {
    const [screens, current] = [this.#screens, this.#current];
    byId("check-done").hidden = this.#done === null;
    if (this.#done?.well && !this.#isStillWell()) this.#done.well = false;
    const well = Boolean(this.#done?.well) && !this.#actions.verdictStands();
    byId("all-well").hidden = !well;
    byId("check-kept").hidden = this.#done === null || well;
    this.#form.hidden = this.#done !== null;
    for (const field of this.#form.querySelectorAll("[data-screen]")) {
      field.hidden = field.dataset.screen !== current;
      if (field.hidden) field.disabled = true; // its button answers no Enter key
      else if (!this.#resting.has(field)) field.disabled = false;
    }
    for (const button of this.#form.querySelectorAll("[data-question]")) {
      button.setAttribute("aria-pressed", String(this.#chosen[button.dataset.question] === button.value));
    }
    for (const box of this.#form.querySelectorAll("input[type=checkbox]")) box.checked = isTicked(this.#chosen, box.name);
    for (const [name, signs] of Object.entries(SIGNS)) {
      const some = signs.some((sign) => isTicked(this.#chosen, sign));
      this.#form.querySelector(`[data-screen="${name}"] [value=none]`).textContent = text(some ? "no-more" : "none-of-these");
    }
    const values = { n: numberWords(screens.indexOf(current) + 1), all: numberWords(screens.length) };
    byId("check-step").textContent = text("question-of", values);
    byId("check-back").hidden = current === screens[0];
    const answers = bodyOf(this.#chosen);
    byId("check-stop").hidden = current === "words" || !this.#operation || isEmpty(answers);
    // What cannot wait for the last question, on every page.
    this.#actions.say(this.#operation, { ...(!this.#saving && this.#soFar(this.#operation, answers)), so_far: true });
  }

  // The second tap of a double one answers nothing.
  #rest(field) {
    this.#resting.add(field);
    field.disabled = true;
    setTimeout(() => {
      this.#resting.delete(field);
      field.disabled = field.hidden;
    }, DOUBLE_TAP_MS);
  }
}
