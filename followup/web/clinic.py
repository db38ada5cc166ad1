"""The nurse's pages: today's list, one eye, its card and its visits. `discharging` and `calling` add to this blueprint."""

from functools import wraps
from typing import Any, cast

from flask import Blueprint, abort, redirect, render_template, request, session, url_for

from followup.care import agreement, correcting, enrol, entries, lists, operation_note, person, sealing, visit
from followup.care.actors import barred
from followup.care.dangers import dangers
from followup.care.daysheet import pressure_limits
from followup.care.errors import CareError, NotFound, Refused
from followup.care.events import EnteredMeasures, MeasuresBody
from followup.care.eye import Eye, load, protocol, rulebook, visit_of_today
from followup.care.raising import most_urgent_first
from followup.exchange import qr
from followup.records import events, eyes, messages
from followup.web import charts, context, display, workers
from followup.web.clinic_api import author_pass
from followup.web.forms import EyeMeasuresForm, SmallForm, TakeBackForm, VisitForm, field_errors

bp = Blueprint("clinic", __name__, url_prefix="/clinic")
LIST_STATES = {
    "here": "Here now",
    "due": "Due today",
    "missed": "Missing",
    "seen": "Seen today",
    "coming": "Coming in the next seven days",
}
DEVICE_ASSETS = ("staff/*.js", "staff/device/*.js", "shared/*.js", "base.css", "staff.css", "icons/icon*")
DEVICE_WORDS = {kind: display.WORDS[kind] for kind in ("eye", "agent", "how_soon")} | {"shape": display.HOW_SOON_SHAPE}


@bp.context_processor
def drafts() -> dict[str, Any]:
    """Staff screens say so while a protocol part is unsigned, and offer what the person may record."""
    staff = context.staff()
    return {**unsigned(), "may_lift_caution": bool(staff and staff.may_lift_caution)}


def unsigned() -> dict[str, Any]:
    parts = ("rulebook", "reviews", "postures")
    return {"unsigned": [p for p in parts if protocol(context.store(), p).is_draft]} if context.staff() else {}


def pressed(view: context.View) -> context.View:
    """For views behind a lone button: without its token nothing happens."""

    @wraps(view)
    def guarded(*args: Any, **kwargs: Any) -> Any:
        if not SmallForm().validate_on_submit():
            abort(400)
        return view(*args, **kwargs)

    return cast(context.View, guarded)


def load_eye(eye_id: str) -> Eye:
    return load(context.store(), eye_id, context.zone())


def operated_eye(eye_id: str) -> Eye:
    """For pages about an operation. Raises `NotFound` for an eye without one."""
    eye = load_eye(eye_id)
    if not eye.operated:
        raise NotFound("this eye was not operated here, or no operation that can be read is on record")
    return eye


@bp.get("/")
@context.staff_only()
def today() -> Any:
    """Who is due, who is missing, who is at risk."""
    words = request.args.get("find", "").strip()
    store = context.store()
    return render_template(
        "clinic/today.html",
        due=lists.due_visits(store, context.now(), context.zone()),
        find=words,
        found=lists.find(store, words, context.today()) if words else None,
        refused=events.refused(store)[:5],
        unreadable=eyes.unreadable(store),
        requests=lists.open_requests(store, context.now()),
        unsent=messages.troubled(store),
        today=context.today(),
        states=LIST_STATES,
    )


@bp.get("/without-signal")
def without_signal() -> Any:
    """The page that a clinic device keeps: the same for everybody, what it shows comes from the device's own store."""
    form = VisitForm(meta={"csrf": False})
    return render_template(
        "clinic/without_signal.html", form=form, states=LIST_STATES, words=DEVICE_WORDS, staff=None, unsigned=[]
    )


@bp.get("/manifest.webmanifest")
def manifest() -> Any:
    """What makes the staff's pages installable on a clinic device."""
    return workers.manifest("clinic/manifest.json")


@bp.get("/sw.js")
def service_worker() -> Any:
    """The staff's service worker."""
    pages = [url_for(".without_signal"), url_for(".manifest"), url_for("api.acuity_table")]
    kept = [*pages, *workers.static_addresses(DEVICE_ASSETS)]
    return workers.worker("staff/device/worker.js", "/clinic/", kept)


@bp.post("/eyes/<eye_id>/arrived")
@context.staff_only()
@pressed
def arrived(eye_id: str) -> Any:
    """The patient is in the clinic."""
    body = {"visit": request.form.get("visit", ""), "visit_id": request.form.get("visit_id") or None}
    visit.record_clinic_event(context.store(), context.now(), context.me(), eye_id, "arrived", body, context.zone())
    return redirect(url_for(".today"), 303)


@bp.get("/eyes/<eye_id>/card")
@context.staff_only()
def card(eye_id: str) -> Any:
    """The discharge card: one A4 page with the code that enrols the phone."""
    eye = operated_eye(eye_id)
    kept = session.get("code") or {}
    code = kept.get("code") if kept.get("eye") == eye.id else None
    address = url_for("patient.enrolment", _external=False)
    link = f"{context.settings().server.public_address}{address}?code={code}" if code else None
    return render_template(
        "clinic/card.html",
        eye=eye,
        code=code,
        qr=qr.svg(link) if link else None,
        address=f"{context.settings().server.public_address}{address}",
        forecast=eye.forecast(context.now()),
        dangers=dangers(rulebook(context.store()), [eye.operation]),
        changed=operation_note.last_change(context.store(), eye.note.operation_id),
    )


