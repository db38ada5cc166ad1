// On every page: timers that run for an eye or a position without a plan now, until they are stopped; and timers and entries of
// which nobody can tell how long they were, until the person says so.

import { momentWords } from "../shared/dates.js";
import { Taps, byId, onSubmit } from "../shared/dom.js";
import { lastTime, minutesOf } from "./hours.js";
import { text } from "./texts.js";
import { isInDoubt } from "./timers.js";

const LONGEST_MINUTES = 24 * 60; // of one stretch: the core takes no longer one

export class RunningView {
  #actions;
  #words;
  #taps = new Taps();
  #rows = new Map(); // what each row is about, and the row

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
  }

  // `unsure` are timers, and entries (with their `body`) as the clinic has them.
  show(timers, unsure) {
    const list = byId("running");
    list.hidden = timers.length + unsure.length === 0;
    const wanted = new Map([
      ...unsure.map((one) => [JSON.stringify(["unsure", one]), () => this.#question(one)]),
      ...timers.map((timer) => [JSON.stringify(["runs", timer]), () => this.#row(timer)]),
    ]);
    // What somebody is about to press or types in stays, whatever comes beside it.
    for (const [about, row] of this.#rows) {
      if (wanted.has(about)) continue;
      row.remove();
      this.#rows.delete(about);
    }
    for (const [about, make] of wanted) {
      if (this.#rows.has(about)) continue;
      this.#rows.set(about, make());
      list.append(this.#rows.get(about));
    }
  }

  #question(one) {
    const made = byId("how-long-row").content.cloneNode(true).firstElementChild;
    made.setAttribute("data-entry", one.id ?? ""); // none: a timer
    const { position } = one.body ?? one;
    const values = { position: this.#words.posture[position] ?? position, eye: this.#words.eye[one.eye] ?? "" };
    const time = momentWords(new Date(one.body?.to ?? one.start));
    made.querySelector("legend").textContent = text(one.body ? "how-long-was" : "how-long-ran", { ...values, time });
    const [hours, minutes] = made.querySelectorAll("input");
    if (one.body) [hours.value, minutes.value] = [Math.floor(minutesOf(one.body) / 60), minutesOf(one.body) % 60].map(String);
    onSubmit(made.querySelector("form"), async () => {
      const said = 60 * Number(hours.value) + Number(minutes.value);
      const fits = (hours.value || minutes.value) && said >= 0 && said <= LONGEST_MINUTES;
      made.querySelector(".error").textContent = fits ? "" : text("how-long");
      if (fits) await (one.body ? this.#actions.lasted(one, said) : this.#actions.ran(one, said));
    });
    return made;
  }

  #row(timer) {
    const made = byId("running-row").content.cloneNode(true).firstElementChild;
    const values = { position: this.#words.posture[timer.position] ?? timer.position, eye: this.#words.eye[timer.eye] ?? "" };
    made.querySelector("p").textContent = text("still-running", { ...values, time: momentWords(new Date(timer.start)) });
    const ask = made.querySelector("form");
    this.#taps.on(made.querySelector("button"), () => {
      if (!isInDoubt(timer)) { this.#actions.stopTimer(timer); return; }
      ask.hidden = false;
      ask.querySelector("input").focus();
    });
    onSubmit(ask, () => this.#until(timer, ask));
    return made;
  }

  // Nobody knows any more since when it runs for nothing: they say until when they lay so.
  async #until(timer, ask) {
    const time = ask.querySelector("input").value;
    const until = time && lastTime(time);
    const wrong = !time ? "hours" : until <= new Date(timer.start) ? "order" : "";
    ask.querySelector(".error").textContent = wrong && text(wrong);
    if (!wrong) await this.#actions.stopTimer(timer, until);
  }
}

// There it is said that the person has to say first how long it was.
export function goToQuestion() {
  document.querySelector("#running input[type=number]")?.focus();
}
