"""Callbacks: one person, one outcome, merged while open, moved up when late, settled only once somebody was spoken to
and what was decided is done; and two processes at once."""

import subprocess
import sys
from datetime import UTC, date, datetime, timedelta

import pytest
from sqlite_utils import Database

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, moving_up, settling
from followup.care.callbacks.kinds import DECISIONS, TASK_OF
from followup.care.desk import Desk
from followup.care.discharge import changing
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.patients import following
from followup.care.today import arrivals, lists
from followup.care.visits import book, visit
from followup.care.visits.book import Asks
from followup.clinical.callbacks import DUE_WITHIN
from followup.clinical.warnings import HowSoon
from followup.config import Settings
from followup.records import Store, open_store, tasks, visits, watch, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.migrations import steps
from followup.records.values import Callback, Task, Warning
from tests.conftest import NOW, PASSWORD, ZONE, operation_note


def measure(store: Store, nurse: Actor, eye_id: str, settings: Settings, iop: float, now: object = NOW) -> list[Warning]:
    body = MeasuresBody(eye="right", iop_mmhg=iop, instrument="applanation")
    return visit.record_visit(Desk(store, now, nurse, settings.clinic.tz), eye_id, [body])  # type: ignore[arg-type]


def pressure_of(store: Store) -> str:
    return next(str(c.id) for c in worries.open_callbacks(store) if c.worry == "pressure")


def get(store: Store, id: str) -> Callback:
    found = worries.callback(store, id)
    assert found is not None
    return found


@pytest.fixture
def opened(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> str:
    """The pressure callback of an eye at 34 mmHg."""
    measure(store, nurse, eye_id, settings, 34)
    return pressure_of(store)


@pytest.mark.parametrize("due_at", [NOW, NOW + timedelta(days=367), datetime(9999, 12, 31, tzinfo=UTC)])
def test_what_is_to_do_is_due_within_a_year(
    store: Store, surgeon: Actor, opened: str, settings: Settings, due_at: datetime
) -> None:
    with pytest.raises(CareError, match="still to come, and within a year"):
        deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic, due_at=due_at)
    assert tasks.of_callback(store, opened) == []


def test_two_people_cannot_claim_one(store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    with pytest.raises(Conflict, match="claimed by Nora Nurse"):
        holding.claim(Desk(store, NOW, surgeon, ZONE), opened)
    with pytest.raises(Conflict, match="claim the callback first"):
        phone_calls.attempt(Desk(store, NOW, surgeon, ZONE), opened, "patient", "", settings.clinic)
    holding.release(Desk(store, NOW, nurse, ZONE), opened)
    holding.claim(Desk(store, NOW, surgeon, ZONE), opened)
    with pytest.raises(Conflict, match="give it back"):
        holding.release(Desk(store, NOW, nurse, ZONE), opened)


def test_nothing_is_settled_without_an_outcome(store: Store, nurse: Actor, opened: str, settings: Settings) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    for outcome, words in (("", ""), ("magic", ""), ("not-reached", "no answer"), ("no-action", " ")):
        with pytest.raises(CareError):
            settling.settle(Desk(store, NOW, nurse, ZONE), opened, outcome, words, settings.clinic)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, None, "no answer", settings.clinic)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "carer", "feels fine", settings.clinic)
    settling.settle(Desk(store, NOW, nurse, ZONE), opened, "no-action", "pressure was read by a trainee", settings.clinic)
    steps = [s.step for s in worries.steps_of(store, opened)]
    assert [s for s in steps if s not in ("opened", "raised again")] == ["claimed", "not reached", "reached", "settled"]
    with pytest.raises(Conflict, match="settled"):
        holding.claim(Desk(store, NOW, nurse, ZONE), opened)


