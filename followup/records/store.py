"""The database: one connection a thread, write-ahead log, transactions that take the write lock at once."""

import os
import sqlite3
import threading
from collections.abc import Callable, Iterable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from datetime import datetime
from errno import EISDIR
from pathlib import Path
from typing import Any, TypeVar
from weakref import WeakSet

import uuid_utils
from sqlite_utils import Database

from followup.errors import FollowupError
from followup.records import reading, sealing
from followup.records.sealing import as_json as as_json

Row = dict[str, Any]
Given = TypeVar("Given")
DatabaseFault = sqlite3.Error
RowRefused = sqlite3.IntegrityError  # the schema says that this row cannot be; every other fault is the database's own
BUSY_MS = 10_000


Unavailable = sqlite3.OperationalError
"""The database cannot be used for now: locked, full, or gone."""
FAMILY = ("", "-wal", "-shm", "-journal")


_AWAY = {
    sqlite3.SQLITE_BUSY: "another program is at work on it; wait until that has ended, or end it",
    sqlite3.SQLITE_LOCKED: "another program is at work on it; wait until that has ended, or end it",
    sqlite3.SQLITE_FULL: "its disk is full; make room",
    sqlite3.SQLITE_IOERR: "its disk cannot be read or written",
    sqlite3.SQLITE_READONLY: "its file, or the folder of it, may not be written by whoever runs this",
    sqlite3.SQLITE_CANTOPEN: "its file cannot be opened by whoever runs this",
    sqlite3.SQLITE_CORRUPT: "its file is damaged; see “followup check”",
}


class StoreError(FollowupError):
    """The database cannot be opened or used; the message says why."""


class Closed(StoreError, sqlite3.OperationalError):
    """The clinic was closed here for its move to another server: nothing more is taken (`moving.py`).

    For whoever asks it is as a database that is away: nothing was kept, and later somebody takes it.
    """

    def __init__(self, path: Path) -> None:
        super().__init__(f"{path} was closed for its move to another server; to take it back: followup close --undo")


def new_id() -> str:
    """A UUIDv7 as text: unique, and in order of making."""
    return str(uuid_utils.uuid7())


def first_id(at: datetime) -> str:
    """What every UUIDv7 that is made from a time on sorts behind (RFC 9562, section 5.7: it begins with 48 bits of milliseconds)."""
    milliseconds = f"{int(at.timestamp() * 1000):012x}"
    return f"{milliseconds[:8]}-{milliseconds[8:]}"


def marked(values: Iterable[Any]) -> tuple[str, Row]:
    """The marks of some values for `IN (…)`, and the values by these."""
    named = {f"v{n}": value for n, value in enumerate(values)}
    return ", ".join(f":{name}" for name in named), named


def fails(error: BaseException) -> bool:
    """Whether this says that the database itself fails, and not that it takes no such row."""
    return isinstance(error, DatabaseFault) and not isinstance(error, RowRefused)


def why_away(error: BaseException) -> str:
    """Why the database cannot be used now, as people read it; empty for any other error, also for a fault of ours in SQL."""
    return _AWAY.get(getattr(error, "sqlite_errorcode", 0) & 0xFF, "")


@dataclass(slots=True)
class _Waiting:
    """What a thread wants to do to the database, and what became of it."""

    work: Callable[[], Any]
    result: Any = None
    error: BaseException | None = None
    done: bool = False


