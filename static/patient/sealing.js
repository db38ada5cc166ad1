// A locked-out phone seals what it had not sent with the clinic's public key: unreadable here, not lost.

import { readFact, transact } from "../shared/database.js";

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
    for (const key of ["pack", "timer", "draft"]) facts.delete(key);
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

async function sealed(entries, publicKey) {
  const wrapping = await crypto.subtle.importKey("spki", bytes(publicKey), { name: "RSA-OAEP", hash: "SHA-256" }, false, ["wrapKey"]);
  const key = await crypto.subtle.generateKey({ name: "AES-GCM", length: 256 }, true, ["encrypt"]);
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const data = await crypto.subtle.encrypt({ name: "AES-GCM", iv }, key, new TextEncoder().encode(JSON.stringify(entries)));
  const wrapped = await crypto.subtle.wrapKey("raw", key, wrapping, { name: "RSA-OAEP" });
  return { key: base64(wrapped), iv: base64(iv), data: base64(data) };
}

function bytes(text) {
  return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
}

function base64(buffer) {
  return btoa(Array.from(new Uint8Array(buffer), (byte) => String.fromCharCode(byte)).join(""));
}
