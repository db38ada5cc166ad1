// Which eye: what each is called, the one chosen for details (remembered), and the one that a check is about (asked).

import { writeFact } from "../shared/database.js";
import { byId, dayWords } from "./texts.js";

// Words for each eye, by operation; two operations on one side are told apart by their day.
export function eyeNames(eyes, words) {
  const again = (eye) => eyes.filter((other) => other.eye === eye.eye).length > 1;
  const name = (eye) => words.eye[eye.eye] + (again(eye) ? `, ${dayWords(eye.operated_on)}` : "");
  return new Map(eyes.map((eye) => [eye.operation, name(eye)]));
}

export class EyeChoice {
  #eyes = [];
  #drawn = "";
  #chosen;

  constructor(database, onChange) {
    byId("which-eye").addEventListener("change", async () => {
      await writeFact(database, "chosen", byId("which-eye").value);
      onChange();
    });
    byId("symptoms").addEventListener("reset", () => { for (const asks of asked()) asks.checked = false; });
  }

  // For details: the eye last chosen on this phone, else one with gas, else the first.
  get forDetails() {
    const known = this.#eyes.find(({ operation }) => operation === this.#chosen);
    return known ?? this.#eyes.find(({ gas }) => gas.caution) ?? this.#eyes[0];
  }

  // For a check: the only eye, or the one the person named; undefined until then.
  get forCheck() {
    const named = asked().find(({ checked }) => checked)?.value;
    return this.#eyes.length === 1 ? this.#eyes[0] : this.#eyes.find(({ operation }) => operation === named);
  }

  show(eyes, names, chosen) {
    [this.#eyes, this.#chosen] = [eyes, chosen];
    for (const id of ["eyes", "check-eye"]) byId(id).hidden = eyes.length < 2;
    const fresh = JSON.stringify([...names]);
    if (fresh !== this.#drawn) {
      byId("which-eye").replaceChildren(...[...names].map(([operation, name]) => new Option(name, operation)));
      byId("check-eyes").replaceChildren(...[...names].map(([operation, name]) => option(operation, name)));
      this.#drawn = fresh;
    }
    byId("which-eye").value = this.forDetails.operation;
  }
}

function asked() {
  return [...byId("check-eyes").querySelectorAll("input")];
}

function option(operation, name) {
  const made = byId("check-eye-option").content.cloneNode(true).firstElementChild;
  made.querySelector("input").value = operation;
  made.querySelector("span").textContent = name;
  return made;
}
