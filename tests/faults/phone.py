"""A patient's phone in a sequence of faults."""

import random
from datetime import timedelta

from playwright.sync_api import BrowserContext, Page, expect
from playwright.sync_api import Error as PlaywrightError

from followup.records import events
from followup.records.values import Event
from tests.browser.checking import WELL, fill_in, save
from tests.browser.conftest import enrol_through, go
from tests.conftest import until
from tests.faults.clinic import Clinic
from tests.faults.posture import QUESTIONS, TIMER_STEPS, Posture
from tests.faults.sequence import CLOCKS, Moves, Outcome, Stored, Stretch, Tap, judged, judged_stretches, now

LONGER_THAN_ANY_PAUSE_MS = 90_000
UNDER_A_TIMER = "change the clock under a timer"
KEPT = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    const found = await transact(database, ["entries", "facts"], "readonly", ({ entries, facts }, give) => {
        const all = {};
        give(all);
        facts.get("sequence").onsuccess = (read) => { all.made = read.target.result ?? 0; };
        facts.get("sealed").onsuccess = (read) => { all.packets = (read.target.result ?? []).length; };
        entries.getAll().onsuccess = (read) => { all.entries = read.target.result; };
    });
    database.close();
    return found;
}"""
POISON = """async ([operation, id, words]) => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    const at = new Date().toISOString();
    const event = { id, operation, kind: "wish", at, offset_minutes: 0, sequence: 1, by: "patient", corrects: null, body: { words } };
    await transact(database, ["entries"], "readwrite", ({ entries }) => { entries.put({ id, event, state: "saved", reason: null }); });
    database.close();
}"""
SEND_AGAIN = """async (shuffled) => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    const entries = await transact(database, ["entries"], "readonly", ({ entries }, give) => {
        entries.getAll().onsuccess = (event) => give(event.target.result);
    });
    database.close();
    const events = entries.map((entry) => entry.event);
    if (shuffled) events.reverse();
    const body = JSON.stringify({ sent_at: new Date().toISOString(), events });
    const request = { method: "POST", headers: { "Content-Type": "application/json" }, body, signal: AbortSignal.timeout(3000) };
    const send = () => fetch("/api/v1/events", request);
    await Promise.allSettled([send(), send()]);
}"""


class Phone(Moves):
    """The phone of one patient, its tabs, and what was tapped on it."""

    def __init__(self, clinic: Clinic, context: BrowserContext, name: str, *, moving_clock: bool) -> None:
        super().__init__(clinic, context, moving_clock=moving_clock)
        self.name, self._poisoned, self._locked_out = name, 0, False
        self.posture = Posture()
        self.operation, code = clinic.patient()
        self.tabs.append(context.new_page())
        enrol_through(self.tabs[0], clinic.address, code)

    @property
    def tapped(self) -> int:
        return super().tapped + len(self.posture.lived)

    @property
    def steps(self) -> dict[str, int]:
        own = {"wish": 7, "wish, tapped twice": 2, "check": 2, "reload": 2, "close and open": 2, "second tab": 1}
        sent = {"send twice": 1, "send out of order": 1, "poison": 1, "lock out": 1, "new version": 1}
        clock = {UNDER_A_TIMER: 5} if self.moving_clock else {}
        return super().steps | own | sent | TIMER_STEPS | clock

    def step(self, name: str, chance: random.Random) -> None:
        tab = chance.choice(self.tabs)
        if name.startswith("wish") or name == "check":
            self._enter(tab, name)
        elif name in TIMER_STEPS:
            self._set_up(tab)
            self.posture.step(tab, name, chance)
        elif name == UNDER_A_TIMER:
            self._change_under_a_timer(tab, chance)
        elif name == "reload":
            self._reload(tab)
        elif name == "close and open":
            self._open_instead_of(tab)
        elif name == "second tab":
            if len(self.tabs) < 3:
                self.tabs.append(self._opened())
        elif name.startswith("send"):
            tab.evaluate(SEND_AGAIN, name == "send out of order")
        elif name == "poison":
            self._poison(tab, chance)
        elif name == "lock out":
            self.clinic.lock_out(self.operation)
            self._locked_out = True
            self.posture.locked_out()
        else:
            super().step(name, chance)

    def settle(self) -> None:
        """Everything is mended, and the phone has sent all."""
        self.mend()
        page = self._open_instead_of(self.tabs[0])
        if self._locked_out:
            expect(page.locator("#locked")).to_be_visible(timeout=LONGER_THAN_ANY_PAUSE_MS)
        if not page.locator(".tabs").is_visible():
            self._enrol_again(page)
        self._all_sent(page)
        self.posture.end(page)
        page = self._open_instead_of(page)  # it hears the clinic, and may ask then
        while page.locator(QUESTIONS).count():
            self.posture.answer(page)
            page = self._open_instead_of(page)
        self._all_sent(page)
        assert page.evaluate(KEPT)["packets"] == 0

    def judged(self) -> Outcome:
        told, posture = (
            judged(self.taps, self.stored(), self.refused()),
            judged_stretches(self.posture.lived, self._stretches()),
        )
        return Outcome(told.counts + posture.counts, told.faults + posture.faults)

    def refused(self) -> set[str]:
        page = self.tabs[0]
        go(page, "more")
        entries = page.evaluate(KEPT)["entries"]
        here = {entry["event"]["body"].get("words", entry["id"]) for entry in entries if entry["state"] == "refused"}
        expect(page.locator("#entries li", has_text="could not take it")).to_have_count(len(here))
        # Of what was sealed and refused only the clinic knows what it was: it has that on its list.
        known = events.refused(self.clinic.store)
        return here | {tap.words for tap in self.taps if any(f'"{tap.words}"' in one.text for one in known)}

    def stored(self) -> list[Stored]:
        history = events.history_of(self.clinic.store, self.operation)
        return [
            Stored(event.body.words, event.at, event.received_at)
            for event in history
            if event.kind in ("visit-request", "symptoms")
        ]

    def _stretches(self) -> list[Stretch]:
        store = self.clinic.store
        history = {event.id: event for event in events.history_of(store, self.operation)}
        standing = [event for event in events.of_eye(store, self.operation) if event.kind == "posture"]

        def first(event: Event) -> Event:
            return first(history[event.corrects]) if event.corrects else event

        return [Stretch(event.body.start, event.body.end, first(event).received_at) for event in standing]

    def _set_up(self, tab: Page) -> None:
        if not tab.locator(".tabs").is_visible():
            self.mend()
            self._enrol_again(tab)

    def _enter(self, tab: Page, how: str) -> None:
        self._set_up(tab)
        words, since, entered = f"{self.name}-{len(self.taps)}", now(), False
        made = tab.evaluate(KEPT)["made"]
        try:
            self._type(tab, how, words)
            entered = how == "check"  # what is typed there is kept from then on; a wish, once it is sent
            self._press(tab, how)
            entered = True
        except PlaywrightError:
            if not self._locked_out:  # a phone that hears that it was closed takes the page from under the finger
                raise
        if entered:
            until(lambda: tab.evaluate(KEPT)["made"] > made, f"{words} is kept")
            self.taps.append(Tap(words, since, now()))

    def _type(self, tab: Page, how: str, words: str) -> None:
        if how == "check":
            fill_in(tab, words, **WELL)
            return
        go(tab, "visits")
        tab.locator("#visit-list button").first.click()
        tab.locator("#wish-words").fill(words)

    def _press(self, tab: Page, how: str) -> None:
        if how == "check":
            save(tab, kept=False)
            return
        ask = tab.get_by_role("button", name="Ask the clinic")
        (ask.dblclick if how.endswith("twice") else ask.click)()

    def _change_under_a_timer(self, tab: Page, chance: random.Random) -> None:
        self._set_up(tab)
        go(tab, "now")
        if not tab.locator(".posture").is_visible():  # nothing is planned for the day that this clock shows
            self.move_clock(timedelta(0))
            self._reload(tab)
            self._set_up(tab)
        self.posture.step(tab, "start", chance)
        self.move_clock(chance.choice(CLOCKS))
        if chance.random() < 0.5:
            self._reload(tab)
        self._set_up(tab)
        self.posture.step(tab, "stop", chance)

    def _reload(self, tab: Page) -> None:
        self.load(tab, tab.reload)

    def _poison(self, tab: Page, chance: random.Random) -> None:
        words, since = f"{self.name}-{len(self.taps)}", now()
        tab.evaluate(POISON, [self.operation, f"0195a5c0-0000-7000-8000-{chance.randrange(10**12):012d}", words])
        self.taps.append(Tap(words, since, now(), poison=True))

    def _all_sent(self, page: Page) -> None:
        expect(page.locator("#sending")).to_have_text("All sent", timeout=LONGER_THAN_ANY_PAUSE_MS)

    def _opened(self) -> Page:
        page = self.context.new_page()
        self.load(page, lambda: page.goto(f"{self.clinic.address}/me/"))
        return page

    def _open_instead_of(self, tab: Page) -> Page:
        self.tabs.remove(tab)
        tab.close()
        self.tabs.insert(0, self._opened())
        return self.tabs[0]

    def _enrol_again(self, tab: Page) -> None:
        enrol_through(tab, self.clinic.address, self.clinic.code(self.operation))
        self._locked_out = False
