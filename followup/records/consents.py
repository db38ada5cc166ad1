"""What patients consented to: of one patient and one thing the latest row counts."""

from datetime import datetime

from followup.records.store import Store, new_id
from followup.records.times import to_text
from followup.records.values import Consent, made

_OF = "patient_id IN (SELECT id FROM patients WHERE id = :id OR joined_into = :id)"


def add(store: Store, now: datetime, patient_id: str, what: str, *, given: bool, said_by: str, words: str, by: str) -> None:
    row = {"id": new_id(), "patient_id": patient_id, "at": to_text(now), "what": what, "given": int(given)}
    store.insert("consents", {**row, "said_by": said_by, "words": words, "recorded_by": by})


def of_patient(store: Store, patient_id: str) -> list[Consent]:
    """Everything that was said about consent, the latest first."""
    sql = f"SELECT * FROM consents WHERE {_OF} ORDER BY at DESC, id DESC"
    return [made(Consent, row) for row in store.rows(sql, {"id": patient_id})]


def stands(store: Store, patient_id: str, what: str) -> bool:
    """Whether the patient consented to it, and did not take that back."""
    latest = next((one for one in of_patient(store, patient_id) if one.what == what), None)
    return latest is not None and latest.given
