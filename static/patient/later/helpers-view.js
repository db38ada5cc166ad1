// Who helps: the phones that read and write for this patient. The patient lets others in with a code, and removes them. Needs
// a signal.

import { dayWords } from "../../shared/dates.js";
import { Taps, byId, item, onSubmit, redraw } from "../../shared/dom.js";
import { ask } from "../../shared/requests.js";

import { text } from "../texts.js";

const ADDRESS = "/api/v1/helpers";

export class HelpersView {
  #asked = 0;
  #invited;
  #sure; // the phone whose removal was asked for: a list that comes meanwhile leaves the question standing
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
    this.#sure = undefined;
  }

  async #load() {
    const asked = this.#asked += 1;
    const known = await ask("GET", ADDRESS).catch(() => null);
    if (asked !== this.#asked) return; // asked again meanwhile: that answer is newer
    if (!known) {
      byId("helpers-away").hidden = false;
      byId("helper-list").replaceChildren();
      byId("invite").hidden = true;
      return;
    }
    byId("helpers-away").hidden = true;
    byId("invite").hidden = !known.may_invite;
    byId("helpers-patient-only").hidden = known.may_invite;
    redraw(byId("helper-list"), known.phones.map((phone) => this.#row(phone, known.may_invite)));
  }

  #row(phone, mayRemove) {
    const name = phone.own ? text("helper-own") : phone.name || text(`helper-${phone.used_by}`);
    const values = { name, since: dayWords(phone.since.slice(0, 10)), heard: dayWords(phone.heard.slice(0, 10)) };
    const row = item(text("helper", values));
    if (!mayRemove || phone.own || phone.used_by !== "carer") return row;
    const button = document.createElement("button");
    button.className = "quiet";
    const entitle = () => {
      const sure = this.#sure === phone.id;
      button.textContent = text(sure ? "helper-sure" : "helper-remove");
      button.setAttribute("aria-label", `${button.textContent}${sure ? "" : ":"} ${name}`);
    };
    entitle();
    this.#taps.on(button, () => {
      if (this.#sure === phone.id) { this.#remove(phone.id); return; }
      this.#sure = phone.id;
      entitle();
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
