// How the patient wants to be reached: push to this phone, e-mail, what for, and quiet hours. Needs a signal.

import { byId } from "../../shared/dom.js";
import { ask } from "../../shared/requests.js";
import { pushPossible, renew, subscribe } from "../../shared/push.js";
import { text } from "../texts.js";

const ADDRESS = "/api/v1/messages";

export class MessagesView {
  #form = byId("messages");
  #key;

  constructor() {
    byId("push-on").hidden = !pushPossible();
    byId("push-on").addEventListener("click", () => this.#turnOn());
    this.#form.addEventListener("submit", (event) => { event.preventDefault(); this.#save(); });
    this.#form.addEventListener("input", () => { byId("messages-told").textContent = ""; });
    window.addEventListener("hashchange", () => this.#look());
    this.#look();
  }

  show() {}

  #look() {
    if (location.hash === "#more") this.#load();
  }

  // Reads what was chosen; without a signal the form stays closed and says so.
  async #load() {
    let known;
    try {
      known = await ask("GET", ADDRESS);
    } catch {
      this.#open(false);
      return;
    }
    this.#open(true);
    this.#key = known.push_key;
    const { elements } = this.#form;
    byId("message-email-field").hidden = !known.email_possible;
    elements.email.value = known.choices.email;
    elements.quiet_from.value = known.choices.quiet_from.slice(0, 5);
    elements.quiet_to.value = known.choices.quiet_to.slice(0, 5);
    for (const box of this.#form.querySelectorAll("[name=kind]")) box.checked = !known.choices.unwanted.includes(box.value);
    await renew(await navigator.serviceWorker?.getRegistration("/me/"), this.#send).catch(() => {});
  }

  #open(possible) {
    this.#form.hidden = !possible;
    byId("messages-need-signal").hidden = possible;
  }

  async #turnOn() {
    const outcome = await subscribe(await navigator.serviceWorker.ready, this.#key, this.#send);
    byId("push-told").textContent = text(`push-${outcome}`);
  }

  #send(subscription) {
    return ask("POST", "/api/v1/push", subscription);
  }

  async #save() {
    const { elements } = this.#form;
    const boxes = [...this.#form.querySelectorAll("[name=kind]")];
    const chosen = {
      email: elements.email.value.trim(),
      language: document.documentElement.lang,
      quiet_from: elements.quiet_from.value,
      quiet_to: elements.quiet_to.value,
      unwanted: boxes.filter((box) => !box.checked).map((box) => box.value),
    };
    byId("messages-error").textContent = "";
    try {
      await ask("PUT", `${ADDRESS}?language=${chosen.language}`, chosen);
      byId("messages-told").textContent = text("messages-kept");
    } catch (error) {
      byId("messages-error").textContent = error.said ?? text("not-sent");
    }
  }
}
