"""An eye for theatre is on a list by day until it is operated, or until it falls away and waits for a decision again."""

from datetime import UTC, date, datetime, timedelta

import pytest
from sqlite_utils import Database

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, settling, theatre
from followup.care.callbacks import lines as call_lines
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError, Conflict
from followup.care.patients import following
from followup.care.today import lists
from followup.care.visits import visit
from followup.care.visits.visit import known_eye
from followup.care.watch import raising
from followup.config import Settings
from followup.records import Store, audit, open_store, tasks, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.migrations import steps
from followup.records.values import Callback, Task
from tests.conftest import NOW, ZONE, operation_note, patient_details

MONDAY, TUESDAY = date(2027, 3, 8), date(2027, 3, 9)  # NOW is the Friday before


def desk(store: Store, who: Actor, hours: float = 0) -> Desk:
    return Desk(store, NOW + timedelta(hours=hours), who, ZONE)


def measured(store: Store, who: Actor, eye_id: str, iop: float, at: datetime = NOW) -> None:
    visit.record_visit(Desk(store, at, who, ZONE), eye_id, [MeasuresBody(eye="right", iop_mmhg=iop, findings=("leak",))])


@pytest.fixture
def decided(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings) -> Task:
    """Theatre for two worries of an eye, decided by the surgeon; nobody was told."""
    measured(store, nurse, eye_id, 33)
    first, *also = [c.id for c in worries.open_callbacks(store) if c.worry in ("pressure", "low-pressure")]
    assert also
    return deciding.decide(desk(store, surgeon), first, "theatre", "", settings.clinic, also=also)


@pytest.fixture
def confirmed(store: Store, nurse: Actor, decided: Task, settings: Settings) -> Task:
    theatre.plan(desk(store, nurse), decided.id, MONDAY, "morning list")
    holding.take_task(desk(store, nurse), decided.id, None)
    phone_calls.attempt(desk(store, nurse), decided.callback_id, "patient", "", settings.clinic)
    theatre.confirm(desk(store, nurse), decided.id)
    return decided


def on_list(store: Store, who: Actor) -> list[tuple[date | None, str, bool]]:
    return [(b.task.theatre_on, b.task.theatre_list, b.confirmed) for b in theatre.listed(desk(store, who))]


def of_task(store: Store, task: Task) -> Callback:
    return holding.known_callback(store, task.callback_id)


def operated_again(store: Store, nurse: Actor, at: datetime, now: datetime) -> None:
    note = operation_note(operated_at=at, steroid_drops_until=None, drops=[])
    leaving.discharge(Desk(store, now, nurse, ZONE), patient_details("T-1"), note, [])


def test_theatre_stands_once_on_the_list_first_without_a_day_then_by_day_and_list(
    store: Store, nurse: Actor, decided: Task
) -> None:
    assert on_list(store, nurse) == [(None, "", False)]
    theatre.plan(desk(store, nurse), decided.id, TUESDAY, "afternoon list")
    assert on_list(store, nurse) == [(TUESDAY, "afternoon list", False)]
    assert {t.theatre_on for t in tasks.for_theatre(store)} == {TUESDAY}  # of both worries
    theatre.plan(desk(store, nurse), decided.id, None, "")
    assert on_list(store, nurse) == [(None, "", False)]


@pytest.mark.parametrize("day", [date(2027, 3, 4), date(2028, 3, 6)])
def test_theatre_is_on_no_day_that_cannot_be(store: Store, nurse: Actor, decided: Task, day: date) -> None:
    with pytest.raises(CareError, match="theatre is between"):
        theatre.plan(desk(store, nurse), decided.id, day, "morning list")


