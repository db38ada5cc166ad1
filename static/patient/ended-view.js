// Eyes whose follow-up has ended: the phone says so, with whom to call, and keeps the gas caution.

import { dayWords, listWords } from "../shared/dates.js";
import { byId } from "../shared/dom.js";
import { text } from "./texts.js";

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

// The words for the eyes that are followed no more and in which gas may be left: only a clinician can say that it is gone.
export function endedWithGas(pack) {
  return (pack?.ended ?? []).filter(({ caution }) => caution).map(({ eye }) => eyeWords[eye]);
}
