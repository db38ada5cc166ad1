"""What two processes may both want at once goes to one of them: the second is told so, by the row itself."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.records import Store, messages, people, tasks, worries
from followup.records.values import Callback
from tests.conftest import NOW, ZONE

LATER = NOW + timedelta(days=1)


@pytest.fixture
def waiting(store: Store, eye_id: str) -> Callback:
    """A callback that nobody has."""
    found = worries.callback(store, worries.add_callback(store, eye_id, "pressure", "today", NOW, LATER))
    assert found is not None
    return found


def test_a_waiting_callback_is_claimed_by_one(store: Store, waiting: Callback, nurse: Actor, surgeon: Actor) -> None:
    assert [worries.claim(store, NOW, waiting.id, who.id) for who in (nurse, surgeon)] == [True, False]


def test_a_claimed_callback_is_taken_only_from_who_has_it(
    store: Store, waiting: Callback, nurse: Actor, surgeon: Actor
) -> None:
    worries.claim(store, NOW, waiting.id, nurse.id)
    assert not worries.take_over(store, waiting.id, nurse.id, surgeon.id)
    assert worries.take_over(store, waiting.id, surgeon.id, nurse.id)
    assert not worries.take_over(store, waiting.id, nurse.id, nurse.id)


def test_a_callback_moves_up_once_from_each_level(store: Store, waiting: Callback) -> None:
    assert [worries.escalate(store, waiting.id, level, LATER) for level in (0, 0, 1, 1)] == [True, False, True, False]


def test_a_settled_callback_does_not_move_up(store: Store, waiting: Callback, nurse: Actor) -> None:
    worries.settle(store, NOW, waiting.id, nurse.id, "advice")
    assert not worries.escalate(store, waiting.id, 0, LATER)


def test_a_task_is_taken_only_from_who_has_it(store: Store, waiting: Callback, nurse: Actor, surgeon: Actor) -> None:
    id = tasks.add(store, NOW, waiting, "phone", "", surgeon.id, None, LATER, "decision")
    assert tasks.give(store, id, nurse.id, None)
    assert not tasks.give(store, id, surgeon.id, None)
    assert tasks.give(store, id, surgeon.id, nurse.id)
    tasks.end(store, NOW, id, surgeon.id, "")
    assert not tasks.give(store, id, nurse.id, surgeon.id)


def test_a_message_is_sent_by_one_process(store: Store) -> None:
    messages.add(store, NOW, "now:1", "staff:1", "now", "1", LATER)
    assert [messages.take(store, NOW, "now:1") for _ in range(2)] == [True, False]
    assert not messages.add(store, NOW, "now:1", "staff:1", "now", "1", LATER)


def test_a_code_is_used_once(store: Store, nurse: Actor, discharged: tuple[str, str]) -> None:
    found = enrol.enrolment(store, NOW, discharged[1], "test")
    assert [people.use_enrolment(store, NOW, found.id) for _ in range(2)] == [True, False]


@pytest.mark.parametrize(("step", "taken"), [(99, False), (100, False), (101, True)])
def test_a_code_of_the_minute_is_used_once_and_none_from_before_it(
    store: Store, nurse: Actor, step: int, taken: bool
) -> None:
    people.set_second_factor(store, nurse.id, "secret", 100, [])
    assert people.use_step(store, nurse.id, step) is taken


@pytest.mark.parametrize("again", [people.revoke_device])
def test_a_phone_is_locked_out_once(store: Store, nurse: Actor, device: Any, again: Callable[..., bool]) -> None:
    assert [again(store, NOW, device.id, nurse.signature) for _ in range(2)] == [True, False]
    assert enrol.visits_to_come(store, device.id, Desk(store, NOW, nurse, ZONE).today) is None
