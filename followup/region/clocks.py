"""The clock of several clinics in one process: each has its own jobs, in threads of its own, so that none holds up another."""

import logging
import os
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from threading import Thread

from followup import jobs, logs
from followup.errors import FollowupError
from followup.records import Store, lock, open_store, watch
from followup.region.register import Entry, Register

log = logging.getLogger(__name__)
AGAIN_SECONDS = 5  # what could not be started, or ended, is tried again


@dataclass
class _Clock:
    entry: Entry
    store: Store
    lock: int
    jobs: jobs.Running

    def stop(self) -> None:
        """Once the jobs that run have ended, nobody holds the database."""
        try:
            self.jobs.stop(wait=True)
        finally:
            self.store.let_go()
            os.close(self.lock)


class Clocks:
    """Starts the jobs of each clinic that is served, and ends them with it."""

    def __init__(self, register: Register, clock: Callable[[], datetime]) -> None:
        self._register, self._clock = register, clock
        self._running: dict[str, _Clock] = {}
        self._starting: set[str] = set()
        self._again: dict[str, float] = {}

    def look(self) -> None:
        """Whether all are still asked for; call it each second."""
        served = {entry.name: entry for entry in self._register.entries if not entry.stopped}
        for name, one in list(self._running.items()):
            steady = one.jobs.keep_time()
            if served.get(name) == one.entry and steady:
                continue
            del self._running[name]
            with logs.about(name):
                if not steady:
                    log.error("the clock of clinic %s ended; starting it again", name)
                    self._again[name] = time.monotonic() + AGAIN_SECONDS
            Thread(target=one.stop, daemon=True).start()
        for name, entry in served.items():
            if name in self._starting or name in self._running or self._again.get(name, 0.0) > time.monotonic():
                continue
            self._starting.add(name)
            Thread(target=self._start, args=(entry,), daemon=True).start()

    @property
    def running(self) -> set[str]:
        return set(self._running)

    def _start(self, entry: Entry) -> None:
        """In a thread of its own: its database may be held by somebody else."""
        with logs.about(entry.name):
            try:
                self._try_to_start(entry)
            finally:
                self._starting.remove(entry.name)

    def _try_to_start(self, entry: Entry) -> None:
        held, store = None, None
        try:
            settings = entry.settings()
            if settings is None:
                return  # the serving process reads the new ones
            held = lock.join(settings.server.database)
            store = open_store(settings.server.database)
            self._running[entry.name] = _Clock(entry, store, held, jobs.Running(store, settings, self._clock))
        except Exception as error:  # of whatever kind: it is this clinic's alone
            if store is not None:
                store.let_go()
            if held is not None:
                os.close(held)
            why = str(error) if isinstance(error, FollowupError) else watch.words_of(error)
            log.error("the clock of clinic %s could not be started: %s", entry.name, why)
            self._again[entry.name] = time.monotonic() + AGAIN_SECONDS
