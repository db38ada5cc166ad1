// What is half typed survives a closed tab, a new version and a dead battery. Answers are about the eye as it was then: after
// some hours, or on another day, only the words come back, with when they were written.

import { readFact, writeFact } from "../shared/database.js";

// As long as one sitting with interruptions, and as a pause in one that goes past midnight. Common practice, no source.
const ANSWERS_LAST_MS = 4 * 3600000;
const PAUSE_MS = 10 * 60000;

/** @typedef {{ chosen: Record<string, string>, words: string, screen?: string, written_at?: number }} Draft */

/**
 * After the page was closed: answers of another day are not those of today.
 * @returns {Promise<Draft>}
 */
export async function readDraft(database, now = new Date()) {
  const { kept_at: keptAt = NaN, words = "", screen, ...chosen } = (await readFact(database, "draft")) ?? {};
  const fresh = Math.abs(now.getTime() - keptAt) < ANSWERS_LAST_MS && isSameDay(new Date(keptAt), now);
  return fresh ? { chosen, words, screen } : { chosen: {}, words, written_at: keptAt };
}

export function writeDraft(database, { chosen, words, screen }, now = Date.now()) {
  return writeFact(database, "draft", { ...chosen, words, screen, kept_at: now });
}

// A page that stayed open, whose answers were last touched then.
export function isOver(touchedAt, now = new Date()) {
  const pause = Math.abs(now.getTime() - touchedAt);
  return pause > ANSWERS_LAST_MS || (pause > PAUSE_MS && !isSameDay(new Date(touchedAt), now));
}

function isSameDay(one, other) {
  return one.toDateString() === other.toDateString();
}
