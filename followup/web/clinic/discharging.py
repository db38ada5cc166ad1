"""Discharge, from operation note to printed card, and the change of a plan later."""

from typing import Any

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import accounts
from followup.care.discharge import changing, leaving
from followup.care.discharge.note import asks_about
from followup.care.discharge.proposal import drops_lately, propose
from followup.care.discharge.who import SamePerson
from followup.care.errors import CareError, Conflict
from followup.care.reading import person
from followup.care.visits import book, in_book
from followup.care.visits.openings import Openings, ahead
from followup.records.operation_note import OperationNote
from followup.records.values import SIDES
from followup.web import context
from followup.web.clinic import clock_face, discharge_reading, theatre_list
from followup.web.clinic.blueprint import bp, load_eye, operated_eye
from followup.web.clinic.discharge_forms import DischargeForm
from followup.web.clinic.plan_form import PlanForm
from followup.web.fields import FORM_ID, field_errors


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
        known = discharge_reading.read(form, confirming)
        try:
            note = None if field_errors(form) else discharge_reading.note_in(form)
            if note:
                asks = _asks(note, form if confirming else None)
                if confirming and (not asks or form.asked.data == " ".join(asks)):
                    return _confirm(form, note, id)
                proposal = propose(context.store(), note, context.now(), context.zone(), _clinic_days().places)
                if not confirming:
                    discharge_reading.show_proposal(form, proposal)
        except CareError as error:
            discharge_reading.beside_field(form, error)
    else:
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
        who=discharge_reading.who_in(form),
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
        today=context.today(),
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


def _confirm(form: DischargeForm, note: OperationNote, id: str) -> Answer:
    answer: Any = {"written": "written", "recorded": "recorded"}.get(form.same_person.data or "")
    same = SamePerson(answer, form.same_person_mark.data) if answer else None
    try:
        reached = {"reached_by": form.reached_by.data, "carer_phone": (form.carer_phone.data or "").strip()}
        eye_id, code = leaving.discharge(
            context.desk(),
            discharge_reading.patient_of(form).model_copy(update=reached),
            note,
            discharge_reading.visits_in(form),
            same_person=same,
            operation_id=id,
        )
        context.keep_code(eye_id, code)
    except Conflict:  # confirmed a moment ago, by a second press of the button
        pass
    return _to_card(id)


def _to_card(operation_id: str) -> Answer:
    return redirect(url_for(".card", eye_id=load_eye(operation_id).id), 303)


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
    elif discharge_reading.plan_is_sound(form, eye.operation.at):
        try:
            note = form.changed(eye.note)
            moves = changing.Moves(context.settings().clinic, form.moves(eye.open_visits), form.answered(), form.shown())
            settles = form.callback.data if form.settles.data else None
            changed = changing.change_plan(context.desk(), eye.id, note, moves, settles, corrects=form.corrects.data or None)
        except book.Asks as asks:
            questions = asks.questions
            form.ask(questions)
        except Conflict:
            raise
        except CareError as error:
            discharge_reading.beside_field(form, error)
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
        untold=in_book.untold(context.store(), eye.id),
        errors=field_errors(form),
    )
    return page, status
