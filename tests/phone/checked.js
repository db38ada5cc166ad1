// The check and the verdict that stands, wired as app.js does it: on a store that may be full, before a clinic whose packs a test plays.

import { Database, page } from "./indexed_db.js";
import { Part, parts } from "./parts.js";
import { CheckView } from "./patient/check-view.js";
import { readDraft, writeDraft } from "./patient/draft.js";
import { Keeping } from "./patient/keeping.js";
import { PhoneOutbox } from "./patient/outbox.js";
import { SCREENS, bodyOf } from "./patient/questions.js";
import { waitsForClinic, withoutSettled } from "./patient/rules.js";
import { VerdictView } from "./patient/verdict-view.js";

const DAYS = { valid_from: "2000-01-01", valid_until: "2100-01-01", second_look: null, again_within_hours: null, count: 1, also: [], pain: null };
const RULES = [
  { id: "curtain", how_soon: "now", words: "curtain", answers: ["curtain"], ...DAYS },
  { id: "redness", how_soon: "today", words: "redness", answers: ["redness=worse"], ...DAYS },
  { id: "vision", how_soon: "this-week", words: "vision", answers: ["vision=worse"], ...DAYS },
  { id: "floaters", how_soon: "today", words: "floaters", answers: ["floaters=worse"], ...DAYS, second_look: { ask: "floaters?", hours: 6, looks: 1 } },
  { id: "other-eye-said", how_soon: "this-week", words: "other eye, said", answers: ["other_eye=worse"], ...DAYS },
  { id: "other-eye", how_soon: "today", words: "other eye", answers: ["other_eye=worse"], ...DAYS, second_look: { ask: "other eye?", hours: 4, looks: 1 } },
  { id: "pain", how_soon: "now", words: "pain", answers: [], ...DAYS, pain: 7 },
];
const ASKING = { answers_stand_hours: 24, asked_back_minutes: 15, telling_pain: 4, severe_pain: 7 };
const WELL = {
  pain: "0", vision: "same", redness: "same", flashes: "same", floaters: "same", curtain: "no", discharge: "no", vomiting: "no", fever: "no", injury: "no", other_eye: "same",
};

// The answers of a form that was filled in whole, with what is `bad`: by question, and `words`.
const filled = (bad) => ({ ...WELL, ...bad });

