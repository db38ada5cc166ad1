"""Whose operation it is: a new patient, or one already known, with what differs between the two."""

import hashlib
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field

from followup.care import bounds
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.reading.person import index
from followup.records import Store, patients
from followup.records.store import as_json
from followup.records.values import Patient as KnownPatient


class Patient(BaseModel):
    model_config = ConfigDict(extra="forbid")

    number: Annotated[str, Field(min_length=1, max_length=40)]
    name: Annotated[str, Field(min_length=1, max_length=120)]
    born_on: date
    phone: Annotated[str, Field(max_length=40)] = ""
    language: str = "en"
    reached_by: Literal["", "own-phone", "carer-phone", "no-app"] = ""
    carer_phone: Annotated[str, Field(max_length=40)] = ""

    @property
    def particulars(self) -> dict[str, Any]:
        """Who it is, without how they are reached."""
        return self.model_dump(exclude={"reached_by", "carer_phone"})


PARTICULARS = ("name", "born_on", "phone", "language")


@dataclass(frozen=True)
class OtherParticulars:
    """A hospital number is known with other particulars than those that were written now.

    `mark` stands for exactly these two sets, so that an answer about them cannot be taken for one about others.
    """

    recorded: dict[str, str]
    written: dict[str, str]
    mark: str


@dataclass(frozen=True)
class SamePerson:
    """The answer: whose particulars are right for the one person that both sets mean."""

    right: Literal["written", "recorded"]
    mark: str


def check_patient(patient: Patient, today: date) -> None:
    """Raise `CareError` for a person who cannot be."""
    if fault := bounds.birth(patient.born_on, today):
        raise CareError(fault, "born_on")


def other_particulars(store: Store, patient: Patient) -> OtherParticulars | None:
    """What stands in the records under this number, where that differs from what was written; None where nothing does."""
    known = patients.by_number(store, patient.number)
    if known is None:
        return None
    recorded, written = _particulars(known), _particulars(patient)
    if recorded == written:
        return None
    mark = hashlib.sha256(as_json([patient.number, recorded, written]).encode()).hexdigest()[:16]
    return OtherParticulars(recorded, written, mark)


def _particulars(person: Patient | KnownPatient) -> dict[str, str]:
    return {key: str(getattr(person, key)) for key in PARTICULARS}


def known_or_new_patient(desk: Desk, patient: Patient, same_person: SamePerson | None) -> str:
    """The patient's id; a new patient, or the known one, whose particulars change only where somebody said so."""
    known = patients.by_number(desk.store, patient.number)
    if known is None:
        id = patients.add(desk.store, desk.now, **patient.particulars)
        index(desk.store, id)
        return id
    other = other_particulars(desk.store, patient)
    if other is None:
        return known.id
    if same_person is None or same_person.mark != other.mark:
        raise CareError(
            "this number belongs to a patient with other particulars: say whether it is the same person", "number"
        )
    if same_person.right == "written":
        patients.correct(desk.store, known.id, **patient.particulars | {"number": known.number})
        index(desk.store, known.id)
        desk.note(
            "particulars corrected",
            known.id,
            {"before": other.recorded, "after": other.written},
        )
    else:
        desk.note(
            "particulars kept",
            known.id,
            {"kept": other.recorded, "written": other.written},
        )
    return known.id
