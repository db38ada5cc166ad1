// Wires the patient's pages: the phone's store, the outbox, and one view for each part.

import { BubbleView } from "./bubble-view.js";
import { ChangesView, changesBetween, joined } from "./changes-view.js";
import { CheckView } from "./check-view.js";
import { receiptOf, SteadyClock } from "./clock.js";
import { Cues } from "./cues.js";
import { openDatabase, readFacts, transact, writeFact } from "../shared/database.js";
import { timed } from "../shared/requests.js";
import { readDraft, writeDraft } from "./draft.js";
import { DropsView } from "./drops-view.js";
import { showClosed, showEnded } from "./ended-view.js";
import { EntriesView } from "./entries-view.js";
import { EyeChoice, eyeNames } from "./eyes.js";
import { HelpView } from "./help-view.js";
import { planOn } from "./hours.js";
import { KeptNote } from "./kept-note.js";
import { Later } from "./later.js";
import { MessagesView } from "./messages-view.js";
import { Outbox } from "./outbox.js";
import { PlanView } from "./plan-view.js";
import { PostureView } from "./posture-view.js";
import { waitsForClinic, withoutSettled } from "./rules.js";
import { RunningView } from "./running-view.js";
import { sealEverything, sealedCount, sendSealed } from "./sealing.js";
import { DOUBLE_TAP_MS } from "./taps.js";
import { byId, countedText, text, whenOf, whenWords } from "./texts.js";
import { breakOf, isLong, runningTimers, startTimer, stretch, sureOf, takingOut } from "./timers.js";
import { watchForUpdates } from "./updates.js";
import { VerdictView } from "./verdict-view.js";
import { VisitsView } from "./visits-view.js";

const REFRESH_MS = 60000;
const words = JSON.parse(byId("words").textContent);
const language = document.documentElement.lang;
const database = await openDatabase().catch(sayBlocked);
const others = new BroadcastChannel("followup");
const clock = new SteadyClock();
const outbox = new Outbox(database, changed);
const choice = new EyeChoice(database, changed);

let pack;
let onThisPhone = [];
let timers = [];
let changes = {};
let names = new Map();
let receipt; // when the pack came, by both clocks
let unknown = false;
let drawing = Promise.resolve();

const actions = {
  eyes: () => pack.eyes,
  nameOf: (operation) => names.get(operation),
  receipt: () => clock.notice(receipt),
  change: (work) => transact(database, ["facts"], "readwrite", ({ facts }) => work(facts)),
  visitName,
  visitWords: (eye, visit) => `${whenWords(whenOf(visit))}: ${visitName(eye, visit)}`,
  say: (operation, said) => verdict.say(operation, said),
  waits: (operation, said) => waitsForClinic(said, eyeOf(operation), onThisPhone),
  verdictStands: () => verdict.stands,
  verdictKept: (operation) => verdict.isKept(operation),
  keepDraft: (draft) => writeDraft(database, draft).catch(() => {}),
  save,
  saveHours,
  takeBack,
  toggleTimer,
  pauseTimer,
  stopTimer,
  stopTimerAt,
  stillSo,
  changesSeen,
  refusedSeen,
  show: () => show(),
  canChange: ({ operation }) => Boolean(eyeOf(operation) && planOn(eyeOf(operation), new Date())),
  changeHours,
  calendar: async (shown, withDrops) => (await later.open()).calendar(shown, withDrops, visitName),
};
const running = new RunningView(actions, words);
const verdict = new VerdictView(actions);
const check = new CheckView(actions);
const help = new HelpView();
const cues = new Cues(database);
const posture = new PostureView(actions, words, cues);
const note = new KeptNote();
const views = [
  new ChangesView(actions, words), posture, new PlanView(actions), new EntriesView(actions), new DropsView(actions, cues),
  new BubbleView(actions, words), new VisitsView(actions), verdict, check, help,
];
const messages = new MessagesView();
const later = new Later((module) => {
  views.push(...module.viewsOf(actions, words));
  show();
});

window.addEventListener("hashchange", goTo);
document.querySelector(".tabs a[href='#check']").addEventListener("click", () => check.again());
window.addEventListener("online", refresh);
document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") refresh(); });
others.addEventListener("message", show);
setInterval(show, REFRESH_MS);
watchForUpdates(byId("new-version"), byId("take-over"));
navigator.storage?.persist?.();
await cues.load();
check.take(await readDraft(database));
await show();
await refresh();
document.documentElement.dataset.ready = "yes";

// A browser that lets this page keep nothing: then there is whom to call, and no more to do.
function sayBlocked(error) {
  console.info("nothing can be kept:", error);
  byId("blocked").hidden = false;
  document.documentElement.dataset.ready = "yes";
  return new Promise(() => {});
}

function changed(outcome) {
  if (outcome === "locked") lockOut().then(fetchPack); // which says by whom
  if (outcome === "unknown") unknown = true;
  show();
  others.postMessage("changed");
}

