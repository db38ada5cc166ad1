"""The eye that was not operated has pages too: what is measured on it opens a callback, and that leads to its course."""

from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.reading import person
from followup.care.visits.visit import record_visit
from followup.config import Settings
from followup.records import Store, eyes, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import NOW


def test_a_callback_of_the_fellow_eye_opens_and_leads_to_its_course(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    body = MeasuresBody(eye="left", iop_mmhg=55, instrument="applanation")
    record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, [body])
    (urgent,) = [c for c in worries.open_callbacks(store) if c.how_soon == "now"]
    (fellow,) = [eye for eye in person.eyes_beside(store, eye_id) if eye.id != eye_id]
    assert urgent.eye_id == fellow.id
    page = as_nurse.get(f"/clinic/callbacks/{urgent.id}").text
    assert f'href="/clinic/eyes/{fellow.id}"' in page
    assert "left eye" in page
    course = as_nurse.get(f"/clinic/eyes/{fellow.id}").text
    for words in ("Pat Patient, left eye", "pressure 55 mmHg", f"/clinic/callbacks/{urgent.id}"):
        assert words in course
    assert eyes.last_look(store, fellow.id) == NOW


def test_what_is_about_an_operation_is_not_there_for_an_eye_without_one(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    (fellow,) = [eye for eye in person.eyes_beside(store, eye_id) if eye.id != eye_id]
    for page in ("card", "plan", "no-gas"):
        answer = as_nurse.get(f"/clinic/eyes/{fellow.id}/{page}")
        assert (answer.status_code, "no operation that can be read" in answer.text) == (404, True), page
    measures = as_nurse.get(f"/clinic/eyes/{fellow.id}/visit")
    assert (measures.status_code, "Left eye: not operated" in measures.text) == (200, True)


def test_an_eye_is_opened_by_the_name_of_its_operation_too(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    """As an address kept from before the eye stood above its operations."""
    (note,) = eyes.notes_of(store, eye_id)
    assert note.operation_id != eye_id
    for page in ("", "/visit", "/card", "/plan"):
        assert as_nurse.get(f"/clinic/eyes/{note.operation_id}{page}").status_code == 200
    assert eyes.last_look(store, eye_id) == NOW
