"""Lists for the clinic: who is due, who is missing, who is at risk, whom we have not heard from."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo

from followup.care import enrol, watching
from followup.care.attendance import attended_by_eye
from followup.clinical.warnings import HOW_SOON
from followup.records import Store, eyes, worries
from followup.records.store import Row
from followup.records.times import to_text

LOOK_AHEAD = timedelta(days=7)
REQUESTS_KEPT = timedelta(days=30)


@dataclass(frozen=True)
class Due:
    """A visit on the clinic's list: `state` is here, due, missed, seen or coming; `reason` the worst open worry in words."""

    operation: Row
    visit: Row
    state: str
    how_soon: str | None
    reason: str
    last_heard: datetime | None


STATES = ("here", "due", "missed", "seen", "coming")


def due_visits(store: Store, now: datetime, zone: tzinfo) -> list[Due]:
    """Visits due up to a week from today: who is here, today's, the missed, those seen today, the coming ones."""
    today = now.astimezone(zone).date()
    until = (today + LOOK_AHEAD).isoformat()
    operations = {row["id"]: row for row in eyes.open_operations(store)}
    seen, arrived = (attended_by_eye(store, kind, zone) for kind in ("seen", "arrived"))
    open_ones = worries.open_callbacks(store)
    worst, many = worst_by_eye(open_ones), Counter(c["operation_id"] for c in open_ones)
    heard = eyes.last_heard(store)
    found = []
    with watching.parts(store, now, "list") as part:
        for visit in (v for v in eyes.visits_of_followed(store) if v["target"] <= until):
            id = visit["operation_id"]
            seen_at, here_at = seen[id].get(visit["identity"]), arrived[id].get(visit["identity"])
            if seen_at and seen_at.astimezone(zone).date() < today:
                continue
            with part(f"visits {visit['id']}"):
                here = here_at is not None and here_at.astimezone(zone).date() >= today
                state = "seen" if seen_at else "here" if here else _state(visit, today)
                how_soon = worst[id]["how_soon"] if id in worst else None
                reason = _reason(store, worst[id]) if id in worst else ""
                reason += f" And {many[id] - 1} more." if many[id] > 1 else ""
                found.append(Due(operations[id], visit, state, how_soon, reason, heard.get(id)))
    return sorted(
        found, key=lambda d: (STATES.index(d.state), _rank(d.how_soon), d.visit["target"], d.operation["patient_name"])
    )


def _reason(store: Store, callback: Row) -> str:
    raised = worries.warnings_of_callback(store, callback["id"])
    return str(raised[0]["words"]) if raised else "What raised this callback cannot be read."


def worst_by_eye(callbacks: Iterable[Row]) -> dict[str, Row]:
    """The most urgent open callback of each eye."""
    worst: dict[str, Row] = {}
    for c in callbacks:
        id = c["operation_id"]
        if id not in worst or _rank(c["how_soon"]) < _rank(worst[id]["how_soon"]):
            worst[id] = c
    return worst


def find(store: Store, words: str) -> list[Row]:
    """Eyes whose patient's name or number holds the words, or whose discharge card was scanned (its address or code)."""
    code = words.rpartition("code=")[2] if "code=" in words else words
    carded = enrol.patient_of_code(store, code)
    if carded is not None:
        return [row for row in eyes.operations_of(store, carded) if row["ended_at"] is None]
    wanted = words.casefold().split()
    return [
        row
        for row in eyes.open_operations(store)
        if all(w in f"{row['patient_name']} {row['patient_number']}".casefold() for w in wanted)
    ]


@dataclass(frozen=True)
class Request:
    """What a patient asked about a visit; open until a person looked at the eye."""

    operation: Row
    visit: str
    words: str
    at: datetime


def open_requests(store: Store, now: datetime) -> list[Request]:
    """Wishes for another time that nobody has looked at yet, newest first."""
    found = []
    for event in eyes.requests_since(store, to_text(now - REQUESTS_KEPT)):
        with watching.alone(store, now, "list", f"events {event['id']}"):
            looked = eyes.last_look(store, event["operation_id"])
            operation = eyes.operation(store, event["operation_id"])
            if operation and (looked is None or looked < event["received_at"]):
                found.append(Request(operation, event["body"]["visit"], event["body"].get("words", ""), event["at"]))
    return found


def _rank(how_soon: str | None) -> int:
    return len(HOW_SOON) if how_soon is None else HOW_SOON.index(how_soon)


def _state(visit: Row, today: date) -> str:
    if visit["latest"] < today.isoformat():
        return "missed"
    return "due" if visit["target"] <= today.isoformat() else "coming"
