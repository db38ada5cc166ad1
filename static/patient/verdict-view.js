// A verdict as the patient reads it, and the one that stands: on every screen until a complete check or the clinic says otherwise.
// Help says the same for signs that nobody was asked about yet: what to call for, from the rulebook in force.

import { metresWords, momentWords } from "../shared/dates.js";
import { byId, item, paragraph } from "../shared/dom.js";
import { atTime, judgeAnaesthetic, judgeHeight, judgeTold, listed, rank, standing, worstFirst } from "./rules.js";
import { checksOf } from "./second-looks.js";
import { entriesOf } from "./standing.js";
import { text } from "./texts.js";

// A reassurance is about the eye as it was when it was asked about.
export const REASSURES_MS = 3600000;

const DAY_MS = 86400000;

// The verdict on what was told of what is to come, by the kind of entry.
export const JUDGED = {
  journey: (eyes, receipt, body) => judgeHeight(eyes, body.heights_metres, receipt),
  anaesthetic: (eyes, receipt) => judgeAnaesthetic(eyes, receipt),
};

export class VerdictView {
  #actions;
  #kept = {};
  #unkept = {};
  #told = [];
  #soFar = []; // what a check calls for that is not finished: [operation, verdict]

  constructor(actions) {
    this.#actions = actions;
  }

  // Whether one is to be read: then nothing else on the page reassures.
  get stands() {
    return !byId("verdict").hidden;
  }

  // `verdicts` by operation, as the phone's store has them.
  show({ verdicts, eyes, entries, pack }) {
    this.#kept = verdicts;
    const receipt = this.#actions.receipt();
    this.#told = [...calledFor(eyes, entries, pack, receipt), ...eyes.flatMap(({ operation }) => toldElsewhere(operation, eyes, entries, verdicts[operation], receipt))];
    this.#draw();
  }

  // At once, before anything is kept or sent. Of a check that is not finished (`so_far`) only what calls now, as long as it does.
  say(operation, verdict) {
    const { so_far: soFar, level } = verdict;
    this.#soFar = soFar && level === "now" ? [[operation, verdict]] : [];
    if (!soFar) this.#unkept[operation] = standing(this.#of(operation), verdict, (former) => this.#actions.waits(operation, former));
    this.#draw();
    if (!soFar) byId("verdict").focus();
  }

  // From here on the store has it, but for what is still `left`.
  isKept(operation, left) {
    delete this.#unkept[operation];
    for (const verdict of left) this.say(operation, verdict);
    this.#draw();
  }

  // Those on an eye whose checks could not be kept, the worst first: the clinic knows nothing of them.
  missed(operation) {
    const found = [];
    for (let verdict = this.#of(operation); verdict; verdict = verdict.under) if (verdict.missed) found.push(verdict);
    return found;
  }

  #of(operation) {
    return this.#unkept[operation] ?? this.#kept[operation];
  }

