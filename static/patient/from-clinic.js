// What the clinic has for this phone: its pack, kept with what it changes, and whether it knows this phone at all.

import { SKEW_MS, SteadyClock, aheadOf, receiptOf } from "../shared/clock.js";
import { readFact, transact, writeFact } from "../shared/database.js";
import { timed } from "../shared/requests.js";
import { changesBetween, joined } from "./changes-view.js";
import { withoutSettled } from "./rules.js";
import { sealEverything, sendSealed } from "./sealing.js";

export const REFRESH_MS = 60000;

// A page that stays in view asks so often: what the clinic changed is known here within minutes, and a phone is not kept busy.
// Common practice, no source.
const ASK_EVERY_MS = 15 * 60000;

export class FromClinic {
  #database;
  #outbox;
  #told;
  #clock = new SteadyClock();
  #received; // when the pack came, by both clocks
  #asked = -Infinity; // when this page last asked, by the clock that nobody can set
  unknown = false;

  // `told()` says it to whoever looks.
  constructor(database, outbox, told) {
    this.#database = database;
    this.#outbox = outbox;
    this.#told = told;
  }

  get receipt() {
    return this.#clock.notice(this.#received);
  }

  // Keeps the latest time this phone has shown, so that a clock set back is noticed, also after the page was closed.
  async lookAtClock(received) {
    this.#received = received;
    const { received_at: of, seen_at: seen } = this.receipt ?? {};
    if (of === undefined) return;
    await transact(this.#database, ["facts"], "readwrite", ({ facts }) => {
      facts.get("clock").onsuccess = ({ target: { result: kept } }) => {
        if (kept?.received_at === of && kept.seen_at + REFRESH_MS <= seen) facts.put({ ...kept, seen_at: seen }, "clock");
      };
    }).catch(() => {});
  }

  // Sends what waits, then fetches what the clinic has for this phone. Without a signal both keep what is here.
  async refresh() {
    this.#asked = performance.now();
    await this.#outbox.flush();
    await this.#fetchPack();
    await this.#told();
  }

  // On a page that nobody leaves: asks again, unless another tab has, or this one still waits on a line that stalls.
  async keepUp(now = Date.now()) {
    const since = [now - this.#received?.received_at, performance.now() - this.#asked];
    if (document.visibilityState === "visible" && since.every((passed) => Math.abs(passed) >= ASK_EVERY_MS)) await this.refresh();
  }

  // The clinic said that it closed this phone. Its answer about the pack says by whom.
  async closed() {
    await this.#lockOut("clinic");
    await this.#fetchPack();
  }

  async #fetchPack() {
    try {
      if (!(await readFact(this.#database, "pack")) && !(await isSetUp())) return;
      await sendSealed(this.#database).catch((error) => console.info("not sent yet:", error)); // on a full phone the pack still comes
      const before = this.#received?.received_at;
      const address = `/api/v1/pack?language=${document.documentElement.lang}`;
      const answer = await timed(address, { cache: "no-store" }); // its time of making is the clinic's clock
      if (answer.status === 401) {
        const { locked, removed } = await answer.json();
        if (locked) await this.#lockOut(removed ? "patient" : "clinic");
      }
      if (!answer.ok) return;
      const fresh = await answer.json();
      await this.#take(fresh, before);
      if (await this.#outbox.sendAgain(fresh.generation)) await this.#outbox.flush();
      this.unknown = false;
      await this.#outbox.prune(Date.parse(fresh.made_at));
    } catch {
      // No signal: the pack on the phone stays.
    }
  }

  // The clinic closed this phone, or the patient removed whoever helps with it: what was not sent is sealed for the clinic, the
  // rest is taken off.
  async #lockOut(by) {
    await sealEverything(this.#database);
    await writeFact(this.#database, "closed", by);
    await this.#told();
  }

  // Keeps what the clinic sent, and what it changes against what this phone showed before. Of two that were on the way at once
  // (`before` is what was here when this one was asked for) the one made later stays.
  #take(fresh, before) {
    const receipt = receiptOf(fresh);
    return transact(this.#database, ["entries", "facts"], "readwrite", ({ entries, facts }) => {
      facts.get("clock").onsuccess = ({ target: { result: former } }) => {
        if (former?.made_at > receipt.made_at && former.received_at !== before) return;
        if (former && turnsOutWrong(this.#clock.notice(former), receipt)) doubtHours(entries, former);
        facts.put(receipt, "clock");
        keepPack(facts, fresh);
      };
    });
  }

  // These changes were shown and are seen; what came after that is not.
  changesSeen(changes) {
    const seen = JSON.stringify(changes);
    return transact(this.#database, ["facts"], "readwrite", ({ facts }) => {
      facts.get("changes").onsuccess = ({ target: { result } }) => {
        if (JSON.stringify(result) === seen) facts.delete("changes");
      };
    });
  }
}

// With what it changes, and without the verdicts that it settles.
function keepPack(facts, fresh) {
  facts.get("pack").onsuccess = ({ target: { result: before } }) => {
    facts.get("changes").onsuccess = (read) => {
      const unseen = read.target.result ?? {};
      for (const now of fresh.eyes) {
        const old = before?.eyes.find(({ operation }) => operation === now.operation);
        if (before?.eyes.length) unseen[now.operation] = joined(unseen[now.operation] ?? [], changesBetween(old, now));
      }
      facts.put(unseen, "changes");
      facts.put(fresh, "pack");
      facts.delete("closed");
      facts.get("verdicts").onsuccess = ({ target: { result: standing } }) => {
        if (standing) facts.put(withoutSettled(standing, fresh), "verdicts");
      };
    };
  };
}

// What was believed of this phone's clock until the clinic was heard again.
function turnsOutWrong(former, receipt) {
  return Math.abs(aheadOf(receipt) - aheadOf(former, receipt.received_at)) >= SKEW_MS;
}

// Hours that were kept since then may have begun by one clock and ended by another: somebody is asked how long it was.
function doubtHours(entries, { received_at: heard }) {
  entries.openCursor().onsuccess = ({ target: { result: cursor } }) => {
    if (!cursor) return;
    const { event } = cursor.value;
    if (event.kind === "posture" && Date.parse(event.heard?.device_at) === heard) cursor.update({ ...cursor.value, unsure: true });
    cursor.continue();
  };
}

// A browser that was never set up asks for nothing more: a refusal would stand in its log as a fault.
async function isSetUp() {
  const answer = await timed("/api/v1/known", { cache: "no-store" });
  return answer.ok && (await answer.json()).set_up;
}
