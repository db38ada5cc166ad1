// The two senders of entries, each on a store of its own before a clinic that a test plays: what waits on a patient's phone,
// and what waits, sealed, on a clinic device. What both have to keep is tried with one and the other.

import { readFile, writeFile } from "node:fs/promises";

import { Database, page } from "./indexed_db.js";
import { PhoneOutbox } from "./patient/outbox.js";
import { base64, opened } from "./shared/seal.js";
import { DeviceOutbox } from "./staff/device/outbox.js";

export const PHONE = "phone";

// `clinic` is { status, answering(events), generation, before() }, to be changed at any time; `sent` the requests that came,
// each as the [kind, sequence] of its entries; `said` what the page was told.
export async function outboxOf(sender) {
  const timers = page();
  const database = new Database();
  const [sent, said] = [[], []];
  const clinic = { status: 200, answering: receivedAll, generation: "", bodies: [], before: async () => {} };
  const made = await (sender === PHONE ? phone : device)(database, (outcome) => said.push(outcome ?? "changed"));
  globalThis.fetch = async (address, { body }) => {
    const content = JSON.parse(typeof body === "string" ? body : await unpacked(body));
    clinic.bodies.push(content);
    const lists = await made.listsIn(content);
    sent.push(lists.flat().map(({ kind, sequence }) => [kind, sequence]));
    await clinic.before();
    const status = typeof clinic.status === "function" ? clinic.status(lists.flat()) : clinic.status;
    if (status === 0) throw new TypeError("no line");
    if (status !== 200) return { ok: false, status, json: async () => clinic.answering(lists.flat()) };
    const results = clinic.answering(lists.flat()).results;
    return { ok: true, status, json: async () => ({ ...made.answer(results, lists), generation: clinic.generation }) };
  };
  const keep = async (...kinds) => {
    for (const kind of kinds) await made.keep(kind);
  };
  const states = async () => (await made.outbox.all()).map((entry) => [made.kindOf(entry), entry.sequence ?? entry.event.sequence, entry.state]);
  return { ...made, timers, database, clinic, sent, said, keep, states };
}

const receivedAll = (events) => ({ results: events.map(({ id }) => ({ id, status: "received", reason: null })) });
const unpacked = (body) => new Response(new Blob([body]).stream().pipeThrough(new DecompressionStream("gzip"))).text();

function phone(database, onChange) {
  const outbox = new PhoneOutbox(database, onChange);
  return {
    outbox,
    keep: (kind) => outbox.add(kind, "eye", "patient", {}),
    kindOf: ({ event }) => event.kind,
    listsIn: ({ events }) => events.map((event) => [event]),
    answer: (results) => ({ results }),
  };
}

async function device(database, onChange) {
  const spki = async (keys) => base64(await crypto.subtle.exportKey("spki", keys.publicKey));
  const [clinic, day] = [await pairOf("clinic"), await pairOf("day")];
  const sealingKey = await spki(clinic);
  database.stores.facts.set("day-key", { publicKey: await spki(day) });
  const outbox = new DeviceOutbox(database, onChange);
  const kinds = new Map();
  return {
    outbox,
    dayKey: day.privateKey,
    keep: async (kind) => {
      kinds.set(await outbox.add({ operation: "eye", facts: [{ kind, body: {} }], about: "somebody", authorPass: "pass", sealingKey }), kind);
    },
    kindOf: ({ id }) => kinds.get(id),
    listsIn: ({ sealed }) => Promise.all(sealed.map(async (packet) => (await opened(packet, clinic.privateKey)).events)),
    // One answer for each packet, in the order sent.
    answer: (results, lists) => ({
      packets: lists.map((events) => ({ results: results.filter(({ id }) => events.some((event) => event.id === id)) })),
    }),
  };
}

// A pair of keys that is made once for all tests: that takes longer than a test does.
async function pairOf(whose) {
  const [rsa, file] = [{ name: "RSA-OAEP", hash: "SHA-256" }, `keys-of-the-${whose}.json`];
  const read = (key, use) => crypto.subtle.importKey("jwk", key, rsa, true, [use]);
  const write = (key) => crypto.subtle.exportKey("jwk", key);
  const kept = await readFile(file, "utf8").then(JSON.parse, () => null);
  if (kept) return { publicKey: await read(kept.publicKey, "wrapKey"), privateKey: await read(kept.privateKey, "unwrapKey") };
  const made = await crypto.subtle.generateKey({ ...rsa, modulusLength: 2048, publicExponent: new Uint8Array([1, 0, 1]) }, true, ["wrapKey", "unwrapKey"]);
  const [publicKey, privateKey] = [await write(made.publicKey), await write(made.privateKey)];
  await writeFile(file, JSON.stringify({ publicKey, privateKey }));
  return made;
}
