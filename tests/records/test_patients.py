"""Patients and eyes as rows: particulars, how they are found, records that were joined, and follow-up."""

from datetime import date, timedelta

import pytest

from followup.care.actors import Actor
from followup.records import Store, eyes, patients
from followup.records.values import Eye, Patient
from tests.conftest import NOW, OPERATED, ZONE, operation_note

BORN = date(1950, 1, 2)
LATER = NOW + timedelta(days=1)


def person(store: Store, number: str, name: str = "Ada Ash", born: date = BORN) -> Patient:
    found = patients.patient(store, patients.add(store, NOW, number, name, born, "+00 1", "de"))
    assert found is not None
    return found


def sides(store: Store, patient: Patient) -> tuple[Eye, Eye]:
    right, left = eyes.of_patient(store, patient.id)
    return right, left


def operated(store: Store, eye: Eye, days: int = 0, surgeon: str = "Sol Surgeon", **changes: object) -> str:
    """Put an operation on record, `days` after the usual one; returns its id."""
    at = OPERATED + timedelta(days=days)
    id = eyes.add_operation(store, NOW, eye.id)
    eyes.add_note(store, NOW, id, operation_note(operated_at=at, surgeon=surgeon, **changes), ZONE, "nurse:n")
    return id


def test_a_new_patient_has_two_eyes_that_are_not_followed(store: Store) -> None:
    right, left = sides(store, person(store, "N-1"))
    assert (right.side, left.side) == ("right", "left")
    assert not right.is_followed
    assert right.note is None
    assert right.agent == "none"


def test_particulars_are_replaced_and_found_by_the_new_number(store: Store) -> None:
    known = person(store, "N-1")
    patients.correct(store, known.id, "N-2", "Ada Oak", date(1951, 1, 2), "+00 2", "en")
    found = patients.by_number(store, "N-2")
    assert found is not None
    assert (found.id, found.name, found.born_on, found.phone, found.language) == (
        known.id, "Ada Oak", date(1951, 1, 2), "+00 2", "en",
    )  # fmt: skip
    assert patients.by_number(store, "N-1") is None


@pytest.mark.parametrize(
    ("ways", "since"),
    [
        (["own-phone"], None),
        (["no-app"], 0),
        (["no-app", "no-app"], 0),
        (["no-app", "own-phone"], 1),
        (["own-phone", "carer-phone"], None),
        (["carer-phone", "no-app"], 1),
    ],
)
def test_since_when_there_is_no_app_moves_only_where_it_is_given_up_or_taken_up(
    store: Store, ways: list[str], since: int | None
) -> None:
    known = person(store, "N-1")
    for n, way in enumerate(ways):
        patients.put_reach(store, NOW + timedelta(days=n), known.id, way, "+00 3")
    found = patients.patient(store, known.id)
    assert found is not None
    assert found.reached_since == (None if since is None else NOW + timedelta(days=since))
    assert (found.reached_by, found.has_app) == (ways[-1], ways[-1] != "no-app")


def test_patients_are_found_by_the_beginnings_of_all_words(store: Store) -> None:
    ash, asher = person(store, "N-1", "Ada Ash"), person(store, "N-2", "Bea Asher")
    for known, terms in ((ash, ["ada", "ash"]), (asher, ["bea", "asher"])):
        patients.index(store, known.id, terms)
    assert [p.id for p in patients.found(store, ["ash"], [], 9)] == [ash.id, asher.id]
    assert [p.id for p in patients.found(store, ["ash", "be"], [], 9)] == [asher.id]
    assert patients.found(store, ["sh"], [], 9) == []
    assert [p.id for p in patients.found(store, ["ash"], [], 1)] == [ash.id]


def test_patients_are_found_by_a_day_of_birth_or_by_words_and_day(store: Store) -> None:
    old, young = person(store, "N-1", "Ada Ash"), person(store, "N-2", "Ada Ash", date(1960, 1, 2))
    for known in (old, young):
        patients.index(store, known.id, ["ada", "ash"])
    assert [p.id for p in patients.found(store, [], [BORN], 9)] == [old.id]
    assert [p.id for p in patients.found(store, ["ada"], [date(1960, 1, 2)], 9, both=True)] == [young.id]
    assert patients.found(store, ["ada"], [], 9, both=True) == []
    assert patients.found(store, [], [], 9) == []


