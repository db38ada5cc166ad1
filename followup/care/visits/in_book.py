"""What stands in the book of visits: an open visit with its eye, where it could be moved to, what was changed or cancelled."""

from dataclasses import dataclass
from datetime import date

from followup.care.desk import Desk
from followup.care.errors import Conflict, NotFound
from followup.care.reading.eye import Eye, load
from followup.care.visits.openings import Openings
from followup.records import Store, visits
from followup.records.bodies.clinic import DidNotComeBody
from followup.records.values import Change, Visit, saying


def change_of(store: Store, version: str) -> Change | None:
    """What a version changed, while it is the latest; None once it is not, or where it changed nothing."""
    v = visits.visit(store, version)
    latest = visits.standing(store, v.identity) if v else None
    before = visits.visit(store, v.replaces) if v and v.replaces else None
    return Change(before or v, v) if v and latest and latest.id == v.id else None


@dataclass(frozen=True)
class Choice:
    """A day that a visit could be moved to, with what is booked there."""

    day: date
    taken: int
    places: int
    in_window: bool

    @property
    def full(self) -> bool:
        return self.taken >= self.places


DAYS_OFFERED = 12


def choices(days: Openings, v: Visit | None) -> list[Choice]:
    """Open days to come: those of the visit's window first in time, then the next ones, until there are enough."""
    first = max(days.first, v.earliest) if v and v.latest >= days.first else days.first
    found = [day for day in days.open_between(first, days.last) if v is None or day != v.target][:DAYS_OFFERED]
    return [Choice(day, days.taken(day), days.places[day], v is None or v.holds(day)) for day in found]


def with_day(days: Openings, proposed: date) -> list[Choice]:
    """The next open days, and the one proposed, open or not."""
    offered = [c for c in choices(days, None) if c.day >= proposed]
    if proposed not in [c.day for c in offered]:
        offered.insert(0, Choice(proposed, days.taken(proposed), days.places.get(proposed, 0), in_window=True))
    return offered


@dataclass(frozen=True)
class Entry:
    """An open visit with its eye, for the page that changes it; `missed` where it is on record that nobody came."""

    eye: Eye
    visit: Visit
    missed: bool


def entry(desk: Desk, identity: str) -> Entry:
    """An open visit. Raises `NotFound` for one that is not in the book, `Conflict` for one that took place."""
    eye, v = open_visit(desk, identity)
    return Entry(eye, v, said_not_to_have_come(eye, v))


def said_not_to_have_come(eye: Eye, v: Visit) -> bool:
    """Whether it is on record that nobody came on the day for which the visit stands."""
    return any((said.visit_id, said.on) == (v.identity, v.target) for _, said in saying(eye.events, DidNotComeBody))


def cancelled(store: Store, eye_id: str) -> list[Visit]:
    """The visits of an eye that were taken out of the book, each with why."""
    return visits.cancelled_of_eye(store, eye_id)


def untold(store: Store, eye_id: str) -> frozenset[str]:
    """The versions of an eye's visits, in the book or taken out of it, whose patient nobody is known to have told."""
    return visits.untold_of_eye(store, eye_id)


def open_visit(desk: Desk, identity: str) -> tuple[Eye, Visit]:
    """A visit that is in the book, and its eye. Raises `NotFound` where it left it, `Conflict` where it took place."""
    latest = visits.standing(desk.store, identity)
    if latest is None or latest.withdrawn:
        raise NotFound("this visit is not in the book any more")
    eye = load(desk.store, latest.eye_id, desk.zone)
    if latest.identity in eye.seen_visits:
        raise Conflict(f"{latest.name} has taken place: correct or withdraw that entry on the eye’s page first")
    return _if_followed(eye), latest


def followed_eye(desk: Desk, eye_id: str) -> Eye:
    """An eye for which visits are planned. Raises `Conflict` for one that is not followed."""
    return _if_followed(load(desk.store, eye_id, desk.zone))


def _if_followed(eye: Eye) -> Eye:
    if not eye.known.is_followed:
        raise Conflict("this eye is not followed: take up its follow-up first")
    return eye
