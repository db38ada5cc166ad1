"""One eye from start to finish as the three people: discharge, home, visit, callback, review."""

from collections.abc import Callable
from datetime import UTC, datetime

from playwright.sync_api import BrowserContext, Page, expect

from followup.care import signing_in
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.records import Store, events, eyes, visits, worries
from tests.browser.checking import answer
from tests.browser.conftest import PHONE, ZONE, RunningServer, all_received, clinic_day, enrol, go, sign_in
from tests.conftest import PASSWORD


def discharge_a_patient(page: Page, server: RunningServer) -> str:
    """Steps of the nurse; returns the code on the card."""
    page.goto(f"{server.address}/clinic/discharge")
    page.get_by_label("Hospital number").fill("W-1")
    page.get_by_label("Name", exact=True).fill("Willa Walker")
    page.get_by_label("Date of birth").fill("1952-03-14")
    page.get_by_label("The phone pages, on the patient’s own phone").check()
    page.get_by_label("Right", exact=True).check()
    page.get_by_label("Date of surgery").fill((clinic_day(-1)).isoformat())
    page.get_by_label("Time", exact=True).fill("09:30")
    page.get_by_label("Surgeon").fill("Sol Surgeon")
    page.get_by_label("Indication").select_option("retinal-detachment")
    page.get_by_label("Lens").select_option("phakic")
    page.get_by_label("Left in the eye").select_option("sf6")
    page.get_by_label("Concentration, %").fill("20")
    page.get_by_label("Fill at the end of surgery, %").fill("140")
    page.get_by_label("9 o’clock, equator").check()
    page.get_by_label("Acuity before surgery").fill("6/18")
    page.get_by_role("button", name="Propose a plan").click()
    expect(page.get_by_role("alert")).to_contain_text("140 is out of range; accepted is 0 to 100 %")
    expect(page.get_by_label("Fill at the end of surgery, %")).to_have_value("140")
    page.get_by_label("Fill at the end of surgery, %").fill("90")
    page.get_by_role("button", name="Propose a plan").click()
    expect(page.get_by_role("heading", name="Proposed")).to_be_visible()
    expect(page.get_by_label("Head position")).to_have_value("left-cheek")
    expect(page.get_by_text("gone about day")).to_be_visible()
    page.get_by_label("Hours a day").fill("10")
    page.get_by_role("button", name="Confirm and print the card").click()
    expect(page.get_by_text("No flying. No mountains. No nitrous oxide")).to_be_visible()
    expect(page.locator(".card svg")).to_be_visible()
    page.get_by_role("button", name="The patient consents").click()
    expect(page.get_by_text("Consent to the phone pages: given")).to_be_visible()
    return page.locator(".code").inner_text().replace(" ", "")


