// Which eye: what each is called, and the one chosen for details (remembered).

import { dayWords } from "../shared/dates.js";
import { byId } from "../shared/dom.js";

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

  constructor(choose) {
    byId("which-eye").addEventListener("change", () => choose(byId("which-eye").value));
  }

  // For details: the eye last chosen on this phone, else one with gas, else the first.
  get forDetails() {
    const known = this.#eyes.find(({ operation }) => operation === this.#chosen);
    return known ?? this.#eyes.find(({ gas }) => gas.caution) ?? this.#eyes[0];
  }

  show(eyes, names, chosen) {
    [this.#eyes, this.#chosen] = [eyes, chosen];
    byId("eyes").hidden = eyes.length < 2;
    const fresh = JSON.stringify([...names]);
    if (fresh !== this.#drawn) {
      byId("which-eye").replaceChildren(...[...names].map(([operation, name]) => new Option(name, operation)));
      this.#drawn = fresh;
    }
    byId("which-eye").value = this.forDetails.operation;
  }
}
