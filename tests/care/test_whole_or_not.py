"""What is more than one row is kept whole or not at all, and what decides is looked at when nobody else can write any more.

`test_verbs.py` lets each write of each verb fail; here is what no verb leads to, and what no failing write shows: two who do
the same at once.
"""

import sqlite3
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import replace
from functools import partial
from itertools import count
from typing import Any

import pytest

from followup.care import accounts, passkeys, resetting, signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import Refused
from followup.care.home import enrol, receive
from followup.care.learning import contributions, signing
from followup.care.messages import outgoing
from followup.care.patients import consenting, erasing, following
from followup.care.reading import person, state
from followup.care.today import arrivals
from followup.config import Settings
from followup.protocols.book import draft_text, fingerprint
from followup.records import Store, eyes, patients, people, visits
from followup.records import messages as kept
from followup.records.values import Device
from tests.care.failing import Full, dump, failing_at
from tests.conftest import NOW, PASSWORD, ZONE, operation_note, patient_details

ADDRESS, NEW_PASSWORD = "192.0.2.1", "another long test password"


def lined_up(store: Store, nurse: Actor) -> tuple[str, ...]:
    """Two links for a forgotten password, to the nurse."""
    keys = tuple(f"{resetting.MESSAGE}:{n}" for n in (1, 2))
    for key in keys:
        kept.add(store, NOW, key, f"staff:{nurse.id}", resetting.MESSAGE, nurse.id, NOW + resetting.HOLDS)
    return keys


def taken(store: Store, settings: Settings) -> list[outgoing.Parcel]:
    return list(outgoing.take(store, NOW, settings.clinic, settings.messages))


def fails_at_every_write(store: Store, act: Callable[[], Any], patch: pytest.MonkeyPatch) -> int:
    """Let each write fail in turn, and see that nothing stays; returns how many there were."""
    before = dump(store, ("faults",))
    for number in count(1):
        with patch.context() as now:
            failed = failing_at(number, now)
            with suppress(Full):
                act()
        if not failed:
            assert dump(store, ("faults",)) != before
            return number - 1
        assert dump(store, ("faults",)) == before, f"something stayed when write {number} failed"
    raise AssertionError