@pytest.mark.parametrize(
    ("iop", "role", "outcome", "words", "spoken", "settles"),
    [
        (62, "nurse", "advice", "told", False, False),
        (62, "nurse", "no-action", "it was 26", False, False),
        (62, "surgeon", "advice", "told", False, False),
        (62, "surgeon", "no-action", "it was 26", False, True),  # an entry error that a surgeon answers for
        (62, "nurse", "advice", "", True, True),
        (34, "nurse", "advice", "told", False, False),
        (34, "nurse", "no-action", "it was 24", False, False),
        (34, "surgeon", "no-action", "it was 24", False, True),
        (34, "nurse", "no-action", "it was 24", True, True),
    ],
)
def test_nothing_urgent_is_settled_before_somebody_was_spoken_to(
    store: Store,
    nurse: Actor,
    surgeon: Actor,
    eye_id: str,
    settings: Settings,
    iop: float,
    role: str,
    outcome: str,
    words: str,
    spoken: bool,
    settles: bool,
) -> None:
    measure(store, nurse, eye_id, settings, iop)
    id = pressure_of(store)
    actor = nurse if role == "nurse" else surgeon
    holding.claim(Desk(store, NOW, actor, ZONE), id)
    if spoken:
        phone_calls.attempt(Desk(store, NOW, actor, ZONE), id, "patient", "", settings.clinic)
    if settles:
        settling.settle(Desk(store, NOW, actor, ZONE), id, outcome, words, settings.clinic)
        assert get(store, id).state == "settled"
    else:
        with pytest.raises(CareError, match="nobody has spoken"):
            settling.settle(Desk(store, NOW, actor, ZONE), id, outcome, words, settings.clinic)
        assert get(store, id).state == "claimed"


def test_a_worse_sign_after_the_conversation_needs_another_one(
    store: Store, nurse: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    measure(store, nurse, eye_id, settings, 45, NOW + timedelta(minutes=20))
    with pytest.raises(CareError, match="nobody has spoken"):
        settling.settle(Desk(store, NOW + timedelta(minutes=30), nurse, ZONE), opened, "advice", "", settings.clinic)


def came(store: Store, nurse: Actor, task: Task) -> None:
    """The visit of a task took place, where it has one."""
    if task.visit_id:
        visit.record_visit(Desk(store, NOW, nurse, ZONE), task.eye_id, [], visit=task.visit_id)


@pytest.mark.parametrize("outcome", ["sooner", "same-day"])
@pytest.mark.parametrize(
    ("how", "done"),
    [
        ("told", False),
        ("here", False),
        ("measured beside it", False),  # the visit stands in the book, and would be missed
        ("cancelled", False),
        ("moved", False),
        ("seen", True),
        ("moved and seen", True),
        ("cancelled, and measured", True),
    ],
)
def test_whoever_was_to_come_was_seen_before_that_is_done(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings, outcome: str, how: str, done: bool
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    task = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, outcome, "", settings.clinic, owner=nurse.id)
    assert task.visit_id
    phone_calls.attempt(desk, opened, "patient", "", settings.clinic)
    later = Desk(store, NOW + timedelta(hours=3), nurse, ZONE)
    if how == "here":
        arrivals.arrive(later, task.eye_id, task.visit_id)
    if "moved" in how:
        other = date(2027, 3, 9)
        doubts = ("extra visit is due 5 March 2027 to 8 March 2027", "extra visit is due 5 March 2027")
        book.move(later, settings.clinic, task.visit_id, other, accepted=doubts)
    if "cancelled" in how:
        book.cancel(later, task.visit_id, "comes with week 1")
    if "measured" in how:
        quiet = MeasuresBody(eye="right", iop_mmhg=30, instrument="applanation")
        visit.record_visit(later, task.eye_id, [quiet])
    if "seen" in how:
        visit.record_visit(later, task.eye_id, [], visit=task.visit_id)
    if done:
        settling.finish(later, task.id, "")
        assert get(store, opened).state == "settled"
    else:
        with pytest.raises(CareError, match=r"has not taken place|nobody was seen"):
            settling.finish(later, task.id, "")
        assert get(store, opened).state == "to-do"


@pytest.mark.parametrize("outcome", DECISIONS)
def test_a_decision_settles_nothing_until_it_is_told_and_done(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings, outcome: str
) -> None:
    task = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, outcome, "as we said", settings.clinic)
    assert (task.kind, task.owner, task.words) == (TASK_OF[outcome], None, "as we said")
    found = get(store, opened)
    assert (found.state, found.free, found.due_at) == ("to-do", True, task.due_at)
    assert opened in [c.id for c in worries.open_callbacks(store)]
    with pytest.raises(Conflict, match="take it first"):
        settling.finish(Desk(store, NOW, nurse, ZONE), task.id, "")
    with pytest.raises(Conflict, match="claim the callback first"):
        phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    holding.take_task(Desk(store, NOW, nurse, ZONE), task.id, None)
    assert not get(store, opened).free
    with pytest.raises(CareError, match="nobody has spoken"):
        settling.finish(Desk(store, NOW, nurse, ZONE), task.id, "")
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, None, "", settings.clinic)
    with pytest.raises(CareError, match="nobody has spoken"):
        settling.finish(Desk(store, NOW, nurse, ZONE), task.id, "")
    assert get(store, opened).state == "to-do"
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "carer", "her daughter knows", settings.clinic)
    assert get(store, opened).state == "to-do"
    came(store, nurse, task)
    settling.finish(Desk(store, NOW, nurse, ZONE), task.id, "came at two", NOW.date())
    settled = get(store, opened)
    assert (settled.state, settled.outcome, settled.settled_by) == ("settled", outcome, nurse.id)


