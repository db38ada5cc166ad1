// Wires the patient's pages: the phone's store, the outbox, and one view for each part.

import { BubbleView } from "./bubble-view.js";
import { ChangesView, changesBetween, joined } from "./changes-view.js";
import { CheckView } from "./check-view.js";
import { receiptOf, SteadyClock } from "./clock.js";
import { openDatabase, readFacts, transact } from "../shared/database.js";
import { timed } from "../shared/requests.js";
import { keepDraft } from "./draft.js";
import { showEnded } from "./ended-view.js";
import { EyeChoice, eyeNames } from "./eyes.js";
import { HelpView } from "./help-view.js";
import { planOn } from "./hours.js";
import { MessagesView } from "./messages-view.js";
import { Outbox } from "./outbox.js";
import { PlanView } from "./plan-view.js";
import { PostureView } from "./posture-view.js";
import { withoutSettled } from "./rules.js";
import { RunningView } from "./running-view.js";
import { sealEverything, sealedCount, sendSealed } from "./sealing.js";
import { byId, countedText, text, whenOf, whenWords } from "./texts.js";
import { runningTimers, startTimer, stretch, takingOut } from "./timers.js";
import { watchForUpdates } from "./updates.js";
import { VisitsView } from "./visits-view.js";

const REFRESH_MS = 60000;
const words = JSON.parse(byId("words").textContent);
const language = document.documentElement.lang;
const database = await openDatabase();
const others = new BroadcastChannel("followup");
const clock = new SteadyClock();
const outbox = new Outbox(database, changed);
const choice = new EyeChoice(database, changed);

let pack;
let timers = [];
let changes = {};
let names = new Map();
let receipt; // when the pack came, by both clocks
let locked = false;
let unknown = false;
let drawing = Promise.resolve();

const actions = {
  eyes: () => pack.eyes,
  nameOf: (operation) => names.get(operation),
  checked: () => choice.forCheck?.operation,
  receipt: () => clock.notice(receipt),
  change: (work) => transact(database, ["facts"], "readwrite", ({ facts }) => work(facts)),
  visitName,
  visitWords: (eye, visit) => `${whenWords(whenOf(visit))}: ${visitName(eye, visit)}`,
  save,
  saveHours,
  toggleTimer,
  stopTimer,
  changesSeen,
};
const running = new RunningView(actions, words);
const views = [
  new ChangesView(actions, words), new PostureView(actions, words), new PlanView(actions),
  new BubbleView(actions, words), new VisitsView(actions), new CheckView(actions), new HelpView(),
];
const messages = new MessagesView();

window.addEventListener("hashchange", route);
window.addEventListener("online", refresh);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") refresh(); });
others.addEventListener("message", show);
setInterval(show, REFRESH_MS);
watchForUpdates(byId("new-version"), byId("take-over"));
navigator.storage?.persist?.();
await keepDraft(database, byId("symptoms"));
await show();
await refresh();
document.documentElement.dataset.ready = "yes";

function changed(outcome) {
  if (outcome === "locked") lockOut();
  if (outcome === "unknown") unknown = true;
  show();
  others.postMessage("changed");
}

function visitName(eye, visit) {
  return names.size > 1 ? `${visit.words} (${names.get(eye.operation)})` : visit.words;
}

// Whom an entry is about: a check the eye that was named, a journey or an anaesthetic every eye with gas, else the chosen.
function about(kind) {
  if (kind === "symptoms") return [choice.forCheck];
  const gas = pack.eyes.filter((eye) => eye.gas.caution);
  return ["journey", "anaesthetic"].includes(kind) && gas.length > 0 ? gas : [choice.forDetails];
}

/** @type {(kind: string, body: object, about?: { operation?: string, [option: string]: any }) => Promise<boolean>} */
async function save(kind, body, { operation, ...options } = {}) {
  try {
    const operations = operation ? [operation] : about(kind).map((eye) => eye.operation);
    for (const known of operations) await outbox.add(kind, known, pack?.used_by ?? "patient", body, options);
    await show(); // the entry is on the screen before anything says that it was saved
    byId("trouble").textContent = "";
    return true;
  } catch (error) {
    byId("trouble").textContent = text(error.name === "QuotaExceededError" ? "full" : "not-saved");
    console.info("not saved:", error);
    return false;
  }
}

