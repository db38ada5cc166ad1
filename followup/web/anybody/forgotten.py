"""A forgotten password: a link by mail, and a new password by that link."""

from flask import redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import resetting
from followup.care.errors import CareError, Refused
from followup.web import context
from followup.web.anybody.account import bp
from followup.web.anybody.forms import ForgottenForm, NewPasswordForm
from followup.web.fields import field_errors


@bp.route("/sign-in/forgotten", methods=["GET", "POST"])
def forgotten() -> Answer:
    """Ask for a link. The answer is the same for an address that has no account."""
    form, asked = ForgottenForm(), False
    mail = bool(context.settings().messages.smtp_host)
    if mail and form.validate_on_submit():
        resetting.ask(context.store(), context.now(), form.email.data, request.remote_addr or "")
        asked = True
    page = render_template("account/forgotten.html", form=form, asked=asked, mail=mail, errors=field_errors(form))
    return page, 400 if form.errors else 200


@bp.route("/sign-in/new-password/<token>", methods=["GET", "POST"])
def new_password(token: str) -> Answer:
    """Choose a new password by a link, once."""
    store, form = context.store(), NewPasswordForm()
    member = resetting.whose(store, context.now(), token)
    if form.validate_on_submit():
        try:
            resetting.reset(store, context.now(), token, form.new.data)
            context.sign_out()
            return redirect(url_for(".sign_in", changed="yes"), 303)
        except Refused:
            raise
        except CareError as error:
            form.new.errors = [str(error)]
    page = render_template("account/new_password.html", form=form, member=member, errors=field_errors(form))
    return page, 400 if form.errors else 200
