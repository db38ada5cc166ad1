// Check: the questions, what is dangerous answered at once by the phone from the clinic's rules, and the verdict that stands.

import { paragraph } from "../shared/dom.js";
import { QUESTIONS } from "./answers.js";
import { ANSWERS_LAST_MS } from "./draft.js";
import { atTime, judge, standing, worstFirst } from "./rules.js";
import { checksOf } from "./second-looks.js";
import { byId, momentWords, text } from "./texts.js";
import { dress, reasonsOf, titleOf } from "./verdict.js";

const YES_NO = ["discharge", "curtain", "vomiting", "fever", "injury"];
const CANNOT_TELL = "cannot-tell";
// A reassurance is about the eye as it was when it was asked about.
const WELL_SHOWN_MS = 3600000;

export class CheckView {
  #actions;
  #kept = {};
  #entries = [];
  #unkept = {};
  #wellAt = null;
  #touchedAt = Date.now();

  constructor(actions) {
    this.#actions = actions;
    byId("symptoms").addEventListener("submit", (event) => this.#save(event));
    byId("symptoms").addEventListener("input", () => {
      this.#touchedAt = Date.now();
      this.#wellAt = null;
      this.#draw();
    });
  }

  // `verdicts` by operation, and the entries, as the phone's store has them.
  show({ verdicts, entries }) {
    this.#kept = verdicts;
    this.#entries = entries;
    if (Math.abs(Date.now() - this.#touchedAt) > ANSWERS_LAST_MS) forgetAnswers();
    this.#draw();
  }

  async #save(event) {
    event.preventDefault();
    const answers = read(new FormData(event.target));
    const error = byId("symptoms-error");
    if (Object.keys(answers).length === 0) { error.textContent = text("some-answers"); return; }
    const operation = this.#actions.checked();
    if (!operation) { error.textContent = text("which-eye"); return; }
    error.textContent = "";
    const now = Date.now();
    const [eyes, receipt] = [this.#actions.eyes(), this.#actions.receipt()];
    const earlier = checksOf(operation, this.#entries, eyes, receipt);
    const verdict = { ...judge(eyes, answers, receipt, now, earlier), at: new Date(now).toISOString() };
    if (verdict.level !== "well") this.#answer(operation, verdict);
    const alongside = (facts, keep, kept) => {
      keepVerdict(facts, operation, { ...verdict, entry: kept.id });
      facts.delete("draft"); // a page closed from here on does not bring these answers back
      keep();
    };
    if (await this.#actions.save("symptoms", answers, { operation, alongside })) {
      delete this.#unkept[operation];
      this.#wellAt = verdict.level === "well" ? Date.now() : null;
      event.target.reset();
      this.#draw();
      if (this.#wellAt !== null) byId("all-well").scrollIntoView({ block: "start" });
    } else if (verdict.level !== "well") {
      await this.#actions.change((facts) => keepVerdict(facts, operation, verdict)).catch(() => {});
    }
  }

  // At once, before anything is kept or sent.
  #answer(operation, verdict) {
    this.#unkept[operation] = standing(this.#kept[operation], verdict);
    this.#wellAt = null;
    this.#draw();
    byId("verdict").focus();
  }

  #draw() {
    const standingNow = Object.entries({ ...this.#kept, ...this.#unkept });
    const verdicts = standingNow.map(([operation, verdict]) => ({ ...atTime(verdict), operation })).sort(worstFirst);
    const wellFor = this.#wellAt === null ? Infinity : Math.abs(Date.now() - this.#wellAt);
    byId("all-well").hidden = verdicts.length > 0 || wellFor > WELL_SHOWN_MS;
    byId("verdict").hidden = verdicts.length === 0;
    if (verdicts.length === 0) return;
    set(byId("verdict-title"), [titleOf(verdicts[0])]);
    set(byId("verdict-words"), verdicts.flatMap((verdict) => [paragraph(this.#when(verdict)), ...reasonsOf(verdict)]));
    dress(byId("verdict"), "verdict", verdicts[0].level, verdicts.some((verdict) => verdict.emergency));
  }

  #when({ operation, at }) {
    const said = text("your-check", { when: momentWords(new Date(at)) });
    return this.#actions.eyes().length > 1 ? `${this.#actions.nameOf(operation)}. ${said}` : said;
  }
}

// Keeps the verdict that stands on one eye, in the transaction that keeps the entry.
function keepVerdict(facts, operation, verdict) {
  facts.get("verdicts").onsuccess = ({ target: { result: before } }) => {
    const { [operation]: old, ...others } = before ?? {};
    const stands = standing(old, verdict);
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

function forgetAnswers() {
  for (const field of byId("symptoms").elements) if (field.type === "radio") field.checked = false;
}

function read(form) {
  const answers = {};
  const unsure = QUESTIONS.filter((name) => form.get(name) === CANNOT_TELL);
  for (const [name, value] of form) {
    if (unsure.includes(name)) continue;
    if (name === "pain") answers.pain = Number(value);
    else if (YES_NO.includes(name)) answers[name] = value === "yes";
    else if (value.trim()) answers[name] = value.trim();
  }
  return unsure.length ? { ...answers, cannot_tell: unsure } : answers;
}
