"""Sealed packets open only here, and only whole. The same hybrid that browsers speak (RSA-OAEP with SHA-256, AES-256-GCM)."""

import base64
import os
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import time_machine
from click.testing import CliRunner
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol, sealing
from followup.care.home.senders import NOT_READ
from followup.cli import cli
from followup.config import Settings
from followup.records import Store, audit, events, keys, watch
from followup.records.store import new_id
from followup.records.values import Device
from tests.conftest import NOW
from tests.sealed import seal


def entry(eye_id: str, sequence: int = 1) -> dict[str, Any]:
    told = {"id": new_id(), "operation": eye_id, "kind": "symptoms", "at": NOW.isoformat(), "body": {"pain": 2}}
    return {**told, "offset_minutes": 60, "sequence": sequence}


def send(phone: FlaskClient, *packets: dict[str, str]) -> list[dict[str, Any]]:
    answer = phone.post("/api/v1/sealed", json={"sealed": list(packets)})
    assert (answer.status_code, answer.json is not None) == (200, True), answer.text
    return list(answer.json["results"])


def test_what_was_sealed_is_opened_and_taken_as_events(as_patient: FlaskClient, store: Store, eye_id: str) -> None:
    event = entry(eye_id)
    packet = seal(as_patient.get("/api/v1/pack").json["sealing_key"], [event])
    answer = as_patient.post("/api/v1/sealed", json={"sealed": [packet]})
    assert answer.json["results"][0]["status"] == "received"
    assert [e.id for e in events.of_eye(store, eye_id)] == [event["id"]]


@pytest.mark.parametrize(("changed", "is_known"), [({}, True), ({"kind": "posture"}, False)])
def test_what_came_already_is_known_though_the_phone_was_closed_before_it_heard_so(
    app: Flask, as_patient: FlaskClient, store: Store, nurse: Actor, device: Device, eye_id: str,
    settings: Settings, changed: dict[str, Any], is_known: bool,
) -> None:  # fmt: skip
    sent = entry(eye_id)
    as_patient.post("/api/v1/events", json={"events": [sent]})  # its answer is lost
    desk = Desk(store, NOW, nurse, settings.clinic.tz)
    enrol.revoke(desk, device.id)
    code = enrol.issue_code(desk, device.patient_id)
    again = app.test_client()
    again.post("/enrol", data={"code": code, "birth_year": "1952", "used_by": "patient"})
    other = {"position": "face-down", "from": "2027-03-05T06:00:00Z", "to": "2027-03-05T07:00:00Z"}
    body = other if changed.get("kind") == "posture" else sent["body"]
    (result,) = send(again, seal(sealing.public_key(store), [{**sent, **changed, "body": body}]))
    assert (result["status"] == "received", len(events.refused(store))) == (is_known, int(not is_known))
    assert [e.id for e in events.of_eye(store, eye_id)] == [sent["id"]]


def test_the_clinics_key_stays_the_same(store: Store) -> None:
    assert sealing.public_key(store) == sealing.public_key(store)


@pytest.mark.parametrize("spoil", ["key", "iv", "data"])
def test_a_packet_that_was_changed_or_is_not_ours_is_refused_alone(
    as_patient: FlaskClient, store: Store, eye_id: str, spoil: str
) -> None:
    packet, good = (seal(sealing.public_key(store), [entry(eye_id, n)]) for n in (1, 2))
    packet[spoil] = base64.b64encode(os.urandom(len(base64.b64decode(packet[spoil])))).decode()
    results = send(as_patient, packet, good)
    assert [(one["status"], one["reason"]) for one in results] == [("refused", NOT_READ), ("received", None)]
    (known,) = events.refused(store)
    assert "nobody here can read it" in known.reason


@pytest.mark.parametrize("leaked", [False, True])
def test_what_was_sealed_with_a_key_of_before_holds_nothing_up_and_is_kept_and_named(
    as_patient: FlaskClient, as_nurse: FlaskClient, store: Store, device: Device, eye_id: str, leaked: bool
) -> None:
    """A real rotation: more than fourteen days ago, or because the key leaked."""
    told = entry(eye_id, 2)
    old = seal(sealing.public_key(store), [entry(eye_id)] * 40)
    former, now = keys.key(store, "sealing_key", sealing.new_key), datetime.now(UTC)
    keys.rotate(store, now + timedelta(days=14), {"sealing_key": sealing.new_key()}, leaked=leaked)
    with time_machine.travel(now + timedelta(days=0 if leaked else 15), tick=True):
        packets = [old, seal(sealing.public_key(store), [told])]
        first, again = send(as_patient, *packets), send(as_patient, *packets)
    assert [one["status"] for one in first] == ["refused", "received"]
    assert first == again
    assert [event.id for event in events.of_eye(store, eye_id)] == [told["id"]]
    (kept,) = events.refused(store)
    assert (kept.id, kept.device_id) == (first[0]["id"], device.id)
    (fault,) = watch.faults(store)
    assert (fault.what, fault.about, fault.times) == ("sealed", f"patient:{device.patient_id}", 1)
    assert "sealed with a key that the clinic no longer has" in as_nurse.get("/clinic/").text
    page = as_nurse.get("/not-working").text
    assert "Pat Patient" in page
    assert f"/clinic/patients/{device.patient_id}" in page
    assert "Ask this person what they had entered, and enter it anew" in page
    # Nothing is lost: whoever has the key of before reads what came.
    keys.rotate(store, now, {"sealing_key": former}, leaked=True)
    assert len(sealing.opened_entries(store, sealing.Sealed.model_validate_json(kept.text))) == 40


def test_what_could_not_be_opened_is_named_until_somebody_asked(
    as_patient: FlaskClient, as_nurse: FlaskClient, store: Store, device: Device, eye_id: str
) -> None:
    old = seal(sealing.public_key(store), [entry(eye_id)])
    keys.rotate(store, NOW, {"sealing_key": sealing.new_key()}, leaked=True)
    send(as_patient, old)
    environment = {"FOLLOWUP_DATABASE": str(store.path), "FOLLOWUP_PHONE": "+00 1 234"}
    checked = CliRunner().invoke(cli, ["check"], env=environment)
    assert (checked.exit_code, f"not working: sealed patient:{device.patient_id}" in checked.output) == (1, True)
    assert "ask what was entered, and enter it anew" in checked.output
    told = as_nurse.post(f"/clinic/sealed/patient:{device.patient_id}/entered")
    assert (told.status_code, watch.faults(store), len(events.refused(store))) == (303, [], 1)
    assert [e["action"] for e in audit.everything(store)][-1] == "unopened entries asked about"
    assert as_nurse.post(f"/clinic/sealed/patient:{device.patient_id}/entered").status_code == 404
    send(as_patient, old)  # an answer that was lost on its way: it is known
    assert watch.faults(store) == []


@pytest.mark.parametrize("entries", [{"no": "list"}, 7])
def test_a_packet_holds_a_list(store: Store, entries: Any) -> None:
    with pytest.raises(ValueError, match="list of entries"):
        sealing.opened_entries(store, sealing.Sealed.model_validate(seal(sealing.public_key(store), entries)))
