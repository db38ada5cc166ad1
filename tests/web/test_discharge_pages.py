"""Discharge and visits in the nurse's pages: messages beside the field, what was typed stays, nothing is stored."""

import re
from datetime import UTC
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.clinical import pressure
from followup.clinical.durations import compared
from followup.clinical.evidence import SOURCES
from followup.records import Store, audit, events, eyes, patients, visits, worries
from followup.records.bodies.kinds import stored

FORM: dict[str, Any] = {
    "number": "D-7",
    "name": "Dora Demo",
    "born_on": "1950-05-05",
    "reached_by": "own-phone",
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
    row = eyes.followed(store)[0]
    assert row.note
    assert (row.patient.name, row.side, row.agent, row.note.body.posture.hours_a_day) == (
        "Dora Demo",
        "left",
        "c3f8",
        10,
    )
    names = [v.name for v in visits.of_eye(store, row.id)]
    assert "first look" in names
    assert len(names) >= 6
    card = as_nurse.get(confirmed.headers["Location"])
    assert "<svg" in card.text
    assert re.search(r"[A-Z2-9]{4} [A-Z2-9]{4}", card.text)
    assert "No flying" in card.text
    now, _, today = card.text.partition("<h2>Call today</h2>")
    assert "Pain of 7 or more out of 10" in now.partition("Call now, day or night")[2]
    assert "A dark curtain" in today
    assert "112" in today


def test_a_visit_that_is_not_kept_is_not_planned(as_nurse: FlaskClient, store: Store) -> None:
    again = fields_of(as_nurse.post("/clinic/discharge", data=FORM).text)
    again["step"] = "confirm"
    del again["visits-1-keep"]
    as_nurse.post("/clinic/discharge", data=again)
    names = [v.name for v in visits.of_eye(store, eyes.followed(store)[0].id)]
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
        ("drops-0-times_a_day", "2.5", "whole number"),
        ("drops-0-times_a_day", "", "how many times a day"),
        ("drops-0-until", "", "the last day of this drop"),
        ("drops-0-until", "0026-11-24", "accepted is 4 March 2027 to 4 March 2030"),
        ("drops-0-until", "2027-03-03", "accepted is 4 March 2027"),
        ("drops-0-name", "", "which drop"),
        ("drops-1-times_a_day", "3", None),
        ("steroid_drops_until", "2031-01-01", "accepted is"),
        ("operated_on", "0026-11-24", "24 November 0026; accepted is 1 January 1990"),
        ("operated_on", "9999-12-31", "future"),
        ("operated_on", "11/24/26", "four digits"),
        ("operated_time", "", "14:30"),
        ("born_on", "0052-03-14", "accepted is 1 January 1900"),
        ("born_on", "12026-11-24", "four digits"),
        ("number", "  ", "hospital number"),
        ("name", " ", "name"),
        ("surgeon", " ", "surgeon"),
        ("agent", "", "what was left in the eye"),
        ("lens", "", "which lens"),
        ("indication", "", "why the eye was operated"),
        ("breaks-0-reach", "", "how far out"),
        ("breaks-0-clock", "", "clock hour"),
        ("breaks-0-clock", "13", "1 to 12"),
        ("breaks-0-clock", "0", "1 to 12"),
        ("breaks-0-clock", "1.5", "whole number"),
        ("breaks-0-clock", "11 1", "not a number"),
        ("position", "upright", None),
        ("fill_percent", "inf", "not a number"),
        ("baseline_iop", "nan", "mmHg"),
    ],
)
def test_bad_input_is_said_beside_the_field_and_stays_on_the_screen(
    as_nurse: FlaskClient, store: Store, field: str, value: str, says: str | None
) -> None:
    beside = {"drops-1-times_a_day": ("drops-1-name", "which drop"), "position": ("hours_a_day", "no posturing")}
    field_of_error, says = beside.get(field, (field, says)) if says is None else (field, says)
    for step in ("propose", "confirm"):
        answer = as_nurse.post("/clinic/discharge", data={**FORM, field: value, "step": step})
        assert answer.status_code == 400
        assert re.search(rf'class="error" id="{field_of_error}-error">[^<]*{re.escape(str(says))}', answer.text)
        assert f'<a href="#{field_of_error}">' in answer.text
        assert f'id="{field_of_error}"' in answer.text
        if value.strip() and field not in ("agent", "eye", "position"):
            assert f'value="{value}"' in answer.text
        assert field == "name" or 'value="Dora Demo"' in answer.text
    assert eyes.operated(store) == []


