"""What was decided for theatre, as rows: their order, what takes an eye off the list, and what the eye's last decision was."""

from datetime import date, timedelta

import pytest

from followup.care.actors import Actor
from followup.records import Store, eyes, kept_waiting, patients, tasks
from followup.records.values import Callback, Task
from tests.conftest import NOW, ZONE, operation_note
from tests.records.rows import callback, entry, known, left, operated, person, right, task, visit

MONDAY, TUESDAY = date(2027, 3, 8), date(2027, 3, 9)
LATER = NOW + timedelta(days=3)


@pytest.fixture
def call(store: Store, eye_id: str) -> Callback:
    return callback(store, eye_id)


@pytest.fixture
def decided(store: Store, call: Callback, surgeon: Actor) -> Task:
    return task(store, call, surgeon, kind="theatre")


def ids(found: list[Task]) -> list[str]:
    return [t.id for t in found]


def for_theatre(store: Store) -> list[str]:
    """Who is for theatre, by the ids of the tasks: on the list, and as each eye and each task alone have it."""
    found = ids(tasks.for_theatre(store))
    of_eyes = [id for row in store.rows("SELECT id FROM eyes") for id in ids(tasks.theatre_to_come(store, row["id"]))]
    alone = [row["id"] for row in store.rows("SELECT id FROM tasks") if tasks.is_for_theatre(store, row["id"])]
    assert set(of_eyes) == set(alone) == set(found)
    assert kept_waiting.differences(store) == []
    return found


def test_what_has_no_day_comes_first_then_by_day_and_list_and_due(store: Store, call: Callback, surgeon: Actor) -> None:
    plans = [(TUESDAY, "a", 0), (MONDAY, "b", 0), (MONDAY, "a", 2), (MONDAY, "a", 1), (None, "", 3), (None, "", 2)]
    made = []
    for day, on_list, hours in plans:
        made.append(task(store, call, surgeon, kind="theatre", due_at=NOW + timedelta(hours=hours)).id)
        tasks.plan_theatre(store, made[-1], day, on_list)
    assert [made.index(id) for id in for_theatre(store)] == [5, 4, 3, 2, 1, 0]


def test_the_day_and_list_of_theatre_can_be_taken_back(store: Store, decided: Task) -> None:
    tasks.plan_theatre(store, decided.id, MONDAY, "morning")
    assert (known(tasks.task(store, decided.id)).theatre_on, known(tasks.task(store, decided.id)).theatre_list) == (
        MONDAY, "morning",
    )  # fmt: skip
    tasks.plan_theatre(store, decided.id, None, "")
    assert known(tasks.task(store, decided.id)) == decided


def test_what_is_confirmed_stays_for_theatre_and_what_is_given_up_does_not(
    store: Store, decided: Task, surgeon: Actor
) -> None:
    tasks.end(store, LATER, decided.id, surgeon.id, "morning")
    assert for_theatre(store) == ids(tasks.for_theatre_of(store, decided.eye_id)) == [decided.id]
    tasks.end(store, LATER, decided.id, surgeon.id, "unwell", given_up=True)
    assert for_theatre(store) == tasks.for_theatre_of(store, decided.eye_id) == []


def test_no_other_decision_is_for_theatre(store: Store, call: Callback, surgeon: Actor) -> None:
    task(store, call, surgeon, kind="visit")
    assert for_theatre(store) == tasks.for_theatre_of(store, call.eye_id) == []


def test_an_eye_whose_follow_up_ended_is_not_for_theatre(store: Store, decided: Task) -> None:
    eyes.end(store, LATER, decided.eye_id, "moved")
    assert for_theatre(store) == []
    assert ids(tasks.for_theatre_of(store, decided.eye_id)) == [decided.id]


def test_an_eye_whose_follow_up_goes_on_again_is_for_theatre_again(store: Store, decided: Task) -> None:
    eyes.end(store, LATER, decided.eye_id, "moved")
    eyes.begin(store, LATER, decided.eye_id)
    assert for_theatre(store) == [decided.id]


