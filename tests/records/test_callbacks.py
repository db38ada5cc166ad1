"""Warnings and callbacks as rows: their order, who may change them from which state, and what stands afterwards."""

from datetime import datetime, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.clinical.warnings import Sign
from followup.records import Store, eyes, patients, tasks, worries
from followup.records.store import new_id
from followup.records.values import Callback, Reason
from tests.conftest import NOW

LATER = NOW + timedelta(hours=4)


def opened(store: Store, eye_id: str, worry: str = "pressure", how_soon: str = "today", **hours: float) -> str:
    """A callback opened `at` hours from now and due `due` hours from now."""
    at, due = (NOW + timedelta(hours=hours.get(name, usual)) for name, usual in (("at", 0), ("due", 4)))
    return worries.add_callback(store, eye_id, worry, how_soon, at, due)


def found(store: Store, id: str) -> Callback:
    known = worries.callback(store, id)
    assert known is not None
    return known


def sign(rule: str = "pressure-high", how_soon: str = "today", at: datetime = NOW) -> Sign:
    values: dict[str, Any] = {"iop_mmhg": 34}
    return Sign("right", rule, "pressure", how_soon, at, 1.0, values, {"above": 30}, "CP", "The pressure is high.")


def test_a_warning_is_read_as_it_was_raised(store: Store, eye_id: str) -> None:
    callback = opened(store, eye_id)
    kept = worries.add_warning(store, LATER, eye_id, callback, sign(), "signed by nobody")
    assert (kept.rule, kept.how_soon, kept.values, kept.threshold) == (
        "pressure-high", "today", {"iop_mmhg": 34}, {"above": 30},
    )  # fmt: skip
    assert (kept.raised_at, kept.recorded_at, kept.rulebook, kept.unfounded) == (NOW, LATER, "signed by nobody", False)
    assert worries.warnings_of(store, eye_id) == worries.warnings_of_callback(store, callback) == [kept]


def test_a_sign_is_known_by_its_rule_and_its_instant(store: Store, eye_id: str) -> None:
    worries.add_warning(store, NOW, eye_id, opened(store, eye_id), sign(), "")
    assert worries.has_warning(store, eye_id, "pressure-high", NOW)
    assert not worries.has_warning(store, eye_id, "pressure-high", LATER)
    assert not worries.has_warning(store, eye_id, "pressure-low", NOW)


def test_the_warnings_of_a_callback_stand_by_how_soon_and_then_the_latest_first(store: Store, eye_id: str) -> None:
    callback = opened(store, eye_id)
    for rule, how_soon, hours in (("a", "this-week", 9), ("b", "now", 1), ("c", "now", 2), ("d", "today", 3)):
        worries.add_warning(store, NOW, eye_id, callback, sign(rule, how_soon, NOW + timedelta(hours=hours)), "")
    assert [w.rule for w in worries.warnings_of_callback(store, callback)] == ["c", "b", "d", "a"]
    assert [w.rule for w in worries.warnings_of(store, eye_id)] == ["b", "c", "d", "a"]
    told = [Reason(w.words, w.unfounded) for w in worries.warnings_of_callback(store, callback)]
    assert worries.reasons_of_callbacks(store, [callback, "none"]) == {callback: told}


def test_asking_about_no_callback_reads_nothing(store: Store) -> None:
    assert worries.reasons_of_callbacks(store, []) == {}
    assert worries.open_of_people(store, []) == []


def test_the_latest_mark_of_a_warning_counts(store: Store, eye_id: str) -> None:
    warning = worries.add_warning(store, NOW, eye_id, opened(store, eye_id), sign(), "")
    note = eyes.notes_of(store, eye_id)[0].id
    for unfounded in (True, False, True):
        worries.mark(store, NOW, warning.id, unfounded=unfounded, note_id=note)
        assert [w.unfounded for w in worries.warnings_of(store, eye_id)] == [unfounded]


def test_open_callbacks_stand_by_how_soon_and_then_by_how_long_they_wait(store: Store, eye_id: str) -> None:
    late, first, soon, week = (
        opened(store, eye_id, worry, how_soon, at=at)
        for worry, how_soon, at in (("a", "today", 2), ("b", "today", 1), ("c", "now", 3), ("d", "this-week", 0))
    )
    assert [c.id for c in worries.open_callbacks(store)] == [soon, first, late, week]
    assert [c.id for c in worries.callbacks_of(store, eye_id)] == [week, first, late, soon]


def test_one_worry_of_an_eye_is_open_once_and_a_settled_one_is_not(store: Store, eye_id: str, nurse: Actor) -> None:
    id = opened(store, eye_id)
    assert worries.open_callback_of(store, eye_id, "pressure") == found(store, id)
    assert worries.open_callback_of(store, eye_id, "infection") is None
    worries.settle(store, LATER, id, nurse.id, "advice")
    assert worries.open_callback_of(store, eye_id, "pressure") is None
    assert worries.open_callbacks(store) == []


