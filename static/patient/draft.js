// What is half typed survives a closed tab, a new version and a dead battery. Answers are about the eye as it was then: after
// some hours, or on another day, only the words come back.

import { readFact, writeFact } from "../shared/database.js";

// As long as one sitting with interruptions, and as a pause in one that goes past midnight. Common practice, no source.
const ANSWERS_LAST_MS = 4 * 3600000;
const PAUSE_MS = 10 * 60000;

/** @typedef {{ chosen: Record<string, string>, words: string, screen?: string, kept_at?: number }} Draft */

/** @returns {Promise<Draft>} */
export async function readDraft(database) {
  const { kept_at, words = "", screen, ...chosen } = (await readFact(database, "draft")) ?? {};
  return { chosen, words, screen, kept_at };
}

export function writeDraft(database, { chosen, ...beside }) {
  return writeFact(database, "draft", { ...chosen, ...beside });
}

// Whether answers that were last touched then are over.
export function isOver(touchedAt, now = Date.now()) {
  const [pause, days] = [Math.abs(now - touchedAt), [now, touchedAt].map((at) => new Date(at).toDateString())];
  return pause > ANSWERS_LAST_MS || (pause > PAUSE_MS && days[0] !== days[1]);
}
