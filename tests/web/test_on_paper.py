"""Patients without the app, or with a carer's phone: chosen by a person, watched by calls, on paper in their language."""

from datetime import date, timedelta

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.patients import reaching
from followup.care.visits import diary
from followup.care.watch.raising import check_eye
from followup.records import Store, audit, events, patients, worries
from followup.records.bodies.home import SymptomsBody
from followup.records.bodies.kinds import stored
from tests.conftest import NOW, OPERATED, ZONE, Clock
from tests.web.test_callback_pages import words_of
from tests.web.test_discharge_pages import FORM, errors_in, fields_of

DAY = timedelta(days=1)


@pytest.fixture
def patient_id(store: Store, eye_id: str) -> str:
    known = patients.by_number(store, "T-1")
    assert known is not None
    return known.id


def open_worries(store: Store, eye_id: str) -> set[str]:
    return {c.worry for c in worries.callbacks_of(store, eye_id) if c.state != "settled"}


@pytest.mark.parametrize(
    ("reached_by", "phone", "carer_phone", "missing"),
    [
        ("", "", "", "reached_by"),
        ("own-phone", "", "", None),
        ("carer-phone", "+00 1", "", "carer_phone"),
        ("carer-phone", "", "+00 2", None),
        ("no-app", "", "", "carer_phone"),
        ("no-app", "+00 1", "", None),
        ("no-app", "", "+00 2", None),
    ],
)
def test_at_discharge_somebody_says_how_the_patient_is_reached(
    as_nurse: FlaskClient, store: Store, reached_by: str, phone: str, carer_phone: str, missing: str | None
) -> None:
    form = {**FORM, "reached_by": reached_by, "phone": phone, "carer_phone": carer_phone}
    proposed = as_nurse.post("/clinic/discharge", data=form)
    assert errors_in(proposed.text) == ([missing] if missing else [])
    confirmed = as_nurse.post("/clinic/discharge", data=fields_of(proposed.text) | form | {"step": "confirm"})
    known = patients.by_number(store, "D-7")
    assert (known is None) == (missing is not None)
    if known:
        assert confirmed.status_code == 303
        assert (known.reached_by, known.carer_phone) == (reached_by, carer_phone)
        card = as_nurse.get(confirmed.location).text
        assert ("Diary page to print" in card) == (reached_by == "no-app")


def test_a_patient_without_the_app_is_called_and_never_silent(
    store: Store, nurse: Actor, eye_id: str, patient_id: str
) -> None:
    reaching.put(Desk(store, OPERATED + timedelta(hours=5), nurse, ZONE), patient_id, "no-app", "")
    for hours in range(0, 24 * 60, 12):
        check_eye(store, eye_id, OPERATED + timedelta(hours=hours), ZONE)
    assert open_worries(store, eye_id) == {"diary", "missed-visit"}


def test_giving_the_app_up_is_changed_on_the_patients_page_with_a_trace_and_closes_nothing(
    as_nurse: FlaskClient, store: Store, eye_id: str, patient_id: str, clock: Clock
) -> None:
    check_eye(store, eye_id, NOW, ZONE)
    assert "silence" in open_worries(store, eye_id)
    assert "Nobody has said how this patient stays in touch" in as_nurse.get(f"/clinic/patients/{patient_id}").text
    address = f"/clinic/patients/{patient_id}/reached-by"
    assert "checked" not in as_nurse.get(address).text.partition("<main")[2]
    assert as_nurse.post(address, data={}).status_code == 400
    assert as_nurse.post(address, data={"reached_by": "carer-phone"}).status_code == 400
    assert as_nurse.post(address, data={"reached_by": "no-app", "carer_phone": "+00 77 1"}).status_code == 303
    page = as_nurse.get(f"/clinic/patients/{patient_id}").text
    for words in ("No app: paper diary", "tel:+00771", "Paper diary, right eye", "Enter a day, right eye"):
        assert words in page
    assert "Pat Patient" in as_nurse.get("/clinic/?find=00 77").text
    assert "reached by" in [entry["action"] for entry in audit.of_subject(store, patient_id)]
    clock.now = NOW + 30 * DAY
    check_eye(store, eye_id, clock.now, ZONE)
    silent = [w for w in worries.warnings_of(store, eye_id) if w.worry == "silence"]
    assert max(w.raised_at for w in silent) <= NOW
    assert {"silence", "diary"} <= open_worries(store, eye_id)


