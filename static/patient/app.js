// Wires the patient's pages: the phone's store, the outbox, and one view for each part.

import { BubbleView } from "./bubble-view.js";
import { CheckView } from "./check-view.js";
import { openDatabase, readFact, writeFact } from "./database.js";
import { Outbox } from "./outbox.js";
import { PostureView } from "./posture-view.js";
import { byId, dayWords, text } from "./texts.js";
import { VisitsView } from "./visits-view.js";
import { watchForUpdates } from "./updates.js";

const REFRESH_MS = 60000;
const words = JSON.parse(byId("words").textContent);
const database = await openDatabase();
const outbox = new Outbox(database, (outcome) => {
  if (outcome === "locked") locked = true;
  if (outcome === "sent") locked = false;
  show();
});

let pack = await readFact(database, "pack");
let timer = await readFact(database, "timer");
let locked = false;

const actions = {
  plan: () => eye().posture,
  rules: () => eye().symptom_rules,
  visitWords: (visit) => `${dayWords(visit.target)}: ${visit.name}`,
  save,
  saveHours: (from, to) => save("posture", { position: eye().posture.position, from: from.toISOString(), to: to.toISOString() }),
  toggleTimer,
};
const views = [new PostureView(actions, words), new BubbleView(actions, words), new VisitsView(actions)];
new CheckView(actions);

window.addEventListener("hashchange", route);
window.addEventListener("online", refresh);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") refresh(); });
setInterval(show, REFRESH_MS);
watchForUpdates(byId("new-version"), byId("take-over"));
navigator.storage?.persist?.();
await show();
route();
await refresh();
document.documentElement.dataset.ready = "yes";

function eye() {
  return pack.eyes[0];
}

async function save(kind, body) {
  try {
    await outbox.add(kind, eye().operation, pack.used_by, body);
    byId("sending").textContent = text("saved");
    return true;
  } catch (error) {
    byId("sending").textContent = text("full");
    console.error(error);
    return false;
  }
}

async function toggleTimer() {
  if (!timer) {
    timer = { start: new Date().toISOString() };
    await writeFact(database, "timer", timer);
    await show();
    return true;
  }
  const { start } = timer;
  if (await actions.saveHours(new Date(start), new Date())) {
    timer = undefined;
    await writeFact(database, "timer", undefined);
  }
  await show();
  return false;
}

// Sends what waits, then fetches what the clinic has for this phone. Without a signal both keep what is here.
async function refresh() {
  await outbox.flush();
  try {
    const answer = await fetch("/api/v1/pack");
    if (answer.status === 401) locked = true;
    if (answer.ok) {
      pack = await answer.json();
      locked = false;
      await writeFact(database, "pack", pack);
    }
  } catch {
    // No signal: the pack on the phone stays.
  }
  await show();
}

async function show() {
  const ready = Boolean(pack?.eyes.length);
  byId("not-enrolled").hidden = ready || (locked && pack);
  byId("locked").hidden = !(locked && pack);
  document.querySelector(".tabs").hidden = !ready;
  if (!ready) return;
  const entries = await outbox.all();
  byId("who").textContent = pack.used_by === "carer" ? `${pack.patient} · ${text("as-carer")}` : pack.patient;
  const waiting = entries.filter((entry) => entry.state === "saved").length;
  byId("sending").textContent = waiting ? text("to-send", { count: waiting }) : text("all-sent");
  for (const view of views) view.show({ eye: eye(), entries, timer });
  route();
}

function route() {
  if (!pack?.eyes.length) return;
  const wanted = location.hash.slice(1);
  const sections = [...document.querySelectorAll("[data-view]")];
  const current = sections.find((section) => section.id === wanted) ?? sections[0];
  for (const section of sections) section.hidden = section !== current;
  for (const link of document.querySelectorAll(".tabs a")) {
    if (link.hash === `#${current.id}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}
