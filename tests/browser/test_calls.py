"""One call for a patient with real keys, counted; the surgeon's two taps; the end of a nurse's day, and its page in print."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.callbacks import deciding, theatre
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.visits import visit
from followup.records import Store, patients, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.browser.conftest import ZONE, RunningServer, sign_in
from tests.browser.keys import Person
from tests.conftest import operation_note, patient_details

OpenContext = Callable[..., BrowserContext]


@pytest.fixture
def worries_of_both_eyes(server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor) -> None:
    bodies = [
        MeasuresBody(eye="right", iop_mmhg=36, acuity="6/60", findings=("hypopyon",)),
        MeasuresBody(eye="left", iop_mmhg=33),
    ]
    visit.record_visit(Desk(clinic_store, datetime.now(UTC), nurse, ZONE), enrolment[0], bodies)
    assert len({c.eye_id for c in worries.open_callbacks(clinic_store)}) == 2


def at_work(open_context: OpenContext, server: RunningServer, who: str, path: str, width: int = 1280) -> Page:
    page = open_context(viewport={"width": width, "height": 800}).new_page()
    sign_in(page, server, f"{who}@test.invalid")
    page.goto(f"{server.address}{path}")
    page.wait_for_selector("html[data-device=ready]")
    return page


@pytest.mark.usefixtures("worries_of_both_eyes")
def test_a_call_with_two_attempts_takes_few_keys_clicks_and_screens(
    open_context: OpenContext, server: RunningServer, clinic_store: Store
) -> None:
    page = at_work(open_context, server, "nurse", "/clinic/callbacks")
    person = Person(page)
    screens = {re.sub(r"\W.*", "", page.title())}
    person.click(page.get_by_role("button", name="I will call"))
    expect(page.get_by_role("heading", name="The call")).to_be_visible()
    screens.add(re.sub(r"\W.*", "", page.title()))
    person.click(page.get_by_role("button", name="Nobody answered"))
    expect(page.get_by_text("Not reached; next try").first).to_be_visible()
    person.click(page.get_by_label("The patient", exact=True))
    for other in page.locator(".spoken input[name=about]:not(:checked)").all():
        person.click(other)  # the fellow eye, which was spoken of too
    person.click(page.get_by_label("Advice given"))
    person.press("Tab")
    person.type("Comes if it hurts.")
    person.press("Tab", 2)
    person.press("Enter")
    expect(page.get_by_text("Settled: advice given.")).to_be_visible()
    screens.add(re.sub(r"\W.*", "", page.title()))
    print(f"\na call with two attempts: {person.keys} keys, {person.clicks} clicks, {len(screens)} screens")
    assert worries.open_callbacks(clinic_store) == []
    assert person.keys <= 25
    assert person.clicks <= 6
    assert len(screens) == 2


@pytest.mark.usefixtures("worries_of_both_eyes")
def test_a_surgeon_decides_in_two_taps_and_takes_it_back_with_one(
    open_context: OpenContext, server: RunningServer, clinic_store: Store
) -> None:
    page = at_work(open_context, server, "surgeon", "/surgeon/", 390)
    person = Person(page)
    person.click(page.locator(".cards a", has_text="Pat Patient").first)
    person.click(page.get_by_role("button", name="Theatre"))
    expect(page.get_by_role("region", name="To do")).to_have_count(1)
    expect(page.get_by_role("region", name="To do")).to_contain_text("theatre — nobody yet")
    assert (person.keys, person.clicks) == (0, 2)
    states = {(c.eye_id, c.state) for c in worries.open_callbacks(clinic_store)}
    assert sorted(state for _, state in states) == ["to-do", "waiting"]  # the other eye only where it is ticked
    page.get_by_role("button", name="Take it back").click()
    expect(page.get_by_role("region", name="To do")).to_have_count(0)
    assert {c.state for c in worries.open_callbacks(clinic_store)} == {"waiting"}


@pytest.mark.usefixtures("worries_of_both_eyes")
def test_a_nurse_goes_home_and_the_surgeon_has_the_call(
    open_context: OpenContext, server: RunningServer, clinic_store: Store
) -> None:
    page = at_work(open_context, server, "nurse", "/clinic/callbacks", 820)
    page.get_by_role("button", name="I will call").click()
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_role("heading", name="In your hands")).to_be_visible()
    page.get_by_role("button", name="Save and sign out").click()
    expect(page.get_by_text("say what becomes of it").first).to_be_visible()
    page.get_by_label("Hand all of it to a colleague").check()
    page.get_by_label("Who takes it").select_option("Sol Surgeon, surgeon")
    page.get_by_role("button", name="Save and sign out").click()
    expect(page.get_by_role("link", name="Sign in").first).to_be_visible()
    assert {c.claimed_by_name for c in worries.open_callbacks(clinic_store)} == {"Sol Surgeon"}
    surgeon = at_work(open_context, server, "surgeon", "/surgeon/")
    expect(surgeon.get_by_role("status").filter(has_text="Handed to you")).to_contain_text("by Nora Nurse")


def test_the_handover_of_a_full_day_and_the_list_for_theatre_print_on_one_page_each(
    open_context: OpenContext, server: RunningServer, clinic_store: Store, nurse: Actor
) -> None:
    now = datetime.now(UTC)
    for number in range(40):
        person = patient_details(f"H-{number}").model_copy(update={"name": f"Person with a long name {number}"})
        note = operation_note(operated_at=now - timedelta(hours=20), steroid_drops_until=None, drops=[])
        eye, _ = leaving.discharge(Desk(clinic_store, now, nurse, ZONE), person, note, [])
        pressure = MeasuresBody(eye="right", iop_mmhg=36 if number % 3 == 0 else 15)
        visit.record_visit(Desk(clinic_store, now, nurse, ZONE), eye, [pressure])
    for c in worries.open_callbacks(clinic_store):
        if c.worry == "pressure":
            task = deciding.decide(Desk(clinic_store, now, nurse, ZONE), c.id, "theatre", "", server.settings.clinic)
            theatre.plan(Desk(clinic_store, now, nurse, ZONE), task.id, now.date() + timedelta(days=1), "morning list")
    page = at_work(open_context, server, "nurse", "/clinic/handover")
    expect(page.get_by_role("heading", name="Seen today 40")).to_be_visible()
    for shown in ("/clinic/handover", "/clinic/for-theatre"):  # with fourteen eyes for theatre on one day
        page.goto(f"{server.address}{shown}")
        printed = page.pdf(format="A4")
        assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1, shown


@pytest.mark.parametrize("language", ["en", "de", "es", "ar"])
def test_the_paper_diary_prints_on_one_page_in_every_language(
    open_context: OpenContext, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], language: str
) -> None:
    known = patients.by_number(clinic_store, "T-1")
    assert known is not None
    patients.correct(clinic_store, known.id, known.number, known.name, known.born_on, known.phone, language)
    page = at_work(open_context, server, "nurse", f"/clinic/eyes/{enrolment[0]}/diary-page")
    expect(page.locator("article.diary")).to_have_attribute("lang", language)
    printed = page.pdf(format="A4", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b", printed)) == 1
    page.set_viewport_size({"width": 390, "height": 800})
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
