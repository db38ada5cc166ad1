"""Eye drops as prescribed: which on which day, and the times of day they are spread to. No dose is computed here.

How often and until when is what the clinic entered; the times only spread that over the waking day. Common practice, no
source.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from itertools import pairwise

WAKING_FROM_HOUR, WAKING_TO_HOUR = 8, 20
LATEST_HOUR = 23
ROUNDED_TO_MINUTES = 30
DAY_MINUTES = 24 * 60


@dataclass(frozen=True, slots=True)
class Stretch:
    """A drop, so many times a day, from the day `first` to the day `last`."""

    name: str
    times_a_day: int
    first: date
    last: date

    def holds(self, day: date) -> bool:
        return self.first <= day <= self.last


@dataclass(frozen=True, slots=True)
class Slot:
    """One time of a day's drops: a drop taken from `opens` (halfway from the time before) until the next one opens is it."""

    at: time
    opens: time


def stretches(prescribed: Iterable[tuple[str, int, date]], first: date) -> list[Stretch]:
    """What was prescribed as (name, times a day, last day), from `first` on.

    The same drop again is the next step of a taper: it goes on from the day after the one that ends before it.
    """
    lines = list(prescribed)
    found = []
    for name, times_a_day, last in lines:
        ends = [end for other, _, end in lines if _same(other, name) and end < last]
        found.append(Stretch(name, times_a_day, max(ends) + timedelta(days=1) if ends else first, last))
    return found


def slots(times_a_day: int) -> tuple[Slot, ...]:
    """The times of one day, the first to the last of the waking day at even distances, to the half hour.

    With more than fit at an hour's distance the day grows longer, up to midnight and then from it.
    """
    length = max(WAKING_TO_HOUR - WAKING_FROM_HOUR, times_a_day - 1)
    start = min(WAKING_FROM_HOUR, LATEST_HOUR - length)
    apart = length * 60 / max(1, times_a_day - 1)
    at = [start * 60 + ROUNDED_TO_MINUTES * round(n * apart / ROUNDED_TO_MINUTES) for n in range(times_a_day)]
    opens = [0, *((before + after) // 2 for before, after in pairwise(at))]
    return tuple(Slot(_clock(a), _clock(o)) for a, o in zip(at, opens, strict=True))


def open_slot(of_day: Sequence[Slot], clock: time) -> int:
    """The number of the slot that is open at a time of day, from 0."""
    return sum(slot.opens <= clock for slot in of_day) - 1


def is_taken(of_day: Sequence[Slot], number: int, taken_at: Iterable[time]) -> bool:
    """Whether a slot of a day was taken, by the times at which that drop was on that day."""
    return any(open_slot(of_day, clock) == number for clock in taken_at)


def said_taken(plan: Sequence[Stretch], taken: Iterable[tuple[str, datetime]], today: date) -> list[tuple[str, int, int]]:
    """By drop: its name, how many were said to be taken on whole days before today, and how many the plan had on those.

    `taken` are names with their local times. The first day of the plan is left out: nobody is at home for all of it.
    """
    names = list(dict.fromkeys(step.name.casefold() for step in plan))
    told = [(name.casefold(), at.date()) for name, at in taken]
    begun = min((step.first for step in plan), default=today)
    found = []
    for known in names:
        of_drop = [step for step in plan if _same(step.name, known)]
        planned = said = 0
        for n in range(1, (today - begun).days):
            day = begun + timedelta(days=n)
            due = sum(step.times_a_day for step in of_drop if step.holds(day))
            planned += due
            said += min(due, told.count((known, day)))
        found.append((of_drop[0].name, said, planned))
    return found


def _same(name: str, other: str) -> bool:
    return name.casefold() == other.casefold()


def _clock(minutes: int) -> time:
    return time(minutes // 60, minutes % 60)