def test_three_people_and_one_eye(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store
) -> None:
    nurse = open_context().new_page()
    sign_in(nurse, server, "nurse@test.invalid")
    code = discharge_a_patient(nurse, server)

    phone = open_context(**PHONE).new_page()
    enrol(phone, server, code)
    expect(phone.locator(".posture-words")).to_have_text("left cheek on the pillow")
    expect(phone.locator(".left-today")).to_have_text("Hours today: 0 of 10. Left: 10.")
    phone.get_by_role("button", name="Start").click()
    expect(phone.locator(".timer-words")).to_contain_text("Started at")
    phone.get_by_role("button", name="Stop").click()
    expect(phone.locator("#next-visit")).to_contain_text("day 1")
    all_received(phone, 1)
    answer(phone, pain="8", vision="worse")
    expect(phone.locator("#verdict-title")).to_have_text("Call now")
    expect(phone.locator("#verdict-call")).to_have_attribute("href", "tel:+001234")
    all_received(phone, 2)

    row = eyes.followed(clinic_store)[0]
    assert {e.kind for e in events.of_eye(clinic_store, row.id)} == {"posture", "symptoms"}

    nurse.goto(f"{server.address}/clinic/?find=Willa")
    nurse.get_by_role("link", name="Enter visit").first.click()
    nurse.locator("#right-acuity").fill("20/40-1")
    expect(nurse.locator("output[data-field=right-acuity]")).to_contain_text("logMAR 0.32 · 6/12.6 · 20/42 · 69 letters")
    nurse.locator("#right-acuity").fill("0.3")
    expect(nurse.locator("output[data-field=right-acuity]")).to_contain_text("Decimal or logMAR?")
    nurse.locator("#right-acuity").fill("HM")
    nurse.locator("#right-iop").fill("36")
    nurse.locator("#right-bubble_percent").fill("88")
    nurse.locator("#right-pain").fill("3")
    nurse.get_by_role("button", name="Save").click()
    expect(nurse.get_by_text("Pressure 36 mmHg, at or above 30.")).to_be_visible()
    expect(nurse.get_by_text("Pressure after 20-gauge vitrectomy").first).to_be_visible()

    nurse.get_by_role("link", name="Callbacks").click()
    expect(nurse.locator(".cards li").first).to_contain_text("Willa Walker")
    expect(nurse.locator(".cards li").first).to_contain_text("now")
    nurse.locator(".cards a").first.click()
    nurse.get_by_role("button", name="Claim: I will call").click()
    nurse.get_by_label("The patient", exact=True).check()
    said = nurse.locator(".spoken").get_by_label("What was said or done")
    said.fill("Pain since the morning.")
    nurse.get_by_role("button", name="Save the call").click()
    nurse.get_by_role("button", name="Save the call").click()
    expect(nurse.get_by_text("say whom you reached, or press “Nobody answered”")).to_be_visible()
    for other in nurse.locator(".spoken input[name=about]").all()[1:]:
        other.uncheck()
    nurse.get_by_label("Seen the same day").check()
    nurse.get_by_label("The patient or carer knows of it from this call").check()
    nurse.get_by_role("button", name="Save the call").click()
    expect(nurse.get_by_role("region", name="To do")).to_contain_text("the patient knows; to be seen today")
    nurse.get_by_role("button", name="It is done").click()
    expect(nurse.get_by_text("has not taken place: record it as seen first")).to_be_visible()
    other = signing_in.sign_in(clinic_store, datetime.now(UTC), "nurse@test.invalid", PASSWORD)
    (extra,) = [v for v in visits.of_eye(clinic_store, row.id) if v.name == visit.EXTRA_VISIT]
    visit.record_visit(Desk(clinic_store, datetime.now(UTC), other, ZONE), row.id, [], visit=extra.identity)
    nurse.get_by_role("button", name="It is done").click()
    expect(nurse.get_by_text("Settled: seen the same day.")).to_be_visible()

    surgeon = open_context(viewport={"width": 390, "height": 800}).new_page()
    sign_in(surgeon, server, "surgeon@test.invalid")
    expect(surgeon.get_by_role("heading", name="Needs me")).to_be_visible()
    left = worries.open_callbacks(clinic_store)
    assert left
    expect(surgeon.locator(".cards li")).to_have_count(1)
    surgeon.get_by_role("link", name="Picture").first.click()
    chart = surgeon.locator("svg.course")
    for title in (
        "Acuity, logMAR",
        "Pressure, mmHg",
        "Bubble height, % (sulphur hexafluoride (SF6))",
        "Posture, hours a day",
    ):
        expect(chart.locator("text.title", has_text=title)).to_be_visible()
    expect(chart.locator(".mark")).to_have_count(3)
    assert chart.locator(".sign").count() >= 3
    surgeon.get_by_text("The same as a table").click()
    expect(surgeon.get_by_role("cell", name="right eye, acuity HM (unaided), pressure 36 mmHg")).to_be_visible()

    phone.reload()
    go(phone, "more")
    expect(phone.locator("#entries li").first).to_contain_text("Looked at by a person")


def test_a_used_code_is_refused_on_the_phone(
    phone: Page, server: RunningServer, enrolment: tuple[str, str], open_context: Callable[..., BrowserContext]
) -> None:
    other = open_context(**PHONE).new_page()
    other.goto(f"{server.address}/enrol?code={enrolment[1]}")
    other.get_by_label("Year of birth").fill("1952")
    other.get_by_role("button", name="Set up").click()
    expect(other.get_by_text("This code has been used")).to_be_visible()
    expect(other.get_by_label("Code")).to_have_value(enrolment[1])
    expect(other.get_by_label("Year of birth")).to_have_value("1952")
