// On every staff page with a signal: keeps the day's sheet fresh, sends what waits, and clears up at sign-out.

import { endSession, forgetDay, openDeviceDatabase, otherTabs } from "./device/day-key.js";
import { FRESH_MS, keepDay, oldWords } from "./device/keeping.js";
import { DeviceOutbox } from "./device/outbox.js";

const waiting = document.getElementById("entries-waiting");
const old = document.getElementById("sheet-old");
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
  const { email } = signOut.dataset;
  try {
    await keepDay(database, email);
  } catch (error) {
    console.info("what this device keeps of the day was not renewed:", error.message);
  }
  show(old, await oldWords(database, email));
}

async function showWaiting() {
  const { length } = await outbox.waiting();
  const many = length === 1 ? "1 entry waits" : `${length} entries wait`;
  show(waiting, length ? `${many} on this device for a signal.` : "");
}

// Words that stand there already are not said anew.
function show(place, words) {
  place.hidden = !words;
  if (place.textContent !== words) place.textContent = words;
}
