"""Who a patient is: particulars that were written down wrongly are put right."""

from datetime import datetime, tzinfo

from followup.care import bounds
from followup.care.actors import Actor
from followup.care.corrections.correcting import reason_of
from followup.care.discharge.who import PARTICULARS, Patient, check_patient
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.person import index
from followup.records import Store, audit, patients
from followup.records.values import Patient as KnownPatient


def known(store: Store, patient_id: str) -> KnownPatient:
    """A patient of the records; raises `NotFound`."""
    found = patients.patient(store, patient_id)
    if found is None:
        raise NotFound("there is no such patient in the records")
    return found


def correct(
    store: Store, now: datetime, actor: Actor, patient_id: str, written: Patient, reason: str, zone: tzinfo
) -> list[tuple[str, str, str]]:
    """Replace a patient's particulars; returns what differs as (what, before, after), which the audit keeps with the reason.

    Raises `Conflict` where the number belongs to somebody else, `CareError` for what cannot be or changes nothing.
    """
    why = reason_of(reason)
    check_patient(written, now.astimezone(zone).date())
    with store.transaction():
        stands = known(store, patient_id)
        other = patients.by_number(store, written.number)
        if other is not None and other.id != patient_id:
            born = bounds.words(other.born_on)
            raise Conflict(f"this number belongs to somebody else: {other.name}, born {born}", "number")
        keys = ("number", *PARTICULARS)
        before, after = ({key: str(getattr(person, key)) for key in keys} for person in (stands, written))
        if before == after:
            raise CareError("nothing was changed")
        patients.correct(store, patient_id, **written.model_dump())
        index(store, patient_id)
        detail = {"before": before, "after": after, "reason": why}
        audit.note(store, now, actor.signature, "particulars corrected", patient_id, detail)
    return [(key, before[key], after[key]) for key in keys if before[key] != after[key]]
