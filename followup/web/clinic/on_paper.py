"""Patients without the app: how they are reached, the printed diary, and its days as the nurse enters them."""

from datetime import date, timedelta

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer
from flask_babel import force_locale, get_locale, gettext

from followup.care.errors import CareError
from followup.care.patients import reaching
from followup.care.reading import person
from followup.care.visits import diary
from followup.web import context, display
from followup.web.clinic.blueprint import bp, operated_eye
from followup.web.clinic.diary_form import DiaryForm, ReachForm
from followup.web.fields import field_errors, say_beside


@bp.route("/patients/<patient_id>/reached-by", methods=["GET", "POST"])
def reached_by(patient_id: str) -> Answer:
    """How the patient stays in touch: chosen by a person, never for them."""
    known = person.standing(context.store(), patient_id)
    form = ReachForm(obj=known)
    if form.validate_on_submit():
        try:
            reaching.put(context.desk(), known.id, form.reached_by.data, form.carer_phone.data or "")
            return redirect(url_for(".patient_page", patient_id=known.id), 303)
        except CareError as error:
            say_beside(form, error)
    errors = field_errors(form)
    return render_template("clinic/reached_by.html", patient=known, form=form, errors=errors), 400 if errors else 200


@bp.get("/eyes/<eye_id>/diary-page")
def diary_page(eye_id: str) -> Answer:
    """The paper diary in the patient's language: one sheet to print."""
    eye = operated_eye(eye_id)
    with force_locale(eye.patient.language):
        locale = get_locale()
        paper = render_template(
            "patient/diary.html",
            eye=eye,
            eye_words=gettext(display.words(eye.side, "eye")),
            posture_words=gettext(display.words(plan.position, "posture")) if (plan := eye.operation.plan) else "",
            sheet=diary.sheet(context.store(), eye, gettext),
            language=str(locale or "en"),
            direction=locale.text_direction if locale else "ltr",
        )
    return render_template("clinic/diary_page.html", eye=eye, paper=paper)


@bp.route("/eyes/<eye_id>/diary", methods=["GET", "POST"])
def diary_entry(eye_id: str) -> Answer:
    """A day of the diary after the other; what it raises is said at once."""
    eye, form = operated_eye(eye_id), DiaryForm()
    raised, saved = [], None
    if form.validate_on_submit():
        try:
            raised = diary.enter(context.desk(), eye.id, form.day.data, form.answers(), form.posture_hours.number)
            saved = form.day.data
            form = DiaryForm(formdata=None, day=_next(saved))
        except CareError as error:
            say_beside(form, error)
    elif request.method == "GET":
        form.day.data = context.today()
    errors = field_errors(form)
    page = render_template("clinic/diary.html", eye=eye, form=form, saved=saved, raised=raised, errors=errors)
    return page, 400 if errors else 200


def _next(day: date) -> date:
    return min(day + timedelta(days=1), context.today())
