"""The nurse's day in a real browser: the list, measures in seconds, discharge, a changed plan, the callback."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care import accounts, signing_in
from followup.care.actors import Actor
from followup.care.callbacks import holding
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.note import drops_in
from followup.care.errors import Conflict
from followup.care.visits import visit
from followup.records import Store, eyes, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.kinds import stored
from tests.browser.conftest import ZONE, RunningServer, all_received, clinic_day, ready, sign_in
from tests.browser.kept import of_both_eyes
from tests.browser.keys import Person
from tests.conftest import operation_note, patient_details

USUAL_DROPS = "antibiotic 4 × a day, 7 days\nsteroid 6-4-3-2-1 × a day, 1 week each"


def due_today(store: Store, nurse: Actor, server: RunningServer, operation: str) -> None:
    """Put the planned visit on today."""
    (planned,) = visits.of_eye(store, operation)
    day = clinic_day()
    visits.change(store, datetime.now(UTC), planned, nurse.signature, "", target=day, earliest=day)


@pytest.fixture
def page(open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]) -> Page:
    """A nurse, signed in, at today's list."""
    made = open_context(viewport={"width": 1024, "height": 900}).new_page()
    sign_in(made, server, "nurse@test.invalid")
    return made


def measured(store: Store, nurse: Actor, server: RunningServer, operation: str, **values: object) -> None:
    body = MeasuresBody.model_validate({"eye": "right", "instrument": "applanation", "correction": "pinhole", **values})
    visit.record_visit(Desk(store, datetime.now(UTC), nurse, server.settings.clinic.tz), operation, [body])


def test_the_usual_visit_takes_fifteen_keys(
    page: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    """Acuity and pressure of both eyes and the bubble's height: what a visit with gas in the eye records."""
    measured(clinic_store, nurse, server, enrolment[0], acuity="6/60", iop_mmhg=15)
    due_today(clinic_store, nurse, server, enrolment[0])
    page.reload()
    person = Person(page)
    person.click(page.locator("#day").get_by_role("link", name="Enter visit"))
    expect(page.locator("#right-acuity")).to_be_focused()
    expect(page.get_by_label("Visit", exact=True).locator("option:checked")).to_contain_text("week 1")
    expect(page.locator("#right-acuity-hint")).to_have_text("last: 6/60 pinhole")
    expect(page.locator(".how-words")).to_contain_text("right: Pinhole")
    expect(page.locator("#right-notation")).to_have_value("6/")
    person.type("12")
    expect(page.locator("output[data-field=right-acuity]")).to_contain_text("70 letters · 35 letters better than last")
    person.press("Tab")
    person.type("16")
    person.press("Tab")
    person.type("60")
    person.press("Tab", 2)
    person.type("9")
    person.press("Tab")
    person.type("15")
    person.press("Enter")
    expect(page.get_by_role("heading", name="Saved", exact=True)).to_be_visible()
    print(f"\nusual visit: {person.keys} keys, {person.clicks} click, about {person.seconds:.0f} s")
    assert person.keys <= 15
    assert person.seconds < 45
    seen = [stored(e.body) for e in of_both_eyes(clinic_store, enrolment[0], "measures")]
    by_eye = {body["eye"]: body for body in seen}
    assert (by_eye["right"]["acuity"], by_eye["right"]["iop_mmhg"], by_eye["right"]["bubble_percent"]) == ("6/12", 16, 60)
    assert (by_eye["left"]["acuity"], by_eye["left"]["iop_mmhg"]) == ("6/9", 15)
    assert by_eye["right"]["correction"] == "pinhole"
    page.get_by_role("link", name="Today’s list").click()
    expect(page.locator("#day [data-state=seen]")).to_contain_text("Pat Patient")


def test_an_unlikely_value_is_asked_about_not_blocked(page: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    page.get_by_role("link", name="Coming").click()
    page.locator("#coming").get_by_role("link", name="Enter visit").click()
    page.locator("#right-iop").fill("52")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("alert")).to_contain_text("right eye: is a pressure of 52 mmHg right?")
    expect(page.locator("#right-iop")).to_have_value("52")
    page.get_by_label("Yes, that is right").check()
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_text("Pressure 52 mmHg, at or above 40.")).to_be_visible()


