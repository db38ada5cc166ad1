"""Which retina the bubble touches: breaks by clock hour and reach, head positions, cover and its loss.

Head frame: x to the patient's right, y to the top of the head, z forwards along the gaze. Clock
hours are as the examiner sees them, so 9 lies to the patient's right in either eye; nasal and
temporal are what swaps (`clock_hour`).

>>> best_postures([Break(9, "equator")], fill_percent=60, moves="floats")[0].name
'left-cheek'
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from followup.clinical.bubble import arc_degrees, fill_for_arc
from followup.clinical.errors import Unknown, one_of, within
from followup.clinical.evidence import Figure, Model

Vector = tuple[float, float, float]
Eye = Literal["right", "left"]
Moves = Literal["floats", "sinks"]

EYES: tuple[Eye, ...] = ("right", "left")

REACHES: dict[str, Figure] = {
    "macula": Figure("macula, from the posterior pole", 0, "°", "DEF"),
    "arcade": Figure("vascular arcade, from the posterior pole", 30, "°", "CP", "memory", "about 6 mm on a 12 mm globe"),
    "equator": Figure("equator, from the posterior pole", 90, "°", "DEF"),
    "periphery": Figure("periphery, from the posterior pole", 105, "°", "CP", "memory", "half way from equator to ora"),
}

# Which way is up, for a head in that position.
POSTURES: dict[str, Vector] = {
    "upright": (0.0, 1.0, 0.0),
    "left-cheek": (1.0, 0.0, 0.0),
    "right-cheek": (-1.0, 0.0, 0.0),
    "face-down": (0.0, 0.0, -1.0),
    "face-up": (0.0, 0.0, 1.0),
}
# Gas on the lens and in the angle (face up), heavy liquid on the lens (face down): never advised.
NOT_ADVISED: dict[Moves, tuple[str, ...]] = {"floats": ("face-up",), "sinks": ("face-down",)}


@dataclass(frozen=True, slots=True)
class Break:
    """A retinal break: clock hour 1 to 12 (halves allowed) as the examiner sees it, and how far out it reaches."""

    clock: float
    reach: str

    def __post_init__(self) -> None:
        within("a clock hour of", self.clock, 0.5, 12.5)
        one_of("reach", self.reach, REACHES)

    @property
    def direction(self) -> Vector:
        """Unit vector from the centre of the eye to the break, in the head frame."""
        from_pole = math.radians(REACHES[self.reach].value)
        hand = math.radians(self.clock * 30)
        out = math.sin(from_pole)
        return (-math.sin(hand) * out, math.cos(hand) * out, -math.cos(from_pole))


@dataclass(frozen=True, slots=True)
class Cover:
    """How far inside the bubble's edge the worst break lies for one posture; negative is outside."""

    name: str
    margin_degrees: float

    @property
    def covered(self) -> bool:
        return self.margin_degrees >= 0


def up_vector(pitch_degrees: float = 0.0, roll_degrees: float = 0.0) -> Vector:
    """Which way is up for a tilted head.

    Pitch 0 is upright, 90 face down, -90 face up; roll tips the head towards the left shoulder
    (90 with no pitch is left cheek down).
    """
    pitch, roll = math.radians(pitch_degrees), math.radians(roll_degrees)
    return (math.sin(roll) * math.cos(pitch), math.cos(roll) * math.cos(pitch), -math.sin(pitch))


def clock_hour(side: str, eye: str) -> int:
    """The clock hour (3 or 9) of a `nasal` or `temporal` break: they swap between the eyes, clock hours do not."""
    one_of("side", side, ("nasal", "temporal"))
    one_of("eye", eye, EYES)
    return 9 if (eye == "right") == (side == "temporal") else 3