function visitName(eye, visit) {
  return names.size > 1 ? `${visit.words} (${names.get(eye.operation)})` : visit.words;
}

// Whom an entry is about that names no eye: a journey or an anaesthetic every eye with gas, else the chosen.
function about(kind) {
  const gas = pack.eyes.filter((eye) => eye.gas.caution);
  return ["journey", "anaesthetic"].includes(kind) && gas.length > 0 ? gas : [choice.forDetails];
}

let last = { said: "", at: 0, kept: null };

/**
 * Keeps an entry for each eye that it is about; resolves with them, or with null. The second of a double tap keeps nothing
 * more. `beside` is what was tapped: there it says that it is saved.
 * @type {(kind: string, body: object, about?: { operation?: string, beside?: HTMLElement, [option: string]: any }) => Promise<any>}
 */
function save(kind, body, { operation, beside, ...options } = {}) {
  const operations = operation ? [operation] : about(kind).map((eye) => eye.operation);
  const said = JSON.stringify([kind, operations, body, options.corrects]);
  const now = performance.now();
  if (last.said === said && now - last.at < DOUBLE_TAP_MS) return last.kept;
  last = { said, at: now, kept: keepAll(kind, operations, body, options, beside) };
  return last.kept;
}

async function keepAll(kind, operations, body, options, beside) {
  try {
    const kept = [];
    for (const known of operations) kept.push(await outbox.add(kind, known, pack?.used_by ?? "patient", body, options));
    await show(); // the entry is on the screen before anything says that it was saved
    byId("trouble").textContent = "";
    if (beside) note.show(beside, () => takeBack(kept.map(({ event }) => event), text("undo")));
    return kept;
  } catch (error) {
    last.said = ""; // a try that failed may be tried again at once
    byId("trouble").textContent = text(error.name === "QuotaExceededError" ? "full" : "not-saved");
    console.info("not saved:", error);
    return null;
  }
}

// What was entered by mistake stays on record and counts no more.
async function takeBack(entries, reason) {
  for (const { id, operation } of entries) {
    if (!(await save("withdrawal", { reason }, { operation, corrects: id }))) return false;
  }
  return true;
}

function eyeOf(operation) {
  return pack.eyes.find((eye) => eye.operation === operation);
}

// With `changing`, the hours take the place of that entry's.
function saveHours(operation, from, to, changing, beside) {
  const { position } = changing?.body ?? eyeOf(operation).posture;
  const body = { position, from: from.toISOString(), to: to.toISOString() };
  return save("posture", body, { operation, beside, corrects: changing?.id ?? null });
}

function changeHours(entry) {
  location.hash = "now";
  posture.change(entry);
}

// The timer of an eye's plan, running or on a break.
function ownTimer(operation) {
  const { position } = eyeOf(operation).posture;
  return timers.find((timer) => timer.operation === operation && timer.position === position);
}

// Stops the timer of an eye's plan, or starts it; resolves with the `position` that runs now, or null. A head has one
// position: what runs for another one ends.
async function toggleTimer(operation, beside) {
  const { eye, posture: { position } } = eyeOf(operation);
  const own = ownTimer(operation);
  if (own && !own.on_break) {
    await stopTimer(own, new Date(), beside);
    return { position: null };
  }
  for (const timer of timers.filter((known) => known.position !== position)) await stopTimer(timer);
  note.hide();
  await startTimer(database, { operation, eye, position });
  changed();
  return { position };
}

// A break is no posturing: what ran until now is kept, and the phone calls back. On a break it ends for now.
async function pauseTimer(operation) {
  const own = ownTimer(operation);
  if (!own) return {};
  if (own.on_break) await stopTimer(own);
  else await save("posture", stretch(own), { operation, alongside: takingOut(own, [breakOf(own)]) });
  return { pause: own.on_break ? null : eyeOf(operation).posture };
}

// The stretch goes to the eye and the position that the timer was started for, whatever is planned or shown by now.
async function stopTimer(timer, until = new Date(), beside = undefined) {
  const { operation } = timer;
  if (timer.on_break) {
    await transact(database, ["facts"], "readwrite", ({ facts }) => takingOut(timer)(facts, () => {}));
    changed();
    return true;
  }
  const kept = await save("posture", stretch(timer, until), { operation, alongside: takingOut(timer) });
  if (kept?.[0] && beside) {
    note.show(beside, async () => {
      await takeBack([kept[0].event], text("undo"));
      await startTimer(database, timer);
      changed();
    });
  }
  return kept;
}

// Somebody says until when it was; false where that lies before the start.
async function stopTimerAt(operation, until, beside) {
  const own = ownTimer(operation);
  if (!own || until <= new Date(own.start)) return false;
  return Boolean(await stopTimer(own, until, beside));
}

