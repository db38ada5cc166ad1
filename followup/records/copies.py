"""A patient's rows written again for others, many and quickly: for an invented clinic of any size.

Every copy has ids of its own, another person's particulars, and all its days moved by a number of weeks. It enters the
audit chain as the first one did: with the entries about it, the last of which records every row.
"""

import hashlib
import re
import sqlite3
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import islice
from operator import itemgetter
from pathlib import Path
from random import Random
from typing import Any

from followup.records import export, sealing, states
from followup.records.store import Store

AT_ONCE = 250
"""Copies in one transaction: what lies in memory at a time."""
_DAY = re.compile(r"(?<!\d)(?:19|20|21)\d\d-\d\d-\d\d(?!\d)")
_BETWEEN = "\0"
_IDS = ("id", "version")
_SECRETS = ("token_hash", "code_hash")
_ENTRY = ("at", "who", "action", "subject", "detail")


@dataclass(frozen=True, slots=True)
class Person:
    """Whom a copy is about, and the terms that they are found by."""

    number: str
    name: str
    born_on: date
    phone: str
    terms: frozenset[str]


@dataclass(frozen=True, slots=True)
class Copy:
    """One copy to be made: of which patient's rows, for whom, and by how many weeks earlier."""

    of: "Original"
    person: Person
    weeks_earlier: int = 0


class Original:
    """One patient's rows, taken apart where a copy differs: ids, particulars, secrets, days.

    Raises ValueError where the patient has rows that are known by a number of the whole database.
    """

    def __init__(self, store: Store, patient_id: str) -> None:
        held = {
            table: rows for table, rows in (export.held_of(store, patient_id) | _state(store, patient_id)).items() if rows
        }
        whole = held["patients"][0]
        ids = {row[name] for rows in held.values() for row in rows for name in _IDS if name in row}
        self.id_slots = sorted(ids)
        secrets = sorted({row[name] for rows in held.values() for row in rows for name in _SECRETS if row.get(name)})
        self.secret_count = len(secrets)
        slots = [*self.id_slots, *secrets, whole["number"], whole["name"], whole["born_on"], whole["phone"]]

        self._cells: list[str] = []
        self._constants: list[Any] = []
        picked: list[tuple[str, list[int], int | None, int | None]] = []
        for table, rows in held.items():
            sealed = sealing.SEALED.get(table)
            key = sealed.key.removeprefix("{row}") if sealed else ""
            if sealed and key not in ("id", "visit_id"):
                raise ValueError(f"{table} holds rows of this patient, which cannot be copied")
            for row in rows:
                cells = [self._kept(value) for value in row.values()]
                text = self._text(sealing.canonical(table, row)) if sealed else None
                picked.append((table, cells, text, list(row).index(key) if sealed else None))
        entries = _entries(store, ids)
        noted = [[self._kept(entry[name]) for name in _ENTRY] for entry in entries]
        self.columns = {table: tuple(rows[0]) for table, rows in held.items()}
        of = len(self._cells)
        place = {n: n if n >= 0 else of + ~n for n in range(-len(self._constants), of)}
        self.rows = [
            (table, itemgetter(*(place[n] for n in cells)), text, place[cells[key]] if key is not None else None)
            for table, cells, text, key in picked
        ]
        self.entries = [itemgetter(*(place[n] for n in cells)) for cells in noted]
        whole_text = _BETWEEN.join(self._cells)
        self._days: list[str] = sorted(set(_DAY.findall(whole_text)))
        self._pieces, self._slots = _apart(whole_text, [*slots, *self._days])

    def _text(self, text: str) -> int:
        self._cells.append(text)
        return len(self._cells) - 1

    def _kept(self, value: Any) -> int:
        """Where a cell is found: text at its place among the parts, anything else counted from the end of those."""
        if isinstance(value, str):
            return self._text(value)
        self._constants.append(value)
        return -len(self._constants)

    def parts(self, weeks_earlier: int, values: Sequence[str]) -> list[Any]:
        """The cells of one copy, and after them those that are no text."""
        earlier = timedelta(weeks=weeks_earlier)
        known = [*values, *((date.fromisoformat(day) - earlier).isoformat() for day in self._days)]
        pieces = list(self._pieces)
        pieces[1::2] = [known[slot] for slot in self._slots]
        parts: list[Any] = "".join(pieces).split(_BETWEEN)
        return parts + self._constants


def _state(store: Store, patient_id: str) -> dict[str, list[dict[str, Any]]]:
    """What stands now of a patient, which a copy has too: it would take longest to work out anew."""
    known = {"id": patient_id}
    return {
        table: store.rows(f"SELECT * FROM {table} WHERE patient_id = :id", known)
        for table in (*states.TABLES, *states.RESULTS)
    }


