"""Discharge: from the operation note to a plan (visits, posture, forecast, cautions), and its record."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta, tzinfo
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, model_validator

from followup.care import bounds, callbacks, enrol, following
from followup.care.actors import Actor
from followup.care.errors import CareError, Conflict
from followup.care.events import DROP_NAME_LENGTH
from followup.care.eye import Eye, load, operation_of, protocol
from followup.care.person import index
from followup.care.visit import move_visit, withdraw_visit
from followup.clinical import acuity, coverage, overfill, posture, pressure, schedule, tamponade
from followup.clinical.course import Operation
from followup.clinical.errors import ClinicalError, OutOfRange
from followup.protocols import book
from followup.records import Store, audit, eyes, patients, visits, worries
from followup.records.store import as_json
from followup.records.values import Patient as KnownPatient

MOST_PLAUSIBLE_DROPS = 12
PROCEDURE_STEPS: dict[str, str] = {
    "vitrectomy": "vitrectomy",
    "membrane-peel": "membranes dissected or peeled",
    "ilm-peel": "inner limiting membrane peeled",
    "laser": "laser to breaks",
    "panretinal-laser": "laser to the whole periphery",
    "cryotherapy": "cryotherapy",
    "fluid-air-exchange": "fluid exchanged for air",
    "retinectomy": "retinectomy",
    "buckle": "scleral buckle",
    "cataract": "cataract removed",
    "anti-vegf": "anti-VEGF injected",
}


class Drop(BaseModel):
    """A drop as the clinic prescribed it; the app repeats it and computes nothing."""

    model_config = ConfigDict(extra="forbid")

    name: Annotated[str, Field(min_length=1, max_length=DROP_NAME_LENGTH)]
    times_a_day: Annotated[int, Field(ge=1, le=24)]
    until: date


class Patient(BaseModel):
    model_config = ConfigDict(extra="forbid")

    number: Annotated[str, Field(min_length=1, max_length=40)]
    name: Annotated[str, Field(min_length=1, max_length=120)]
    born_on: date
    phone: Annotated[str, Field(max_length=40)] = ""
    language: str = "en"


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


class OperationNote(BaseModel):
    """What the nurse copies from the operation note."""

    model_config = ConfigDict(extra="forbid")

    eye: str
    operated_at: datetime
    surgeon: str
    indication: str
    steps: list[str] = []
    breaks: list[dict[str, Any]] = []
    lens: str
    agent: str
    percent: float = 0
    fill_percent: float = 0
    risks: list[str] = []
    baseline: dict[str, Any] = {}
    drops: Annotated[list[Drop], Field(max_length=MOST_PLAUSIBLE_DROPS)] = []
    steroid_drops_until: date | None = None
    height_metres: float = 0
    posture: dict[str, Any] | None = None
    notes: str = ""

    @model_validator(mode="after")
    def _aware(self) -> "OperationNote":
        if self.operated_at.tzinfo is None:
            raise ValueError("the time of surgery needs its offset")
        return self

    def body(self, zone: tzinfo) -> dict[str, Any]:
        """The record's body. Drops end with the local day."""
        body = self.model_dump(mode="json", exclude={"eye", "operated_at", "agent", "surgeon"})
        if self.steroid_drops_until:
            end = datetime.combine(self.steroid_drops_until + timedelta(days=1), datetime.min.time(), zone)
            body |= {"steroid_drops_until": end.isoformat(), "steroid_last_day": self.steroid_drops_until.isoformat()}
        return body


@dataclass(frozen=True)
class Proposal:
    """What the app proposes from an operation note, for the nurse to adjust and confirm.

    `asks` is what `asks_about` says of the note.
    """

    operation: Operation
    visits: list[schedule.Window]
    plan: posture.Plan | None
    covers: list[coverage.Cover]
    cover_lost_day: float | None
    forecast: tamponade.Forecast
    unplaced: dict[str, str]
    asks: str | None = None


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


def check_days(note: OperationNote, visits: Sequence[schedule.Window], now: datetime, zone: tzinfo) -> None:
    """Raise `CareError` for a day that cannot be after this operation."""
    today, operated_on = now.astimezone(zone).date(), note.operated_at.astimezone(zone).date()
    if fault := bounds.surgery(operated_on, today):
        raise CareError(fault, "operated_at")
    days = [(drop.until, f"the last day of {drop.name}", "drops") for drop in note.drops]
    days += [(day, f"the visit {v.name}", "visits") for v in visits for day in (v.target, v.earliest, v.latest)]
    if note.steroid_drops_until:
        days.append((note.steroid_drops_until, "the last day of steroid drops", "steroid_drops_until"))
    for day, what, field in days:
        if fault := bounds.after_surgery(day, operated_on, today, what):
            raise CareError(fault, field)


