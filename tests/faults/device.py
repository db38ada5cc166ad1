"""A clinic device in a sequence of faults: a nurse enters visits on the page for work without a signal."""

import random
from datetime import timedelta

from playwright.sync_api import BrowserContext, Page

from tests.browser.device import device_ready, unlock
from tests.browser.kept import of_both_eyes
from tests.conftest import PASSWORD, until
from tests.faults.clinic import Clinic
from tests.faults.sequence import MOVE_CLOCK, Moves, Outcome, Stored, Tap, judged, now

SECONDS = 90
ENTRIES = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase("followup-clinic");
    const found = await transact(database, ["entries"], "readonly", ({ entries }, give) => {
        entries.getAll().onsuccess = (read) => give(read.target.result.map(({ id, state }) => ({ id, state })));
    });
    database.close();
    return found;
}"""
HAS_SHEET = """async () => {
    const { openDatabase, readFact } = await import("/static/shared/database.js");
    const database = await openDatabase("followup-clinic");
    const sheet = await readFact(database, "sheet");
    database.close();
    return Boolean(sheet);
}"""
POISON = """async ([id, packet]) => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase("followup-clinic");
    await transact(database, ["entries"], "readwrite", ({ entries }) => { entries.put({ id, sequence: 0, state: "saved", packet }); });
    database.close();
}"""
SEND_AGAIN = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase("followup-clinic");
    const sealed = await transact(database, ["entries"], "readonly", ({ entries }, give) => {
        entries.getAll().onsuccess = (read) => give(read.target.result.map(({ packet }) => packet).slice(-20));
    });
    database.close();
    const body = JSON.stringify({ sent_at: new Date().toISOString(), sealed });
    const request = { method: "POST", headers: { "Content-Type": "application/json" }, body, signal: AbortSignal.timeout(3000) };
    const send = () => fetch("/api/v1/clinic/entries", request);
    await Promise.allSettled([send(), send()]);
}"""
NOT_OURS = {"key": "AAAA", "iv": "AAAA", "data": "AAAA"}  # refused when it is opened
NO_PACKET = {"key": "half a packet"}  # the clinic takes no request that has it


class ClinicDevice(Moves):
    """A device on which one nurse signs in and out, its tabs, and what was entered on it."""

    def __init__(self, clinic: Clinic, context: BrowserContext, name: str, *, moving_clock: bool) -> None:
        super().__init__(clinic, context, moving_clock=moving_clock)
        self.name, self.poison = name, set[str]()
        self.operation, _ = clinic.patient()
        self.tabs.append(context.new_page())
        self._sign_in(self.tabs[0])

    @property
    def steps(self) -> dict[str, int]:
        own = {"measure": 7, "measure, tapped twice": 2, "reload": 2, "close and open": 2, "second tab": 1, "sign out": 1}
        return super().steps | own | {"send twice": 1, "poison": 1, "new version": 1}

    def step(self, name: str, chance: random.Random) -> None:
        tab = chance.choice(self.tabs)
        if name.startswith("measure"):
            self._measure(tab, twice=name.endswith("twice"))
        elif name in ("reload", "close and open"):
            self._open_instead_of(tab)
        elif name == "second tab":
            if len(self.tabs) < 2:
                self.tabs.append(self._opened())
        elif name == "sign out":
            self._sign_out(tab)
        elif name == "send twice":
            tab.evaluate(SEND_AGAIN)
        elif name == "poison":
            id = f"0195a5c0-0000-7000-8000-{chance.randrange(10**12):012d}"
            tab.evaluate(POISON, [id, chance.choice([NOT_OURS, NO_PACKET])])
            self.poison.add(id)
        else:
            super().step(name, chance)

    def settle(self) -> None:
        """Everything is mended, and the device has sent all that it can."""
        self.mend()
        page = self._open_instead_of(self.tabs[0])
        page.evaluate("window.dispatchEvent(new Event('online'))")
        until(lambda: not self._unsent(page), "all is sent", SECONDS)

    def judged(self) -> Outcome:
        return judged(self.taps, self._stored(), set())

    def _stored(self) -> list[Stored]:
        measures = of_both_eyes(self.clinic.store, self.operation, "measures")
        return [Stored(event.body.notes, event.at, event.received_at) for event in measures]

    def _measure(self, tab: Page, *, twice: bool) -> None:
        self._open(tab)
        words, since = f"{self.name}-{len(self.taps)}", now()
        before = {entry["id"] for entry in tab.evaluate(ENTRIES)}
        tab.evaluate("operation => { location.hash = operation; }", self.operation)
        tab.locator("#right-iop").fill("15")
        tab.locator("[name=right-notes]").evaluate("(field, words) => { field.value = words; }", words)
        keep = tab.get_by_role("button", name="Keep")
        (keep.dblclick if twice else keep.click)()
        until(lambda: self._has(tab, words, before), f"{words} is kept")
        self.taps.append(Tap(words, since, now()))

    def _has(self, tab: Page, words: str, before: set[str]) -> bool:
        """On the device, or already with the clinic: after signing out in another tab it leaves nothing here."""
        here = {entry["id"] for entry in tab.evaluate(ENTRIES)}
        return bool(here - before) or any(one.words == words for one in self._stored())

    def _unsent(self, page: Page) -> set[str]:
        return {entry["id"] for entry in page.evaluate(ENTRIES) if entry["state"] == "saved"} - self.poison

    def _sign_in(self, tab: Page) -> None:
        def sign_in() -> None:
            self.context.clear_cookies()
            tab.goto(f"{self.clinic.address}/sign-in")
            tab.evaluate(MOVE_CLOCK, 0)  # a sheet of today is over at once for a clock that is a day ahead
            tab.get_by_label("E-mail").fill("nurse@test.invalid")
            tab.get_by_label("Password").fill(PASSWORD)
            tab.get_by_role("button", name="Sign in").click()
            tab.wait_for_url(lambda address: "/sign-in" not in address)

        self.mend()
        self.come_to(tab, sign_in)
        device_ready(tab)
        while not tab.evaluate(HAS_SHEET):  # a busy machine did not bring it in time
            tab.reload()
            device_ready(tab)
        self._go(tab)

    def _sign_out(self, tab: Page) -> None:
        leave = tab.locator("#leave")

        def press() -> None:
            with tab.expect_navigation():
                leave.click()

        if leave.is_visible():
            self.load(tab, press, tab.reload)

    def _open(self, tab: Page) -> None:
        """The list is open, by the password or after signing in anew."""
        shown = tab.locator("#no-sheet:visible, #open:visible")
        if tab.locator("#unlock").is_visible():
            unlock(tab)
            shown.wait_for()
        if tab.locator("#no-sheet").is_visible():
            self._sign_in(tab)
            unlock(tab)
            shown.wait_for()

    def _opened(self) -> Page:
        page = self.context.new_page()
        self._go(page)
        return page

    def _go(self, page: Page) -> None:
        """What a stalled line does to a page that is opened is the browser's affair: then the line is cut."""
        if self.clinic.line.mode.startswith("stall"):
            self.clinic.line.mode = "cut"
        address, patience = f"{self.clinic.address}/clinic/without-signal", timedelta(seconds=SECONDS)
        self.load(page, lambda: page.goto(address, timeout=patience / timedelta(milliseconds=1)))

    def _open_instead_of(self, tab: Page) -> Page:
        self.tabs.remove(tab)
        tab.close()
        self.tabs.insert(0, self._opened())
        return self.tabs[0]
