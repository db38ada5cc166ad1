"""Who a patient is: particulars that were written down wrongly are put right."""

from followup.care import bounds
from followup.care.corrections.correcting import reason_of
from followup.care.desk import Desk
from followup.care.discharge.who import PARTICULARS, Patient, check_patient
from followup.care.errors import CareError, Conflict
from followup.care.reading.person import index, standing
from followup.records import patients


def correct(desk: Desk, patient_id: str, written: Patient, reason: str) -> list[tuple[str, str, str]]:
    """Replace a patient's particulars; returns what differs as (what, before, after), which the audit keeps with the reason.

    Of a record that was joined those of the person. Raises `Conflict` where the number belongs to somebody else or to such a
    record, `NotFound`, and `CareError` for what cannot be or changes nothing.
    """
    why = reason_of(reason)
    check_patient(written, desk.today)
    with desk.store.transaction():
        stands = standing(desk.store, patient_id)
        other = patients.by_number(desk.store, written.number)
        if other is not None and other.id != stands.id:
            born = bounds.words(other.born_on)
            raise Conflict(f"this number belongs to somebody else: {other.name}, born {born}", "number")
        if other is not None and written.number != stands.number:
            raise Conflict(f"{written.number} is a former number of this patient, and finds them already", "number")
        keys = ("number", *PARTICULARS)
        before, after = ({key: str(getattr(person, key)) for key in keys} for person in (stands, written))
        if before == after:
            raise CareError("nothing was changed")
        patients.correct(desk.store, stands.id, **written.particulars)
        index(desk.store, stands.id)
        detail = {"before": before, "after": after, "reason": why}
        desk.note("particulars corrected", stands.id, detail)
    return [(key, before[key], after[key]) for key in keys if before[key] != after[key]]
