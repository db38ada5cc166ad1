"""The phone and the rulebook say the same of three and four checks in a row, whatever is said, left out or comes too late.

`clinical.second_looks` is the second opinion for `second-looks.js`. Before and after each check everything is settled, so
that the rulebook says again whatever is still there; the phone says it whether or not it was settled.
"""

import random
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any, NamedTuple

import pytest

from followup.clinical import warnings
from followup.clinical.course import Course
from followup.clinical.facts import Fact, Settled, Symptoms
from followup.clinical.second_looks import second_looks
from followup.clinical.surgery import Operation
from tests.phone.conftest import Run
from tests.phone.stated import LEVELS, worst
from tests.phone.test_check import AGAIN, PHONES, QUESTIONS, RULES, Told, as_sent, ms

MINUTE, HOUR, SECOND = timedelta(minutes=1), timedelta(hours=1), timedelta(seconds=1)
DAYS = (0.5, 2.9, 8, 13.9, 20, 89.9)
GAPS = (
    2 * MINUTE,
    14 * MINUTE,
    16 * MINUTE,
    HOUR,
    1.9 * HOUR,
    3 * HOUR,
    4.5 * HOUR,
    9 * HOUR,
    23 * HOUR,
    26 * HOUR,
    31 * HOUR,
)
OFTEN = ("vision", "redness", "floaters", "flashes", "other_eye", "discharge")
SEQUENCES = 400


class Said(NamedTuple):
    at: timedelta  # since surgery
    told: Told


def sequences(seed: int, number: int) -> Iterator[list[Said]]:
    """A sign and its looks: still there, gone, with another or more pain, something else, or one question alone."""
    dice = random.Random(seed)
    for _ in range(number):
        at = timedelta(days=dice.choice(DAYS))
        sign = dice.choice((*QUESTIONS, *OFTEN, *OFTEN, "pain"))
        checks = []
        for n in range(dice.choice((3, 4))):
            bad, pain = ({sign}, 0) if sign != "pain" else (set[str](), dice.choice((5, 6)))
            turn = dice.choice(("still", "still", "still", "gone", "company", "pain", "other")) if n else "still"
            if turn == "gone":
                bad, pain = set(), dice.choice((0, 3))
            elif turn == "company":
                bad = {*bad, dice.choice(QUESTIONS)}
            elif turn == "pain":
                pain = dice.choice((4, 5, 7))
            elif turn == "other":
                bad = {dice.choice(QUESTIONS)}
            alone = n > 0 and dice.random() < 0.4
            answered = bad | {sign} if alone else set(QUESTIONS)
            told_pain = pain if not alone or pain or sign == "pain" else None
            checks.append(Said(at, Told(told_pain, frozenset(bad), frozenset(), frozenset(QUESTIONS) - answered, "")))
            at += dice.choice(GAPS)
        yield checks


@pytest.mark.parametrize("seed", [1, 4])
def test_the_phone_says_of_each_check_in_a_row_what_the_rulebook_says(
    packed: tuple[dict[str, Any], Operation], run: Run, seed: int
) -> None:
    made, operation = packed
    said = list(sequences(seed, SEQUENCES))
    sent = [{"eyes": made["eyes"], "checks": [as_checked(operation, check, made) for check in checks]} for checks in said]
    for checks, levels in zip(said, run(AGAIN, sent), strict=True):
        facts: list[Fact] = []
        before: datetime | None = None
        for n, check in enumerate(checks):
            at = operation.at + check.at
            facts += [] if before is None else [Settled(at - SECOND)]
            facts.append(Symptoms(at, **check.told.answers))
            found, waits = told_by(operation, facts, before, at)
            case = (n, checks, levels, [(s.rule, s.how_soon, s.raised_at) for s in found], waits)
            if n:
                late = [s.how_soon for s in found if s.raised_at < at]
                shown, then = levels[2 * n - 1], levels[2 * n - 2]
                assert shown == then if not late else LEVELS.index(shown) <= LEVELS.index(worst(*late)), case
            ruled = worst("well", *(s.how_soon for s in found), *(["again"] if waits else []))
            agrees(levels[2 * n], ruled, check.told, case)
            facts.append(Settled(at + SECOND))
            before = at


def agrees(level: str, ruled: str, told: Told, case: Any) -> None:
    """The same, or *call us* where something was left out, or is bad and no rule of that day says so."""
    if ruled in ("now", "today", "again"):
        assert level == (ruled if told.whole else worst(ruled, "call")), case
    elif not told.whole or level == "call":
        assert level == "call", case
        assert not told.whole or told.bad or told.pain or ruled == "this-week", case
    else:
        assert level == ruled, case


def told_by(
    operation: Operation, facts: list[Fact], before: datetime | None, at: datetime
) -> tuple[list[warnings.Sign], list[datetime]]:
    """What the rulebook says since the check before, and until when it waits for second looks."""
    course = Course.after(operation, (), tuple(facts))
    found = [s for s in warnings.evaluate(course, RULES, at) if before is None or s.raised_at > before]
    due = {a.due_at for a in second_looks(course, RULES, at) if a.due_at >= at}
    later = warnings.evaluate(course, RULES, max(due, default=at))
    return found, [s.raised_at for s in later if s.raised_at in due and s.raised_at > at and s.values.get("second_look")]


def as_checked(operation: Operation, check: Said, made: dict[str, Any]) -> dict[str, Any]:
    at = operation.at + check.at
    just_before = dict.fromkeys(("made_at", "received_at", "seen_at"), ms(at - SECOND))
    return {"answers": check.told.answers, "receipt": as_sent(PHONES[0], made)["receipt"] | just_before, "now": ms(at)}


def test_a_pack_from_before_asks_back_as_it_did_when_it_was_made(packed: tuple[dict[str, Any], Operation], run: Run) -> None:
    """Its rules looked twice in a row (`twice_within_hours`) and once more at what was asked back."""
    made, operation = packed
    eyes = [{**eye, "symptom_rules": [as_before(rule) for rule in eye["symptom_rules"]]} for eye in made["eyes"]]
    cases: dict[tuple[str, float], list[tuple[timedelta, str]]] = {
        ("floaters", 20): [(0 * HOUR, "again"), (5 * MINUTE, "again"), (HOUR, "today")],
        ("redness", 8): [(0 * HOUR, "again"), (5 * MINUTE, "again"), (HOUR, "now")],
        ("vision", 20): [(0 * HOUR, "again"), (HOUR, "today"), (2 * HOUR, "today")],
    }
    sent = []
    for (sign, day), looks in cases.items():
        told = Told(0, frozenset({sign}), frozenset(), frozenset(), "")
        checks = [Said(timedelta(days=day) + after, told) for after, _ in looks]
        sent.append({"eyes": eyes, "checks": [as_checked(operation, check, made) for check in checks]})
    shown = [levels[::2] for levels in run(AGAIN, sent)]
    assert shown == [[level for _, level in looks] for looks in cases.values()]


def as_before(rule: dict[str, Any]) -> dict[str, Any]:
    old = {name: value for name, value in rule.items() if name not in ("looks", "again_within_hours")}
    ask = rule["second_look"] and {name: value for name, value in rule["second_look"].items() if name != "looks"}
    return {**old, "second_look": ask, "twice_within_hours": rule["again_within_hours"]}
