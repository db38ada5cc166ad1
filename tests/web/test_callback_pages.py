"""Callbacks in the pages of nurse and surgeon: a decision stays on every list until the patient was told and it is done."""

from datetime import datetime

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.patients import following
from followup.care.visits import visit
from followup.care.visits.visit import known_eye
from followup.config import Settings
from followup.records import Store, events, tasks, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Callback, Task
from tests.conftest import NOW, ZONE, Clock
from tests.pages import parsed


@pytest.fixture
def call(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> str:
    """The address of the pressure callback of an eye at 46 mmHg."""
    body = MeasuresBody(eye="right", iop_mmhg=46, instrument="applanation")
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, [body])
    return f"/clinic/callbacks/{next(c.id for c in worries.open_callbacks(store) if c.worry == 'pressure')}"


def found(store: Store, call: str) -> Callback:
    row = worries.callback(store, call.rpartition("/")[2])
    assert row is not None
    return row


def only_task(store: Store, call: str) -> Task:
    (task,) = tasks.of_callback(store, found(store, call).id)
    return task


def words_of(page: str) -> str:
    """The text of a page without its tags."""
    return parsed(page).one("main").words


def test_what_is_to_do_names_its_day_as_everywhere(as_nurse: FlaskClient, store: Store, nurse: Actor, call: str) -> None:
    as_nurse.post(f"{call}/claim")
    said = {"reached": "patient", "outcome": "same-day", "words": "comes at once"}
    assert as_nurse.post(f"{call}/attempt", data=said).status_code == 303
    assert "Phone the patient: come today (Fri 5 Mar 2027)" in words_of(as_nurse.get(call).text)


def test_a_callback_is_listed_claimed_called_and_settled(as_nurse: FlaskClient, as_surgeon: FlaskClient, call: str) -> None:
    assert "Pressure 46 mmHg, at or above 40" in as_surgeon.get("/surgeon/").text
    as_nurse.post(f"{call}/claim")
    assert as_surgeon.post(f"{call}/claim").status_code == 409
    assert "Is there pain, headache or sickness?" in as_nurse.get(call).text
    assert as_nurse.post(f"{call}/attempt", data={"words": "kept this"}).status_code == 400
    assert as_nurse.post(f"{call}/attempt", data={"outcome": "no-action", "words": ""}).status_code == 400
    assert as_nurse.post(f"{call}/attempt", data={"outcome": "not-reached", "words": "no answer"}).status_code == 400
    refused = as_nurse.post(f"{call}/attempt", data={"outcome": "advice", "words": "kept this"})
    assert refused.status_code == 400
    assert "nobody has spoken to the patient or carer" in refused.text
    assert "kept this" in refused.text
    assert as_nurse.post(f"{call}/attempt", data={"words": "x"}).status_code == 400
    assert as_nurse.post(f"{call}/attempt", data={"reached": "patient", "words": "no pain"}).status_code == 303
    assert as_nurse.post(f"{call}/attempt", data={"outcome": "advice", "words": "drops as before"}).status_code == 303
    shown = words_of(as_surgeon.get(call).text)
    for words in ("Settled: advice given", "no pain", "drops as before", "Nora Nurse"):
        assert words in shown
    assert "Pressure 46 mmHg" not in as_nurse.get("/clinic/callbacks").text


