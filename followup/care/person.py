"""Patients as people: found by staff, and their records joined."""

from collections.abc import Iterable
from datetime import tzinfo

from followup.care import finding
from followup.care.eye import Eye, load
from followup.records import Store, eyes, patients
from followup.records.values import Event
from followup.records.values import Eye as KnownEye


def index(store: Store, patient_id: str) -> None:
    """Keep what a patient is found by: parts of the name, the number, the phone."""
    known = patients.patient(store, patient_id)
    assert known is not None
    patients.index(store, known.id, finding.terms([known.name], [known.number, known.phone]))


def index_whoever_is_missing(store: Store) -> None:
    """For records from before people were found by an index."""
    with store.transaction():
        for known in patients.without_terms(store):
            index(store, known.id)


def both_eyes(store: Store, patient_id: str, zone: tzinfo) -> list[Eye]:
    """Everything known of a patient's right and left eye."""
    return [load(store, known.id, zone) for known in eyes.of_patient(store, patient_id)]


def eyes_beside(store: Store, eye_id: str) -> list[KnownEye]:
    """That eye and its fellow; none where there is no such eye."""
    known = eyes.eye(store, eye_id)
    return eyes.of_patient(store, known.patient.id) if known else []


def last_measures(both: Iterable[Eye]) -> dict[str, Event | None]:
    """The latest measures by side."""
    return {eye.side: next((e for e in reversed(eye.events) if e.kind == "measures"), None) for eye in both}
