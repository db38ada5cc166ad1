"""Signing in and out."""

from flask import Blueprint, redirect, render_template, request, session, url_for
from flask.typing import ResponseReturnValue as Answer
from pydantic import ValidationError

from followup.care import passkeys, second_factor, signing_in
from followup.care.actors import Actor
from followup.care.callbacks import going_home as going_home_with
from followup.care.errors import CareError, Refused
from followup.care.messages import outgoing
from followup.care.messages.reminders import STAFF_KINDS
from followup.exchange import push_keys
from followup.records.bodies.base import first_message
from followup.web import context
from followup.web.anybody.forms import CodeForm, GoingHomeForm, MessagesForm, PasskeyForm, SignInForm
from followup.web.fields import SmallForm, field_errors, say_beside

bp = Blueprint("account", __name__)


@bp.route("/sign-in", methods=["GET", "POST"])
def sign_in() -> Answer:
    """Staff sign in with e-mail and password."""
    form = SignInForm()
    if form.validate_on_submit():
        _here_too()
        try:
            actor = signing_in.sign_in(context.store(), context.now(), form.email.data, form.password.data, context.caller())
        except Refused as error:
            form.password.errors = [str(error)]
            return ways_in(form), 403
        if second_factor.wanted(context.store(), actor.id):
            session["half"] = signing_in.half(context.store(), context.now(), actor, form.email.data)
            return redirect(url_for(".second_step", next=context.inside(request.args.get("next"))))
        return begun_session(actor, form.email.data)
    return ways_in(form), 400 if form.errors else 200


def ways_in(form: SignInForm, refused: str = "") -> str:
    """The page with every way to sign in here; `refused` says why one without a password did not work."""
    where, ways = context.site(), context.settings().sign_in
    here = where is not None and ways.passwords
    asked = passkeys.to_sign_in(context.store(), context.now(), where, context.browser()) if where and here else None
    page = {"form": form, "passkey": asked, "refused": refused, "ways": ways, "insecure": context.keeps_no_sign_in()}
    return render_template("account/sign_in.html", **page)


def _here_too() -> None:
    """Raises `Refused` where the clinic lets only its own directory say who somebody is."""
    if not context.settings().sign_in.passwords:
        raise Refused(f"here staff sign in by {context.settings().sign_in.name} only")


@bp.post("/sign-in/passkey")
def passkey() -> Answer:
    """Sign in with a passkey alone: the device has verified who uses it."""
    form, where = PasskeyForm(), context.site()
    if where is None or not form.validate_on_submit():
        return redirect(url_for(".sign_in", next=context.inside(request.args.get("next"))), 303)
    _here_too()
    try:
        actor, email = signing_in.by_passkey(context.store(), context.now(), where, _answered(form), context.caller())
    except Refused as error:
        return ways_in(SignInForm(formdata=None), str(error)), 403
    return begun_session(actor, email)


def _answered(form: PasskeyForm) -> passkeys.Answer:
    return passkeys.Answer(form.token.data, form.answer.data, context.browser())


@bp.post("/sign-in/code/passkey")
def second_step_by_passkey() -> Answer:
    """A passkey after a right password, in the place of a code."""
    form, where, half = PasskeyForm(), context.site(), str(session.get("half", ""))
    if where is None or not form.validate_on_submit():
        return redirect(url_for(".second_step", next=context.inside(request.args.get("next"))), 303)
    try:
        actor, email = signing_in.second_step_by_passkey(
            context.store(), context.now(), half, where, _answered(form), context.caller()
        )
    except Refused as error:
        return _second_ways(CodeForm(formdata=None), str(error)), 403
    return begun_session(actor, email)


def _second_ways(form: CodeForm, refused: str = "") -> str:
    """The page with every second step that the account has."""
    store, now, where = context.store(), context.now(), context.site()
    try:
        staff_id, _ = signing_in.whose_half(store, now, str(session.get("half", "")))
    except Refused:
        staff_id = ""
    codes = not staff_id or second_factor.makes_codes(store, staff_id)
    has = where is not None and bool(staff_id) and bool(passkeys.of(store, staff_id))
    asked = passkeys.to_sign_in(store, now, where, context.browser(), staff_id) if where and has else None
    return render_template("account/second_step.html", form=form, passkey=asked, codes=codes, refused=refused)