@pytest.mark.parametrize(
    ("outcome", "says"),
    [
        ("advice", "To do: phone the patient with the advice"),
        ("sooner", "To do: phone the patient: come sooner (Fri 5 Mar 2027)"),  # for now, and tomorrow the clinic is closed
        ("same-day", "To do: phone the patient: come today (Fri 5 Mar 2027)"),
        ("theatre", "To do: phone the patient: theatre"),
    ],
)
def test_what_a_surgeon_decides_stays_on_the_lists_with_who_and_by_when(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, nurse: Actor, call: str, outcome: str, says: str
) -> None:
    assert as_nurse.post(f"{call}/decide", data={"outcome": outcome}).status_code == 403
    assert as_surgeon.post(f"{call}/decide", data={"outcome": "magic"}).status_code == 400
    assert as_surgeon.post(f"{call}/decide", data={"outcome": outcome, "words": "pressure first"}).status_code == 303
    for client, address in ((as_nurse, "/clinic/callbacks"), (as_surgeon, "/surgeon/"), (as_nurse, call)):
        shown = words_of(client.get(address).text)
        assert f"{says} , “pressure first” — nobody yet, by 12:00" in shown, shown
    task = only_task(store, call)
    assert as_nurse.post(f"/clinic/tasks/{task.id}/take", data={"whose": ""}).status_code == 303
    assert "— Nora Nurse, by 12:00" in words_of(as_surgeon.get("/surgeon/").text)
    early = as_nurse.post(f"{call}/attempt", data={"done": task.id, "words": "kept"})
    assert early.status_code == 400
    assert "nobody has spoken to the patient or carer" in early.text
    assert "kept" in early.text
    both = {"reached": "patient", "words": "understood", "done": task.id, "theatre_on": "2027-03-08"}
    if task.visit_id:
        early = as_nurse.post(f"{call}/attempt", data={**both, "words": "kept this"})
        assert early.status_code == 400
        assert "has not taken place: record it as seen first" in words_of(early.text)
        assert "kept this" in early.text
        visit.record_visit(Desk(store, NOW, nurse, ZONE), task.eye_id, [], visit=task.visit_id)
    assert as_nurse.post(f"{call}/attempt", data=both).status_code == 303
    assert found(store, call).state == "settled"


def test_the_day_of_an_extra_visit_is_proposed_and_changed_in_place(
    as_surgeon: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    """NOW is Friday 5 March 2027. A pressure of 33 is for today: come within three days, that is on Monday."""
    body = MeasuresBody(eye="right", iop_mmhg=33, instrument="applanation")
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, [body])
    call = f"/clinic/callbacks/{next(c.id for c in worries.open_callbacks(store) if c.worry == 'pressure')}"
    page = parsed(as_surgeon.get(call).text)
    (chosen,) = [o for o in page.one("select", id="decide-on").all("option") if "selected" in o.attributes]
    assert (chosen.attributes["value"], chosen.words) == ("2027-03-08", "Mon 8 Mar, 0 of 12 booked")
    (first,) = [b for b in page.one("form", class_="decide").all("button") if "quiet" not in b.classes]
    assert first.words == "Come today"  # what is mostly decided stands out
    form = {"outcome": "sooner", "on": "2027-03-12"}
    asked = as_surgeon.post(f"{call}/decide", data=form)
    assert asked.status_code == 400
    question = "pressure is for today: come by 8 March 2027"
    assert f"P{question[1:]}." in words_of(asked.text)
    assert tasks.of_callback(store, call.rpartition("/")[2]) == []
    assert as_surgeon.post(f"{call}/decide", data={**form, "accepted-0": question}).status_code == 303
    assert "come sooner (Fri 12 Mar 2027)" in words_of(as_surgeon.get(call).text)
    wrong = as_surgeon.post(f"{call}/decide", data={"outcome": "sooner", "on": "2027-03-01"})
    assert wrong.status_code == 400
    assert "1 March 2027 is over" in wrong.text
    assert as_surgeon.post(f"{call}/decide", data={"outcome": "sooner", "on": "soon"}).status_code == 400


def test_who_and_by_when_are_the_surgeons_to_choose(as_surgeon: FlaskClient, store: Store, nurse: Actor, call: str) -> None:
    form = {"outcome": "theatre", "owner": nurse.id, "by": "2027-03-05T10:30", "decided_before": "0"}
    past = as_surgeon.post(f"{call}/decide", data=form)
    assert past.status_code == 400
    assert "still to come" in past.text
    assert as_surgeon.post(f"{call}/decide", data={**form, "by": "2027-03-05T11:40"}).status_code == 303
    assert "— Nora Nurse, by 11:40" in words_of(as_surgeon.get(call).text)
    assert as_surgeon.post(f"{call}/decide", data={**form, "by": ""}).status_code == 409