def test_what_is_open_about_a_person_comes_from_both_eyes_and_joined_records(store: Store, eye_id: str) -> None:
    known = store.rows("SELECT patient_id FROM eyes WHERE id = :id", {"id": eye_id})[0]["patient_id"]
    other = store.rows("SELECT id FROM eyes WHERE patient_id = :p AND id != :id", {"p": known, "id": eye_id})[0]["id"]
    twin = patients.add(store, NOW, "T-9", "Pat Patient", NOW.date().replace(year=1952), "", "en")
    elsewhere = store.rows("SELECT id FROM eyes WHERE patient_id = :p", {"p": twin})[0]["id"]
    ids = {opened(store, eye, worry) for eye, worry in ((eye_id, "a"), (other, "b"), (elsewhere, "c"))}
    assert len(worries.open_of_person(store, known)) == 2
    patients.join(store, twin, known)
    assert {c.id for c in worries.open_of_person(store, known)} == ids
    assert {c.id for c in worries.open_of_people(store, [known])} == ids


def test_a_callback_tells_who_has_it_and_since_when_first(store: Store, eye_id: str, nurse: Actor, surgeon: Actor) -> None:
    id = opened(store, eye_id)
    assert (found(store, id).state, found(store, id).free) == ("waiting", True)
    worries.claim(store, NOW, id, nurse.id)
    worries.take_over(store, id, surgeon.id, nurse.id)
    held = found(store, id)
    assert (held.state, held.claimed_by, held.claimed_by_name, held.claimed_at, held.free) == (
        "claimed", surgeon.id, "Sol Surgeon", NOW, False,
    )  # fmt: skip


def test_what_is_put_back_keeps_when_it_was_first_claimed(store: Store, eye_id: str, nurse: Actor, surgeon: Actor) -> None:
    id = opened(store, eye_id)
    worries.claim(store, NOW, id, nurse.id)
    assert not worries.release(store, id, surgeon.id)
    assert worries.release(store, id, nurse.id)
    worries.claim(store, LATER, id, surgeon.id)
    assert found(store, id).claimed_at == NOW


def test_a_settled_callback_keeps_its_first_outcome(store: Store, eye_id: str, nurse: Actor, surgeon: Actor) -> None:
    id = opened(store, eye_id)
    worries.put_due(store, id, LATER, next_try_at=LATER)
    worries.settle(store, LATER, id, nurse.id, "advice")
    worries.settle(store, LATER + timedelta(hours=1), id, surgeon.id, "other")
    settled = found(store, id)
    assert (settled.state, settled.settled_by, settled.outcome, settled.settled_at) == (
        "settled", nurse.id, "advice", LATER,
    )  # fmt: skip
    assert settled.next_try_at is None


def test_only_who_settled_it_takes_it_up_again(store: Store, eye_id: str, nurse: Actor, surgeon: Actor) -> None:
    id = opened(store, eye_id)
    worries.settle(store, LATER, id, nurse.id, "advice")
    assert not worries.reopen(store, id, surgeon.id)
    assert worries.reopen(store, id, nurse.id)
    assert (found(store, id).state, found(store, id).claimed_by, found(store, id).outcome) == ("claimed", nurse.id, None)


@pytest.mark.parametrize("again", ["reopen", "open_anew"])
def test_a_worry_is_not_opened_twice(store: Store, eye_id: str, nurse: Actor, again: str) -> None:
    id = opened(store, eye_id)
    worries.settle(store, LATER, id, nurse.id, "advice")
    opened(store, eye_id, at=5)
    taken = worries.reopen(store, id, nurse.id) if again == "reopen" else worries.open_anew(store, id, LATER)
    assert (taken, found(store, id).state, found(store, id).outcome) == (False, "settled", "advice")


def test_what_is_opened_anew_is_everybodys_and_begins_below(store: Store, eye_id: str, nurse: Actor) -> None:
    id = opened(store, eye_id)
    worries.claim(store, NOW, id, nurse.id)
    worries.escalate(store, id, 0, LATER)
    worries.settle(store, LATER, id, nurse.id, "advice")
    assert worries.open_anew(store, id, LATER + timedelta(hours=2))
    anew = found(store, id)
    assert (anew.state, anew.claimed_by, anew.level, anew.due_at, anew.free) == (
        "waiting", None, 0, LATER + timedelta(hours=2), True,
    )  # fmt: skip
    assert not worries.open_anew(store, id, LATER)


def test_what_moved_up_says_how_often_also_after_somebody_decided(store: Store, eye_id: str) -> None:
    id = opened(store, eye_id)
    worries.escalate(store, id, 0, LATER)
    worries.back_to_the_clinic(store, id)
    worries.escalate(store, id, 0, LATER)
    assert (found(store, id).level, found(store, id).moved_up) == (1, 2)


def test_a_callback_becomes_more_urgent_with_its_new_time(store: Store, eye_id: str) -> None:
    id = opened(store, eye_id, how_soon="this-week", due=100)
    worries.raise_callback(store, id, "now", LATER)
    assert (found(store, id).how_soon, found(store, id).due_at) == ("now", LATER)


