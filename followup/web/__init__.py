"""The web application: one blueprint for each reader. Views load, call care, and render."""

import hashlib
import logging
import time
from collections.abc import Callable, Sequence
from datetime import UTC, datetime, timedelta
from typing import Any

from flask import Flask, Response, current_app, g, redirect, render_template, request, url_for
from flask.typing import ResponseReturnValue as Answer
from flask_babel import Babel, get_locale, gettext
from flask_compress import Compress
from flask_wtf.csrf import CSRFError, CSRFProtect
from werkzeug.exceptions import HTTPException, InternalServerError, MethodNotAllowed
from werkzeug.middleware.proxy_fix import ProxyFix

from followup.care import signatures
from followup.care.errors import CareError, Conflict, NotFound, Refused, translatable
from followup.care.reading import person, state
from followup.config import Clinic, Settings
from followup.records import Store, open_store
from followup.records.store import DatabaseFault, Unavailable
from followup.resources import TRANSLATIONS, folder
from followup.settings_file import load
from followup.web import administrator, anybody, clinic, context, display, patient, routes, surgeon
from followup.web.context import locale

log = logging.getLogger(__name__)
PICTURE = "image/svg+xml"
COMPRESSED = [
    "text/html",
    "text/css",
    "text/javascript",
    "application/json",
    "application/manifest+json",
    PICTURE,
    "text/calendar",
]
PARTS = ("text/css", "text/javascript", PICTURE)
AGAIN_SECONDS = "5"
MAX_REQUEST_BYTES = 2 * 1024 * 1024
STATUS: dict[type[CareError], int] = {NotFound: 404, Conflict: 409, Refused: 403, CareError: 400}
STALE = translatable("This form was open too long. Go back, load the page again and try once more.")
PLAINLY = {
    400: translatable("This page could not read what was sent."),
    403: translatable("Your account does not reach this page."),
    404: translatable("There is no such page."),
    405: translatable("Nothing can be sent to this page."),
    413: translatable("Too much was sent at once."),
}


def create_app(
    settings: Settings | None = None, store: Store | None = None, clock: Callable[[], datetime] | None = None
) -> Flask:
    """The application of one clinic; `clock` is replaced in tests."""
    settings = settings or load()
    store = store or open_store(settings.server.database)
    clock = clock or (lambda: datetime.now(UTC))
    person.index_whoever_is_missing(store)
    state.bring_up_to_date(store, clock(), settings.clinic.tz)  # after an update that is every eye: before anybody waits
    app = Flask("followup", static_folder=str(folder("static")), template_folder=str(folder("templates")))
    app.config.update(
        SECRET_KEY=signatures.secret(store),
        SESSION_COOKIE_NAME="staff",
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_SECURE=settings.server.secure_cookies,
        PERMANENT_SESSION_LIFETIME=timedelta(hours=12),
        SESSION_REFRESH_EACH_REQUEST=False,  # an answer still on its way must not bring a session back after sign-out
        MAX_CONTENT_LENGTH=MAX_REQUEST_BYTES,
        WTF_CSRF_TIME_LIMIT=None,
        BABEL_DEFAULT_LOCALE="en",
        BABEL_TRANSLATION_DIRECTORIES=str(TRANSLATIONS),
        COMPRESS_ALGORITHM=["br", "gzip"],
        COMPRESS_MIMETYPES=COMPRESSED,
        COMPRESS_LEVEL=9,
        COMPRESS_BR_LEVEL=5,  # files of a few kilobytes come out as small as at 9, in a fifteenth of the time
    )
    trusted = settings.server.proxies
    app.wsgi_app = ProxyFix(app.wsgi_app, x_for=trusted, x_proto=trusted, x_host=trusted)  # type: ignore[method-assign]
    app.extensions["followup"] = context.Running(store, settings, clock)
    app.jinja_options = app.jinja_options | {"trim_blocks": True, "lstrip_blocks": True}
    Babel(app, locale_selector=locale, default_timezone=settings.clinic.zone)
    Compress(app)
    app.before_request(_begin)
    app.before_request(_closed)
    app.before_request(routes.guard)
    csrf = CSRFProtect(app)
    csrf.exempt(patient.api.bp)  # JSON only, from a SameSite=Strict cookie
    csrf.exempt(clinic.device_api.bp)  # JSON only, from a SameSite=Lax cookie or sealed
    for reader in (anybody, patient, clinic, surgeon, administrator):
        for blueprint in reader.BLUEPRINTS:
            app.register_blueprint(blueprint)
    display.register(app)
    app.register_error_handler(CareError, _not_possible)
    app.register_error_handler(CSRFError, _stale_form)
    app.register_error_handler(HTTPException, _http_error)
    app.register_error_handler(500, _fault)
    app.after_request(_headers)
    app.after_request(_told)
    app.log_exception = _failed  # type: ignore[method-assign, assignment]
    app.after_request(routes.remember)
    return app


def create_away(clinic: Clinic, stopped: str) -> Flask:
    """What stands in the place of a clinic that cannot be served: its numbers, as far as they are known, and `stopped`."""
    app = Flask("followup", static_folder=str(folder("static")), template_folder=str(folder("templates")))
    app.config.update(BABEL_TRANSLATION_DIRECTORIES=str(TRANSLATIONS))
    Babel(app, locale_selector=lambda: context.asked_language(clinic.language))
    app.jinja_env.filters.update(phone=display.phone, tel=display.tel)

    @app.before_request
    def away() -> Answer | None:
        if request.endpoint == "static":
            return None
        said = {"ok": False, "stopped": [stopped]} if request.path == "/health" else _not_now(clinic)
        return said, 503, {"Retry-After": AGAIN_SECONDS}

    app.after_request(_headers)
    return app


