"""What leaves of one patient and of all, row by row; and backups by their names and ages."""

from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from followup.care.actors import Actor
from followup.records import Store, audit, backup, events, export, messages, patients, views, visits, worries
from followup.records.dictionary import COMMON, KEPT_BACK, SECRET, TABLES, meaning
from followup.records.store import StoreError, copy_database
from followup.records.values import Device, Patient
from tests.conftest import NOW
from tests.records.rows import callback, entry, person, right, task, visit


@pytest.fixture
def patient(store: Store) -> Patient:
    return person(store)


def counts(store: Store, patient: Patient) -> dict[str, int]:
    """How many rows of each table are the patient's, without tables that hold none."""
    return {table: len(rows) for table, rows in export.of_patient(store, patient.id).items() if rows}


def test_a_patient_of_whom_nothing_is_known_has_a_row_and_two_eyes(store: Store, patient: Patient) -> None:
    assert counts(store, patient) == {"patients": 1, "eyes": 2}


def test_rows_that_hang_on_other_rows_are_the_patients_too(
    store: Store, patient: Patient, nurse: Actor, eye_id: str
) -> None:
    eye, others = right(store, patient).id, eye_id
    for one in (eye, others):
        call = callback(store, one)
        worries.add_step(store, NOW, call.id, "nurse:n", "claimed")
        task(store, call, nurse)
        visits.must_tell(store, NOW, visit(store, one, date(2027, 4, 1)).id)
        views.add(store, NOW, "nurse:n", "clinic.call_page", call.id)
        views.add(store, NOW, "nurse:n", "clinic.eye_page", one)
    found = counts(store, patient)
    assert {table: found[table] for table in ("callbacks", "callback_steps", "tasks", "visits", "visits_to_tell")} == {
        "callbacks": 1, "callback_steps": 1, "tasks": 1, "visits": 1, "visits_to_tell": 1,
    }  # fmt: skip
    assert found["pages_opened"] == 2


def test_messages_are_whose_person_they_name(store: Store, patient: Patient) -> None:
    for who in (f"patient:{patient.id}", "patient:another", f"staff:{patient.id}"):
        messages.add(store, NOW, who, who, "visit", "v", NOW)
    assert [row["person"] for row in export.of_patient(store, patient.id)["messages"]] == [f"patient:{patient.id}"]


def test_what_was_refused_of_a_phone_is_its_patients_also_without_an_eye(store: Store, device: Device, eye_id: str) -> None:
    for id, eye, phone in (("a", None, device.id), ("b", eye_id, "x"), ("c", None, "x")):
        events.refuse(store, NOW, id, eye, phone, "{}", "odd")
    assert [row["id"] for row in export.of_patient(store, device.patient_id)["refused_events"]] == ["a", "b"]


def test_records_that_were_joined_leave_as_one(store: Store, patient: Patient) -> None:
    twin = person(store, "N-2")
    entry(store, right(store, twin).id)
    assert "events" not in counts(store, patient)
    patients.join(store, twin.id, patient.id)
    assert {table: counts(store, patient)[table] for table in ("patients", "eyes", "events")} == {
        "patients": 2, "eyes": 4, "events": 1,
    }  # fmt: skip


def test_a_copy_inside_holds_what_never_leaves(store: Store, device: Device) -> None:
    inside, outside = export.held_of(store, device.patient_id), export.of_patient(store, device.patient_id)
    assert set(inside) == set(outside)
    for table, rows in outside.items():
        assert len(inside[table]) == len(rows)
    assert "token_hash" in inside["devices"][0]
    assert not {name for rows in outside.values() for row in rows for name in row} & set(SECRET)


def test_a_table_leaves_row_by_row_by_the_names_of_its_columns(store: Store, eye_id: str) -> None:
    (row,) = export.rows(store, "patients")
    assert list(row) == export.columns(store, "patients")
    assert row["name"] == "Pat Patient"


def test_tables_leave_in_the_order_of_their_names_and_none_that_is_kept_back(store: Store) -> None:
    store.execute("CREATE TABLE _of_another_program (id INTEGER)")
    found = export.tables(store)
    assert found == sorted(found)
    assert not set(found) & {*KEPT_BACK, "_of_another_program", "sqlite_sequence"}
    assert set(found) == set(TABLES)


def test_a_columns_own_meaning_comes_before_the_common_one(store: Store) -> None:
    assert meaning("patients", "number") == "hospital number"
    assert meaning("patients", "name") == COMMON["name"]
    with pytest.raises(KeyError):
        meaning("patients", "shoe_size")


def test_no_meaning_is_of_a_column_that_is_not_there(store: Store) -> None:
    for table, (_, own) in TABLES.items():
        assert set(own) <= set(store.db[table].columns_dict), table


def test_the_dictionary_has_a_line_for_each_column_that_leaves(store: Store) -> None:
    lines = export.dictionary(store)
    assert [(table, column) for table, column, _ in lines] == [
        (table, column) for table in export.tables(store) for column in export.columns(store, table)
    ]
    assert all(export.described(table) and said for table, _, said in lines)