def _entries(store: Store, ids: set[str]) -> list[dict[str, Any]]:
    return [row for row in store.rows("SELECT * FROM audit ORDER BY number") if row["subject"] in ids]


def _apart(text: str, slots: Sequence[str]) -> tuple[list[str], list[int]]:
    """The text in pieces, every second of them one of the slots; and which slot each of those is."""
    number = {slot: n for n, slot in reversed(list(enumerate(slots)))}
    known = "|".join(re.escape(slot) for slot in sorted(number, key=len, reverse=True) if not _DAY.fullmatch(slot))
    pieces = re.split(f"({known}|{_DAY.pattern})", text)
    return pieces, [number[piece] for piece in pieces[1::2]]


def write(path: Path, copies: Iterable[Copy], random: Random) -> Iterator[int]:
    """Write copies into a database that nothing else uses yet; yields how many there are, every few hundred.

    Memory does not grow with their number. The ids and secrets come from `random`, so that they are the same for the same seed.
    """
    waiting = iter(copies)
    with _alone_with(path) as connection:
        chain = _Chain(connection)
        written = 0
        while batch := list(islice(waiting, AT_ONCE)):
            rows: dict[tuple[str, tuple[str, ...]], list[Any]] = defaultdict(list)
            for copy in batch:
                _copied(copy, random, rows, chain)
            connection.execute("BEGIN IMMEDIATE")
            for (table, names), made in rows.items():
                _insert(connection, table, names, made)
            patient_ids = {patient_id for _, patient_id in rows["patient_terms", ("term", "patient_id")]}
            connection.executemany("DELETE FROM changed_patients WHERE patient_id = ?", [(id,) for id in patient_ids])
            chain.write()
            connection.execute("COMMIT")
            written += len(batch)
            yield written


def _copied(copy: Copy, random: Random, rows: dict[tuple[str, tuple[str, ...]], list[Any]], chain: "_Chain") -> None:
    of, person = copy.of, copy.person
    ids = chain.ids.take(len(of.id_slots), random)
    secrets = [f"{random.getrandbits(256):064x}" for _ in range(of.secret_count)]
    values = [*ids, *secrets, person.number, person.name, person.born_on.isoformat(), person.phone]
    parts = of.parts(copy.weeks_earlier, values)
    facts = []
    for table, cells, text, key in of.rows:
        rows[table, of.columns[table]].append(cells(parts))
        if text is not None and key is not None:
            facts.append((table, parts[key], hashlib.sha256(parts[text].encode()).hexdigest()))
    patient_id = next(cells(parts)[0] for table, cells, _, _ in of.rows if table == "patients")
    rows["patient_terms", ("term", "patient_id")] += [(term, patient_id) for term in sorted(person.terms)]
    for n, cells in enumerate(of.entries, 1):
        chain.add(dict(zip(_ENTRY, cells(parts), strict=True)), facts if n == len(of.entries) else [])


class _Chain:
    """The audit chain's end, and entries that wait to be written after it; and the ids, which grow with it."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        self._connection = connection
        _, self._hash = sealing.head(connection)
        self._waiting: list[tuple[Any, ...]] = []
        self.ids = _Ids()

    def add(self, entry: dict[str, Any], facts: list[sealing.Fact]) -> None:
        whole, self._hash = sealing.linked(entry, self._hash, facts)
        self._waiting.append(tuple(whole.values()))
        self._names = tuple(whole)

    def write(self) -> None:
        if self._waiting:
            _insert(self._connection, "audit", self._names, self._waiting)
        self._waiting = []


class _Ids:
    """UUIDv7 in order: of a year long past, so that none is that of anything real."""

    def __init__(self) -> None:
        self._made = 0

    def take(self, number: int, random: Random) -> list[str]:
        end = f"{0x8000 | random.getrandbits(14):04x}-{random.getrandbits(48):012x}"
        first, self._made = self._made, self._made + number
        numbered = ((0x100_0000_0000 + (n >> 12), n & 0xFFF) for n in range(first, self._made))
        return [f"{ms >> 16:08x}-{ms & 0xFFFF:04x}-7{low:03x}-{end}" for ms, low in numbered]


def _insert(connection: sqlite3.Connection, table: str, names: Sequence[str], rows: Sequence[Any]) -> None:
    marks = ", ".join("?" for _ in names)
    connection.executemany(f"INSERT INTO {table} ({', '.join(names)}) VALUES ({marks})", rows)


@contextmanager
def _alone_with(path: Path) -> Iterator[sqlite3.Connection]:
    """A connection that writes without a journal and waits for no disk: who fails begins anew."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = OFF")
        connection.execute("PRAGMA synchronous = OFF")
        connection.execute("PRAGMA cache_size = -200000")
        yield connection
        connection.execute("PRAGMA journal_mode = WAL")
