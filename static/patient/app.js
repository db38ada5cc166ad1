// Wires the patient's pages: the phone's store, the outbox, and one view for each part.

import { BubbleView } from "./bubble-view.js";
import { ChangesView, changesBetween, joined } from "./changes-view.js";
import { CheckView } from "./check-view.js";
import { receiptOf, SteadyClock } from "./clock.js";
import { openDatabase, readFact, readFacts, transact, writeFact } from "../shared/database.js";
import { keepDraft } from "./draft.js";
import { MessagesView } from "./messages-view.js";
import { Outbox } from "./outbox.js";
import { HelpView } from "./help-view.js";
import { PostureView } from "./posture-view.js";
import { withoutSettled } from "./rules.js";
import { sealEverything, sealedCount, sendSealed } from "./sealing.js";
import { byId, countedText, dayWords, text } from "./texts.js";
import { watchForUpdates } from "./updates.js";
import { VisitsView } from "./visits-view.js";

const REFRESH_MS = 60000;
const words = JSON.parse(byId("words").textContent);
const language = document.documentElement.lang;
const database = await openDatabase();
const others = new BroadcastChannel("followup");
const clock = new SteadyClock();
const outbox = new Outbox(database, changed);

let pack;
let timer;
let changes = {};
let receipt; // when the pack came, by both clocks
let chosen = 0;
let locked = false;
let unknown = false;
let drawing = Promise.resolve();

const actions = {
  plan: () => eye().posture,
  eyes: () => pack.eyes,
  operation: () => eye().operation,
  receipt: () => clock.notice(receipt),
  change: (work) => transact(database, ["facts"], "readwrite", ({ facts }) => work(facts)),
  visitWords: (visit) => `${dayWords(visit.target)}: ${visit.words}`,
  save,
  saveHours: (from, to) => save("posture", { position: eye().posture.position, from: from.toISOString(), to: to.toISOString() }),
  toggleTimer,
  changesSeen,
};
const views = [new ChangesView(actions, words), new PostureView(actions, words), new BubbleView(actions, words), new VisitsView(actions), new CheckView(actions, words), new HelpView()];
const messages = new MessagesView();

window.addEventListener("hashchange", route);
window.addEventListener("online", refresh);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") refresh(); });
others.addEventListener("message", show);
byId("which-eye").addEventListener("change", (event) => { chosen = Number(event.target.value); show(); });
setInterval(show, REFRESH_MS);
watchForUpdates(byId("new-version"), byId("take-over"));
navigator.storage?.persist?.();
await keepDraft(database, byId("symptoms"));
await show();
await refresh();
document.documentElement.dataset.ready = "yes";

function eye() {
  return pack.eyes[chosen] ?? pack.eyes[0];
}

function changed(outcome) {
  if (outcome === "locked") lockOut();
  if (outcome === "unknown") unknown = true;
  show();
  others.postMessage("changed");
}

async function save(kind, body, { operation = eye().operation, ...options } = {}) {
  try {
    await outbox.add(kind, operation, pack.used_by, body, options);
    await show(); // the entry is on the screen before anything says that it was saved
    byId("trouble").textContent = "";
    return true;
  } catch (error) {
    byId("trouble").textContent = text(error.name === "QuotaExceededError" ? "full" : "not-saved");
    console.info("not saved:", error);
    return false;
  }
}

// Starts the timer, or stops it and keeps the stretch; the timer leaves in the transaction that keeps the entry.
async function toggleTimer() {
  const running = await readFact(database, "timer");
  if (!running) {
    await writeFact(database, "timer", { start: new Date().toISOString(), position: eye().posture.position });
    changed();
    return true;
  }
  const body = { position: running.position, from: running.start, to: new Date().toISOString() };
  const alongside = (facts) => { facts.delete("timer"); };
  await save("posture", body, { alongside });
  return false;
}

// Sends what waits, then fetches what the clinic has for this phone. Without a signal both keep what is here.
async function refresh() {
  await outbox.flush();
  try {
    await sendSealed(database);
    const answer = await fetch(`/api/v1/pack?language=${language}`, { cache: "no-store" }); // its time of making is the clinic's clock
    if (answer.status === 401 && (await answer.json()).locked) await lockOut();
    if (answer.ok) {
      await takePack(await answer.json());
      [locked, unknown] = [false, false];
      await outbox.prune();
    }
  } catch {
    // No signal: the pack on the phone stays.
  }
  await show();
}

