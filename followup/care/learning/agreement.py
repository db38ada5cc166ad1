"""Where two people measured the same eye on the same day and do not agree: both entries stand, the difference is shown."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, tzinfo

from followup.care.reading.entries import who
from followup.records import Store, events
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Event, saying


@dataclass(frozen=True, slots=True)
class Reading:
    """What one person wrote down, in words."""

    at: datetime
    who: str
    words: str


@dataclass(frozen=True, slots=True)
class Difference:
    """Readings of one thing on one eye and one local day that differ, in order of time."""

    day: date
    eye: str
    what: str
    readings: tuple[Reading, ...]


def of_eye(store: Store, eye_id: str, zone: tzinfo) -> list[Difference]:
    """The differences in all that was measured in an eye."""
    return differences(store, events.of_eye(store, eye_id), zone)


def differences(store: Store, found_events: Sequence[Event], zone: tzinfo) -> list[Difference]:
    """Every difference between people in the measures among an eye's events, newest day first.

    One person measuring twice is a repeat, not a difference.
    """
    days: dict[tuple[date, str], list[tuple[Event, MeasuresBody]]] = defaultdict(list)
    for event, body in saying(found_events, MeasuresBody):
        days[event.at.astimezone(zone).date(), body.eye].append((event, body))
    found = []
    for (day, eye), rows in sorted(days.items(), key=lambda item: item[0], reverse=True):
        if len({event.author for event, _ in rows}) < 2:
            continue
        for what, words_of in _SAID.items():
            last_of = {event.author: (event.at, words_of(body)) for event, body in rows}
            said = {author: (at, words) for author, (at, words) in last_of.items() if words}
            if len({words for _, words in said.values()}) > 1:
                readings = sorted(
                    (Reading(at, who(store, author), w) for author, (at, w) in said.items()), key=lambda r: r.at
                )
                found.append(Difference(day, eye, what, tuple(readings)))
    return found


def _acuity(body: MeasuresBody) -> str:
    return f"{body.acuity} ({body.correction or 'unaided'})" if body.acuity else ""


def _pressure(body: MeasuresBody) -> str:
    return f"{body.iop_mmhg:g} mmHg" if body.iop_mmhg is not None else ""


def _bubble(body: MeasuresBody) -> str:
    return f"{body.bubble_percent:g} % high" if body.bubble_percent is not None else ""


def _pinhole(body: MeasuresBody) -> str:
    return f"{body.pinhole} (pinhole)" if body.pinhole else ""


_SAID = {"acuity": _acuity, "acuity with the pinhole": _pinhole, "pressure": _pressure, "bubble": _bubble}
