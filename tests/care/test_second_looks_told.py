"""What the phone is told of a second look that did not come: settled only once its own callback is."""

from datetime import timedelta

from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.care.watch.raising import check_eye
from followup.config import Settings
from followup.records import Store, worries
from tests.care.test_own_words import WELL, send
from tests.conftest import ZONE, Clock
from tests.pages import parsed


def test_a_check_with_a_second_look_to_come_is_not_settled_by_what_was_settled_before(
    as_patient: FlaskClient, nurse: Actor, store: Store, eye_id: str, clock: Clock, settings: Settings
) -> None:
    def receipts(what: str) -> list[bool]:
        return [r[what] for r in as_patient.get("/api/v1/pack").json["eyes"][0]["receipts"]]

    def settled() -> list[bool]:
        return receipts("settled")

    def settle_all() -> None:
        for found in worries.open_callbacks(store):
            holding.claim(Desk(store, clock.now, nurse, ZONE), found.id)
            phone_calls.attempt(Desk(store, clock.now, nurse, ZONE), found.id, "patient", "spoken to", settings.clinic)
            settling.settle(Desk(store, clock.now, nurse, ZONE), found.id, "advice", "spoken to", settings.clinic)

    # Sight said to be worse: a callback this week at once, the second look within two hours.
    send(as_patient, eye_id, body={**WELL, "vision": "worse"}, at=clock.now.isoformat())
    clock.pass_(minutes=5)
    settle_all()
    assert (settled(), receipts("calling")) == ([False], [False])
    clock.pass_(minutes=120)
    check_eye(store, eye_id, clock.now, settings.clinic.tz)
    assert [c.how_soon for c in worries.open_callbacks(store)] == ["today"]
    # It is this check's own sign that came up, though only now: another phone must not reassure about it.
    assert (settled(), receipts("calling")) == ([False], [True])
    clock.pass_(minutes=5)
    settle_all()
    assert (settled(), receipts("calling")) == ([True], [False])


def test_the_pack_brings_what_is_asked_back(as_patient: FlaskClient, eye_id: str) -> None:
    eye = as_patient.get("/api/v1/pack").json["eyes"][0]
    rules = {rule["id"]: rule for rule in eye["symptom_rules"]}
    assert rules["floaters"]["second_look"]["hours"] == 4
    assert rules["curtain"]["second_look"] is None
    assert (rules["vision-still-worse"]["again_within_hours"], rules["vision-still-worse"]["looks"]) == (30, 2)
    assert eye["asking"] == {"answers_stand_hours": 24, "asked_back_minutes": 15, "telling_pain": 4, "severe_pain": 7}


def test_the_page_of_the_eye_says_what_waits_for_a_second_look_and_until_when(
    as_patient: FlaskClient, as_surgeon: FlaskClient, eye_id: str, clock: Clock
) -> None:
    def waiting() -> list[str]:
        page = parsed(as_surgeon.get(f"/clinic/eyes/{eye_id}").text)
        return [line.words for part in page.all(id="second-looks") for line in part.all("li")]

    assert waiting() == []
    send(as_patient, eye_id, body={**WELL, "floaters": "worse"}, at=clock.now.isoformat())
    (line,) = waiting()
    due = (clock.now + timedelta(hours=4)).astimezone(ZONE)
    assert line.startswith("floaters: asked ")
    assert f"{due:%H:%M}" in line
    clock.pass_(minutes=30)
    send(as_patient, eye_id, body=WELL, at=clock.now.isoformat())
    assert waiting() == []
