// What the clinic changed since this phone last heard: shown on the first page until the person has seen it.

import { dayWords, numberWords, whenOf, whenWords } from "../shared/dates.js";
import { byId, item } from "../shared/dom.js";
import { text } from "./texts.js";

// The differences between two packs of one eye that a patient must know, each {key, name, before, now}. Without an earlier
// pack of it the eye itself is new.
export function changesBetween(before, now) {
  if (!before) return [{ key: "eye", now: now.eye }];
  const found = [];
  const compare = (key, was, is) => { if (was !== is) found.push({ key, before: was, now: is }); };
  compare("agent", before.gas.agent, now.gas.agent);
  compare("operated", before.operated_on, now.operated_on);
  if (before.gas.fades && now.gas.fades) compare("caution", before.gas.caution, now.gas.caution);
  compare("position", before.posture?.position ?? "", now.posture?.position ?? "");
  if (before.posture && now.posture) {
    compare("hours", before.posture.hours_a_day, now.posture.hours_a_day);
    compare("last-day", before.posture.dates.at(-1) ?? "", now.posture.dates.at(-1) ?? "");
  }
  const [taken, given] = [before, now].map(({ drops = [] }) => byName(drops));
  for (const [name, said] of given) {
    if (!taken.has(name)) found.push({ key: "drop-new", name, now: said });
    else if (taken.get(name) !== said) found.push({ key: "drop-moved", name, before: taken.get(name), now: said });
  }
  for (const name of taken.keys()) if (!given.has(name)) found.push({ key: "drop-gone", name });
  const [old, fresh, seen] = [open(before), open(now), new Set(numbered(now).filter(([, visit]) => visit.seen).map(([place]) => place))];
  for (const [place, visit] of fresh) {
    const said = { name: visit.words, place, now: whenOf(visit) };
    if (!old.has(place)) found.push({ key: "visit-new", ...said });
    else if (whenOf(old.get(place)) !== whenOf(visit)) found.push({ key: "visit-moved", before: whenOf(old.get(place)), ...said });
  }
  for (const [place, visit] of old) if (!fresh.has(place) && !seen.has(place)) found.push({ key: "visit-gone", name: visit.words, place });
  return found;
}

// What is to be taken by name, `4 2027-03-10`; the steps of a taper one after the other.
function byName(drops) {
  const found = new Map();
  for (const { name, times_a_day: times, until } of drops) found.set(name, [...(found.get(name) ?? []), `${times} ${until}`]);
  return new Map([...found].map(([name, steps]) => [name, steps.join(", ")]));
}

// The visits with a name that tells those of one name apart: week 1, extra visit, extra visit 2.
function numbered(pack) {
  const count = new Map();
  return pack.visits.map((visit) => {
    const n = (count.get(visit.name) ?? 0) + 1;
    count.set(visit.name, n);
    return [n > 1 ? `${visit.name} ${n}` : visit.name, visit];
  });
}

function open(pack) {
  return new Map(numbered(pack).filter(([, visit]) => !visit.seen));
}

// A place changed twice before it was seen counts once: from what was seen to what stands.
export function joined(earlier, later) {
  const place = (change) => `${change.key.replace(/-(new|moved|gone)$/, "")} ${change.place ?? change.name ?? ""}`;
  const first = new Map(earlier.map((change) => [place(change), change]));
  const added = later.map((change) => ({ ...change, before: first.get(place(change))?.before ?? change.before }));
  const kept = earlier.filter((change) => !later.some((other) => place(other) === place(change)));
  return [...kept, ...added].filter((change) => change.before === undefined || change.before !== change.now);
}

export class ChangesView {
  #actions;
  #words;

  constructor(actions, words) {
    this.#actions = actions;
    this.#words = words;
    byId("changes-seen").addEventListener("click", () => this.#actions.changesSeen());
  }

  // `changes` by operation; those of every eye are shown together. What is said of gas must be so now.
  show({ changes, names, eyes }) {
    const eye = (operation) => (names.size > 1 ? `${names.get(operation)}. ` : "");
    const rows = eyes.flatMap(({ operation, gas }) => (changes[operation] ?? [])
      .filter(({ key, now }) => key !== "caution" || (gas.fades && gas.caution === now))
      .map((change) => item(eye(operation) + this.#said(change))));
    byId("changes").hidden = rows.length === 0;
    byId("change-list").replaceChildren(...rows);
  }

  #said({ key, name, before, now }) {
    if (key === "caution") return text(now ? "change-caution" : "change-no-gas");
    const words = (value) => this.#value(key, value);
    return text(`change-${key}`, { name, before: words(before), now: words(now) });
  }

  #value(key, value) {
    if (value === undefined) return "";
    if (key === "agent") return this.#words.agent[value];
    if (key === "position") return value ? this.#words.posture[value] : text("no-position");
    if (key === "eye") return this.#words.eye[value];
    if (key.startsWith("drop-")) {
      const steps = value.split(", ").map((step) => step.split(" "));
      return steps.map(([times, until]) => text("drop-plan", { times: numberWords(Number(times)), until: dayWords(until) })).join("; ");
    }
    return key === "hours" ? numberWords(value) : whenWords(value);
  }
}
