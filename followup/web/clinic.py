"""The nurse's pages: today's list, discharge, visits, callbacks, an eye."""

from datetime import date, datetime, timedelta
from typing import Any

from flask import Blueprint, abort, redirect, render_template, request, session, url_for
from pydantic import ValidationError

from followup.care import callbacks as calls
from followup.care import discharge, enrol, lists, visit
from followup.care.errors import CareError
from followup.care.events import MeasuresBody, first_message
from followup.care.eye import Eye, load, protocol, rulebook
from followup.clinical import schedule
from followup.exchange import qr
from followup.protocols import closures
from followup.records import eyes, people, worries
from followup.web import charts, context
from followup.web.forms import (
    AttemptForm,
    DecideForm,
    DischargeForm,
    EyeMeasuresForm,
    PlanForm,
    SettleForm,
    SmallForm,
    VisitForm,
    choices,
    field_errors,
)

bp = Blueprint("clinic", __name__, url_prefix="/clinic")
BOOKING_HORIZON = timedelta(days=400)


@bp.context_processor
def drafts() -> dict[str, Any]:
    """Staff screens say so while a protocol part is unsigned."""
    return unsigned()


def unsigned() -> dict[str, Any]:
    parts = ("rulebook", "reviews", "postures")
    return {"unsigned": [p for p in parts if protocol(context.store(), p).is_draft]} if context.staff() else {}


def load_eye(operation_id: str) -> Eye:
    return load(context.store(), operation_id, context.zone())


@bp.get("/")
@context.staff_only()
def today() -> Any:
    """Who is due, who is missing, who is at risk."""
    words = request.args.get("find", "").strip()
    store = context.store()
    return render_template(
        "clinic/today.html",
        due=lists.due_visits(store, context.now(), context.zone()),
        find=words,
        found=lists.find(store, words) if words else [],
        urgency=lists.worst_by_eye(worries.open_callbacks(store)),
        refused=eyes.refused_events(store)[:5],
        today=context.today(),
    )


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
    return render_template("clinic/discharge.html", form=form, proposal=proposal, errors=field_errors(form)), status


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
    clinic = context.settings().clinic
    first, last = context.today(), context.today() + BOOKING_HORIZON
    closed = closures.closed_days(clinic.country, clinic.subdivision, first, last, clinic.closed)
    return schedule.clinic_days(first, last, closures.places_by_weekday(clinic.places), closed)


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
    elif form.validate():
        try:
            note = discharge.OperationNote.model_validate(form.changed(eye.row))
            moves = form.moves(eye.visits)
            changed = discharge.change_plan(
                context.store(), context.now(), context.me(), operation_id, note, context.zone(), moves
            )
        except CareError as error:
            _beside_field(form, error)
            status = 400
    else:
        status = 400
    return render_template("clinic/plan.html", eye=eye, form=form, changed=changed, errors=field_errors(form)), status


@bp.get("/eyes/<operation_id>/card")
@context.staff_only()
def card(operation_id: str) -> Any:
    """The discharge card: one A4 page with the code that enrols the phone."""
    eye = load_eye(operation_id)
    kept = session.get("code") or {}
    code = kept.get("code") if kept.get("operation") == operation_id else None
    address = url_for("patient.enrolment", _external=False)
    link = f"{context.settings().server.public_address}{address}?code={code}" if code else None
    return render_template(
        "clinic/card.html",
        eye=eye,
        code=code,
        qr=qr.svg(link) if link else None,
        address=f"{context.settings().server.public_address}{address}",
        forecast=eye.forecast(context.now()),
        form=SmallForm(),
    )


@bp.post("/eyes/<operation_id>/code")
@context.staff_only()
def new_code(operation_id: str) -> Any:
    """A fresh enrolment code, for a second phone or when the first has run out."""
    if not SmallForm().validate_on_submit():
        abort(400)
    eye = load_eye(operation_id)
    code = enrol.issue_code(context.store(), context.now(), context.me(), eye.row["patient_id"])
    session["code"] = {"operation": operation_id, "code": code}
    return redirect(url_for(".card", operation_id=operation_id), 303)


