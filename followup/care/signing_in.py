"""Signing in: every guess is counted before it is looked at, and nobody's wrong guesses keep another out.

A browser on which somebody signed in before holds a mark of that account and is counted by itself. Every other guess
is counted by the account and the address it comes from, by the address, and by the account: so guesses at one account
from elsewhere never lock the browser that its owner uses.
"""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta

from itsdangerous import BadSignature

from followup.care import accounts, passkeys, passwords, second_factor, signatures
from followup.care.actors import Actor
from followup.care.errors import Refused
from followup.records import Store, audit, people, sessions
from followup.records import passkeys as kept
from followup.records.values import Session

WINDOW = timedelta(minutes=15)
FREE = 5  # wrong tries; then each doubles the wait, up to the window. Common practice, no source.
FIRST_WAIT = timedelta(seconds=15)
FROM_ONE_ADDRESS = 20  # within the window, over all accounts; passkeys are counted apart, and so of a browser that is known
OF_ONE_ACCOUNT = 50  # within the window, from all addresses together
LONGEST_SESSION = timedelta(hours=12)
IDLE = timedelta(hours=1)
SEEN_EVERY = timedelta(minutes=1)
MARK_DAYS = 90
MARK = "known-browser"
HALF, HALF_SECONDS = "half-signed-in", 300


@dataclass(frozen=True, slots=True)
class Caller:
    """Where a guess comes from: the network address, and the mark that this browser holds of an account, if any."""

    address: str = ""
    mark: str = ""


def sign_in(store: Store, now: datetime, email: str, password: str, caller: Caller | None = None) -> Actor:
    """The member of staff, or `Refused`: the same words, after the same work, whether e-mail or password is wrong."""
    caller, email = caller or Caller(), email.lower().strip()
    tries = _counted(store, now, email, caller)
    found = people.staff_by_email(store, email)
    if not passwords.fits(accounts._hasher, password, found.password_hash if found else None) or found is None:
        audit.note(store, now, "somebody", "sign-in failed", found.id if found else "unknown", {"from": caller.address})
        raise Refused("e-mail or password is wrong", "password")
    with store.transaction():
        people.forget_tries(store, tries)
        right = "password given" if second_factor.wanted(store, found.id) else "signed in"
        audit.note(store, now, f"{found.role}:{found.id}", right, found.id, {"from": caller.address})
    return Actor(found.id, found.name, found.role)


def second_step(store: Store, now: datetime, half: str, code: str, caller: Caller) -> tuple[Actor, str]:
    """The member of staff whose password was right a moment ago, and the e-mail. Raises `Refused`; wrong codes count as passwords do."""
    staff_id, email = whose_half(store, now, half)
    tries = _counted(store, now, email, caller, "second ")
    with store.transaction():  # a code counts as used only where the sign-in is on record
        member = people.staff_member(store, staff_id)
        if member is not None and second_factor.passes(store, now, staff_id, code):
            people.forget_tries(store, tries)
            audit.note(store, now, f"{member.role}:{member.id}", "signed in", staff_id, {"from": caller.address})
            return Actor(member.id, member.name, member.role), email
        audit.note(store, now, "somebody", "second factor failed", staff_id, {"from": caller.address})
    raise Refused("this code is wrong, or was used already", "code")


def second_step_by_passkey(
    store: Store, now: datetime, half: str, where: passkeys.Site, answer: passkeys.Answer, caller: Caller
) -> tuple[Actor, str]:
    """The same with a passkey of that member of staff in the place of a code. Raises `Refused`."""
    staff_id, email = whose_half(store, now, half)
    return _by_passkey(store, now, where, answer, caller, staff_id), email


def by_passkey(
    store: Store, now: datetime, where: passkeys.Site, answer: passkeys.Answer, caller: Caller
) -> tuple[Actor, str]:
    """The member of staff whose passkey answered, without a password, and the e-mail. Raises `Refused`."""
    actor = _by_passkey(store, now, where, answer, caller)
    return actor, accounts.known(store, actor.id).email