def errors_in(page: str) -> list[str]:
    return re.findall(r'class="error" id="([^"]*)-error">', page)


def test_nothing_clinical_is_chosen_for_the_nurse(as_nurse: FlaskClient) -> None:
    blank = as_nurse.get("/clinic/discharge").text
    said = fields_of(blank)
    for field in ("agent", "lens", "indication", "breaks-0-reach", "breaks-0-clock", "drops-0-times_a_day"):
        assert said[field] == [""], field
    assert "eye" not in said
    assert "reached_by" not in said
    answer = as_nurse.post("/clinic/discharge", data={"step": "propose"})
    assert answer.status_code == 400
    asked = {"number", "name", "born_on", "reached_by", "eye", "operated_on", "surgeon", "indication", "lens", "agent"}
    assert asked <= set(errors_in(answer.text))


@pytest.mark.parametrize(("field", "says"), [("target", "the date of this visit"), ("name", "what this visit is called")])
def test_a_kept_visit_without_its_date_is_asked_for_and_never_dropped(
    as_nurse: FlaskClient, store: Store, field: str, says: str
) -> None:
    again = fields_of(as_nurse.post("/clinic/discharge", data=FORM).text) | {"step": "confirm", f"visits-1-{field}": ""}
    asked = as_nurse.post("/clinic/discharge", data=again)
    assert asked.status_code == 400
    assert errors_in(asked.text) == [f"visits-1-{field}"]
    assert says in asked.text
    assert eyes.operated(store) == []
    del again["visits-1-keep"]
    assert as_nurse.post("/clinic/discharge", data=again).status_code == 303


@pytest.mark.parametrize("day", ["0026-11-24", "9999-12-31", "2027-03-03", "2030-03-05"])
def test_a_visit_has_bounds_at_discharge_and_in_the_plan(as_nurse: FlaskClient, store: Store, day: str) -> None:
    again = fields_of(as_nurse.post("/clinic/discharge", data=FORM).text) | {"step": "confirm"}
    asked = as_nurse.post("/clinic/discharge", data={**again, "visits-1-target": day})
    assert (asked.status_code, errors_in(asked.text)) == (400, ["visits-1-target"])
    assert "accepted is 4 March 2027 to 4 March 2030, with four digits for the year" in asked.text
    as_nurse.post("/clinic/discharge", data=again)
    page = f"/clinic/eyes/{eyes.followed(store)[0].id}/plan"
    asked = as_nurse.post(page, data={**fields_of(as_nurse.get(page).text), "visits-1-target": day})
    assert (asked.status_code, errors_in(asked.text)) == (400, ["visits-1-target"])
    assert as_nurse.get("/clinic/").status_code == 200


def test_a_drop_once_a_day_reads_so_on_the_card(as_nurse: FlaskClient) -> None:
    again = fields_of(as_nurse.post("/clinic/discharge", data={**FORM, "drops-0-times_a_day": "1"}).text)
    card = as_nurse.post("/clinic/discharge", data={**again, "step": "confirm"}, follow_redirects=True).text
    assert "<strong>steroid</strong>, once a day until" in card
    assert "1 times" not in card


KNOWN = {**FORM, "number": "T-1", "language": "en", "name": "Pat Person", "born_on": "1952-03-14", "phone": "+00 9 876"}