@bp.get("/eyes/<operation_id>")
@context.staff_only()
def eye_page(operation_id: str) -> Any:
    """One eye: the whole course in one picture, and the table that says the same."""
    eye = load_eye(operation_id)
    now = context.now()
    eyes.add_look(context.store(), now, operation_id, context.me().signature)
    return render_template(
        "clinic/eye.html",
        eye=eye,
        chart=charts.course_chart(eye, now, rulebook(context.store()).bands),
        rows=charts.course_table(eye, now),
        forecast=eye.forecast(now),
        day=eye.operation.day(now),
        caution=eye.caution(now),
        devices=people.devices_of(context.store(), eye.row["patient_id"]),
        records=eyes.records_of(context.store(), operation_id),
        form=SmallForm(),
    )


@bp.post("/devices/<device_id>/revoke")
@context.staff_only()
def revoke(device_id: str) -> Any:
    """Lock a lost phone out."""
    if not SmallForm().validate_on_submit():
        abort(400)
    enrol.revoke(context.store(), context.now(), context.me(), device_id)
    return redirect(request.form.get("back", url_for(".today")), 303)


@bp.post("/eyes/<operation_id>/record/<kind>")
@context.staff_only()
def record(operation_id: str, kind: str) -> Any:
    """A clinician's record in one step: no gas seen, or the tamponade taken out."""
    if not SmallForm().validate_on_submit() or kind not in ("no-gas-seen", "tamponade-removed"):
        abort(400)
    visit.record_clinic_event(context.store(), context.now(), context.me(), operation_id, kind, {}, context.zone())
    return redirect(url_for(".eye_page", operation_id=operation_id), 303)


@bp.route("/eyes/<operation_id>/visit", methods=["GET", "POST"])
@context.staff_only()
def new_visit(operation_id: str) -> Any:
    """Measures of both eyes; saving says at once what they raised, and why."""
    eye = load_eye(operation_id)
    form = VisitForm()
    seen = {e["body"]["visit"] for e in eye.events if e["kind"] == "seen"}
    open_visits = [v for v in eye.visits if v["name"] not in seen]
    form.visit.choices = choices({v["name"]: v["name"] for v in open_visits} | {"": "not a planned visit"})
    status = 200
    doubts: list[str] = []
    if form.validate_on_submit() and (form.sure.data or not (doubts := form.doubts())):
        try:
            raised = visit.record_visit(
                context.store(),
                context.now(),
                context.me(),
                operation_id,
                [b for side in ("right", "left") if (b := _measures(side, form[side].form))],
                context.zone(),
                visit=form.visit.data or None,
                no_gas_seen=form.no_gas_seen.data,
            )
            session["raised"] = [w["id"] for w in raised]
            return redirect(url_for(".visit_saved", operation_id=operation_id), 303)
        except CareError as error:
            form.visit.errors = [str(error)]
            status = 400
    elif request.method == "POST" and not doubts:
        status = 400
    last = charts.last_measures(eye)
    return render_template(
        "clinic/visit.html", eye=eye, form=form, last=last, errors=field_errors(form), doubts=doubts
    ), status


def _measures(side: str, f: EyeMeasuresForm) -> MeasuresBody | None:
    """The body of one eye, or None where nothing was entered."""
    pain = f.pain.number
    entered = {
        "acuity": (f.acuity.data or "").strip() or None,
        "iop_mmhg": f.iop.mmhg,
        "bubble_percent": f.bubble_percent.number,
        "pain": None if pain is None else round(pain),
        "findings": tuple(f.findings.data),
        "notes": (f.notes.data or "").strip(),
    }
    if not any(value not in (None, (), "") for value in entered.values()):
        return None
    entered["notation"] = (f.notation.data or None) if entered["acuity"] else None
    entered["correction"] = f.correction.data if entered["acuity"] else None
    entered["instrument"] = f.instrument.data if entered["iop_mmhg"] is not None else None
    try:
        return MeasuresBody.model_validate({"eye": side, **entered})
    except ValidationError as error:
        raise CareError(f"{side} eye: {first_message(error)}") from error


@bp.get("/eyes/<operation_id>/visit/saved")
@context.staff_only()
def visit_saved(operation_id: str) -> Any:
    """What saving the visit raised, with the values, the threshold and the source of each rule."""
    eye = load_eye(operation_id)
    ids = session.get("raised", [])
    return render_template("clinic/visit_saved.html", eye=eye, raised=[w for w in eye.warnings if w["id"] in ids])


