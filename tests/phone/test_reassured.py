"""For how long *nothing here needs a call* stays on the screen: no longer than it is true. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { played } from "./checked.js";

answer = await played(given.acts, given.names);
""".strip()
CURTAIN, FLOATERS, VISION, WELL = {"curtain": "yes"}, {"floaters": "worse"}, {"vision": "worse"}, {}
NO_RULE, BLACK = {"discharge": "yes"}, {"words": "all black"}


def shown(run: Run, *acts: Any, names: tuple[str, ...] = ("a",)) -> list[bool]:
    told = run(SCRIPT, {"acts": [[0, "show", None], *acts], "names": names})
    return [one["well"] for one in told][1:]


def other(
    minute: int, bad: dict[str, str], *, calling: bool = False, looked: bool = False, eye: str = "a"
) -> dict[str, Any]:
    check = {"id": "carer's", "minute": minute, "bad": bad, "calling": calling, "looked": looked}
    return {eye: {"calling": calling, "others": [check]}}


@pytest.mark.parametrize(
    ("told", "stays"),
    [
        ({}, True),
        (other(12, CURTAIN, calling=True), False),
        (other(12, CURTAIN), False),  # the clinic's answer to it is not in a pack of that minute yet
        (other(5, CURTAIN, calling=True), False),  # it was on the way when this check was done
        (other(5, CURTAIN), True),  # settled before
        (other(12, FLOATERS), False),  # to be looked at again
        (other(5, FLOATERS), True),  # looked at again by this check
        (other(12, VISION, calling=True), False),
        (other(12, WELL), True),
        (other(12, CURTAIN, eye="b"), False),
        (other(5, CURTAIN, calling=True, eye="b"), False),
        (other(5, CURTAIN, eye="b"), True),
        (other(5, VISION, calling=True), False),  # it can wait for days, and is not answered before it is settled
        (other(5, VISION, calling=True, eye="b"), False),
        (other(5, VISION, eye="b"), True),
        (other(5, BLACK, calling=True), False),
        (other(5, BLACK, calling=True, eye="b"), False),
        (other(5, BLACK), True),
        (other(5, NO_RULE), False),  # no rule calls for it: a person has to look
        (other(5, NO_RULE, eye="b"), False),
        (other(5, NO_RULE, looked=True, eye="b"), True),
    ],
)
def test_what_another_phone_told_takes_it_away_at_once(run: Run, told: dict[str, Any], stays: bool) -> None:
    acts = [[10, "check", [WELL, "a"]], [11, "send", None], [13, "pack", told], [14, "pack", {}]]
    *_, before, after, later = shown(run, *acts, names=("a", "b"))
    assert (before, after, later) == (True, stays, stays)  # and it does not come back when that is settled


def test_it_goes_with_its_check_and_after_an_hour(run: Run) -> None:
    assert shown(run, [10, "check", [WELL]], [69, "show", None], [71, "show", None]) == [True, True, False]
    assert shown(run, [10, "check", [WELL]], [11, "takeBack", None]) == [True, False]
