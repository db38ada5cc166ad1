"""Discharge and visits in the nurse's pages: messages beside the field, what was typed stays, nothing is stored."""

import re
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.clinical.durations import compared
from followup.clinical.evidence import SOURCES
from followup.records import Store, eyes, worries
from tests.conftest import Clock

FORM: dict[str, Any] = {
    "number": "D-7",
    "name": "Dora Demo",
    "born_on": "1950-05-05",
    "phone": "",
    "language": "de",
    "eye": "left",
    "operated_on": "2027-03-04",
    "operated_time": "10:30",
    "surgeon": "Sol Surgeon",
    "indication": "retinal-detachment",
    "steps": ["vitrectomy", "laser"],
    "breaks-0-clock": "2",
    "breaks-0-reach": "equator",
    "lens": "pseudophakic",
    "agent": "c3f8",
    "percent": "14",
    "fill_percent": "90",
    "risks": ["only-good-eye"],
    "baseline_acuity": "6/18",
    "baseline_notation": "",
    "baseline_iop": "14",
    "drops-0-name": "steroid",
    "drops-0-times_a_day": "4",
    "drops-0-until": "2027-04-01",
    "step": "propose",
    "position": "",
    "hours_a_day": "",
    "days": "",
    "visits-0-keep": "y",
    "visits-0-name": "day 1",
    "visits-0-target": "2027-03-05",
    "visits-0-earliest": "2027-03-05",
    "visits-0-latest": "2027-03-05",
    "visits-0-reason": "pressure",
}


def fields_of(page: str) -> dict[str, Any]:
    """What a browser would send again: every input, its value, and the chosen options."""
    found: dict[str, Any] = {}
    for tag in re.findall(r"<input[^>]*>", page):
        name, value, kind = (m[1] if (m := re.search(rf'\b{a}="([^"]*)"', tag)) else "" for a in ("name", "value", "type"))
        if name and (kind not in ("checkbox", "radio") or " checked" in tag):
            found.setdefault(name, []).append(value)
    for name, options in re.findall(r'<select[^>]*name="([^"]*)"[^>]*>(.*?)</select>', page, re.S):
        chosen = re.search(r'<option selected value="([^"]*)"', options)
        found[name] = [chosen[1] if chosen else ""]
    return found


def test_propose_adjust_confirm_and_print(as_nurse: FlaskClient, store: Store) -> None:
    proposed = as_nurse.post("/clinic/discharge", data=FORM)
    assert proposed.status_code == 200
    for words in ("Proposed", "gone about day", "No flying, no climbing, no nitrous oxide", "sit upright"):
        assert words in proposed.text
    again = fields_of(proposed.text)
    again |= {"step": "confirm", "hours_a_day": "10", "visits-0-name": "first look"}
    confirmed = as_nurse.post("/clinic/discharge", data=again)
    assert confirmed.status_code == 303
    row = eyes.open_operations(store)[0]
    assert (row["patient_name"], row["eye"], row["agent"], row["body"]["posture"]["hours_a_day"]) == (
        "Dora Demo",
        "left",
        "c3f8",
        10,
    )
    names = [v["name"] for v in eyes.visits_of(store, row["id"])]
    assert "first look" in names
    assert len(names) >= 6
    card = as_nurse.get(confirmed.headers["Location"])
    assert "<svg" in card.text
    assert re.search(r"[A-Z2-9]{4} [A-Z2-9]{4}", card.text)
    assert "No flying" in card.text


