"""Who may do what: every route by its methods, and whom each lets in. What has no entry here cannot be reached."""

from dataclasses import dataclass
from urllib.parse import urlsplit

from flask import Response, abort, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer

from followup.care import trail
from followup.care.home import helpers
from followup.web import context

ANYBODY, PHONE = "anybody", "phone"
CARE = frozenset({"nurse", "surgeon"})
SURGEON = frozenset({"surgeon"})
ADMINISTRATOR = frozenset({"administrator"})
STAFF = CARE | ADMINISTRATOR
Who = str | frozenset[str]


@dataclass(frozen=True, slots=True)
class Route:
    """Whom a route's GET lets in, and whom its POST or PUT; None where it has none."""

    read: Who | None = None
    write: Who | None = None


def _pages(who: Who, *endpoints: str) -> dict[str, Route]:
    return {endpoint: Route(read=who) for endpoint in endpoints}


def _buttons(who: Who, *endpoints: str) -> dict[str, Route]:
    return {endpoint: Route(write=who) for endpoint in endpoints}


def _forms(who: Who, *endpoints: str) -> dict[str, Route]:
    return {endpoint: Route(read=who, write=who) for endpoint in endpoints}


ROUTES: dict[str, Route] = {
    **_pages(
        ANYBODY,
        "static",
        "pages.index",
        "pages.favicon",
        "pages.security_txt",
        "pages.change_password",
        "pages.health",
        "patient.shell",
        "patient.later",
        "patient.visits_calendar",  # its address is a secret of the phone
        "patient.my_calendar",
        "patient.manifest",
        "patient.service_worker",
        "pages.openapi",
        "account.to_directory",
        "account.back_from_directory",
        "api.acuity_table",
        "api.known",
        "clinic.without_signal",  # the same for everybody: what it shows is kept on the device, under its key
        "clinic.manifest",
        "clinic.service_worker",
        "clinic_api.here",
    ),
    **_forms(
        ANYBODY, "account.sign_in", "account.second_step", "patient.enrolment", "account.forgotten", "account.new_password"
    ),
    **_buttons(ANYBODY, "account.passkey", "account.second_step_by_passkey"),
    **_buttons(ANYBODY, "account.sign_out", "clinic_api.leave"),
    **_buttons(ANYBODY, "clinic_api.entries"),  # sealed, with the pass of whoever made them inside
    **_pages(PHONE, "api.pack", "api.messages", "api.helpers"),
    **_buttons(PHONE, "api.events", "api.sealed", "api.choose_messages", "api.push", "api.invite", "api.remove_helper"),
    **_pages(STAFF, "pages.reference"),
    **_forms(
        STAFF, "account.my_messages", "account.my_account", "account.set_up_second_factor", "account.remove_second_factor"
    ),
    **_forms(STAFF, "account.new_passkey", "account.rename_passkey", "account.ask_for_passkey"),
    **_buttons(STAFF, "account.keep_passkey", "account.remove_passkey"),
    **_forms(STAFF, "clinic.theatre_list"),  # for an administrator without who waits
    **_buttons(STAFF, "clinic_api.push", "account.sign_others_out"),
    **_forms(ADMINISTRATOR, "administrator.people", "administrator.end"),
    **_buttons(ADMINISTRATOR, "administrator.sign_out", "administrator.reset_link"),
    **_pages(ADMINISTRATOR, "administrator.audit", "administrator.audit_csv"),
    **_pages(
        CARE,
        "clinic_api.sheet",
        "clinic_api.followed",
        "pages.not_working",  # it names patients
        "clinic.today",
        "clinic.nothing_planned",
        "clinic.to_tell",
        "clinic.callback_list",
        "clinic.callback",
        "clinic.card",
        "clinic.eye_page",
        "clinic.entry_put_right",
        "clinic.patient_page",
        "clinic.record_to_read",
        "clinic.record_for_programs",
        "clinic.visit_saved",
        "clinic.handover",
        "clinic.for_theatre",
        "clinic.diary_page",
        "surgeon.protocols",
    ),
    **_forms(
        CARE,
        "clinic.new_visit",
        "clinic.correct_entry",
        "clinic.correct_particulars",
        "clinic.correct_note",
        "clinic.no_gas",
        "clinic.end_follow_up",
        "clinic.join",
        "clinic.new_discharge",
        "clinic.change_plan",
        "clinic.add_visit",
        "clinic.change_visit",
        "clinic.walk_in",
        "clinic.close_day",
        "clinic.reached_by",
        "clinic.consent",
        "clinic.diary_entry",
        "account.going_home",
    ),
    **_buttons(
        CARE,
        "clinic.arrived",
        "clinic.put_aside",
        "clinic.new_code",
        "clinic.revoke",
        "clinic.oil_out",
        "clinic.take_back",
        "clinic.take_up",
        "clinic.claim",
        "clinic.take_over",
        "clinic.undo",
        "clinic.give_back",
        "clinic.take_task",
        "clinic.give_back_task",
        "clinic.change_theatre",
        "clinic.attempt",
        "clinic.undo_visit",
        "clinic.put_back",
        "clinic.told",
        "clinic.open_day",
        "clinic.not_here",
        "clinic.entered_anew",
    ),
    **_buttons(SURGEON, "clinic.decide", "surgeon.sign"),
    **_pages(SURGEON, "surgeon.needs_me", "surgeon.my_results", "surgeon.results_table", "surgeon.export_tables"),
    **_forms(SURGEON, "surgeon.adjust_part", "surgeon.edit_text"),
}
SAFE = ("GET", "HEAD")
SIGNED_OUT = "You were signed out meanwhile, so nothing was recorded. Copy what you entered, sign in, and enter it again."


