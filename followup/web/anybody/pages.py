"""Pages that belong to nobody in particular: the door, how this is worked out, and whether everything works."""

from flask import Blueprint, redirect, render_template, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care.reading.eye import rulebook
from followup.care.watch import watching
from followup.clinical import (
    altitude,
    bubble,
    chart_noise,
    coverage,
    durations,
    outcomes,
    overfill,
    posture,
    pressure,
    schedule,
    success,
    tamponade,
    vision,
    warnings,
)
from followup.clinical.evidence import SOURCES
from followup.web import context

bp = Blueprint("pages", __name__)
MODELS = (
    vision,
    chart_noise,
    pressure,
    tamponade,
    overfill,
    bubble,
    coverage,
    altitude,
    posture,
    schedule,
    warnings,
    outcomes,
    success,
)


@bp.get("/")
def index() -> Answer:
    """Two doors: the patient's phone, and staff."""
    if context.device() is not None and context.staff() is None:
        return redirect(url_for("patient.shell"))
    return render_template("index.html")


@bp.get("/how-this-is-worked-out")
def reference() -> Answer:
    """Each model with its figures and sources, drawn from what the code computes with."""
    return render_template(
        "reference.html",
        models=[module.MODEL for module in MODELS],
        rules=rulebook(context.store()).rules,
        durations=durations.compared(),
        sources=SOURCES,
    )


@bp.get("/not-working")
def not_working() -> Answer:
    """What went wrong and still does, whom it is about, and since when."""
    store, now = context.store(), context.now()
    return render_template("not_working.html", faults=watching.named(store), late=watching.late(store, now))


@bp.get("/health")
def health() -> Answer:
    """For whoever watches the server: 200, or 503 with what stands still (`database`, `clock`, `disk`). No sign-in, no data."""
    stopped = watching.stopped(context.store(), context.now())
    return ({"ok": False, "stopped": stopped}, 503) if stopped else {"ok": True}
