"""Every page of the staff's: no violation of WCAG 2.2 up to AAA (axe), in light and in dark; what is pressed is 44 px, in
dense tables 24 px; and no sideways scrolling from 360 px up."""

from collections.abc import Callable
from datetime import UTC, datetime
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, Page
from werkzeug.exceptions import HTTPException

from followup.care.actors import Actor
from followup.care.corrections import correcting
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.records import Store, events, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.web import create_app
from followup.web.routes import ROUTES
from tests.browser import axe
from tests.browser.conftest import RunningServer, sign_in
from tests.conftest import PASSWORD

# What is no page but a file, and what a page asks for by itself.
FILES = {
    "administrator.audit_csv",
    "clinic.record_for_programs",
    "clinic.record_to_read",
    "clinic_api.followed",
    "clinic_api.sheet",
    "surgeon.export_tables",
    "surgeon.results_table",
}
# Where browsers allow passkeys, and somebody has one: test_passkeys.py looks at these.
PASSKEYS = {"account.new_passkey", "account.rename_passkey", "account.ask_for_passkey"}
LINKS = "links => links.map((link) => link.getAttribute('href')).filter((address) => address.startsWith('/'))"


def faults_of(page: Page, name: str) -> list[str]:
    page.wait_for_load_state("load")  # before its style sheets are there, everything is too small
    page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })")
    faults = axe.violations_in_both(page) + axe.too_small(page)
    for width in (360, 768, 1280):
        page.set_viewport_size({"width": width, "height": 800})
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            faults.append(f"wider than {width} px")
    return [f"{name}: {fault}" for fault in faults]


def walk(page: Page, server: RunningServer, store: Store, role: str, first: list[str]) -> list[str]:
    """The faults of the pages of `first` and of one of each kind that links lead to; a kind that none leads to is one too."""
    routes = create_app(server.settings, store).url_map.bind("localhost")
    seen: set[str] = set()
    faults: list[str] = []
    coming = list(first)
    for n, path in enumerate(coming):  # it grows
        try:
            endpoint, _ = routes.match(urlsplit(path).path)
        except HTTPException:
            continue  # nothing to open: a button's address
        read = ROUTES[endpoint].read
        if endpoint in FILES or not isinstance(read, frozenset) or role not in read:
            continue
        if endpoint in seen and n >= len(first):
            continue
        page.goto(f"{server.address}{path}")
        seen.add(routes.match(urlsplit(page.url).path)[0])
        faults += faults_of(page, path)
        coming += page.locator("a[href]").evaluate_all(LINKS)
    known = {name for name, route in ROUTES.items() if isinstance(route.read, frozenset) and role in route.read}
    return [*faults, *(f"no link leads to {name}" for name in sorted(known - FILES - PASSKEYS - seen))]


def test_no_violation_on_any_staff_page(
    open_context: Callable[..., BrowserContext],
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
    nurse: Actor,
) -> None:
    eye = enrolment[0]
    bodies = [MeasuresBody(eye="right", acuity="6/60", iop_mmhg=36, instrument="applanation", bubble_percent=80)]
    desk = Desk(clinic_store, datetime.now(UTC), nurse, server.settings.clinic.tz)
    visit.record_visit(desk, eye, bodies)
    visit.record_visit(desk, eye, [MeasuresBody(eye="right", iop_mmhg=16, instrument="applanation")])
    slip = [event for event in events.of_eye(clinic_store, eye) if event.kind == "measures"][-1]
    correcting.correct(desk, slip.id, MeasuresBody(eye="right", iop_mmhg=17, instrument="applanation"), "misread")
    (planned,) = visits.of_eye(clinic_store, eye)
    call = worries.open_callbacks(clinic_store)[0].id
    page = open_context(viewport={"width": 1280, "height": 800}).new_page()
    sign_in(page, server, "surgeon@test.invalid")
    page.wait_for_selector("html[data-device=ready]")
    first = [
        "/surgeon/",
        "/clinic/?show=coming",
        "/clinic/nothing-planned",
        "/clinic/to-tell",
        f"/clinic/close-day?day={planned.target.isoformat()}",
        f"/clinic/eyes/{eye}",
        f"/clinic/eyes/{eye}/visit/saved",
        f"/clinic/entries/{slip.id}/put-right",
        f"/clinic/eyes/{eye}/diary",
        f"/clinic/eyes/{eye}/diary-page",
        "/my-account/no-second-factor",
    ]
    faults = walk(page, server, clinic_store, "surgeon", first)
    page.goto(f"{server.address}/clinic/callbacks/{call}")
    page.get_by_role("button", name="Claim: I will call").click()
    page.get_by_role("button", name="Claim: I will call").wait_for(state="detached")
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