def _not_possible(error: CareError) -> Answer:
    """What cannot be done, said as asked. Any other error that gets here is our own fault: 500, logged."""
    status = next((code for kind, code in STATUS.items() if isinstance(error, kind)))
    if request.path.startswith("/api/"):
        return {"error": str(error)}, status
    return _refusal(str(error), _written()), status


def _http_error(error: HTTPException) -> Answer:
    """What was asked for cannot be: said with the clinic's number, as everywhere."""
    if error.code is None or error.code < 400:
        return error
    plain = PLAINLY.get(error.code)
    message = plain if plain and error.description == type(error).description else error.description or error.name
    taken = error.valid_methods if isinstance(error, MethodNotAllowed) else None
    headers = {"Allow": ", ".join(sorted(taken))} if taken else {}  # RFC 9110, section 15.5.6
    if request.path.startswith("/api/"):
        return {"error": gettext(message)}, error.code, headers
    return _refusal(message), error.code, headers


def _refusal(message: str, written: Sequence[str] = ()) -> str:
    """The page that says so: for staff in English with what they had `written`, for everybody else in their language."""
    if context.for_patients():
        return render_template("patient/not_possible.html", message=gettext(message), **display.speaking())
    return render_template("error.html", message=message, written=written)


def _written() -> list[str]:
    """What somebody of the staff wrote in the form that is refused: the notes of a call must not go with it."""
    if context.staff() is None:
        return []
    said = (value.strip() for name, value in request.form.items(multi=True) if routes.is_words(name))
    return list(dict.fromkeys(filter(None, said)))


def _fault(error: InternalServerError) -> Answer:
    """Our own fault (500), or a database that is locked, full or gone (503): the clinic's number, and nothing else needed."""
    away = isinstance(error.original_exception, Unavailable)
    status, headers = (503, {"Retry-After": "30"}) if away else (500, {})
    return _not_now(context.settings().clinic), status, headers


def _not_now(clinic: Clinic) -> str | dict[str, str]:
    if request.path.startswith("/api/"):
        told = gettext("This page does not work now")
        return {"error": told, "phone": clinic.phone, "emergency_phone": clinic.emergency_phone}
    locale = get_locale()
    page = current_app.jinja_env.get_template("patient/fault.html")
    direction = locale.text_direction if locale else "ltr"
    return page.render(clinic=clinic, language=str(locale or "en"), direction=direction)


def _closed() -> Answer | None:
    """A clinic that moves takes nothing here any more: whoever asks again is led to where it is by then."""
    if request.endpoint in ("static", "pages.health"):
        return None
    try:
        if not context.store().closed:
            return None
    except DatabaseFault:
        return None  # what needs the database says so itself
    g.staff = None  # nobody is looked up
    return _not_now(context.settings().clinic), 503, {"Retry-After": AGAIN_SECONDS}


def _stale_form(error: CSRFError) -> Answer:
    if "staff" not in request.cookies and not context.for_patients():
        return redirect(url_for("account.sign_in"))
    return _refusal(STALE, _written()), 400


def _begin() -> None:
    g.began = time.monotonic()


def _told(response: Response) -> Response:
    """One line for each request: which route and how it ended, and nothing of what was asked or sent."""
    took = round(1000 * (time.monotonic() - g.began)) if "began" in g else None
    rule = request.url_rule.rule if request.url_rule else "none"
    told = {"route": rule, "method": request.method, "status": response.status_code, "ms": took, "by": context.role()}
    log.info("request", extra=told)
    return response


def _failed(info: Any) -> None:
    """In the place of Flask's own words, which name the page's address and with it a patient's record."""
    log.error("a page failed", exc_info=info, extra={"route": request.url_rule.rule if request.url_rule else "none"})


def _brief(mark: str) -> str:
    """The same for each version of a file, in a fifth of the length: a first visit has sixty of them."""
    return hashlib.blake2s(mark.encode(), digest_size=4).hexdigest()


def _headers(response: Response) -> Response:
    headers = response.headers
    headers.setdefault("X-Content-Type-Options", "nosniff")
    if request.endpoint == "static" and response.mimetype in PARTS:
        for name in ("Accept-Ranges", "Content-Disposition", "Last-Modified"):  # its ETag says which version it is
            headers.pop(name, None)
        headers["Content-Type"] = response.mimetype  # UTF-8, as the pages are that take it in
        if response.status_code == 200:
            response.direct_passthrough = False
            response.set_etag(_brief(response.get_etag()[0] or ""))
            response.get_data()  # compressed as a whole: as a stream of unknown length it takes a hundred times as long
            response.make_conditional(request.environ)
        if response.mimetype == PICTURE:  # may be opened as a page
            headers["Content-Security-Policy"] = "default-src 'none'"
        return response  # no page of its own: the rest says what a page may do
    headers.setdefault(
        "Content-Security-Policy",
        "default-src 'self'; img-src 'self' data:; object-src 'none'; base-uri 'none'; frame-ancestors 'none'; "
        "form-action 'self'",
    )
    headers.setdefault("Referrer-Policy", "same-origin")
    headers.setdefault("Permissions-Policy", "camera=(), microphone=(), geolocation=()")
    if request.endpoint != "static":
        headers.setdefault("Cache-Control", "no-store")
    return response
