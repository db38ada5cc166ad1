"""Drops as prescribed: tapers by day, and times spread over the waking day. Common practice, no source."""

from datetime import date, datetime, time, timedelta

import pytest

from followup.clinical import drop_times as drops
from followup.clinical.drop_times import Stretch as Step

SURGERY = date(2027, 3, 2)


def day(n: int) -> date:
    return SURGERY + timedelta(days=n)


@pytest.mark.parametrize(
    ("times_a_day", "expected"),
    [
        (1, "08:00"),
        (2, "08:00 20:00"),
        (3, "08:00 14:00 20:00"),
        (4, "08:00 12:00 16:00 20:00"),
        (6, "08:00 10:30 13:00 15:00 17:30 20:00"),
        (13, " ".join(f"{hour:02}:00" for hour in range(8, 21))),
        (14, " ".join(f"{hour:02}:00" for hour in range(8, 22))),
        (18, " ".join(f"{hour:02}:00" for hour in range(6, 24))),
        (24, " ".join(f"{hour:02}:00" for hour in range(24))),
    ],
)
def test_times_are_spread_over_the_waking_day(times_a_day: int, expected: str) -> None:
    assert " ".join(f"{slot.at:%H:%M}" for slot in drops.slots(times_a_day)) == expected


@pytest.mark.parametrize("times_a_day", range(1, 25))
def test_every_minute_of_a_day_belongs_to_one_time_and_each_time_to_itself(times_a_day: int) -> None:
    slots = drops.slots(times_a_day)
    assert len(slots) == len({slot.at for slot in slots}) == times_a_day
    assert slots[0].opens == time(0)
    for n, slot in enumerate(slots):
        assert slot.opens <= slot.at
        assert drops.open_slot(slots, slot.at) == drops.open_slot(slots, slot.opens) == n
    assert drops.open_slot(slots, time(23, 59)) == times_a_day - 1


def test_a_time_opens_halfway_from_the_one_before() -> None:
    four = drops.slots(4)
    assert [slot.opens for slot in four] == [time(0), time(10), time(14), time(18)]
    assert not drops.is_taken(four, 1, [time(9, 59), time(14)])
    assert drops.is_taken(four, 1, [time(8), time(10)])


def test_the_same_drop_named_again_is_a_taper() -> None:
    written = [("Steroid", 4, day(7)), ("antibiotic", 4, day(7)), ("steroid", 2, day(21)), ("steroid", 3, day(14))]
    assert drops.stretches(written, SURGERY) == [
        Step("Steroid", 4, SURGERY, day(7)),
        Step("antibiotic", 4, SURGERY, day(7)),
        Step("steroid", 2, day(15), day(21)),
        Step("steroid", 3, day(8), day(14)),
    ]


def test_on_each_day_one_step_of_a_taper_holds() -> None:
    plan = drops.stretches([("steroid", 4, day(7)), ("steroid", 1, day(9))], SURGERY)
    held = [[step.times_a_day for step in plan if step.holds(day(n))] for n in (-1, 0, 7, 8, 9, 10)]
    assert held == [[], [4], [4], [1], [1], []]


def test_two_lines_with_one_last_day_both_stand() -> None:
    plan = drops.stretches([("steroid", 4, day(7)), ("steroid", 2, day(7))], SURGERY)
    assert [step.first for step in plan] == [SURGERY, SURGERY]


def at(n: int, hour: int = 12) -> datetime:
    return datetime.combine(day(n), time(hour))


def test_what_was_said_to_be_taken_is_counted_on_whole_days() -> None:
    plan = drops.stretches([("Steroid", 4, day(2)), ("steroid", 2, day(9)), ("antibiotic", 3, day(1))], SURGERY)
    taken = [
        *[("steroid", at(0))] * 3,  # the day of surgery
        *[("Steroid", at(1))] * 3,
        *[("steroid", at(2))] * 5,  # one tap too many
        *[("steroid", at(3))] * 1,
        *[("steroid", at(4))] * 2,  # today
        ("antibiotic", at(1)),
        ("something else", at(1)),
    ]
    assert drops.said_taken(plan, taken, day(4)) == [("Steroid", 3 + 4 + 1, 4 + 4 + 2), ("antibiotic", 1, 3)]
    assert drops.said_taken(plan, taken, day(1)) == [("Steroid", 0, 0), ("antibiotic", 0, 0)]
    assert drops.said_taken([], taken, day(4)) == []
