"""A posture timer in a sequence of faults: started, stopped, paused, and, where the phone asks how long it was, answered truly."""

import random
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Any

from playwright.sync_api import Error as PlaywrightError
from playwright.sync_api import Page

from tests.browser.conftest import go
from tests.conftest import until
from tests.faults.sequence import Lived, now

TIMER_STEPS = {"start": 5, "stop": 3, "stop, tapped twice": 1, "break": 1, "answer": 1}
KEPT = """async () => {
    const { openDatabase, readFacts, transact } = await import("/static/shared/database.js");
    const { unsureOf } = await import("/static/patient/standing.js");
    const database = await openDatabase();
    const [timers = [], pack] = await readFacts(database, ["timer", "pack"]);
    const entries = await transact(database, ["entries"], "readonly", ({ entries }, give) => {
        entries.getAll().onsuccess = (read) => give(read.target.result);
    });
    database.close();
    return {
        running: timers.some((timer) => !timer.on_break), doubted: unsureOf(pack?.eyes ?? [], entries).map(({ id }) => id),
        made: entries.filter(({ event }) => event.kind === "posture").map(({ id }) => id),
    };
}"""
SHOWN = 'async () => (await import("/static/shared/dates.js")).isoClock(new Date())'
SOON_MS = 15_000
QUESTIONS = "#running li[data-entry]"
STOPPING = ".posture .timer[aria-pressed=true]:visible, #running li:visible"


class Posture:
    """What one person lived through, by true time, whatever any clock showed."""

    def __init__(self) -> None:
        self.lived: list[Lived] = []
        self._since: datetime | None = None
        self._locked_at: datetime | None = None
        self._entries: dict[str, Lived] = {}

    def step(self, tab: Page, name: str, chance: random.Random) -> None:
        try:
            self._step(tab, name, chance)
        except (PlaywrightError, AssertionError):
            if self._locked_at is None:  # a phone that hears that it was closed takes the page from under the finger
                raise

    def locked_out(self) -> None:
        """What the phone seals is asked about by nobody."""
        self._locked_at = now()
        for one in self.lived:
            one.asked = False

    def end(self, tab: Page) -> None:
        """What runs is stopped, and what is asked is answered."""
        self._stop(tab, random.Random(0))
        self.answer(tab)
        self._locked_at = None

    def answer(self, tab: Page) -> None:
        while tab.locator(QUESTIONS).count():
            self._answer_first(tab)

    def _step(self, tab: Page, name: str, chance: random.Random) -> None:
        self._notice_sealed(tab)
        go(tab, "now")
        if name == "start":
            self._start(tab, chance)
        elif name == "answer":
            self.answer(tab)
        elif name == "break":
            self._stop(tab, chance, ".pause")
        else:
            self._stop(tab, chance, twice=name.endswith("twice"))

    def _start(self, tab: Page, chance: random.Random) -> None:
        button = tab.locator(".posture .timer")
        if self._kept(tab)["running"] or not button.is_visible():  # no position is planned for the day that the clock shows
            return
        since = now()
        try:
            (button.dblclick if chance.random() < 0.3 else button.click)(timeout=SOON_MS)
        except PlaywrightError:
            if button.is_visible():
                raise
            return  # the page was drawn for the day of the changed clock meanwhile
        until(lambda: self._kept(tab)["running"], "the timer runs")
        self._since = since

    def _stop(self, tab: Page, chance: random.Random, button: str = ".timer", *, twice: bool = False) -> None:
        before = self._kept(tab)
        while self._kept(tab)["running"]:
            self._press(tab, chance, button, twice=twice)
        if self._since is not None and before["running"]:
            made = [id for id in self._kept(tab)["made"] if id not in before["made"]]
            self._end_at(now(), made)
        self._notice_sealed(tab)

    def _press(self, tab: Page, chance: random.Random, button: str, *, twice: bool) -> None:
        """One thing that a person does until the timer is stopped."""
        tab.locator(STOPPING).first.wait_for()
        row = tab.locator("#running li:not([data-entry])")
        still = tab.locator(".still")
        if tab.locator(QUESTIONS).count():
            self._answer_first(tab)
        elif still.is_visible() and chance.random() < 0.5:
            self._and(tab, still.get_by_role("button", name="Yes, still").click, lambda: still.is_hidden())
        elif still.is_visible():
            still.get_by_role("button", name="No").click()
            still.locator(".still-time").fill(tab.evaluate(SHOWN))
            self._and(tab, still.get_by_role("button", name="Save").click)
        elif row.is_visible():
            row.get_by_role("button", name="Stop").click()
            if row.locator("form").is_visible():
                row.locator("input").fill(tab.evaluate(SHOWN))
                self._and(tab, row.get_by_role("button", name="Save").click)
            else:
                self._and(tab, lambda: None)
        else:
            pressed = tab.locator(f".posture {button}")
            try:
                (pressed.dblclick if twice else pressed.click)(timeout=SOON_MS)
            except PlaywrightError:
                if pressed.is_visible():
                    raise
                return  # the page was drawn for the day of the changed clock meanwhile, and asks elsewhere
            self._and(tab, lambda: None, lambda: still.is_visible())

    def _and(self, tab: Page, press: Callable[[], Any], then: Callable[[], Any] = lambda: False) -> None:
        """Presses, and waits until that was answered."""
        press()
        until(lambda: not self._kept(tab)["running"] or tab.locator(QUESTIONS).count() or then(), "the tap is answered")

    def _answer_first(self, tab: Page) -> None:
        """Each question, of a timer or of an entry, is answered as it truly was, in minutes."""
        kept = self._kept(tab)
        entry = tab.locator(QUESTIONS).first.get_attribute("data-entry")
        one = self._entries[entry] if entry else Lived(self._since or now(), now())
        minutes = max(1, round((one.until - one.since) / timedelta(minutes=1)))
        row = tab.locator(f'{QUESTIONS}[data-entry="{entry}"]').first
        question = row.element_handle()
        row.get_by_label("Hours").fill(str(minutes // 60))
        row.get_by_label("Minutes").fill(str(minutes % 60))
        row.get_by_role("button", name="Save").click()

        def answered() -> bool:
            told = self._kept(tab)
            return entry not in told["doubted"] if entry else not told["running"]

        until(answered, "the answer is taken")
        until(lambda: not question.evaluate("shown => shown.isConnected"), "the question goes")
        made = [id for id in self._kept(tab)["made"] if id not in kept["made"]]
        if entry:
            self._entries |= dict.fromkeys(made, one)
        else:
            self._end_at(now(), made)

    def _end_at(self, moment: datetime, made: list[str]) -> None:
        if self._since is not None:
            one = Lived(self._since, moment, asked=self._locked_at is None)
            self.lived.append(one)
            self._entries |= dict.fromkeys(made, one)
            self._since = None

    def _notice_sealed(self, tab: Page) -> None:
        """A phone that was locked out seals what ran until it heard so."""
        if self._since is not None and not self._kept(tab)["running"]:
            self.lived.append(Lived(self._since, now(), asked=False, ended_from=self._locked_at))
            self._since = None

    def _kept(self, tab: Page) -> dict[str, Any]:
        return tab.evaluate(KEPT)  # type: ignore[no-any-return]
