"""Whoever signs out with calls or tasks in hand is asked what becomes of them, and the callbacks say what it was; and what
needs a surgeon, in order: mine, moved up, then colleagues'.
"""

from datetime import timedelta

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import deciding, going_home, holding, lines, moving_up
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import Patient
from followup.care.errors import CareError
from followup.care.visits import visit
from followup.config import Settings
from followup.records import Store, tasks, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Callback, Task
from tests.conftest import NOW, OPERATED, PASSWORD, ZONE, operation_note, patient_details, signed_in
from tests.web.test_callback_pages import words_of


@pytest.fixture
def held(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings) -> tuple[Callback, Task]:
    """A callback that the nurse has claimed, and a task that she has."""
    bodies = [MeasuresBody(eye="right", iop_mmhg=46), MeasuresBody(eye="left", iop_mmhg=33)]
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, bodies)
    first, other = sorted(worries.open_callbacks(store), key=lambda c: c.worry != "pressure")[:2]
    holding.claim(Desk(store, NOW, nurse, ZONE), first.id)
    desk = Desk(store, NOW, surgeon, ZONE)
    return first, deciding.decide(desk, other.id, "advice", "", settings.clinic, owner=nurse.id)


def after(store: Store, held: tuple[Callback, Task]) -> tuple[str | None, str | None, list[str]]:
    """Who has the callback, who has the task, and the last step of both."""
    callback = worries.callback(store, held[0].id)
    task = tasks.task(store, held[1].id)
    assert callback is not None
    assert task is not None
    return callback.claimed_by, task.owner, [worries.steps_of(store, id)[-1].step for id in (callback.id, task.callback_id)]


def is_signed_in(client: FlaskClient) -> bool:
    return client.get("/clinic/callbacks").status_code == 200


def test_nobody_signs_out_with_calls_in_hand_without_being_asked(
    as_nurse: FlaskClient, store: Store, nurse: Actor, held: tuple[Callback, Task]
) -> None:
    assert 'action="/going-home"' in as_nurse.get("/clinic/callbacks").text
    asked = as_nurse.post("/sign-out")
    assert (asked.status_code, asked.location) == (303, "/going-home")
    assert is_signed_in(as_nurse)
    page = words_of(as_nurse.get("/going-home").text)
    for words in ("Pat Patient , pressure: to call", "phone the patient with the advice, by", "Keep it"):
        assert words in page
    for form in ({}, {"way": "vanish"}, {"way": "to", "to": ""}, {"way": "to", "to": nurse.id}):
        assert as_nurse.post("/going-home", data=form).status_code == 400
    assert after(store, held)[:2] == (nurse.id, nurse.id)


@pytest.mark.parametrize(
    ("way", "whose", "step"),
    [("back", None, "given back"), ("to", "surgeon", "handed over"), ("keep", "nurse", "kept at the end of the day")],
)
def test_what_is_in_hand_goes_where_it_was_said_with_a_trace(
    as_nurse: FlaskClient,
    as_surgeon: FlaskClient,
    store: Store,
    nurse: Actor,
    surgeon: Actor,
    held: tuple[Callback, Task],
    way: str,
    whose: str | None,
    step: str,
) -> None:
    assert as_nurse.post("/going-home", data={"way": way, "to": surgeon.id}).status_code == 303
    assert not is_signed_in(as_nurse)
    has_it = {"nurse": nurse.id, "surgeon": surgeon.id}.get(whose or "")
    assert after(store, held) == (has_it, has_it, [step, step])
    shown = words_of(as_surgeon.get(f"/clinic/callbacks/{held[0].id}").text)
    assert f"{step} by Nora Nurse" in shown
    assert ("Handed to you" in as_surgeon.get("/surgeon/").text) == (way == "to")


def test_the_day_may_end_without_signing_out_and_empty_hands_are_not_asked(
    as_nurse: FlaskClient, store: Store, held: tuple[Callback, Task]
) -> None:
    assert as_nurse.post("/going-home", data={"way": "back", "then": "stay"}).status_code == 303
    assert is_signed_in(as_nurse)
    assert 'action="/sign-out"' in as_nurse.get("/clinic/callbacks").text
    assert as_nurse.post("/sign-out").location == "/"
    assert not is_signed_in(as_nurse)


