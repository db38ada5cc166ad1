"""Discharge and visits in the nurse's pages: messages beside the field, what was typed stays, nothing is stored."""

from datetime import UTC, date
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.corrections import operation_note as note_care
from followup.care.desk import Desk
from followup.care.discharge import changing
from followup.care.visits import book
from followup.clinical import pressure
from followup.clinical.durations import compared
from followup.clinical.evidence import SOURCES
from followup.config import Settings
from followup.records import Store, audit, events, eyes, patients, visits, worries
from followup.records.bodies.kinds import stored
from tests.conftest import NOW, ZONE
from tests.pages import faults_in, parsed

FORM: dict[str, Any] = {
    "number": "D-7",
    "name": "Dora Demo",
    "born_on": "1950-05-05",
    "reached_by": "own-phone",
    "phone": "",
    "language": "en",
    "eye": "left",
    "operated_on": "2027-03-04",
    "operated_time": "10:30",
    "surgeon": "Sol Surgeon",
    "indication": "retinal-detachment",
    "steps": ["vitrectomy", "laser"],
    "breaks": ["2-equator"],
    "lens": "pseudophakic",
    "agent": "c3f8",
    "percent": "14",
    "fill_percent": "90",
    "risks": ["only-good-eye"],
    "baseline_acuity": "6/18",
    "baseline_notation": "",
    "baseline_iop": "14",
    "drops": "steroid 4 × a day, 4 weeks",
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
    """What a browser would send again."""
    return parsed(page).one("form", novalidate="").sends


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
    code = parsed(card.text).one("strong", class_="code").words
    assert [len(part) for part in code.split()] == [4, 4]
    assert set(code) <= set(" ABCDEFGHJKLMNPQRSTUVWXYZ23456789")  # nothing that reads like another
    assert "No flying" in card.text
    now, _, today = card.text.partition("<h2>Call today</h2>")
    assert "Pain of 7 or more out of 10" in now.partition("Call now, day or night")[2]
    today, _, again = today.partition("<h2>Look again soon")
    assert "A dark curtain" in today
    assert "Sight that gets worse" not in today
    assert "Call today if it is still there." in again
    assert "Sight that gets worse (call now if it is still there)" in again
    assert "112" in again


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
        ("drops", "steroid 99 × a day, 4 weeks", "1 to 24"),
        ("drops", "steroid", "how many times a day"),
        ("drops", "steroid 4 × a day", "how long"),
        ("drops", "steroid 4 × a day, until 24 November 0026", "accepted is 4 March 2027 to 4 March 2030"),
        ("drops", "steroid 4 × a day, until 2027-03-03", "accepted is 4 March 2027"),
        ("drops", "4 × a day, 7 days", "which drop"),
        ("drops", "steroid 6-4-2 × a day, 4 weeks", "how long each step lasts"),
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
        ("breaks", "13-equator", "hours 1 to 12"),
        ("breaks", "0-equator", "hours 1 to 12"),
        ("breaks", "11-nowhere", "macula, arcade, equator, periphery"),
        ("breaks", "11", "hours 1 to 12"),
        ("position", "upright", None),
        ("fill_percent", "inf", "not a number"),
        ("baseline_iop", "nan", "mmHg"),
    ],
)
def test_bad_input_is_said_beside_the_field_and_stays_on_the_screen(
    as_nurse: FlaskClient, store: Store, field: str, value: str, says: str | None
) -> None:
    beside = {"position": ("hours_a_day", "no posturing")}
    field_of_error, says = beside.get(field, (field, says)) if says is None else (field, says)
    for step in ("propose", "confirm"):
        answer = as_nurse.post("/clinic/discharge", data={**FORM, field: value, "step": step})
        assert answer.status_code == 400
        assert str(says) in faults_in(answer.text)[field_of_error]
        assert f'<a href="#{field_of_error}">' in answer.text
        assert f'id="{field_of_error}"' in answer.text
        if field == "drops":
            assert f">\r\n{value}</textarea>" in answer.text
        elif value.strip() and field not in ("agent", "eye", "position", "breaks"):
            assert f'value="{value}"' in answer.text
        assert field == "name" or 'value="Dora Demo"' in answer.text
    assert eyes.operated(store) == []


def errors_in(page: str) -> list[str]:
    return list(faults_in(page))


def test_a_time_of_today_that_is_still_to_come_is_said_beside_the_time(as_nurse: FlaskClient, store: Store) -> None:
    answer = as_nurse.post("/clinic/discharge", data={**FORM, "operated_on": "2027-03-05", "operated_time": "12:00"})
    faults = faults_in(answer.text)
    assert "that time of today is still to come" in faults["operated_time"]
    assert "operated_on" not in faults
    assert eyes.operated(store) == []