def test_what_a_call_comes_to_is_a_task_of_whoever_called(
    store: Store, nurse: Actor, opened: str, settings: Settings
) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    with pytest.raises(CareError, match="nobody has spoken"):
        settling.settle(Desk(store, NOW, nurse, ZONE), opened, "same-day", "", settings.clinic, told=True)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    task = settling.settle(Desk(store, NOW, nurse, ZONE), opened, "same-day", "", settings.clinic, told=True)
    assert task is not None
    # She knows already; the eye is to be seen by the end of the clinic's day, 23:00 UTC in winter.
    assert (task.owner, task.told_at, task.due_at) == (nurse.id, NOW, datetime(2027, 3, 5, 23, tzinfo=UTC))
    came(store, nurse, task)
    settling.finish(Desk(store, NOW + timedelta(hours=2), nurse, ZONE), task.id, "seen")
    assert get(store, opened).outcome == "same-day"


def test_a_callback_with_two_tasks_is_settled_by_the_second(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    plan = {"position": "left-cheek", "hours_a_day": 8, "days": 3}
    note = operation_note(posture=plan)
    changing.change_plan(Desk(store, NOW, surgeon, settings.clinic.tz), eye_id, note, settles=opened)
    first = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic, owner=nurse.id)
    changed, _ = tasks.of_callback(store, opened)
    assert (changed.kind, changed.words) == ("plan-changed", "plan changed: posture")
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    came(store, nurse, first)
    settling.finish(Desk(store, NOW, nurse, ZONE), first.id, "")
    assert get(store, opened).state == "to-do"
    holding.take_task(Desk(store, NOW, nurse, ZONE), changed.id, None)
    settling.finish(Desk(store, NOW, nurse, ZONE), changed.id, "")
    assert (get(store, opened).state, get(store, opened).outcome) == ("settled", "plan-changed")


def test_a_changed_plan_that_changes_nothing_answers_nothing(
    store: Store, surgeon: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    assert not changing.change_plan(Desk(store, NOW, surgeon, settings.clinic.tz), eye_id, operation_note(), settles=opened)
    assert get(store, opened).state == "waiting"


def test_two_surgeons_do_not_decide_past_each_other(store: Store, surgeon: Actor, opened: str, settings: Settings) -> None:
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "theatre", "", settings.clinic, decided_before=0)
    with pytest.raises(Conflict, match="meanwhile Sol Surgeon decided"):
        deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "advice", "", settings.clinic, decided_before=0)


def test_what_was_looked_at_before_it_stood_so_is_looked_at_again(
    store: Store, surgeon: Actor, opened: str, settings: Settings
) -> None:
    with pytest.raises(Conflict, match="something was changed; look at it again"):
        deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic, decided_before=1)


def test_what_is_decided_is_given_to_nobody_who_left(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings
) -> None:
    accounts.end(store, NOW, nurse.id)
    for owner in (nurse.id, "nobody"):
        with pytest.raises(CareError, match="choose who does it"):
            deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic, owner=owner)
    assert get(store, opened).state == "waiting"


def test_what_will_not_be_done_puts_the_callback_back_on_the_list(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    task = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic, owner=nurse.id)
    with pytest.raises(CareError, match="say why"):
        settling.give_up(Desk(store, NOW, nurse, ZONE), task.id, " ")
    settling.give_up(Desk(store, NOW, nurse, ZONE), task.id, "cannot travel")
    found = get(store, opened)
    assert (found.state, found.claimed_by, found.free) == ("waiting", None, True)
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 1"]