@bp.get("/callbacks")
@context.staff_only()
def callback_list() -> Any:
    """Every open callback, by how soon and then by how long it has waited."""
    store = context.store()
    operations = {row["id"]: row for row in eyes.all_operations(store)}
    open_ones = worries.open_callbacks(store)
    reasons = {c["id"]: worries.warnings_of_callback(store, c["id"]) for c in open_ones}
    return render_template("clinic/callbacks.html", callbacks=open_ones, operations=operations, reasons=reasons)


@bp.get("/callbacks/<callback_id>")
@context.staff_only()
def callback(callback_id: str) -> Any:
    return _callback_page(callback_id, AttemptForm(), SettleForm())


def _callback_page(callback_id: str, attempt: AttemptForm, settle: SettleForm) -> Any:
    store = context.store()
    found = worries.callback(store, callback_id)
    if found is None:
        abort(404)
    eye = load_eye(found["operation_id"])
    raised = worries.warnings_of_callback(store, callback_id)
    known = {rule.id: rule for rule in rulebook(store).rules}
    asks = list(dict.fromkeys(question for w in raised if w["rule"] in known for question in known[w["rule"]].ask))
    return render_template(
        "clinic/callback.html",
        callback=found,
        eye=eye,
        warnings=raised,
        asks=asks,
        steps=worries.steps_of(store, callback_id),
        attempt=attempt,
        settle=settle,
        mine=found["claimed_by"] == context.me().id,
        undoable=calls.can_undo(found, context.me(), context.now()),
        form=SmallForm(),
    ), (400 if attempt.errors or settle.errors else 200)


@bp.post("/callbacks/<callback_id>/claim")
@context.staff_only()
def claim(callback_id: str) -> Any:
    if not SmallForm().validate_on_submit():
        abort(400)
    calls.claim(context.store(), context.now(), context.me(), callback_id)
    return redirect(url_for(".callback", callback_id=callback_id), 303)


@bp.post("/callbacks/<callback_id>/decide")
@context.staff_only("surgeon")
def decide(callback_id: str) -> Any:
    """The surgeon's decision: an optional word and one button."""
    form = DecideForm()
    if not form.validate_on_submit():
        abort(400)
    outcome, words = form.outcome.data, form.words.data or ""
    calls.decide(context.store(), context.now(), context.me(), callback_id, outcome, words, context.zone())
    return redirect(url_for(".callback", callback_id=callback_id), 303)


@bp.post("/callbacks/<callback_id>/undo")
@context.staff_only()
def undo(callback_id: str) -> Any:
    if not SmallForm().validate_on_submit():
        abort(400)
    calls.undo(context.store(), context.now(), context.me(), callback_id)
    return redirect(url_for(".callback", callback_id=callback_id), 303)


@bp.post("/callbacks/<callback_id>/give-back")
@context.staff_only()
def give_back(callback_id: str) -> Any:
    if not SmallForm().validate_on_submit():
        abort(400)
    calls.release(context.store(), context.now(), context.me(), callback_id)
    return redirect(url_for(".callback", callback_id=callback_id), 303)


@bp.post("/callbacks/<callback_id>/attempt")
@context.staff_only()
def attempt(callback_id: str) -> Any:
    """Record a call."""
    form = AttemptForm()
    if not form.validate_on_submit():
        return _callback_page(callback_id, form, SettleForm(formdata=None))
    reached = form.reached.data == "yes"
    calls.attempt(context.store(), context.now(), context.me(), callback_id, reached, form.words.data or "", context.zone())
    return redirect(url_for(".callback", callback_id=callback_id), 303)


@bp.post("/callbacks/<callback_id>/settle")
@context.staff_only()
def settle(callback_id: str) -> Any:
    """Settle with an outcome."""
    form = SettleForm()
    if form.validate_on_submit():
        try:
            calls.settle(
                context.store(),
                context.now(),
                context.me(),
                callback_id,
                form.outcome.data,
                form.words.data or "",
                context.zone(),
            )
            return redirect(url_for(".callback", callback_id=callback_id), 303)
        except CareError as error:
            if error.field not in ("words", "outcome"):
                raise
            form[error.field].errors = [str(error)]
    return _callback_page(callback_id, AttemptForm(formdata=None), form)
