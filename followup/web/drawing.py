"""What the pictures are made of: panels, strips and marks over one axis of days, drawn by a template.

Coordinates are in the units of an SVG view box 420 wide, so that text stays readable on a phone.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from math import ceil, floor

from followup.care.reading.eye import Eye

WIDTH, LEFT, RIGHT, TOP, GAP, PANEL, STRIP = 420, 40, 10, 22, 32, 74, 14
EARLY_DAYS = 42  # six weeks
Scale = Callable[[float], float]
Point = tuple[float, float]


@dataclass
class Mark:
    """A value drawn as a point, with the words a reader hears."""

    x: float
    y: float
    words: str
    kind: str = "clinic"
    label: str = ""


@dataclass
class Panel:
    """One strip of the picture; `bands` are (y, height, kind), `ticks` (y, words), `lines` and `areas` one for each stage.

    `before` is what was measured before surgery, `fellow` the other eye.
    """

    title: str
    top: float
    bands: list[tuple[float, float, str]] = field(default_factory=list)
    ticks: list[tuple[float, str]] = field(default_factory=list)
    lines: list[list[Point]] = field(default_factory=list)
    areas: list[list[Point]] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    bars: list[tuple[float, float, float, float, str]] = field(default_factory=list)
    path: list[Point] = field(default_factory=list)
    before: list[Mark] = field(default_factory=list)
    fellow: list[Mark] = field(default_factory=list)

    @property
    def bottom(self) -> float:
        return self.top + PANEL


@dataclass
class Strip:
    """A line under the panels: `marks` at moments, `spans` (x, width, kind, words) over time."""

    title: str
    y: float
    marks: list[Mark] = field(default_factory=list)
    spans: list[tuple[float, float, str, str]] = field(default_factory=list)


@dataclass
class Chart:
    width: int
    height: float
    left: float
    right: float
    day_ticks: list[tuple[float, str]]
    now_x: float
    panels: list[Panel]
    strips: list[Strip]
    operations: list[tuple[float, str]]
    may_be_early: bool = False


@dataclass(frozen=True)
class Axis:
    """Days of one eye since the instant `zero` (its first operation, or the fellow's), drawn from the day `first` to `last`."""

    eye: Eye
    zero: datetime
    last: float
    first: float = 0.0

    @property
    def x(self) -> Scale:
        return scale(self.first, self.last, LEFT, WIDTH - RIGHT)

    def holds(self, at: datetime) -> bool:
        """Whether an instant is drawn; what was before the very beginning stands at it."""
        return (self.first == 0 or self.day(at) >= self.first) and self.day(at) <= self.last

    def span(self, start: float, end: float) -> tuple[float, float] | None:
        """Where a time between two days is drawn, as (x, width); None where nothing of it is."""
        start, end = max(start, self.first), min(end, self.last)
        return None if end < start else (self.x(start), round(self.x(end) - self.x(start), 1))

    def day(self, at: datetime) -> float:
        return (at - self.zero) / timedelta(days=1)

    def at(self, at: datetime) -> float:
        """Where an instant stands; what was before the beginning stands at it."""
        return self.x(max(self.first, self.day(at)))

    def day_of(self, day: date) -> float:
        """Where on the axis a local date begins, in days."""
        midnight = self.zero.astimezone(self.eye.zone).replace(hour=0, minute=0, second=0, microsecond=0)
        return (datetime.combine(day, datetime.min.time(), self.eye.zone) - midnight) / timedelta(days=1)


def axis(eye: Eye, fellow: Eye | None, now: datetime, early: bool = False) -> Axis:
    """Days since the eye's first operation; of an eye that was never operated since its fellow's, else since it was seen.

    `early` are the first weeks after the latest operation.
    """
    operations = eye.operations or (fellow.operations if fellow else ())
    began = min((op.at for op in operations), default=min((e.at for e in eye.events), default=now))
    last = float(max(14, ceil((now - began) / timedelta(days=1)) + 7))
    if not early:
        return Axis(eye, began, last)
    first = float(floor((max((op.at for op in operations), default=began) - began) / timedelta(days=1)))
    return Axis(eye, began, min(last, first + EARLY_DAYS), first)


def day_ticks(last_day: float, first_day: float = 0) -> list[int]:
    step = next(s for s in (1, 2, 7, 14, 28, 56, 112, 365, 730, 1825, 3650) if (last_day - first_day) / s <= 8)
    return list(range(ceil(first_day / step) * step, floor(last_day) + 1, step))


def scale(low: float, high: float, start: float, end: float) -> Scale:
    return lambda value: round(start + (value - low) / (high - low) * (end - start), 1)
