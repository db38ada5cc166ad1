"""Long lists come a page at a time: every line is on exactly one page, and whoever pressed on a page comes back to it."""

import re
from datetime import date, timedelta

import pytest
from flask.testing import FlaskClient

from followup import jobs
from followup.care.actors import Actor
from followup.care.callbacks import calls as calling
from followup.care.callbacks import holding, settling
from followup.care.callbacks import lines as calls
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.today import lists, unplanned
from followup.care.visits import book, visit
from followup.clinical import schedule
from followup.config import Clinic, Settings
from followup.records import Store, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.web.clinic import eyes as eye_pages
from tests.conftest import NOW, OPERATED, ZONE, operation_note, patient_details

TODAY = date(2027, 3, 5)
SEEN = MeasuresBody(eye="right", iop_mmhg=15, instrument="applanation")


@pytest.fixture
def seven(store: Store, nurse: Actor, settings: Settings, monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Seven eyes with a missed, a due and a coming visit each; three lines make a page. Half were operated by somebody else."""
    monkeypatch.setattr(lists, "LINES", 3)
    monkeypatch.setattr(calls, "LINES", 3)
    windows = [
        schedule.Window(name, TODAY + timedelta(days=n), TODAY + timedelta(days=n), TODAY + timedelta(days=n), "review")
        for name, n in (("day 1", -2), ("today", 0), ("week 1", 5))
    ]
    found = []
    for n in range(7):
        note = operation_note(surgeon=("Sol Surgeon", "Sam Other")[n % 2])
        who = patient_details(f"T-{n}").model_copy(update={"name": f"Pat {n}"})
        found.append(leaving.discharge(Desk(store, OPERATED + timedelta(hours=5), nurse, ZONE), who, note, windows)[0])
    jobs.check_all(store, settings, NOW)
    return found


def names(page: str) -> list[str]:
    return re.findall(r">(Pat \d)<", page)


def test_every_line_of_today_is_on_one_page(seven: list[str], as_nurse: FlaskClient) -> None:
    pages = [as_nurse.get(f"/clinic/?show=today&page={n}").text for n in range(1, 6)]
    lines = [re.findall(r'<tr id="(visit-[^"]+)"', page) for page in pages]
    assert [len(found) for found in lines] == [3, 3, 3, 3, 2]
    assert len({line for found in lines for line in found}) == 14
    missed = pages[2][pages[2].index('<tbody id="missed">') :]  # it begins in the middle of the page
    assert '<span class="count">7</span>' in missed[:300]
    assert "Page 3 of 5" in pages[2]
    assert [('rel="prev"' in page, 'rel="next"' in page) for page in pages] == [
        (False, True), (True, True), (True, True), (True, True), (True, False),
    ]  # fmt: skip
    coming = as_nurse.get("/clinic/?show=coming&page=2").text
    assert len(names(coming)) == 3
    assert "show=coming" in coming[coming.index('rel="next"') :][:200]
    assert all("All of today <strong>14</strong>" in page for page in pages)


@pytest.mark.parametrize("asked", ["0", "999", "-1", "x", "²", "9" * 40])
def test_a_page_that_is_not_there_is_the_nearest(seven: list[str], as_nurse: FlaskClient, asked: str) -> None:
    page = as_nurse.get(f"/clinic/?show=coming&page={asked}")
    assert page.status_code == 200
    assert f"Page {3 if asked == '999' else 1} of 3" in page.text


def test_who_is_pressed_on_a_later_page_stays_on_it(seven: list[str], as_nurse: FlaskClient) -> None:
    page = as_nurse.get("/clinic/?show=coming&page=2").text
    line = page[page.index('<tr id="visit-') :]
    action = re.findall(r'action="([^"]+arrived)"', line)[0]
    fields = dict(re.findall(r'type="hidden" name="(visit_id|page)" value="([^"]*)"', line)[:2])
    answer = as_nurse.post(action, data=fields)
    assert answer.status_code == 303
    assert "page=2" in answer.headers["Location"]


def test_a_usual_day_is_one_page(seven: list[str], as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    page = as_nurse.get("/clinic/").text
    assert len(re.findall(r'<tr id="visit-', page)) == 14
    assert 'class="pages' not in page


def test_every_patient_is_on_one_page_of_the_callbacks(seven: list[str], as_nurse: FlaskClient) -> None:
    pages = [as_nurse.get(f"/clinic/callbacks?page={n}").text for n in (1, 2, 3)]
    assert sorted(name for page in pages for name in names(page)) == [f"Pat {n}" for n in range(7)]
    assert all('Callbacks <span class="count">7</span>' in page for page in pages)


def test_each_part_of_what_needs_me_leads_to_all_of_it(seven: list[str], as_surgeon: FlaskClient) -> None:
    whole = as_surgeon.get("/surgeon/").text
    assert 'Needs me <span class="count">7</span>' in whole
    assert "All 4 of these" in whole
    assert "All 3 of these" not in whole
    mine = [as_surgeon.get(f"/surgeon/?part=mine&page={n}").text for n in (1, 2)]
    assert sorted(name for page in mine for name in names(page)) == ["Pat 0", "Pat 2", "Pat 4", "Pat 6"]
    assert "Page 2 of 2" in mine[1]
    assert "The whole list" in mine[1]
    assert as_surgeon.get("/surgeon/?part=nothing").status_code == 200


def entries_of(page: str) -> list[str]:
    return re.findall(r'<li id="entry-([^"]+)"', page)


def test_an_eye_shows_its_newest_entries_and_leads_to_all(
    store: Store, nurse: Actor, eye_id: str, as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(eye_pages, "NEWEST", 3)
    for minutes in range(3):
        visit.record_visit(Desk(store, NOW + timedelta(minutes=minutes), nurse, ZONE), eye_id, [SEEN])
    page = as_nurse.get(f"/clinic/eyes/{eye_id}").text
    assert (len(entries_of(page)), "All entries" in page) == (3, False)
    visit.record_visit(Desk(store, NOW + timedelta(minutes=3), nurse, ZONE), eye_id, [SEEN])
    page, whole = (as_nurse.get(f"/clinic/eyes/{eye_id}{asked}").text for asked in ("", "?entries=all"))
    assert (len(entries_of(page)), f'{eye_id}?entries=all#entries">All entries' in page) == (3, True)
    assert (len(entries_of(whole)), "All entries" in whole) == (4, False)
    assert entries_of(whole)[:3] == entries_of(page)


def test_eyes_with_nothing_planned_come_a_page_at_a_time_each_with_since_when_and_what_to_do(
    seven: list[str], as_nurse: FlaskClient, store: Store, nurse: Actor, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(unplanned, "LINES", 3)
    desk = Desk(store, NOW, nurse, ZONE)
    assert 'id="unplanned"' not in as_nurse.get("/clinic/").text
    for eye_id in seven:
        for planned in visits.of_eye(store, eye_id):
            book.cancel(desk, planned.identity, "another clinic does it")
    for call in worries.open_callbacks(store):
        holding.claim(desk, call.id)
        calling.attempt(desk, call.id, "patient", "", Clinic())
        settling.settle(desk, call.id, "advice", "told", Clinic())
    today = as_nurse.get("/clinic/").text
    assert "7 followed eyes have nothing planned." in today
    assert "/clinic/nothing-planned" in today
    pages = [as_nurse.get(f"/clinic/nothing-planned?page={n}").text for n in range(1, 4)]
    assert [len(names(page)) for page in pages] == [3, 3, 1]
    assert sorted(name for page in pages for name in names(page)) == [f"Pat {n}" for n in range(7)]
    assert "Fri 5 Mar 2027" in pages[0] or "5 March 2027" in pages[0]
    (last,) = [eye_id for eye_id in seven if f"/clinic/eyes/{eye_id}/end" in pages[2]]
    on = {"name": "week 2", "target": "2027-03-10", "back": "unplanned"}
    answer = as_nurse.post(f"/clinic/eyes/{last}/visits/new", data=on, follow_redirects=True)
    assert answer.request.path == "/clinic/nothing-planned"
    assert 'Nothing planned <span class="count">6</span>' in answer.text
