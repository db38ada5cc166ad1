"""Enrolment of a patient's phone: one-time code, year of birth, a credential that can be revoked."""

import hashlib
import secrets
from datetime import date, datetime, timedelta

from followup.care import signatures
from followup.care.desk import Desk
from followup.care.errors import NotFound, Refused, translatable
from followup.records import Store, audit, consents, eyes, patients, people, visits
from followup.records.values import Device, Enrolment, Visit

CODE_VALID = timedelta(days=7)
CODE_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ23456789"  # nothing that reads like another
CODE_LENGTH = 8
WRONG_TRIES = 5
UNKNOWN_CODES_AN_HOUR = 20
TOLD_AGAIN = timedelta(minutes=10)  # to the browser that used the code: common practice, no source
CONSENT = consents.PHONE


def issue_code(desk: Desk, patient_id: str, carer_name: str = "") -> str:
    """A new one-time code for a patient's phone, or that of the carer named, valid for seven days."""
    code = "".join(secrets.choice(CODE_LETTERS) for _ in range(CODE_LENGTH))
    with desk.store.transaction():
        until = desk.now + CODE_VALID
        people.add_enrolment(desk.store, desk.now, patient_id, _digest(code), desk.actor.signature, until, carer_name)
        desk.note("enrolment code", patient_id)
    return code


def enrolment(store: Store, now: datetime, code: str, caller: str) -> Enrolment:
    """The enrolment of a code that may still be used. Raises `Refused` in plain words otherwise."""
    window = timedelta(hours=1)
    if people.tries_within(store, now, "code", caller, window) >= UNKNOWN_CODES_AN_HOUR:
        raise Refused(translatable("There were too many wrong codes. Wait one hour, or call the clinic."), "code")
    found = people.enrolment_by_code(store, _digest(code))
    if found is None:
        people.count_try(store, now, "code", caller)
        raise Refused(
            translatable("We do not know this code. Look at the card again, or ask the clinic for a new one."), "code"
        )
    if found.used_at:
        raise Refused(translatable("This code has been used. Ask the clinic for a new one."), "code")
    if found.expires_at <= now:
        raise Refused(translatable("This code is too old. Ask the clinic for a new one."), "code")
    if found.wrong_tries >= WRONG_TRIES:
        raise Refused(translatable("This code is locked after too many wrong tries. Ask the clinic for a new one."), "code")
    if not consents.stands(store, found.patient_id, CONSENT):
        raise Refused(translatable("The clinic has not noted yet that you agree to use this. Ask the clinic."), "code")
    return found


def enrol(store: Store, now: datetime, code: str, birth_year: int, used_by: str, caller: str, browser: str = "") -> str:
    """Enrol a phone; returns the secret that it keeps in a cookie no script can read. Raises `Refused`.

    A code that the patient made for a carer makes it that carer's, whatever `used_by` says. `browser` is a secret of the
    browser that asks: the secret of the phone is made of it and of what was typed, so whoever taps twice, or whose answer
    was lost, is told the same once more, and nobody else is. Without it each phone's secret is random.
    """
    typed = f"{browser} {_digest(code)} {birth_year} {used_by}"
    token = signatures.derived(store, "phone", typed) if browser else secrets.token_urlsafe(32)
    if _just_set_up(store, now, token):
        return token
    enrolment(store, now, code, caller)  # counts what is no code at all
    with store.transaction():  # looked at again: another may use it or guess at the same time, or consent be taken back
        if _just_set_up(store, now, token):
            return token
        found = enrolment(store, now, code, caller)
        patient = patients.patient(store, found.patient_id)
        assert patient is not None
        fits = patient.born_on.year == birth_year
        if fits:
            people.use_enrolment(store, now, found.id)
            used_by = "carer" if found.carer_name else used_by
            device_id = people.add_device(store, now, patient.id, _digest(token), used_by, found.carer_name)
            audit.note(store, now, f"{used_by}:{device_id}", "device enrolled", patient.id)
        else:
            people.count_wrong_try(store, found.id)
    if not fits:
        left = WRONG_TRIES - found.wrong_tries - 1
        raise Refused(translatable("The year of birth does not fit this code. Tries left: {left}."), "birth_year", left=left)
    return token


def _just_set_up(store: Store, now: datetime, token: str) -> bool:
    """Whether a phone of this secret was set up a moment ago and not locked out since."""
    known = device(store, token)
    return known is not None and known.revoked_at is None and now - known.enrolled_at <= TOLD_AGAIN


def patient_of_code(store: Store, code: str) -> str | None:
    """Whose card a code is on, used or not: staff find a patient by scanning it."""
    found = people.enrolment_by_code(store, _digest(code))
    return found.patient_id if found else None


def device(store: Store, token: str | None) -> Device | None:
    """The device of a token, locked out or not, or None."""
    return people.device_by_token(store, _digest(token)) if token else None


def visits_to_come(store: Store, device_id: str, today: date) -> list[Visit] | None:
    """The planned visits from today on of whoever a phone belongs to; None for one that is unknown or locked out."""
    found = people.device(store, device_id)
    if found is None or found.revoked_at:
        return None
    planned = (visit for eye in eyes.followed_of(store, found.patient_id) for visit in visits.of_eye(store, eye.id))
    return [visit for visit in planned if visit.target >= today]


def revoke(desk: Desk, device_id: str) -> None:
    """Lock a lost phone out. What it had not sent stays on it, unreadable here."""
    with desk.store.transaction():
        if not people.revoke_device(desk.store, desk.now, device_id, desk.actor.signature):
            raise NotFound("there is no such phone, or it is locked out already")
        desk.note("device revoked", device_id)


def _digest(secret: str) -> str:
    plain = secret.strip().upper().replace(" ", "").replace("-", "") if len(secret) <= 2 * CODE_LENGTH else secret
    return hashlib.sha256(plain.encode()).hexdigest()
