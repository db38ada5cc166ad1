// The clinic without a signal: today's list and the entry screen, from the sheet that only the day's key opens.

import { loadTable } from "./acuity-table.js";
import { currentSheet, openDayKey, openDeviceDatabase, otherTabs, signOutHere } from "./device/day-key.js";
import { entryRows, readable } from "./device/entries-view.js";
import { FormView } from "./device/form-view.js";
import { ListView } from "./device/list-view.js";
import { DeviceOutbox } from "./device/outbox.js";
import { eyeOf, mark, withFollowed } from "./device/sheet.js";
import { alarmed } from "./measures.js";
import { readFact } from "../shared/database.js";
import { timeWords } from "../shared/dates.js";
import { byId } from "../shared/dom.js";
import { timed } from "../shared/requests.js";
import { opened } from "../shared/seal.js";

const TRY_AGAIN_MS = 20000;
const LONGEST_TIMER_MS = 2 ** 31 - 1; // a browser takes a longer one for none

class Page {
  #words = JSON.parse(byId("words").textContent);
  #database;
  #outbox;
  #list;
  #form;
  #others = otherTabs();
  #privateKey;
  #sheet;
  #left = false;

  constructor(database, table) {
    this.#database = database;
    this.#outbox = new DeviceOutbox(database, (outcome) => { if (outcome) this.#sent(outcome); });
    this.#list = new ListView(this.#words, (eye, due) => this.#arrived(eye, due));
    this.#form = new FormView(this.#words, table, (eye, facts) => this.#entered(eye, facts));
    byId("unlock-form").addEventListener("submit", (event) => this.#unlock(event));
    byId("leave").addEventListener("click", () => this.#leave());
    this.#others.addEventListener("message", () => this.#close());
    byId("back").addEventListener("click", () => { location.hash = ""; });
    window.addEventListener("hashchange", () => this.#route());
    window.addEventListener("online", () => this.#outbox.flush());
    setInterval(() => this.#outbox.flush(), TRY_AGAIN_MS);
  }

  async start() {
    const kept = await currentSheet(this.#database);
    byId("unlock").hidden = !kept;
    byId("no-sheet").hidden = Boolean(kept);
    if (kept) byId("password").focus();
  }

  async #unlock(event) {
    event.preventDefault();
    byId("unlock-error").textContent = "";
    const password = byId("password").value;
    const [key, kept] = [await readFact(this.#database, "day-key"), await currentSheet(this.#database)];
    if (!kept) {
      await this.start();
      return;
    }
    try {
      this.#privateKey = await openDayKey(key, password);
      const [sheet, followed] = await Promise.all([opened(kept.packet, this.#privateKey), this.#followed(this.#privateKey)]);
      this.#sheet = withFollowed(sheet, followed);
    } catch {
      byId("unlock-error").textContent = "This is not the password of the person who signed in on this device.";
      return;
    }
    byId("password").value = "";
    byId("unlock").hidden = true;
    byId("staff-name").textContent = this.#sheet.staff;
    byId("as-of").textContent = ` at ${timeWords(new Date(kept.fetched))}`;
    setTimeout(() => this.#leave(), Math.min(Date.parse(this.#sheet.expires_at) - Date.now(), LONGEST_TIMER_MS));
    await this.#showEntries();
    if (this.#left) return; // somebody signed out while the key was worked out
    if (!location.hash) location.hash = this.#wanted();
    byId("open").hidden = false;
    this.#route();
    this.#outbox.flush();
  }

  async #followed(privateKey) {
    const kept = await readFact(this.#database, "followed");
    const pages = (kept?.packets ?? []).map((packet) => opened(packet, privateKey));
    return (await Promise.all(pages)).flat();
  }

  // The page that was asked for when the signal was gone.
  #wanted() {
    const eye = location.pathname.match(/^\/clinic\/eyes\/([^/]+)/)?.[1];
    return eyeOf(this.#sheet, eye) ? `#${eye}` : "";
  }

  #route() {
    if (!this.#sheet) return;
    const chosen = eyeOf(this.#sheet, location.hash.slice(1));
    byId("list").hidden = Boolean(chosen);
    byId("entry").hidden = !chosen;
    if (chosen) this.#form.show(chosen, this.#sheet);
    else this.#list.show(this.#sheet);
  }

  async #arrived(eye, { visit, visit_id }) {
    await this.#keep(eye, [{ kind: "arrived", body: { visit, visit_id } }]);
    this.#list.show(this.#sheet);
  }

  async #entered(eye, facts) {
    const [alarm, kept] = [alarmed(facts, this.#sheet.limits), await this.#keep(eye, facts)];
    if (kept) location.hash = ""; // else it stays in the form, to be written down
    byId(alarm ? "alarm" : "told").focus();
    return kept;
  }

  // Whether this device has it.
  async #keep(eye, facts) {
    const about = `${eye.patient}, ${this.#words.eye[eye.eye]}`;
    const { author_pass: authorPass, sealing_key: sealingKey } = this.#sheet;
    try {
      await this.#outbox.add({ operation: eye.operation, facts, about, authorPass, sealingKey });
      byId("told").textContent = `Kept on this device: ${about}.`;
    } catch (error) {
      console.info("not kept:", error);
      byId("told").textContent = "This could not be kept on this device. Write it on paper.";
      return false;
    }
    await this.#showEntries();
    return true;
  }

  async #sent(outcome) {
    const back = outcome === "sent" && (await reaches());
    byId("signal").hidden = !back;
    byId("no-signal").hidden = back;
    const known = await this.#showEntries();
    if (outcome === "sent" && !known.some(({ state }) => state === "refused")) byId("alarm").hidden = true;
  }

  async #showEntries() {
    const known = this.#privateKey ? await readable(await this.#outbox.all(), this.#privateKey) : [];
    if (!this.#sheet) return [];
    for (const { kept } of known) mark(this.#sheet, kept.operation, kept.facts);
    byId("entries").replaceChildren(...entryRows(known, this.#words));
    return known;
  }

  // Signing out here takes everything readable off this device; entries that wait stay, sealed for the clinic.
  async #leave() {
    this.#left = true;
    byId("password").value = "";
    byId("open").hidden = true; // on a line that stalls the next page is not there at once
    await signOutHere(this.#database, () => this.#others.postMessage("left"));
    this.#close();
  }

  // Also where somebody signed out in another tab.
  #close() {
    this.#left = true;
    [this.#privateKey, this.#sheet] = [undefined, undefined];
    byId("open").hidden = true;
    location.replace("/clinic/without-signal");
  }
}

async function reaches() {
  return timed("/api/v1/clinic/here", { cache: "no-store" }).then((answer) => answer.ok, () => false);
}

const table = await loadTable(byId("entry-form").dataset.acuityTable).catch(() => ({}));
await new Page(await openDeviceDatabase(), table).start();
document.documentElement.dataset.ready = "yes";
