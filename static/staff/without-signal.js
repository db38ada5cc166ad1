// The clinic without a signal: today's list and the entry screen, from the sheet that only the day's key opens.

import { loadTable } from "./acuity-table.js";
import { currentSheet, openDayKey, openDeviceDatabase, signOutHere } from "./device/day-key.js";
import { entryRows, readable } from "./device/entries-view.js";
import { allEntries, keepEntry, sendEntries } from "./device/queue.js";
import { alarmed, asksBack, factsOf, showConversions, showHow } from "./measures.js";
import { readFact } from "../shared/database.js";
import { timed } from "../shared/requests.js";
import { opened } from "../shared/seal.js";

const TRY_AGAIN_MS = 20000;
const byId = (id) => document.getElementById(id);
const form = byId("entry-form");
const words = JSON.parse(byId("words").textContent);
const database = await openDeviceDatabase();
const table = await loadTable(form.dataset.acuityTable).catch(() => ({}));

let privateKey;
let sheet;
let chosen;

byId("unlock-form").addEventListener("submit", unlock);
byId("find").addEventListener("input", showList);
form.addEventListener("submit", save);
form.addEventListener("change", () => showHow(form));
byId("leave").addEventListener("click", leave);
byId("back").addEventListener("click", () => { location.hash = ""; });
window.addEventListener("hashchange", route);
window.addEventListener("online", send);
setInterval(send, TRY_AGAIN_MS);
showConversions(form, table);
await start();
document.documentElement.dataset.ready = "yes";

async function start() {
  const kept = await currentSheet(database);
  byId("unlock").hidden = !kept;
  byId("no-sheet").hidden = Boolean(kept);
  if (kept) byId("password").focus();
}

async function unlock(event) {
  event.preventDefault();
  byId("unlock-error").textContent = "";
  const [key, kept] = [await readFact(database, "day-key"), await currentSheet(database)];
  if (!kept) {
    await start();
    return;
  }
  try {
    privateKey = await openDayKey(key, byId("password").value);
    sheet = await opened(kept.packet, privateKey);
  } catch {
    byId("unlock-error").textContent = "This is not the password of the person who signed in on this device.";
    return;
  }
  byId("password").value = "";
  byId("unlock").hidden = true;
  byId("open").hidden = false;
  byId("staff-name").textContent = sheet.staff;
  setTimeout(leave, Date.parse(sheet.expires_at) - Date.now());
  await showEntries();
  if (!location.hash) location.hash = wanted();
  route();
  send();
}

// The page that was asked for when the signal was gone.
function wanted() {
  const eye = location.pathname.match(/^\/clinic\/eyes\/([^/]+)/)?.[1];
  return sheet.eyes.some(({ operation }) => operation === eye) ? `#${eye}` : "";
}

function route() {
  if (!sheet) return;
  chosen = sheet.eyes.find(({ operation }) => operation === location.hash.slice(1));
  byId("list").hidden = Boolean(chosen);
  byId("entry").hidden = !chosen;
  if (chosen) showForm();
  else showList();
}

function showList() {
  const asked = byId("find").value.toLowerCase().split(/\s+/).filter(Boolean);
  byId("found").hidden = asked.length === 0;
  const found = sheet.eyes.filter((eye) => asked.every((word) => `${eye.patient} ${eye.number}`.toLowerCase().includes(word)));
  byId("found-list").replaceChildren(...(asked.length ? found.map((eye) => row(eye, "")) : []));
  byId("nobody").hidden = found.length > 0;
  for (const list of document.querySelectorAll("[data-state]")) {
    const rows = sheet.rows.filter(({ state }) => state === list.dataset.state);
    list.replaceChildren(...rows.map((due) => row(eyeOf(due), due.visit, due)));
    list.closest("section").querySelector(".count").textContent = rows.length;
    list.closest("section").hidden = rows.length === 0 && list.dataset.state !== "due";
  }
}

function row(eye, visit, due) {
  const made = byId("row").content.cloneNode(true).firstElementChild;
  made.querySelector(".eye-name").textContent = eye.patient;
  made.querySelector(".about").textContent = ` ${eye.number} · ${words.eye[eye.eye]} · ${words.agent[eye.agent]}`;
  made.querySelector(".visit").textContent = due ? `${visit}, ${dayWords(due.target)}` : "";
  made.querySelector(".reason").textContent = due?.how_soon ? `${words.shape[due.how_soon]} ${words.how_soon[due.how_soon]}: ${due.reason}` : "";
  made.querySelector("a").href = `#${eye.operation}`;
  made.querySelector("a").setAttribute("aria-label", `Enter visit: ${eye.patient}, ${words.eye[eye.eye]}`);
  const arrived = made.querySelector("button");
  arrived.hidden = !due || !["due", "missed", "coming"].includes(due.state);
  arrived.setAttribute("aria-label", `Arrived: ${eye.patient}`);
  arrived.addEventListener("click", async () => {
    await keep(eye, [{ kind: "arrived", body: { visit, visit_id: due.visit_id } }]);
    showList();
  });
  return made;
}

