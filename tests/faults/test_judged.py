"""What sequences of faults are held against notices what it is there for."""

from datetime import timedelta

import pytest

from tests.conftest import NOW
from tests.faults.sequence import Lived, Stored, Stretch, Tap, judged, judged_stretches

LATER = NOW + timedelta(hours=1)
TAP = Tap("a", NOW, NOW + timedelta(seconds=3))
POISON = Tap("p", NOW, NOW, poison=True)


@pytest.mark.parametrize(
    ("taps", "stored", "refused", "faults"),
    [
        ([TAP], [Stored("a", NOW, LATER)], set(), []),
        ([TAP], [], set(), ["lost: a"]),
        ([TAP], [], {"a"}, ["refused: a"]),
        ([POISON], [], {"p"}, []),
        ([POISON], [], set(), ["lost: p"]),
        ([TAP], [Stored("a", NOW, LATER), Stored("a", NOW, LATER)], set(), ["doubled: a, 2 times"]),
        ([TAP], [Stored("a", NOW, LATER)], {"a"}, ["taken, and said not to be: a"]),
        ([], [Stored("a", NOW, LATER)], set(), ["never tapped: a"]),
    ],
)
def test_each_tap_is_stored_once_and_nothing_else_is(
    taps: list[Tap], stored: list[Stored], refused: set[str], faults: list[str]
) -> None:
    assert judged(taps, stored, refused).faults == faults


@pytest.mark.parametrize(
    ("off", "wrong"), [(0, False), (2, False), (-2, False), (60, False), (30, True), (-60, True), (-365 * 24 * 60, True)]
)
def test_a_time_that_another_clock_gave_is_a_fault(off: int, wrong: bool) -> None:
    found = judged([TAP], [Stored("a", NOW + timedelta(minutes=off), LATER)], set()).faults
    assert [fault.split(":")[0] for fault in found] == ["at a wrong time"] * wrong


MINUTE = timedelta(minutes=1)
LIVED = Lived(NOW, NOW + 20 * MINUTE)
NEXT = Lived(NOW + 21 * MINUTE, NOW + 22 * MINUTE)
SOON = Lived(NOW + 20.5 * MINUTE, NOW + 21 * MINUTE)
UNASKED = Lived(NOW, NOW + 20 * MINUTE, asked=False)
SEALED = Lived(NOW, NOW + 50 * MINUTE, asked=False, ended_from=NOW + 20 * MINUTE)


def stretch(start: float, end: float, came: float = 60) -> Stretch:
    return Stretch(*(NOW + minutes * MINUTE for minutes in (start, end, came)))


RIGHT, AFTER = stretch(0, 20), stretch(21, 22)


@pytest.mark.parametrize(
    ("lived", "stored", "faults"),
    [
        ([LIVED], [RIGHT], []),
        ([LIVED], [stretch(2, 18)], []),
        ([LIVED, NEXT], [AFTER, RIGHT], []),
        ([LIVED], [], ["no such stretch"]),
        ([LIVED, NEXT], [RIGHT], ["no such stretch"]),
        ([], [RIGHT], ["never lived, or twice"]),
        ([LIVED], [RIGHT, RIGHT], ["never lived, or twice"]),
        ([LIVED, LIVED], [RIGHT, RIGHT], []),
        *(([LIVED], [wrong], ["no such stretch", "never lived, or twice"]) for wrong in (stretch(-60, 20), stretch(17, 20))),
        *(([LIVED], [wrong], ["no such stretch", "never lived, or twice"]) for wrong in (stretch(20, 0), stretch(5, 25))),
        ([LIVED], [stretch(40, 60)], []),  # as of when it came
        *(([LIVED], [wrong], ["no such stretch", "never lived, or twice"]) for wrong in (stretch(20, 60), stretch(30, 50))),
        ([UNASKED], [stretch(-60, 20)], []),
        ([UNASKED, SOON], [stretch(-60, 18.5), stretch(20.5, 21)], []),
        ([UNASKED, SOON], [stretch(-60, 18.5), stretch(0, 21)], ["no such stretch", "never lived, or twice"]),
        ([UNASKED], [stretch(-60, 40)], ["no such stretch", "never lived, or twice"]),
        *(([SEALED], [stretch(end, end)], []) for end in (20, 35, 50)),
        ([SEALED], [stretch(0, 15)], ["no such stretch", "never lived, or twice"]),
    ],
)
def test_each_stretch_stands_once_and_as_it_was_lived(lived: list[Lived], stored: list[Stretch], faults: list[str]) -> None:
    assert [fault.split(":")[0] for fault in judged_stretches(lived, stored).faults] == faults
