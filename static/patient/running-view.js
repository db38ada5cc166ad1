// Timers that run for an eye or a position without a plan now: on every page until they are stopped.

import { byId, momentWords, text } from "./texts.js";

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
    made.querySelector("button").addEventListener("click", () => this.#actions.stopTimer(timer));
    return made;
  }
}
