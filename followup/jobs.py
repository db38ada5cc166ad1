"""What the clock does: warnings that time alone raises, callbacks that nobody settled, messages, backups.

Each job is a plain function of a store and a time; the scheduler only calls them. A job takes its
slot before it acts, so several server processes do it once.
"""

import logging
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta

from apscheduler.schedulers.background import BackgroundScheduler

from followup.care import callbacks, messages
from followup.care.messages import Parcel
from followup.care.raising import check_eye
from followup.config import Settings
from followup.exchange import letters, push_keys
from followup.exchange.channels import Channel, Email, NotDelivered, Push
from followup.records import Store, eyes, protocols
from followup.records import backup as backups
from followup.records import messages as kept_messages

log = logging.getLogger(__name__)
CHECK_EVERY = timedelta(minutes=15)
ESCALATE_EVERY = timedelta(minutes=5)
MESSAGES_EVERY = timedelta(minutes=1)
BACKUP_EVERY = timedelta(days=1)
SLOTS_KEPT = timedelta(days=7)


def check_all(store: Store, settings: Settings, now: datetime) -> int:
    """Raise what time alone raises on every followed eye; returns how many warnings came up."""
    raised = 0
    for row in eyes.open_operations(store):
        raised += len(check_eye(store, row["id"], now, settings.clinic.tz))
    return raised


def escalate(store: Store, settings: Settings, now: datetime) -> int:
    """Move up what is past its time; returns how many."""
    return len(callbacks.escalate_overdue(store, now))


def send_messages(store: Store, settings: Settings, now: datetime) -> int:
    """Line up what is due and send what may go out; returns how many were sent."""
    messages.line_up(store, now, settings.clinic, settings.messages)
    parcels = messages.take(store, now, settings.clinic, settings.messages)
    return sum(_deliver(store, settings, now, parcel) for parcel in parcels)


def _deliver(store: Store, settings: Settings, now: datetime, parcel: Parcel) -> int:
    """Hand a parcel to every channel its person chose; it counts as sent when one of them took it."""
    clinic = settings.clinic
    letter = letters.letter(parcel.kind, parcel.language, len(parcel.keys), clinic.name, clinic.phone)
    took, refused = [], []
    for name, channel, endpoint in _channels(store, settings, parcel):
        try:
            channel.send(letter, parcel.language)
            took.append(name)
        except NotDelivered as error:
            refused.append(str(error))
            if error.gone and endpoint:
                kept_messages.end_subscription(store, now, endpoint)
    if took:
        messages.sent(store, now, parcel, ", ".join(took + refused))
    else:
        messages.failed(store, now, parcel, "; ".join(refused) or "no way to reach this person any more")
    return len(took) and len(parcel.keys)


def _channels(store: Store, settings: Settings, parcel: Parcel) -> Iterator[tuple[str, Channel, str | None]]:
    contact = f"mailto:{settings.messages.sender}" if settings.messages.sender else settings.server.public_address
    for subscription in parcel.subscriptions:
        yield "push", Push(subscription, push_keys.private_key(store), contact), subscription["endpoint"]
    if parcel.email and settings.messages.smtp_host:
        page = settings.server.public_address
        yield "e-mail", Email(settings.messages, parcel.email, settings.clinic.name, page), None


def back_up(store: Store, settings: Settings, now: datetime) -> int:
    """The day's checked copy, where the clinic has named a folder for it; old ones go."""
    folder = settings.server.backups
    if folder is None:
        return 0
    backups.backup(store, folder, now)
    backups.prune(folder, now, settings.server.backups_kept_days)
    return 1


JOBS: dict[str, tuple[timedelta, Callable[[Store, Settings, datetime], int]]] = {
    "check": (CHECK_EVERY, check_all),
    "escalate": (ESCALATE_EVERY, escalate),
    "messages": (MESSAGES_EVERY, send_messages),
    "backup": (BACKUP_EVERY, back_up),
}


def run(store: Store, settings: Settings, name: str, now: datetime) -> int | None:
    """Run a job once for its current slot; None when another process has taken the slot."""
    every, job = JOBS[name]
    slot = str(int(now.timestamp() // every.total_seconds()))
    if not protocols.take_slot(store, now, name, slot):
        return None
    protocols.forget_slots(store, now - SLOTS_KEPT)
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
