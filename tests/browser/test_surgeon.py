"""The surgeon between two cases: who needs me, one eye in one picture, two taps, the protocol."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import Patient
from followup.care.visits import visit
from followup.clinical import schedule
from followup.records import Store, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.browser.conftest import RunningServer, all_received, clinic_day, ready, sign_in
from tests.conftest import operation_note

PHONE_OF_SURGEON = {
    "viewport": {"width": 390, "height": 800},
    "device_scale_factor": 3,
    "has_touch": True,
    "is_mobile": True,
}


@pytest.fixture
def surgeon(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str], nurse: Actor
) -> Page:
    page = open_context(**PHONE_OF_SURGEON).new_page()
    sign_in(page, server, "surgeon@test.invalid")
    return page


def measured(store: Store, nurse: Actor, server: RunningServer, operation: str, at: datetime, **values: object) -> None:
    body = MeasuresBody.model_validate({"eye": "right", "instrument": "applanation", **values})
    visit.record_visit(Desk(store, at, nurse, server.settings.clinic.tz), operation, [body])


def another_eye(store: Store, nurse: Actor, server: RunningServer, number: str, name: str) -> str:
    now = datetime.now(UTC)
    person = Patient(number=number, name=name, born_on=clinic_day(-25000), phone="+00 1")
    day = clinic_day(3)
    visits = [schedule.Window("week 1", day, day, day, "retina")]
    note = operation_note(operated_at=now - timedelta(days=1), steroid_drops_until=day)
    return leaving.discharge(Desk(store, now, nurse, server.settings.clinic.tz), person, note, visits)[0]


def test_needs_me_is_ordered_by_how_soon_then_by_how_long_it_has_waited(
    surgeon: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    now = datetime.now(UTC)
    first = another_eye(clinic_store, nurse, server, "T-2", "Ana Earlier")
    urgent = another_eye(clinic_store, nurse, server, "T-3", "Ugo Urgent")
    measured(clinic_store, nurse, server, enrolment[0], now - timedelta(minutes=5), iop_mmhg=34)
    measured(clinic_store, nurse, server, first, now - timedelta(minutes=30), iop_mmhg=33)
    measured(clinic_store, nurse, server, urgent, now, iop_mmhg=62)
    surgeon.reload()
    rows = surgeon.locator(".cards li")
    expect(rows).to_have_count(3)
    names = [re.sub(r"\s+", " ", text) for text in rows.all_inner_texts()]
    assert [next(n for n in ("Ugo", "Ana", "Pat") if n in text) for text in names] == ["Ugo", "Ana", "Pat"]
    assert "▲ now" in names[0]
    assert "Pressure 62 mmHg" in names[0]
    assert "Pressure 33 mmHg, at or above 30." in names[1]
    wide = surgeon.evaluate("document.documentElement.scrollWidth")
    assert wide <= 390


def test_two_taps_decide_and_a_third_takes_it_back(
    surgeon: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    measured(clinic_store, nurse, server, enrolment[0], datetime.now(UTC), iop_mmhg=36)
    (before,) = visits.of_eye(clinic_store, enrolment[0])
    surgeon.reload()
    surgeon.locator(".cards a", has_text="Pat Patient").first.tap()
    surgeon.get_by_role("button", name="Come today").tap()
    to_do = surgeon.get_by_role("region", name="To do")
    expect(to_do).to_contain_text("phone the patient: come today")
    expect(to_do).to_contain_text("nobody yet, by")
    extra, planned = visits.of_eye(clinic_store, enrolment[0])
    assert (extra.name, planned.identity, planned.target) == ("extra visit", before.identity, before.target)
    surgeon.get_by_role("button", name="Take it back").tap()
    expect(surgeon.get_by_text("Waiting, opened")).to_be_visible()
    assert [v.identity for v in visits.of_eye(clinic_store, enrolment[0])] == [before.identity]
    assert [c.state for c in worries.open_callbacks(clinic_store)] == ["waiting"]


def test_every_decision_is_one_tap_with_an_optional_word(
    surgeon: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    decisions = {
        "Advise": "phone the patient with the advice",
        "Bring forward": "phone the patient: come sooner",
        "Theatre": "phone the patient: theatre",
    }
    measured(clinic_store, nurse, server, enrolment[0], datetime.now(UTC), iop_mmhg=36)
    surgeon.goto(f"{server.address}/surgeon/")
    for n, (button, said) in enumerate(decisions.items(), start=1):
        surgeon.goto(f"{server.address}/surgeon/")
        surgeon.locator(".cards a", has_text="Pat Patient").first.tap()
        surgeon.get_by_label("A word for the record (optional)").fill(f"Word {n}.")
        surgeon.get_by_role("button", name=button, exact=True).tap()
        task = surgeon.get_by_role("region", name="To do").filter(has_text=f"“Word {n}.”")
        expect(task).to_contain_text(said)
    assert len(worries.open_callbacks(clinic_store)) == 1


def test_changing_the_plan_answers_the_callback_once_the_patient_is_told(
    surgeon: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    measured(clinic_store, nurse, server, enrolment[0], datetime.now(UTC), iop_mmhg=36)
    surgeon.reload()
    surgeon.locator(".cards a", has_text="Pat Patient").first.tap()
    surgeon.get_by_role("link", name="Change the plan").tap()
    expect(surgeon.get_by_label("This answers the callback: somebody tells the patient")).to_be_checked()
    surgeon.get_by_label("Head position").select_option("right-cheek")
    surgeon.get_by_role("button", name="Save the change").tap()
    expect(surgeon.get_by_role("region", name="What changed")).to_contain_text("right cheek on the pillow")
    assert [c.state for c in worries.open_callbacks(clinic_store)] == ["to-do"]
    surgeon.goto(f"{server.address}/surgeon/")
    expect(surgeon.get_by_text("Nothing is waiting.")).to_be_visible()
    decided = surgeon.locator("li", has_text="Pat Patient")
    expect(decided).to_contain_text("phone the patient: the plan was changed")
    expect(decided).to_contain_text("plan changed: posture")


def test_the_whole_course_is_one_picture_and_a_table_says_the_same(
    surgeon: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], phone: Page, nurse: Actor
) -> None:
    phone.get_by_role("link", name="Visits").click()
    phone.get_by_role("button", name="I took it: antibiotic").click()
    phone.get_by_role("link", name="Bubble").click()
    phone.get_by_role("button", name="Save what I see").click()
    all_received(phone, 2)
    measured(clinic_store, nurse, server, enrolment[0], datetime.now(UTC), acuity="6/60", iop_mmhg=36, bubble_percent=80)
    surgeon.goto(f"{server.address}/clinic/eyes/{enrolment[0]}")
    chart = surgeon.locator("svg.course")
    for title in ("Acuity, logMAR", "Pressure, mmHg", "Bubble height, % (hexafluoroethane (C2F6))", "Posture, hours a day"):
        expect(chart.locator("text.title", has_text=title)).to_be_visible()
    for strip in ("signs", "calls", "drops", "visits"):
        expect(chart.get_by_text(strip, exact=True)).to_be_visible()
    assert chart.locator(".mark").count() == 4  # acuity, pressure, the level seen in clinic and by the patient
    assert chart.locator(".drop").count() == 1
    assert chart.locator(".span.waiting").count() == 1
    assert chart.locator(".visit.open").count() == 1
    assert chart.locator(".sign").count() >= 1
    summary = surgeon.get_by_text("The same as a table")
    summary.focus()
    surgeon.keyboard.press("Enter")
    table = surgeon.get_by_role("region", name="Course as a table")
    for words in (
        "right eye, acuity 6/60 (unaided), pressure 36 mmHg (applanation), bubble 80 % high",
        "name antibiotic",
        "percent 50",
        "today: Pressure 36 mmHg, at or above 30.",
        "callback opened",
        "visit planned",
    ):
        expect(table).to_contain_text(words)
    surgeon.keyboard.press("Tab")
    expect(table).to_be_focused()
    box = chart.bounding_box()
    assert box is not None
    assert box["width"] <= 390
    assert chart.get_by_text("Acuity, logMAR", exact=True).evaluate("text => text.getBoundingClientRect().height") >= 8
    printed = surgeon.pdf(format="A4")
    assert 1 <= len(re.findall(rb"/Type\s*/Page[^s]", printed)) <= 3


def test_only_a_clinicians_record_ends_the_caution_also_on_the_phone(
    surgeon: Page, server: RunningServer, enrolment: tuple[str, str], phone: Page
) -> None:
    expect(phone.locator("#gas-card")).to_be_visible()
    surgeon.goto(f"{server.address}/clinic/eyes/{enrolment[0]}")
    expect(surgeon.get_by_text("Gas in the eye (")).to_be_visible()
    surgeon.get_by_role("link", name="No gas seen").tap()
    expect(surgeon.get_by_text("about", exact=False).first).to_be_visible()
    surgeon.get_by_role("button", name="I looked at the retina myself").tap()
    expect(surgeon.get_by_text("Gas in the eye (")).to_be_hidden()
    phone.reload()
    ready(phone)
    expect(phone.locator("#gas-card")).to_be_hidden()


def test_a_protocol_is_read_tried_on_past_eyes_kept_and_signed(
    surgeon: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    measured(clinic_store, nurse, server, enrolment[0], datetime.now(UTC), iop_mmhg=36)
    surgeon.goto(f"{server.address}/surgeon/protocols")
    surgeon.locator("section", has=surgeon.get_by_role("heading", name="Rulebook")).get_by_text("Read or adjust").tap()
    spike = surgeon.get_by_role("group", name="Pressure spike", exact=True)
    expect(spike).to_contain_text("Pressure after 20-gauge vitrectomy")  # the rule's source
    spike.get_by_label("Threshold mmHg").fill("three")
    surgeon.get_by_role("button", name="Check, and show what it would have done").first.click()
    expect(surgeon.get_by_role("alert")).to_contain_text("threshold mmHg: “three” is not a number")
    expect(spike.get_by_label("Threshold mmHg")).to_have_value("three")
    spike.get_by_label("Threshold mmHg").fill("38")
    surgeon.get_by_role("button", name="Check, and show what it would have done").first.click()
    effects = surgeon.locator("#effects")
    expect(effects).to_contain_text("Pressure spike, threshold mmHg: 30 becomes 38")
    expect(effects).to_contain_text("Pat Patient")
    expect(effects).to_contain_text("would not have been raised")
    assert surgeon.evaluate("document.documentElement.scrollWidth") <= 390
    surgeon.get_by_role("button", name="Keep as our new draft").first.click()
    rulebook = surgeon.locator("section", has=surgeon.get_by_role("heading", name="Rulebook"))
    expect(rulebook).to_contain_text("Not signed.")
    rulebook.get_by_role("button", name="I have read it: sign").click()
    expect(rulebook).to_contain_text("Signed by Sol Surgeon")
    expect(surgeon.locator(".strip.draft").first).not_to_contain_text("rulebook")
