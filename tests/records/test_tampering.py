"""Every kind of tampering with the database is noticed, and `check` says where. Each is done as somebody with the file would."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner

from followup import jobs
from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.care.visits import visit
from followup.cli import cli
from followup.config import Messages, Settings
from followup.records import Store, audit, backup, open_store, passkeys, people, sealing
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Device
from tests.conftest import NOW, ZONE
from tests.exchange.conftest import Mailbox, mailbox

__all__ = ["mailbox"]


@pytest.fixture
def lived(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, device: Device) -> Store:
    """A clinic with a visit, warnings, a callback, a phone that was locked out, a passkey that was removed, and a nurse who left."""
    desk = Desk(store, NOW, nurse, ZONE)
    bodies = [MeasuresBody(eye="right", acuity="6/60", iop_mmhg=41, instrument="applanation", bubble_percent=85)]
    visit.record_visit(desk, eye_id, bodies, visit="day 1")
    enrol.revoke(desk, device.id)
    passkeys.add(store, NOW, nurse.id, "id", "key", 0, "tablet")
    passkeys.remove_all(store, NOW, nurse.id)
    people.ask_for_passkey(store, nurse.id, True)
    left = accounts.add_staff(store, NOW, "Lea Left", "nurse", "left@test.invalid", "words that do not belong")
    accounts.end(store, NOW, left)
    return store


def test_a_clinic_that_nobody_tampered_with_is_whole(lived: Store) -> None:
    assert backup.faults(lived) == []


def test_a_check_leaves_nothing_behind_and_holds_nobody_up(lived: Store, nurse: Actor) -> None:
    """What the chain records lies in a table beside while it is compared."""
    with closing(sqlite3.connect(lived.path, isolation_level=None)) as other:
        sealing.know_digests(other)
        for _ in range(2):
            assert backup.faults(lived) == []
            assert not lived.db.conn.in_transaction
            other.execute("UPDATE devices SET heard_at = heard_at")
            lived.execute("UPDATE staff SET name = 'Nora Named' WHERE id = :id", {"id": nurse.id})
    assert [row["name"] for row in lived.rows("SELECT name FROM temp.sqlite_master WHERE type = 'table'")] == ["touched"]


def past_us(store: Store, *statements: str) -> None:
    """Write to the file as any other program would, with guards taken off and put back."""
    store.close()
    with closing(sqlite3.connect(store.path)) as file:
        guards = file.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'").fetchall()
        for name, _ in guards:
            file.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            file.execute(statement)
        for _, sql in guards:
            file.execute(sql)
        file.commit()


CHANGED = {
    "an event's body": ("events", "UPDATE events SET body = replace(body, '41', '14') WHERE kind = 'measures'"),
    "an event's time": ("events", "UPDATE events SET at = '2027-03-04T10:00:00.000000Z' WHERE kind = 'measures'"),
    "who wrote an event": ("events", "UPDATE events SET author = 'nurse:another' WHERE kind = 'measures'"),
    "an operation": ("operation_records", "UPDATE operation_records SET agent = 'air'"),
    "a visit": ("visits", "UPDATE visits SET target = '2027-03-09' WHERE name = 'week 1'"),
    "a warning": ("warnings", "UPDATE warnings SET how_soon = 'this-week'"),
    "a callback, settled": ("callbacks", "UPDATE callbacks SET state = 'settled', settled_at = opened_at"),
    "a step of a callback": ("callback_steps", "UPDATE callback_steps SET who = 'nurse:another'"),
    "follow-up": ("eyes", "UPDATE eyes SET ended_at = '2027-03-05T10:00:00.000000Z' WHERE followed_since IS NOT NULL"),
    "a patient's phone": ("patients", "UPDATE patients SET phone = '+00 0'"),
    "a nurse made surgeon": ("staff", "UPDATE staff SET role = 'surgeon' WHERE email = 'nurse@test.invalid'"),
    "a password": ("staff", "UPDATE staff SET password_hash = 'x' WHERE email = 'surgeon@test.invalid'"),
    "an account taken up again": ("staff", "UPDATE staff SET left_at = NULL WHERE email = 'left@test.invalid'"),
    "a phone let in again": ("devices", "UPDATE devices SET revoked_at = NULL, revoked_by = NULL"),
    "a passkey of somebody else": (
        "passkeys",
        "UPDATE passkeys SET staff_id = (SELECT id FROM staff WHERE role = 'surgeon')",
    ),
    "another key": ("passkeys", "UPDATE passkeys SET public_key = 'x'"),
    "a removed passkey": ("passkeys", "UPDATE passkeys SET removed_at = NULL"),
    "no passkey asked for": ("staff", "UPDATE staff SET passkey_asked = NULL WHERE email = 'nurse@test.invalid'"),
    "whom the directory means": ("staff", "UPDATE staff SET directory_subject = 'x' WHERE email = 'nurse@test.invalid'"),
    "a phone of another patient": ("devices", "UPDATE devices SET token_hash = 'x'"),
}


@pytest.mark.parametrize("what", CHANGED)
def test_a_changed_row_is_named(lived: Store, what: str) -> None:
    table, statement = CHANGED[what]
    past_us(lived, statement)
    faults = backup.faults(lived)
    assert faults
    assert all(f.startswith(f"{table} ") and "does not hold what audit entry" in f for f in faults)
    known = {str(row["id"]) for row in lived.rows(f"SELECT id FROM {table}")}
    assert {f.split()[1] for f in faults} <= known


def test_a_row_that_was_moved_to_an_eye_that_is_not_there_is_named(lived: Store) -> None:
    past_us(lived, "UPDATE events SET eye_id = 'nobody' WHERE kind = 'measures'")
    (row,) = lived.rows("SELECT id FROM events WHERE eye_id = 'nobody'")
    faults = backup.faults(lived)
    assert faults[0] == f"events {row['id']} points at no row of eyes"
    assert any(fault.startswith(f"events {row['id']} does not hold what audit entry") for fault in faults)


OTHERS = "eye_id, kind, at, body, author, received_at"


def test_a_row_put_in_is_named(lived: Store) -> None:
    past_us(lived, f"INSERT INTO events (id, {OTHERS}) SELECT 'put-in', {OTHERS} FROM events LIMIT 1")
    assert backup.faults(lived) == ["events put-in stands there without an audit entry"]


@pytest.mark.parametrize("table", ["events", "looks", "signatures", "warning_grounds", "callback_steps"])
def test_a_row_taken_out_is_named(lived: Store, nurse: Actor, eye_id: str, table: str) -> None:
    if not lived.rows(f"SELECT 1 FROM {table}"):
        lived.execute("PRAGMA foreign_keys = OFF")
        made = {
            "looks": f"INSERT INTO looks VALUES ('one', '{eye_id}', '2027-03-05T10:00:00.000000Z', 'nurse:x')",
            "signatures": f"INSERT INTO signatures VALUES ('one', 'reviews', 'f', '{nurse.id}', '2027-03-05T10:00:00.000000Z')",
            "warning_grounds": (
                "INSERT INTO warning_grounds SELECT 1, w.id, 1, e.id, NULL, e.at FROM warnings w, events e LIMIT 1"
            ),
        }
        lived.execute(made[table])
    row = next(iter(sealing.of_table(lived.db.conn, table)))
    key = "number" if table == "warning_grounds" else "id"
    past_us(lived, f"DELETE FROM {table} WHERE {key} = '{row[1]}'")
    assert any(f.startswith(f"{table} {row[1]}, which audit entry") and f.endswith("is gone") for f in backup.faults(lived))


def test_an_entry_that_was_changed_breaks_the_chain_there(lived: Store) -> None:
    past_us(lived, "UPDATE audit SET who = 'somebody else' WHERE number = 3")
    assert backup.faults(lived)[0] == "the audit chain breaks at entry 3"


@pytest.mark.parametrize("fact", ["facts", "detail", "at"])
def test_every_part_of_an_entry_is_in_its_hash(lived: Store, fact: str) -> None:
    number = max(entry["number"] for entry in audit.everything(lived) if entry["facts"])
    past_us(lived, f"UPDATE audit SET {fact} = '[]' WHERE number = {number}")
    assert backup.faults(lived)[0] == f"the audit chain breaks at entry {number}"


def test_an_entry_taken_out_of_the_middle_breaks_the_chain_there(lived: Store) -> None:
    past_us(lived, "DELETE FROM audit WHERE number = 3")
    assert backup.faults(lived)[0] == "the audit chain breaks at entry 3"


def test_entries_that_were_numbered_anew_break_the_chain_there(lived: Store) -> None:
    """The number is in no hash: heads that left this machine name it."""
    past_us(lived, "UPDATE audit SET number = number + 1000 WHERE number > 4")
    assert backup.faults(lived)[0] == "the audit chain breaks at entry 5"


def test_a_cut_tail_leaves_rows_without_an_entry(lived: Store) -> None:
    past_us(lived, "DELETE FROM audit WHERE number > 4")
    faults = backup.faults(lived)
    assert any(f.startswith("events ") and "without an audit entry" in f for f in faults)


def test_an_emptied_chain_leaves_rows_without_an_entry(lived: Store) -> None:
    past_us(lived, "DELETE FROM audit")
    assert sum("without an audit entry" in f for f in backup.faults(lived)) > 10


def rewritten(store: Store, change: Callable[[list[dict[str, object]]], list[dict[str, object]]]) -> None:
    """The whole chain made anew, each hash right: what somebody does who knows this code."""
    entries = change(list(audit.everything(store)))
    rows, previous = [], audit.FIRST
    for number, entry in enumerate(entries, 1):
        whole = {k: v for k, v in entry.items() if k not in ("number", "hash")} | {"previous": previous}
        previous = sealing.entry_hash(whole)
        rows.append({**whole, "number": number, "hash": previous})
    names = list(rows[0]) if rows else []
    values = [f"({', '.join(repr(row[n]) if n == 'number' else sqlite_text(row[n]) for n in names)})" for row in rows]
    past_us(store, "DELETE FROM audit", *(f"INSERT INTO audit ({', '.join(names)}) VALUES {v}" for v in values))


def sqlite_text(value: object) -> str:
    return "'" + str(value).replace("'", "''") + "'"


@pytest.mark.parametrize("what", ["cut", "emptied", "rewritten"])
def test_with_the_rows_tampered_to_fit_only_a_head_outside_tells(lived: Store, tmp_path: Path, what: str) -> None:
    """The last entry records nothing but a sign-in: no row misses it. Only what left this machine can tell."""
    audit.note(lived, NOW, "somebody", "sign-in failed", "unknown")
    folder = tmp_path / "kept"
    folder.mkdir()
    audit.keep_head(lived, folder, NOW)
    number, hash = audit.head(lived)
    if what == "cut":
        past_us(lived, f"DELETE FROM audit WHERE number = {number}")
    elif what == "emptied":
        past_us(lived, "DELETE FROM audit")
    else:
        rewritten(lived, lambda entries: [e | {"who": "another"} if e["action"] == "staff ended" else e for e in entries])
        assert backup.faults(lived) == []
    (said,) = audit.missing_heads(lived, audit.heads_kept(folder))
    if what == "emptied":
        assert "no head in audit-heads.txt shows where this trail came from" in said
    else:
        assert f"audit entry {number}, noted outside on 2027-03-05T10:00:00Z" in said
    assert said in backup.faults(lived, audit.heads_kept(folder))
    assert audit.missing_heads(lived, [audit.Head("mail", number, hash)]) != []


def test_the_head_leaves_with_each_backup_and_by_mail(
    lived: Store, settings: Settings, tmp_path: Path, mailbox: Mailbox
) -> None:
    sent_by = Messages(smtp_host="127.0.0.1", smtp_port=mailbox.port, smtp_security="none", sender="clinic@test.invalid")
    server = settings.server.model_copy(update={"backups": tmp_path / "kept"})
    clinic = settings.clinic.model_copy(update={"audit_email": "records@test.invalid"})
    chosen = settings.model_copy(update={"server": server, "messages": sent_by, "clinic": clinic})
    assert jobs.run(lived, chosen, "backup", NOW) == 1
    assert jobs.run(lived, chosen, "audit-mail", NOW) == 1
    number, hash = audit.head(lived)
    assert audit.heads_kept(tmp_path / "kept") == [audit.Head("2027-03-05T10:00:00Z", number, hash, audit.life(lived))]
    assert (tmp_path / "kept" / audit.HEADS).stat().st_mode & 0o777 == 0o600
    (mail,) = mailbox.letters
    assert f"followup check --head {number}:{hash}" in mail.get_content()


@dataclass
class Clinic:
    """A database of our own, and a folder in which heads of several databases may come to be noted."""

    path: Path
    folder: Path

    def works(self, day: int, *, restored: bool = False) -> None:
        """Something is recorded, and the head leaves."""
        store = open_store(self.path)
        audit.note(store, NOW, "test", "entry", f"{self.path.name} {day}")
        audit.keep_head(store, self.folder, NOW + timedelta(days=day), restored=restored)
        store.close()

    def put_back(self, name: str, day: int, *, noted: bool = True) -> "Clinic":
        """A copy restored under that name, as the command does it: in its own place, or elsewhere."""
        store = open_store(self.path)
        copy = backup.backup(store, self.folder / "copies", NOW + timedelta(days=day))
        store.close()
        other = Clinic(self.path.with_name(name), self.folder)
        backup.restore(copy, other.path, NOW + timedelta(days=day))
        if noted:
            other.works(day, restored=True)
        return other

    def faults(self) -> list[str]:
        store = open_store(self.path)
        found = audit.missing_heads(store, audit.heads_kept(self.folder))
        store.close()
        return found

    def cut(self, entries: int, statement: str = "") -> None:
        """By somebody with the file: the last entries gone, and its life another one."""
        last = f"DELETE FROM audit WHERE number > (SELECT max(number) FROM audit) - {entries}"
        past_us(Store(self.path), last, *([statement] if statement else []))


@pytest.fixture
def clinic(lived: Store, tmp_path: Path) -> Clinic:
    (tmp_path / "kept").mkdir()
    lived.close()
    return Clinic(lived.path, tmp_path / "kept")


def lives(id: str) -> str:
    return f"INSERT INTO settings VALUES ('generation', '{id}') ON CONFLICT (key) DO UPDATE SET value = excluded.value"


def test_a_copy_put_back_elsewhere_says_nothing_against_the_clinic(clinic: Clinic) -> None:
    """Whether the clinic noted heads before or not, and whatever the copy does."""
    clinic.works(1)
    drill = clinic.put_back("drill.db", 2)
    assert (clinic.faults(), drill.faults()) == ([], [])
    clinic.works(3)
    drill.works(4)
    assert clinic.faults() == []
    clinic.cut(1)
    (said,) = clinic.faults()
    assert "noted outside on 2027-03-08T10:00:00Z, is not in the chain any more" in said


def test_a_copy_put_back_elsewhere_does_not_pass_for_the_clinic_that_went_on(clinic: Clinic) -> None:
    clinic.works(1)
    drill = clinic.put_back("drill.db", 2)
    clinic.works(3)
    (said,) = drill.faults()
    assert said.startswith("the trail went on without this database on 2027-03-08T10:00:00Z")


def test_a_restore_in_its_place_begins_the_heads_anew(clinic: Clinic) -> None:
    clinic.works(1)
    store = open_store(clinic.path)
    early = backup.backup(store, clinic.folder / "copies", NOW)
    store.close()
    clinic.works(2)
    clinic.works(3)
    backup.restore(early, clinic.path, NOW + timedelta(days=4))
    (said,) = clinic.faults()
    assert "no head in audit-heads.txt shows where this trail came from" in said  # until the command notes it
    clinic.works(4, restored=True)
    clinic.works(5)
    assert clinic.faults() == []
    clinic.cut(1)
    assert clinic.faults() != []


@pytest.mark.parametrize("life", ["unknown", "of the drill", "of before the restore"])
def test_no_other_life_hides_a_trail_that_was_cut(clinic: Clinic, life: str) -> None:
    first = open_store(clinic.path)
    before = audit.life(first)
    first.close()
    clinic.works(1)
    drill = open_store(clinic.put_back("drill.db", 2).path)
    ids = {"unknown": "unknown", "of the drill": audit.life(drill), "of before the restore": before}
    drill.close()
    clinic.works(3)
    if life == "of before the restore":
        store = open_store(clinic.path)
        copy = backup.backup(store, clinic.folder / "copies", NOW + timedelta(days=4))
        store.close()
        clinic.works(4)
        backup.restore(copy, clinic.path, NOW + timedelta(days=5))
        clinic.works(5, restored=True)
    clinic.works(6)
    assert clinic.faults() == []
    clinic.cut(2, lives(ids[life]))
    assert clinic.faults() != []
    clinic.works(7)  # and the next day's copy is no way out
    assert clinic.faults() != []


def test_two_clinics_do_not_share_the_heads(clinic: Clinic) -> None:
    clinic.works(1)
    other = Clinic(clinic.path.with_name("other.db"), clinic.folder)
    open_store(other.path, create=True).close()
    other.works(2)
    assert clinic.faults() == []
    (said,) = other.faults()
    assert "is another clinic’s" in said


def test_heads_that_do_not_say_whose_they_are_count_for_the_clinic(clinic: Clinic) -> None:
    """As they were noted before: a line marked restored ends what stood there."""
    store = open_store(clinic.path)
    number, hash = audit.head(store)
    store.close()
    lines = f"2027-01-01T10:00:00Z 999 {hash}\n2027-01-02T10:00:00Z {number} {hash} restored\n"
    (clinic.folder / audit.HEADS).write_text(lines)
    assert clinic.faults() == []
    clinic.works(1)
    clinic.put_back("drill.db", 2)
    assert clinic.faults() == []
    clinic.cut(1)
    assert clinic.faults() != []
    clinic.cut(0, lives("unknown"))
    assert clinic.faults() != []
    (clinic.folder / audit.HEADS).write_text(lines + f"2027-01-03T10:00:00Z {number + 9} {hash}\n")
    assert "audit entry" in clinic.faults()[0]


def test_a_restore_elsewhere_at_the_prompt_leaves_the_clinic_whole(clinic: Clinic, tmp_path: Path) -> None:
    """With nothing but another place for the database, and the clinic's own settings."""
    config = tmp_path / "clinic.toml"
    config.write_text(f'[clinic]\nphone = "+00 1 234"\n[server]\ndatabase = "{clinic.path}"\nbackups = "{clinic.folder}"\n')
    clinic.works(1)

    def run(*words: str, **environment: str) -> str:
        done = CliRunner().invoke(cli, ["--config", str(config), *words], env=environment)
        assert done.exit_code == 0, done.output
        return done.output

    run("backup", str(clinic.folder))
    (copy,) = clinic.folder.glob("*.db")
    elsewhere = {"FOLLOWUP_DATABASE": str(tmp_path / "elsewhere" / "clinic.db")}
    run("restore", str(copy), **elsewhere)
    clinic.works(2)
    assert run("check") == "the database and the audit chain are whole\n"