def test_not_reached_sets_the_next_try_and_moves_up_after_as_many_calls_as_the_clinic_set(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    clinic = settings.clinic.model_copy(update={"calls_before_moving_up": 2})
    measure(store, nurse, eye_id, settings, 62)
    id = pressure_of(store)
    holding.claim(Desk(store, NOW, nurse, ZONE), id)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), id, None, "no answer", clinic)
    found = get(store, id)
    assert (found.state, found.next_try_at, found.level) == ("claimed", NOW + timedelta(minutes=15), 0)
    moving_up.escalate_overdue(store, NOW + timedelta(minutes=29))
    assert get(store, id).level == 0
    for wrong in (NOW, NOW + timedelta(minutes=76)):
        with pytest.raises(CareError, match="within 1 hour"):
            phone_calls.attempt(Desk(store, NOW + timedelta(minutes=15), nurse, ZONE), id, None, "", clinic, wrong)
    asked = NOW + timedelta(minutes=40)
    phone_calls.attempt(Desk(store, NOW + timedelta(minutes=15), nurse, ZONE), id, None, "", clinic, asked)
    found = get(store, id)
    assert (found.state, found.next_try_at, found.level, found.moved_up) == ("claimed", asked, 1, 1)
    phone_calls.attempt(Desk(store, NOW + timedelta(minutes=20), nurse, ZONE), id, "patient", "", clinic)
    phone_calls.attempt(Desk(store, NOW + timedelta(minutes=25), nurse, ZONE), id, None, "", clinic)
    assert get(store, id).level == 1  # the count begins anew after a conversation


def test_a_try_that_does_not_take_place_moves_up(store: Store, nurse: Actor, opened: str, settings: Settings) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, None, "", settings.clinic, NOW + timedelta(hours=1))
    moving_up.escalate_overdue(store, NOW + timedelta(hours=1, minutes=15))
    assert get(store, opened).level == 1


@pytest.mark.parametrize("state", ["waiting", "claimed", "to-do", "told"])
def test_every_open_state_moves_up_when_it_is_late(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings, state: str
) -> None:
    if state in ("to-do", "told"):
        deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "theatre", "", settings.clinic, owner=nurse.id)
    elif state == "claimed":
        holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    if state == "told":
        phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    due = get(store, opened).due_at
    moving_up.escalate_overdue(store, due - timedelta(minutes=1))
    assert get(store, opened).level == 0
    moving_up.escalate_overdue(store, due)
    assert (get(store, opened).level, get(store, opened).moved_up) == (1, 1)


def test_one_that_cannot_move_up_holds_up_no_other(
    store: Store, nurse: Actor, opened: str, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    body = MeasuresBody(eye="right", findings=("hypopyon",))
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), get(store, opened).eye_id, [body])
    other = next(c.id for c in worries.open_callbacks(store) if c.id != opened)
    moves = worries.escalate

    def breaks(store: Store, id: str, level: int, due: datetime) -> bool:
        if id == opened:
            raise ValueError("cannot be read")
        return moves(store, id, level, due)

    monkeypatch.setattr(worries, "escalate", breaks)
    moving_up.escalate_overdue(store, NOW + timedelta(hours=8))
    assert (get(store, opened).level, get(store, other).level) == (0, 1)
    assert [(f.what, f.about) for f in watch.faults(store)] == [("callback", f"callbacks {opened}")]
    monkeypatch.setattr(worries, "escalate", moves)
    moving_up.escalate_overdue(store, NOW + timedelta(hours=8, minutes=5))
    assert (get(store, opened).level, watch.faults(store)) == (1, [])


def test_a_decision_after_it_moved_up_may_move_up_anew(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings
) -> None:
    moving_up.escalate_overdue(store, NOW + timedelta(hours=8))
    decided_at = NOW + timedelta(hours=9)
    task = deciding.decide(Desk(store, decided_at, surgeon, ZONE), opened, "theatre", "", settings.clinic)
    assert get(store, opened).level == 0
    moving_up.escalate_overdue(store, task.due_at)
    assert (get(store, opened).level, get(store, opened).moved_up) == (1, 2)