def test_a_visit_that_is_not_kept_is_not_planned(as_nurse: FlaskClient, store: Store) -> None:
    again = fields_of(as_nurse.post("/clinic/discharge", data=FORM).text)
    again["step"] = "confirm"
    del again["visits-1-keep"]
    as_nurse.post("/clinic/discharge", data=again)
    names = [v["name"] for v in eyes.visits_of(store, eyes.open_operations(store)[0]["id"])]
    assert again["visits-1-name"][0] not in names


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("operated_on", "2027-03-09", "future"),
        ("operated_on", "", "date of surgery"),
        ("agent", "helium", "valid choice"),
        ("percent", "140", "0 to 100"),
        ("percent", "abc", "not a number"),
        ("percent", "", "concentration"),
        ("fill_percent", "", "how full"),
        ("fill_percent", "101", "0 to 100"),
        ("baseline_acuity", "6/0", "zero"),
        ("baseline_acuity", "20/", "whole Snellen"),
        ("baseline_acuity", "0.3", "decimal"),
        ("baseline_iop", "310", "0 to 90"),
        ("number", "", "hospital number"),
        ("born_on", "2030-01-01", "future"),
        ("eye", "", "which eye"),
        ("hours_a_day", "25", "0 to 24"),
        ("drops-0-times_a_day", "99", "1 to 24"),
    ],
)
def test_bad_input_is_said_beside_the_field_and_stays_on_the_screen(
    as_nurse: FlaskClient, store: Store, field: str, value: str, says: str
) -> None:
    for step in ("propose", "confirm"):
        answer = as_nurse.post("/clinic/discharge", data={**FORM, field: value, "step": step})
        assert answer.status_code == 400
        assert re.search(rf'class="error" id="{field}[^"]*-error">[^<]*{re.escape(says)}', answer.text) or (
            field == "eye" and says in answer.text
        )
        if value and field not in ("agent", "eye"):
            assert f'value="{value}"' in answer.text
        assert 'value="Dora Demo"' in answer.text
    assert eyes.all_operations(store) == []


VISIT = {
    "visit": "day 1",
    "right-acuity": "6/36-1",
    "right-notation": "",
    "right-correction": "pinhole",
    "right-iop": "34",
    "right-instrument": "rebound",
    "right-bubble_percent": "90",
    "right-pain": "2",
    "left-correction": "unaided",
    "left-instrument": "applanation",
}


def test_saving_a_visit_says_what_it_raised_and_why(as_nurse: FlaskClient, store: Store, operation_id: str) -> None:
    saved = as_nurse.post(f"/clinic/eyes/{operation_id}/visit", data=VISIT, follow_redirects=True)
    for words in (
        "Pressure 34 mmHg, at or above 30",
        "iop mmhg 34",
        "mmhg 30",
        "Intraocular pressure after 20-gauge vitrectomy",
        "today",
    ):
        assert words in saved.text
    body = next(e["body"] for e in eyes.events_of(store, operation_id) if e["kind"] == "measures")
    assert (body["acuity"], body["iop_mmhg"], body["instrument"], body["eye"]) == ("6/36-1", 34, "rebound", "right")
    assert {e["kind"] for e in eyes.events_of(store, operation_id)} == {"measures", "seen"}


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("right-acuity", "6/0", "zero"),
        ("right-acuity", "0.5", "say which"),
        ("right-iop", "310", "0 to 90"),
        ("right-bubble_percent", "120", "0 to 100"),
        ("right-pain", "12", "0 to 10"),
        ("left-iop", "high", "mmHg"),
    ],
)
def test_measures_that_cannot_be_are_said_and_nothing_is_stored(
    as_nurse: FlaskClient, store: Store, operation_id: str, field: str, value: str, says: str
) -> None:
    answer = as_nurse.post(f"/clinic/eyes/{operation_id}/visit", data={**VISIT, field: value})
    assert answer.status_code == 400
    assert re.search(rf'id="{field}-error">[^<]*{says}', answer.text)
    assert f'value="{value}"' in answer.text
    assert eyes.events_of(store, operation_id) == []


def test_an_unlikely_pressure_is_a_question_and_no_block(as_nurse: FlaskClient, store: Store, operation_id: str) -> None:
    page = f"/clinic/eyes/{operation_id}/visit"
    asked = as_nurse.post(page, data={**VISIT, "right-iop": "52"})
    assert asked.status_code == 200
    assert "is a pressure of 52 mmHg right?" in asked.text
    assert 'value="52"' in asked.text
    assert eyes.events_of(store, operation_id) == []
    assert as_nurse.post(page, data={**VISIT, "right-iop": "52", "sure": "y"}).status_code == 303
    assert len(eyes.events_of(store, operation_id)) == 2


