"""Consent: what a patient agreed to, who said so, when, and when it was taken back. Without it no phone is set up.

Once it is taken back nothing is sent (`records/messages.py` and `records/states.py` ask for it).
"""

from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.home import enrol
from followup.care.reading.person import standing
from followup.records import Store, consents, people
from followup.records.values import Consent

PHONE = enrol.CONSENT
TOLD: dict[str, str] = {
    PHONE: "what is entered on the phone goes to the clinic and into the patient’s record; "
    "it is looked at in clinic hours, not round the clock; this can be taken back at any time",
}
"""What the patient is told of each thing that is asked."""
SAID_BY: dict[str, str] = {"patient": "the patient", "representative": "somebody who may speak for the patient"}


def history(store: Store, patient_id: str) -> list[Consent]:
    """Everything that was said about consent, the latest first."""
    return consents.of_patient(store, standing(store, patient_id).id)


def stands(store: Store, patient_id: str) -> bool:
    """Whether the patient consented to the phone pages, and did not take that back."""
    return consents.stands(store, standing(store, patient_id).id, PHONE)


def give(desk: Desk, patient_id: str, said_by: str, words: str) -> None:
    """The patient, or who speaks for the patient, consents to the phone pages."""
    _record(desk, patient_id, said_by, words, given=True)


def take_back(desk: Desk, patient_id: str, said_by: str, words: str) -> None:
    """Consent is taken back: every phone is locked out, and no message goes out any more. What was recorded stays.

    How the patient chose to be reached counts no more, also once consent is given anew. Raises `Conflict` where none stands.
    """
    with desk.store.transaction():
        if not stands(desk.store, patient_id):
            raise Conflict("there is no consent to take back")
        _record(desk, patient_id, said_by, words, given=False)
        for device in people.devices_of(desk.store, standing(desk.store, patient_id).id):
            if device.revoked_at is None:
                enrol.revoke(desk, device.id)


def _record(desk: Desk, patient_id: str, said_by: str, words: str, *, given: bool) -> None:
    words = words.strip()
    if said_by not in SAID_BY:
        raise CareError("say who said so", "said_by")
    if said_by == "representative" and not words:
        raise CareError("write who spoke for the patient", "words")
    with desk.store.transaction():
        known = standing(desk.store, patient_id)
        by = desk.actor.signature
        consents.add(desk.store, desk.now, known.id, PHONE, given=given, said_by=said_by, words=words, by=by)
        desk.note("consent given" if given else "consent taken back", known.id, {"what": PHONE, "said_by": said_by})
