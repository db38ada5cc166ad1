"""Copies of the whole database: taken while the clinic works, checked before they count, put back without losing what is there."""

import os
import re
import sqlite3
from collections.abc import Sequence
from datetime import datetime, timedelta
from pathlib import Path

from followup.records import audit, generation, moving
from followup.records.lock import held
from followup.records.migrations import steps
from followup.records.opening import later_steps
from followup.records.store import Store, StoreError, copy_database

NAME = re.compile(r"followup-(\d{8}T\d{6})Z\.db")


def faults(store: Store, heads: Sequence[audit.Head] = ()) -> list[str]:
    """What is wrong with a database: its file, its references, its audit chain, and rows and guards that were tampered with.

    `heads` are those of the chain that left this machine. Empty when whole.
    """
    found = store.integrity_faults()
    if found:
        return found
    try:
        broken = audit.broken_at(store)
        chain = [] if broken is None else [f"the audit chain breaks at entry {broken}"]
        return chain + audit.missing_heads(store, heads) + audit.tampered(store)
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
    checked(unfinished)
    os.replace(unfinished, done)
    return done


def checked(path: Path) -> None:
    """Raise `StoreError` unless this file is a whole database of ours."""
    if not path.is_file():
        raise StoreError(f"there is no backup at {path}")
    store = Store(path)
    try:
        found = faults(store) if is_ours(store) else ["it is not a database of followup, or of a later version"]
    except sqlite3.DatabaseError as error:
        found = [str(error)]
    finally:
        store.close()
    if found:
        raise StoreError(f"{path} is not a whole backup: {found[0]}")


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
    with held(database, "a restore is running"):
        checked(source)
        before = None
        if closed and not _is_closed(source):
            raise StoreError(
                f"{source} was copied before the clinic was closed, so what came later is missing: copy it again"
            )
        if closed and database.exists() and not _is_closed(database):
            raise StoreError(f"the clinic at {database} is not closed: a copy that moves here would take its place")
        if database.exists():
            before = database.with_name(f"{database.stem}-before-restore-{now:%Y%m%dT%H%M%S}Z.db")
            copy_database(database, before)
        copy_database(source, database)
        restored = Store(database)
        if restored.closed:
            moving.reopen(restored, now)
        if not closed:
            generation.begin_anew(restored)
        restored.close()
    return before


def _is_closed(path: Path) -> bool:
    store = Store(path)
    try:
        return store.closed
    finally:
        store.close()


def prune(folder: Path, now: datetime, days: int) -> list[Path]:
    """Delete backups of ours older than that many days, never the latest; returns what was deleted."""
    kept = sorted((found[1], path) for path in folder.iterdir() if (found := NAME.fullmatch(path.name)))
    oldest = f"{now - timedelta(days=days):%Y%m%dT%H%M%S}"
    old = [path for stamp, path in kept[:-1] if stamp < oldest]
    for path in old:
        path.unlink()
    return old
