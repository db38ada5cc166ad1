// A locked-out phone seals what it had not sent with the clinic's public key: unreadable here, not lost.

import { readFact, transact } from "../shared/database.js";
import { sealed } from "../shared/seal.js";

export async function sealEverything(database, publicKey) {
  const entries = await transact(database, ["entries"], "readonly", ({ entries: store }, give) => {
    store.getAll().onsuccess = (event) => give(event.target.result);
  });
  const unsent = entries.filter((entry) => entry.state !== "received").map((entry) => entry.event);
  const packet = unsent.length ? await sealed(unsent, publicKey) : null;
  await transact(database, ["entries", "facts"], "readwrite", ({ entries: store, facts }) => {
    facts.get("sealed").onsuccess = (read) => {
      const packets = read.target.result ?? [];
      if (packet) packets.push({ ...packet, count: unsent.length });
      facts.put(packets, "sealed");
    };
    for (const key of ["pack", "timer", "draft", "changes", "clock", "verdicts"]) facts.delete(key);
    store.clear();
  });
}

// Sends sealed packets after the phone was enrolled again; they leave only when the clinic took or refused each entry.
export async function sendSealed(database) {
  const packets = (await readFact(database, "sealed")) ?? [];
  if (packets.length === 0) return;
  const body = JSON.stringify({ sealed: packets.map(({ key, iv, data }) => ({ key, iv, data })) });
  const answer = await fetch("/api/v1/sealed", { method: "POST", headers: { "Content-Type": "application/json" }, body });
  if (!answer.ok) return;
  await transact(database, ["facts"], "readwrite", ({ facts }) => { facts.delete("sealed"); });
}

export async function sealedCount(database) {
  const packets = (await readFact(database, "sealed")) ?? [];
  return packets.reduce((sum, packet) => sum + packet.count, 0);
}
