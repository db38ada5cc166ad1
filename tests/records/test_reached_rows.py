"""Rows of how people are reached and let in: choices, messages, passkeys, what is taken once, and whose fault is whose."""

from datetime import timedelta
from pathlib import Path

import pytest

from followup.care.actors import Actor
from followup.care.callbacks.kinds import CANCELLED
from followup.records import Store, eyes, messages, open_store, passkeys, people, tasks, watch, worries
from followup.records.store import Closed, StoreError
from followup.records.values import Device
from tests.conftest import NOW
from tests.records.rows import callback, entry, fellow, known, person, right, task

LATER = NOW + timedelta(hours=1)
SECOND = timedelta(seconds=1)
CHOSEN = {"email": "", "language": "en", "quiet_from": "", "quiet_to": ""}


# --- Messages ---


@pytest.mark.parametrize(
    ("unwanted", "wants"), [((), True), (("drops",), True), (("visit",), False), (("drops", "visit"), False)]
)
def test_somebody_wants_what_they_did_not_leave_out(store: Store, unwanted: tuple[str, ...], wants: bool) -> None:
    assert not messages.wants(store, "patient:1", "visit")
    messages.keep_choices(store, NOW, "patient:1", {**CHOSEN, "unwanted": unwanted})
    assert messages.wants(store, "patient:1", "visit") is wants
    assert not messages.wants(store, "patient:2", "visit")


def test_browsers_stand_in_the_order_they_came_and_a_known_one_keeps_its_place(store: Store) -> None:
    for n, endpoint in enumerate("cab"):
        messages.subscribe(store, NOW + n * SECOND, "patient:1", endpoint, "p", "a")
    messages.subscribe(store, LATER, "patient:1", "c", "new", "a")
    assert [(s.endpoint, s.p256dh) for s in messages.subscriptions(store, "patient:1")] == [
        ("c", "new"),
        ("a", "p"),
        ("b", "p"),
    ]


def lined_up(store: Store, key: str, person: str = "staff:1", kind: str = "now", minutes: int = 0) -> None:
    at = NOW + timedelta(minutes=minutes)
    messages.add(store, at, key, person, kind, "c", at + timedelta(days=1))


def test_what_waits_goes_by_person_and_kind_and_age(store: Store) -> None:
    lined_up(store, "d", "staff:2")
    lined_up(store, "c", kind="visit")
    lined_up(store, "b", minutes=1)
    lined_up(store, "a")
    assert [m.key for m in messages.waiting(store, LATER)] == ["a", "b", "c", "d"]


@pytest.mark.parametrize(("seconds", "keys"), [(-1, []), (0, ["a"]), (1, ["a"])])
def test_a_message_may_be_tried_from_its_time_on(store: Store, seconds: int, keys: list[str]) -> None:
    lined_up(store, "a")
    assert [m.key for m in messages.waiting(store, NOW + timedelta(seconds=seconds))] == keys


@pytest.mark.parametrize(("before", "given_back"), [(NOW, 0), (NOW + SECOND, 1)])
def test_what_was_taken_before_a_time_waits_again(store: Store, before: object, given_back: int) -> None:
    lined_up(store, "a")
    messages.take(store, NOW, "a")
    assert messages.give_back_stuck(store, before) == given_back
    assert len(messages.waiting(store, LATER)) == given_back


def test_what_ended_is_not_given_back_and_keeps_how_it_ended(store: Store) -> None:
    lined_up(store, "a")
    messages.take(store, NOW, "a")
    messages.end(store, NOW, "a", "sent", "e-mail")
    assert messages.give_back_stuck(store, LATER) == 0
    (sent,) = messages.of_person(store, "staff:1")
    assert (sent.state, sent.ended_at, sent.detail) == ("sent", NOW, "e-mail")


def test_of_the_troubled_only_what_was_tried_and_waits_is_told_the_newest_first(store: Store) -> None:
    for n, key in enumerate("abc"):
        lined_up(store, key, minutes=n)
    for key in "ab":
        messages.try_later(store, key, LATER, "away")
    assert [m.key for m in messages.troubled(store)] == ["b", "a"]
    messages.end(store, NOW, "b", "dropped", "")
    assert [m.key for m in messages.troubled(store)] == ["a"]


