"""A real server process on a real file, driven by a real Chromium."""

import os
import shutil
import signal
import tomllib
import urllib.request
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from multiprocessing.process import BaseProcess
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from followup.care import accounts, signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.clinical import schedule
from followup.config import Clinic, Server, Settings
from followup.records import Store, open_store
from tests.browser import served
from tests.conftest import PASSWORD, consented, free_port, operation_note, patient_details, until

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-software-rasterizer",
    "--disable-extensions",
    # The two of the address bar are pages of their own behind every window: more work than most tests.
    "--disable-features=Translate,MediaRouter,OptimizationHints,AutofillServerCommunication,WebUIOmniboxPopup,WebUIOmniboxAimPopup",
    "--mute-audio",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]
PHONE: dict[str, Any] = {
    "viewport": {"width": 360, "height": 740},
    "device_scale_factor": 2,
    "has_touch": True,
    "is_mobile": True,
}


# A slow machine takes longer; what is awaited must come all the same.
PATIENCE_MS = 15_000
expect.set_options(timeout=PATIENCE_MS)


@pytest.fixture(scope="session")
def browser_type_launch_args() -> dict[str, Any]:
    return {"executable_path": shutil.which("chromium"), "args": FLAGS}


@dataclass
class RunningServer:
    """A clinic's server that can be stopped and started again on the same database and port."""

    settings: Settings
    process: BaseProcess | None = None

    @property
    def address(self) -> str:
        return f"http://localhost:{self.settings.server.port}"

    def start(self) -> None:
        server = self.settings.server
        words = (server.database.with_suffix(".toml"), server.database, server.port)
        self.process = served.processes().Process(target=served.run, args=words)
        self.process.start()
        until(self._answers, "the server answers")

    def _answers(self) -> bool:
        assert self.process is not None
        assert self.process.is_alive(), "the server ended: whoever answers is another one"
        try:
            urllib.request.urlopen(f"{self.address}/sign-in", timeout=20).close()
        except OSError:
            return False
        return True

    def stop(self) -> None:
        """As somebody who stops it: what was asked is still answered."""
        if self.process is not None:
            self.process.terminate()
            self.process.join(20)
            self.process = None

    def kill(self) -> None:
        """As a power cut would: the parent and its workers at once."""
        if self.process is not None:
            assert self.process.pid is not None
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.join(20)
            self.process = None


def zone_at_noon() -> ZoneInfo:
    """A zone in which it is about noon: the clinic's day does not end while a test runs, at whatever hour that is."""
    ahead = 12 - datetime.now(UTC).hour
    return ZoneInfo(f"Etc/GMT{-ahead:+d}")  # these names count the other way round


ZONE = zone_at_noon()
# Open every day: on whatever day of the week a test runs, nobody is asked about a closed one.
CLINIC_TOML = f"""[clinic]
name = "Test Eye Clinic"
phone = "+00 1 234"
zone = "{ZONE.key}"
places = {{ mon = 12, tue = 12, wed = 12, thu = 12, fri = 12, sat = 12, sun = 12 }}
"""


def clinic_day(in_days: int = 0) -> date:
    """The clinic's own day, so many days from today."""
    return datetime.now(ZONE).date() + timedelta(days=in_days)


# The browser's driver cannot fill a disk: writing fails here as it does when the quota is used up.
FULL = """() => {
    const real = IDBDatabase.prototype.transaction;
    IDBDatabase.prototype.transaction = function (stores, mode, ...rest) {
        if (mode === "readwrite") throw new DOMException("full", "QuotaExceededError");
        return real.call(this, stores, mode, ...rest);
    };
}"""


def made_server(folder: Path, migrated: Path) -> RunningServer:
    """A clinic in this folder with a nurse and a surgeon; its server is not started yet."""
    database = folder / "clinic.db"
    database.with_suffix(".toml").write_text(CLINIC_TOML, encoding="utf-8")
    clinic = Clinic(**tomllib.loads(CLINIC_TOML)["clinic"])
    made = RunningServer(Settings(clinic=clinic, server=Server(database=database, port=free_port(), secure_cookies=False)))
    shutil.copy(migrated, database)
    store = open_store(database)
    now = datetime.now(UTC)
    accounts.add_staff(store, now, "Nora Nurse", "nurse", "nurse@test.invalid", PASSWORD)
    accounts.add_staff(store, now, "Sol Surgeon", "surgeon", "surgeon@test.invalid", PASSWORD)
    store.close()
    return made


