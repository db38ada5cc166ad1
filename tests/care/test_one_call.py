"""One call for a patient: all that is open of both eyes is claimed, called about and settled together, or each on its own;
each callback keeps its own trace.
"""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, going_home, holding, settling, showing
from followup.care.callbacks import lines as call_lines
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.home import receive
from followup.care.today import lists
from followup.care.visits import visit
from followup.config import Settings
from followup.records import Store, events, eyes, tasks, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Callback, Device
from tests.conftest import NOW, ZONE

INFECTED = {"pain": 6, "vision": "worse", "redness": "worse", "discharge": True, "floaters": "worse"}


def desk(store: Store, who: Actor, minutes: float = 0) -> Desk:
    return Desk(store, NOW + timedelta(minutes=minutes), who, ZONE)


def of_patient(store: Store) -> list[Callback]:
    return holding.open_of_patient(store, worries.open_callbacks(store)[0])


def steps(store: Store, id: str) -> list[str]:
    return [s.step for s in worries.steps_of(store, id) if s.step not in ("opened", "raised again")]


@pytest.fixture
def several(store: Store, eye_id: str, device: Device, nurse: Actor) -> list[Callback]:
    """The callbacks of one check that says infection, and of a spike in the fellow eye."""
    check = {"id": new_id(), "operation": eye_id, "kind": "symptoms", "at": NOW.isoformat(), "offset_minutes": 60}
    receive.receive(store, NOW, device, [{**check, "sequence": 1, "by": "patient", "body": INFECTED}], ZONE)
    visit.record_visit(desk(store, nurse), eye_id, [MeasuresBody(eye="left", iop_mmhg=33, instrument="applanation")])
    found = of_patient(store)
    assert {c.worry for c in found if c.eye_id == eye_id} >= {"infection", "retina", "pressure"}  # of one check
    assert len({c.eye_id for c in found}) == 2
    assert found[0].how_soon == "now"
    return found


def test_one_claim_takes_all_of_a_patient_and_nobody_calls_beside(
    store: Store, nurse: Actor, surgeon: Actor, several: list[Callback]
) -> None:
    holding.claim_call(desk(store, nurse), several[-1].id)
    assert {c.claimed_by for c in of_patient(store)} == {nurse.id}
    assert [steps(store, c.id) for c in several] == [["claimed"]] * len(several)
    with pytest.raises(Conflict, match="claimed by Nora Nurse"):
        holding.claim_call(desk(store, surgeon), several[0].id)
    holding.give_call_back(desk(store, nurse), several[0].id)
    assert {c.state for c in of_patient(store)} == {"waiting"}


