// The entry screen with a signal. If the signal goes while somebody types, what was typed is kept on this device.

import { loadTable } from "./acuity-table.js";
import { openDeviceDatabase } from "./device/day-key.js";
import { DeviceOutbox } from "./device/outbox.js";
import { alarmed, asksBack, factsOf, showConversions, showHow } from "./measures.js";
import { readFact } from "../shared/database.js";
import { byId } from "../shared/dom.js";
import { timed } from "../shared/requests.js";

const PATIENCE_MS = 5000;

class Visit {
  #form = document.querySelector("[data-acuity-table]");
  #limits = JSON.parse(this.#form.dataset.limits);
  #table = {};
  #saving = false;

  async start() {
    this.#form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#once(() => this.#save());
    });
    this.#form.addEventListener("change", () => showHow(this.#form));
    showHow(this.#form);
    this.#table = await loadTable(this.#form.dataset.acuityTable).catch(() => ({}));
    showConversions(this.#form, this.#table);
  }

  // Who presses *Save* twice while it asks for a signal saves once.
  async #once(save) {
    if (this.#saving) return;
    this.#saving = true;
    await save().finally(() => { this.#saving = false; });
  }

  async #save() {
    if (await answers()) {
      this.#form.submit();
      return;
    }
    const facts = factsOf(this.#form);
    if (asksBack(this.#form, facts, this.#table, this.#limits)) return;
    const told = byId("kept-here");
    told.hidden = false;
    told.textContent = await this.#keep(facts);
    (alarmed(facts, this.#limits) ? byId("alarm") : told).focus();
  }

  // What to say of it.
  async #keep(facts) {
    const database = await openDeviceDatabase();
    if (!(await readFact(database, "day-key"))) {
      return "There is no signal, and this device cannot keep entries: leave this page open and try again.";
    }
    const { operation, about, authorPass, sealingKey } = this.#form.dataset;
    await new DeviceOutbox(database).add({ operation, facts, about, authorPass, sealingKey });
    this.#form.hidden = true;
    return "There is no signal. The entry is kept on this device and is sent when there is one; no rule has looked at it yet.";
  }
}

async function answers() {
  try {
    return (await timed("/api/v1/clinic/here", { cache: "no-store" }, PATIENCE_MS)).ok;
  } catch {
    return false;
  }
}

await new Visit().start();
