// Wires the patient's pages: the phone's store, the outbox, and one view for each part.

import { faultOf } from "../shared/clock.js";
import { openDatabase, readFacts, transact, writeFact } from "../shared/database.js";
import { whenOf, whenWords } from "../shared/dates.js";
import { byId } from "../shared/dom.js";
import { BubbleView } from "./bubble-view.js";
import { ChangesView } from "./changes-view.js";
import { CheckView } from "./check-view.js";
import { Cues } from "./cues.js";
import { readDraft, writeDraft } from "./draft.js";
import { DropsView } from "./drops-view.js";
import { EntriesView } from "./entries-view.js";
import { EyeChoice, eyeNames } from "./eyes.js";
import { FromClinic, REFRESH_MS } from "./from-clinic.js";
import { planOn } from "./hours.js";
import { Keeping } from "./keeping.js";
import { Later } from "./later.js";
import { PhoneOutbox } from "./outbox.js";
import { PlanView, showClosed, showEnded } from "./plan-view.js";
import { PostureView } from "./posture-view.js";
import { waitsForClinic } from "./rules.js";
import { RunningView } from "./running-view.js";
import { sealedCount } from "./sealing.js";
import { unsureOf } from "./standing.js";
import { countedText, text } from "./texts.js";
import { Timers, isUnsure, runningTimers } from "./timers.js";
import { watchForUpdates } from "./updates.js";
import { HelpView, VerdictView } from "./verdict-view.js";
import { VisitsView } from "./visits-view.js";

const FACTS = ["pack", "timer", "changes", "chosen", "clock", "verdicts", "closed"];

class App {
  #words = JSON.parse(byId("words").textContent);
  #others = new BroadcastChannel("followup");
  #help = new HelpView();
  #database;
  #outbox;
  #clinic;
  #choice;
  #keeping;
  #timers;
  #cues;
  #posture;
  #verdict;
  #check;
  #running;
  #later;
  #views;
  #pack;
  #entries = [];
  #changes = {};
  #names = new Map();
  #drawing = Promise.resolve();

  constructor(database) {
    const changed = (outcome) => this.#changed(outcome);
    const trying = (work) => this.#keeping.trying(work).then(() => this.#changed());
    const page = {
      about: (kind) => this.#about(kind), usedBy: () => this.#pack?.used_by ?? "patient", show: () => this.#show(), changed,
      receipt: () => this.#clinic.receipt, sure: (id) => trying(() => this.#outbox.sure(id)),
      planOf: (operation) => ({ ...this.#eyeOf(operation), ...this.#eyeOf(operation).posture }),
    };
    this.#database = database;
    this.#outbox = new PhoneOutbox(database, changed);
    this.#clinic = new FromClinic(database, this.#outbox, () => this.#tell());
    this.#choice = new EyeChoice((operation) => trying(() => writeFact(database, "chosen", operation)));
    this.#keeping = new Keeping(this.#outbox, page);
    this.#timers = new Timers(database, this.#keeping, page);
    this.#cues = new Cues(database);
    const [actions, words] = [this.#actions(trying), this.#words];
    this.#running = new RunningView(actions, words);
    this.#verdict = new VerdictView(actions);
    this.#check = new CheckView(actions);
    this.#posture = new PostureView(actions, words, this.#cues);
    this.#views = [
      new ChangesView(actions, words), this.#posture, new PlanView(actions, words), new EntriesView(actions), new DropsView(actions, this.#cues),
      new BubbleView(actions, words), new VisitsView(actions), this.#verdict, this.#check, this.#help,
    ];
    this.#later = new Later((module) => {
      this.#views.push(...module.viewsOf(actions, words));
      this.#show();
    });
  }

