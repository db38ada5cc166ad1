"""What the clock does: warnings that time alone raises, callbacks that nobody settled, messages, backups.

Each job is a plain function of a store and a time. A job is taken before it acts, so that it runs once whoever asks.
Who asks counts the seconds that pass, not the time of day: a clock that is set back stops nothing.
"""

import logging
import time
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor, wait
from contextlib import contextmanager
from contextvars import Context, copy_context
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import partial
from threading import Thread
from typing import Any

from apscheduler.schedulers.blocking import BlockingScheduler

from followup.care import resetting
from followup.care.callbacks import moving_up
from followup.care.learning import contributions
from followup.care.messages import outgoing
from followup.care.messages.outgoing import Parcel
from followup.care.reading import state
from followup.care.watch import watching
from followup.care.watch.raising import look
from followup.config import Settings
from followup.exchange import letters, push_keys
from followup.exchange.channels import Email, NotDelivered, Push
from followup.exchange.letters import Letter
from followup.records import Store, audit, states, watch
from followup.records import backup as backups
from followup.records import messages as kept_messages

log = logging.getLogger(__name__)
logging.getLogger("apscheduler").setLevel(logging.ERROR)  # it would tell of every asking; `run` tells of every run
TICK_SECONDS = 30
KEPT_TOGETHER = 200  # looks at eyes, in one transaction
FORGOTTEN_AFTER = timedelta(days=1)  # a fault of a list that no list met again
JUMP_SECONDS = 5
STOP_SECONDS = 20
PUSHES_AT_ONCE = 8
PUSH_SECONDS = 20  # for all pushes of a run together
TOO_SLOW = "push: the address did not answer in time"


def check_all(store: Store, settings: Settings, now: datetime) -> int:
    """Raise what time alone raises, on each followed eye that is due a look; returns how many warnings came up."""
    raised, zone = 0, settings.clinic.tz
    watch.clear_older(store, "list", now - FORGOTTEN_AFTER)
    with watching.parts(store, now, "row") as part:
        for row, error in watching.still_unreadable(store):
            with part(row):
                raise error
    state.bring_up_to_date(store, now, zone)
    looked: list[tuple[str, str, datetime]] = []
    with watching.parts(store, now, "eye") as part:
        for eye_id, version in states.to_look_at(store, now):
            with part(eye_id):
                found, again = look(store, eye_id, now, zone)
                raised += len(found)
                looked.append((eye_id, version, again))
            if len(looked) == KEPT_TOGETHER:
                states.look_again(store, looked)
                looked.clear()
    if looked:
        states.look_again(store, looked)
    contributions.bring_up_to_date(store, now, zone)
    return raised


def read_rows(store: Store, settings: Settings, now: datetime) -> int:
    """Read the whole database, and name each row that cannot be read; returns how many."""
    found = watching.unreadable(store)
    with watching.parts(store, now, "row") as part:
        for row, error in found:
            with part(row):
                raise error
    return len(found)


def escalate(store: Store, settings: Settings, now: datetime) -> int:
    """Move up what is past its time; returns how many."""
    return len(moving_up.escalate_overdue(store, now))


def send_messages(store: Store, settings: Settings, now: datetime) -> int:
    """Line up what is due and send what may go out; returns how many were sent.

    Staff come first, and e-mail before push: a push address that hangs keeps nobody waiting.
    """
    outgoing.line_up(store, now, settings.clinic, settings.messages)
    taken = outgoing.take(store, now, settings.clinic, settings.messages)
    going = [_Going(parcel) for parcel in sorted(taken, key=lambda parcel: parcel.person.startswith("patient:"))]
    for one in going:
        with watching.alone(store, now, "parcel", one.parcel.person):
            clinic, parcel = settings.clinic, one.parcel
            if parcel.kind == resetting.MESSAGE:
                one.letter = letters.password_reset(resetting.token(store, now, parcel.person.partition(":")[2]))
                continue
            one.letter = letters.letter(parcel.kind, parcel.language, len(parcel.keys), clinic.name, clinic.phone)
    _send_emails(settings, going)
    _send_pushes(store, settings, now, going)
    sent = sum(_close(store, now, one) for one in going)
    outgoing.drop_faults(store, now, settings.clinic, settings.messages)
    return sent


