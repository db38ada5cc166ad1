"""Somebody with oil in the eye: pages about oil, with when its removal is planned, and nothing about a bubble."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.visits.visit import REMOVAL_VISIT
from followup.clinical import schedule
from followup.records import Store
from tests.browser.conftest import PHONE, ZONE, RunningServer, clinic_day, enrol
from tests.conftest import consented, operation_note, patient_details


def test_pages_fit_oil(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store, nurse: Actor
) -> None:
    now = datetime.now(UTC)
    day = clinic_day(80)
    visits = [schedule.Window(REMOVAL_VISIT, day, day, day + timedelta(days=14), "retina")]
    note = operation_note(operated_at=now - timedelta(days=1), agent="silicone-oil", percent=0)
    desk = Desk(clinic_store, now, nurse, ZONE)
    _, code = consented(desk, leaving.discharge(desk, patient_details(), note, visits))
    phone = open_context(**PHONE).new_page()
    enrol(phone, server, code)
    phone.get_by_role("link", name="Oil").click()
    expect(phone.get_by_role("heading", name="The oil")).to_be_visible()
    expect(phone.locator("#oil")).to_contain_text("An operation takes it out.")
    expect(phone.locator("#oil-removal")).to_contain_text(f"{day.day} {day:%B}")
    expect(phone.get_by_text("There is no gas bubble to follow.")).to_be_hidden()
    expect(phone.locator("#bubble-card")).to_be_hidden()


def test_an_eye_with_gas_has_its_bubble(phone: Page) -> None:
    phone.get_by_role("link", name="Bubble").click()
    expect(phone.locator("#oil")).to_be_hidden()
    expect(phone.locator("#bubble-card")).to_be_visible()
