"""The three pictures of README.md, taken of the invented clinic: python -m demo_db.pictures

Needs the tests' extras and Chromium. Each picture is a small WebP, which a test holds to its size.
"""

import io
import logging
import sys
import tempfile
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

from PIL import Image
from playwright.sync_api import Page, ViewportSize, sync_playwright
from werkzeug.serving import make_server

from demo_db import build, data
from followup import jobs
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.records import Store, events, eyes, patients
from followup.records.values import Eye
from followup.web import create_app

FOLDER = Path(__file__).parent.parent / ".pictures"
PHONE: ViewportSize = {"width": 390, "height": 760}
DESK: ViewportSize = {"width": 1180, "height": 820}
LARGEST_BYTES = 60_000


def main() -> int:
    with tempfile.TemporaryDirectory() as folder:
        made = build.settings(Path(folder), port=0)
        store = build.ensure(made, datetime.now(UTC))
        for job in jobs.JOBS:
            jobs.run(store, made, job, datetime.now(UTC))
        logging.getLogger("werkzeug").setLevel(logging.ERROR)
        server = make_server("127.0.0.1", 0, create_app(made, store), threaded=True)
        Thread(target=server.serve_forever, daemon=True).start()
        address = f"http://127.0.0.1:{server.port}"
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
            try:
                _keep("phone", _phone(browser.new_page(viewport=PHONE), address, store))
                page = browser.new_page(viewport=DESK)
                _sign_in(page, address)
                _keep("today", page.screenshot())
                page.goto(f"{address}/clinic/eyes/{_shown(store)}")
                page.locator("svg").first.scroll_into_view_if_needed()
                _keep("eye", page.screenshot())
            finally:
                browser.close()
        server.shutdown()
    return 0


def _shown(store: Store) -> str:
    """The eye of which most was seen while gas was in it."""

    def levels(eye: Eye) -> int:
        return sum(getattr(e.body, "bubble_percent", None) is not None for e in events.of_eye(store, eye.id))

    return max(eyes.followed(store), key=lambda eye: (levels(eye), eye.id)).id


def _phone(page: Page, address: str, store: Store) -> bytes:
    """What a patient sees first, on a phone that was just set up."""
    first = data.eyes()[0]
    known = patients.by_number(store, first.number)
    assert known is not None
    code = enrol.issue_code(Desk(store, datetime.now(UTC), build.NOBODY, build.settings(Path()).clinic.tz), known.id)
    page.goto(f"{address}/enrol?code={code}")
    page.get_by_label("Year of birth").fill(str(first.born.year))
    page.get_by_role("button", name="Set up").click()
    page.wait_for_url(f"{address}/me/**")
    page.wait_for_load_state("networkidle")
    return page.screenshot()


def _sign_in(page: Page, address: str) -> None:
    nurse = next(person for person in data.clinic().staff if person.role == "nurse")
    page.goto(f"{address}/sign-in")
    page.get_by_label("E-mail").fill(nurse.email)
    page.get_by_label("Password").fill(nurse.password)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url(f"{address}/clinic/")


def _keep(name: str, shot: bytes) -> None:
    """As good as fits."""
    FOLDER.mkdir(exist_ok=True)
    for quality in range(85, 20, -10):
        out = io.BytesIO()
        Image.open(io.BytesIO(shot)).save(out, "WEBP", quality=quality, method=6)
        if out.tell() < LARGEST_BYTES:
            break
    (FOLDER / f"{name}.webp").write_bytes(out.getvalue())
    print(f"{name}.webp: {out.tell()} bytes")


if __name__ == "__main__":
    sys.exit(main())
