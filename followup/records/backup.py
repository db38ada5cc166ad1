"""Copies of the whole database: taken while the clinic works, checked before they count, put back without losing what is there."""

import glob
import os
import re
import sqlite3
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from datetime import datetime, timedelta
from pathlib import Path

from followup.records import audit, generation, moving
from followup.records.lock import held
from followup.records.migrations import steps
from followup.records.opening import later_steps
from followup.records.store import FAMILY, Store, StoreError, copy_database, keep_private, remove

BEFORE_ROTATION = "before-rotation"
"""The folder beside the database for its copy from before it got new keys."""
NAME = re.compile(r"followup-(\d{8}T\d{6})Z\.db")


def faults(store: Store, heads: Sequence[audit.Head] = ()) -> list[str]:
    """What is wrong with a database: its file, its references, its audit chain, and rows and guards that were tampered with.

    `heads` are those of the chain that left this machine. Empty when whole.
    """
    damage = store.damage()
    if damage:
        return damage
    try:
        broken = audit.broken_at(store)
        chain = [] if broken is None else [f"the audit chain breaks at entry {broken}"]
        return store.dangling() + chain + audit.missing_heads(store, heads) + audit.tampered(store)
    except sqlite3.DatabaseError as error:
        return [f"the database file is damaged ({error})"]


def backup(store: Store, folder: Path, now: datetime) -> Path:
    """Copy the database into the folder, check the copy, and return its path. Raises `StoreError`.

    The copy holds patients' data and the clinic's keys, so only its owner may read it.
    """
    folder.mkdir(parents=True, exist_ok=True)
    done = folder / f"followup-{now:%Y%m%dT%H%M%S}Z.db"
    unfinished = done.with_suffix(".unfinished")
    copy_database(store.path, unfinished)
    try:
        checked(unfinished)
    except BaseException:
        remove(unfinished)
        raise
    os.replace(unfinished, done)
    return done


def checked(path: Path, named: Path | None = None) -> None:
    """Raise `StoreError` unless this file, `named` as people know it, is a whole database of ours."""
    _there(path)
    store = Store(path)
    try:
        found = faults(store) if is_ours(store) else ["it is not a database of followup, or of a later version"]
    except sqlite3.DatabaseError as error:
        found = [str(error)]
    finally:
        store.close()
    if found:
        raise StoreError(f"{named or path} is not a whole backup: {found[0]}")


def _there(path: Path) -> None:
    """Raise `StoreError` for a file that is missing, before anything would make an empty one in its place."""
    if not path.is_file():
        raise StoreError(f"there is no backup at {path}")


def is_ours(store: Store) -> bool:
    """Whether our own steps made it, and none that this version does not know."""
    return bool(steps.applied(store.db)) and not later_steps(store)


def restore(source: Path, database: Path, now: datetime, *, closed: bool = False) -> Path | None:
    """Put a checked backup in the database's place; what stood there is backed up beside it first. Phones send again what
    they still hold, unless it is the copy of a `closed` clinic, which lacks nothing.

    Returns the path of that copy, or None where there was no database. Raises `StoreError`, and then nothing has changed:
    also while a server runs on the database, which would go on writing to what is put aside, and for a copy of a closed
    clinic that was made before it closed, or that would take the place of a clinic which still works.
    """
    database = database.resolve()
    with _taken(source, database) as copy, held(database, "a restore is running"):
        before = None
        if closed and not _is_closed(copy):
            raise StoreError(
                f"{source} was copied before the clinic was closed, so what came later is missing: copy it again"
            )
        if closed and database.exists() and not _is_closed(database):
            raise StoreError(f"the clinic at {database} is not closed: a copy that moves here would take its place")
        _begin(copy, now, anew=not closed)  # before it is in place: else a database could stand whose phones send nothing
        if database.exists():
            before = database.with_name(f"{database.stem}-before-restore-{now:%Y%m%dT%H%M%S}Z.db")
            copy_database(database, before)
        copy_database(copy, database)
    return before


def _begin(copy: Path, now: datetime, *, anew: bool) -> None:
    """Make a copy what will go on: open, and unless it lacks nothing another life of the database."""
    store = Store(copy)
    try:
        if store.closed:
            moving.reopen(store, now)
        if anew:
            generation.begin_anew(store)
    except sqlite3.DatabaseError as error:
        raise StoreError(f"{copy} could not be written: {error}") from error
    finally:
        store.close()


@contextmanager
def _taken(source: Path, database: Path) -> Iterator[Path]:
    """A checked copy of the backup, beside the database as long as it is needed. Raises `StoreError`.

    The backup itself may lie where nothing can be written, and nothing is left beside it.
    """
    _there(source)
    database.parent.mkdir(parents=True, exist_ok=True)
    copy = database.with_name(f"{database.stem}-restoring-{os.getpid()}.db")
    try:
        _read(source, copy)
        checked(copy, source)
        yield copy
    finally:
        remove(copy)


def _read(source: Path, copy: Path) -> None:
    """SQLite's own copy of a file that nobody writes to. Raises `StoreError`."""
    keep_private(copy)
    beside = [source.with_name(source.name + ending) for ending in FAMILY if ending in ("-wal", "-journal")]
    alone = not any(file.exists() and file.stat().st_size for file in beside)  # else it holds what the file does not yet
    before = source.stat()
    address = f"{source.absolute().as_uri()}?mode=ro" + ("&immutable=1" if alone else "")
    try:
        with closing(sqlite3.connect(address, uri=True)) as reader, closing(sqlite3.connect(copy)) as writer:
            reader.backup(writer)
    except sqlite3.DatabaseError as error:
        raise StoreError(f"{source} is not a whole backup: {error}") from error
    after = source.stat()
    if (before.st_mtime_ns, before.st_size) != (after.st_mtime_ns, after.st_size):
        raise StoreError(f"{source} was written to while it was read: a program is at work on it; name a copy")


def _is_closed(path: Path) -> bool:
    store = Store(path)
    try:
        return store.closed
    finally:
        store.close()


def copies_beside(database: Path) -> list[Path]:
    """Copies of it that were put aside: before its schema changed, a restore, and new keys."""
    rotated = database.parent / BEFORE_ROTATION
    return sorted([*database.parent.glob(f"{glob.escape(database.stem)}-before-*.db"), *rotated.glob("followup-*.db")])


def prune(folder: Path, now: datetime, days: int) -> list[Path]:
    """Delete backups of ours older than that many days, never one of the latest that many; returns what was deleted.

    So a clock that jumps ahead makes none of them go at once: each new copy takes one with it.
    """
    kept = sorted((found[1], path) for path in folder.iterdir() if (found := NAME.fullmatch(path.name)))
    oldest = f"{now - timedelta(days=days):%Y%m%dT%H%M%S}"
    old = [path for stamp, path in kept[:-days] if stamp < oldest]
    for path in old:
        path.unlink()
    return old
