// On every staff page with a signal: keeps the day's sheet fresh, sends what waits, and clears up at sign-out.

import { receiptOf } from "../shared/clock.js";
import { readFact, transact } from "../shared/database.js";
import { timed } from "../shared/requests.js";
import { sealed } from "../shared/seal.js";
import { currentSheet, endSession, forgetDay, openDeviceDatabase, otherTabs } from "./device/day-key.js";
import { DeviceOutbox } from "./device/outbox.js";

const FRESH_MS = 60000;
const waiting = document.getElementById("entries-waiting");
const signOut = document.getElementById("sign-out");
const database = await openDeviceDatabase();
const outbox = new DeviceOutbox(database, showWaiting);
if (await endSession(database)) location.replace("/");

// With calls in hand the first press only asks what becomes of them; the answer signs out.
const leaving = document.getElementById("going-home") ?? (signOut.getAttribute("method") === "post" ? signOut : null);
leaving?.addEventListener("submit", async (event) => {
  const unanswered = leaving?.querySelector("[name=way]") && !leaving.querySelector("[name=way]:checked");
  if (unanswered || event.submitter?.getAttribute("value") === "stay") return;
  event.preventDefault();
  await forgetDay(database); // first: a line that stalls holds up the rest
  otherTabs().postMessage("left");
  await outbox.flush();
  leaving?.submit();
});
window.addEventListener("online", refresh);
setInterval(refresh, FRESH_MS);
navigator.serviceWorker?.register("/clinic/sw.js", { scope: "/clinic/", type: "module" })
  .catch((error) => console.info("This browser keeps no pages for later:", error.message));
await refresh();
document.documentElement.dataset.device = "ready";

async function refresh() {
  await outbox.flush();
  try {
    await keepSheet();
  } catch (error) {
    console.info("the day's sheet was not renewed:", error.message);
  }
}

async function showWaiting() {
  const { length } = await outbox.waiting();
  waiting.hidden = length === 0;
  waiting.textContent = length === 1 ? "1 entry waits on this device for a signal." : `${length} entries wait on this device for a signal.`;
}

// Seals today's list under the key of whoever signed in here. Somebody else's key is never used.
async function keepSheet() {
  const kept = await currentSheet(database);
  const key = await readFact(database, "day-key");
  if (key?.email !== signOut.dataset.email) return;
  if (kept && Math.abs(Date.now() - kept.fetched) < FRESH_MS / 2) return; // a clock that was set back makes none fresh
  const answer = await timed("/api/v1/clinic/daysheet");
  if (answer.status === 401) await forgetDay(database);
  if (!answer.ok) return;
  const sheet = await answer.json();
  const receipt = receiptOf(sheet);
  const fresh = { expires_at: sheet.expires_at, fetched: receipt.received_at, packet: await sealed(sheet, key.publicKey) };
  await transact(database, ["facts"], "readwrite", ({ facts }) => {
    facts.put(receipt, "clock");
    facts.get("day-key").onsuccess = ({ target: { result: now } }) => {
      if (now?.publicKey === key.publicKey) facts.put(fresh, "sheet"); // nobody signed out meanwhile
    };
  });
}
