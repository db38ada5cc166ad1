"""What patients consented to: of one patient and one thing the latest row counts."""

from datetime import datetime

from followup.records.store import Store, new_id
from followup.records.times import to_text
from followup.records.values import Consent, made

PHONE = "phone"
"""What a patient consents to before a phone is set up and any message goes out."""
_OF = "patient_id IN (SELECT id FROM patients WHERE id = :id OR joined_into = :id)"
_OF_PHONE = (
    f"c.what = '{PHONE}' AND c.patient_id IN (SELECT p.id FROM patients p WHERE p.id = {{id}} OR p.joined_into = {{id}})"
)


def add(store: Store, now: datetime, patient_id: str, what: str, *, given: bool, said_by: str, words: str, by: str) -> None:
    row = {"id": new_id(), "patient_id": patient_id, "at": to_text(now), "what": what, "given": int(given)}
    store.insert("consents", {**row, "said_by": said_by, "words": words, "recorded_by": by})


def of_patient(store: Store, patient_id: str) -> list[Consent]:
    """Everything that was said about consent, the latest first."""
    sql = f"SELECT * FROM consents WHERE {_OF} ORDER BY at DESC, id DESC"
    return [made(Consent, row) for row in store.rows(sql, {"id": patient_id})]


def stands(store: Store, patient_id: str, what: str) -> bool:
    """Whether the patient consented to it, and did not take that back."""
    latest = _latest(store, patient_id, what)
    return latest is not None and latest.given


def taken_back(store: Store, patient_id: str) -> bool:
    """Whether the patient consented to the phone pages and took that back; not where nobody ever asked."""
    latest = _latest(store, patient_id, PHONE)
    return latest is not None and not latest.given


def _latest(store: Store, patient_id: str, what: str) -> Consent | None:
    return next((one for one in of_patient(store, patient_id) if one.what == what), None)


def not_taken_back(id: str) -> str:
    """SQL: the patient whose id this column or parameter holds did not, or consented anew since."""
    latest = f"SELECT c.given FROM consents c WHERE {_OF_PHONE.format(id=id)} ORDER BY c.at DESC, c.id DESC LIMIT 1"
    return f"coalesce(({latest}), 1)"


def not_taken_back_since(id: str, at: str) -> str:
    """SQL: the patient with that id did not take consent back at a time or later, whatever was said after that."""
    return f"NOT EXISTS (SELECT 1 FROM consents c WHERE {_OF_PHONE.format(id=id)} AND c.at >= {at} AND NOT c.given)"
