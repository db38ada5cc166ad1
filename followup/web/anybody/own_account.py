"""One's own account: the password, and where one is signed in."""

from flask import redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import accounts, second_factor, signing_in
from followup.care.errors import CareError
from followup.exchange import qr
from followup.web import context
from followup.web.anybody.account import bp
from followup.web.anybody.forms import CodeForm, LonePasswordForm, PasswordForm
from followup.web.fields import SmallForm, field_errors


@bp.route("/my-account", methods=["GET", "POST"])
def my_account() -> Answer:
    """Change the password; other browsers are signed out with it."""
    form, store, now, me = PasswordForm(), context.store(), context.now(), context.me()
    held = context.signed_in()
    assert held is not None
    if form.validate_on_submit():
        try:
            accounts.change_password(store, now, me, form.old.data, form.new.data, held.id)
            return redirect(url_for(".my_account", kept="yes"), 303)
        except CareError as error:
            (form.old if error.field == "old" else form.new).errors = [str(error)]
    return render_template(
        "account/my_account.html",
        form=form,
        errors=field_errors(form),
        kept=request.args.get("kept"),
        sessions=signing_in.open_sessions(store, now, me.id),
        here=held.id,
        second_factor=second_factor.wanted(store, me.id),
    ), 400 if form.errors else 200


@bp.post("/my-account/sign-others-out")
def sign_others_out() -> Answer:
    """End one's sessions on every other browser."""
    held = context.signed_in()
    if SmallForm().validate_on_submit() and held:
        me = context.me()
        signing_in.end_sessions(context.store(), context.now(), me.id, me.signature, but=held.id)
    return redirect(url_for(".my_account"), 303)


@bp.route("/my-account/second-factor", methods=["GET", "POST"])
def set_up_second_factor() -> Answer:
    """Set up an app that makes codes; recovery codes are shown once, when it works."""
    form, store, me = CodeForm(), context.store(), context.me()
    if request.method == "GET":
        session["app"] = context.sealed_for_cookie(second_factor.new_secret())
    secret = context.opened_from_cookie(str(session.get("app", ""))) or second_factor.new_secret()
    recovery: list[str] = []
    if form.validate_on_submit():
        try:
            recovery = second_factor.set_up(store, context.now(), me, secret, form.code.data)
            session.pop("app", None)
        except CareError as error:
            form.code.errors = [str(error)]
    drawn = qr.svg(second_factor.address(secret, session.get("signed_in_as", ""), context.settings().clinic.name))
    page = render_template("account/second_factor.html", form=form, secret=secret, qr=drawn, recovery=recovery)
    return page, 400 if form.errors else 200


@bp.route("/my-account/no-second-factor", methods=["GET", "POST"])
def remove_second_factor() -> Answer:
    """Ask for no codes any more, with the password."""
    form = LonePasswordForm()
    if form.validate_on_submit():
        try:
            second_factor.remove(context.store(), context.now(), context.me(), form.password.data)
            return redirect(url_for(".my_account"), 303)
        except CareError as error:
            form.password.errors = [str(error)]
    return render_template("account/no_second_factor.html", form=form), 400 if form.errors else 200
