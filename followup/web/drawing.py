"""What the pictures are made of: panels, strips and marks over one axis of days, drawn by a template.

Coordinates are in the units of an SVG view box 420 wide, so that text stays readable on a phone.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from math import ceil, floor

from followup.care.reading.eye import Eye

WIDTH, LEFT, RIGHT, TOP, GAP, PANEL, STRIP = 420, 40, 10, 22, 32, 74, 14
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
    """One strip of the picture; `bands` are (y, height, kind), `ticks` (y, words), `lines` and `areas` one for each stage."""

    title: str
    top: float
    bands: list[tuple[float, float, str]] = field(default_factory=list)
    ticks: list[tuple[float, str]] = field(default_factory=list)
    lines: list[list[Point]] = field(default_factory=list)
    areas: list[list[Point]] = field(default_factory=list)
    marks: list[Mark] = field(default_factory=list)
    bars: list[tuple[float, float, float, float, str]] = field(default_factory=list)
    path: list[Point] = field(default_factory=list)

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


@dataclass(frozen=True)
class Axis:
    """Days of one eye from the instant `zero` (its first operation, or the fellow's) to the day `last`."""

    eye: Eye
    zero: datetime
    last: float

    @property
    def x(self) -> Scale:
        return scale(0, self.last, LEFT, WIDTH - RIGHT)

    def day(self, at: datetime) -> float:
        return (at - self.zero) / timedelta(days=1)

    def at(self, at: datetime) -> float:
        """Where an instant stands; what was before the beginning stands at it."""
        return self.x(max(0.0, self.day(at)))

    def day_of(self, day: date) -> float:
        """Where on the axis a local date begins, in days."""
        midnight = self.zero.astimezone(self.eye.zone).replace(hour=0, minute=0, second=0, microsecond=0)
        return (datetime.combine(day, datetime.min.time(), self.eye.zone) - midnight) / timedelta(days=1)


def axis(eye: Eye, fellow: Eye | None, now: datetime) -> Axis:
    """Days since the eye's first operation; of an eye that was never operated since its fellow's, else since it was seen."""
    operations = eye.operations or (fellow.operations if fellow else ())
    began = min((op.at for op in operations), default=min((e.at for e in eye.events), default=now))
    return Axis(eye, began, float(max(14, ceil((now - began) / timedelta(days=1)) + 7)))


def day_ticks(last_day: float) -> list[int]:
    step = next(s for s in (1, 2, 7, 14, 28, 56, 112, 365, 3650) if last_day / s <= 8)
    return list(range(0, floor(last_day) + 1, step))


def scale(low: float, high: float, start: float, end: float) -> Scale:
    return lambda value: round(start + (value - low) / (high - low) * (end - start), 1)