def test_a_known_number_with_another_name_shows_both_and_asks(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    for step in ("propose", "confirm"):
        asked = as_nurse.post("/clinic/discharge", data={**KNOWN, "step": step})
        assert asked.status_code == 400
        assert errors_in(asked.text) == ["same_person"]
        for words in ("<strong>Pat Patient</strong>", "<strong>Pat Person</strong>", "In the records", "Written now"):
            assert words in asked.text
    answer = fields_of(asked.text) | {"step": "confirm"}
    assert "same_person" not in answer
    assert len(eyes.operated(store)) == 1

    another = as_nurse.post("/clinic/discharge", data={**answer, "same_person": "another"})
    assert (another.status_code, errors_in(another.text)) == (400, ["number"])
    changed = as_nurse.post("/clinic/discharge", data={**answer, "same_person": "written", "name": "Somebody Else"})
    assert (changed.status_code, errors_in(changed.text)) == (400, ["same_person"])
    assert patients.by_number(store, "T-1").name == "Pat Patient"  # type: ignore[index]

    elsewhere = as_nurse.post("/clinic/discharge", data={**answer, "same_person": "written", "visits-0-target": ""})
    assert (elsewhere.status_code, errors_in(elsewhere.text)) == (400, ["visits-0-target"])
    assert fields_of(elsewhere.text)["same_person"] == ["written"]

    assert as_nurse.post("/clinic/discharge", data={**answer, "same_person": "written"}).status_code == 303
    assert {row.patient.name for row in eyes.operated(store)} == {"Pat Person"}
    kept = patients.by_number(store, "T-1")
    assert kept
    assert "particulars corrected" in [a["action"] for a in audit.of_subject(store, kept.id)]


def test_confirming_twice_and_going_back_lead_to_the_card(as_nurse: FlaskClient, store: Store) -> None:
    found = re.search(r'action="(/clinic/discharge\?form=[^"]+)"', as_nurse.get("/clinic/discharge").text)
    assert found
    page = found[1]
    again = fields_of(as_nurse.post(page, data=FORM).text) | {"step": "confirm"}
    answers = [as_nurse.post(page, data=again), as_nurse.post(page, data=again), as_nurse.get(page)]
    (row,) = eyes.operated(store)
    for answer in answers:
        assert (answer.status_code, answer.headers["Location"]) == (303, f"/clinic/eyes/{row.id}/card")
    assert "<svg" in as_nurse.get(answers[1].headers["Location"]).text  # with the code that enrols the phone


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


def test_a_posted_pressure_is_read_once_on_its_way_to_the_warning(
    as_nurse: FlaskClient, store: Store, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    typed: list[str | float] = []
    read = pressure.read
    monkeypatch.setattr(pressure, "read", lambda value: typed.append(value) or read(value))
    assert as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=VISIT).status_code == 303
    assert "pressure-spike" in {w.rule for w in worries.warnings_of(store, eye_id)}
    assert typed == ["34"]


def test_saving_a_visit_says_what_it_raised_and_why(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    saved = as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=VISIT, follow_redirects=True)
    for words in (
        "Pressure 34 mmHg, at or above 30",
        "iop mmhg 34",
        "mmhg 30",
        "Pressure after 20-gauge vitrectomy",
        "today",
    ):
        assert words in saved.text
    body = next(stored(e.body) for e in events.of_eye(store, eye_id) if e.kind == "measures")
    assert (body["acuity"], body["iop_mmhg"], body["instrument"], body["eye"]) == ("6/36-1", 34, "rebound", "right")
    assert {e.kind for e in events.of_eye(store, eye_id)} == {"measures", "seen"}


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
    as_nurse: FlaskClient, store: Store, eye_id: str, field: str, value: str, says: str
) -> None:
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data={**VISIT, field: value})
    assert answer.status_code == 400
    assert re.search(rf'id="{field}-error">[^<]*{says}', answer.text)
    assert f'value="{value}"' in answer.text
    assert events.of_eye(store, eye_id) == []


