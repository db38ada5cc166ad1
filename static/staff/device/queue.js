// Entries made without a signal. Each is sealed for the clinic before it is kept, so it can be sent by whoever opens
// this device next, and read by nobody on it. A copy under the day's key lets its author look at it until the day ends.

import { readFact, transact } from "../../shared/database.js";
import { uuid7 } from "../../shared/ids.js";
import { timed } from "../../shared/requests.js";
import { sealed } from "../../shared/seal.js";
import { inTurn } from "../../shared/turns.js";

const ADDRESS = "/api/v1/clinic/entries";
const BATCH = 20;
export const SYNC_TAG = "followup-clinic-entries";

// `facts` are {kind, body} of one eye; all of them are kept together or not at all. Resolves with the entry's id.
export async function keepEntry(database, { operation, facts, about, authorPass, sealingKey }, at = new Date()) {
  const { publicKey } = await readFact(database, "day-key");
  const first = await takeSequence(database, facts.length);
  const events = facts.map(({ kind, body }, n) => ({
    id: uuid7(), operation, kind, body, at: at.toISOString(), offset_minutes: -at.getTimezoneOffset(), sequence: first + n,
  }));
  const packet = await sealed({ author_pass: authorPass, events }, sealingKey);
  const copy = await sealed({ about, operation, at: at.toISOString(), facts }, publicKey);
  const entry = { id: events[0].id, state: "saved", packet, copy };
  await transact(database, ["entries"], "readwrite", ({ entries }) => { entries.add(entry); });
  wakeLater();
  return entry.id;
}

export function allEntries(database) {
  return transact(database, ["entries"], "readonly", ({ entries }, give) => {
    entries.getAll().onsuccess = (event) => give(event.target.result.sort((a, b) => a.id.localeCompare(b.id)));
  });
}

export async function countUnsent(database) {
  return (await allEntries(database)).filter((entry) => entry.state === "saved").length;
}

// Sends what waits; one tab or worker at a time, one request a turn. Resolves with "sent" or "unreachable".
export async function sendEntries(database) {
  let outcome;
  do outcome = await inTurn("followup-clinic-entries", () => sendSome(database));
  while (outcome === "more");
  return outcome;
}

async function sendSome(database) {
  const waiting = (await allEntries(database)).filter((entry) => entry.state === "saved").slice(0, BATCH);
  if (waiting.length === 0) return "sent";
  const answers = await post(waiting);
  if (!answers) return "unreachable";
  for (const [n, entry] of waiting.entries()) await settle(database, entry, answers[n]);
  return "more";
}

async function post(waiting) {
  const body = JSON.stringify({ sent_at: new Date().toISOString(), sealed: waiting.map((entry) => entry.packet) });
  try {
    const answer = await timed(ADDRESS, { method: "POST", headers: { "Content-Type": "application/json" }, body });
    const packets = answer.ok ? (await answer.json()).packets : null;
    return packets?.length === waiting.length ? packets : null;
  } catch {
    return null;
  }
}

// The outcome is sealed as the copy is: a reason may quote what was typed.
async function settle(database, entry, answer) {
  const refused = answer.error ?? answer.results.find((result) => result.status === "refused")?.reason ?? null;
  const key = await readFact(database, "day-key");
  const outcome = key && (await sealed({ refused, raised: answer.raised ?? [], differing: answer.differing ?? [] }, key.publicKey));
  const done = { ...entry, state: refused ? "refused" : "received", outcome };
  await transact(database, ["entries"], "readwrite", ({ entries }) => {
    if (key) entries.put(done);
    else entries.delete(entry.id);
  });
}

function takeSequence(database, count) {
  return transact(database, ["facts"], "readwrite", ({ facts }, give) => {
    facts.get("sequence").onsuccess = (read) => {
      const first = (read.target.result ?? 0) + 1;
      facts.put(first + count - 1, "sequence");
      give(first);
    };
  });
}

async function wakeLater() {
  try {
    const registration = await navigator.serviceWorker?.getRegistration("/clinic/");
    await registration?.sync?.register(SYNC_TAG);
  } catch {
    // Not allowed here: pages send on their own when they are open.
  }
}
