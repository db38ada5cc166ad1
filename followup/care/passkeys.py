"""Passkeys (W3C, Web Authentication Level 3): a key pair that a person's own device holds and opens with a PIN or a look.

A device signs a challenge for the site that it was registered at and for no other. Each challenge is random, holds for a few
minutes, for what and for whom it was made, and once. Whoever uses a passkey was verified by the device (*user verification*),
so that one is enough alone; after the password it stands in the place of a code.
"""

import json
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import ip_address
from typing import Any
from urllib.parse import urlsplit

import webauthn
from itsdangerous import BadData
from webauthn.helpers import bytes_to_base64url
from webauthn.helpers.structs import (
    AuthenticatorSelectionCriteria,
    PublicKeyCredentialDescriptor,
    ResidentKeyRequirement,
    UserVerificationRequirement,
)

from followup.care import accounts, signatures
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound, Refused
from followup.records import Store, people
from followup.records import passkeys as kept
from followup.records.times import from_text, to_text
from followup.records.values import Passkey, Staff

HOLDS = timedelta(minutes=5)  # the standard's own advice for a ceremony (15.1)
CHALLENGE_BYTES = 32  # at least 16 (13.4.3)
MOST = 20  # of one person
LONGEST_NAME = 60
LONGEST_ANSWER = 20_000
_SALT = "passkey"
_LATE = "that took too long, or was sent twice; try once more"
_WRONG = "this passkey was not taken; sign in another way"
_COPIED = "this passkey was used more often than it says, so it may have been copied; tell whoever looks after accounts"
_NEW, _ALONE, _AFTER = "register", "alone", "after the password"


@dataclass(frozen=True, slots=True)
class Site:
    """Where passkeys hold: browsers compare the origin, devices the hash of `id` (the RP ID: its host)."""

    id: str
    origin: str
    name: str


@dataclass(frozen=True, slots=True)
class Asked:
    """What a page asks the browser for: `options` as JSON, and the `token` that comes back with the answer."""

    token: str
    options: str


@dataclass(frozen=True, slots=True)
class Answer:
    """What came back: the token of what was asked, what the device answered, and who `holder` says is asking."""

    token: str
    told: str
    holder: str


@dataclass(frozen=True, slots=True)
class Tried:
    """Who signs in by a passkey, or None with the words for it; `about` is whose account it is about, as far as that is sure."""

    member: Staff | None
    words: str
    about: str | None


def site(address: str, name: str) -> Site | None:
    """The site of an address, or None where browsers allow no passkeys: without TLS (but on this machine), or without a name."""
    parts = urlsplit(address)
    host = (parts.hostname or "").encode("idna").decode()
    usual = {"https": 443, "http": 80}.get(parts.scheme)
    if not host or usual is None or _is_number(host) or (parts.scheme == "http" and host != "localhost"):
        return None
    port = "" if parts.port in (None, usual) else f":{parts.port}"
    return Site(host, f"{parts.scheme}://{host}{port}", name)


def to_register(desk: Desk, where: Site, holder: str, name: str, password: str) -> Asked:
    """Ask one's own device for a new passkey. Raises `Refused` for a wrong password, `CareError` for the name."""
    store, now = desk.store, desk.now
    _name(name)
    member = accounts.confirmed(store, now, desk.actor.id, password)
    token, challenge = _challenge(store, now, _NEW, holder)
    options = webauthn.generate_registration_options(
        rp_id=where.id,
        rp_name=where.name,
        user_id=member.id.encode(),
        user_name=member.email,
        user_display_name=member.name,
        challenge=challenge,
        timeout=int(HOLDS.total_seconds() * 1000),
        authenticator_selection=AuthenticatorSelectionCriteria(
            resident_key=ResidentKeyRequirement.REQUIRED, user_verification=UserVerificationRequirement.REQUIRED
        ),
        exclude_credentials=_named(kept.of_staff(store, member.id)),
    )
    return Asked(token, webauthn.options_to_json(options))


def to_sign_in(store: Store, now: datetime, where: Site, holder: str, staff_id: str | None = None) -> Asked:
    """Ask for any passkey of this site, or after the password for one of a member of staff."""
    token, challenge = _challenge(store, now, _AFTER if staff_id else _ALONE, holder)
    options = webauthn.generate_authentication_options(
        rp_id=where.id,
        challenge=challenge,
        timeout=int(HOLDS.total_seconds() * 1000),
        allow_credentials=_named(kept.of_staff(store, staff_id)) if staff_id else [],
        user_verification=UserVerificationRequirement.REQUIRED,
    )
    return Asked(token, webauthn.options_to_json(options))


def of(store: Store, staff_id: str) -> list[Passkey]:
    """The passkeys of a member of staff."""
    return kept.of_staff(store, staff_id)


def register(desk: Desk, where: Site, answer: Answer, name: str) -> None:
    """Keep a new passkey under a name. Raises `Refused` for an answer that is wrong or late, `Conflict`, `CareError`."""
    name = _name(name)
    challenge = _opened(desk.store, desk.now, answer, _NEW)
    if challenge is None:
        raise Refused(_LATE, "name")
    try:
        told = _told(answer.told)
        found = webauthn.verify_registration_response(
            credential=told,
            expected_challenge=challenge,
            expected_rp_id=where.id,
            expected_origin=where.origin,
            require_user_verification=True,
        )
    except Exception as error:  # whatever can be wrong with what a device sends
        raise Refused("this device did not make a passkey that can be used here", "name") from error
    id, key = bytes_to_base64url(found.credential_id), bytes_to_base64url(found.credential_public_key)
    with desk.store.transaction():
        if not kept.use_once(desk.store, desk.now, answer.token):
            raise Refused(_LATE, "name")
        if kept.by_credential(desk.store, id):
            raise Conflict("this passkey is known already", "name")
        if len(kept.of_staff(desk.store, desk.actor.id)) >= MOST:
            raise Conflict(f"you have {MOST} passkeys; remove one first", "name")
        made = kept.add(desk.store, desk.now, desk.actor.id, id, key, found.sign_count, name)
        desk.note("passkey registered", desk.actor.id, {"passkey": made})


