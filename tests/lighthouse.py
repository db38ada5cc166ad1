"""Lighthouse's figures for the patient's page, on a phone that is not set up and on one that is: python -m tests.lighthouse

By hand, on a machine that does nothing else: its figure for speed is about the machine too. Needs `lighthouse` (a Node
package; nothing here installs it) and `chromium` on the PATH. Exit code 1 where a figure is under 100.
"""

import json
import logging
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from threading import Thread

from playwright.sync_api import sync_playwright
from werkzeug.serving import make_server

from demo_db import build, data
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.records import patients
from followup.web import create_app

CATEGORIES = ("performance", "accessibility", "best-practices")


def main() -> int:
    tool, browser = shutil.which("lighthouse"), shutil.which("chromium")
    if tool is None or browser is None:
        missing = " and ".join(name for name, found in (("lighthouse", tool), ("chromium", browser)) if found is None)
        print(f"Nothing was measured: {missing} is not on the PATH.", file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as folder, _demo(Path(folder)) as (address, code, born):
        phones = {"not set up": Path(folder, "fresh"), "set up": Path(folder, "set-up")}
        _set_up(browser, phones["set up"], f"{address}/enrol?code={code}", born)
        found = {name: _measured(tool, browser, profile, f"{address}/me/") for name, profile in phones.items()}
    for name, figures in found.items():
        print(f"{name:12}" + "   ".join(f"{category} {figure}" for category, figure in figures.items()))
    return int(any(figure < 100 for figures in found.values() for figure in figures.values()))


@contextmanager
def _demo(folder: Path) -> Iterator[tuple[str, str, int]]:
    """The invented clinic, served: its address, and a code and a year of birth for the phone of its first patient."""
    made = build.settings(folder, port=0)
    now = datetime.now(UTC)
    store = build.ensure(made, now)
    patient = patients.by_number(store, data.eyes()[0].number)
    assert patient is not None
    code = enrol.issue_code(Desk(store, now, build.NOBODY, made.clinic.tz), patient.id)
    logging.getLogger("werkzeug").setLevel(logging.ERROR)
    server = make_server("127.0.0.1", 0, create_app(made, store), threaded=True)
    Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.port}", code, patient.born_on.year
    server.shutdown()


def _set_up(browser: str, profile: Path, link: str, born: int) -> None:
    with sync_playwright() as play:
        context = play.chromium.launch_persistent_context(profile, executable_path=browser, args=["--no-sandbox"])
        page = context.new_page()
        page.goto(link)
        page.get_by_label("Year of birth").fill(str(born))
        page.get_by_role("button", name="Set up").click()
        page.wait_for_selector("html[data-ready=yes]")
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
        context.close()


def _measured(tool: str, browser: str, profile: Path, address: str) -> dict[str, int]:
    flags = f"--headless=new --no-sandbox --user-data-dir={profile}"
    asked = [tool, address, "--quiet", "--output=json", "--disable-storage-reset", f"--chrome-flags={flags}"]
    asked.append(f"--only-categories={','.join(CATEGORIES)}")
    told = subprocess.run(asked, env={**os.environ, "CHROME_PATH": browser}, stdout=subprocess.PIPE, text=True, check=True)
    found = json.loads(told.stdout)["categories"]
    return {name: round(100 * found[name]["score"]) for name in CATEGORIES}


if __name__ == "__main__":
    sys.exit(main())
