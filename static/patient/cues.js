// Cues for somebody who cannot look at the screen: a tone, a buzz and, where wanted, words; and a screen that stays on. What
// was chosen is kept on this phone.

import { readFact, writeFact } from "../shared/database.js";
import { byId } from "../shared/dom.js";

export class Cues {
  #database;
  #lock = null;

  constructor(database) {
    this.#database = database;
    byId("keep-awake").closest("label").hidden = !("wakeLock" in navigator);
    byId("speak").closest("label").hidden = !("speechSynthesis" in window);
    byId("keep-awake").addEventListener("change", () => { this.#keep(); this.#hold(); });
    byId("speak").addEventListener("change", () => {
      this.#keep();
      if (byId("speak").checked) this.#say(byId("speak").closest("label").textContent.trim()); // heard at once, and some phones speak only after a touch
    });
    // A phone lets go of its screen whenever the page is hidden.
    document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") this.#hold(); });
  }

  async load() {
    const { awake = false, speak = false } = (await readFact(this.#database, "cues").catch(() => null)) ?? {};
    byId("keep-awake").checked = awake;
    byId("speak").checked = speak;
    await this.#hold();
  }

  signal(words) {
    navigator.vibrate?.([300, 150, 300]);
    beep();
    if (byId("speak").checked) this.#say(words);
  }

  #say(words) {
    if (!("speechSynthesis" in window)) return;
    const spoken = new SpeechSynthesisUtterance(words);
    spoken.lang = document.documentElement.lang;
    speechSynthesis.speak(spoken);
  }

  #keep() {
    writeFact(this.#database, "cues", { awake: byId("keep-awake").checked, speak: byId("speak").checked }).catch(() => {});
  }

  async #hold() {
    try {
      await this.#lock?.release();
      this.#lock = byId("keep-awake").checked ? await navigator.wakeLock.request("screen") : null;
    } catch {
      this.#lock = null; // not now, or not on this phone; it is asked for again when the page comes back
    }
  }
}

function beep() {
  try {
    const audio = new AudioContext();
    const tone = audio.createOscillator();
    const volume = audio.createGain();
    volume.gain.value = 0.2;
    tone.connect(volume).connect(audio.destination);
    tone.start();
    tone.stop(audio.currentTime + 0.4);
    tone.onended = () => audio.close();
  } catch {
    // Some phones refuse sound before the first touch; the words on the screen remain.
  }
}
