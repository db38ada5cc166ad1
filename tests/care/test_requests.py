"""A patient's wish for another time stands on the list until somebody answered it."""

from dataclasses import replace
from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.care.corrections import correcting
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.patients import following
from followup.care.reading.eye import looked_at
from followup.care.today import lists
from followup.care.visits import book, visit
from followup.config import Settings
from followup.records import Store, events, visits, worries
from followup.records.store import new_id
from followup.records.values import Visit
from tests.conftest import NOW, ZONE, operation_note, patient_details

HOUR = timedelta(hours=1)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    """An hour after the patient asked."""
    return Desk(store, NOW + HOUR, nurse, ZONE)


@pytest.fixture
def planned(store: Store, eye_id: str) -> Visit:
    return visits.of_eye(store, eye_id)[1]


def ask(store: Store, eye_id: str, name: str, **more: str) -> str:
    id = new_id()
    events.add(store, id, eye_id, "visit-request", NOW, {"visit": name, "words": "", **more}, "patient", NOW)
    return id


def open_ones(desk: Desk) -> list[str | None]:
    return [r.identity for r in lists.open_requests(desk.store, desk.now, desk.zone)]


def test_looking_at_the_eye_answers_no_wish(desk: Desk, eye_id: str, planned: Visit) -> None:
    ask(desk.store, eye_id, planned.name)
    looked_at(desk, eye_id)
    assert open_ones(desk) == [planned.identity]


def test_time_alone_answers_no_wish(desk: Desk, eye_id: str, planned: Visit) -> None:
    ask(desk.store, eye_id, planned.name)
    assert open_ones(replace(desk, now=NOW + timedelta(days=90))) == [planned.identity]


def test_a_wish_is_answered_by_another_day_and_stands_again_where_that_is_undone(
    desk: Desk, settings: Settings, eye_id: str, planned: Visit
) -> None:
    ask(desk.store, eye_id, planned.name)
    day = planned.target + timedelta(days=1)
    version = book.move(desk, settings.clinic, planned.identity, day)
    assert open_ones(desk) == []
    book.undo(replace(desk, now=NOW + 2 * HOUR), version)
    assert open_ones(desk) == [planned.identity]


def test_a_wish_is_answered_by_cancelling_by_the_visit_itself_and_by_a_word_of_the_clinic(
    desk: Desk, settings: Settings, eye_id: str, planned: Visit
) -> None:
    for name in ("pressure check", "drops check"):
        book.add(replace(desk, now=NOW - HOUR), settings.clinic, eye_id, name, planned.target, "pressure")
    week, later = (v for v in visits.of_eye(desk.store, eye_id) if v.name.endswith("check"))
    wishes = [ask(desk.store, eye_id, v.name) for v in (planned, week, later)]
    assert set(open_ones(desk)) == {planned.identity, week.identity, later.identity}
    book.cancel(desk, later.identity, "seen elsewhere")
    assert set(open_ones(desk)) == {planned.identity, week.identity}
    visit.record_visit(desk, eye_id, [], visit=planned.identity)
    assert open_ones(desk) == [week.identity]
    correcting.withdraw(desk, wishes[1], "rang her: the day suits after all")
    assert open_ones(desk) == []


def test_a_wish_said_twice_stands_once_and_one_about_no_visit_of_the_book_is_kept(
    desk: Desk, eye_id: str, planned: Visit
) -> None:
    for name in (planned.name, planned.name, "a visit the book does not have"):
        ask(desk.store, eye_id, name)
    assert sorted(open_ones(desk), key=str) == sorted([planned.identity, None], key=str)


@pytest.mark.parametrize("ago", [1, 0, -0.5])
@pytest.mark.parametrize("why", ["cancelled", "the eye was operated again", "follow-up ended and was taken up"])
def test_a_wish_that_comes_when_its_visit_has_left_the_book_reaches_somebody(
    desk: Desk, nurse: Actor, settings: Settings, eye_id: str, planned: Visit, why: str, ago: float
) -> None:
    """From a phone that had not heard of it: with the words in it. What leaves the book after it (`ago` < 0) is an answer."""
    then = replace(desk, now=NOW - ago * HOUR)
    if why == "cancelled":
        book.cancel(then, planned.identity, "another clinic does it")
    elif why == "the eye was operated again":
        note = operation_note(operated_at=NOW - timedelta(hours=20), steroid_drops_until=None)
        leaving.discharge(then, patient_details(), note, [])
    else:
        following.end(then, eye_id, "own-wish", "", closes=[c.id for c in worries.open_callbacks(desk.store)])
        following.take_up(then, eye_id, "she comes back")
    ask(desk.store, eye_id, planned.name)
    assert open_ones(desk) == ([None] if ago >= 0 else [])


def test_of_two_visits_of_one_name_the_wish_is_about_the_one_it_says(
    desk: Desk, settings: Settings, eye_id: str, planned: Visit
) -> None:
    for days in (1, 8):
        day = planned.target + timedelta(days=days)
        book.add(replace(desk, now=NOW - HOUR), settings.clinic, eye_id, "pressure check", day, "pressure")
    first, second = (v for v in visits.of_eye(desk.store, eye_id) if v.name == "pressure check")
    ask(desk.store, eye_id, first.name)  # from a phone that does not say which: the last one
    assert open_ones(desk) == [second.identity]
    for one in (first, second):
        ask(desk.store, eye_id, one.name, visit_id=one.identity)
    assert sorted(open_ones(desk), key=str) == sorted([first.identity, second.identity])
    book.cancel(desk, first.identity, "seen elsewhere")
    assert open_ones(desk) == [second.identity]
    ask(desk.store, eye_id, second.name, visit_id="of another eye")  # moved onto this one by a correction: by its name
    assert open_ones(desk) == [second.identity]
    visit.record_visit(desk, eye_id, [], visit=second.identity)
    assert open_ones(desk) == []
