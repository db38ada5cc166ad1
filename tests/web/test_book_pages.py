"""The pages of the book of visits: asked about before it is kept, done in one press, and taken back in one."""

from datetime import date

import pytest
from flask import Flask
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import book, visit
from followup.config import Settings
from followup.records import Store, events, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Visit
from tests.conftest import NOW, ZONE
from tests.pages import parsed

PLAN = {"agent": "c2f6", "percent": "16", "fill_percent": "95", "position": "", "notes": ""}
SUNDAY = "2027-03-14"


def named(store: Store, eye_id: str, name: str = "week 1") -> Visit:
    return next(v for v in visits.of_eye(store, eye_id) if v.name == name)


def open_rows(store: Store, eye_id: str, day: str) -> dict[str, str]:
    """The plan page's rows, with week 1 on that day."""
    rows = {}
    for n, v in enumerate(visits.of_eye(store, eye_id)):
        rows[f"visits-{n}-id"] = v.identity
        rows[f"visits-{n}-target"] = day if v.name == "week 1" else v.target.isoformat()
    return rows


def test_the_plan_page_asks_about_a_sunday_and_takes_it_after_a_yes(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    page, data = f"/clinic/eyes/{eye_id}/plan", {**PLAN, **open_rows(store, eye_id, SUNDAY)}
    asked = as_nurse.post(page, data=data)
    assert "The clinic is closed on Sunday 14 March 2027." in asked.text
    assert named(store, eye_id).target == date(2027, 3, 10)
    yes = {"accepted-0": "the clinic is closed on Sunday 14 March 2027"}
    assert "What changed" in as_nurse.post(page, data={**data, **yes}).text
    assert named(store, eye_id).target == date(2027, 3, 14)


@pytest.mark.parametrize("sent", [{"visits-0-target": "2027-03-31"}, {"visits-0-id": "gone", "visits-0-target": "never"}])
def test_the_plan_page_says_what_is_wrong_also_about_a_visit_that_is_not_there(
    as_nurse: FlaskClient, eye_id: str, sent: dict[str, str]
) -> None:
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/plan", data={"agent": "c2f6", **sent})
    assert answer.status_code == 400
    assert parsed(answer.text).all("input", name="visits-0-target")


def test_spaces_are_no_date(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    answer = as_nurse.post(f"/clinic/eyes/{eye_id}/plan", data={**PLAN, **open_rows(store, eye_id, " ")})
    assert answer.status_code == 400
    assert "write the date" in answer.text


def test_the_plan_page_offers_no_visit_that_took_place(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str
) -> None:
    week = named(store, eye_id)
    page = f"/clinic/eyes/{eye_id}/plan"
    assert f'value="{week.identity}"' in as_nurse.get(page).text
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, [MeasuresBody(eye="right", iop_mmhg=15)], visit=week.identity)
    shown = as_nurse.get(page).text
    assert f'value="{week.identity}"' not in shown
    assert "seen" in shown


def test_a_discharge_asks_about_a_visit_on_a_closed_day(as_nurse: FlaskClient, store: Store, nurse: Actor) -> None:
    form = {
        "number": "D-1",
        "name": "Dora Doe",
        "born_on": "1950-01-01",
        "language": "en",
        "eye": "left",
        "reached_by": "own-phone",
    }
    form |= {"operated_on": "2027-03-04", "operated_time": "14:30", "surgeon": "Sol Surgeon", "lens": "phakic"}
    form |= {"indication": "retinal-detachment", "agent": "silicone-oil", "fill_percent": "90", "position": ""}
    form |= {"step": "confirm", "visits-0-keep": "y", "visits-0-name": "week 1", "visits-0-target": SUNDAY}
    asked = as_nurse.post("/clinic/discharge", data=form)
    says = "Week 1: the clinic is closed on Sunday 14 March 2027."
    assert says in asked.text
    assert as_nurse.post("/clinic/discharge", data={**form, "asked": says}).status_code == 303


def test_a_press_on_a_day_moves_a_visit_and_one_more_takes_it_back(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    week = named(store, eye_id)
    page = as_nurse.get(f"/clinic/visits/{week.identity}")
    assert "Fri 12 Mar</strong> <span>0 of 8" in page.text
    assert "Sun 14 Mar" not in page.text.replace("Due Mon 8 Mar 2027 to Sun 14 Mar 2027", "")
    move = {"do": "move", "move-target": "2027-03-12"}
    answer = as_nurse.post(f"/clinic/visits/{week.identity}", data=move, follow_redirects=True)
    assert "Pat Patient: week 1 is now on Fri 12 Mar 2027." in answer.text
    moved = named(store, eye_id)
    assert moved.target == date(2027, 3, 12)
    assert "The patient knows" in answer.text
    as_nurse.post(f"/clinic/visits/{moved.id}/undo")
    assert named(store, eye_id).target == date(2027, 3, 10)


def test_what_was_done_is_not_answered_as_refused_where_the_form_names_an_eye_that_is_not_there(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    week = named(store, eye_id)
    as_nurse.post(f"/clinic/visits/{week.identity}", data={"do": "cancel", "cancel-why": "a holiday"})
    answer = as_nurse.post(f"/clinic/visits/{week.identity}/put-back", data={"eye": "nobody", "back": "patient"})
    assert (answer.status_code, answer.location) == (303, f"/clinic/#visit-{week.identity}")
    assert named(store, eye_id)


def test_a_full_day_is_shown_as_full_and_asked_about(app: Flask, as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    full(app)
    week = named(store, eye_id)
    address = f"/clinic/visits/{week.identity}"
    as_nurse.post(f"/clinic/eyes/{eye_id}/visits/new", data={"name": "review", "target": "2027-03-12"})
    assert "1 of 1 booked: full" in as_nurse.get(address).text
    asked = as_nurse.post(address, data={"do": "move", "move-target": "2027-03-12"})
    assert "Friday 12 March 2027 is full: 1 of 1 places are booked." in asked.text
    assert named(store, eye_id).target == date(2027, 3, 10)
    yes = {"move-accepted-0": "Friday 12 March 2027 is full: 1 of 1 places are booked"}
    as_nurse.post(address, data={"do": "move", "move-target": "2027-03-12", **yes})
    assert named(store, eye_id).target == date(2027, 3, 12)


def full(app: Flask) -> None:
    """A clinic with one place a day, from now on."""
    settings: Settings = app.extensions["followup"].settings
    places = {"mon": 1, "tue": 1, "wed": 1, "thu": 1, "fri": 1}
    clinic = settings.clinic.model_copy(update={"places": places, "appointment_times": True})
    app.extensions["followup"].settings = settings.model_copy(update={"clinic": clinic})


def test_where_the_clinic_keeps_times_a_visit_has_one(app: Flask, as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    week = named(store, eye_id)
    address = f"/clinic/visits/{week.identity}"
    assert "move-starts" not in as_nurse.get(address).text
    full(app)
    as_nurse.post(address, data={"do": "move", "move-target": "2027-03-12", "move-starts": "09:40"})
    assert f"{named(store, eye_id).starts:%H:%M}" == "09:40"
    assert "09:40" in as_nurse.get("/clinic/").text
    wrong = as_nurse.post(address, data={"do": "move", "move-target": "2027-03-11", "move-starts": "quarter to"})
    assert wrong.status_code == 400


def test_a_wrong_date_is_said_beside_its_field(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    week = named(store, eye_id)
    for typed, says in (("", "choose a day, or write the date"), ("soon", "is not a date"), ("2027-03-01", "is over")):
        answer = as_nurse.post(f"/clinic/visits/{week.identity}", data={"do": "move", "move-target": typed})
        assert (answer.status_code, says in answer.text) == (400, True)
    assert as_nurse.post(f"/clinic/visits/{week.identity}", data={"do": "burn"}).status_code == 400
    assert as_nurse.get("/clinic/visits/nothing").status_code == 404


def test_cancelling_wants_a_reason_and_is_put_back_from_the_patients_page(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    week = named(store, eye_id)
    address = f"/clinic/visits/{week.identity}"
    assert "say why this visit is cancelled" in as_nurse.post(address, data={"do": "cancel"}).text
    as_nurse.post(address, data={"do": "cancel", "cancel-why": "seen elsewhere"})
    patient = as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "seen elsewhere" in patient
    assert "1 cancelled" in patient
    as_nurse.post(f"/clinic/visits/{week.identity}/put-back", data={"eye": eye_id, "back": "eye"})
    assert named(store, eye_id).target == date(2027, 3, 10)


def test_who_did_not_come_is_asked_for_another_day_at_once(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    day_1 = named(store, eye_id, "day 1")
    address = f"/clinic/visits/{day_1.identity}"
    assert "choose what stood in the way" in as_nurse.post(address, data={"do": "away"}).text
    answer = as_nurse.post(address, data={"do": "away", "away-barrier": "way"}, follow_redirects=True)
    assert "Is there another day?" in answer.text
    assert "Move it to" in answer.text
    assert "Did not come: day 1: no way to come" in as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert "away-barrier" not in as_nurse.get(address).text
    (said,) = [e for e in events.of_eye(store, eye_id) if e.kind == "did-not-come"]
    assert f"/clinic/entries/{said.id}/take-back" in answer.text
    as_nurse.post(f"/clinic/entries/{said.id}/take-back", data={"reason": "recorded by mistake"})
    assert "away-barrier" in as_nurse.get(address).text


def test_a_walk_in_stands_on_the_list_as_here(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    page = f"/clinic/eyes/{eye_id}/walk-in"
    assert "write why they come" in as_nurse.post(page, data={"reason": " "}).text
    answer = as_nurse.post(page, data={"reason": "a shadow"}, follow_redirects=True)
    assert "Pat Patient is here without an appointment." in answer.text
    line = answer.text.partition('data-state="here"')[2].partition("</tr>")[0]
    assert book.WALK_IN in line


def test_whom_to_tell_stands_on_today_with_the_number(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    week = named(store, eye_id)
    as_nurse.post(f"/clinic/visits/{week.identity}", data={"do": "move", "move-target": "2027-03-12"})
    shown = as_nurse.get("/clinic/").text.partition('id="to-tell"')[2]
    assert "Pat Patient" in shown
    assert "tel:+009876" in shown
    as_nurse.post(f"/clinic/visits/{named(store, eye_id).id}/told")
    assert 'id="to-tell"' not in as_nurse.get("/clinic/").text


def test_a_day_is_closed_on_one_page_and_what_finds_no_place_is_named_and_stays(
    as_nurse: FlaskClient, store: Store, nurse: Actor, settings: Settings, eye_id: str
) -> None:
    desk = Desk(store, NOW, nurse, ZONE)
    only = book.add(desk, settings.clinic, eye_id, "review", date(2027, 3, 10), "pressure")
    assert "Wed 10 Mar</strong> <span>2 of 12" in as_nurse.get("/clinic/close-day").text
    page = as_nurse.get("/clinic/close-day?day=2027-03-10").text
    assert "1 cannot be placed." in page
    assert "It is due on that day alone." in page
    rows = dict(hidden_rows(page))
    week = named(store, eye_id)
    assert rows[week.identity] in ("2027-03-09", "2027-03-11")
    assert rows[only] == ""
    data = {"day": "2027-03-10"}
    for n, (identity, to) in enumerate(rows.items()):
        data |= {f"visits-{n}-identity": identity, f"visits-{n}-to": to}
    assert "say why the clinic is closed" in as_nurse.post("/clinic/close-day", data=data).text
    assert named(store, eye_id).target == date(2027, 3, 10)
    done = as_nurse.post("/clinic/close-day", data={**data, "why": "training"}, follow_redirects=True).text
    assert "Wed 10 Mar 2027 is closed; 1 visit moved." in done
    assert "training" in done
    assert "1 visit stands on a day" in as_nurse.get("/clinic/").text
    assert (
        "closed on Wednesday 10 March 2027 (training)"
        in as_nurse.post(f"/clinic/visits/{week.identity}", data={"do": "move", "move-target": "2027-03-10"}).text
    )
    opened = as_nurse.post("/clinic/close-day/2027-03-10/open", data={"visits": "back"}, follow_redirects=True).text
    assert "is open again; 1 visit returned to it." in opened
    assert named(store, eye_id).target == date(2027, 3, 10)


def hidden_rows(page: str) -> list[tuple[str, str]]:
    """What the page proposes: each visit with its new day."""
    sends = {name: value for form in parsed(page).all("form") for name, value in form.sends.items()}
    identities = [name for name in sends if name.startswith("visits-") and name.endswith("-identity")]
    return [(sends[name], sends[name.replace("identity", "to")]) for name in identities]


def test_what_cannot_be_closed_is_said(as_nurse: FlaskClient) -> None:
    assert "is over; choose today or a later day" in as_nurse.get("/clinic/close-day?day=2027-03-01").text
    assert as_nurse.get("/clinic/close-day?day=soon").status_code == 200
    assert as_nurse.post("/clinic/close-day/2027-03-10/open").status_code == 409
    assert as_nurse.post("/clinic/close-day/soon/open").status_code == 404


def test_who_came_is_counted_once_and_taken_back(as_nurse: FlaskClient, store: Store, eye_id: str) -> None:
    week = named(store, eye_id)
    for _ in range(2):
        as_nurse.post(f"/clinic/eyes/{eye_id}/arrived", data={"visit_id": week.identity})
    (arrival,) = [e for e in events.of_eye(store, eye_id) if e.kind == "arrived"]
    assert f"/clinic/arrivals/{arrival.id}/undo" in as_nurse.get("/clinic/").text
    assert as_nurse.post(f"/clinic/arrivals/{arrival.id}/undo").status_code == 303
    assert events.of_eye(store, eye_id) == []
    assert as_nurse.post(f"/clinic/arrivals/{arrival.id}/undo").status_code == 409
    assert as_nurse.post(f"/clinic/eyes/{eye_id}/arrived", data={"visit_id": "nothing"}).status_code == 400


def test_measures_of_whoever_arrived_for_a_missed_visit_are_that_visits(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    missed = named(store, eye_id, "day 1")
    page = f"/clinic/eyes/{eye_id}/visit"
    assert f'selected value="{missed.identity}"' not in as_nurse.get(page).text
    assert as_nurse.post(f"/clinic/eyes/{eye_id}/arrived", data={"visit_id": missed.identity}).status_code == 303
    assert f'selected value="{missed.identity}"' in as_nurse.get(page).text


def test_whoever_moves_a_visit_sees_what_is_open_about_the_eye(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str
) -> None:
    page = f"/clinic/visits/{named(store, eye_id).identity}"
    assert "data-open" not in as_nurse.get(page).text
    body = MeasuresBody(eye="right", iop_mmhg=46, instrument="applanation")
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, [body])
    (pressure,) = [c for c in worries.callbacks_of(store, eye_id) if c.worry == "pressure"]
    assert f'href="/clinic/callbacks/{pressure.id}"' in as_nurse.get(page).text


def test_a_visit_is_added_by_one_form_that_takes_a_day_pressed_or_written(
    as_nurse: FlaskClient, store: Store, eye_id: str
) -> None:
    address = f"/clinic/eyes/{eye_id}/visits/new"
    page = parsed(as_nurse.get(address).text)
    assert [f.get("name") for f in page.one("main").all("input") if f.get("type") != "hidden"] == [
        "name",
        "reason",
        "target",
    ]
    assert [b.get("name") for b in page.one("main").all("button")][:2] == ["", "target"]  # Enter presses none of the days
    both = {"name": "review", "reason": "traction", "target": ["2027-03-11", "2027-03-20"]}
    assert as_nurse.post(address, data=both).status_code == 303  # the day that was pressed comes first
    assert as_nurse.post(address, data={**both, "name": "look", "target": "2027-03-12"}).status_code == 303
    missing = as_nurse.post(address, data={**both, "target": ""})
    assert missing.status_code == 400
    assert "choose a day, or write the date" in missing.text
    added = {v.name: v.target.isoformat() for v in visits.of_eye(store, eye_id)}
    assert (added["review"], added["look"]) == ("2027-03-11", "2027-03-12")
