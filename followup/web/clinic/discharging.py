"""Discharge, from operation note to printed card, and the change of a plan later."""

import re
from collections.abc import Iterable
from datetime import date, datetime
from typing import Any

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer
from pydantic import ValidationError
from wtforms import FieldList

from followup.care import accounts, bounds
from followup.care.discharge import changing, leaving
from followup.care.discharge.note import asks_about, drops_in, steroid_end
from followup.care.discharge.proposal import Proposal, drops_lately, propose
from followup.care.discharge.who import OtherParticulars, Patient, SamePerson, other_particulars
from followup.care.errors import CareError, Conflict
from followup.care.patients import reaching
from followup.care.reading import person
from followup.care.visits import book, in_book
from followup.care.visits.openings import Openings, ahead
from followup.clinical import schedule
from followup.records.bodies.base import first_message
from followup.records.operation_note import OperationNote, Positioning
from followup.records.values import SIDES
from followup.web import context
from followup.web.clinic import clock_face, theatre_list
from followup.web.clinic.blueprint import bp, load_eye, operated_eye
from followup.web.clinic.discharge_forms import SAME_PERSON, DischargeForm, OperationPart, ParticularsPart
from followup.web.clinic.plan_form import PlanForm
from followup.web.fields import field_errors, filled

FORM_ID = re.compile(r"[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}")


@bp.route("/discharge", methods=["GET", "POST"])
def new_discharge() -> Answer:
    """From operation note to printed card: first propose, then adjust and confirm.

    The form's own id becomes the operation's. So a discharge that is confirmed twice, or gone back to, leads to its card.
    """
    asked = request.args.get("form", "")
    id = asked if FORM_ID.fullmatch(asked) else leaving.new_operation_id()
    if leaving.is_discharged(context.store(), id):
        return _to_card(id)
    form = DischargeForm()
    proposal = known = note = None
    asks: list[str] = []
    confirming, lens_set = request.form.get("step") == "confirm", False
    if request.method == "POST":
        lens_set = form.set_lens()
        known = _read(form, confirming)
        try:
            note = None if field_errors(form) else _note(form)
            if note:
                asks = _asks(note, form if confirming else None)
                if confirming and (not asks or form.asked.data == " ".join(asks)):
                    return _confirm(form, note, id)
                proposal = propose(context.store(), note, context.now(), context.zone(), _clinic_days().places)
                if not confirming:
                    _show_proposal(form, proposal)
        except CareError as error:
            beside_field(form, error)
    else:
        form.operated_on.data = context.today()
        _fill_in(form, request.args.get("patient", ""), request.args.get("eye", ""))
        theatre_list.begin(form, id)
    surgeons = accounts.surgeons(context.store())
    if request.method == "GET" and len(surgeons) == 1 and not form.surgeon.data:
        form.surgeon.data = surgeons[0]
    errors = field_errors(form)
    form.asked.data = " ".join(asks)
    page = render_template(
        "clinic/discharge.html",
        id=id,
        who=_who(form),
        form=form,
        proposal=proposal,
        covers=clock_face.covers(proposal) if proposal else (),
        note=note,
        lens_set=lens_set,
        confirming=confirming,
        lately=drops_lately(context.store(), context.zone()),
        asks=asks,
        errors=errors,
        surgeons=surgeons,
        known=known,
        languages=context.LANGUAGES,
    )
    return page, 400 if errors else 200


def _asks(note: OperationNote, form: DischargeForm | None) -> list[str]:
    """What is asked once before it is confirmed: of the note, and of the days of the visits that are kept."""
    days = _clinic_days()
    wanted = [(row.form.name.data, row.form.target.data) for row in form.visits if row.form.keep.data] if form else []
    doubts = [f"{name}: {doubt}" for name, day in wanted if day and (doubt := days.doubt(day))]
    return [*asks_about(note), *(f"{doubt[0].upper()}{doubt[1:]}." for doubt in doubts)]