def test_anybody_may_take_over_and_whoever_had_it_sees_it(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings
) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    later = NOW + timedelta(minutes=10)
    holding.take_over(Desk(store, later, surgeon, ZONE), opened, nurse.id)
    assert (get(store, opened).claimed_by, get(store, opened).claimed_at) == (surgeon.id, NOW)
    with pytest.raises(Conflict, match="claim the callback first"):
        phone_calls.attempt(Desk(store, later, nurse, ZONE), opened, "patient", "", settings.clinic)
    (taken,) = worries.taken_from(store, nurse.id, NOW)
    assert (taken.by, taken.callback_id, taken.at) == ("Sol Surgeon", opened, later)
    with pytest.raises(Conflict, match="meanwhile Sol Surgeon has it"):
        holding.take_over(Desk(store, later, nurse, ZONE), opened, nurse.id)
    task = deciding.decide(Desk(store, later, surgeon, ZONE), opened, "theatre", "", settings.clinic)
    assert task.owner == surgeon.id  # who has the callback has the task
    holding.take_task(Desk(store, later, nurse, ZONE), task.id, surgeon.id)
    assert [t.by for t in worries.taken_from(store, surgeon.id, NOW)] == ["Nora Nurse"]
    with pytest.raises(Conflict, match="meanwhile Nora Nurse has it"):
        holding.take_task(Desk(store, later, surgeon, ZONE), task.id, None)
    holding.give_back_task(Desk(store, later, nurse, ZONE), task.id)
    assert get(store, opened).free
    detail = [s.detail for s in worries.steps_of(store, opened) if s.step == "taken over"]
    assert [(d["by"], d["from"]) for d in detail] == [("Sol Surgeon", "Nora Nurse"), ("Nora Nurse", "Sol Surgeon")]


def test_an_extra_visit_stands_beside_the_plan(
    store: Store, surgeon: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    """NOW is Friday 5 March 2027; the clinic opens on Monday again."""
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "sooner", "", settings.clinic)
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic)
    planned = [(v.name, v.earliest, v.target, v.latest) for v in visits.of_eye(store, eye_id)]
    assert planned == [
        ("day 1", date(2027, 3, 3), date(2027, 3, 3), date(2027, 3, 3)),
        ("extra visit", date(2027, 3, 5), date(2027, 3, 5), date(2027, 3, 5)),
        ("extra visit", date(2027, 3, 5), date(2027, 3, 8), date(2027, 3, 8)),
        ("week 1", date(2027, 3, 8), date(2027, 3, 10), date(2027, 3, 14)),
    ]


def test_a_day_that_the_clinic_is_closed_is_no_day_for_an_extra_visit(
    store: Store, surgeon: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    closed = settings.clinic.model_copy(update={"closed": ["2027-03-08"]})
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "sooner", "", closed)
    (extra,) = [v for v in visits.of_eye(store, eye_id) if v.name == "extra visit"]
    assert extra.target == date(2027, 3, 5)  # nothing is open within three days: today


@pytest.mark.parametrize(
    ("full", "on"),
    [
        ([], date(2027, 3, 8)),
        ([date(2027, 3, 8)], date(2027, 3, 9)),
        ([date(2027, 3, 8), date(2027, 3, 9)], date(2027, 3, 11)),  # the visit of week 1 is on the tenth
    ],
)
def test_the_day_proposed_is_the_first_that_has_a_place(
    store: Store, surgeon: Actor, eye_id: str, settings: Settings, full: list[date], on: date
) -> None:
    """NOW is a Friday; oil is for this week."""
    one_place = settings.clinic.model_copy(update={"places": dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), 1)})
    for day in full:
        visits.add(store, NOW, eye_id, "review", day, day, day, "", "staff")
    id = worries.add_callback(store, eye_id, "oil", "this-week", NOW, NOW + timedelta(days=3))
    assert deciding.decide(Desk(store, NOW, surgeon, ZONE), id, "sooner", "", one_place).visit_on == on


