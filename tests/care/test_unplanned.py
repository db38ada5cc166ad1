"""A followed eye for which nothing is planned stands on a list, until a visit is planned or its follow-up ends."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import calls, deciding, holding, settling, theatre
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.patients import following, reaching
from followup.care.reading import state
from followup.care.today import unplanned
from followup.care.visits import book, visit
from followup.care.visits.visit import known_eye
from followup.config import Clinic, Settings
from followup.records import Store, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import NOW, ZONE, operation_note, patient_details

DAY = timedelta(days=1)
QUIET = MeasuresBody(eye="right", acuity="6/12", iop_mmhg=15, instrument="applanation")


class Life:
    """One eye with what happens to it, a day after another."""

    def __init__(self, store: Store, who: Actor, eye_id: str, clinic: Clinic) -> None:
        self.store, self.who, self.eye_id, self.clinic, self.days = store, who, eye_id, clinic, 0

    @property
    def desk(self) -> Desk:
        return Desk(self.store, NOW + self.days * DAY, self.who, ZONE)

    def since(self) -> datetime | None:
        found = unplanned.listed_page(self.store, self.desk.now, ZONE).lines
        assert state.differences(self.store, ZONE) == []
        return next((one.since for one in found if one.eye.id == self.eye_id), None)

    def planned(self) -> Iterator[str]:
        seen = state.seen(self.store, self.eye_id, ZONE)
        return (v.identity for v in visits.of_eye(self.store, self.eye_id) if v.identity not in seen)

    def cancel_all(self) -> datetime:
        for identity in self.planned():
            book.cancel(self.desk, identity, "another clinic does it")
        return self.desk.now

    def pressure(self) -> str:
        visit.record_visit(self.desk, self.eye_id, [MeasuresBody(eye="right", iop_mmhg=33)])
        return next(c.id for c in worries.open_callbacks(self.store) if c.worry == "pressure")

    def settle_all(self) -> datetime:
        first, *also = [c.id for c in worries.open_callbacks(self.store)]
        holding.claim_call(self.desk, first)
        calls.attempt(self.desk, first, "patient", "", self.clinic)
        settling.settle(self.desk, first, "advice", "told", self.clinic, also=also)
        return self.desk.now

    def later(self) -> None:
        self.days += 1


@pytest.fixture
def life(store: Store, surgeon: Actor, eye_id: str, settings: Settings) -> Life:
    """An eye whose first visit was seen, with one visit to come and nothing open, of a patient without the app."""
    found = Life(store, surgeon, eye_id, settings.clinic)
    reaching.put(found.desk, known_eye(store, eye_id).patient.id, "no-app", "")
    visit.record_visit(found.desk, eye_id, [QUIET], visit="day 1")
    found.settle_all()
    found.later()
    return found


def test_an_eye_with_a_visit_to_come_or_missed_is_not_on_it(life: Life) -> None:
    assert life.since() is None
    life.days = 300  # it was missed, and stands on the list of those
    assert life.since() is None


def test_the_last_visit_is_cancelled_and_put_back(life: Life) -> None:
    *_, last = life.planned()
    assert life.cancel_all() == life.since()
    assert unplanned.count(life.store, life.desk.now, ZONE) == 1
    life.later()
    book.put_back(life.desk, last)
    assert life.since() is None


def test_the_last_visit_was_seen_and_nothing_follows(life: Life) -> None:
    (last,) = life.planned()
    visit.record_visit(life.desk, life.eye_id, [QUIET])  # beside the plan
    assert life.since() is None
    life.later()
    visit.record_visit(life.desk, life.eye_id, [QUIET], visit=last)
    assert life.since() == life.desk.now
    life.later()
    book.add(life.desk, life.clinic, life.eye_id, "week 2", date(2027, 3, 16), "")
    assert life.since() is None


def test_follow_up_is_taken_up_again(life: Life) -> None:
    following.end(life.desk, life.eye_id, "own-wish", "")
    assert life.since() is None
    life.later()
    following.take_up(life.desk, life.eye_id, "she comes back")
    assert life.since() == life.desk.now
    life.later()
    following.end(life.desk, life.eye_id, "moved", "")
    assert life.since() is None


def test_an_operation_whose_plan_is_empty(life: Life) -> None:
    again = operation_note(operated_at=life.desk.now - timedelta(hours=2), steroid_drops_until=None, drops=[])
    leaving.discharge(life.desk, patient_details(), again, [])
    assert life.since() == life.desk.now


def test_what_is_open_has_its_own_list_until_it_is_settled(life: Life) -> None:
    life.cancel_all()
    life.later()
    call = life.pressure()
    assert life.since() is None
    deciding.decide(life.desk, call, "advice", "", life.clinic)
    assert life.since() is None
    deciding.undo(life.desk, call)
    life.later()
    assert life.settle_all() == life.since()


def test_theatre_that_was_confirmed_is_planned_until_it_falls_away(life: Life) -> None:
    life.cancel_all()
    life.later()
    call = life.pressure()
    first, *also = [c.id for c in worries.open_callbacks(life.store)]
    task = deciding.decide(life.desk, call, "theatre", "", life.clinic, also={first, *also} - {call})
    theatre.plan(life.desk, task.id, life.desk.today + DAY, "morning list")
    holding.take_task(life.desk, task.id, None)
    calls.attempt(life.desk, call, "patient", "", life.clinic)
    theatre.confirm(life.desk, task.id)
    assert worries.open_callbacks(life.store) == []
    assert life.since() is None
    life.days += 30  # not operated, and on the list for theatre as such
    assert life.since() is None
    theatre.cancel(life.desk, task.id, "she decided against it")
    life.later()
    assert life.settle_all() == life.since()
