"""Copies of the whole database: taken while the clinic works, checked before they count, put back without losing what is there."""

import os
import re
import sqlite3
from contextlib import closing
from datetime import datetime, timedelta
from pathlib import Path

from followup.records import audit
from followup.records.store import Store, StoreError

NAME = re.compile(r"followup-(\d{8}T\d{6})Z\.db")


def faults(store: Store) -> list[str]:
    """What is wrong with a database: its file, its references, its audit chain. Empty when whole."""
    found = store.integrity_faults()
    if (broken := audit.broken_at(store)) is not None:
        found.append(f"the audit chain breaks at entry {broken}")
    return found


def backup(store: Store, folder: Path, now: datetime) -> Path:
    """Copy the database into the folder, check the copy, and return its path. Raises `StoreError`.

    The copy holds patients' data and the clinic's keys, so only its owner may read it.
    """
    folder.mkdir(parents=True, exist_ok=True)
    done = folder / f"followup-{now:%Y%m%dT%H%M%S}Z.db"
    unfinished = done.with_suffix(".unfinished")
    unfinished.touch(mode=0o600)
    _copy(store.path, unfinished)
    checked(unfinished)
    os.replace(unfinished, done)
    return done


def checked(path: Path) -> None:
    """Raise `StoreError` unless this file is a whole database of ours."""
    if not path.is_file():
        raise StoreError(f"there is no backup at {path}")
    store = Store(path)
    try:
        found = faults(store)
    except sqlite3.DatabaseError as error:
        raise StoreError(f"{path} is not a whole backup: {error}") from error
    finally:
        store.close()
    if found:
        raise StoreError(f"{path} is not a whole backup: {found[0]}")


def restore(source: Path, database: Path, now: datetime) -> Path | None:
    """Put a checked backup in the database's place; what stood there is backed up beside it first.

    Returns the path of that copy, or None where there was no database. Raises `StoreError`, and then nothing has changed.
    """
    checked(source)
    before = None
    if database.exists():
        before = database.with_name(f"{database.stem}-before-restore-{now:%Y%m%dT%H%M%S}Z.db")
        before.touch(mode=0o600)
        _copy(database, before)
    _copy(source, database)
    return before


def prune(folder: Path, now: datetime, days: int) -> list[Path]:
    """Delete backups of ours older than that many days, never the latest; returns what was deleted."""
    kept = sorted((found[1], path) for path in folder.iterdir() if (found := NAME.fullmatch(path.name)))
    oldest = f"{now - timedelta(days=days):%Y%m%dT%H%M%S}"
    old = [path for stamp, path in kept[:-1] if stamp < oldest]
    for path in old:
        path.unlink()
    return old


def _copy(source: Path, target: Path) -> None:
    """SQLite's own online copy: whole even while others write to the source or read the target."""
    try:
        from_file = sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)
        with closing(from_file) as reader, closing(sqlite3.connect(target)) as writer:
            reader.backup(writer)
    except sqlite3.Error as error:
        raise StoreError(f"{source} could not be copied to {target}: {error}") from error