def test_the_diary_is_one_sheet_in_the_patients_language(
    as_nurse: FlaskClient, store: Store, eye_id: str, patient_id: str, settings: object
) -> None:
    said = {"en": "Call now", "de": "Jetzt anrufen", "ar": "اتصل"}
    for language, words in said.items():
        known = patients.by_number(store, "T-1")
        assert known is not None
        patients.correct(store, patient_id, known.number, known.name, known.born_on, known.phone, language)
        page = as_nurse.get(f"/clinic/eyes/{eye_id}/diary-page").text
        paper = page.partition("<article")[2].partition("</article>")[0]
        assert f'lang="{language}"' in paper
        assert words in paper
        assert ('dir="rtl"' in paper) == (language == "ar")
        assert paper.count("☎</strong>") == 5
        assert paper.count("<tr>") == 22
        assert "+00 1 234" in paper
        assert "Callbacks" in page  # the page around it stays the nurse's


def test_a_day_of_the_diary_counts_as_if_the_patient_had_entered_it(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, patient_id: str
) -> None:
    address = f"/clinic/eyes/{eye_id}/diary"
    form = {"day": "2027-03-03", "pain": "8", "vision": "worse", "curtain": "yes", "discharge": "no", "posture_hours": "9,5"}
    page = as_nurse.post(address, data={**form, "words": "it was a bad night"})
    assert page.status_code == 200
    shown = words_of(page.text)
    assert "Saved: Wed 3 Mar 2027" in shown
    assert "Severe pain (8 of 10)" in shown
    assert 'value="2027-03-04"' in page.text  # on to the next day
    written = {e.kind: e for e in events.of_eye(store, eye_id) if e.kind in ("symptoms", "posture")}
    body = written["symptoms"].body
    assert isinstance(body, SymptomsBody)
    assert (body.pain, body.vision, body.curtain, body.discharge, body.redness) == (8, "worse", True, False, None)
    assert written["symptoms"].at.astimezone(ZONE).isoformat()[:16] == "2027-03-03T20:00"
    assert written["symptoms"].author == f"nurse:{nurse.id}"
    assert {"pressure", "retina", "words"} <= open_worries(store, eye_id)
    block = stored(written["posture"].body)
    assert (block["position"], block["from"][:16], block["to"][:16]) == ("face-down", "2027-03-03T09:30", "2027-03-03T19:00")
    assert as_nurse.get(f"/clinic/eyes/{eye_id}").status_code == 200


@pytest.mark.parametrize(
    ("form", "says"),
    [
        ({"day": "2027-03-05"}, "write at least one answer"),
        ({"day": "2027-03-06", "pain": "1"}, "still to come"),
        ({"day": "2027-03-01", "pain": "1"}, "begins with surgery"),
        ({"day": "2027-03-04", "pain": "11"}, "0 to 10"),
        ({"day": "2027-03-04", "pain": "often"}, "not a number"),
        ({"day": "2027-03-04", "posture_hours": "25"}, "0 to 24"),
        ({"day": "", "pain": "1"}, "write the day"),
    ],
)
def test_what_cannot_be_is_said_beside_the_field_and_nothing_is_kept(
    as_nurse: FlaskClient, store: Store, eye_id: str, form: dict[str, str], says: str
) -> None:
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/diary", data={**form, "words": ""})
    assert answer.status_code == 400
    assert says in answer.text
    assert not [e for e in events.of_eye(store, eye_id) if e.kind in ("symptoms", "posture")]


def test_the_whole_of_a_days_hours_lies_on_that_day(store: Store, nurse: Actor, eye_id: str) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    diary.enter(desk, eye_id, date(2027, 3, 3), None, 24)
    (block,) = [stored(e.body) for e in events.of_eye(store, eye_id) if e.kind == "posture"]
    assert block["from"].startswith("2027-03-02T23:00")
    with pytest.raises(CareError, match="still to come"):
        diary.enter(desk, eye_id, date(2027, 3, 6), SymptomsBody(pain=1))


def test_joined_records_keep_a_carers_number(store: Store, eye_id: str, patient_id: str) -> None:
    other = patients.add(store, NOW, "T-9", "Pat Patient", date(1952, 3, 14), "", "en")
    patients.put_reach(store, NOW, other, "carer-phone", "+00 88 2")
    patients.join(store, other, patient_id)
    stands = patients.patient(store, patient_id)
    assert stands is not None
    assert (stands.reached_by, stands.carer_phone) == ("carer-phone", "+00 88 2")
