"""Pages that belong to nobody in particular: the door, how this is worked out, and whether everything works."""

from datetime import timedelta
from typing import Literal

from flask import Blueprint, Response, current_app, jsonify, redirect, render_template, send_from_directory, url_for
from flask.typing import ResponseReturnValue as Answer
from pydantic import BaseModel

from followup.care.errors import NotFound
from followup.care.reading.events import Envelope
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
    second_thoughts,
    success,
    tamponade,
    vision,
    warnings,
)
from followup.clinical.evidence import SOURCES
from followup.records.bodies.kinds import PATIENT_KINDS
from followup.web import context, display, interfaces

bp = Blueprint("pages", __name__)
DAY_SECONDS = 86_400
SECURITY_TXT_GOOD = timedelta(days=180)  # RFC 9116 2.5.5: less than a year
MODELS = (
    vision,
    chart_noise,
    pressure,
    tamponade,
    overfill,
    second_thoughts,
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
    if context.staff() is not None:
        return render_template("index.html")
    if context.device() is not None:
        return redirect(url_for("patient.shell"))
    return render_template("patient/front.html", **display.speaking())


@bp.get("/favicon.ico")
def favicon() -> Answer:
    """What browsers ask for without being told to."""
    return send_from_directory(
        str(current_app.static_folder), "icons/icon-192.png", mimetype="image/png", max_age=DAY_SECONDS
    )


@bp.get("/.well-known/security.txt")
def security_txt() -> Answer:
    """Whom to tell of a weakness (RFC 9116); 404 where the clinic named nobody."""
    contact = context.settings().clinic.security_contact
    if not contact:
        raise NotFound("this clinic has named nobody for this")
    lines = [
        f"Contact: {contact if '://' in contact else f'mailto:{contact}'}",
        f"Expires: {context.now() + SECURITY_TXT_GOOD:%Y-%m-%dT%H:%M:%SZ}",
        f"Preferred-Languages: {', '.join(dict.fromkeys((context.settings().clinic.language, 'en')))}",
        f"Canonical: {context.settings().server.public_address}/.well-known/security.txt",
    ]
    return Response("\n".join([*lines, ""]), content_type="text/plain; charset=utf-8")


@bp.get("/.well-known/change-password")
def change_password() -> Answer:
    """Where whoever keeps passwords finds the page that changes one (W3C, A Well-Known URL for Changing Passwords)."""
    return redirect(url_for("account.my_account"))


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


class Health(BaseModel):
    """`stopped`: what stands still, of `database`, `clock` and `disk`; `closed` while the clinic moves to another server.

    In a region also `settings`, where those of the clinic cannot be used; `opening` until it is served; and `busy` while
    none of its requests moves on.
    """

    ok: bool
    stopped: list[Literal["database", "clock", "disk", "closed", "settings", "opening", "busy"]] = []


@bp.get("/api/v1/openapi.json")
def openapi() -> Answer:
    """Every machine interface, drawn from the routes and the models that check."""
    return jsonify(interfaces.description(current_app, (Envelope, *PATIENT_KINDS.values())))


@bp.get("/health")
@interfaces.described(Health, fault=Health)
def health() -> Answer:
    """For whoever watches the server: 200, or 503 with what stands still (`database`, `clock`, `disk`). No sign-in, no data."""
    stopped = watching.stopped(context.store(), context.now())
    return ({"ok": False, "stopped": stopped}, 503) if stopped else {"ok": True}
