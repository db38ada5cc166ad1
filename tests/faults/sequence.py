"""What sequences of a phone and of a clinic device have in common: faults, the changed clock, and what must have become of each tap."""

import asyncio
import random
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from typing import Protocol

from playwright.sync_api import BrowserContext, Page
from playwright.sync_api import TimeoutError as PlaywrightTimeout

from tests.browser.conftest import ready
from tests.faults.clinic import Clinic

# The page's clock is moved by what stands in its storage; its timers run faster, so that a stalled line costs seconds. Where
# the clock changes, the page wakes no worker: nobody can move a worker's clock from here, and a device has only one.
PACE = 3
CLOCK = """({ pace, waking }) => {
    const RealDate = Date;
    const realTimeout = setTimeout;
    const moved = () => Number(localStorage.getItem("a clock moved by"));
    globalThis.Date = class extends RealDate {
        constructor(...given) { super(...(given.length > 0 ? given : [RealDate.now() + moved()])); }
        static now() { return RealDate.now() + moved(); }
    };
    globalThis.setTimeout = (work, after = 0, ...given) => realTimeout(work, after / pace, ...given);
    if (!waking) delete ServiceWorkerRegistration.prototype.sync;
}"""
MOVE_CLOCK = 'milliseconds => localStorage.setItem("a clock moved by", String(milliseconds))'
HOUR = timedelta(hours=1)
CLOCKS = [sign * span for sign in (1, -1) for span in (HOUR, 5 * HOUR, 30 * HOUR, 365 * 24 * HOUR, 3650 * 24 * HOUR)]

# What the browser says of its workers comes after its answer.
WORKERS_TOLD_MS = 50
WORKERS_ANSWER_S = 10

# Two clocks that are less than two minutes apart count as one; the rest is what a busy machine takes for a tap.
NEAR = timedelta(minutes=2, seconds=30)


@dataclass
class Tap:
    """What was tapped, by words that stand in no other entry, and when it truly was. `poison` is what no clinic can take."""

    words: str
    since: datetime
    until: datetime
    poison: bool = False


@dataclass(frozen=True)
class Stored:
    """An entry as the clinic's database has it: its words, when it happened, and when it came."""

    words: str
    at: datetime
    received_at: datetime


@dataclass
class Lived:
    """A stretch in a position, from a tap to a tap, as it truly was.

    `asked` is whether somebody could still say how long it was; `ended_from` when it may have ended at the earliest.
    """

    since: datetime
    until: datetime
    asked: bool = True
    ended_from: datetime | None = None


@dataclass(frozen=True)
class Stretch:
    """A stretch as it stands in the clinic's database, and when its entry came."""

    start: datetime
    end: datetime
    came_at: datetime

    def off(self, lived: Lived) -> timedelta:
        """How far it is from what was lived, by the end that is further; where nobody could be asked, by its end alone."""
        earliest = lived.ended_from or lived.until
        end = max(self.end - lived.until, earliest - self.end)
        return max(end, abs(self.start - lived.since)) if lived.asked else end


@dataclass
class Outcome:
    """What became of a sequence."""

    counts: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)


class Device(Protocol):
    """Somebody's browser in a sequence."""

    context: BrowserContext

    @property
    def tapped(self) -> int: ...
    @property
    def steps(self) -> dict[str, int]: ...
    def step(self, name: str, chance: random.Random) -> None: ...
    def settle(self) -> None: ...
    def judged(self) -> Outcome: ...


def play(device: Device, chance: random.Random, steps: int, said: list[str]) -> Outcome:
    """So many steps, then everything is mended; then each tap of now and before is looked for in the clinic's database."""
    before = device.tapped
    names, weights = zip(*device.steps.items(), strict=True)
    for name in chance.choices(names, weights, k=steps):
        said.append(name)
        device.step(name, chance)
    said.append("mend")
    device.settle()
    outcome = device.judged()
    outcome.counts["tapped"] = device.tapped - before
    return outcome


def judged(taps: list[Tap], stored: list[Stored], refused: set[str]) -> Outcome:
    """Nothing lost, doubled, or at a wrong time; refused, and shown, only what no clinic can take.

    What was made while the clock was changed and changed back counts as made when it came (`followup.care.home.clocks`).
    """
    made, told = Counter(stored_one.words for stored_one in stored), Outcome()
    times = {one.words: one for one in stored}
    for tap in taps:
        count = made.pop(tap.words, 0)
        if tap.poison and count == 0 and tap.words in refused:
            continue
        if count == 0:
            told.faults.append(f"{'refused' if tap.words in refused else 'lost'}: {tap.words}")
        elif tap.words in refused:
            told.faults.append(f"taken, and said not to be: {tap.words}")
        elif count > 1:
            told.faults.append(f"doubled: {tap.words}, {count} times")
        elif not tap.since - NEAR <= times[tap.words].at <= tap.until + NEAR:
            if times[tap.words].at == times[tap.words].received_at:
                told.counts["as of when it came"] += 1
            else:
                told.faults.append(f"at a wrong time: {tap.words}, tapped {tap.until}, kept as of {times[tap.words].at}")
    told.faults += [f"never tapped: {words}" for words in made]
    return told


