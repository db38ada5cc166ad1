"""Before the time that the rules themselves name, a look finds nothing new. The law holds by what `evaluate` gives; no source."""

from datetime import UTC, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical.checks import CHECKS
from followup.clinical.checks.look import never
from followup.clinical.course import Course
from followup.clinical.facts import Heard, Measures, NoGasSeen, Seen, Settled, Symptoms
from followup.clinical.next_look import LEEWAY, next_look
from followup.clinical.warnings import evaluate
from followup.protocols import book
from tests.courses import GAS_PLAN, OIL, at, operation, postured, symptoms, visit

BOOK = book.rulebook()
VIENNA = ZoneInfo("Europe/Vienna")
DAYS = st.floats(-1, 150).map(lambda day: round(day * 24 * 60) / (24 * 60))
SIGNS: list[dict[str, Any]] = [
    {}, {"floaters": "worse"}, {"vision": "worse"}, {"redness": "worse"}, {"pain": 5}, {"curtain": True}, {"flashes": "worse"},
]  # fmt: skip
FACTS: dict[str, Any] = {
    "check": lambda day, n: symptoms(day, **SIGNS[n % len(SIGNS)]),
    "answer": lambda day, n: Symptoms(at(day), floaters=("same", "worse")[n % 2]),
    "heard": lambda day, n: Heard(at(day)),
    "settled": lambda day, n: Settled(at(day), (None, "silence", "tamponade", "retina", "visits")[n % 5]),
    "postured": lambda day, n: postured(max(day, 0), 1 + n % 11),
    "measures": lambda day, n: Measures(at(day), "right", iop_mmhg=(14, 31)[n % 2], instrument="applanation"),
    "empty": lambda day, n: NoGasSeen(at(day)),
    "seen": lambda day, n: Seen(at(day), ("day 1", "week 1", "month 3")[n % 3]),
}
FACT = st.builds(lambda kind, day, n: FACTS[kind](day, n), st.sampled_from(sorted(FACTS)), DAYS, st.integers(0, 12))
OPERATIONS: list[dict[str, Any]] = [{"plan": GAS_PLAN}, OIL, {"agent": "none", "percent": 0, "fill_percent": 0}]
VISITS = (visit("day 1", 1), visit("week 1", 6, 9), visit("month 3", 85, 99))
COURSE = st.builds(
    lambda stages, facts, zone, app, reached: Course(
        "right",
        tuple(operation(**{**OPERATIONS[n], "at": at(since)}) for since, n in stages),
        VISITS,
        tuple(facts),
        zone,
        app,
        reached,
    ),
    st.lists(st.tuples(st.sampled_from([0, 0.5, 20, 60]), st.integers(0, 2)), max_size=2, unique_by=lambda stage: stage[0]),
    st.lists(FACT, max_size=8),
    st.sampled_from([UTC, VIENNA]),
    st.booleans(),
    st.none() | DAYS.map(at),
)
LONG_AFTER = timedelta(days=900)


def found(course: Course, now: datetime) -> set[tuple[str, datetime]]:
    return {(sign.rule, sign.raised_at) for sign in evaluate(course, BOOK, now)}


@given(COURSE, DAYS, st.floats(0, 1))
def test_before_it_a_look_finds_nothing_new(course: Course, day: float, share: float) -> None:
    now = at(day)
    due = next_look(course, BOOK, now) or now + LONG_AFTER
    known = found(course, now)
    just_before = due - timedelta(microseconds=1)
    for later in (min(now + share * (due - now), just_before), just_before):
        if later > now:
            assert found(course, later) == known


@given(COURSE)
def test_whoever_looks_only_when_it_is_due_finds_all(course: Course) -> None:
    now, ends, found_then = at(-1), at(400), set()
    looks = 0
    while now <= ends and looks < 400:
        found_then |= found(course, now)
        looks += 1
        due = next_look(course, BOOK, now)
        if due is None:
            break
        now = max(due, now + timedelta(minutes=15))  # as the clock asks: no more often
    assert looks < 400
    assert {key for key in found(course, ends) if key[1] <= ends} == {key for key in found_then if key[1] <= ends}


NOTHING_LEFT: dict[str, Any] = {"agent": "none", "percent": 0, "fill_percent": 0}
WHAT_TIME_BRINGS: dict[str, tuple[Course, float, float]] = {
    "silent-early": (Course.after(operation(**NOTHING_LEFT), facts=(Heard(at(3)),)), 4.6, 6),
    "silent-early, settled": (
        Course.after(operation(**NOTHING_LEFT), facts=(Heard(at(3)), Settled(at(6.5), "silence"))), 7.6, 9
    ),
    "oil-past-removal": (Course("right", (operation(**OIL),), app=False), 100, 183),
    "oil-past-removal, settled": (Course("right", (operation(**OIL),), facts=(Settled(at(190), None),), app=False), 191, 211),
    "floaters": (Course.after(operation(**NOTHING_LEFT), facts=(symptoms(20, floaters="worse"),)), 20.01, 20 + 4 / 24),
}  # fmt: skip


@pytest.mark.parametrize("what", sorted(WHAT_TIME_BRINGS))
def test_what_time_alone_brings_is_looked_at_when_it_comes(what: str) -> None:
    """Silence of 72 hours, oil still in at half a year, a second look that nobody answered: by the draft's own numbers."""
    course, now, comes = WHAT_TIME_BRINGS[what]
    assert next_look(course, BOOK, at(now)) == at(comes)
    rule = what.partition(",")[0]
    assert (rule, at(comes)) in found(course, at(comes)) - found(course, at(comes) - timedelta(microseconds=1))


def test_what_fell_due_up_to_a_second_ago_is_still_given() -> None:
    course, _, comes = WHAT_TIME_BRINGS["silent-early"]
    assert next_look(course, BOOK, at(comes) + LEEWAY) == at(comes)
    assert next_look(course, BOOK, at(comes) + LEEWAY + timedelta(microseconds=1)) != at(comes)


@pytest.mark.parametrize("day", [0, 0.2, 1, 30])
def test_a_look_at_the_very_moment_is_due_once_more(day: float) -> None:
    """Hours are fractions: what falls on this moment may be found only a breath later."""
    course = Course.after(operation(), facts=(Heard(at(day)),))
    due = next_look(course, BOOK, at(day))
    assert due is not None
    assert next_look(course, BOOK, due) == due


def test_a_quiet_eye_is_not_looked_at_again() -> None:
    """Nothing that lasts, nothing planned, no phone: time alone brings no more. Common practice, no source."""
    course = Course("right", (operation(agent="none", percent=0, fill_percent=0),), app=False)
    assert next_look(course, BOOK, at(300)) is None


def test_every_check_that_reads_the_clock_says_when() -> None:
    """A check added later that reads `timeline.now` without saying when would leave eyes unwatched."""
    reads = {name for name, check in CHECKS.items() if check.wakes is not never}
    assert reads == {"posture-missed", "no-posture-entry", "missed-visit", "silence", "diary-call", "removal-overdue"}
