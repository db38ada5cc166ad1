// Now: which way to hold the head, how long is left today, the timer, hours by hand.

import { hoursOn, isoDay } from "./hours.js";
import { byId, numberWords, text, timeWords } from "./texts.js";

export class PostureView {
  #actions;
  #words;
  #lock = null;
  #cue = null;

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
    byId("timer").addEventListener("click", () => this.#toggle());
    byId("by-hand").addEventListener("submit", (event) => this.#byHand(event));
    byId("keep-awake").addEventListener("change", (event) => this.#keepAwake(event.target.checked));
    byId("hand-day").value = isoDay(new Date());
  }

  show({ eye, entries, timer }, now = new Date()) {
    const plan = eye.posture;
    const inPlan = plan?.dates.includes(isoDay(now));
    byId("posture-card").hidden = !inPlan;
    byId("no-posture").hidden = Boolean(inPlan);
    byId("gas-card").hidden = !eye.gas.caution;
    const next = eye.visits.find((visit) => !visit.seen && visit.latest >= isoDay(now));
    byId("next-visit").textContent = next ? this.#actions.visitWords(next) : text("none-planned");
    if (!inPlan) return;
    byId("posture-words").textContent = this.#words.posture[plan.position];
    byId("posture-picture").src = `/static/patient/postures/${plan.position}.svg`;
    const done = hoursOn(blocks(eye, entries, timer, now), now);
    const left = Math.max(0, plan.hours_a_day - done);
    const values = { done: numberWords(done), target: numberWords(plan.hours_a_day), left: numberWords(left) };
    byId("left-today").textContent = text(left > 0 ? "done-today" : "done-all", values);
    byId("timer").textContent = text(timer ? "stop" : "start");
    byId("timer").setAttribute("aria-pressed", String(Boolean(timer)));
    byId("timer-words").textContent = timer ? runningWords(timer, plan) : "";
    this.#schedule(timer, plan);
  }

  async #toggle() {
    const running = await this.#actions.toggleTimer();
    this.#signal(running ? this.#words.posture[this.#actions.plan().position] : text("break"));
  }

  async #byHand(event) {
    event.preventDefault();
    const [day, from, to] = ["hand-day", "hand-from", "hand-to"].map((id) => byId(id).value);
    const error = byId("hand-error");
    if (!day || !from || !to) { error.textContent = text("hours"); return; }
    const start = new Date(`${day}T${from}`);
    const end = new Date(`${day}T${to}`);
    if (end <= start) { error.textContent = text("order"); return; }
    if (end > new Date()) { error.textContent = text("future"); return; }
    error.textContent = "";
    if (await this.#actions.saveHours(start, end)) { byId("hand-from").value = ""; byId("hand-to").value = ""; }
  }

  // A cue at each change, because someone face down cannot look at a screen.
  #schedule(timer, plan) {
    clearTimeout(this.#cue);
    if (!timer) return;
    const cycle = (plan.cycle_minutes + plan.break_minutes) * 60000;
    const into = (Date.now() - new Date(timer.start).getTime()) % cycle;
    const spell = plan.cycle_minutes * 60000;
    const wait = into < spell ? spell - into : cycle - into;
    this.#cue = setTimeout(() => {
      this.#signal(text(into < spell ? "break" : "back"));
      this.#schedule(timer, plan);
    }, wait);
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

// What the clinic has, what is still on the phone, and what is running.
export function blocks(eye, entries, timer, now) {
  const taken = new Map(eye.receipts.filter((r) => r.kind === "posture").map((r) => [r.id, r.body]));
  for (const { id, event, state } of entries) {
    if (event.kind === "posture" && state !== "refused") taken.set(id, event.body);
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
