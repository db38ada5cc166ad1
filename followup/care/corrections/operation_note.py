"""The note of an operation is put right, also where it was written down for the wrong eye."""

from dataclasses import dataclass
from datetime import datetime, tzinfo
from itertools import pairwise
from typing import Any

from pydantic import BaseModel
from pydantic_core import to_jsonable_python

from followup.care import bounds
from followup.care.corrections import caution, standing_again
from followup.care.corrections.correcting import reason_of
from followup.care.desk import Desk
from followup.care.discharge.note import check_days, operation_from, record_operation
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.eye import load
from followup.care.visits.visit import eye_on_side, known_eye
from followup.care.watch import grounds
from followup.care.watch.raising import raise_signs_of_patient
from followup.records import Store, eyes, visits
from followup.records.operation_note import Difference, OperationNote, between
from followup.records.values import Callback, Eye, Note, Visit, Warning


@dataclass(frozen=True, slots=True)
class NotePutRight:
    """What a corrected note changed: the eye that the operation stands on now, and what follows.

    `planned_again` are visits of an earlier plan that its discharge had taken out of the book, `to_come` callbacks of theatre
    that it had ended: both of the eye that was not operated then.
    """

    eye_id: str
    differences: list[Difference]
    moved_visits: list[Visit]
    raised: list[Warning]
    unfounded: list[Warning]
    called_again: list[Callback]
    planned_again: list[Visit]
    to_come: list[Callback]


def notes(store: Store, eye_id: str, operation_id: str) -> list[Note]:
    """Every note of an operation of this eye, oldest first; raises `NotFound`."""
    eye = known_eye(store, eye_id)
    found = eyes.history_of(store, operation_id)
    if not found or eyes.eye_of_operation(store, operation_id) != eye.id:
        raise NotFound("this eye has no such operation")
    return found


def correct(
    desk: Desk, eye_id: str, operation_id: str, note: OperationNote, reason: str, *, corrects: str | None = None
) -> NotePutRight:
    """Put another note in the place of an operation's. `corrects` is the note that the person saw: `Conflict` for an older one.

    Visits keep their dates. On the other eye the operation takes along the visits that were planned for it and have not
    taken place; follow-up goes along as it stands, and an eye that was never operated is no longer followed but watched as
    the fellow.
    What the discharge had ended on an eye that was not operated then, or not last, stands again.
    """
    why = reason_of(reason)
    operation_from(note, desk.now, desk.zone)
    check_days(note, (), desk.now, desk.zone)
    with desk.store.transaction():
        before = notes(desk.store, eye_id, operation_id)
        stands = before[-1]
        if corrects is not None and corrects != stands.id:
            raise Conflict("this note was changed meanwhile; look at it again")
        former = known_eye(desk.store, eye_id)
        eye = eye_on_side(desk.store, former, note.eye)
        differences = between(stands.body, note)
        if not differences:
            raise CareError("nothing was changed")
        found = grounds.found(desk.store, former.patient.id, desk.now, desk.zone)
        cautions = caution.under_caution(desk, former.patient.id)
        planned = _planned_for(desk.store, former.id, operation_id, desk.zone) if eye.id != former.id else []
        _take_out(desk, planned, note)
        note_id = record_operation(desk, operation_id, note, why)
        if eye.id != former.id:
            eyes.move_operation(desk.store, operation_id, eye.id)
            _put_in(desk, eye.id, planned)
            _follow_the_right_eye(desk, former, eye)
        planned_again, to_come = _stand_again(desk, before[0], former.id, note if eye.id == former.id else None)
        caution.keep(desk, former.patient.id, cautions)
        told = "; ".join(
            f"{what.replace('_', ' ')} was: {_brief(was)}; is: {_brief(now_)}" for what, was, now_ in differences
        )
        told = f"operation note, {told}"
        lost = grounds.follow(desk, former.patient.id, found, told, why, at=stands.operated_at, note_id=note_id)
        detail = {"operation": operation_id, "eye": eye.id, "reason": why, "differences": to_jsonable_python(differences)}
        desk.note("operation note corrected", former.id, detail)
        raised = raise_signs_of_patient(desk.store, former.patient.id, desk.now, desk.zone)
        again = grounds.called_again(desk.store, former.patient.id, note_id)
    return NotePutRight(eye.id, differences, planned, raised, lost, again, planned_again, to_come)


