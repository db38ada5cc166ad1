"""The clinics in one of the web server's workers: each opened when it is first asked for, and closed when nobody asks any more.

Each is an application of its own with a database of its own: its keys, sessions and caches are those of that clinic alone.
"""

import logging
import os
import time
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from threading import Lock
from typing import TYPE_CHECKING

from werkzeug.wrappers import Response
from werkzeug.wsgi import ClosingIterator

from followup import logs
from followup.config import Clinic
from followup.errors import FollowupError
from followup.records import Store, lock, watch
from followup.region.register import Entry, Register
from followup.settings_file import host_name
from followup.web import create_app, create_away

if TYPE_CHECKING:
    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

log = logging.getLogger(__name__)
IDLE_SECONDS = 600
AGAIN_SECONDS = 2  # what could not be opened is tried again
PATIENCE_SECONDS = 10  # while another thread opens it, which takes less than a second on a machine that is not too busy
NOBODY = Response("There is no such page here.\n", 421, mimetype="text/plain")  # RFC 9110, 15.5.20
OPENING = Response("Try again in a moment.\n", 503, {"Retry-After": "1"}, mimetype="text/plain")


@dataclass
class _Room:
    """A clinic that is open in this process, or what stands in its place."""

    entry: Entry
    app: "WSGIApplication"
    store: Store | None = None
    lock: int | None = None
    until: float = float("inf")
    users: int = 0
    used: float = 0.0

    def close(self) -> None:
        if self.store is not None:
            self.store.let_go()
        if self.lock is not None:
            os.close(self.lock)


class Doors:
    """The WSGI application: leads each request to the clinic of its host name, 421 where there is none."""

    def __init__(
        self, register: Register, idle_seconds: float = IDLE_SECONDS, clock: Callable[[], datetime] | None = None
    ) -> None:
        self._register, self._idle, self._clock = register, idle_seconds, clock
        self._lock = Lock()
        self._rooms: dict[str, _Room] = {}
        self._left: list[_Room] = []  # not led to any more, but somebody may still be in there
        self._opening: dict[str, Lock] = {}

    def __call__(self, environ: "WSGIEnvironment", start_response: "StartResponse") -> Iterable[bytes]:
        entry = self._register.at(host(environ))
        if entry is None:
            return NOBODY(environ, start_response)
        with logs.about(entry.name):
            room = self._entered(entry)
            if room is None:
                return OPENING(environ, start_response)
            try:
                return ClosingIterator(room.app(environ, start_response), lambda: self._leave(room))
            except BaseException:
                self._leave(room)
                raise

    @property
    def open(self) -> set[str]:
        """The clinics that are open here."""
        with self._lock:
            return {name for name, room in self._rooms.items() if room.store is not None}

    def sweep(self) -> None:
        """Close what was idle, what is served no more, and what was opened anew by other settings; call it each second."""
        served = {entry.name: entry for entry in self._register.entries}
        idle_since = time.monotonic() - self._idle
        with self._lock:
            for name, room in list(self._rooms.items()):
                if served.get(name) != room.entry or (not room.users and room.used <= idle_since):
                    self._left.append(self._rooms.pop(name))
            empty = [room for room in self._left if not room.users]
            self._left = [room for room in self._left if room.users]
        for room in empty:
            room.close()

    def _entered(self, entry: Entry) -> _Room | None:
        """The clinic, opened if need be, with this request counted in; None while another thread opens it."""
        if room := self._enter(entry):
            return room
        with self._lock:
            opening = self._opening.setdefault(entry.name, Lock())
        if not opening.acquire(timeout=PATIENCE_SECONDS):
            return None
        try:
            if room := self._enter(entry):
                return room
            made = self._opened(entry)
            with self._lock:
                if before := self._rooms.pop(entry.name, None):
                    self._left.append(before)
                self._rooms[entry.name] = made
                return self._counted(made)
        finally:
            opening.release()

    def _enter(self, entry: Entry) -> _Room | None:
        with self._lock:
            room = self._rooms.get(entry.name)
            if room is None or room.entry != entry or room.until < time.monotonic():
                return None
            return self._counted(room)

    def _counted(self, room: _Room) -> _Room:
        room.users += 1
        room.used = time.monotonic()
        return room

    def _leave(self, room: _Room) -> None:
        with self._lock:
            room.users -= 1

    def _opened(self, entry: Entry) -> _Room:
        if entry.stopped:
            return _away(entry, entry.stopped)
        settings = entry.settings()
        if settings is None:
            return _away(entry, "settings", AGAIN_SECONDS)  # the serving process has not read the new ones yet
        held, store = None, Store(settings.server.database)
        try:
            held = lock.join(settings.server.database)
            app = create_app(settings, store, self._clock)
        except Exception as error:  # of whatever kind: it is this clinic's alone
            _Room(entry, NOBODY, store, held).close()
            why = str(error) if isinstance(error, FollowupError) else watch.words_of(error)
            log.error("clinic %s could not be opened: %s", entry.name, why)
            return _away(entry, "database", AGAIN_SECONDS, settings.clinic)
        return _Room(entry, app, store, held)


def host(environ: "WSGIEnvironment") -> str:
    """The host name that was asked for; empty where that is none."""
    return host_name(f"//{environ.get('HTTP_HOST', '')}")


def _away(entry: Entry, stopped: str, seconds: float = float("inf"), clinic: Clinic | None = None) -> _Room:
    known = clinic or Clinic(phone=entry.phone, emergency_phone=entry.emergency_phone, language=entry.language)
    return _Room(entry, create_away(known, stopped), until=time.monotonic() + seconds)
