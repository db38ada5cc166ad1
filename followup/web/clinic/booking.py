"""The book of visits: one visit moved, cancelled or not come for; visits added; a clinic day closed."""

from collections.abc import Callable
from contextlib import suppress
from datetime import date, timedelta
from typing import Any

from flask import abort, redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.errors import CareError, NotFound
from followup.care.visits import book, closing, in_book
from followup.care.visits.openings import ahead
from followup.web import context
from followup.web.clinic.blueprint import bp, load_eye, pressed
from followup.web.clinic.book_forms import AddForm, AwayForm, CancelForm, CloseForm, MoveForm, WalkInForm
from followup.web.display import day as day_words
from followup.web.fields import field_errors, say_beside

NOT_SHOWN = ("FieldList", "CSRFTokenField", "HiddenField")
BACK_TO = ("today", "eye", "patient", "plan", "unplanned", "to-tell")


@bp.context_processor
def done() -> dict[str, Any]:
    """What was just done in the book, said once on the next page that shows it, with its undo."""
    return {"just_done": lambda: session.pop("just_done", None), "back_here": back_asked}


def back_asked() -> str:
    """Where the book was opened from, and leads back to."""
    asked = request.values.get("back", "today")
    return asked if asked in BACK_TO else "today"


def back_to(eye_id: str, identity: str = "") -> Answer:
    """Back to the page from which the book was opened; on the list, to the line of that visit."""
    asked = back_asked()
    if asked == "eye":
        return redirect(url_for(".eye_page", eye_id=eye_id), 303)
    if asked == "unplanned":
        return redirect(url_for(".nothing_planned"), 303)
    if asked == "to-tell":
        return redirect(url_for(".to_tell"), 303)
    if asked == "plan":
        return redirect(url_for(".change_plan", eye_id=eye_id), 303)
    if asked == "patient":
        with suppress(NotFound):  # what was done stays done, whatever the form says of where it came from
            return redirect(url_for(".patient_page", patient_id=load_eye(eye_id).patient.id), 303)
    return redirect(url_for(".today", _anchor=f"visit-{identity}" if identity else None), 303)


def tell_done(words: str, version: str = "", *, tell: bool = False, entry: str = "") -> None:
    """Say on the next page what was done, with the version of a visit or the entry that its undo takes back."""
    session["just_done"] = {"words": words, "version": version, "tell": tell, "entry": entry}


@bp.route("/visits/<identity>", methods=["GET", "POST"])
def change_visit(identity: str) -> Answer:
    """Move a visit, cancel it, or say that nobody came for it."""
    entry = in_book.entry(context.desk(), identity)
    kinds = {"move": MoveForm, "cancel": CancelForm, "away": AwayForm}
    # Several forms on a page: their token is the page's own, which is checked before any view.
    forms: dict[str, Any] = {name: form(prefix=name, meta={"csrf": False}) for name, form in kinds.items()}
    chosen = request.form.get("do", "")
    questions: list[str] = []
    if request.method == "POST":
        if chosen not in _DO:
            abort(400)
        form = forms[chosen]
        if form.validate():
            try:
                again = _DO[chosen](entry, form)
                return again or back_to(entry.eye.id, identity)
            except book.Asks as asks:
                questions = asks.questions
                form.ask(questions)
            except CareError as error:
                _beside(form, error)
    else:
        forms["move"].starts.data = entry.visit.starts
    errors = [found for form in forms.values() for found in field_errors(form)]
    days = ahead(context.store(), context.settings().clinic, context.today())
    page = render_template(
        "clinic/change_visit.html",
        booked=entry,
        forms=forms,
        questions=questions,
        errors=errors,
        choices=in_book.choices(days, entry.visit),
        today=context.today(),
    )
    return page, 400 if errors else 200


def _move(entry: in_book.Entry, form: Any) -> None:
    clinic, target = context.settings().clinic, form.target.data
    starts = form.starts.data if clinic.appointment_times else entry.visit.starts
    version = book.move(
        context.desk(), clinic, entry.visit.identity, target, starts=starts, accepted=form.answered()
    )  # fmt: skip
    when = f"{day_words(target)}{f', {starts:%H:%M}' if starts else ''}"
    tell_done(f"{entry.eye.patient.name}: {entry.visit.name} is now on {when}.", version, tell=True)


def _cancel(entry: in_book.Entry, form: Any) -> None:
    version = book.cancel(context.desk(), entry.visit.identity, form.why.data or "")
    tell_done(f"{entry.eye.patient.name}: {entry.visit.name} is cancelled.", version, tell=True)


def _away(entry: in_book.Entry, form: Any) -> Answer:
    """Once it is on record that nobody came, the next thing is another day."""
    said = book.did_not_come(context.desk(), entry.visit.identity, form.barrier.data or "", form.words.data or "")
    tell_done(f"{entry.eye.patient.name} did not come for {entry.visit.name}: recorded. Is there another day?", entry=said)
    return redirect(url_for(".change_visit", identity=entry.visit.identity, back=back_asked()), 303)


_DO: dict[str, Callable[[in_book.Entry, Any], Any]] = {"move": _move, "cancel": _cancel, "away": _away}


