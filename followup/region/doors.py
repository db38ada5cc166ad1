"""The clinics in one of the web server's workers: each opened when it is first asked for, and closed when nobody asks any more.

Each is an application of its own with a database of its own: its keys, sessions and caches are those of that clinic alone.
They share the worker's threads, so none may fill them: a clinic is opened in a thread of its own, a few of its requests are
worked on at a time, and while none of those moves on, whoever comes is sent away at once.
"""

import logging
import os
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from datetime import datetime
from functools import lru_cache
from threading import Condition, Thread
from typing import TYPE_CHECKING

from werkzeug.wrappers import Response
from werkzeug.wsgi import ClosingIterator

from followup import logs
from followup.config import Clinic
from followup.errors import FollowupError
from followup.records import Store, lock, watch
from followup.region.register import OPENING, Entry, Register
from followup.settings_file import host_name
from followup.web import create_app, create_away

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

log = logging.getLogger(__name__)
IDLE_SECONDS = 600
AGAIN_SECONDS = 2  # what could not be opened is tried again
AT_ONCE = 3
"""How many requests of a clinic are worked on at a time, of the eight threads of a worker (`serving.THREADS_OF_REGION`)."""
MOMENT_SECONDS = 2  # longer than a page takes, and than opening a clinic on a machine that is not too busy
FULL = "busy"
NOBODY = Response("There is no such page here.\n", 421, mimetype="text/plain")  # RFC 9110, 15.5.20


@dataclass
class _Room:
    """A clinic in this process; `stopped` says why nobody is let in, and is empty once it is open."""

    entry: Entry
    stopped: str = OPENING
    until: float = float("inf")
    app: "WSGIApplication" = NOBODY
    store: Store | None = None
    lock: int | None = None
    users: int = 0
    used: float = field(default_factory=time.monotonic)
    still: bool = False  # somebody waited a moment in vain

    def close(self) -> None:
        if self.store is not None:
            self.store.let_go()
        if self.lock is not None:
            os.close(self.lock)


class Doors:
    """The WSGI application: leads each request to the clinic of its host name, 421 where there is none.

    503 where that is stopped, where it takes longer than a moment to open, and where it is full and nobody in there has
    moved on for a moment.
    """

    def __init__(
        self, register: Register, idle_seconds: float = IDLE_SECONDS, clock: Callable[[], datetime] | None = None
    ) -> None:
        self._register, self._idle, self._clock = register, idle_seconds, clock
        self._moved = Condition()  # somebody left, or a clinic was opened
        self._rooms: dict[str, _Room] = {}
        self._left: list[_Room] = []  # not led to any more, but somebody may still be in there

    def __call__(self, environ: "WSGIEnvironment", start_response: "StartResponse") -> Iterable[bytes]:
        entry = self._register.at(host(environ))
        if entry is None:
            return NOBODY(environ, start_response)
        with logs.about(entry.name):
            room = self._entered(entry)
            if isinstance(room, str):
                return _aside(entry, room)(environ, start_response)
            since = time.monotonic()
            try:
                return ClosingIterator(room.app(environ, start_response), lambda: self._leave(room, since))
            except BaseException:
                self._leave(room, since)
                raise

    @property
    def open(self) -> set[str]:
        """The clinics that are open here."""
        with self._moved:
            return {name for name, room in self._rooms.items() if room.store is not None}

    def sweep(self) -> None:
        """Close what was idle, what is served no more, and what was opened anew by other settings; call it each second."""
        served = {entry.name: entry for entry in self._register.entries}
        idle_since = time.monotonic() - self._idle
        with self._moved:
            for name, room in list(self._rooms.items()):
                idle = not room.users and room.used <= idle_since and room.stopped != OPENING
                if served.get(name) != room.entry or idle:
                    self._left.append(self._rooms.pop(name))
            empty = [room for room in self._left if not room.users]
            self._left = [room for room in self._left if room.users]
        for room in empty:
            room.close()

    def _entered(self, entry: Entry) -> _Room | str:
        """The clinic with this request counted in, opened if need be; or why nobody is let in."""
        if entry.stopped:
            return entry.stopped
        with self._moved:
            room: _Room | None = self._room(entry)
            while room is not None:
                if not room.stopped and room.users < AT_ONCE:
                    room.users += 1
                    room.used = time.monotonic()
                    return room
                if room.stopped not in ("", OPENING):
                    return room.stopped
                patience = room.used + MOMENT_SECONDS - time.monotonic()
                if room.still or patience <= 0:
                    return self._stands_still(room)
                self._moved.wait(patience)
                room = self._rooms.get(entry.name)
        return OPENING  # it was closed while this one waited

    def _room(self, entry: Entry) -> _Room:
        room = self._rooms.get(entry.name)
        if room is not None and room.entry == entry and time.monotonic() <= room.until:
            return room
        if room is not None:
            self._left.append(room)
        room = self._rooms[entry.name] = _Room(entry)
        Thread(target=self._open, args=(room,), daemon=True).start()
        return room

    def _open(self, opening: _Room) -> None:
        with logs.about(opening.entry.name):
            room = _opened(opening.entry, self._clock)
        with self._moved:
            if self._rooms.get(room.entry.name) is opening:
                self._rooms[room.entry.name] = room
            else:
                self._left.append(room)
            self._moved.notify_all()

    def _stands_still(self, room: _Room) -> str:
        if not room.still and not room.stopped:
            log.warning(
                "clinic %s stands still: none of its %d requests moves on, others get 503", room.entry.name, room.users
            )
        room.still = True
        return room.stopped or FULL

    def _leave(self, room: _Room, since: float) -> None:
        with self._moved:
            room.users -= 1
            if not room.users or time.monotonic() - since < MOMENT_SECONDS:
                room.still = False  # who waited long and gave up shows nothing
            self._moved.notify_all()


def host(environ: "WSGIEnvironment") -> str:
    """The host name that was asked for; empty where that is none."""
    return host_name(f"//{environ.get('HTTP_HOST', '')}")


def _opened(entry: Entry, clock: Callable[[], datetime] | None) -> _Room:
    """Call it in a thread of its own: after an update that changes what states hold, it makes them all anew."""
    settings = entry.settings()
    if settings is None:
        return _Room(
            entry, "settings", time.monotonic() + AGAIN_SECONDS
        )  # the serving process has not read the new ones yet
    held, store = None, Store(settings.server.database)
    try:
        held = lock.join(settings.server.database)
        app = create_app(settings, store, clock)
        store.close()  # this thread's connection
    except Exception as error:  # of whatever kind: it is this clinic's alone
        _Room(entry, store=store, lock=held).close()
        why = str(error) if isinstance(error, FollowupError) else watch.words_of(error)
        log.error("clinic %s could not be opened: %s", entry.name, why)
        return _Room(entry, "database", time.monotonic() + AGAIN_SECONDS)
    return _Room(entry, "", app=app, store=store, lock=held)


@lru_cache(maxsize=100)
def _aside(entry: Entry, stopped: str) -> "WSGIApplication":
    """What stands in the place of a clinic that lets nobody in: its numbers, on a page that needs no database."""
    clinic = Clinic(phone=entry.phone, emergency_phone=entry.emergency_phone, language=entry.language)
    return create_away(clinic, stopped)
