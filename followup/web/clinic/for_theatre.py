"""Eyes for theatre, by day and list."""

from itertools import groupby

from flask import abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.callbacks import theatre
from followup.care.errors import CareError
from followup.web import context
from followup.web.clinic.blueprint import bp
from followup.web.clinic.theatre_form import TheatreForm
from followup.web.fields import say_beside


@bp.get("/for-theatre")
def for_theatre() -> Answer:
    """Who is for theatre: those without a day first, then by day and list, confirmed or not."""
    return _page()


@bp.post("/tasks/<task_id>/theatre")
def change_theatre(task_id: str) -> Answer:
    """Say day and list, that it is confirmed, or that it is cancelled and why."""
    form, desk, do = TheatreForm(), context.desk(), request.form.get("do", "")
    if do not in ("plan", "confirm", "cancel"):
        abort(400)
    if not form.validate_on_submit():
        return _page(task_id, form)
    try:
        with desk.store.transaction():
            if do == "cancel":
                theatre.cancel(desk, task_id, form.why.data or "")
            else:
                planned = theatre.plan(desk, task_id, form.theatre_on.data, form.words.data or "")
                if do == "confirm":
                    theatre.confirm(desk, planned)
    except CareError as error:
        say_beside(form, error, "words")
        return _page(task_id, form)
    return redirect(url_for(".for_theatre"), 303)


def _page(about: str = "", wrong: TheatreForm | None = None) -> Answer:
    """The list; `wrong` is what was entered about one of its lines, with what was wrong."""
    booked = theatre.listed(context.desk())
    forms = {b.task.id: _form(b) for b in booked}
    if wrong is not None:
        if about not in forms:
            abort(404)
        forms[about] = wrong
    days = [(day, list(found)) for day, found in groupby(booked, lambda b: b.task.theatre_on)]
    page = render_template(
        "clinic/for_theatre.html",
        days=days,
        forms=forms,
        wrong=about,
        waiting=len(booked),
        withdrawn=theatre.withdrawn(context.desk()),
        today=context.today(),
    )
    return page, 400 if wrong else 200


def _form(b: theatre.Booked) -> TheatreForm:
    return TheatreForm(formdata=None, theatre_on=b.task.theatre_on, words=b.task.theatre_list)
