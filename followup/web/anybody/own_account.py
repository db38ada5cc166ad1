"""One's own account: the password, and where one is signed in."""

from typing import Any

from flask import redirect, render_template, request, url_for

from followup.care import accounts, signing_in
from followup.care.errors import CareError
from followup.web import context
from followup.web.anybody.account import bp
from followup.web.anybody.forms import PasswordForm
from followup.web.fields import SmallForm, field_errors


@bp.route("/my-account", methods=["GET", "POST"])
def my_account() -> Any:
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
    ), 400 if form.errors else 200


@bp.post("/my-account/sign-others-out")
def sign_others_out() -> Any:
    """End one's sessions on every other browser."""
    held = context.signed_in()
    if SmallForm().validate_on_submit() and held:
        me = context.me()
        signing_in.end_sessions(context.store(), context.now(), me.id, me.signature, but=held.id)
    return redirect(url_for(".my_account"), 303)