// Keeps what the clinic sent, and what it changes against what this phone showed before.
function takePack(fresh) {
  return transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.get("pack").onsuccess = ({ target: { result: before } }) => {
      facts.get("changes").onsuccess = (read) => {
        const unseen = read.target.result ?? {};
        for (const now of fresh.eyes) {
          const old = before?.eyes.find(({ operation }) => operation === now.operation);
          if (old) unseen[now.operation] = joined(unseen[now.operation] ?? [], changesBetween(old, now));
        }
        facts.put(unseen, "changes");
        facts.put(fresh, "pack");
        facts.put(receiptOf(fresh), "clock");
        facts.get("verdicts").onsuccess = ({ target: { result: standing } }) => {
          if (standing) facts.put(withoutSettled(standing, fresh), "verdicts");
        };
      };
    };
  });
}

async function changesSeen() {
  await writeFact(database, "changes", { ...changes, [eye().operation]: [] });
  changed();
}

// The clinic closed this phone: what was not sent is sealed for the clinic, the rest is taken off.
async function lockOut() {
  locked = true;
  const known = await readFact(database, "pack");
  if (known) await sealEverything(database, known.sealing_key);
  await show();
}

// One drawing after the other, so that an older state never ends on top of a newer one.
function show() {
  drawing = drawing.then(draw, draw);
  return drawing;
}

async function draw() {
  let verdicts;
  [pack, timer, changes = {}, receipt, verdicts = {}] = await readFacts(database, ["pack", "timer", "changes", "clock", "verdicts"]);
  await lookAtClock();
  const ready = Boolean(pack?.eyes.length);
  const kept = await sealedCount(database);
  byId("not-enrolled").hidden = !unknown && (ready || locked || kept > 0);
  byId("locked").hidden = ready || !(locked || kept > 0);
  byId("sealed-count").textContent = kept ? countedText("to-send", kept) : "";
  document.querySelector(".tabs").hidden = !ready;
  if (!ready) {
    byId("verdict").hidden = true;
    for (const section of document.querySelectorAll("[data-view]")) section.hidden = true;
    for (const id of ["who", "sending"]) byId(id).textContent = "";
    return;
  }
  const entries = await outbox.all();
  byId("who").textContent = pack.used_by === "carer" ? `${pack.patient} · ${text("as-carer")}` : pack.patient;
  const waiting = entries.filter((entry) => entry.state === "saved").length;
  byId("sending").textContent = waiting ? countedText("to-send", waiting) : text("all-sent");
  offerEyes();
  for (const view of views) view.show({ eye: eye(), pack, entries, timer, changes: changes[eye().operation] ?? [], verdicts });
  route();
}

// Keeps the latest time this phone has shown, so that a clock set back is noticed, also after the page was closed.
async function lookAtClock() {
  receipt = clock.notice(receipt);
  if (!receipt) return;
  const { received_at: of, seen_at: seen } = receipt;
  await transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.get("clock").onsuccess = ({ target: { result: kept } }) => {
      if (kept?.received_at === of && kept.seen_at + REFRESH_MS <= seen) facts.put({ ...kept, seen_at: seen }, "clock");
    };
  }).catch(() => {});
}

function offerEyes() {
  byId("eyes").hidden = pack.eyes.length < 2;
  if (byId("which-eye").options.length === pack.eyes.length) return;
  const options = pack.eyes.map((known, n) => new Option(words.eye[known.eye], n, false, n === chosen));
  byId("which-eye").replaceChildren(...options);
}

function route() {
  if (!pack?.eyes.length) return;
  const wanted = location.hash.slice(1);
  const sections = [...document.querySelectorAll("[data-view]")];
  const current = sections.find((section) => section.id === wanted) ?? sections[0];
  if (current.id === "help" && current.hidden) messages.load();
  for (const section of sections) section.hidden = section !== current;
  for (const link of document.querySelectorAll(".tabs a")) {
    if (link.hash === `#${current.id}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
}
