"""One eye: its page, its card and code, and what ends the caution of gas."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer
from flask_babel import force_locale, get_locale, gettext

from followup.care.actors import barred
from followup.care.corrections import correcting
from followup.care.errors import CareError, NotFound, Refused
from followup.care.home import enrol
from followup.care.learning import agreement
from followup.care.patients import consenting
from followup.care.reading import entries, operations, person
from followup.care.reading.eye import looked_at, rulebook
from followup.care.visits import in_book, visit
from followup.care.watch.dangers import dangers
from followup.clinical import second_looks
from followup.exchange import qr
from followup.web import charts, context
from followup.web.clinic.blueprint import bp, load_eye, operated_eye, pressed
from followup.web.clinic.visit_forms import TakeBackForm
from followup.web.fields import SmallForm

NEWEST = 20
"""So many entries an eye's page shows, unless all are asked for."""


@bp.get("/eyes/<eye_id>/card")
def card(eye_id: str) -> Answer:
    """The discharge card in the patient's language: one A4 page with the code that enrols the phone.

    `language=en` shows it to staff who do not read that language.
    """
    eye = operated_eye(eye_id)
    asked = request.args.get("language")
    code = context.kept_code(eye.id)
    address = url_for("patient.enrolment", _external=False)
    link = f"{context.settings().server.public_address}{address}?code={code}" if code else None
    with force_locale(asked if asked in context.LANGUAGES else eye.patient.language):
        locale = get_locale()
        language = str(locale or "en")
        paper = render_template(
            "patient/card.html",
            eye=eye,
            said=gettext,
            code=code,
            qr=qr.svg(link) if link else None,
            address=f"{context.settings().server.public_address}{address}",
            dangers=dangers(rulebook(context.store()), [eye.operation], gettext),
            changed=operations.last_change(context.store(), eye.note.operation_id),
            language=language,
            direction=locale.text_direction if locale else "ltr",
        )
    consents = consenting.history(context.store(), eye.patient.id)
    return render_template("clinic/card.html", eye=eye, paper=paper, language=language, consents=consents)


@bp.post("/eyes/<eye_id>/code")
@pressed
def new_code(eye_id: str) -> Answer:
    """A fresh enrolment code, for a second phone or when the first has run out."""
    eye = load_eye(eye_id)
    code = enrol.issue_code(context.desk(), eye.patient.id)
    context.keep_code(eye.id, code)
    return redirect(url_for(".card", eye_id=eye_id), 303)


@bp.get("/eyes/<eye_id>")
def eye_page(eye_id: str) -> Answer:
    """One eye: the course in one picture (`weeks=early`: the first weeks), and the table that says the same. Of the entries
    the newest, or `entries=all`.
    """
    eye, now, store = load_eye(eye_id), context.now(), context.store()
    fellow = next(load_eye(known.id) for known in person.eyes_beside(store, eye.id) if known.id != eye.id)
    looked_at(context.desk(), eye.id)
    early = request.args.get("weeks") == "early"
    whole = request.args.get("entries") == "all"
    found = entries.of_eye(store, eye.id, context.zone(), None if whole else NEWEST + 1)
    shown = found if whole else found[:NEWEST]
    book = rulebook(store)
    return render_template(
        "clinic/eye.html",
        eye=eye,
        fellow=fellow,
        differences=agreement.differences(store, eye.events, context.zone()),
        chart=charts.course_chart(eye, now, book.bands, fellow, early),
        early=early,
        second_looks=second_looks.still_to_come(eye.course, book, now) if not eye.known.ended_at else [],
        rows=charts.course_table(eye, now),
        cancelled=in_book.cancelled(store, eye.id),
        untold=in_book.untold(store, eye.id),
        entries=shown,
        has_more=len(found) > len(shown),
        forecast=eye.forecast(now) if eye.operated else None,
        caution=eye.caution(now),
        liquid=eye.holds_liquid(now),
        said_taken=eye.drops_said_taken(context.today()),
        no_gas=eye.no_gas_record if eye.operated else None,
        histories=operations.histories(store, eye.notes),
    )


@bp.post("/devices/<device_id>/revoke")
@pressed
def revoke(device_id: str) -> Answer:
    """Lock a lost phone out."""
    enrol.revoke(context.desk(), device_id)
    return redirect(context.inside(request.form.get("back")) or url_for(".today"), 303)


@bp.route("/eyes/<eye_id>/no-gas", methods=["GET", "POST"])
def no_gas(eye_id: str) -> Answer:
    """No gas seen: asked once more beside the last level and the forecast, since it lifts the caution."""
    eye, now = operated_eye(eye_id), context.now()
    if fault := barred(context.me(), "no-gas-seen"):
        raise Refused(fault)
    if not eye.operation.fades:
        raise NotFound("there was no gas left in this eye")
    if SmallForm().validate_on_submit():
        return _record(eye_id, "no-gas-seen")
    seen, forecast = eye.timeline(now).sightings, eye.forecast(now)
    level = forecast.at(eye.operation.day(now))
    return render_template("clinic/no_gas.html", eye=eye, last=seen[-1][1] if seen else None, forecast=forecast, level=level)


@bp.post("/eyes/<eye_id>/oil-out")
@pressed
def oil_out(eye_id: str) -> Answer:
    """The oil was taken out."""
    return _record(eye_id, "tamponade-removed")


def _record(eye_id: str, kind: str) -> Answer:
    visit.record_clinic_event(context.desk(), eye_id, kind, {})
    return redirect(url_for(".eye_page", eye_id=eye_id), 303)


@bp.post("/entries/<event_id>/take-back")
def take_back(event_id: str) -> Answer:
    """Withdraw an entry made by mistake, with the reason."""
    form = TakeBackForm()
    if not form.validate_on_submit():
        raise CareError("say why this is taken back")
    done = correcting.withdraw(context.desk(), event_id, form.reason.data or "")
    return redirect(url_for(".eye_page", eye_id=done.eye_id), 303)