@pytest.mark.parametrize(
    ("on", "asks"),
    [
        (date(2027, 3, 8), []),  # proposed
        (date(2027, 3, 5), []),  # sooner still
        (date(2027, 3, 7), ["the clinic is closed on Sunday 7 March 2027"]),
        (date(2027, 3, 9), ["pressure is for today: come by 8 March 2027"]),
    ],
)
@pytest.mark.parametrize("who", ["surgeon", "nurse"])
def test_the_day_of_an_extra_visit_is_named_and_what_speaks_against_it_asked(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings, who: str, on: date, asks: list[str]
) -> None:
    desk = Desk(store, NOW, surgeon if who == "surgeon" else nurse, ZONE)
    if who == "nurse":
        holding.claim(desk, opened)
    act = deciding.decide if who == "surgeon" else settling.settle
    if asks:
        with pytest.raises(Asks) as raised:
            act(desk, opened, "sooner", "", settings.clinic, on=on)
        assert raised.value.questions == asks
        assert tasks.of_callback(store, opened) == []
    task = act(desk, opened, "sooner", "", settings.clinic, on=on, accepted=asks)
    assert task is not None
    assert task.visit_on == on


def test_a_decision_is_taken_back_within_five_minutes_until_somebody_called(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic)
    with pytest.raises(Conflict):
        deciding.undo(Desk(store, NOW, nurse, ZONE), opened)
    deciding.undo(Desk(store, NOW + timedelta(minutes=4), surgeon, ZONE), opened)
    found = get(store, opened)
    assert (found.state, found.claimed_by, found.due_at) == ("waiting", None, NOW + timedelta(hours=8))
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 1"]
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "same-day", "", settings.clinic, owner=nurse.id)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    with pytest.raises(Conflict, match="until somebody called"):
        deciding.undo(Desk(store, NOW, surgeon, ZONE), opened)


def test_a_decision_on_a_claimed_callback_taken_back_leaves_it_with_its_holder(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings
) -> None:
    holding.claim(Desk(store, NOW - timedelta(minutes=5), nurse, ZONE), opened)
    task = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "theatre", "", settings.clinic)
    assert task.owner == nurse.id
    deciding.undo(Desk(store, NOW + timedelta(minutes=6) - timedelta(minutes=2), surgeon, ZONE), opened)
    assert (get(store, opened).state, get(store, opened).claimed_by) == ("claimed", nurse.id)


def test_a_settlement_taken_back_is_to_do_again(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings
) -> None:
    task = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "theatre", "", settings.clinic, owner=nurse.id)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    settling.finish(Desk(store, NOW, nurse, ZONE), task.id, "on the list", NOW.date())
    with pytest.raises(Conflict):
        deciding.undo(Desk(store, NOW + timedelta(minutes=2), surgeon, ZONE), opened)
    with pytest.raises(Conflict):
        deciding.undo(Desk(store, NOW + timedelta(minutes=6), nurse, ZONE), opened)
    deciding.undo(Desk(store, NOW + timedelta(minutes=2), nurse, ZONE), opened)
    (again,) = tasks.of_callback(store, opened)
    assert (get(store, opened).state, again.done_at, again.owner) == ("to-do", None, nurse.id)


def test_the_same_worry_stays_one_callback_and_a_worse_value_raises_it(
    store: Store, nurse: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    measure(store, nurse, eye_id, settings, 33, NOW + timedelta(minutes=10))
    assert [c.how_soon for c in worries.open_callbacks(store) if c.worry == "pressure"] == ["today"]
    measure(store, nurse, eye_id, settings, 45, NOW + timedelta(minutes=20))
    now_one = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    assert [(c.id, c.how_soon) for c in now_one] == [(opened, "now")]
    assert now_one[0].due_at == NOW + timedelta(minutes=80)


@pytest.mark.parametrize(("iop", "how_soon"), [(45, "now"), (39, "today"), (25, "this-week"), (16, None)])
@pytest.mark.parametrize("outcome", ["advice", "sooner"])
def test_what_was_decided_for_later_is_due_by_the_urgency_of_a_sign_that_comes_up_meanwhile(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, opened: str, settings: Settings, outcome: str, iop: float,
    how_soon: HowSoon | None,
) -> None:  # fmt: skip
    """After the 34 mmHg of `opened`, advice in three weeks' time, or a visit on Monday that the patient knows of. Then 45 (now),
    39 (today), 25 after 16 (this week), or 16 (no sign).
    """
    later, weeks = NOW + timedelta(days=1), NOW + timedelta(days=21)
    due_at = weeks if outcome == "advice" else None
    deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, outcome, "", settings.clinic, owner=nurse.id, due_at=due_at)
    if outcome == "sooner":
        phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    decided = get(store, opened).due_at
    assert decided >= later + timedelta(days=1, hours=12)
    if iop == 25:
        measure(store, nurse, eye_id, settings, 16, later - timedelta(minutes=1))
    measure(store, nurse, eye_id, settings, iop, later)
    found = get(store, opened)
    expected = min(decided, later + DUE_WITHIN[how_soon]) if how_soon else decided
    assert (found.state, found.due_at) == ("to-do", expected)
    assert opened in [c.id for c in moving_up.escalate_overdue(store, expected)]