def test_nothing_clinical_is_chosen_for_the_nurse(as_nurse: FlaskClient) -> None:
    blank = as_nurse.get("/clinic/discharge").text
    said = fields_of(blank)
    for field in ("agent", "lens", "indication", "percent", "fill_percent", "baseline_acuity", "baseline_iop", "drops"):
        assert said[field] in ("", [""]), field
    for field in ("eye", "reached_by", "steps", "breaks", "risks"):
        assert field not in said, field
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


def test_a_drop_stands_on_the_card_with_how_often_and_its_last_day(as_nurse: FlaskClient) -> None:
    again = fields_of(as_nurse.post("/clinic/discharge", data={**FORM, "drops": "steroid 1 × a day, 4 weeks"}).text)
    card = as_nurse.post("/clinic/discharge", data={**again, "step": "confirm"}, follow_redirects=True).text
    assert "<td>1 ×</td><td>Thu 4 Mar 2027</td><td>Thu 1 Apr 2027</td>" in card


@pytest.mark.parametrize(
    ("language", "direction", "said"),
    [
        ("de", "ltr", ("In meinem Auge ist Gas: linkes Auge", "Ihre Tropfen", "Sofort anrufen, Tag und Nacht")),
        ("es", "ltr", ("Hay gas en mi ojo: ojo izquierdo", "Sus gotas", "Llame ya, de día o de noche")),
        ("ar", "rtl", ("يوجد غاز في عيني: العين اليسرى", "قطراتك", "اتصل الآن، ليلًا أو نهارًا")),
    ],
)
def test_the_card_speaks_the_patients_language_with_the_drops_as_a_table(
    as_nurse: FlaskClient, store: Store, language: str, direction: str, said: tuple[str, ...]
) -> None:
    confirmed(as_nurse, store, language=language, drops="antibiotic 4x 7d\nsteroid 6-4 1w each")
    page = f"/clinic/eyes/{eyes.operated(store)[0].id}/card"
    paper = parsed(as_nurse.get(page).text).one("article", class_="card", lang=language, dir=direction)
    for words in said:
        assert words in paper.words
    _, *rows = paper.one("table", class_="drops").all("tr")
    cells = [[cell.words for cell in row if cell.tag in ("th", "td")] for row in rows]
    assert [row[:-2] for row in cells] == [["antibiotic", "4 ×"], ["steroid", "6 ×"], ["4 ×"]]
    english = as_nurse.get(page, query_string={"language": "en"}).text
    assert "There is gas in my eye: left eye" in english


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
    assert fields_of(elsewhere.text)["same_person"] == "written"

    assert as_nurse.post("/clinic/discharge", data={**answer, "same_person": "written"}).status_code == 303
    assert {row.patient.name for row in eyes.operated(store)} == {"Pat Person"}
    kept = patients.by_number(store, "T-1")
    assert kept
    assert "particulars corrected" in [a["action"] for a in audit.of_subject(store, kept.id)]


def test_confirming_twice_and_going_back_lead_to_the_card(as_nurse: FlaskClient, store: Store) -> None:
    page = parsed(as_nurse.get("/clinic/discharge").text).one("form", id="discharge").get("action")
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
        "pressure 34 mmHg",
        "30 mmHg",
        "Pressure after 20-gauge vitrectomy",
        "today",
    ):
        assert words in saved.text
    body = next(stored(e.body) for e in events.of_eye(store, eye_id) if e.kind == "measures")
    assert (body["acuity"], body["iop_mmhg"], body["instrument"], body["eye"]) == ("6/36-1", 34, "rebound", "right")
    assert {e.kind for e in events.of_eye(store, eye_id)} == {"measures", "seen"}


