"""Signing in and out."""

from typing import Any
from urllib.parse import urlsplit

from flask import Blueprint, redirect, render_template, request, session, url_for

from followup.care import accounts
from followup.care.errors import Refused
from followup.web import context
from followup.web.forms import SignInForm, SmallForm

bp = Blueprint("account", __name__)


@bp.route("/sign-in", methods=["GET", "POST"])
def sign_in() -> Any:
    """Staff sign in with e-mail and password."""
    form = SignInForm()
    if form.validate_on_submit():
        try:
            actor = accounts.sign_in(context.store(), context.now(), form.email.data, form.password.data)
        except Refused as error:
            form.password.errors = [str(error)]
            return render_template("account/sign_in.html", form=form), 403
        session.clear()
        session["staff_id"] = actor.id
        session.permanent = True
        return redirect(_inside(request.args.get("next")) or url_for(_home(actor.role)))
    return render_template("account/sign_in.html", form=form), 400 if form.errors else 200


@bp.post("/sign-out")
def sign_out() -> Any:
    if SmallForm().validate_on_submit():
        session.clear()
    return redirect(url_for("pages.index"))


def _home(role: str) -> str:
    return "surgeon.needs_me" if role == "surgeon" else "clinic.today"


def _inside(target: str | None) -> str | None:
    """The target if it is a path of this application."""
    if not target or not target.startswith("/") or target.startswith("//") or urlsplit(target).netloc or "\\" in target:
        return None
    return target
