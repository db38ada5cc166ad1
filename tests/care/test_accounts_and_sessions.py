"""Accounts and sessions to their edges: which passwords are taken, who may be ended, how long a session and a link
hold, and under which name something stands.

Common practice, no source, where none is named.
"""

from datetime import timedelta

import pytest

from followup.care import accounts, passwords, resetting, signing_in, trail
from followup.care.actors import CLOCK, Actor, barred
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound, Refused
from followup.care.signing_in import Caller
from followup.records import Store, audit, people, tasks, worries
from followup.records.values import Device
from tests.conftest import NOW, PASSWORD, ZONE
from tests.records.rows import callback, known, task

SECOND = timedelta(seconds=1)
GOOD = "plum harbour lantern"


# --- Passwords ---


@pytest.mark.parametrize(
    ("password", "fault"),
    [
        ("plum harbo", None),
        ("plum harb", "at least 10"),
        ("plum harbour " * 16, "at most 200"),
        ("abababababab", "repeats itself or counts up"),
        ("abcdefghijkl", "repeats itself or counts up"),
        ("9876543210", "repeats itself or counts up"),
        ("Password123!", "many people use"),
        ("P@ssw0rd!2027", "many people use"),
        ("nora.nurse.2027", "many people use"),
        ("Nurse@Nora#99", "many people use"),
        ("willkommen99", "many people use"),
    ],
)
def test_a_password_is_long_and_neither_common_nor_made_of_a_name(password: str, fault: str | None) -> None:
    if fault is None:
        passwords.check(password, "Nora Nurse", "nora@test.invalid")
    else:
        with pytest.raises(CareError, match=fault):
            passwords.check(password, "Nora Nurse", "nora@test.invalid")


def test_a_password_fits_however_its_letters_were_put_together() -> None:
    """One way to write what can be typed in several: RFC 8265, section 4.2 (NFC)."""
    kept = passwords.kept(accounts._hasher, "sch\u00f6ne lange worte")
    assert passwords.fits(accounts._hasher, "scho\u0308ne lange worte", kept)
    assert not passwords.fits(accounts._hasher, "schone lange worte", kept)


def test_no_password_fits_nobody() -> None:
    assert not passwords.fits(accounts._hasher, "nobody has this password", None)


# --- Accounts ---


@pytest.mark.parametrize(
    ("role", "email", "password", "fault"),
    [
        ("doctor", "a@test.invalid", GOOD, "“doctor” is not a role; accepted are: nurse, surgeon, administrator"),
        ("nurse", "nowhere", GOOD, "“nowhere” is not an e-mail address"),
        ("nurse", "a@test.invalid\nBcc: b@test.invalid", GOOD, "is not an e-mail address"),
        ("nurse", "a b@test.invalid", GOOD, "is not an e-mail address"),
        ("nurse", "@test.invalid", GOOD, "is not an e-mail address"),
        ("nurse", "a@", GOOD, "is not an e-mail address"),
        ("nurse", "a@b@test.invalid", GOOD, "is not an e-mail address"),
        ("nurse", "a@test.invalid", "short", "at least 10"),
        ("nurse", " NURSE@test.invalid ", GOOD, "has an account already"),
    ],
)
def test_an_account_that_cannot_be_is_not_made(
    store: Store, nurse: Actor, role: str, email: str, password: str, fault: str
) -> None:
    before = audit.head(store)
    with pytest.raises(CareError, match=fault):
        accounts.add_staff(store, NOW, "Una New", role, email, password)
    assert (len(accounts.everybody(store)), audit.head(store)) == (1, before)


def test_the_last_surgeon_stays_and_the_last_nurse_may_go(store: Store, nurse: Actor, surgeon: Actor) -> None:
    accounts.end(store, NOW, nurse.id)
    with pytest.raises(Conflict, match="the only surgeon"):
        accounts.end(store, NOW, surgeon.id)
    accounts.add_staff(store, NOW, "Sue Surgeon", "surgeon", "sue@test.invalid", GOOD)
    accounts.end(store, NOW, surgeon.id)
    assert accounts.surgeons(store) == ["Sue Surgeon"]


def test_an_ended_account_is_known_to_nobody_and_signs_its_old_entries(store: Store, nurse: Actor) -> None:
    accounts.end(store, NOW, nurse.id)
    for look in (lambda: accounts.known(store, nurse.id), lambda: accounts.by_email(store, "nurse@test.invalid")):
        with pytest.raises(NotFound):
            look()
    with pytest.raises(NotFound, match="ended already"):
        accounts.end(store, NOW, nurse.id)
    assert accounts.actor(store, nurse.id) is None
    assert accounts.name_of(store, nurse.signature) == "Nora Nurse"