def test_a_call_that_reached_nobody_closes_nothing_and_shows_the_next_try(
    as_nurse: FlaskClient, store: Store, call: str
) -> None:
    as_nurse.post(f"{call}/claim")
    wrong = as_nurse.post(f"{call}/attempt", data={"reached": "no", "words": "kept", "next_try": "2027-03-06T10:00"})
    assert wrong.status_code == 400
    assert "within 1 hour" in wrong.text
    assert 'value="2027-03-06T10:00"' in wrong.text
    as_nurse.post(f"{call}/attempt", data={"reached": "no", "words": "no answer", "next_try": "2027-03-05T11:20"})
    assert "not reached, next try 11:20" in words_of(as_nurse.get("/clinic/callbacks").text)
    assert found(store, call).state == "claimed"
    for _ in range(2):
        as_nurse.post(f"{call}/attempt", data={"reached": "no", "words": ""})
    assert "not reached in 3 calls" in words_of(as_nurse.get(call).text)
    assert "moved up to the surgeon" in words_of(as_nurse.get("/clinic/callbacks").text)


def test_anybody_takes_over_with_one_button_and_whoever_had_it_is_told(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, nurse: Actor, surgeon: Actor, call: str
) -> None:
    as_nurse.post(f"{call}/claim")
    assert "Take over from Nora Nurse" in as_surgeon.get(call).text
    assert as_surgeon.post(f"{call}/take-over", data={"whose": nurse.id}).status_code == 303
    assert as_nurse.post(f"{call}/attempt", data={"reached": "patient"}).status_code == 409
    for address in ("/clinic/callbacks", call):
        assert "Sol Surgeon" in words_of(as_nurse.get(address).text)
    assert "Taken over from you Pat Patient, pressure : Sol Surgeon has it" in words_of(
        as_nurse.get("/clinic/callbacks").text
    )
    assert "Taken over from you" not in as_surgeon.get("/surgeon/").text
    assert as_nurse.post(f"{call}/take-over", data={"whose": nurse.id}).status_code == 409
    as_surgeon.post(f"{call}/decide", data={"outcome": "theatre"})
    assert "Take over from Sol Surgeon" in as_nurse.get(call).text
    task = only_task(store, call)
    assert as_nurse.post(f"/clinic/tasks/{task.id}/take", data={"whose": surgeon.id}).status_code == 303
    assert "taken over by Nora Nurse from Sol Surgeon" in words_of(as_surgeon.get(call).text)
    assert "Taken over from you" in as_surgeon.get("/surgeon/").text


def test_a_decision_is_taken_back_for_a_while(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, call: str, clock: Clock
) -> None:
    as_surgeon.post(f"{call}/decide", data={"outcome": "same-day"})
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "extra visit", "week 1"]
    clock.pass_(minutes=4)
    assert as_nurse.post(f"{call}/undo").status_code == 409
    assert as_surgeon.post(f"{call}/undo").status_code == 303
    assert [v.name for v in visits.of_eye(store, eye_id)] == ["day 1", "week 1"]
    assert "taken back" in as_surgeon.get(call).text
    as_surgeon.post(f"{call}/decide", data={"outcome": "theatre"})
    clock.pass_(minutes=6)
    assert as_surgeon.post(f"{call}/undo").status_code == 409


def test_a_late_task_says_so(as_nurse: FlaskClient, as_surgeon: FlaskClient, call: str, clock: Clock) -> None:
    as_surgeon.post(f"{call}/decide", data={"outcome": "theatre"})
    clock.pass_(hours=2)
    assert "nobody yet, by 12:00 (late)" in words_of(as_nurse.get("/clinic/callbacks").text)


