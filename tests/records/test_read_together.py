"""What is read of records that were joined, in which order rows stand that time alone does not tell apart, and what is left out.

A joined record keeps its rows: queries give what stands there under the record and the eye that it was joined into.
"""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from followup.records import Store, events, eyes, patients, people, visits, worries
from followup.records.values import Device, Event, Patient
from tests.conftest import NOW, OPERATED
from tests.records.rows import callback, entry, fellow, known, left, operated, person, right, visit

DAY = date(2027, 4, 1)
SEEN = {"visit": "week 1", "visit_id": "v"}
MEASURES = {"eye": "right", "iop_mmhg": 15}
WISH = {"visit": "week 1", "words": "later"}


def ids(found: list[Event]) -> list[str]:
    return [e.id for e in found]


# --- Joined records ---


@pytest.fixture
def twin(store: Store) -> Patient:
    """A second record of one person, whose right eye was operated; not joined yet."""
    patient = person(store, "N-2")
    operated(store, right(store, patient).id)
    return patient


@pytest.fixture
def into(store: Store, twin: Patient) -> str:
    """The right eye of the record that `twin` is about to be joined into."""
    patient = person(store, "N-3")
    operated(store, right(store, patient).id, OPERATED + timedelta(hours=1))
    return right(store, patient).id


def join(store: Store, twin: Patient, into: str) -> None:
    patients.join(store, twin.id, known(eyes.eye(store, into)).patient.id)


READ: dict[str, tuple[str, dict[str, Any], Callable[[Store, str], list[Event]]]] = {
    "what stands": ("symptoms", {}, events.of_eye),
    "everything": ("symptoms", {}, events.history_of),
    "attendance": ("seen", SEEN, events.of_attendance),
    "wishes": ("visit-request", WISH, events.visit_requests_of),
}


@pytest.mark.parametrize(("kind", "body", "read"), READ.values(), ids=READ.keys())
def test_entries_of_a_joined_eye_are_read_with_those_of_the_eye_that_stands(
    store: Store, twin: Patient, into: str, kind: str, body: dict[str, Any], read: Callable[[Store, str], list[Event]]
) -> None:
    old = right(store, twin).id
    theirs, ours = entry(store, old, kind, body=body), entry(store, into, kind, NOW + timedelta(minutes=1), body)
    assert ids(read(store, into)) == [ours]
    join(store, twin, into)
    assert sorted(ids(read(store, into))) == sorted([theirs, ours])
    assert ids(read(store, old)) == [theirs]


def test_lists_over_all_eyes_name_the_eye_that_stands(store: Store, twin: Patient, into: str) -> None:
    entry(store, right(store, twin).id, "seen", body=SEEN)
    join(store, twin, into)
    for found in (events.of_kind(store, "seen"), events.of_clinic_since(store, NOW), events.latest(store, "seen", 1)):
        assert [e.eye_id for e in found] == [into]


def test_the_last_measures_are_the_latest_of_both_records(store: Store, twin: Patient, into: str) -> None:
    theirs = entry(store, right(store, twin).id, "measures", NOW + timedelta(minutes=1), MEASURES)
    entry(store, into, "measures", NOW, MEASURES)
    join(store, twin, into)
    assert {eye: e.id for eye, e in events.last_measures(store, [into]).items()} == {into: theirs}
    assert events.last_measures_of(store, into) == theirs
    assert [e.eye_id for e in events.by_ids(store, [theirs]).values()] == [into]


def test_who_was_here_or_heard_from_is_named_by_the_record_that_stands(store: Store, twin: Patient, into: str) -> None:
    old, stands = right(store, twin).id, known(eyes.eye(store, into)).patient.id
    entry(store, old, "measures", body=MEASURES)
    entry(store, old, device_id=people.add_device(store, NOW, stands, "hash", "patient"))
    join(store, twin, into)
    assert events.patients_here_since(store, NOW) == [stands]
    assert events.patients_heard_since(store, datetime(2020, 1, 1, tzinfo=UTC), 9) == [stands]