# --- Backups by name ---


def named(folder: Path, *stamps: str) -> None:
    folder.mkdir(exist_ok=True)
    for stamp in stamps:
        (folder / f"followup-{stamp}Z.db").touch()


def left(folder: Path) -> list[str]:
    return sorted(path.name.removeprefix("followup-").removesuffix("Z.db") for path in folder.iterdir())


def test_a_backup_goes_when_it_is_a_second_older_than_is_kept(tmp_path: Path) -> None:
    named(tmp_path, "20270226T095959", "20270226T100000", "20270305T100000")
    named(tmp_path, *(f"202703{day:02}T100000" for day in range(1, 5)), "20270304T110000", "20270304T120000")
    gone = backup.prune(tmp_path, NOW, 7)
    assert [path.name for path in gone] == ["followup-20270226T095959Z.db"]
    assert left(tmp_path)[0] == "20270226T100000"


def test_a_clock_that_jumps_years_ahead_costs_one_backup_a_day(tmp_path: Path) -> None:
    """Else the first one that is made by such a clock is the only one, and what it lacks is in none."""
    days = [f"202702{day:02}T100000" for day in range(1, 8)]
    named(tmp_path, *days)
    for n in (1, 2):
        named(tmp_path, f"2036010{n}T100000")
        backup.prune(tmp_path, datetime(2036, 1, n, 10, tzinfo=UTC), 7)
        assert left(tmp_path)[: 7 - n] == days[n:]
    named(tmp_path, "20270208T100000")  # the clock is right again, and what it had made stays
    backup.prune(tmp_path, datetime(2027, 2, 8, 10, tzinfo=UTC), 7)
    assert left(tmp_path) == [*days[2:], "20270208T100000", "20360101T100000", "20360102T100000"]


@pytest.mark.parametrize(
    "name",
    [
        "followup-20270101T000000Z.db-wal",
        "followup-20270101T000000Z.unfinished",
        "my-followup-20270101T000000Z.db",
        "letter.txt",
    ],
)
def test_only_what_is_named_as_ours_goes(tmp_path: Path, name: str) -> None:
    named(tmp_path, "20270305T100000")
    (tmp_path / name).touch()
    assert backup.prune(tmp_path, NOW, 1) == []
    assert (tmp_path / name).exists()


def test_the_latest_stays_however_old_and_the_others_go(tmp_path: Path) -> None:
    named(tmp_path, "20200101T000000", "20200103T000000", "20200102T000000")
    backup.prune(tmp_path, NOW, 1)
    assert left(tmp_path) == ["20200103T000000"]


def test_a_backup_is_named_by_the_second_it_was_made(store: Store, tmp_path: Path) -> None:
    made = [backup.backup(store, tmp_path / "kept", NOW + timedelta(seconds=n)) for n in range(2)]
    assert [path.name for path in made] == ["followup-20270305T100000Z.db", "followup-20270305T100001Z.db"]
    assert not list((tmp_path / "kept").glob("*.unfinished"))


def test_a_copy_that_is_not_whole_never_gets_the_name_of_a_backup(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup, "faults", lambda _: ["odd"])
    with pytest.raises(StoreError, match="is not a whole backup: odd"):
        backup.backup(store, tmp_path / "kept", NOW)
    assert list((tmp_path / "kept").iterdir()) == []


def test_what_could_not_be_copied_leaves_nothing_beside(tmp_path: Path) -> None:
    letter, target = tmp_path / "letter.db", tmp_path / "copy.db"
    letter.write_text("Dear reader, this is no database at all. " * 50, encoding="utf-8")
    with pytest.raises(StoreError, match="could not be copied"):
        copy_database(letter, target)
    assert list(tmp_path.iterdir()) == [letter]
    target.write_bytes(b"stood there before")
    with pytest.raises(StoreError, match="could not be copied"):
        copy_database(letter, target)
    assert target.read_bytes() == b"stood there before"


def test_what_is_wrong_with_the_file_is_told_before_anything_else(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(Store, "damage", lambda _: ["the database file is damaged (odd)"])
    assert backup.faults(store, [audit.Head("2027", 9, "f" * 64)]) == ["the database file is damaged (odd)"]


def test_a_chain_that_breaks_is_told_with_heads_that_are_gone(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(backup.audit, "broken_at", lambda _: 3)
    said = backup.faults(store, [audit.Head("2027", 9, "f" * 64)])
    assert said[0] == "the audit chain breaks at entry 3"
    assert said[1].startswith("audit entry 9, noted outside on 2027, is not in the chain any more")


def test_a_restore_of_nothing_changes_nothing(store: Store, tmp_path: Path) -> None:
    with pytest.raises(StoreError, match="there is no backup at"):
        backup.restore(tmp_path / "none.db", store.path, NOW)
    with pytest.raises(StoreError, match="there is no backup at"):
        backup.checked(tmp_path)
    with pytest.raises(StoreError, match="there is no backup at"):
        backup.checked(tmp_path / "none.db")
    assert not list(tmp_path.glob("*before-restore*"))
    assert not (tmp_path / "none.db").exists()
