"""What was entered is put right: entries, the note of an operation, a patient's particulars."""

from flask import abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.corrections import correcting, operation_note, particulars
from followup.care.errors import CareError, Conflict
from followup.care.reading import entries, person
from followup.web import context
from followup.web.clinic.blueprint import bp, load_eye
from followup.web.clinic.discharge_forms import NoteForm, ParticularsForm, note_data
from followup.web.clinic.discharge_reading import beside_field, check_operation, note_of, patient_of
from followup.web.clinic.entry_form import EntryForm
from followup.web.clinic.entry_forms import FORMS
from followup.web.fields import field_errors, say_beside


def _entry(event_id: str) -> entries.Entry:
    found = entries.entry(context.store(), event_id, context.zone())
    if found is None:
        abort(404)
    return found


@bp.route("/entries/<event_id>/correct", methods=["GET", "POST"])
def correct_entry(event_id: str) -> Answer:
    """Put an entry right in the fields it was made in, or withdraw it."""
    entry = _entry(event_id)
    eye = load_eye(entry.event.eye_id)
    withdrawing = "withdraw" in request.values
    form = FORMS[entry.event.kind]()
    form.offer(person.both_eyes(context.store(), eye.patient.id, context.zone()), entry.event)
    doubts: list[str] = []
    status = 200
    if entry.later is not None:
        status = 409
    elif request.method == "GET":
        form.fill(entry.event, entry.side, context.zone())
    elif withdrawing or (form.validate() and (form.sure.data or not (doubts := form.doubts()))):
        try:
            _put_right(form, entry, withdrawing=withdrawing)
            return redirect(url_for(".entry_put_right", event_id=event_id), 303)
        except Conflict:
            raise
        except CareError as error:
            say_beside(form, error, "reason")
    if errors := field_errors(form):
        status = 400
    return render_template(
        "clinic/correct.html",
        stated=entry,
        eye=eye,
        form=form,
        doubts=doubts,
        errors=errors,
        withdrawing=withdrawing,
    ), status


def _put_right(form: EntryForm, entry: entries.Entry, *, withdrawing: bool) -> None:
    desk, reason = context.desk(), form.reason.data or ""
    if withdrawing:
        correcting.withdraw(desk, entry.event.id, reason)
        return
    body, at = form.body(entry.event, desk.zone), form.time(entry.event, desk.zone)
    correcting.correct(desk, entry.event.id, body, reason, side=form.chosen_side(), at=at)


@bp.get("/entries/<event_id>/put-right")
def entry_put_right(event_id: str) -> Answer:
    """What became of an entry: what stands now, what that raised, and which warnings rested on it."""
    entry = _entry(event_id)
    if entry.later is None:
        return redirect(url_for(".correct_entry", event_id=event_id), 303)
    eye = load_eye(entry.event.eye_id)
    done = correcting.outcome(context.store(), entry.later.event)
    return render_template(
        "clinic/entry_put_right.html",
        stated=entry,
        eye=eye,
        side=entry.later.side,
        done=done,
    )


@bp.route("/patients/<patient_id>/particulars", methods=["GET", "POST"])
def correct_particulars(patient_id: str) -> Answer:
    """Number, name, birth date, phone and language as they are right."""
    known = person.standing(context.store(), patient_id)
    form = ParticularsForm(obj=known)
    changed: list[tuple[str, str, str]] = []
    status = 200
    if request.method == "POST":
        try:
            if form.validate():
                changed = particulars.correct(context.desk(), patient_id, patient_of(form), form.reason.data)
                known = person.standing(context.store(), patient_id)
        except CareError as error:
            say_beside(form, error, "reason")
            status = 409 if isinstance(error, Conflict) else 400
        if field_errors(form) and status == 200:
            status = 400
    return render_template(
        "clinic/particulars.html",
        patient=known,
        eyes=person.both_eyes(context.store(), patient_id, context.zone()),
        form=form,
        changed=changed,
        errors=field_errors(form),
        languages=context.LANGUAGES,
    ), status


@bp.route("/eyes/<eye_id>/operations/<operation_id>/note", methods=["GET", "POST"])
def correct_note(eye_id: str, operation_id: str) -> Answer:
    """Everything that was copied from the operation note, also the eye."""
    zone = context.zone()
    notes = operation_note.notes(context.store(), eye_id, operation_id)
    stands, eye = notes[-1], load_eye(eye_id)
    form = NoteForm(data={**note_data(stands, zone), "corrects": stands.id})
    done = None
    if request.method == "POST":
        form.set_lens()
        form.validate()
        check_operation(form)
        try:
            if not field_errors(form):
                note = note_of(form, stands.body.posture, stands.body.height_metres)
                if note.operated_at == stands.operated_at.replace(second=0, microsecond=0):  # a field has no seconds
                    note = note.model_copy(update={"operated_at": stands.operated_at})
                done = operation_note.correct(
                    context.desk(), eye_id, operation_id, note, form.reason.data, corrects=form.corrects.data
                )
        except Conflict:
            raise
        except CareError as error:
            beside_field(form, error)
    errors = field_errors(form)
    return render_template(
        "clinic/note.html",
        eye=load_eye(done.eye_id) if done else eye,
        form=form,
        notes=notes,
        done=done,
        errors=errors,
        changed={what for what, _, _ in done.differences} if done else set(),
    ), 400 if errors else 200
