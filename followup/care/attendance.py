"""Which entries of the clinic's book took place: by their identity, and for older records by their name."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import date, datetime, tzinfo

from followup.records import Store, eyes
from followup.records.store import Row


def attended(visits: Sequence[Row], events: Iterable[Row], zone: tzinfo) -> dict[str, datetime]:
    """When each visit, by identity, was first `seen` or `arrived` for; `visits` and `events` are one eye's.

    An event that names no identity counts for one visit of its name that stood in the book by then: one whose
    window holds its day, else the nearest; one that took place already only if there is no other.
    """
    found: dict[str, datetime] = {}
    for event in sorted(events, key=lambda e: (e["at"], e["id"])):
        identity = event["body"].get("visit_id") or _by_name(visits, event, found, zone)
        if identity:
            found.setdefault(identity, event["at"])
    return found


def attended_by_eye(store: Store, kind: str, zone: tzinfo) -> dict[str, dict[str, datetime]]:
    """The same for every followed eye, by operation; `kind` is `seen` or `arrived`."""
    visits, events = defaultdict(list), defaultdict(list)
    for visit in eyes.visits_of_followed(store):
        visits[visit["operation_id"]].append(visit)
    for event in eyes.visit_events(store, kind):
        events[event["operation_id"]].append(event)
    return defaultdict(dict, {id: attended(visits[id], those, zone) for id, those in events.items()})


def holds(visit: Row, day: date) -> bool:
    """Whether a visit's window holds that day."""
    return bool(visit["earliest"] <= day.isoformat() <= visit["latest"])


def _by_name(visits: Sequence[Row], event: Row, found: dict[str, datetime], zone: tzinfo) -> str | None:
    day = event["at"].astimezone(zone).date()
    named = [v for v in visits if v["name"] == event["body"].get("visit") and v["entered_at"] <= event["received_at"]]

    def likelihood(visit: Row) -> tuple[bool, bool, int]:
        away = abs((date.fromisoformat(visit["target"]) - day).days)
        return visit["identity"] in found, not holds(visit, day), away

    return min(named, key=likelihood)["identity"] if named else None
