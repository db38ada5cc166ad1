"""The list of the day on a tablet: forty patients on one screen, in place, and on one printed page."""

import re
from collections.abc import Callable
from datetime import UTC, datetime, time, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care import signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import Patient
from followup.care.learning import signing
from followup.care.reading.eye import protocol
from followup.care.today import arrivals
from followup.care.visits import visit
from followup.clinical import schedule
from followup.records import Store, visits
from followup.records.bodies.clinic import MeasuresBody
from followup.records.operation_note import OperationNote
from tests.browser.conftest import ZONE, RunningServer, clinic_day, sign_in
from tests.browser.keys import Person
from tests.conftest import PASSWORD, operation_note

FORTY = 40
NAMES = ("Abel Aumann", "Berta Birkenfeld", "Carla Castellanos", "Dorian Dahlgren-Ruiz", "Edda Eberhardinger")
AGENTS = (("sf6", 20.0), ("c3f8", 14.0), ("silicone-oil", 0.0), ("c2f6", 16.0), ("air", 100.0))


def fill(store: Store, nurse: Actor, count: int = FORTY) -> list[str]:
    """So many patients with a visit today; returns their eyes."""
    now, today = datetime.now(UTC), clinic_day()
    desk = Desk(store, now, nurse, ZONE)
    made = []
    with store.transaction():
        for n in range(count):
            agent, percent = AGENTS[n % 5]
            note: OperationNote = operation_note(
                operated_at=now - timedelta(days=8), agent=agent, percent=percent, fill_percent=90, risks=[],
                eye=("right", "left")[n % 2], steroid_drops_until=today + timedelta(days=20),
            )  # fmt: skip
            person = Patient(number=f"W-{2000 + n}", name=f"{NAMES[n % 5]} {n}", born_on=today.replace(year=1940 + n % 40))
            window = schedule.Window("week 1", today, today - timedelta(days=2), today + timedelta(days=4), "retina")
            made.append(leaving.discharge(desk, person, note, [window])[0])
    return made


@pytest.fixture
def surgeon_signed(clinic_store: Store) -> None:
    """A clinic whose protocols are signed, as in daily work."""
    surgeon = signing_in.sign_in(clinic_store, datetime.now(UTC), "surgeon@test.invalid", PASSWORD)
    desk = Desk(clinic_store, datetime.now(UTC), surgeon, ZONE)
    for part in ("rulebook", "reviews", "postures"):
        signing.sign(desk, part, protocol(clinic_store, part).fingerprint)


@pytest.fixture
def tablet(open_context: Callable[..., BrowserContext], server: RunningServer) -> Page:
    made = open_context(viewport={"width": 820, "height": 1180}).new_page()
    sign_in(made, server, "nurse@test.invalid")
    return made


def go_on(store: Store, nurse: Actor, eyes: list[str]) -> None:
    """Halfway through the day: some are here, some were seen, some have a sign that calls for somebody."""
    desk = Desk(store, datetime.now(UTC), nurse, ZONE)
    with store.transaction():
        for n, eye in enumerate(eyes):
            (planned,) = visits.of_eye(store, eye)
            body = MeasuresBody(eye=("right", "left")[n % 2], iop_mmhg=44 if n % 3 else 15, instrument="applanation")
            if n % 4 == 0:
                visit.record_visit(desk, eye, [body], visit=planned.identity)
            elif n % 4 == 1:
                arrivals.arrive(desk, eye, planned.identity)
                visit.record_visit(desk, eye, [body])


def keep_times(server: RunningServer) -> None:
    """The clinic gives each visit a time from now on."""
    server.stop()
    config = server.settings.server.database.with_suffix(".toml")
    config.write_text(config.read_text(encoding="utf-8") + "appointment_times = true\n", encoding="utf-8")
    server.start()