def test_it_is_confirmed_with_its_day_and_list_once_the_patient_knows_and_stays_on_the_list(
    store: Store, nurse: Actor, decided: Task, settings: Settings
) -> None:
    with pytest.raises(CareError, match="nobody has spoken"):
        theatre.confirm(desk(store, nurse), decided.id)
    holding.take_task(desk(store, nurse), decided.id, None)
    phone_calls.attempt(desk(store, nurse), decided.callback_id, "patient", "", settings.clinic)
    with pytest.raises(CareError, match="say on which day"):
        theatre.confirm(desk(store, nurse), decided.id)
    theatre.plan(desk(store, nurse), decided.id, MONDAY, "")
    with pytest.raises(CareError, match="say on which list"):
        theatre.confirm(desk(store, nurse), decided.id)
    theatre.plan(desk(store, nurse), decided.id, MONDAY, "morning list")
    theatre.confirm(desk(store, nurse), decided.id)
    assert of_task(store, decided).state == "settled"
    assert on_list(store, nurse) == [(MONDAY, "morning list", True)]


def test_what_was_confirmed_on_the_page_of_the_call_stands_on_the_list_too(
    store: Store, nurse: Actor, decided: Task, settings: Settings
) -> None:
    holding.take_task(desk(store, nurse), decided.id, None)
    phone_calls.attempt(desk(store, nurse), decided.callback_id, "patient", "", settings.clinic)
    settling.finish(desk(store, nurse), decided.id, "first on the morning list", MONDAY)
    assert on_list(store, nurse) == [(MONDAY, "first on the morning list", True)]


@pytest.mark.usefixtures("discharged")  # what is asked for by name is not seen beforehand
@pytest.mark.parametrize("state", ["decided", "confirmed"])
def test_a_recorded_operation_ends_it(store: Store, nurse: Actor, request: pytest.FixtureRequest, state: str) -> None:
    task: Task = request.getfixturevalue(state)
    operated_again(store, nurse, NOW + timedelta(hours=2), NOW + timedelta(hours=6))
    assert on_list(store, nurse) == []
    found = of_task(store, task)
    assert (found.state, found.outcome) == ("settled", "theatre")
    assert {t.done_at is not None for t in tasks.of_callback(store, task.callback_id)} == {True}


def test_an_operation_before_the_decision_does_not_end_it(store: Store, nurse: Actor, decided: Task) -> None:
    operated_again(store, nurse, NOW - timedelta(days=1, hours=2), NOW + timedelta(hours=1))
    assert on_list(store, nurse) == [(None, "", False)]
    assert of_task(store, decided).state == "to-do"


def test_what_is_urgent_since_the_operation_is_not_settled_by_it(
    store: Store, nurse: Actor, eye_id: str, decided: Task
) -> None:
    measured(store, nurse, eye_id, 48, NOW + timedelta(hours=4))
    operated_again(store, nurse, NOW + timedelta(hours=2), NOW + timedelta(hours=6))
    pressure = next(c for c in worries.open_callbacks(store) if c.worry == "pressure")
    assert (pressure.state, pressure.how_soon) == ("waiting", "now")
    assert on_list(store, nurse) == []


@pytest.mark.usefixtures("discharged")  # what is asked for by name is not seen beforehand
@pytest.mark.parametrize("state", ["decided", "confirmed"])
def test_cancelled_it_waits_again_on_the_surgeons_list_with_the_reason(
    store: Store, nurse: Actor, surgeon: Actor, request: pytest.FixtureRequest, state: str, settings: Settings
) -> None:
    task: Task = request.getfixturevalue(state)
    with pytest.raises(CareError, match="say why"):
        theatre.cancel(desk(store, nurse, 1), task.id, " ")
    theatre.cancel(desk(store, nurse, 1), task.id, "not fit for anaesthetic")
    assert on_list(store, nurse) == []
    assert of_task(store, task).state == "waiting"
    found = call_lines.for_surgeon(desk(store, surgeon, 1))
    (line,) = found.open
    assert found.decided == []
    assert [t.done_words for t in line.fell_away] == ["not fit for anaesthetic"]
    with pytest.raises(Conflict, match="fell away meanwhile"):
        theatre.cancel(desk(store, nurse, 1), task.id, "again")
    # The patient believes in theatre still: what is decided now has to be told.
    holding.claim_call(desk(store, nurse, 1), task.callback_id)
    with pytest.raises(CareError, match="nobody has spoken"):
        settling.settle(desk(store, nurse, 1), task.callback_id, "advice", "", settings.clinic)
    deciding.decide(desk(store, surgeon, 1), task.callback_id, "advice", "", settings.clinic)
    line = call_lines.listed(desk(store, nurse, 1)).lines[0]
    assert task.callback_id not in [t.callback_id for t in line.fell_away]


