"""Whatever breaks and in whatever order, every entry is on the server exactly once and at its time, or on the phone and shown."""

import os
import signal
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect

from followup.records import Store, events
from tests.browser.checking import SCREENS, WELL, answer, answer_screen, screen
from tests.browser.conftest import CLINIC_TOML, FLAGS, PHONE, RunningServer, enrol, enrol_through, go, ready
from tests.browser.proxy import Line, Mode
from tests.conftest import until
from tests.faults.clinic import clinic
from tests.faults.phone import KEPT
from tests.faults.running import DEVICE as DEVICE_KIND
from tests.faults.running import PHONE as PHONE_KIND
from tests.faults.running import Devices


@pytest.fixture
def line(server: RunningServer) -> Iterator[Line]:
    made = Line(server.settings.server.port)
    yield made
    made.close()


# Of each kind one sequence in which the clock is changed, and one in which it is not; which comes with the seed.
@pytest.mark.parametrize("kind", [PHONE_KIND, DEVICE_KIND])
def test_random_faults_lose_and_double_nothing_and_put_nothing_at_a_wrong_time(
    browser: Browser, tmp_path: Path, migrated: Path, kind: str
) -> None:
    with clinic(tmp_path, migrated) as running:
        outcomes = []
        for seed in (20270302, 20270303):
            devices = Devices(kind, browser, running)
            outcomes.append(devices.sequence(seed))
            devices.close()
    assert [fault for outcome in outcomes for fault in outcome.faults] == []
    assert all(outcome.counts["tapped"] for outcome in outcomes)


def took_it(page: Page) -> set[str]:
    """One click that keeps an entry; its id, once the phone says that it has it."""

    def ids() -> set[str]:
        return {entry["id"] for entry in page.evaluate(KEPT)["entries"]}

    go(page, "visits")
    before = ids()
    page.get_by_role("button", name="I took it: antibiotic").click()
    return until(lambda: ids() - before, "the entry is kept")  # type: ignore[no-any-return]


def test_a_server_killed_between_receipt_and_answer(
    browser: Browser, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], line: Line
) -> None:
    context = browser.new_context(**PHONE)
    page = context.new_page()
    enrol_through(page, f"http://localhost:{line.port}", enrolment[1])
    page.goto(f"http://localhost:{line.port}/me/#visits")
    ready(page)
    expect(page.locator("#sending")).to_have_text("All sent")

    def kill_once_received() -> None:
        if events.of_eye(clinic_store, enrolment[0]):
            server.kill()

    line.on_lost = kill_once_received
    line.mode = "lose answers"
    page.get_by_role("button", name="I took it: antibiotic").click()
    for _ in range(200):
        if server.process is None:
            break
        page.wait_for_timeout(100)
    assert server.process is None
    expect(page.locator("#sending")).to_have_text("1 entry to send")
    line.mode, line.on_lost = "through", lambda: None
    server.start()
    assert len(events.of_eye(clinic_store, enrolment[0])) == 1
    page.reload()
    expect(page.locator("#sending")).to_have_text("All sent")
    assert len(events.of_eye(clinic_store, enrolment[0])) == 1
    context.close()


LONGER_THAN_A_REQUEST_MS = 60_000
HANG_WITH_THE_TURN = """(name) => new Promise((taken) => {
    navigator.locks.request(name, () => { taken(); return new Promise(() => {}); }).catch(() => {});
})"""


def check_with_pain(page: Page) -> None:
    answer(page, pain="8", vision="worse")
    expect(page.locator("#verdict-title")).to_have_text("Call now")


def arrives(page: Page) -> None:
    go(page, "more")
    expect(page.locator("#entries li")).to_contain_text("Received by the clinic", timeout=LONGER_THAN_A_REQUEST_MS)


def sent_through(line: Line) -> int:
    return sum(request.startswith("POST /api/v1/events") for request in line.stalled)


@pytest.mark.parametrize("mode", ["stall", "stall in the answer"])
def test_a_line_that_stalls_does_not_hold_a_check_up(
    open_context: Callable[..., BrowserContext],
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
    line: Line,
    mode: Mode,
) -> None:
    page = open_context(**PHONE).new_page()
    enrol_through(page, f"http://localhost:{line.port}", enrolment[1])
    expect(page.locator("#sending")).to_have_text("All sent")
    line.mode = mode
    with page.expect_event("requestfailed", lambda r: "/events" in r.url, timeout=LONGER_THAN_A_REQUEST_MS):
        check_with_pain(page)
    line.mode = "through"
    arrives(page)
    assert sent_through(line) <= 2  # at once again: the second try may have met the same stall
    assert [e.kind for e in events.of_eye(clinic_store, enrolment[0])] == ["symptoms"]


