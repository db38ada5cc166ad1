"""The pages on which entries, operation notes and particulars are put right."""

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.callbacks import deciding, holding, settling
from followup.care.desk import Desk
from followup.care.discharge import changing, leaving
from followup.care.reading.eye import load
from followup.care.visits.visit import record_visit
from followup.config import Settings
from followup.records import Store, events, eyes, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.kinds import KINDS, body_of
from followup.records.store import new_id
from followup.records.values import Event
from followup.web.clinic.entry_forms import FORMS
from tests.conftest import NOW, OPERATED, ZONE, Clock, operation_note, patient_details
from tests.pages import parsed

Measured = Callable[..., Event]


@pytest.fixture
def measured(store: Store, nurse: Actor, eye_id: str, settings: Settings, clock: Clock) -> Measured:
    def do(**body: Any) -> Event:
        made = MeasuresBody(**{"eye": "right", "instrument": "applanation", **body})
        record_visit(Desk(store, clock.now, nurse, settings.clinic.tz), eye_id, [made])
        return events.of_eye(store, eye_id)[-1]

    return do


def fellow(store: Store, eye_id: str) -> str:
    known = eyes.eye(store, eye_id)
    assert known is not None
    return next(e.id for e in eyes.of_patient(store, known.patient.id) if e.id != known.id)


TAPER = [{"times_a_day": 4, "until": "2027-03-06"}, {"times_a_day": 2, "until": "2027-03-12"}]


def typed(page: str) -> dict[str, Any]:
    """What a browser would send back of the form as the page shows it."""
    return parsed(page).one("form", novalidate="").sends


def test_61_typed_for_16_is_corrected_where_it_is_shown(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, eye_id: str, measured: Measured, surgeon: Actor,
    settings: Settings, clock: Clock,
) -> None:  # fmt: skip
    entry = measured(iop_mmhg=61)
    address = f"/clinic/entries/{entry.id}/correct"
    eye_page = as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert f'href="{address}"' in eye_page
    assert f'href="{address}?withdraw=1"' in eye_page
    page = as_nurse.get(address).text
    assert "Pat Patient" in page
    assert "T-1" in page
    form = typed(page)
    assert form["measures-iop"] == "61"
    answer = as_nurse.post(address, data={**form, "measures-iop": "16", "reason": "typed the wrong way round"})
    assert answer.status_code == 303
    saved = as_surgeon.get(answer.location).text  # whoever looks, and whenever
    assert "pressure 16 mmHg" in saved
    assert "Rested on this entry, and no longer does" in saved
    assert "Pressure 61 mmHg, at or above 40." in saved
    assert "stays open until a person settles it" in saved
    (call,) = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    page = as_nurse.get(f"/clinic/callbacks/{call.id}").text
    assert "Rests on an entry that was put right." in page
    assert "typed the wrong way round" in page
    for path in ("/clinic/callbacks", "/clinic/"):
        assert "on an entry that was put right" in as_nurse.get(path).text
    eye_page = as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "Was: Measurements: right eye, pressure 61 mmHg" in eye_page
    assert 'aria-label="pressure 61' not in eye_page
    again = as_nurse.get(address)
    assert again.status_code == 409
    assert "put right already" in again.text
    holding.claim(Desk(store, clock.now, surgeon, ZONE), call.id)
    settling.settle(Desk(store, clock.now, surgeon, ZONE), call.id, "no-action", "mistyped", settings.clinic)
    assert "Settled" in as_surgeon.get(f"/clinic/callbacks/{call.id}").text


