"""A step of the schema records anew what it wrote, all of that and nothing else, and covers nothing up."""

import json
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlite_utils import Database

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.visits import visit
from followup.records import Store, audit, backup, open_store, sealing
from followup.records.bodies.clinic import MeasuresBody
from followup.records.migrations import steps
from followup.records.store import StoreError
from tests.conftest import NOW, ZONE
from tests.records.test_tampering import past_us

Step = Callable[[Database], Any]


@pytest.fixture
def lived(store: Store, nurse: Actor, eye_id: str) -> Store:
    """A clinic with facts of most kinds."""
    measures = MeasuresBody(eye="right", acuity="6/60", iop_mmhg=41, instrument="applanation", bubble_percent=85)
    visit.record_visit(Desk(store, NOW, nurse, ZONE), eye_id, [measures], visit="day 1")
    return store


@pytest.fixture(autouse=True)
def known_steps() -> Iterator[None]:
    known = list(steps._migrations)
    yield
    steps._migrations[:] = known


def reopened(store: Store, *changes: Step) -> Store:
    """The clinic as a version opens it that has these steps more."""
    store.close()
    for n, change in enumerate(changes, 1):
        steps(name=f"m999_{n}")(change)
    return open_store(store.path)


def sql(*statements: str) -> Step:
    def change(db: Database) -> None:
        for statement in statements:
            db.execute(statement)

    return change


def without_guard(table: str, *statements: str) -> Step:
    """As a step does that changes rows of an append-only table."""

    def change(db: Database) -> None:
        name = f"{table}_keeps_update"
        (made,) = db.execute("SELECT sql FROM sqlite_master WHERE name = ?", (name,)).fetchone()
        for statement in (f"DROP TRIGGER {name}", *statements, made):
            db.execute(statement)

    return change


def made_anew(db: Database) -> None:
    """The same table with a column of another type."""
    sql = "SELECT sql FROM sqlite_master WHERE tbl_name = 'follow_ups' AND type != 'table' AND sql NOT NULL"
    around = [text for (text,) in db.execute(sql)]
    db.execute("CREATE TABLE made_anew (id TEXT PRIMARY KEY, eye_id, at, what, reason, words, recorded_by)")
    db.execute("INSERT INTO made_anew SELECT id, eye_id, at, what, 'x', words, recorded_by FROM follow_ups")
    db.execute("DROP TABLE follow_ups")
    db.execute("ALTER TABLE made_anew RENAME TO follow_ups")
    for text in around:
        db.execute(text)


WRITING: dict[str, tuple[Step, str]] = {
    "some rows": (sql("UPDATE patients SET phone = phone || '.'"), "patients"),
    "rows of an append-only table": (without_guard("events", "UPDATE events SET author = 'nurse:x'"), "events"),
    "a column that is not empty": (sql("ALTER TABLE visits ADD COLUMN places INTEGER NOT NULL DEFAULT 1"), "visits"),
    "a column that it fills": (
        without_guard("events", "ALTER TABLE events ADD COLUMN more TEXT", "UPDATE events SET more = kind"),
        "events",
    ),
    "the name of a column": (sql("ALTER TABLE follow_ups RENAME COLUMN reason TO said"), "follow_ups"),
    "a table made anew": (made_anew, "follow_ups"),
    "a row put in": (
        sql(
            "INSERT INTO staff (id, name, role, email, password_hash, created_at) VALUES ('x', 'X', 'nurse', 'x', 'x', 'x')"
        ),
        "staff",
    ),
}
QUIET: dict[str, Step] = {
    "an index": sql("CREATE INDEX by_author ON events (author)"),
    "an empty column": sql(
        "ALTER TABLE events ADD COLUMN more TEXT NOT NULL DEFAULT ''", "ALTER TABLE eyes ADD COLUMN more TEXT"
    ),
    "another table": sql("CREATE TABLE others (id TEXT PRIMARY KEY) STRICT", "INSERT INTO others VALUES ('x')"),
    "what is no fact": sql("UPDATE eye_states SET look_at = ''"),
}


@pytest.mark.parametrize("what", WRITING)
def test_what_a_step_wrote_is_recorded_anew(lived: Store, what: str) -> None:
    step, table = WRITING[what]
    before = audit.head(lived)[0]
    opened = reopened(lived, step)
    assert backup.faults(opened) == []
    entries = [entry for entry in audit.everything(opened) if entry["number"] > before]
    assert {entry["action"] for entry in entries} == {"schema changed from m999_1"}
    assert sum(table in entry["facts"] for entry in entries) == len(entries), "and nothing else"
    opened.close()


@pytest.mark.parametrize("what", QUIET)
def test_a_step_that_writes_no_fact_reads_none(lived: Store, monkeypatch: pytest.MonkeyPatch, what: str) -> None:
    def read(*_: object) -> str:
        raise AssertionError("it read a row")

    before = audit.head(lived)
    with monkeypatch.context() as while_it_opens:
        while_it_opens.setattr(sealing, "canonical", read)
        opened = reopened(lived, QUIET[what])
    assert audit.head(opened) == before
    assert backup.faults(opened) == []
    opened.close()


