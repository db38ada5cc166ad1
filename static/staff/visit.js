// The entry screen with a signal. If the signal goes while somebody types, what was typed is kept on this device.

import { loadTable } from "./acuity-table.js";
import { openDeviceDatabase } from "./device/day-key.js";
import { keepEntry } from "./device/queue.js";
import { alarmed, asksBack, factsOf, showConversions, showHow } from "./measures.js";
import { readFact } from "../shared/database.js";
import { timed } from "../shared/requests.js";

const PATIENCE_MS = 5000;
const form = document.querySelector("[data-acuity-table]");
const told = document.getElementById("kept-here");
const limits = JSON.parse(form.dataset.limits);

form.addEventListener("submit", save);
form.addEventListener("change", () => showHow(form));
showHow(form);
let table = {};
table = await loadTable(form.dataset.acuityTable).catch(() => ({}));
showConversions(form, table);

async function save(event) {
  event.preventDefault();
  if (await answers()) {
    form.submit();
    return;
  }
  const facts = factsOf(form);
  if (asksBack(form, facts, table, limits)) return;
  const database = await openDeviceDatabase();
  told.hidden = false;
  if (!(await readFact(database, "day-key"))) {
    told.textContent = "There is no signal, and this device cannot keep entries: leave this page open and try again.";
  } else {
    const { operation, about, authorPass, sealingKey } = form.dataset;
    await keepEntry(database, { operation, facts, about, authorPass, sealingKey });
    form.hidden = true;
    told.textContent = "There is no signal. The entry is kept on this device and is sent when there is one; no rule has looked at it yet.";
  }
  const alarm = alarmed(facts, limits);
  (alarm ? document.getElementById("alarm") : told).focus();
}

async function answers() {
  try {
    return (await timed("/api/v1/clinic/here", { cache: "no-store" }, PATIENCE_MS)).ok;
  } catch {
    return false;
  }
}