@pytest.fixture
def server(tmp_path: Path, migrated: Path) -> Iterator[RunningServer]:
    made = made_server(tmp_path, migrated)
    made.start()
    yield made
    made.kill()


@pytest.fixture
def clinic_store(server: RunningServer) -> Iterator[Store]:
    """The server's own file, opened beside it."""
    made = open_store(server.settings.server.database)
    yield made
    made.close()


@pytest.fixture
def nurse(clinic_store: Store) -> Actor:
    return signing_in.sign_in(clinic_store, datetime.now(UTC), "nurse@test.invalid", PASSWORD)


@pytest.fixture
def enrolment(server: RunningServer, clinic_store: Store, nurse: Actor) -> tuple[str, str]:
    """(operation id, code) of a patient operated yesterday."""
    now = datetime.now(UTC)
    tomorrow = clinic_day(1)
    visits = [schedule.Window("week 1", tomorrow, tomorrow, tomorrow + timedelta(days=3), "retina")]
    drops = [{"name": "antibiotic", "times_a_day": 4, "until": tomorrow + timedelta(days=5)}]
    note = operation_note(
        operated_at=now - timedelta(days=1), drops=drops, steroid_drops_until=tomorrow + timedelta(days=20)
    )
    desk = Desk(clinic_store, now, nurse, server.settings.clinic.tz)
    return consented(desk, leaving.discharge(desk, patient_details(), note, visits))


@pytest.fixture
def open_context(browser: Browser) -> Iterator[Callable[..., BrowserContext]]:
    """Make browser contexts that are closed at the end, and fail on any script error.

    A page that prints itself would print while a test makes its PDF: here it only counts how often it was asked to.
    """
    made: list[BrowserContext] = []
    errors: list[str] = []

    def make(**options: Any) -> BrowserContext:
        context = browser.new_context(**{"timezone_id": ZONE.key, **options})
        context.set_default_timeout(PATIENCE_MS)
        context.add_init_script("window.timesPrinted = 0; window.print = () => { window.timesPrinted += 1; };")
        context.on("weberror", lambda error: errors.append(str(error.error)))
        made.append(context)
        return context

    yield make
    for context in made:
        context.close()
    assert errors == []


@pytest.fixture
def phone(open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]) -> Page:
    """The patient's phone, enrolled, on its first page, ready to work offline."""
    page = open_context(**PHONE).new_page()
    enrol(page, server, enrolment[1])
    return page


def enrol(
    page: Page, server: RunningServer, code: str, used_by: str = "The patient", *, wait_for_worker: bool = True
) -> None:
    page.goto(f"{server.address}/enrol?code={code}")
    page.get_by_label("Year of birth").fill("1952")
    page.get_by_label(used_by).check()
    page.get_by_role("button", name="Set up").click()
    page.wait_for_url("**/me/**")
    ready(page)
    if wait_for_worker:
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")


def enrol_through(page: Page, address: str, code: str) -> None:
    """As `enrol`, by another address than the server's own."""
    page.goto(f"{address}/enrol?code={code}")
    page.get_by_label("Year of birth").fill("1952")
    page.get_by_role("button", name="Set up").click()
    page.wait_for_url("**/me/**")
    ready(page)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")


def ready(page: Page) -> None:
    page.wait_for_selector("html[data-ready=yes]")


def go(phone: Page, view: str) -> None:
    """To another part of the phone's page, as its links do."""
    phone.evaluate("view => { location.hash = view; }", view)


def all_received(phone: Page, count: int) -> None:
    """The clinic has confirmed that many entries of the phone."""
    go(phone, "more")
    expect(phone.locator("#entries li", has_text="Received by the clinic")).to_have_count(count)


DRAFT_KEPT = """async (words) => {
    const { openDatabase, readFact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    const draft = await readFact(database, "draft");
    database.close();
    return draft?.words === words;
}"""


def draft_kept(phone: Page, words: str) -> None:
    """What is half typed on the page of the check, up to these words, is in the phone's store."""
    until(lambda: phone.evaluate(DRAFT_KEPT, words), "the draft is kept")


def sign_in(page: Page, server: RunningServer, email: str) -> None:
    page.goto(f"{server.address}/sign-in")
    page.get_by_label("E-mail").fill(email)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(lambda address: "/sign-in" not in address)