def test_an_empty_visit_is_refused(as_nurse: FlaskClient, operation_id: str) -> None:
    answer = as_nurse.post(
        f"/clinic/eyes/{operation_id}/visit",
        data={
            "visit": "",
            "left-correction": "unaided",
            "right-correction": "unaided",
            "left-instrument": "rebound",
            "right-instrument": "rebound",
        },
    )
    assert answer.status_code == 400
    assert "nothing was entered" in answer.text


def test_only_a_clinicians_record_lifts_the_caution(
    as_nurse: FlaskClient, as_patient: FlaskClient, operation_id: str
) -> None:
    assert as_patient.get("/api/v1/pack").json["eyes"][0]["gas"]["caution"]
    as_nurse.post(f"/clinic/eyes/{operation_id}/record/no-gas-seen")
    assert not as_patient.get("/api/v1/pack").json["eyes"][0]["gas"]["caution"]
    assert as_nurse.post(f"/clinic/eyes/{operation_id}/record/magic").status_code == 400


def test_callbacks_are_listed_claimed_and_settled(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, operation_id: str
) -> None:
    as_nurse.post(f"/clinic/eyes/{operation_id}/visit", data={**VISIT, "right-iop": "46"})
    first = worries.open_callbacks(store)[0]
    listed = as_surgeon.get("/surgeon/")
    assert "Pressure 46 mmHg, at or above 40" in listed.text
    page = f"/clinic/callbacks/{first['id']}"
    as_nurse.post(f"{page}/claim")
    assert as_surgeon.post(f"{page}/claim").status_code == 409
    assert "Is there pain, headache or sickness?" in as_nurse.get(page).text
    assert as_nurse.post(f"{page}/settle", data={"words": "kept this"}).status_code == 400
    assert as_nurse.post(f"{page}/settle", data={"outcome": "no-action", "words": ""}).status_code == 400
    assert as_nurse.post(f"{page}/attempt", data={"words": "x"}).status_code == 400
    assert as_nurse.post(f"{page}/attempt", data={"reached": "yes", "words": "no pain"}).status_code == 303
    assert as_nurse.post(f"{page}/settle", data={"outcome": "same-day", "words": "comes at two"}).status_code == 303
    shown = as_surgeon.get(page).text
    for words in ("Settled:", "seen the same day", "no pain", "comes at two", "Nora Nurse"):
        assert words in shown


def test_the_eye_shows_one_picture_and_the_same_as_a_table(
    as_surgeon: FlaskClient, as_nurse: FlaskClient, operation_id: str
) -> None:
    as_nurse.post(f"/clinic/eyes/{operation_id}/visit", data=VISIT)
    page = as_surgeon.get(f"/clinic/eyes/{operation_id}").text
    for words in (
        "acuity 6/36-1",
        "pressure 34 mmHg",
        "bubble 90 % high, seen in clinic",
        "visit day 1",
        "The same as a table",
        "pinhole",
    ):
        assert words in page


def test_protocols_are_drafts_until_signed_and_an_adjusted_one_shows_its_effect(
    as_surgeon: FlaskClient, store: Store, operation_id: str
) -> None:
    assert "not signed by a surgeon yet" in as_surgeon.get("/clinic/").text
    page = as_surgeon.get("/surgeon/protocols").text
    for part in ("rulebook", "reviews", "postures"):
        mark = re.search(rf'protocols/{part}/sign".*?name="fingerprint" value="([^"]+)"', page, re.S)
        assert mark
        as_surgeon.post(f"/surgeon/protocols/{part}/sign", data={"fingerprint": mark[1]})
    assert "not signed by a surgeon yet" not in as_surgeon.get("/clinic/").text
    from followup.protocols.book import draft_text

    text = draft_text("rulebook").replace("hours = 36, while_posturing", "hours = 30, while_posturing")
    tried = as_surgeon.post("/surgeon/protocols/rulebook/text", data={"text": text, "step": "try"})
    assert "would have been raised" in tried.text
    assert as_surgeon.post("/surgeon/protocols/rulebook/text", data={"text": "rules = [", "step": "try"}).status_code == 400
    as_surgeon.post("/surgeon/protocols/rulebook/text", data={"text": text, "step": "save"})
    assert "rulebook not signed" in as_surgeon.get("/clinic/").text


