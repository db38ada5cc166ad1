// What is half typed survives a closed tab, a new version and a dead battery.

import { readFact, writeFact } from "../shared/database.js";

export async function keepDraft(database, form) {
  const draft = (await readFact(database, "draft")) ?? {};
  for (const [name, value] of Object.entries(draft)) {
    const field = form.elements[name];
    if (field) field.value = value;
  }
  const save = () => writeFact(database, "draft", Object.fromEntries(new FormData(form))).catch(() => {});
  form.addEventListener("input", save);
  form.addEventListener("reset", () => setTimeout(save));
}