function showForm() {
  form.reset();
  byId("wrong").hidden = true;
  byId("entry-title").textContent = `Enter a visit: ${chosen.patient}`;
  byId("entry-about").textContent = `${chosen.number} · operated: ${words.eye[chosen.eye]}, ${words.agent[chosen.agent]}, ${dayWords(chosen.operated_on)}`;
  form.elements.visit.replaceChildren(...chosen.visits.map(visitOption), new Option("Not a planned visit", ""));
  form.elements.visit.value = chosen.visit;
  byId("no-gas").hidden = !chosen.fades || !sheet.may_lift_caution;
  for (const side of ["right", "left"]) {
    const last = chosen[side];
    form.querySelector(`[data-side=${side}]`).classList.toggle("operated", side === chosen.eye);
    for (const part of form.querySelectorAll(`[data-side=${side}] :is(.operated-mark, .operated-only)`)) part.hidden = side !== chosen.eye;
    if (last?.correction) form.elements[`${side}-correction`].value = last.correction;
    form.elements[`${side}-notation`].value = chosen.chart;
    if (last?.instrument) form.elements[`${side}-instrument`].value = last.instrument;
    byId(`${side}-acuity-hint`).textContent = last?.acuity ? `last: ${last.acuity} ${last.correction}` : "6/12, 70 letters, CF";
    byId(`${side}-iop-hint`).textContent = last?.iop_mmhg != null ? `last: ${last.iop_mmhg} mmHg` : "mmHg, or write kPa";
    form.querySelector(`output[data-field=${side}-acuity]`).dataset.last = last?.acuity ?? "";
    byId(`${side}-pinhole-hint`).textContent = last?.pinhole ? `last: ${last.pinhole}` : "if read too";
    for (const output of form.querySelectorAll(`[data-side=${side}] output`)) output.textContent = "";
  }
  showHow(form);
  byId("right-acuity").focus();
}

async function save(event) {
  event.preventDefault();
  const facts = factsOf(form);
  if (asksBack(form, facts, table, sheet.limits, visitDoubts())) return;
  await keep(chosen, facts);
  const alarm = alarmed(facts, sheet.limits);
  location.hash = "";
  byId(alarm ? "alarm" : "told").focus();
}

async function keep(eye, facts) {
  const about = `${eye.patient}, ${words.eye[eye.eye]}`;
  try {
    const means = { authorPass: sheet.author_pass, sealingKey: sheet.sealing_key };
    await keepEntry(database, { operation: eye.operation, facts, about, ...means });
    byId("told").textContent = `Kept on this device: ${about}.`;
  } catch (error) {
    byId("told").textContent = "This could not be kept on this device. Write it on paper.";
    throw error;
  }
  await showEntries();
  send();
}

// What was entered here shows on the list, also after the page was opened anew.
function mark(operation, facts) {
  for (const { kind, body } of facts.filter((fact) => fact.kind === "arrived" || fact.kind === "seen")) {
    const due = sheet.rows.find((known) => known.operation === operation && known.visit_id === body.visit_id);
    if (due && due.state !== "seen") due.state = kind === "seen" ? "seen" : "here";
    const eye = sheet.eyes.find((known) => known.operation === operation);
    if (kind === "arrived" && eye) eye.visit = body.visit_id;
    if (kind === "seen" && eye?.visit === body.visit_id) eye.visit = "";
    if (kind === "seen" && eye) eye.visits = eye.visits.filter(({ id }) => id !== body.visit_id);
  }
}

async function send() {
  const outcome = await sendEntries(database);
  const back = outcome === "sent" && (await reaches());
  byId("signal").hidden = !back;
  byId("no-signal").hidden = back;
  const known = await showEntries();
  if (outcome === "sent" && !known.some(({ state }) => state === "refused")) byId("alarm").hidden = true;
}

async function reaches() {
  return timed("/api/v1/clinic/here", { cache: "no-store" }).then((answer) => answer.ok, () => false);
}

async function showEntries() {
  const known = privateKey ? await readable(await allEntries(database), privateKey) : [];
  if (!sheet) return [];
  for (const { kept } of known) mark(kept.operation, kept.facts);
  byId("entries").replaceChildren(...entryRows(known, words));
  return known;
}

// Signing out here takes everything readable off this device; entries that wait stay, sealed for the clinic.
async function leave() {
  [privateKey, sheet] = [undefined, undefined];
  await signOutHere(database);
  location.replace("/clinic/without-signal");
}

function visitOption({ id, name, target }) {
  const made = new Option(`${name}, ${dayWords(target)}`, id);
  made.dataset.name = name;
  return made;
}

// Whether the window of a visit holds today; dates as text sort by time.
function visitDoubts() {
  const visit = chosen.visits.find(({ id }) => id === form.elements.visit.value);
  if (!visit || isDue(visit)) return [];
  return [`${visit.name} is due ${dayWords(visit.earliest)} to ${dayWords(visit.latest)}: is it this visit that takes place today?`];
}

function isDue({ earliest, latest }) {
  const now = new Date();
  const today = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((n) => String(n).padStart(2, "0")).join("-");
  return earliest <= today && today <= latest;
}

function eyeOf(due) {
  return sheet.eyes.find(({ operation }) => operation === due.operation);
}

function dayWords(iso) {
  const [year, month, day] = iso.split("-").map(Number);
  return new Date(year, month - 1, day).toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "short" });
}
