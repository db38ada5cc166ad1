// Now: for each eye which way to hold the head, how long is left today, its timer; hours by hand.

import { isoClock, isoDay, momentWords, numberWords, timeWords } from "../shared/dates.js";
import { Taps, byId, onSubmit } from "../shared/dom.js";
import { hoursOn, lastTime, planOn, spanOf } from "./hours.js";
import { goToQuestion } from "./running-view.js";
import { entriesOf } from "./standing.js";
import { text } from "./texts.js";
import { counted, isInDoubt } from "./timers.js";

export class PostureView {
  #actions;
  #words;
  #cues;
  #taps = new Taps();
  #cards = new Map();
  #due = new Map(); // when the next cue of an eye comes
  #changing = null; // the entry whose hours are put right
  #today;

  constructor(actions, words, cues) {
    this.#actions = actions;
    this.#words = words;
    this.#cues = cues;
    onSubmit(byId("by-hand"), () => this.#byHand());
    byId("hand-stop").addEventListener("click", () => this.#change(null));
    this.#change(null);
  }

  // Opens the form with the hours of an entry, to put them right.
  change(entry) {
    this.#change(entry);
    const form = byId("by-hand");
    form.closest("details").open = true;
    byId("hand-from").focus();
  }

  #change(entry) {
    this.#changing = entry;
    const [from, to] = entry ? [new Date(entry.body.from), new Date(entry.body.to)] : [new Date(), null];
    byId("hand-day").value = isoDay(from);
    byId("hand-from").value = entry ? isoClock(from) : "";
    byId("hand-to").value = to ? isoClock(to) : "";
    if (entry) byId("hand-eye").value = entry.operation;
    else byId("hand-eye").options.selectedIndex = 0;
    byId("hand-eye").disabled = Boolean(entry);
    byId("hand-changing").hidden = !entry;
    byId("hand-changing").textContent = entry ? text("changing", { from: momentWords(from), to: momentWords(to) }) : "";
    byId("hand-stop").hidden = !entry;
    byId("hand-error").textContent = "";
  }

  show({ eyes, names, entries, timers, unsure, fault }, now = new Date()) {
    const planned = eyes.filter((eye) => planOn(eye, now));
    const isNew = (eye) => !this.#cards.has(eye.operation);
    if (planned.length !== this.#cards.size || planned.some(isNew)) this.#deal(planned);
    for (const eye of planned) this.#draw(eye, names, entries, timers, unsure, now);
    byId("posture-options").hidden = planned.length === 0;
    byId("no-posture").hidden = planned.length > 0 || fault !== null;
    byId("different-postures").hidden = new Set(planned.map(({ posture }) => posture.position)).size < 2;
    this.#offerByHand(planned, names);
    const today = isoDay(now);
    if (today !== this.#today && !byId("hand-from").value) byId("hand-day").value = today; // an empty form of yesterday
    this.#today = today;
    for (const [operation, cue] of this.#due) if (!planned.some((eye) => eye.operation === operation)) clearTimeout(cue);
  }

  // A card for each eye with a plan today; cards stay the same elements for as long as the eyes do.
  #deal(planned) {
    const old = this.#cards;
    this.#cards = new Map(planned.map(({ operation }) => [operation, old.get(operation) ?? this.#card(operation)]));
    byId("postures").replaceChildren(...this.#cards.values());
  }

  #card(operation) {
    const card = byId("posture-card").content.cloneNode(true).firstElementChild;
    card.querySelector(".timer-words").id = `timer-${operation}`;
    card.querySelector(".timer").setAttribute("aria-describedby", `timer-${operation}`);
    const part = (name) => card.querySelector(`.${name}`);
    this.#taps.on(part("timer"), () => this.#press(operation, part));
    this.#taps.on(part("pause"), () => this.#cued(this.#actions.pauseTimer(operation, part("timer-words"))));
    this.#taps.on(part("still-yes"), () => this.#actions.stillSo(operation));
    part("still-no").addEventListener("click", () => askUntil(part));
    onSubmit(part("still-until"), () => this.#until(operation, part));
    return card;
  }

  #draw(eye, names, entries, timers, unsure, now) {
    const part = (name) => this.#cards.get(eye.operation).querySelector(`.${name}`);
    const plan = eye.posture;
    const timer = timers.find(({ operation, position }) => operation === eye.operation && position === plan.position);
    part("posture-eye").textContent = names.get(eye.operation);
    part("posture-eye").hidden = names.size < 2;
    part("posture-words").textContent = this.#words.posture[plan.position];
    part("posture-picture").src = `/static/patient/postures/${plan.position}.svg`;
    const asked = unsure.includes(timer);
    const done = hoursOn(blocks(eye, entries, asked ? null : timer, now), now);
    const left = Math.max(0, plan.hours_a_day - done);
    const values = { done: numberWords(done), target: numberWords(plan.hours_a_day), left: numberWords(left) };
    part("left-today").textContent = text(left > 0 ? "done-today" : "done-all", values);
    const running = timer && !timer.on_break;
    const doubt = Boolean(running) && !asked && isInDoubt(timer, now);
    const whose = names.size > 1 ? `: ${names.get(eye.operation)}` : "";
    say(part("timer"), text(running ? "stop" : timer ? "back-now" : "start"), whose);
    part("timer").setAttribute("aria-pressed", String(Boolean(running)));
    part("pause").hidden = !timer || asked;
    say(part("pause"), text(running ? "pause" : "stop-for-now"), whose);
    part("still").hidden = !doubt;
    if (!doubt) part("still-until").hidden = true;
    part("still-words").textContent = doubt ? text("still-so", { time: momentWords(new Date(timer.start)), until: momentWords(new Date(counted(timer, now)[1])) }) : "";
    part("timer-words").textContent = timer && !doubt && !asked ? runningWords(timer, plan) : "";
    this.#schedule(eye.operation, timer, plan);
  }

  // Stop, where nobody knows any more since when, asks until when it was.
  async #press(operation, part) {
    if (!part("still").hidden) { askUntil(part); return; }
    await this.#cued(this.#actions.toggleTimer(operation, part("timer-words")));
  }

  async #cued(changing) {
    const { position, pause, asks } = await changing;
    if (asks) goToQuestion();
    else if (position) this.#cues.signal(this.#words.posture[position]);
    else if (pause) this.#cues.signal(breakWords(pause));
  }

  async #until(operation, part) {
    const time = part("still-time").value;
    const kept = time && await this.#actions.stopTimerAt(operation, lastTime(time), part("timer-words"));
    part("still-error").textContent = !time ? text("hours") : kept === false ? text("order") : "";
  }

