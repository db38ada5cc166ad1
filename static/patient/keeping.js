// Keeps what was tapped, once, and takes it back. Beside what was tapped it says that it is saved on this phone, with a button
// to undo it: one at a time, until the page is left.

import { DOUBLE_TAP_MS, byId } from "../shared/dom.js";
import { text } from "./texts.js";

export class Keeping {
  #outbox;
  #page;
  #last = { said: "", at: 0, kept: null };
  #note = byId("kept");
  #undo = null;

  // `page` knows `about(kind)`, the operations that an entry is about which names no eye, who uses the phone (`usedBy()`), and
  // how to `show()` what is kept.
  constructor(outbox, page) {
    this.#outbox = outbox;
    this.#page = page;
    byId("undo").addEventListener("click", () => this.#pressed());
  }

  /**
   * Keeps an entry for each eye that it is about; resolves with them, or with null. The second of a double tap keeps nothing
   * more. `beside` is what was tapped: there it says that it is saved.
   * @type {(kind: string, body: object, about?: { operation?: string, beside?: HTMLElement, [option: string]: any }) => Promise<any>}
   */
  save(kind, body, { operation, beside, ...options } = {}) {
    const operations = operation ? [operation] : this.#page.about(kind);
    const said = JSON.stringify([kind, operations, body, options.corrects]);
    const now = performance.now();
    if (this.#last.said === said && now - this.#last.at < DOUBLE_TAP_MS) return this.#last.kept;
    this.#last = { said, at: now, kept: this.#keepAll(kind, operations, body, options, beside) };
    return this.#last.kept;
  }

  async #keepAll(kind, operations, body, options, beside) {
    const kept = await this.trying(async () => {
      const added = [];
      for (const known of operations) added.push(await this.#outbox.add(kind, known, this.#page.usedBy(), body, options));
      await this.#page.show(); // the entry is on the screen before anything says that it was saved
      return added;
    });
    if (!kept) this.#last.said = ""; // a try that failed may be tried again at once
    else if (beside) this.noteBeside(beside, () => this.takeBack(kept.map(({ event }) => event), text("undo")));
    return kept;
  }

  // Resolves with what `work` gives, or true: what was tapped is kept. Or with null once it is said, in view, that it is not.
  async trying(work) {
    const trouble = byId("trouble");
    trouble.textContent = "";
    try {
      return (await work()) ?? true;
    } catch (error) {
      trouble.textContent = text(error.name === "QuotaExceededError" ? "full" : "not-saved");
      trouble.scrollIntoView({ block: "nearest" });
      console.info("not saved:", error);
      return null;
    }
  }

  // What was entered by mistake stays on record and counts no more.
  async takeBack(entries, reason) {
    for (const { id, operation } of entries) {
      if (!(await this.save("withdrawal", { reason }, { operation, corrects: id }))) return false;
    }
    return true;
  }

  // `undo()` takes back what was kept.
  noteBeside(tapped, undo) {
    this.#undo = undo;
    tapped.after(this.#note);
    this.#note.hidden = false;
  }

  hideNote() {
    this.#undo = null;
    this.#note.hidden = true;
  }

  async #pressed() {
    const undo = this.#undo;
    this.hideNote();
    await undo?.();
  }
}
