"""Entries that cannot be: each is refused alone, kept and named, and nothing answers 500 or is sent for ever."""

import json
from datetime import datetime, timedelta, tzinfo
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care import bounds
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import receive, senders
from followup.care.reading.eye import load
from followup.care.reading.measures import EnteredMeasures
from followup.care.visits import visit
from followup.care.watch import watching
from followup.config import Settings
from followup.records import Store, events
from followup.records.bodies.clinic import HeardBody, SeenBody
from followup.records.bodies.home import WithdrawalBody
from followup.records.bodies.kinds import body_of, kept
from followup.records.store import new_id
from followup.records.times import from_text, to_text
from followup.records.values import Warning
from tests.conftest import NOW

AT = NOW.isoformat()


def event(operation: str, kind: str = "symptoms", body: Any = None, **changes: Any) -> dict[str, Any]:
    usual = {"id": new_id(), "operation": operation, "kind": kind, "at": AT, "offset_minutes": 60, "sequence": 1}
    return {**usual, "by": "patient", "body": {"pain": 1} if body is None else body, **changes}


def nested(depth: int) -> Any:
    value: Any = 1
    for _ in range(depth):
        value = [value]
    return value


POISON: dict[str, dict[str, Any]] = {
    "half a character": {"kind": "visit-request", "body": {"visit": "day 1", "words": "thank you \ud83d"}},
    "half a character in a key": {"body": {"\udc00": 1}},
    "half a character as the eye": {"operation": "\ud800"},
    "half a character as the kind": {"kind": "\ud800"},
    "integer over 2^63": {"sequence": 2**63},
    "integer over 2^53": {"sequence": 2**53 + 1},
    "huge integer in the body": {"body": {"pain": 10**400}},
    "infinite height": {"kind": "journey", "body": {"heights_metres": [0, float("inf")]}},
    "no number": {"kind": "bubble-seen", "body": {"percent": float("nan")}},
    "height that cannot be": {"kind": "journey", "body": {"heights_metres": [1e308]}},
    "year 1": {"at": "0001-01-01T00:00:00+14:00"},
    "year 26": {"at": "0026-11-24T08:00:00Z"},
    "year 9999": {"at": "9999-12-31T23:59:59-14:00"},
    "before there were such operations": {"at": "1955-01-01T00:00:00Z"},
    "a number as time": {"at": 1e15},
    "posture from year 1": {
        "kind": "posture",
        "body": {"position": "face-down", "from": "0001-01-01T00:00:00+14:00", "to": "0001-01-01T09:00:00+14:00"},
    },
    "posture in 1960": {
        "kind": "posture",
        "body": {"position": "face-down", "from": "1960-01-01T00:00:00Z", "to": "1960-01-01T09:00:00Z"},
    },
    "posture without end from year 9999": {
        "kind": "posture",
        "body": {"position": "face-down", "from": "9999-12-31T23:00:00-14:00"},
    },
    "posture of three days": {
        "kind": "posture",
        "body": {"position": "face-down", "from": "2027-03-01T08:00:00Z", "to": "2027-03-04T08:00:00Z"},
    },
    "nested": {"body": {"words": nested(60)}},
    "visit name of 1.5 MB": {"kind": "visit-request", "body": {"visit": "x" * 1_500_000}},
    "many small texts": {"kind": "journey", "body": {"heights_metres": [1] * 30_000}},
    "long visit name": {"kind": "visit-request", "body": {"visit": "x" * 61}},
    "an eye of 3,000 letters": {"operation": "x" * 3000},
    "id that is a number": {"id": 5},
}


@pytest.mark.parametrize("changes", POISON.values(), ids=POISON.keys())
def test_each_poison_entry_is_refused_alone(
    as_patient: FlaskClient, store: Store, eye_id: str, settings: Settings, changes: dict[str, Any]
) -> None:
    poison = {**event(eye_id), **changes}
    batch = {"sent_at": AT, "events": [event(eye_id), poison, event(eye_id)]}
    answer = as_patient.post("/api/v1/events", data=json.dumps(batch), content_type="application/json")
    assert answer.status_code == 200
    results = answer.json["results"]
    assert [r["status"] for r in results] == ["received", "refused", "received"]
    assert (results[1]["id"], bool(results[1]["reason"])) == (str(poison["id"]), True)
    (kept,) = events.refused(store)
    assert kept.reason
    assert len(events.of_eye(store, eye_id)) == 2
    assert load(store, eye_id, settings.clinic.tz).set_aside == []


