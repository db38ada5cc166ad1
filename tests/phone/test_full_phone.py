"""What a phone that is full goes on saying of a danger it was told of and could not keep. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { played } from "./checked.js";

answer = await played(given);
""".strip()
CURTAIN, REDNESS, SEVERE, WELL = {"curtain": "yes"}, {"redness": "worse"}, {"pain": "8"}, {}


def said(run: Run, *acts: Any) -> list[dict[str, Any]]:
    return list(run(SCRIPT, acts))


FULL = pytest.mark.parametrize("full", ["all", "entries"])  # nothing more goes in, or a verdict still does


@FULL
def test_a_danger_that_could_not_be_kept_stands_after_a_good_check_and_goes_to_the_clinic_with_it(
    run: Run, full: str
) -> None:
    first = [[0, "full", full], [0, "check", [CURTAIN]], [5, "full", False], [6, "check", [WELL]]]
    told = said(run, *first, [7, "show", None], [8, "open", None], [9, "check", [WELL]])
    assert [one["says"] for one in told] == [None, *["now"] * 6]
    assert [one["well"] for one in told] == [False] * 7
    assert told[1]["trouble"] == "full"
    assert told[3]["entries"] == [["symptoms", 0], ["symptoms", 6]]  # each at its own time
    assert told[-1]["entries"] == [["symptoms", 0], ["symptoms", 6], ["symptoms", 9]]


@FULL
def test_it_ends_as_any_other_once_the_clinic_has_settled_it(run: Run, full: str) -> None:
    acts = [[0, "full", full], [0, "check", [CURTAIN]], [5, "full", False], [6, "check", [WELL]], [7, "send", None]]
    told = said(
        run, *acts, [8, "pack", {"a": {"calling": True}}], [9, "pack", {"a": {"settled": True}}], [20, "check", [WELL]]
    )
    assert [one["says"] for one in told[-3:]] == ["now", None, None]
    assert told[-1]["well"]


@FULL
def test_while_it_is_full_no_lesser_answer_takes_the_danger_away(run: Run, full: str) -> None:
    acts = [[0, "full", full], [0, "check", [CURTAIN]], [3, "check", [REDNESS]], [4, "check", [WELL]], [5, "full", False]]
    told = said(run, *acts, [6, "check", [WELL]], [7, "check", [WELL]])
    assert [one["says"] for one in told[1:]] == ["now"] * 6
    assert [at for _, at in told[-1]["entries"]] == [0, 3, 6, 7]  # what was told under it goes to the clinic too


@FULL
def test_the_same_answers_saved_at_last_are_one_check(run: Run, full: str) -> None:
    told = said(run, [0, "full", full], [0, "check", [CURTAIN]], [5, "full", False], [6, "check", [CURTAIN]])
    assert (told[-1]["says"], told[-1]["entries"]) == ("now", [["symptoms", 6]])


def test_a_verdict_kept_without_its_check_stands_in_the_next_session_too(run: Run) -> None:
    acts = [[0, "full", "entries"], [0, "check", [REDNESS]], [5, "open", None], [6, "full", False], [7, "check", [WELL]]]
    told = said(run, *acts)
    assert [one["says"] for one in told[1:]] == ["today"] * 4
    assert told[-1]["entries"] == [["symptoms", 0], ["symptoms", 7]]