def test_check_compares_with_the_backup_folder_and_with_a_mailed_head(lived: Store, tmp_path: Path) -> None:
    folder = tmp_path / "kept"
    folder.mkdir()
    audit.keep_head(lived, folder, NOW)
    number, hash = audit.head(lived)
    config = tmp_path / "clinic.toml"
    config.write_text(
        f'[clinic]\nphone = "+00 1 234"\n[server]\ndatabase = "{lived.path}"\nbackups = "{folder}"\n', encoding="utf-8"
    )

    def check(*more: str) -> tuple[int, str]:
        done = CliRunner().invoke(cli, ["--config", str(config), "check", *more])
        return done.exit_code, done.output

    assert check("--head", f"{number}:{hash}") == (0, "the database and the audit chain are whole\n")
    code, said = check("--head", f"{number}:{'0' * 64}")
    assert (code, "is not in the chain any more" in said) == (1, True)
    assert check("--head", "twelve")[0] == 2
    (folder / audit.HEADS).write_text(f"2027-03-05T10:00:00Z {number + 1} {hash}\n", encoding="utf-8")
    code, said = check()
    assert (code, f"audit entry {number + 1}" in said, f"it ends at {number}" in said) == (1, True, True)


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("DROP TRIGGER events_keeps_update", "the trigger events_keeps_update is missing"),
        ("DROP INDEX one_open_callback", "the index one_open_callback is missing"),
        (
            "CREATE TRIGGER quiet AFTER INSERT ON warnings BEGIN UPDATE callbacks SET state = 'settled'; END",
            "the trigger quiet is not one of ours",
        ),
    ],
)
def test_guards_that_are_missing_or_strange_are_named(lived: Store, statement: str, said: str) -> None:
    lived.execute(statement)
    assert said in backup.faults(lived)


