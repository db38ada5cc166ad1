"""The end of a record: who it was and what was written in words is emptied, on wish or when its time is over."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.patients import following
from followup.care.reading.person import standing
from followup.records import Store, erasing, eyes, patients
from followup.records.erasing import clean_file as clean_file
from followup.records.values import Patient

DAYS_A_YEAR = 365.2425


@dataclass(frozen=True, slots=True)
class Past:
    """A record whose time is over: when follow-up ended, and how many of its rows would be emptied."""

    patient: Patient
    ended_at: datetime
    rows: int


def past(store: Store, now: datetime, years: int) -> list[Past]:
    """Records whose follow-up ended longer ago than that, the earliest first; without what was emptied already."""
    found = patients.finished_before(store, now - timedelta(days=round(DAYS_A_YEAR * years)))
    counted = [Past(known, ended, erasing.many(store, known.id)) for known, ended in found]
    return [one for one in counted if one.rows]


def rows(store: Store, patient_id: str) -> int:
    """How many rows of a patient would be emptied. Raises `Conflict` as `erase` does."""
    return erasing.many(store, _ended(store, patient_id).id)


def erase(desk: Desk, patient_id: str, why: str) -> int:
    """Empty a patient's record and lock its phones out; returns how many rows were emptied.

    Counts, course and seals stay. Raises `Conflict` while an eye is followed or something is open about one: nobody who
    still needs somebody is made nameless.
    """
    if not why.strip():
        raise CareError("say why this record is erased", "why")
    with desk.store.transaction():
        known = _ended(desk.store, patient_id)
        return len(erasing.erase(desk.store, desk.now, known.id, desk.actor.signature, why.strip()))


def _ended(store: Store, patient_id: str) -> Patient:
    """The patient, once nobody of theirs is followed and nothing is open. Raises `Conflict`."""
    known = standing(store, patient_id)
    both = eyes.of_patient(store, known.id)
    if any(eye.is_followed for eye in both):
        raise Conflict("an eye of this patient is followed: end follow-up first")
    open_ones = following.still_open(store, both)
    if open_ones or any(not task.done_at for one in open_ones for task in one.tasks):
        raise Conflict("a callback of this patient is open: settle it first")
    return known
