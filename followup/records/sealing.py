"""Which rows the audit chain vouches for, and how it hears of every write to them.

Each connection of ours has temporary triggers that note the key of every row written. When the transaction ends, the
hashes of those rows go into its audit entry (`close`). Whoever writes past us leaves a row without an entry, an
entry without a row, or a row that does not hold what its entry says.
"""

import hashlib
import json
import sqlite3
from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from followup.records import packing
from followup.records.packing import Fact as Fact
from followup.records.reading import named
from followup.records.times import to_text

FIRST = "0" * 64
_AS_JSON = json.JSONEncoder(ensure_ascii=False, sort_keys=True, separators=(",", ":"), default=str)
_UNPACKED = ("previous", "hash", "facts")
"""Columns of entries from before these were packed."""


@dataclass(frozen=True, slots=True)
class Sealed:
    """A table: how a row of it is known, and the columns that may change without being noted."""

    key: str = "{row}id"
    aside: tuple[str, ...] = ()


SEALED: dict[str, Sealed] = {
    "operation_records": Sealed(),
    "visits": Sealed(),
    "events": Sealed(),
    "looks": Sealed(),
    "warnings": Sealed(),
    "warning_grounds": Sealed("{row}number"),
    "callback_steps": Sealed(),
    "follow_ups": Sealed(),
    "protocol_texts": Sealed(),
    "signatures": Sealed(),
    "refused_events": Sealed("digest({row}id || '/' || coalesce({row}device_id, '') || '/' || {row}text)"),
    "staff": Sealed(aside=("totp_last",)),
    "patients": Sealed(),
    "eyes": Sealed(),
    "operations": Sealed(),
    "devices": Sealed(aside=("heard_at",)),
    "callbacks": Sealed(),
    "tasks": Sealed(),
    "closures": Sealed("{row}number"),
    "visits_to_tell": Sealed("{row}visit_id"),
    "listed_operations": Sealed(),
    "consents": Sealed(),
    "passkeys": Sealed(),
}


Rows = Set[str] | None
"""Keys of rows of a table; None for all of them."""


def know_digests(connection: sqlite3.Connection) -> None:
    """Give a connection the function by which rows are known that have no short key of their own."""
    connection.create_function("digest", 1, lambda text: hashlib.sha256(str(text).encode()).hexdigest(), deterministic=True)


def listen(connection: sqlite3.Connection, *, every_column: bool = False) -> None:
    """Note the key of every sealed row that this connection writes from now on; with `every_column`, whatever in it."""
    connection.execute("CREATE TEMP TABLE IF NOT EXISTS touched (place TEXT NOT NULL, key TEXT NOT NULL)")
    for table, sealed in _standing(connection):
        noted = f"INSERT INTO touched VALUES ('{table}', {sealed.key.format(row='NEW.')});"
        columns = ", ".join(name for name in _columns(connection, table) if name not in sealed.aside)
        for verb in ("INSERT", "UPDATE" if every_column else f"UPDATE OF {columns}"):
            name = f"touched_{table}_{verb[:6].lower()}"
            connection.execute(f"CREATE TEMP TRIGGER IF NOT EXISTS {name} AFTER {verb} ON main.{table} BEGIN {noted} END")


def touched(connection: sqlite3.Connection) -> list[Fact]:
    """The rows written since last asked, as they are now."""
    return [fact for table, key in _touched(connection) for fact in of_table(connection, table, key)]


def _touched(connection: sqlite3.Connection) -> list[tuple[str, str]]:
    found = connection.execute("SELECT DISTINCT place, key FROM temp.touched ORDER BY rowid").fetchall()
    if found:
        connection.execute("DELETE FROM temp.touched")
    return found