def _by_passkey(
    store: Store,
    now: datetime,
    where: passkeys.Site,
    answer: passkeys.Answer,
    caller: Caller,
    staff_id: str | None = None,
) -> Actor:
    known = _account_of(store, now, caller.mark) is not None  # whose passkey it is, it says only now
    key = f"mark {_short(caller.mark)}" if known else f"address {caller.address}"
    with store.transaction():
        if _wait(people.tries_at(store, now, "passkey", key, WINDOW), now, FROM_ONE_ADDRESS) > timedelta(0):
            raise Refused("too many wrong tries from here; wait some minutes")
        counted = people.count_try(store, now, "passkey", key)
    with store.transaction():
        tried = passkeys.passes(store, now, where, answer, staff_id)
        if (member := tried.member) is not None:
            people.forget_tries(store, [counted])
            seen = {"from": caller.address, "by": "passkey"}
            audit.note(store, now, f"{member.role}:{member.id}", "signed in", member.id, seen)
            return Actor(member.id, member.name, member.role)
        seen = {"from": caller.address, "why": tried.words}
        audit.note(store, now, "somebody", "passkey refused", tried.about or "unknown", seen)
    raise Refused(tried.words)


def begun_by_directory(store: Store, now: datetime, state: str) -> None:
    """The directory leads back to what was begun here: once. Raises `Refused`."""
    first = kept.use_once(store, now, f"directory {state}")
    if not first:
        raise Refused("that was sent twice; begin anew")


def by_directory(store: Store, now: datetime, subject: str, email: str | None, caller: Caller) -> tuple[Actor | None, str]:
    """The member of staff whom the clinic's own directory means, or None and the words for it; nobody is ever added.

    By `email`, verified, the first time; the subject is noted then, and from then on both must agree: an address may be given
    to somebody else later. By the subject alone where `email` is None.
    """
    with store.transaction():
        known = people.staff_by_subject(store, subject)
        found = people.staff_by_email(store, email) if email else known
        why = ""
        if found is None:
            why = "no account"
        elif known not in (None, found) or found.directory_subject not in (None, subject):
            why = "another person’s address"
        if found is None or why:
            seen = {"from": caller.address, "why": why}
            audit.note(store, now, "somebody", "directory sign-in refused", found.id if found else "unknown", seen)
            return None, "you have no account here; whoever looks after accounts can help"
        if found.directory_subject is None:
            people.set_subject(store, found.id, subject)
        seen = {"from": caller.address, "by": "directory"}
        audit.note(store, now, f"{found.role}:{found.id}", "signed in", found.id, seen)
    return Actor(found.id, found.name, found.role), found.email


def refused_by_directory(store: Store, now: datetime, why: str, caller: Caller) -> None:
    """Put on record that a sign-in by the directory came to nothing; what anybody may send without end, only so often."""
    seen = {"from": caller.address, "why": why[:80].encode("ascii", "replace").decode()}
    with store.transaction():
        if people.tries_within(store, now, "directory", caller.address, WINDOW) >= FROM_ONE_ADDRESS:
            return
        people.count_try(store, now, "directory", caller.address)
        audit.note(store, now, "somebody", "directory sign-in refused", "unknown", seen)


def whose_half(store: Store, now: datetime, half: str) -> tuple[str, str]:
    """Whose password was right a moment ago, and the e-mail. Raises `Refused`."""
    try:
        staff_id, email = signatures.timed(store, now, HALF).loads(half, max_age=HALF_SECONDS)
    except BadSignature as error:
        raise Refused("that took too long; sign in anew", "code") from error
    return staff_id, email


def half(store: Store, now: datetime, actor: Actor, email: str) -> str:
    """What stands for a right password until the second factor has come."""
    return str(signatures.timed(store, now, HALF).dumps([actor.id, email.lower().strip()]))


