"""Pages that belong to nobody in particular: the door, and how this is worked out."""

from typing import Any

from flask import Blueprint, redirect, render_template, url_for

from followup.care.eye import rulebook
from followup.clinical import (
    acuity,
    altitude,
    bubble,
    chart_noise,
    coverage,
    outcomes,
    overfill,
    posture,
    pressure,
    schedule,
    tamponade,
    warnings,
)
from followup.web import context

bp = Blueprint("pages", __name__)
MODELS = (
    acuity,
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
)


@bp.get("/")
def index() -> Any:
    """Two doors: the patient's phone, and staff."""
    if context.device() is not None and context.staff() is None:
        return redirect(url_for("patient.shell"))
    return render_template("index.html")


@bp.get("/how-this-is-worked-out")
@context.staff_only()
def reference() -> Any:
    """Each model with its figures and sources, drawn from what the code computes with."""
    return render_template(
        "reference.html",
        models=[module.MODEL for module in MODELS],
        rules=rulebook(context.store()).rules,
        agents=[a for a in tamponade.AGENTS.values() if a.fades],
        half_life=tamponade.half_life_days,
        lenses=tamponade.LENSES,
    )
