"""How the check is asked: every question once, and whatever is pressed becomes an entry that the clinic takes as it was meant."""

from itertools import chain, combinations, product
from typing import Any, get_args

import pytest

from followup.care.home import pack as packs
from followup.clinical.facts import SYMPTOM_SIGNS
from followup.config import Settings
from followup.records import Store
from followup.records.bodies import kinds
from followup.records.bodies.home import Question
from followup.records.values import Device
from tests.conftest import OPERATED
from tests.phone.conftest import Run
from tests.phone.test_check import DAY, HOUR

QUESTIONS = set(get_args(Question))
ASKED = """
import { SCREENS, SIGNS } from "./patient/questions.js";

answer = SCREENS.flatMap((name) => SIGNS[name] ?? [name]);
"""
# Presses everything that a check can be answered with, screen by screen, and gives the body of each.
PRESSED = """
import { bodyOf, restOf, ticked } from "./patient/questions.js";

answer = given.map(({ alone, signs }) => {
    let chosen = { ...alone };
    for (const { screen, ticks, rest } of signs) {
        for (const name of ticks) chosen = ticked(chosen, name, true);
        if (rest) chosen = restOf(chosen, screen, rest);
    }
    return bodyOf(chosen);
});
"""
JUDGED = """
import { bodyOf } from "./patient/questions.js";
import { judge } from "./patient/rules.js";

answer = given.checks.map((chosen) => judge(given.eyes, bodyOf(chosen), given.receipt, given.now).level);
"""
SIGNS = {
    "seeing": ("curtain", "flashes", "floaters"),
    "looking": ("redness", "discharge", "injury"),
    "body": ("vomiting", "fever"),
}
WELL = {name: "1" if name == "pain" else "no" if name in SYMPTOM_SIGNS else "same" for name in QUESTIONS}


def test_every_question_is_asked_once(run: Run) -> None:
    assert sorted(run(ASKED, None)) == sorted([*QUESTIONS, "eye", "words"])


def ways(screen: str) -> list[dict[str, Any]]:
    """Every way to answer a screen of signs: each set of ticks, then none more, cannot tell, or left with that."""
    asked = SIGNS[screen]
    ticks = chain.from_iterable(combinations(asked, n) for n in range(len(asked) + 1))
    return [{"screen": screen, "ticks": t, "rest": rest} for t in ticks for rest in ("none", "cannot-tell", "")]


def expected(way: dict[str, Any]) -> dict[str, Any]:
    body: dict[str, Any] = {}
    for name in SIGNS[way["screen"]]:
        is_sign = name in SYMPTOM_SIGNS
        if name in way["ticks"]:
            body[name] = True if is_sign else "worse"
        elif way["rest"] == "none":
            body[name] = False if is_sign else "same"
    return body


def test_what_is_pressed_is_what_the_clinic_takes(run: Run) -> None:
    checks = [{"alone": {}, "signs": list(signs)} for signs in product(*map(ways, SIGNS))]
    for value in ("0", "10", "cannot-tell"):
        checks.append({"alone": {"pain": value, "vision": "better", "other_eye": "worse"}, "signs": []})
    for check, body in zip(checks, run(PRESSED, checks), strict=True):
        taken = kinds.stored(kinds.body_of("symptoms", body))
        unsure = set(taken.pop("cannot_tell"))
        meant: dict[str, Any] = {"words": ""}
        unknown: set[str] = set()
        for way in check["signs"]:
            said = expected(way)
            meant |= said
            unknown |= set(SIGNS[way["screen"]]) - said.keys() if way["rest"] == "cannot-tell" else set()
        for name, value in check["alone"].items():
            if value == "cannot-tell":
                unknown.add(name)
            else:
                meant[name] = int(value) if name == "pain" else value
        assert (taken, unsure) == (meant, unknown), check


def test_an_entry_names_only_questions_that_there_are() -> None:
    with pytest.raises(ValueError, match="cannot_tell"):
        kinds.body_of("symptoms", {"cannot_tell": ["the weather"]})


def test_only_every_answer_well_gives_the_all_clear(
    run: Run, store: Store, settings: Settings, device: Device, discharged: tuple[str, str]
) -> None:
    now = OPERATED + 3 * DAY
    made = packs.pack(store, settings.clinic, device, now).model_dump(mode="json")
    at = now.timestamp() * 1000
    checks = [
        WELL,
        *({**WELL, name: "cannot-tell"} for name in WELL),
        *({k: v for k, v in WELL.items() if k != n} for n in WELL),
    ]
    receipt = {"made_at": at, "received_at": at, "seen_at": at}
    given = {"eyes": made["eyes"], "checks": checks, "receipt": receipt, "now": at + HOUR.total_seconds() * 1000}
    assert run(JUDGED, given) == ["well", *["call"] * (len(checks) - 1)]
