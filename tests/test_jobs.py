"""The clock's jobs: silence and missed visits are raised by time alone, once, and caught up after a night switched off."""

from datetime import timedelta

from followup import jobs
from followup.config import Settings
from followup.records import Store, worries
from tests.conftest import NOW


def test_the_clock_raises_what_nobody_sent(store: Store, settings: Settings, operation_id: str) -> None:
    assert jobs.run(store, settings, "check", NOW)
    raised = {w["rule"] for w in worries.warnings_of(store, operation_id)}
    assert raised == {"missed-early-visit", "no-posture-entry", "silent-while-posturing"}


def test_a_slot_is_taken_once_and_the_next_finds_nothing_new(store: Store, settings: Settings, operation_id: str) -> None:
    assert jobs.run(store, settings, "check", NOW)
    assert jobs.run(store, settings, "check", NOW + timedelta(seconds=1)) is None
    assert jobs.run(store, settings, "check", NOW + jobs.CHECK_EVERY) == 0


def test_a_night_switched_off_is_caught_up_without_a_flood(store: Store, settings: Settings, operation_id: str) -> None:
    jobs.run(store, settings, "check", NOW)
    later = NOW + timedelta(days=3)
    jobs.run(store, settings, "check", later)
    open_ones = worries.open_callbacks(store)
    assert len({(c["operation_id"], c["worry"]) for c in open_ones}) == len(open_ones)
    jobs.run(store, settings, "escalate", later)
    assert {c["level"] for c in worries.open_callbacks(store)} == {1}
