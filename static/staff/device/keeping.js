// What this device keeps of the day for work without a signal, sealed with the day's key: the sheet, asked for each minute, and
// the names of all who are followed, asked for each hour. Where they grow old every page says so (`oldWords`).

import { receiptOf } from "../../shared/clock.js";
import { readFact, readFacts, transact } from "../../shared/database.js";
import { timeWords } from "../../shared/dates.js";
import { timed } from "../../shared/requests.js";
import { sealed } from "../../shared/seal.js";
import { currentSheet, forgetDay } from "./day-key.js";

export const FRESH_MS = 60000;
const OLD_MS = 5 * FRESH_MS;
const NAMES_FRESH_MS = 60 * FRESH_MS;
const NAMES_OLD_MS = 3 * NAMES_FRESH_MS;

// Keeps both as they are now, for whoever signed in here: somebody else's key is never used. Throws where one did not come.
export async function keepDay(database, email) {
  const sheet = await currentSheet(database);
  const key = await readFact(database, "day-key");
  if (key?.email !== email) return;
  if (!isOf(sheet, FRESH_MS / 2)) await keepSheet(database, key, sheet);
  if (!isOf(await readFact(database, "followed"), NAMES_FRESH_MS)) await keepNames(database, key);
}

// What of it is old or was never here, in words; empty where all is well, and where nothing is kept for this person.
export async function oldWords(database, email) {
  const [key, sheet, names] = await readFacts(database, ["day-key", "sheet", "followed"]);
  if (key?.email !== email) return "";
  if (!sheet) return "Today’s list did not come to this device: without a signal it shows nothing.";
  if (!isOf(sheet, OLD_MS)) return `The list on this device is of ${clock(sheet)}, and no newer one comes: without a signal it shows the day as it stood then.`;
  if (!names) return "The names of all who are followed did not come to this device: without a signal it finds only those on its list.";
  if (!isOf(names, NAMES_OLD_MS)) return `The names of all who are followed are on this device as of ${clock(names)}, and no newer ones come.`;
  return "";
}

// A clock that was set back makes nothing fresh.
const isOf = (kept, span) => Math.abs(Date.now() - kept?.fetched) < span;
const clock = ({ fetched }) => timeWords(new Date(fetched));

async function keepSheet(database, key, kept) {
  const answer = await asked(database, "/api/v1/clinic/daysheet", kept?.mark ? { "If-None-Match": kept.mark } : {});
  const sheet = answer.status === 304 ? null : await answer.json();
  const receipt = receiptOf({ made_at: sheet?.made_at ?? answer.headers.get("Made-At") });
  const fresh = sheet
    ? { expires_at: sheet.expires_at, mark: answer.headers.get("ETag"), packet: await sealed(sheet, key.publicKey) }
    : kept;
  await putFor(database, key, (facts) => {
    if (Number.isFinite(receipt.made_at)) facts.put(receipt, "clock");
    facts.put({ ...fresh, fetched: receipt.received_at }, "sheet");
  });
}

async function keepNames(database, key) {
  const packets = [];
  let before = "";
  do {
    const answer = await asked(database, `/api/v1/clinic/followed${before && `?before=${encodeURIComponent(before)}`}`);
    const page = await answer.json();
    packets.push(await sealed(page.eyes, key.publicKey));
    before = page.next;
  } while (before);
  await putFor(database, key, (facts) => { facts.put({ fetched: Date.now(), packets }, "followed"); });
}

async function asked(database, address, headers = {}) {
  const answer = await timed(address, { headers, cache: "no-store" });
  if (answer.status === 401) await forgetDay(database);
  if (!answer.ok && answer.status !== 304) throw new Error(`answer ${answer.status}`);
  return answer;
}

// Only where nobody signed out meanwhile.
function putFor(database, key, put) {
  return transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.get("day-key").onsuccess = ({ target: { result: now } }) => {
      if (now?.publicKey === key.publicKey) put(facts);
    };
  });
}
