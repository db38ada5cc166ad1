// What is over: a follow-up that has ended (the gas caution stays), or a phone that was closed; and by whom. Whom to call stays.

import { byId, countedText, dayWords, listWords, text } from "./texts.js";

let eyeWords = {};

// Says which eyes are followed no more. True where none is followed: then that is all there is to show.
export function showEnded(pack, words, locked) {
  eyeWords = words.eye;
  const ended = pack?.ended ?? [];
  const said = ended.map(({ eye, ended_on: on }) => text("ended", { eye: eyeWords[eye], day: dayWords(on) })).join(" ");
  const over = ended.length > 0 && !pack.eyes.length && !locked;
  byId("ended").hidden = !over;
  byId("ended-words").textContent = said;
  byId("ended-beside").hidden = over || !ended.length;
  byId("ended-beside").textContent = said;
  const gas = endedWithGas(pack);
  byId("ended-gas").hidden = gas.length === 0;
  byId("ended-gas-eyes").textContent = text("gas-in", { eye: listWords(gas) });
  return over;
}

// Says who closed this phone ("clinic" or "patient", null: nobody), and how many entries are still sealed on it.
export function showClosed(by, kept) {
  byId("locked").hidden = by === null;
  byId("closed-by-clinic").hidden = by === "patient";
  byId("closed-by-patient").hidden = by !== "patient";
  byId("sealed-here").hidden = kept === 0;
  byId("sealed-count").textContent = kept ? countedText("to-send", kept) : "";
}

// The words for the eyes that are followed no more and in which gas may be left: only a clinician can say that it is gone.
export function endedWithGas(pack) {
  return (pack?.ended ?? []).filter(({ caution }) => caution).map(({ eye }) => eyeWords[eye]);
}
