"""Callbacks: one person, one outcome, merged while open, moved up when late; and two processes at once."""

import subprocess
import sys
from datetime import timedelta

import pytest

from followup.care import callbacks, visit
from followup.care.actors import Actor
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.events import MeasuresBody
from followup.config import Settings
from followup.records import Store, eyes, worries
from followup.records.store import Row
from tests.conftest import NOW


def measure(store: Store, nurse: Actor, operation_id: str, settings: Settings, iop: float, now: object = NOW) -> list[Row]:
    body = MeasuresBody(eye="right", iop_mmhg=iop, instrument="applanation")
    return visit.record_visit(store, now, nurse, operation_id, [body], settings.clinic.tz)  # type: ignore[arg-type]


@pytest.fixture
def opened(store: Store, nurse: Actor, operation_id: str, settings: Settings) -> str:
    """The pressure callback of an eye at 34 mmHg."""
    measure(store, nurse, operation_id, settings, 34)
    return next(c["id"] for c in worries.open_callbacks(store) if c["worry"] == "pressure")


def test_two_people_cannot_claim_one(store: Store, nurse: Actor, surgeon: Actor, opened: str) -> None:
    callbacks.claim(store, NOW, nurse, opened)
    with pytest.raises(Conflict, match="claimed by Nora Nurse"):
        callbacks.claim(store, NOW, surgeon, opened)
    with pytest.raises(Conflict, match="claim the callback first"):
        callbacks.attempt(store, NOW, surgeon, opened, True, "", NOW.tzinfo)  # type: ignore[arg-type]
    callbacks.release(store, NOW, nurse, opened)
    callbacks.claim(store, NOW, surgeon, opened)
    with pytest.raises(Conflict, match="give it back"):
        callbacks.release(store, NOW, nurse, opened)


def test_nothing_is_settled_without_an_outcome(store: Store, nurse: Actor, opened: str, settings: Settings) -> None:
    callbacks.claim(store, NOW, nurse, opened)
    for outcome, words in (("", ""), ("magic", ""), ("no-action", " ")):
        with pytest.raises(CareError):
            callbacks.settle(store, NOW, nurse, opened, outcome, words, settings.clinic.tz)
    callbacks.attempt(store, NOW, nurse, opened, False, "no answer", settings.clinic.tz)
    callbacks.attempt(store, NOW, nurse, opened, True, "feels fine", settings.clinic.tz)
    callbacks.settle(store, NOW, nurse, opened, "no-action", "pressure was read by a trainee", settings.clinic.tz)
    steps = [s["step"] for s in worries.steps_of(store, opened)]
    assert [s for s in steps if s not in ("opened", "raised again")] == ["claimed", "not reached", "reached", "settled"]
    with pytest.raises(Conflict, match="settled"):
        callbacks.claim(store, NOW, nurse, opened)


def test_seen_sooner_replans_the_visit_in_the_same_step(
    store: Store, nurse: Actor, operation_id: str, opened: str, settings: Settings
) -> None:
    callbacks.claim(store, NOW, nurse, opened)
    moved = callbacks.settle(store, NOW, nurse, opened, "same-day", "", settings.clinic.tz)
    assert moved is not None
    assert (moved["name"], moved["latest"]) == ("week 1", "2027-03-05")
    assert [v["latest"] for v in eyes.visits_of(store, operation_id) if v["name"] == "week 1"] == ["2027-03-05"]


def test_the_same_worry_stays_one_callback_and_a_worse_value_raises_it(
    store: Store, nurse: Actor, operation_id: str, opened: str, settings: Settings
) -> None:
    measure(store, nurse, operation_id, settings, 33, NOW + timedelta(minutes=10))
    assert [c["how_soon"] for c in worries.open_callbacks(store) if c["worry"] == "pressure"] == ["today"]
    measure(store, nurse, operation_id, settings, 45, NOW + timedelta(minutes=20))
    now_one = [c for c in worries.open_callbacks(store) if c["worry"] == "pressure"]
    assert [(c["id"], c["how_soon"]) for c in now_one] == [(opened, "now")]
    assert now_one[0]["due_at"] == NOW + timedelta(minutes=80)


def test_a_danger_that_lasts_after_settling_opens_a_new_callback(
    store: Store, nurse: Actor, operation_id: str, opened: str, settings: Settings
) -> None:
    callbacks.claim(store, NOW, nurse, opened)
    callbacks.settle(store, NOW, nurse, opened, "advice", "", settings.clinic.tz)
    again = measure(store, nurse, operation_id, settings, 33, NOW + timedelta(hours=1))
    assert {w["callback_id"] for w in again if w["worry"] == "pressure"}.isdisjoint({opened})
    assert [c["how_soon"] for c in worries.open_callbacks(store) if c["worry"] == "pressure"] == ["today"]


def test_a_callback_moves_up_to_the_surgeon_then_to_the_on_call_contact(store: Store, opened: str) -> None:
    def level() -> int:
        found = worries.callback(store, opened)
        assert found is not None
        return int(found["level"])

    callbacks.escalate_overdue(store, NOW + timedelta(hours=7, minutes=59))
    assert level() == 0
    callbacks.escalate_overdue(store, NOW + timedelta(hours=8))
    assert level() == 1
    callbacks.escalate_overdue(store, NOW + timedelta(hours=8, minutes=1))
    assert level() == 1
    callbacks.escalate_overdue(store, NOW + timedelta(hours=13))
    assert level() == 2
    callbacks.escalate_overdue(store, NOW + timedelta(days=3))
    assert level() == 2
    moves = [s["detail"]["to"] for s in worries.steps_of(store, opened) if s["step"] == "moved up"]
    assert moves == ["surgeon", "on-call contact"]


def test_there_is_no_callback_of_that_name(store: Store, nurse: Actor) -> None:
    with pytest.raises(NotFound):
        callbacks.claim(store, NOW, nurse, "nothing")


RACE = """
import sys
from datetime import datetime
from followup.care import callbacks
from followup.records import open_store
store = open_store(sys.argv[1])
sys.stdin.readline()
print(len(callbacks.escalate_overdue(store, datetime.fromisoformat(sys.argv[2]))))
"""


def test_two_processes_move_it_up_exactly_once(store: Store, opened: str) -> None:
    late = (NOW + timedelta(hours=9)).isoformat()
    racers = [
        subprocess.Popen(
            [sys.executable, "-c", RACE, str(store.path), late], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        for _ in range(3)
    ]
    for racer in racers:
        assert racer.stdin is not None
        racer.stdin.write("go\n")
        racer.stdin.flush()
    moved = sum(int(racer.communicate(timeout=60)[0]) for racer in racers)
    overdue = len([c for c in worries.open_callbacks(store) if c["level"] == 1])
    assert moved == overdue >= 1
    assert [s["step"] for s in worries.steps_of(store, opened)].count("moved up") == 1
