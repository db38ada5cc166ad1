"""A second factor at sign-in: a code of the minute from an app (TOTP, RFC 6238), or a recovery code, each once."""

import hashlib
import hmac
import secrets
from datetime import datetime

import pyotp

from followup.care import accounts, passwords
from followup.care.actors import Actor
from followup.care.errors import CareError, Refused
from followup.records import Store, audit, keys, people

STEP_SECONDS = 30
RECOVERY_CODES = 10
_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"  # nothing that reads like another


def new_secret() -> str:
    """For an app to keep; nothing is asked of anybody until a code from it has been entered."""
    return pyotp.random_base32()


def address(secret: str, email: str, clinic: str) -> str:
    """What an app reads from a QR code."""
    return pyotp.TOTP(secret).provisioning_uri(name=email, issuer_name=clinic)


def wanted(store: Store, staff_id: str) -> bool:
    """Whether this account asks for a second factor."""
    return people.second_factor(store, staff_id) is not None


def set_up(store: Store, now: datetime, actor: Actor, secret: str, code: str) -> list[str]:
    """Ask for codes from now on; returns the recovery codes, which are shown this once. Raises `CareError` for a wrong code."""
    step = _step(secret, code, now)
    if step is None:
        raise CareError("this is not the code that the app shows now", "code")
    recovery = ["".join(secrets.choice(_LETTERS) for _ in range(10)) for _ in range(RECOVERY_CODES)]
    with store.transaction():
        people.set_second_factor(store, actor.id, keys.wrap(secret), step, [_digest(code) for code in recovery])
        audit.note(store, now, actor.signature, "second factor set up", actor.id)
    return recovery


def remove(store: Store, now: datetime, actor: Actor, password: str) -> None:
    """Ask for no codes any more. Raises `Refused` for a wrong password."""
    member = people.staff_member(store, actor.id)
    if member is None or not passwords.fits(accounts._hasher, password, member.password_hash):
        raise Refused("this is not your password now", "password")
    drop(store, now, actor.id, actor.signature)


def drop(store: Store, now: datetime, staff_id: str, by: str) -> None:
    """Take an account's second factor away."""
    with store.transaction():
        people.set_second_factor(store, staff_id, None, None, [])
        audit.note(store, now, by, "second factor removed", staff_id)


def passes(store: Store, now: datetime, staff_id: str, code: str) -> bool:
    """Whether a code is right. Each is taken once: a code of the minute that somebody looked at is of no use to them."""
    known = people.second_factor(store, staff_id)
    if known is None:
        return False
    wrapped, last = known
    step = _step(keys.unwrap(wrapped), code, now)
    with store.transaction():
        if step is not None:
            return people.use_step(store, staff_id, step) if last is None or step > last else False
        return people.use_recovery_code(store, now, staff_id, _digest(code))


def _step(secret: str, code: str, now: datetime) -> int | None:
    """The half minute whose code this is: that of now, or one beside it for a clock that is a little off."""
    plain, at = code.replace(" ", "").encode("utf-8", "replace"), int(now.timestamp()) // STEP_SECONDS
    made = pyotp.TOTP(secret)
    return next((n for n in (at, at - 1, at + 1) if hmac.compare_digest(made.at(n * STEP_SECONDS).encode(), plain)), None)


def _digest(code: str) -> str:
    return hashlib.sha256(code.upper().replace(" ", "").replace("-", "").encode("utf-8", "replace")).hexdigest()
