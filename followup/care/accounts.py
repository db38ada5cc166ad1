"""Staff accounts: passwords kept as Argon2 hashes, sign-in slowed down after wrong tries."""

from datetime import datetime, timedelta

from argon2 import PasswordHasher
from argon2.exceptions import VerifyMismatchError

from followup.care.actors import Actor
from followup.care.errors import CareError, Refused
from followup.records import Store, audit, people
from followup.records.values import Staff

ROLES = ("nurse", "surgeon")
SHORTEST_PASSWORD = 10
WRONG_PASSWORDS = 5
LOCKED_FOR = timedelta(minutes=15)
_hasher = PasswordHasher()


def add_staff(store: Store, now: datetime, name: str, role: str, email: str, password: str) -> str:
    """Add a nurse or surgeon; raises `CareError` for a short password, an unknown role or a taken e-mail."""
    if role not in ROLES:
        raise CareError(f"“{role}” is not a role; accepted are: {', '.join(ROLES)}", "role")
    if len(password) < SHORTEST_PASSWORD:
        raise CareError(f"a password needs at least {SHORTEST_PASSWORD} characters", "password")
    if "@" not in email:
        raise CareError(f"“{email}” is not an e-mail address", "email")
    with store.transaction():
        if people.staff_by_email(store, email):
            raise CareError(f"{email} has an account already", "email")
        id = people.add_staff(store, now, name, role, email, _hasher.hash(password))
        audit.note(store, now, "command line", "staff added", id, {"role": role})
    return id


def sign_in(store: Store, now: datetime, email: str, password: str) -> Actor:
    """The member of staff, or `Refused` (the same words whether e-mail or password is wrong)."""
    key = email.lower().strip()
    if people.tries_within(store, now, "password", key, LOCKED_FOR) >= WRONG_PASSWORDS:
        raise Refused("too many wrong tries; wait a quarter of an hour", "password")
    found = people.staff_by_email(store, email)
    try:
        _hasher.verify(found.password_hash if found else _hasher.hash("nobody"), password)
        if found is None:
            raise VerifyMismatchError
    except VerifyMismatchError:
        people.count_try(store, now, "password", key)
        raise Refused("e-mail or password is wrong", "password") from None
    with store.transaction():
        audit.note(store, now, f"{found.role}:{found.id}", "signed in", found.id)
    return Actor(found.id, found.name, found.role)


def actor(store: Store, staff_id: str | None, *, trusted: bool = False) -> Actor | None:
    """The member of staff of a session, or None if they left; `trusted` as the clinic says of its nurses."""
    found = people.staff_member(store, staff_id) if staff_id else None
    return Actor(found.id, found.name, found.role, trusted) if found else None


def everybody(store: Store) -> list[Staff]:
    """Who works at the clinic."""
    return people.all_staff(store)


def surgeons(store: Store) -> list[str]:
    """The names of the clinic's surgeons."""
    return [member.name for member in people.all_staff(store) if member.role == "surgeon"]


def name_of(store: Store, signature: str) -> str:
    """Who stands behind the name under a record, such as `nurse:<id>`: a member of staff, the patient or carer, the clock."""
    role, _, id = signature.partition(":")
    if role in ("patient", "carer"):
        return f"the {role}"
    member = people.staff_by_id(store, id)
    return member.name if member else f"the {role}"