@dataclass
class _Going:
    """A parcel on its way: which channels took it, and which did not, with why."""

    parcel: Parcel
    letter: Letter | None = None
    took: list[str] = field(default_factory=list)
    refused: dict[str, str] = field(default_factory=dict)
    gone: bool = False


def _send_emails(settings: Settings, going: list[_Going]) -> None:
    """One after the other; once the mail server cannot be reached, the others need not wait for it."""
    away: str | None = None
    for one in going:
        if one.letter is None or not one.parcel.email or not settings.messages.smtp_host:
            continue
        try:
            if away:
                raise NotDelivered(away)
            channel = Email(settings.messages, one.parcel.email, settings.clinic.name, settings.server.public_address)
            channel.send(one.letter, one.parcel.language)
            one.took.append("e-mail")
        except NotDelivered as error:
            away = str(error) if error.away else None
            one.refused["e-mail"] = str(error)
        except Exception as error:
            one.refused["e-mail"] = f"e-mail: {watch.words_of(error)}"


def _send_pushes(store: Store, settings: Settings, now: datetime, going: list[_Going]) -> None:
    """Several at once, and all of them within one time: what has not ended by then counts as refused."""
    if not any(one.parcel.subscriptions for one in going):
        return
    contact = push_keys.contact(settings.messages.sender, settings.server.public_address)
    key, anywhere = push_keys.private_key(store), not settings.server.secure_cookies
    pool = ThreadPoolExecutor(PUSHES_AT_ONCE)
    sending = {
        pool.submit(Push(subscription, key, contact, anywhere=anywhere).send, one.letter, one.parcel.language): (
            one,
            subscription.endpoint,
        )
        for one in going
        if one.letter is not None
        for subscription in one.parcel.subscriptions
    }
    ended, slow = wait(sending, PUSH_SECONDS)
    pool.shutdown(wait=False, cancel_futures=True)
    for future in ended:
        one, endpoint = sending[future]
        error = future.exception()
        if error is None:
            one.took.append("push")
        elif isinstance(error, NotDelivered):
            one.refused["push"] = str(error)
            if error.gone:
                kept_messages.end_subscription(store, now, endpoint)
                one.gone = True
        else:
            one.refused["push"] = f"push: {watch.words_of(error)}"
    for future in slow:
        sending[future][0].refused["push"] = TOO_SLOW


def _close(store: Store, now: datetime, one: _Going) -> int:
    """A parcel counts as sent when one channel took it. A channel that did not is named to staff until it does."""
    parcel = one.parcel
    with watching.alone(store, now, "parcel", parcel.person):
        for channel, why in one.refused.items():
            if channel != "push" or not one.gone:  # that browser is let go: nothing is left to mend
                watch.note(store, now, channel, parcel.person, why)
        for channel in set(one.took) - set(one.refused):
            watch.clear(store, channel, parcel.person)
        if one.took:
            outgoing.sent(store, now, parcel, ", ".join([*one.took, *one.refused.values()]))
        else:
            outgoing.failed(store, now, parcel, "; ".join(one.refused.values()) or "no way to reach this person any more")
        return len(parcel.keys) if one.took else 0
    return 0


def back_up(store: Store, settings: Settings, now: datetime) -> int:
    """The day's checked copy, where the clinic has named a folder for it; old ones go. The audit chain's head goes there, too."""
    folder = settings.server.backups
    if folder is not None:
        backups.backup(store, folder, now)
        backups.prune(folder, now, settings.server.backups_kept_days)
        audit.keep_head(store, folder, now)
    return int(folder is not None)


def mail_head(store: Store, settings: Settings, now: datetime) -> int:
    """The audit chain's head leaves by mail, where the clinic has named an address; apart from the copy, which is large."""
    if not (settings.clinic.audit_email and settings.messages.smtp_host):
        return 0
    number, hash = audit.head(store)
    mail = Email(settings.messages, settings.clinic.audit_email, settings.clinic.name, settings.server.public_address)
    mail.send(letters.audit_head(number, hash, now), "en")
    return 1