def test_what_comes_up_while_somebody_has_the_call_waits_until_it_is_claimed_too(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    holding.claim_call(desk(store, nurse), several[0].id)
    leak = MeasuresBody(eye="right", findings=("leak",))
    visit.record_visit(desk(store, surgeon, 5), eye_id, [leak])
    (new,) = [c for c in of_patient(store) if c.state == "waiting"]
    phone_calls.attempt(desk(store, nurse, 6), several[0].id, "patient", "", settings.clinic)
    assert steps(store, new.id) == []  # nobody asked about that: the call is not counted for it
    with pytest.raises(Conflict, match="Nora Nurse"):
        holding.claim_call(desk(store, surgeon, 7), new.id)
    holding.take_call_over(desk(store, surgeon, 8), new.id, nurse.id)
    assert {c.claimed_by for c in of_patient(store)} == {surgeon.id}
    with pytest.raises(Conflict, match="Sol Surgeon has it"):
        holding.take_call_over(desk(store, nurse, 9), new.id, nurse.id)


def test_one_attempt_is_recorded_once_and_counts_for_all(
    store: Store, nurse: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    holding.claim_call(desk(store, nurse), several[0].id)
    phone_calls.attempt(desk(store, nurse, 1), several[1].id, None, "no answer", settings.clinic)
    again = NOW + timedelta(minutes=16)
    assert {c.next_try_at for c in of_patient(store)} == {again}  # as the worst of them asks
    phone_calls.attempt(desk(store, nurse, 16), several[0].id, "carer", "asleep, no pain", settings.clinic)
    assert [steps(store, c.id) for c in several] == [["claimed", "not reached", "reached"]] * len(several)
    heard = [e for known in {c.eye_id for c in several} for e in events.of_eye(store, known) if e.kind == "heard"]
    assert [e.body.words for e in heard] == ["asleep, no pain"]


def test_one_outcome_settles_all_or_each_its_own(
    store: Store, nurse: Actor, several: list[Callback], settings: Settings
) -> None:
    holding.claim_call(desk(store, nurse), several[0].id)
    phone_calls.attempt(desk(store, nurse, 1), several[0].id, "patient", "", settings.clinic)
    first, *others = [c.id for c in several]
    settling.settle(desk(store, nurse, 2), first, "advice", "told", settings.clinic, also=others[:-1])
    assert [c.id for c in of_patient(store)] == others[-1:]
    settling.settle(desk(store, nurse, 3), others[-1], "no-action", "read by a trainee", settings.clinic)
    assert [get(store, c.id).outcome for c in several] == ["advice"] * (len(several) - 1) + ["no-action"]
    with pytest.raises(Conflict, match="settled"):
        settling.settle(desk(store, nurse, 4), first, "advice", "", settings.clinic)


def test_no_outcome_settles_a_worry_of_another_patient_or_one_that_was_not_spoken_of(
    store: Store, nurse: Actor, surgeon: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    holding.claim_call(desk(store, nurse), several[0].id)
    with pytest.raises(CareError, match="nobody has spoken"):
        settling.settle(
            desk(store, nurse, 1), several[0].id, "advice", "", settings.clinic, also=[c.id for c in several[1:]]
        )
    assert len(of_patient(store)) == len(several)
    with pytest.raises(Conflict, match="settled meanwhile"):
        settling.settle(desk(store, nurse, 1), several[0].id, "advice", "", settings.clinic, also=[new_id()])


def test_one_decision_for_several_worries_is_one_line_one_visit_and_taken_back_at_once(
    store: Store, surgeon: Actor, nurse: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    own = [c.id for c in several if c.eye_id == eye_id]
    deciding.decide(desk(store, surgeon), own[0], "same-day", "", settings.clinic, also=own[1:], decided_before=0)
    made = [t for id in own for t in tasks.of_callback(store, id)]
    assert len(made) == len(own)
    assert len({t.decision for t in made}) == len({t.visit_id for t in made}) == 1
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "extra visit", "week 1"]
    (line,) = call_lines.listed(desk(store, nurse)).lines
    assert [t.kind for t in line.to_do] == ["come-today"]
    with pytest.raises(Conflict, match="meanwhile Sol Surgeon decided"):
        deciding.decide(desk(store, surgeon), several[-1].id, "advice", "", settings.clinic, decided_before=0)
    deciding.undo(desk(store, surgeon, 1), own[1])
    assert {get(store, id).state for id in own} == {"waiting"}
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 1"]


def test_a_decision_over_what_two_people_have_goes_to_each_and_is_taken_back_from_both(
    store: Store, surgeon: Actor, nurse: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    own = [c.id for c in several if c.eye_id == eye_id]
    holding.claim(desk(store, nurse), own[0])
    holding.claim(desk(store, surgeon), own[1])
    deciding.decide(desk(store, surgeon, 1), own[0], "same-day", "", settings.clinic, also=own[1:])
    owners = [tasks.of_callback(store, id)[0].owner for id in own]
    assert owners[:2] == [nurse.id, surgeon.id]
    assert set(owners[2:]) <= {None}
    deciding.undo(desk(store, surgeon, 2), own[0])
    assert [get(store, id).state for id in own[:3]] == ["claimed", "claimed", "waiting"]
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 1"]


def test_what_one_decision_made_is_taken_told_and_done_together(
    store: Store, surgeon: Actor, nurse: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    own = [c.id for c in several if c.eye_id == eye_id]
    task = deciding.decide(desk(store, surgeon), own[0], "theatre", "", settings.clinic, also=own[1:])
    holding.take_task(desk(store, nurse, 1), task.id, None)
    phone_calls.attempt(desk(store, nurse, 2), own[1], "patient", "", settings.clinic)
    mine = going_home.held(store, nurse.id)
    assert (len(mine.things_to_do), mine.callback_ids) == (1, [t.callback_id for t in mine.tasks])
    settling.give_up(desk(store, nurse, 3), task.id, "refuses surgery")
    assert {get(store, id).state for id in own} == {"waiting"}
    again = deciding.decide(desk(store, surgeon, 4), own[0], "advice", "", settings.clinic, also=own[1:], owner=nurse.id)
    phone_calls.attempt(desk(store, nurse, 5), own[0], "patient", "", settings.clinic)
    settling.finish(desk(store, nurse, 6), again.id, "")
    assert [get(store, id).outcome for id in own] == ["advice"] * len(own)
    assert {c.id for c in of_patient(store)} == {c.id for c in several} - set(own)


def test_a_visit_stays_in_the_book_while_one_of_its_worries_still_needs_it(
    store: Store, surgeon: Actor, nurse: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    own = [c.id for c in several if c.eye_id == eye_id]
    deciding.decide(desk(store, surgeon), own[0], "same-day", "", settings.clinic, also=own[1:2])
    one, other = (tasks.of_callback(store, id)[0] for id in own[:2])
    holding.take_task(desk(store, nurse), one.id, None)
    tasks.give(store, other.id, surgeon.id, nurse.id)
    settling.give_up(desk(store, nurse), one.id, "that one was told")
    assert "extra visit" in [v.name for v in visits.of_eye(store, eye_id)]
    settling.give_up(desk(store, surgeon), other.id, "that one too")
    assert "extra visit" not in [v.name for v in visits.of_eye(store, eye_id)]


def test_a_line_a_patient_with_the_worst_first_and_every_question_once(
    store: Store, nurse: Actor, several: list[Callback]
) -> None:
    (line,) = call_lines.listed(desk(store, nurse)).lines
    assert (line.worst.id, len(line.callbacks)) == (several[0].id, len(several))
    call = showing.call(desk(store, nurse), several[-1].id)
    assert [one.callback.id for one in call.worries] == [c.id for c in several]
    assert len(call.asks) == len(set(call.asks)) > 4
    assert {eye.side for eye in call.eyes} == {"right", "left"}
    left = next(e for e in eyes.of_patient(store, call.patient.id) if e.side == "left")
    pressure = call.readings[left.id].iop_mmhg
    assert pressure is not None
    assert pressure.body.iop_mmhg == 33
    assert call.proposed == [c.id for c in several if c.eye_id == several[0].eye_id]


def test_one_pressure_that_breaks_several_rules_is_said_once(store: Store, nurse: Actor, eye_id: str) -> None:
    visit.record_visit(desk(store, nurse), eye_id, [MeasuresBody(eye="right", iop_mmhg=61, instrument="applanation")])
    (call,) = [c for c in of_patient(store) if c.worry == "pressure"]
    assert len(worries.warnings_of_callback(store, call.id)) > 3
    shown = next(one for one in showing.call(desk(store, nurse), call.id).worries if one.callback.id == call.id)
    assert [w.rule for w in shown.warnings] == ["pressure-severe"]
    assert len(shown.rest) > 2


def get(store: Store, id: str) -> Callback:
    found = worries.callback(store, id)
    assert found is not None
    return found


def test_a_worry_about_the_fellow_eye_brings_its_patient_onto_todays_list_with_the_eye_that_is_followed(
    store: Store, surgeon: Actor, nurse: Actor, eye_id: str, several: list[Callback], settings: Settings
) -> None:
    """An eye that was never operated has no plan and no line on the list: its visit is one of the eye that has."""
    left = next(c for c in several if c.eye_id != eye_id)
    task = deciding.decide(desk(store, surgeon), left.id, "same-day", "", settings.clinic)
    due = [d.visit for d in lists.due_in(store, NOW, ZONE, ["due"])]
    assert [v.identity for v in due] == [task.visit_id]
    assert due[0].eye_id == eye_id
    visit.record_visit(desk(store, nurse, 10), eye_id, [], visit=task.visit_id)
    assert tasks.of_callback(store, left.id)[0].seen_at == NOW + timedelta(minutes=10)
    deciding.undo(desk(store, surgeon, 4), left.id)
    assert task.visit_id not in [v.identity for v in visits.of_eye(store, eye_id)]