def test_the_reference_page_shows_the_figures_the_code_uses(as_nurse: FlaskClient) -> None:
    from followup.web.pages import MODELS

    page = as_nurse.get("/how-this-is-worked-out").text
    for module in MODELS:
        assert module.MODEL.title in page
        for figure in module.MODEL.figures[:5]:
            assert f"{figure.value:g}" in page
    assert "Thompson. Kinetics of intraocular gases" in page


def test_the_reference_page_sets_published_durations_beside_the_forecast(as_nurse: FlaskClient) -> None:
    page = as_nurse.get("/how-this-is-worked-out").text
    table = page[page.index('<section id="durations">') : page.index('<section id="rules">')]
    for row in compared():
        published = row.published
        assert f"{row.forecast.median:.1f} ({row.forecast.low:.1f} to {row.forecast.high:.1f})" in table
        assert published.kind in table
        assert SOURCES[published.source].replace("&", "&amp;") in table
    assert "sulphur hexafluoride (SF6), 25 %" in table


def test_todays_list_finds_by_name_or_number(as_nurse: FlaskClient, operation_id: str) -> None:
    assert "Pat Patient" in as_nurse.get("/clinic/?find=t-1 pat").text
    assert "Nobody with" in as_nurse.get("/clinic/?find=zzz").text
    assert "Missing" in as_nurse.get("/clinic/").text


def test_a_change_of_plan_shows_what_changed_to_staff_and_phone(
    as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, operation_id: str
) -> None:
    page = f"/clinic/eyes/{operation_id}/plan"
    form = fields_of(as_nurse.get(page).text)
    assert (form["position"], form["hours_a_day"], form["days"]) == (["face-down"], ["12"], ["5"])
    assert as_nurse.post(page, data={**form, "percent": "140"}).status_code == 400
    changed = as_nurse.post(
        page, data={**form, "position": "left-cheek", "hours_a_day": "8", "visits-1-target": "2027-03-12"}
    ).text
    for words in ("What changed", "position face-down", "position left-cheek", "visit week 1", "2027-03-12"):
        assert words in changed
    pack = as_patient.get("/api/v1/pack").json["eyes"][0]
    assert (pack["posture"]["position"], pack["visits"][1]["target"]) == ("left-cheek", "2027-03-12")
    assert len(eyes.records_of(store, operation_id)) == 2
    before, after = (r["body"]["steroid_drops_until"] for r in eyes.records_of(store, operation_id))
    assert before == after
    assert "Nothing changed" in as_nurse.post(page, data=fields_of(as_nurse.get(page).text)).text


def test_a_surgeon_decides_in_one_step_and_may_take_it_back_for_a_while(
    as_nurse: FlaskClient, as_surgeon: FlaskClient, store: Store, operation_id: str, clock: Clock
) -> None:
    as_nurse.post(f"/clinic/eyes/{operation_id}/visit", data={**VISIT, "right-iop": "46"})
    found = next(c for c in worries.open_callbacks(store) if c["worry"] == "pressure")
    page = f"/clinic/callbacks/{found['id']}"
    assert as_nurse.post(f"{page}/decide", data={"outcome": "same-day"}).status_code == 403
    assert as_surgeon.post(f"{page}/decide", data={"outcome": "magic"}).status_code == 400
    assert as_surgeon.post(f"{page}/decide", data={"outcome": "same-day", "words": "pressure first"}).status_code == 303
    assert [v["target"] for v in eyes.visits_of(store, operation_id)] == ["2027-03-03", "2027-03-05"]
    clock.pass_(minutes=4)
    assert as_nurse.post(f"{page}/undo").status_code == 409
    assert as_surgeon.post(f"{page}/undo").status_code == 303
    assert [v["target"] for v in eyes.visits_of(store, operation_id)] == ["2027-03-03", "2027-03-10"]
    assert "taken back" in as_surgeon.get(page).text
    as_surgeon.post(f"{page}/settle", data={"outcome": "theatre", "words": ""})
    clock.pass_(minutes=6)
    assert as_surgeon.post(f"{page}/undo").status_code == 409