// Somebody says that they still lie so. What grew too long for one stretch is kept, and another begins.
async function stillSo(operation) {
  const own = ownTimer(operation);
  if (!own) return;
  if (isLong(own)) {
    const next = { operation, eye: own.eye, position: own.position, start: new Date().toISOString() };
    await save("posture", stretch(own), { operation, alongside: takingOut(own, [next]) });
    return;
  }
  await transact(database, ["facts"], "readwrite", ({ facts }) => takingOut(own, [sureOf(own)])(facts, () => {}));
  changed();
}

// What the clinic could not take stays among the entries; it leaves the first screen once it was seen there.
async function refusedSeen() {
  await transact(database, ["entries"], "readwrite", ({ entries }) => {
    entries.openCursor().onsuccess = ({ target: { result: cursor } }) => {
      if (!cursor) return;
      if (cursor.value.state === "refused") cursor.update({ ...cursor.value, seen: true });
      cursor.continue();
    };
  });
  changed();
}

// Sends what waits, then fetches what the clinic has for this phone. Without a signal both keep what is here.
async function refresh() {
  await outbox.flush();
  await fetchPack();
  await show();
}

async function fetchPack() {
  try {
    if (!pack && !(await isSetUp())) return;
    await sendSealed(database);
    const answer = await timed(`/api/v1/pack?language=${language}`, { cache: "no-store" }); // its time of making is the clinic's clock
    if (answer.status === 401) {
      const { locked, removed } = await answer.json();
      if (locked) await lockOut(removed ? "patient" : "clinic");
    }
    if (answer.ok) {
      const fresh = await answer.json();
      await takePack(fresh);
      if (await outbox.sendAgain(fresh.generation)) await outbox.flush();
      unknown = false;
      await outbox.prune();
    }
  } catch {
    // No signal: the pack on the phone stays.
  }
}

// A browser that was never set up asks for nothing more: a refusal would stand in its log as a fault.
async function isSetUp() {
  const answer = await timed("/api/v1/known", { cache: "no-store" });
  return answer.ok && (await answer.json()).set_up;
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
        facts.delete("closed");
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

// The clinic closed this phone, or the patient removed whoever helps with it: what was not sent is sealed for the clinic, the
// rest is taken off.
async function lockOut(by = "clinic") {
  await sealEverything(database);
  await writeFact(database, "closed", by);
  others.postMessage("changed");
  await show();
}

// One drawing after the other, so that an older state never ends on top of a newer one.
function show() {
  drawing = drawing.then(draw, draw);
  return drawing;
}

async function draw() {
  const kinds = ["pack", "timer", "changes", "chosen", "clock", "verdicts", "closed"];
  const [known, timer, unseen = {}, chosen, received, verdicts = {}, closed] = await readFacts(database, kinds);
  [pack, changes, timers, receipt] = [known, unseen, runningTimers(timer, known?.eyes ?? []), received];
  await lookAtClock();
  running.show(timers.filter((one) => !one.on_break && !isPlanned(one)));
  const ready = Boolean(pack?.eyes.length);
  const over = showEnded(pack, words, Boolean(closed));
  const kept = await sealedCount(database);
  byId("not-enrolled").hidden = !unknown && (ready || Boolean(closed) || over || kept > 0);
  showClosed(ready || !(closed || kept > 0) ? null : closed ?? "clinic", kept);
  document.querySelector(".tabs").hidden = !ready;
  if (!ready) {
    byId("verdict").hidden = true;
    help.show({ pack: pack ?? {} });
    route();
    byId("who").textContent = "";
    const unsent = over ? (await outbox.all()).filter((entry) => entry.state === "saved").length : 0;
    byId("sending").textContent = unsent ? countedText("to-send", unsent) : "";
    return;
  }
  const entries = onThisPhone = await outbox.all();
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

// Shows the part of the page that the address names; whom to call is there before the phone is set up too.
function route() {
  const wanted = location.hash.slice(1);
  const away = Boolean(pack?.eyes.length) && later.misses(wanted);
  if (away) later.open().then(goTo, () => {}); // without a signal it is tried again with the next drawing
  const sections = [...document.querySelectorAll("[data-view]")];
  const named = sections.find((section) => section.id === (away ? "away" : wanted));
  const current = pack?.eyes.length ? named ?? sections[0] : sections.find((section) => section === named && section.id === "help");
  if (current?.id === "more" && current.hidden) messages.load();
  for (const section of sections) section.hidden = section !== current;
  for (const link of document.querySelectorAll(".tabs a")) {
    if (link.hash === `#${current?.id}`) link.setAttribute("aria-current", "page");
    else link.removeAttribute("aria-current");
  }
  return current;
}

// Somebody who goes to another part begins at its top.
function goTo() {
  const current = route();
  note.hide();
  scrollTo(0, 0);
  current?.querySelector("h1").focus({ preventScroll: true });
}