class Store:
    """The records of one clinic. Safe to share between threads; each gets its own connection."""

    def __init__(self, path: Path | str) -> None:
        self.path = Path(path)
        self._local = threading.local()
        self._turn, self._lock = threading.Lock(), threading.Lock()
        self._waiting: list[_Waiting] = []
        self._opened: WeakSet[Database] = WeakSet()

    @property
    def db(self) -> Database:
        if not hasattr(self._local, "db"):
            # Each thread uses its own alone; `let_go` closes those of the others.
            connection = sqlite3.connect(self.path, isolation_level=None, timeout=BUSY_MS / 1000, check_same_thread=False)
            connection.execute("PRAGMA foreign_keys = ON")
            connection.execute("PRAGMA synchronous = FULL")
            sealing.know_digests(connection)
            self._local.db = Database(connection)
            with self._lock:
                self._opened.add(self._local.db)
        db: Database = self._local.db
        return db

    @contextmanager
    def transaction(self, *, although_closed: bool = False) -> Iterator[None]:
        """All or nothing. Inside another transaction it is part of that one. Raises `Closed` once the clinic is closed."""
        connection = self.db.conn
        if connection.in_transaction:
            yield
            return
        if not hasattr(self._local, "notes"):
            sealing.listen(connection)
        self._local.notes = []
        connection.execute("BEGIN IMMEDIATE")
        try:
            if self.closed and not although_closed:
                raise Closed(self.path)
            yield
            sealing.close(connection, self._local.notes)
        except BaseException:
            connection.execute("ROLLBACK")
            raise
        connection.execute("COMMIT")

    @contextmanager
    def apart(self) -> Iterator[None]:
        """Inside a transaction: what fails in here is undone alone."""
        connection, noted = self.db.conn, len(self._local.notes)
        connection.execute("SAVEPOINT apart")
        try:
            yield
        except BaseException:
            if connection.in_transaction:  # where the disk is full or fails, all of it has been undone by then
                connection.execute("ROLLBACK TO apart")
                connection.execute("RELEASE apart")
            del self._local.notes[noted:]
            raise
        connection.execute("RELEASE apart")

    def shared(self, work: Callable[[], Given]) -> Given:
        """Run `work` in a transaction that it shares with whatever other threads want to do at the same time.

        What they wait for longest, the disk, they wait for once. It returns when all of that transaction is on the disk.
        Work that raises is undone alone; where the database itself fails, all of them raise that.
        """
        if self.db.conn.in_transaction:
            with self.apart():
                return work()
        mine = _Waiting(work)
        with self._lock:
            self._waiting.append(mine)
        with self._turn:
            if not mine.done:  # else somebody whose turn came before took it along
                with self._lock:
                    together, self._waiting = self._waiting, []
                self._run(together)
        if mine.error is not None:
            raise mine.error
        result: Given = mine.result
        return result

    def _run(self, together: "list[_Waiting]") -> None:
        try:
            with self.transaction():
                for one in together:
                    try:
                        with self.apart():
                            one.result = one.work()
                    except Exception as error:
                        if fails(error):
                            raise
                        one.error = error
        except BaseException as error:
            for one in together:
                one.error = error
        for one in together:
            one.done = True

    def rows(self, sql: str, parameters: Row | None = None) -> list[Row]:
        """What a query gives. Of two columns with one name the later counts, so that `x.*, … AS id` replaces an id."""
        return list(self.each(sql, parameters))

    def each(self, sql: str, parameters: Row | None = None) -> Iterator[Row]:
        """The same, a row at a time: for whoever goes through a whole table and keeps none of it."""
        return reading.named(self.db.conn.execute(sql, parameters or {}))

    def row(self, sql: str, parameters: Row | None = None) -> Row | None:
        return next(iter(self.rows(sql, parameters)), None)

    def execute(self, sql: str, parameters: Row | None = None) -> int:
        """Run one statement; returns how many rows it changed."""
        with self.transaction():
            return int(self.db.conn.execute(sql, parameters or {}).rowcount)

    def note(self, entry: Row) -> None:
        """Keep an audit entry until this transaction ends."""
        self._local.notes.append(entry)

    def insert(self, table: str, row: Row) -> None:
        self._write("INSERT", table, row)

    def put(self, table: str, row: Row) -> None:
        """In the place of the row with the same key, where there is one."""
        self._write("INSERT OR REPLACE", table, row)

    def _write(self, verb: str, table: str, row: Row) -> None:
        names = ", ".join(row)
        marks = ", ".join(f":{name}" for name in row)
        self.execute(f"{verb} INTO {table} ({names}) VALUES ({marks})", row)

    def damage(self) -> list[str]:
        """What SQLite finds wrong with the file; empty when whole."""
        try:
            found = [str(row["integrity_check"]) for row in self.rows("PRAGMA integrity_check(1)")]
        except sqlite3.DatabaseError as error:
            found = [str(error)]
        return [f"the database file is damaged ({' '.join(fault.split())})" for fault in found if fault != "ok"]

    def dangling(self) -> list[str]:
        """Each row that points at a row which is not there. Raises what SQLite does where the file is damaged."""
        return [
            f"{row['table']} {self._key_of(row['table'], row['rowid'])} points at no row of {row['parent']}"
            for row in self.rows("PRAGMA foreign_key_check")
        ]

    def _key_of(self, table: str, rowid: int) -> Any:
        """What a row is known by: its first column."""
        row = self.row(f"SELECT * FROM {table} WHERE rowid = :rowid", {"rowid": rowid})
        return next(iter(row.values())) if row else rowid

    @property
    def closed(self) -> bool:
        """Whether the clinic was closed here. The mark lies in the head of the file, so it is there in every version of it."""
        return bool(self.db.conn.execute("PRAGMA user_version").fetchone()[0])

    def mark_closed(self, closed: bool) -> None:
        """Part of the transaction that it is called in, and of every copy of the database."""
        self.db.conn.execute(f"PRAGMA user_version = {int(closed)}")

    def let_go(self) -> None:
        """Close the connections of all threads; nobody may be using them."""
        with self._lock:
            opened, self._opened = list(self._opened), WeakSet()
        for database in opened:
            database.conn.close()
        self._local = threading.local()

    def close(self) -> None:
        if hasattr(self._local, "db"):
            self._local.db.conn.close()
            del self._local.db
            self._local.__dict__.pop("notes", None)


def keep_private(path: Path) -> None:
    """Make a database's file (empty, if it is missing), and let only its owner read it and what SQLite keeps beside it.

    A file that is there is not opened: to close it would take SQLite's locks from every connection of this process to it
    (fcntl(2): they go with the first descriptor that is closed), and whoever closes theirs next would remove the log in use.
    """
    try:
        if path.is_dir():
            raise IsADirectoryError(EISDIR, os.strerror(EISDIR))
        if not path.exists():
            os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))
        for file in (path.with_name(path.name + ending) for ending in FAMILY):
            if file.exists() and file.stat().st_mode & 0o077:
                file.chmod(0o600)
    except OSError as error:
        raise StoreError(f"{path} cannot be used as a database: {error.strerror}") from error


def copy_database(source: Path, target: Path) -> None:
    """SQLite's own online copy: whole even while others write to the source or read the target.

    Raises `StoreError`, and then a target that was not there before is gone again.
    """
    was_there = target.exists()
    keep_private(target)
    try:
        from_file = sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)
        with closing(from_file) as reader, closing(sqlite3.connect(target)) as writer:
            reader.backup(writer)
    except sqlite3.Error as error:
        if not was_there:
            remove(target)
        raise StoreError(f"{source} could not be copied to {target}: {error}") from error


def remove(path: Path) -> None:
    """Delete a database that nobody uses, with what SQLite keeps beside it."""
    for file in (path.with_name(path.name + ending) for ending in FAMILY):
        file.unlink(missing_ok=True)