def test_one_high_pressure_is_said_once_with_the_other_rules_folded(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    form = {**VISIT, "right-acuity": "", "right-iop": "61", "sure": "y"}
    saved = as_nurse.post(f"/clinic/eyes/{eye_id}/visit", data=form, follow_redirects=True).text
    shown, folded = (part.count('<article class="warning') for part in saved.split("<details>"))
    raised = worries.warnings_of(store, eye_id)
    kinds = {w.worry for w in raised}
    assert sum(w.worry == "pressure" for w in raised) > 2
    assert (shown, folded) == (len(kinds), len(raised) - len(kinds))
    assert f"This raised {len(kinds)} warnings:" in saved


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
    assert says in faults_in(answer.text)[field]
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
    page = parsed(as_surgeon.get("/surgeon/protocols").text)
    for part in ("rulebook", "reviews", "postures"):
        form = page.one("form", action=f"/surgeon/protocols/{part}/sign")
        as_surgeon.post(form.get("action"), data=form.sends)
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
    assert f"<td>{SOURCES['Lew88']}</td><td>{SOURCES['Arm67']}</td>" in rules  # the danger and the number, apart


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
    assert "Did not come" in as_nurse.get("/clinic/").text


def test_a_change_of_plan_shows_what_changed_to_staff_and_phone(
    as_nurse: FlaskClient, as_patient: FlaskClient, store: Store, eye_id: str
) -> None:
    page = f"/clinic/eyes/{eye_id}/plan"
    form = fields_of(as_nurse.get(page).text)
    assert (form["position"], form["hours_a_day"], form["days"]) == ("face-down", "12", "5")
    assert as_nurse.post(page, data={**form, "percent": "140"}).status_code == 400
    changed = as_nurse.post(
        page, data={**form, "position": "left-cheek", "hours_a_day": "8", "visits-1-target": "2027-03-12"}
    ).text
    told = (
        "face down, 12 hours a day, 5 days",
        "left cheek on the pillow, 8 hours a day",
        "Visit week 1",
        "Fri 12 Mar 2027",
    )
    for words in ("What changed", *told):
        assert words in changed
    pack = as_patient.get("/api/v1/pack").json["eyes"][0]
    assert (pack["posture"]["position"], pack["visits"][1]["target"]) == ("left-cheek", "2027-03-12")
    (note,) = eyes.notes_of(store, eye_id)
    assert len(eyes.history_of(store, note.operation_id)) == 2
    before, after = (r.body.steroid_end(UTC) for r in eyes.history_of(store, note.operation_id))
    assert before == after
    assert "Nothing changed" in as_nurse.post(page, data=fields_of(as_nurse.get(page).text)).text


def confirmed(as_nurse: FlaskClient, store: Store, **changes: Any) -> dict[str, Any]:
    """The note that a discharge leaves; whatever is asked is answered with yes."""
    form = {**FORM, **changes}
    again = fields_of(as_nurse.post("/clinic/discharge", data=form).text) | {"step": "confirm"}
    assert as_nurse.post("/clinic/discharge", data=again).status_code == 303
    (row,) = eyes.operated(store)
    assert row.note
    return row.note.body.body(ZONE)


def test_steps_of_a_taper_are_kept_and_the_steroid_ends_with_them(as_nurse: FlaskClient, store: Store) -> None:
    text = "antibiotic 4 × a day, 60 days\r\nsteroid 6-4 × a day, 1 week each"
    proposed = as_nurse.post("/clinic/discharge", data={**FORM, "drops": text})
    assert "Steroid until <strong>Thu 18 Mar 2027</strong>" in proposed.text
    assert "No drop is read as a steroid" in as_nurse.post("/clinic/discharge", data={**FORM, "drops": "a 1x 7d"}).text
    body = confirmed(as_nurse, store, drops=text)
    steps = [{"times_a_day": 6, "until": "2027-03-11"}, {"times_a_day": 4, "until": "2027-03-18"}]
    assert body["drops"][1] == {"name": "steroid", "times_a_day": 6, "until": "2027-03-18", "steps": steps}
    assert body["drops"][0] == {"name": "antibiotic", "times_a_day": 4, "until": "2027-05-03"}
    assert body["steroid_last_day"] == "2027-03-18"
    page = as_nurse.get(f"/clinic/eyes/{eyes.operated(store)[0].id}").text
    assert "steroid, 6 times a day until Thu 11 Mar 2027, then 4 times a day until Thu 18 Mar 2027" in page
    assert "vitrectomy, laser to breaks" in page


def test_what_this_clinic_wrote_lately_is_offered_again(as_nurse: FlaskClient, store: Store) -> None:
    offered = 'data-line="steroid 6-4 × a day, 1 week each"'
    assert offered not in as_nurse.get("/clinic/discharge").text
    confirmed(as_nurse, store, drops="steroid 6-4 1w each")
    assert offered in as_nurse.get("/clinic/discharge").text


def test_breaks_are_chosen_on_the_face_and_what_each_position_covers_is_drawn(as_nurse: FlaskClient, store: Store) -> None:
    blank = as_nurse.get("/clinic/discharge").text
    assert blank.count('name="breaks"') == 3 * 12 + 1
    assert 'aria-label="11 o’clock, equator"' in blank
    proposed = as_nurse.post(
        "/clinic/discharge", data={**FORM, "breaks": ["11-equator", "6-periphery"], "fill_percent": "55"}
    )
    assert "Breaks: <output>11 o’clock, equator; 6 o’clock, periphery</output>" in proposed.text
    pictures = parsed(proposed.text).all("figure", class_="cover")
    assert len(pictures) == 4  # every position that may be advised with gas
    upright = next(picture for picture in pictures if "Sit upright" in picture.words)
    drawn = [found.get("class") for found in upright.all(class_="break")]
    assert sorted(drawn) == ["break", "break missed"]  # at 11; and at 6: gas lies above
    assert upright.one("svg").get("aria-label").endswith("leaves a break uncovered")
    body = confirmed(as_nurse, store, breaks=["11-equator", "6-periphery"])
    assert body["breaks"] == [{"clock": 11, "reach": "equator"}, {"clock": 6, "reach": "periphery"}]


@pytest.mark.parametrize(
    ("steps", "lens", "kept", "asked"),
    [
        (["vitrectomy", "cataract"], "", "pseudophakic", False),
        (["vitrectomy", "cataract"], "aphakic", "aphakic", False),
        (["vitrectomy", "cataract"], "phakic", "phakic", True),
        (["vitrectomy"], "phakic", "phakic", False),
    ],
)
def test_a_combined_procedure_sets_the_lens_and_a_phakic_one_is_asked_about(
    as_nurse: FlaskClient, store: Store, steps: list[str], lens: str, kept: str, asked: bool
) -> None:
    proposed = as_nurse.post("/clinic/discharge", data={**FORM, "steps": steps, "lens": lens})
    assert proposed.status_code == 200
    assert ("set by the cataract operation" in proposed.text) is (lens == "")
    assert ("Which is right?" in proposed.text) is asked
    assert confirmed(as_nurse, store, steps=steps, lens=lens)["lens"] == kept


def test_the_form_has_the_order_of_an_operation_note_and_the_plan_stands_beside_it(as_nurse: FlaskClient) -> None:
    form = parsed(as_nurse.get("/clinic/discharge").text).one("form", class_="beside")
    note, proposal = (found for found in form if found.get("class") in ("note", "proposal"))
    assert (note.tag, proposal.tag) == ("div", "section")
    legends = [part.all("legend")[0].words for part in note.all("fieldset") if not part.attributes]
    assert legends == ["Patient", "Operation", "Diagnosis", "Lens and steps", "Findings", "Tamponade", "Plan"]


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
    assert answered["hours_a_day"] == "9"
    assert as_nurse.post("/clinic/discharge", data=answered).status_code == 303

    proposed = as_nurse.post("/clinic/discharge", data={**FORM, "number": "D-8", "percent": "20", "fill_percent": "95"})
    assert question in proposed.text
    assert "Nothing was saved yet." not in proposed.text
    assert as_nurse.post("/clinic/discharge", data=fields_of(proposed.text) | {"step": "confirm"}).status_code == 303


def test_neither_day_nor_time_of_surgery_is_filled_in_for_anybody(as_nurse: FlaskClient) -> None:
    page = parsed(as_nurse.get("/clinic/discharge").text)
    assert [page.one("input", id=name).get("value") for name in ("operated_on", "operated_time")] == ["", ""]
    assert page.one("button", data_day="2027-03-05").words == "Today, 5 March"
    faults = faults_in(as_nurse.post("/clinic/discharge", data={**FORM, "operated_on": "", "operated_time": ""}).text)
    assert faults["operated_on"] == "write the date of surgery"
    assert faults["operated_time"] == "write the time, for example 14:30"


@pytest.mark.parametrize("who_changed", ["the note", "the posture", "a visit", "a visit that is moved here too"])
def test_a_plan_that_somebody_else_changed_meanwhile_is_not_put_back(
    as_nurse: FlaskClient, store: Store, nurse: Actor, settings: Settings, eye_id: str, who_changed: str
) -> None:
    """Two people open the plan; the second saves what the first left on the page."""
    page, desk = f"/clinic/eyes/{eye_id}/plan", Desk(store, NOW, nurse, ZONE)
    form = {**fields_of(as_nurse.get(page).text), "notes": "a cushion is lent"}
    week = visits.of_eye(store, eye_id)[1]
    (note,) = eyes.notes_of(store, eye_id)
    if who_changed == "the note":
        other = note.body.model_copy(update={"agent": "c3f8", "percent": 14.0})
        note_care.correct(desk, eye_id, note.operation_id, other, "misread")
    elif who_changed == "the posture":
        changing.change_plan(desk, eye_id, note.body.model_copy(update={"posture": None}))
    else:
        book.move(desk, settings.clinic, week.identity, date(2027, 3, 12))
    if who_changed == "a visit that is moved here too":
        form["visits-1-target"] = "2027-03-11"
    answer = as_nurse.post(page, data=form)
    stands = eyes.notes_of(store, eye_id)[0]
    planned = {v.name: v.target for v in visits.of_eye(store, eye_id)}
    if who_changed == "a visit":
        assert (answer.status_code, stands.body.notes) == (200, "a cushion is lent")
    else:
        assert (answer.status_code, stands.body.notes) == (409, "")
        assert "a cushion is lent" in answer.text
    assert stands.agent == ("c3f8" if who_changed == "the note" else "c2f6")
    assert (stands.body.posture is None) is (who_changed == "the posture")
    assert planned["week 1"] == (date(2027, 3, 12) if who_changed.startswith("a visit") else week.target)
