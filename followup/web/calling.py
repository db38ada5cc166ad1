"""Callbacks: the list, one of them, and every step on the way to its outcome."""

from typing import Any

from flask import abort, redirect, render_template, url_for

from followup.care import callbacks as calls
from followup.care.errors import CareError
from followup.care.eye import rulebook
from followup.records import eyes, worries
from followup.web import context
from followup.web.clinic import bp, load_eye, pressed
from followup.web.forms import AttemptForm, DecideForm, SettleForm


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
    ), (400 if attempt.errors or settle.errors else 200)


@bp.post("/callbacks/<callback_id>/claim")
@context.staff_only()
@pressed
def claim(callback_id: str) -> Any:
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
@pressed
def undo(callback_id: str) -> Any:
    calls.undo(context.store(), context.now(), context.me(), callback_id)
    return redirect(url_for(".callback", callback_id=callback_id), 303)


@bp.post("/callbacks/<callback_id>/give-back")
@context.staff_only()
@pressed
def give_back(callback_id: str) -> Any:
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