def test_what_is_worse_than_it_was_entered_calls_again_and_the_page_says_so(
    as_nurse: FlaskClient, store: Store, eye_id: str, measured: Measured, surgeon: Actor, settings: Settings, clock: Clock
) -> None:
    """A pressure, and a note by which the gas outgrows the eye: each once its callback was settled by what was wrong."""
    entry, note, desk = measured(iop_mmhg=31), note_address(store, eye_id), Desk(store, clock.now, surgeon, ZONE)
    as_nurse.post(note, data={**typed(as_nurse.get(note).text), "percent": "30", "reason": "misread"})
    for call in worries.open_callbacks(store):
        holding.claim(desk, call.id)
        settling.settle(desk, call.id, "no-action", "seen", settings.clinic)
    address = f"/clinic/entries/{entry.id}/correct"
    form = {**typed(as_nurse.get(address).text), "measures-iop": "39", "reason": "misread"}
    saved = as_nurse.get(as_nurse.post(address, data=form).location).text
    assert "No warning rested on it" not in saved
    form = {**typed(as_nurse.get(note).text), "percent": "40", "reason": "misread again"}
    answer = as_nurse.post(note, data=form).text
    for page, worry in ((saved, "pressure"), (answer, "bubble")):
        (again,) = [c for c in worries.open_callbacks(store) if c.worry == worry]
        assert "Calls again" in page
        assert f"/clinic/callbacks/{again.id}" in page


def test_measures_move_to_the_other_eye_whose_page_shows_them(
    as_nurse: FlaskClient, store: Store, eye_id: str, measured: Measured
) -> None:
    entry = measured(iop_mmhg=55)
    address = f"/clinic/entries/{entry.id}/correct"
    form = typed(as_nurse.get(address).text)
    asked = as_nurse.post(address, data={**form, "side": "left", "reason": "the other eye"})
    assert "is a pressure of 55 mmHg right?" in asked.text
    assert len(events.history_of(store, eye_id)) == 1
    answer = as_nurse.post(address, data={**form, "side": "left", "reason": "the other eye", "sure": "y"})
    saved = as_nurse.get(answer.location).text
    assert "This raised" in saved
    assert "To the left eye" in saved
    page = as_nurse.get(f"/clinic/eyes/{fellow(store, eye_id)}").text
    assert "left eye, pressure 55 mmHg" in page
    assert "not operated" in page
    call = next(c for c in worries.open_callbacks(store) if c.eye_id == fellow(store, eye_id))
    assert as_nurse.get(f"/clinic/callbacks/{call.id}").status_code == 200
    assert "Moved to the left eye" in as_nurse.get(f"/clinic/eyes/{eye_id}").text


def test_every_measure_is_shown_as_it_stands_and_kept_where_it_was_not_touched(
    as_nurse: FlaskClient, store: Store, eye_id: str, measured: Measured
) -> None:
    entry = measured(
        iop_mmhg=16, acuity="6/60", notation="snellen", correction="as last year", bubble_percent=60, pain=2,
        findings=("inflammation",), notes="quiet",
    )  # fmt: skip
    address = f"/clinic/entries/{entry.id}/correct"
    page = as_nurse.get(address).text
    form = {**typed(page), "measures-findings": ["inflammation"]}
    assert typed(page)["measures-findings"] == "inflammation"
    assert "nothing was changed" in as_nurse.post(address, data={**form, "reason": "looked"}).text
    saved = as_nurse.post(address, data={**form, "measures-iop": "17", "reason": "misread"})
    assert saved.status_code == 303
    (stands,) = events.of_eye(store, eye_id)
    assert stands.body == entry.body.model_copy(update={"iop_mmhg": 17})


def test_an_entry_is_withdrawn_with_a_reason(as_nurse: FlaskClient, store: Store, eye_id: str, measured: Measured) -> None:
    entry = measured(iop_mmhg=16)
    address = f"/clinic/entries/{entry.id}/correct?withdraw=1"
    form = typed(as_nurse.get(address).text)
    refused = as_nurse.post(address, data={**form, "reason": " "})
    assert refused.status_code == 400
    assert "say why" in refused.text
    assert as_nurse.post(address, data={**form, "reason": "another patient"}).status_code == 303
    assert events.of_eye(store, eye_id) == []
    page = as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "Withdrawn: measurements" in page
    assert "because: another patient" in page


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"measures-iop": "161"}, "161"),
        ({"measures-iop": ""}, "withdraw it instead"),
        ({"reason": ""}, "say why"),
        ({"at": ""}, "write when"),
        ({"at": "2027-03-05T23:00"}, "future"),
        ({}, "nothing was changed"),
    ],
)
def test_what_is_wrong_is_said_and_nothing_is_lost(
    as_nurse: FlaskClient, store: Store, eye_id: str, measured: Measured, change: dict[str, str], said: str
) -> None:
    entry = measured(iop_mmhg=17)
    address = f"/clinic/entries/{entry.id}/correct"
    typed_ = typed(as_nurse.get(address).text)
    other = {} if not change else {"measures-notes": "kept as typed"} if "measures-iop" not in change else {}
    answer = as_nurse.post(address, data={**typed_, "reason": "misread", **other, **change})
    assert answer.status_code == 400
    assert said in answer.text
    assert all(value in answer.text for value in other.values())
    assert len(events.history_of(store, eye_id)) == 1


