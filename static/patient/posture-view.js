// Now: for each eye which way to hold the head, how long is left today, its timer; hours by hand.

import { hoursOn, isoDay, planOn } from "./hours.js";
import { byId, numberWords, text, timeWords } from "./texts.js";

export class PostureView {
  #actions;
  #words;
  #lock = null;
  #cards = new Map();
  #cues = new Map();

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
    byId("by-hand").addEventListener("submit", (event) => this.#byHand(event));
    byId("keep-awake").addEventListener("change", () => this.#keepAwake(byId("keep-awake").checked));
    byId("hand-day").value = isoDay(new Date());
  }

  show({ eyes, names, entries, timers }, now = new Date()) {
    const planned = eyes.filter((eye) => planOn(eye, now));
    const isNew = (eye) => !this.#cards.has(eye.operation);
    if (planned.length !== this.#cards.size || planned.some(isNew)) this.#deal(planned);
    for (const eye of planned) this.#draw(eye, names, entries, timers, now);
    byId("posture-options").hidden = planned.length === 0;
    byId("no-posture").hidden = planned.length > 0;
    byId("different-postures").hidden = new Set(planned.map(({ posture }) => posture.position)).size < 2;
    this.#offerByHand(planned, names);
    for (const [operation, cue] of this.#cues) if (!planned.some((eye) => eye.operation === operation)) clearTimeout(cue);
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
    card.querySelector(".timer").addEventListener("click", () => this.#toggle(operation));
    return card;
  }

  #draw(eye, names, entries, timers, now) {
    const part = (name) => this.#cards.get(eye.operation).querySelector(`.${name}`);
    const plan = eye.posture;
    const timer = timers.find(({ operation, position }) => operation === eye.operation && position === plan.position);
    part("posture-eye").textContent = names.get(eye.operation);
    part("posture-eye").hidden = names.size < 2;
    part("posture-words").textContent = this.#words.posture[plan.position];
    part("posture-picture").src = `/static/patient/postures/${plan.position}.svg`;
    const done = hoursOn(blocks(eye, entries, timer, now), now);
    const left = Math.max(0, plan.hours_a_day - done);
    const values = { done: numberWords(done), target: numberWords(plan.hours_a_day), left: numberWords(left) };
    part("left-today").textContent = text(left > 0 ? "done-today" : "done-all", values);
    const button = part("timer");
    button.textContent = text(timer ? "stop" : "start");
    if (names.size > 1) button.setAttribute("aria-label", `${button.textContent}: ${names.get(eye.operation)}`);
    button.setAttribute("aria-pressed", String(Boolean(timer)));
    part("timer-words").textContent = timer ? runningWords(timer, plan) : "";
    this.#schedule(eye.operation, timer, plan);
  }

  async #toggle(operation) {
    const position = await this.#actions.toggleTimer(operation);
    this.#signal(position ? this.#words.posture[position] : text("break"));
  }

  #offerByHand(planned, names) {
    const field = byId("hand-eye");
    byId("hand-eye-field").hidden = planned.length < 2;
    const offered = [...field.options].map((option) => option.value);
    if (offered.length === planned.length && planned.every(({ operation }) => offered.includes(operation))) return;
    const none = planned.length > 1 ? [new Option("", "")] : [];
    field.replaceChildren(...none, ...planned.map(({ operation }) => new Option(names.get(operation), operation)));
  }

  async #byHand(event) {
    event.preventDefault();
    const [operation, day, from, to] = ["hand-eye", "hand-day", "hand-from", "hand-to"].map((id) => byId(id).value);
    const error = byId("hand-error");
    if (!operation) { error.textContent = text("which-eye"); return; }
    if (!day || !from || !to) { error.textContent = text("hours"); return; }
    const start = new Date(`${day}T${from}`);
    const end = new Date(`${day}T${to}`);
    if (end <= start) { error.textContent = text("order"); return; }
    if (end > new Date()) { error.textContent = text("future"); return; }
    error.textContent = "";
    if (await this.#actions.saveHours(operation, start, end)) { byId("hand-from").value = ""; byId("hand-to").value = ""; }
  }

  // A cue at each change, because someone face down cannot look at a screen.
  #schedule(operation, timer, plan) {
    clearTimeout(this.#cues.get(operation));
    if (!timer) return;
    const cycle = (plan.cycle_minutes + plan.break_minutes) * 60000;
    const into = (Date.now() - new Date(timer.start).getTime()) % cycle;
    const spell = plan.cycle_minutes * 60000;
    const wait = into < spell ? spell - into : cycle - into;
    this.#cues.set(operation, setTimeout(() => {
      this.#signal(text(into < spell ? "break" : "back"));
      this.#schedule(operation, timer, plan);
    }, wait));
  }

  #signal(words) {
    navigator.vibrate?.([300, 150, 300]);
    beep();
    if (byId("speak").checked && "speechSynthesis" in window) {
      const spoken = new SpeechSynthesisUtterance(words);
      spoken.lang = document.documentElement.lang;
      speechSynthesis.speak(spoken);
    }
  }

  async #keepAwake(wanted) {
    try {
      if (wanted) this.#lock = await navigator.wakeLock.request("screen");
      else await this.#lock?.release();
    } catch {
      byId("keep-awake").checked = false;
    }
  }
}

function runningWords(timer, plan) {
  const start = new Date(timer.start);
  const cycle = plan.cycle_minutes + plan.break_minutes;
  const rounds = Math.floor((Date.now() - start.getTime()) / (cycle * 60000));
  const next = new Date(start.getTime() + (rounds * cycle + plan.cycle_minutes) * 60000);
  return text("running", { time: timeWords(start), next: timeWords(next) });
}

// What the clinic has of this eye, what is still on the phone, and what is running.
export function blocks(eye, entries, timer, now) {
  const taken = new Map(eye.receipts.filter((r) => r.kind === "posture").map((r) => [r.id, r.body]));
  for (const { id, event, state } of entries) {
    if (event.kind === "posture" && event.operation === eye.operation && state !== "refused") taken.set(id, event.body);
  }
  const position = eye.posture.position;
  const spans = [...taken.values()].filter((b) => b.position === position).map((b) => [Date.parse(b.from), Date.parse(b.to ?? b.from)]);
  if (timer) spans.push([Date.parse(timer.start), now.getTime()]);
  return spans;
}

function beep() {
  try {
    const audio = new AudioContext();
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    volume.gain.value = 0.2;
    tone.connect(volume).connect(audio.destination);
    tone.start();
    tone.stop(audio.currentTime + 0.4);
    tone.onended = () => audio.close();
  } catch {
    // Some phones refuse sound before the first touch; the words on the screen remain.
  }
}