def test_the_list_knows_who_is_here_and_finds_by_name_number_and_card(
    page: Page, server: RunningServer, enrolment: tuple[str, str]
) -> None:
    page.get_by_role("link", name="Coming").click()
    page.locator("#coming").get_by_role("button", name="Arrived").click()
    page.get_by_role("link", name="Here 1").click()
    expect(page.locator("#day [data-state=here]")).to_contain_text("Pat Patient")
    for words in ("pat pat", "T-1", f"{server.address}/enrol?code={enrolment[1]}", enrolment[1].lower()):
        page.get_by_label("Find by name, birth date, number or phone, or scan a card").fill(words)
        page.keyboard.press("Enter")  # as a scanner ends what it types
        expect(page.get_by_role("heading", name="Found")).to_be_visible()
        expect(page.locator("section", has=page.get_by_role("heading", name="Found"))).to_contain_text("Pat Patient")
    page.get_by_label("Find by name, birth date, number or phone, or scan a card").fill("nobody")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Nobody with “nobody” is in the records.")).to_be_visible()


def test_who_is_missing_and_at_risk_stands_on_the_list(
    page: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    yesterday = clinic_day(-1)
    visits.add(
        clinic_store, datetime.now(UTC), enrolment[0], "day 1", yesterday, yesterday, yesterday, "pressure", nurse.signature
    )
    measured(clinic_store, nurse, server, enrolment[0], iop_mmhg=36)
    page.reload()
    missing = page.locator("#missed tr[id]")
    expect(missing).to_contain_text("Pat Patient")
    expect(missing).to_contain_text("day 1")
    expect(missing).to_contain_text("did not take place. And 1 more.")
    expect(missing.locator(".sign")).to_contain_text("◆ missed visit")
    expect(page.get_by_role("link", name="With a sign 1")).to_be_visible()


def test_a_full_discharge_takes_eighty_keys_and_under_two_minutes(
    page: Page, server: RunningServer, clinic_store: Store, nurse: Actor
) -> None:
    """With two breaks and two drops that this clinic has written before."""
    day = clinic_day(-1)
    note = operation_note(
        eye="left", operated_at=datetime.now(UTC) - timedelta(hours=20), drops=drops_in(USUAL_DROPS, day, day)
    )
    leaving.discharge(Desk(clinic_store, datetime.now(UTC), nurse, ZONE), patient_details("T-9"), note, [])
    person = Person(page)
    person.click(page.get_by_role("link", name="Discharge"))

    def fill(label: str, text: str) -> None:
        person.click(page.get_by_label(label, exact=True))
        person.type(text)

    def choose(label: str, first_letters: str) -> None:
        page.get_by_label(label, exact=True).focus()
        person.type(first_letters)

    expect(page.get_by_label("Surgeon")).to_have_value("Sol Surgeon")
    fill("Hospital number", "W-2047")
    person.press("Tab")
    person.type("Willa Walker")
    person.press("Tab")
    person.type("03141952")
    person.press("Tab")
    person.type("+00 5550 123")
    person.click(page.get_by_label("The phone pages, on the patient’s own phone"))
    person.click(page.get_by_label("Right", exact=True))
    expect(page.get_by_label("Date of surgery")).to_have_value("")  # neither the day nor the time is said for anybody
    expect(page.get_by_label("Time", exact=True)).to_have_value("")
    person.click(page.get_by_role("button", name="Today,"))
    expect(page.get_by_label("Date of surgery")).to_have_value(f"{clinic_day()}")
    person.type("1200A")  # its focus went to the time
    expect(page.get_by_label("Time", exact=True)).to_have_value("00:00")
    choose("Indication", "Ret")
    choose("Lens", "Pha")
    choose("Left in the eye", "Sul")
    fill("Concentration, %", "20")
    person.press("Tab")
    person.type("90")
    person.click(page.get_by_label("Vitrectomy"))
    page.locator(".breaks input[tabindex='0']").focus()
    person.type("11e1p")
    expect(page.locator(".breaks output")).to_have_text("11 o’clock, equator; 1 o’clock, periphery")
    fill("Acuity before surgery", "6/18")
    fill("Pressure before surgery, mmHg", "15")
    person.click(page.get_by_role("button", name="antibiotic 4 × a day, 7 days"))
    person.click(page.get_by_role("button", name="steroid 6-4-3-2-1 × a day, 1 week each"))
    person.click(page.get_by_role("button", name="Propose a plan"))
    expect(page.get_by_role("heading", name="Proposed")).to_be_visible()
    expect(page.get_by_label("Head position")).to_have_value("upright")
    person.click(page.get_by_role("button", name="Confirm and print the card"))
    expect(page.get_by_text("No flying. No mountains. No nitrous oxide")).to_be_visible()
    expect(page.locator(".card svg")).to_be_visible()
    person.click(page.get_by_role("button", name="Print the card"))
    assert page.evaluate("window.timesPrinted") == 1
    print(f"\ndischarge: {person.keys} keys, {person.clicks} clicks, about {person.seconds:.0f} s")
    assert person.keys <= 80
    body = next(
        eye.note.body.body(ZONE) for eye in eyes.followed(clinic_store) if eye.patient.number == "W-2047" and eye.note
    )
    assert body["breaks"] == [{"clock": 11, "reach": "equator"}, {"clock": 1, "reach": "periphery"}]
    assert [(d["name"], [s["times_a_day"] for s in d.get("steps", ())]) for d in body["drops"]] == [
        ("antibiotic", []),
        ("steroid", [6, 4, 3, 2, 1]),
    ]
    assert body["steroid_last_day"] == (clinic_day() + timedelta(days=35)).isoformat()
    assert person.seconds < 120
    assert len(re.findall(rb"/Type\s*/Page[^s]", page.pdf(format="A4", prefer_css_page_size=True))) == 1


def test_going_back_from_the_card_leads_to_the_card_not_to_an_error(
    page: Page, server: RunningServer, clinic_store: Store
) -> None:
    """Also when the form was answered twice before, once with what was wrong."""
    page.goto(f"{server.address}/clinic/discharge")
    for label, text in (("Hospital number", "W-1"), ("Name", "Willa Walker"), ("Date of birth", "1952-03-14")):
        page.get_by_label(label, exact=True).fill(text)
    page.get_by_label("The phone pages, on the patient’s own phone").check()
    page.get_by_label("Left", exact=True).check()
    for label, chosen in (("Indication", "retinal-detachment"), ("Lens", "phakic"), ("Left in the eye", "silicone-oil")):
        page.get_by_label(label, exact=True).select_option(chosen)
    page.get_by_label("Date of surgery").fill((clinic_day(-1)).isoformat())
    page.get_by_label("Time", exact=True).fill("09:30")
    page.get_by_role("button", name="Propose a plan").click()
    page.locator(".summary a", has_text="Fill at the end of surgery").click()
    page.keyboard.type("90")
    page.get_by_role("button", name="Propose a plan").click()
    page.get_by_role("button", name="Confirm and print the card").click()
    for _ in range(2):
        expect(page.get_by_role("button", name="Print the card")).to_be_visible()
        page.go_back()
    expect(page.get_by_role("heading", name="Willa Walker")).to_be_visible()
    assert [row.patient.name for row in eyes.followed(clinic_store)].count("Willa Walker") == 1


def test_a_changed_plan_is_shown_to_staff_and_on_the_phone(
    page: Page, phone: Page, server: RunningServer, enrolment: tuple[str, str]
) -> None:
    expect(phone.locator(".posture-words")).to_have_text("face down")
    page.goto(f"{server.address}/clinic/eyes/{enrolment[0]}/plan")
    page.get_by_label("Head position").select_option("left-cheek")
    page.get_by_label("Hours a day").fill("8")
    in_a_week = clinic_day(7)
    page.get_by_label("Date", exact=True).fill(in_a_week.isoformat())
    page.get_by_role("button", name="Save the change").click()
    expect(page.get_by_role("alert")).to_contain_text("Week 1 is due")
    page.get_by_role("button", name="Yes, save it").click()
    changed = page.get_by_role("region", name="What changed")
    expect(changed).to_contain_text("face down, 12 hours a day")
    expect(changed).to_contain_text("left cheek on the pillow, 8 hours a day")
    expect(changed).to_contain_text("week 1")
    phone.reload()
    ready(phone)
    told = phone.locator("#changes")
    expect(told).to_contain_text("Head position: left cheek on the pillow. Before: face down.")
    expect(told).to_contain_text("Hours a day: 8. Before: 12.")
    expect(told).to_contain_text(f"Visit week 1: {in_a_week:%A} {in_a_week.day} {in_a_week:%B}. Before:")
    phone.get_by_role("button", name="I have seen it").click()
    expect(told).to_be_hidden()
    phone.reload()
    ready(phone)
    expect(told).to_be_hidden()
    expect(phone.locator(".posture-words")).to_have_text("left cheek on the pillow")
    expect(phone.locator(".left-today")).to_contain_text("of 8")
    expect(phone.locator("#next-visit")).to_contain_text(f"{in_a_week.day} {in_a_week:%B}")


def test_a_plan_changed_back_before_it_was_seen_is_no_change(
    page: Page, phone: Page, server: RunningServer, enrolment: tuple[str, str]
) -> None:
    for position, words, shown in (("left-cheek", "left cheek", True), ("face-down", "face down", False)):
        page.goto(f"{server.address}/clinic/eyes/{enrolment[0]}/plan")
        page.get_by_label("Head position").select_option(position)
        page.get_by_role("button", name="Save the change").click()
        expect(page.get_by_role("region", name="What changed")).to_contain_text(words)
        phone.reload()
        ready(phone)
        expect(phone.locator("#changes")).to_be_visible(visible=shown)


def test_a_wish_for_another_time_reaches_the_list(page: Page, phone: Page) -> None:
    phone.get_by_role("link", name="Visits").click()
    phone.get_by_role("button", name="Ask for another time: week 1").click()
    phone.get_by_role("button", name="Ask the clinic").click()
    expect(phone.locator("#wish-error")).to_have_text("Say which days or times would suit you.")
    phone.get_by_label("Which days or times would suit you?").fill("any Friday")
    phone.get_by_role("button", name="Ask the clinic").click()
    expect(phone.locator("#visit-list")).to_contain_text("Received by the clinic")
    expect(phone.locator("#visit-list")).to_contain_text("“any Friday”")
    all_received(phone, 1)
    page.reload()
    wish = page.locator("section", has=page.get_by_role("heading", name="Patients who ask for another time"))
    expect(wish).to_contain_text("Pat Patient")
    expect(wish).to_contain_text("week 1 “any Friday”")
    wish.get_by_role("link", name="Pat Patient").click()
    expect(page.get_by_role("heading", name=re.compile("^Week 1, "))).to_be_visible()
    page.go_back()
    wish.get_by_role("link", name="The day stays").click()
    page.get_by_label("Why").fill("rang her: the day suits after all")
    page.get_by_role("button", name="Withdraw the entry").click()
    page.get_by_role("navigation", name="Pages").get_by_role("link", name="Today").click()
    expect(wish).to_have_count(0)


def test_a_callback_is_claimed_called_and_comes_to_an_extra_visit_today(
    page: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    accounts.add_staff(
        clinic_store, datetime.now(UTC), "Noah Second", "nurse", "second@test.invalid", "a long test password"
    )
    measured(clinic_store, nurse, server, enrolment[0], iop_mmhg=36)
    page.goto(f"{server.address}/clinic/callbacks")
    page.locator(".cards a", has_text="Pat Patient").first.click()
    expect(page.get_by_role("button", name="Save the call")).to_have_count(0)
    page.get_by_role("button", name="Claim: I will call").click()
    ask = page.locator("section", has=page.get_by_role("heading", name="Ask"))
    expect(ask.locator("li").first).to_be_visible()
    other = signing_in.sign_in(clinic_store, datetime.now(UTC), "second@test.invalid", "a long test password")
    (pressure,) = [c for c in worries.open_callbacks(clinic_store) if c.worry == "pressure"]
    with pytest.raises(Conflict, match="claimed by Nora Nurse"):
        holding.claim(Desk(clinic_store, datetime.now(UTC), other, ZONE), pressure.id)
    page.get_by_role("button", name="Nobody answered").click()
    expect(page.get_by_text("Not reached; next try").first).to_be_visible()
    page.get_by_label("A carer", exact=True).check()
    page.get_by_label("Seen the same day").check()
    page.get_by_label("The patient or carer knows of it from this call").check()
    page.locator(".spoken").get_by_label("What was said or done").fill("Will come at once.")
    page.get_by_role("button", name="Save the call").click()
    to_do = page.get_by_role("region", name="To do")
    expect(to_do).to_contain_text("the patient knows; to be seen today")
    expect(to_do).to_contain_text("Nora Nurse, by")
    extra, planned = visits.of_eye(clinic_store, enrolment[0])
    assert (extra.name, extra.target, planned.name) == ("extra visit", clinic_day(), "week 1")
    page.locator(".spoken").get_by_label("What was said or done").fill("Seen at noon.")
    visit.record_visit(Desk(clinic_store, datetime.now(UTC), other, ZONE), extra.eye_id, [], visit=extra.identity)
    page.get_by_role("button", name="It is done").click()
    expect(page.get_by_text("Settled: seen the same day.")).to_be_visible()
    done = page.locator("section", has=page.get_by_role("heading", name="What was done"))
    for words in (
        "claimed by Nora Nurse",
        "not reached",
        "Will come at once. (a carer)",
        "(seen the same day) Seen at noon.",
    ):
        expect(done).to_contain_text(words)