def _stand_again(desk: Desk, first: Note, eye_id: str, note: OperationNote | None) -> tuple[list[Visit], list[Callback]]:
    """On the eye for which an operation was recorded: `note` is what stands of it now, None where it moved away."""
    why = "the operation was of the other eye" if note is None else "the operation was an earlier one"
    operated_on = note.operated_at.astimezone(desk.zone).date() if note else None
    others = [n for n in eyes.notes_of(desk.store, eye_id) if n.operation_id != first.operation_id]
    is_last = note is not None and all(n.operated_at < note.operated_at for n in others)
    visits_again = standing_again.plan(desk, eye_id, first.recorded_at, why) if others and not is_last else []
    return visits_again, standing_again.theatre(desk, eye_id, first.recorded_at, why, operated_on)


def _planned_for(store: Store, eye_id: str, operation_id: str, zone: tzinfo) -> list[Visit]:
    """The visits that came into the book with this operation or after it, before the eye's next, and did not take place."""
    came = {n.operation_id: _came_to_this_eye(eyes.history_of(store, n.operation_id)) for n in eyes.notes_of(store, eye_id)}
    since = came[operation_id]
    until = min((at for at in came.values() if at > since), default=None)
    open_visits = load(store, eye_id, zone).open_visits
    return [v for v in open_visits if v.entered_at >= since and (until is None or v.entered_at < until)]


def _came_to_this_eye(history: list[Note]) -> datetime:
    """When the operation was recorded, or moved to the eye on which it stands: its visits came with it."""
    moves = [note.recorded_at for before, note in pairwise(history) if note.body.eye != before.body.eye]
    return moves[-1] if moves else history[0].recorded_at


def _take_out(desk: Desk, planned: list[Visit], note: OperationNote) -> None:
    """While the operation still stands on their eye: without it they might lie too late for that one."""
    operated_on, today = note.operated_at.astimezone(desk.zone).date(), desk.today
    for v in planned:
        for day in (v.earliest, v.target, v.latest):
            if fault := bounds.after_surgery(day, operated_on, today, f"the visit {v.name}"):
                raise CareError(f"{fault}. Move that visit first", "operated_at")
        visits.change(desk.store, desk.now, v, desk.actor.signature, "moved to the other eye", withdrawn=True)


def _put_in(desk: Desk, eye_id: str, planned: list[Visit]) -> None:
    for v in planned:
        dates = (v.name, v.target, v.earliest, v.latest, v.reason, desk.actor.signature)
        visits.add(desk.store, desk.now, eye_id, *dates, starts=v.starts)


def _follow_the_right_eye(desk: Desk, former: Eye, eye: Eye) -> None:
    """Follow-up goes along as it stands: one that had ended has ended there too, at the same time and for the same reason."""
    store, by, why = desk.store, desk.actor.signature, "operation note corrected"
    if former.is_followed and not eye.is_followed:
        eyes.begin(store, desk.now, eye.id)
        eyes.add_follow_up(store, desk.now, eye.id, "resumed" if eye.followed_since else "begun", why, "", by)
    elif former.followed_since and former.ended_at and former.end_reason and not eye.followed_since:
        eyes.begin(store, former.followed_since, eye.id)
        eyes.add_follow_up(store, former.followed_since, eye.id, "begun", why, "", by)
        eyes.end(store, former.ended_at, eye.id, former.end_reason)
        eyes.add_follow_up(store, former.ended_at, eye.id, "ended", former.end_reason, "", by)
    if not eyes.notes_of(store, former.id):
        eyes.never_followed(store, former.id)
        eyes.add_follow_up(store, desk.now, former.id, "ended", why, "", by)


def _brief(value: Any) -> str:
    """A part of a note in a line."""
    if isinstance(value, BaseModel):
        return ", ".join(f"{name.replace('_', ' ')} {_brief(part)}" for name, part in value if part is not None)
    if isinstance(value, tuple):
        return ", ".join(_brief(part) for part in value) or "none"
    if isinstance(value, datetime):
        return value.isoformat()
    return "none" if value in (None, "") else str(value)