def _counted(store: Store, now: datetime, email: str, caller: Caller, step: str = "") -> list[tuple[str, str, str]]:
    """Count this try before it is looked at, so that guesses side by side all count. Raises `Refused` when it has to wait.

    Each `step` has its own count of an account, and of a browser that is known for it.
    """
    digest, marked = _short(step + email), _short(step + caller.mark)
    known = _account_of(store, now, caller.mark) == email
    ways = (
        {f"mark {marked}": None}
        if known
        else {
            f"pair {digest} {caller.address}": None,
            f"address {caller.address}": FROM_ONE_ADDRESS,
            f"account {digest}": OF_ONE_ACCOUNT,
        }
    )
    with store.transaction():
        for key, most in ways.items():
            wait = _wait(people.tries_at(store, now, "password", key, WINDOW), now, most)
            if wait > timedelta(0):
                minutes = max(1, -(-int(wait.total_seconds()) // 60))
                raise Refused(f"too many wrong tries; wait {minutes} minute{'s' if minutes > 1 else ''}", "password")
        return [people.count_try(store, now, "password", key) for key in ways]


def _short(text: str) -> str:
    """The list of tries names nobody."""
    return hashlib.sha256(text.encode()).hexdigest()[:32]


def _wait(tries: list[datetime], now: datetime, most: int | None) -> timedelta:
    if most is not None:
        return tries[-most] + WINDOW - now if len(tries) >= most else timedelta(0)
    if len(tries) < FREE:
        return timedelta(0)
    doubled: timedelta = min(WINDOW, FIRST_WAIT * 2 ** min(20, len(tries) - FREE))
    return tries[-1] + doubled - now


def mark(store: Store, now: datetime, email: str) -> str:
    """What a browser keeps after somebody signed in on it: whose tries are counted by this browser alone from now on."""
    return str(signatures.timed(store, now, MARK).dumps([email.lower().strip(), secrets.token_urlsafe(9)]))


def _account_of(store: Store, now: datetime, mark: str) -> str | None:
    try:
        return str(signatures.timed(store, now, MARK).loads(mark, max_age=MARK_DAYS * 86400)[0])
    except BadSignature:
        return None


def begin(store: Store, now: datetime, actor: Actor, caller: Caller) -> str:
    """Begin a session; returns the secret that the browser keeps."""
    token = secrets.token_urlsafe(32)
    sessions.begin(store, now, actor.id, _digest(token), caller.address)
    return token


def session(store: Store, now: datetime, token: str | None) -> Session | None:
    """The session of a secret, or None if it was ended, lay idle for an hour, or is twelve hours old."""
    found = sessions.by_token(store, _digest(token)) if token else None
    if found is None:
        return None
    if now - found.begun_at >= LONGEST_SESSION or now - found.seen_at >= IDLE:
        sessions.end(store, now, found.id, "too old" if now - found.begun_at >= LONGEST_SESSION else "idle")
        return None
    if now - found.seen_at >= SEEN_EVERY:
        sessions.seen(store, now, found.id)
    return found


def end(store: Store, now: datetime, token: str | None, reason: str = "signed out") -> None:
    """End a session: whoever copied its cookie has nothing."""
    found = sessions.by_token(store, _digest(token)) if token else None
    if found:
        with store.transaction():
            sessions.end(store, now, found.id, reason)
            audit.note(store, now, f"staff:{found.staff_id}", "signed out", found.staff_id)


def open_sessions(store: Store, now: datetime, staff_id: str) -> list[Session]:
    """The sessions of a member of staff that still hold."""
    held = sessions.open_of(store, staff_id)
    return [s for s in held if now - s.begun_at < LONGEST_SESSION and now - s.seen_at < IDLE]


def end_sessions(store: Store, now: datetime, staff_id: str, by: str, but: str = "") -> int:
    """End every session of a member of staff, but one; returns how many."""
    with store.transaction():
        ended = sessions.end_all(store, now, staff_id, "ended", but)
        audit.note(store, now, by, "sessions ended", staff_id, {"how many": ended})
    return ended


def _digest(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()
