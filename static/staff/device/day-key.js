// The key of the day: made at sign-in, and opened again only by the password of whoever signed in.
//
// Anything can be sealed with its public half, so pages refresh the day's sheet without asking for the password.
// The private half is kept wrapped under a key derived from the password (PBKDF2), and goes with sign-out or the day.

import { openDatabase, readFact, transact, writeFact } from "../../shared/database.js";
import { timed } from "../../shared/requests.js";
import { base64, bytes } from "../../shared/seal.js";

const ITERATIONS = 600000; // common advice for PBKDF2 with SHA-256, from memory
const PRIVATE = { name: "RSA-OAEP", hash: "SHA-256" };

// The other tabs with the device's list: they close it when they hear that somebody left.
export const otherTabs = () => new BroadcastChannel("followup-clinic");

export function openDeviceDatabase() {
  return openDatabase("followup-clinic");
}

// Makes the day's key; what an earlier sign-in kept here goes.
export async function makeDayKey(database, email, password) {
  const salt = crypto.getRandomValues(new Uint8Array(16));
  const iv = crypto.getRandomValues(new Uint8Array(12));
  const wrapping = await passwordKey(password, salt, ["wrapKey"]);
  const shape = { ...PRIVATE, modulusLength: 2048, publicExponent: new Uint8Array([1, 0, 1]) };
  const pair = await crypto.subtle.generateKey(shape, true, ["wrapKey", "unwrapKey"]);
  const wrapped = await crypto.subtle.wrapKey("pkcs8", pair.privateKey, wrapping, { name: "AES-GCM", iv });
  const publicKey = base64(await crypto.subtle.exportKey("spki", pair.publicKey));
  await noDayKey(database);
  await writeFact(database, "day-key", {
    email: email.trim().toLowerCase(), publicKey, salt: base64(salt), iv: base64(iv), wrapped: base64(wrapped),
  });
}

// Somebody signs in without a password: what an earlier sign-in kept here goes, and nothing is kept for without a signal.
export async function noDayKey(database) {
  await forgetDay(database);
  await transact(database, ["facts"], "readwrite", ({ facts }) => { facts.delete("left"); });
}

// The private half; throws when the password is not the one of the sign-in.
export async function openDayKey(kept, password) {
  const wrapping = await passwordKey(password, bytes(kept.salt), ["unwrapKey"]);
  const how = { name: "AES-GCM", iv: bytes(kept.iv) };
  return crypto.subtle.unwrapKey("pkcs8", bytes(kept.wrapped), wrapping, how, PRIVATE, false, ["unwrapKey"]);
}

// Signs out on this device: everything readable goes at once, then `gone()`; the session as soon as there is a signal.
export async function signOutHere(database, gone) {
  await forgetDay(database);
  await writeFact(database, "left", true);
  gone();
  await endSession(database);
}

// Ends the session of somebody who signed out without a signal. Resolves with whether there was one to end.
export async function endSession(database) {
  if (!(await readFact(database, "left"))) return false;
  const answer = await timed("/api/v1/clinic/leave", { method: "POST" }).catch(() => null);
  if (answer?.ok) await transact(database, ["facts"], "readwrite", ({ facts }) => { facts.delete("left"); });
  return true;
}

// Takes the sheet, the names, the key and every readable copy off. Unsent entries stay, sealed for the clinic alone; so does when
// the clinic was last heard: what a page that is still open keeps goes by the right clock.
export function forgetDay(database) {
  return transact(database, ["entries", "facts"], "readwrite", ({ entries, facts }) => {
    for (const name of ["day-key", "sheet", "followed"]) facts.delete(name);
    entries.openCursor().onsuccess = ({ target: { result: cursor } }) => {
      if (!cursor) return;
      const { copy, outcome, ...rest } = cursor.value;
      if (rest.state === "saved") cursor.update(rest);
      else cursor.delete();
      cursor.continue();
    };
  });
}

// The sheet as kept, sealed; when its day is over everything readable goes.
export async function currentSheet(database, now = Date.now()) {
  const sheet = await readFact(database, "sheet");
  if (sheet && Date.parse(sheet.expires_at) <= now) {
    await forgetDay(database);
    return undefined;
  }
  return sheet;
}

async function passwordKey(password, salt, usages) {
  const typed = await crypto.subtle.importKey("raw", new TextEncoder().encode(password), "PBKDF2", false, ["deriveKey"]);
  const how = { name: "PBKDF2", hash: "SHA-256", salt, iterations: ITERATIONS };
  return crypto.subtle.deriveKey(how, typed, { name: "AES-GCM", length: 256 }, false, usages);
}
