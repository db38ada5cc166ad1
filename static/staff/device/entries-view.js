// What was entered on this device and what became of it, for the eyes of whoever opened it.

import { item } from "../../shared/dom.js";
import { opened } from "../../shared/seal.js";

// One list item for each entry that this key opens, newest first. `words` are the page's words for codes.
export async function entryRows(entries, privateKey, words) {
  const rows = await Promise.all(entries.filter(({ copy }) => copy).map(async ({ copy, state, outcome }) => {
    const kept = await opened(copy, privateKey).catch(() => null);
    return kept && row(kept, state, outcome ? await opened(outcome, privateKey) : null, words);
  }));
  return rows.filter(Boolean).reverse();
}

function row({ about, at, facts }, state, outcome, words) {
  const time = new Date(at).toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
  const made = item(`${time} ${about}: ${facts.map(factWords).join("; ")}. `);
  const mark = document.createElement("strong");
  mark.textContent = { saved: "Kept on this device.", received: "Received by the clinic.", refused: `Not taken: ${outcome?.refused}` }[state];
  made.append(mark);
  for (const { how_soon: soon, words: why } of outcome?.raised ?? []) {
    made.append(line(`${words.shape[soon]} ${words.how_soon[soon]}: ${why}`));
  }
  for (const { eye, what, readings } of outcome?.differing ?? []) {
    const said = readings.map((reading) => `${reading.who} ${reading.words}`).join("; ");
    made.append(line(`Two readings differ, ${words.eye[eye]}, ${what}: ${said}. Both stand.`));
  }
  return made;
}

function factWords({ kind, body }) {
  if (kind === "measures") return measuresWords(body);
  return body.visit ? `${kind}: ${body.visit}` : kind.replaceAll("-", " ");
}

function measuresWords(body) {
  const parts = [
    body.acuity && `acuity ${body.acuity}`,
    body.iop && `pressure ${body.iop}`,
    body.bubble_percent && `bubble ${body.bubble_percent} %`,
    body.pain && `pain ${body.pain}`,
  ];
  return [`${body.eye} eye`, ...parts.filter(Boolean), ...body.findings].join(", ");
}

function line(text) {
  const made = document.createElement("p");
  made.textContent = text;
  return made;
}
