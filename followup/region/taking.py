"""Taking a clinic's database, each in a thread of its own: one that takes long, fails or hangs keeps no other waiting."""

import os
from collections.abc import Iterator
from concurrent.futures import Future
from contextlib import contextmanager, nullcontext
from pathlib import Path
from threading import Condition, Thread

from followup import logs
from followup.records import lock
from followup.records.opening import check_usable, is_older


class Turns:
    """One upgrade at a time, since they share a disk; of those that wait the smallest is next."""

    def __init__(self) -> None:
        self._changed = Condition()
        self._waiting: list[int] = []
        self._taken = False

    @contextmanager
    def turn(self, size_bytes: int) -> Iterator[None]:
        with self._changed:
            self._waiting.append(size_bytes)
            self._changed.wait_for(lambda: not self._taken and size_bytes == min(self._waiting))
            self._waiting.remove(size_bytes)
            self._taken = True
        try:
            yield
        finally:
            with self._changed:
                self._taken = False
                self._changed.notify_all()


def begun(clinic: str, database: Path, patience_seconds: float, upgrades: Turns) -> Future[int]:
    """The lock of a database that will have been brought up to date, held together with whoever joins it.

    Fails with `StoreError`, with `Closed` where the clinic moves, or with whatever else an upgrade meets.
    """
    taken: Future[int] = Future()

    def take() -> None:
        with logs.about(clinic):
            try:
                taken.set_result(_taken(database, patience_seconds, upgrades))
            except BaseException as error:
                taken.set_exception(error)

    Thread(target=take, daemon=True).start()
    return taken


def let_go(taken: Future[int]) -> None:
    """At once, or as soon as it was taken."""
    taken.add_done_callback(lambda done: None if done.exception() else os.close(done.result()))


def size_bytes(database: Path) -> int:
    try:
        return database.stat().st_size
    except OSError:
        return 0


def _taken(database: Path, patience_seconds: float, upgrades: Turns) -> int:
    if not database.exists():
        check_usable(database)  # says so
    held = lock.take(database, "a server of several clinics is running on it", patience_seconds)
    try:
        with upgrades.turn(size_bytes(database)) if is_older(database) else nullcontext():
            check_usable(database)
        lock.share(held, database)
    except BaseException:
        os.close(held)
        raise
    return held
