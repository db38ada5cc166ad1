// Who helps: the phones that read and write for this patient. The patient lets others in with a code, and removes them. Needs
// a signal.

import { dayWords } from "../../shared/dates.js";
import { Taps, byId, item, onSubmit } from "../../shared/dom.js";
import { ask } from "../../shared/requests.js";

import { text } from "../texts.js";

const ADDRESS = "/api/v1/helpers";

export class HelpersView {
  #invited;
  #taps = new Taps();

  constructor() {
    onSubmit(byId("invite"), () => this.#invite());
    byId("invite-send").hidden = !navigator.share;
    byId("invite-send").addEventListener("click", () => this.#send());
    window.addEventListener("hashchange", () => this.#look());
    this.#look();
  }

  show() {}

  #look() {
    if (location.hash === "#helpers") this.#load();
    byId("invited").hidden = true; // a code is shown once
  }

  async #load() {
    let known;
    try {
      known = await ask("GET", ADDRESS);
    } catch {
      byId("helpers-away").hidden = false;
      byId("helper-list").replaceChildren();
      byId("invite").hidden = true;
      return;
    }
    byId("helpers-away").hidden = true;
    byId("invite").hidden = !known.may_invite;
    byId("helpers-patient-only").hidden = known.may_invite;
    byId("helper-list").replaceChildren(...known.phones.map((phone) => this.#row(phone, known.may_invite)));
  }

  #row(phone, mayRemove) {
    const name = phone.own ? text("helper-own") : phone.name || text(`helper-${phone.used_by}`);
    const values = { name, since: dayWords(phone.since.slice(0, 10)), heard: dayWords(phone.heard.slice(0, 10)) };
    const row = item(text("helper", values));
    if (!mayRemove || phone.own || phone.used_by !== "carer") return row;
    const button = document.createElement("button");
    button.className = "quiet";
    button.textContent = text("helper-remove");
    button.setAttribute("aria-label", `${text("helper-remove")}: ${name}`);
    let sure = false;
    this.#taps.on(button, () => {
      if (sure) { this.#remove(phone.id); return; }
      sure = true;
      button.textContent = text("helper-sure");
      button.setAttribute("aria-label", `${text("helper-sure")} ${name}`);
    });
    row.append(button);
    return row;
  }

  async #remove(id) {
    byId("invite-error").textContent = "";
    await ask("POST", `${ADDRESS}/${id}/remove`).catch((error) => { byId("invite-error").textContent = error.said ?? text("not-sent"); });
    await this.#load();
  }

  async #invite() {
    byId("invite-error").textContent = "";
    byId("invited").hidden = true;
    try {
      const made = await ask("POST", `${ADDRESS}?language=${document.documentElement.lang}`, { name: byId("invite-name").value });
      this.#invited = made;
      byId("invited-code").textContent = `${made.code.slice(0, 4)} ${made.code.slice(4)}`;
      byId("invited-page").textContent = made.page;
      byId("invited").hidden = false;
      byId("invited").focus();
      byId("invite").reset();
    } catch (error) {
      byId("invite-error").textContent = error.said ?? text("not-sent");
    }
  }

  async #send() {
    try {
      await navigator.share({ text: `${text("helper-link")} ${this.#invited.link}` });
    } catch {
      // Closed without a choice: the code is still on the screen.
    }
  }
}
