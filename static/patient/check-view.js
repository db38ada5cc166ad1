// Check: the questions, and what is dangerous answered at once by the phone from the clinic's rules.

import { matching } from "./rules.js";
import { byId, text } from "./texts.js";

const YES_NO = ["discharge", "curtain", "vomiting", "fever", "injury"];

export class CheckView {
  #actions;

  constructor(actions) {
    this.#actions = actions;
    byId("symptoms").addEventListener("submit", (event) => this.#save(event));
  }

  async #save(event) {
    event.preventDefault();
    const answers = read(new FormData(event.target));
    const error = byId("symptoms-error");
    if (Object.keys(answers).length === 0) { error.textContent = text("some-answers"); return; }
    if (!this.#actions.rules()) { error.textContent = text("which-eye"); return; }
    error.textContent = "";
    this.#answer(matching(this.#actions.rules(), answers));
    if (await this.#actions.save("symptoms", answers)) event.target.reset();
  }

  #answer(met) {
    byId("verdict").hidden = met.length === 0;
    byId("all-well").hidden = met.length > 0;
    if (met.length === 0) { byId("all-well").scrollIntoView({ block: "start" }); return; }
    byId("verdict-title").textContent = text(`call-${met[0].how_soon}`);
    const urgent = met.filter((rule) => rule.how_soon === met[0].how_soon);
    byId("verdict-words").replaceChildren(...[...new Set(urgent.map((rule) => rule.words))].map(paragraph));
    byId("verdict-emergency").hidden = met[0].how_soon !== "now";
    byId("verdict").focus();
  }
}

function read(form) {
  const answers = {};
  for (const [name, value] of form) {
    if (name === "pain") answers.pain = Number(value);
    else if (YES_NO.includes(name)) answers[name] = value === "yes";
    else if (value.trim()) answers[name] = value.trim();
  }
  return answers;
}

function paragraph(words) {
  const made = document.createElement("p");
  made.textContent = words;
  return made;
}
