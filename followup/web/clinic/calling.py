"""Callbacks: the list, one of them, and every step on the way to its outcome."""

from datetime import datetime
from typing import Any

from flask import abort, redirect, render_template, request, url_for
from flask_wtf import FlaskForm

from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, settling, showing
from followup.care.callbacks.calls import TRY_AGAIN_AFTER
from followup.care.callbacks.holding import known_task
from followup.care.errors import CareError
from followup.web import context
from followup.web.clinic.blueprint import bp, pressed
from followup.web.clinic.callback_forms import AttemptForm, DecideForm, SettleForm


@bp.get("/callbacks")
def callback_list() -> Any:
    """Every open callback, by how soon and then by how long it has waited."""
    return render_template("clinic/callbacks.html", **vars(showing.listed(context.desk())))


@bp.get("/callbacks/<callback_id>")
def callback(callback_id: str) -> Any:
    return _callback_page(callback_id)


def _callback_page(
    callback_id: str,
    attempt: AttemptForm | None = None,
    settle: SettleForm | None = None,
    decide: DecideForm | None = None,
) -> Any:
    wrong = any(form is not None for form in (attempt, settle, decide))
    attempt, settle = attempt or AttemptForm(formdata=None), settle or SettleForm(formdata=None)
    decide = decide or DecideForm(formdata=None)
    call = showing.call(context.desk(), callback_id)
    decide.owner.choices = [("", "whoever takes it"), *((s.id, s.name) for s in call.owners)]
    decide.decided_before.data = call.decisions
    return render_template(
        "clinic/callback.html",
        **vars(call),
        attempt=attempt,
        settle=settle,
        decide=decide,
        again_in=TRY_AGAIN_AFTER[call.callback.how_soon],
    ), (400 if wrong else 200)


@bp.post("/callbacks/<callback_id>/claim")
@pressed
def claim(callback_id: str) -> Any:
    holding.claim(context.desk(), callback_id)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/take-over")
@pressed
def take_over(callback_id: str) -> Any:
    """Take a callback from whoever has it, as the page said."""
    holding.take_over(context.desk(), callback_id, request.form.get("whose", ""))
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/decide")
def decide(callback_id: str) -> Any:
    """The surgeon's decision: one button; a word, who and by when where they matter."""
    form = DecideForm()
    if not form.validate_on_submit():
        if form.outcome.errors:
            abort(400)
        return _callback_page(callback_id, decide=form)
    try:
        deciding.decide(
            context.desk(),
            callback_id,
            form.outcome.data,
            form.words.data or "",
            context.settings().clinic,
            owner=form.owner.data or None,
            due_at=_at(form.by.data),
            decided_before=form.decided_before.data,
        )
    except CareError as error:
        _beside(form, error)
        return _callback_page(callback_id, decide=form)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/undo")
@pressed
def undo(callback_id: str) -> Any:
    deciding.undo(context.desk(), callback_id)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/give-back")
@pressed
def give_back(callback_id: str) -> Any:
    holding.release(context.desk(), callback_id)
    return _to(callback_id)


@bp.post("/tasks/<task_id>/take")
@pressed
def take_task(task_id: str) -> Any:
    """Take what is to do, from nobody or from whoever has it, as the page said."""
    holding.take_task(context.desk(), task_id, request.form.get("whose") or None)
    return _to(known_task(context.store(), task_id).callback_id)


@bp.post("/tasks/<task_id>/give-back")
@pressed
def give_back_task(task_id: str) -> Any:
    holding.give_back_task(context.desk(), task_id)
    return _to(known_task(context.store(), task_id).callback_id)


@bp.post("/callbacks/<callback_id>/attempt")
def attempt(callback_id: str) -> Any:
    """Record a call, that what was to do is done, or both."""
    form = AttemptForm()
    if not form.validate_on_submit():
        return _callback_page(callback_id, attempt=form)
    spoke_to = {"patient": "patient", "carer": "carer"}.get(form.reached.data or "")
    desk, words = context.desk(), form.words.data or ""
    try:
        if not (form.reached.data or form.done.data or form.given_up.data):
            raise CareError("say whether you reached them", "reached")
        with desk.store.transaction():
            if form.reached.data:
                next_try = None if spoke_to else _at(form.next_try.data)
                phone_calls.attempt(desk, callback_id, spoke_to, words, context.settings().clinic, next_try)
            if form.done.data:
                settling.finish(desk, form.done.data, "" if form.reached.data else words)
            elif form.given_up.data:
                settling.give_up(desk, form.given_up.data, words)
    except CareError as error:
        _beside(form, error)
        return _callback_page(callback_id, attempt=form)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/settle")
def settle(callback_id: str) -> Any:
    """Say what came of it: what is still to be done stays on the list."""
    form = SettleForm()
    if not form.validate_on_submit():
        return _callback_page(callback_id, settle=form)
    try:
        outcome, words, clinic = form.outcome.data, form.words.data or "", context.settings().clinic
        settling.settle(context.desk(), callback_id, outcome, words, clinic, told=form.told.data)
    except CareError as error:
        _beside(form, error)
        return _callback_page(callback_id, settle=form)
    return _to(callback_id)


def _to(callback_id: str) -> Any:
    return redirect(url_for(".callback", callback_id=callback_id), 303)


def _beside(form: FlaskForm, error: CareError) -> None:
    """Put what is wrong beside the field it belongs to; anything else is an answer of its own."""
    if error.field not in form:
        raise error
    form[error.field].errors = [str(error)]


def _at(local: datetime | None) -> datetime | None:
    return local.replace(tzinfo=context.zone()) if local else None
