"""One's own account: the password, and where one is signed in."""

from flask import redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import accounts, passkeys, second_factor, signing_in
from followup.care.errors import CareError, NotFound
from followup.exchange import qr
from followup.web import context
from followup.web.anybody.account import bp
from followup.web.anybody.forms import (
    CodeForm,
    LonePasswordForm,
    MadePasskeyForm,
    NewPasskeyForm,
    PasskeyNameForm,
    PasswordForm,
)
from followup.web.fields import SmallForm, field_errors, say_beside


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
        codes=second_factor.makes_codes(store, me.id),
        second_factor=second_factor.wanted(store, me.id),
        passkeys=passkeys.of(store, me.id),
        site=context.site(),
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


@bp.route("/my-account/new-passkey", methods=["GET", "POST"])
def new_passkey() -> Answer:
    """Register a passkey under a name, after the password: then the device is asked."""
    form, asked = NewPasskeyForm(), None
    where, holder = _where_passkeys_hold()
    if form.validate_on_submit():
        try:
            asked = passkeys.to_register(context.desk(), where, holder, form.name.data, form.password.data)
        except CareError as error:
            say_beside(form, error, "name")
    errors = field_errors(form)
    page = render_template("account/new_passkey.html", form=form, passkey=asked, errors=errors)
    return page, 400 if errors else 200


@bp.post("/my-account/new-passkey/made")
def keep_passkey() -> Answer:
    """Keep the passkey that the device made."""
    form = MadePasskeyForm()
    where, holder = _where_passkeys_hold()
    if form.validate_on_submit():
        answer = passkeys.Answer(form.token.data, form.answer.data, holder)
        passkeys.register(context.desk(), where, answer, form.name.data)
    return redirect(url_for(".my_account"), 303)


def _where_passkeys_hold() -> tuple[passkeys.Site, str]:
    """The clinic's site, and the session that asks. Raises `NotFound` where browsers allow no passkeys."""
    where, held = context.site(), context.signed_in()
    if where is None or held is None:
        raise NotFound("browsers allow passkeys only where the clinic’s address begins with https:// and has a name")
    return where, held.id


@bp.route("/my-account/passkeys/<id>", methods=["GET", "POST"])
def rename_passkey(id: str) -> Answer:
    """Give one of one's own passkeys another name."""
    form = PasskeyNameForm()
    found = next((one for one in passkeys.of(context.store(), context.me().id) if one.id == id), None)
    if found is None:
        raise NotFound("you have no such passkey")
    if form.validate_on_submit():
        try:
            passkeys.rename(context.desk(), id, form.name.data)
            return redirect(url_for(".my_account"), 303)
        except CareError as error:
            form.name.errors = [str(error)]
    elif request.method == "GET":
        form.name.data = found.name
    return render_template("account/passkey.html", form=form, passkey=found), 400 if form.errors else 200


@bp.post("/my-account/passkeys/<id>/remove")
def remove_passkey(id: str) -> Answer:
    """Take one of one's own passkeys away."""
    if SmallForm().validate_on_submit():
        passkeys.remove(context.desk(), id)
    return redirect(url_for(".my_account"), 303)


@bp.route("/my-account/ask-for-a-passkey", methods=["GET", "POST"])
def ask_for_passkey() -> Answer:
    """Ask for a passkey after the password; recovery codes are shown once."""
    recovery: list[str] = []
    if asked := SmallForm().validate_on_submit():
        recovery = second_factor.ask_for_passkey(context.desk())
        if not recovery:
            return redirect(url_for(".my_account"), 303)
    return render_template("account/ask_for_passkey.html", recovery=recovery, asked=asked)
