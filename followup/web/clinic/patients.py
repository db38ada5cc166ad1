"""One patient: both eyes on one page, the end of follow-up, and two records of one person joined."""

from flask import Response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import taking_out
from followup.care.errors import CareError
from followup.care.patients import consenting, following, joining
from followup.care.reading import person
from followup.care.today import lists
from followup.care.visits import in_book
from followup.web import context
from followup.web.clinic.blueprint import bp, load_eye
from followup.web.clinic.patient_forms import ConsentForm, EndForm, JoinForm, TakeUpForm
from followup.web.fields import field_errors, say_beside


@bp.get("/patients/<patient_id>")
def patient_page(patient_id: str) -> Answer:
    """Both eyes side by side: what was done, what is in each, what is planned, and what was said."""
    found = person.whole(context.store(), patient_id, context.zone())
    if found.patient.id != patient_id:
        return redirect(url_for(".patient_page", patient_id=found.patient.id))
    readings = {eye.id: {what: person.last_reading(eye, what) for what in ("acuity", "iop_mmhg")} for eye in found.eyes}
    gone = {eye.id: in_book.cancelled(context.store(), eye.id) for eye in found.eyes}
    return render_template(
        "clinic/patient.html",
        found=found,
        readings=readings,
        cancelled=gone,
        untold=frozenset().union(*(in_book.untold(context.store(), eye.id) for eye in found.eyes)),
        take_up=TakeUpForm(),
        consents=consenting.history(context.store(), patient_id),
    )


@bp.route("/patients/<patient_id>/consent", methods=["GET", "POST"])
def consent(patient_id: str) -> Answer:
    """Consent to the phone pages: recorded, taken back, and all that was said of it."""
    store, known, form = context.store(), person.standing(context.store(), patient_id), ConsentForm()
    if form.validate_on_submit():
        say = consenting.give if form.given.data == "yes" else consenting.take_back
        try:
            say(context.desk(), known.id, form.said_by.data, form.words.data or "")
            back = context.inside(request.form.get("back")) or url_for(".patient_page", patient_id=known.id)
            return redirect(back, 303)
        except CareError as error:
            say_beside(form, error, "words")
    errors = field_errors(form)
    return render_template(
        "clinic/consent.html",
        patient=known,
        form=form,
        stands=consenting.stands(store, known.id),
        history=consenting.history(store, known.id),
        told=consenting.TOLD[consenting.PHONE],
        errors=errors,
    ), 400 if errors else 200


@bp.get("/patients/<patient_id>/record.txt")
def record_to_read(patient_id: str) -> Answer:
    """All that is on record about a patient, for the patient to read."""
    return _record(patient_id, 0, "text/plain", "record.txt")


@bp.get("/patients/<patient_id>/record.json")
def record_for_programs(patient_id: str) -> Answer:
    """The same for another program."""
    return _record(patient_id, 1, "application/json", "record.json")


def _record(patient_id: str, way: int, mimetype: str, name: str) -> Answer:
    known = person.standing(context.store(), patient_id)
    made = taking_out.record(context.store(), context.now(), context.me().signature, known.id)
    return Response(made[way], mimetype=mimetype, headers={"Content-Disposition": f"attachment; filename={name}"})


@bp.route("/eyes/<eye_id>/end", methods=["GET", "POST"])
def end_follow_up(eye_id: str) -> Answer:
    """End follow-up of an eye: what is open is shown, and is settled first or closed with the reason."""
    store, eye, form = context.store(), load_eye(eye_id), EndForm()
    if form.validate_on_submit():
        try:
            named = {"closes": form.closes.data or (), "withdraws": form.withdraws.data or ()}
            following.end(context.desk(), eye.id, form.reason.data, form.words.data or "", **named)
            return redirect(url_for(".patient_page", patient_id=eye.patient.id), 303)
        except CareError as error:
            say_beside(form, error)
    this_eye, both_eyes = (following.concerned(store, eye.known, why) for why in ("finished", "died"))
    own, both = following.still_open(store, this_eye), following.still_open(store, both_eyes)
    own_theatre, theatre = (following.confirmed_theatre(store, known) for known in (this_eye, both_eyes))
    return render_template(
        "clinic/end.html",
        eye=eye,
        form=form,
        own=own,
        beside=[one for one in both if one not in own],
        own_theatre=own_theatre,
        theatre_beside={id: same for id, same in theatre.items() if id not in own_theatre},
        errors=field_errors(form),
    ), 400 if form.errors else 200


@bp.post("/eyes/<eye_id>/take-up")
def take_up(eye_id: str) -> Answer:
    """Take follow-up up again, with why."""
    form, eye = TakeUpForm(), load_eye(eye_id)
    form.validate_on_submit()
    following.take_up(context.desk(), eye.id, form.words.data or "")
    return redirect(url_for(".patient_page", patient_id=eye.patient.id), 303)


@bp.route("/patients/<patient_id>/join", methods=["GET", "POST"])
def join(patient_id: str) -> Answer:
    """Find the other record, look at both beside each other, say what stands, and confirm once more."""
    store, one = context.store(), person.standing(context.store(), patient_id)
    other_id, words = request.args.get("other", ""), request.args.get("find", "").strip()
    if not other_id:
        found = lists.find(store, words, context.today()) if words else None
        return render_template("clinic/join_find.html", patient=one, find=words, found=found)
    both, form = joining.look(store, one.id, other_id, context.zone()), JoinForm()
    asked = form.validate_on_submit() and form.mark.data == both.mark
    if asked and request.form.get("step") == "join":
        stays = joining.join(
            context.desk(),
            both,
            number=form.number.data,
            particulars=form.particulars.data,
            mark=form.mark.data,
            same_day_meant=form.same_day.data == "meant",
        )
        return redirect(url_for(".patient_page", patient_id=stays), 303)
    form.mark.data = both.mark
    page = render_template("clinic/join.html", both=both, form=form, confirm=asked, errors=field_errors(form))
    return page, 400 if form.errors else 200
