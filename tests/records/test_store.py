"""The database: migrations in order, facts that cannot be changed, transactions, and the audit chain. A real file."""

import sqlite3
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from sqlite_utils import Database

from followup.care import trail
from followup.care.actors import Actor
from followup.care.corrections import correcting
from followup.care.desk import Desk
from followup.care.learning import signing
from followup.care.reading.eye import looked_at
from followup.care.visits import closing
from followup.care.visits.visit import record_visit
from followup.config import Clinic
from followup.protocols.book import draft_text, fingerprint
from followup.records import Store, audit, events, keys, open_store
from followup.records.bodies.clinic import MeasuresBody
from followup.records.migrations import steps
from followup.records.store import StoreError, new_id
from tests.conftest import NOW, ZONE


def test_every_step_runs_in_order_on_an_old_database(tmp_path: Path) -> None:
    names = [step.name for step in steps.pending(Database(memory=True))]
    assert names == sorted(names)
    assert len(names) > 20
    for name in names:
        path = tmp_path / f"before-{name}.db"
        old = Database(path)
        steps.apply(old, stop_before=name)
        old.conn.close()
        upgraded = open_store(path, create=name == names[0])
        assert not steps.pending(upgraded.db)
        upgraded.close()


def test_opening_twice_changes_nothing(tmp_path: Path) -> None:
    first = open_store(tmp_path / "a.db", create=True)
    schema = first.db.schema
    secret = keys.secret(first)
    first.close()
    again = open_store(tmp_path / "a.db")
    assert (again.db.schema, keys.secret(again)) == (schema, secret)
    again.close()


def test_a_missing_or_foreign_file_is_named(tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="followup init"):
        open_store(tmp_path / "none.db")
    foreign = tmp_path / "letter.txt"
    foreign.write_text("Dear reader, this is no database at all. " * 50)
    with pytest.raises(StoreError, match="cannot be used"):
        open_store(foreign)


def test_opening_a_database_again_takes_no_lock_from_whoever_has_it_open(store: Store, tmp_path: Path) -> None:
    """Another process that looks at the file and goes must not take the log away that is still in use."""
    open_store(store.path)
    open_store(store.path).close()
    look = f"import sqlite3; c = sqlite3.connect({str(store.path)!r}); c.execute('SELECT count(*) FROM audit'); c.close()"
    subprocess.run([sys.executable, "-c", look], check=True)
    audit.note(store, NOW, "test", "kept", "x")
    seen = sqlite3.connect(store.path)
    assert seen.execute("SELECT action FROM audit ORDER BY number DESC LIMIT 1").fetchall() == [("kept",)]
    seen.close()


@pytest.mark.parametrize("whose", ["nobody", "another program", "another program that migrates"])
def test_another_program_s_file_never_becomes_a_clinic(tmp_path: Path, whose: str) -> None:
    path = tmp_path / "foreign.db"
    path.touch()
    if whose != "nobody":
        foreign = Database(path)
        foreign["notes"].insert({"text": "not ours"})
        if whose == "another program that migrates":
            foreign["_sqlite_migrations"].insert({"migration_set": "another", "name": "first", "applied_at": ""})
        foreign.conn.close()
    path.chmod(0o644)
    before = path.read_bytes()
    with pytest.raises(StoreError, match=r"foreign\.db is no database of followup; nothing was changed"):
        open_store(path)
    assert (path.read_bytes(), path.stat().st_mode & 0o777) == (before, 0o644)
    assert list(tmp_path.iterdir()) == [path]


# The tables of facts as the guide and the design name them: what was recorded, decided, signed, seen and done.
FACTS = [
    "audit", "callback_steps", "closures", "events", "follow_ups", "looks", "operation_records", "pages_opened",
    "protocol_texts", "refused_events", "signatures", "visits", "warning_grounds", "warnings",
]  # fmt: skip


@pytest.fixture
def filled(store: Store, eye_id: str, nurse: Actor, surgeon: Actor) -> Store:
    """A clinic with a row in every table of facts."""
    desk, signing_desk = Desk(store, NOW, nurse, ZONE), Desk(store, NOW, surgeon, ZONE)
    record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=34, instrument="applanation")])
    (entry,) = events.of_eye(store, eye_id)
    correcting.withdraw(desk, entry.id, "another patient")
    looked_at(desk, eye_id)
    trail.opened(desk, "clinic.eye_page", eye_id)
    closing.close(desk, Clinic(name="x", phone="1", country="AT"), date(2027, 3, 30), "training", {})
    signing.save(signing_desk, "rulebook", draft_text("rulebook"))
    signing.sign(signing_desk, "rulebook", fingerprint(draft_text("rulebook")))
    events.refuse(store, NOW, "x", eye_id, "phone", "{}", "no")
    return store


