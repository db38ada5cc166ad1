"""What the forms of a discharge, of a plan and of a note say: each fault beside its field, then typed values."""

from collections.abc import Iterable
from datetime import date, datetime
from typing import Any

from pydantic import ValidationError
from wtforms import FieldList

from followup.care import bounds
from followup.care.discharge.note import drops_in, steroid_end
from followup.care.discharge.proposal import Proposal
from followup.care.discharge.who import OtherParticulars, Patient, other_particulars
from followup.care.errors import CareError
from followup.care.patients import reaching
from followup.clinical import schedule
from followup.records.bodies.base import first_message
from followup.records.operation_note import OperationNote, Positioning
from followup.web import context
from followup.web.clinic.discharge_forms import SAME_PERSON, DischargeForm, OperationPart, ParticularsPart
from followup.web.clinic.plan_form import PlanForm
from followup.web.fields import field_errors, filled


def who_in(form: DischargeForm) -> Patient | None:
    """Whom the form is about, once that stands in it without a fault."""
    particulars = (form.number, form.name, form.born_on, form.phone, form.language, form.same_person)
    known = form.number.data and form.name.data and form.born_on.data
    return patient_of(form) if known and not any(field.errors for field in particulars) else None


def read(form: DischargeForm, confirming: bool) -> OtherParticulars | None:
    """Check the form, each fault beside its field; returns what the records have otherwise about this hospital number."""
    form.validate()
    if confirming:
        for row in form.visits:
            if row.form.keep.data and not row.form.name.data:
                say(row.form.name, "write what this visit is called, or untick Keep")
            if row.form.keep.data and not filled(row.form.target):
                say(row.form.target, "write the date of this visit, or untick Keep")
    if form.born_on.data:
        say(form.born_on, bounds.birth(form.born_on.data, context.today()))
    if form.reached_by.data:
        try:
            reaching.check(form.reached_by.data, form.phone.data or "", form.carer_phone.data or "")
        except CareError as error:
            beside_field(form, error)
    check_operation(form, form.visits)
    particulars = (form.number, form.name, form.born_on, form.phone, form.language)
    return None if any(field.errors for field in particulars) else _known_number(form)


def check_operation(form: OperationPart, visits: Iterable[Any] = ()) -> None:
    """Say beside the fields which day of an operation, its drops or its visits is missing or cannot be."""
    operated_on, today = form.operated_on.data, context.today()
    fault = bounds.surgery(operated_on, today) if operated_on else None
    say(form.operated_on, fault)
    try:
        drops_in(form.drops.data or "", today if fault or not operated_on else operated_on, today)
    except CareError as error:
        say(form.drops, str(error))
    if fault or not operated_on:
        return
    days = [(form.steroid_drops_until, "the last day")] + [
        (row.form.target, "the visit") for row in visits if row.form.keep.data
    ]
    for field, what in days:
        if field.data:
            say(field, bounds.after_surgery(field.data, operated_on, today, what))


def _known_number(form: DischargeForm) -> OtherParticulars | None:
    """Ask where the number is known with other particulars; an answer counts for exactly what was shown."""
    other = other_particulars(context.store(), patient_of(form))
    if other is None:
        return None
    if form.same_person_mark.data != other.mark or form.same_person.data not in SAME_PERSON:
        form.same_person.data = None
        say(form.same_person, "this hospital number is known with other particulars: say which are right")
    elif form.same_person.data == "another":
        say(form.number, f"this is the number of {other.recorded['name']}: write this patient’s own")
    form.same_person_mark.data = other.mark
    return other


def say(field: Any, fault: str | None) -> None:
    """Add a fault, where there is one, beside a field."""
    if fault:
        field.errors = [*field.errors, fault]


def patient_of(form: ParticularsPart) -> Patient:
    """Who the form says the patient is. Raises `CareError`."""
    try:
        return Patient(
            number=form.number.data.strip(),
            name=form.name.data.strip(),
            born_on=form.born_on.data,
            phone=(form.phone.data or "").strip(),
            language=form.language.data,
        )
    except ValidationError as error:
        raise CareError(first_message(error)) from error