def test_overdue_is_what_is_due_by_now_and_open(store: Store, eye_id: str, nurse: Actor) -> None:
    late, due, settled, _ = (opened(store, eye_id, w, due=h) for w, h in (("a", -2), ("b", 0), ("c", -1), ("d", 0.01)))
    worries.settle(store, NOW, settled, nurse.id, "advice")
    assert [c.id for c in worries.overdue_callbacks(store, NOW)] == [late, due]


def test_whom_to_tell_of(store: Store, eye_id: str) -> None:
    now = opened(store, eye_id, "a", "now")
    moved = opened(store, eye_id, "b", "today", due=1)
    long_ago = opened(store, eye_id, "c", "today", due=-9)
    silent = opened(store, eye_id, "silence", "this-week")
    other = opened(store, eye_id, "d", "this-week")
    everyone = [now, moved, long_ago, silent, other, "nobody"]
    for id, due in ((moved, 1), (long_ago, -9)):
        worries.escalate(store, id, 0, NOW + timedelta(hours=due))
    told = {c.id for c in worries.to_tell_of(store, everyone, NOW, NOW - timedelta(hours=1))}
    assert told == {now, moved, silent}
    assert {c.id for c in worries.to_tell_of(store, everyone, NOW, NOW)} == {now, moved}
    assert {c.id for c in worries.to_tell_of(store, [moved, other], NOW, NOW)} == {moved}


def test_what_was_settled_since_a_time_stands_in_that_order(store: Store, eye_id: str, nurse: Actor) -> None:
    before, first, second = (opened(store, eye_id, worry) for worry in "abc")
    for id, hours in ((second, 2), (first, 1), (before, -1)):
        worries.settle(store, NOW + timedelta(hours=hours), id, nurse.id, "advice")
    assert [c.id for c in worries.settled_since(store, NOW)] == [first, second]


def test_the_steps_of_a_callback_stand_by_time(store: Store, eye_id: str) -> None:
    id, other = opened(store, eye_id), opened(store, eye_id, "a")
    worries.add_step(store, LATER, id, "nurse:n", "settled", {"outcome": "advice"})
    worries.add_step(store, NOW, id, "nurse:n", "claimed")
    worries.add_step(store, NOW, other, "nurse:n", "claimed")
    assert [(s.step, s.detail) for s in worries.steps_of(store, id)] == [
        ("claimed", {}),
        ("settled", {"outcome": "advice"}),
    ]


def test_whose_calls_others_took_is_told_to_them_alone(store: Store, eye_id: str) -> None:
    id = opened(store, eye_id)
    for at, whose in ((NOW, "me"), (LATER, "me"), (LATER, "another"), (NOW - timedelta(days=1), "me")):
        worries.add_step(store, at, id, "nurse:n", "taken over", {"from_id": whose, "by": "Nora"})
    worries.add_step(store, NOW, id, "nurse:n", "claimed", {"from_id": "me", "by": "Nora"})
    taken = worries.taken_from(store, "me", NOW)
    assert [(t.at, t.by, t.callback_id, t.worry) for t in taken] == [
        (LATER, "Nora", id, "pressure"),
        (NOW, "Nora", id, "pressure"),
    ]


def test_what_was_handed_over_is_told_until_it_is_settled(store: Store, eye_id: str, nurse: Actor) -> None:
    id = opened(store, eye_id)
    worries.add_step(store, NOW, id, "nurse:n", "handed over", {"to_id": nurse.id, "by": "Nora"})
    assert [t.callback_id for t in worries.handed_to(store, nurse.id, NOW)] == [id]
    assert worries.handed_to(store, "another", NOW) == []
    worries.settle(store, LATER, id, nurse.id, "advice")
    assert worries.handed_to(store, nurse.id, NOW) == []


def test_somebody_holds_what_they_claimed_or_are_to_do(store: Store, eye_id: str, nurse: Actor, surgeon: Actor) -> None:
    id = opened(store, eye_id)
    assert not worries.holds_anything(store, nurse.id)
    worries.claim(store, NOW, id, nurse.id)
    assert worries.holds_anything(store, nurse.id)
    task = tasks.add(store, NOW, found(store, id), "phone", "", nurse.id, surgeon.id, LATER, "decision")
    assert (worries.holds_anything(store, nurse.id), worries.holds_anything(store, surgeon.id)) == (False, True)
    tasks.end(store, NOW, task, surgeon.id, "done")
    assert (worries.holds_anything(store, nurse.id), worries.holds_anything(store, surgeon.id)) == (True, False)


@pytest.mark.parametrize(("owner", "free"), [(None, True), ("nurse", False)])
def test_an_open_callback_with_a_task_is_to_do(
    store: Store, eye_id: str, nurse: Actor, owner: str | None, free: bool
) -> None:
    id = opened(store, eye_id)
    worries.claim(store, NOW, id, nurse.id)
    tasks.add(store, NOW, found(store, id), "phone", "", nurse.id, nurse.id if owner else None, LATER, new_id())
    assert (found(store, id).state, found(store, id).free) == ("to-do", free)
    worries.settle(store, NOW, id, nurse.id, "advice")
    assert found(store, id).state == "settled"