JOBS: dict[str, Callable[[Store, Settings, datetime], int]] = {
    "check": check_all,
    "escalate": escalate,
    "messages": send_messages,
    "rows": read_rows,
    "backup": back_up,
    "audit-mail": mail_head,
}


def run(store: Store, settings: Settings, name: str, now: datetime) -> int | None:
    """Run a job if its interval has passed, and note how it ended; None when it is not due, or ended with a fault."""
    if not watch.take_run(store, now, name, watching.EVERY[name]):
        return None
    began = time.monotonic()
    done = None
    try:
        done = JOBS[name](store, settings, now)
        result = f"done: {done}"
        watch.clear(store, "job", name)
    except Exception as error:
        result = f"{watch.FAILED}{watch.words_of(error)}"
        watch.note(store, now, "job", name, watch.words_of(error))
    took = time.monotonic() - began
    watch.end_run(store, now + timedelta(seconds=took), name, result)
    log.info("job %s %s, in %.1f s", name, result, took)
    return done


def take_up(store: Store, now: datetime) -> None:
    """Before a process runs any job: what the one before had begun when it died is due at once.

    Not where it was cut off the time before, too: it may be what ends the process, so it is named and waits for its time.
    """
    for one in watch.begun(store):
        again = one.result in (watch.CUT_OFF, watch.CUT_OFF_AGAIN)
        watch.end_run(store, now, one.job, watch.CUT_OFF_AGAIN if again else watch.CUT_OFF)
        if again:
            watch.note(store, now, "job", one.job, watch.CUT_OFF_AGAIN)


class Running:
    """Every job asked for at once and then again and again, each in a thread of its own: none delays another.

    Jobs run in the context of whoever made this.
    """

    def __init__(self, store: Store, settings: Settings, clock: Callable[[], datetime]) -> None:
        self._scheduler = BlockingScheduler(timezone="UTC")
        context = copy_context()
        with _away_for_now("what was begun"):
            take_up(store, clock())
        for name in JOBS:
            self._scheduler.add_job(
                partial(_ask_within, context, store, settings, name, clock),
                "interval",
                seconds=TICK_SECONDS,
                next_run_time=datetime.now(UTC),
                id=name,
                coalesce=True,
                max_instances=1,
                misfire_grace_time=None,
            )
        self._thread = Thread(target=self._scheduler.start, name="jobs", daemon=True)
        self._thread.start()
        self._ahead = _ahead()

    def keep_time(self) -> bool:
        """Whether the jobs are still asked for; call it each second.

        The scheduler goes by the time of day. Where that has jumped against the seconds that passed, every job is asked
        for at once, so that a clock that is set back or forward stops nothing.
        """
        ahead = _ahead()
        if abs(ahead - self._ahead) > JUMP_SECONDS:
            self._ahead = ahead
            for job in self._scheduler.get_jobs():
                job.modify(next_run_time=datetime.now(UTC))
        return self._thread.is_alive()

    def stop(self, *, wait: bool = False) -> None:
        """Ask for no more jobs, and `wait` for those that run."""
        self._scheduler.shutdown(wait=wait)
        self._thread.join(STOP_SECONDS)


def _ahead() -> float:
    """How far the time of day is ahead of the seconds that passed since some start."""
    return time.time() - time.monotonic()


def _ask_within(context: Context, *asked: Any) -> None:
    context.copy().run(_ask, *asked)


def _ask(store: Store, settings: Settings, name: str, clock: Callable[[], datetime]) -> None:
    with _away_for_now(f"job {name}"):
        run(store, settings, name, clock())


@contextmanager
def _away_for_now(what: str) -> Iterator[None]:
    """The database may be locked or full: next time it may not be."""
    try:
        yield
    except Exception as error:
        log.error("%s could not be taken: %s", what, watch.words_of(error))
