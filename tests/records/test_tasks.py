"""Tasks as rows: who has them, which one decision made, and how they end."""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.records import Store, events, tasks, visits, worries
from followup.records.store import new_id
from followup.records.values import Callback, Task
from tests.conftest import NOW

LATER = NOW + timedelta(days=1)


@pytest.fixture
def callback(store: Store, eye_id: str) -> Callback:
    found = worries.callback(store, worries.add_callback(store, eye_id, "pressure", "today", NOW, LATER))
    assert found is not None
    return found


def made(store: Store, callback: Callback, by: Actor, owner: Actor | None = None, **more: object) -> Task:
    given = {"kind": "phone", "due_at": LATER, "decision": "one", **more}
    kind, due, decision = given.pop("kind"), given.pop("due_at"), given.pop("decision")
    id = tasks.add(store, NOW, callback, kind, "words", by.id, owner and owner.id, due, decision, **given)
    found = tasks.task(store, id)
    assert found is not None
    return found


def test_a_task_is_read_as_it_was_made(store: Store, callback: Callback, nurse: Actor, surgeon: Actor) -> None:
    task = made(store, callback, surgeon, nurse)
    assert (task.kind, task.words, task.due_at, task.made_at, task.decision) == ("phone", "words", LATER, NOW, "one")
    assert (task.owner_name, task.made_by_name, task.eye_id) == ("Nora Nurse", "Sol Surgeon", callback.eye_id)
    assert (task.told_at, task.done_at, task.given_up) == (None, None, False)


def test_what_one_decision_made_and_one_person_has_goes_together(
    store: Store, callback: Callback, nurse: Actor, surgeon: Actor
) -> None:
    mine, also_mine = made(store, callback, surgeon, nurse), made(store, callback, surgeon, nurse, kind="visit")
    theirs = made(store, callback, surgeon, surgeon, kind="theatre")
    made(store, callback, surgeon, nurse, decision="two")
    assert tasks.of_decision(store, mine) == [mine, also_mine]
    assert tasks.made_with(store, mine) == [mine, also_mine, theirs]
    tasks.end(store, NOW, also_mine.id, nurse.id, "")
    assert tasks.of_decision(store, mine) == [mine]
    assert tasks.made_with(store, mine) == [mine, theirs]


def test_what_nobody_has_goes_together_too(store: Store, callback: Callback, nurse: Actor) -> None:
    first, second = made(store, callback, nurse), made(store, callback, nurse, kind="visit")
    assert tasks.of_decision(store, first) == [first, second]


def test_a_task_that_is_done_goes_alone(store: Store, callback: Callback, nurse: Actor) -> None:
    first = made(store, callback, nurse, nurse)
    made(store, callback, nurse, nurse)
    tasks.end(store, NOW, first.id, nurse.id, "")
    done = tasks.task(store, first.id)
    assert done is not None
    assert tasks.of_decision(store, done) == [done]


def test_open_tasks_stand_by_callback_the_earliest_due_first(store: Store, callback: Callback, nurse: Actor) -> None:
    late, soon = made(store, callback, nurse), made(store, callback, nurse, due_at=NOW)
    ended = made(store, callback, nurse)
    tasks.end(store, NOW, ended.id, nurse.id, "")
    assert tasks.open_of(store, [callback.id]) == {callback.id: [soon, late]}
    assert [t.id for t in tasks.of_callback(store, callback.id)] == sorted([late.id, soon.id, ended.id])
    assert tasks.open_of(store, []) == tasks.open_of(store, ["none"]) == {}


def test_when_the_patient_was_told_is_kept_from_the_first_time(store: Store, callback: Callback, nurse: Actor) -> None:
    task = made(store, callback, nurse)
    tasks.told(store, NOW, task.id, LATER + timedelta(days=1))
    tasks.told(store, LATER, task.id, LATER + timedelta(days=2))
    known = tasks.task(store, task.id)
    assert known is not None
    assert (known.told_at, known.due_at) == (NOW, LATER + timedelta(days=2))


@pytest.mark.parametrize("given_up", [False, True])
def test_how_a_task_ended(store: Store, callback: Callback, nurse: Actor, given_up: bool) -> None:
    task = made(store, callback, nurse)
    tasks.end(store, LATER, task.id, nurse.id, "they moved away", given_up=given_up)
    known = tasks.task(store, task.id)
    assert known is not None
    assert (known.done_at, known.done_by, known.done_words, known.given_up) == (
        LATER, nurse.id, "they moved away", given_up,
    )  # fmt: skip


def test_only_what_ended_with_the_callback_is_taken_up_again(store: Store, callback: Callback, nurse: Actor) -> None:
    before, with_it, given_up = (made(store, callback, nurse) for _ in range(3))
    tasks.end(store, NOW, before.id, nurse.id, "done")
    tasks.end(store, LATER, with_it.id, nurse.id, "done")
    tasks.end(store, LATER, given_up.id, nurse.id, "", given_up=True)
    tasks.reopen(store, callback.id, LATER)
    assert [t.id for t in tasks.open_of(store, [callback.id])[callback.id]] == [with_it.id]


def test_a_visit_is_waited_for_by_its_task(store: Store, callback: Callback, nurse: Actor) -> None:
    (visit, *_) = visits.of_eye(store, callback.eye_id)
    task = made(store, callback, nurse, visit_id=visit.identity)
    assert (task.visit_on, tasks.needs_visit(store, visit.identity)) == (visit.target, True)
    day = visit.target + timedelta(days=4)
    visits.change(store, LATER, visit, "nurse:n", "", target=day, latest=day)
    moved = tasks.task(store, task.id)
    assert moved is not None
    assert moved.visit_on == day
    tasks.end(store, LATER, task.id, nurse.id, "")
    assert not tasks.needs_visit(store, visit.identity)


@pytest.mark.parametrize(("kind", "minutes", "seen"), [("seen", 5, True), ("seen", -5, False), ("drops", 5, False)])
def test_a_task_knows_when_the_eye_was_looked_at_since(
    store: Store, callback: Callback, nurse: Actor, kind: str, minutes: int, seen: bool
) -> None:
    task, at = made(store, callback, nurse), NOW + timedelta(minutes=minutes)
    entry = new_id()
    events.add(store, entry, callback.eye_id, kind, at, {}, "nurse:n", LATER)
    known = tasks.task(store, task.id)
    assert known is not None
    assert known.seen_at == (at if seen else None)
    events.add(store, new_id(), callback.eye_id, "withdrawal", at, {}, "nurse:n", LATER, corrects=entry)
    taken_back = tasks.task(store, task.id)
    assert taken_back is not None
    assert taken_back.seen_at is None
