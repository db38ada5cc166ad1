"""The check on a page that stays open while the clinic's plan changes. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { Part, parts } from "./parts.js";
import { CheckView } from "./patient/check-view.js";
import { SCREENS } from "./patient/questions.js";

const byId = parts();
const form = byId("symptoms");
const fields = SCREENS.map((screen) => Object.assign(new Part(), { dataset: { screen } }));
form.lists = { "[data-screen]": fields };
globalThis.setTimeout = () => 0;
const curtain = { id: "curtain", how_soon: "now", words: "curtain", answers: ["curtain"], also: [], count: 1, pain: null };
const rule = { valid_from: "2000-01-01", valid_until: "2100-01-01", second_look: null, again_within_hours: null };
const known = (operation) => ({ operation, receipts: [], asking: { answers_stand_hours: 24 }, symptom_rules: [{ ...curtain, ...rule }] });
let names = new Map();
const kept = [];
const actions = {
    eyes: () => [...names.keys()].map(known),
    receipt: () => ({ made_at: Date.now(), received_at: Date.now(), seen_at: Date.now() }),
    keepDraft: () => {}, waits: () => false, verdictStands: () => false, verdictKept: () => {}, missed: () => [], change: async () => {},
    say: (operation, { so_far: soFar, level }) => {
        if (!soFar) kept.push(["said", operation ?? null]);
        byId("so-far").hidden = !soFar || level !== "now";
    },
    save: async (_kind, body, { operation }) => { kept.push(["kept", operation ?? null, body]); return true; },
};
const view = new CheckView(actions);
const show = (eyes) => {
    names = new Map(eyes.map((eye) => [eye, `${eye} eye`]));
    view.show({ entries: [], names });
};
const press = (value, question) => form.tell("click", { target: { closest: () => ({ value, dataset: { question } }) } });
const acts = {
    show,
    draft: ([chosen, screen]) => view.take({ chosen, screen, words: "" }),
    answer: ([question, value]) => press(value, question),
    rest: () => press("none"),
    tick: async (name) => { await form.tell("change", { target: { type: "checkbox", name, checked: true } }); },
    save: () => form.tell("submit"),
    stop: async () => { if (!byId("check-stop").hidden) await byId("check-stop").tell("click"); },
};
const shown = () => fields.find(({ hidden }) => !hidden)?.dataset.screen;
const now = () => ({ screen: shown(), at_once: !byId("so-far").hidden, kept: structuredClone(kept) });
answer = [];
for (const [act, what] of given) {
    await acts[act](what);
    answer.push(now());
}
""".strip()

BAD = [["answer", ["pain", "2"]], ["answer", ["vision", "same"]], ["tick", "curtain"]]
ANSWERED = {"pain": "2", "vision": "same", "curtain": "yes"}


@pytest.mark.parametrize(
    "begun",
    [[["show", ["right"]], *BAD], [["draft", [ANSWERED, "seeing"]]]],
    ids=["while it is open", "before it was closed"],
)
def test_a_second_eye_that_comes_in_the_middle_of_a_check_is_asked_about(run: Run, begun: list[Any]) -> None:
    acts = [*begun, ["show", ["right", "left"]], ["stop", None], ["answer", ["eye", "right"]], ["stop", None]]
    *_, before, stopped, chosen, end = run(SCRIPT, acts)
    assert (before["screen"], stopped["screen"], stopped["kept"]) == ("eye", "eye", [])
    assert (chosen["screen"], chosen["at_once"]) == ("pain", True)  # what was answered still stands
    assert end["kept"] == [["said", "right"], ["kept", "right", {"pain": 2, "vision": "same", "curtain": True}]]


def test_a_check_of_one_eye_asks_for_no_eye_and_says_what_is_dangerous_at_once(run: Run) -> None:
    told = run(SCRIPT, [["show", ["right"]], *BAD, ["show", ["right"]], ["rest", None], ["stop", None]])
    assert [one["screen"] for one in told] == ["pain", "vision", "seeing", "seeing", "seeing", "looking", "pain"]
    assert [one["at_once"] for one in told[:6]] == [False] * 3 + [True] * 3
    assert told[-1]["kept"][-1][:2] == ["kept", "right"]


def test_an_eye_that_is_followed_no_more_takes_its_answers_with_it(run: Run) -> None:
    begun = [["show", ["right", "left"]], ["answer", ["eye", "left"]], ["answer", ["pain", "2"]]]
    told = run(SCRIPT, [*begun, ["show", ["right"]], ["stop", None]])
    assert (told[2]["screen"], told[3]["screen"], told[4]["kept"]) == ("vision", "pain", [])