def test_an_operation_that_turns_out_to_be_of_the_other_eye_puts_it_back_for_theatre(store: Store, decided: Task) -> None:
    id = operated(store, decided.eye_id, NOW + timedelta(hours=1), LATER)
    assert for_theatre(store) == []
    eyes.move_operation(store, id, left(store, known(eyes.eye(store, decided.eye_id)).patient).id)
    assert for_theatre(store) == [decided.id]
    eyes.move_operation(store, id, decided.eye_id)
    assert for_theatre(store) == []


def test_what_is_over_is_not_read(store: Store, call: Callback, surgeon: Actor, decided: Task) -> None:
    """Asked of SQLite: the work of the list is the same after hundreds that were confirmed and operated."""

    def work() -> int:
        steps = 0

        def step() -> None:
            nonlocal steps
            steps += 1

        store.db.conn.set_progress_handler(step, 1)
        assert len(tasks.for_theatre(store)) == 1
        store.db.conn.set_progress_handler(None, 0)
        return steps

    before = work()
    with store.transaction():
        for _ in range(200):
            over = task(store, call, surgeon, kind="theatre", at=NOW - timedelta(days=30), decision=None)
            tasks.end(store, NOW, over.id, surgeon.id, "morning")
        operated(store, call.eye_id, NOW - timedelta(days=9), NOW - timedelta(hours=1))
    assert for_theatre(store) == [decided.id]
    assert work() <= before * 2


@pytest.mark.parametrize(
    ("operated_hours", "recorded_hours", "stays"),
    [
        (48, 72, False),
        (-2, 72, False),  # earlier on the day of the decision, and entered after it
        (-26, 72, True),  # the day before: the operation that was decided is another one
        (-2, -1, True),  # on record already when theatre was decided
        (-2, 0, True),
    ],
)
def test_an_operation_since_the_decision_takes_the_eye_off_the_list(
    store: Store, decided: Task, operated_hours: int, recorded_hours: int, stays: bool
) -> None:
    at, now = (NOW + timedelta(hours=hours) for hours in (operated_hours, recorded_hours))
    operated(store, decided.eye_id, at, now)
    assert for_theatre(store) == ([decided.id] if stays else [])


def test_an_operation_of_the_other_eye_leaves_it_for_theatre(store: Store, decided: Task) -> None:
    patient = known(eyes.eye(store, decided.eye_id)).patient
    operated(store, left(store, patient).id, NOW + timedelta(hours=1), LATER, eye="left")
    assert for_theatre(store) == [decided.id]


def test_a_note_put_right_to_a_day_before_puts_the_eye_back_for_theatre(store: Store, decided: Task) -> None:
    id = operated(store, decided.eye_id, NOW + timedelta(hours=1), LATER)
    assert for_theatre(store) == []
    before = operation_note(operated_at=NOW - timedelta(days=2))
    eyes.add_note(store, LATER + timedelta(hours=1), id, before, ZONE, "nurse:n", "another day")
    assert for_theatre(store) == [decided.id]


def test_an_operation_under_the_joined_record_takes_the_eye_off_the_list(store: Store, decided: Task) -> None:
    twin, patient = person(store), known(eyes.eye(store, decided.eye_id)).patient
    operated(store, right(store, twin).id, NOW + timedelta(hours=1), LATER)
    assert for_theatre(store) == [decided.id]
    patients.join(store, twin.id, patient.id)
    assert for_theatre(store) == []


def test_a_task_is_about_the_eye_that_stands(store: Store, decided: Task) -> None:
    into, patient = person(store), known(eyes.eye(store, decided.eye_id)).patient
    patients.join(store, patient.id, into.id)
    assert known(tasks.task(store, decided.id)).eye_id == right(store, into).id
    assert ids(tasks.for_theatre_of(store, right(store, into).id)) == [decided.id]


