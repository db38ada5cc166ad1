"""Which entries of the clinic's book took place: by their identity, and for older records by their name."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime, tzinfo

from followup.records import Store, events, visits
from followup.records.bodies.clinic import VisitBody
from followup.records.values import Event, Visit, saying


def attended(planned: Sequence[Visit], told: Iterable[Event], zone: tzinfo, *, latest: bool = False) -> dict[str, datetime]:
    """When each visit, by identity, was first `seen` or `arrived` for, or `latest`; `planned` and `told` are one eye's.

    An event that names no identity counts for one visit of its name that stood in the book by then: one whose
    window holds its day, else the nearest; one that took place already only if there is no other.
    """
    found: dict[str, datetime] = {}
    for event, body in sorted(saying(told, VisitBody), key=lambda said: (said[0].at, said[0].id)):
        identity = body.visit_id or _by_name(planned, event, body.visit, found, zone)
        if identity and (latest or identity not in found):
            found[identity] = event.at
    return found


def attended_by_eye(store: Store, kind: str, zone: tzinfo) -> dict[str, dict[str, datetime]]:
    """The same for every followed eye; `kind` is `seen` or `arrived`."""
    planned, told = defaultdict(list), defaultdict(list)
    for visit in visits.of_followed(store):
        planned[visit.eye_id].append(visit)
    for event in events.of_kind(store, kind):
        told[event.eye_id].append(event)
    return defaultdict(dict, {id: attended(planned[id], those, zone) for id, those in told.items()})


def _by_name(planned: Sequence[Visit], event: Event, name: str, found: dict[str, datetime], zone: tzinfo) -> str | None:
    day = event.at.astimezone(zone).date()
    named = [v for v in planned if v.name == name and v.entered_at <= event.received_at]

    def likelihood(visit: Visit) -> tuple[bool, bool, int]:
        return visit.identity in found, not visit.holds(day), abs((visit.target - day).days)

    return min(named, key=likelihood).identity if named else None
