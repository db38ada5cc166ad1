"""The plan after discharge: changed, with what changed, or a visit more."""

from datetime import date, datetime, tzinfo
from typing import Any

from followup.care.actors import Actor
from followup.care.callbacks import deciding
from followup.care.discharge.note import OperationNote, check_days, operation_from, record_operation
from followup.care.errors import CareError
from followup.care.reading.eye import Eye, load
from followup.care.visits.visit import move_visit
from followup.clinical import schedule
from followup.records import Store, audit, visits, worries


def change_plan(
    store: Store,
    now: datetime,
    actor: Actor,
    eye_id: str,
    note: OperationNote,
    zone: tzinfo,
    moves: dict[str, date] | None = None,
    settles: str | None = None,
) -> list[tuple[str, Any, Any]]:
    """Record a changed operation note or plan, and visits moved to other days; returns what differs as (what, before, after).

    `settles` is a callback of this eye that the change answers: it stays open until the patient is told what changed.
    """
    operation_from(note, now, zone)
    moved = [schedule.Window("moved", day, day, day, "") for day in (moves or {}).values()]
    check_days(note, moved, now, zone)
    answered = worries.callback(store, settles) if settles else None
    if settles and (answered is None or answered.eye_id != eye_id):
        raise CareError("that callback is about another eye")
    with store.transaction():
        before = load(store, eye_id, zone)
        record_operation(store, now, before.note.operation_id, note, actor, zone)
        for visit_id, target in (moves or {}).items():
            move_visit(store, now, actor, visit_id, eye_id, target)
        differences = changes(before, load(store, eye_id, zone))
        audit.note(store, now, actor.signature, "plan changed", eye_id, differences)
        if settles and differences:
            said = ", ".join(what.replace("_", " ") for what, _, _ in differences)
            deciding.tell_of_plan(store, now, actor, settles, f"plan changed: {said}")
    return differences


def changes(before: Eye, after: Eye) -> list[tuple[str, Any, Any]]:
    """What differs between two records of one operation."""
    old, new = (
        {**eye.note.body, "agent": eye.note.agent, "operated_at": eye.note.operated_at.isoformat()}
        | {f"visit {v.name}": v.target.isoformat() for v in eye.visits}
        for eye in (before, after)
    )
    return [(key, old.get(key), new.get(key)) for key in sorted({*old, *new}) if old.get(key) != new.get(key)]


def add_visit(
    store: Store, now: datetime, eye_id: str, visit: schedule.Window, actor: Actor, replaces: str | None = None
) -> str:
    return visits.add(
        store,
        now,
        eye_id,
        visit.name,
        visit.target,
        visit.earliest,
        visit.latest,
        visit.reason,
        actor.signature,
        replaces,
    )
