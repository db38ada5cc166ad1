"""The clock face of an eye as the examiner sees it: breaks are chosen on it, and what each posture covers is drawn on it.

Lengths in the drawing's own units, 360 across; hours from 12, clockwise.
"""

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from wtforms import Form, ValidationError

from followup.care.discharge.proposal import Proposal
from followup.clinical import agents, coverage
from followup.web.fields import ManyField

RINGS: dict[str, tuple[float, float]] = {
    "macula": (0, 26), "arcade": (26, 74), "equator": (74, 116), "periphery": (116, 156)
}  # fmt: skip
NUMBERS_AT = 169
_CODE = re.compile(r"(\d{1,2}(?:\.5)?)-([a-z]+)")


@dataclass(frozen=True, slots=True)
class Cell:
    """A place on the face that can be chosen; `code` is its hour and reach (`11-equator`)."""

    code: str
    words: str
    x: float
    y: float
    outline: str
    chosen: bool


def words(clock: float, reach: str) -> str:
    return reach if reach == "macula" else f"{clock:g} o’clock, {reach}"


class BreaksField(ManyField):
    """Breaks by hour and reach; what an older note has off the face (half hours) can stay."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, choices=[], **kwargs)

    def pre_validate(self, form: Form) -> None:
        for code in self.data or ():
            try:
                _read(code)
            except ValueError:
                raise ValidationError(
                    f"“{code}” is no place of a break; accepted are hours 1 to 12 with {', '.join(coverage.REACHES)}"
                ) from None

    @property
    def breaks(self) -> list[dict[str, Any]]:
        """As an operation note has them, in the order of the face."""
        read = [_read(code) for code in dict.fromkeys(self.data or ())]
        return [{"clock": int(clock) if clock.is_integer() else clock, "reach": reach} for clock, reach in read]

    @property
    def said(self) -> str:
        known = [code for code in self.data or () if _is_known(code)]
        return "; ".join(words(*_read(code)) for code in known)

    @property
    def cells(self) -> Iterator[Cell]:
        chosen = set(self.data or ())
        for reach, (inner, outer) in RINGS.items():
            for hour in (12,) if reach == "macula" else (12, *range(1, 12)):
                middle = 0 if reach == "macula" else (inner + outer) / 2
                x, y = _point(middle, hour)
                code = f"{hour}-{reach}"
                yield Cell(code, words(hour, reach), x, y, ring_part(reach, hour, 1), code in chosen)

    @property
    def numbers(self) -> list[tuple[int, float, float]]:
        """The hours around the face, each with its place."""
        return [(hour, *_point(NUMBERS_AT, hour)) for hour in range(1, 13)]

    @property
    def elsewhere(self) -> list[tuple[str, str]]:
        """Chosen breaks that the face has no place for, as (code, words)."""
        on_face = {cell.code for cell in self.cells}
        return [(code, words(*_read(code))) for code in self.data or () if code not in on_face and _is_known(code)]


def code_of(clock: float, reach: str) -> str:
    return f"{clock:g}-{reach}"


@dataclass(frozen=True, slots=True)
class CoverPicture:
    """What a posture covers: shaded outlines, and each break as (x, y, covered)."""

    cover: coverage.Cover
    shaded: list[str]
    breaks: list[tuple[float, float, bool]]


def covers(proposal: Proposal) -> list[CoverPicture]:
    """A picture for each posture of a proposal, in its order."""
    operation = proposal.operation
    fill, moves = operation.fill_percent, agents.AGENTS[operation.agent].moves
    found = []
    for cover in proposal.covers:
        spans = ((reach, coverage.hours_covered(reach, fill, cover.name, moves)) for reach in RINGS)
        shaded = [ring_part(reach, *hours) for reach, hours in spans if hours]
        found.append(CoverPicture(cover, shaded, list(_marks(operation.breaks, fill, cover.name, moves))))
    return found


def _marks(
    breaks: Iterable[coverage.Break], fill: float, posture: str, moves: coverage.Moves
) -> Iterator[tuple[float, float, bool]]:
    for b in breaks:
        inner, outer = RINGS[b.reach]
        x, y = _point(0 if b.reach == "macula" else (inner + outer) / 2, b.clock)
        yield x, y, coverage.cover([b], fill, posture, moves).covered


def ring_part(reach: str, middle: float, hours: float) -> str:
    """The outline of so many hours of a ring around a middle, as a path."""
    inner, outer = RINGS[reach]
    if hours >= 12 or reach == "macula":
        return f"{_circle(outer)}{_circle(inner)}"
    (ax, ay), (bx, by) = _point(outer, middle - hours / 2), _point(outer, middle + hours / 2)
    (cx, cy), (dx, dy) = _point(inner, middle + hours / 2), _point(inner, middle - hours / 2)
    far = int(hours > 6)
    return f"M{ax} {ay}A{outer} {outer} 0 {far} 1 {bx} {by}L{cx} {cy}A{inner} {inner} 0 {far} 0 {dx} {dy}Z"


def _circle(radius: float) -> str:
    return f"M0 {-radius}A{radius} {radius} 0 1 1 0 {radius}A{radius} {radius} 0 1 1 0 {-radius}Z" if radius else ""


def _point(radius: float, hour: float) -> tuple[float, float]:
    hand = math.radians(hour * 30)
    return round(radius * math.sin(hand), 1), round(-radius * math.cos(hand), 1)


def _read(code: str) -> tuple[float, str]:
    """Raises `ValueError` for what is no hour and reach."""
    found = _CODE.fullmatch(code)
    if not found:
        raise ValueError(code)
    at = coverage.Break(float(found[1]), found[2])
    return at.clock, at.reach


def _is_known(code: str) -> bool:
    try:
        _read(code)
    except ValueError:
        return False
    return True