def angle_degrees(at: Break, up: Vector, moves: Moves = "floats") -> float:
    """Angle in degrees between a break and the middle of the bubble for a head position."""
    sign = 1.0 if moves == "floats" else -1.0
    cosine = sign * sum(a * b for a, b in zip(at.direction, up, strict=True))
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def cover(breaks: Sequence[Break], fill_percent: float, posture: str, moves: Moves = "floats") -> Cover:
    """Margin in degrees of the worst break in a named posture; raises `Unknown` for no breaks or another posture."""
    one_of("posture", posture, POSTURES)
    return Cover(posture, arc_degrees(fill_percent) / 2 - _widest_angle(breaks, POSTURES[posture], moves))


def cover_tilted(
    breaks: Sequence[Break], fill_percent: float, pitch_degrees: float, roll_degrees: float, moves: Moves = "floats"
) -> Cover:
    """As `cover`, for a head tilted between the named postures."""
    up = up_vector(pitch_degrees, roll_degrees)
    name = f"pitch {pitch_degrees:g}°, roll {roll_degrees:g}°"
    return Cover(name, arc_degrees(fill_percent) / 2 - _widest_angle(breaks, up, moves))


def best_postures(breaks: Sequence[Break], fill_percent: float, moves: Moves = "floats") -> list[Cover]:
    """The standard postures that may be advised for this kind of bubble, best margin first.

    Face up is left out for what floats and face down for what sinks: the bubble would lie on the lens.
    """
    advised = [name for name in POSTURES if name not in NOT_ADVISED[moves]]
    return sorted((cover(breaks, fill_percent, name, moves) for name in advised), key=lambda c: -round(c.margin_degrees, 9))


def hours_covered(reach: str, fill_percent: float, posture: str, moves: Moves = "floats") -> tuple[float, float] | None:
    """Which clock hours at that reach the bubble touches in a named posture: (middle, width) in hours; None for none of them.

    The middle is 0 up to 12; a width of 12 is the whole ring.
    """
    one_of("reach", reach, REACHES)
    one_of("posture", posture, POSTURES)
    sign = 1.0 if moves == "floats" else -1.0
    right, top, forwards = (sign * part for part in POSTURES[posture])
    from_pole, half = math.radians(REACHES[reach].value), math.radians(arc_degrees(fill_percent) / 2)
    # sin(from_pole) · aside · cos(hand − middle) − cos(from_pole) · forwards must reach cos(half).
    swing = math.sin(from_pole) * math.hypot(right, top)
    wanted = math.cos(half) + math.cos(from_pole) * forwards
    if wanted <= -swing + 1e-9:
        return 0.0, 12.0
    if wanted > swing + 1e-9:
        return None
    return math.degrees(math.atan2(-right, top)) / 30 % 12, math.degrees(math.acos(min(1.0, wanted / swing))) / 15


def fill_needed_percent(breaks: Sequence[Break], posture: str, moves: Moves = "floats") -> float:
    """The smallest fill in percent that covers every break in that posture."""
    one_of("posture", posture, POSTURES)
    return fill_for_arc(2 * _widest_angle(breaks, POSTURES[posture], moves))


def _widest_angle(breaks: Sequence[Break], up: Vector, moves: Moves) -> float:
    if not breaks:
        raise Unknown("no break was given; coverage needs at least one clock hour and reach")
    return max(angle_degrees(b, up, moves) for b in breaks)


MODEL = Model(
    "Which retina the bubble covers",
    (
        "A break is a direction from the middle of the eye: its clock hour as the examiner sees it and how far out it lies.",
        "The bubble’s middle is straight up (straight down for a heavy liquid). "
        "A break is covered when its angle from there is no more than half the arc of contact; the difference is the margin.",
        "9 o’clock lies towards the patient’s right in either eye, so it is covered with the left cheek down in either eye.",
        "The day on which cover is lost is the day the forecast fill falls below the fill whose arc just reaches the break.",
    ),
    (
        "The eye is taken as a sphere looking straight ahead; the lens and the front of the eye are left out.",
        "Face up is never proposed with gas or floating oil, face down never with heavy oil.",
    ),
    tuple(REACHES.values()),
)
