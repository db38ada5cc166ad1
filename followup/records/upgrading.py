"""Steps of the schema, all in one transaction with the audit entries that record anew what they wrote.

Only that is read: rows that a step wrote, and whole tables that it made anew. So a step that writes to no sealed table
costs the same however large the clinic is.
"""

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing
from datetime import datetime
from itertools import islice

from followup.records import audit, sealing
from followup.records.migrations import steps
from followup.records.sealing import Fact, Rows
from followup.records.store import Row, Store
from followup.records.times import to_text

AT_ONCE = 500
"""Rows that one entry records."""


def upgrade(store: Store, at: datetime) -> None:
    """Run what steps are pending. Raises what SQLite does, and then nothing has changed."""
    connection = store.db.conn
    connection.execute("BEGIN IMMEDIATE")
    try:
        pending, old = steps.pending(store.db), bool(steps.applied(store.db))
        sealed = "facts" in store.db["audit"].columns_dict
        writes = sealing.Writes(connection)
        steps.apply(store.db)
        if old and pending:
            with closing(sqlite3.connect(store.path)) as former:  # what it reads is as it was until this has ended
                sealing.know_digests(former)
                new = _unrecorded(connection, former, writes.found()) if sealed else sealing.everything(connection)
                _record(connection, new, at, f"schema changed from {pending[0].name}")
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")
    store.close()  # what noted the writes goes with the connection


def _unrecorded(connection: sqlite3.Connection, former: sqlite3.Connection, written: Mapping[str, Rows]) -> Iterator[Fact]:
    """What the chain does not have of these rows; never of one that did not fit before: that would cover it up."""
    known = {table: keys for table, keys in written.items() if sealing.stands(former, table)}
    recorded = audit.recorded(former, known) if known else {}
    for table, keys in written.items():
        unfit = {key for _, key, hash in sealing.of_rows(former, table, keys) if recorded.get((table, key)) != hash}
        for fact in sealing.of_rows(connection, table, keys):
            if fact[1] not in unfit and recorded.get(fact[:2]) != fact[2]:
                yield fact


def _record(connection: sqlite3.Connection, facts: Iterator[Fact], at: datetime, why: str) -> None:
    entry: Row = {"at": to_text(at), "who": "followup", "action": why, "subject": "facts", "detail": "null"}
    while some := list(islice(facts, AT_ONCE)):
        sealing.write(connection, entry, some)
