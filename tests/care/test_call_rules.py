"""Rules of a call to their edges: when somebody counts as spoken to, when to try again, when it moves up, by when it is done.

Common practice, no source, where none is named.
"""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls, deciding, going_home, holding, kinds, moving_up, to_do
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Clinic, Settings
from followup.records import Store, events, tasks, worries
from followup.records.values import Callback, Step, Task
from tests.conftest import NOW, PASSWORD, ZONE
from tests.records.rows import callback, known, visit
from tests.records.rows import task as a_task

SECOND = timedelta(seconds=1)


@pytest.fixture
def clinic(settings: Settings) -> Clinic:
    return settings.clinic


def desk(store: Store, who: Actor, now: datetime = NOW) -> Desk:
    return Desk(store, now, who, ZONE)


def as_it_stands(store: Store, of: Callback) -> Callback:
    return known(worries.callback(store, of.id))


# --- Spoken to ---

OPENED, RAISED = {"how_soon": "today"}, {"how_soon": "now"}
WEEK: dict[str, Any] = {"how_soon": "this-week"}
SAID: dict[str, tuple[list[tuple[str, dict[str, Any]]], bool]] = {
    "nobody called": ([("opened", OPENED)], False),
    "reached": ([("opened", OPENED), ("reached", {})], True),
    "not reached": ([("opened", OPENED), ("not reached", {})], False),
    "reached before it was urgent": ([("opened", WEEK), ("reached", {}), ("raised again", RAISED)], False),
    "reached before it was raised to today": ([("opened", WEEK), ("reached", {}), ("raised again", OPENED)], False),
    "raised and not urgent": ([("opened", OPENED), ("reached", {}), ("raised again", WEEK)], True),
    "reached again": ([("opened", OPENED), ("reached", {}), ("raised again", RAISED), ("reached", {})], True),
    "theatre fell away": ([("opened", OPENED), ("reached", {}), (kinds.CANCELLED, {})], False),
    "reached and then missed": ([("opened", OPENED), ("reached", {}), ("not reached", {})], True),
    "nothing urgent ever": ([("opened", WEEK)], False),
    "no step at all": ([], False),
}


@pytest.mark.parametrize(("steps", "spoken"), SAID.values(), ids=SAID.keys())
def test_whether_somebody_was_spoken_to(steps: list[tuple[str, dict[str, Any]]], spoken: bool) -> None:
    made = [Step(f"{n}", "c", NOW, "nurse:n", step, detail) for n, (step, detail) in enumerate(steps)]
    assert calls.conversation(made) is spoken


# --- Trying again and moving up ---


@pytest.mark.parametrize(("how_soon", "minutes"), [("now", 15), ("today", 60), ("this-week", 24 * 60)])
def test_who_was_not_reached_is_tried_again_by_how_soon_it_is(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic, how_soon: str, minutes: int
) -> None:
    call = callback(store, eye_id, how_soon=how_soon)
    holding.claim(desk(store, nurse), call.id)
    calls.attempt(desk(store, nurse), call.id, None, "", clinic)
    found, again = as_it_stands(store, call), NOW + timedelta(minutes=minutes)
    assert (found.next_try_at, found.due_at) == (again, again + timedelta(minutes=15))


@pytest.mark.parametrize("how_soon", list(DUE_WITHIN))
@pytest.mark.parametrize(("beyond", "taken"), [(timedelta(0), True), (SECOND, False)])
def test_the_next_try_is_within_the_time_of_its_urgency(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic, how_soon: Any, beyond: timedelta, taken: bool
) -> None:
    call = callback(store, eye_id, how_soon=how_soon)
    holding.claim(desk(store, nurse), call.id)
    next_try = NOW + DUE_WITHIN[how_soon] + beyond
    if taken:
        calls.attempt(desk(store, nurse), call.id, None, "", clinic, next_try)
    else:
        with pytest.raises(CareError, match="the next try is still to come, and within"):
            calls.attempt(desk(store, nurse), call.id, None, "", clinic, next_try)
    assert as_it_stands(store, call).next_try_at == (next_try if taken else None)


