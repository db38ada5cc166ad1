"""What patients wish about their visits: another time, and whether the clinic has answered."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, tzinfo

from followup.care.reading.attendance import attended_by_eye
from followup.care.watch import watching
from followup.records import Store, events, eyes, visits
from followup.records.bodies.home import VisitRequestBody
from followup.records.values import Event, Eye, Visit, saying


@dataclass(frozen=True)
class Request:
    """What a patient asked about a visit, in entry `id`; `identity` is the visit's, None where the book has none of that name."""

    id: str
    eye: Eye
    visit: str
    identity: str | None
    words: str
    at: datetime


def open_requests(store: Store, now: datetime, zone: tzinfo) -> list[Request]:
    """Wishes for another time that nobody has answered yet, newest first, each visit once.

    Answered is one whose visit was moved, cancelled or took place since, or that somebody took back with a reason; to look
    at the eye answers nothing.
    """
    asked = events.visit_requests(store)
    return _open(store, now, asked, attended_by_eye(store, "seen", zone) if asked else {})


def open_requests_of(
    store: Store, now: datetime, eye_id: str, entered: Iterable[Event], seen: Mapping[str, datetime]
) -> list[Request]:
    """The same of one eye, by what stands of its entries and when each of its visits took place."""
    asked = sorted((e for e in entered if e.kind == "visit-request"), key=lambda e: e.at, reverse=True)
    return _open(store, now, asked, {eye_id: seen})


def _open(store: Store, now: datetime, asked: Iterable[Event], seen: Mapping[str, Mapping[str, datetime]]) -> list[Request]:
    found: dict[tuple[str, str], Request] = {}
    for event, said in saying(asked, VisitRequestBody):
        with watching.alone(store, now, "list", f"events {event.id}"):
            eye, name = eyes.eye(store, event.eye_id), said.visit
            visit = _meant(store, event, name, seen[event.eye_id])
            if eye and not (visit and (visit.identity in seen[eye.id] or _has_moved(store, visit, event.received_at))):
                identity = visit.identity if visit else None
                found.setdefault((eye.id, name), Request(event.id, eye, name, identity, said.words, event.at))
    return list(found.values())


def _meant(store: Store, asked: Event, name: str, seen: Mapping[str, datetime]) -> Visit | None:
    """The visit of that name that was still to come when the wish came in: the last one, where two operations have one."""
    in_book = (*visits.of_eye(store, asked.eye_id), *visits.cancelled_of_eye(store, asked.eye_id))
    by_then = [v for v in in_book if v.name == name and v.entered_at <= asked.received_at]
    to_come = [v for v in by_then if v.identity not in seen or seen[v.identity] > asked.received_at]
    return max(to_come, key=lambda v: v.target, default=None)


def _has_moved(store: Store, visit: Visit, since: datetime) -> bool:
    """Whether it was cancelled, or stands at another day or time than it did then; moved and put back it has not."""
    was: Visit | None = visit
    while was and was.replaces and was.recorded_at > since:
        was = visits.visit(store, was.replaces)
    return visit.withdrawn or was is None or (visit.target, visit.starts) != (was.target, was.starts)
