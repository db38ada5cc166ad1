"""Who did what: a chain in which every entry carries the hash of the one before it and of every row that it records."""

import json
import sqlite3
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from pathlib import Path
from typing import Any

from sqlite_utils import Database

from followup.records import sealing
from followup.records.migrations import steps
from followup.records.sealing import FIRST
from followup.records.store import Row, Store, as_json
from followup.records.times import to_text
from followup.records.values import AuditEntry, made

HEADS = "audit-heads.txt"
KEYS_WITH_CONTENT = ("refused_events",)
SHOWN = 100
_LAST = 2**62
Head = tuple[str, int, str]
"""When it left this machine, the number of the last entry, and its hash."""
_RESTORED = "restored"
ERASED = "erased"
"""The action of an entry that says which rows, and which details of entries, were emptied."""
EMPTIED = as_json("(erased)")
"""What stands in the place of a detail that was emptied."""


def note(store: Store, at: datetime, who: str, action: str, subject: str, detail: Any = None) -> None:
    """Add an entry; call it inside the transaction of what it records. It is written when that ends, with its facts."""
    entry: Row = {"at": to_text(at), "who": who, "action": action, "subject": subject, "detail": as_json(detail)}
    with store.transaction():
        store.note(entry)


def broken_at(store: Store) -> int | None:
    """The number of the first entry that does not fit the chain, or None when all do.

    An entry whose detail was emptied fits if a later entry of an erasure names it with its hash and what stands now.
    """
    previous, expected, emptied = FIRST, 1, _emptied(store)
    for entry in everything(store):
        number, kept = entry.pop("number"), entry.pop("hash")
        stands = sealing.entry_hash(entry)
        fits = stands == kept or (entry["detail"] == EMPTIED and (number, kept, stands) in emptied)
        if number != expected or entry["previous"] != previous or not fits:
            return int(expected)
        previous, expected = kept, expected + 1
    return None


def _erasures(store: Store) -> Iterator[tuple[int, Row]]:
    """The number of each entry of an erasure, and what it says."""
    for row in store.rows("SELECT number, detail FROM audit WHERE action = :erased ORDER BY number", {"erased": ERASED}):
        yield row["number"], json.loads(row["detail"])


def _emptied(store: Store) -> set[tuple[int, str, str]]:
    return {
        (number, was, stands)
        for erasure, said in _erasures(store)
        for number, was, stands in said["entries"]
        if number < erasure
    }


def of_subject(store: Store, subject: str) -> list[Row]:
    sql = "SELECT number, at, who, action, subject, detail FROM audit WHERE subject = :subject ORDER BY number"
    return store.rows(sql, {"subject": subject})


def latest(store: Store, before: int | None = None) -> list[AuditEntry]:
    """The latest entries, or those before a number."""
    sql = "SELECT * FROM audit WHERE number < :before ORDER BY number DESC LIMIT :most"
    last = max(0, min(before or _LAST, _LAST))  # whatever an address says
    return [made(AuditEntry, row) for row in store.rows(sql, {"before": last, "most": SHOWN})]


def everything(store: Store) -> Iterator[Row]:
    """Every entry in order, with its hash, the one before, and its facts as JSON, however it is kept."""
    yield from sealing.entries(store.db.conn)


def head(store: Store) -> tuple[int, str]:
    """The number and hash of the last entry."""
    return sealing.head(store.db.conn)


def keep_head(store: Store, folder: Path, now: datetime, *, restored: bool = False) -> str:
    """Write the chain's head where the database is not; returns the line. What stood before a restore counts no more."""
    number, hash = head(store)
    line = f"{now:%Y-%m-%dT%H:%M:%SZ} {number} {hash}"
    with (folder / HEADS).open("a", encoding="utf-8") as file:
        file.write(f"{line} {_RESTORED}\n" if restored else f"{line}\n")
    return line


def heads_kept(folder: Path) -> list[Head]:
    """The heads that were written there since the last restore: when, number, hash."""
    try:
        lines = (folder / HEADS).read_text(encoding="utf-8").splitlines()
    except OSError:
        return []
    found: list[Head] = []
    for line in lines:
        at, number, hash, *mark = line.split()
        found = [*([] if mark == [_RESTORED] else found), (at, int(number), hash)]
    return found