def test_a_poison_entry_that_is_sent_again_is_kept_once_and_takes_no_other_with_it(
    as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    poison = {**event(eye_id), **POISON["id that is a number"]}
    for _ in range(2):
        answer = as_patient.post("/api/v1/events", json={"sent_at": AT, "events": [poison, event(eye_id)]})
        assert [r["status"] for r in answer.json["results"]] == ["refused", "received"]
    assert len(events.refused(store)) == 1
    assert len(events.of_eye(store, eye_id)) == 2


@pytest.mark.parametrize("depth", [900, 5000, 100_000])
@pytest.mark.parametrize("number", [False, True])
def test_an_entry_that_is_no_json_takes_no_other_with_it(
    as_patient: FlaskClient, store: Store, eye_id: str, depth: int, number: bool
) -> None:
    poison = event(eye_id, body={"words": 'HERE, ["{'})
    inside = "9" * depth if number else "[" * depth + "]" * depth
    written = json.dumps({"events": [event(eye_id), poison, event(eye_id)], "sent_at": AT})
    written = written.replace(json.dumps('HERE, ["{'), f"[{json.dumps('HERE, [')}, {inside}]")
    answer = as_patient.post("/api/v1/events", data=written, content_type="application/json")
    assert answer.status_code == 200
    assert [(r["status"], r["id"]) for r in answer.json["results"]][1] == ("refused", poison["id"])
    assert [r["status"] for r in answer.json["results"]] == ["received", "refused", "received"]
    assert "HERE" in events.refused(store)[0].text


@pytest.mark.parametrize("depth", [20, 100_000])
def test_what_is_built_too_deep_is_refused_before_anybody_walks_into_it(depth: int) -> None:
    assert bounds.entry({"body": {"heights_metres": nested(depth)}}) is not None
    assert bounds.entry({"body": {"heights_metres": [1]}}) is None


@pytest.mark.parametrize(
    "whole", [b"", b"{", b'{"events": [', b'{"events": 5}', b"[" * 100_000, b'{"events": [' + b"[" * 9999]
)
def test_what_is_no_batch_at_all_is_answered_400(as_patient: FlaskClient, whole: bytes) -> None:
    assert as_patient.post("/api/v1/events", data=whole, content_type="application/json").status_code == 400


@pytest.mark.parametrize(
    "sent_at", ["2027-03-05T10:00:00", "0001-01-01T00:00:00+14:00", "9999-12-31T23:59:59-14:00", "soon", 5, None, [], 1e300]
)
def test_a_clock_that_says_nothing_counts_as_absent(
    as_patient: FlaskClient, store: Store, eye_id: str, sent_at: Any
) -> None:
    answer = as_patient.post("/api/v1/events", json={"sent_at": sent_at, "events": [event(eye_id)]})
    assert (answer.status_code, answer.json["results"][0]["status"]) == (200, "received")
    assert events.of_eye(store, eye_id)[0].at == NOW


def test_a_phone_that_believes_in_1970_is_still_put_right(as_patient: FlaskClient, store: Store, eye_id: str) -> None:
    body = {"position": "face-down", "from": "1970-01-01T07:00:00Z", "to": "1970-01-01T09:00:00Z"}
    sent = event(eye_id, "posture", body, at="1970-01-01T09:00:00Z")
    answer = as_patient.post("/api/v1/events", json={"sent_at": "1970-01-01T10:00:00Z", "events": [sent]})
    assert answer.json["results"][0]["status"] == "received"
    (kept,) = events.of_eye(store, eye_id)
    assert kept.at == NOW - timedelta(hours=1)


def test_a_fault_of_our_own_refuses_that_entry_alone(
    as_patient: FlaskClient, store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    judged = receive.raise_signs_of_patient

    def breaks(store: Store, patient_id: str, now: datetime, zone: tzinfo) -> list[Warning]:
        if any(getattr(e.body, "pain", None) == 7 for e in events.of_eye(store, eye_id)):
            raise OverflowError("date value out of range")
        return judged(store, patient_id, now, zone)

    monkeypatch.setattr(receive, "raise_signs_of_patient", breaks)
    batch = [event(eye_id), event(eye_id, body={"pain": 7}), event(eye_id)]
    answer = as_patient.post("/api/v1/events", json={"events": batch})
    assert [r["status"] for r in answer.json["results"]] == ["received", "refused", "received"]
    assert answer.json["results"][1]["reason"] == senders.NOT_TAKEN


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("heard", {"words": "x" * 2001}),
        ("seen", {"visit": "x" * 61}),
        ("arrived", {"visit": "x" * 61}),
        ("withdrawal", {"reason": "x" * 1001}),
        ("measures", {"eye": "right", "notes": "x" * 2001}),
        ("measures", {"eye": "right", "acuity": "6/60" + " " * 100}),
        ("measures", {"eye": "right", "iop_mmhg": float("inf")}),
        ("measures", {"eye": "right", "bubble_percent": float("nan")}),
    ],
)
def test_every_text_and_number_has_a_limit(kind: str, body: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match=r"write at most|number|less than"):
        body_of(kind, body)


