// What the clinic has for this phone: its pack, kept with what it changes, and whether it knows this phone at all.

import { receiptOf } from "../shared/clock.js";
import { transact } from "../shared/database.js";
import { timed } from "../shared/requests.js";
import { changesBetween, joined } from "./changes-view.js";
import { withoutSettled } from "./rules.js";
import { sealEverything, sendSealed } from "./sealing.js";

export class FromClinic {
  #database;
  #outbox;
  locked = false;
  unknown = false;

  constructor(database, outbox) {
    this.#database = database;
    this.#outbox = outbox;
  }

  // Sends what waits, then fetches what the clinic has for this phone. Without a signal both keep what is here.
  async refresh() {
    await this.#outbox.flush();
    try {
      await sendSealed(this.#database);
      const address = `/api/v1/pack?language=${document.documentElement.lang}`;
      const answer = await timed(address, { cache: "no-store" }); // its time of making is the clinic's clock
      if (answer.status === 401 && (await answer.json()).locked) await this.lockOut();
      if (!answer.ok) return;
      const fresh = await answer.json();
      await this.#take(fresh);
      if (await this.#outbox.sendAgain(fresh.generation)) await this.#outbox.flush();
      [this.locked, this.unknown] = [false, false];
      await this.#outbox.prune();
    } catch {
      // No signal: the pack on the phone stays.
    }
  }

  // The clinic closed this phone: what was not sent is sealed for the clinic, the rest is taken off.
  lockOut() {
    this.locked = true;
    return sealEverything(this.#database);
  }

  // Keeps what the clinic sent, and what it changes against what this phone showed before.
  #take(fresh) {
    return transact(this.#database, ["facts"], "readwrite", ({ facts }) => {
      facts.get("pack").onsuccess = ({ target: { result: before } }) => {
        facts.get("changes").onsuccess = (read) => {
          const unseen = read.target.result ?? {};
          for (const now of fresh.eyes) {
            const old = before?.eyes.find(({ operation }) => operation === now.operation);
            if (before?.eyes.length) unseen[now.operation] = joined(unseen[now.operation] ?? [], changesBetween(old, now));
          }
          facts.put(unseen, "changes");
          facts.put(fresh, "pack");
          facts.put(receiptOf(fresh), "clock");
          facts.get("verdicts").onsuccess = ({ target: { result: standing } }) => {
            if (standing) facts.put(withoutSettled(standing, fresh), "verdicts");
          };
        };
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
