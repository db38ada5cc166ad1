"""Accounts and the audit trail."""

import csv
import io

from flask import Blueprint, Response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import accounts, resetting, signing_in, trail
from followup.care.callbacks import going_home
from followup.care.errors import CareError
from followup.web import context
from followup.web.administrator.forms import AccountForm
from followup.web.fields import SmallForm, field_errors

bp = Blueprint("administrator", __name__, url_prefix="/administrator")


@bp.route("/", methods=["GET", "POST"])
def people() -> Answer:
    """Who has an account and where they are signed in; add one."""
    form, store, now = AccountForm(), context.store(), context.now()
    if form.validate_on_submit():
        asked = (form.name.data, form.role.data, form.email.data, form.password.data)
        try:
            accounts.add_staff(store, now, *asked, by=context.me().signature)
            return redirect(url_for(".people"), 303)
        except CareError as error:
            form[error.field or "email"].errors = [str(error)]
    members = [(member, len(signing_in.open_sessions(store, now, member.id))) for member in accounts.everybody(store)]
    mail = bool(context.settings().messages.smtp_host)
    page = render_template("administrator/people.html", form=form, errors=field_errors(form), members=members, mail=mail)
    return page, 400 if form.errors else 200


@bp.route("/people/<staff_id>/end", methods=["GET", "POST"])
def end(staff_id: str) -> Answer:
    """End an account and its sessions, after a question: it cannot be undone."""
    if staff_id == context.me().id:
        raise CareError("another administrator ends your account, so that one is left")
    member = accounts.known(context.store(), staff_id)
    if SmallForm().validate_on_submit():
        accounts.end(context.store(), context.now(), staff_id, context.me().signature)
        return redirect(url_for(".people"), 303)
    held = going_home.holds_anything(context.store(), staff_id)
    return render_template("administrator/end.html", member=member, held=held)


@bp.post("/people/<staff_id>/reset-link")
def reset_link(staff_id: str) -> Answer:
    """A link by which a member of staff chooses a new password, to be passed on."""
    if not SmallForm().validate_on_submit():
        return redirect(url_for(".people"), 303)
    member = accounts.known(context.store(), staff_id)
    token = resetting.hand_out(context.store(), context.now(), staff_id, context.me().signature)
    link = f"{context.settings().server.public_address}{url_for('account.new_password', token=token)}"
    return render_template("administrator/reset_link.html", member=member, link=link)


@bp.post("/people/<staff_id>/sign-out")
def sign_out(staff_id: str) -> Answer:
    """End every session of a member of staff."""
    if SmallForm().validate_on_submit():
        signing_in.end_sessions(context.store(), context.now(), staff_id, context.me().signature)
    return redirect(url_for(".people"), 303)


@bp.get("/audit")
def audit() -> Answer:
    """Who did what, the latest first, and who looked at which page."""
    before = request.args.get("before", type=int)
    found = trail.entries(context.store(), before)
    return render_template("administrator/audit.html", entries=found, views=trail.seen(context.store()))


@bp.get("/audit.csv")
def audit_csv() -> Answer:
    """The whole audit trail as a table."""
    trail.note_export(context.desk(), "audit")
    written = io.StringIO()
    writer = csv.writer(written)
    writer.writerow(trail.COLUMNS)
    writer.writerows(trail.table(context.store()))
    headers = {"Content-Disposition": "attachment; filename=audit.csv"}
    return Response(written.getvalue(), mimetype="text/csv", headers=headers)
