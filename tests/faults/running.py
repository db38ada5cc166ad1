"""Runs sequences of faults one after the other: several with each clinic and each start of the browser."""

import random
import shutil
import time
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from playwright.sync_api import Browser, expect, sync_playwright

from followup.records import open_store
from tests.browser.conftest import FLAGS, ZONE
from tests.browser.conftest import PHONE as PHONE_SCREEN
from tests.browser.device import TABLET
from tests.faults.clinic import Clinic, clinic
from tests.faults.device import ClinicDevice
from tests.faults.phone import Phone
from tests.faults.sequence import Outcome, play

PHONE, DEVICE = "phone", "clinic device"
KINDS = {PHONE: (Phone, PHONE_SCREEN), DEVICE: (ClinicDevice, TABLET)}
STEPS = 12
EACH_START = 10
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
                for seed in seeds[first : first + EACH_START]:
                    begun = time.monotonic()
                    outcome = sequence(kind, seed, browser, running)
                    counts += outcome.counts
                    faults += outcome.faults
                    took = f"{time.monotonic() - begun:.0f} s"
                    print(f"{kind} {seed}: {outcome.counts['tapped']} taps, {took}", *outcome.faults, sep="\n  ", flush=True)
            browser.close()
    return counts, faults


def sequence(kind: str, seed: int, browser: Browser, running: Clinic) -> Outcome:
    """One sequence on a device of its own; whatever ends it before its time is a fault too."""
    chance, said = random.Random(seed), list[str]()
    made, screen = KINDS[kind]
    running.mend()
    context = browser.new_context(timezone_id=ZONE.key, **screen)
    context.set_default_timeout(PATIENCE_MS)
    try:
        device = made(running, context, f"tap-{seed}", moving_clock=chance.random() < 0.5)
        outcome = play(device, chance, STEPS, said)
    except Exception as error:  # a page that does not come back, a button that is not there
        outcome = Outcome(faults=[f"broke off: {str(error).splitlines()[0]}"])
    finally:
        context.set_offline(False)
        context.close()
    outcome.counts["sequences"] += 1
    outcome.faults = [f"seed {seed}: {fault}; after {', '.join(said)}" for fault in outcome.faults]
    return outcome
