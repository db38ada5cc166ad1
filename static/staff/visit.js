// The entry screen with a signal. If the signal goes while somebody types, what was typed is kept on this device.

import { loadTable } from "./acuity-table.js";
import { openDeviceDatabase } from "./device/day-key.js";
import { DeviceOutbox } from "./device/outbox.js";
import { alarmed, asksBack, factsOf, showConversions, showHow } from "./measures.js";
import { readFact } from "../shared/database.js";
import { byId } from "../shared/dom.js";
import { LIMIT_MS, timed } from "../shared/requests.js";

const PATIENCE_MS = 5000;

class Visit {
  #form = document.querySelector("[data-acuity-table]");
  #limits = JSON.parse(this.#form.dataset.limits);
  #table = {};
  #saving = false;

  async start() {
    this.#form.addEventListener("submit", (event) => {
      event.preventDefault();
      this.#once();
    });
    addEventListener("pageshow", () => { this.#saving = false; });
    this.#form.addEventListener("change", () => showHow(this.#form));
    showHow(this.#form);
    this.#table = await loadTable(this.#form.dataset.acuityTable).catch(() => ({}));
    showConversions(this.#form, this.#table);
  }

  // Who presses *Save* twice saves once: while it asks for a signal, and until the next page is there or takes too long.
  async #once() {
    if (this.#saving) return;
    this.#saving = true;
    let sent = false;
    try {
      sent = await this.#save();
    } finally {
      if (!sent) this.#saving = false;
      else setTimeout(() => { this.#saving = false; }, LIMIT_MS);
    }
  }

  // Whether it is on its way to the server.
  async #save() {
    if (await answers()) {
      this.#form.submit();
      return true;
    }
    const facts = factsOf(this.#form);
    if (asksBack(this.#form, facts, this.#table, this.#limits)) return false;
    const told = byId("kept-here");
    told.hidden = false;
    told.textContent = await this.#keep(facts).catch((error) => {
      console.info("not kept:", error);
      return "This could not be kept on this device. Write it on paper.";
    });
    (alarmed(facts, this.#limits) ? byId("alarm") : told).focus();
    return false;
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