class Writes:
    """Which sealed rows are written from here on by steps of the schema, on a connection that does nothing else later."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        self._columns = {table: set(_defaults(connection, table)) for table, _ in _standing(connection)}
        listen(connection, every_column=True)

    def found(self) -> dict[str, Rows]:
        """The keys of rows that were written, by table; None for a table that may hold something else in every row."""
        found: dict[str, set[str] | None] = {
            table: None for table, _ in _standing(self._connection) if self._is_other(table)
        }
        for table, key in _touched(self._connection):
            keys = found.setdefault(table, set())
            if keys is not None:
                keys.add(str(key))
        return dict(found)

    def _is_other(self, table: str) -> bool:
        """Whether it was made anew, lost a column, or has one more that is not empty at first."""
        sql = "SELECT 1 FROM temp.sqlite_master WHERE name = ? AND tbl_name = ?"
        listened = self._connection.execute(sql, (f"touched_{table}_insert", table)).fetchone()
        defaults, before = _defaults(self._connection, table), self._columns.get(table, set())
        added = (default for name, default in defaults.items() if name not in before)
        return listened is None or not before <= set(defaults) or any(default not in (None, "''") for default in added)


def of_table(connection: sqlite3.Connection, table: str, key: str | None = None) -> Iterator[Fact]:
    """The facts of a table, or of its rows of one key."""
    sealed = SEALED[table]
    shown = f"CAST({sealed.key.format(row='')} AS TEXT)"
    where, given = (f" WHERE {shown} = ?", (key,)) if key is not None else ("", ())
    if key is not None and sealed.key == "{row}id":
        where = " WHERE id = ?"  # by its index
    cursor = connection.execute(f"SELECT {shown}, * FROM {table}{where}", given)
    names = [column[0] for column in cursor.description][1:]
    for row in cursor:
        yield table, str(row[0]), _hash_of_text(canonical(table, dict(zip(names, row[1:], strict=True))))


def of_rows(connection: sqlite3.Connection, table: str, keys: Rows) -> Iterator[Fact]:
    """The facts of some rows of a table, or of all; of none where there is no such table."""
    if not stands(connection, table):
        return
    if keys is None:
        yield from of_table(connection, table)
    for key in keys or ():
        yield from of_table(connection, table, key)


def stands(connection: sqlite3.Connection, table: str) -> bool:
    """Whether there is such a table."""
    return (
        connection.execute("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?", (table,)).fetchone() is not None
    )


def key_of_refused(row: dict[str, Any]) -> str:
    """How a row of refused events is known: it has no short key of its own."""
    told = f"{row['id']}/{row['device_id'] or ''}/{row['text']}"
    return hashlib.sha256(told.encode()).hexdigest()


def everything(connection: sqlite3.Connection) -> Iterator[Fact]:
    """Every fact that stands."""
    for table, _ in _standing(connection):
        yield from of_table(connection, table)


def canonical(table: str, row: dict[str, Any]) -> str:
    """What the hash of a row is taken of. What is empty is left out, so that a column added later changes nothing."""
    aside = SEALED[table].aside
    return as_json({name: held for name, held in row.items() if name not in aside and held is not None and held != ""})


def close(connection: sqlite3.Connection, notes: Sequence[dict[str, Any]]) -> None:
    """Write the entries of a transaction that ends; the last of them records every row that was written."""
    facts = touched(connection)
    if facts and not notes:
        at = to_text(datetime.now(UTC))
        notes = [{"at": at, "who": "followup", "action": "recorded", "subject": facts[0][0], "detail": "null"}]
    for n, entry in enumerate(notes, 1):
        write(connection, entry, facts if n == len(notes) else [])


def write(connection: sqlite3.Connection, entry: dict[str, Any], facts: list[Fact]) -> None:
    """Add one entry to the chain."""
    row, _ = linked(entry, head(connection)[1], facts)
    connection.execute(f"INSERT INTO audit ({', '.join(row)}) VALUES ({', '.join(':' + name for name in row)})", row)


def head(connection: sqlite3.Connection) -> tuple[int, str]:
    """The number and hash of the last entry."""
    for row in named(connection.execute("SELECT * FROM audit WHERE number = (SELECT max(number) FROM audit)")):
        return row["number"], hash_of(row)
    return 0, FIRST


def hash_of(row: dict[str, Any]) -> str:
    """The hash of an entry as the chain keeps it."""
    held = row.get("packed")
    return str(row["hash"]) if held is None else packing.hash_of(held)


def entries(connection: sqlite3.Connection) -> Iterator[dict[str, Any]]:
    """The whole chain in order, each entry as `opened`."""
    before = FIRST
    for row in named(connection.execute("SELECT * FROM audit ORDER BY number")):
        entry = opened(row, before)
        before = entry["hash"]
        yield entry


def linked(entry: dict[str, Any], previous: str, facts: Sequence[Fact]) -> tuple[dict[str, Any], str]:
    """An entry as the chain keeps it after the one with the hash `previous`, and its own hash."""
    hash = entry_hash({**entry, "previous": previous, "facts": json.dumps(facts) if facts else ""})
    return {**entry, **dict.fromkeys(_UNPACKED, ""), "packed": packing.packed(hash, facts)}, hash


def opened(row: dict[str, Any], before: str) -> dict[str, Any]:
    """An entry as it was hashed, after the one with the hash `before`: with previous, hash and facts as text.

    What somebody else packed, or put beside it, stays as it is, and so has another hash than its own.
    """
    entry = dict(row)
    held = entry.pop("packed", None)
    if held is None:
        return entry
    try:
        hash, facts = packing.unpacked(held)
    except (ValueError, TypeError):
        return row
    if any(entry[name] for name in _UNPACKED):
        return row
    return entry | {"previous": before, "hash": hash, "facts": json.dumps(facts) if facts else ""}


def recordings(connection: sqlite3.Connection) -> Iterator[tuple[int, list[Fact]]]:
    """The number of each entry that records rows, in order, and these; none where they cannot be read: the chain breaks there."""
    packed = "packed" if "packed" in _columns(connection, "audit") else "NULL"
    some = f"facts != '' OR length({packed}) > {packing.LONG}"
    for number, facts, held in connection.execute(f"SELECT number, facts, {packed} FROM audit WHERE {some} ORDER BY number"):
        try:
            told = packing.unpacked(held)[1] if held is not None else json.loads(facts)
            found = [(table, key, hash) for table, key, hash in told]
        except (ValueError, TypeError):
            found = []
        yield number, found


def entry_hash(entry: dict[str, Any]) -> str:
    """The hash of an entry without its own; entries from before they recorded facts have none."""
    return _hash({name: value for name, value in entry.items() if name != "facts" or value})


def as_json(value: Any) -> str:
    return _AS_JSON.encode(value)


def _hash(value: Any) -> str:
    return _hash_of_text(as_json(value))


def _hash_of_text(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()


def _standing(connection: sqlite3.Connection) -> list[tuple[str, Sealed]]:
    tables = {name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    return [(table, sealed) for table, sealed in SEALED.items() if table in tables]


def _columns(connection: sqlite3.Connection, table: str) -> list[str]:
    return list(_defaults(connection, table))


def _defaults(connection: sqlite3.Connection, table: str) -> dict[str, str | None]:
    """What each column of a table holds at first, as SQL."""
    return {str(row[1]): row[4] for row in connection.execute(f"PRAGMA table_info({table})")}
