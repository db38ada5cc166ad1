"""Entering a visit, and what saving it raised."""

from flask import redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.errors import CareError
from followup.care.home import sealing
from followup.care.learning import agreement
from followup.care.reading import person
from followup.care.reading.eye import Eye, rulebook
from followup.care.reading.measures import EnteredMeasures
from followup.care.today.arrivals import likely_visit
from followup.care.today.daysheet import pressure_limits
from followup.care.visits import visit
from followup.care.watch.raising import most_urgent_first
from followup.records.bodies.clinic import MeasuresBody
from followup.web import context
from followup.web.clinic.blueprint import bp, load_eye
from followup.web.clinic.device_api import author_pass
from followup.web.clinic.visit_forms import EyeMeasuresForm, VisitForm
from followup.web.fields import FORM_ID, field_errors


@bp.route("/eyes/<eye_id>/visit", methods=["GET", "POST"])
def new_visit(eye_id: str) -> Answer:
    """Measures of both eyes; saving says at once what they raised, and why."""
    eye = load_eye(eye_id)
    form = VisitForm()
    form.offer(eye.open_visits)
    last = person.last_measures(person.both_eyes(context.store(), eye.patient.id, context.zone()))
    if request.method == "GET":
        form.entry.data = visit.new_entry_id()
        likely = likely_visit(context.desk(), eye)
        form.visit.data = likely.identity if likely else ""
        for side, event in last.items():
            form[side].form.begin(event.body if event else None, person.chart_in_use(context.store(), last))
    status = 200
    doubts: list[str] = []
    if form.validate_on_submit() and (form.sure.data or not (doubts := _doubts(form, eye))):
        try:
            raised = visit.record_visit(
                context.desk(),
                eye_id,
                [b for side in ("right", "left") if (b := _measures(side, form[side].form))],
                visit=form.visit.data or None,
                no_gas_seen=form.no_gas_seen.data,
                entry_id=form.entry.data if FORM_ID.fullmatch(form.entry.data or "") else None,
            )
            session["raised"] = [w.id for w in raised]
            return redirect(url_for(".visit_saved", eye_id=eye_id), 303)
        except CareError as error:
            form.visit.errors = [str(error)]
            status = 400
    elif request.method == "POST" and not doubts:
        status = 400
    return render_template(
        "clinic/visit.html",
        eye=eye,
        form=form,
        last=last,
        errors=field_errors(form),
        doubts=doubts,
        author_pass=author_pass(context.me()),
        sealing_key=sealing.public_key(context.store()),
        limits=pressure_limits(rulebook(context.store())).model_dump(),
    ), status


def _doubts(form: VisitForm, eye: Eye) -> list[str]:
    """What is asked once before it is saved; *no gas seen* lifts a caution, so always, beside what is known."""
    doubts = form.doubts(eye.open_visits, context.today())
    if not form.no_gas_seen.data or not eye.operated:
        return doubts
    now = context.now()
    levels = eye.timeline(now).sightings
    last = f"the last level seen was {levels[-1][1].meniscus_percent:g} % high" if levels else "no level was entered"
    expected = eye.forecast(now).at(eye.operation.day(now)).meniscus_percent
    return [
        f"No gas seen: {last}, about {expected:.0f} % is expected today. Did a clinician look at the retina and see none?"
    ]


def _measures(side: str, f: EyeMeasuresForm) -> MeasuresBody | None:
    """The body of one eye, or None where nothing was entered."""
    typed = {name: value or "" for name, value in f.data.items() if name != "findings"}
    try:
        return EnteredMeasures.model_validate({"eye": side, **typed, "findings": tuple(f.findings.data)}).body(f.iop.mmhg)
    except ValueError as error:
        raise CareError(str(error)) from error


@bp.get("/eyes/<eye_id>/visit/saved")
def visit_saved(eye_id: str) -> Answer:
    """What saving the visit raised, with the values, the threshold and the source of each rule."""
    eye = load_eye(eye_id)
    both = person.both_eyes(context.store(), eye.patient.id, context.zone())
    ids = session.get("raised", [])
    found = agreement.differences(context.store(), [e for one in both for e in one.events], context.zone())
    return render_template(
        "clinic/visit_saved.html",
        eye=eye,
        raised=most_urgent_first([w for one in both for w in one.warnings if w.id in ids]),
        differences=[d for d in found if d.day == context.today()],
    )
