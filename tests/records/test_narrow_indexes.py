"""Indexes are as narrow as what is looked for by them, and each is used (EXPLAIN QUERY PLAN, SQLite's documentation)."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from sqlite_utils import Database

from followup.care.actors import Actor
from followup.records import Store, events, export, messages, open_store, patients, visits, worries
from followup.records.migrations import steps
from followup.records.values import Device
from tests.conftest import NOW


@pytest.fixture
def used(store: Store) -> Callable[[Callable[[], object]], set[str]]:
    """The indexes by which an act looks for what it reads."""

    def by(act: Callable[[], object]) -> set[str]:
        statements: list[str] = []
        store.db.conn.set_trace_callback(statements.append)
        act()
        store.db.conn.set_trace_callback(None)
        plans = [
            str(row[3]) for one in statements if one.lstrip().startswith(("SELECT", "UPDATE")) for row in plan(store, one)
        ]
        return {found[1] for step in plans if (found := re.search(r"INDEX (\w+) ", step))}

    return by


def plan(store: Store, statement: str) -> list[tuple[object, ...]]:
    return list(store.db.conn.execute(f"EXPLAIN QUERY PLAN {statement}"))


def test_each_narrow_index_is_used(
    store: Store, nurse: Actor, eye_id: str, device: Device, used: Callable[[Callable[[], object]], set[str]]
) -> None:
    assert {"events_of_eye", "events_corrected"} <= used(lambda: events.of_eye(store, eye_id))
    assert "events_corrected" in used(lambda: events.correction_of(store, "x"))
    assert "visits_replaced_once" in used(lambda: visits.of_eye(store, eye_id))
    assert "steps_of_callback" in used(lambda: worries.steps_of(store, "x"))
    assert "steps_taken_over" in used(lambda: worries.taken_from(store, nurse.id, NOW))
    assert "steps_handed_over" in used(lambda: worries.handed_to(store, nurse.id, NOW))
    assert "messages_waiting" in used(lambda: messages.waiting(store, NOW))
    assert "messages_sending" in used(lambda: messages.give_back_stuck(store, NOW))
    assert "messages_of_person" in used(lambda: messages.of_person(store, "patient:x"))
    assert "pages_opened_about" in used(lambda: export.of_patient(store, "x"))
    assert "terms_of_patient" in used(lambda: patients.without_terms(store))


def test_terms_from_before_are_kept_each_once(tmp_path: Path) -> None:
    path = tmp_path / "clinic.db"
    old = Database(path)
    steps.apply(old, stop_before="m038_narrow_indexes")
    names = "id, number, name, born_on, phone, language, created_at"
    old.execute(f"INSERT INTO patients ({names}) VALUES ('p', '1', 'Ann', '1952-03-14', '', 'en', '2027-03-05')")
    for term in ("ann", "nn", "ann"):
        old.execute("INSERT INTO patient_terms VALUES (?, 'p')", (term,))
    old.close()
    store = open_store(path)
    assert store.rows("SELECT * FROM patient_terms") == [
        {"term": "ann", "patient_id": "p"},
        {"term": "nn", "patient_id": "p"},
    ]
    patients.index(store, "p", ["bob", "ob", "bob"])
    assert [row["term"] for row in store.rows("SELECT term FROM patient_terms")] == ["bob", "ob"]
    store.close()