def test_a_step_reads_no_more_rows_than_it_wrote(lived: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    read: list[str] = []
    canonical = sealing.canonical
    monkeypatch.setattr(sealing, "canonical", lambda table, row: read.append(table) or canonical(table, row))
    opened = reopened(lived, sql("UPDATE eyes SET created_at = created_at || '.' WHERE side = 'right'"))
    patients = len(opened.rows("SELECT 1 FROM patients"))
    assert read == ["eyes"] * patients * 2  # as each was, and as it is
    opened.close()


def test_a_new_table_of_facts_is_recorded_and_nothing_of_the_chain_is_read(
    lived: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sealing.SEALED, "others", sealing.Sealed())
    with monkeypatch.context() as while_it_opens:
        while_it_opens.setattr(sealing, "recordings", lambda _: 1 / 0)
        opened = reopened(lived, QUIET["another table"])
    assert backup.faults(opened) == []
    assert audit.recorded(opened.db.conn, {"others": None}).keys() == {("others", "x")}
    opened.close()


@pytest.mark.parametrize("what", WRITING)
def test_what_did_not_fit_is_not_covered_up(lived: Store, what: str) -> None:
    step, table = WRITING[what]
    was = {"patients": "name = 'Another'", "follow_ups": "recorded_by = 'x'", "staff": "name = 'Another'"}
    changed = was.get(table, "reason = 'another'")
    past_us(lived, f"UPDATE {table} SET {changed}")
    faults = backup.faults(lived)
    assert len(faults) >= 1
    opened = reopened(lived, step)
    assert backup.faults(opened) == faults
    opened.close()


def test_a_row_that_was_put_in_past_us_stays_without_an_entry(lived: Store) -> None:
    others = "eye_id, kind, at, body, author, received_at"
    past_us(lived, f"INSERT INTO events (id, {others}) SELECT 'put-in', {others} FROM events LIMIT 1")
    opened = reopened(lived, WRITING["a column that it fills"][0])
    assert backup.faults(opened) == ["events put-in stands there without an audit entry"]
    opened.close()


def test_rows_are_recorded_anew_five_hundred_at_a_time(store: Store, eye_id: str) -> None:
    many = "WITH RECURSIVE n (n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM n WHERE n < 501)"
    opened = reopened(
        store, sql(f"INSERT INTO looks (id, eye_id, at, who) {many} SELECT n, '{eye_id}', 'x', 'nurse:n' FROM n")
    )
    entries = [entry for entry in audit.everything(opened) if entry["subject"] == "facts"]
    assert [len(json.loads(entry["facts"])) for entry in entries] == [500, 1]
    assert backup.faults(opened) == []
    opened.close()


def test_steps_are_taken_all_or_none(lived: Store) -> None:
    """A version whose second step fails leaves the database as the version before can use it."""
    fails = sql("UPDATE no_such SET x = 1")
    with pytest.raises(StoreError, match="no such table: no_such"):
        reopened(lived, WRITING["some rows"][0], fails)
    steps._migrations[-2:] = []
    opened = open_store(lived.path)
    assert backup.faults(opened) == []
    assert opened.rows("SELECT 1 FROM patients WHERE phone LIKE '%.'") == []
    opened.close()


def test_steps_leave_nothing_behind_on_the_connection(lived: Store) -> None:
    """What notes the writes of steps notes every column: it must not stay for what people do."""
    opened = reopened(lived, QUIET["an index"])
    before = audit.head(opened)
    opened.execute("UPDATE devices SET heard_at = heard_at")
    opened.execute("UPDATE staff SET totp_last = NULL")
    assert audit.head(opened) == before
    opened.close()


def test_a_database_from_before_the_chain_held_facts_has_all_of_them_after(tmp_path: Path) -> None:
    """More rows than one entry records."""
    dump = next((Path(__file__).parent / "schemas").glob("14ebc96.sql"))
    path = tmp_path / "old.db"
    with closing(sqlite3.connect(path)) as old:
        old.executescript(dump.read_text(encoding="utf-8"))
    opened = open_store(path)
    assert backup.faults(opened) == []
    assert audit.recorded(opened.db.conn, {"events": None}).keys() == {
        ("events", e["id"]) for e in opened.rows("SELECT id FROM events")
    }
    opened.close()


def falls_short(db: Database) -> None:
    raise MemoryError


@pytest.mark.parametrize("fault", [sql("INSERT INTO visits (id) VALUES (NULL)"), falls_short])
def test_a_step_that_fails_leaves_no_copy_of_what_still_stands(lived: Store, fault: Step) -> None:
    """Whoever serves tries again and again: a copy each time would fill the disk that all of it lies on."""
    before = audit.head(lived)
    with pytest.raises((StoreError, MemoryError)):
        reopened(lived, fault)
    assert list(lived.path.parent.glob("*-before-*")) == []
    del steps._migrations[-1]
    assert (audit.head(lived), backup.faults(lived)) == (before, [])