def test_which_were_made_already_is_asked_beyond_what_fits_at_once(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(messages, "AT_A_TIME", 2)
    for key in "abd":
        lined_up(store, key)
    assert messages.made_already(store, list("abcde")) == {"a", "b", "d"}
    assert messages.made_already(store, []) == set()


# --- Staff ---


def test_the_directory_knows_only_who_is_here(store: Store, nurse: Actor) -> None:
    people.set_subject(store, nurse.id, "person-7")
    assert known(people.staff_by_subject(store, "person-7")).id == nurse.id
    people.end_staff(store, NOW, nurse.id)
    assert people.staff_by_subject(store, "person-7") is None


def test_an_address_is_freed_only_by_who_left(store: Store, nurse: Actor) -> None:
    people.free_email(store, "nurse@test.invalid")
    assert known(people.staff_by_email(store, "nurse@test.invalid")).id == nurse.id
    people.end_staff(store, NOW, nurse.id)
    people.free_email(store, " NURSE@test.invalid")
    again = people.add_staff(store, NOW, "Nora Again", "nurse", "nurse@test.invalid", "hash")
    assert known(people.staff_by_email(store, "nurse@test.invalid")).id == again
    assert known(people.staff_by_id(store, nurse.id)).email.startswith("nurse@test.invalid until 2027-03-05T")


def test_staff_stand_by_role_and_name(store: Store, nurse: Actor, surgeon: Actor) -> None:
    for name in ("Zoe Nurse", "Abe Nurse"):
        people.add_staff(store, NOW, name, "nurse", name, "hash")
    assert [s.name for s in people.all_staff(store)] == ["Abe Nurse", "Nora Nurse", "Zoe Nurse", "Sol Surgeon"]


@pytest.mark.parametrize(("window", "counted"), [(timedelta(hours=1), 1), (timedelta(hours=1, seconds=1), 2)])
def test_a_try_counts_until_its_window_is_over(store: Store, window: timedelta, counted: int) -> None:
    for at in (NOW, NOW + SECOND):
        people.count_try(store, at, "password", "key")
    people.count_try(store, NOW + SECOND, "password", "another")
    people.count_try(store, NOW + SECOND, "code", "key")
    assert people.tries_within(store, LATER, "password", "key", window) == counted
    assert len(people.tries_at(store, LATER, "password", "key", window)) == counted


# --- Passkeys ---


def test_passkeys_stand_in_the_order_they_were_made_until_they_are_removed(store: Store, nurse: Actor) -> None:
    made = [passkeys.add(store, NOW + n * SECOND, nurse.id, f"id-{n}", "key", 0, f"tablet {n}") for n in (2, 0, 1)]
    assert [p.name for p in passkeys.of_staff(store, nurse.id)] == ["tablet 0", "tablet 1", "tablet 2"]
    assert [passkeys.remove(store, LATER, made[0], nurse.id) for _ in range(2)] == [True, False]
    assert known(passkeys.by_credential(store, "id-2")).removed_at == LATER
    assert not passkeys.rename(store, made[0], nurse.id, "again")
    assert passkeys.remove_all(store, LATER, nurse.id) == 2


# The count of a device goes up with each use, or stays 0: Web Authentication Level 3, section 6.1.1.
@pytest.mark.parametrize(("kept", "told", "taken"), [(0, 0, True), (0, 1, True), (5, 6, True), (5, 5, False), (5, 0, False)])
def test_the_count_of_a_passkey_goes_up_or_counts_nothing(
    store: Store, nurse: Actor, kept: int, told: int, taken: bool
) -> None:
    id = passkeys.add(store, NOW, nurse.id, "id", "key", kept, "tablet")
    assert passkeys.use(store, LATER, id, told) is taken
    found = known(passkeys.by_credential(store, "id"))
    assert (found.sign_count, found.used_at) == ((told, LATER) if taken else (kept, None))


@pytest.mark.parametrize(
    ("after", "taken"), [(timedelta(0), False), (timedelta(hours=1), False), (timedelta(hours=1, seconds=1), True)]
)
def test_what_is_taken_once_is_remembered_for_an_hour(store: Store, after: timedelta, taken: bool) -> None:
    assert passkeys.use_once(store, NOW, "a challenge")
    assert passkeys.use_once(store, NOW, "another")
    assert passkeys.use_once(store, NOW + after, "a challenge") is taken


# --- Faults ---


def test_whose_a_fault_of_each_kind_of_row_is(store: Store, eye_id: str) -> None:
    note, call = eyes.notes_of(store, eye_id)[0].id, callback(store, eye_id).id
    of = {"eyes": eye_id, "operation_records": note, "events": entry(store, eye_id), "callbacks": call}
    assert {kind: watch.patient_of(store, kind, id) for kind, id in of.items()} == dict.fromkeys(
        of, (eye_id, "Pat Patient", "T-1")
    )
    assert watch.patient_of(store, "warnings", "none") is None


def test_a_fault_says_no_more_than_fits_a_line_and_begins_anew_once_it_was_gone(store: Store) -> None:
    for at in (NOW, LATER):
        watch.note(store, at, "eye", "1", "x" * 301)
    watch.clear(store, "eye", "1")
    watch.note(store, LATER, "eye", "1", "y")
    (fault,) = watch.faults(store)
    assert (fault.words, fault.first_at, fault.times) == ("y", LATER, 1)


# --- Callbacks ---


def test_when_to_try_again_is_taken_back_by_the_next_due_time(store: Store, eye_id: str) -> None:
    call = callback(store, eye_id)
    worries.put_due(store, call.id, LATER, LATER)
    assert known(worries.callback(store, call.id)).next_try_at == LATER
    worries.put_due(store, call.id, NOW)
    assert (known(worries.callback(store, call.id)).due_at, known(worries.callback(store, call.id)).next_try_at) == (
        NOW,
        None,
    )


@pytest.mark.parametrize(
    ("step", "counted"),
    [
        ("given back", 2),
        ("will not be done", 2),
        ("taken back", 2),
        (CANCELLED, 2),
        ("claimed", 0),
        ("raised again", 0),
    ],
)
def test_how_often_a_callback_was_put_back_on_the_list(store: Store, eye_id: str, step: str, counted: int) -> None:
    call, other = callback(store, eye_id), callback(store, eye_id, "pain")
    for of in (call, call, other):
        worries.add_step(store, NOW, of.id, "nurse:n", step)
    assert (worries.times_put_back(store, call.id), worries.times_put_back(store, "none")) == (counted, 0)


def test_a_callback_is_free_while_one_of_its_tasks_is_nobodys(store: Store, nurse: Actor, eye_id: str) -> None:
    call = callback(store, eye_id)
    first, second = task(store, call, nurse), task(store, call, nurse, nurse)
    assert known(worries.callback(store, call.id)).free
    tasks.give(store, first.id, nurse.id, None)
    assert not known(worries.callback(store, call.id)).free
    for one in (first, second):
        tasks.end(store, NOW, one.id, nurse.id, "")
    assert (known(worries.callback(store, call.id)).state, known(worries.callback(store, call.id)).free) == ("waiting", True)


def test_a_worry_of_one_eye_is_not_open_for_the_other(store: Store, eye_id: str) -> None:
    callback(store, eye_id)
    assert worries.open_callback_of(store, fellow(store, eye_id), "pressure") is None
    assert worries.open_callback_of(store, right(store, person(store)).id, "pressure") is None


def test_the_marks_of_an_entry_are_those_that_took_grounds_away(store: Store, eye_id: str, nurse: Actor) -> None:
    call, event = callback(store, eye_id), entry(store, eye_id)
    row = {"rule": "r", "worry": "pressure", "how_soon": "now", "severity": 1.0, "values_json": "{}", "threshold": "{}"}
    told = {"source": "s", "words": "w", "rulebook": "b", "recorded_at": "2027-03-05T10:00:00.000000Z"}
    for id in "ab":
        at = {"raised_at": f"2027-03-05T1{'ab'.index(id)}:00:00.000000Z"}
        store.insert("warnings", {"id": id, "eye_id": eye_id, "callback_id": call.id, **row, **told, **at})
    worries.mark(store, NOW, "a", unfounded=True, event_id=event)
    worries.mark(store, NOW, "b", unfounded=False, event_id=event)
    assert (worries.marked_by(store, event), worries.marked_by(store, "none")) == ({"a"}, set())


# --- Opening ---


def test_a_store_that_is_closed_opens_again_at_its_next_use(store: Store, device: Device) -> None:
    store.close()
    store.close()
    assert known(people.device(store, device.id)).id == device.id


def test_what_a_closed_clinic_says_names_its_file_and_the_way_back() -> None:
    said = str(Closed(Path("/srv/clinic.db")))
    assert said == "/srv/clinic.db was closed for its move to another server; to take it back: followup close --undo"


def test_a_folder_for_a_new_database_is_made_and_none_for_a_missing_one(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="there is no database at"):
        open_store(tmp_path / "a" / "clinic.db")
    assert not (tmp_path / "a").exists()
    open_store(tmp_path / "b" / "clinic.db", create=True).close()
    assert (tmp_path / "b" / "clinic.db").stat().st_mode & 0o777 == 0o600