def missing_heads(store: Store, heads: Iterable[Head]) -> list[str]:
    """Heads that left this machine and are not in the chain any more: its tail was cut, or it was written anew."""
    last, _ = head(store)
    faults = []
    for at, number, hash in heads:
        found = store.row("SELECT * FROM audit WHERE number = :number", {"number": number})
        if number and (found is None or sealing.hash_of(found) != hash):
            told = "written anew" if found else f"cut: it ends at {last}"
            faults.append(f"audit entry {number}, noted outside on {at}, is not in the chain any more, which was {told}")
    return faults


def tampered(store: Store) -> list[str]:
    """Rows that do not hold what was recorded, that no entry records, or that are gone; guards that are not ours.

    A database of an older schema, such as an old backup, has no entries with facts yet, or other guards.
    """
    if {step.name for step in steps.pending(store.db)}:
        return []
    connection = store.db.conn
    connection.execute("BEGIN")  # what is recorded and what stands, of one moment; at its end the table is gone
    try:
        return [*_not_as_recorded(connection, dict(_erasures(store))), *guards(store)]
    finally:
        connection.execute("ROLLBACK")


def _not_as_recorded(connection: sqlite3.Connection, erasures: dict[int, Row]) -> Iterator[str]:
    """Faults of rows. What the chain records is put into a table beside, since it is as much as the clinic is large."""
    connection.execute(
        "CREATE TEMP TABLE recorded (place TEXT, key TEXT, hash TEXT, number INTEGER, PRIMARY KEY (place, key)) WITHOUT ROWID"
    )
    for number, facts in sealing.recordings(connection):
        for table, key, was in erasures.get(number, {"rows": ()})["rows"]:
            known = connection.execute("SELECT hash FROM recorded WHERE place = ? AND key = ?", (table, key)).fetchone()
            if known != (was,):
                yield f"audit entry {number} emptied {table} {key}, which did not hold what was recorded"
            if table in KEYS_WITH_CONTENT:  # it is known by what it holds, and has another key now
                connection.execute("DELETE FROM recorded WHERE place = ? AND key = ?", (table, key))
        rows = ((table, key, hash, number) for table, key, hash in facts)
        connection.executemany("INSERT OR REPLACE INTO recorded VALUES (?, ?, ?, ?)", rows)
    for table, key, hash in sealing.everything(connection):
        taken = "DELETE FROM recorded WHERE place = ? AND key = ? RETURNING hash, number"
        known = connection.execute(taken, (table, key)).fetchone()
        if known is None:
            yield f"{table} {key} stands there without an audit entry"
        elif known[0] != hash:
            yield f"{table} {key} does not hold what audit entry {known[1]} recorded"
    for table, key, number in connection.execute("SELECT place, key, number FROM recorded ORDER BY number"):
        yield f"{table} {key}, which audit entry {number} recorded, is gone"


def guards(store: Store) -> list[str]:
    """Triggers, tables and indexes that are missing, changed or not ours."""
    whole = Database(memory=True)
    steps.apply(whole)
    ours, here = _schema(whole.conn), _schema(store.db.conn)
    whole.conn.close()
    faults = [f"the {kind} {name} is missing" for kind, name in ours.keys() - here.keys()]
    faults += [f"the {kind} {name} is not one of ours" for kind, name in here.keys() - ours.keys() if kind == "trigger"]
    faults += [
        f"the {kind} {name} is not as it was made"
        for kind, name in ours.keys() & here.keys()
        if kind == "trigger" and ours[kind, name] != here[kind, name]
    ]
    return sorted(faults)


def recorded(connection: sqlite3.Connection, rows: Mapping[str, sealing.Rows]) -> dict[tuple[str, str], str]:
    """The hash that the latest entry has of each of these rows, by table and key; keys None: of a whole table."""
    found: dict[tuple[str, str], str] = {}
    for _, facts in sealing.recordings(connection):
        for table, key, hash in facts:
            if table in rows and ((keys := rows[table]) is None or key in keys):
                found[table, key] = hash
    return found


def unfit(store: Store, facts: Iterable[sealing.Fact]) -> set[tuple[str, str]]:
    """Which of these rows, as they are now, do not fit their entries."""
    held = {(table, key): hash for table, key, hash in facts}
    keys: dict[str, set[str]] = defaultdict(set)
    for table, key in held:
        keys[table].add(key)
    known = recorded(store.db.conn, keys)
    return {row for row, hash in held.items() if known.get(row) != hash}


def _schema(connection: sqlite3.Connection) -> dict[tuple[str, str], str]:
    sql = "SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%' AND name != '_sqlite_migrations'"
    return {(kind, name): " ".join((text or "").replace('"', "").split()) for kind, name, text in connection.execute(sql)}