  #draw() {
    const standingNow = [...this.#soFar, ...Object.entries({ ...this.#kept, ...this.#unkept })];
    const checked = standingNow.map(([operation, verdict]) => ({ ...atTime(verdict), operation }));
    const verdicts = [...checked, ...this.#told].sort(worstFirst);
    byId("verdict").hidden = verdicts.length === 0;
    byId("so-far").hidden = this.#soFar.length === 0;
    byId("sending").hidden = !byId("so-far").hidden; // all is sent but for this
    if (verdicts.length === 0) return;
    set(byId("verdict-title"), [titleOf(verdicts[0])]);
    set(byId("verdict-words"), verdicts.flatMap((verdict) => [paragraph(this.#when(verdict)), ...reasonsOf(verdict)]));
    dress(byId("verdict"), "verdict", verdicts);
  }

  #when(verdict) {
    const said = verdict.so_far ? text("not-sent-yet") : whenSaid(verdict);
    return this.#actions.eyes().length > 1 ? `${this.#actions.nameOf(verdict.operation)}. ${said}` : said;
  }
}

function whenSaid({ at, kind, body }) {
  const when = momentWords(new Date(at));
  if (!kind) return text("your-check", { when });
  const heights = body?.heights_metres ? `, ${metresWords(body.heights_metres)}` : "";
  return `${text(`kind-${kind}`)}: ${when}${heights}.`;
}

// What journeys and anaesthetics call for, until the clinic has settled it, or the entry was taken back, or it was seen that the
// clinic could not take it. One that the clinic put right is not among its receipts any more.
function calledFor(eyes, entries, pack, receipt) {
  const ended = (pack.ended ?? []).filter(({ caution }) => caution).map(() => ({ gas: { caution: true } }));
  return eyes.flatMap((eye) => {
    const settled = new Map(eye.receipts.map((known) => [known.id, known.settled]));
    const isOver = ({ id, at, state }) => settled.get(id) ?? (state === "received" && Date.parse(at) < Date.parse(pack.made_at) - DAY_MS);
    const refused = entries.filter(({ event, state, seen }) => event.operation === eye.operation && state === "refused" && !seen);
    const open = [...entriesOf(eye, entries).filter((entry) => !isOver(entry)), ...refused.map(({ event }) => event)];
    return open.filter(({ kind }) => JUDGED[kind])
      .map((entry) => ({ ...entry, ...JUDGED[entry.kind]([eye, ...ended], receipt, entry.body) }))
      .filter(({ level }) => level !== "well");
  });
}

// What checks of other phones call for, or of this one before it was set up anew, until the clinic has settled them: each at its
// time, the last of those that say the same. What a check made here since then calls for says it already.
function toldElsewhere(operation, eyes, entries, kept, receipt) {
  const checks = checksOf(operation, entries, eyes, receipt);
  const isSaid = ({ id, at, level }) => listed(kept).some((own) => own.entry === id || (Date.parse(own.at) >= at && rank(own.level) <= rank(level)));
  const told = checks.map(({ id, at }, n) => ({ ...judgeTold(eyes, checks, n, receipt), id, at, operation, kind: "symptoms" }))
    .filter((one) => one.level !== "well" && !isSaid(one));
  const words = told.map((one) => JSON.stringify([one.level, one.words, one.reasons]));
  return told.filter((_one, n) => words.lastIndexOf(words[n]) === n);
}

// Keeps the verdict that stands on one eye, in the transaction that keeps the entry. `waits` says of the former whether the
// clinic still has to answer it.
export function keepVerdict(facts, operation, verdict, waits) {
  facts.get("verdicts").onsuccess = ({ target: { result: before } }) => {
    const { [operation]: old, ...others } = before ?? {};
    const stands = standing(old, verdict, (former) => waits(operation, former));
    facts.put(stands.level === "well" ? others : { ...others, [operation]: stands }, "verdicts");
  };
}

// Drawn only when it changed: what is announced is announced once.
function set(box, parts) {
  const wanted = parts.map((part) => part.textContent ?? part).join("\n");
  if (box.dataset.said === wanted) return;
  box.dataset.said = wanted;
  box.replaceChildren(...parts);
}

export function titleOf(verdict) {
  return text(verdict.level === "call" ? "call-us" : `call-${verdict.level}`);
}

// The rules' words, when to look again, and what this page could not judge.
export function reasonsOf(verdict) {
  const open = verdict.reasons.map((reason) => text(`why-${reason}`)).join(" ");
  const said = verdict.words.map((words) => paragraph(words));
  if (verdict.level === "again") {
    const due = Math.min(...verdict.looks.map((look) => look.due_at));
    said.push(paragraph(text("look-again", { time: momentWords(new Date(due)) })), paragraph(text("call-at-once")));
  }
  return open && verdict.level !== "now" ? [...said, paragraph(`${open} ${text("cannot-judge")}`)] : said;
}

// Colours the box by the worst of its verdicts, and shows the number for when nobody answers where one cannot wait until somebody
// does; the clinic's is always there. Only what calls today for a journey that is planned can.
export function dress(box, calls, verdicts) {
  const isPlanned = ({ kind, reasons }) => JUDGED[kind] && reasons.length === 0;
  const cannotWait = (verdict) => ["now", "call"].includes(verdict.level) || (verdict.level === "today" && !isPlanned(verdict));
  box.dataset.level = verdicts[0].level;
  byId(`${calls}-emergency`).hidden = !verdicts.some(cannotWait);
}

export class HelpView {
  show({ pack: { dangers = [] } }) {
    for (const soon of ["now", "today", "again"]) {
      const words = dangers.filter((danger) => soon === (danger.again ? "again" : danger.how_soon)).map((danger) => danger.words);
      byId(`dangers-${soon}`).hidden = words.length === 0;
      byId(`dangers-${soon}-list`).replaceChildren(...words.map(item));
    }
    byId("dangers-unknown").hidden = dangers.length > 0;
  }
}
