"""Opening a clinic's database: brought up to date, with a copy of what it was."""

import sqlite3
from datetime import UTC, datetime
from pathlib import Path

from sqlite_utils import Database

from followup.records import keys
from followup.records.migrations import steps
from followup.records.store import Closed, Store, StoreError, copy_database, keep_private, remove
from followup.records.upgrading import upgrade


def open_store(path: Path | str, *, create: bool = False) -> Store:
    """Open a clinic's database and bring its schema up to date; an older one is copied beside itself first.

    Raises `StoreError` if the file is missing (unless `create`), is no database of ours, or one of a newer version; `Closed`
    if its schema is older and the clinic was closed for its move.
    """
    path = Path(path)
    if not create and not path.exists():
        raise StoreError(f"there is no database at {path}; make one with “followup init”")
    path.parent.mkdir(parents=True, exist_ok=True)
    if not create:
        _check_ours(path)
    keep_private(path)
    store = Store(path)
    try:
        if later := later_steps(store):
            raise StoreError(
                f"{path} was made by a newer version (it has the step {later[0]}): start that version, or restore a copy "
                "from before the upgrade; nothing was changed"
            )
        store.db.conn.execute("PRAGMA journal_mode = WAL")
        pending = steps.pending(store.db)
        if pending and store.closed:
            raise Closed(path)  # its last copy is as it was closed
        if pending:
            now = datetime.now(UTC)
            before = path.with_name(f"{path.stem}-before-{pending[0].name}-{now:%Y%m%dT%H%M%S%f}Z.db")
            if steps.applied(store.db):
                copy_database(path, before)
            try:
                upgrade(store, now)
            except BaseException:
                remove(before)  # nothing was changed, and whoever serves tries again and again
                raise
    except StoreError:
        store.close()
        raise
    except sqlite3.DatabaseError as error:
        store.close()
        raise StoreError(f"{path} cannot be used as a database: {error}") from error
    return store


def check_usable(path: Path) -> None:
    """Open what is to be served once, brought up to date. Raises `StoreError` also where its keys cannot be read, without
    which no worker starts, and `Closed` where the clinic moves: it is served elsewhere by now, or soon.
    """
    store = open_store(path)
    try:
        if store.closed:
            raise Closed(path)
        keys.check_outside(store)
    finally:
        store.close()


def is_older(path: Path) -> bool:
    """Whether to open it takes steps of the schema, with a copy before; False for what is none of ours."""
    store = Store(path)
    try:
        return bool(steps.applied(store.db) and steps.pending(store.db))
    except sqlite3.DatabaseError:
        return False
    finally:
        store.close()


def check_ours(store: Store) -> None:
    """Raise `StoreError` for an empty file and for another program's: no step of ours was ever applied to it."""
    if not steps.applied(store.db):
        raise StoreError(f"{store.path} is no database of followup; nothing was changed")


def _check_ours(path: Path) -> None:
    """The same before anything of the file is changed, by a connection that is closed again."""
    store = Store(path)
    try:
        check_ours(store)
    except sqlite3.DatabaseError as error:
        raise StoreError(f"{path} cannot be used as a database: {error}") from error
    finally:
        store.close()


def later_steps(store: Store) -> list[str]:
    """Steps of the schema that this version does not know."""
    known = {step.name for step in steps.pending(Database(memory=True))}
    return [step.name for step in steps.applied(store.db) if step.name not in known]