def test_another_day_for_what_was_confirmed_is_to_be_told_and_confirmed_anew(
    store: Store, nurse: Actor, confirmed: Task
) -> None:
    theatre.plan(desk(store, nurse, 1), confirmed.id, TUESDAY, "afternoon list")
    (booked,) = theatre.listed(desk(store, nurse, 1))
    assert (booked.task.theatre_on, booked.task.theatre_list, booked.confirmed) == (TUESDAY, "afternoon list", False)
    assert (booked.task.told_at, booked.task.words) == (None, "moved from 8 March 2027")
    assert of_task(store, confirmed).state == "to-do"


@pytest.mark.parametrize("reason", ["died", "moved"])
def test_confirmed_theatre_is_withdrawn_with_the_end_of_follow_up_and_only_by_name(
    store: Store, surgeon: Actor, eye_id: str, confirmed: Task, settings: Settings, reason: str
) -> None:
    open_ones = [c.id for c in worries.open_callbacks(store)]
    for id in open_ones:  # a callback that cannot wait holds the end up
        holding.claim(desk(store, surgeon, 1), id)
        phone_calls.attempt(desk(store, surgeon, 1), id, "patient", "", settings.clinic)
        settling.settle(desk(store, surgeon, 1), id, "advice", "told", settings.clinic)
    known = following.concerned(store, known_eye(store, eye_id), reason)
    named = following.confirmed_theatre(store, known)
    assert [t.worry for t in theatre.listed(desk(store, surgeon))] == ["pressure"]
    assert [len(same) for same in named.values()] == [2]  # one decision, for two worries
    with pytest.raises(CareError, match="theatre is confirmed"):
        following.end(desk(store, surgeon, 1), eye_id, reason, "on Sunday")
    assert on_list(store, surgeon) == [(MONDAY, "morning list", True)]
    following.end(desk(store, surgeon, 1), eye_id, reason, "on Sunday", withdraws=named)
    assert on_list(store, surgeon) == []
    given_up = [(same.given_up, same.done_words) for same in tasks.of_callback(store, confirmed.callback_id)]
    assert given_up == [(True, f"{following.REASONS[reason]}: on Sunday")]
    (*_, last) = worries.steps_of(store, confirmed.callback_id)
    assert (last.step, last.detail["words"]) == ("theatre withdrawn", f"{following.REASONS[reason]}: on Sunday")
    assert "theatre withdrawn" in [entry.action for entry in audit.latest(store)]
    assert of_task(store, confirmed).state == "settled"
    (gone,) = theatre.withdrawn(desk(store, surgeon, 2))
    assert (gone.task.theatre_on, gone.task.theatre_list, gone.eye.id) == (MONDAY, "morning list", eye_id)
    assert theatre.withdrawn(desk(store, surgeon, 24 * 4)) == []  # its day is over


def test_theatre_to_be_confirmed_is_told_as_withdrawn_too(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, decided: Task
) -> None:
    theatre.plan(desk(store, nurse), decided.id, MONDAY, "morning list")
    assert following.confirmed_theatre(store, [known_eye(store, eye_id)]) == {}  # its callback is named, and closed
    following.end(desk(store, surgeon, 1), eye_id, "died", "", closes=[c.id for c in worries.open_callbacks(store)])
    assert on_list(store, surgeon) == []
    assert [b.task.theatre_list for b in theatre.withdrawn(desk(store, surgeon, 2))] == ["morning list"]


