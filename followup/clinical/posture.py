"""Posturing: the plan, the logged blocks turned into hours a day, and the gaps.

Times are aware datetimes; days are calendar days of a zone, so a night with a clock change has its
23 or 25 hours. Overlapping blocks count once.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from functools import lru_cache

from followup.clinical.coverage import POSTURES
from followup.clinical.errors import OutOfRange, one_of, within
from followup.clinical.evidence import Figure, Model

LONGEST_OPEN_HOURS = Figure("a timer left running counts for at most", 12, "hours", "CP", "common practice")
GAP_FROM_HOURS = Figure("a gap is named from", 2, "hours", "CP", "common practice")
CYCLE_MINUTES = Figure("posturing between breaks", 50, "minutes", "CP", "common practice", "leaflets say 25 to 50")
BREAK_MINUTES = Figure("break after each spell", 10, "minutes", "CP", "common practice")
TRIAL_HOURS = Figure("hours a day in a trial of face-down posturing", 8, "hours", "PIMS", note="for 5 days")
WAKING = (time(8), time(22))
"""Gaps are named between these local times; asleep, nobody logs."""

Span = tuple[datetime, datetime]


@dataclass(frozen=True, slots=True)
class Plan:
    """Head position, hours a day and number of days, counted from the day of surgery (day 0)."""

    position: str
    hours_a_day: float
    days: int

    def __post_init__(self) -> None:
        one_of("posture", self.position, POSTURES)
        within("hours a day of", self.hours_a_day, 0, 24)
        within("a number of days of", self.days, 0, 60)


@dataclass(frozen=True, slots=True)
class Block:
    """One logged stretch in a position; `end` is None while the timer runs."""

    position: str
    start: datetime
    end: datetime | None

    def __post_init__(self) -> None:
        one_of("posture", self.position, POSTURES)
        if self.end is not None and self.end < self.start:
            raise OutOfRange("the end of the posturing lies before its start")
        if self.end is not None and self.end - self.start > timedelta(hours=24):
            raise OutOfRange("a single stretch of posturing cannot be longer than 24 hours")


@dataclass(frozen=True, slots=True)
class Gap:
    """Waking time of at least two hours without the planned position."""

    start: datetime
    end: datetime

    @property
    def hours(self) -> float:
        return (self.end - self.start) / timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class DayAdherence:
    """Hours in the planned position on one local day against the target."""

    day: date
    hours: float
    target_hours: float
    still_running: bool = False

    @property
    def share(self) -> float:
        """Hours over target, capped at 1; 1 when nothing was asked."""
        return 1.0 if self.target_hours == 0 else min(1.0, self.hours / self.target_hours)


def merged(blocks: Iterable[Block], now: datetime, position: str | None = None) -> list[Span]:
    """The blocks (of one position, or of any) as disjoint UTC spans up to `now`, in order.

    A block still open runs to `now`, at most 12 hours.
    """
    spans = sorted(
        (b.start.astimezone(UTC), min(now, _end(b, now)).astimezone(UTC))
        for b in blocks
        if position in (None, b.position) and b.start < now
    )
    disjoint: list[Span] = []
    for start, end in spans:
        if disjoint and start <= disjoint[-1][1]:
            disjoint[-1] = (disjoint[-1][0], max(disjoint[-1][1], end))
        else:
            disjoint.append((start, end))
    return disjoint


def hours_by_day(blocks: Iterable[Block], zone: tzinfo, now: datetime, position: str | None = None) -> dict[date, float]:
    """Hours logged on each local day that has any; midnight and clock changes of the zone are respected."""
    return _hours_of(merged(blocks, now, position), zone)


def _hours_of(spans: Iterable[Span], zone: tzinfo) -> dict[date, float]:
    hours: dict[date, float] = {}
    for start, end in spans:
        while start < end:
            day = start.astimezone(zone).date()
            until = min(end, _midnight_after(day, zone))
            hours[day] = hours.get(day, 0.0) + (until - start) / timedelta(hours=1)
            start = until
    return hours


def plan_days(plan: Plan, operated_at: datetime, zone: tzinfo) -> list[date]:
    """The local days of the plan, the day of surgery first."""
    first = operated_at.astimezone(zone).date()
    return [first + timedelta(days=n) for n in range(plan.days)]


def adherence(plan: Plan, blocks: Sequence[Block], operated_at: datetime, zone: tzinfo, now: datetime) -> list[DayAdherence]:
    """Each plan day that has begun, with hours in the planned position and target.

    The day of surgery has no target: nobody knows when the patient came home.
    """
    spans = merged(blocks, now, plan.position)
    hours = _hours_of(spans, zone)
    running = any(b.end is None for b in blocks)
    today = now.astimezone(zone).date()
    first = operated_at.astimezone(zone).date()
    return [
        DayAdherence(day, hours.get(day, 0.0), 0.0 if day == first else plan.hours_a_day, running and day == today)
        for day in plan_days(plan, operated_at, zone)
        if day <= today
    ]


def gaps(position: str, blocks: Iterable[Block], day: date, zone: tzinfo, now: datetime) -> list[Gap]:
    """Waking stretches of a local day, up to `now`, of at least two hours without the planned position."""
    opening, closing = (datetime.combine(day, t, zone).astimezone(UTC) for t in WAKING)
    closing = min(closing, now.astimezone(UTC))
    shortest = timedelta(hours=GAP_FROM_HOURS.value)
    found = []
    free_from = opening
    for start, end in [*merged(blocks, now, position), (closing, closing)]:
        if min(start, closing) - free_from >= shortest:
            found.append(Gap(free_from, min(start, closing)))
        free_from = max(free_from, end)
    return found


def behind(plan: Plan, blocks: Iterable[Block], zone: tzinfo, now: datetime) -> bool:
    """Whether today's hours in the planned position fall short of the share of the waking day that has passed.

    For a friendly reminder only; the warning rules judge whole days. Common practice, no source.
    """
    local = now.astimezone(zone)
    opening, closing = (datetime.combine(local.date(), t, zone) for t in WAKING)
    passed = min(1.0, max(0.0, (now - opening) / (closing - opening)))
    return hours_by_day(blocks, zone, now, plan.position).get(local.date(), 0.0) < plan.hours_a_day * passed


def _end(block: Block, now: datetime) -> datetime:
    return block.end or min(now, block.start + timedelta(hours=LONGEST_OPEN_HOURS.value))


@lru_cache(maxsize=4096)
def _midnight_after(day: date, zone: tzinfo) -> datetime:
    return datetime.combine(day + timedelta(days=1), time(), zone).astimezone(UTC)


MODEL = Model(
    "Posturing",
    (
        "Blocks that overlap count once. Days are calendar days of the clinic’s zone, 23 or 25 hours long when the clocks change.",
        "A timer left running counts for at most twelve hours, and says that it is still running.",
        "The day of surgery has no target. A gap is at least two waking hours without the planned position.",
    ),
    ("Whether strict face-down posturing helps depends on the disease and is disputed; the surgeon sets the plan.",),
    (LONGEST_OPEN_HOURS, GAP_FROM_HOURS, CYCLE_MINUTES, BREAK_MINUTES, TRIAL_HOURS),
)
