"""Staff, codes, phones, sessions and counted tries as rows."""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.records import Store, people, sessions
from followup.records.values import Device
from tests.conftest import NOW

LATER = NOW + timedelta(minutes=10)


def test_staff_are_known_by_their_address_however_it_is_written(store: Store, nurse: Actor) -> None:
    for written in ("nurse@test.invalid", " Nurse@TEST.invalid "):
        found = people.staff_by_email(store, written)
        assert found is not None
        assert found.id == nurse.id
    assert people.staff_by_email(store, "nobody@test.invalid") is None


def test_who_left_signs_old_entries_and_does_nothing_else(store: Store, nurse: Actor, surgeon: Actor) -> None:
    people.end_staff(store, NOW, nurse.id)
    people.end_staff(store, LATER, nurse.id)
    assert people.staff_member(store, nurse.id) is people.staff_by_email(store, "nurse@test.invalid") is None
    assert [s.id for s in people.all_staff(store)] == [surgeon.id]
    left = people.staff_by_id(store, nurse.id)
    assert left is not None
    assert (left.name, left.left_at) == ("Nora Nurse", NOW)


def test_a_new_password_takes_the_place_of_the_old_for_that_person_alone(store: Store, nurse: Actor, surgeon: Actor) -> None:
    people.set_password(store, nurse.id, "new")
    hashes = {s.id: s.password_hash for s in people.all_staff(store)}
    assert hashes[nurse.id] == "new"
    assert hashes[surgeon.id] != "new"


def test_a_second_factor_is_put_down_with_its_codes(store: Store, nurse: Actor) -> None:
    assert people.second_factor(store, nurse.id) is None
    people.set_second_factor(store, nurse.id, "wrapped", 7, ["a", "b"])
    assert people.second_factor(store, nurse.id) == ("wrapped", 7)
    people.set_second_factor(store, nurse.id, None, None, [])
    assert people.second_factor(store, nurse.id) is None
    assert not people.use_recovery_code(store, NOW, nurse.id, "a")


def test_a_recovery_code_works_once_and_for_its_owner(store: Store, nurse: Actor, surgeon: Actor) -> None:
    people.set_second_factor(store, nurse.id, "wrapped", None, ["a", "b"])
    assert not people.use_recovery_code(store, NOW, surgeon.id, "a")
    assert [people.use_recovery_code(store, NOW, nurse.id, code) for code in ("a", "a", "b", "c")] == [
        True, False, True, False,
    ]  # fmt: skip


def test_new_codes_end_the_old_ones(store: Store, nurse: Actor) -> None:
    people.set_second_factor(store, nurse.id, "wrapped", None, ["a"])
    people.set_second_factor(store, nurse.id, "wrapped", None, ["b"])
    assert not people.use_recovery_code(store, NOW, nurse.id, "a")


def test_who_left_has_no_second_factor_any_more(store: Store, nurse: Actor) -> None:
    people.set_second_factor(store, nurse.id, "wrapped", None, [])
    people.end_staff(store, NOW, nurse.id)
    assert people.second_factor(store, nurse.id) is None


def test_a_code_counts_its_wrong_tries_and_when_it_was_used(store: Store, device: Device, nurse: Actor) -> None:
    id = people.add_enrolment(store, NOW, device.patient_id, "hash", nurse.signature, LATER, "Daughter")
    people.count_wrong_try(store, id)
    people.count_wrong_try(store, id)
    people.use_enrolment(store, LATER, id)
    found = people.enrolment_by_code(store, "hash")
    assert found is not None
    assert (found.wrong_tries, found.used_at, found.expires_at, found.carer_name) == (2, LATER, LATER, "Daughter")
    assert people.enrolment_by_code(store, "another") is None


def test_a_phone_knows_when_it_was_heard_and_who_closed_it(store: Store, device: Device, nurse: Actor) -> None:
    people.device_heard(store, LATER, device.id)
    people.revoke_device(store, NOW, device.id, nurse.signature)
    people.revoke_device(store, LATER, device.id, "somebody else")
    found = people.device(store, device.id)
    assert found is not None
    assert (found.heard_at, found.revoked_at, found.revoked_by) == (LATER, NOW, nurse.signature)


def test_the_phones_of_a_patient_stand_in_the_order_they_came(store: Store, device: Device) -> None:
    second = people.add_device(store, LATER, device.patient_id, "hash", "carer", "Daughter")
    assert [d.id for d in people.devices_of(store, device.patient_id)] == [device.id, second]
    assert people.devices_of(store, "nobody") == []


@pytest.mark.parametrize(("minutes", "counted"), [(9, 3), (10, 2), (0, 0)])
def test_tries_are_counted_within_a_window(store: Store, minutes: int, counted: int) -> None:
    for at in (NOW - timedelta(minutes=10), NOW - timedelta(minutes=9), NOW - timedelta(minutes=8)):
        people.count_try(store, at, "account", "a")
    people.count_try(store, NOW, "account", "b")
    people.count_try(store, NOW, "address", "a")
    now, window = (NOW - timedelta(minutes=0), timedelta(minutes=11 if minutes == 9 else minutes))
    assert people.tries_within(store, now, "account", "a", window) == counted
    assert len(people.tries_at(store, now, "account", "a", window)) == counted


def test_tries_that_were_right_after_all_are_forgotten_one_by_one(store: Store) -> None:
    first = people.count_try(store, NOW, "account", "a")
    people.count_try(store, NOW, "account", "a")
    people.forget_tries(store, [first])
    assert people.tries_within(store, NOW, "account", "a", timedelta(minutes=1)) == 1


def test_tries_stand_by_time(store: Store) -> None:
    for at in (LATER, NOW):
        people.count_try(store, at, "account", "a")
    assert people.tries_at(store, LATER, "account", "a", timedelta(hours=1)) == [NOW, LATER]


def test_a_session_is_known_until_it_ends(store: Store, nurse: Actor) -> None:
    id = sessions.begin(store, NOW, nurse.id, "hash", "192.0.2.1")
    sessions.seen(store, LATER, id)
    found = sessions.by_token(store, "hash")
    assert found is not None
    assert (found.staff_id, found.begun_at, found.seen_at, found.address) == (nurse.id, NOW, LATER, "192.0.2.1")
    sessions.end(store, LATER, id, "signed out")
    sessions.end(store, LATER, id, "again")
    assert sessions.by_token(store, "hash") is None
    assert store.rows("SELECT end_reason FROM sessions")[0]["end_reason"] == "signed out"


def test_all_sessions_of_a_person_end_but_the_one_in_hand(store: Store, nurse: Actor, surgeon: Actor) -> None:
    mine, here, _ = (sessions.begin(store, NOW, nurse.id, hash, "") for hash in "abc")
    sessions.begin(store, NOW, surgeon.id, "d", "")
    sessions.end(store, NOW, mine, "signed out")
    assert sessions.end_all(store, LATER, nurse.id, "password changed", but=here) == 1
    assert [s.id for s in sessions.open_of(store, nurse.id)] == [here]
    assert len(sessions.open_of(store, surgeon.id)) == 1


def test_open_sessions_stand_by_their_last_use(store: Store, nurse: Actor) -> None:
    first, second = (sessions.begin(store, NOW, nurse.id, hash, "") for hash in "ab")
    assert {s.id for s in sessions.open_of(store, nurse.id)} == {first, second}
    sessions.seen(store, LATER, first)
    assert [s.id for s in sessions.open_of(store, nurse.id)] == [first, second]