def note_in(form: DischargeForm) -> OperationNote:
    """The note that a discharge says, with its posture plan, at the height of the clinic. Raises `CareError`."""
    plan = None
    if form.position.data and form.days.number:
        plan = {"position": form.position.data, "hours_a_day": form.hours_a_day.number or 0, "days": int(form.days.number)}
    return note_of(form, plan, context.settings().clinic.height_metres)


def note_of(form: OperationPart, plan: dict[str, Any] | Positioning | None, height_metres: float) -> OperationNote:
    """The note that a form's operation part says, with a posture plan and the height of the place. Raises `CareError`."""
    operated_at = datetime.combine(form.operated_on.data, form.operated_time.data, context.zone())
    drops = drops_in(form.drops.data or "", form.operated_on.data, context.today())
    try:
        return OperationNote(
            eye=form.eye.data,
            operated_at=operated_at,
            surgeon=form.surgeon.data.strip(),
            indication=form.indication.data,
            steps=form.steps.data,
            breaks=form.breaks.breaks,
            lens=form.lens.data,
            agent=form.agent.data,
            percent=_percent(form),
            fill_percent=form.fill_percent.number or 0,
            risks=form.risks.data,
            baseline=_baseline(form),
            drops=drops,
            steroid_drops_until=form.steroid_drops_until.data or steroid_end(drops),
            height_metres=height_metres,
            posture=plan,
            notes=form.notes.data or "",
        )
    except ValidationError as error:
        raise CareError(first_message(error)) from error


def _percent(form: OperationPart) -> float:
    typed = form.percent.number
    return typed if typed is not None else (100.0 if form.agent.data == "air" else 0.0)


def _baseline(form: OperationPart) -> dict[str, Any]:
    baseline = {
        "acuity": (form.baseline_acuity.data or "").strip() or None,
        "notation": form.baseline_notation.data or None,
        "iop_mmhg": form.baseline_iop.mmhg,
    }
    return {key: value for key, value in baseline.items() if value is not None}


def visits_in(form: DischargeForm) -> list[schedule.Window]:
    """The visits that are kept, each with its window around its day."""
    windows = []
    for row in form.visits:
        f = row.form
        if f.keep.data:
            earliest = min(_date(f.earliest.data) or f.target.data, f.target.data)
            latest = max(_date(f.latest.data) or f.target.data, f.target.data)
            windows.append(schedule.Window(f.name.data, f.target.data, earliest, latest, f.reason.data or ""))
    return windows


def _date(text: str | None) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        return None


def show_proposal(form: DischargeForm, proposal: Proposal) -> None:
    """Put what is proposed into the form's own fields, for the nurse to change."""
    plan = proposal.plan
    form.position.data = plan.position if plan else ""
    form.hours_a_day.data = f"{plan.hours_a_day:g}" if plan else ""
    form.days.data = str(plan.days) if plan else ""
    while form.visits.entries:
        form.visits.pop_entry()
    for window in proposal.visits:
        form.visits.append_entry(
            {
                "keep": True,
                "name": window.name,
                "target": window.target,
                "earliest": window.earliest.isoformat(),
                "latest": window.latest.isoformat(),
                "reason": window.reason,
            }
        )


def beside_field(form: Any, error: CareError) -> None:
    """Say a fault beside the field that it names; beside the notes where there is none."""
    name = {"operated_at": "operated_on"}.get(error.field or "", error.field or "notes")
    field = getattr(form, name, form.notes)
    say(form.notes if isinstance(field, FieldList) else field, str(error))


def plan_is_sound(form: PlanForm, operated_at: datetime) -> bool:
    """Check the form of a plan, each fault beside its field."""
    sound = form.validate()
    operated_on = operated_at.astimezone(context.zone()).date()
    for row in form.visits:
        if day := row.form.target.data:
            say(row.form.target, bounds.after_surgery(day, operated_on, context.today(), "the visit"))
    return sound and not field_errors(form)
