"""Sealed packets open only here, and only whole. The same hybrid that browsers speak (RSA-OAEP with SHA-256, AES-256-GCM)."""

import base64
import os
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.home import sealing
from followup.records import Store, events
from followup.records.store import new_id
from tests.conftest import NOW
from tests.sealed import seal


def test_what_was_sealed_is_opened_and_taken_as_events(as_patient: FlaskClient, store: Store, eye_id: str) -> None:
    event = {
        "id": new_id(),
        "operation": eye_id,
        "kind": "symptoms",
        "at": NOW.isoformat(),
        "offset_minutes": 60,
        "sequence": 1,
        "body": {"pain": 2},
    }
    packet = seal(as_patient.get("/api/v1/pack").json["sealing_key"], [event])
    answer = as_patient.post("/api/v1/sealed", json={"sealed": [packet]})
    assert answer.json["results"][0]["status"] == "received"
    assert [e.id for e in events.of_eye(store, eye_id)] == [event["id"]]


def test_the_clinics_key_stays_the_same(store: Store) -> None:
    assert sealing.public_key(store) == sealing.public_key(store)


@pytest.mark.parametrize("spoil", ["key", "iv", "data"])
def test_a_packet_that_was_changed_or_is_not_ours_is_refused(
    as_patient: FlaskClient, store: Store, eye_id: str, spoil: str
) -> None:
    packet = seal(sealing.public_key(store), [])
    packet[spoil] = base64.b64encode(os.urandom(len(base64.b64decode(packet[spoil])))).decode()
    answer = as_patient.post("/api/v1/sealed", json={"sealed": [packet]})
    assert (answer.status_code, "not sealed for this clinic" in answer.json["error"]) == (400, True)


@pytest.mark.parametrize("entries", [{"no": "list"}, 7])
def test_a_packet_holds_a_list(store: Store, entries: Any) -> None:
    with pytest.raises(ValueError, match="list of entries"):
        sealing.opened_entries(store, sealing.Sealed.model_validate(seal(sealing.public_key(store), entries)))
