"""What sequences of faults are held against notices what it is there for."""

from datetime import timedelta

import pytest

from tests.conftest import NOW
from tests.faults.sequence import Stored, Tap, judged

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
