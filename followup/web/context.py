"""What every view needs: the store, the settings, the time, and who is asking."""

from collections.abc import Callable
from datetime import date, datetime
from functools import wraps
from typing import Any, TypeVar, cast
from zoneinfo import ZoneInfo

from flask import abort, current_app, g, redirect, request, session, url_for

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.config import LANGUAGES as LANGUAGES
from followup.config import Settings
from followup.records import Store
from followup.records.values import Device

DEVICE_COOKIE = "device"
View = TypeVar("View", bound=Callable[..., Any])


def store() -> Store:
    return cast(Store, current_app.extensions["followup"]["store"])


def settings() -> Settings:
    return cast(Settings, current_app.extensions["followup"]["settings"])


def now() -> datetime:
    """The time of this request: one value from start to end."""
    if "now" not in g:
        g.now = current_app.extensions["followup"]["clock"]()
    return cast(datetime, g.now)


def zone() -> ZoneInfo:
    return settings().clinic.tz


def today() -> date:
    return now().astimezone(zone()).date()


def locale() -> str:
    """The patient pages' language: the one in the address, else the browser's; staff pages are English."""
    if request.blueprint not in ("patient", "api"):
        return "en"
    asked = request.args.get("language", "")
    if asked in LANGUAGES:
        return asked
    own = settings().clinic.language
    return request.accept_languages.best_match(LANGUAGES) or (own if own in LANGUAGES else "en")


def staff() -> Actor | None:
    """The signed-in member of staff, or None."""
    if "staff" not in g:
        g.staff = member(session.get("staff_id"))
    return cast("Actor | None", g.staff)


def member(staff_id: str | None) -> Actor | None:
    """A member of staff with what the clinic trusts them with, or None if they left."""
    return accounts.actor(store(), staff_id, trusted=settings().clinic.nurses_record_no_gas)


def me() -> Actor:
    """The signed-in member of staff of a protected view."""
    actor = staff()
    assert actor is not None
    return actor


def desk() -> Desk:
    """What the signed-in member of staff acts with, in a protected view."""
    return Desk(store(), now(), me(), zone())


def known_device() -> Device | None:
    """The phone that asks, locked out or not, or None."""
    if "device" not in g:
        g.device = enrol.device(store(), request.cookies.get(DEVICE_COOKIE))
    return cast("Device | None", g.device)


def device() -> Device | None:
    """The enrolled phone that asks, or None if it is unknown or locked out."""
    found = known_device()
    return found if found and not found.revoked_at else None


def staff_only(*roles: str) -> Callable[[View], View]:
    """Let in staff of these roles (any, if none is named): others sign in, or see 403."""

    def wrap(view: View) -> View:
        @wraps(view)
        def guarded(*args: Any, **kwargs: Any) -> Any:
            actor = staff()
            if actor is None:
                return redirect(url_for("account.sign_in", next=request.full_path if request.method == "GET" else None))
            if roles and actor.role not in roles:
                abort(403)
            return view(*args, **kwargs)

        return cast(View, guarded)

    return wrap
