"""Staff see what is not working, one unreadable row takes no page down, and a fault of ours carries the clinic's number."""

from datetime import timedelta

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup import jobs
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.care.watch import watching
from followup.config import Settings
from followup.records import Store, events, watch, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import NOW, OPERATED, Clock
from tests.test_jobs import another, bad_posture, unreadable_record, without_bounds

LISTS = ["/clinic/", "/clinic/callbacks", "/surgeon/", "/surgeon/results", "/not-working", "/clinic/?find=pat"]


def test_staff_read_on_every_page_when_the_clock_stands_still(
    store: Store, settings: Settings, clock: Clock, as_nurse: FlaskClient, client: FlaskClient
) -> None:
    assert "is not running" in as_nurse.get("/clinic/").text
    for name in watching.EVERY:
        jobs.run(store, settings, name, clock.now)
    assert "clock-late" not in as_nurse.get("/clinic/").text
    clock.pass_(hours=5)
    for path in ("/clinic/", "/clinic/callbacks", "/how-this-is-worked-out", "/my-messages"):
        page = as_nurse.get(path).text
        assert "last ran <strong>5 hours ago</strong>" in page
        assert "callbacks are not moving up, nobody is reminded" in page
    assert "clock-late" not in client.get("/").text


def test_health_says_what_stands_still_and_nothing_else(
    store: Store, settings: Settings, clock: Clock, client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    stopped = client.get("/health")
    assert (stopped.status_code, stopped.json) == (503, {"ok": False, "stopped": ["clock"]})
    for name in watching.EVERY:
        jobs.run(store, settings, name, clock.now)
    well = client.get("/health")
    assert (well.status_code, well.json) == (200, {"ok": True})
    monkeypatch.setattr(watching, "LEAST_FREE_BYTES", 2**63)
    assert client.get("/health").json == {"ok": False, "stopped": ["disk"]}
    monkeypatch.undo()
    store.execute("ALTER TABLE job_runs RENAME TO gone")
    assert client.get("/health").json == {"ok": False, "stopped": ["database"]}


@pytest.mark.parametrize("fault", ["operation time", "operation body", "record", "event", "callback", "visit"])
def test_one_unreadable_row_takes_no_list_page_or_job_down(
    store: Store, settings: Settings, nurse: Actor, eye_id: str, as_surgeon: FlaskClient, fault: str
) -> None:
    other = another(store, nurse, settings, "T-2")
    body = MeasuresBody(eye="right", iop_mmhg=62, instrument="applanation")
    for id in (eye_id, other):
        visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), id, [body])
    without_bounds(store)
    if fault == "operation time":
        sql = """INSERT INTO operation_records SELECT 'x', operation_id, eye, '26-11-24T00:00:00.000000Z', agent, surgeon,
                 body, recorded_by, '9999', '' FROM operation_records
                 WHERE operation_id IN (SELECT id FROM operations WHERE eye_id = :id)"""
        store.execute(sql, {"id": other})
    elif fault == "operation body":
        sql = """INSERT INTO operation_records SELECT 'x', operation_id, eye, operated_at, agent, surgeon,
                 '{', recorded_by, '9999', '' FROM operation_records
                 WHERE operation_id IN (SELECT id FROM operations WHERE eye_id = :id)"""
        store.execute(sql, {"id": other})
    elif fault == "record":
        unreadable_record(store, other)
    elif fault == "event":
        bad_posture(store, other)
        sql = """INSERT INTO events SELECT 'x', eye_id, 'seen', '26-11-24T00:00:00.000000Z', '{', author, NULL, NULL,
                 NULL, NULL, received_at, NULL, '' FROM events WHERE eye_id = :id AND kind = 'measures'"""
        store.execute(sql, {"id": other})
    elif fault == "callback":
        store.execute("UPDATE callbacks SET opened_at = '26-11-24' WHERE eye_id = :id", {"id": other})
    else:
        sql = """INSERT INTO visits SELECT 'x', eye_id, 'odd', 'soon', earliest, latest, reason, recorded_by,
                 recorded_at, NULL, 0, 'x', NULL, '' FROM visits WHERE eye_id = :id"""
        store.execute(sql, {"id": other})
    for path in LISTS:
        page = as_surgeon.get(path)
        assert (path, page.status_code) == (path, 200)
    assert "T-1" in as_surgeon.get("/clinic/").text
    sheet = as_surgeon.get("/api/v1/clinic/daysheet")
    assert sheet.status_code == 200
    assert sheet.json is not None
    assert eye_id in {eye["operation"] for eye in sheet.json["eyes"]}
    for name in watching.EVERY:
        assert jobs.run(store, settings, name, NOW + timedelta(hours=2)) is not None, name
    assert {c.level for c in worries.open_callbacks(store) if c.eye_id == eye_id} >= {1}
    assert "Pat Patient, T-2" in as_surgeon.get("/not-working").text
    assert 'id="faults"' in as_surgeon.get("/clinic/").text


def test_a_fault_of_ours_carries_the_clinic_s_number_and_none_of_its_reasons(
    app: Flask, store: Store, as_nurse: FlaskClient, as_patient: FlaskClient, eye_id: str
) -> None:
    app.config["PROPAGATE_EXCEPTIONS"] = False
    unreadable_record(store, eye_id)
    page = as_nurse.get(f"/clinic/eyes/{eye_id}")
    assert page.status_code == 500
    assert "+00 1 234" in page.text
    assert "KeyError" not in page.text
    told = as_patient.get("/api/v1/pack?language=de")
    assert (told.status_code, told.json) == (
        500,
        {"error": "Diese Seite geht gerade nicht", "phone": "+00 1 234", "emergency_phone": "112"},
    )
    store.execute("ALTER TABLE patients RENAME TO gone")
    away = as_nurse.get("/clinic/")
    assert (away.status_code, "+00 1 234" in away.text, "Retry-After" in away.headers) == (503, True, True)


def test_what_is_refused_carries_the_number_too(client: FlaskClient) -> None:
    for answer in (client.get("/nowhere"), client.post("/health")):
        assert answer.status_code in (404, 405)
        assert "+00 1 234" in answer.text


def test_the_records_name_no_patient_in_a_fault(store: Store, settings: Settings, nurse: Actor, eye_id: str) -> None:
    unreadable_record(store, eye_id)
    events.add(store, "y", eye_id, "symptoms", OPERATED, {"words": "Pat", "pain": 99}, "test", NOW)
    jobs.run(store, settings, "check", NOW)
    told = " ".join(str(row) for row in watch.faults(store))
    assert "events y" in told
    assert "Pat" not in told
