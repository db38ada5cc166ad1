"""Who did what: a chain in which every entry carries the hash of the one before it and of every row that it records."""

import json
import os
import re
import sqlite3
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from sqlite_utils import Database

from followup.records import sealing
from followup.records.generation import generation
from followup.records.migrations import steps
from followup.records.sealing import FIRST
from followup.records.store import Row, Store, as_json
from followup.records.times import to_text
from followup.records.values import AuditEntry, made

HEADS = "audit-heads.txt"
KEYS_WITH_CONTENT = ("refused_events",)
SHOWN = 100
_LAST = 2**62
_RESTORED = "restored"
_LIFE = "[0-9a-f]{64}|[0-9a-f]{8}(?:-[0-9a-f]{4}){3}-[0-9a-f]{12}"
_HEAD = re.compile(
    rf"(?P<at>\S+) (?P<number>[0-9]+) (?P<hash>[0-9a-f]{{64}})(?: (?P<life>{_LIFE}))?(?P<restored> {_RESTORED})?"
)
ERASED = "erased"
"""The action of an entry that says which rows, and which details of entries, were emptied."""
EMPTIED = as_json("(erased)")
"""What stands in the place of a detail that was emptied."""


class Head(NamedTuple):
    """When a head left this machine, the number of the last entry, and its hash; the life of the database that it is of
    (empty where it does not say), and whether that began with it, by a restore."""

    at: str
    number: int
    hash: str
    life: str = ""
    restored: bool = False


def note(store: Store, at: datetime, who: str, action: str, subject: str, detail: Any = None) -> None:
    """Add an entry, inside the transaction of what it records: it is written when that ends, with its facts. Or alone, at once."""
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


def life(store: Store) -> str:
    """Tells this database's chain from those of other clinics, and from copies of this one that were put back elsewhere.

    Empty as long as there is no entry.
    """
    first = next(everything(store), None)
    return generation(store) or (str(first["hash"]) if first else "")


def keep_head(store: Store, folder: Path, now: datetime, *, restored: bool = False) -> str:
    """Write the chain's head where the database is not; returns the line. Of a database that was put in the place of
    another, what was noted of that counts no more."""
    number, hash = head(store)
    line = f"{now:%Y-%m-%dT%H:%M:%SZ} {number} {hash}"
    if number:
        line += f" {life(store)}" + (f" {_RESTORED}" if restored else "")
    path = folder / HEADS
    ending = path.read_bytes()[-1:] if path.exists() else b""
    apart = "" if ending in (b"", b"\n") else "\n"  # a line that was cut off takes none with it
    with open(path, "a", encoding="utf-8", opener=_private) as file:
        file.write(f"{apart}{line}\n")
    return line


def _private(path: str, flags: int) -> int:
    return os.open(path, flags, 0o600)


def heads_kept(folder: Path) -> list[Head]:
    """The heads that were written there, in order; those of before the first entry say nothing."""
    read = [(found["at"], int(found["number"]), found) for _, found in _lines(folder) if found]
    return [Head(at, n, f["hash"], f["life"] or "", bool(f["restored"])) for at, n, f in read if n]


def heads_unread(folder: Path) -> list[str]:
    """Lines there that are no head: cut off when a disk was full or power failed, or changed."""
    return [
        f"line {number} of {folder / HEADS} is no head of the trail: it was cut off while it was written, or changed since; "
        "where you know why, take that line out"
        for number, found in _lines(folder)
        if not found
    ]


def _lines(folder: Path) -> list[tuple[int, re.Match[str] | None]]:
    """Each line that says something, by its number, and what it says as a head."""
    try:
        lines = (folder / HEADS).read_text(encoding="utf-8", errors="replace").split("\n")
    except OSError:
        return []
    return [(n, _HEAD.fullmatch(line.strip())) for n, line in enumerate(lines, 1) if line.strip()]


def missing_heads(store: Store, heads: Iterable[Head]) -> list[str]:
    """Heads that left this machine and are not in the chain any more: its tail was cut, or it was written anew. Where there
    are heads and none speaks for this database, that is a fault too: nothing shows then that its chain is whole."""
    counted, faults = _speaking(list(heads), life(store))
    last, _ = head(store)
    for at, number, hash, *_ in counted:
        found = store.row("SELECT * FROM audit WHERE number = :number", {"number": number})
        if number and (found is None or sealing.hash_of(found) != hash):
            told = "written anew" if found else f"cut: it ends at {last}"
            faults.append(f"audit entry {number}, noted outside on {at}, is not in the chain any more, which was {told}")
    return faults


def _speaking(heads: list[Head], life: str) -> tuple[list[Head], list[str]]:
    """Which heads a database of this life must hold, and why they do not show that its chain is whole."""
    begun = max((n for n, one in enumerate(heads) if one.restored and life and one.life == life), default=None)
    if begun is not None:
        replaced = {one.life for one in heads[:begun]} - {"", life}
        gone_on = [one.at for one in heads[begun:] if one.life in replaced]
        faults = [
            f"the trail went on without this database on {at}: this is a copy put back elsewhere" for at in gone_on[:1]
        ]
        return [one for one in heads[begun:] if one.life == life], faults
    untold = [one for one in heads if not one.life]  # of before heads said of what they are
    since = max((n for n, one in enumerate(untold) if one.restored), default=0)
    first = {one.life: one for one in reversed(heads) if one.life}
    original = next((one.life for one in heads if one.life and not first[one.life].restored), None)
    strange = original not in (None, life) or (heads and not untold and original is None)
    faults = [
        f"no head in {HEADS} shows where this trail came from: it was written anew from its first entry, is another "
        "clinic’s, or was restored while that file was away; where that is so, put the file aside"
    ]
    return untold[since:] + [one for one in heads if one.life and one.life == life], faults if strange else []


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
    ours, here = _schema_of_all_steps(), _schema(store.db.conn)
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


@cache
def _schema_of_all_steps() -> Mapping[tuple[str, str], str]:
    """Made once: the steps take longer than all else that a small database is asked."""
    whole = Database(memory=True)
    steps.apply(whole)
    made = _schema(whole.conn)
    whole.conn.close()
    return made


def _schema(connection: sqlite3.Connection) -> dict[tuple[str, str], str]:
    sql = "SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%' AND name != '_sqlite_migrations'"
    return {(kind, name): " ".join((text or "").replace('"', "").split()) for kind, name, text in connection.execute(sql)}
