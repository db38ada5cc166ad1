"""An eye for theatre, from the surgeon's tap to the end, by two people: on a list until somebody said that it is done."""

import re
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.records import Store, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.browser.conftest import RunningServer, sign_in

OpenContext = Callable[..., BrowserContext]


@pytest.fixture
def call(server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor) -> str:
    """The address of the pressure callback of an eye at 62 mmHg."""
    body = MeasuresBody(eye="right", iop_mmhg=62, instrument="applanation")
    visit.record_visit(Desk(clinic_store, datetime.now(UTC), nurse, server.settings.clinic.tz), enrolment[0], [body])
    (id,) = [c.id for c in worries.open_callbacks(clinic_store) if c.worry == "pressure"]
    return f"{server.address}/clinic/callbacks/{id}"


def of_role(open_context: OpenContext, server: RunningServer, email: str, width: int) -> Page:
    page = open_context(viewport={"width": width, "height": 800}).new_page()
    sign_in(page, server, email)
    return page


def listed(page: Page, server: RunningServer, path: str, words: str) -> None:
    page.goto(f"{server.address}{path}")
    expect(page.locator(".cards li", has_text="Pat Patient").filter(has_text="Pressure 62 mmHg")).to_contain_text(
        re.compile(words)
    )


def test_theatre_is_to_do_until_the_patient_was_reached_and_it_is_done(
    open_context: OpenContext, server: RunningServer, clinic_store: Store, call: str
) -> None:
    surgeon = of_role(open_context, server, "surgeon@test.invalid", 390)
    nurse = of_role(open_context, server, "nurse@test.invalid", 1280)
    surgeon.goto(f"{server.address}/surgeon/")
    surgeon.locator(".cards a", has_text="Pat Patient").first.click()
    surgeon.get_by_role("button", name="Theatre").click()
    for page, path in ((surgeon, "/surgeon/"), (nurse, "/clinic/callbacks")):
        listed(page, server, path, r"To do: phone the patient: theatre — nobody yet, by .*\d\d:\d\d")

    nurse.locator(".cards a", has_text="Pat Patient").first.click()
    nurse.get_by_role("button", name="I will do it").click()
    nurse.get_by_text("another time, or a word").click()
    nurse.locator(".nobody").get_by_label("What was said or done").fill("Rang ten times.")
    nurse.get_by_role("button", name="Nobody answered").click()
    expect(nurse.get_by_text("Not reached; next try")).to_be_visible()
    listed(nurse, server, "/clinic/callbacks", r"theatre — Nora Nurse, by .*not reached, next try .*\d\d:\d\d")

    surgeon.goto(call)
    surgeon.get_by_role("button", name="Take over from Nora Nurse").click()
    expect(surgeon.get_by_role("region", name="To do")).to_contain_text("Sol Surgeon, by")
    nurse.goto(f"{server.address}/clinic/callbacks")
    expect(nurse.get_by_role("status").filter(has_text="Taken over from you")).to_contain_text("Sol Surgeon has it")

    surgeon.get_by_role("button", name="It is done").click()
    expect(surgeon.get_by_text("nobody has spoken to the patient or carer about this yet")).to_be_visible()
    surgeon.get_by_label("The patient", exact=True).check()
    surgeon.locator(".spoken").get_by_label("What was said or done").fill("Comes fasting at eight.")
    surgeon.get_by_role("button", name="Save the call").click()
    expect(surgeon.get_by_role("region", name="To do")).to_contain_text("the patient knows; theatre to be confirmed")
    listed(nurse, server, "/clinic/callbacks", r"the patient knows; theatre to be confirmed — Sol Surgeon, by")

    surgeon.locator(".spoken").get_by_label("What was said or done").fill("On tomorrow’s list.")
    surgeon.get_by_role("button", name="It is done").click()
    expect(surgeon.get_by_text("say on which day theatre is")).to_be_visible()
    surgeon.get_by_label("Theatre on").fill(f"{date.today() + timedelta(days=1)}")
    surgeon.get_by_role("button", name="It is done").click()
    expect(surgeon.get_by_text("Settled: theatre.")).to_be_visible()
    story = surgeon.locator("section", has=surgeon.get_by_role("heading", name="What was done")).first
    for step in (
        "decided by Sol Surgeon",
        "Rang ten times.",
        "from Nora Nurse",
        "Comes fasting at eight.",
        "On tomorrow’s list. · theatre on",
    ):
        expect(story).to_contain_text(step)
    nurse.goto(f"{server.address}/clinic/callbacks")
    expect(nurse.locator(".cards li", has_text="Pressure 62 mmHg")).to_have_count(0)