def test_a_pack_that_stalls_does_not_hold_a_check_up(
    open_context: Callable[..., BrowserContext], clinic_store: Store, enrolment: tuple[str, str], line: Line
) -> None:
    page = open_context(**PHONE).new_page()
    enrol_through(page, f"http://localhost:{line.port}", enrolment[1])
    line.mode = "stall"
    page.reload()
    with page.expect_event("requestfailed", lambda r: "/pack" in r.url, timeout=LONGER_THAN_A_REQUEST_MS):
        expect(page.locator(".posture-words")).to_be_visible()
    line.mode = "through"
    ready(page)
    check_with_pain(page)
    arrives(page)
    assert len(events.of_eye(clinic_store, enrolment[0])) == 1


def test_a_tab_that_hangs_while_it_sends_does_not_hold_the_others_up(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    hanging = phone.context.new_page()
    hanging.goto(phone.url)
    ready(hanging)
    hanging.evaluate(HANG_WITH_THE_TURN, "followup-outbox")
    check_with_pain(phone)
    arrives(phone)
    assert len(events.of_eye(clinic_store, enrolment[0])) == 1


def test_turns_are_taken_one_after_the_other_while_nobody_hangs(phone: Page) -> None:
    script = """async () => {
        const { inTurn } = await import("/static/shared/outbox.js");
        const said = [];
        const work = (n) => inTurn("a test", async () => { said.push(n); await null; said.push(n); return n; });
        const results = await Promise.all([work(1), work(2), work(3)]);
        const failed = await inTurn("a test", async () => { throw new Error("its own"); }).catch((error) => error.message);
        return [said, results, failed, await work(4)];
    }"""
    assert phone.evaluate(script) == [[1, 1, 2, 2, 3, 3, 4, 4], [1, 2, 3], "its own", 4]


def test_a_killed_browser_still_has_everything(
    playwright: Playwright,
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
    tmp_path: Path,
    browser_type_launch_args: dict[str, Any],
) -> None:
    folder = tmp_path / "profile"

    def opened() -> BrowserContext:
        return playwright.chromium.launch_persistent_context(
            folder, executable_path=browser_type_launch_args["executable_path"], args=FLAGS, **PHONE
        )

    context = opened()
    enrol(context.new_page(), server, enrolment[1])
    context.close()  # the browser writes a new cookie to disk only after a while
    context = opened()
    page = context.new_page()
    page.goto(f"{server.address}/me/")
    ready(page)
    context.set_offline(True)
    made = took_it(page) | took_it(page)
    found = subprocess.run(["pgrep", "-f", f"user-data-dir={folder}"], capture_output=True, text=True, check=True)
    for pid in found.stdout.split():
        try:
            os.kill(int(pid), signal.SIGKILL)
        except ProcessLookupError:
            continue
    again = opened()
    try:
        page = again.new_page()
        page.goto(f"{server.address}/me/")
        ready(page)
        expect(page.locator("#sending")).to_have_text("All sent")
        assert {e.id for e in events.of_eye(clinic_store, enrolment[0])} == made
        assert len(made) == 2
    finally:
        again.close()


def test_a_new_version_waits_until_it_is_taken_and_nothing_typed_is_lost(phone: Page, server: RunningServer) -> None:
    phone.get_by_role("link", name="Check").click()
    for name in SCREENS:
        answer_screen(phone, name, WELL)
    phone.locator("#symptom-words").fill("half a sentence")
    server.stop()
    server.settings.server.database.with_suffix(".toml").write_text(
        CLINIC_TOML + 'on_call = "somebody new"\n', encoding="utf-8"
    )
    server.start()
    phone.evaluate("navigator.serviceWorker.getRegistration('/me/').then((r) => r.update()).then(() => true)")
    expect(phone.locator("#new-version")).to_be_visible()
    expect(phone.locator("#symptom-words")).to_have_value("half a sentence")
    with phone.expect_navigation():
        phone.get_by_role("button", name="Use it now").click()
    ready(phone)
    expect(phone.locator("#new-version")).to_be_hidden()
    expect(phone.locator("#symptom-words")).to_have_value("half a sentence")
    expect(screen(phone, "words")).to_be_visible()
