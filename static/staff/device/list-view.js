// Today's list: a line for each visit, and whoever is looked for by name or number.

import { dayWords } from "../../shared/dates.js";
import { byId } from "../../shared/dom.js";
import { eyeOf } from "./sheet.js";

const MOST_SHOWN = 40;

export class ListView {
  #words;
  #arrived;
  #sheet;

  // `words` are the page's words for codes; `arrived(eye, due)` is told of a press on *Arrived*.
  constructor(words, arrived) {
    this.#words = words;
    this.#arrived = arrived;
    byId("find").addEventListener("input", () => this.show(this.#sheet));
  }

  show(sheet) {
    this.#sheet = sheet;
    const asked = byId("find").value.toLowerCase().split(/\s+/).filter(Boolean);
    byId("found").hidden = asked.length === 0;
    const found = sheet.eyes.filter((eye) => asked.every((word) => `${eye.patient} ${eye.number}`.toLowerCase().includes(word)));
    byId("found-list").replaceChildren(...(asked.length ? found.slice(0, MOST_SHOWN).map((eye) => this.#row(eye)) : []));
    byId("more").hidden = found.length <= MOST_SHOWN;
    byId("nobody").hidden = found.length > 0;
    for (const list of document.querySelectorAll("[data-state]")) {
      const rows = sheet.rows.filter(({ state }) => state === list.dataset.state);
      list.replaceChildren(...rows.map((due) => this.#row(eyeOf(sheet, due.operation), due)));
      list.closest("section").querySelector(".count").textContent = rows.length;
      list.closest("section").hidden = rows.length === 0 && list.dataset.state !== "due";
    }
  }

  #row(eye, due) {
    const words = this.#words;
    const made = byId("row").content.cloneNode(true).firstElementChild;
    made.querySelector(".eye-name").textContent = eye.patient;
    made.querySelector(".about").textContent = ` ${eye.number} · ${words.eye[eye.eye]} · ${words.agent[eye.agent]}`;
    made.querySelector(".visit").textContent = due ? `${due.visit}, ${dayWords(due.target, "short")}` : "";
    made.querySelector(".reason").textContent = due?.how_soon ? `${words.shape[due.how_soon]} ${words.how_soon[due.how_soon]}: ${due.reason}` : "";
    made.querySelector("a").href = `#${eye.operation}`;
    made.querySelector("a").setAttribute("aria-label", `Enter visit: ${eye.patient}, ${words.eye[eye.eye]}`);
    const arrived = made.querySelector("button");
    arrived.hidden = !due || !["due", "missed", "coming"].includes(due.state);
    arrived.setAttribute("aria-label", `Arrived: ${eye.patient}`);
    arrived.addEventListener("click", () => {
      arrived.disabled = true; // pressed twice it counts once
      this.#arrived(eye, due).finally(() => { arrived.disabled = false; });
    });
    return made;
  }
}