BODIES: dict[str, tuple[dict[str, Any], dict[str, str], dict[str, Any]]] = {
    "heard": ({"words": "well"}, {"words": "poorly"}, {"words": "poorly"}),
    "did-not-come": (
        {"visit": "day 1", "visit_id": "x", "on": "2027-03-03", "barrier": "forgot", "words": ""},
        {"barrier": "unwell"},
        {"visit": "day 1", "visit_id": "x", "on": "2027-03-03", "barrier": "unwell", "words": ""},
    ),
    "symptoms": (
        {"pain": 8, "vision": "worse", "curtain": True, "cannot_tell": ["flashes", "fever"], "words": "so bad"},
        {"pain": "1", "curtain": "no", "fever": "no"},
        {"pain": 1, "vision": "worse", "curtain": False, "fever": False, "cannot_tell": ["flashes"], "words": "so bad"},
    ),
    "posture": (
        {"position": "face-down", "from": "2027-03-05T07:00:30Z", "to": "2027-03-05T08:00:00Z"},
        {"end": "2027-03-05T08:30"},
        {"position": "face-down", "from": "2027-03-05T07:00:30Z", "to": "2027-03-05T07:30:00Z"},
    ),
    "bubble-seen": ({"percent": 80.0}, {"percent": "70,5"}, {"percent": 70.5}),
    "journey": ({"heights_metres": [0.0, 3000.0]}, {"heights_metres": "0; 30"}, {"heights_metres": [0.0, 30.0]}),
    "anaesthetic": ({"words": "dentist"}, {"words": "none"}, {"words": "none"}),
    "drops": ({"name": "antibiotic"}, {"at": "2027-03-05T09:00"}, {"name": "antibiotic"}),
    "visit-request": (
        {"visit": "week 1", "visit_id": "x", "words": ""},
        {"words": "mornings"},
        {"visit": "week 1", "visit_id": "x", "words": "mornings"},
    ),
    "no-gas-seen": ({}, {"at": "2027-03-05T09:00"}, {}),
    "tamponade-removed": ({}, {"at": "2027-03-05T09:00"}, {}),
    "arrived": ({"visit": "an old one"}, {"at": "2027-03-05T09:00"}, {"visit": "an old one"}),
}


@pytest.mark.parametrize("kind", sorted(BODIES))
def test_every_kind_has_its_fields_and_keeps_what_was_not_touched(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, clock: Clock, kind: str
) -> None:
    was, change, stands = BODIES[kind]
    events.add(store, new_id(), eye_id, kind, NOW, was, nurse.signature, NOW)
    (entry,) = events.of_eye(store, eye_id)
    clock.pass_(hours=1)
    address = f"/clinic/entries/{entry.id}/correct"
    answer = as_nurse.post(address, data={**typed(as_nurse.get(address).text), **change, "reason": "misheard"})
    assert answer.status_code == 303, answer.text
    (found,) = events.of_eye(store, eye_id)
    assert found.body == body_of(kind, stands)
    assert found.at == (NOW.replace(hour=8) if "at" in change else NOW)
    assert as_nurse.get(answer.location).status_code == 200
    assert as_nurse.get(f"/clinic/eyes/{eye_id}").status_code == 200


def test_every_kind_has_a_form() -> None:
    assert set(FORMS) == set(KINDS) - {"withdrawal"} == {*BODIES, "measures", "seen"}