@pytest.mark.parametrize("table", FACTS)
def test_the_database_refuses_to_change_or_delete_facts(filled: Store, table: str) -> None:
    before = filled.rows(f"SELECT * FROM {table}")
    assert before
    for column in before[0]:
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            filled.execute(f"UPDATE {table} SET {column} = {column}")
    with pytest.raises(sqlite3.IntegrityError, match="append-only"):
        filled.execute(f"DELETE FROM {table}")
    assert filled.rows(f"SELECT * FROM {table}") == before


def test_a_transaction_is_all_or_nothing_and_nests(store: Store) -> None:
    def fails() -> None:
        with store.transaction(), store.transaction():
            store.insert("settings", {"key": "x", "value": "y"})
            raise RuntimeError

    with pytest.raises(RuntimeError):
        fails()
    assert store.row("SELECT * FROM settings WHERE key = 'x'") is None


def test_the_audit_chain_shows_where_it_was_broken(store: Store, eye_id: str, nurse: Actor) -> None:
    assert audit.broken_at(store) is None
    entries = store.rows("SELECT number FROM audit ORDER BY number")
    assert len(entries) >= 3
    store.db.conn.executescript("DROP TRIGGER audit_keeps_update; UPDATE audit SET who = 'somebody else' WHERE number = 2")
    assert audit.broken_at(store) == 2


def test_corrected_and_withdrawn_events_no_longer_stand_but_are_kept(store: Store, eye_id: str) -> None:
    first, better, other = new_id(), new_id(), new_id()
    events.add(store, first, eye_id, "symptoms", NOW, {"pain": 9}, "test", NOW)
    events.add(store, better, eye_id, "symptoms", NOW, {"pain": 1}, "test", NOW, corrects=first)
    events.add(store, other, eye_id, "drops", NOW, {"name": "x"}, "test", NOW)
    events.add(store, new_id(), eye_id, "withdrawal", NOW, {}, "test", NOW, corrects=other)
    assert [e.id for e in events.of_eye(store, eye_id)] == [better]
    assert len(events.history_of(store, eye_id)) == 4


@pytest.mark.parametrize(
    ("table", "changes"),
    [
        ("patients", {"born_on": "0052-03-14"}),
        ("patients", {"born_on": "1899-12-31"}),
        ("patients", {"born_on": "2027-03-10"}),
        ("patients", {"born_on": "1952-02-30"}),
        ("patients", {"born_on": "14.03.1952"}),
        ("operation_records", {"operated_at": "26-11-24T11:00:00.000000Z"}),
        ("operation_records", {"operated_at": "0026-11-24T11:00:00.000000Z"}),
        ("operation_records", {"operated_at": "2027-03-02T14:00:00Z"}),
        ("operation_records", {"operated_at": "2027-03-09T14:00:00.000000Z"}),
        ("operation_records", {"operated_at": "2027-02-30T14:00:00.000000Z"}),
        ("operation_records", {"body": "{"}),
        ("visits", {"target": "0026-11-24"}),
        ("visits", {"target": "9999-12-31"}),
        ("visits", {"target": "2030-03-05"}),
        ("visits", {"target": "2027-02-27"}),
        ("visits", {"earliest": "0001-01-01"}),
        ("visits", {"latest": "2027-3-9"}),
        ("events", {"at": "1-01-01T11:00:00.000000Z"}),
        ("events", {"at": "1970-01-01T11:00:00.000000Z"}),
        ("events", {"at": "2027-03-09T11:00:00.000000Z"}),
        ("events", {"device_at": "1-01-01T11:00:00.000000Z"}),
        ("events", {"received_at": "now"}),
        ("events", {"body": '{"pain": inf}'}),
        ("events", {"body": '"' + "x" * 40_000 + '"'}),
    ],
)
def test_the_schema_itself_refuses_what_cannot_be(store: Store, eye_id: str, table: str, changes: dict[str, str]) -> None:
    events.add(store, new_id(), eye_id, "symptoms", NOW, {"pain": 1}, "test", NOW)
    sound = {**store.rows(f"SELECT * FROM {table}")[0], "id": new_id()} | ({"number": "new"} if table == "patients" else {})
    with pytest.raises(sqlite3.IntegrityError, match=f"^{table}: "):
        store.insert(table, {**sound, **changes})
    store.insert(table, sound)


def test_a_corrected_date_of_birth_has_bounds_too(store: Store, eye_id: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="born between 1900"):
        store.execute("UPDATE patients SET born_on = '0052-03-14'")
    assert store.execute("UPDATE patients SET born_on = '1953-03-14'") == 1


def test_a_whole_table_is_gone_through_a_row_at_a_time(store: Store) -> None:
    read: list[int] = []
    store.db.conn.create_function("read", 1, lambda value: read.append(value) or value)
    rows = store.each("SELECT read(value) AS value FROM json_each('[1, 2, 3, 4, 5]')")
    assert next(rows) == {"value": 1}
    assert len(read) <= 2  # SQLite is one ahead
    assert [row["value"] for row in rows] == [2, 3, 4, 5]