def test_the_next_try_lies_ahead(store: Store, nurse: Actor, eye_id: str, clinic: Clinic) -> None:
    call = callback(store, eye_id, how_soon="now")
    holding.claim(desk(store, nurse), call.id)
    with pytest.raises(CareError, match=r"within 1 hour$"):
        calls.attempt(desk(store, nurse), call.id, None, "", clinic, NOW)
    assert [s.step for s in worries.steps_of(store, call.id)] == ["claimed"]


def test_a_call_is_recorded_by_whoever_has_it_alone(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, clinic: Clinic
) -> None:
    call = callback(store, eye_id)
    holding.claim(desk(store, nurse), call.id)
    with pytest.raises(Conflict, match="claim the callback first"):
        calls.attempt(desk(store, surgeon), call.id, "patient", "all well", clinic)
    worries.settle(store, NOW, call.id, nurse.id, "advice")
    with pytest.raises(Conflict, match="this callback is settled"):
        calls.attempt(desk(store, nurse), call.id, "patient", "all well", clinic)
    assert [s.step for s in worries.steps_of(store, call.id)] == ["claimed"]


def test_of_several_worries_the_next_try_goes_by_the_worst(store: Store, nurse: Actor, eye_id: str, clinic: Clinic) -> None:
    week, now = callback(store, eye_id, "pain", "this-week"), callback(store, eye_id, "pressure", "now")
    holding.claim_call(desk(store, nurse), week.id)
    calls.attempt(desk(store, nurse), week.id, None, "", clinic)
    again = NOW + timedelta(minutes=15)
    assert [as_it_stands(store, call).next_try_at for call in (week, now)] == [again, again]


@pytest.mark.parametrize(("spoke_to", "heard"), [("patient", 1), ("carer", 1), (None, 0)])
def test_the_patient_was_heard_where_somebody_was_reached(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic, spoke_to: str | None, heard: int
) -> None:
    for worry in ("pain", "pressure"):
        call = callback(store, eye_id, worry)
    holding.claim_call(desk(store, nurse), call.id)
    calls.attempt(desk(store, nurse), call.id, spoke_to, "sleeps well", clinic)
    assert [e.kind for e in events.history_of(store, eye_id)].count("heard") == heard


def test_who_was_reached_was_told_of_what_is_still_to_do(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, clinic: Clinic
) -> None:
    call = callback(store, eye_id)
    done, open_one = (a_task(store, call, surgeon, nurse) for _ in range(2))
    tasks.end(store, NOW, done.id, nurse.id, "done")
    calls.attempt(desk(store, nurse), call.id, "patient", "", clinic)
    told = [known(tasks.task(store, one.id)).told_at for one in (done, open_one)]
    assert told == [None, NOW]


@pytest.mark.parametrize(
    ("tries", "levels"),
    [
        ("nn", [0, 0]),
        ("nnn", [0, 0, 1]),
        ("nnrnn", [0, 0, 0, 0, 0]),
        ("nnrnnn", [0, 0, 0, 0, 0, 1]),
        ("nnnnnn", [0, 0, 1, 1, 1, 2]),
    ],
)
def test_it_moves_up_with_every_third_call_in_a_row_that_reached_nobody(
    store: Store, nurse: Actor, eye_id: str, clinic: Clinic, tries: str, levels: list[int]
) -> None:
    call, found = callback(store, eye_id), []
    holding.claim(desk(store, nurse), call.id)
    for n, how in enumerate(tries):
        at = desk(store, nurse, NOW + timedelta(minutes=n))
        calls.attempt(at, call.id, "patient" if how == "r" else None, "", clinic)
        found.append(as_it_stands(store, call).level)
    assert found == levels


@pytest.mark.parametrize(("how_soon", "hours"), [("now", 0.5), ("today", 4), ("this-week", 60)])
def test_what_moved_up_has_half_its_time_again_and_half_an_hour_at_least(
    store: Store, eye_id: str, how_soon: str, hours: float
) -> None:
    call, late = callback(store, eye_id, how_soon=how_soon), NOW + timedelta(days=9)
    (moved,) = moving_up.escalate_overdue(store, late)
    assert (moved.id, moved.level) == (call.id, 1)
    assert as_it_stands(store, call).due_at == late + timedelta(hours=hours)


