"""What every view needs: the store, the settings, the time, and who is asking."""

from base64 import urlsafe_b64encode
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from hashlib import sha256
from secrets import token_urlsafe
from typing import Any, TypeVar, cast
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from cryptography.fernet import Fernet, InvalidToken
from flask import current_app, g, request, session, url_for

from followup.care import accounts, passkeys, signatures, signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.care.signing_in import Caller
from followup.config import LANGUAGES as LANGUAGES
from followup.config import Settings, loopback
from followup.exchange.directory import Directory
from followup.records import Store
from followup.records.values import Device, Session

DEVICE_COOKIE = "device"
MARK_COOKIE = "known"
PAGE_DIGITS = 6
View = TypeVar("View", bound=Callable[..., Any])


@dataclass
class Running:
    """What the application serves, by which settings and which clock."""

    store: Store
    settings: Settings
    clock: Callable[[], datetime]


def running() -> Running:
    return cast(Running, current_app.extensions["followup"])


def store() -> Store:
    return running().store


def settings() -> Settings:
    return running().settings


def now() -> datetime:
    """The time of this request: one value from start to end."""
    if "now" not in g:
        g.now = running().clock()
    return cast(datetime, g.now)


def zone() -> ZoneInfo:
    return settings().clinic.tz


def today() -> date:
    return now().astimezone(zone()).date()


def keeps_no_sign_in() -> bool:
    """Whether a browser takes none of our cookies here: they are for https, and it asked without."""
    return settings().server.secure_cookies and not request.is_secure and not loopback(request.host_url)


def page() -> int:
    """Which page of a long list is asked for; the first where that says nothing."""
    asked = request.args.get("page", "")
    return int(asked) if asked.isdecimal() and len(asked) <= PAGE_DIGITS else 1


def locale() -> str:
    """The language of whoever is no member of staff: the one in the address, else the browser's; staff pages are English."""
    if not for_patients():
        return "en"
    return asked_language(settings().clinic.language)


def asked_language(own: str) -> str:
    """The language that the address or the browser asks for, else the clinic's own.

    Of what the browser asks for the first counts that there is, `de-AT` as `de` (lookup of RFC 4647, section 3.4).
    """
    asked = request.args.get("language", "")
    wanted = sorted(request.accept_languages, key=lambda told: -told[1])
    spoken = [asked, *(tag.partition("-")[0].lower() for tag, weight in wanted if weight > 0)]
    return next((language for language in spoken if language in LANGUAGES), own if own in LANGUAGES else "en")


def for_patients() -> bool:
    """Whether a page is for patients and whoever else comes by: theirs, the front door, and what is not there at all."""
    if request.blueprint in ("patient", "api"):
        return True
    return request.endpoint in (None, "pages.index") and staff() is None


def staff() -> Actor | None:
    """The signed-in member of staff, or None."""
    if "staff" not in g:
        held = signed_in()
        g.staff = member(held.staff_id) if held else None
    return cast("Actor | None", g.staff)


def signed_in() -> Session | None:
    """The session of whoever is signed in, or None: it may have been ended anywhere."""
    if "signed_in" not in g:
        g.signed_in = signing_in.session(store(), now(), session.get("session"))
    return cast("Session | None", g.signed_in)


def sign_out() -> None:
    """End the session, here and for whoever holds a copy of its cookie."""
    signing_in.end(store(), now(), session.get("session"))
    session.clear()


def caller() -> Caller:
    """Where this request comes from, for the counting of wrong tries."""
    return Caller(request.remote_addr or "", request.cookies.get(MARK_COOKIE, ""))


def member(staff_id: str | None) -> Actor | None:
    """A member of staff with what the clinic trusts them with, or None if they left."""
    return accounts.actor(store(), staff_id, trusted=settings().clinic.nurses_record_no_gas)


def role() -> str:
    """Who asks, as far as this request has found out."""
    actor = cast("Actor | None", g.get("staff"))
    return actor.role if actor else "phone" if g.get("device") else "nobody"


def me() -> Actor:
    """The signed-in member of staff of a protected view."""
    actor = staff()
    assert actor is not None
    return actor


def desk() -> Desk:
    """What the signed-in member of staff acts with, in a protected view."""
    return Desk(store(), now(), me(), zone())


def inside(target: str | None) -> str | None:
    """The target if it is a path of this application: nobody is led out of it."""
    if not target or not target.startswith("/") or target.startswith("//") or "\\" in target:
        return None
    return target if target.isprintable() and not urlsplit(target).netloc else None


def browser() -> str:
    """What tells this browser from others, before and after somebody signs in on it: gone with the session's cookie."""
    return str(session.setdefault("browser", token_urlsafe(16)))


def known_browser() -> str:
    """The same of a browser that was given one before this page, else empty."""
    return str(session.get("browser", ""))


def site() -> passkeys.Site | None:
    """Where passkeys hold, or None where browsers allow none at the clinic's address."""
    return passkeys.site(settings().server.public_address, settings().clinic.name)


def directory() -> Directory | None:
    """The clinic's own directory, or None. Raises `ConfigError` where its secret cannot be read."""
    asked = settings().sign_in
    if not asked.issuer:
        return None
    back = f"{settings().server.public_address}{url_for('account.back_from_directory')}"
    return Directory(asked.issuer, asked.client_id, asked.client_secret, back)


def keep_code(eye_id: str, code: str) -> None:
    """Keep a fresh enrolment code for the card, sealed: the session's cookie can be read by whoever holds it."""
    session["code"] = sealed_for_cookie(f"{eye_id} {code}")


def kept_code(eye_id: str) -> str | None:
    """The code that was made for this eye in this session, or None."""
    known, _, code = (opened_from_cookie(str(session.get("code", ""))) or "").partition(" ")
    return code if code and known == eye_id else None


def sealed_for_cookie(text: str) -> str:
    """A text that only this server reads: what a session's cookie holds is signed, and everybody can read it."""
    return _sealer().encrypt(text.encode()).decode()


def opened_from_cookie(sealed: str) -> str | None:
    try:
        return _sealer().decrypt(sealed.encode()).decode()
    except InvalidToken:
        return None


def _sealer() -> Fernet:
    return Fernet(urlsafe_b64encode(sha256(f"code {signatures.secret(store())}".encode()).digest()))


def known_device() -> Device | None:
    """The phone that asks, locked out or not, or None."""
    if "device" not in g:
        g.device = enrol.device(store(), request.cookies.get(DEVICE_COOKIE))
    return cast("Device | None", g.device)


def device() -> Device | None:
    """The enrolled phone that asks, or None if it is unknown or locked out."""
    found = known_device()
    return found if found and not found.revoked_at else None