def test_a_changed_plan_is_told_before_the_callback_is_settled(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, call: str
) -> None:
    from tests.web.test_discharge_pages import fields_of

    address = f"/clinic/eyes/{eye_id}/plan?callback={found(store, call).id}"
    form = fields_of(as_surgeon.get(address).text)
    assert as_surgeon.post(address, data={**form, "position": "left-cheek", "settles": "y"}).status_code == 200
    assert found(store, call).state == "to-do"
    shown = words_of(as_nurse.get("/clinic/callbacks").text)
    assert "To do: phone the patient: the plan was changed , “plan changed: posture”" in shown


def seen(store: Store, eye_id: str) -> list[tuple[str, str]]:
    return [(e.body.visit, e.body.visit_id) for e in events.of_eye(store, eye_id) if e.kind == "seen"]


MEASURED = {"right-correction": "pinhole", "right-iop": "16", "right-instrument": "rebound"}
MEASURED |= {"left-correction": "unaided", "left-instrument": "applanation"}


def chosen(page: str) -> str:
    """The visit that the entry page proposes."""
    return str(parsed(page).one("select", name="visit").sends["visit"])


@pytest.mark.parametrize(
    ("day", "proposes"),
    [(3, "day 1"), (4, None), (5, None), (7, None), (8, "week 1"), (14, "week 1"), (15, None)],
)
def test_the_visit_proposed_is_one_whose_window_holds_today(
    as_nurse: FlaskClient, store: Store, eye_id: str, clock: Clock, day: int, proposes: str | None
) -> None:
    clock.now = datetime(2027, 3, day, 10, tzinfo=NOW.tzinfo)
    by_id = {v.identity: v.name for v in visits.of_eye(store, eye_id)}
    page = as_nurse.get(f"/clinic/eyes/{eye_id}/visit").text
    assert by_id.get(chosen(page)) == proposes
    as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data={**MEASURED, "visit": chosen(page)})
    assert [name for name, _ in seen(store, eye_id)] == ([proposes] if proposes else [])


def test_a_visit_that_is_not_due_today_is_asked_about_once(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    address = f"/clinic/eyes/{eye_id}/visit"
    week = next(v.identity for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    asked = as_nurse.post(address, data={**MEASURED, "visit": week})
    assert asked.status_code == 200
    assert "week 1 is due Mon 8 Mar to Sun 14 Mar: is it this visit that takes place today?" in asked.text
    assert (chosen(asked.text), seen(store, eye_id)) == (week, [])
    assert as_nurse.post(address, data={**MEASURED, "visit": week, "sure": "y"}).status_code == 303
    assert seen(store, eye_id) == [("week 1", week)]


def test_two_extra_visits_stand_side_by_side_and_are_seen_one_by_one(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, call: str, clock: Clock
) -> None:
    address = f"/clinic/eyes/{eye_id}/visit"
    as_surgeon.post(f"{call}/decide", data={"outcome": "same-day"})
    first = chosen(as_nurse.get(address).text)
    as_nurse.post(f"/clinic/eyes/{eye_id}/arrived", data={"visit": "extra visit", "visit_id": first})
    assert as_nurse.post(address, data={**MEASURED, "visit": first}).status_code == 303
    clock.pass_(days=1)
    as_surgeon.post(f"{call}/decide", data={"outcome": "same-day"})
    second = chosen(as_nurse.get(address).text)
    assert second not in ("", first)
    today = as_nurse.get("/clinic/").text
    assert today.count(">extra visit<") == 1
    assert f'id="visit-{second}"' in today
    assert as_nurse.post(address, data={**MEASURED, "visit": second}).status_code == 303
    assert seen(store, eye_id) == [("extra visit", first), ("extra visit", second)]
    assert chosen(as_nurse.get(address).text) == ""
    assert ">week 1<" in as_nurse.get("/clinic/?show=coming").text


def test_a_patient_is_one_line_and_one_page_with_both_eyes_every_worry_and_every_number(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, call: str, settings: Settings
) -> None:
    bodies = [MeasuresBody(eye="left", iop_mmhg=33, acuity="6/9"), MeasuresBody(eye="right", findings=("hypopyon",))]
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, bodies)
    assert len(worries.open_callbacks(store)) > 3
    shown = as_nurse.get("/clinic/callbacks").text
    assert shown.count("Pat Patient") == 1
    assert "Also:" in shown
    page = as_nurse.get(call).text
    for words in ("tel:+009876", "pressure 33 mmHg", "Pressure 46 mmHg", "6/9", "33 mmHg", "46 mmHg"):
        assert words.lower() in page.lower(), words
    assert page.count("Is there pain, headache or sickness?") == 1
    assert page.count(">Picture</a>") == 2
    assert as_nurse.post(f"{call}/claim").status_code == 303
    assert {c.claimed_by for c in worries.open_callbacks(store)} == {nurse.id}


def test_an_outcome_is_for_the_worries_that_are_ticked_and_for_none_without_a_tick(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, call: str, settings: Settings
) -> None:
    hypopyon = [MeasuresBody(eye="right", findings=("hypopyon",))]
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, hypopyon)
    as_nurse.post(f"{call}/claim")
    form = {"reached": "patient", "outcome": "advice", "words": "kept", "asked_about": "y"}
    refused = as_nurse.post(f"{call}/attempt", data=form)
    assert refused.status_code == 400
    assert "say which of these it is about" in refused.text
    assert "kept" in refused.text
    # Nothing of it is on record, or the call would count twice once the form is right.
    assert [step.step for c in worries.open_callbacks(store) for step in worries.steps_of(store, c.id)].count("reached") == 0
    everything = [c.id for c in worries.open_callbacks(store)]
    assert as_nurse.post(f"{call}/attempt", data={**form, "about": everything[1:]}).status_code == 303
    assert [c.id for c in worries.open_callbacks(store)] == everything[:1]


