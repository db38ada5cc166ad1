"""Runs sequences of faults one after the other: several with each clinic and each start of the browser."""

import random
import shutil
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, expect, sync_playwright
from playwright.sync_api import Error as PlaywrightError

from followup.records import open_store
from tests.browser.conftest import FLAGS, ZONE
from tests.browser.conftest import PHONE as PHONE_SCREEN
from tests.browser.device import TABLET
from tests.faults.clinic import Clinic, clinic
from tests.faults.device import ClinicDevice
from tests.faults.phone import Phone
from tests.faults.sequence import Outcome, play

PHONE, DEVICE = "phone", "clinic device"
KINDS: dict[str, tuple[type[Phone] | type[ClinicDevice], dict[str, Any]]] = {
    PHONE: (Phone, PHONE_SCREEN),
    DEVICE: (ClinicDevice, TABLET),
}
STEPS = 12
EACH_START = 20
EACH_DEVICE = 5
PATIENCE_MS = 120_000  # whoever runs this for an hour does other things meanwhile


def run(kind: str, seeds: Sequence[int], folder: Path) -> tuple[Counter[str], list[str]]:
    """Play a sequence for each seed, and say of each how it went. Gives the counts of all, and the faults."""
    counts, faults = Counter[str](), list[str]()
    expect.set_options(timeout=PATIENCE_MS)
    migrated = folder / "migrated.db"
    open_store(migrated, create=True).close()
    with sync_playwright() as playwright:
        for first in range(0, len(seeds), EACH_START):
            room = folder / str(first)
            room.mkdir()
            browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
            with clinic(room, migrated) as running:
                devices = Devices(kind, browser, running)
                for seed in seeds[first : first + EACH_START]:
                    begun = time.monotonic()
                    outcome = devices.sequence(seed)
                    counts += outcome.counts
                    faults += outcome.faults
                    took = f"{time.monotonic() - begun:.0f} s"
                    print(f"{kind} {seed}: {outcome.counts['tapped']} taps, {took}", *outcome.faults, sep="\n  ", flush=True)
                devices.close()
            browser.close()
    return counts, faults


class Devices:
    """Plays sequences, several on each device: what was entered in those before has to be there still."""

    def __init__(self, kind: str, browser: Browser, running: Clinic) -> None:
        self._made, self._screen = KINDS[kind]
        self._browser, self._running = browser, running
        self._context: BrowserContext | None = None
        self._device: Phone | ClinicDevice | None = None
        self._played = 0
        self._first = 0  # the seed of the first sequence on this device

    def sequence(self, seed: int) -> Outcome:
        """One sequence; whatever ends it before its time is a fault too. After a fault the next begins on a new device."""
        chance, said = random.Random(seed), list[str]()
        self._running.mend()
        try:
            outcome = play(self._device or self._new(seed, chance), chance, STEPS, said)
        except Exception as error:  # a page that does not come back, a button that is not there
            outcome = Outcome(faults=[f"broke off: {str(error).splitlines()[0]}; on the screens: {self._screens()}"])
        self._played += 1
        if outcome.faults or self._played == EACH_DEVICE:
            self.close()
        outcome.counts["sequences"] += 1
        of = f"seed {seed}, on the device of seed {self._first}"
        outcome.faults = [f"{of}: {fault}; after {', '.join(said)}" for fault in outcome.faults]
        return outcome

    def _screens(self) -> str:
        """What stands on each page of the device, for whoever looks for the reason."""
        told = []
        for page in self._context.pages if self._context else ():
            try:
                told.append(" ".join(page.locator("body").inner_text(timeout=1000).split()))
            except PlaywrightError:
                told.append("nothing")
        return " | ".join(told)

    def close(self) -> None:
        if self._context is not None:
            self._context.close()
        self._context, self._device, self._played = None, None, 0

    def _new(self, seed: int, chance: random.Random) -> Phone | ClinicDevice:
        self._first = seed
        self._context = self._browser.new_context(timezone_id=ZONE.key, **self._screen)
        self._context.set_default_timeout(PATIENCE_MS)
        self._device = self._made(self._running, self._context, f"tap-{seed}", moving_clock=chance.random() < 0.5)
        return self._device