export async function played(acts, names = ["a"]) {
  const byId = parts();
  const form = byId("symptoms");
  form.lists = { "[data-screen]": SCREENS.map((screen) => Object.assign(new Part(), { dataset: { screen } })) };
  page();
  console.info = () => {};
  const start = Date.parse("2027-03-05T10:00:00Z");
  let minute = 0;
  Date.now = () => start + minute * 60000;
  performance.now = () => minute * 60000;
  const database = new Database();
  let full = false;
  const transaction = database.transaction.bind(database);
  database.transaction = (stores, mode, ...rest) => {
    if (full && mode === "readwrite" && (full === "all" || stores.includes("entries"))) throw new DOMException("full", "QuotaExceededError");
    return transaction(stores, mode, ...rest);
  };
  const eyes = names.map((operation) => ({ operation, receipts: [], calling: false, asking: ASKING, symptom_rules: RULES }));
  let entries = [];
  let line = false;
  let heard = start;
  const receipt = () => ({ made_at: heard, received_at: heard, seen_at: heard });
  globalThis.fetch = async (_address, { body }) => {
    if (!line) throw new TypeError("no line");
    const { events } = JSON.parse(body);
    return { ok: true, status: 200, json: async () => ({ results: events.map(({ id }) => ({ id, status: "received", reason: null })) }) };
  };
  let verdict, check;
  const outbox = new PhoneOutbox(database);
  const show = async () => {
    entries = await outbox.all();
    verdict.show({ verdicts: database.stores.facts.get("verdicts") ?? {}, eyes, entries, pack: {} });
    check.show({ entries, names: new Map(names.map((operation) => [operation, operation])) });
  };
  const keeping = new Keeping(outbox, { usedBy: () => "patient", show });
  const actions = {
    eyes: () => eyes, nameOf: (operation) => operation, receipt,
    change: (work) => new Promise((done, failed) => {
      const made = database.transaction(["facts"], "readwrite");
      made.oncomplete = done;
      made.onabort = failed;
      work(made.objectStore("facts"));
    }),
    waits: (operation, said) => waitsForClinic(said, eyes.find((eye) => eye.operation === operation), entries),
    say: (operation, said) => verdict.say(operation, said),
    missed: (operation) => verdict.missed(operation),
    verdictStands: () => verdict.stands,
    verdictKept: (operation, left) => verdict.isKept(operation, left),
    keepDraft: (draft) => writeDraft(database, draft).catch(() => {}),
    save: (kind, body, about) => keeping.save(kind, body, about),
  };
  const opened = async () => {
    verdict = new VerdictView(actions);
    check = new CheckView(actions);
    check.take(await readDraft(database));
    await show();
  };
  const settled = async () => { for (let n = 0; n < 200; n += 1) await new Promise((done) => setImmediate(done)); };
  globalThis.location = { hash: "" };
  await opened();
  const doing = {
    check: async ([bad, eye]) => {
      check.again();
      const { words = "", ...answers } = filled(bad);
      check.take({ chosen: { ...answers, ...(eye ? { eye } : {}) }, words, screen: "words" });
      await form.tell("submit");
      await settled();
    },
    // Answers to some questions, by question, and what is written; the check is not finished.
    half: async ({ words, ...chosen }) => {
      for (const [question, value] of Object.entries(chosen)) {
        await form.tell("click", { target: { closest: () => ({ value, dataset: { question } }) } });
      }
      if (words !== undefined) {
        byId("symptom-words").value = words;
        await byId("symptom-words").tell("input");
      }
      await settled();
    },
    sendAsItIs: async () => {
      await byId("so-far-send").tell("click");
      await settled();
    },
    // Time goes by on an open page, and on a second tab if there is one.
    wait: async (tabs = 1) => {
      const views = [check];
      for (let n = 1; n < tabs; n += 1) {
        const own = new Keeping(outbox, { usedBy: () => "patient", show });
        views.push(new CheckView({ ...actions, save: (kind, body, about) => own.save(kind, body, about) }));
      }
      for (const view of views.slice(1)) view.take(await readDraft(database));
      for (const view of views) view.show({ entries, names: new Map(names.map((operation) => [operation, operation])) });
      await settled();
    },
    // A second tab that was opened before has answers of its own.
    halfElsewhere: async ({ words = "", ...chosen }) => { await writeDraft(database, { chosen, words, kept_at: Date.now() }); },
    unfollow: (eye) => { names.splice(names.indexOf(eye), 1); eyes.splice(eyes.findIndex(({ operation }) => operation === eye), 1); },
    full: (is) => { full = is; },
    send: async () => { line = true; await outbox.flush(); line = false; },
    open: opened,
    show,
    // A pack: what the clinic has of each of this phone's checks that were sent, and of others:
    // { eye: { settled, calling, looked, others } }.
    pack: async (told) => {
      heard = Date.now();
      for (const eye of eyes) {
        const { settled = false, calling = false, looked = false, others = [] } = told[eye.operation] ?? {};
        const mine = entries.filter(({ state, event }) => state === "received" && event.operation === eye.operation);
        const theirs = others.map(({ id, minute: at, bad: { words, ...bad }, calling: calls = false, settled: over = false, looked: seen = false }) => ({
          id, kind: "symptoms", at: new Date(start + at * 60000).toISOString(), calling: calls, settled: over, looked_at: seen,
          body: bodyOf(filled(bad), words),
        }));
        const ours = mine.map(({ id, event }) => ({ id, kind: event.kind, at: event.at, body: event.body, settled, calling, looked_at: looked }));
        eye.receipts = [...ours, ...theirs];
        eye.calling = calling;
      }
      const facts = database.stores.facts;
      facts.set("verdicts", withoutSettled(facts.get("verdicts") ?? {}, { eyes }));
      await show();
    },
    takeBack: async () => {
      const { id, event } = entries.filter(({ event: { kind } }) => kind === "symptoms").at(-1);
      await keeping.takeBack([{ id, operation: event.operation }], "why");
    },
  };
  const told = [];
  for (const [at, act, what] of acts) {
    minute = at;
    await doing[act](what);
    await show();
    const sent = (await outbox.all()).map(({ event }) => [event.kind, (Date.parse(event.at) - start) / 60000]);
    const well = !byId("check-done").hidden && !byId("all-well").hidden;
    const notSent = !byId("verdict").hidden && !byId("so-far").hidden && byId("sending").hidden;
    const [bodies, of] = ["body", "operation"].map((what) => entries.map(({ event }) => event[what]));
    told.push({ not_sent: notSent, bodies, of, words: byId("symptom-words").value, page: location.hash, says: byId("verdict").hidden ? null : byId("verdict").dataset.level, well, entries: sent, trouble: byId("trouble").textContent });
  }
  return told;
}
