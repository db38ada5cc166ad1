"""A patient whose eyes are operated again and again, from the nurse's pages and the phone. Common practice, no source."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.reading.eye import load
from followup.clinical import schedule
from followup.records import Store, eyes
from tests.browser.conftest import RunningServer, clinic_day, ready, sign_in
from tests.conftest import operation_note, patient_details

WIDTHS = [390, 820, 1280]


@pytest.fixture
def desk(open_context: Callable[..., BrowserContext], server: RunningServer) -> Page:
    page = open_context(viewport={"width": 1280, "height": 900}).new_page()
    sign_in(page, server, "nurse@test.invalid")
    return page


@pytest.fixture
def theatre(open_context: Callable[..., BrowserContext], server: RunningServer) -> Page:
    """Where the surgeon is signed in."""
    page = open_context(viewport={"width": 1280, "height": 900}).new_page()
    sign_in(page, server, "surgeon@test.invalid")
    return page


@pytest.fixture
def oil(clinic_store: Store, nurse: Actor, server: RunningServer, enrolment: tuple[str, str]) -> str:
    """Oil put into the left eye three weeks ago, its removal planned."""
    now = datetime.now(UTC)
    day = clinic_day(60)
    window = schedule.Window("list for oil removal", day, day, day + timedelta(days=14), "plan removal")
    at = now - timedelta(hours=20)
    note = operation_note(eye="left", operated_at=at, agent="silicone-oil", percent=0, steroid_drops_until=None)
    return leaving.discharge(Desk(clinic_store, now, nurse, server.settings.clinic.tz), patient_details(), note, [window])[0]  # fmt: skip


def test_gas_oil_again_the_end_and_what_is_put_right(
    desk: Page, theatre: Page, phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], oil: str
) -> None:
    zone = server.settings.clinic.tz
    desk.goto(f"{server.address}/clinic/?find=876")
    desk.get_by_role("link", name="Pat Patient", exact=True).click()
    right, left = desk.locator("#right"), desk.locator("#left")
    expect(right).to_contain_text("Gas in the eye")
    expect(left).to_contain_text("Silicone oil in the eye")
    planned = left.locator(".visits")
    expect(planned).to_contain_text("list for oil removal")

    # The oil is taken out: one tap to the eye, one more.
    left.get_by_role("link", name="Picture").click()
    desk.get_by_role("button", name="Oil was taken out").click()
    expect(desk.get_by_role("button", name="Oil was taken out")).to_have_count(0)
    desk.get_by_role("link", name="Both eyes").click()
    expect(left).to_contain_text("the oil was taken out")
    expect(planned).not_to_contain_text("list for oil removal")
    expect(left).to_contain_text("the oil was taken out, by Nora Nurse")  # cancelled, and says why
    expect(right).to_contain_text("Gas in the eye")

    # The right eye is operated again: the person and the eye stand in the form.
    right.get_by_role("link", name="Discharge after a new operation").click()
    expect(desk.locator(".who-strip")).to_contain_text("Pat Patient")
    expect(desk.get_by_label("Hospital number")).to_have_value("T-1")
    expect(desk.get_by_role("radio", name="Right")).to_be_checked()
    desk.get_by_label("The phone pages, on the patient’s own phone").check()
    yesterday = datetime.now(zone) - timedelta(hours=1)
    desk.get_by_label("Date of surgery").fill(yesterday.date().isoformat())
    desk.get_by_label("Time", exact=True).fill("09:30")
    desk.get_by_label("Time", exact=True).fill(f"{yesterday:%H:%M}")
    desk.get_by_label("Indication").select_option("retinal-detachment")
    desk.get_by_label("Lens").select_option("pseudophakic")
    desk.get_by_label("Left in the eye").select_option("sf6")
    desk.get_by_label("Concentration, %").fill("20")
    desk.get_by_label("Fill at the end of surgery, %").fill("90")
    desk.get_by_role("button", name="Propose a plan").click()
    desk.get_by_role("button", name="Confirm and print the card").click()
    expect(desk.locator(".card")).to_contain_text("SF6")
    desk.get_by_role("link", name="Back to the eye").click()
    expect(desk.locator("line.operation")).to_have_count(2 * 4)  # in each panel
    expect(desk.locator("main")).to_contain_text("operation 2 on this eye")
    eye = load(clinic_store, enrolment[0], zone)
    assert [n.agent for n in eye.notes] == ["c2f6", "sf6"]

    # Follow-up ends: the phone says so, whom to call, and that gas is still there.
    desk.get_by_role("link", name="Both eyes").click()
    for side in (right, left):
        side.get_by_role("link", name="End follow-up").click()
        desk.get_by_label("Another clinic follows the eye").check()
        desk.get_by_role("button", name="End follow-up").click()
        expect(side).to_contain_text("Follow-up ended")
    phone.goto(f"{server.address}/me/")
    ended = phone.locator("#ended")
    expect(ended).to_contain_text("The clinic has ended your follow-up")
    expect(ended).to_contain_text("Do not fly")
    expect(ended.get_by_role("link", name="Call the clinic")).to_be_visible()
    expect(phone.locator("#not-enrolled")).to_be_hidden()
    desk.goto(f"{server.address}/clinic/")
    expect(desk.locator("main")).not_to_contain_text("Pat Patient")

    # It is found and taken up again, and the phone works as before.
    desk.get_by_label("Find by name").fill("pat pat")
    desk.get_by_role("button", name="Find").click()
    expect(desk.locator("main")).to_contain_text("not followed now")
    desk.get_by_role("link", name="Pat Patient", exact=True).click()
    right.get_by_label("Why follow-up is taken up again").fill("came back")
    right.get_by_role("button", name="Take up follow-up").click()
    expect(right.get_by_role("link", name="End follow-up")).to_be_visible()
    phone.reload()
    expect(phone.locator("#now")).to_be_visible()
    expect(phone.locator("#ended-beside")).to_contain_text("left eye")
    expect(phone.locator("#gas-card")).to_be_visible()

    # A pressure typed the wrong way round is put right, and the picture shows what was measured.
    with desk.expect_navigation():
        right.get_by_role("link", name="Picture").click()
    eye_page = desk.url
    desk.goto(f"{eye_page}/visit")
    desk.get_by_label("Visit", exact=True).select_option("")
    desk.locator("#right-iop").fill("61")
    desk.get_by_role("button", name="Save").click()
    desk.get_by_label("Yes, that is right").check()
    desk.get_by_role("button", name="Save").click()
    expect(desk.get_by_text("Pressure 61 mmHg, at or above 40.")).to_be_visible()
    desk.goto(eye_page)
    desk.locator(".entries > li", has_text="pressure 61 mmHg").get_by_role("link", name="Correct").click()
    desk.get_by_label("Pressure, mmHg").fill("16")
    desk.get_by_label("Why it is put right").fill("typed the wrong way round")
    desk.get_by_role("button", name="Save what is right").click()
    expect(desk.get_by_role("heading", name="Rested on this entry, and no longer does")).to_be_visible()
    desk.goto(eye_page)
    expect(desk.locator(".course")).not_to_contain_text("pressure 61 mmHg")
    expect(desk.locator(".course")).to_contain_text("pressure 16 mmHg")

    # A surgeon saw no gas; a level seen later brings the caution back, on the eye's page, the phone and the card.
    theatre.goto(eye_page)
    theatre.get_by_role("link", name="No gas seen").click()
    theatre.get_by_role("button", name="I looked at the retina myself").click()
    expect(theatre.get_by_text("Gas in the eye (")).to_be_hidden()
    phone.reload()
    ready(phone)
    expect(phone.locator("#gas-card")).to_be_hidden()
    desk.goto(f"{eye_page}/visit")
    desk.get_by_label("Visit", exact=True).select_option("")
    desk.locator("#right-bubble_percent").fill("85")
    desk.get_by_role("button", name="Save").click()
    expect(desk.get_by_role("heading", name="Saved")).to_be_visible()
    desk.goto(eye_page)
    expect(desk.locator("main")).to_contain_text("Gas was seen again")
    phone.reload()
    ready(phone)
    expect(phone.locator("#gas-card")).to_be_visible()
    desk.goto(f"{eye_page}/card")
    expect(desk.locator(".card")).to_contain_text("a card without this warning is wrong")


# At the end of the page the strip is in view, and whatever then takes the focus is scrolled to where the strip leaves it free.
COVERED = """() => {
    const strip = document.querySelector(".who-strip");
    const faults = document.documentElement.scrollWidth > innerWidth ? ["wider than the screen"] : [];
    scrollTo(0, document.body.scrollHeight);
    if (strip.getBoundingClientRect().top < 0) faults.push("out of view");
    for (const e of document.querySelectorAll("main a, main input, main select, main button")) {
        if (e.disabled || strip.contains(e) || !e.getClientRects().length) continue;
        scrollTo(0, document.body.scrollHeight);
        e.focus();
        const [place, over] = [e.getBoundingClientRect(), strip.getBoundingClientRect()];
        if (place.top < over.bottom - 1 && place.bottom > over.top) faults.push(e.outerHTML.slice(0, 120));
    }
    return faults;
}"""


@pytest.mark.parametrize("width", WIDTHS)
def test_the_strip_stays_in_view_and_covers_nothing(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store, enrolment: tuple[str, str],
    oil: str, width: int,
) -> None:  # fmt: skip
    page = open_context(viewport={"width": width, "height": 700}).new_page()
    sign_in(page, server, "nurse@test.invalid")
    person = next(iter(eyes.followed(clinic_store))).patient.id
    for address in (
        f"patients/{person}", f"eyes/{oil}", f"eyes/{oil}/visit", f"eyes/{oil}/plan", f"eyes/{oil}/end",
        f"discharge?patient={person}&eye=right", f"patients/{person}/join",
    ):  # fmt: skip
        page.goto(f"{server.address}/clinic/{address}")
        assert page.evaluate(COVERED) == [], address
