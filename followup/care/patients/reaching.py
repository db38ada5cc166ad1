"""How a patient is reached: by the phone pages on their own or a carer's phone, or on paper and by planned calls."""

from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.reading.person import index, standing
from followup.care.watch.raising import raise_signs_of_patient
from followup.records import patients
from followup.records.values import Patient

WAYS: dict[str, str] = {
    "own-phone": "the phone pages, on the patient’s own phone",
    "carer-phone": "the phone pages, on a carer’s phone",
    "no-app": "no app: paper diary, and we call on fixed days",
}


def check(reached_by: str, phone: str, carer_phone: str) -> None:
    """Raise `CareError` for a way that cannot work: nobody chose one, or there is no number to call."""
    if reached_by not in WAYS:
        raise CareError("say how the patient is reached", "reached_by")
    if reached_by == "carer-phone" and not carer_phone.strip():
        raise CareError("write the carer’s phone number", "carer_phone")
    if reached_by == "no-app" and not phone.strip() and not carer_phone.strip():
        raise CareError("without the app we call: write a number of the patient or a carer", "carer_phone")


def put(desk: Desk, patient_id: str, reached_by: str, carer_phone: str) -> Patient:
    """From now on the patient is reached so; what silence or planned calls raise counts from now. Returns the patient."""
    with desk.store.transaction():
        known = standing(desk.store, patient_id)
        carer_phone = carer_phone.strip()
        check(reached_by, known.phone, carer_phone)
        if (reached_by, carer_phone) == (known.reached_by, known.carer_phone):
            return known
        patients.put_reach(desk.store, desk.now, known.id, reached_by, carer_phone)
        index(desk.store, known.id)
        before, after = (known.reached_by, known.carer_phone), (reached_by, carer_phone)
        desk.note("reached by", known.id, {"before": before, "after": after})
        raise_signs_of_patient(desk.store, known.id, desk.now, desk.zone)
        return standing(desk.store, known.id)