def test_who_is_followed_is_found_first(store: Store) -> None:
    first, second = person(store, "N-1", "Ada Ash"), person(store, "N-2", "Zoe Ash")
    for known in (first, second):
        patients.index(store, known.id, ["ash"])
    eyes.begin(store, NOW, sides(store, second)[0].id)
    assert [p.id for p in patients.found(store, ["ash"], [], 9)] == [second.id, first.id]


def test_new_terms_take_the_place_of_the_old(store: Store) -> None:
    known = person(store, "N-1")
    assert [p.id for p in patients.without_terms(store)] == [known.id]
    patients.index(store, known.id, ["ash"])
    patients.index(store, known.id, ["oak"])
    assert patients.without_terms(store) == patients.found(store, ["ash"], [], 9) == []


def test_a_joined_record_is_found_as_the_one_it_was_joined_into(store: Store) -> None:
    old, kept = person(store, "N-1"), person(store, "N-2")
    patients.index(store, old.id, ["ash"])
    patients.join(store, old.id, kept.id)
    by_number = patients.by_number(store, "N-1")
    assert by_number is not None
    assert by_number.id == kept.id
    assert [p.id for p in patients.found(store, ["ash"], [], 9)] == [kept.id]
    assert [p.id for p in patients.joined_to(store, kept.id)] == [old.id]


def test_what_was_joined_before_goes_along(store: Store) -> None:
    first, second, third = (person(store, f"N-{n}") for n in range(3))
    patients.join(store, first.id, second.id)
    patients.join(store, second.id, third.id)
    assert {p.id for p in patients.joined_to(store, third.id)} == {first.id, second.id}
    eye = eyes.eye(store, sides(store, first)[0].id)
    assert eye is not None
    assert (eye.patient.id, eye.side) == (third.id, "right")


@pytest.mark.parametrize(("ended", "followed"), [((), True), (("old",), True), (("old", "kept"), False)])
def test_joined_eyes_are_followed_while_one_of_them_was(store: Store, ended: tuple[str, ...], followed: bool) -> None:
    records = {"old": person(store, "N-1"), "kept": person(store, "N-2")}
    for name, days in (("old", 0), ("kept", 2)):
        eyes.begin(store, NOW + timedelta(days=days), sides(store, records[name])[0].id)
    for name in ended:
        eyes.end(store, LATER, sides(store, records[name])[0].id, f"{name} healed")
    patients.join(store, records["old"].id, records["kept"].id)
    right, _ = sides(store, records["kept"])
    assert (right.is_followed, right.followed_since) == (followed, NOW)


def test_what_the_kept_record_does_not_say_is_taken_from_the_other(store: Store) -> None:
    old, kept = person(store, "N-1"), person(store, "N-2")
    patients.put_reach(store, NOW, old.id, "no-app", "+00 7")
    patients.join(store, old.id, kept.id)
    found = patients.patient(store, kept.id)
    assert found is not None
    assert (found.reached_by, found.reached_since, found.carer_phone) == ("no-app", NOW, "+00 7")


def test_finished_is_who_has_no_followed_eye_and_ended_before(store: Store) -> None:
    done, still, never = (person(store, f"N-{n}") for n in range(3))
    right, left = sides(store, still)
    for eye in (right, left, sides(store, done)[0]):
        eyes.begin(store, NOW, eye.id)
    for eye in (right, sides(store, done)[0]):
        eyes.end(store, LATER, eye.id, "healed")
    found = patients.finished_before(store, LATER + timedelta(seconds=1))
    assert [(p.id, at) for p, at in found] == [(done.id, LATER)]
    assert patients.finished_before(store, LATER) == []
    assert never.id not in {p.id for p, _ in found}


def test_an_eye_is_found_by_its_operation_and_by_an_eye_joined_into_it(store: Store) -> None:
    old, kept = person(store, "N-1"), person(store, "N-2")
    operation = operated(store, sides(store, old)[0])
    patients.join(store, old.id, kept.id)
    for id in (operation, sides(store, old)[0].id):
        found = eyes.eye(store, id)
        assert found is not None
        assert found.id == sides(store, kept)[0].id
    assert eyes.eye_of_operation(store, operation) == sides(store, kept)[0].id
    assert eyes.eye(store, "none") is eyes.eye_of_operation(store, "none") is None


