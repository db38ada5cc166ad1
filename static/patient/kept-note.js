// Beside what was tapped: that it is saved on this phone, and a button to undo it. One at a time, until the page is left.

import { byId } from "./texts.js";

export class KeptNote {
  #box = byId("kept");
  #undo = null;

  constructor() {
    byId("undo").addEventListener("click", () => this.#pressed());
  }

  // `undo()` takes back what was kept.
  show(anchor, undo) {
    this.#undo = undo;
    anchor.after(this.#box);
    this.#box.hidden = false;
  }

  hide() {
    this.#undo = null;
    this.#box.hidden = true;
  }

  async #pressed() {
    const undo = this.#undo;
    this.hide();
    await undo?.();
  }
}
