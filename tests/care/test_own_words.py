"""What a patient writes in their own words always opens a callback, with the words first."""

from datetime import timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.clinical.warnings import evaluate
from followup.config import Settings
from followup.exchange import course_file
from followup.protocols import book
from followup.records import Store, worries
from tests.conftest import NOW, ZONE, Clock
from tests.web.test_phone_api import event

BLACK = "I can see nothing at all since this morning, all black"
WELL: dict[str, Any] = {
    "pain": 0,
    "vision": "same",
    "redness": "same",
    "discharge": False,
    "curtain": False,
    "flashes": "same",
    "floaters": "same",
    "vomiting": False,
    "fever": False,
    "injury": False,
    "other_eye": "same",
}


def send(client: FlaskClient, eye_id: str, **changes: Any) -> None:
    answer = client.post("/api/v1/events", json={"events": [event(eye_id, **changes)]})
    assert [r["status"] for r in answer.json["results"]] == ["received"]


@pytest.mark.parametrize(
    ("kind", "body"),
    [("symptoms", {"words": BLACK}), ("symptoms", {**WELL, "words": BLACK}), ("anaesthetic", {"words": BLACK})],
)
def test_words_open_a_callback_of_their_own_with_the_words_first(
    as_patient: FlaskClient, as_nurse: FlaskClient, store: Store, eye_id: str, kind: str, body: dict[str, Any]
) -> None:
    send(as_patient, eye_id, kind=kind, body=body)
    callback = next(c for c in worries.open_callbacks(store) if c.worry == "words")
    assert callback.how_soon == "today"
    assert worries.warnings_of_callback(store, callback.id)[0].words.startswith(f"“{BLACK}”")
    page = as_nurse.get(f"/clinic/callbacks/{callback.id}").text
    assert BLACK in page.partition("What was done")[0]
    assert "<details" not in page
    assert BLACK in as_nurse.get("/clinic/callbacks").text


def test_each_time_is_told_and_blank_words_are_none(as_patient: FlaskClient, store: Store, eye_id: str) -> None:
    for n, words in enumerate(["first", "   ", "second {pain} 100 %"]):
        at = (NOW - timedelta(minutes=10 - n)).isoformat()
        send(as_patient, eye_id, body={**WELL, "words": words}, at=at, sequence=n + 1)
    callback = next(c for c in worries.open_callbacks(store) if c.worry == "words")
    told = [w.values["said"] for w in worries.warnings_of_callback(store, callback.id)]
    assert told == ["second {pain} 100 %", "first"]


def test_words_from_a_phone_whose_clock_is_before_the_operation_reach_a_person(
    as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    send(as_patient, eye_id, body={"words": BLACK}, at=(NOW - timedelta(days=3650)).isoformat())
    assert [c.worry for c in worries.open_callbacks(store) if c.worry == "words"] == ["words"]


def test_a_course_file_may_hold_words() -> None:
    facts = [{"at": "2027-03-05T20:00:00Z", "kind": "symptoms", **WELL, "words": BLACK}]
    (course, _), until = course_file.read({"operation": {"at": "2027-03-02T14:00:00Z", "agent": "none"}, "facts": facts})
    found = [sign for sign in evaluate(course, book.rulebook(), until) if sign.rule == "own-words"]
    assert [(s.how_soon, s.values["said"]) for s in found] == [("today", BLACK)]


def test_what_a_patient_cannot_tell_is_kept_and_shown(as_patient: FlaskClient, as_nurse: FlaskClient, eye_id: str) -> None:
    send(as_patient, eye_id, body={"pain": 1, "cannot_tell": ["vision", "other_eye"]})
    assert "cannot tell vision, other eye" in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    bad = event(eye_id, body={"pain": 1, "cannot_tell": ["mood"]})
    assert as_patient.post("/api/v1/events", json={"events": [bad]}).json["results"][0]["status"] == "refused"


def test_the_pack_says_when_what_was_told_is_settled_and_what_still_calls(
    as_patient: FlaskClient, nurse: Actor, store: Store, eye_id: str, clock: Clock, settings: Settings
) -> None:
    def receipts(what: str) -> list[bool]:
        return [r[what] for r in as_patient.get("/api/v1/pack").json["eyes"][0]["receipts"]]

    def settled() -> list[bool]:
        return receipts("settled")

    def settle(worry: str) -> None:
        found = next(c for c in worries.open_callbacks(store) if c.worry == worry)
        holding.claim(Desk(store, clock.now, nurse, ZONE), found.id)
        phone_calls.attempt(Desk(store, clock.now, nurse, ZONE), found.id, "patient", "spoken to", settings.clinic)
        settling.settle(Desk(store, clock.now, nurse, ZONE), found.id, "advice", "spoken to", settings.clinic)

    at = (clock.now - timedelta(minutes=1)).isoformat()
    send(as_patient, eye_id, body={**WELL, "pain": 8, "curtain": True}, at=at)
    assert (settled(), receipts("calling")) == ([False], [True])
    clock.pass_(minutes=5)
    # The same again raises nothing new, and is settled with the first.
    send(as_patient, eye_id, body={**WELL, "pain": 8, "curtain": True}, at=clock.now.isoformat(), sequence=2)
    clock.pass_(minutes=5)
    settle("pressure")
    assert (settled(), receipts("calling")) == ([False, False], [True, False])
    settle("retina")
    assert (settled(), receipts("calling")) == ([True, True], [False, False])
    clock.pass_(minutes=5)
    send(as_patient, eye_id, body={**WELL, "words": "and now?"}, at=clock.now.isoformat(), sequence=3)
    # What was settled once calls no more, whatever comes later.
    assert (settled(), receipts("calling")) == ([False, False, False], [False, False, True])


@pytest.mark.parametrize(
    ("told", "worry"), [({"words": BLACK}, "words"), ({"vision": "worse"}, "retina")], ids=["words", "this week"]
)
def test_words_and_what_can_wait_for_days_call_until_they_are_settled_however_long_that_takes(
    as_patient: FlaskClient, nurse: Actor, store: Store, eye_id: str, clock: Clock, settings: Settings, told: Any, worry: str
) -> None:
    """So a phone that shows them knows when that ends, and one that does not does not reassure."""

    def pack() -> tuple[bool, list[tuple[bool, bool]]]:
        (eye,) = as_patient.get("/api/v1/pack").json["eyes"]
        return eye["calling"], [(r["calling"], r["settled"]) for r in eye["receipts"] if r["kind"] == "symptoms"]

    send(as_patient, eye_id, body={**WELL, **told}, at=(clock.now - timedelta(minutes=1)).isoformat())
    clock.pass_(minutes=20)
    send(as_patient, eye_id, body=WELL, at=clock.now.isoformat(), sequence=2)
    assert pack() == (True, [(True, False), (False, False)])
    clock.pass_(days=40)  # the good one is no longer brought to the phones
    assert pack() == (True, [(True, False)])
    for found in worries.open_callbacks(store):
        holding.claim(Desk(store, clock.now, nurse, ZONE), found.id)
        phone_calls.attempt(Desk(store, clock.now, nurse, ZONE), found.id, "patient", "spoken to", settings.clinic)
        settling.settle(Desk(store, clock.now, nurse, ZONE), found.id, "advice", "spoken to", settings.clinic)
    assert pack() == (False, [])
