"""Patients as people: found by staff, and their records joined."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import tzinfo
from typing import Literal

from followup.care.errors import NotFound
from followup.care.reading import finding
from followup.care.reading.eye import Eye, load
from followup.care.reading.operations import State, histories
from followup.clinical import acuity
from followup.records import Store, events, eyes, messages, patients, people
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Device, Event, Message, Patient, saying
from followup.records.values import Eye as KnownEye


def index(store: Store, patient_id: str) -> None:
    """Keep what a patient is found by: parts of the name, the number, the phone."""
    known = patients.patient(store, patient_id)
    assert known is not None
    patients.index(store, known.id, finding.terms([known.name], [known.number, known.phone, known.carer_phone]))


def index_whoever_is_missing(store: Store) -> None:
    """For records from before people were found by an index."""
    if missing := patients.without_terms(store):
        with store.transaction():
            for known in missing:
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


def chart_in_use(store: Store, last: Mapping[str, Event | None]) -> str:
    """The chart or notation that a patient was last read on, else the clinic; empty where nothing tells."""
    return chart_of(event for event in last.values() if event) or chart_of(events.latest(store, "measures", 20))


def chart_of(told: Iterable[Event]) -> str:
    """The chart or notation of the first of these measures that tells it; empty where none does."""
    for _, body in saying(told, MeasuresBody):
        read = body.acuity or body.pinhole
        if read and (chart := acuity.chart_of(read, body.notation)):
            return chart
    return ""


@dataclass(frozen=True)
class Whole:
    """All that one page says of a patient; `histories` holds every state of each operation's note, `joined` former records."""

    patient: Patient
    eyes: list[Eye]
    histories: dict[str, list[State]]
    devices: list[Device]
    messages: list[Message]
    joined: list[Patient]


def whole(store: Store, patient_id: str, zone: tzinfo) -> Whole:
    """Everything known of a patient; of a record that was joined into another, of that one. Raises `NotFound`."""
    known = standing(store, patient_id)
    both = both_eyes(store, known.id, zone)
    states = histories(store, [note for eye in both for note in eye.notes])
    sent, devices = messages.of_person(store, f"patient:{known.id}"), people.devices_of(store, known.id)
    return Whole(known, both, states, devices, sent, patients.joined_to(store, known.id))


def standing(store: Store, patient_id: str) -> Patient:
    """A patient's record, or the one that it was joined into. Raises `NotFound`."""
    known = patients.patient(store, patient_id)
    if known and known.joined_into:
        known = patients.patient(store, known.joined_into)
    if known is None:
        raise NotFound("there is no such patient")
    return known


def last_reading(eye: Eye, what: Literal["acuity", "iop_mmhg"]) -> Event | None:
    """The latest measures that hold this: an acuity with or without pinhole, a pressure in numbers or by finger."""
    either = ("acuity", "pinhole") if what == "acuity" else ("iop_mmhg", "finger")
    told = saying(reversed(eye.events), MeasuresBody)
    return next((e for e, said in told if any(getattr(said, name) is not None for name in either)), None)
