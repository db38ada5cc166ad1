"""*No gas seen* lifts the caution: open to whom the clinic trusts, asked once more, taken back, revoked by gas seen later."""

from typing import Any

from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.visits.visit import record_visit
from followup.config import Settings
from followup.records import Store, events, eyes, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import NOW, Clock, operation_note, patient_details
from tests.pages import faults_in, parsed

MEASURED = {
    f"{side}-{how}": way
    for side in ("right", "left")
    for how, way in (("correction", "pinhole"), ("instrument", "applanation"))
}


def caution(phone: FlaskClient) -> bool:
    answer = phone.get("/api/v1/pack").json
    assert answer is not None
    return bool(answer["eyes"][0]["gas"]["caution"])


def level(store: Store, clock: Clock, nurse: Actor, eye_id: str, settings: Settings, percent: float) -> None:
    body = MeasuresBody(eye="right", bubble_percent=percent)
    record_visit(Desk(store, clock.pass_(hours=1), nurse, settings.clinic.tz), eye_id, [body])


def test_it_is_asked_once_more_beside_the_last_level_and_the_forecast(
    as_surgeon: FlaskClient, as_patient: FlaskClient, store: Store, clock: Clock, nurse: Actor, eye_id: str,
    settings: Settings,
) -> None:  # fmt: skip
    level(store, clock, nurse, eye_id, settings, 85)
    page = as_surgeon.get(f"/clinic/eyes/{eye_id}").text
    assert 'button class="quiet">I looked' not in page
    asked = as_surgeon.get(f"/clinic/eyes/{eye_id}/no-gas").text
    assert "85 % high by the clinic" in asked
    assert "gone about day" in asked
    assert caution(as_patient)
    as_surgeon.post(f"/clinic/eyes/{eye_id}/no-gas")
    assert not caution(as_patient)


def test_it_is_asked_once_more_on_the_entry_screen(as_surgeon: FlaskClient, as_patient: FlaskClient, eye_id: str) -> None:
    typed = {**MEASURED, "right-iop": "16", "no_gas_seen": "y"}
    asked = as_surgeon.post(f"/clinic/eyes/{eye_id}/visit", data=typed)
    assert "Did a clinician look at the retina" in asked.text
    assert caution(as_patient)
    as_surgeon.post(f"/clinic/eyes/{eye_id}/visit", data={**typed, "sure": "y"})
    assert not caution(as_patient)


def test_a_bubble_with_a_height_and_no_gas_seen_cannot_both_be(
    as_surgeon: FlaskClient, as_patient: FlaskClient, eye_id: str
) -> None:
    typed = {**MEASURED, "right-bubble_percent": "20", "no_gas_seen": "y", "sure": "y"}
    answer = as_surgeon.post(f"/clinic/eyes/{eye_id}/visit", data=typed)
    assert answer.status_code == 400
    assert "cannot both be" in answer.text
    assert caution(as_patient)


