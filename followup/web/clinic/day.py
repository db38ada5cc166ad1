"""Today: who is due, missing, here; and what a clinic device keeps for a day without a signal."""

from flask import redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.discharge import waiting
from followup.care.home import receive
from followup.care.today import arrivals, lists, unplanned
from followup.care.visits import closing
from followup.web import context, vocabulary, workers
from followup.web.clinic.blueprint import bp, pressed
from followup.web.clinic.visit_forms import VisitForm

LIST_STATES = {
    "here": "Here now",
    "due": "Due today",
    "missed": "Did not come",
    "seen": "Seen today",
    "coming": "Coming in the next seven days",
}

FILTERS = {
    "today": "All of today",
    "here": "Here",
    "due": "Due",
    "missed": "Did not come",
    "seen": "Seen",
    "somebody": "With a sign",
    "coming": "Coming",
}

DEVICE_ASSETS = ("staff/*.js", "staff/device/*.js", "shared/*.js", "base.css", "staff.css", "icons/icon*")

DEVICE_WORDS = {kind: vocabulary.WORDS[kind] for kind in ("eye", "agent", "how_soon")} | {"shape": vocabulary.HOW_SOON_SHAPE}


@bp.get("/")
def today() -> Answer:
    """Who is due, who is missing, who is at risk."""
    words = request.args.get("find", "").strip()
    store, desk, shown = context.store(), context.desk(), _filter()
    return render_template(
        "clinic/today.html",
        listed=lists.today_page(store, context.now(), context.zone(), shown, context.page()),
        shown=shown,
        filters=FILTERS,
        states=LIST_STATES,
        find=words,
        found=lists.find(store, words, context.today()) if words else None,
        requests=lists.open_requests(store, context.now(), context.zone(), lists.WISHES_SHOWN),
        most_wishes=lists.WISHES_SHOWN,
        to_tell=lists.to_tell_page(store, context.today(), lines=lists.TO_TELL_SHOWN),
        stranded=closing.on_closed_days(desk, context.settings().clinic),
        unplanned=unplanned.count(store, context.now(), context.zone()),
        theatre=waiting.count_until(store, context.today()),
        **vars(lists.troubles(store)),
        today=context.today(),
    )


def _filter() -> str:
    """What of the list is shown: as asked, else as last asked on this day; a new day begins with all of it."""
    today, kept = context.today().isoformat(), session.get("today_shows", {})
    asked = request.args.get("show", kept.get("show") if kept.get("on") == today else None)
    shown = asked if asked in FILTERS else "today"
    if request.args.get("show"):
        session["today_shows"] = {"on": today, "show": shown}
    return shown


@bp.get("/nothing-planned")
def nothing_planned() -> Answer:
    """Followed eyes with nothing planned: for each a visit is planned, or follow-up is ended."""
    listed = unplanned.listed_page(context.store(), context.now(), context.zone(), context.page())
    return render_template("clinic/nothing_planned.html", listed=listed)


@bp.get("/to-tell")
def to_tell() -> Answer:
    """Whom nobody has told yet of a visit that was moved or cancelled."""
    return render_template(
        "clinic/to_tell.html", to_tell=lists.to_tell_page(context.store(), context.today(), context.page())
    )


@bp.get("/without-signal")
def without_signal() -> Answer:
    """The page that a clinic device keeps: the same for everybody, what it shows comes from the device's own store."""
    form = VisitForm(meta={"csrf": False})
    return render_template(
        "clinic/without_signal.html", form=form, states=LIST_STATES, words=DEVICE_WORDS, staff=None, unsigned=[]
    )


@bp.get("/manifest.webmanifest")
def manifest() -> Answer:
    """What makes the staff's pages installable on a clinic device."""
    return workers.manifest("clinic/manifest.json")


@bp.get("/sw.js")
def service_worker() -> Answer:
    """The staff's service worker."""
    pages = [url_for(".without_signal"), url_for(".manifest"), url_for("api.acuity_table")]
    kept = [*pages, *workers.static_addresses(DEVICE_ASSETS)]
    return workers.worker("staff/device/worker.js", "/clinic/", kept)


@bp.post("/eyes/<eye_id>/arrived")
@pressed
def arrived(eye_id: str) -> Answer:
    """The patient is in the clinic."""
    identity = request.form.get("visit_id", "")
    arrivals.arrive(context.desk(), eye_id, identity)
    return redirect(_back_to(identity), 303)


@bp.post("/arrivals/<event_id>/undo")
@pressed
def not_here(event_id: str) -> Answer:
    """The patient is not in the clinic after all."""
    arrivals.not_here(context.desk(), event_id)
    return redirect(_back_to(request.form.get("visit_id", "")), 303)


@bp.post("/sealed/<person>/entered")
@pressed
def entered_anew(person: str) -> Answer:
    """Somebody asked what was in the packets that could not be opened, and entered it."""
    receive.entered_anew(context.desk(), person)
    return redirect(url_for("pages.not_working"), 303)


def _back_to(identity: str) -> str:
    """The line that was pressed, on the page of the list where it stood."""
    asked = request.form.get("page", "")
    return url_for(".today", page=asked if asked.isdecimal() else None, _anchor=f"visit-{identity}")
