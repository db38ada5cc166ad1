"""The staff's pages: no violation of WCAG 2.2 AA (axe), no sideways scrolling from 360 px up, on every page; its
contrast in dark too."""

from collections.abc import Callable
from datetime import UTC, datetime

from playwright.sync_api import BrowserContext, Page

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.records import Store, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.browser import axe
from tests.browser.conftest import RunningServer, sign_in
from tests.conftest import PASSWORD

AXE = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}}
CONTRAST = {"runOnly": {"type": "rule", "values": ["color-contrast"]}}


def faults_of(page: Page, name: str) -> list[str]:
    page.wait_for_load_state("load")  # before its style sheets are there, everything is too small
    for details in page.locator("details").all():
        details.evaluate("e => { e.open = true; }")
    found = axe.violations(page, AXE)
    page.emulate_media(color_scheme="dark")
    found += axe.violations(page, CONTRAST)
    page.emulate_media(color_scheme="light")
    faults = [f"{name}: {fault}" for fault in found]
    for width in (360, 768, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            faults.append(f"{name}: wider than {width} px")
    return faults


def test_no_violation_on_any_staff_page(
    open_context: Callable[..., BrowserContext],
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
    nurse: Actor,
) -> None:
    eye = enrolment[0]
    bodies = [MeasuresBody(eye="right", acuity="6/60", iop_mmhg=36, instrument="applanation", bubble_percent=80)]
    visit.record_visit(Desk(clinic_store, datetime.now(UTC), nurse, server.settings.clinic.tz), eye, bodies)
    (planned,) = visits.of_eye(clinic_store, eye)
    call = worries.open_callbacks(clinic_store)[0].id
    page = open_context(viewport={"width": 1280, "height": 800}).new_page()
    sign_in(page, server, "surgeon@test.invalid")
    page.wait_for_selector("html[data-device=ready]")
    faults = []
    for path in (
        "/surgeon/",
        "/surgeon/results",
        "/clinic/",
        "/clinic/callbacks",
        "/clinic/handover",
        f"/clinic/callbacks/{call}",
        f"/clinic/eyes/{eye}",
        f"/clinic/eyes/{eye}/visit",
        f"/clinic/eyes/{eye}/plan",
        f"/clinic/eyes/{eye}/card",
        f"/clinic/visits/{planned.identity}",
        f"/clinic/eyes/{eye}/visits/new",
        f"/clinic/eyes/{eye}/walk-in",
        "/clinic/?show=coming",
        "/clinic/close-day",
        f"/clinic/close-day?day={planned.target.isoformat()}",
        "/clinic/discharge",
        "/surgeon/protocols",
        "/surgeon/protocols/rulebook",
        "/surgeon/protocols/postures/text",
        "/how-this-is-worked-out",
        f"/clinic/eyes/{eye}/diary",
        f"/clinic/eyes/{eye}/diary-page",
        "/my-messages",
    ):
        page.goto(f"{server.address}{path}")
        faults += faults_of(page, path)
    page.goto(f"{server.address}/clinic/callbacks/{call}")
    page.get_by_role("button", name="Claim: I will call").click()
    faults += faults_of(page, "a claimed callback")
    page.goto(f"{server.address}/going-home")
    faults += faults_of(page, "what is in somebody's hands")
    page.goto(f"{server.address}/clinic/without-signal")
    page.wait_for_selector("html[data-ready=yes]")
    faults += faults_of(page, "locked without a signal")
    page.get_by_label("Password of whoever signed in on this device").fill(PASSWORD)
    page.get_by_role("button", name="Open").click()
    page.locator("#list").wait_for()
    faults += faults_of(page, "the list without a signal")
    page.get_by_role("link", name="Enter visit: Pat Patient").first.click()
    page.locator("#entry").wait_for()
    faults += faults_of(page, "the entry screen without a signal")
    assert faults == []