def test_visits_of_a_joined_eye_stand_in_the_book_of_the_one_that_stands(store: Store, twin: Patient, into: str) -> None:
    first = visit(store, right(store, twin).id, DAY)
    join(store, twin, into)
    assert [(v.id, v.eye_id) for v in visits.of_eye(store, into)] == [(first.id, into)]
    assert known(visits.standing(store, first.identity)).eye_id == into


def test_callbacks_and_warnings_of_a_joined_eye_are_the_standing_eyes(store: Store, twin: Patient, into: str) -> None:
    theirs = callback(store, right(store, twin).id)
    join(store, twin, into)
    assert known(worries.callback(store, theirs.id)).eye_id == into
    assert [c.id for c in worries.callbacks_of(store, into)] == [theirs.id]
    assert known(worries.open_callback_of(store, into, "pressure")).id == theirs.id


def test_looks_and_follow_up_of_both_records_are_read(store: Store, twin: Patient, into: str) -> None:
    old = right(store, twin).id
    eyes.add_look(store, NOW, old, "nurse:n")
    eyes.add_follow_up(store, NOW, old, "ended", "moved", "", "nurse:n")
    join(store, twin, into)
    assert eyes.last_look(store, into) == NOW
    assert [f.reason for f in eyes.follow_ups_of(store, into)] == ["moved"]


def test_a_joined_eye_is_neither_operated_nor_followed_beside_the_one_that_stands(
    store: Store, twin: Patient, into: str
) -> None:
    assert {e.id for e in eyes.operated(store)} == {e.id for e in eyes.followed(store)} == {into, right(store, twin).id}
    join(store, twin, into)
    assert [e.id for e in eyes.operated(store)] == [e.id for e in eyes.followed(store)] == [into]
    assert len(eyes.notes_of(store, into)) == 2


def test_ending_and_beginning_follow_up_goes_to_every_record_of_the_eye(store: Store, twin: Patient, into: str) -> None:
    join(store, twin, into)
    eyes.end(store, NOW, into, "healed")
    assert store.rows("SELECT DISTINCT end_reason AS why FROM eyes WHERE followed_since IS NOT NULL") == [{"why": "healed"}]
    eyes.begin(store, NOW, into)
    assert store.rows("SELECT DISTINCT ended_at AS at FROM eyes") == [{"at": None}]
    eyes.never_followed(store, into)
    assert store.rows("SELECT DISTINCT followed_since AS since FROM eyes") == [{"since": None}]


def test_what_is_about_the_person_is_read_from_the_other_eye_of_each_record(store: Store, twin: Patient, into: str) -> None:
    theirs = entry(store, left(store, twin).id, "journey")
    patient = known(eyes.eye(store, into)).patient.id
    assert events.beside(store, into, patient, ("journey",)) == []
    join(store, twin, into)
    assert ids(events.beside(store, into, patient, ("journey",))) == [theirs]


# --- Order ---


@pytest.mark.parametrize(
    ("kind", "body", "read"),
    [
        ("symptoms", {}, lambda store, eye: events.of_eye(store, eye)),
        ("symptoms", {}, lambda store, eye: events.history_of(store, eye)),
        ("seen", SEEN, lambda store, eye: events.of_attendance(store, eye)),
        ("seen", SEEN, lambda store, eye: events.of_kind(store, "seen")),
        ("seen", SEEN, lambda store, eye: events.of_clinic_since(store, NOW)),
        ("visit-request", WISH, lambda store, eye: events.visit_requests_of(store, eye)[::-1]),
        ("seen", SEEN, lambda store, eye: events.latest(store, "seen", 9)[::-1]),
    ],
)
def test_entries_of_one_instant_stand_in_the_order_of_their_ids(
    store: Store, eye_id: str, kind: str, body: dict[str, Any], read: Callable[[Store, str], list[Event]]
) -> None:
    for id in "bca":
        entry(store, eye_id, kind, body=body, id=id)
    assert ids(read(store, eye_id)) == ["a", "b", "c"]


def test_entries_of_one_kind_stand_by_time_whatever_their_ids(store: Store, eye_id: str) -> None:
    for id, minutes in (("a", 2), ("b", 1), ("c", 3)):
        entry(store, eye_id, "seen", NOW + timedelta(minutes=minutes), SEEN, id=id)
    assert ids(events.of_kind(store, "seen")) == ids(events.of_clinic_since(store, NOW)) == ["b", "a", "c"]
    assert ids(events.of_attendance(store, eye_id)) == ["b", "a", "c"]