def test_a_danger_that_lasts_after_settling_opens_a_new_callback(
    store: Store, nurse: Actor, eye_id: str, opened: str, settings: Settings
) -> None:
    holding.claim(Desk(store, NOW, nurse, ZONE), opened)
    phone_calls.attempt(Desk(store, NOW, nurse, ZONE), opened, "patient", "", settings.clinic)
    settling.settle(Desk(store, NOW, nurse, ZONE), opened, "advice", "", settings.clinic)
    again = measure(store, nurse, eye_id, settings, 33, NOW + timedelta(hours=1))
    assert {w.callback_id for w in again if w.worry == "pressure"}.isdisjoint({opened})
    assert [c.how_soon for c in worries.open_callbacks(store) if c.worry == "pressure"] == ["today"]


def test_a_callback_moves_up_to_the_surgeon_then_to_the_on_call_contact(store: Store, opened: str) -> None:
    def level() -> int:
        found = worries.callback(store, opened)
        assert found is not None
        return int(found.level)

    moving_up.escalate_overdue(store, NOW + timedelta(hours=7, minutes=59))
    assert level() == 0
    moving_up.escalate_overdue(store, NOW + timedelta(hours=8))
    assert level() == 1
    moving_up.escalate_overdue(store, NOW + timedelta(hours=8, minutes=1))
    assert level() == 1
    moving_up.escalate_overdue(store, NOW + timedelta(hours=13))
    assert level() == 2
    moving_up.escalate_overdue(store, NOW + timedelta(days=3))
    assert level() == 2
    moves = [s.detail["to"] for s in worries.steps_of(store, opened) if s.step == "moved up"]
    assert moves == ["surgeon", "on-call contact"]


def test_there_is_no_callback_of_that_name(store: Store, nurse: Actor) -> None:
    with pytest.raises(NotFound):
        holding.claim(Desk(store, NOW, nurse, ZONE), "nothing")


def test_callbacks_of_an_older_database_stay_what_they_were(settings: Settings) -> None:
    path = settings.server.database.with_name("old.db")
    old = Database(path)
    steps.apply(old, stop_before="m007_tasks")
    at = "2027-03-02T18:00:00.000000Z"
    old["staff"].insert(
        {"id": "n", "name": "Nora Nurse", "role": "nurse", "email": "n@test.invalid", "password_hash": "", "created_at": at}
    )
    person = {"number": "1", "name": "P", "born_on": "1950-01-01", "phone": "", "language": "en", "created_at": at}
    old["patients"].insert({"id": "p", **person})
    old["operations"].insert({"id": "o", "patient_id": "p", "created_at": at})
    for state, worry in (("waiting", "pressure"), ("claimed", "retina"), ("settled", "pressure")):
        row = {"id": state, "operation_id": "o", "worry": worry, "how_soon": "today", "opened_at": at, "due_at": at}
        row |= {"state": state, "claimed_by": None if state == "waiting" else "n", "level": 1}
        old["callbacks"].insert(row)
    old.conn.close()
    upgraded = open_store(path)
    known = {c.id: (c.state, c.free, c.moved_up, c.settled_by) for c in worries.callbacks_of(upgraded, "o")}
    assert known == {
        "waiting": ("waiting", True, 1, None),
        "claimed": ("claimed", False, 1, None),
        "settled": ("settled", False, 1, "n"),
    }
    upgraded.close()


RACE = """
import sys
from datetime import UTC, datetime
from followup.care.callbacks import holding, moving_up
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import Conflict
from followup.records import open_store
path, what, now, *about = sys.argv[1:]
store, now = open_store(path), datetime.fromisoformat(now)
sys.stdin.readline()
try:
    if what == "escalate":
        print(len(moving_up.escalate_overdue(store, now)))
    else:
        me, id, *whose = about
        act = {"claim": holding.claim, "take over": holding.take_over, "take task": holding.take_task}[what]
        act(Desk(store, now, Actor(me, me, "nurse"), UTC), id, *(w or None for w in whose))
        print(1)
except Conflict:
    print(0)
"""