function saveHours(operation, from, to) {
  const { position } = pack.eyes.find((eye) => eye.operation === operation).posture;
  return save("posture", { position, from: from.toISOString(), to: to.toISOString() }, { operation });
}

// Stops the timer of an eye's plan, or starts it; resolves with the position that runs now. A head has one position:
// what runs for another one ends.
async function toggleTimer(operation) {
  const { eye, posture: { position } } = pack.eyes.find((known) => known.operation === operation);
  const own = timers.find((timer) => timer.operation === operation && timer.position === position);
  if (own) {
    await stopTimer(own);
    return null;
  }
  for (const timer of timers.filter((known) => known.position !== position)) await stopTimer(timer);
  await startTimer(database, { operation, eye, position });
  changed();
  return position;
}

// The stretch goes to the eye and the position that the timer was started for, whatever is planned or shown by now.
function stopTimer(timer) {
  return save("posture", stretch(timer), { operation: timer.operation, alongside: takingOut(timer) });
}

// Sends what waits, then fetches what the clinic has for this phone. Without a signal both keep what is here.
async function refresh() {
  await outbox.flush();
  try {
    await sendSealed(database);
    const answer = await timed(`/api/v1/pack?language=${language}`, { cache: "no-store" }); // its time of making is the clinic's clock
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
          if (before?.eyes.length) unseen[now.operation] = joined(unseen[now.operation] ?? [], changesBetween(old, now));
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

// What was shown is seen; what came after that is not.
async function changesSeen() {
  const seen = JSON.stringify(changes);
  await transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.get("changes").onsuccess = ({ target: { result } }) => {
      if (JSON.stringify(result) === seen) facts.delete("changes");
    };
  });
  changed();
}

// The clinic closed this phone: what was not sent is sealed for the clinic, the rest is taken off.
async function lockOut() {
  locked = true;
  await sealEverything(database);
  others.postMessage("changed");
  await show();
}

// One drawing after the other, so that an older state never ends on top of a newer one.
function show() {
  drawing = drawing.then(draw, draw);
  return drawing;
}

async function draw() {
  const kinds = ["pack", "timer", "changes", "chosen", "clock", "verdicts"];
  const [known, timer, unseen = {}, chosen, received, verdicts = {}] = await readFacts(database, kinds);
  [pack, changes, timers, receipt] = [known, unseen, runningTimers(timer, known?.eyes ?? []), received];
  await lookAtClock();
  running.show(timers.filter((one) => !isPlanned(one)));
  const ready = Boolean(pack?.eyes.length);
  const over = showEnded(pack, words, locked);
  const kept = await sealedCount(database);
  byId("not-enrolled").hidden = !unknown && (ready || locked || over || kept > 0);
  byId("locked").hidden = ready || !(locked || kept > 0);
  byId("sealed-count").textContent = kept ? countedText("to-send", kept) : "";
  document.querySelector(".tabs").hidden = !ready;
  if (!ready) {
    byId("verdict").hidden = true;
    for (const section of document.querySelectorAll("[data-view]")) section.hidden = true;
    byId("who").textContent = "";
    const unsent = over ? (await outbox.all()).filter((entry) => entry.state === "saved").length : 0;
    byId("sending").textContent = unsent ? countedText("to-send", unsent) : "";
    return;
  }
  const entries = await outbox.all();
  byId("who").textContent = pack.used_by === "carer" ? `${pack.patient} · ${text("as-carer")}` : pack.patient;
  const waiting = entries.filter((entry) => entry.state === "saved").length;
  byId("sending").textContent = waiting ? countedText("to-send", waiting) : text("all-sent");
  const { eyes } = pack;
  names = eyeNames(eyes, words);
  choice.show(eyes, names, chosen);
  for (const view of views) view.show({ eye: choice.forDetails, eyes, pack, names, entries, timers, changes, verdicts });
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

// Whether a timer is for the position that its eye is to hold today, and so shows with that plan.
function isPlanned({ operation, position }) {
  return pack?.eyes.some((eye) => eye.operation === operation && planOn(eye, new Date())?.position === position);
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