def test_it_moves_up_to_the_surgeon_then_to_whoever_is_on_call_and_no_further(store: Store, eye_id: str) -> None:
    call = callback(store, eye_id)
    moved = [moving_up.escalate_overdue(store, NOW + timedelta(days=n)) for n in range(1, 5)]
    assert [len(found) for found in moved] == [1, 1, 0, 0]
    assert [s.detail["to"] for s in worries.steps_of(store, call.id)] == ["surgeon", "on-call contact"]


# --- By when it is done ---


@pytest.mark.parametrize(
    ("kind", "visit_on", "done_by"),
    [
        ("phone", None, NOW + timedelta(hours=1)),
        ("come-today", None, NOW + timedelta(hours=1)),
        ("theatre", None, NOW + timedelta(days=1)),
        ("extra-visit", date(2027, 3, 9), datetime(2027, 3, 9, 23, tzinfo=UTC)),
        ("extra-visit", date(2027, 3, 5), datetime(2027, 3, 5, 23, tzinfo=UTC)),
        ("extra-visit", date(2027, 3, 4), datetime(2027, 3, 5, 23, tzinfo=UTC)),  # a day that is over: today still
        # Summer time begins on 28 March 2027 in Vienna (Directive 2000/84/EC): midnight comes an hour earlier in UTC.
        ("extra-visit", date(2027, 3, 27), datetime(2027, 3, 27, 23, tzinfo=UTC)),
        ("extra-visit", date(2027, 3, 28), datetime(2027, 3, 28, 22, tzinfo=UTC)),
    ],
)
def test_what_the_patient_knows_of_is_done_with_the_day_of_its_visit(
    store: Store, surgeon: Actor, eye_id: str, kind: str, visit_on: date | None, done_by: datetime
) -> None:
    booked = visit(store, eye_id, visit_on).identity if visit_on else None
    made = a_task(store, callback(store, eye_id), surgeon, kind=kind, visit_id=booked)
    assert to_do.do_by(made, NOW, ZONE) == done_by


@pytest.mark.parametrize(
    ("worry", "how_soon", "usual"),
    [
        ("words", "now", "advice"),
        ("silence", "this-week", "advice"),
        ("pressure", "now", "same-day"),
        ("pressure", "today", "same-day"),
        ("pressure", "this-week", "sooner"),
        ("retina", "now", "same-day"),
    ],
)
def test_what_a_call_can_tell_is_asked_first_and_an_eye_in_danger_is_looked_at(
    worry: str, how_soon: str, usual: str
) -> None:
    assert kinds.usual_decision(worry, how_soon) == usual
    assert usual in kinds.DECISIONS


def test_every_decision_has_its_task_with_words_before_and_after_it_was_told() -> None:
    for decision in kinds.DECISIONS:
        task = kinds.TASK_OF[decision]
        assert kinds.TASKS[task] != kinds.TASKS_ONCE_TOLD[task]
        assert kinds.OUTCOME_OF[task] == decision


# --- Who has it ---


@pytest.fixture
def decided(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, clinic: Clinic) -> Task:
    """Advice that the nurse is to give."""
    call = callback(store, eye_id, how_soon="this-week")
    return deciding.decide(desk(store, surgeon), call.id, "advice", "wait and see", clinic, owner=nurse.id)


@pytest.fixture
def third(store: Store) -> Actor:
    return Actor(accounts.add_staff(store, NOW, "Tess Third", "nurse", "tess@test.invalid", PASSWORD), "Tess Third", "nurse")


REFUSED: dict[str, tuple[Callable[[Desk, Task], object], type[CareError], str]] = {
    "claim what is decided": (lambda d, t: holding.claim(d, t.callback_id), Conflict, "is decided; take what is to do"),
    "give back what is decided": (lambda d, t: holding.release(d, t.callback_id), Conflict, "only the person who claimed"),
    "take a task from another": (
        lambda d, t: holding.take_task(d, t.id, d.actor.id),
        Conflict,
        "meanwhile Nora Nurse has it",
    ),
    "take a task from nobody": (lambda d, t: holding.take_task(d, t.id, None), Conflict, "meanwhile Nora Nurse has it"),
    "give back another's": (lambda d, t: holding.give_back_task(d, t.id), Conflict, "only the person who has it"),
    "work on another's": (lambda d, t: holding.my_task(d, t.id), Conflict, "Nora Nurse has this now; take it first"),
    "call beside": (lambda d, t: holding.claim_call(d, t.callback_id), Conflict, "claimed by Nora Nurse; take it over"),
    "take from who has nothing": (lambda d, t: holding.take_call_over(d, t.callback_id, d.actor.id), Conflict, "meanwhile"),
    "an unknown call": (lambda d, t: holding.claim(d, "none"), NotFound, "no such callback"),
    "an unknown task": (lambda d, t: holding.take_task(d, "none", None), NotFound, "no such task"),
}


