"""What the phone is told of a journey or an anaesthetic: settled once what that entry raised is. Common practice, no source."""

from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.config import Settings
from followup.records import Store, worries
from tests.care.test_own_words import WELL, send
from tests.conftest import ZONE, Clock

HIGH, LOW = {"heights_metres": [2500]}, {"heights_metres": [100]}


def settled(as_patient: FlaskClient) -> list[bool]:
    return [receipt["settled"] for receipt in as_patient.get("/api/v1/pack").json["eyes"][0]["receipts"]]


@pytest.mark.parametrize(("kind", "body"), [("journey", HIGH), ("anaesthetic", {})])
def test_an_entry_is_settled_once_what_it_raised_is_and_raises_anew_each_time(
    as_patient: FlaskClient,
    nurse: Actor,
    store: Store,
    eye_id: str,
    clock: Clock,
    settings: Settings,
    kind: str,
    body: dict[str, Any],
) -> None:
    def settle_all() -> None:
        clock.pass_(minutes=5)
        for found in worries.open_callbacks(store):
            holding.claim(Desk(store, clock.now, nurse, ZONE), found.id)
            phone_calls.attempt(Desk(store, clock.now, nurse, ZONE), found.id, "patient", "spoken to", settings.clinic)
            settling.settle(Desk(store, clock.now, nurse, ZONE), found.id, "advice", "spoken to", settings.clinic)

    send(as_patient, eye_id, body=body, kind=kind, at=clock.now.isoformat())
    assert settled(as_patient) == [False]
    settle_all()
    assert settled(as_patient) == [True]
    clock.pass_(minutes=5)
    send(as_patient, eye_id, body=body, kind=kind, at=clock.now.isoformat())
    assert settled(as_patient) == [True, False]
    settle_all()
    assert settled(as_patient) == [True, True]


def test_what_raises_nothing_is_settled_and_what_waits_is_that_of_its_own_entry(
    as_patient: FlaskClient, eye_id: str, clock: Clock
) -> None:
    for kind, body in (
        ("symptoms", {**WELL, "pain": 9}),
        ("journey", LOW),
        ("anaesthetic", {}),
        ("journey", LOW),
        ("drops", {"name": "x"}),
    ):
        clock.pass_(minutes=5)
        send(as_patient, eye_id, body=body, kind=kind, at=clock.now.isoformat())
    assert settled(as_patient) == [False, True, False, True, False]