def test_of_two_corrections_the_one_that_came_first_counts(store: Store, eye_id: str) -> None:
    first = entry(store, eye_id)
    for id, minutes in (("a", 2), ("b", 1)):
        entry(store, eye_id, corrects=first, id=id, received_at=NOW + timedelta(minutes=minutes))
    assert known(events.correction_of(store, first)).id == "b"


def test_visits_of_one_day_stand_by_name_and_then_by_when_they_came_into_the_book(
    store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(visits, "new_id", iter("cab").__next__)
    for name in ("week 9", "day 9", "day 9"):
        visit(store, eye_id, DAY, name)
    found = [v for v in visits.of_eye(store, eye_id) if v.target == DAY]
    assert [v.id for v in found] == ["a", "b", "c"]
    assert [v for v in visits.of_followed(store) if v.target == DAY] == found


def test_closed_days_stand_in_order(store: Store) -> None:
    for days in (2, 0, 1):
        visits.close(store, NOW, DAY + timedelta(days=days), "training", "nurse:n")
    assert [c.day.day for c in visits.closures(store, DAY, DAY + timedelta(days=9))] == [1, 2, 3]


def test_eyes_stand_by_when_they_were_operated(store: Store) -> None:
    for number, days in (("N-1", 1), ("N-2", 2), ("N-3", 0)):
        operated(store, right(store, person(store, number)).id, OPERATED + timedelta(days=days))
    assert [e.patient.number for e in eyes.followed(store)] == ["N-2", "N-1", "N-3"]
    assert [e.patient.number for e in eyes.operated(store)] == ["N-3", "N-1", "N-2"]


def test_surgeons_stand_once_and_by_name(store: Store) -> None:
    for number, name in (("N-1", "Sue Surgeon"), ("N-2", "Ann Surgeon"), ("N-3", "Sue Surgeon")):
        operated(store, right(store, person(store, number)).id, surgeon=name)
    assert eyes.surgeons(store) == ["Ann Surgeon", "Sue Surgeon"]


def test_callbacks_of_one_instant_stand_in_the_order_of_their_ids(
    store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(worries, "new_id", iter("bca").__next__)
    patient = known(eyes.eye(store, eye_id)).patient.id
    for worry in ("pressure", "pain", "sight"):
        callback(store, eye_id, worry)
    found = worries.open_callbacks(store)
    assert [c.id for c in found] == ["a", "b", "c"]
    assert worries.open_of_person(store, patient) == worries.open_of_people(store, [patient, "none"]) == found
    assert worries.to_tell_of(store, ["a", "b", "c"], NOW, NOW) == []


def test_what_moved_up_for_now_is_told_as_moved_up(store: Store, eye_id: str) -> None:
    call = callback(store, eye_id, how_soon="now")
    worries.escalate(store, call.id, 0, NOW + timedelta(hours=1))
    assert [c.id for c in worries.to_tell_of(store, [call.id, "none"], NOW, NOW)] == [call.id]
    assert worries.to_tell_of(store, [call.id], NOW + timedelta(hours=1), NOW) == []
    assert worries.to_tell_of(store, [], NOW, NOW) == []


# --- Left out ---


def test_of_a_level_taken_back_only_what_a_phone_took_back_is_read(store: Store, eye_id: str, device: Device) -> None:
    taken, stands, by_staff, symptoms = (
        entry(store, eye_id, kind, NOW - timedelta(minutes=n), body)
        for n, (kind, body) in enumerate([("bubble-seen", {"percent": 40})] * 3 + [("symptoms", {})])
    )
    for id, phone in ((taken, device.id), (by_staff, None), (symptoms, device.id)):
        entry(store, eye_id, "withdrawal", corrects=id, device_id=phone)
    assert ids(events.levels_taken_back(store, eye_id)) == [taken]
    assert stands in ids(events.of_eye(store, eye_id))


def test_levels_taken_back_stand_by_time(store: Store, eye_id: str, device: Device) -> None:
    for id, minutes in (("a", 2), ("b", 1)):
        entry(store, eye_id, "bubble-seen", NOW + timedelta(minutes=minutes), {"percent": 40}, id=id)
        entry(store, eye_id, "withdrawal", corrects=id, device_id=device.id)
    assert ids(events.levels_taken_back(store, eye_id)) == ["b", "a"]


def test_what_could_not_be_taken_is_told_the_latest_first_and_a_hundred_at_most(store: Store, eye_id: str) -> None:
    for n in range(101):
        assert events.refuse(store, NOW + timedelta(minutes=n), f"{n:03}", eye_id, "phone", "{}", "odd")
    found = [one.id for one in events.refused(store)]
    assert (len(found), found[0], found[-1]) == (100, "100", "001")


def test_the_same_refused_twice_is_kept_once_and_another_text_beside_it(store: Store, eye_id: str) -> None:
    said = [events.refuse(store, NOW, "one", eye_id, "phone", text, "odd") for text in ("{}", "{}", "[]")]
    assert said == [True, False, True]


def test_times_and_days_that_cannot_be_are_named_with_whose_they_are(store: Store, eye_id: str) -> None:
    store.db.conn.executescript("DROP TRIGGER visits_bounds_visit; DROP TRIGGER events_bounds_event")
    gone, long_ago = visit(store, eye_id, date(9999, 12, 31)), entry(store, eye_id, id="e")
    store.db.conn.executescript("DROP TRIGGER events_keeps_update; UPDATE events SET at = '0026-03-05T11:00:00.000000Z'")
    found = {u.id: u for u in eyes.unreadable(store)}
    assert (found[gone.id].what, found[gone.id].says) == ("visit extra", "9999-12-31 (9999-12-31 to 9999-12-31)")
    assert (found[long_ago].kept_in, found[long_ago].what) == ("events", "entry symptoms")
    assert {(u.eye_id, u.patient_number) for u in found.values()} == {(eye_id, "T-1")}
    assert (events.of_eye(store, eye_id), gone in visits.of_eye(store, eye_id)) == ([], False)


def test_a_day_that_cannot_be_and_was_put_right_is_named_no_more(store: Store, eye_id: str) -> None:
    store.db.conn.executescript("DROP TRIGGER visits_bounds_visit")
    gone = visit(store, eye_id, date(9999, 12, 31))
    visit(store, eye_id, DAY, replaces=gone.id)
    assert eyes.unreadable(store) == []


@pytest.mark.parametrize(
    ("kind", "read"),
    [
        ("seen", lambda store: events.of_kind(store, "seen")),
        ("seen", lambda store: events.of_clinic_since(store, NOW)),
        ("seen", lambda store: events.latest(store, "seen", 9)),
    ],
)
def test_what_was_taken_back_is_on_no_list(
    store: Store, eye_id: str, kind: str, read: Callable[[Store], list[Event]]
) -> None:
    entry(store, eye_id, "withdrawal", corrects=entry(store, eye_id, kind, body=SEEN if kind == "seen" else WISH))
    assert read(store) == []


def test_the_fellow_eye_is_not_heard_from_by_what_is_said_of_the_other(store: Store, eye_id: str, device: Device) -> None:
    at = NOW + timedelta(minutes=1)
    entry(store, eye_id, device_id=device.id, received_at=at)
    assert (events.last_heard_of(store, eye_id), events.last_heard_of(store, fellow(store, eye_id))) == (at, None)


def test_visits_taken_out_of_the_book_stand_by_date_and_the_other_eyes_apart(store: Store, eye_id: str) -> None:
    for days in (2, 1):
        first = visit(store, eye_id, DAY + timedelta(days=days))
        visits.change(store, NOW, first, "nurse:n", "", withdrawn=True)
    found = visits.cancelled_of_eye(store, eye_id)
    assert [v.target.day for v in found] == [2, 3]
    assert visits.withdrawn_at(store, eye_id, NOW) == found
    assert visits.cancelled_of_eye(store, fellow(store, eye_id)) == []


def test_a_day_counts_from_its_first_to_its_last(store: Store, eye_id: str) -> None:
    for days in range(3):
        visit(store, eye_id, DAY + timedelta(days=days))
    assert visits.booked_counts(store, DAY, DAY + timedelta(days=1)) == {DAY: 1, DAY + timedelta(days=1): 1}
