"""Consent to the phone pages: without it no phone is set up, and taken back it locks out those that were."""

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError, Conflict, Refused
from followup.care.home import enrol
from followup.care.patients import consenting
from followup.care.reading.eye import load
from followup.records import Store, audit, backup
from followup.records.values import Device
from tests.conftest import NOW, ZONE, consented, operation_note, patient_details


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


@pytest.fixture
def asked(desk: Desk) -> tuple[str, str]:
    """(eye id, code) of a patient of whom nobody has recorded a consent."""
    return leaving.discharge(
        desk, patient_details("T-5").model_copy(update={"reached_by": "own-phone"}), operation_note(), []
    )


def patient_of(desk: Desk, eye_id: str) -> str:
    return load(desk.store, eye_id, desk.zone).patient.id


def test_without_consent_no_phone_is_set_up(desk: Desk, asked: tuple[str, str], app: Flask) -> None:
    with pytest.raises(Refused, match="has not noted yet that you agree"):
        enrol.enrol(desk.store, NOW, asked[1], 1952, "patient", "here")
    form = {"code": asked[1], "birth_year": "1952", "used_by": "patient"}
    assert app.test_client().post("/enrol", data=form).status_code == 403
    assert desk.store.rows("SELECT 1 FROM devices") == []
    consented(desk, asked)
    assert enrol.enrol(desk.store, NOW, asked[1], 1952, "patient", "here")  # the code was not used up


def test_one_press_beside_the_card_records_it_and_leads_back(
    as_nurse: FlaskClient, desk: Desk, asked: tuple[str, str]
) -> None:
    card = f"/clinic/eyes/{asked[0]}/card"
    assert "Consent to the phone pages is not recorded" in as_nurse.get(card).text
    patient = patient_of(desk, asked[0])
    press = {"given": "yes", "said_by": "patient", "back": card}
    answer = as_nurse.post(f"/clinic/patients/{patient}/consent", data=press)
    assert (answer.status_code, answer.headers["Location"]) == (303, card)
    for page in (card, f"/clinic/patients/{patient}"):
        assert "Consent to the phone pages: given" in as_nurse.get(page).text
    (row,) = desk.store.rows("SELECT * FROM consents")
    assert (row["given"], row["said_by"], row["recorded_by"]) == (1, "patient", desk.actor.signature)
    assert [e["action"] for e in audit.of_subject(desk.store, patient)][-1] == "consent given"
    assert backup.faults(desk.store) == []


def test_taken_back_it_locks_out_every_phone_and_stays_on_record(
    as_nurse: FlaskClient, as_patient: FlaskClient, desk: Desk, device: Device
) -> None:
    again = enrol.issue_code(desk, device.patient_id)
    assert "Nothing is sent" not in as_nurse.get(f"/clinic/patients/{device.patient_id}").text
    assert as_patient.get("/api/v1/pack").status_code == 200
    form = {"given": "no", "said_by": "representative", "words": "Dana Daughter, by phone"}
    assert as_nurse.post(f"/clinic/patients/{device.patient_id}/consent", data=form).status_code == 303
    assert as_patient.get("/api/v1/pack").status_code == 401
    with pytest.raises(Refused, match="has not noted yet"):
        enrol.enrol(desk.store, NOW, again, 1952, "patient", "here")
    assert "Nothing is sent any more" in as_nurse.get(f"/clinic/patients/{device.patient_id}").text
    page = as_nurse.get(f"/clinic/patients/{device.patient_id}/consent").text
    assert "Dana Daughter, by phone" in page
    assert [one.given for one in consenting.history(desk.store, device.patient_id)] == [False, True]
    assert as_nurse.post(f"/clinic/patients/{device.patient_id}/consent", data=form).status_code == 400  # taken back already
    assert backup.faults(desk.store) == []


def test_who_spoke_has_to_be_said(desk: Desk, asked: tuple[str, str], as_nurse: FlaskClient) -> None:
    patient = patient_of(desk, asked[0])
    with pytest.raises(CareError, match="write who spoke"):
        consenting.give(desk, patient, "representative", " ")
    with pytest.raises(CareError, match="say who said so"):
        consenting.give(desk, patient, "the neighbour", "x")
    with pytest.raises(Conflict):
        consenting.take_back(desk, patient, "patient", "")
    for form in ({}, {"given": "yes"}, {"given": "yes", "said_by": "representative"}, {"given": "no", "said_by": "patient"}):
        assert as_nurse.post(f"/clinic/patients/{patient}/consent", data=form).status_code == 400
    assert desk.store.rows("SELECT 1 FROM consents") == []


def test_a_consent_is_never_changed(desk: Desk, device: Device) -> None:
    with pytest.raises(Exception, match="append-only"):
        desk.store.execute("UPDATE consents SET given = 0")
    with pytest.raises(Exception, match="append-only"):
        desk.store.execute("DELETE FROM consents")