def test_an_unlikely_pressure_is_a_question_and_no_block(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    page = f"/clinic/eyes/{eye_id}/visit"
    asked = as_nurse.post(page, data={**VISIT, "right-iop": "52"})
    assert asked.status_code == 200
    assert "is a pressure of 52 mmHg right?" in asked.text
    assert 'value="52"' in asked.text
    assert events.of_eye(store, eye_id) == []
    assert as_nurse.post(page, data={**VISIT, "right-iop": "52", "sure": "y"}).status_code == 303
    assert len(events.of_eye(store, eye_id)) == 2


def test_an_empty_visit_is_refused(as_nurse: FlaskClient, eye_id: str) -> None:
    answer = as_nurse.post(
        f"/clinic/eyes/{eye_id}/visit",
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


def test_the_eye_shows_one_picture_and_the_same_as_a_table(
    as_surgeon: FlaskClient, as_nurse: FlaskClient, eye_id: str
) -> None:
    as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=VISIT)
    page = as_surgeon.get(f"/clinic/eyes/{eye_id}").text
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
    as_surgeon: FlaskClient, store: Store, eye_id: str
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
    from followup.web.anybody.pages import MODELS

    page = as_nurse.get("/how-this-is-worked-out").text
    for module in MODELS:
        assert module.MODEL.title in page
        for figure in module.MODEL.figures[:5]:
            assert f"{figure.value:g}" in page
    listed = page[page.index('<section id="sources">') :]
    for key, citation in SOURCES.items():
        assert f'<dt id="s-{key}">{key}</dt><dd>{citation}</dd>' in listed
    rules = page[page.index('<section id="rules">') : page.index('<section id="sources">')]
    assert f"<td>{SOURCES['SIO']}</td><td>{SOURCES['Arm67']}</td>" in rules  # the danger and the number, apart


def test_the_reference_page_sets_published_durations_beside_the_forecast(as_nurse: FlaskClient) -> None:
    page = as_nurse.get("/how-this-is-worked-out").text
    table = page[page.index('<section id="durations">') : page.index('<section id="rules">')]
    for row in compared():
        published = row.published
        assert f"{row.forecast.median:.1f} ({row.forecast.low:.1f} to {row.forecast.high:.1f})" in table
        assert published.kind in table
        assert SOURCES[published.source].replace("&", "&amp;") in table
    assert "sulphur hexafluoride (SF6), 25 %" in table


def test_todays_list_finds_by_name_or_number(as_nurse: FlaskClient, eye_id: str) -> None:
    assert "Pat Patient" in as_nurse.get("/clinic/?find=t-1 pat").text
    assert "Nobody with" in as_nurse.get("/clinic/?find=zzz").text
    assert "Missing" in as_nurse.get("/clinic/").text


def test_a_change_of_plan_shows_what_changed_to_staff_and_phone(
    as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    page = f"/clinic/eyes/{eye_id}/plan"
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
    (note,) = eyes.notes_of(store, eye_id)
    assert len(eyes.history_of(store, note.operation_id)) == 2
    before, after = (r.body.steroid_end(UTC) for r in eyes.history_of(store, note.operation_id))
    assert before == after
    assert "Nothing changed" in as_nurse.post(page, data=fields_of(as_nurse.get(page).text)).text


def test_a_gas_that_would_outgrow_the_eye_is_asked_about_once(as_nurse: FlaskClient, store: Store) -> None:
    # 20 % C3F8 in an eye 95 % full: 95 × (1 + 3 × 6/86) = 115 % of it (growth on a line between the ends in RCO18).
    question = "would grow to about 115 % of it. Was this strength intended?"
    fits = as_nurse.post("/clinic/discharge", data=FORM)
    assert "Was this strength intended?" not in fits.text
    again = fields_of(fits.text) | {"step": "confirm", "percent": "20", "fill_percent": "95", "hours_a_day": "9"}
    changed = as_nurse.post("/clinic/discharge", data=again)
    assert changed.status_code == 200
    assert question in changed.text
    assert "Nothing was saved yet." in changed.text
    assert eyes.followed(store) == []
    answered = fields_of(changed.text) | {"step": "confirm"}
    assert answered["hours_a_day"] == ["9"]
    assert as_nurse.post("/clinic/discharge", data=answered).status_code == 303

    proposed = as_nurse.post("/clinic/discharge", data={**FORM, "number": "D-8", "percent": "20", "fill_percent": "95"})
    assert question in proposed.text
    assert "Nothing was saved yet." not in proposed.text
    assert as_nurse.post("/clinic/discharge", data=fields_of(proposed.text) | {"step": "confirm"}).status_code == 303