def operation_from(note: OperationNote, now: datetime, zone: tzinfo) -> Operation:
    """The clinical operation of a note. Raises `CareError` beside the field that cannot be."""
    if note.operated_at > now:
        raise CareError("the date of surgery lies in the future", "operated_at")
    check_days(note, (), now, zone)
    try:
        tamponade.forecast(note.agent, note.percent, 0)
    except ClinicalError as error:
        field = "percent" if isinstance(error, OutOfRange) else "agent"
        raise CareError(str(error), field) from error
    try:
        tamponade.forecast(note.agent, note.percent, note.fill_percent)
    except ClinicalError as error:
        raise CareError(str(error), "fill_percent") from error
    if note.agent != "none" and note.fill_percent == 0:
        raise CareError("write how full the eye was at the end of surgery, for example 90", "fill_percent")
    try:
        if note.baseline.get("acuity"):
            acuity.read(note.baseline["acuity"], note.baseline.get("notation"))
    except ClinicalError as error:
        raise CareError(str(error), "baseline_acuity") from error
    try:
        if note.baseline.get("iop_mmhg") is not None:
            pressure.read(note.baseline["iop_mmhg"])
    except ClinicalError as error:
        raise CareError(str(error), "baseline_iop") from error
    try:
        return operation_of(note.eye, note.operated_at, note.agent, note.body(zone))
    except ClinicalError as error:
        raise CareError(str(error)) from error


def propose(
    store: Store, note: OperationNote, now: datetime, zone: tzinfo, clinic_days: dict[date, int] | None = None
) -> Proposal:
    """Visits from the review protocol (on open clinic days), posture from plans and geometry, forecast from the agent."""
    operation = operation_from(note, now, zone)
    moves = tamponade.AGENTS[operation.agent].moves
    plan = book.propose_plan(
        book.postures(protocol(store, "postures").text),
        operation.agent,
        operation.indication,
        operation.breaks,
        operation.fill_percent,
    )
    operated_on = operation.at.astimezone(zone).date()
    wanted = schedule.windows(book.reviews(protocol(store, "reviews").text), operated_on, operation.agent, operation.risks)
    windows, unplaced = _on_clinic_days(store, wanted, clinic_days)
    forecast = tamponade.forecast(operation.agent, operation.percent, operation.fill_percent, operation.lens)
    with_bubble = operation.breaks and operation.agent != "none"
    covers = coverage.best_postures(operation.breaks, operation.fill_percent, moves) if with_bubble else []
    lost = tamponade.cover_lost(forecast, operation.breaks, plan.position) if plan else None
    return Proposal(operation, windows, plan, covers, lost.median if lost else None, forecast, unplaced, asks_about(note))


def asks_about(note: OperationNote) -> str | None:
    """A question about a gas strength and fill that together outgrow the eye; None where they fit, or are refused anyway."""
    try:
        return overfill.question(note.agent, note.percent, note.fill_percent)
    except ClinicalError:
        return None


def discharge(
    store: Store,
    now: datetime,
    actor: Actor,
    patient: Patient,
    note: OperationNote,
    windows: Sequence[schedule.Window],
    zone: tzinfo,
    *,
    same_person: SamePerson | None = None,
    operation_id: str | None = None,
) -> tuple[str, str]:
    """Record patient, operation, plan and visits, and issue an enrolment code. Returns (eye id, code).

    An eye that was operated before begins anew: what the earlier operation had still planned is taken out of the book.
    `same_person` answers what `other_particulars` asks. `operation_id` is the form's own: confirmed twice, it raises
    `Conflict` and changes nothing.
    """
    check_patient(patient, now.astimezone(zone).date())
    operation_from(note, now, zone)
    check_days(note, windows, now, zone)
    with store.transaction():
        if operation_id and eyes.has_operation(store, operation_id):
            raise Conflict("this discharge has been confirmed")
        patient_id = _patient(store, now, actor, patient, same_person)
        eye = next(known for known in eyes.of_patient(store, patient_id) if known.side == note.eye)
        if eye.note is None or eye.note.operated_at < note.operated_at:
            _end_earlier_plan(store, now, actor, eye.id, zone)
        operation_id = eyes.add_operation(store, now, eye.id, operation_id)
        _record(store, now, operation_id, note, actor, zone)
        for window in windows:
            add_visit(store, now, eye.id, window, actor)
        following.follow(store, now, actor, eye, "operation")
        code = enrol.issue_code(store, now, actor, patient_id)
        audit.note(store, now, actor.signature, "discharge", eye.id, {"agent": note.agent, "eye": note.eye})
    return eye.id, code


