// What is half typed survives a closed tab, a new version and a dead battery. Answers are about the eye as it was then:
// after some hours only the words come back.

import { readFact, writeFact } from "../shared/database.js";

// As long as one sitting with interruptions. Common practice, no source.
export const ANSWERS_LAST_MS = 4 * 3600000;

export async function keepDraft(database, form) {
  const { kept_at: keptAt, ...draft } = (await readFact(database, "draft")) ?? {};
  const fresh = Math.abs(Date.now() - keptAt) < ANSWERS_LAST_MS;
  for (const [name, value] of Object.entries(draft)) {
    const field = form.elements[name];
    if (field && (fresh || field.tagName === "TEXTAREA")) field.value = value;
  }
  const save = () => writeFact(database, "draft", { ...Object.fromEntries(new FormData(form)), kept_at: Date.now() }).catch(() => {});
  form.addEventListener("input", save);
  form.addEventListener("reset", () => setTimeout(save));
}
