// What was entered on this device and what became of it, for the eyes of whoever opened it.

import { timeWords } from "../../shared/dates.js";
import { item, paragraph } from "../../shared/dom.js";
import { opened } from "../../shared/seal.js";

// The entries that this key opens, in order: what was entered, its state, and the clinic's outcome if there is one.
export async function readable(entries, privateKey) {
  const open = (packet) => (packet ? opened(packet, privateKey).catch(() => null) : null);
  const known = await Promise.all(entries.map(async ({ copy, state, outcome }) => ({
    kept: await open(copy), state, outcome: await open(outcome),
  })));
  return known.filter(({ kept }) => kept);
}

// One list item for each of them, newest first. `words` are the page's words for codes.
export function entryRows(known, words) {
  return known.map(({ kept, state, outcome }) => row(kept, state, outcome, words)).reverse();
}

function row({ about, at, facts }, state, outcome, words) {
  const made = item(`${timeWords(new Date(at))} ${about}: ${facts.map(factWords).join("; ")}. `);
  const mark = document.createElement("strong");
  mark.textContent = { saved: "Kept on this device.", received: "Received by the clinic.", refused: `Not taken: ${outcome?.refused}` }[state];
  made.append(mark);
  for (const { how_soon: soon, words: why } of outcome?.raised ?? []) {
    made.append(paragraph(`${words.shape[soon]} ${words.how_soon[soon]}: ${why}`));
  }
  for (const { eye, what, readings } of outcome?.differing ?? []) {
    const said = readings.map((reading) => `${reading.who} ${reading.words}`).join("; ");
    made.append(paragraph(`Two readings differ, ${words.eye[eye]}, ${what}: ${said}. Both stand.`));
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