@pytest.mark.parametrize(("act", "error", "words"), REFUSED.values(), ids=REFUSED.keys())
def test_nobody_takes_past_whoever_has_it(
    store: Store, decided: Task, third: Actor, act: Callable[[Desk, Task], object], error: type[CareError], words: str
) -> None:
    before = worries.steps_of(store, decided.callback_id)
    with pytest.raises(error, match=words):
        act(desk(store, third), decided)
    assert (tasks.task(store, decided.id), worries.steps_of(store, decided.callback_id)) == (decided, before)


def test_what_is_done_is_nobodys_to_take(store: Store, nurse: Actor, third: Actor, decided: Task) -> None:
    tasks.end(store, NOW, decided.id, nurse.id, "done")
    for act in (
        lambda: holding.my_task(desk(store, nurse), decided.id),
        lambda: holding.take_task(desk(store, third), decided.id, nurse.id),
    ):
        with pytest.raises(Conflict, match="meanwhile"):
            act()


def test_a_call_that_is_taken_over_takes_tasks_and_what_waits_along(
    store: Store, nurse: Actor, third: Actor, decided: Task
) -> None:
    waiting = callback(store, decided.eye_id, "pain")
    holding.take_call_over(desk(store, third), decided.callback_id, nurse.id)
    assert known(tasks.task(store, decided.id)).owner == third.id
    assert as_it_stands(store, waiting).claimed_by == third.id
    assert holding.callers(desk(store, third), holding.open_of_patient(store, waiting)) == {}


@pytest.mark.parametrize(
    ("state", "claimed", "taken_over"),
    [
        ("waiting", None, "meanwhile this has changed; look at it again"),
        ("claimed", "this callback was claimed by Nora Nurse", "meanwhile Nora Nurse has it"),
        ("settled", "this callback is settled", "meanwhile this has changed; look at it again"),
    ],
)
def test_whoever_comes_too_late_is_told_what_became_of_it(
    store: Store, nurse: Actor, third: Actor, eye_id: str, state: str, claimed: str | None, taken_over: str
) -> None:
    call = callback(store, eye_id)
    if state != "waiting":
        worries.claim(store, NOW, call.id, nurse.id)
    if state == "settled":
        worries.settle(store, NOW, call.id, nurse.id, "advice")
    with pytest.raises(Conflict, match=taken_over):
        holding.take_over(desk(store, third), call.id, third.id)
    if claimed:
        with pytest.raises(Conflict, match=claimed):
            holding.claim(desk(store, third), call.id)
    assert worries.steps_of(store, call.id) == []


def test_who_took_over_from_whom_is_a_step_of_the_callback(store: Store, nurse: Actor, third: Actor, eye_id: str) -> None:
    call = callback(store, eye_id)
    holding.claim(desk(store, nurse), call.id)
    holding.take_over(desk(store, third), call.id, nurse.id)
    assert [(s.step, s.who, s.detail) for s in worries.steps_of(store, call.id)] == [
        ("claimed", nurse.signature, {"by": "Nora Nurse"}),
        ("taken over", third.signature, {"by": "Tess Third", "from": "Nora Nurse", "from_id": nurse.id}),
    ]


@pytest.mark.parametrize(("told", "owned", "callers"), [(False, True, 1), (True, True, 0), (False, False, 0)])
def test_who_is_still_to_tell_the_patient_is_about_to_call(
    store: Store, nurse: Actor, surgeon: Actor, third: Actor, eye_id: str, told: bool, owned: bool, callers: int
) -> None:
    call = callback(store, eye_id)
    a_task(store, call, surgeon, nurse if owned else None, told_at=NOW if told else None)
    assert len(holding.callers(desk(store, third), [as_it_stands(store, call)])) == callers