def test_a_visit_that_took_place_is_put_on_another(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, [], visit="day 1")
    (entry,) = events.of_eye(store, eye_id)
    address = f"/clinic/entries/{entry.id}/correct"
    page = as_nurse.get(address).text
    (week,) = [one.get("value") for one in parsed(page).all("option") if one.words.startswith("right eye: week 1")]
    as_nurse.post(address, data={**typed(page), "visit": week, "reason": "it was week 1"})
    assert [e.body.visit for e in events.of_eye(store, eye_id)] == ["week 1"]


def test_only_staff_may(client: FlaskClient, as_patient: FlaskClient, eye_id: str, measured: Measured) -> None:
    entry = measured(iop_mmhg=16)
    for asker in (client, as_patient):
        for path in (f"entries/{entry.id}/correct", f"eyes/{eye_id}/operations/x/note", "patients/x/particulars"):
            assert "/sign-in" in asker.get(f"/clinic/{path}").location


def test_what_is_not_there_is_not_found(as_nurse: FlaskClient, eye_id: str) -> None:
    for path in ("entries/x/correct", "entries/x/put-right", f"eyes/{eye_id}/operations/x/note", "patients/x/particulars"):
        assert as_nurse.get(f"/clinic/{path}").status_code == 404


def patient_id(store: Store, eye_id: str) -> str:
    known = eyes.eye(store, eye_id)
    assert known is not None
    return known.patient.id


def test_particulars_are_put_right(as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, eye_id: str) -> None:
    address = f"/clinic/patients/{patient_id(store, eye_id)}/particulars"
    form = typed(as_nurse.get(address).text)
    assert form["name"] == "Pat Patient"
    answer = as_nurse.post(address, data={**form, "name": "Pat Possible", "born_on": "1953-03-14"})
    assert answer.status_code == 400
    assert "say why" in answer.text
    answer = as_nurse.post(address, data={**form, "name": "Pat Possible", "reason": "misheard"})
    assert answer.status_code == 200
    assert "Pat Possible" in answer.text
    pack = as_patient.get("/api/v1/pack").json
    assert pack is not None
    assert pack["patient"] == "Pat Possible"


def test_a_number_that_is_somebody_elses_says_so(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    other = patient_details("T-2").model_copy(update={"name": "Otto Other"})
    leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), other, operation_note(), [])
    address = f"/clinic/patients/{patient_id(store, eye_id)}/particulars"
    form = typed(as_nurse.get(address).text)
    answer = as_nurse.post(address, data={**form, "number": "T-2", "name": "Kept As Typed", "reason": "typed wrong"})
    assert answer.status_code == 409
    assert "belongs to somebody else: Otto Other" in answer.text
    assert "Kept As Typed" in answer.text


def note_address(store: Store, eye_id: str) -> str:
    return f"/clinic/eyes/{eye_id}/operations/{eyes.notes_of(store, eye_id)[-1].operation_id}/note"