def rename(desk: Desk, id: str, name: str) -> None:
    """Give one's own passkey another name. Raises `NotFound`, `CareError`."""
    name = _name(name)
    with desk.store.transaction():
        if not kept.rename(desk.store, id, desk.actor.id, name):
            raise NotFound("you have no such passkey")
        desk.note("passkey renamed", desk.actor.id, {"passkey": id})


def remove(desk: Desk, id: str) -> None:
    """Take one's own passkey away. Raises `NotFound`, `Conflict` for the last one while one is asked for."""
    with desk.store.transaction():
        if not kept.remove(desk.store, desk.now, id, desk.actor.id):
            raise NotFound("you have no such passkey")
        member = accounts.known(desk.store, desk.actor.id)
        other_way = people.second_factor(desk.store, member.id) or kept.of_staff(desk.store, member.id)
        if member.passkey_asked and not other_way:
            raise Conflict("it is asked for after your password and is the last one; let the password be enough first")
        desk.note("passkey removed", desk.actor.id, {"passkey": id})


def passes(store: Store, now: datetime, where: Site, answer: Answer, staff_id: str | None = None) -> Tried:
    """Whose passkey answered, or why none. Called in the transaction that signs in; the challenge is used either way.

    With `staff_id` it has to be one of theirs, and it comes after their password; without, the device says whose it is.
    """
    challenge = _opened(store, now, answer, _AFTER if staff_id else _ALONE)
    if challenge is None or not kept.use_once(store, now, answer.token):
        return Tried(None, _LATE, staff_id)
    try:
        told = _told(answer.told)
        known = kept.by_credential(store, str(told["id"]))
        member = people.staff_member(store, known.staff_id) if known else None
        if known is None or member is None or known.removed_at or staff_id not in (None, member.id):
            return Tried(None, _WRONG, staff_id)
        if not _is_of(member, told["response"].get("userHandle"), needed=staff_id is None):
            return Tried(None, _WRONG, staff_id)
        count = checked(told, where, challenge, webauthn.base64url_to_bytes(known.public_key))
    except Exception:  # whatever can be wrong with what a device sends
        return Tried(None, _WRONG, staff_id)
    counts = kept.use(store, now, known.id, count)
    return Tried(member if counts else None, "" if counts else _COPIED, member.id)


def checked(told: dict[str, Any], where: Site, challenge: bytes, public_key: bytes) -> int:
    """How often the passkey was used, as it says; raises for an answer that it did not sign for this challenge and site.

    The count is compared where it is kept, after the signature: nobody else learns or changes anything by a high one.
    """
    verified = webauthn.verify_authentication_response(
        credential=told,
        expected_challenge=challenge,
        expected_rp_id=where.id,
        expected_origin=where.origin,
        credential_public_key=public_key,
        credential_current_sign_count=0,
        require_user_verification=True,
    )
    return verified.new_sign_count


def _told(text: str) -> dict[str, Any]:
    """What a browser answered. Raises ValueError for what is none, or comes from a page within another site's page."""
    if len(text) > LONGEST_ANSWER:
        raise ValueError("too long")
    told = json.loads(text)
    client = json.loads(webauthn.base64url_to_bytes(told["response"]["clientDataJSON"]))
    if client.get("crossOrigin"):
        raise ValueError("in a page of another site")
    return dict(told)


def _is_of(member: Staff, handle: Any, *, needed: bool) -> bool:
    """Whether a device names this member of staff; one that was asked for by name may leave it out (7.2, step 6)."""
    if handle is None:
        return not needed
    return webauthn.base64url_to_bytes(str(handle)) == member.id.encode()


def _challenge(store: Store, now: datetime, what: str, holder: str) -> tuple[str, bytes]:
    random = secrets.token_urlsafe(CHALLENGE_BYTES)
    return str(signatures.lasting(store, now, _SALT).dumps([what, holder, random, to_text(now)])), random.encode()


def _opened(store: Store, now: datetime, answer: Answer, what: str) -> bytes | None:
    """The challenge of a token, or None where it was not made for this, for this holder, or a moment ago."""
    try:
        made_for, holder, random, made_at = signatures.lasting(store, now, _SALT).loads(answer.token)
    except BadData:
        return None
    fits = (made_for, holder) == (what, answer.holder) and timedelta(0) <= now - from_text(made_at) < HOLDS
    return str(random).encode() if fits else None


def _named(passkeys: list[Passkey]) -> list[PublicKeyCredentialDescriptor]:
    return [PublicKeyCredentialDescriptor(id=webauthn.base64url_to_bytes(one.credential_id)) for one in passkeys]


def _name(text: str) -> str:
    name = " ".join(text.split())
    if not name or len(name) > LONGEST_NAME or not name.isprintable():
        raise CareError(f"give it a name of at most {LONGEST_NAME} characters, by which you tell it from others", "name")
    return name


def _is_number(host: str) -> bool:
    try:
        ip_address(host)
    except ValueError:
        return False
    return True