def test_what_somebody_has_in_hand_is_everybodys_once_the_account_ends(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str
) -> None:
    claimed, decided, other = (callback(store, eye_id, worry) for worry in ("pressure", "pain", "sight"))
    for call, who in ((claimed, nurse), (other, surgeon)):
        worries.claim(store, NOW, call.id, who.id)
    theirs, mine = task(store, decided, surgeon, nurse), task(store, decided, surgeon, surgeon)
    accounts.end(store, NOW, nurse.id, by="administrator:a")
    assert [known(worries.callback(store, c.id)).claimed_by for c in (claimed, other)] == [None, surgeon.id]
    assert [known(tasks.task(store, t.id)).owner for t in (theirs, mine)] == [None, surgeon.id]
    said = ("given back", "administrator:a", {"by": "Nora Nurse", "why": "the account ended"})
    assert [[(s.step, s.who, s.detail) for s in worries.steps_of(store, c.id)] for c in (claimed, decided, other)] == [
        [said], [said], [],
    ]  # fmt: skip


def test_what_is_settled_or_done_stays_with_who_did_it(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    call = callback(store, eye_id)
    made = task(store, call, surgeon, nurse)
    tasks.end(store, NOW, made.id, nurse.id, "done")
    worries.claim(store, NOW, call.id, nurse.id)
    worries.settle(store, NOW, call.id, nurse.id, "advice")
    accounts.end(store, NOW, nurse.id)
    assert known(worries.callback(store, call.id)).settled_by == known(tasks.task(store, made.id)).done_by == nurse.id
    assert worries.steps_of(store, call.id) == []


def test_a_name_of_the_directory_is_one_persons_until_it_is_forgotten(store: Store, nurse: Actor, surgeon: Actor) -> None:
    accounts.name_in_directory(store, NOW, nurse.id, " person-7 ")
    with pytest.raises(Conflict, match="that is how the directory knows Nora Nurse"):
        accounts.name_in_directory(store, NOW, surgeon.id, "person-7")
    accounts.name_in_directory(store, NOW, nurse.id, "person-7")
    accounts.name_in_directory(store, NOW, nurse.id, " ")
    accounts.name_in_directory(store, NOW, surgeon.id, "person-7")
    assert accounts.known(store, surgeon.id).directory_subject == "person-7"


@pytest.mark.parametrize("wrong", [10, 11])
def test_the_password_once_more_is_guessed_ten_times_in_a_quarter_of_an_hour(store: Store, nurse: Actor, wrong: int) -> None:
    for n in range(wrong):
        with pytest.raises(Refused, match="this is not your password now" if n < 10 else "too many wrong tries"):
            accounts.confirmed(store, NOW, nurse.id, "wrong")
    with pytest.raises(Refused, match="too many wrong tries"):
        accounts.confirmed(store, NOW + timedelta(minutes=15) - SECOND, nurse.id, PASSWORD)
    assert accounts.confirmed(store, NOW + timedelta(minutes=15), nurse.id, PASSWORD).name == "Nora Nurse"


def test_right_passwords_once_more_are_not_counted(store: Store, nurse: Actor) -> None:
    for _ in range(20):
        accounts.confirmed(store, NOW, nurse.id, PASSWORD)
    with pytest.raises(CareError, match="this is the password you have already"):
        accounts.change_password(store, NOW, nurse, PASSWORD, PASSWORD, "")


def test_a_new_password_ends_every_session_but_the_one_in_hand(store: Store, nurse: Actor) -> None:
    here, there = (signing_in.begin(store, NOW, nurse, Caller()) for _ in range(2))
    mine = signing_in.session(store, NOW, here)
    assert mine is not None
    accounts.change_password(store, NOW, nurse, PASSWORD, GOOD, mine.id)
    assert signing_in.session(store, NOW, here) is not None
    assert signing_in.session(store, NOW, there) is None


@pytest.mark.parametrize(
    ("signature", "name"),
    [
        ("clock:clock", "the clock"),
        ("nurse:nobody", "the nurse"),
        ("patient:x", "the patient"),
        ("carer:x", "the carer"),
        ("", "the "),
    ],
)
def test_whoever_is_not_of_the_staff_stands_by_what_they_are(store: Store, signature: str, name: str) -> None:
    assert accounts.name_of(store, signature) == name


def test_a_carer_stands_by_the_name_that_the_patient_gave(store: Store, device: Device) -> None:
    id = people.add_device(store, NOW, device.patient_id, "hash", "carer", "Dana Daughter")
    assert accounts.name_of(store, f"carer:{id}") == "the carer Dana Daughter"
    assert accounts.name_of(store, f"patient:{device.id}") == "the patient"


@pytest.mark.parametrize(
    ("role", "trusted", "may"),
    [
        ("surgeon", False, True),
        ("nurse", False, False),
        ("nurse", True, True),
        ("administrator", True, False),
        ("patient", True, False),
    ],
)
def test_who_may_say_that_no_gas_is_left(role: str, trusted: bool, may: bool) -> None:
    actor = Actor("x", "X", role, trusted)
    assert actor.may_lift_caution is may
    assert (barred(actor, "no-gas-seen") is None) is may
    assert barred(actor, "measures") is None
    assert not CLOCK.may_lift_caution


# --- Sessions, halves and links ---


@pytest.mark.parametrize(
    ("used_minutes", "asked", "holds"),
    [
        ([], timedelta(hours=1) - SECOND, True),
        ([], timedelta(hours=1), False),
        ([50], timedelta(minutes=110) - SECOND, True),
        ([50 * n for n in range(1, 15)], timedelta(hours=12) - SECOND, True),
        ([50 * n for n in range(1, 15)], timedelta(hours=12), False),
    ],
)
def test_a_session_holds_for_an_hour_without_use_and_for_twelve_in_all(
    store: Store, nurse: Actor, used_minutes: list[int], asked: timedelta, holds: bool
) -> None:
    token = signing_in.begin(store, NOW, nurse, Caller("10.0.0.1"))
    for minutes in used_minutes:
        signing_in.session(store, NOW + timedelta(minutes=minutes), token)
    assert (signing_in.session(store, NOW + asked, token) is not None) is holds
    assert len(signing_in.open_sessions(store, NOW + asked, nurse.id)) == int(holds)


@pytest.mark.parametrize(("used", "asked", "reason"), [([], 1, "idle"), ([50 * n for n in range(1, 15)], 12, "too old")])
def test_why_a_session_ended_is_kept(store: Store, nurse: Actor, used: list[int], asked: int, reason: str) -> None:
    token = signing_in.begin(store, NOW, nurse, Caller())
    for minutes in used:
        signing_in.session(store, NOW + timedelta(minutes=minutes), token)
    assert signing_in.session(store, NOW + timedelta(hours=asked), token) is None
    assert store.rows("SELECT end_reason FROM sessions") == [{"end_reason": reason}]


@pytest.mark.parametrize("token", [None, "", "somebody else's"])
def test_without_its_secret_there_is_no_session(store: Store, nurse: Actor, token: str | None) -> None:
    signing_in.begin(store, NOW, nurse, Caller())
    assert signing_in.session(store, NOW, token) is None
    signing_in.end(store, NOW, token)
    assert len(signing_in.open_sessions(store, NOW, nurse.id)) == 1


def test_a_mark_is_no_half_of_a_sign_in(store: Store, nurse: Actor) -> None:
    with pytest.raises(Refused):
        signing_in.whose_half(store, NOW, signing_in.mark(store, NOW, "nurse@test.invalid"))


@pytest.mark.parametrize(
    ("after", "holds"), [(timedelta(minutes=30) - SECOND, True), (timedelta(minutes=30), False), (-SECOND, False)]
)
def test_a_link_for_a_new_password_holds_for_half_an_hour(store: Store, nurse: Actor, after: timedelta, holds: bool) -> None:
    link = resetting.token(store, NOW, nurse.id)
    if holds:
        assert resetting.whose(store, NOW + after, link).id == nurse.id
    else:
        with pytest.raises(Refused, match="was used, or is older than 30 minutes"):
            resetting.whose(store, NOW + after, link)


def test_a_link_ends_with_the_password_that_it_replaces_and_with_the_account(store: Store, nurse: Actor) -> None:
    first, second = (resetting.token(store, NOW, nurse.id) for _ in range(2))
    resetting.reset(store, NOW, first, GOOD)
    for used in (first, second):
        with pytest.raises(Refused):
            resetting.reset(store, NOW, used, "another one of them")
    third = resetting.token(store, NOW, nurse.id)
    accounts.end(store, NOW, nurse.id)
    with pytest.raises(Refused):
        resetting.whose(store, NOW, third)


def test_a_weak_password_leaves_the_link_as_it_was(store: Store, nurse: Actor) -> None:
    link = resetting.token(store, NOW, nurse.id)
    with pytest.raises(CareError, match="at least 10"):
        resetting.reset(store, NOW, link, "short")
    assert resetting.whose(store, NOW, link).id == nurse.id


# --- The trail ---


def test_the_whole_trail_is_a_row_for_each_entry_by_its_columns(store: Store, nurse: Actor) -> None:
    trail.note_export(Desk(store, NOW, nurse, ZONE), "the trail")
    rows = list(trail.table(store))
    last = dict(zip(trail.COLUMNS, rows[-1], strict=True))
    assert [row[0] for row in rows] == list(range(1, len(rows) + 1))
    assert (last["who"], last["action"], last["subject"]) == (nurse.signature, "exported", "the trail")


def test_pages_that_were_opened_stand_apart_from_the_trail(store: Store, nurse: Actor) -> None:
    before = audit.head(store)
    trail.opened(Desk(store, NOW, nurse, ZONE), "clinic.eye_page", "an eye")
    assert [(p.who, p.page, p.about) for p in trail.seen(store)] == [(nurse.signature, "clinic.eye_page", "an eye")]
    assert audit.head(store) == before
