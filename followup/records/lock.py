"""One server on one database: a lock on a file beside it, which the system itself releases when its holders are gone."""

import fcntl
import os
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from followup.records.store import StoreError

PATIENCE_SECONDS = 2.0  # the children of a server that was killed take a moment to go


@contextmanager
def held(database: Path, doing: str) -> Iterator[int]:
    """Hold the database's lock; gives its descriptor, which child processes may share.

    Raises `StoreError` if somebody else holds it, saying who: `doing` is what they will read of this process.
    """
    descriptor = take(database, doing, PATIENCE_SECONDS)
    try:
        yield descriptor
    finally:
        os.close(descriptor)


def take(database: Path, doing: str, patience_seconds: float = 0) -> int:
    """Take the lock alone, until the descriptor that it gives is closed. Raises `StoreError` as `held` does."""
    database = database.resolve()
    path = database.with_name(database.name + "-lock")
    path.parent.mkdir(parents=True, exist_ok=True)
    descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        patient_until = time.monotonic() + patience_seconds
        while not _took(descriptor):
            if time.monotonic() >= patient_until:
                who = os.pread(descriptor, 200, 0).decode(errors="replace").strip() or "another process"
                raise StoreError(f"{database} is in use: {who}; stop that first")
            time.sleep(0.05)
        os.ftruncate(descriptor, 0)
        os.pwrite(descriptor, f"{doing} (process {os.getpid()})".encode(), 0)
    except BaseException:
        os.close(descriptor)
        raise
    return descriptor


def share(descriptor: int, database: Path) -> None:
    """Go on holding it together with others that `join`: nobody can take it alone until the last of them is gone.

    Raises `StoreError` where somebody took it in between.
    """
    if not _took(descriptor, fcntl.LOCK_SH):
        raise StoreError(f"{database} is in use: another process took it; stop that first")


def join(database: Path) -> int:
    """Hold it together with the process that `share`s it, until the descriptor is closed. Raises `StoreError`."""
    database = database.resolve()
    try:
        descriptor = os.open(database.with_name(database.name + "-lock"), os.O_RDWR)
    except OSError as error:
        raise StoreError(f"{database} is served by nobody: {error.strerror}") from error
    if not _took(descriptor, fcntl.LOCK_SH):
        os.close(descriptor)
        raise StoreError(f"{database} is in use by another process")
    return descriptor


def _took(descriptor: int, how: int = fcntl.LOCK_EX) -> bool:
    try:
        fcntl.flock(descriptor, how | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
