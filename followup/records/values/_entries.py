"""What was recorded about an eye, and what could not be read or taken."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime
from typing import TypeVar

from followup.records.bodies.base import Body

Said = TypeVar("Said", bound=Body)


@dataclass(frozen=True, slots=True)
class Event:
    """Something recorded about an eye: `body` is what it says. `corrects` is the event it puts right, for `reason`."""

    id: str
    eye_id: str
    kind: str
    at: datetime
    body: Body
    author: str
    device_id: str | None
    received_at: datetime
    corrects: str | None
    reason: str


def saying(found: Iterable[Event], kind: type[Said]) -> Iterator[tuple[Event, Said]]:
    """The events whose body is of a kind, each with it."""
    return ((event, event.body) for event in found if isinstance(event.body, kind))


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A row with a time that cannot be, left out everywhere else: where it is kept, whose it is, and what it says."""

    kept_in: str
    what: str
    id: str
    eye_id: str
    says: str
    patient_name: str
    patient_number: str


@dataclass(frozen=True, slots=True)
class Refused:
    """What could not be taken, as it came."""

    id: str
    eye_id: str | None
    device_id: str | None
    text: str
    reason: str
    received_at: datetime
