"""One page for a patient, a page for each eye, the end of follow-up, and two records joined. Common practice, no source."""

from datetime import date, timedelta

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol
from followup.care.patients import following
from followup.care.reading.eye import load
from followup.care.visits.visit import record_visit
from followup.config import Settings
from followup.records import Store, events, eyes, patients, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Device, Eye
from tests.conftest import NOW, OPERATED, ZONE, Clock, operation_note, patient_details
from tests.pages import parsed


def known(store: Store, eye_id: str) -> Eye:
    found = eyes.eye(store, eye_id)
    assert found is not None
    return found


def fellow(store: Store, eye_id: str) -> Eye:
    return next(e for e in eyes.of_patient(store, known(store, eye_id).patient.id) if e.id != eye_id)


def operated(
    store: Store, nurse: Actor, settings: Settings, days_later: float = 1, eye: str = "left", **note: object
) -> str:
    """One more operation of the same person."""
    at = OPERATED + timedelta(days=days_later)
    changed = operation_note(eye=eye, operated_at=at, steroid_drops_until=None, **note)
    return leaving.discharge(
        Desk(store, at + timedelta(hours=5), nurse, settings.clinic.tz), patient_details(), changed, []
    )[0]


def test_both_eyes_stand_on_one_page(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, device: Device, settings: Settings
) -> None:
    operated(store, nurse, settings, agent="silicone-oil", percent=0, steps=["vitrectomy"], notes="scar below")
    body = MeasuresBody(eye="right", acuity="6/36", iop_mmhg=46, notes="calm lamp")
    record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, [body])
    page = as_nurse.get(f"/clinic/patients/{known(store, eye_id).patient.id}").text
    for said in (
        "Right eye", "Left eye", "Gas in the eye", "no flying", "Silicone oil", "6/36", "46 mmHg", "calm lamp", "scar below",
        "vitrectomy", "diabetic traction detachment", "Sol Surgeon", "by Nora Nurse", "pressure", "week 1", "did not come",
        "Phone of the patient", "Lost: lock out", "End follow-up", "Change the plan", "born Fri 14 Mar 1952",
    ):  # fmt: skip
        assert said.lower() in page.lower(), said
    assert f"/clinic/eyes/{eye_id}" in page
    assert f"/clinic/eyes/{fellow(store, eye_id).id}" in page


