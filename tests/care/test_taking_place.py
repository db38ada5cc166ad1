"""Which visit of the book an entry is about, and what leaves or returns to the book with something else that is recorded."""

from datetime import date, datetime, timedelta

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.reading.eye import load
from followup.care.visits import book, closing, visit
from followup.clinical import schedule
from followup.config import Settings
from followup.records import Store, events, visits
from tests.conftest import NOW, OPERATED, ZONE, operation_note, patient_details

FRIDAY, MONDAY = date(2027, 3, 5), date(2027, 3, 8)
DAY = timedelta(days=1)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


def eye_with(desk: Desk, *windows: schedule.Window, **note: object) -> str:
    at = Desk(desk.store, OPERATED + timedelta(hours=5), desk.actor, ZONE)
    return leaving.discharge(at, patient_details("T-7"), operation_note(posture=None, **note), windows)[0]


def window(name: str, target: date, earliest: date | None = None, latest: date | None = None) -> schedule.Window:
    return schedule.Window(name, target, earliest or target, latest or target, "retina")


def seen(desk: Desk, eye_id: str) -> list[str]:
    """The targets of the visits that took place."""
    eye = load(desk.store, eye_id, ZONE)
    return [v.target.isoformat() for v in eye.visits if v.identity in eye.seen_visits]


def test_of_two_visits_of_one_name_the_one_whose_window_holds_today_is_meant(desk: Desk) -> None:
    near, holding = window("check", FRIDAY + DAY), window("check", FRIDAY + 4 * DAY, earliest=FRIDAY)
    eye_id = eye_with(desk, near, holding)
    visit.record_visit(desk, eye_id, [], visit="check")
    assert seen(desk, eye_id) == [holding.target.isoformat()]


def test_of_two_that_hold_today_the_nearest_and_of_those_seen_none_again(desk: Desk) -> None:
    far, near = window("check", FRIDAY + 6 * DAY, earliest=FRIDAY), window("check", FRIDAY + DAY, earliest=FRIDAY)
    eye_id = eye_with(desk, far, near)
    visit.record_visit(desk, eye_id, [], visit="check")
    assert seen(desk, eye_id) == [near.target.isoformat()]
    visit.record_visit(desk, eye_id, [], visit="check")
    assert len(seen(desk, eye_id)) == 2


def test_with_the_oil_the_visit_that_plans_its_removal_leaves_the_book(desk: Desk) -> None:
    oil = {"agent": "silicone-oil", "percent": 0, "steroid_drops_until": None}
    eye_id = eye_with(desk, window("list for oil removal", date(2027, 6, 1)), window("month 3", date(2027, 6, 2)), **oil)
    visit.record_clinic_event(desk, eye_id, "tamponade-removed", {})
    assert [v.name for v in visits.of_eye(desk.store, eye_id)] == ["month 3"]
    assert [v.why for v in visits.cancelled_of_eye(desk.store, eye_id)] == ["the oil was taken out"]


def test_a_walk_in_taken_back_leaves_neither_a_visit_nor_an_arrival(desk: Desk, eye_id: str) -> None:
    before = [v.id for v in visits.of_eye(desk.store, eye_id)]
    identity = book.walk_in(desk, eye_id, "red eye")
    assert [e.kind for e in events.of_eye(desk.store, eye_id)] == ["arrived"]
    book.undo(desk, identity)
    assert [v.id for v in visits.of_eye(desk.store, eye_id)] == before
    assert events.of_eye(desk.store, eye_id) == []


def test_a_day_that_opens_again_gets_back_only_what_its_closing_moved(desk: Desk, settings: Settings) -> None:
    """Both changes are of one instant, as two people at two desks may make them."""
    eye_id = eye_with(desk, window("first", MONDAY), window("other", MONDAY + 3 * DAY))
    first, other = visits.of_eye(desk.store, eye_id)
    closing.close(
        desk, settings.clinic, MONDAY, "training", {first.identity: MONDAY + DAY}, accepted=["first is due by 8 March 2027"]
    )
    book.put_on(desk, other, MONDAY + 2 * DAY, None, "asked for")
    assert closing.open_again(desk, MONDAY, back=True) == 1
    days = {v.name: v.target for v in visits.of_eye(desk.store, eye_id)}
    assert days == {"first": MONDAY, "other": MONDAY + 2 * DAY}


def test_what_was_measured_stands_at_the_time_of_the_desk(desk: Desk, eye_id: str) -> None:
    later = datetime(2027, 3, 5, 15, 30, tzinfo=NOW.tzinfo)
    visit.record_visit(Desk(desk.store, later, desk.actor, ZONE), eye_id, [], visit="day 1")
    assert [(e.kind, e.at) for e in events.of_eye(desk.store, eye_id)] == [("seen", later)]
