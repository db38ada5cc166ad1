"""The list of eyes for theatre, as nurse and surgeon work with it."""

from datetime import date, datetime

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, holding, theatre
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.config import Settings
from followup.records import Store, tasks, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Task
from tests.conftest import NOW, ZONE
from tests.pages import Element, parsed

LIST = "/clinic/for-theatre"


def at(store: Store, who: Actor, now: datetime = NOW) -> Desk:
    return Desk(store, now, who, ZONE)


@pytest.fixture
def decided(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, settings: Settings) -> Task:
    visit.record_visit(at(store, nurse), eye_id, [MeasuresBody(eye="right", iop_mmhg=33)])
    call = next(c.id for c in worries.open_callbacks(store) if c.worry == "pressure")
    return deciding.decide(at(store, surgeon), call, "theatre", "washout", settings.clinic)


def shown(client: FlaskClient) -> Element:
    return parsed(client.get(LIST).text).one("main")


def test_it_is_reached_from_today_and_from_needs_me(as_nurse: FlaskClient, as_surgeon: FlaskClient) -> None:
    assert [a.words for a in parsed(as_nurse.get("/clinic/").text).all("a", href=LIST)] == ["For theatre"]
    assert [a.words for a in parsed(as_surgeon.get("/surgeon/").text).all("a", href=LIST)] == ["For theatre, by day"]
    assert "Nobody is for theatre." in shown(as_nurse).words


def test_day_and_list_are_written_confirmed_and_cancelled_where_they_stand(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, nurse: Actor, decided: Task, settings: Settings
) -> None:
    page = shown(as_nurse)
    assert [h.words for h in page.all("h2")] == ["No day yet 1"]
    assert (
        "the patient does not know yet nobody has it, by 15:00" in page.one("tr", id=f"theatre-{decided.id}").words.lower()
    )
    to = f"/clinic/tasks/{decided.id}/theatre"
    plan = {"theatre_on": "2027-03-08", "words": "morning list"}
    early = as_nurse.post(to, data={**plan, "do": "confirm"})
    assert early.status_code == 400
    assert "nobody has spoken to the patient or carer" in early.text
    assert 'value="2027-03-08"' in early.text
    assert [h.words for h in shown(as_nurse).all("h2")] == ["No day yet 1"]  # nothing of it was kept
    holding.take_task(at(store, nurse), decided.id, None)
    phone_calls.attempt(at(store, nurse), decided.callback_id, "patient", "", settings.clinic)
    assert as_nurse.post(to, data={**plan, "do": "plan"}).status_code == 303
    assert [h.words for h in shown(as_nurse).all("h2")] == ["Mon 8 Mar 2027 1"]
    assert (
        "theatre to be confirmed (Mon 8 Mar 2027, morning list)"
        in parsed(as_surgeon.get("/clinic/callbacks").text).one("main").words
    )
    assert as_nurse.post(to, data={**plan, "do": "confirm"}).status_code == 303
    assert "✓ confirmed" in shown(as_surgeon).one("tr", id=f"theatre-{decided.id}").words
    wrong = as_surgeon.post(to, data={**plan, "do": "cancel"})
    assert wrong.status_code == 400
    assert "say why it is cancelled" in wrong.text
    assert as_surgeon.post(to, data={**plan, "do": "cancel", "why": "attached after all"}).status_code == 303
    assert (
        "Theatre on Mon 8 Mar 2027 cancelled: attached after all"
        in parsed(as_surgeon.get("/surgeon/").text).one("main").words
    )
    assert as_surgeon.post(to, data={**plan, "do": "plan"}).status_code == 404
    assert as_surgeon.post(to, data={**plan, "do": "magic"}).status_code == 400


@pytest.mark.parametrize("wrong", [{"theatre_on": "soon"}, {"theatre_on": "2027-03-01"}, {"words": "x" * 121}])
def test_what_cannot_be_is_said_on_the_line(
    as_nurse: FlaskClient, store: Store, decided: Task, wrong: dict[str, str]
) -> None:
    answer = as_nurse.post(f"/clinic/tasks/{decided.id}/theatre", data={"do": "plan", **wrong})
    assert answer.status_code == 400
    assert parsed(answer.text).one("tr", id=f"theatre-{decided.id}").all("p", class_="error")
    assert [t.theatre_on for t in tasks.for_theatre(store)] == [None]


def test_a_day_that_is_over_without_an_operation_is_pointed_out(as_nurse: FlaskClient, store: Store, decided: Task) -> None:
    tasks.plan_theatre(store, decided.id, NOW.date().replace(day=4), "morning list")
    assert "The day is over, and no operation is recorded" in shown(as_nurse).words


def test_ending_follow_up_asks_about_confirmed_theatre_and_the_list_says_that_it_is_withdrawn(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, decided: Task, settings: Settings
) -> None:
    here = at(store, nurse)
    theatre.plan(here, decided.id, date(2027, 3, 8), "morning list")
    holding.take_task(here, decided.id, None)
    phone_calls.attempt(here, decided.callback_id, "patient", "", settings.clinic)
    theatre.confirm(here, decided.id)
    closes = [c.id for c in worries.open_callbacks(store)]
    asked = parsed(as_nurse.get(f"/clinic/eyes/{eye_id}/end").text).one("section", id="withdraws")
    assert "Mon 8 Mar 2027, morning list" in asked.words
    form = {"reason": "died", "words": "on Sunday", "closes": closes}
    refused = as_nurse.post(f"/clinic/eyes/{eye_id}/end", data=form)
    assert refused.status_code == 400
    assert "theatre is confirmed: say that it is withdrawn" in refused.text.lower()
    assert "Mon 8 Mar 2027" in shown(as_nurse).words
    assert as_nurse.post(f"/clinic/eyes/{eye_id}/end", data={**form, "withdraws": decided.id}).status_code == 303
    gone = shown(as_nurse).one("section", id="withdrawn").words
    assert "Mon 8 Mar 2027, morning list" in gone
    assert "the patient died: on Sunday" in gone
    assert "theatre withdrawn" in as_nurse.get(f"/clinic/callbacks/{decided.callback_id}").text
