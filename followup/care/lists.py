"""Lists for the clinic: who is due, who is missing, who is at risk, whom we have not heard from."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo

from followup.clinical.warnings import HOW_SOON
from followup.records import Store, eyes, worries
from followup.records.store import Row
from followup.records.times import to_text

LOOK_AHEAD = timedelta(days=7)


@dataclass(frozen=True)
class Due:
    """A visit on the clinic's list: `state` is seen, due, coming or missed."""

    operation: Row
    visit: Row
    state: str
    how_soon: str | None
    last_heard: datetime | None


def due_visits(store: Store, now: datetime, zone: tzinfo) -> list[Due]:
    """Visits due up to a week from today: today's first, then the missed, then the coming ones."""
    today = now.astimezone(zone).date()
    operations = {row["id"]: row for row in eyes.open_operations(store)}
    seen = eyes.seen_visits(store, list(operations))
    urgency = worst_by_eye(worries.open_callbacks(store))
    heard = eyes.last_heard(store)
    seen_today = _seen_today(store, operations, today, zone)
    found = []
    for visit in eyes.visits_due(store, today + LOOK_AHEAD):
        id = visit["operation_id"]
        done = (id, visit["name"]) in seen
        if done and (id, visit["name"]) not in seen_today:
            continue
        state = "seen" if done else _state(visit, today)
        found.append(Due(operations[id], visit, state, urgency.get(id), heard.get(id)))
    order = ("due", "missed", "seen", "coming")
    return sorted(
        found, key=lambda d: (order.index(d.state), _rank(d.how_soon), d.visit["target"], d.operation["patient_name"])
    )


def worst_by_eye(callbacks: Iterable[Row]) -> dict[str, str]:
    """The most urgent open callback of each eye."""
    worst: dict[str, str] = {}
    for c in callbacks:
        id = c["operation_id"]
        if id not in worst or _rank(c["how_soon"]) < _rank(worst[id]):
            worst[id] = c["how_soon"]
    return worst


def find(store: Store, words: str) -> list[Row]:
    """Eyes whose patient's name or number holds the words."""
    wanted = words.casefold().split()
    return [
        row
        for row in eyes.open_operations(store)
        if all(w in f"{row['patient_name']} {row['patient_number']}".casefold() for w in wanted)
    ]


def _rank(how_soon: str | None) -> int:
    return len(HOW_SOON) if how_soon is None else HOW_SOON.index(how_soon)


def _state(visit: Row, today: date) -> str:
    if visit["latest"] < today.isoformat():
        return "missed"
    return "due" if visit["target"] <= today.isoformat() else "coming"


def _seen_today(store: Store, operations: dict[str, Row], today: date, zone: tzinfo) -> set[tuple[str, str]]:
    start = datetime.combine(today, datetime.min.time(), zone)
    return {(id, visit) for id, visit, at in eyes.seen_since(store, to_text(start)) if id in operations}
