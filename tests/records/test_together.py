"""One database and several who use it: what shares a transaction, what is undone alone, and who may hold the whole of it."""

import os
import sqlite3
import threading
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import pytest

from followup.records import Store, audit, generation, lock, open_store
from followup.records.store import StoreError, copy_database, fails, keep_private, new_id
from tests.conftest import NOW, until


def put(store: Store, key: str) -> None:
    store.insert("settings", {"key": key, "value": "x"})


def kept(store: Store) -> list[str]:
    return [row["key"] for row in store.rows("SELECT key FROM settings ORDER BY key")]


@pytest.fixture
def another(store: Store) -> Store:
    """Another process's store of the same database."""
    return Store(store.path)


# --- Transactions ---


def test_another_store_sees_nothing_before_the_end_and_all_of_it_after(store: Store, another: Store) -> None:
    with store.transaction():
        put(store, "a")
        put(store, "b")
        assert kept(another) == []
    assert kept(another) == ["a", "b"]


def test_what_fails_apart_is_undone_alone(store: Store) -> None:
    with store.transaction():
        put(store, "a")
        with suppress(KeyError), store.apart():
            put(store, "b")
            raise KeyError
        put(store, "c")
    assert kept(store) == ["a", "c"]


def test_an_entry_of_what_was_undone_is_not_in_the_chain(store: Store) -> None:
    with store.transaction():
        audit.note(store, NOW, "test", "first", "x")
        with suppress(KeyError), store.apart():
            audit.note(store, NOW, "test", "undone", "x")
            raise KeyError
        audit.note(store, NOW, "test", "second", "x")
    assert [row["action"] for row in audit.everything(store)] == ["first", "second"]


def test_what_went_well_apart_is_undone_with_the_whole(store: Store) -> None:
    with suppress(KeyError), store.transaction():
        with store.apart():
            put(store, "a")
        raise KeyError
    assert kept(store) == []


def test_a_statement_outside_of_a_transaction_is_one_of_its_own(store: Store, another: Store) -> None:
    assert store.execute("INSERT INTO settings VALUES ('a', 'x'), ('b', 'x')") == 2
    assert store.execute("UPDATE settings SET value = 'y' WHERE key = 'none'") == 0
    assert kept(another) == ["a", "b"]


def test_a_row_that_is_put_takes_the_place_of_the_one_with_its_key(store: Store) -> None:
    put(store, "a")
    store.put("settings", {"key": "a", "value": "new"})
    assert store.rows("SELECT * FROM settings") == [{"key": "a", "value": "new"}]
    with pytest.raises(sqlite3.IntegrityError):
        put(store, "a")


def test_of_two_columns_of_one_name_the_later_counts(store: Store) -> None:
    assert store.rows("SELECT 1 AS id, 2 AS id") == [{"id": 2}]
    assert store.row("SELECT 1 AS id WHERE 0") is None


# --- Shared ---


def together(store: Store, works: dict[str, Callable[[], object]]) -> dict[str, object]:
    """What each work gave or raised, all of them waiting in one line behind somebody whose transaction is open."""
    ended: dict[str, object] = {}

    def ask(name: str) -> None:
        try:
            ended[name] = store.shared(works[name])
        except Exception as error:
            ended[name] = type(error)
        store.close()

    threads = [threading.Thread(target=ask, args=[name]) for name in works]
    with store._turn:
        for n, thread in enumerate(threads, 1):
            thread.start()
            until(lambda n=n: len(store._waiting) == n, "in line")
    for thread in threads:
        thread.join(20)
    return ended


def test_works_that_wait_together_each_get_their_own_result(store: Store) -> None:
    works: dict[str, Callable[[], object]] = {name: lambda name=name: (put(store, name), name)[1] for name in "abc"}
    assert together(store, works) == {name: name for name in "abc"}
    assert kept(store) == ["a", "b", "c"]


def test_work_that_raises_is_undone_alone(store: Store) -> None:
    def refused() -> None:
        put(store, "b")
        raise KeyError

    ended = together(store, {"a": lambda: put(store, "a"), "b": refused, "c": lambda: put(store, "c")})
    assert (ended, kept(store)) == ({"a": None, "b": KeyError, "c": None}, ["a", "c"])


def test_a_row_that_cannot_be_is_the_fault_of_its_own_work(store: Store) -> None:
    put(store, "b")
    ended = together(store, {name: lambda name=name: put(store, name) for name in "abc"})
    assert (ended, kept(store)) == ({"a": None, "b": sqlite3.IntegrityError, "c": None}, ["a", "b", "c"])


def test_where_the_database_fails_nothing_of_all_of_it_is_kept(store: Store) -> None:
    ended = together(store, {"a": lambda: put(store, "a"), "b": lambda: store.execute("INSERT INTO nothing VALUES (1)")})
    assert (ended, kept(store)) == ({"a": sqlite3.OperationalError, "b": sqlite3.OperationalError}, [])


def test_shared_work_inside_a_transaction_is_part_of_it(store: Store) -> None:
    with suppress(KeyError), store.transaction():
        assert store.shared(lambda: "given") == "given"
        store.shared(lambda: put(store, "a"))
        raise KeyError
    assert kept(store) == []


