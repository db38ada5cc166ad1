"""Callbacks: the list, the call for a patient and every step on the way to its outcome, and the handover at the end of the day."""

from collections.abc import Sequence
from datetime import datetime

from flask import abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, lines, settling, showing
from followup.care.callbacks.calls import TRY_AGAIN_AFTER
from followup.care.callbacks.holding import known_task
from followup.care.errors import CareError
from followup.care.today import handover as handing_over
from followup.care.visits import book, in_book
from followup.care.visits.openings import ahead
from followup.web import context
from followup.web.clinic.blueprint import bp, pressed
from followup.web.clinic.callback_forms import DECISION_WORDS, CallForm, DecideForm
from followup.web.fields import say_beside


@bp.get("/callbacks")
def callback_list() -> Answer:
    """Every patient with open callbacks, by how soon and then by how long it has waited."""
    return render_template("clinic/callbacks.html", **vars(lines.listed_page(context.desk(), context.page())))


@bp.get("/handover")
def handover() -> Answer:
    """The end of the day: seen, did not come, settled, open, unreached, and who has what."""
    return render_template("clinic/handover.html", found=handing_over.handover(context.desk()))


@bp.get("/callbacks/<callback_id>")
def callback(callback_id: str) -> Answer:
    """One call: this callback and whatever else is open of its patient."""
    return _call_page(callback_id)


def _call_page(
    callback_id: str, made: CallForm | None = None, decide: DecideForm | None = None, questions: Sequence[str] = ()
) -> Answer:
    wrong = made is not None or decide is not None
    call = showing.call(context.desk(), callback_id)
    made, decide = made or CallForm(formdata=None), decide or DecideForm(formdata=None)
    days = ahead(context.store(), context.settings().clinic, context.today())
    proposed = deciding.proposed_day(call.worst, days)
    for form in (made, decide):
        form.offer(in_book.with_day(days, proposed), proposed)
        if not form.asked_about.data:
            form.about.data = call.proposed
    decide.owner.choices = [("", "whoever takes it"), *((s.id, s.name) for s in call.owners)]
    decide.decided_before.data = call.decisions
    return render_template(
        "clinic/callback.html",
        call=call,
        made=made,
        decide=decide,
        questions=questions,
        decisions=DECISION_WORDS,
        again_in=TRY_AGAIN_AFTER[call.worst.how_soon],
    ), (400 if wrong else 200)


@bp.post("/callbacks/<callback_id>/claim")
@pressed
def claim(callback_id: str) -> Answer:
    """Take everything that is open of this patient, to make one call."""
    holding.claim_call(context.desk(), callback_id)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/take-over")
@pressed
def take_over(callback_id: str) -> Answer:
    """Take the call from whoever has it, as the page said."""
    holding.take_call_over(context.desk(), callback_id, request.form.get("whose", ""))
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/decide")
def decide(callback_id: str) -> Answer:
    """The surgeon's decision: one button; a word, who and by when where they matter."""
    form = DecideForm()
    if not form.validate_on_submit():
        if form.outcome.errors:
            abort(400)
        return _call_page(callback_id, decide=form)
    try:
        first, *also = form.ids(callback_id)
        deciding.decide(
            context.desk(),
            first,
            form.outcome.data,
            form.words.data or "",
            context.settings().clinic,
            also=also,
            owner=form.owner.data or None,
            due_at=_at(form.by.data),
            on=form.on.data if form.outcome.data == "sooner" else None,
            accepted=form.answered(),
            decided_before=form.decided_before.data,
        )
    except book.Asks as asks:
        form.ask(asks.questions)
        return _call_page(callback_id, decide=form, questions=asks.questions)
    except CareError as error:
        say_beside(form, error)
        return _call_page(callback_id, decide=form)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/undo")
@pressed
def undo(callback_id: str) -> Answer:
    deciding.undo(context.desk(), callback_id)
    return _to(callback_id)


@bp.post("/callbacks/<callback_id>/give-back")
@pressed
def give_back(callback_id: str) -> Answer:
    holding.give_call_back(context.desk(), callback_id)
    return _to(callback_id)


@bp.post("/tasks/<task_id>/take")
@pressed
def take_task(task_id: str) -> Answer:
    """Take what is to do, from nobody or from whoever has it, as the page said."""
    holding.take_task(context.desk(), task_id, request.form.get("whose") or None)
    return _to(known_task(context.store(), task_id).callback_id)


@bp.post("/tasks/<task_id>/give-back")
@pressed
def give_back_task(task_id: str) -> Answer:
    holding.give_back_task(context.desk(), task_id)
    return _to(known_task(context.store(), task_id).callback_id)


@bp.post("/callbacks/<callback_id>/attempt")
def attempt(callback_id: str) -> Answer:
    """Record a call, what comes of it, that what was to do is done, or several of these at once."""
    form = CallForm()
    if not form.validate_on_submit():
        return _call_page(callback_id, made=form)
    try:
        with context.desk().store.transaction():
            _record(callback_id, form)
    except book.Asks as asks:
        form.ask(asks.questions)
        return _call_page(callback_id, made=form, questions=asks.questions)
    except CareError as error:
        say_beside(form, error)
        return _call_page(callback_id, made=form)
    return _to(callback_id)


def _record(callback_id: str, form: CallForm) -> None:
    desk, clinic, words = context.desk(), context.settings().clinic, form.words.data or ""
    reached, outcome = form.reached.data, form.outcome.data
    if not (reached or outcome or form.done.data or form.given_up.data):
        raise CareError("say whom you reached, or press “Nobody answered”", "reached")
    if reached:
        spoke_to = {"patient": "patient", "carer": "carer"}.get(reached)
        phone_calls.attempt(desk, callback_id, spoke_to, words, clinic, None if spoke_to else _at(form.next_try.data))
    said = "" if reached else words
    if form.done.data:
        theatre_on = form.theatre_on.data
        settling.finish(desk, form.done.data, words if theatre_on else said, theatre_on)
    elif form.given_up.data:
        settling.give_up(desk, form.given_up.data, words)
    elif outcome:
        first, *also = form.ids(callback_id)
        why = words if outcome == "no-action" else said
        on = form.on.data if outcome == "sooner" else None
        settling.settle(desk, first, outcome, why, clinic, also=also, told=form.told.data, on=on, accepted=form.answered())


def _to(callback_id: str) -> Answer:
    return redirect(url_for(".callback", callback_id=callback_id), 303)


def _at(local: datetime | None) -> datetime | None:
    return local.replace(tzinfo=context.zone()) if local else None
