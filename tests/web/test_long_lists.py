"""Long lists come a page at a time: every line is on exactly one page, and whoever pressed on a page comes back to it."""

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
from tests.pages import Element, parsed

TODAY = date(2027, 3, 5)
NAMES = [f"Pat {n}" for n in range(7)]
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


def shown(client: FlaskClient, address: str) -> Element:
    return parsed(client.get(address).text)


def names(page: Element) -> list[str]:
    """The patients it names, each as often as it does."""
    return [name for found in page for name in NAMES if name in found.children]


def ids(page: Element, tag: str, kind: str) -> list[str]:
    return [found.get("id") for found in page.all(tag) if found.get("id").startswith(kind)]


def test_every_line_of_today_is_on_one_page(seven: list[str], as_nurse: FlaskClient) -> None:
    pages = [shown(as_nurse, f"/clinic/?show=today&page={n}") for n in range(1, 6)]
    lines = [ids(page, "tr", "visit-") for page in pages]
    assert [len(found) for found in lines] == [3, 3, 3, 3, 2]
    assert len({line for found in lines for line in found}) == 14
    assert pages[2].one("tbody", id="missed").one(class_="count").words == "7"  # it begins in the middle of the page
    assert pages[2].one("span", aria_current="page").words == "Page 3 of 5"
    assert [[link.get("rel") for link in page.one(class_="pages").all("a")] for page in pages] == [
        ["next"], ["prev", "next"], ["prev", "next"], ["prev", "next"], ["prev"],
    ]  # fmt: skip
    assert ["All of today 14" in page.words for page in pages] == [True] * 5


def test_a_part_of_today_leads_on_to_its_own_pages(seven: list[str], as_nurse: FlaskClient) -> None:
    coming = shown(as_nurse, "/clinic/?show=coming&page=2")
    assert len(names(coming)) == 3
    assert "show=coming" in coming.one("a", rel="next").get("href")


@pytest.mark.parametrize("asked", ["0", "999", "-1", "x", "²", "9" * 40])
def test_a_page_that_is_not_there_is_the_nearest(seven: list[str], as_nurse: FlaskClient, asked: str) -> None:
    page = as_nurse.get(f"/clinic/?show=coming&page={asked}")
    assert page.status_code == 200
    assert f"Page {3 if asked == '999' else 1} of 3" in page.text


def test_who_is_pressed_on_a_later_page_stays_on_it(seven: list[str], as_nurse: FlaskClient) -> None:
    page = shown(as_nurse, "/clinic/?show=coming&page=2")
    button = next(form for form in page.all("form") if form.words == "Arrived")
    answer = as_nurse.post(button.get("action"), data=button.sends)
    assert answer.status_code == 303
    assert "page=2" in answer.headers["Location"]


def test_a_usual_day_is_one_page(seven: list[str], as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.undo()
    page = shown(as_nurse, "/clinic/")
    assert len(ids(page, "tr", "visit-")) == 14
    assert page.all(class_="pages") == []


def test_every_patient_is_on_one_page_of_the_callbacks(seven: list[str], as_nurse: FlaskClient) -> None:
    pages = [shown(as_nurse, f"/clinic/callbacks?page={n}") for n in (1, 2, 3)]
    assert sorted(name for page in pages for name in names(page)) == NAMES
    assert [page.one("h1").words for page in pages] == ["Callbacks 7"] * 3


def test_each_part_of_what_needs_me_leads_to_all_of_it(seven: list[str], as_surgeon: FlaskClient) -> None:
    whole = shown(as_surgeon, "/surgeon/")
    assert whole.one("h1").words == "Needs me 7"
    assert "All 4 of these" in whole.words
    assert "All 3 of these" not in whole.words
    mine = [shown(as_surgeon, f"/surgeon/?part=mine&page={n}") for n in (1, 2)]
    assert sorted(name for page in mine for name in names(page)) == ["Pat 0", "Pat 2", "Pat 4", "Pat 6"]
    assert "Page 2 of 2" in mine[1].words
    assert "The whole list" in mine[1].words
    assert as_surgeon.get("/surgeon/?part=nothing").status_code == 200


def entries(client: FlaskClient, address: str) -> tuple[list[str], list[str]]:
    """The entries that a page shows, and where it leads to all of them."""
    page = shown(client, address)
    return ids(page, "li", "entry-"), [link.get("href") for link in page.all("a") if link.words == "All entries"]


def test_an_eye_shows_its_newest_entries_and_leads_to_all(
    store: Store, nurse: Actor, eye_id: str, as_nurse: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(eye_pages, "NEWEST", 3)
    for minutes in range(3):
        visit.record_visit(Desk(store, NOW + timedelta(minutes=minutes), nurse, ZONE), eye_id, [SEEN])
    address = f"/clinic/eyes/{eye_id}"
    first, leads = entries(as_nurse, address)
    assert (len(first), leads) == (3, [])
    visit.record_visit(Desk(store, NOW + timedelta(minutes=3), nurse, ZONE), eye_id, [SEEN])
    newest, leads = entries(as_nurse, address)
    whole, further = entries(as_nurse, f"{address}?entries=all")
    assert (len(whole), leads, further) == (4, [f"{address}?entries=all#entries"], [])
    assert whole == [*newest, first[-1]]


def test_eyes_with_nothing_planned_come_a_page_at_a_time_each_with_since_when_and_what_to_do(
    seven: list[str], as_nurse: FlaskClient, store: Store, nurse: Actor, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(unplanned, "LINES", 3)
    desk = Desk(store, NOW, nurse, ZONE)
    assert shown(as_nurse, "/clinic/").all(id="unplanned") == []
    for eye_id in seven:
        for planned in visits.of_eye(store, eye_id):
            book.cancel(desk, planned.identity, "another clinic does it")
    for call in worries.open_callbacks(store):
        holding.claim(desk, call.id)
        calling.attempt(desk, call.id, "patient", "", Clinic())
        settling.settle(desk, call.id, "advice", "told", Clinic())
    strip = shown(as_nurse, "/clinic/").one(id="unplanned")
    assert strip.words.startswith("7 followed eyes have nothing planned.")
    assert strip.one("a").get("href") == "/clinic/nothing-planned"
    pages = [shown(as_nurse, f"/clinic/nothing-planned?page={n}") for n in range(1, 4)]
    assert [len(names(page)) for page in pages] == [3, 3, 1]
    assert sorted(name for page in pages for name in names(page)) == NAMES
    assert [day.words for day in pages[0].all("td", class_="when")] == ["Fri 5 Mar 2027"] * 3
    (last,) = [eye_id for eye_id in seven if pages[2].all("a", href=f"/clinic/eyes/{eye_id}/end")]
    on = {"name": "week 2", "target": "2027-03-10", "back": "unplanned"}
    answer = as_nurse.post(f"/clinic/eyes/{last}/visits/new", data=on, follow_redirects=True)
    assert answer.request.path == "/clinic/nothing-planned"
    assert parsed(answer.text).one("h1").words == "Nothing planned 6"
