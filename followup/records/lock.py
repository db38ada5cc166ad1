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
    database = database.resolve()
    path = database.with_name(database.name + "-lock")
    path.parent.mkdir(parents=True, exist_ok=True)
    descriptor = os.open(path, os.O_RDWR | os.O_CREAT, 0o600)
    try:
        patient_until = time.monotonic() + PATIENCE_SECONDS
        while not _took(descriptor):
            if time.monotonic() > patient_until:
                who = os.pread(descriptor, 200, 0).decode(errors="replace").strip() or "another process"
                raise StoreError(f"{database} is in use: {who}; stop that first")
            time.sleep(0.05)
        os.ftruncate(descriptor, 0)
        os.pwrite(descriptor, f"{doing} (process {os.getpid()})".encode(), 0)
        yield descriptor
    finally:
        os.close(descriptor)


def _took(descriptor: int) -> bool:
    try:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return False
    return True
