// A locked-out phone seals what it had not sent with the clinic's public key: unreadable here, not lost.

import { readFact, transact } from "../shared/database.js";
import { eventOf } from "../shared/events.js";
import { posted, timed } from "../shared/requests.js";
import { sealed } from "../shared/seal.js";
import { bodyOf } from "./questions.js";
import { isUnsure, runningTimers, stretch } from "./timers.js";

// When the clinic was last heard stays: what a page that is still open keeps goes by the right clock.
const GONE = ["pack", "timer", "draft", "changes", "chosen", "verdicts"];
const PACKETS_AT_ONCE = 20;
const SEALED = "sealed";

// Takes away only what is inside the packet, in the transaction that keeps the packet. What was entered, or stopped,
// or sealed by another tab meanwhile makes it begin again, until nothing readable is left.
export async function sealEverything(database) {
  for (;;) {
    const found = await unsealed(database);
    if (!found) return;
    const events = [...found.entries.filter(isUnsent).map((entry) => entry.event), ...stopped(found), ...unfinished(found)];
    const packet = events.length ? { ...(await sealed(events, found.key)), count: events.length } : null;
    if (await exchanged(database, found, packet)) return;
  }
}

// Everything readable as it stands at one moment, and numbers for what is begun; null without a key to seal with.
function unsealed(database) {
  return transact(database, ["entries", "facts"], "readwrite", ({ entries, facts }, give) => {
    const found = {};
    facts.get("pack").onsuccess = (read) => { found.pack = read.target.result; };
    facts.get("timer").onsuccess = (read) => { found.timer = read.target.result; };
    facts.get("draft").onsuccess = (read) => { found.draft = read.target.result; };
    facts.get("clock").onsuccess = (read) => { found.receipt = read.target.result; };
    facts.get("sequence").onsuccess = (read) => { found.sequence = read.target.result ?? 0; };
    entries.getAll().onsuccess = (read) => { found.entries = read.target.result; };
    facts.get("sealing-key").onsuccess = (read) => {
      found.key = found.pack?.sealing_key ?? read.target.result;
      found.timers = runningTimers(found.timer, found.pack?.eyes ?? []).filter((timer) => !timer.on_break);
      facts.put(found.sequence + found.timers.length + 1, "sequence");
      give(found.key ? found : null);
    };
  });
}

// The stretches of timers that still run: what ran until now is not lost. Where nobody can tell how long that was, and nobody
// can be asked, it says only when it ended.
function stopped({ timers, pack, receipt, sequence }) {
  const how = { at: new Date(), receipt, by: pack?.used_by ?? "patient", corrects: null };
  const known = (timer) => (isUnsure(timer, receipt) ? { ...timer, start: how.at.toISOString() } : timer);
  return timers.map((timer, n) => eventOf("posture", timer.operation, stretch(known(timer), how.at), { ...how, sequence: sequence + n + 1 }));
}

// A check that was begun, with what was written, at its own time.
function unfinished({ draft, pack, receipt, sequence, timers }) {
  const { kept_at: at, words, ...chosen } = draft ?? {};
  const [operation, body] = [chosen.eye ?? pack?.eyes[0]?.operation, bodyOf(chosen, words)];
  if (!operation || Object.keys(body).length === 0) return [];
  const how = { at: new Date(at), receipt, by: pack.used_by, corrects: null };
  return [eventOf("symptoms", operation, body, { ...how, sequence: sequence + timers.length + 1 })];
}

// The packet for what is in it. Resolves with whether nothing else had changed.
function exchanged(database, found, packet) {
  return transact(database, ["entries", "facts"], "readwrite", ({ entries, facts }, give) => {
    const now = {};
    facts.get("timer").onsuccess = (read) => { now.timer = read.target.result; };
    facts.get("draft").onsuccess = (read) => { now.draft = read.target.result; };
    facts.get("sealed").onsuccess = (read) => { now.packets = read.target.result ?? []; };
    entries.getAll().onsuccess = (read) => {
      if (!same([read.target.result, now.timer, now.draft], [found.entries, found.timer, found.draft])) { give(false); return; }
      if (packet) facts.put([...now.packets, packet], "sealed");
      facts.put(found.key, "sealing-key");
      for (const name of GONE) facts.delete(name);
      for (const { id, event, seen } of found.entries) if (seen || event.kind !== SEALED) entries.delete(id);
      give(true);
    };
  });
}

// Sends sealed packets after the phone was enrolled again; they leave only when the clinic took or refused each entry. What was
// refused stands among the entries until it was seen: what it was, only the clinic knows.
export async function sendSealed(database) {
  const packets = ((await readFact(database, "sealed")) ?? []).slice(0, PACKETS_AT_ONCE);
  if (packets.length === 0) return;
  const content = { sent_at: new Date().toISOString(), sealed: packets.map(({ key, iv, data }) => ({ key, iv, data })) };
  const answer = await timed(`/api/v1/sealed?language=${document.documentElement.lang}`, await posted(content));
  if (!answer.ok) return;
  const refused = (await answer.json()).results.filter(({ status }) => status === "refused");
  const sent = new Set(packets.map(({ data }) => data));
  await transact(database, ["entries", "facts"], "readwrite", ({ entries, facts }) => {
    for (const { id, reason } of refused) {
      const event = { id, operation: null, kind: SEALED, at: content.sent_at, body: {}, corrects: null };
      entries.put({ id, event, state: "refused", reason });
    }
    facts.get("sealed").onsuccess = (read) => {
      facts.put((read.target.result ?? []).filter(({ data }) => !sent.has(data)), "sealed");
    };
  });
  await sendSealed(database);
}

export async function sealedCount(database) {
  const packets = (await readFact(database, "sealed")) ?? [];
  return packets.reduce((sum, packet) => sum + packet.count, 0);
}

// What was refused and is seen stands on the clinic's own list.
function isUnsent({ state, seen, event }) {
  return event.kind !== SEALED && (state === "saved" || (state === "refused" && !seen));
}

function same(one, other) {
  return JSON.stringify(one) === JSON.stringify(other);
}