@bp.route("/sign-in/code", methods=["GET", "POST"])
def second_step() -> Answer:
    """The code of the minute, or a recovery code, after a right password."""
    form = CodeForm()
    if form.validate_on_submit():
        half, caller = str(session.get("half", "")), context.caller()
        try:
            actor, email = signing_in.second_step(context.store(), context.now(), half, form.code.data, caller)
        except Refused as error:
            form.code.errors = [str(error)]
            return _second_ways(form), 403
        return begun_session(actor, email)
    return _second_ways(form), 400 if form.errors else 200


def begun_session(actor: Actor, email: str, next: str | None = None) -> Answer:
    """A session, whatever this browser held before, and the mark by which it is known from now on."""
    context.sign_out()
    session["session"] = signing_in.begin(context.store(), context.now(), actor, context.caller())
    session["signed_in_as"] = email.strip().lower()
    session.permanent = True
    response = redirect(context.inside(next or request.args.get("next")) or url_for(_home(actor.role)))
    response.set_cookie(
        context.MARK_COOKIE,
        signing_in.mark(context.store(), context.now(), email),
        max_age=signing_in.MARK_DAYS * 86400,
        httponly=True,
        samesite="Lax",
        secure=context.settings().server.secure_cookies,
        path=url_for(".sign_in"),
    )
    return response


@bp.post("/sign-out")
def sign_out() -> Answer:
    """Sign out; whoever has calls or tasks in hand is asked first what becomes of them."""
    if SmallForm().validate_on_submit():
        actor = context.staff()
        if actor and going_home_with.holds_anything(context.store(), actor.id):
            return redirect(url_for(".going_home"), 303)
        context.sign_out()
    return redirect(url_for("pages.index"))


@bp.route("/going-home", methods=["GET", "POST"])
def going_home() -> Answer:
    """What becomes of the calls and tasks in hand: given back, handed to a colleague or kept; then signed out, or not."""
    form, desk = GoingHomeForm(), context.desk()
    colleagues = going_home_with.colleagues(desk)
    form.to.choices = [("", "– choose –"), *((s.id, f"{s.name}, {s.role}") for s in colleagues)]
    if form.validate_on_submit():
        try:
            going_home_with.hand_over(desk, form.way.data or "", form.to.data)
            if form.then.data == "stay":
                return redirect(url_for(_home(desk.actor.role)), 303)
            context.sign_out()
            return redirect(url_for("pages.index"), 303)
        except CareError as error:
            say_beside(form, error)
    found = going_home_with.held(desk.store, desk.actor.id)
    page = render_template("account/going_home.html", form=form, held=found, errors=field_errors(form))
    return page, 400 if form.errors else 200


@bp.route("/my-messages", methods=["GET", "POST"])
def my_messages() -> Answer:
    """How whoever is signed in wants to be reached, and what was sent lately."""
    store, person, when = context.store(), f"staff:{context.me().id}", context.settings().messages
    form = MessagesForm()
    if form.validate_on_submit():
        chosen = {"email": form.email.data or "", "quiet_from": form.quiet_from.data, "quiet_to": form.quiet_to.data}
        unwanted = set(STAFF_KINDS) - set(form.kinds.data)
        try:
            outgoing.choose(store, context.now(), person, outgoing.Choices(**chosen, unwanted=unwanted))
            return redirect(url_for(".my_messages", kept="yes"), 303)
        except ValidationError as error:
            form.email.errors = [first_message(error).partition(": ")[2]]
    elif request.method == "GET":
        known = outgoing.choices_of(store, person, context.settings().clinic, when)
        form.email.data, form.kinds.data = known.email, [k for k in STAFF_KINDS if k not in known.unwanted]
        form.quiet_from.data, form.quiet_to.data = known.quiet_from, known.quiet_to
    return render_template(
        "account/my_messages.html",
        form=form,
        errors=field_errors(form),
        kept=request.args.get("kept"),
        email_possible=bool(when.smtp_host),
        push_key=push_keys.public_key(store),
        latest=outgoing.latest(store, person),
    ), 400 if form.errors else 200


def _home(role: str) -> str:
    return {"surgeon": "surgeon.needs_me", "administrator": "administrator.people"}.get(role, "clinic.today")