@pytest.mark.parametrize("reason", ["died", "moved"])
def test_theatre_of_a_fellow_eye_that_was_never_followed_is_withdrawn_where_the_patient_died(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, reason: str
) -> None:
    body = MeasuresBody(eye="left", iop_mmhg=33)
    visit.record_visit(desk(store, nurse), eye_id, [body])
    (call,) = [c for c in worries.open_callbacks(store) if c.eye_id != eye_id]
    task = deciding.decide(desk(store, surgeon), call.id, "theatre", "", settings.clinic)
    theatre.plan(desk(store, nurse), task.id, MONDAY, "morning list")
    holding.take_task(desk(store, nurse), task.id, None)
    phone_calls.attempt(desk(store, nurse), call.id, "patient", "", settings.clinic)
    theatre.confirm(desk(store, nurse), task.id)
    for id in [c.id for c in worries.open_callbacks(store)]:
        holding.claim(desk(store, surgeon, 1), id)
        phone_calls.attempt(desk(store, surgeon, 1), id, "patient", "", settings.clinic)
        settling.settle(desk(store, surgeon, 1), id, "advice", "told", settings.clinic)
    if reason == "died":
        with pytest.raises(CareError, match="theatre is confirmed"):
            following.end(desk(store, surgeon, 1), eye_id, reason, "")
        following.end(desk(store, surgeon, 1), eye_id, reason, "", withdraws=[task.id])
        assert on_list(store, surgeon) == []
        assert [b.eye.id for b in theatre.withdrawn(desk(store, surgeon, 2))] == [call.eye_id]
    else:
        following.end(desk(store, surgeon, 1), eye_id, reason, "")
        assert on_list(store, surgeon) == [(MONDAY, "morning list", True)]


def test_a_worry_that_was_raised_again_meanwhile_takes_the_theatre_that_fell_away(
    store: Store, nurse: Actor, eye_id: str, confirmed: Task
) -> None:
    measured(store, nurse, eye_id, 60, NOW + timedelta(hours=1))
    again = next(c for c in worries.open_callbacks(store) if c.worry == "pressure")
    assert again.id != confirmed.callback_id
    theatre.cancel(desk(store, nurse, 2), confirmed.id, "list full")
    assert "theatre cancelled" in [s.step for s in worries.steps_of(store, again.id)]


def test_theatre_that_was_confirmed_before_it_had_a_day_of_its_own_gets_that_of_its_step(settings: Settings) -> None:
    path = settings.server.database.with_name("old.db")
    old = Database(path)
    steps.apply(old, stop_before="m034_theatre")
    at = "2027-03-05T10:00:00.000000Z"
    old["staff"].insert({"id": "n", "name": "N", "email": "n@test.invalid", "password_hash": "", "created_at": at})
    person = {"id": "p", "number": "1", "name": "P", "born_on": "1950-01-01", "phone": "", "language": "en"}
    old["patients"].insert({**person, "created_at": at})
    old["eyes"].insert({"id": "e", "patient_id": "p", "side": "right", "created_at": at})
    call = {"id": "c", "eye_id": "e", "worry": "retina", "how_soon": "now", "opened_at": at, "due_at": at}
    old["callbacks"].insert({**call, "state": "settled", "outcome": "theatre"})
    task = {"id": "t", "callback_id": "c", "eye_id": "e", "kind": "theatre", "words": "", "due_at": at, "made_by": "n"}
    old["tasks"].insert({**task, "made_at": at, "told_at": at, "done_at": at, "done_by": "n", "done_words": "list two"})
    step = {"id": "s", "callback_id": "c", "at": at, "who": "n", "step": "done", "detail": '{"theatre_on": "2027-03-08"}'}
    old["callback_steps"].insert(step)
    old.conn.close()
    (known,) = tasks.for_theatre(open_store(path))
    assert (known.theatre_on, known.theatre_list) == (MONDAY, "list two")


def test_what_was_missed_before_an_operation_is_waited_for_no_more_and_nobody_asks_why(
    store: Store, nurse: Actor, eye_id: str
) -> None:
    """*Week 1* is due until 14 March; the second operation is on the 13th, and its note is written on the 16th."""
    late = datetime(2027, 3, 16, 10, tzinfo=UTC)
    raising.look(store, eye_id, late, ZONE)
    missed = [c for c in worries.open_callbacks(store) if c.worry == "missed-visit"]
    assert missed
    assert "week 1" in [d.visit.name for d in lists.due_in(store, late, ZONE, ["missed"])]
    operated_again(store, nurse, datetime(2027, 3, 13, 9, tzinfo=UTC), late)
    assert lists.due_in(store, late, ZONE, ["missed"]) == []
    ended = [holding.known_callback(store, c.id) for c in missed]
    assert {(c.state, c.outcome) for c in ended} == {("settled", "no-action")}
