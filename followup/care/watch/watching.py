"""Whether the watch itself works: one part's fault ends that part only and is named, and a clock that stands still is seen."""

import shutil
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import partial
from typing import Any

from followup.care.reading.events import fact_in_time
from followup.records import Store, events, eyes, messages, patients, people, visits, watch, worries
from followup.records.values import Event, Fault

EVERY = {
    "check": timedelta(minutes=15),
    "escalate": timedelta(minutes=5),
    "messages": timedelta(minutes=1),
    "rows": timedelta(days=1),
    "backup": timedelta(days=1),
    "audit-mail": timedelta(days=1),
}
LATE_AFTER = 3  # intervals
STANDS_STILL = {
    "check": "silence and missed visits are not noticed",
    "escalate": "callbacks are not moving up",
    "messages": "nobody is reminded",
    "rows": "entries that cannot be read are not named",
    "backup": "no backup is made",
    "audit-mail": "the head of the audit trail is not mailed",
}
LEAST_FREE_BYTES = 200 * 1024 * 1024
SHUT = "sealed"
"""What a device had sealed and nobody here can open."""
KINDS = {
    "eye": "Nothing comes up by itself for this eye. Look at it yourself until this is mended.",
    "row": "An entry cannot be read and is left out everywhere: no list, warning or message knows of it.",
    "callback": "A callback that is late did not move up. Look at it yourself.",
    "list": "A line is missing on the lists of visits.",
    "state": "Lists may show this patient as they stood before. Look at them yourself until this is mended.",
    "daysheet": "A line or an eye is missing on the sheets of clinic devices.",
    "results": "This eye is not counted in Results.",
    "reminder": "A reminder could not be worked out.",
    "message": "Messages to this person could not be made.",
    "parcel": "Messages to this person could not be made ready.",
    "e-mail": "E-mail to this person does not arrive. They may not have heard of a callback.",
    "push": "Messages to a browser of this person do not arrive.",
    SHUT: "Entries that came sealed cannot be opened here, and no list, warning or message knows of them. Ask this person what"
    " they had entered, and enter it anew. This stays here until somebody says so.",
    "job": "This work of the clock ended with a fault.",
}


@contextmanager
def alone(store: Store, now: datetime, what: str, about: str) -> Iterator[None]:
    """A fault in here ends this part only: it is noted, and whoever goes through the parts goes on."""
    try:
        yield
    except Exception as error:
        watch.note(store, now, what, about, watch.words_of(error))


@contextmanager
def parts(store: Store, now: datetime, what: str) -> Iterator[Callable[[str], AbstractContextManager[None]]]:
    """Go through everything of a kind, each `alone`; what went well in the end is a fault no more."""
    yield partial(alone, store, now, what)
    watch.clear_others(store, what, now)


@contextmanager
def some(store: Store, now: datetime, what: str) -> Iterator[Callable[[str], AbstractContextManager[None]]]:
    """Go through some of a kind, each `alone`; what of these went well in the end is a fault no more."""
    met: list[str] = []

    def part(about: str) -> AbstractContextManager[None]:
        met.append(about)
        return alone(store, now, what, about)

    yield part
    watch.clear_some(store, what, met, now)


@dataclass(frozen=True)
class Late:
    """Jobs that stand still, when the last of them ran (None: never, or by a clock that was ahead), and what that means."""

    jobs: tuple[str, ...]
    last: datetime | None

    @property
    def means(self) -> str:
        return ", ".join(STANDS_STILL[job] for job in self.jobs)


def late(store: Store, now: datetime) -> Late | None:
    """The jobs that have not started for three intervals; None when the clock runs."""
    runs = watch.runs(store)
    last = {job: runs[job].started_at if job in runs else None for job in EVERY}
    found = tuple(job for job, at in last.items() if at is None or abs(now - at) > LATE_AFTER * EVERY[job])
    known = [at for job in found if (at := last[job]) is not None and at <= now]
    return Late(found, max(known, default=None)) if found else None


def stopped(store: Store, now: datetime) -> list[str]:
    """What stands still, of `database`, `clock` and `disk`: cheap to ask, and says nothing about anybody.

    Only `closed` where the clinic moves to another server.
    """
    found = []
    try:
        if store.closed:
            return ["closed"]
        if late(store, now) or any(fault.what == "job" for fault in watch.faults(store)):
            found.append("clock")
    except Exception:  # whatever it is, the pages stand still with it
        found.append("database")
    if shutil.disk_usage(store.path.parent).free < LEAST_FREE_BYTES:
        found.append("disk")
    return found


@dataclass(frozen=True)
class Named:
    """A fault as staff read it: whom it is about, and the page of the eye or patient where it is about one."""

    fault: Fault
    words: str
    who: str
    eye_id: str | None
    patient_id: str | None

    @property
    def until_entered(self) -> bool:
        """Whether it never goes well by itself: somebody has to ask, and to say so."""
        return self.fault.what == SHUT


def count(store: Store) -> int:
    """How many faults there are now."""
    return len(watch.faults(store))


def named(store: Store) -> list[Named]:
    """Every fault, with the names that the records of it leave out: for signed-in staff only."""
    return [_named(store, fault) for fault in watch.faults(store)]


def _named(store: Store, fault: Fault) -> Named:
    kind, _, id = fault.about.rpartition(" ")
    patient = watch.patient_of(store, kind or "eye", id)
    who = f"{patient[1]}, {patient[2]}" if patient else _person(store, fault.about)
    known = fault.about.removeprefix("patient:") if fault.about.startswith("patient:") else None
    return Named(fault, KINDS.get(fault.what, ""), who, patient[0] if patient else None, known)


def _person(store: Store, about: str) -> str:
    kind, _, id = about.partition(":")
    member = people.staff_by_id(store, id) if kind == "staff" else None
    patient = patients.patient(store, id) if kind == "patient" else None
    return member.name if member else patient.name if patient else about


_READ_AS = eyes.READ_AS | visits.READ_AS | events.READ_AS | worries.READ_AS | messages.READ_AS


def unreadable(store: Store) -> list[tuple[str, Exception]]:
    """Every row that cannot be read, as `table id`, with why. Reads the whole database."""
    found = _off_time(store)
    for table, (sql, _, opened) in _READ_AS.items():
        for row in store.each(sql):
            if error := _error(row, opened):
                found.append((f"{table} {row.get('id') or row.get('key')}", error))
    return found


def still_unreadable(store: Store) -> list[tuple[str, Exception]]:
    """The same of those that were met before, and of every time that cannot be: what a look now and then can afford."""
    found = _off_time(store)
    for fault in watch.faults(store):
        table, _, id = fault.about.partition(" ")
        if fault.what == "row" and table in _READ_AS:
            sql, key, opened = _READ_AS[table]
            rows = store.rows(f"{sql} AND {key} = :id", {"id": id})
            found += [(fault.about, error) for row in rows if (error := _error(row, opened))]
    return found


def _off_time(store: Store) -> list[tuple[str, Exception]]:
    return [(f"{row.kept_in} {row.id}", ValueError("a time that cannot be")) for row in eyes.unreadable(store)]


def _error(row: Any, opened: Callable[[Any], Any]) -> Exception | None:
    try:
        read = opened(row)
        if isinstance(read, Event):
            fact_in_time(read)
    except Exception as error:
        return error
    return None