@bp.route("/eyes/<eye_id>/visits/new", methods=["GET", "POST"])
def add_visit(eye_id: str) -> Answer:
    """Put one more visit beside the plan."""
    eye, form, clinic = load_eye(eye_id), AddForm(), context.settings().clinic
    questions: list[str] = []
    if form.validate_on_submit():
        try:
            name, target = form.name.data or "", form.target.data
            starts = form.starts.data if clinic.appointment_times else None
            identity = book.add(
                context.desk(), clinic, eye.id, name, target, form.reason.data or "", starts=starts,
                accepted=form.answered(),
            )  # fmt: skip
            tell_done(f"{eye.patient.name}: {name} is planned for {day_words(target)}.", identity)
            return back_to(eye.id, identity)
        except book.Asks as asks:
            questions = asks.questions
            form.ask(questions)
        except CareError as error:
            _beside(form, error)
    days = ahead(context.store(), clinic, context.today())
    page = render_template(
        "clinic/add_visit.html",
        eye=eye,
        form=form,
        questions=questions,
        errors=field_errors(form),
        choices=in_book.choices(days, None),
    )
    return page, 400 if form.errors else 200


@bp.route("/eyes/<eye_id>/walk-in", methods=["GET", "POST"])
def walk_in(eye_id: str) -> Answer:
    """Somebody came without an appointment: they stand on the list as here."""
    eye, form = load_eye(eye_id), WalkInForm()
    if form.validate_on_submit():
        try:
            identity = book.walk_in(context.desk(), eye.id, form.reason.data or "")
            tell_done(f"{eye.patient.name} is here without an appointment.", identity)
            return redirect(url_for(".today", _anchor=f"visit-{identity}"), 303)
        except CareError as error:
            _beside(form, error)
    page = render_template("clinic/walk_in.html", eye=eye, form=form, errors=field_errors(form))
    return page, 400 if form.errors else 200


@bp.post("/visits/<version>/undo")
@pressed
def undo_visit(version: str) -> Answer:
    """Take back the last change of a visit."""
    change = in_book.change_of(context.store(), version)
    book.undo(context.desk(), version)
    if change is None:  # pragma: no cover - `undo` refuses these
        abort(404)
    return back_to(change.changed.eye_id, change.changed.identity)


@bp.post("/visits/<identity>/put-back")
@pressed
def put_back(identity: str) -> Answer:
    """A cancelled visit stands in the book again."""
    book.put_back(context.desk(), identity)
    return back_to(request.form.get("eye", ""), identity)


@bp.post("/visits/<version>/told")
@pressed
def told(version: str) -> Answer:
    """The patient knows of the change."""
    book.told(context.desk(), version)
    return back_to(request.form.get("eye", ""))


@bp.route("/close-day", methods=["GET", "POST"])
def close_day() -> Answer:
    """Close a clinic day: its visits with the days proposed for them, changed where need be, and moved in one step."""
    desk, clinic, form = context.desk(), context.settings().clinic, CloseForm()
    chosen = _date(request.values.get("day", ""))
    found = closing.displaced(desk, clinic, chosen) if chosen and chosen >= desk.today else []
    questions: list[str] = []
    if chosen and form.validate_on_submit():
        try:
            moved = closing.close(
                desk, clinic, chosen, form.why.data or "", form.moves(), accepted=form.answered()
            )  # fmt: skip
            tell_done(f"{day_words(chosen)} is closed; {moved} visit{'s' if moved != 1 else ''} moved.")
            return redirect(url_for(".close_day"), 303)
        except book.Asks as asks:
            questions = asks.questions
            form.ask(questions)
        except CareError as error:
            _beside(form, error)
    elif request.method == "GET":
        form.propose(found)
    days = ahead(context.store(), clinic, desk.today)
    page = render_template(
        "clinic/close_day.html",
        chosen=chosen,
        over=chosen is not None and chosen < desk.today,
        found={one.visit.identity: one for one in found},
        form=form,
        questions=questions,
        errors=field_errors(form),
        days=days,
        next_days=days.open_between(desk.today, desk.today + timedelta(days=21)),
        closed=closing.closed_here(desk),
        stranded=closing.on_closed_days(desk, clinic),
    )
    return page, 400 if form.errors else 200


@bp.post("/close-day/<day>/open")
@pressed
def open_day(day: str) -> Answer:
    """Open a day again that was closed by mistake; its visits return to it if that is asked."""
    chosen = _date(day)
    if chosen is None:
        abort(404)
    back = closing.open_again(context.desk(), chosen, back=request.form.get("visits") == "back")
    tell_done(f"{day_words(chosen)} is open again; {back} visit{'s' if back != 1 else ''} returned to it.")
    return redirect(url_for(".close_day"), 303)


def _date(text: str) -> date | None:
    try:
        return date.fromisoformat(text)
    except ValueError:
        return None


def _beside(form: Any, error: CareError) -> None:
    """Say a fault beside its field, or else beside the form's first."""
    say_beside(form, error, next(n for n, f in form._fields.items() if f.type not in NOT_SHOWN))
