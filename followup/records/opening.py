"""Opening a clinic's database: brought up to date, with a copy of what it was."""

import sqlite3
from datetime import UTC, datetime
from pathlib import Path

from followup.records import audit
from followup.records.migrations import steps
from followup.records.store import Store, StoreError, copy_database, keep_private


def open_store(path: Path | str, *, create: bool = False) -> Store:
    """Open a clinic's database and bring its schema up to date; an older one is copied beside itself first.

    Raises `StoreError` if the file is missing (unless `create`), or is no database of ours.
    """
    path = Path(path)
    if not create and not path.exists():
        raise StoreError(f"there is no database at {path}; make one with “followup init”")
    path.parent.mkdir(parents=True, exist_ok=True)
    keep_private(path)
    store = Store(path)
    try:
        store.db.conn.execute("PRAGMA journal_mode = WAL")
        pending = steps.pending(store.db)
        if pending and steps.applied(store.db):
            now = datetime.now(UTC)
            copy_database(path, path.with_name(f"{path.stem}-before-{pending[0].name}-{now:%Y%m%dT%H%M%S%f}Z.db"))
            fitted = "facts" in store.db["audit"].columns_dict
            unfit = audit.unfit(store) if fitted else set()
            steps.apply(store.db)
            audit.seal_all(store, now, unfit, f"schema changed from {pending[0].name}")
        else:
            steps.apply(store.db)
    except sqlite3.DatabaseError as error:
        store.close()
        raise StoreError(f"{path} cannot be used as a database: {error}") from error
    return store