@pytest.fixture
def two(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> tuple[Callback, Callback]:
    """Two worries of an eye: one that the nurse has claimed, one that the surgeon has."""
    made = callback(store, eye_id, "pressure"), callback(store, eye_id, "pain")
    for call, who in zip(made, (nurse, surgeon), strict=True):
        holding.claim(desk(store, who), call.id)
    return made


def holders(store: Store, calls_of: tuple[Callback, ...]) -> list[str | None]:
    return [as_it_stands(store, call).claimed_by for call in calls_of]


def test_a_call_taken_over_leaves_what_somebody_else_has(
    store: Store, nurse: Actor, surgeon: Actor, third: Actor, two: tuple[Callback, Callback]
) -> None:
    holding.take_call_over(desk(store, third), two[0].id, nurse.id)
    assert holders(store, two) == [third.id, surgeon.id]


def test_a_call_given_back_leaves_what_somebody_else_has(
    store: Store, nurse: Actor, surgeon: Actor, two: tuple[Callback, Callback]
) -> None:
    holding.give_call_back(desk(store, nurse), two[1].id)
    assert holders(store, two) == [None, surgeon.id]


def test_what_is_decided_is_not_given_back_with_the_call(store: Store, nurse: Actor, surgeon: Actor, eye_id: str) -> None:
    call, other = callback(store, eye_id), callback(store, eye_id, "pain")
    for one in (call, other):
        holding.claim(desk(store, nurse), one.id)
    a_task(store, call, surgeon, nurse)
    holding.give_call_back(desk(store, nurse), other.id)
    assert holders(store, (call, other)) == [nurse.id, None]


def test_one_of_another_patient_is_not_chosen_along(store: Store, nurse: Actor, eye_id: str) -> None:
    call = callback(store, eye_id)
    with pytest.raises(Conflict, match="one of these was settled meanwhile"):
        holding.chosen(desk(store, nurse), call.id, ["another"])
    worries.settle(store, NOW, call.id, nurse.id, "advice")
    with pytest.raises(Conflict, match="this callback is settled"):
        holding.chosen(desk(store, nurse), call.id, [])


# --- Going home ---


@pytest.mark.parametrize(
    ("way", "to", "words"),
    [
        ("away", None, "say what becomes of it"),
        ("to", None, "choose who takes it"),
        ("to", "nobody", "this account is not there any more"),
        ("to", "self", "choose who takes it"),
        ("to", "left", "this account is not there any more"),
    ],
)
def test_what_is_in_hand_goes_to_somebody_who_can_take_it(
    store: Store, nurse: Actor, third: Actor, decided: Task, way: str, to: str | None, words: str
) -> None:
    accounts.end(store, NOW, third.id)
    colleague = {"self": nurse.id, "left": third.id}.get(to or "", to)
    with pytest.raises(CareError, match=words):
        going_home.hand_over(desk(store, nurse), way, colleague)
    assert known(tasks.task(store, decided.id)).owner == nurse.id


@pytest.mark.parametrize(
    ("way", "step"), [("back", "given back"), ("to", "handed over"), ("keep", "kept at the end of the day")]
)
def test_each_callback_in_hand_says_once_what_became_of_it(
    store: Store, nurse: Actor, third: Actor, decided: Task, way: str, step: str
) -> None:
    claimed = callback(store, decided.eye_id, "pain")
    holding.claim(desk(store, nurse), claimed.id)
    held = going_home.hand_over(desk(store, nurse), way, third.id if way == "to" else None)
    assert sorted(held.callback_ids) == sorted([claimed.id, decided.callback_id])
    owner = {"back": None, "to": third.id, "keep": nurse.id}[way]
    assert (as_it_stands(store, claimed).claimed_by, known(tasks.task(store, decided.id)).owner) == (owner, owner)
    for id in held.callback_ids:
        assert [s.step for s in worries.steps_of(store, id)].count(step) == 1


def test_empty_hands_hand_nothing_over(store: Store, third: Actor) -> None:
    assert going_home.hand_over(desk(store, third), "back").callback_ids == []
    assert not going_home.holds_anything(store, third.id)