def _end_earlier_plan(store: Store, now: datetime, actor: Actor, eye_id: str, zone: tzinfo) -> None:
    """A new operation ends what the one before had planned and what is still to come of it."""
    eye = load(store, eye_id, zone)
    for visit in eye.open_visits:
        if visit.latest >= now.astimezone(zone).date():
            withdraw_visit(store, now, actor, eye_id, visit.identity)


def _patient(store: Store, now: datetime, actor: Actor, patient: Patient, same_person: SamePerson | None) -> str:
    """The patient's id; a new patient, or the known one, whose particulars change only where somebody said so."""
    known = patients.by_number(store, patient.number)
    if known is None:
        id = patients.add(store, now, **patient.model_dump())
        index(store, id)
        return id
    other = other_particulars(store, patient)
    if other is None:
        return known.id
    if same_person is None or same_person.mark != other.mark:
        raise CareError(
            "this number belongs to a patient with other particulars: say whether it is the same person", "number"
        )
    if same_person.right == "written":
        patients.correct(store, known.id, **patient.model_dump() | {"number": known.number})
        index(store, known.id)
        audit.note(
            store,
            now,
            actor.signature,
            "particulars corrected",
            known.id,
            {"before": other.recorded, "after": other.written},
        )
    else:
        audit.note(
            store, now, actor.signature, "particulars kept", known.id, {"kept": other.recorded, "written": other.written}
        )
    return known.id


def change_plan(
    store: Store,
    now: datetime,
    actor: Actor,
    eye_id: str,
    note: OperationNote,
    zone: tzinfo,
    moves: dict[str, date] | None = None,
    settles: str | None = None,
) -> list[tuple[str, Any, Any]]:
    """Record a changed operation note or plan, and visits moved to other days; returns what differs as (what, before, after).

    `settles` is a callback of this eye that the change answers: it stays open until the patient is told what changed.
    """
    operation_from(note, now, zone)
    moved = [schedule.Window("moved", day, day, day, "") for day in (moves or {}).values()]
    check_days(note, moved, now, zone)
    answered = worries.callback(store, settles) if settles else None
    if settles and (answered is None or answered.eye_id != eye_id):
        raise CareError("that callback is about another eye")
    with store.transaction():
        before = load(store, eye_id, zone)
        _record(store, now, before.note.operation_id, note, actor, zone)
        for visit_id, target in (moves or {}).items():
            move_visit(store, now, actor, visit_id, eye_id, target)
        differences = changes(before, load(store, eye_id, zone))
        audit.note(store, now, actor.signature, "plan changed", eye_id, differences)
        if settles and differences:
            said = ", ".join(what.replace("_", " ") for what, _, _ in differences)
            callbacks.tell_of_plan(store, now, actor, settles, f"plan changed: {said}")
    return differences


def changes(before: Eye, after: Eye) -> list[tuple[str, Any, Any]]:
    """What differs between two records of one operation."""
    old, new = (
        {**eye.note.body, "agent": eye.note.agent, "operated_at": eye.note.operated_at.isoformat()}
        | {f"visit {v.name}": v.target.isoformat() for v in eye.visits}
        for eye in (before, after)
    )
    return [(key, old.get(key), new.get(key)) for key in sorted({*old, *new}) if old.get(key) != new.get(key)]


def add_visit(
    store: Store, now: datetime, eye_id: str, visit: schedule.Window, actor: Actor, replaces: str | None = None
) -> str:
    return visits.add(
        store,
        now,
        eye_id,
        visit.name,
        visit.target,
        visit.earliest,
        visit.latest,
        visit.reason,
        actor.signature,
        replaces,
    )


def _record(store: Store, now: datetime, operation_id: str, note: OperationNote, actor: Actor, zone: tzinfo) -> None:
    eyes.add_note(
        store,
        now,
        operation_id,
        note.eye,
        note.operated_at,
        note.agent,
        note.surgeon,
        note.body(zone),
        actor.signature,
    )


def _on_clinic_days(
    store: Store, wanted: list[schedule.Window], places: dict[date, int] | None
) -> tuple[list[schedule.Window], dict[str, str]]:
    """Move each window's target onto an open clinic day with a place; what finds none keeps its target and is named."""
    if not wanted or places is None:
        return wanted, {}
    booked = visits.booked_counts(store)
    free = {day: seats - booked.get(day, 0) for day, seats in places.items()}
    found = schedule.book([schedule.Request(w.name, w.target, w.earliest, w.latest) for w in wanted], free)
    moved = [schedule.Window(w.name, found.placed.get(w.name, w.target), w.earliest, w.latest, w.reason) for w in wanted]
    return moved, found.unplaced