def test_the_operation_note_is_shown_whole_and_put_right(
    as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    drops: list[dict[str, Any]] = [{"name": f"drop {n}", "times_a_day": n, "until": "2027-03-20"} for n in range(1, 7)]
    drops.append({"name": "steroid", "times_a_day": 4, "until": "2027-03-12", "steps": TAPER})
    breaks = [{"clock": clock, "reach": reach} for clock, reach in ((11, "equator"), (1.5, "arcade"), (3, "macula"))]
    whole = operation_note(drops=drops, breaks=breaks, notes="dictated", operated_at=OPERATED + timedelta(seconds=7))
    changing.change_plan(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, whole)
    address = note_address(store, eye_id)
    assert f'href="{address}"' in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    form = typed(as_nurse.get(address).text)
    unchanged = as_nurse.post(address, data={**form, "reason": "looked again"})
    assert "nothing was changed" in unchanged.text  # so every part is on the page as it stands
    change = {"operated_on": "2027-03-01", "lens": "pseudophakic", "steps": ["laser"], "reason": "misread"}
    change |= {"drops": form["drops"].replace("drop 1 1 ×", "drop 1 4 ×")}
    answer = as_nurse.post(address, data={**form, **change})
    assert answer.status_code == 200
    assert "The visits keep their dates" in answer.text
    assert "drop 1, 4 times a day until" in answer.text
    pack = as_patient.get("/api/v1/pack").json
    assert pack is not None
    assert pack["eyes"][0]["drops"][0]["times_a_day"] == 4
    assert pack["eyes"][0]["operated_on"] == "2027-03-01"
    card = as_nurse.get(f"/clinic/eyes/{eye_id}/card").text
    assert "an older card is wrong" in card
    assert "drop 1: 1 × a day until" in card
    patient = load(store, eye_id, ZONE).patient
    for page in (f"/clinic/eyes/{eye_id}", f"/clinic/patients/{patient.id}"):
        shown = parsed(as_nurse.get(page).text)
        assert "Changed Fri 5 Mar, 11:00 by Nora Nurse, because: misread" in [found.words for found in shown.all("p")]
        changes = [found.words for found in shown.all("li")]
        (drops,) = [change for change in changes if change.startswith("Drops: drop 1, 4 times a day until ")]
        assert "(was: drop 1, once a day until " in drops
        assert {"What was done: laser to breaks (was: none)", "Lens: pseudophakic (was: phakic)"} <= set(changes)


def test_the_wrong_eye_is_put_right_on_every_page(
    as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    address, left = note_address(store, eye_id), fellow(store, eye_id)
    form = typed(as_nurse.get(address).text)
    answer = as_nurse.post(address, data={**form, "eye": "left", "reason": "the list had the eyes changed over"})
    assert "The operation stands on the left eye now" in answer.text
    assert "week 1" in answer.text
    pack = as_patient.get("/api/v1/pack").json
    assert pack is not None
    assert [(e["eye"], e["gas"]["caution"]) for e in pack["eyes"]] == [("left", True)]
    assert "not operated" in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "Gas in the eye" in as_nurse.get(f"/clinic/eyes/{left}").text
    assert as_nurse.get(address).status_code == 404


def test_the_page_says_what_stands_again_on_the_eye_that_was_not_operated(
    as_nurse: FlaskClient, store: Store, nurse: Actor, surgeon: Actor, eye_id: str, measured: Measured, settings: Settings,
    clock: Clock,
) -> None:  # fmt: skip
    measured(iop_mmhg=33)
    call = next(c for c in worries.open_callbacks(store) if c.worry == "pressure")
    deciding.decide(Desk(store, clock.now, surgeon, ZONE), call.id, "theatre", "", settings.clinic)
    second = operation_note(operated_at=clock.pass_(hours=5))
    leaving.discharge(Desk(store, clock.pass_(hours=1), nurse, ZONE), patient_details(), second, [])
    clock.pass_(hours=1)
    address = note_address(store, eye_id)
    form = typed(as_nurse.get(address).text)
    answer = as_nurse.post(address, data={**form, "eye": "left", "reason": "the list had the eyes changed over"})
    page = " ".join(answer.text.split())
    assert "In the book again:</strong> week 1," in page
    assert "Theatre is still to come" in page
    assert f"/clinic/callbacks/{call.id}" in page
    assert "week 1" in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "the operation was of the other eye" in as_nurse.get(f"/clinic/callbacks/{call.id}").text


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"operated_on": "0026-11-24"}, "four digits"),
        ({"drops": "antibiotic"}, "times a day"),
        ({"fill_percent": "0"}, "how full"),
        ({"reason": ""}, "say why"),
        ({"corrects": "an older note"}, "changed meanwhile"),
        ({"operated_on": (date(2027, 3, 5) + timedelta(days=1)).isoformat()}, "future"),
    ],
)
def test_a_note_that_cannot_be_changes_nothing(
    as_nurse: FlaskClient, store: Store, eye_id: str, change: dict[str, str], said: str
) -> None:
    address = note_address(store, eye_id)
    form = typed(as_nurse.get(address).text)
    answer = as_nurse.post(address, data={**form, "lens": "aphakic", "reason": "misread", **change})
    assert answer.status_code in (400, 409)
    assert said in answer.text
    assert eyes.notes_of(store, eye_id)[-1].body.lens == "phakic"
