"""The patient's phone: enrolment, and the shell that works without a signal."""

from collections.abc import Callable
from typing import Any

from flask import Blueprint, Response, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer
from flask_babel import get_locale, gettext
from itsdangerous import BadSignature, URLSafeSerializer

from followup.care import signatures
from followup.care.errors import NotFound, Refused
from followup.care.home import enrol
from followup.exchange import calendar
from followup.web import context, display, vocabulary, workers
from followup.web.interfaces import described
from followup.web.patient import living
from followup.web.patient.forms import EnrolForm

bp = Blueprint("patient", __name__)
COOKIE_DAYS = 400
NO_MODULE_OF_THE_SHELL = "patient/first-look.js"  # runs while the page is read
LATER_ASSETS = ("patient/later/*", "patient/postures/face-up.svg", "shared/push.js")  # no plan is face up
SHELL_ASSETS = ("patient/*.js", "shared/*.js", "patient/postures/*.svg", "base.css", "patient.css", "icons/*.svg")


@bp.context_processor
def languages() -> dict[str, Any]:
    locale = get_locale()
    assert locale is not None
    return {**display.speaking(), "plural_samples": _plural_samples(locale.plural_form)}


def _plural_samples(form_of: Callable[[int], str]) -> dict[str, int]:
    """One number for each plural form of a language: `one` and `other` in English, six in Arabic."""
    return {form_of(n): n for n in range(200, -1, -1)}


@bp.route("/enrol", methods=["GET", "POST"])
def enrolment() -> Answer:
    """The one-time code and the year of birth make this phone the patient's."""
    form = EnrolForm()
    if request.method == "GET":
        context.browser()  # so that a second tap is told from somebody else's
        form.code.data = request.args.get("code", "")
    elif form.validate():
        try:
            token = enrol.enrol(
                context.store(),
                context.now(),
                form.code.data,
                form.birth_year.data,
                form.used_by.data,
                request.remote_addr or "",
                context.known_browser(),
            )
        except Refused as error:
            form[error.field or "code"].errors = [gettext(error.message).format_map(error.values)]
            return render_template("patient/enrol.html", form=form), 403
        response = redirect(url_for(".shell", language=_chosen_language(token)), 303)
        response.set_cookie(
            context.DEVICE_COOKIE,
            token,
            max_age=COOKIE_DAYS * 86400,
            httponly=True,
            samesite="Strict",
            secure=context.settings().server.secure_cookies,
        )
        return response
    return render_template("patient/enrol.html", form=form), 400 if form.errors else 200


def _chosen_language(token: str) -> str:
    """The language asked for on this page, else the one the clinic noted for the patient."""
    device = enrol.device(context.store(), token)
    noted = device.language if device else ""
    asked = request.args.get("language", "")
    return next((code for code in (asked, noted) if code in context.LANGUAGES), str(get_locale()))


@bp.get("/me/")
def shell() -> Answer:
    """The same page for everybody, in each language: what it shows comes from the phone's own store."""
    # Asked for at once, not one after the other.
    modules = [at for at in shell_assets() if at.endswith(".js") and not at.endswith(NO_MODULE_OF_THE_SHELL)]
    return _kept_page(render_template("patient/shell.html", words=_words(), modules=modules))


@bp.get("/me/later")
def later() -> Answer:
    """The pages that nobody needs at first sight, the same for everybody: the shell takes them in when one is opened."""
    return _kept_page(render_template("patient/later.html", topics=living.topics(gettext)))


def _kept_page(page: str) -> Answer:
    """A page that phones keep: sent again only when it changed."""
    response = Response(page)
    response.headers["Cache-Control"] = "no-cache"
    response.headers["Vary"] = "Accept-Language"
    response.add_etag()
    return response.make_conditional(request)


@bp.get("/calendar/<token>.ics")
@described("text/calendar", refuses=(404,), fault="text/html")
def visits_calendar(token: str) -> Answer:
    """The next visits as a feed that a calendar can subscribe to; its address is the phone's own secret."""
    try:
        rows = enrol.visits_to_come(context.store(), _calendar_signer().loads(token), context.today())
    except BadSignature:
        rows = None
    if rows is None:
        raise NotFound("there is no such calendar")
    clinic = context.settings().clinic
    made = calendar.visits(rows, clinic.name, clinic.phone, context.now(), clinic.tz)
    return Response(made, mimetype="text/calendar", headers={"Content-Disposition": "inline; filename=visits.ics"})


@bp.get("/me/calendar")
def my_calendar() -> Answer:
    """Lead the phone's calendar to its own feed."""
    device = context.device()
    if device is None:
        raise NotFound("this phone is not set up")
    address = context.settings().server.public_address.split("://", 1)[1]
    feed = url_for(".visits_calendar", token=_calendar_signer().dumps(device.id))
    return redirect(f"webcal://{address}{feed}")


def _calendar_signer() -> URLSafeSerializer:
    return signatures.lasting(context.store(), context.now(), "calendar")


@bp.get("/manifest.webmanifest")
def manifest() -> Answer:
    """What makes the page installable."""
    return workers.manifest("patient/manifest.json")


@bp.get("/sw.js")
def service_worker() -> Answer:
    """The service worker with the list and version of what it keeps."""
    return workers.worker("patient/worker.js", "/me/", shell_assets(), _later_assets())


def shell_assets() -> list[str]:
    """The addresses the phone keeps beside the shell in its language: the manifest, and what the patient's pages are made of."""
    later = set(_later_assets())
    return [url_for(".manifest"), *(at for at in workers.static_addresses(SHELL_ASSETS) if at not in later)]


def _later_assets() -> list[str]:
    """The addresses that the phone keeps from the second visit on."""
    return workers.static_addresses(LATER_ASSETS)


def _words() -> dict[str, dict[str, str]]:
    """Words for codes that the phone gets in its pack."""
    kinds = {"posture": vocabulary.POSTURES, **{kind: vocabulary.WORDS[kind] for kind in ("agent", "eye")}}
    return {kind: {code: gettext(words) for code, words in known.items()} for kind, known in kinds.items()}
