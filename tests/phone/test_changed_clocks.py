"""A timer that runs while somebody changes the phone's clock: nothing is lost, and nothing counts that nobody spoke for.

The phone's own modules in node, and the clinic's own way of taking what they send. The table has what the person lived through;
what the clinic has in the end is held against that. Minutes are true ones, counted from when the phone heard the clinic first.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import product
from typing import Any

import pytest

from followup.care.home import receive
from followup.config import Settings
from followup.records import Store, events
from followup.records.values import Device
from tests.conftest import NOW
from tests.phone.conftest import Run

Acts = list[list[Any]]
SCRIPT = """
import { played } from "./changed_clocks.js";

answer = [];
for (const acts of given.cases) answer.push(await played(acts, given.from));
"""
MINUTE = timedelta(minutes=1)
START, CHANGED, STOP, HEARD = 40, 60, 80, 90
LONG = STOP - START
NEAR = 2.1  # minutes: a smaller change counts as none
CHANGES = [sign * by for by in (5, 60, 5 * 60, 30 * 60, 3 * 24 * 60, 365 * 24 * 60, 3650 * 24 * 60) for sign in (1, -1)]
AWAY: dict[str, tuple[Acts, Acts]] = {
    "awake": ([], []),
    "asleep": ([], [[STOP, "sleep", STOP - CHANGED]]),
    "closed": ([[CHANGED, "close"]], [[STOP, "open"]]),
    "opened anew": ([[START + 1, "open"]], [[STOP, "open"]]),
}
NOTHING_LEFT = {"timers": 0, "entries": 0, "running": 0}


@dataclass
class Told:
    """Where a phone asked how long it was, what it leaves open, and the minutes [from, to] that stand at the clinic."""

    asked: set[str]
    left: dict[str, int]
    stands: list[list[float]]

    def wrong(self, start: float = START, end: float = STOP) -> list[list[float]] | None:
        """What stands, where it is not this one stretch alone."""
        right = [pytest.approx([start, end], abs=NEAR)]
        return None if self.stands == right and self.left == NOTHING_LEFT else self.stands


Tell = Callable[[dict[Any, Acts]], dict[Any, Told]]


@pytest.fixture
def tell(run: Run, store: Store, settings: Settings, device: Device, eye_id: str) -> Tell:
    """Plays each case on a phone of its own, and gives its entries to the clinic as they came."""

    def taken(said: dict[str, Any]) -> Told:
        ids = set()
        for sent in said["sent"]:
            batch = [{**event, "operation": eye_id} for event in sent["events"]]
            ids |= {event["id"] for event in batch}
            sent_at = datetime.fromisoformat(sent["sent_at"])
            results = receive.receive(store, NOW + sent["minute"] * MINUTE, device, batch, settings.clinic.tz, sent_at)
            assert {result.status for result in results} == {"received"}, results
        bodies = [event.body for event in events.of_eye(store, eye_id) if event.id in ids and event.kind == "posture"]
        stands = [[(time - NOW) / MINUTE for time in (body.start, body.end)] for body in bodies]
        return Told({what for _, what in said["asked"]}, said["left"], stands)

    def tell_(cases: dict[Any, Acts]) -> dict[Any, Told]:
        played = run(SCRIPT, {"cases": list(cases.values()), "from": NOW.isoformat()})
        return {case: taken(said) for case, said in zip(cases, played, strict=True)}

    return tell_


def lived(*acts: list[Any], line: bool = False) -> Acts:
    """A phone that heard the clinic, these acts, and then the clinic again; whatever is asked gets the true answer."""
    heard = [[HEARD, "line", True], [HEARD, "hear"], [HEARD, "answer", LONG], [HEARD + 1, "hear"]]
    return [[0, "open"], [0, "hear"], [1, "line", line], *acts, *heard]


STOPPED: Acts = [[STOP, "stop"], [STOP, "answer", LONG]]
HEARD_MEANWHILE: Acts = [[STOP - 1, "line", True], [STOP - 1, "open"], [STOP - 1, "hear"]]


def test_a_clock_changed_while_the_timer_runs(tell: Tell) -> None:
    lines = {"no line": (False, []), "a line all the time": (True, []), "heard while it ran": (False, HEARD_MEANWHILE)}
    told = tell(
        {
            (by, away, how): lived(
                [START, "start"], *before, [CHANGED, "clock", by], *meanwhile, *after, *STOPPED, line=line
            )
            for by, (away, (before, after)), (how, (line, meanwhile)) in product(CHANGES, AWAY.items(), lines.items())
        }
    )
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong())} == {}
    assert [case for case, one in told.items() if not one.asked] == []


def test_a_clock_changed_once_more_before_the_question_was_answered(tell: Tell) -> None:
    heard: Acts = [[STOP + 2, "line", True], [STOP + 2, "hear"]]
    told = tell(
        {
            (by, then): lived([START, "start"], [CHANGED, "clock", by], *STOPPED, *heard, [STOP + 4, "clock", then])
            for by, then in product(CHANGES, CHANGES)
        }
    )
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong())} == {}


def test_a_clock_that_nobody_changes_asks_nothing(tell: Tell) -> None:
    told = tell(
        {
            (by, away): lived([START, "start"], *before, [CHANGED, "clock", by], *after, *STOPPED)
            for by, (away, (before, after)) in product((0, 1, -1, 1.9, -1.9), AWAY.items())
        }
    )
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong()) or one.asked} == {}


def test_a_clock_that_was_wrong_before_the_start(tell: Tell) -> None:
    hears: Acts = [[20, "line", True], [20, "hear"], [21, "line", False]]
    told = tell(
        {
            (by, known): lived([10, "clock", by], *(hears if known else []), [START, "start"], *STOPPED)
            for by, known in product(CHANGES, (True, False))
        }
    )
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong())} == {}
    assert [case for case, one in told.items() if case[1] and one.asked] == []  # both ends are by one clock


def test_a_clock_that_was_wrong_at_the_start_and_is_put_right(tell: Tell) -> None:
    told = tell({by: lived([10, "clock", by], [START, "start"], [CHANGED, "clock", 0], *STOPPED) for by in CHANGES})
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong())} == {}


def test_a_clock_changed_and_changed_back_while_the_timer_runs(tell: Tell) -> None:
    told = tell(
        {
            (by, away): lived([START, "start"], *before, [CHANGED, "clock", by], [70, "clock", 0], *after, *STOPPED)
            for by, (away, (before, after)) in product(CHANGES, AWAY.items())
        }
    )
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong())} == {}


def test_a_clock_changed_and_changed_back_after_the_stop(tell: Tell) -> None:
    """When it was is then unknown to the clinic too: it counts as of when it came, or as of what the clock showed (`clocks`)."""
    told = tell(
        {
            (by, away): lived(
                [START, "start"], *before, [CHANGED, "clock", by], *after, *STOPPED, [85, "clock", 0], [85, "look"]
            )
            for by, (away, (before, after)) in product(CHANGES, AWAY.items())
        }
    )
    ends = {case: STOP + case[0] if 0 <= STOP + case[0] <= HEARD else HEARD for case in told}
    # Put back by less than the timer ran, and forward again before the clinic was heard, while no page was awake long enough to
    # tell: then nothing that the phone or the clinic has says so.
    unseen = {(by, away) for by, away in told if START - STOP < by < 0 and away != "awake"}
    starts = {case: START if case in unseen else ends[case] - LONG for case in told}
    assert {case: wrong for case, one in told.items() if (wrong := one.wrong(starts[case], ends[case]))} == {}


# What follows is done at minute 80 of a timer whose clock was put back five hours, and forward to a time that nobody spoke for.
@pytest.mark.parametrize("by", [-300, 13 * 60])
@pytest.mark.parametrize("act", ["stop", "pause", "still", "another"])
def test_what_nobody_can_tell_stays_until_it_is_said(tell: Tell, by: int, act: str) -> None:
    begun = [[0, "open"], [0, "hear"], [START, "start"], [CHANGED, "clock", by], [STOP, act]]
    told = tell({"unsaid": begun, "said": [*begun, [STOP, "answer", LONG]], "none": [*begun, [STOP, "answer", 0]]})
    assert (told["unsaid"].stands, told["unsaid"].left["timers"]) == ([], 1)
    assert (told["said"].stands, told["said"].left["timers"]) == ([pytest.approx([START, STOP], abs=NEAR)], 0)
    assert (told["none"].stands, told["none"].left["timers"]) == ([], 0)


def test_hours_in_doubt_that_were_right_are_not_asked_about_again(tell: Tell) -> None:
    acts = lived([10, "clock", 60], [START, "start"], [STOP, "stop"])
    told = tell({"right": [*acts, [HEARD + 2, "open"], [HEARD + 2, "hear"]]})["right"]
    assert (told.asked, told.wrong()) == ({"entry"}, None)


def test_somebody_who_says_that_they_still_lie_so_is_believed_past_what_one_stretch_can_be(tell: Tell) -> None:
    hour = 60
    yes = [[start, "still"] for start in (2 * hour, 11 * hour, 13 * hour)]
    told = tell({"yes": [[0, "open"], [0, "hear"], [0, "start"], *yes, [14 * hour, "stop"]]})["yes"]
    assert (told.asked, told.stands) == (set(), [[0, 13 * hour], [13 * hour, 14 * hour]])