  async start() {
    window.addEventListener("hashchange", () => this.#goTo());
    document.querySelector(".tabs a[href='#check']").addEventListener("click", () => this.#check.again());
    window.addEventListener("online", () => this.#clinic.refresh());
    document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") this.#clinic.refresh(); });
    this.#others.addEventListener("message", () => this.#show());
    setInterval(() => this.#show().then(() => this.#clinic.keepUp()), REFRESH_MS);
    watchForUpdates(byId("new-version"), byId("take-over"));
    navigator.storage?.persist?.();
    await this.#cues.load();
    this.#check.take(await readDraft(this.#database));
    await this.#show();
    await this.#clinic.refresh();
  }

  // What views may ask for and do.
  #actions(trying) {
    const [keeping, timers] = [this.#keeping, this.#timers];
    const visitName = (eye, visit) => (this.#names.size > 1 ? `${visit.words} (${this.#names.get(eye.operation)})` : visit.words);
    return {
      eyes: () => this.#pack.eyes,
      nameOf: (operation) => this.#names.get(operation),
      receipt: () => this.#clinic.receipt,
      change: (work) => transact(this.#database, ["facts"], "readwrite", ({ facts }) => work(facts)),
      visitName,
      visitWords: (eye, visit) => `${whenWords(whenOf(visit))}: ${visitName(eye, visit)}`,
      say: (operation, said) => this.#verdict.say(operation, said),
      waits: (operation, said) => waitsForClinic(said, this.#eyeOf(operation), this.#entries),
      verdictStands: () => this.#verdict.stands,
      missed: (operation) => this.#verdict.missed(operation),
      verdictKept: (operation, left) => this.#verdict.isKept(operation, left),
      keepDraft: (draft) => writeDraft(this.#database, draft).catch(() => {}),
      save: (kind, body, about) => keeping.save(kind, body, about),
      saveHours: (operation, from, to, changing, beside) => this.#saveHours(operation, from, to, changing, beside),
      takeBack: (entries, reason) => keeping.takeBack(entries, reason),
      toggleTimer: (operation, beside) => timers.toggle(operation, beside),
      pauseTimer: (operation, beside) => timers.pause(operation, beside),
      stopTimer: (timer, until) => timers.stop(timer, until, byId("running")),
      stopTimerAt: (operation, until, beside) => timers.stopAt(operation, until, beside),
      stillSo: (operation) => timers.stillSo(operation),
      ran: (timer, minutes) => timers.ran(timer, minutes),
      lasted: (entry, minutes) => timers.lasted(entry, minutes),
      changesSeen: () => trying(() => this.#clinic.changesSeen(this.#changes)),
      refusedSeen: () => trying(() => this.#outbox.refusedSeen()),
      show: () => this.#show(),
      canChange: ({ operation }) => Boolean(this.#eyeOf(operation) && planOn(this.#eyeOf(operation), new Date())),
      changeHours: (entry) => {
        addEventListener("hashchange", () => this.#posture.change(entry), { once: true }); // after the page has gone to its top
        location.hash = "now";
      },
      calendar: async (shown, withDrops) => (await this.#later.open()).saveCalendar(shown, withDrops, visitName),
    };
  }

  #changed(outcome) {
    if (outcome === "locked") this.#clinic.closed();
    if (outcome === "unknown") this.#clinic.unknown = true;
    return this.#tell();
  }

  // Here and in other tabs.
  #tell() {
    this.#others.postMessage("changed");
    return this.#show();
  }

  #eyeOf(operation) {
    return this.#pack.eyes.find((eye) => eye.operation === operation);
  }

  // Whom an entry is about that names no eye: a journey or an anaesthetic every eye with gas, else the chosen.
  #about(kind) {
    const gas = this.#pack.eyes.filter((eye) => eye.gas.caution);
    const eyes = ["journey", "anaesthetic"].includes(kind) && gas.length > 0 ? gas : [this.#choice.forDetails];
    return eyes.map(({ operation }) => operation);
  }

  // With `changing`, the hours take the place of that entry's.
  #saveHours(operation, from, to, changing, beside) {
    const { position } = changing?.body ?? this.#eyeOf(operation).posture;
    const body = { position, from: from.toISOString(), to: to.toISOString() };
    return this.#keeping.save("posture", body, { operation, beside, corrects: changing?.id ?? null });
  }

  // One drawing after the other, so that an older state never ends on top of a newer one.
  #show() {
    const draw = () => this.#draw();
    this.#drawing = this.#drawing.then(draw, draw);
    return this.#drawing;
  }

  async #draw() {
    const [pack, timer, unseen = {}, chosen, received, verdicts = {}, closed] = await readFacts(this.#database, FACTS);
    const timers = runningTimers(timer, pack?.eyes ?? []);
    const there = new Set(pack?.eyes.flatMap(({ receipts }) => receipts.map(({ id }) => id)));
    const entries = (await this.#outbox.all()).filter(({ id, state }) => state !== "refused" || !there.has(id)); // the clinic has it after all
    [this.#pack, this.#changes, this.#timers.running, this.#entries] = [pack, unseen, timers, entries];
    await this.#clinic.lookAtClock(received);
    const kept = await sealedCount(this.#database);
    // From here on nothing is waited for: the whole screen goes by one time, and what one part leaves out the other shows.
    const unsure = timers.filter((one) => isUnsure(one, this.#clinic.receipt));
    const unplanned = timers.filter((one) => !one.on_break && !unsure.includes(one) && !this.#isPlanned(one));
    this.#running.show(unplanned, [...unsure, ...unsureOf(pack?.eyes ?? [], entries)]);
    const ready = Boolean(pack?.eyes.length);
    const over = showEnded(pack, this.#words, Boolean(closed));
    const known = ready || Boolean(closed) || over || kept > 0;
    byId("not-enrolled").hidden = !this.#clinic.unknown && known;
    if (known) noteSetUp();
    showClosed(ready || !(closed || kept > 0) ? null : closed ?? "clinic", kept);
    document.querySelector(".tabs").hidden = !ready;
    const waiting = entries.filter(({ state }) => state === "saved").length;
    const toSend = waiting ? countedText("to-send", waiting) : "";
    if (!ready) {
      byId("verdict").hidden = true;
      this.#help.show({ pack: pack ?? {} });
      this.#route();
      byId("who").textContent = "";
      byId("sending").textContent = over ? toSend : "";
      return;
    }
    byId("who").textContent = pack.used_by === "carer" ? `${pack.patient} · ${text("as-carer")}` : pack.patient;
    byId("sending").textContent = toSend || text("all-sent");
    const { eyes } = pack;
    const names = this.#names = eyeNames(eyes, this.#words);
    this.#choice.show(eyes, names, chosen);
    const fault = faultOf(this.#clinic.receipt);
    const shown = { eye: this.#choice.forDetails, eyes, pack, names, entries, timers, unsure, fault, changes: unseen, verdicts };
    for (const view of this.#views) view.show(shown);
    this.#route();
  }

  // Whether a timer is for the position that its eye is to hold today, and so shows with that plan.
  #isPlanned({ operation, position }) {
    return this.#pack?.eyes.some((eye) => eye.operation === operation && planOn(eye, new Date())?.position === position);
  }

  // Shows the part of the page that the address names; whom to call is there before the phone is set up too.
  #route() {
    const enrolled = Boolean(this.#pack?.eyes.length);
    const wanted = location.hash.slice(1);
    const away = enrolled && this.#later.misses(wanted);
    if (away) this.#later.open().then(() => this.#goTo(), () => {}); // without a signal it is tried again with the next drawing
    const sections = [...document.querySelectorAll("[data-view]")];
    const named = sections.find((section) => section.id === (away ? "away" : wanted));
    const current = enrolled ? named ?? sections[0] : sections.find((section) => section === named && section.id === "help");
    if (current?.id === "more" && current.hidden) this.#later.open().catch(() => { byId("messages-need-signal").hidden = false; });
    for (const section of sections) section.hidden = section !== current;
    for (const link of document.querySelectorAll(".tabs a")) {
      if (link.hash === `#${current?.id}`) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    return current;
  }

  // Somebody who goes to another part begins at its top.
  #goTo() {
    const current = this.#route();
    this.#keeping.hideNote();
    scrollTo(0, 0);
    current?.querySelector("h1").focus({ preventScroll: true });
  }
}

// For `first-look.js`; where there is no room for it, that says a moment too long that the phone is not set up.
function noteSetUp() {
  try {
    localStorage.setItem("set-up", "yes");
  } catch (error) {
    console.info("not noted:", error);
  }
}

// A browser that lets this page keep nothing: then there is whom to call, and no more to do.
function sayBlocked(error) {
  console.info("nothing can be kept:", error);
  byId("not-enrolled").hidden = true;
  byId("blocked").hidden = false;
}

const database = await openDatabase().catch(sayBlocked);
if (database) await new App(database).start();
document.documentElement.dataset.ready = "yes";