def test_forty_patients_are_on_one_screen_of_a_tablet_and_on_one_page(
    tablet: Page, server: RunningServer, clinic_store: Store, nurse: Actor, surgeon_signed: None
) -> None:
    """With times, which is the fullest line."""
    keep_times(server)
    made = fill(clinic_store, nurse)
    with clinic_store.transaction():
        for n, eye in enumerate(made):
            (planned,) = visits.of_eye(clinic_store, eye)
            starts = time(8 + n // 6, n % 6 * 10)
            visits.change(clinic_store, datetime.now(UTC), planned, nurse.signature, "", starts=starts)
    go_on(clinic_store, nurse, made)
    tablet.reload()
    lines = tablet.locator("#day tr[id]")
    expect(lines).to_have_count(FORTY)
    shown = lines.locator(".when").all_inner_texts()
    assert shown == sorted(shown)
    last = lines.last.bounding_box()
    assert last
    notices = tablet.locator("aside").bounding_box()  # here nobody runs the clock, which is said above the page
    assert notices
    assert last["y"] + last["height"] - notices["height"] <= 1180
    assert tablet.evaluate("document.documentElement.scrollWidth") <= 820
    assert len(re.findall(rb"/Type\s*/Page[^s]", tablet.pdf(format="A4", prefer_css_page_size=True))) == 1


def test_who_came_is_said_in_place_and_taken_back_in_place(tablet: Page, clinic_store: Store, nurse: Actor) -> None:
    fill(clinic_store, nurse)
    tablet.set_viewport_size({"width": 820, "height": 600})
    tablet.reload()
    line = tablet.locator("#day tr[id]").nth(30)
    line.scroll_into_view_if_needed()
    before = tablet.evaluate("scrollY")
    assert before > 200
    line.get_by_role("button", name="Arrived").click()
    expect(line.get_by_role("button", name="Undo")).to_be_focused()
    expect(tablet.get_by_role("link", name="Here 1")).to_be_visible()
    assert tablet.evaluate("scrollY") == before
    line.get_by_role("button", name="Undo").click()
    expect(line.get_by_role("button", name="Arrived")).to_be_focused()
    assert tablet.evaluate("scrollY") == before
    name = line.get_by_role("rowheader").inner_text()
    line.get_by_role("link", name=name).click()
    expect(tablet.get_by_role("heading", level=1)).to_contain_text(name)
    tablet.get_by_role("link", name="Today").click()
    expect(line).to_be_in_viewport()


def test_filters_show_who_is_here_and_are_remembered_for_the_day(tablet: Page, clinic_store: Store, nurse: Actor) -> None:
    eyes = fill(clinic_store, nurse, 8)
    go_on(clinic_store, nurse, eyes)
    tablet.reload()
    lines = tablet.locator(".today-list tbody tr[id]")
    for name, count in (
        ("All of today 8", 8),
        ("Here 2", 2),
        ("Seen 2", 2),
        ("Due 4", 4),
        ("Did not come 0", 0),
        ("Coming 0", 0),
    ):
        tablet.get_by_role("link", name=name).click()
        expect(lines).to_have_count(count)
    tablet.get_by_role("link", name="Here 2").click()
    lines.first.get_by_role("button", name="Undo").click()
    expect(lines).to_have_count(1)  # who is not here leaves what is shown, and nothing is sent twice
    expect(tablet.get_by_role("link", name="Here 1")).to_be_visible()
    expect(tablet.get_by_role("link", name="Due 5")).to_be_visible()
    signs = tablet.get_by_role("link", name="With a sign")
    signs.click()
    expect(signs).to_have_attribute("aria-current", "true")
    expect(lines.first.locator(".sign")).to_contain_text("▲")
    shown = lines.count()
    assert 0 < shown < 8
    tablet.get_by_role("link", name="Callbacks").click()
    tablet.get_by_role("link", name="Today", exact=True).click()
    expect(lines).to_have_count(shown)


def test_rebooking_takes_two_presses_and_no_key(tablet: Page, clinic_store: Store, nurse: Actor) -> None:
    (eye,) = fill(clinic_store, nurse, 1)
    before = visits.of_eye(clinic_store, eye)[0]
    tablet.reload()
    person = Person(tablet)
    person.click(tablet.locator("#day").get_by_role("link", name="week 1"))
    days = tablet.get_by_role("group", name="Days").get_by_role("button")
    expect(days.first).to_contain_text("booked")
    person.click(days.first)
    expect(tablet.get_by_role("status")).to_contain_text("week 1 is now on")
    print(f"\nrebooking: {person.keys} keys, {person.clicks} clicks, 2 screens, about {person.seconds:.0f} s")
    assert (person.keys, person.clicks) == (0, 2)
    moved = visits.of_eye(clinic_store, eye)[0]
    assert before.latest >= moved.target > before.target
    tablet.get_by_role("button", name="Undo").click()
    expect(tablet.locator("#day")).to_contain_text("week 1")
    assert visits.of_eye(clinic_store, eye)[0].target == before.target


def test_a_day_is_closed_with_real_presses_and_its_patients_are_to_be_told(
    tablet: Page, clinic_store: Store, nurse: Actor
) -> None:
    fill(clinic_store, nurse, 3)
    tablet.reload()
    tablet.get_by_role("link", name="Close a day").click()
    tablet.get_by_label("Another day").fill(clinic_day().isoformat())
    tablet.get_by_role("button", name="Show").click()
    expect(tablet.get_by_label("Why the clinic is closed")).to_be_focused()
    tablet.keyboard.type("the lift is out of order")
    tablet.get_by_role("button", name="Close the day and move the visits").click()
    expect(tablet.get_by_role("status")).to_contain_text("3 visits moved")
    tablet.get_by_role("link", name="Today", exact=True).click()
    tablet.get_by_text("3 patients to be told of another day").click()
    tablet.locator("#to-tell").get_by_role("button", name="Told").first.click()
    expect(tablet.get_by_text("2 patients to be told of another day")).to_be_visible()