  #offerByHand(planned, names) {
    const field = byId("hand-eye");
    byId("hand-eye-field").hidden = planned.length < 2;
    const offered = [...field.options].map((option) => option.value).filter(Boolean);
    if (offered.length === planned.length && planned.every(({ operation }) => offered.includes(operation))) return;
    const none = planned.length > 1 ? [new Option("", "")] : [];
    field.replaceChildren(...none, ...planned.map(({ operation }) => new Option(names.get(operation), operation)));
  }

  async #byHand() {
    const [chosen, day, from, to] = ["hand-eye", "hand-day", "hand-from", "hand-to"].map((id) => byId(id).value);
    const operation = this.#changing?.operation ?? chosen;
    const error = byId("hand-error");
    if (!operation) { error.textContent = text("which-eye"); return; }
    if (!day || !from || !to) { error.textContent = text("hours"); return; }
    const [start, end] = spanOf(day, from, to);
    if (from === to || end <= start) { error.textContent = text("order"); return; } // the hour that clocks skip is no hour
    if (end > new Date()) { error.textContent = text("future"); return; }
    error.textContent = "";
    if (await this.#actions.saveHours(operation, start, end, this.#changing, byId("hand-save"))) this.#change(null);
  }

  // A cue at each change, because someone face down cannot look at a screen.
  #schedule(operation, timer, plan) {
    clearTimeout(this.#due.get(operation));
    if (!timer) return;
    const passed = Date.now() - Date.parse(timer.start);
    const spell = (timer.on_break ? plan.break_minutes : plan.cycle_minutes) * 60000;
    if (timer.on_break && passed > spell) return;
    this.#due.set(operation, setTimeout(() => {
      this.#cues.signal(timer.on_break ? text("back") : breakWords(plan));
      this.#schedule(operation, timer, plan);
    }, spell - passed % spell));
  }
}

function say(button, words, whose) {
  button.textContent = words;
  if (whose) button.setAttribute("aria-label", words + whose);
}

function breakWords(plan) {
  return text("break", { minutes: numberWords(plan.break_minutes) });
}

function askUntil(part) {
  part("still-until").hidden = false;
  part("still-time").focus();
}

function runningWords(timer, plan) {
  const start = Date.parse(timer.start);
  const spell = (timer.on_break ? plan.break_minutes : plan.cycle_minutes) * 60000;
  const spells = timer.on_break ? 1 : Math.floor((Date.now() - start) / spell) + 1;
  return text(timer.on_break ? "on-break" : "running", { time: timeWords(new Date(start)), next: timeWords(new Date(start + spells * spell)) });
}

// What the clinic has of this eye, what is still on the phone, and what is running.
export function blocks(eye, entries, timer, now) {
  const { position } = eye.posture;
  const taken = entriesOf(eye, entries).filter(({ kind, body }) => kind === "posture" && body.position === position);
  const spans = taken.map(({ body }) => [Date.parse(body.from), Date.parse(body.to ?? body.from)]);
  return timer && !timer.on_break ? [...spans, counted(timer, now)] : spans;
}
