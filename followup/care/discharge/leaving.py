"""The discharge itself: patient, eye, operation, visits and code, in one transaction."""

from collections.abc import Sequence
from datetime import date

from followup.care.callbacks import settling
from followup.care.desk import Desk
from followup.care.discharge.changing import add_visit
from followup.care.discharge.note import check_days, operation_from, record_operation
from followup.care.discharge.who import Patient, SamePerson, check_patient, known_or_new_patient
from followup.care.errors import Conflict
from followup.care.home import enrol
from followup.care.patients import following, reaching
from followup.care.reading.eye import load
from followup.care.visits.visit import OPERATED_AGAIN, withdraw_visit
from followup.clinical import schedule
from followup.records import Store, eyes
from followup.records.operation_note import OperationNote
from followup.records.store import new_id


def new_operation_id() -> str:
    """An id for a discharge that is about to be written, so that it is kept once however often it is sent."""
    return new_id()


def is_discharged(store: Store, operation_id: str) -> bool:
    """Whether a discharge under this id is on record."""
    return eyes.has_operation(store, operation_id)


def discharge(
    desk: Desk,
    patient: Patient,
    note: OperationNote,
    windows: Sequence[schedule.Window],
    *,
    same_person: SamePerson | None = None,
    operation_id: str | None = None,
) -> tuple[str, str]:
    """Record patient, operation, plan and visits, and issue an enrolment code. Returns (eye id, code).

    An eye that was operated before begins anew: what the earlier operation had still planned is taken out of the book.
    `same_person` answers what `other_particulars` asks. `operation_id` is the form's own: confirmed twice, it raises
    `Conflict` and changes nothing.
    """
    check_patient(patient, desk.today)
    operation_from(note, desk.now, desk.zone)
    check_days(note, windows, desk.now, desk.zone)
    with desk.store.transaction():
        if operation_id and eyes.has_operation(desk.store, operation_id):
            raise Conflict("this discharge has been confirmed")
        patient_id = known_or_new_patient(desk, patient, same_person)
        if patient.reached_by:
            reaching.put(desk, patient_id, patient.reached_by, patient.carer_phone)
        eye = next(known for known in eyes.of_patient(desk.store, patient_id) if known.side == note.eye)
        if eye.note is None or eye.note.operated_at < note.operated_at:
            _end_earlier_plan(desk, eye.id, note.operated_at.astimezone(desk.zone).date())
        operation_id = eyes.add_operation(desk.store, desk.now, eye.id, operation_id)
        record_operation(desk, operation_id, note)
        settling.end_with_operation(desk, eye.id, note.operated_at)
        for window in windows:
            add_visit(desk, eye.id, window)
        following.follow(desk, eye, "operation")
        code = enrol.issue_code(desk, patient_id)
        desk.note("discharge", eye.id, {"agent": note.agent, "eye": note.eye})
    return eye.id, code


def _end_earlier_plan(desk: Desk, eye_id: str, operated_on: date) -> None:
    """A new operation ends what the one before had planned from its day on; what was missed before is waited for no more."""
    eye = load(desk.store, eye_id, desk.zone)
    for visit in eye.open_visits:
        if visit.latest >= min(operated_on, desk.today):
            withdraw_visit(desk, eye_id, visit.identity, OPERATED_AGAIN)
    settling.end_missed(desk, eye_id)
