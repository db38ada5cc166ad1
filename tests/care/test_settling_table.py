"""Every way to end a call, whole: who may settle what, after which conversation, with which words; and what stays to do.

As the guide says: nothing urgent is settled without a call on record that reached somebody after the last urgent sign; only
a surgeon may say *no action, and why* without one. Common practice, no source.
"""

from datetime import date, timedelta
from itertools import product

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import calls, deciding, holding, settling
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.config import Clinic, Settings
from followup.records import Store, eyes, tasks, worries
from followup.records.values import Callback, Task
from tests.conftest import NOW, ZONE
from tests.records.rows import callback, known
from tests.records.rows import task as a_task

URGENT, LATER = ("now", "today"), NOW + timedelta(minutes=5)
CASES = list(
    product(("now", "today", "this-week"), ("advice", "no-action"), ("nurse", "surgeon"), ("", "why"), (False, True))
)


@pytest.fixture
def clinic(settings: Settings) -> Clinic:
    return settings.clinic


@pytest.fixture
def who(nurse: Actor, surgeon: Actor) -> dict[str, Actor]:
    return {"nurse": nurse, "surgeon": surgeon}


def in_hand(store: Store, who: Actor, eye_id: str, how_soon: str = "today", worry: str = "pressure") -> Callback:
    """A callback that this person has claimed."""
    call = callback(store, eye_id, worry, how_soon)
    worries.add_step(store, NOW, call.id, "clock:clock", "opened", {"how_soon": how_soon})
    holding.claim(Desk(store, NOW, who, ZONE), call.id)
    return call


def state(store: Store, call: Callback) -> str:
    return known(worries.callback(store, call.id)).state


def may_settle(how_soon: str, outcome: str, role: str, words: str, spoken: bool) -> bool:
    """As the guide says it."""
    if outcome == "no-action" and not words:
        return False
    if spoken:
        return True
    if how_soon in URGENT:
        return role == "surgeon" and outcome == "no-action"
    return bool(words)


@pytest.mark.parametrize(("how_soon", "outcome", "role", "words", "spoken"), CASES)
def test_who_settles_what_after_which_conversation(
    store: Store,
    who: dict[str, Actor],
    eye_id: str,
    clinic: Clinic,
    how_soon: str,
    outcome: str,
    role: str,
    words: str,
    spoken: bool,
) -> None:
    desk, call = Desk(store, LATER, who[role], ZONE), in_hand(store, who[role], eye_id, how_soon)
    calls.attempt(desk, call.id, "patient" if spoken else None, "", clinic)
    if may_settle(how_soon, outcome, role, words, spoken):
        assert settling.settle(desk, call.id, outcome, words, clinic) is None
        found = known(worries.callback(store, call.id))
        assert (found.state, found.outcome, found.settled_by) == ("settled", outcome, who[role].id)
    else:
        with pytest.raises(CareError):
            settling.settle(desk, call.id, outcome, words, clinic)
        assert state(store, call) == "claimed"


def test_there_are_as_many_ways_as_were_thought_of() -> None:
    allowed = [case for case in CASES if may_settle(*case)]
    assert (len(CASES), len(allowed)) == (48, 24)


@pytest.mark.parametrize("outcome", ["", "not-reached", "cured", "plan-changed"])
def test_nothing_is_closed_without_an_outcome_that_may_be_chosen(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic, outcome: str
) -> None:
    call = in_hand(store, nurse, eye_id)
    with pytest.raises(CareError, match="choose an outcome"):
        settling.settle(Desk(store, LATER, nurse, ZONE), call.id, outcome, "words", clinic)
    assert state(store, call) == "claimed"


def test_where_one_of_several_may_not_be_settled_none_is(store: Store, nurse: Actor, eye_id: str, clinic: Clinic) -> None:
    desk = Desk(store, LATER, nurse, ZONE)
    week = in_hand(store, nurse, eye_id, "this-week", "pain")
    urgent = in_hand(store, nurse, eye_id, "now")
    with pytest.raises(CareError, match="nobody has spoken to"):
        settling.settle(desk, week.id, "advice", "words", clinic, also=[urgent.id])
    assert (state(store, week), state(store, urgent)) == ("claimed", "claimed")
    assert [s.step for s in worries.steps_of(store, week.id)] == ["opened", "claimed"]


@pytest.mark.parametrize(
    ("hands", "words"), [("nobody's", "claim the callback first"), ("another's", "claim the callback first")]
)
def test_what_is_not_in_hand_is_not_settled(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, clinic: Clinic, hands: str, words: str
) -> None:
    call = callback(store, eye_id) if hands == "nobody's" else in_hand(store, surgeon, eye_id)
    with pytest.raises(Conflict, match=words):
        settling.settle(Desk(store, LATER, nurse, ZONE), call.id, "advice", "words", clinic)