def judged_stretches(lived: list[Lived], stored: list[Stretch]) -> Outcome:
    """Each stretch stands once and as it was lived. They have no words: the nearest belong together.

    What nobody could be asked about any more may begin at any time, and would take what another needs: it comes last.
    One whose clock was changed and changed back counts as made when it came, with its true length.
    """
    left, told, unmatched = list(stored), Outcome(), []
    for one in sorted(lived, key=lambda one: not one.asked):
        nearest = min(left, key=lambda stretch: stretch.off(one), default=None)
        if nearest is not None and nearest.off(one) <= NEAR:
            left.remove(nearest)
        else:
            unmatched.append(one)
    for one in unmatched:
        came = [Lived(s.came_at - (one.until - one.since), s.came_at, one.asked) for s in left]
        late = [stretch for stretch, then in zip(left, came, strict=True) if stretch.off(then) <= NEAR]
        if late:
            left.remove(late[0])
            told.counts["as of when it came"] += 1
        else:
            told.faults.append(f"no such stretch: {one.since} to {one.until}")
    told.faults += [f"never lived, or twice: {stretch.start} to {stretch.end}" for stretch in left]
    return told


FAULTS = {
    "offline": 1, "online": 1, "cut": 1, "lose answers": 2, "stall": 1, "stall in the answer": 1, "through": 2,
    "kill the server": 1, "start the server": 1,
}  # fmt: skip


class Moves:
    """The faults that phone and clinic device share, as steps by name and how often each comes."""

    def __init__(self, clinic: Clinic, context: BrowserContext, *, moving_clock: bool) -> None:
        self.clinic, self.context, self.moving_clock = clinic, context, moving_clock
        self.taps: list[Tap] = []
        self.tabs: list[Page] = []
        words = f"({CLOCK})({{ pace: {PACE}, waking: {str(not moving_clock).lower()} }})"
        context.add_init_script(words)

    @property
    def tapped(self) -> int:
        return len(self.taps)

    @property
    def steps(self) -> dict[str, int]:
        return FAULTS | ({"change the clock": 3} if self.moving_clock else {})

    def step(self, name: str, chance: random.Random) -> None:
        if name in ("offline", "online"):
            self._set_offline(name == "offline")
        elif name == "kill the server":
            self.clinic.kill()
        elif name == "start the server":
            self.clinic.start()
        elif name == "new version":
            self.clinic.new_version(str(chance.random()))
        elif name == "change the clock":
            self.move_clock(chance.choice([*CLOCKS, timedelta(0)]))
        else:
            self.clinic.line.mode = name  # type: ignore[assignment]

    def load(self, tab: Page, asked: Callable[[], object], again: Callable[[], object] | None = None) -> None:
        """As `come_to`, to a page that says when it is ready."""
        self.come_to(tab, asked, again)
        ready(tab)

    def come_to(self, tab: Page, asked: Callable[[], object], again: Callable[[], object] | None = None) -> None:
        """Comes to another page as `asked` does; once more (`again` for what cannot be asked twice) where a newer worker took
        over while the earlier one was asked for it (`before_a_page`).
        """
        known = self.before_a_page(tab)
        try:
            asked()
        except PlaywrightTimeout:
            if self.before_a_page(tab) == known:
                raise
            (again or asked)()

    def before_a_page(self, tab: Page) -> set[str]:
        """Where a newer worker waits, the earlier one is stopped first, as browsers stop workers that are idle. Gives those in force.

        A browser whose workers are attached for debugging, as they are to the driver, stops an earlier worker for a newer one
        also while it answers (`ServiceWorkerVersion::OnRequestTermination`), and the page it was asked for never comes. A
        person's own browser waits for the answer.
        """
        versions: dict[str, str] = {}
        devtools = self.context.new_cdp_session(tab)
        devtools.on(
            "ServiceWorker.workerVersionUpdated",
            lambda told: versions.update({one["versionId"]: one["status"] for one in told["versions"]}),
        )
        devtools.send("ServiceWorker.enable")
        tab.wait_for_timeout(WORKERS_TOLD_MS)
        if "installed" in versions.values():
            devtools.send("ServiceWorker.stopAllWorkers")
        devtools.detach()
        return {version for version, status in versions.items() if status in ("installed", "activating", "activated")}

    def move_clock(self, by: timedelta) -> None:
        self.tabs[0].evaluate(MOVE_CLOCK, by / timedelta(milliseconds=1))

    def mend(self) -> None:
        self.clinic.mend()
        self._set_offline(False)

    def _set_offline(self, offline: bool) -> None:
        """The driver waits for every worker to answer, and for ever for one that a browser has just stopped: then it is left
        waiting, since one that is told to stop waiting puts back what it was before.
        """

        async def tell() -> None:
            telling = asyncio.ensure_future(self.context._impl_obj.set_offline(offline))
            done, _ = await asyncio.wait([telling], timeout=WORKERS_ANSWER_S)
            for one in done:
                one.result()

        self.context._sync(tell())


def now() -> datetime:
    return datetime.now(UTC)
