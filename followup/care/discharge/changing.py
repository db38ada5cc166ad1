"""The plan after discharge: changed, with what changed, or a visit more."""

from datetime import date
from typing import Any

from followup.care.callbacks import deciding
from followup.care.desk import Desk
from followup.care.discharge.note import OperationNote, check_days, operation_from, record_operation
from followup.care.errors import CareError
from followup.care.reading.eye import Eye, load
from followup.care.visits.visit import move_visit
from followup.clinical import schedule
from followup.records import visits, worries


def change_plan(
    desk: Desk, eye_id: str, note: OperationNote, moves: dict[str, date] | None = None, settles: str | None = None
) -> list[tuple[str, Any, Any]]:
    """Record a changed operation note or plan, and visits moved to other days; returns what differs as (what, before, after).

    `settles` is a callback of this eye that the change answers: it stays open until the patient is told what changed.
    """
    operation_from(note, desk.now, desk.zone)
    moved = [schedule.Window("moved", day, day, day, "") for day in (moves or {}).values()]
    check_days(note, moved, desk.now, desk.zone)
    answered = worries.callback(desk.store, settles) if settles else None
    if settles and (answered is None or answered.eye_id != eye_id):
        raise CareError("that callback is about another eye")
    with desk.store.transaction():
        before = load(desk.store, eye_id, desk.zone)
        record_operation(desk, before.note.operation_id, note)
        for visit_id, target in (moves or {}).items():
            move_visit(desk, visit_id, eye_id, target)
        differences = changes(before, load(desk.store, eye_id, desk.zone))
        desk.note("plan changed", eye_id, differences)
        if settles and differences:
            said = ", ".join(what.replace("_", " ") for what, _, _ in differences)
            deciding.tell_of_plan(desk, settles, f"plan changed: {said}")
    return differences


def changes(before: Eye, after: Eye) -> list[tuple[str, Any, Any]]:
    """What differs between two records of one operation."""
    old, new = (
        {**eye.note.body, "agent": eye.note.agent, "operated_at": eye.note.operated_at.isoformat()}
        | {f"visit {v.name}": v.target.isoformat() for v in eye.visits}
        for eye in (before, after)
    )
    return [(key, old.get(key), new.get(key)) for key in sorted({*old, *new}) if old.get(key) != new.get(key)]


def add_visit(desk: Desk, eye_id: str, visit: schedule.Window, replaces: str | None = None) -> str:
    return visits.add(
        desk.store,
        desk.now,
        eye_id,
        visit.name,
        visit.target,
        visit.earliest,
        visit.latest,
        visit.reason,
        desk.actor.signature,
        replaces,
    )