def test_it_can_be_taken_back_with_a_reason(
    as_surgeon: FlaskClient, as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    as_surgeon.post(f"/clinic/eyes/{eye_id}/no-gas")
    entry = next(e for e in events.of_eye(store, eye_id) if e.kind == "no-gas-seen")
    address = f"/clinic/entries/{entry.id}/take-back"
    assert as_surgeon.post(address, data={"reason": " "}).status_code == 400
    assert not caution(as_patient)
    assert as_surgeon.post(address, data={"reason": "the wrong eye"}).status_code == 303
    assert caution(as_patient)
    assert as_surgeon.post(address, data={"reason": "again"}).status_code == 409
    kept = events.history_of(store, eye_id)
    assert [getattr(e.body, "reason", None) for e in kept if e.corrects == entry.id] == ["the wrong eye"]


def test_gas_seen_later_brings_the_caution_back_and_calls(
    as_surgeon: FlaskClient, as_patient: FlaskClient, store: Store, clock: Clock, nurse: Actor, eye_id: str,
    settings: Settings,
) -> None:  # fmt: skip
    def card() -> str:
        return as_surgeon.get(f"/clinic/eyes/{eye_id}/card").text

    assert "There is gas in my eye" in card()
    assert "Gas was seen again" not in card()
    as_surgeon.post(f"/clinic/eyes/{eye_id}/no-gas")
    assert "There is gas in my eye" not in card()
    level(store, clock, nurse, eye_id, settings, 85)
    assert caution(as_patient)
    assert "There is gas in my eye" in card()
    assert "Gas was seen again: a card without this warning is wrong." in card()
    assert "Gas was seen again" in as_surgeon.get(f"/clinic/eyes/{eye_id}").text
    assert "gas-after-no-gas" in {w.rule for w in worries.warnings_of(store, eye_id)}


def test_a_nurse_records_it_only_where_the_clinic_lets_nurses(
    app: Flask, as_nurse: FlaskClient, as_patient: FlaskClient, settings: Settings, eye_id: str
) -> None:
    page = f"/clinic/eyes/{eye_id}"
    typed = {**MEASURED, "right-iop": "16", "no_gas_seen": "y", "sure": "y"}
    assert "No gas seen …" not in as_nurse.get(page).text
    assert "saw no gas" not in as_nurse.get(f"{page}/visit").text
    assert [as_nurse.get(f"{page}/no-gas").status_code, as_nurse.post(f"{page}/no-gas").status_code] == [403, 403]
    refused = as_nurse.post(f"{page}/visit", data=typed)
    assert refused.status_code == 400
    assert "a surgeon records" in refused.text
    assert caution(as_patient)
    app.extensions["followup"].settings = replace_clinic(settings, nurses_record_no_gas=True)
    assert "No gas seen …" in as_nurse.get(page).text
    assert as_nurse.post(f"{page}/visit", data=typed).status_code == 303
    assert not caution(as_patient)


def test_there_is_no_gas_to_look_for_where_none_was_left(
    as_surgeon: FlaskClient, store: Store, nurse: Actor, settings: Settings
) -> None:
    oil = operation_note(agent="silicone-oil", percent=0)
    eye, _ = leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details("T-2"), oil, [])
    page = f"/clinic/eyes/{eye}/no-gas"
    assert [as_surgeon.get(page).status_code, as_surgeon.post(page).status_code] == [404, 404]
    assert events.of_eye(store, eye) == []


def replace_clinic(settings: Settings, **changes: Any) -> Settings:
    return settings.model_copy(update={"clinic": settings.clinic.model_copy(update=changes)})


def test_a_changed_plan_says_where_what_was_left_is_put_right_and_lifts_no_caution(
    as_nurse: FlaskClient, as_patient: FlaskClient, eye_id: str
) -> None:
    """By a nurse who may not record *no gas seen*."""
    page = f"/clinic/eyes/{eye_id}/plan"
    form = parsed(as_nurse.get(page).text).one("form", novalidate="").sends
    answer = as_nurse.post(page, data={**form, "agent": "none", "percent": "0", "fill_percent": "0"})
    assert (answer.status_code, list(faults_in(answer.text))) == (400, ["agent"])
    assert "correct the operation note, with the reason" in answer.text
    assert caution(as_patient)


def test_a_note_by_which_no_gas_was_left_is_put_right_by_whoever_may_say_so(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    page = f"/clinic/eyes/{eye_id}/operations/{eyes.notes_of(store, eye_id)[-1].operation_id}/note"
    form = parsed(as_nurse.get(page).text).one("form", novalidate="").sends
    form |= {"agent": "none", "percent": "0", "fill_percent": "0", "reason": "misread"}
    answer = as_nurse.post(page, data=form)
    assert (answer.status_code, list(faults_in(answer.text))) == (400, ["agent"])
    assert "in this clinic a surgeon says that no gas is left" in answer.text
    assert caution(as_patient)
    del form["csrf_token"]  # of the nurse's session
    assert as_surgeon.post(page, data=form).status_code == 200
    assert not caution(as_patient)
