"""Carers: let in by the patient with a code, seen and removed by the patient; their entries say who. Common practice, no source."""

from datetime import timedelta
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.config import Settings
from followup.records import Store
from followup.records.store import new_id
from tests.conftest import NOW, OPERATED, Clock, consented, operation_note, patient_details

ADDRESS = "/api/v1/helpers"


def let_in(app: Flask, as_patient: FlaskClient, name: str = "Ada", used_by: str = "carer") -> FlaskClient:
    """The phone of a carer whom the patient let in."""
    made = as_patient.post(ADDRESS, json={"name": name}).json
    assert made["link"] == f"http://127.0.0.1:8000/enrol?code={made['code']}"
    phone = app.test_client()
    answer = phone.post("/enrol", data={"code": made["code"], "birth_year": "1952", "used_by": used_by})
    assert answer.status_code == 303
    return phone


def phones(client: FlaskClient) -> list[tuple[str, str, bool]]:
    return [(p["used_by"], p["name"], p["own"]) for p in client.get(ADDRESS).json["phones"]]


def entry(eye_id: str, **changes: Any) -> dict[str, Any]:
    usual = {
        "id": new_id(),
        "operation": eye_id,
        "kind": "drops",
        "at": NOW.isoformat(),
        "offset_minutes": 60,
        "sequence": 1,
    }
    return {**usual, "by": "carer", "body": {"name": "steroid"}, **changes}


@pytest.mark.parametrize("said", ["carer", "patient"])
def test_a_code_of_the_patient_makes_a_phone_that_of_the_carer_named(
    app: Flask, as_patient: FlaskClient, as_nurse: FlaskClient, eye_id: str, said: str
) -> None:
    helper = let_in(app, as_patient, " Ada  from next door ", said)
    assert phones(as_patient) == [("patient", "", True), ("carer", "Ada from next door", False)]
    assert phones(helper) == [("carer", "Ada from next door", True), ("patient", "", False)]
    assert helper.get("/api/v1/pack").json["used_by"] == "carer"
    sent = helper.post("/api/v1/events", json={"events": [entry(eye_id, by=said)]}).json
    assert sent["results"][0]["status"] == "received"
    (receipt,) = as_patient.get("/api/v1/pack").json["eyes"][0]["receipts"]
    assert (receipt["by"], receipt["name"]) == ("carer", "Ada from next door")
    assert "the carer Ada from next door" in as_nurse.get(f"/clinic/eyes/{eye_id}").text


def test_a_code_works_once_and_for_seven_days(app: Flask, as_patient: FlaskClient, clock: Clock) -> None:
    let_in(app, as_patient)
    codes = [as_patient.post(ADDRESS, json={"name": "Bo"}).json["code"] for _ in range(2)]
    form = {"birth_year": "1952", "used_by": "carer"}
    assert app.test_client().post("/enrol", data={**form, "code": codes[0]}).status_code == 303
    assert app.test_client().post("/enrol", data={**form, "code": codes[0]}).status_code == 403
    clock.pass_(days=7)
    assert app.test_client().post("/enrol", data={**form, "code": codes[1]}).status_code == 403


def test_the_patient_removes_a_carer_at_once(app: Flask, as_patient: FlaskClient, eye_id: str) -> None:
    helper = let_in(app, as_patient)
    (id,) = [p["id"] for p in as_patient.get(ADDRESS).json["phones"] if not p["own"]]
    assert as_patient.post(f"{ADDRESS}/{id}/remove").status_code == 204
    assert phones(as_patient) == [("patient", "", True)]
    answer = helper.post("/api/v1/events", json={"events": [entry(eye_id)]})
    assert (answer.status_code, answer.json["locked"], answer.json["removed"]) == (401, True, True)
    assert as_patient.post(f"{ADDRESS}/{id}/remove").status_code == 404


def test_a_carer_whom_the_clinic_locked_out_was_not_removed_by_the_patient(
    app: Flask, as_patient: FlaskClient, as_nurse: FlaskClient
) -> None:
    helper = let_in(app, as_patient)
    (id,) = [p["id"] for p in as_patient.get(ADDRESS).json["phones"] if not p["own"]]
    as_nurse.post(f"/clinic/devices/{id}/revoke")
    answer = helper.get("/api/v1/pack")
    assert (answer.status_code, answer.json["locked"], answer.json["removed"]) == (401, True, False)


def test_a_carer_lets_nobody_in_and_removes_nobody(app: Flask, as_patient: FlaskClient) -> None:
    helper, other = let_in(app, as_patient), let_in(app, as_patient, "Bo")
    assert not helper.get(ADDRESS).json["may_invite"]
    answer = helper.post(f"{ADDRESS}?language=de", json={"name": "Cy"})
    assert answer.status_code == 403
    assert "Telefon" in answer.json["error"]
    for phone in as_patient.get(ADDRESS).json["phones"]:
        assert helper.post(f"{ADDRESS}/{phone['id']}/remove").status_code == 403
    assert len(phones(other)) == 3


def test_no_phone_but_a_carers_of_the_same_patient_is_removed(
    app: Flask, as_patient: FlaskClient, client: FlaskClient, store: Store, nurse: Actor, settings: Settings
) -> None:
    (own,) = as_patient.get(ADDRESS).json["phones"]
    assert as_patient.post(f"{ADDRESS}/{own['id']}/remove").status_code == 404
    desk = Desk(store, OPERATED + timedelta(hours=7), nurse, settings.clinic.tz)
    _, code = consented(desk, leaving.discharge(desk, patient_details("T-2"), operation_note(), []))
    stranger = app.test_client()
    stranger.post("/enrol", data={"code": code, "birth_year": "1952", "used_by": "patient"})
    let_in(app, stranger, "Cy")
    for phone in stranger.get(ADDRESS).json["phones"]:
        assert as_patient.post(f"{ADDRESS}/{phone['id']}/remove").status_code == 404
    assert len(phones(stranger)) == 2
    assert client.get(ADDRESS).status_code == client.post(ADDRESS, json={"name": "x"}).status_code == 401


@pytest.mark.parametrize(
    ("name", "status"), [("", 403), ("   ", 403), ("x" * 61, 403), ("x" * 60, 200), (5, 400), (None, 400)]
)
def test_a_helper_has_a_name(as_patient: FlaskClient, name: object, status: int) -> None:
    answer = as_patient.post(ADDRESS, json={"name": name})
    assert (answer.status_code, bool(answer.json.get("error"))) == (status, status != 200)


def test_there_is_an_end_to_phones(app: Flask, as_patient: FlaskClient) -> None:
    for n in range(9):
        let_in(app, as_patient, f"helper {n}")
    answer = as_patient.post(ADDRESS, json={"name": "one more"})
    assert answer.status_code == 403
    assert "Remove one first" in answer.json["error"]