def test_a_long_text_that_was_taken_once_stays_readable() -> None:
    assert kept("heard", {"words": "x" * 90_000}).fact(NOW) is not None
    assert kept("seen", {"visit": "x" * 90}).fact(NOW) is not None
    assert (HeardBody(words="x").words, SeenBody(visit="x").visit, WithdrawalBody().reason) == ("x", "x", "")


@pytest.mark.parametrize("value", ["inf", "nan", "-inf", "1e400"])
def test_no_number_on_a_clinic_device_is_said_in_words(value: str) -> None:
    for field in ("pain", "bubble_percent", "iop"):
        with pytest.raises(ValueError, match=r"not a number|mmHg|out of range|between|0 to 90"):
            EnteredMeasures(eye="right", **{field: value}).body()


def test_a_pain_between_two_numbers_is_asked_about_not_rounded() -> None:
    with pytest.raises(ValueError, match="pain"):
        EnteredMeasures(eye="right", pain="2.5").body()


@pytest.mark.parametrize(
    "at", ["0001-01-01T00:00:00+14:00", "0999-01-01T00:00:00Z", "1899-12-31T23:59:59Z", "9999-12-31T23:59:59-14:00"]
)
def test_a_time_without_fixed_width_is_never_written(at: str) -> None:
    with pytest.raises(ValueError, match="1900 to 2200"):
        to_text(datetime.fromisoformat(at))
    with pytest.raises(ValueError, match="offset"):
        to_text(datetime(2027, 3, 5))
    assert from_text(to_text(NOW)) == NOW


def test_rows_from_before_times_had_bounds_take_nothing_down_and_are_named(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, nurse: Actor, settings: Settings
) -> None:
    """As they were stored: the year without leading zeros, a visit in year 9999, a posture from year 1."""
    for table in ("operation_records_bounds_surgery", "visits_bounds_visit", "events_bounds_event"):
        store.db.conn.execute(f"DROP TRIGGER {table}")
    record = store.row("SELECT * FROM operation_records")
    assert record
    (fellow,) = store.rows("SELECT id FROM eyes WHERE id != :id", {"id": eye_id})
    store.insert("operations", {"id": "other", "eye_id": fellow["id"], "created_at": to_text(NOW)})
    store.insert(
        "operation_records", {**record, "id": "x", "operation_id": "other", "operated_at": "26-11-24T11:00:00.000000Z"}
    )
    planned = {"eye_id": eye_id, "reason": "", "recorded_by": "x", "recorded_at": to_text(NOW)}
    for id, day in (("v1", "9999-12-31"), ("v2", "0001-01-01")):
        store.insert(
            "visits", {**planned, "id": id, "identity": id, "name": id, "target": day, "earliest": day, "latest": day}
        )
    sent = {"eye_id": eye_id, "kind": "symptoms", "author": "patient:x", "received_at": to_text(NOW)}
    store.insert("events", {**sent, "id": "e1", "at": "26-11-24T11:00:00.000000Z", "body": '{"pain":9}'})
    body = '{"position":"face-down","from":"0001-01-01T00:00:00+14:00"}'
    store.insert("events", {**sent, "id": "e2", "kind": "posture", "at": to_text(NOW), "body": body})

    for path in ("", "callbacks", "discharge", f"eyes/{eye_id}", f"eyes/{eye_id}/visit", "?find=pat"):
        assert as_nurse.get(f"/clinic/{path}").status_code == 200, path
    for path in ("", "results"):
        assert as_surgeon.get(f"/surgeon/{path}").status_code == 200, path
    assert as_nurse.get("/clinic/eyes/other/card").status_code == 404
    assert "no operation that can be read is on record" in as_nurse.get("/clinic/eyes/other").text
    visit.record_clinic_event(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, "heard", {})
    shown = as_nurse.get("/clinic/").text
    for words in ("Rows that cannot be read", "26-11-24", "visit v1", "9999-12-31", "visit v2", "entry symptoms"):
        assert words in shown
    assert "posture, received" in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    named = [row for row, _ in watching.unreadable(store)]
    assert set(named) == {"operation_records x", "visits v1", "visits v2", "events e1", "events e2"}