def test_a_guard_that_was_emptied_is_named(lived: Store) -> None:
    lived.execute("DROP TRIGGER audit_keeps_update")
    lived.execute("CREATE TRIGGER audit_keeps_update BEFORE UPDATE ON audit BEGIN SELECT 1; END")
    assert backup.faults(lived) == ["the trigger audit_keeps_update is not as it was made"]


def test_a_transaction_that_fails_leaves_no_entry(store: Store, nurse: Actor) -> None:
    before = audit.head(store)

    def broken_off() -> None:
        with store.transaction():
            audit.note(store, NOW, "test", "something", "x")
            store.execute("UPDATE staff SET name = 'Another' WHERE id = :id", {"id": nurse.id})
            raise RuntimeError

    with pytest.raises(RuntimeError):
        broken_off()
    assert audit.head(store) == before
    store.execute("UPDATE devices SET heard_at = heard_at")
    assert audit.head(store) == before
    assert backup.faults(store) == []


def test_entries_record_the_rows_of_their_transaction(lived: Store) -> None:
    tables = {table for _, facts in sealing.recordings(lived.db.conn) for table, _, _ in facts}
    assert {"events", "visits", "warnings", "callbacks", "staff", "devices", "operations", "patients", "eyes"} <= tables


def test_what_is_written_outside_a_transaction_is_recorded_too(store: Store, nurse: Actor) -> None:
    store.execute("UPDATE staff SET name = 'Nora Named' WHERE id = :id", {"id": nurse.id})
    assert backup.faults(store) == []