def test_a_changed_note_says_who_when_and_why(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    note = load(store, eye_id, settings.clinic.tz).note
    body = note.body.model_copy(update={"lens": "pseudophakic"})
    eyes.add_note(store, NOW, note.operation_id, body, settings.clinic.tz, nurse.signature, "wrong lens")
    page = as_nurse.get(f"/clinic/patients/{known(store, eye_id).patient.id}").text
    assert "pseudophakic" in page
    assert "Changed Fri 5 Mar, 11:00 by Nora Nurse, because: wrong lens" in parsed(page).words


def test_a_taper_and_how_many_drops_were_said_to_be_taken(
    as_nurse: FlaskClient, store: Store, nurse: Actor, settings: Settings
) -> None:
    steps = [{"times_a_day": 4, "until": date(2027, 3, 4)}, {"times_a_day": 2, "until": date(2027, 3, 20)}]
    eye = operated(
        store, nurse, settings, 0, drops=[{"name": "steroid", "times_a_day": 4, "until": date(2027, 3, 20), "steps": steps}]
    )
    page = as_nurse.get(f"/clinic/eyes/{eye}").text
    assert "said to be taken" not in page
    assert "steroid, planned until 2027-03-20" in page
    for day, times in ((3, 3), (4, 5), (5, 1)):
        for n in range(times):
            at = NOW.replace(day=day, minute=n)
            events.add(store, new_id(), eye, "drops", at, {"name": "Steroid"}, "patient:x", at)
    page = as_nurse.get(f"/clinic/eyes/{eye}").text
    assert "on whole days, of those that today’s plan has: steroid 7 of 8." in page
    assert "<td>2 ×</td><td>Fri 5 Mar 2027</td><td>Sat 20 Mar 2027</td>" in as_nurse.get(f"/clinic/eyes/{eye}/card").text
    of_patient = as_nurse.get(f"/clinic/patients/{known(store, eye).patient.id}").text
    assert "steroid, 2 times a day from Fri 5 Mar 2027 until Sat 20 Mar 2027" in of_patient


def test_an_eye_that_was_never_operated_has_its_pages(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    other = fellow(store, eye_id)
    for address in (f"/clinic/eyes/{other.id}", f"/clinic/eyes/{other.id}/visit"):
        page = as_nurse.get(address)
        assert page.status_code == 200
        assert "not operated" in page.text or "Never operated" in page.text
    page = as_nurse.get(f"/clinic/eyes/{other.id}").text
    assert "Bubble height" not in page
    assert "Posture, hours" not in page
    for address in ("card", "plan", "no-gas"):
        answer = as_nurse.get(f"/clinic/eyes/{other.id}/{address}")
        assert answer.status_code == 404
        assert "not operated" in answer.text
    typed = {"left-iop": "55", "left-acuity": "NLP", "sure": "y"}
    for side in ("right", "left"):
        typed |= {f"{side}-correction": "pinhole", f"{side}-instrument": "applanation"}
    saved = as_nurse.post(f"/clinic/eyes/{other.id}/visit", data=typed, follow_redirects=True)
    assert saved.status_code == 200
    raised = worries.callbacks_of(store, other.id)
    assert raised
    page = as_nurse.get(f"/clinic/eyes/{other.id}").text
    assert "pressure 55 mmHg" in page
    assert as_nurse.get(f"/clinic/callbacks/{raised[0].id}").status_code == 200
    assert f"/clinic/callbacks/{raised[0].id}" in page
    assert as_nurse.get("/clinic/callbacks").status_code == 200
    assert as_nurse.get("/clinic/eyes/nobody").status_code == 404


def test_two_operations_stand_on_one_axis_and_the_latest_in_the_header(
    as_nurse: FlaskClient, store: Store, nurse: Actor, clock: Clock, eye_id: str, settings: Settings
) -> None:
    clock.pass_(days=60)
    again = operated(store, nurse, settings, 30, "right", agent="silicone-oil", percent=0)
    assert again == eye_id
    page = as_nurse.get(f"/clinic/eyes/{eye_id}").text
    header = page[page.index("<h1>") : page.index('class="actions')]
    assert "silicone oil" in header
    assert "operation 2 on this eye" in header
    assert "day 33 after" in header  # 2 March 14:00 and 30 days, to 4 May 10:00
    assert page.count('<line class="operation"') == 2 * 4  # in each panel
    assert page.count('<polyline class="line"') == 4  # a forecast and a posture plan for each
    assert "C2F6" in page
    assert "Oil was taken out" in page
    assert "Gas in the eye" not in page


def test_oil_taken_out_leaves_header_card_and_buttons(
    as_nurse: FlaskClient, store: Store, nurse: Actor, clock: Clock, eye_id: str, settings: Settings
) -> None:
    clock.pass_(days=100)
    oil = operated(store, nurse, settings, agent="silicone-oil", percent=0)
    assert "There is oil in my eye: left eye · silicone oil" in as_nurse.get(f"/clinic/eyes/{oil}/card").text
    as_nurse.post(f"/clinic/eyes/{oil}/oil-out")
    assert "There is oil in my eye" not in as_nurse.get(f"/clinic/eyes/{oil}/card").text
    page = as_nurse.get(f"/clinic/eyes/{oil}").text
    assert "Oil was taken out" not in page
    assert "the oil was taken out" in page


@pytest.mark.parametrize("page", ["visit", "plan", "no-gas", "end"])
def test_who_it_is_about_stands_where_something_is_entered(
    as_surgeon: FlaskClient, store: Store, eye_id: str, page: str
) -> None:
    strip = parsed(as_surgeon.get(f"/clinic/eyes/{eye_id}/{page}").text).one("p", class_="who-strip")
    for said in ("Pat Patient", "14 Mar 1952", "T-1", "right eye"):
        assert said in strip.words


def test_discharge_begins_with_the_person_and_the_eye(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    person = known(store, eye_id).patient
    page = as_nurse.get(f"/clinic/discharge?patient={person.id}&eye=left").text
    begun = {"number": "T-1", "name": "Pat Patient", "born_on": "1952-03-14", "phone": "+00 9 876", "eye": "left"}
    assert begun.items() <= parsed(page).one("form", id="discharge").sends.items()
    assert "who-strip" in page
    assert as_nurse.get("/clinic/discharge?patient=nobody").status_code == 404
    assert "who-strip" not in as_nurse.get("/clinic/discharge").text


def test_follow_up_is_ended_with_what_is_open_in_view_and_taken_up(
    as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, nurse: Actor, clock: Clock, eye_id: str, settings: Settings
) -> None:
    body = MeasuresBody(eye="right", iop_mmhg=46)
    record_visit(Desk(store, OPERATED + timedelta(hours=20), nurse, settings.clinic.tz), eye_id, [body])
    address = f"/clinic/eyes/{eye_id}/end"
    page = as_nurse.get(address).text
    assert "cannot wait" in page
    open_ones = worries.open_callbacks(store)
    assert [f"/clinic/callbacks/{c.id}" in page for c in open_ones] == [True]
    assert as_nurse.post(address, data={}).status_code == 400
    answer = as_nurse.post(address, data={"reason": "moved", "closes": [c.id for c in open_ones]})
    assert answer.status_code == 400
    assert "settle it first" in answer.text
    assert known(store, eye_id).is_followed
    answer = as_nurse.post(address, data={"reason": "died"})
    assert "say of each open callback" in answer.text
    for c in open_ones:
        store.execute("UPDATE callbacks SET how_soon = 'this-week' WHERE id = :id", {"id": c.id})
    ended = as_nurse.post(
        address,
        data={"reason": "moved", "words": "to the coast", "closes": [c.id for c in open_ones]},
        follow_redirects=True,
    )
    assert "Follow-up ended Fri 5 Mar 2027:</strong> the patient moved away" in ended.text
    assert "Follow-up ended" in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "not followed now" in as_nurse.get("/clinic/?find=patient").text
    told = as_patient.get("/api/v1/pack").json
    assert told is not None
    assert (told["eyes"], [e["eye"] for e in told["ended"]]) == ([], ["right"])
    assert as_nurse.post(address, data={"reason": "moved"}).status_code == 409
    assert as_nurse.post(f"/clinic/eyes/{eye_id}/take-up", data={"words": ""}).status_code == 400
    again = as_nurse.post(f"/clinic/eyes/{eye_id}/take-up", data={"words": "came back"}, follow_redirects=True).text
    assert "was taken up again" in again
    assert "End follow-up" in again


def test_two_records_are_looked_at_side_by_side_and_joined_after_one_more_question(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    one = known(store, eye_id).patient.id
    written = patient_details("T-2").model_copy(update={"born_on": date(1952, 3, 15)})
    twice, _ = leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), written, operation_note(), [])
    other = known(store, twice).patient.id
    found = as_nurse.get(f"/clinic/patients/{one}/join?find=T-2").text
    assert f"other={other}" in found
    address = f"/clinic/patients/{one}/join?other={other}"
    page = as_nurse.get(address).text
    assert "Sat 15 Mar 1952" in page
    assert "T-2" in page
    mark = parsed(page).one("input", name="mark").get("value")
    choice = {"number": "one", "particulars": "other", "mark": mark}
    assert as_nurse.post(address, data={"mark": mark}).status_code == 400
    asked = as_nurse.post(address, data=choice).text
    assert "This will stand" in asked
    assert "same eye on the same day" in asked
    assert patients.joined_to(store, one) == []
    assert as_nurse.post(address, data={**choice, "step": "join"}).status_code == 400
    as_nurse.post(address, data={**choice, "step": "join", "same_day": "meant"})
    assert [p.id for p in patients.joined_to(store, one)] == [other]
    led = as_nurse.get(f"/clinic/patients/{other}", follow_redirects=True)
    assert led.request.path == f"/clinic/patients/{one}"
    assert "joined with T-2" in led.text
    assert "Sat 15 Mar 1952" in as_nurse.get("/clinic/?find=T-2").text


def test_a_scanned_card_leads_to_the_person(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    code = enrol.issue_code(Desk(store, NOW, nurse, ZONE), known(store, eye_id).patient.id)
    following.end(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, "finished", "")
    for scanned in (f"https://clinic.test.invalid/enrol?code={code}", code, f"{code[:4]} {code[4:]}", code.lower()):
        page = as_nurse.get("/clinic/", query_string={"find": scanned}).text
        assert f"/clinic/patients/{known(store, eye_id).patient.id}" in page, scanned