def guard() -> Answer | None:
    """Before every view: None lets the request in."""
    if request.endpoint is None:
        return None  # there is no such page
    route = ROUTES.get(request.endpoint, Route())
    who = route.read if request.method in SAFE else route.write
    if who is None:
        abort(403)
    if request.method not in SAFE:
        _own_pages_only()
    if who == ANYBODY:
        return None
    return _phone() if who == PHONE else _member(frozenset(who))


def remember(response: Response) -> Response:
    """After every page that shows something of the clinic: who opened it, and about what."""
    route = ROUTES.get(request.endpoint or "", Route())
    if request.method == "GET" and isinstance(route.read, frozenset) and response.status_code == 200 and context.staff():
        about = next(iter((request.view_args or {}).values()), "")
        trail.opened(context.desk(), str(request.endpoint), str(about)[:80])
    return response


def _own_pages_only() -> None:
    """What changes something comes from our own pages; interfaces take JSON, which no foreign form can send."""
    origin = request.headers.get("Origin")
    ours = (request.host, urlsplit(context.settings().server.public_address).netloc)
    if origin is not None and _host(origin) not in ours:
        abort(403, "This was sent from another site’s page.")
    if request.headers.get("Sec-Fetch-Site") == "cross-site":
        abort(403, "This was sent from another site’s page.")
    if _is_interface() and request.content_length and request.mimetype != "application/json":
        abort(415, "Send application/json.")


def _host(origin: str) -> str:
    """The host of an origin; nobody's where it is no address."""
    try:
        return urlsplit(origin).netloc
    except ValueError:
        return ""


def _phone() -> Answer | None:
    """401 without a valid device: the phone keeps its entries, and seals them if it was locked out; it says by whom."""
    if context.device() is not None:
        return None
    known = context.known_device()
    removed = known is not None and helpers.was_removed(known)
    return {"error": "this phone is not enrolled, or was locked out", "locked": known is not None, "removed": removed}, 401


def _member(roles: frozenset[str]) -> Answer | None:
    actor = context.staff()
    if actor is None and _is_interface():
        return {"error": "nobody is signed in"}, 401
    if actor is None and (entered := _entered()):
        return render_template("error.html", message=SIGNED_OUT, written=[entered]), 401
    if actor is None:
        return redirect(url_for("account.sign_in", next=request.full_path if request.method == "GET" else None))
    if actor.role not in roles:
        abort(403)
    return None


def _entered() -> str:
    """What stands in a clinical form that came after its session was over, a field a line: it must not go with the session.

    Of a lone button only words, where it has some.
    """
    if request.blueprint not in ("clinic", "surgeon"):
        return ""
    form = ROUTES[str(request.endpoint)].read is not None
    typed = ((name, value.strip()) for name, value in request.form.items(multi=True) if form or is_words(name))
    said = [(name, value) for name, value in typed if value and name != "csrf_token"]
    return "\n".join(f"{name.replace('-', ' ').replace('_', ' ')}: {value}" for name, value in said)


def is_words(name: str) -> bool:
    """Whether staff write in their own words in a field of that name."""
    return name.rpartition("-")[2] in ("words", "why", "reason", "notes")


def _is_interface() -> bool:
    return request.path.startswith("/api/")
