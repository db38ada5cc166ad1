"""The surgeon's pages: who needs me and why, and the protocols to read and sign."""

from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for

from followup.care import signing
from followup.care.errors import CareError
from followup.care.eye import protocol, rulebook
from followup.protocols import book
from followup.records import eyes, worries
from followup.web import context
from followup.web.clinic import unsigned
from followup.web.forms import ProtocolForm, SignForm

bp = Blueprint("surgeon", __name__, url_prefix="/surgeon")
bp.context_processor(unsigned)


@bp.get("/")
@context.staff_only("surgeon")
def needs_me() -> Any:
    """By how soon, then by how long it has waited; the reason in one line."""
    store = context.store()
    open_ones = worries.open_callbacks(store)
    return render_template(
        "surgeon/needs_me.html",
        callbacks=open_ones,
        operations={row["id"]: row for row in eyes.all_operations(store)},
        reasons={c["id"]: worries.warnings_of_callback(store, c["id"]) for c in open_ones},
    )


@bp.get("/protocols")
@context.staff_only()
def protocols() -> Any:
    """The three parts in force, with their signatures."""
    store = context.store()
    return render_template(
        "surgeon/protocols.html",
        parts=[protocol(store, part) for part in book.PARTS],
        rules=rulebook(store).rules,
        form=SignForm(),
    )


@bp.post("/protocols/<part>/sign")
@context.staff_only("surgeon")
def sign(part: str) -> Any:
    form = SignForm()
    if form.validate_on_submit():
        signing.sign(context.store(), context.now(), context.me(), part, form.fingerprint.data)
    return redirect(url_for(".protocols"), 303)


@bp.route("/protocols/<part>", methods=["GET", "POST"])
@context.staff_only("surgeon")
def edit(part: str) -> Any:
    """Adjust a part; a rulebook first shows what the change would have done to the clinic's own past eyes."""
    if part not in book.PARTS:
        return render_template("error.html", message="There is no such part of the protocol."), 404
    form = ProtocolForm(text=protocol(context.store(), part).text)
    effects = None
    status = 200
    if form.validate_on_submit():
        try:
            if request.form.get("step") == "save":
                signing.save(context.store(), context.now(), context.me(), part, form.text.data)
                return redirect(url_for(".protocols"), 303)
            book.check(part, form.text.data)
            effects = (
                signing.effects(context.store(), form.text.data, context.now(), context.zone()) if part == "rulebook" else []
            )
        except (CareError, book.ProtocolError) as error:
            form.text.errors = [str(error)]
            status = 400
    return render_template("surgeon/protocol.html", part=part, form=form, effects=effects), status