def _fill_in(form: DischargeForm, patient_id: str, eye: str) -> None:
    """Begin with a person whom the clinic knows, and with the eye that was chosen."""
    known = person.standing(context.store(), patient_id) if patient_id else None
    if known:
        for name in ("number", "name", "born_on", "phone", "language", "carer_phone"):
            form[name].data = getattr(known, name)
    form.eye.data = eye if eye in SIDES else None


def _who(form: DischargeForm) -> Patient | None:
    """Whom the form is about, once that stands in it without a fault."""
    particulars = (form.number, form.name, form.born_on, form.phone, form.language, form.same_person)
    known = form.number.data and form.name.data and form.born_on.data
    return patient_of(form) if known and not any(field.errors for field in particulars) else None


def _read(form: DischargeForm, confirming: bool) -> OtherParticulars | None:
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
    if fault:
        field.errors = [*field.errors, fault]


def _confirm(form: DischargeForm, note: OperationNote, id: str) -> Answer:
    answer: Any = {"written": "written", "recorded": "recorded"}.get(form.same_person.data or "")
    same = SamePerson(answer, form.same_person_mark.data) if answer else None
    try:
        reached = {"reached_by": form.reached_by.data, "carer_phone": (form.carer_phone.data or "").strip()}
        eye_id, code = leaving.discharge(
            context.desk(),
            patient_of(form).model_copy(update=reached),
            note,
            _visits(form),
            same_person=same,
            operation_id=id,
        )
        context.keep_code(eye_id, code)
    except Conflict:  # confirmed a moment ago, by a second press of the button
        pass
    return _to_card(id)


def _to_card(operation_id: str) -> Answer:
    return redirect(url_for(".card", eye_id=load_eye(operation_id).id), 303)


def patient_of(form: ParticularsPart) -> Patient:
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


def _note(form: DischargeForm) -> OperationNote:
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


def _visits(form: DischargeForm) -> list[schedule.Window]:
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


def _show_proposal(form: DischargeForm, proposal: Proposal) -> None:
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
    name = {"operated_at": "operated_on"}.get(error.field or "", error.field or "notes")
    field = getattr(form, name, form.notes)
    say(form.notes if isinstance(field, FieldList) else field, str(error))


def _plan_is_sound(form: PlanForm, operated_at: datetime) -> bool:
    sound = form.validate()
    operated_on = operated_at.astimezone(context.zone()).date()
    for row in form.visits:
        if day := row.form.target.data:
            say(row.form.target, bounds.after_surgery(day, operated_on, context.today(), "the visit"))
    return sound and not field_errors(form)


def _clinic_days() -> Openings:
    return ahead(context.store(), context.settings().clinic, context.today())


@bp.route("/eyes/<eye_id>/plan", methods=["GET", "POST"])
def change_plan(eye_id: str) -> Answer:
    """Change what was left in the eye, the posture or the dates later; shows what changed."""
    eye = operated_eye(eye_id)
    form = PlanForm()
    changed = None
    questions: list[str] = []
    status = 200
    if request.method == "GET":
        form.fill_from(eye.note, eye.open_visits)
        form.callback.data = request.args.get("callback", "")
    elif _plan_is_sound(form, eye.operation.at):
        try:
            note = form.changed(eye.note)
            moves = changing.Moves(context.settings().clinic, form.moves(eye.open_visits), form.answered())
            settles = form.callback.data if form.settles.data else None
            changed = changing.change_plan(context.desk(), eye.id, note, moves, settles)
        except book.Asks as asks:
            questions = asks.questions
            form.ask(questions)
        except CareError as error:
            beside_field(form, error)
            status = 400
    else:
        status = 400
    page = render_template(
        "clinic/plan.html",
        eye=eye,
        form=form,
        changed=changed,
        questions=questions,
        cancelled=in_book.cancelled(context.store(), eye.id),
        errors=field_errors(form),
    )
    return page, status