@pytest.fixture
def three(store: Store, call: Callback, surgeon: Actor, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Three tasks of one decision, due at one time, by their ids: written in another order than that of the ids."""
    monkeypatch.setattr(tasks, "new_id", iter("bca").__next__)
    return sorted(task(store, call, surgeon, kind="theatre").id for _ in range(3))


def test_tasks_stand_in_the_order_of_their_ids_where_nothing_else_tells_them_apart(
    store: Store, call: Callback, three: list[str]
) -> None:
    first = known(tasks.task(store, three[0]))
    for found in (tasks.of_decision(store, first), tasks.made_with(store, first), tasks.of_callback(store, call.id)):
        assert ids(found) == three
    assert ids(tasks.for_theatre_of(store, call.eye_id)) == for_theatre(store) == three
    assert ids(tasks.open_of(store, [call.id])[call.id]) == three


def test_theatre_that_fell_away_says_why_until_something_else_is_decided(
    store: Store, call: Callback, decided: Task, surgeon: Actor
) -> None:
    assert tasks.cancelled_theatre(store, [call.id]) == tasks.cancelled_theatre(store, []) == {}
    tasks.end(store, NOW, decided.id, surgeon.id, "unwell", given_up=True)
    (fell,) = tasks.cancelled_theatre(store, [call.id, "none"]).values()
    assert (fell.id, fell.done_words) == (decided.id, "unwell")
    task(store, call, surgeon, kind="phone")
    assert tasks.cancelled_theatre(store, [call.id]) == {}


def test_another_decision_that_was_given_up_is_no_cancelled_theatre(store: Store, call: Callback, surgeon: Actor) -> None:
    tasks.end(store, NOW, task(store, call, surgeon, kind="visit").id, surgeon.id, "", given_up=True)
    assert tasks.cancelled_theatre(store, [call.id]) == {}


def test_theatre_cancelled_of_one_callback_is_not_that_of_another(
    store: Store, call: Callback, decided: Task, surgeon: Actor
) -> None:
    other = callback(store, call.eye_id, "pain")
    tasks.end(store, NOW, decided.id, surgeon.id, "unwell", given_up=True)
    task(store, other, surgeon)
    assert list(tasks.cancelled_theatre(store, [call.id, other.id])) == [call.id]


@pytest.mark.parametrize(("minutes", "seen"), [((5, 9), 9), ((0,), None), ((), None)])
def test_the_last_look_since_a_decision_is_the_one_that_is_told(
    store: Store, call: Callback, surgeon: Actor, minutes: tuple[int, ...], seen: int | None
) -> None:
    made = task(store, call, surgeon)
    for n in minutes:
        at = NOW + timedelta(minutes=n)
        entry(store, call.eye_id, "measures", at, {"eye": "right", "iop_mmhg": 15}, received_at=at)
    assert known(tasks.task(store, made.id)).seen_at == (None if seen is None else NOW + timedelta(minutes=seen))


def test_measures_that_were_put_right_are_no_look_since(store: Store, call: Callback, surgeon: Actor) -> None:
    made, at = task(store, call, surgeon), NOW + timedelta(minutes=5)
    first = entry(store, call.eye_id, "measures", at, {"eye": "right", "iop_mmhg": 51})
    entry(store, call.eye_id, "withdrawal", at, corrects=first)
    assert known(tasks.task(store, made.id)).seen_at is None


def test_the_visit_of_a_task_stands_where_it_was_moved_last(store: Store, call: Callback, surgeon: Actor) -> None:
    first = visit(store, call.eye_id, MONDAY)
    made = task(store, call, surgeon, kind="visit", visit_id=first.id)
    for days in (5, 2):
        at = NOW + timedelta(minutes=9 - days)
        first = visit(store, call.eye_id, MONDAY + timedelta(days=days), at=at, replaces=first.id)
    assert known(tasks.task(store, made.id)).visit_on == MONDAY + timedelta(days=2)


def test_tasks_from_before_decisions_had_a_name_go_alone(store: Store, call: Callback, surgeon: Actor) -> None:
    first, second = (task(store, call, surgeon, decision=None) for _ in range(2))
    assert (tasks.of_decision(store, first), tasks.made_with(store, second)) == ([first], [second])


def test_a_task_that_is_done_needs_its_visit_no_more(store: Store, call: Callback, surgeon: Actor) -> None:
    booked = visit(store, call.eye_id, MONDAY)
    made = task(store, call, surgeon, kind="visit", visit_id=booked.id)
    assert (tasks.needs_visit(store, booked.id), tasks.needs_visit(store, "none")) == (True, False)
    tasks.end(store, NOW, made.id, surgeon.id, "")
    assert not tasks.needs_visit(store, booked.id)
