"""A clinic visit: what was measured on each eye, and what it raised."""

from collections.abc import Sequence
from datetime import date, datetime, tzinfo
from typing import Any

from followup.care.actors import Actor
from followup.care.attendance import holds
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.events import MeasuresBody, body_of, stored
from followup.care.eye import load
from followup.care.raising import raise_signs_of_patient
from followup.clinical import schedule
from followup.records import Store, audit, eyes
from followup.records.store import Row, new_id

EXTRA_VISIT = "extra visit"


def record_visit(
    store: Store,
    now: datetime,
    actor: Actor,
    operation_id: str,
    measures: Sequence[MeasuresBody],
    zone: tzinfo,
    *,
    visit: str | None = None,
    no_gas_seen: bool = False,
) -> list[Row]:
    """Record the measures of a visit (either eye) and the visit itself; returns the warnings it raised.

    `visit` is its identity, or its name: then the open visit of that name is meant whose window holds today, else the
    nearest. Without it the visit was not a planned one, and none counts as having taken place.
    """
    if not measures and visit is None and not no_gas_seen:
        raise CareError("nothing was entered: write at least one measure")
    if no_gas_seen and any(body.bubble_percent for body in measures):
        raise CareError("a bubble that has a height and “no gas seen” cannot both be: correct one of them")
    with store.transaction():
        for body in measures:
            _add(store, now, actor, operation_id, "measures", stored(body))
        if visit is not None:
            _add(store, now, actor, operation_id, "seen", _named(store, now, operation_id, visit, zone))
        if no_gas_seen:
            _add(store, now, actor, operation_id, "no-gas-seen", {})
        return raise_signs_of_patient(store, operation_id, now, zone)


def record_clinic_event(
    store: Store, now: datetime, actor: Actor, operation_id: str, kind: str, body: dict[str, Any], zone: tzinfo
) -> list[Row]:
    """Record one event by staff, such as no gas seen or oil taken out; returns the warnings it raised."""
    try:
        checked = stored(body_of(kind, body))
    except ValueError as error:
        raise CareError(str(error)) from error
    with store.transaction():
        _add(store, now, actor, operation_id, kind, checked)
        return raise_signs_of_patient(store, operation_id, now, zone)


def take_back(store: Store, now: datetime, actor: Actor, event_id: str, reason: str, zone: tzinfo) -> str:
    """Withdraw what was entered by mistake: the entry stays on record and counts no more. Returns its operation's id.

    Raises `NotFound` for an entry that is not there, `Conflict` for one that was taken back or corrected already, and
    `CareError` without a reason.
    """
    if not reason.strip():
        raise CareError("say why this is taken back", "reason")
    with store.transaction():
        entry = eyes.event(store, event_id)
        if entry is None or entry["kind"] == "withdrawal":
            raise NotFound("there is no such entry")
        if eyes.correction_of(store, event_id) is not None:
            raise Conflict("this entry was taken back or corrected already")
        id, body = new_id(), {"reason": reason.strip()}
        eyes.add_event(
            store, id, entry["operation_id"], "withdrawal", now, body, actor.signature, now, corrects=event_id
        )  # fmt: skip
        audit.note(
            store, now, actor.signature, f"{entry['kind']} taken back", entry["operation_id"], {"id": event_id, **body}
        )
        raise_signs_of_patient(store, entry["operation_id"], now, zone)
    return str(entry["operation_id"])


def add_extra_visit(
    store: Store, now: datetime, actor: Actor, operation_id: str, today: date, target: date, reason: str
) -> str:
    """Put a visit beside the plan, due from today to `target`; returns its identity. Nothing planned is touched."""
    with store.transaction():
        id = eyes.add_visit(store, now, operation_id, EXTRA_VISIT, target, today, target, reason, actor.signature)
        audit.note(store, now, actor.signature, "extra visit", operation_id, {"on": target.isoformat()})
    return id


def move_visit(store: Store, now: datetime, actor: Actor, visit_id: str, operation_id: str, target: Any) -> None:
    """Put a visit on another day; its window grows to hold that day."""
    with store.transaction():
        visit = next((v for v in eyes.visits_of(store, operation_id) if v["id"] == visit_id), None)
        if visit is None:
            raise NotFound("there is no such visit any more")
        w = _window(visit)
        eyes.add_visit(
            store, now, operation_id, w.name, target, min(w.earliest, target), max(w.latest, target), w.reason,
            actor.signature, visit_id,
        )  # fmt: skip
        audit.note(store, now, actor.signature, "visit moved", operation_id, {"visit": w.name, "to": target.isoformat()})


def withdraw_visit(store: Store, now: datetime, actor: Actor, operation_id: str, identity: str) -> None:
    """Take a visit that was added out of the book again."""
    visit = next((v for v in eyes.visits_of(store, operation_id) if v["identity"] == identity), None)
    if visit is not None:
        w = _window(visit)
        eyes.add_visit(
            store, now, operation_id, w.name, w.target, w.earliest, w.latest, w.reason, actor.signature, visit["id"],
            withdrawn=True,
        )  # fmt: skip
        audit.note(store, now, actor.signature, "visit withdrawn", operation_id, {"visit": w.name, "on": visit["target"]})


def _named(store: Store, now: datetime, operation_id: str, visit: str, zone: tzinfo) -> dict[str, str]:
    """What an event says of the visit it is about."""
    today = now.astimezone(zone).date()
    eye = load(store, operation_id, zone)
    known = [v for v in eye.visits if v["identity"] == visit] or [v for v in eye.visits if v["name"] == visit]
    if not known:
        raise CareError("this visit is not in the book any more; choose another, or none", "visit")

    def likelihood(v: Row) -> tuple[bool, bool, int]:
        away = abs((date.fromisoformat(v["target"]) - today).days)
        return v["identity"] in eye.seen_visits, not holds(v, today), away

    meant = min(known, key=likelihood)
    return {"visit": meant["name"], "visit_id": meant["identity"]}


def _window(row: Row) -> schedule.Window:
    dates = {key: datetime.fromisoformat(row[key]).date() for key in ("target", "earliest", "latest")}
    return schedule.Window(row["name"], dates["target"], dates["earliest"], dates["latest"], row["reason"])


def _add(store: Store, now: datetime, actor: Actor, operation_id: str, kind: str, body: dict[str, Any]) -> None:
    if eyes.operation(store, operation_id) is None:
        raise NotFound("there is no such eye in the records")
    id = new_id()
    eyes.add_event(store, id, operation_id, kind, now, body, actor.signature, now)
    audit.note(store, now, actor.signature, f"event {kind}", operation_id, {"id": id})
