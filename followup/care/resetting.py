"""A forgotten password: whoever reads the account's mail, or has a link from an administrator, chooses a new one.

A link is signed, holds for thirty minutes, and once: it names the password that it replaces. Whether an address has an
account is not told: the answer and the work are the same.
"""

import hashlib
from datetime import datetime, timedelta

from itsdangerous import BadData

from followup.care import accounts, signatures
from followup.care.errors import NotFound, Refused
from followup.records import Store, audit, messages, people
from followup.records.store import new_id
from followup.records.times import from_text, to_text
from followup.records.values import Staff

MESSAGE = "password-reset"
HOLDS = timedelta(minutes=30)
WINDOW = timedelta(hours=1)
FROM_ONE_ADDRESS = 20  # asked for within the window. Common practice, no source.
FOR_ONE_ACCOUNT = 3
_SALT = "password-reset"
_USED = "this link was used, or is older than 30 minutes; ask for another one"


def ask(store: Store, now: datetime, email: str, address: str) -> None:
    """Somebody at a network address asks for a link for an account: it goes out by mail, if there is such an account.

    What is over a limit is neither counted nor put on record, so that whoever asks on and on keeps nobody waiting.
    """
    digest = hashlib.sha256(email.lower().strip().encode()).hexdigest()[:32]  # the list of tries names nobody
    most = {f"address {address}": FROM_ONE_ADDRESS, f"account {digest}": FOR_ONE_ACCOUNT}
    with store.transaction():
        if any(people.tries_within(store, now, "reset", key, WINDOW) >= most[key] for key in most):
            return
        for key in most:
            people.count_try(store, now, "reset", key)
        member = people.staff_by_email(store, email)
        audit.note(store, now, "somebody", "password reset asked", member.id if member else "unknown", {"from": address})
        if member:
            messages.add(store, now, f"{MESSAGE}:{new_id()}", f"staff:{member.id}", MESSAGE, member.id, now + HOLDS)


def token(store: Store, now: datetime, staff_id: str) -> str:
    """What a link ends with. Raises `NotFound` for an account that was ended."""
    member = people.staff_member(store, staff_id)
    if member is None:
        raise NotFound("there is no such account, or it was ended")
    return str(signatures.lasting(store, now, _SALT).dumps([member.id, _fingerprint(member), to_text(now)]))


def hand_out(store: Store, now: datetime, staff_id: str, by: str) -> str:
    """A link's end for an administrator to pass on."""
    made = token(store, now, staff_id)
    audit.note(store, now, by, "password reset link made", staff_id)
    return made


def whose(store: Store, now: datetime, token: str) -> Staff:
    """Whose password a link replaces. Raises `Refused` for one that was used, is too old, or is none of ours."""
    try:
        staff_id, fingerprint, made_at = signatures.lasting(store, now, _SALT).loads(token)
    except BadData as error:
        raise Refused(_USED) from error
    member = people.staff_member(store, staff_id)
    if member is None or _fingerprint(member) != fingerprint or not timedelta(0) <= now - from_text(made_at) < HOLDS:
        raise Refused(_USED)
    return member


def reset(store: Store, now: datetime, token: str, password: str) -> None:
    """Choose a new password; everything signed in with the old one ends. Raises `Refused`, or `CareError` for a weak one."""
    with store.transaction():
        member = whose(store, now, token)
        accounts.set_password(store, now, member.id, password, f"{member.role}:{member.id} by link")


def _fingerprint(member: Staff) -> str:
    return hashlib.sha256(member.password_hash.encode()).hexdigest()[:16]
