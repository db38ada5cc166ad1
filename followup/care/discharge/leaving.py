"""The discharge itself: patient, eye, operation, visits and code, in one transaction."""

from collections.abc import Sequence
from datetime import datetime, tzinfo

from followup.care.actors import Actor
from followup.care.discharge.changing import add_visit
from followup.care.discharge.note import OperationNote, check_days, operation_from, record_operation
from followup.care.discharge.who import Patient, SamePerson, check_patient, known_or_new_patient
from followup.care.errors import Conflict
from followup.care.home import enrol
from followup.care.patients import following
from followup.care.reading.eye import load
from followup.care.visits.visit import withdraw_visit
from followup.clinical import schedule
from followup.records import Store, audit, eyes


def discharge(
    store: Store,
    now: datetime,
    actor: Actor,
    patient: Patient,
    note: OperationNote,
    windows: Sequence[schedule.Window],
    zone: tzinfo,
    *,
    same_person: SamePerson | None = None,
    operation_id: str | None = None,
) -> tuple[str, str]:
    """Record patient, operation, plan and visits, and issue an enrolment code. Returns (eye id, code).

    An eye that was operated before begins anew: what the earlier operation had still planned is taken out of the book.
    `same_person` answers what `other_particulars` asks. `operation_id` is the form's own: confirmed twice, it raises
    `Conflict` and changes nothing.
    """
    check_patient(patient, now.astimezone(zone).date())
    operation_from(note, now, zone)
    check_days(note, windows, now, zone)
    with store.transaction():
        if operation_id and eyes.has_operation(store, operation_id):
            raise Conflict("this discharge has been confirmed")
        patient_id = known_or_new_patient(store, now, actor, patient, same_person)
        eye = next(known for known in eyes.of_patient(store, patient_id) if known.side == note.eye)
        if eye.note is None or eye.note.operated_at < note.operated_at:
            _end_earlier_plan(store, now, actor, eye.id, zone)
        operation_id = eyes.add_operation(store, now, eye.id, operation_id)
        record_operation(store, now, operation_id, note, actor, zone)
        for window in windows:
            add_visit(store, now, eye.id, window, actor)
        following.follow(store, now, actor, eye, "operation")
        code = enrol.issue_code(store, now, actor, patient_id)
        audit.note(store, now, actor.signature, "discharge", eye.id, {"agent": note.agent, "eye": note.eye})
    return eye.id, code


def _end_earlier_plan(store: Store, now: datetime, actor: Actor, eye_id: str, zone: tzinfo) -> None:
    """A new operation ends what the one before had planned and what is still to come of it."""
    eye = load(store, eye_id, zone)
    for visit in eye.open_visits:
        if visit.latest >= now.astimezone(zone).date():
            withdraw_visit(store, now, actor, eye_id, visit.identity)