def test_needs_me_is_mine_then_moved_up_then_colleagues(
    app: Flask, store: Store, nurse: Actor, surgeon: Actor, settings: Settings
) -> None:
    accounts.add_staff(store, NOW, "Cleo Colleague", "surgeon", "cleo@test.invalid", PASSWORD)
    at = Desk(store, OPERATED + timedelta(hours=5), nurse, ZONE)
    by_name = {}
    people = (("Mine", "Sol Surgeon", 46), ("Late", "Cleo Colleague", 33), ("Theirs", "Cleo Colleague", 62))
    for number, (name, operator, iop) in enumerate(people):
        person: Patient = patient_details(f"N-{number}").model_copy(update={"name": name})
        eye, _ = leaving.discharge(at, person, operation_note(surgeon=operator), [])
        visit.record_visit(Desk(store, NOW, nurse, ZONE), eye, [MeasuresBody(eye="right", iop_mmhg=iop)])
        by_name[name] = next(c for c in worries.callbacks_of(store, eye) if c.worry == "pressure")
    assert moving_up.move_up(store, NOW, by_name["Late"], NOW + timedelta(hours=1), {})
    found = lines.for_surgeon(Desk(store, NOW, surgeon, ZONE))
    parts = [[line.eye.patient.name for line in part if line.eye] for part in (found.mine, found.moved_up, found.colleagues)]
    assert parts == [["Mine"], ["Late"], ["Theirs"]]
    page = words_of(signed_in(app, "surgeon@test.invalid").get("/surgeon/").text)
    assert [page.index(name) for name in ("Mine", "Late", "Theirs")] == sorted(
        page.index(name) for name in ("Mine", "Late", "Theirs")
    )
    assert "2 for now , not all of them among my own" in page
    holding.claim(Desk(store, NOW, surgeon, ZONE), by_name["Theirs"].id)
    assert len(lines.for_surgeon(Desk(store, NOW, surgeon, ZONE)).mine) == 2
    deciding.decide(Desk(store, NOW, surgeon, ZONE), by_name["Mine"].id, "theatre", "", settings.clinic, owner=nurse.id)
    still = lines.for_surgeon(Desk(store, NOW, surgeon, ZONE))
    assert sum(map(len, (still.open, still.decided))) == 3


def test_nobody_is_given_what_they_cannot_open(
    store: Store,
    nurse: Actor,
    held: tuple[Callback, Task],
    as_nurse: FlaskClient,
    as_surgeon: FlaskClient,
    settings: Settings,
) -> None:
    """An administrator opens no call: it would count as taken, with nobody who could make it."""
    before = after(store, held)
    boss = accounts.add_staff(store, NOW, "Ada Admin", "administrator", "ada@test.invalid", PASSWORD)
    page = as_nurse.get("/going-home").text
    assert "Sol Surgeon" in page
    assert "Ada Admin" not in page
    answer = as_nurse.post("/going-home", data={"way": "to", "to": boss, "then": "stay"})
    assert answer.status_code == 400
    assert "Ada Admin" not in as_surgeon.get(f"/clinic/callbacks/{held[0].id}").text
    decided = {"outcome": "advice", "owner": boss}
    answer = as_surgeon.post(f"/clinic/callbacks/{held[0].id}/decide", data=decided)
    assert answer.status_code == 400
    assert "calls cannot be opened by Ada Admin" in words_of(answer.text)
    assert after(store, held) == before
    desk = Desk(store, NOW, nurse, ZONE)
    for give in (
        lambda: going_home.hand_over(desk, "to", boss),
        lambda: deciding.decide(desk, held[0].id, "advice", "", settings.clinic, owner=boss),
    ):
        with pytest.raises(CareError, match="calls cannot be opened by Ada Admin"):
            give()
    assert after(store, held) == before