def test_a_message_is_not_taken_where_what_goes_with_it_fails(
    store: Store, nurse: Actor, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else it would wait as one that is being sent, and be late."""
    keys = lined_up(store, nurse)
    kept.add(store, NOW, "too late", f"staff:{nurse.id}", resetting.MESSAGE, nurse.id, NOW)
    before = dump(store, ("faults",))
    with monkeypatch.context() as patch:
        patch.setattr(kept, "end", raising)
        assert not taken(store, settings)
    assert dump(store, ("faults",)) == before
    (parcel,) = taken(store, settings)
    assert parcel.keys == keys


def raising(*_: Any) -> None:
    raise ValueError("what cannot be written")


def test_a_parcel_that_failed_waits_with_all_that_is_in_it(
    store: Store, nurse: Actor, monkeypatch: pytest.MonkeyPatch
) -> None:
    parcel = outgoing.Parcel(
        f"staff:{nurse.id}", resetting.MESSAGE, "en", lined_up(store, nurse), "nurse@test.invalid", (), 0
    )
    assert fails_at_every_write(store, lambda: outgoing.failed(store, NOW, parcel, "no answer"), monkeypatch) == 2


def test_messages_to_whoever_left_are_dropped_together_or_go_on_waiting(
    store: Store, nurse: Actor, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else one would stand as being sent, which nobody does any more."""
    lined_up(store, nurse)
    rows = kept.waiting(store, NOW)
    assert fails_at_every_write(store, lambda: outgoing._drop(store, NOW, rows, "left"), monkeypatch) == 4


def test_a_refusal_by_the_directory_counts_with_its_entry_or_not_at_all(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    refused = partial(signing_in.refused_by_directory, store, NOW, "nonce", signing_in.Caller())
    assert fails_at_every_write(store, refused, monkeypatch) == 2


def test_junk_is_counted_for_its_address_and_for_all_at_once(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    assert fails_at_every_write(store, lambda: receive.count_junk(store, NOW, ADDRESS), monkeypatch) == 2


def test_whoever_is_missing_in_the_index_is_put_there_with_the_others(
    store: Store, nurse: Actor, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    leaving.discharge(Desk(store, NOW, nurse, ZONE), patient_details("T-2"), operation_note(), [])
    store.execute("DELETE FROM patient_terms")
    fails_at_every_write(store, lambda: person.index_whoever_is_missing(store), monkeypatch)
    assert not patients.without_terms(store)


def test_a_state_that_fails_half_way_is_still_known_to_be_old(
    store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else the patient would be on no list, and nobody would look again."""
    for number in count(1):
        with monkeypatch.context() as patch:
            failed = failing_at(number, patch)
            with suppress(Full):
                state.bring_up_to_date(store, NOW, ZONE)
        state.bring_up_to_date(store, NOW, ZONE)
        assert state.differences(store, ZONE) == []
        if not failed:
            break
        store.execute("INSERT INTO changed_patients SELECT id FROM patients")


def test_what_an_eye_contributes_is_still_known_to_be_old_when_it_fails_half_way(
    store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    state.bring_up_to_date(store, NOW, ZONE)
    for number in count(1):
        with monkeypatch.context() as patch:
            failed = failing_at(number, patch)
            with suppress(Full):
                contributions.bring_up_to_date(store, NOW, ZONE)
        contributions.bring_up_to_date(store, NOW, ZONE)
        assert contributions.differences(store, NOW, ZONE) == []
        if not failed:
            break
        store.execute("INSERT INTO changed_results SELECT id, 'x' FROM patients")


def test_states_of_an_earlier_shape_are_old_until_all_are_marked(
    store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    state.bring_up_to_date(store, NOW, ZONE)
    monkeypatch.setattr(state, "SHAPE", state.SHAPE + 1)
    state._how.cache_clear()
    with monkeypatch.context() as patch:
        failing_at(2, patch)
        with pytest.raises(Full):
            state.bring_up_to_date(store, NOW, ZONE)
    store.execute("UPDATE eye_states SET how_soon = 'now'")  # as the earlier shape had it
    state.bring_up_to_date(store, NOW, ZONE)
    state._how.cache_clear()
    assert state.differences(store, ZONE) == []


Ready = Callable[[Desk, str], Callable[[], Any]]


def erased(desk: Desk, eye_id: str) -> Callable[[], Any]:
    following.end(desk, eye_id, "finished", "")
    known = eyes.eye(desk.store, eye_id)
    assert known is not None
    return lambda: erasing.erase(desk, known.patient.id, "the patient’s wish")


def arrived(desk: Desk, eye_id: str) -> Callable[[], Any]:
    planned = visits.of_eye(desk.store, eye_id)[0].identity
    return lambda: arrivals.arrive(desk, eye_id, planned)


def with_passkey(desk: Desk, _: str) -> Callable[[], Any]:
    answer = passkeys.Answer("of nobody", "{}", "here")
    site = passkeys.Site("eyes.example", "https://eyes.example", "Test Eye Clinic")
    return lambda: signing_in.by_passkey(desk.store, NOW, site, answer, signing_in.Caller(ADDRESS))


def by_link(desk: Desk, _: str) -> Callable[[], Any]:
    token = resetting.token(desk.store, NOW, desk.actor.id)
    return lambda: resetting.reset(desk.store, NOW, token, NEW_PASSWORD)


def by_signature(desk: Desk, _: str) -> Callable[[], Any]:
    surgeon = replace(desk, actor=replace(desk.actor, role="surgeon"))
    return lambda: signing.sign(surgeon, "rulebook", fingerprint(draft_text("rulebook")))


# What somebody does, and where the look stands on which it rests.
LOOKS: dict[str, tuple[Ready, Any, str]] = {
    "a link that was used is used no more": (by_link, resetting, "whose"),
    "tries of a password count": (
        lambda desk, _: lambda: signing_in.sign_in(desk.store, NOW, "nurse@test.invalid", PASSWORD),
        people,
        "tries_at",
    ),
    "tries of a passkey count": (with_passkey, people, "tries_at"),
    "tries of one’s own password count": (
        lambda desk, _: lambda: accounts.confirmed(desk.store, NOW, desk.actor.id, PASSWORD),
        people,
        "tries_within",
    ),
    "what is signed is what is in force": (by_signature, signing, "protocol"),
    "whoever came has come once": (arrived, arrivals, "load"),
    "nobody is erased who is followed": (erased, eyes, "of_patient"),
}


@pytest.mark.parametrize("what", LOOKS)
def test_nobody_else_writes_between_a_look_and_what_rests_on_it(
    store: Store, nurse: Actor, eye_id: str, monkeypatch: pytest.MonkeyPatch, what: str
) -> None:
    ready, where, name = LOOKS[what]
    act = ready(Desk(store, NOW, nurse, ZONE), eye_id)
    looked, look = [], getattr(where, name)

    def looking(*given: Any) -> Any:
        other = sqlite3.connect(store.path, timeout=0, isolation_level=None)
        with closing(other), pytest.raises(sqlite3.OperationalError, match="locked"):
            other.execute("BEGIN IMMEDIATE")
        looked.append(name)
        return look(*given)

    monkeypatch.setattr(where, name, looking)
    with suppress(Refused):
        act()
    assert looked


def consent_taken_back(desk: Desk, device: Device, _: str) -> None:
    consenting.take_back(desk, device.patient_id, "patient", "")


def used_meanwhile(desk: Desk, _: Device, code: str) -> None:
    found = people.enrolment_by_code(desk.store, enrol._digest(code))
    assert found is not None
    people.use_enrolment(desk.store, NOW, found.id)


def guessed_meanwhile(desk: Desk, _: Device, code: str) -> None:
    found = people.enrolment_by_code(desk.store, enrol._digest(code))
    assert found is not None
    for _try in range(5):
        people.count_wrong_try(desk.store, found.id)


@pytest.mark.parametrize("meanwhile", [consent_taken_back, used_meanwhile, guessed_meanwhile])
def test_no_phone_is_set_up_with_a_code_that_holds_no_more_when_it_is_used(
    store: Store,
    nurse: Actor,
    device: Device,
    monkeypatch: pytest.MonkeyPatch,
    meanwhile: Callable[[Desk, Device, str], None],
) -> None:
    """Whatever happens between the first look at the code and the moment in which the phone is noted."""
    desk, look = Desk(store, NOW, nurse, ZONE), enrol.enrolment
    code = enrol.issue_code(desk, device.patient_id)

    def looking(*given: Any) -> Any:
        found = look(*given)
        monkeypatch.setattr(enrol, "enrolment", look)
        meanwhile(desk, device, code)
        return found

    monkeypatch.setattr(enrol, "enrolment", looking)
    known = people.devices_of(store, device.patient_id)
    with pytest.raises(Refused):
        enrol.enrol(store, NOW, code, 1952, "patient", ADDRESS)
    assert [one.id for one in people.devices_of(store, device.patient_id)] == [one.id for one in known]