def race(store: Store, what: str, now: datetime, *about: list[str]) -> list[int]:
    """Do it in as many processes as `about` has arguments for, all at once; what each printed."""
    racers = [
        subprocess.Popen(
            [sys.executable, "-c", RACE, str(store.path), what, now.isoformat(), *words],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        for words in about
    ]
    for racer in racers:
        assert racer.stdin is not None
        racer.stdin.write("go\n")
        racer.stdin.flush()
    return [int(racer.communicate(timeout=60)[0]) for racer in racers]


def test_two_processes_move_it_up_exactly_once(store: Store, opened: str) -> None:
    moved = sum(race(store, "escalate", NOW + timedelta(hours=9), [], [], []))
    overdue = len([c for c in worries.open_callbacks(store) if c.level == 1])
    assert moved == overdue >= 1
    assert [s.step for s in worries.steps_of(store, opened)].count("moved up") == 1


@pytest.mark.parametrize("what", ["claim", "take over", "take task"])
def test_two_processes_take_it_exactly_once(
    store: Store, nurse: Actor, surgeon: Actor, opened: str, settings: Settings, what: str
) -> None:
    others = [accounts.add_staff(store, NOW, f"Nurse {n}", "nurse", f"n{n}@test.invalid", PASSWORD) for n in range(3)]
    about = [[me, opened] for me in others]
    if what == "take over":
        holding.claim(Desk(store, NOW, nurse, ZONE), opened)
        about = [[me, opened, nurse.id] for me in others]
    elif what == "take task":
        task = deciding.decide(Desk(store, NOW, surgeon, ZONE), opened, "theatre", "", settings.clinic)
        about = [[me, task.id, ""] for me in others]
    won = race(store, what, NOW, *about)
    assert sorted(won) == [0, 0, 1]
    holder = tasks.of_callback(store, opened)[0].owner if what == "take task" else get(store, opened).claimed_by
    assert holder == others[won.index(1)]


@pytest.mark.parametrize("outcome", ["same-day", "sooner", "advice", "theatre"])
@pytest.mark.parametrize("fellow", [False, True])
def test_nobody_is_to_come_whom_no_list_of_the_day_would_show(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings, outcome: str, fellow: bool
) -> None:
    """Follow-up had ended when the pressure was entered, or ends while that of the other eye is open."""
    later, entered = NOW + timedelta(days=1), Desk(store, NOW + timedelta(hours=1), nurse, ZONE)
    body = MeasuresBody(eye="left" if fellow else "right", iop_mmhg=34, instrument="applanation")
    if fellow:
        visit.record_visit(entered, eye_id, [body])
    for id in [c.id for c in worries.open_callbacks(store) if c.eye_id == eye_id]:
        holding.claim(entered, id)
        phone_calls.attempt(entered, id, "patient", "", settings.clinic)
        settling.settle(entered, id, "advice", "told", settings.clinic)
    following.end(entered, eye_id, "moved", "")
    if not fellow:
        visit.record_visit(entered, eye_id, [body])
    call = next(c.id for c in worries.open_callbacks(store) if (c.eye_id != eye_id) == fellow)
    desk = Desk(store, later, surgeon, ZONE)
    comes = outcome in ("same-day", "sooner")
    if comes:
        with pytest.raises(CareError, match="take up follow-up first"):
            deciding.decide(desk, call, outcome, "", settings.clinic)
        holding.claim(desk, call)
        phone_calls.attempt(desk, call, "patient", "", settings.clinic)
        with pytest.raises(CareError, match="take up follow-up first"):
            settling.settle(desk, call, outcome, "", settings.clinic, told=True)
        assert get(store, call).state == "claimed"
        following.take_up(desk, eye_id, "to be seen")
    task = deciding.decide(desk, call, outcome, "", settings.clinic)
    assert [d.visit.identity for d in lists.due_in(store, later, ZONE, lists.STATES) if d.eye.id == eye_id] == [
        task.visit_id
    ] * comes
