"""Cues for somebody face down: spoken and by a buzz, as chosen; the screen is kept awake again on return. Common practice, no source.

The browser's part is played by stand-ins that write down what they were asked.
"""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { Database } from "./indexed_db.js";
import { Cues } from "./patient/cues.js";

const asked = [];
const listeners = {};
const control = (words) => ({
    checked: false, listeners: {}, label: { hidden: false, textContent: words },
    addEventListener(kind, told) { this.listeners[kind] = told; }, closest() { return this.label; },
    async set(checked) { this.checked = checked; await this.listeners.change(); },
});
const controls = { "keep-awake": control("Keep the screen on"), speak: control("Speak to me") };
globalThis.document = {
    visibilityState: "visible", documentElement: { lang: "de" }, getElementById: (id) => controls[id],
    addEventListener: (kind, told) => { listeners[kind] = told; },
};
globalThis.window = {};
const lock = { release: async () => { asked.push("released"); } };
const request = async () => {
    if (given.refuses) throw new Error("low battery");
    asked.push("awake");
    return lock;
};
const phone = given.can ? { wakeLock: { request }, vibrate: (pattern) => asked.push(`buzz ${pattern}`) } : {};
Object.defineProperty(globalThis, "navigator", { value: phone, configurable: true });
if (given.can) {
    globalThis.SpeechSynthesisUtterance = class { constructor(words) { this.words = words; } };
    globalThis.speechSynthesis = { speak: ({ words, lang }) => asked.push(`${lang}: ${words}`) };
    window.speechSynthesis = globalThis.speechSynthesis;
}
const database = new Database({ facts: given.kept ? [["cues", given.kept]] : [] });
const cues = new Cues(database);
await cues.load();
for (const [what, value] of given.steps) {
    if (what === "signal") cues.signal(value);
    else if (what !== "seen") await controls[what].set(value);
    else {
        document.visibilityState = value;
        await listeners.visibilitychange();
    }
    await new Promise((told) => setImmediate(told));
}
answer = {
    asked, kept: database.stores.facts.get("cues") ?? null, offered: Object.values(controls).map(({ label }) => !label.hidden),
    chosen: [controls["keep-awake"].checked, controls.speak.checked],
};
""".strip()

BUZZ = "buzz 300,150,300"


def told(run: Run, *steps: tuple[str, Any], can: bool = True, **given: Any) -> dict[str, Any]:
    found: dict[str, Any] = run(SCRIPT, {"can": can, "kept": None, "refuses": False, "steps": steps, **given})
    return found


def test_what_was_chosen_is_kept_and_holds_when_the_page_is_opened_again(run: Run) -> None:
    first = told(run, ("keep-awake", True), ("speak", True))
    assert first["asked"] == ["awake", "de: Speak to me"]
    assert first["kept"] == {"awake": True, "speak": True}
    again = told(run, ("signal", "Pause"), kept=first["kept"])
    assert again["asked"] == ["awake", BUZZ, "de: Pause"]
    assert again["chosen"] == [True, True]


def test_the_screen_is_kept_awake_again_on_return_and_not_when_it_was_let_go(run: Run) -> None:
    kept = {"awake": True, "speak": False}
    left = told(run, ("seen", "hidden"), ("seen", "visible"), kept=kept)
    assert left["asked"] == ["awake", "released", "awake"]
    off = told(run, ("keep-awake", False), ("seen", "visible"), kept=kept)
    assert off["asked"] == ["awake", "released"]
    assert off["kept"]["awake"] is False


@pytest.mark.parametrize("speak", [True, False])
def test_words_are_spoken_only_where_wanted_and_the_buzz_comes_always(run: Run, speak: bool) -> None:
    found = told(run, ("signal", "Pause"), kept={"awake": False, "speak": speak})
    assert found["asked"] == [BUZZ, *(["de: Pause"] if speak else [])]


def test_a_phone_that_can_do_neither_offers_neither_and_fails_at_nothing(run: Run) -> None:
    found = told(run, ("signal", "Pause"), ("seen", "visible"), can=False, kept={"awake": True, "speak": True})
    assert (found["asked"], found["offered"]) == ([], [False, False])


def test_a_screen_that_may_not_be_kept_awake_now_is_asked_for_again_later(run: Run) -> None:
    found = told(run, ("keep-awake", True), ("seen", "visible"), refuses=True)
    assert found["asked"] == []
    assert (found["chosen"], found["kept"]) == ([True, False], {"awake": True, "speak": False})
