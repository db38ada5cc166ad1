"""Backups are whole while others write, are checked, and come back without losing what stands there."""

import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import timedelta
from pathlib import Path

import pytest
from sqlite_utils import Database

from followup import jobs
from followup.config import Settings
from followup.records import Store, audit, backup, eyes, open_store
from followup.records.migrations import steps
from followup.records.store import StoreError
from followup.web import create_app
from tests.conftest import NOW

WRITER = """
import sys
from datetime import UTC, datetime
from followup.records import audit, open_store
store = open_store(sys.argv[1])
print("writing", flush=True)
n = 0
while True:
    n += 1
    with store.transaction():
        audit.note(store, datetime.now(UTC), "test", "entry", str(n))
"""


def entries(path: Path) -> int:
    with closing(sqlite3.connect(path)) as database:
        return int(database.execute("SELECT count(*) FROM audit").fetchone()[0])


def test_a_backup_taken_while_another_process_writes_is_whole(store: Store, eye_id: str, tmp_path: Path) -> None:
    writer = subprocess.Popen([sys.executable, "-c", WRITER, str(store.path)], stdout=subprocess.PIPE, text=True)
    try:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "writing\n"
        made = [backup.backup(store, tmp_path / "kept", NOW + timedelta(seconds=n)) for n in range(3)]
    finally:
        writer.kill()
        writer.wait(timeout=10)
    counts = [entries(path) for path in made]
    assert counts == sorted(counts)
    assert counts[0] >= 1
    assert sorted((tmp_path / "kept").iterdir()) == made
    for path in made:
        backup.checked(path)
        assert path.stat().st_mode & 0o077 == 0
        copy = Store(path)
        assert [row.id for row in eyes.followed(copy)] == [eye_id]
        copy.close()


def test_a_restore_brings_back_what_was_and_keeps_what_stood_there(store: Store, eye_id: str, tmp_path: Path) -> None:
    saved = backup.backup(store, tmp_path / "kept", NOW)
    with store.transaction():
        audit.note(store, NOW, "test", "later", "x")
    later = entries(store.path)
    aside = backup.restore(saved, store.path, NOW + timedelta(days=1))
    assert aside is not None
    assert (entries(store.path), entries(aside)) == (later - 1, later)
    again = open_store(store.path)
    assert backup.faults(again) == []
    again.close()
    elsewhere = tmp_path / "new" / "clinic.db"
    elsewhere.parent.mkdir()
    assert backup.restore(saved, elsewhere, NOW) is None
    assert [row.id for row in eyes.followed(open_store(elsewhere))] == [eye_id]


def test_after_each_restore_phones_are_told_that_what_was_received_may_be_gone(
    store: Store, token: str, settings: Settings, tmp_path: Path
) -> None:
    """Another generation in what they fetch and in each answer: they send again what they still hold."""

    def told() -> set[str]:
        opened = open_store(store.path)
        client = create_app(settings, opened, lambda: NOW).test_client()
        client.set_cookie("device", token)
        answers = client.get("/api/v1/pack"), client.post("/api/v1/events", json={"events": []})
        opened.close()
        return {answer.get_json()["generation"] for answer in answers}

    seen = [told()]
    saved = backup.backup(store, tmp_path / "kept", NOW)
    store.close()
    for n in range(2):
        backup.restore(saved, store.path, NOW + timedelta(hours=n))
        seen.append(told())
    assert seen[0] == {""}
    assert [len(one) for one in seen] == [1, 1, 1]
    assert len(set.union(*seen)) == 3


