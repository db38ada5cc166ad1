// Timers that run for an eye or a position without a plan now: on every page until they are stopped.

import { momentWords } from "../shared/dates.js";
import { byId, onTap } from "../shared/dom.js";
import { lastTime } from "./hours.js";
import { text } from "./texts.js";
import { isInDoubt } from "./timers.js";

export class RunningView {
  #actions;
  #words;
  #drawn = "";

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
  }

  show(timers) {
    const list = byId("running");
    list.hidden = timers.length === 0;
    const fresh = JSON.stringify(timers);
    if (fresh === this.#drawn) return; // the button that somebody is about to press stays
    this.#drawn = fresh;
    list.replaceChildren(...timers.map((timer) => this.#row(timer)));
  }

  #row(timer) {
    const made = byId("running-row").content.cloneNode(true).firstElementChild;
    const values = { position: this.#words.posture[timer.position] ?? timer.position, eye: this.#words.eye[timer.eye] ?? "" };
    made.querySelector("p").textContent = text("still-running", { ...values, time: momentWords(new Date(timer.start)) });
    const ask = made.querySelector("form");
    onTap(made.querySelector("button"), () => {
      if (!isInDoubt(timer)) { this.#actions.stopTimer(timer); return; }
      ask.hidden = false;
      ask.querySelector("input").focus();
    });
    ask.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#until(timer, ask);
    });
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
