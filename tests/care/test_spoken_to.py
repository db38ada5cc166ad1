"""When a call counts as the conversation that a callback needs, and who may take what back. Common practice, no source."""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import calls, deciding, holding, settling
from followup.care.desk import Desk
from followup.care.discharge import changing, leaving
from followup.care.errors import CareError, Conflict
from followup.config import Settings
from followup.records import Store, worries
from followup.records.values import Step
from tests.conftest import NOW, ZONE, operation_note, patient_details


def steps(*told: str) -> list[Step]:
    """`opened now`, `raised again this-week`, `reached`, … in that order."""
    made = []
    for n, words in enumerate(told):
        step, _, how_soon = words.rpartition(" ") if words.split()[-1] in ("now", "today", "this-week") else (words, "", "")
        made.append(Step(str(n), "c", NOW + timedelta(minutes=n), "nurse:1", step, {"how_soon": how_soon}))
    return made


@pytest.mark.parametrize(
    ("told", "spoken"),
    [
        (["opened now"], False),
        (["opened now", "not reached"], False),
        (["opened now", "reached"], True),
        (["reached", "opened now"], False),
        (["opened today", "reached", "raised again today"], False),
        (["opened today", "reached", "raised again now"], False),
        (["opened today", "reached", "raised again this-week"], True),
        (["opened this-week", "reached", "raised again this-week"], True),
        (["opened today", "reached", "raised again now", "not reached"], False),
        (["opened today", "reached", "raised again now", "reached"], True),
        (["opened today", "reached", "moved up", "claimed", "given back"], True),
    ],
)
def test_what_was_said_before_the_last_urgent_sign_does_not_count(told: list[str], spoken: bool) -> None:
    assert calls.conversation(steps(*told)) is spoken


@pytest.fixture
def settled(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> str:
    """A callback that the nurse settled just now."""
    id = worries.add_callback(store, eye_id, "pressure", "today", NOW, NOW + timedelta(hours=8))
    desk = Desk(store, NOW, nurse, ZONE)
    holding.claim_call(desk, id)
    calls.attempt(desk, id, "patient", "", settings.clinic)
    settling.settle(desk, id, "advice", "", settings.clinic)
    return id


@pytest.mark.parametrize(
    ("minutes", "whose", "taken_back"), [(5, "nurse", True), (6, "nurse", False), (1, "surgeon", False)]
)
def test_a_settlement_is_taken_back_by_who_made_it_for_five_minutes(
    store: Store, nurse: Actor, surgeon: Actor, settled: str, minutes: int, whose: str, taken_back: bool
) -> None:
    actor = {"nurse": nurse, "surgeon": surgeon}[whose]
    desk = Desk(store, NOW + timedelta(minutes=minutes), actor, ZONE)
    if taken_back:
        deciding.undo(desk, settled)
    else:
        with pytest.raises(Conflict, match="only the person who settled"):
            deciding.undo(desk, settled)
    found = worries.callback(store, settled)
    assert found is not None
    assert (found.state == "settled") is not taken_back


@pytest.fixture
def called(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> str:
    """A callback whose patient the nurse has spoken to, and that nobody decided."""
    id = worries.add_callback(store, eye_id, "pressure", "today", NOW, NOW + timedelta(hours=8))
    desk = Desk(store, NOW, nurse, ZONE)
    holding.claim_call(desk, id)
    calls.attempt(desk, id, "patient", "", settings.clinic)
    return id


def test_what_was_decided_after_the_call_needs_another_one(
    store: Store, nurse: Actor, called: str, settings: Settings
) -> None:
    desk = Desk(store, NOW + timedelta(minutes=1), nurse, ZONE)
    task = deciding.decide(desk, called, "theatre", "", settings.clinic, owner=nurse.id)
    with pytest.raises(CareError, match="about this yet: record the call"):
        settling.finish(desk, task.id, "")
    calls.attempt(desk, called, "carer", "", settings.clinic)
    settling.finish(desk, task.id, "on the morning list", NOW.date())
    found = worries.callback(store, called)
    assert found is not None
    assert (found.state, found.outcome) == ("settled", "theatre")


@pytest.mark.parametrize(
    ("days", "words", "says"),
    [
        (None, "on the morning list", "on which day theatre is"),
        (-1, "on the morning list", "theatre is between 5 March 2027"),
        (400, "on the morning list", "theatre is between 5 March 2027"),
        (3, " ", "on which list"),
    ],
)
def test_theatre_stays_to_do_until_its_day_and_list_are_known(
    store: Store, nurse: Actor, called: str, settings: Settings, days: int | None, words: str, says: str
) -> None:
    desk = Desk(store, NOW + timedelta(minutes=1), nurse, ZONE)
    task = deciding.decide(desk, called, "theatre", "", settings.clinic, owner=nurse.id)
    calls.attempt(desk, called, "patient", "", settings.clinic)
    with pytest.raises(CareError, match=says):
        settling.finish(desk, task.id, words, None if days is None else NOW.date() + timedelta(days=days))
    kept = worries.callback(store, called)
    assert kept is not None
    assert kept.state == "to-do"
    settling.finish(desk, task.id, "on the morning list", NOW.date() + timedelta(days=3))
    (done,) = [s.detail for s in worries.steps_of(store, called) if s.step == "done"]
    assert (done["theatre_on"], done["words"]) == ("2027-03-08", "on the morning list")


def test_a_callback_is_due_with_the_earliest_of_what_is_to_do(
    store: Store, nurse: Actor, called: str, settings: Settings
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    for hours in (6, 2, 4):
        due = NOW + timedelta(hours=hours)
        deciding.decide(desk, called, "advice", "", settings.clinic, owner=nurse.id, due_at=due)
    found = worries.callback(store, called)
    assert found is not None
    assert found.due_at == NOW + timedelta(hours=2)


def test_a_changed_plan_answers_no_callback_of_another_eye(
    store: Store, nurse: Actor, called: str, eye_id: str, settings: Settings
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    other, _ = leaving.discharge(desk, patient_details("T-6"), operation_note(), [])
    with pytest.raises(CareError, match="about another eye"):
        changing.change_plan(desk, other, operation_note(fill_percent=90), settles=called)
    found = worries.callback(store, called)
    assert found is not None
    assert found.state == "claimed"