def test_what_is_left_undecided_may_be_settled_while_the_rest_is_to_do(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, call: str, settings: Settings
) -> None:
    hypopyon = [MeasuresBody(eye="right", findings=("hypopyon",))]
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, hypopyon)
    as_nurse.post(f"{call}/claim")
    *others, last = [c.id for c in worries.open_callbacks(store)]
    form = {"reached": "patient", "outcome": "theatre", "asked_about": "y", "about": others}
    as_nurse.post(f"{call}/attempt", data=form)
    page = as_nurse.get(call).text
    assert f'<input type="hidden" name="about" value="{last}">' in page
    assert 'name="outcome"' in page
    assert as_nurse.post(f"{call}/attempt", data={"outcome": "advice", "about": last}).status_code == 303
    assert {c.id for c in worries.open_callbacks(store)} == set(others)
    assert 'name="outcome"' not in as_nurse.get(call).text


def test_who_was_seen_since_is_not_to_be_phoned(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, call: str, clock: Clock
) -> None:
    as_surgeon.post(f"{call}/decide", data={"outcome": "same-day"})
    assert "phone the patient: come today" in as_nurse.get("/clinic/callbacks").text
    clock.pass_(minutes=20)
    assert as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data={**MEASURED, "visit": ""}).status_code == 303
    for client, page in ((as_nurse, "/clinic/callbacks"), (as_surgeon, "/surgeon/"), (as_nurse, call)):
        shown = client.get(page).text
        assert "was seen" in shown, page
        assert "phone the patient: come today" not in shown


def test_a_surgeon_who_brings_in_an_eye_whose_follow_up_ended_is_told_to_take_it_up_first(
    as_surgeon: FlaskClient, store: Store, nurse: Actor, eye_id: str
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    following.end(desk, eye_id, "moved", "", closes=[c.id for c in worries.open_callbacks(store)])
    visit.record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=34, instrument="applanation")])
    call = f"/clinic/callbacks/{worries.open_callbacks(store)[0].id}"
    answer = as_surgeon.post(f"{call}/decide", data={"outcome": "same-day"})
    assert answer.status_code == 400
    assert "take up follow-up first" in words_of(answer.text)
    page = f"/clinic/patients/{known_eye(store, eye_id).patient.id}"
    assert [a.words for a in parsed(answer.text).one("main").all("a", href=page)] == ["Pat Patient", "Take it up again"]