@pytest.mark.parametrize(
    ("error", "itself"),
    [
        (sqlite3.OperationalError("disk full"), True),
        (sqlite3.DatabaseError("malformed"), True),
        (sqlite3.IntegrityError("no such row"), False),
        (KeyError("x"), False),
    ],
)
def test_a_refused_row_is_no_fault_of_the_database(error: Exception, itself: bool) -> None:
    assert fails(error) is itself


# --- The lock ---


def test_one_holds_it_and_the_other_reads_who(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(lock, "PATIENCE_SECONDS", 0)
    with lock.held(store.path, "a restore is running"):
        said = rf"clinic\.db is in use: a restore is running \(process {os.getpid()}\); stop that first"
        with pytest.raises(StoreError, match=said), lock.held(store.path, "served"):
            raise AssertionError("nobody gets in")
    with lock.held(store.path, "served"):
        pass


def test_a_shorter_word_leaves_nothing_of_the_longer_one_before_it(store: Store) -> None:
    for doing in ("something that takes very long", "short"):
        os.close(lock.take(store.path, doing))
    assert (store.path.parent / "clinic.db-lock").read_text() == f"short (process {os.getpid()})"


def test_a_lock_lies_beside_the_database_itself_however_it_is_named(store: Store, tmp_path: Path) -> None:
    link = tmp_path / "link.db"
    link.symlink_to(store.path)
    descriptor = lock.take(link, "served")
    with pytest.raises(StoreError, match="in use"):
        lock.take(store.path, "served too")
    os.close(descriptor)
    assert not (tmp_path / "link.db-lock").exists()


def test_a_shared_lock_is_joined_and_nobody_takes_it_alone_until_the_last_is_gone(store: Store) -> None:
    serving = lock.take(store.path, "served")
    with pytest.raises(StoreError, match="in use by another process"):
        lock.join(store.path)
    lock.share(serving, store.path)
    child = lock.join(store.path)
    os.close(serving)
    with pytest.raises(StoreError, match="in use: served"):
        lock.take(store.path, "a restore is running")
    os.close(child)
    os.close(lock.take(store.path, "a restore is running"))


def test_nobody_joins_what_nobody_serves(store: Store) -> None:
    with pytest.raises(StoreError, match="is served by nobody"):
        lock.join(store.path)


def test_the_lock_is_for_its_owner_only(store: Store) -> None:
    os.close(lock.take(store.path, "served"))
    assert (store.path.parent / "clinic.db-lock").stat().st_mode & 0o777 == 0o600


# --- The file ---


def test_each_life_of_the_database_has_another_name(store: Store) -> None:
    lives = [generation.generation(store)]
    for _ in range(2):
        generation.begin_anew(store)
        lives.append(generation.generation(store))
    assert lives[0] == ""
    assert len(set(lives)) == 3
    assert kept(store) == ["generation"]


@pytest.mark.parametrize("ending", ["", "-wal", "-shm", "-journal"])
def test_what_others_could_read_is_closed_to_them(tmp_path: Path, ending: str) -> None:
    file = tmp_path / f"clinic.db{ending}"
    file.touch()
    file.chmod(0o644)
    keep_private(tmp_path / "clinic.db")
    assert file.stat().st_mode & 0o777 == 0o600


def test_a_folder_is_no_database_and_stays_as_it_is(tmp_path: Path) -> None:
    tmp_path.chmod(0o755)
    with pytest.raises(StoreError, match="cannot be used as a database: Is a directory"):
        keep_private(tmp_path)
    assert tmp_path.stat().st_mode & 0o777 == 0o755


def test_a_copy_of_what_is_not_there_says_so_and_makes_none_of_it(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match=r"none\.db could not be copied"):
        copy_database(tmp_path / "none.db", tmp_path / "copy.db")
    assert not (tmp_path / "none.db").exists()


def test_a_copy_leaves_what_it_was_made_of_as_it_is(store: Store, tmp_path: Path) -> None:
    put(store, "a")
    copy_database(store.path, tmp_path / "copy.db")
    put(store, "b")
    copy = open_store(tmp_path / "copy.db")
    assert (kept(copy), kept(store)) == (["a"], ["a", "b"])
    copy.close()


def test_a_damaged_file_is_told_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "clinic.db").write_bytes(b"SQLite format 3\0" + b"x" * 4096)
    (fault,) = Store(tmp_path / "clinic.db").damage()
    assert fault.startswith("the database file is damaged (")
    assert "\n" not in fault


def test_a_row_that_points_nowhere_is_named_by_its_key(store: Store) -> None:
    store.db.conn.execute("PRAGMA foreign_keys = OFF")
    store.db.conn.execute("INSERT INTO looks VALUES ('one', 'no-eye', 'x', 'nurse:n')")
    assert store.dangling() == ["looks one points at no row of eyes"]


def test_ids_are_in_the_order_of_their_making() -> None:
    made = [new_id() for _ in range(100)]
    assert made == sorted(set(made))
    assert {id[14] for id in made} == {"7"}  # RFC 9562, 5.7: UUID version 7
