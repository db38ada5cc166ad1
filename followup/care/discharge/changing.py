"""The plan after discharge: changed, with what changed, or a visit more."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from pydantic_core import to_jsonable_python

from followup.care import bounds
from followup.care.callbacks import deciding
from followup.care.desk import Desk
from followup.care.discharge.note import check_days, operation_from, record_operation
from followup.care.errors import CareError, Conflict
from followup.care.reading.eye import Eye, load
from followup.care.visits import book
from followup.clinical import schedule
from followup.config import Clinic
from followup.records import visits, worries
from followup.records.operation_note import OperationNote, between


@dataclass(frozen=True)
class Moves:
    """Visits that get another day, by identity; `accepted` answers what was asked about these days, and `shown` are the dates
    (ISO) for which they stood where that was chosen.
    """

    clinic: Clinic
    to: Mapping[str, date]
    accepted: Collection[str] = ()
    shown: Mapping[str, str] = field(default_factory=dict)


def change_plan(
    desk: Desk,
    eye_id: str,
    note: OperationNote,
    moves: Moves | None = None,
    settles: str | None = None,
    *,
    corrects: str | None = None,
) -> list[tuple[str, Any, Any]]:
    """Record a changed operation note or plan, and visits moved to other days; returns what differs as (what, before, after).

    Raises `CareError` for what would lift the caution of gas, since nobody says why here, and `book.Asks` for days that
    somebody must accept first. `settles` is a callback of this eye that the change answers: it stays open until the patient
    is told what changed. `corrects` is the note that the person saw: `Conflict` for an older one, and where a visit to be
    moved was moved meanwhile.
    """
    operation_from(note, desk.now, desk.zone)
    moved = [schedule.Window("moved", day, day, day, "") for day in (moves.to if moves else {}).values()]
    check_days(note, moved, desk.now, desk.zone)
    answered = worries.callback(desk.store, settles) if settles else None
    if settles and (answered is None or answered.eye_id != eye_id):
        raise CareError("that callback is about another eye")
    with desk.store.transaction():
        before = load(desk.store, eye_id, desk.zone)
        if corrects is not None and corrects != before.note.id:
            raise Conflict("this plan was changed meanwhile; look at it again")
        record_operation(desk, before.note.operation_id, note)
        if moves:
            _move(desk, before, moves)
        after = load(desk.store, eye_id, desk.zone)
        if before.caution(desk.now) and not after.caution(desk.now):
            raise CareError(
                "gas is on record, and by this its caution would go: correct the operation note, with the reason, if something "
                "else was left; once no gas is left, “no gas seen” says so",
                "agent",
            )
        differences = changes(before, after)
        desk.note("plan changed", eye_id, to_jsonable_python(differences))
        if settles and differences:
            said = ", ".join(what.replace("_", " ") for what, _, _ in differences)
            deciding.tell_of_plan(desk, settles, f"plan changed: {said}")
    return differences


def _move(desk: Desk, eye: Eye, moves: Moves) -> None:
    """Move visits of this eye, and ask about all their days at once."""
    questions: list[str] = []
    for identity, target in moves.to.items():
        v = next((v for v in eye.open_visits if v.identity == identity), None)
        if v is None:
            raise CareError("one of these visits took place or left the book meanwhile; open the plan again", "visits")
        if moves.shown.get(identity, v.target.isoformat()) != v.target.isoformat():
            raise Conflict(f"{v.name} was moved to {bounds.words(v.target)} meanwhile; look at the plan again")
        try:
            book.move(desk, moves.clinic, identity, target, starts=v.starts, accepted=moves.accepted)
        except book.Asks as asks:
            questions += asks.questions
    if questions:
        raise book.Asks(questions)


def changes(before: Eye, after: Eye) -> list[tuple[str, Any, Any]]:
    """What differs between two records of one operation, and which visits of the book have another day."""
    differing = sorted(between(before.note.body, after.note.body))
    days = {v.identity: v.target for v in before.visits}
    moved = [v for v in after.visits if days.get(v.identity, v.target) != v.target]
    return [*differing, *((f"visit {v.name}", days[v.identity].isoformat(), v.target.isoformat()) for v in moved)]


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
