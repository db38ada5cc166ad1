"""Today: who is due, missing, here; and what a clinic device keeps for a day without a signal."""

from typing import Any

from flask import redirect, render_template, request, url_for

from followup.care.today import lists
from followup.care.visits import visit
from followup.web import context, display, workers
from followup.web.clinic.blueprint import bp, pressed
from followup.web.clinic.visit_forms import VisitForm

LIST_STATES = {
    "here": "Here now",
    "due": "Due today",
    "missed": "Missing",
    "seen": "Seen today",
    "coming": "Coming in the next seven days",
}

DEVICE_ASSETS = ("staff/*.js", "staff/device/*.js", "shared/*.js", "base.css", "staff.css", "icons/icon*")

DEVICE_WORDS = {kind: display.WORDS[kind] for kind in ("eye", "agent", "how_soon")} | {"shape": display.HOW_SOON_SHAPE}


@bp.get("/")
def today() -> Any:
    """Who is due, who is missing, who is at risk."""
    words = request.args.get("find", "").strip()
    store = context.store()
    return render_template(
        "clinic/today.html",
        due=lists.due_visits(store, context.now(), context.zone()),
        find=words,
        found=lists.find(store, words, context.today()) if words else None,
        requests=lists.open_requests(store, context.now()),
        **vars(lists.troubles(store)),
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
@pressed
def arrived(eye_id: str) -> Any:
    """The patient is in the clinic."""
    body = {"visit": request.form.get("visit", ""), "visit_id": request.form.get("visit_id") or None}
    visit.record_clinic_event(context.desk(), eye_id, "arrived", body)
    return redirect(url_for(".today"), 303)