def test_an_eye_shows_its_latest_operation_whenever_that_was_entered(store: Store) -> None:
    right, _ = sides(store, person(store, "N-1"))
    operated(store, right, days=2, agent="sf6", percent=20)
    operated(store, right, days=-9)
    found = eyes.eye(store, right.id)
    assert found is not None
    assert found.agent == "sf6"
    assert [n.operated_at for n in eyes.notes_of(store, right.id)] == [
        OPERATED - timedelta(days=9), OPERATED + timedelta(days=2),
    ]  # fmt: skip


def test_of_a_note_the_last_record_counts_and_all_are_kept(store: Store) -> None:
    right, _ = sides(store, person(store, "N-1"))
    id = operated(store, right)
    eyes.add_note(store, LATER, id, operation_note(surgeon="Sue Surgeon"), ZONE, "nurse:m", "the wrong surgeon")
    assert [n.surgeon for n in eyes.notes_of(store, right.id)] == eyes.surgeons(store) == ["Sue Surgeon"]
    assert [(n.surgeon, n.reason) for n in eyes.history_of(store, id)] == [
        ("Sol Surgeon", ""),
        ("Sue Surgeon", "the wrong surgeon"),
    ]
    assert [n.surgeon for n in eyes.latest_notes(store, 1)] == ["Sue Surgeon"]


def test_an_operation_on_the_wrong_eye_is_moved(store: Store) -> None:
    right, left = sides(store, person(store, "N-1"))
    id = operated(store, right)
    eyes.move_operation(store, id, left.id)
    assert eyes.notes_of(store, right.id) == []
    assert len(eyes.notes_of(store, left.id)) == 1
    assert eyes.has_operation(store, id)


def test_follow_up_begins_once_ends_and_is_taken_up_again(store: Store) -> None:
    known = person(store, "N-1")
    right, _ = sides(store, known)
    operated(store, right)
    eyes.begin(store, NOW, right.id)
    eyes.begin(store, LATER, right.id)
    assert [e.followed_since for e in eyes.followed(store)] == [NOW]
    assert [e.id for e in eyes.followed_of(store, known.id)] == [right.id]
    eyes.end(store, LATER, right.id, "healed")
    assert eyes.followed(store) == eyes.followed_of(store, known.id) == []
    assert [e.end_reason for e in eyes.operated(store)] == ["healed"]
    eyes.begin(store, LATER, right.id)
    assert [(e.followed_since, e.end_reason) for e in eyes.followed(store)] == [(NOW, None)]


def test_an_eye_that_was_taken_for_operated_was_never_followed(store: Store) -> None:
    right, _ = sides(store, person(store, "N-1"))
    eyes.begin(store, NOW, right.id)
    eyes.never_followed(store, right.id)
    found = eyes.eye(store, right.id)
    assert found is not None
    assert (found.followed_since, found.is_followed) == (None, False)


def test_what_became_of_follow_up_stands_by_time(store: Store) -> None:
    right, left = sides(store, person(store, "N-1"))
    eyes.add_follow_up(store, LATER, right.id, "ended", "healed", "all well", "nurse:n")
    eyes.add_follow_up(store, NOW, right.id, "begun", "", "", "nurse:n")
    eyes.add_follow_up(store, NOW, left.id, "begun", "", "", "nurse:n")
    assert [(f.what, f.words) for f in eyes.follow_ups_of(store, right.id)] == [("begun", ""), ("ended", "all well")]


def test_the_last_look_at_an_eye(store: Store, nurse: Actor) -> None:
    right, left = sides(store, person(store, "N-1"))
    for at in (LATER, NOW):
        eyes.add_look(store, at, right.id, nurse.signature)
    assert (eyes.last_look(store, right.id), eyes.last_look(store, left.id)) == (LATER, None)


def test_many_eyes_are_read_in_turn(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(eyes, "AT_A_TIME", 2)
    known = [eye.id for n in range(3) for eye in sides(store, person(store, f"N-{n}"))]
    assert sorted(eye.id for eye in eyes.in_turn(store, known)) == sorted(known)
    assert eyes.by_ids(store, []) == {}