def test_a_restore_that_fails_at_its_mark_changes_nothing(
    store: Store, eye_id: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else what was put back would have the life of before, and phones would keep what it lacks."""
    saved = backup.backup(store, tmp_path / "kept", NOW)
    with store.transaction():
        audit.note(store, NOW, "test", "later", "x")
    later = entries(store.path)

    def full(_: Store) -> None:
        raise sqlite3.OperationalError("database or disk is full")

    monkeypatch.setattr(backup.generation, "begin_anew", full)
    beside = {*store.path.parent.iterdir()}
    with pytest.raises(StoreError, match="disk is full"):
        backup.restore(saved, store.path, NOW)
    assert entries(store.path) == later
    assert {path.name for path in {*store.path.parent.iterdir()} - beside} <= {f"{store.path.name}-lock"}


def test_an_older_program_leaves_a_newer_database_alone(store: Store) -> None:
    row = {"migration_set": "followup", "name": "m999_later", "applied_at": "2027-01-01"}
    store.db["_sqlite_migrations"].insert(row, ignore=True)
    store.close()
    before = store.path.read_bytes()
    with pytest.raises(StoreError, match=r"made by a newer version \(it has the step m999_later\): start that version"):
        open_store(store.path)
    assert store.path.read_bytes() == before


@pytest.mark.parametrize("damage", ["middle", "chain", "text", "nothing"])
def test_a_damaged_backup_is_refused_and_nothing_changes(store: Store, eye_id: str, tmp_path: Path, damage: str) -> None:
    saved = backup.backup(store, tmp_path / "kept", NOW)
    if damage == "middle":
        size = saved.stat().st_size
        with saved.open("r+b") as file:
            file.seek(size // 3)
            file.write(b"\xff" * (size // 3))
    elif damage == "chain":
        with closing(sqlite3.connect(saved)) as database:
            database.execute("DROP TRIGGER audit_keeps_update")
            database.execute("UPDATE audit SET who = 'somebody else' WHERE number = 1")
            database.commit()
    elif damage == "text":
        saved.write_text("not a database", encoding="utf-8")
    else:
        saved.unlink()
    before = entries(store.path)
    with pytest.raises(StoreError, match=r"not a whole backup|no backup"):
        backup.restore(saved, store.path, NOW)
    assert entries(store.path) == before
    assert [path.name for path in tmp_path.glob("*before-restore*")] == []


def test_a_copy_of_what_is_damaged_never_stands_among_the_backups(store: Store, eye_id: str, tmp_path: Path) -> None:
    with closing(sqlite3.connect(store.path)) as database:
        database.execute("DROP TRIGGER audit_keeps_update")
        database.execute("UPDATE audit SET who = 'somebody else' WHERE number = 1")
        database.commit()
    with pytest.raises(StoreError, match="not a whole backup"):
        backup.backup(store, tmp_path / "kept", NOW)
    assert list((tmp_path / "kept").glob("*.db")) == []


def test_the_day_s_backup_is_made_once_and_old_ones_go(store: Store, settings: Settings, tmp_path: Path) -> None:
    assert jobs.run(store, settings, "backup", NOW) == 0  # no folder named
    folder = tmp_path / "kept"
    server = settings.server.model_copy(update={"backups": folder, "backups_kept_days": 3})
    settings = settings.model_copy(update={"server": server})
    for day in range(1, 7):
        assert jobs.run(store, settings, "backup", NOW + timedelta(days=day)) == 1
        assert jobs.run(store, settings, "backup", NOW + timedelta(days=day, hours=1)) is None
    assert sorted(path.name[9:17] for path in folder.glob("*.db")) == ["20270308", "20270309", "20270310", "20270311"]


def test_a_stranger_s_file_and_the_last_backup_are_never_deleted(store: Store, tmp_path: Path) -> None:
    only = backup.backup(store, tmp_path / "kept", NOW - timedelta(days=90))
    (tmp_path / "kept" / "notes.txt").write_text("keep", encoding="utf-8")
    assert backup.prune(tmp_path / "kept", NOW, 30) == []
    assert only.exists()


@pytest.mark.parametrize("made_by", ["somebody else", "a later version", "nobody"])
def test_only_a_database_of_ours_is_restored(store: Store, eye_id: str, tmp_path: Path, made_by: str) -> None:
    other = tmp_path / "other.db"
    with closing(sqlite3.connect(other)) as database:
        if made_by != "nobody":
            database.execute("CREATE TABLE audit (number INTEGER)")
        if made_by == "a later version":
            database.execute("CREATE TABLE _sqlite_migrations (migration_set TEXT, name TEXT, applied_at TEXT)")
            database.execute("INSERT INTO _sqlite_migrations VALUES ('followup', 'm999_later', '')")
        database.commit()
    before = entries(store.path)
    with pytest.raises(StoreError, match=r"not a whole backup.*not a database of followup"):
        backup.restore(other, store.path, NOW)
    assert entries(store.path) == before
    assert list(tmp_path.glob("*before-restore*")) == []


def test_an_older_database_is_copied_before_its_schema_changes(tmp_path: Path) -> None:
    path = tmp_path / "clinic.db"
    old = Database(path)
    steps.apply(old, stop_before="m009_watch")
    old["settings"].insert({"key": "kept", "value": "from before"})
    old.conn.close()
    path.chmod(0o644)
    open_store(path).close()
    (copy,) = tmp_path.glob("clinic-before-m009_watch-*.db")
    assert copy.stat().st_mode & 0o777 == 0o600
    with closing(sqlite3.connect(copy)) as database:
        tables = {row[0] for row in database.execute("SELECT name FROM sqlite_master")}
        assert database.execute("SELECT value FROM settings").fetchall() == [("from before",)]
    assert "faults" not in tables
    open_store(path).close()
    open_store(tmp_path / "new.db", create=True).close()
    assert len(list(tmp_path.glob("*before*"))) == 1


@contextmanager
def as_anybody() -> Iterator[None]:
    """As an account whose permissions count: those of the system's administrator do not."""
    administrator = os.geteuid() == 0
    if administrator:
        os.seteuid(65534)
    try:
        yield
    finally:
        if administrator:
            os.seteuid(0)


@pytest.fixture
def folder() -> Iterator[Path]:
    """A folder that every account reaches."""
    made = Path(tempfile.mkdtemp(prefix="followup-"))
    made.chmod(0o777)
    yield made
    for inside in made.iterdir():
        if inside.is_dir():
            inside.chmod(0o700)
    shutil.rmtree(made)


def test_a_backup_is_restored_from_where_nothing_can_be_written(store: Store, eye_id: str, folder: Path) -> None:
    saved = backup.backup(store, folder / "kept", NOW)
    saved.chmod(0o444)
    saved.parent.chmod(0o555)
    with as_anybody():
        assert backup.restore(saved, folder / "clinic.db", NOW) is None
        restored = open_store(folder / "clinic.db")
        assert [row.id for row in eyes.followed(restored)] == [eye_id]
        restored.close()


def test_a_restore_leaves_nothing_beside_the_backup_or_the_database(store: Store, eye_id: str, tmp_path: Path) -> None:
    saved = backup.backup(store, tmp_path / "kept", NOW)
    content, there = saved.read_bytes(), tmp_path / "there" / "clinic.db"
    backup.restore(saved, there, NOW)
    assert list(saved.parent.iterdir()) == [saved]
    assert saved.read_bytes() == content
    assert {path.name for path in there.parent.iterdir()} == {"clinic.db", "clinic.db-lock"}


def test_a_backup_that_is_refused_leaves_no_trace_where_the_database_would_be(tmp_path: Path) -> None:
    for name, content in (("empty.db", b""), ("letter.db", b"Dear reader" * 500)):
        (tmp_path / name).write_bytes(content)
        with pytest.raises(StoreError, match=f"{name} is not a whole backup"):
            backup.restore(tmp_path / name, tmp_path / "there" / "clinic.db", NOW)
    assert list((tmp_path / "there").iterdir()) == []


def test_what_waits_beside_a_copy_is_restored_with_it(store: Store, tmp_path: Path) -> None:
    """A copy by the system's own means, of the database and of what SQLite keeps beside it."""
    audit.note(store, NOW, "test", "the last", "x")
    there = tmp_path / "by hand"
    there.mkdir()
    for file in ("clinic.db", "clinic.db-wal"):
        shutil.copy(store.path.with_name(file), there / file)
    backup.restore(there / "clinic.db", tmp_path / "new" / "clinic.db", NOW)
    restored = open_store(tmp_path / "new" / "clinic.db")
    assert [entry.action for entry in audit.latest(restored)] == [entry.action for entry in audit.latest(store)]
    restored.close()


def test_a_file_that_a_program_works_on_is_no_backup(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    saved = backup.backup(store, tmp_path / "kept", NOW)
    whole = backup.keep_private

    def at_work(path: Path) -> None:
        whole(path)
        monkeypatch.setattr(backup.sqlite3, "connect", written_to)

    def written_to(*words: object, **more: object) -> sqlite3.Connection:
        monkeypatch.undo()
        os.utime(saved, ns=(1, 1))
        return sqlite3.connect(*words, **more)  # type: ignore[arg-type,call-overload,no-any-return]

    monkeypatch.setattr(backup, "keep_private", at_work)
    with pytest.raises(StoreError, match="was written to while it was read"):
        backup.restore(saved, tmp_path / "there" / "clinic.db", NOW)
