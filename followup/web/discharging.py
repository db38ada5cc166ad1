"""Discharge, from operation note to printed card, and the change of a plan later."""

from datetime import date, datetime, timedelta
from typing import Any

from flask import redirect, render_template, request, session, url_for
from pydantic import ValidationError

from followup.care import discharge
from followup.care.errors import CareError
from followup.care.events import first_message
from followup.care.openings import open_days
from followup.clinical import schedule
from followup.records import people
from followup.web import context
from followup.web.clinic import bp, load_eye
from followup.web.forms import DischargeForm, PlanForm, field_errors

BOOKING_HORIZON = timedelta(days=400)


@bp.route("/discharge", methods=["GET", "POST"])
@context.staff_only()
def new_discharge() -> Any:
    """From operation note to printed card: first propose, then adjust and confirm."""
    form = DischargeForm()
    proposal = None
    status = 200
    if request.method == "POST":
        valid = form.validate()
        confirming = request.form.get("step") == "confirm"
        try:
            if valid:
                note = _note(form)
                _check_person(form)
                if confirming:
                    return _confirm(form, note)
                proposal = discharge.propose(context.store(), note, context.now(), context.zone(), _clinic_days())
                _show_proposal(form, proposal)
            else:
                status = 400
        except CareError as error:
            _beside_field(form, error)
            status = 400
    elif not form.operated_on.data:
        form.operated_on.data = context.today()
    surgeons = [member["name"] for member in people.all_staff(context.store()) if member["role"] == "surgeon"]
    if request.method == "GET" and len(surgeons) == 1:
        form.surgeon.data = surgeons[0]
    return render_template(
        "clinic/discharge.html", form=form, proposal=proposal, errors=field_errors(form), surgeons=surgeons
    ), status


def _check_person(form: DischargeForm) -> None:
    discharge.check_patient(_patient(form), context.today())


def _confirm(form: DischargeForm, note: discharge.OperationNote) -> Any:
    operation_id, code = discharge.discharge(
        context.store(), context.now(), context.me(), _patient(form), note, _visits(form), context.zone()
    )
    session["code"] = {"operation": operation_id, "code": code}
    return redirect(url_for(".card", operation_id=operation_id), 303)


def _patient(form: DischargeForm) -> discharge.Patient:
    return discharge.Patient(
        number=form.number.data.strip(),
        name=form.name.data.strip(),
        born_on=form.born_on.data,
        phone=form.phone.data or "",
        language=form.language.data,
    )


def _note(form: DischargeForm) -> discharge.OperationNote:
    operated_at = datetime.combine(form.operated_on.data, form.operated_time.data, context.zone())
    plan = None
    if form.position.data and form.days.number:
        plan = {"position": form.position.data, "hours_a_day": form.hours_a_day.number or 0, "days": int(form.days.number)}
    drops = [
        {
            "name": row.form.name.data.strip(),
            "times_a_day": int(row.form.times_a_day.number or 1),
            "until": row.form.until.data,
        }
        for row in form.drops
        if row.form.name.data and row.form.name.data.strip()
    ]
    try:
        return discharge.OperationNote(
            eye=form.eye.data,
            operated_at=operated_at,
            surgeon=form.surgeon.data.strip(),
            indication=form.indication.data,
            steps=form.steps.data,
            breaks=[{"clock": int(b.form.clock.data), "reach": b.form.reach.data} for b in form.breaks if b.form.clock.data],
            lens=form.lens.data,
            agent=form.agent.data,
            percent=_percent(form),
            fill_percent=form.fill_percent.number or 0,
            risks=form.risks.data,
            baseline=_baseline(form),
            drops=drops,
            steroid_drops_until=form.steroid_drops_until.data,
            height_metres=context.settings().clinic.height_metres,
            posture=plan,
            notes=form.notes.data or "",
        )
    except ValidationError as error:
        raise CareError(first_message(error)) from error


def _percent(form: DischargeForm) -> float:
    typed = form.percent.number
    return typed if typed is not None else (100.0 if form.agent.data == "air" else 0.0)


def _baseline(form: DischargeForm) -> dict[str, Any]:
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
        if f.keep.data and f.name.data and f.target.data:
            earliest = min(_date(f.earliest.data) or f.target.data, f.target.data)
            latest = max(_date(f.latest.data) or f.target.data, f.target.data)
            windows.append(schedule.Window(f.name.data, f.target.data, earliest, latest, f.reason.data or ""))
    return windows


def _date(text: str | None) -> date | None:
    try:
        return date.fromisoformat(text) if text else None
    except ValueError:
        return None


def _show_proposal(form: DischargeForm, proposal: discharge.Proposal) -> None:
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


def _beside_field(form: DischargeForm | PlanForm, error: CareError) -> None:
    name = {"operated_at": "operated_on"}.get(error.field or "", error.field or "notes")
    field = getattr(form, name, form.notes)
    field.errors = [*field.errors, str(error)]


def _clinic_days() -> dict[date, int]:
    return open_days(context.settings().clinic, context.today(), context.today() + BOOKING_HORIZON)


@bp.route("/eyes/<operation_id>/plan", methods=["GET", "POST"])
@context.staff_only()
def change_plan(operation_id: str) -> Any:
    """Change what was left in the eye, the posture or the dates later; shows what changed."""
    eye = load_eye(operation_id)
    form = PlanForm()
    changed = None
    status = 200
    if request.method == "GET":
        form.fill_from(eye.row, eye.visits)
        form.callback.data = request.args.get("callback", "")
    elif form.validate():
        try:
            note = discharge.OperationNote.model_validate(form.changed(eye.row))
            moves = form.moves(eye.visits)
            settles = form.callback.data if form.settles.data else None
            changed = discharge.change_plan(
                context.store(), context.now(), context.me(), operation_id, note, context.zone(), moves, settles
            )
        except CareError as error:
            _beside_field(form, error)
            status = 400
    else:
        status = 400
    return render_template("clinic/plan.html", eye=eye, form=form, changed=changed, errors=field_errors(form)), status
