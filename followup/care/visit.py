"""A clinic visit: what was measured on each eye, and what it raised."""

from collections.abc import Sequence
from datetime import datetime, timedelta, tzinfo
from typing import Any

from followup.care.actors import Actor
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.events import MeasuresBody, body_of, stored
from followup.care.eye import Eye
from followup.care.raising import raise_signs_of_patient
from followup.clinical import schedule
from followup.records import Store, audit, eyes
from followup.records.store import Row, new_id


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
    """Record the measures of a visit (either eye) and the visit itself; returns the warnings it raised."""
    if not measures and visit is None and not no_gas_seen:
        raise CareError("nothing was entered: write at least one measure")
    if no_gas_seen and any(body.bubble_percent for body in measures):
        raise CareError("a bubble that has a height and “no gas seen” cannot both be: correct one of them")
    with store.transaction():
        for body in measures:
            _add(store, now, actor, operation_id, "measures", stored(body))
        if visit is not None:
            _add(store, now, actor, operation_id, "seen", {"visit": visit})
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


def bring_forward(store: Store, now: datetime, actor: Actor, eye: Eye, within_days: int, reason: str, zone: tzinfo) -> Row:
    """Re-plan the next visit so that the eye is seen within that many days; a visit is added if none is planned."""
    today = now.astimezone(zone).date()
    upcoming = eye.next_visit(today)
    with store.transaction():
        if upcoming is None:
            window = schedule.Window("extra visit", today, today, today + timedelta(days=within_days), reason)
            replaces = None
        else:
            window = schedule.sooner(_window(upcoming), today, within_days, reason)
            replaces = upcoming["id"]
        id = eyes.add_visit(
            store, now, eye.operation_id, window.name, window.target, window.earliest, window.latest,
            window.reason, actor.signature, replaces,
        )  # fmt: skip
        audit.note(store, now, actor.signature, "visit brought forward", eye.operation_id, {"latest": window.latest})
    return next(v for v in eyes.visits_of(store, eye.operation_id) if v["id"] == id)


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


def put_back(store: Store, now: datetime, actor: Actor, operation_id: str, visit_id: str) -> None:
    """Undo a change of a visit: what it replaced is planned again; an added visit is withdrawn."""
    changed = eyes.visit(store, visit_id)
    before = eyes.visit(store, changed["replaces"]) if changed and changed["replaces"] else None
    if changed is None:
        return
    w = _window(before or changed)
    eyes.add_visit(
        store, now, operation_id, w.name, w.target, w.earliest, w.latest, w.reason, actor.signature, visit_id,
        withdrawn=before is None,
    )  # fmt: skip


def _window(row: Row) -> schedule.Window:
    dates = {key: datetime.fromisoformat(row[key]).date() for key in ("target", "earliest", "latest")}
    return schedule.Window(row["name"], dates["target"], dates["earliest"], dates["latest"], row["reason"])


def _add(store: Store, now: datetime, actor: Actor, operation_id: str, kind: str, body: dict[str, Any]) -> None:
    if eyes.operation(store, operation_id) is None:
        raise NotFound("there is no such eye in the records")
    id = new_id()
    eyes.add_event(store, id, operation_id, kind, now, body, actor.signature, now)
    audit.note(store, now, actor.signature, f"event {kind}", operation_id, {"id": id})
