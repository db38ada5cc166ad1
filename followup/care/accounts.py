"""Staff accounts: who has one, how it is changed and ended, and the names under old records."""

import hashlib
import re
from datetime import datetime, timedelta

from argon2 import PasswordHasher

from followup.care import passwords
from followup.care.actors import Actor
from followup.care.errors import CareError, Conflict, NotFound, Refused
from followup.records import Store, audit, passkeys, people, sessions, tasks, worries
from followup.records.values import Staff

ROLES = ("nurse", "surgeon", "administrator")
COMMAND_LINE = "command line"
WRONG_IN_WINDOW = 10  # of one's own password, while signed in. Common practice, no source.
WINDOW = timedelta(minutes=15)
_ADDRESS = re.compile(r"[^@\s]+@[^@\s]+")  # also of a network of its own, such as nora@ward
_hasher = PasswordHasher()


def add_staff(store: Store, now: datetime, name: str, role: str, email: str, password: str, by: str = COMMAND_LINE) -> str:
    """Add a member of staff; raises `CareError` for a weak password, an unknown role or a taken e-mail.

    Whoever comes back after their account was ended may have the same e-mail again.
    """
    if role not in ROLES:
        raise CareError(f"“{role}” is not a role; accepted are: {', '.join(ROLES)}", "role")
    passwords.check(password, name, email)
    if not _ADDRESS.fullmatch(email.strip()):
        raise CareError(f"“{email}” is not an e-mail address", "email")
    with store.transaction():
        if people.staff_by_email(store, email):
            raise CareError(f"{email} has an account already", "email")
        people.free_email(store, email)
        id = people.add_staff(store, now, name, role, email, passwords.kept(_hasher, password))
        audit.note(store, now, by, "staff added", id, {"role": role})
    return id


def everybody(store: Store) -> list[Staff]:
    """Who has an account."""
    return people.all_staff(store)


def by_email(store: Store, email: str) -> Staff:
    """The account of an address. Raises `NotFound`."""
    found = people.staff_by_email(store, email)
    if found is None:
        raise NotFound(f"nobody has an account with the address {email}", "email")
    return found


def known(store: Store, staff_id: str) -> Staff:
    """An account that was not ended. Raises `NotFound`."""
    found = people.staff_member(store, staff_id)
    if found is None:
        raise NotFound("there is no such account, or it was ended already")
    return found


def end(store: Store, now: datetime, staff_id: str, by: str = COMMAND_LINE) -> None:
    """End an account and its sessions. What the person recorded stays, under their name; what they have in hand is everybody's.

    Raises `NotFound`, `Conflict`.
    """
    with store.transaction():
        member = people.staff_member(store, staff_id)
        if member is None:
            raise NotFound("there is no such account, or it was ended already")
        others = [m for m in people.all_staff(store) if m.role == member.role and m.id != staff_id]
        if member.role == "surgeon" and not others:
            raise Conflict("this is the only surgeon: nobody would see what moves up; add another one first")
        people.end_staff(store, now, staff_id)
        sessions.end_all(store, now, staff_id, "account ended")
        passkeys.remove_all(store, now, staff_id)
        _give_back(store, now, member, by)
        audit.note(store, now, by, "staff ended", staff_id)


def _give_back(store: Store, now: datetime, member: Staff, by: str) -> None:
    """The calls and tasks of somebody who left are on the list again, and each callback says so."""
    calls, to_do = worries.held_by(store, member.id), tasks.held_by(store, member.id)
    for call in calls:
        worries.release(store, call.id, member.id)
    for task in to_do:
        tasks.give(store, task.id, None, member.id)
    for id in dict.fromkeys([*(call.id for call in calls), *(task.callback_id for task in to_do)]):
        worries.add_step(store, now, id, by, "given back", {"by": member.name, "why": "the account ended"})


def name_in_directory(store: Store, now: datetime, staff_id: str, subject: str, by: str = COMMAND_LINE) -> None:
    """Note how the clinic's own directory knows somebody; empty: nobody has said. Raises `Conflict`, `NotFound`."""
    member, subject = known(store, staff_id), subject.strip()
    with store.transaction():
        other = people.staff_by_subject(store, subject) if subject else None
        if other and other.id != member.id:
            raise Conflict(f"that is how the directory knows {other.name}")
        people.set_subject(store, member.id, subject or None)
        audit.note(store, now, by, "directory subject noted" if subject else "directory subject forgotten", member.id)


def confirmed(store: Store, now: datetime, staff_id: str, password: str, field: str = "password") -> Staff:
    """Whose account it is, by the password once more: whoever finds a screen left open guesses no further than any other.

    Raises `Refused` for a wrong one, and when too many were wrong.
    """
    key = hashlib.sha256(staff_id.encode()).hexdigest()[:32]  # the list of tries names nobody
    with store.transaction():
        if people.tries_within(store, now, "own password", key, WINDOW) >= WRONG_IN_WINDOW:
            raise Refused("too many wrong tries; wait some minutes", field)
        tried = people.count_try(store, now, "own password", key)
    member = people.staff_member(store, staff_id)
    if member is None or not passwords.fits(_hasher, password, member.password_hash):
        raise Refused("this is not your password now", field)
    people.forget_tries(store, [tried])
    return member


def set_password(store: Store, now: datetime, staff_id: str, password: str, by: str = COMMAND_LINE) -> None:
    """Give an account a new password and end its sessions. Raises `CareError` for a weak one."""
    _replace_password(store, now, staff_id, password, by, but="")


def change_password(store: Store, now: datetime, actor: Actor, old: str, new: str, session_id: str) -> None:
    """Change one's own password: other sessions end. Raises `Refused` for a wrong old one, `CareError` for a weak new one."""
    confirmed(store, now, actor.id, old, "old")
    if old == new:
        raise CareError("this is the password you have already", "new")
    _replace_password(store, now, actor.id, new, actor.signature, but=session_id)


def _replace_password(store: Store, now: datetime, staff_id: str, password: str, by: str, but: str) -> None:
    member = people.staff_member(store, staff_id)
    if member is None:
        raise NotFound("there is no such account, or it was ended")
    passwords.check(password, member.name, member.email)
    with store.transaction():
        people.set_password(store, staff_id, passwords.kept(_hasher, password))
        sessions.end_all(store, now, staff_id, "password changed", but)
        audit.note(store, now, by, "password changed", staff_id)


def actor(store: Store, staff_id: str | None, *, trusted: bool = False) -> Actor | None:
    """The member of staff of an id, or None if they left; `trusted` as the clinic says of its nurses."""
    found = people.staff_member(store, staff_id) if staff_id else None
    return Actor(found.id, found.name, found.role, trusted) if found else None


def surgeons(store: Store) -> list[str]:
    """The names of the clinic's surgeons."""
    return [member.name for member in people.all_staff(store) if member.role == "surgeon"]


def name_of(store: Store, signature: str) -> str:
    """Who stands behind the name under a record, such as `nurse:<id>`: a member of staff, the patient or carer, the clock."""
    role, _, id = signature.partition(":")
    if role in ("patient", "carer"):
        phone = people.device(store, id) if role == "carer" else None
        return f"the carer {phone.carer_name}" if phone and phone.carer_name else f"the {role}"
    member = people.staff_by_id(store, id)
    return member.name if member else f"the {role}"
