"""A patient's rows written again for others: who they are, whose days, and that the chain vouches for each copy as for the first.

Common practice, no source.
"""

from collections.abc import Iterator
from datetime import date, timedelta
from random import Random

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.reading import state
from followup.care.visits import visit
from followup.records import (
    Store,
    audit,
    backup,
    copies,
    events,
    eyes,
    kept_waiting,
    open_store,
    patients,
    states,
    visits,
    worries,
)
from followup.records.bodies.clinic import MeasuresBody
from followup.records.copies import Copy, Original, Person
from followup.records.values import Device, Eye, Patient
from tests.conftest import NOW, OPERATED, ZONE
from tests.records.rows import entry, known

FOR = [Person(f"C-{n}", f"Copy {n}", date(1940 + n, 2, 3), f"+00 {n}", frozenset({"copy", str(n)})) for n in range(3)]


@pytest.fixture
def lived(store: Store, nurse: Actor, eye_id: str, device: Device) -> Store:
    """One patient with a visit that raised something, worked out."""
    entry(store, eye_id, body={"pain": 1, "words": "since 2027-03-04 it hurts"}, device_id=device.id)
    desk = Desk(store, NOW, nurse, ZONE)
    visit.record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=41, instrument="applanation")], visit="day 1")
    state.bring_up_to_date(store, NOW, ZONE)
    return store


def original(store: Store) -> Original:
    return Original(store, known(patients.by_number(store, "T-1")).id)


def written(store: Store, *made: Copy, seed: int = 1) -> list[int]:
    path = store.path
    store.close()
    return list(copies.write(path, made, Random(seed)))


@pytest.fixture
def copied(lived: Store) -> Iterator[Store]:
    """The same with three copies, the n-th of them n weeks earlier."""
    of = original(lived)
    written(lived, *(Copy(of, person, n) for n, person in enumerate(FOR)))
    again = open_store(lived.path)
    yield again
    again.close()


def copy(store: Store, n: int = 2) -> Patient:
    return known(patients.by_number(store, f"C-{n}"))


def eye_of(store: Store, patient: Patient) -> Eye:
    return eyes.of_patient(store, patient.id)[0]


def test_a_copy_is_another_person(copied: Store) -> None:
    found = copy(copied)
    assert (found.number, found.name, found.born_on, found.phone) == ("C-2", "Copy 2", date(1942, 2, 3), "+00 2")
    assert [p.id for p in patients.found(copied, ["copy", "2"], [], 9)] == [found.id]
    assert known(patients.by_number(copied, "T-1")).name == "Pat Patient"


def test_a_copy_lived_the_same_some_weeks_earlier(copied: Store) -> None:
    first = eye_of(copied, known(patients.by_number(copied, "T-1")))
    earlier = timedelta(weeks=2)
    found = eye_of(copied, copy(copied))
    assert known(found.note).operated_at == OPERATED - earlier
    assert [v.target for v in visits.of_eye(copied, found.id)] == [
        v.target - earlier for v in visits.of_eye(copied, first.id)
    ]
    assert [(e.kind, e.at) for e in events.of_eye(copied, found.id)] == [
        (e.kind, e.at - earlier) for e in events.of_eye(copied, first.id)
    ]


def test_days_in_words_move_too_and_the_rest_of_the_words_stays(copied: Store) -> None:
    (said,) = copied.rows(
        "SELECT body FROM events WHERE kind = 'symptoms' AND eye_id = :id", {"id": eye_of(copied, copy(copied)).id}
    )
    assert "since 2027-02-18 it hurts" in said["body"]


def test_the_birthday_of_a_copy_is_its_own_and_does_not_move(copied: Store) -> None:
    assert [copy(copied, n).born_on for n in range(3)] == [person.born_on for person in FOR]


def test_what_worries_about_the_first_worries_about_each_copy(copied: Store) -> None:
    first, found = (eye_of(copied, one).id for one in (known(patients.by_number(copied, "T-1")), copy(copied)))
    calls = {c.id: c.worry for c in worries.callbacks_of(copied, found)}
    assert list(calls.values()) == [c.worry for c in worries.callbacks_of(copied, first)] != []
    raised = worries.warnings_of(copied, found)
    assert [w.rule for w in raised] == [w.rule for w in worries.warnings_of(copied, first)]
    assert {calls[w.callback_id] == w.worry for w in raised} == {True}


def test_the_chain_vouches_for_every_row_of_every_copy(copied: Store) -> None:
    assert backup.faults(copied) == []
    subjects = [e["action"] for e in audit.of_subject(copied, eye_of(copied, copy(copied)).id)]
    first = eye_of(copied, known(patients.by_number(copied, "T-1")))
    assert subjects == [e["action"] for e in audit.of_subject(copied, first.id)]


def test_a_copys_state_stands_at_once_and_is_not_old(copied: Store) -> None:
    assert states.changed(copied, 99) == []
    assert state.differences(copied, ZONE) == []
    assert kept_waiting.differences(copied) == []
    assert list(states.of_eyes(copied, [eye_of(copied, copy(copied)).id])) == [eye_of(copied, copy(copied)).id]


def test_no_two_share_an_id_or_a_secret(copied: Store) -> None:
    for table, column in (("events", "id"), ("eyes", "id"), ("devices", "token_hash"), ("enrolments", "code_hash")):
        held = [row[column] for row in copied.rows(f"SELECT {column} FROM {table}")]
        assert len(held) == len(set(held)) > 3, table


def test_ids_of_copies_are_in_order_and_of_a_time_long_past(copied: Store) -> None:
    made = [copy(copied, n).id for n in range(3)]
    assert made == sorted(made)
    assert all(id < known(patients.by_number(copied, "T-1")).id for id in made)
    assert {(id[14], id[19] in "89ab") for id in made} == {("7", True)}  # RFC 9562, 5.7: version and variant


def test_the_same_seed_gives_the_same_ids_and_another_others() -> None:
    first, same, other = ([copies._Ids().take(2, Random(seed))] for seed in (7, 7, 8))
    assert (first == same, first == other) == (True, False)


def test_ids_go_on_where_the_ones_before_ended() -> None:
    ids, random = copies._Ids(), Random(1)
    made = [id for count in (3, 4095, 2) for id in ids.take(count, random)]
    assert made == sorted(made)
    assert len(set(made)) == 4100


def test_how_many_there_are_is_told_every_so_often(lived: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(copies, "AT_ONCE", 2)
    of = original(lived)
    assert written(lived, *(Copy(of, person) for person in FOR)) == [2, 3]


def test_no_copies_change_nothing(lived: Store) -> None:
    before = audit.head(lived)
    assert written(lived) == []
    assert audit.head(lived) == before


def test_a_number_that_is_taken_is_refused_and_nothing_is_copied(lived: Store) -> None:
    of = original(lived)
    with pytest.raises(Exception, match="UNIQUE"):
        written(lived, Copy(of, Person("T-1", "Twice", date(1950, 1, 2), "", frozenset())))


def test_who_has_rows_that_are_known_by_a_number_is_not_copied(lived: Store, eye_id: str) -> None:
    (warning, *_) = worries.warnings_of(lived, eye_id)
    worries.mark(lived, NOW, warning.id, unfounded=True, event_id=events.of_eye(lived, eye_id)[0].id)
    with pytest.raises(ValueError, match="warning_grounds holds rows of this patient, which cannot be copied"):
        original(lived)