@pytest.mark.parametrize("outcome", ["theatre", "same-day", "sooner"])
@pytest.mark.parametrize("told", [False, True])
def test_what_is_still_to_be_done_stays_with_whoever_called(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic, outcome: str, told: bool
) -> None:
    desk, call = Desk(store, LATER, nurse, ZONE), in_hand(store, nurse, eye_id)
    calls.attempt(desk, call.id, "patient", "", clinic)
    made = settling.settle(desk, call.id, outcome, "", clinic, told=told)
    assert made is not None
    assert (made.owner, made.told_at, state(store, call)) == (nurse.id, LATER if told else None, "to-do")


def test_nobody_is_told_of_a_decision_by_a_call_that_reached_nobody(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic
) -> None:
    desk, call = Desk(store, LATER, nurse, ZONE), in_hand(store, nurse, eye_id)
    calls.attempt(desk, call.id, None, "", clinic)
    with pytest.raises(CareError, match="nobody has spoken to"):
        settling.settle(desk, call.id, "same-day", "", clinic, told=True)
    assert tasks.of_callback(store, call.id) == []


# --- What was decided is done ---


@pytest.fixture
def theatre(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, clinic: Clinic) -> Task:
    """Theatre that the nurse is to confirm; the patient knows."""
    call = in_hand(store, nurse, eye_id)
    holding.release(Desk(store, NOW, nurse, ZONE), call.id)
    made = deciding.decide(Desk(store, NOW, surgeon, ZONE), call.id, "theatre", "", clinic, owner=nurse.id)
    calls.attempt(Desk(store, LATER, nurse, ZONE), call.id, "patient", "", clinic)
    return known(tasks.task(store, made.id))


@pytest.mark.parametrize(
    ("words", "day", "fault"),
    [
        ("morning list", None, "say on which day theatre is"),
        ("", date(2027, 3, 8), "say on which list"),
        ("morning list", date(2027, 3, 4), "theatre is between 5 March 2027, when it was decided, and 5 March 2028"),
        ("morning list", date(2028, 3, 6), "theatre is between 5 March 2027, when it was decided, and 5 March 2028"),
    ],
)
def test_theatre_is_confirmed_with_its_day_and_its_list(
    store: Store, nurse: Actor, theatre: Task, words: str, day: date | None, fault: str
) -> None:
    with pytest.raises(CareError, match=fault):
        settling.finish(Desk(store, LATER, nurse, ZONE), theatre.id, words, day)
    assert tasks.task(store, theatre.id) == theatre


@pytest.mark.parametrize("day", [date(2027, 3, 5), date(2028, 3, 5)])
def test_theatre_may_be_on_the_day_it_was_decided_and_a_year_later(
    store: Store, nurse: Actor, theatre: Task, day: date
) -> None:
    settling.finish(Desk(store, LATER, nurse, ZONE), theatre.id, "morning list", day)
    done = known(tasks.task(store, theatre.id))
    assert (done.theatre_on, done.theatre_list, done.done_by) == (day, "morning list", nurse.id)
    assert known(worries.callback(store, theatre.callback_id)).outcome == "theatre"


def test_what_nobody_was_told_of_is_not_done(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    call = in_hand(store, nurse, eye_id)
    made = a_task(store, call, surgeon, nurse)
    with pytest.raises(CareError, match="nobody has spoken to the patient or carer about this yet"):
        settling.finish(Desk(store, LATER, nurse, ZONE), made.id, "done")
    assert state(store, call) == "to-do"


# --- The eye was operated ---


@pytest.mark.parametrize(
    ("operated", "done"),
    [(timedelta(hours=3), True), (timedelta(hours=-2), True), (timedelta(hours=-12), False)],  # of the same day, or before
)
def test_an_operation_since_it_was_decided_is_the_theatre(
    store: Store, nurse: Actor, theatre: Task, operated: timedelta, done: bool
) -> None:
    settling.end_with_operation(Desk(store, NOW + timedelta(days=1), nurse, ZONE), theatre.eye_id, NOW + operated)
    found = known(tasks.task(store, theatre.id))
    assert (found.done_at is not None, state_of(store, theatre)) == (done, "settled" if done else "to-do")


def state_of(store: Store, task: Task) -> str:
    return known(worries.callback(store, task.callback_id)).state


def test_a_missed_visit_of_the_plan_before_is_asked_about_no_more(store: Store, nurse: Actor, eye_id: str) -> None:
    missed, other = callback(store, eye_id, "missed-visit", "this-week"), callback(store, eye_id, "pain")
    settling.end_missed(Desk(store, LATER, nurse, ZONE), eye_id)
    assert (state(store, missed), state(store, other)) == ("settled", "waiting")
    assert known(worries.callback(store, missed.id)).outcome == "no-action"


def test_what_is_to_do_about_a_missed_visit_stays_to_do(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    missed = callback(store, eye_id, "missed-visit", "this-week")
    a_task(store, missed, surgeon, nurse)
    settling.end_missed(Desk(store, LATER, nurse, ZONE), eye_id)
    assert state(store, missed) == "to-do"
    assert known(eyes.eye(store, eye_id)).is_followed
