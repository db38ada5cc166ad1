"""What the clinic changed, as the phone works it out between two packs of one eye."""

import copy
from typing import Any

import pytest

from tests.phone.conftest import Run

BETWEEN = """import { changesBetween, joined } from "./patient/changes-view.js";

const [first, second, third] = given;
answer = third ? joined(changesBetween(first, second), changesBetween(second, third)) : changesBetween(first, second);
"""


def pack(**changes: Any) -> dict[str, Any]:
    made: dict[str, Any] = {
        "eye": "right",
        "operated_on": "2027-03-02",
        "gas": {"agent": "c2f6", "fades": True, "caution": True},
        "posture": None,
        "visits": [],
        "drops": [{"name": "antibiotic", "times_a_day": 4, "until": "2027-03-10"}],
    }
    return {**copy.deepcopy(made), **changes}


def drops(*found: tuple[str, int, str]) -> list[dict[str, Any]]:
    return [{"name": name, "times_a_day": times, "until": until} for name, times, until in found]


def planned(day: str, starts: str | None) -> dict[str, Any]:
    return {"name": "week 1", "words": "week 1", "target": day, "starts": starts, "latest": "2027-03-14", "seen": False}


OFF = {"agent": "c2f6", "fades": True, "caution": False}
OIL = {"agent": "silicone-oil", "fades": False, "caution": False}


@pytest.mark.parametrize(
    ("after", "told"),
    [
        (pack(), []),
        (
            pack(drops=drops(("antibiotic", 2, "2027-03-10"))),
            [{"key": "drop-moved", "name": "antibiotic", "before": "4 2027-03-10", "now": "2 2027-03-10"}],
        ),
        (
            pack(drops=drops(("steroid", 3, "2027-03-20"))),
            [
                {"key": "drop-new", "name": "steroid", "now": "3 2027-03-20"},
                {"key": "drop-gone", "name": "antibiotic"},
            ],
        ),
        (
            pack(drops=drops(("antibiotic", 4, "2027-03-10"), ("antibiotic", 2, "2027-03-20"))),
            [{"key": "drop-moved", "name": "antibiotic", "before": "4 2027-03-10", "now": "4 2027-03-10, 2 2027-03-20"}],
        ),
        (pack(gas=OFF), [{"key": "caution", "before": True, "now": False}]),
        (pack(gas=OIL), [{"key": "agent", "before": "c2f6", "now": "silicone-oil"}]),
        (
            pack(visits=[planned("2027-03-10", "09:40")]),
            [{"key": "visit-new", "name": "week 1", "place": "week 1", "now": "2027-03-10 09:40"}],
        ),
        (pack(operated_on="2027-03-01"), [{"key": "operated", "before": "2027-03-02", "now": "2027-03-01"}]),
    ],
)
def test_what_a_patient_must_know_is_told(run: Run, after: dict[str, Any], told: list[dict[str, Any]]) -> None:
    assert run(BETWEEN, [pack(), after]) == told


def test_the_caution_that_comes_back_is_told_and_one_that_came_back_before_it_was_seen_is_no_change(run: Run) -> None:
    assert run(BETWEEN, [pack(gas=OFF), pack()]) == [{"key": "caution", "before": False, "now": True}]
    assert run(BETWEEN, [pack(), pack(gas=OFF), pack()]) == []


def test_a_drop_changed_twice_is_told_from_what_was_seen_to_what_stands(run: Run) -> None:
    twice = [pack(), pack(drops=drops(("antibiotic", 2, "2027-03-10"))), pack(drops=drops(("antibiotic", 1, "2027-03-10")))]
    (told,) = run(BETWEEN, twice)
    assert (told["before"], told["now"]) == ("4 2027-03-10", "1 2027-03-10")
    assert run(BETWEEN, [*twice[:2], pack()]) == []


def test_an_eye_that_was_not_there_before_is_told(run: Run) -> None:
    assert run(BETWEEN, [None, pack(eye="left")]) == [{"key": "eye", "now": "left"}]


@pytest.mark.parametrize(
    ("before", "now"), [(None, "09:40"), ("09:40", None), ("09:40", "10:10")]
)  # the clinic begins or ends to keep times, or moves one
def test_another_time_on_the_same_day_is_told(run: Run, before: str | None, now: str | None) -> None:
    packs = [pack(visits=[planned("2027-03-10", starts)]) for starts in (before, now)]
    said = [f"2027-03-10 {starts}" if starts else "2027-03-10" for starts in (before, now)]
    moved = {"key": "visit-moved", "name": "week 1", "place": "week 1", "before": said[0], "now": said[1]}
    assert run(BETWEEN, packs) == [moved]
