"""A second factor at sign-in: a code of the minute from an app (TOTP, RFC 6238), a passkey, or a recovery code, each once."""

import hashlib
import hmac
import secrets
from datetime import datetime

import pyotp

from followup.care import accounts, passkeys
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.records import Store, audit, keys, people
from followup.records import passkeys as kept

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
    member = people.staff_member(store, staff_id)
    return member is not None and (bool(member.passkey_asked) or makes_codes(store, staff_id))


def makes_codes(store: Store, staff_id: str) -> bool:
    """Whether an app makes codes for this account."""
    return people.second_factor(store, staff_id) is not None


def set_up(store: Store, now: datetime, actor: Actor, secret: str, code: str, password: str) -> list[str]:
    """Ask for codes from now on; returns the recovery codes, which are shown this once.

    Raises `Refused` for a wrong password, `CareError` for a wrong code.
    """
    accounts.confirmed(store, now, actor.id, password)
    step = _step(secret, code, now)
    if step is None:
        raise CareError("this is not the code that the app shows now", "code")
    recovery = _recovery_codes()
    with store.transaction():
        people.set_second_factor(store, actor.id, keys.wrap(secret), step, [_digest(code) for code in recovery])
        audit.note(store, now, actor.signature, "second factor set up", actor.id)
    return recovery


def ask_for_passkey(desk: Desk) -> list[str]:
    """Ask for a passkey after the password from now on; returns recovery codes, shown this once, where there were none.

    Raises `Conflict` without a passkey.
    """
    with desk.store.transaction():
        if not passkeys.of(desk.store, desk.actor.id):
            raise Conflict("register a passkey first")
        recovery = [] if people.recovery_codes_left(desk.store, desk.actor.id) else _recovery_codes()
        people.ask_for_passkey(desk.store, desk.actor.id, True)
        if recovery:
            people.set_recovery_codes(desk.store, desk.actor.id, [_digest(code) for code in recovery])
        desk.note("passkey asked after the password", desk.actor.id)
    return recovery


def remove(store: Store, now: datetime, actor: Actor, password: str) -> None:
    """Ask for nothing after the password any more; passkeys stay. Raises `Refused` for a wrong password."""
    accounts.confirmed(store, now, actor.id, password)
    with store.transaction():
        _nothing_asked(store, actor.id)
        audit.note(store, now, actor.signature, "second factor removed", actor.id)


def drop(store: Store, now: datetime, staff_id: str, by: str) -> None:
    """Take an account's second factor and its passkeys away: for whoever lost what they are on."""
    with store.transaction():
        _nothing_asked(store, staff_id)
        removed = kept.remove_all(store, now, staff_id)
        audit.note(store, now, by, "second factor removed", staff_id, {"passkeys": removed})


def remove_passkeys(store: Store, now: datetime, staff_id: str, by: str) -> int:
    """Take an account's passkeys away, and ask for none after the password; codes of an app stay. Returns how many."""
    with store.transaction():
        removed = kept.remove_all(store, now, staff_id)
        people.ask_for_passkey(store, staff_id, False)
        audit.note(store, now, by, "passkeys removed", staff_id, {"passkeys": removed})
    return removed


def _nothing_asked(store: Store, staff_id: str) -> None:
    people.set_second_factor(store, staff_id, None, None, [])
    people.ask_for_passkey(store, staff_id, False)


def passes(store: Store, now: datetime, staff_id: str, code: str) -> bool:
    """Whether a code is right. Each is taken once: a code of the minute that somebody looked at is of no use to them."""
    if not wanted(store, staff_id):
        return False
    wrapped, last = people.second_factor(store, staff_id) or (None, None)
    step = _step(keys.unwrap(wrapped), code, now) if wrapped else None
    if step is not None:
        return people.use_step(store, staff_id, step) if last is None or step > last else False
    return people.use_recovery_code(store, now, staff_id, _digest(code))


def _step(secret: str, code: str, now: datetime) -> int | None:
    """The half minute whose code this is: that of now, or one beside it for a clock that is a little off."""
    plain, at = code.replace(" ", "").encode("utf-8", "replace"), int(now.timestamp()) // STEP_SECONDS
    made = pyotp.TOTP(secret)
    return next((n for n in (at, at - 1, at + 1) if hmac.compare_digest(made.at(n * STEP_SECONDS).encode(), plain)), None)


def _recovery_codes() -> list[str]:
    return ["".join(secrets.choice(_LETTERS) for _ in range(10)) for _ in range(RECOVERY_CODES)]


def _digest(code: str) -> str:
    return hashlib.sha256(code.upper().replace(" ", "").replace("-", "").encode("utf-8", "replace")).hexdigest()
