// Today's drops of every eye: what comes next, a row for each with one tap, and a reminder at its time while the page is open.
// They are as the clinic entered them, with the times that the server spread over the day; here is nothing about how many to take.

import { dayWords, isoDay, listWords, numberWords, timeWords } from "../shared/dates.js";
import { Taps, byId, item, paragraph, redraw } from "../shared/dom.js";
import { entriesOf } from "./standing.js";
import { text } from "./texts.js";

export class DropsView {
  #actions;
  #cues;
  #taps = new Taps();
  #timer;

  constructor(actions, cues) {
    this.#actions = actions;
    this.#cues = cues;
  }

  show({ eyes, names, entries, fault }, now = new Date()) {
    const planned = eyes.some((eye) => dropsOn(eye, now).length > 0);
    byId("drops-card").hidden = !planned;
    for (const list of ["drops-now", "drop-list"]) redraw(byId(list), this.#rows(eyes, names, entries, now));
    const plan = taperRows(eyes, names, now);
    byId("drop-plan").replaceChildren(...plan);
    byId("drops-first").hidden = plan.length === 0;
    byId("no-drops").hidden = plan.length > 0;
    byId("no-drops").textContent = text(fault ? "in-doubt" : eyes.some(({ drops }) => drops.length > 0) ? "no-drops-today" : "no-drops");
    const next = nextDrops(eyes, entries, now);
    const timed = eyes.every((eye) => dropsOn(eye, now).every(({ times }) => times)); // not in the pack of an earlier version
    byId("next-drop").textContent = planned && timed ? nextWords(next, names, now) ?? text(isAllTaken(eyes, entries, now) ? "drops-done" : "drops-over") : "";
    if (!next.some(({ at }) => at <= now)) byId("drop-due").textContent = "";
    this.#remind(next.filter(({ at }) => at > now), names);
  }

  #rows(eyes, names, entries, now) {
    return eyes.flatMap((eye) => dropsOn(eye, now).map((drop) => this.#row(drop, eye, names, entries, now)));
  }

  #row(drop, eye, names, entries, now) {
    const name = nameOf(drop, eye, names);
    const taken = takenToday(drop, eye, entries, now);
    const said = text("drop", { name, done: numberWords(taken.length), times: numberWords(drop.times_a_day) });
    const times = listWords(taken.map(({ at }) => timeWords(new Date(at))));
    const made = item(times ? `${said}. ${text("drop-times", { times })}` : said);
    const clocks = timesOf(drop, taken, now).map((one) => (one.taken ? `${timeWords(one.at)} ✓` : timeWords(one.at)));
    if (clocks.length > 0) {
      const hint = paragraph(clocks.join(" · "));
      hint.className = "hint";
      made.append(hint);
    }
    made.append(this.#button(text("took-it"), name, "", () => this.#actions.save("drops", { name: drop.name }, { operation: eye.operation })));
    if (taken.length > 0) made.append(this.#button(text("undo"), name, "quiet", () => this.#actions.takeBack([taken.at(-1)], text("undo"))));
    return made;
  }

  // At the next time, for as long as the page is open.
  #remind(later, names) {
    clearTimeout(this.#timer);
    if (later.length === 0) return;
    const due = later.filter(({ at }) => at.getTime() === later[0].at.getTime());
    this.#timer = setTimeout(async () => {
      const words = text("drop-due", { name: listWords(due.map(({ drop, eye }) => nameOf(drop, eye, names))) });
      byId("drop-due").textContent = words;
      this.#cues.signal(words);
      await this.#actions.show();
    }, later[0].at - Date.now());
  }

  #button(words, name, look, press) {
    const made = document.createElement("button");
    made.className = look;
    made.textContent = words;
    made.setAttribute("aria-label", `${words}: ${name}`);
    this.#taps.on(made, press);
    return made;
  }
}

function nameOf(drop, eye, names) {
  return names.size > 1 ? `${drop.name} (${names.get(eye.operation)})` : drop.name;
}

// By what the rows say: times that nobody ticked off are over, and not done.
function isAllTaken(eyes, entries, now) {
  return eyes.every((eye) => dropsOn(eye, now).every((drop) => takenToday(drop, eye, entries, now).length >= drop.times_a_day));
}

// All that is to be taken at the earliest of the times.
function nextWords(next, names, now) {
  if (next.length === 0) return undefined;
  const first = next.filter(({ at }) => at.getTime() === next[0].at.getTime() || at <= now);
  const name = listWords(first.map(({ drop, eye }) => nameOf(drop, eye, names)));
  return next[0].at <= now ? text("drop-now", { name }) : text("drop-next", { name, time: timeWords(next[0].at) });
}

// How it goes on after today: the steps of a taper, and what begins later.
function taperRows(eyes, names, now) {
  return eyes.flatMap((eye) => eye.drops.filter(({ until }) => until >= isoDay(now)).map((drop) => {
    const values = { name: nameOf(drop, eye, names), times: numberWords(drop.times_a_day), until: dayWords(drop.until) };
    const later = drop.first > isoDay(now);
    return item(text(later ? "drop-step" : "drop-until", { ...values, from: later ? dayWords(drop.first) : "" }));
  }));
}

// An earlier pack has no first day and no times.
export function dropsOn(eye, now) {
  const today = isoDay(now);
  return eye.drops.filter(({ first = "", until }) => first <= today && today <= until);
}

// In their order, what the clinic has of today and what is still on the phone; each entry once.
export function takenToday(drop, eye, entries, now) {
  const same = (name) => name.toLowerCase() === drop.name.toLowerCase();
  const today = entriesOf(eye, entries).filter(({ kind, at, body }) => kind === "drops" && same(body.name) && isoDay(new Date(at)) === isoDay(now));
  return today.sort((a, b) => a.at.localeCompare(b.at));
}

// Each time of today, { at, opens, taken }: what is taken from `opens` on until the next one opens is it.
export function timesOf({ times = [] }, taken, now) {
  const on = (clock) => new Date(now.getFullYear(), now.getMonth(), now.getDate(), ...clock.split(":").map(Number));
  const opens = times.map((one) => on(one.opens));
  return times.map((one, n) => {
    const inIt = ({ at }) => new Date(at) >= opens[n] && !(new Date(at) >= opens[n + 1]);
    return { at: on(one.at), opens: opens[n], taken: taken.some(inIt) };
  });
}

// The next that is to be taken today, of every eye, { eye, drop, at }, the earliest first: the one whose time it is, else the
// one after it. What was not ticked off when its time is over is let be: only the clinic says what to do then.
export function nextDrops(eyes, entries, now) {
  const open = eyes.flatMap((eye) => dropsOn(eye, now).map((drop) => {
    const times = timesOf(drop, takenToday(drop, eye, entries, now), now);
    const next = times.find(({ taken }, n) => !taken && !(times[n + 1]?.opens <= now));
    return next && { eye, drop, at: next.at };
  }));
  return open.filter(Boolean).sort((a, b) => a.at - b.at);
}
