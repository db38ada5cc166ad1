// The entry screen with a signal. If the signal goes while somebody types, what was typed is kept on this device.

import { loadTable } from "./acuity-table.js";
import { openDeviceDatabase } from "./device/day-key.js";
import { keepEntry } from "./device/queue.js";
import { factsOf, showConversions, showHow } from "./measures.js";
import { readFact } from "../shared/database.js";

const PATIENCE_MS = 5000;
const form = document.querySelector("[data-acuity-table]");
const told = document.getElementById("kept-here");

form.addEventListener("submit", save);
form.addEventListener("change", () => showHow(form));
showHow(form);
showConversions(form, await loadTable(form.dataset.acuityTable));

async function save(event) {
  event.preventDefault();
  if (await answers()) {
    form.submit();
    return;
  }
  const facts = factsOf(form);
  const database = await openDeviceDatabase();
  told.hidden = false;
  if (!(await readFact(database, "day-key"))) {
    told.textContent = "There is no signal, and this device cannot keep entries: leave this page open and try again.";
  } else if (facts.length === 0) {
    told.textContent = "Nothing was entered.";
  } else {
    const { operation, about, authorPass, sealingKey } = form.dataset;
    await keepEntry(database, { operation, facts, about, authorPass, sealingKey });
    form.hidden = true;
    told.textContent = "There is no signal. The entry is kept on this device and is sent when there is one; no rule has looked at it yet.";
  }
  told.focus();
}

async function answers() {
  try {
    return (await fetch("/api/v1/clinic/here", { signal: AbortSignal.timeout(PATIENCE_MS), cache: "no-store" })).ok;
  } catch {
    return false;
  }
}