@bp.post("/eyes/<eye_id>/code")
@context.staff_only()
@pressed
def new_code(eye_id: str) -> Any:
    """A fresh enrolment code, for a second phone or when the first has run out."""
    eye = load_eye(eye_id)
    code = enrol.issue_code(context.store(), context.now(), context.me(), eye.patient.id)
    session["code"] = {"eye": eye.id, "code": code}
    return redirect(url_for(".card", eye_id=eye_id), 303)


@bp.get("/eyes/<eye_id>")
@context.staff_only()
def eye_page(eye_id: str) -> Any:
    """One eye: the whole course in one picture, and the table that says the same."""
    eye, now, store = load_eye(eye_id), context.now(), context.store()
    fellow = next(load_eye(known.id) for known in person.eyes_beside(store, eye.id) if known.id != eye.id)
    eyes.add_look(store, now, eye.id, context.me().signature)
    return render_template(
        "clinic/eye.html",
        eye=eye,
        fellow=fellow,
        differences=agreement.differences(store, eye.events, context.zone()),
        chart=charts.course_chart(eye, now, rulebook(store).bands, fellow),
        rows=charts.course_table(eye, now),
        entries=entries.of_eye(store, eye.id, context.zone()),
        forecast=eye.forecast(now) if eye.operated else None,
        caution=eye.caution(now),
        liquid=eye.holds_liquid(now),
        no_gas=eye.no_gas_record if eye.operated else None,
        histories={note.operation_id: eyes.history_of(store, note.operation_id) for note in eye.notes},
    )


@bp.post("/devices/<device_id>/revoke")
@context.staff_only()
@pressed
def revoke(device_id: str) -> Any:
    """Lock a lost phone out."""
    enrol.revoke(context.store(), context.now(), context.me(), device_id)
    return redirect(request.form.get("back", url_for(".today")), 303)


@bp.route("/eyes/<eye_id>/no-gas", methods=["GET", "POST"])
@context.staff_only()
def no_gas(eye_id: str) -> Any:
    """No gas seen: asked once more beside the last level and the forecast, since it lifts the caution."""
    eye, now = operated_eye(eye_id), context.now()
    if fault := barred(context.me(), "no-gas-seen"):
        raise Refused(fault)
    if SmallForm().validate_on_submit():
        return _record(eye_id, "no-gas-seen")
    seen, forecast = eye.timeline(now).sightings, eye.forecast(now)
    level = forecast.at(eye.operation.day(now))
    return render_template("clinic/no_gas.html", eye=eye, last=seen[-1][1] if seen else None, forecast=forecast, level=level)


@bp.post("/eyes/<eye_id>/oil-out")
@context.staff_only()
@pressed
def oil_out(eye_id: str) -> Any:
    """The oil was taken out."""
    return _record(eye_id, "tamponade-removed")


def _record(eye_id: str, kind: str) -> Any:
    visit.record_clinic_event(context.store(), context.now(), context.me(), eye_id, kind, {}, context.zone())
    return redirect(url_for(".eye_page", eye_id=eye_id), 303)


@bp.post("/entries/<event_id>/take-back")
@context.staff_only()
def take_back(event_id: str) -> Any:
    """Withdraw an entry made by mistake, with the reason."""
    form = TakeBackForm()
    if not form.validate_on_submit():
        raise CareError("say why this is taken back")
    done = correcting.withdraw(
        context.store(), context.now(), context.me(), event_id, form.reason.data or "", context.zone()
    )
    return redirect(url_for(".eye_page", eye_id=done.eye_id), 303)


@bp.route("/eyes/<eye_id>/visit", methods=["GET", "POST"])
@context.staff_only()
def new_visit(eye_id: str) -> Any:
    """Measures of both eyes; saving says at once what they raised, and why."""
    eye = load_eye(eye_id)
    form = VisitForm()
    form.offer(eye.open_visits)
    last = person.last_measures(person.both_eyes(context.store(), eye.patient.id, context.zone()))
    if request.method == "GET":
        likely = visit_of_today(eye.open_visits, context.today())
        form.visit.data = likely.identity if likely else ""
        for side, event in last.items():
            form[side].form.measured_like(event.body if event else {})
    status = 200
    doubts: list[str] = []
    if form.validate_on_submit() and (form.sure.data or not (doubts := _doubts(form, eye))):
        try:
            raised = visit.record_visit(
                context.store(),
                context.now(),
                context.me(),
                eye_id,
                [b for side in ("right", "left") if (b := _measures(side, form[side].form))],
                context.zone(),
                visit=form.visit.data or None,
                no_gas_seen=form.no_gas_seen.data,
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
        return EnteredMeasures.model_validate({"eye": side, **typed, "findings": tuple(f.findings.data)}).body()
    except ValueError as error:
        raise CareError(str(error)) from error


@bp.get("/eyes/<eye_id>/visit/saved")
@context.staff_only()
def visit_saved(eye_id: str) -> Any:
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
