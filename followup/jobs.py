"""What the clock does: warnings that time alone raises, and callbacks that nobody settled.

Each job is a plain function of a store and a time; the scheduler only calls them. A job takes its
slot before it acts, so several server processes do it once.
"""

import logging
from collections.abc import Callable
from datetime import datetime, timedelta

from apscheduler.schedulers.background import BackgroundScheduler

from followup.care import callbacks
from followup.care.raising import check_eye
from followup.config import Settings
from followup.records import Store, eyes, protocols

log = logging.getLogger(__name__)
CHECK_EVERY = timedelta(minutes=15)
ESCALATE_EVERY = timedelta(minutes=5)


def check_all(store: Store, settings: Settings, now: datetime) -> int:
    """Raise what time alone raises on every followed eye; returns how many warnings came up."""
    raised = 0
    for row in eyes.open_operations(store):
        raised += len(check_eye(store, row["id"], now, settings.clinic.tz))
    return raised


def escalate(store: Store, settings: Settings, now: datetime) -> int:
    """Move up what is past its time; returns how many."""
    return len(callbacks.escalate_overdue(store, now))


JOBS: dict[str, tuple[timedelta, Callable[[Store, Settings, datetime], int]]] = {
    "check": (CHECK_EVERY, check_all),
    "escalate": (ESCALATE_EVERY, escalate),
}


def run(store: Store, settings: Settings, name: str, now: datetime) -> int | None:
    """Run a job once for its current slot; None when another process has taken the slot."""
    every, job = JOBS[name]
    slot = str(int(now.timestamp() // every.total_seconds()))
    if not protocols.take_slot(store, now, name, slot):
        return None
    done = job(store, settings, now)
    if done:
        log.info("job %s: %d", name, done)
    return done


def start(store: Store, settings: Settings, clock: Callable[[], datetime]) -> BackgroundScheduler:
    """Run every job at its interval, and once at start: that catches up after a night switched off."""
    scheduler = BackgroundScheduler(timezone="UTC")
    for name, (every, _) in JOBS.items():
        scheduler.add_job(
            lambda name=name: run(store, settings, name, clock()),
            "interval",
            seconds=every.total_seconds(),
            next_run_time=clock(),
            id=name,
            coalesce=True,
            max_instances=1,
            misfire_grace_time=None,
        )
    scheduler.start()
    return scheduler
