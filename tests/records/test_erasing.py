"""A record that is emptied: nothing of it is left in the file, and rows, counts and the chain are whole."""

import json
import re
import sqlite3
import uuid
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask.testing import FlaskClient

from followup import jobs
from followup.care.actors import Actor
from followup.care.callbacks import holding, settling
from followup.care.corrections import correcting, particulars
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import Conflict
from followup.care.home import receive
from followup.care.learning import results, results_csv
from followup.care.patients import consenting, erasing, following
from followup.care.visits import visit
from followup.cli import cli
from followup.config import Clinic, Settings
from followup.records import Store, audit, backup, events, sealing, states, worries
from followup.records import erasing as records
from followup.records.bodies.clinic import MeasuresBody
from followup.records.export import OF_PATIENT
from followup.records.store import StoreError
from followup.records.values import Device
from tests.conftest import NOW, ZONE, operation_note, patient_details
from tests.records.test_tampering import past_us

WORDS = (
    "the cat sat on it",
    "seen with her sister",
    "he hung up",
    "moved to Farville",
    "Dana Daughter",
    "misread by her son",
)
WHO = ("Pat Patient", "Patricia Patient", "T-1", "1952-03-14", "+00 9 876", "+00 9 877")


# Columns that neither name a patient nor take words: times, ids, codes of ours, staff, and the name of a visit.
STAY = """
about agent at author callback_id claimed_at claimed_by code_hash corrects created_at created_by decision device_at
device_id done_at done_by due_at earliest end_reason ended_at enrolled_at event_id expires_at eye eye_id followed_since
given given_up heard_at how_soon id identity joined_into key kind language latest level listed_at listed_by made_at made_by
moved_up name next_try_at note_id number offset_minutes opened_at operated_at operated_on operation_id outcome owner page
patient_id person put_aside_at put_aside_by raised_at reached_by reached_since received_at recorded_at recorded_by replaces
revoked_at revoked_by rule rulebook said_by sequence settled_at settled_by severity side source starts state step surgeon
taken_at target theatre_on threshold told_at told_by tries unfounded used_at used_by useless_after visit_id warning_id what who
withdrawn worry wrong_tries
""".split()  # noqa: SIM905


@pytest.fixture
def ended(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, device: Device) -> Store:
    """A patient of whom much was said and written, and whose follow-up has ended; and another one."""
    desk = Desk(store, NOW, nurse, ZONE)
    said = {"id": "01a2158c-0000-7000-8000-000000000001", "operation": eye_id, "kind": "symptoms", "at": NOW.isoformat()}
    said |= {"offset_minutes": 60, "sequence": 1, "by": "patient", "body": {"pain": 3, "words": WORDS[0]}}
    bad = {**said, "id": str(uuid.uuid4()), "sequence": 2, "body": {"pain": 99, "words": WORDS[0]}}
    receive.receive(store, NOW, device, [said, bad], ZONE)
    bodies = [MeasuresBody(eye="right", acuity="6/60", iop_mmhg=41, instrument="applanation", notes=WORDS[1])]
    visit.record_visit(desk, eye_id, bodies, visit="day 1")
    (measured,) = [e for e in events.of_eye(store, eye_id) if e.kind == "measures"]
    correcting.correct(desk, measured.id, bodies[0].model_copy(update={"iop_mmhg": 16.0}), WORDS[5])
    consenting.give(desk, device.patient_id, "representative", WORDS[4])
    changed = patient_details().model_copy(update={"name": "Patricia Patient", "phone": "+00 9 877"})
    particulars.correct(desk, device.patient_id, changed, "misheard")
    for one in worries.callbacks_of(store, eye_id):
        settle(desk, surgeon, one.id)
    following.end(Desk(store, NOW + timedelta(hours=1), nurse, ZONE), eye_id, "moved", WORDS[3])
    leaving.discharge(desk, patient_details("T-2").model_copy(update={"name": "Other Person"}), operation_note(), [])
    return store


def settle(desk: Desk, surgeon: Actor, id: str) -> None:
    own = Desk(desk.store, desk.now, surgeon, desk.zone)
    holding.claim(own, id)
    settling.settle(own, id, "no-action", WORDS[2], Clinic(name="Test", phone="+00 1 234"))


def counted(store: Store) -> dict[str, int]:
    tables = [row["name"] for row in store.rows("SELECT name FROM sqlite_master WHERE type = 'table'")]
    left = {"audit", "patient_terms", "message_choices", "push_subscriptions", "changed_patients", "changed_results"}
    left |= {*states.TABLES, *states.RESULTS}
    return {t: store.rows(f"SELECT count(*) AS n FROM {t}")[0]["n"] for t in set(tables) - left}


def outcome(store: Store, actor: Actor) -> list[str]:
    """What the results page counts, and the table behind it without hospital numbers."""
    desk = Desk(store, NOW + timedelta(days=2), actor, ZONE)
    found = results.results(store, desk.now, ZONE, results.Asked())
    rows = [line.partition(",")[2] for line in results_csv.table(desk, results.Asked()).splitlines()]
    told = {name: getattr(found, name) for name in vars(type(found))["__dataclass_fields__"]}
    return [*rows, str(told)]


def in_the_file(store: Store, texts: tuple[str, ...]) -> list[str]:
    held = b"".join(path.read_bytes() for path in store.path.parent.glob(f"{store.path.name}*"))
    return [text for text in texts if text.encode() in held]


def test_nothing_of_it_is_left_in_the_file_and_everything_is_whole(
    ended: Store, nurse: Actor, device: Device, settings: Settings
) -> None:
    assert in_the_file(ended, WHO + WORDS) == [*WHO, *WORDS]
    for statement in (
        "PRAGMA secure_delete = OFF",
        "CREATE TABLE former AS SELECT e.body FROM events e, audit, audit more",
        "DROP TABLE former",
    ):
        ended.db.conn.execute(statement)  # pages that are free hold what stood in them
    outcomes, before = outcome(ended, nurse), counted(ended)
    guards = ended.rows("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' ORDER BY name")
    emptied = erasing.erase(Desk(ended, NOW + timedelta(days=1), nurse, ZONE), device.patient_id, "own wish")
    erasing.clean_file(ended)
    assert emptied > 6
    assert in_the_file(ended, WHO + WORDS) == ["1952-03-14", "+00 9 876"]  # the other person's too
    assert ended.rows("SELECT 1 FROM patients WHERE born_on = '1952-03-14'") == [{"1": 1}]
    assert backup.faults(ended) == []
    assert counted(ended) == before
    assert outcome(ended, nurse) == outcomes
    assert ended.rows("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' ORDER BY name") == guards
    raised = "SELECT w.id FROM warnings w JOIN eyes e ON e.id = w.eye_id WHERE e.patient_id = :id"
    warnings = ended.rows(raised, {"id": device.patient_id})
    jobs.run(ended, settings, "check", NOW + timedelta(days=1))
    assert ended.rows(raised, {"id": device.patient_id}) == warnings
    assert erasing.rows(ended, device.patient_id) == 0


def test_every_row_that_was_emptied_is_named_with_what_the_chain_had_recorded(
    ended: Store, nurse: Actor, device: Device
) -> None:
    recorded = {(table, key): hash for _, facts in sealing.recordings(ended.db.conn) for table, key, hash in facts}
    erasing.erase(Desk(ended, NOW, nurse, ZONE), device.patient_id, "own wish")
    (entry,) = [e for e in audit.of_subject(ended, device.patient_id) if e["action"] == audit.ERASED]
    said = json.loads(entry["detail"])
    assert {table for table, _, _ in said["rows"]} >= {
        "patients",
        "events",
        "refused_events",
        "follow_ups",
        "callback_steps",
    }
    assert all(recorded[table, key] == was for table, key, was in said["rows"])


def test_every_column_about_patients_is_emptied_or_said_to_stay(store: Store) -> None:
    """Whoever adds a column that names somebody, or takes words, has it emptied."""
    for table in set(OF_PATIENT) - set(records._GONE):
        emptied = set(records._WHAT.get(table, ())) | {"messages": {"detail"}, "follow_ups": {"reason"}}.get(table, set())
        assert set(store.db[table].columns_dict) - emptied <= set(STAY), table


def test_pages_of_an_emptied_record_open(
    as_nurse: FlaskClient, ended: Store, nurse: Actor, device: Device, eye_id: str
) -> None:
    erasing.erase(Desk(ended, NOW, nurse, ZONE), device.patient_id, "own wish")
    for page in (f"patients/{device.patient_id}", f"eyes/{eye_id}", f"patients/{device.patient_id}/consent", ""):
        answer = as_nurse.get(f"/clinic/{page}")
        assert answer.status_code == 200, page
        assert not any(text in answer.text for text in (*WORDS, "Patricia"))
    assert "Nobody with" in as_nurse.get("/clinic/?find=patricia").text


def test_emptied_in_any_other_way_is_tampered_with(ended: Store) -> None:
    past_us(ended, "UPDATE follow_ups SET words = '(erased)' WHERE words != ''")
    (fault,) = backup.faults(ended)
    assert fault.startswith("follow_ups ")
    assert "does not hold what audit entry" in fault


def test_a_detail_emptied_without_an_entry_that_says_so_breaks_the_chain(ended: Store) -> None:
    number = ended.rows("SELECT number FROM audit WHERE action = 'particulars corrected'")[0]["number"]
    past_us(ended, f"UPDATE audit SET detail = '{audit.EMPTIED}' WHERE number = {number}")
    assert backup.faults(ended)[0] == f"the audit chain breaks at entry {number}"


def test_an_emptied_entry_that_is_changed_later_breaks_the_chain(ended: Store, nurse: Actor, device: Device) -> None:
    erasing.erase(Desk(ended, NOW, nurse, ZONE), device.patient_id, "own wish")
    number = ended.rows("SELECT number FROM audit WHERE action = 'particulars corrected'")[0]["number"]
    past_us(ended, f"UPDATE audit SET who = 'nurse:another' WHERE number = {number}")
    assert backup.faults(ended)[0] == f"the audit chain breaks at entry {number}"


def test_what_was_tampered_with_is_not_emptied(ended: Store, nurse: Actor, device: Device) -> None:
    past_us(ended, "UPDATE follow_ups SET words = 'nothing' WHERE words != ''")
    faults = backup.faults(ended)
    with pytest.raises(StoreError, match="does not hold what was recorded"):
        erasing.erase(Desk(ended, NOW, nurse, ZONE), device.patient_id, "own wish")
    assert backup.faults(ended) == faults
    assert "Patricia Patient" in str(ended.rows("SELECT name FROM patients"))


def test_nobody_who_is_followed_is_made_nameless(store: Store, nurse: Actor, device: Device, eye_id: str) -> None:
    with pytest.raises(Conflict, match="followed"):
        erasing.erase(Desk(store, NOW, nurse, ZONE), device.patient_id, "own wish")


def test_nothing_is_emptied_while_a_callback_is_open(ended: Store, nurse: Actor, device: Device, eye_id: str) -> None:
    ended.execute("UPDATE callbacks SET state = 'waiting' WHERE rowid = (SELECT min(rowid) FROM callbacks)")
    with pytest.raises(Conflict, match="callback of this patient is open"):
        erasing.erase(Desk(ended, NOW, nurse, ZONE), device.patient_id, "own wish")
    with pytest.raises(Conflict, match="callback of this patient is open"):
        erasing.rows(ended, device.patient_id)


def run(store: Store, tmp_path: Path, *words: str, more: str = "") -> tuple[int, str]:
    config = tmp_path / "clinic.toml"
    config.write_text(f'[clinic]\nphone = "+00 1 234"\n{more}\n[server]\ndatabase = "{store.path}"\n', encoding="utf-8")
    done = CliRunner().invoke(cli, ["--config", str(config), *words])
    return done.exit_code, done.output + str(done.exception or "")


def test_the_command_line_says_first_and_erases_then(ended: Store, tmp_path: Path) -> None:
    said = run(ended, tmp_path, "erase", "T-1", "--dry-run")[1]
    assert said.endswith("rows would be emptied; nothing was\n")
    assert in_the_file(ended, WHO) == [*WHO]
    assert "say why this record is erased" in run(ended, tmp_path, "erase", "T-1")[1]
    assert run(ended, tmp_path, "erase", "T-1", "--why", "own wish") == (
        0,
        said.replace(" would be emptied; nothing was", " emptied"),
    )
    assert "there is no patient with the number T-1" in run(ended, tmp_path, "erase", "T-1", "--why", "again")[1]


def test_a_dry_run_refuses_what_would_be_refused(store: Store, eye_id: str, tmp_path: Path) -> None:
    assert run(store, tmp_path, "erase", "T-1", "--dry-run") == (
        1,
        "an eye of this patient is followed: end follow-up first",
    )


@pytest.mark.parametrize("command", [("erase", "T-1", "--why", "own wish"), ("retention", "--erase", "--years", "10")])
def test_copies_that_still_hold_the_record_are_named(
    ended: Store, tmp_path: Path, eye_id: str, command: tuple[str, ...]
) -> None:
    """Those that nothing takes away by itself: from before a restore, a schema, new keys."""
    long_ago = (datetime.now(UTC) - timedelta(days=3700)).strftime("%Y-%m-%dT%H:%M:%S.000000Z")
    ended.execute("UPDATE eyes SET ended_at = :at WHERE id = :id", {"at": long_ago, "id": eye_id})
    saved = backup.backup(ended, tmp_path / "kept", NOW)
    assert run(ended, tmp_path, "keys", "rotate")[0] == 0
    ended.close()
    backup.restore(saved, ended.path, NOW)
    named = [f"{ended.path.stem}-before-restore-20270305T100000Z.db", "before-rotation/followup-"]
    told = run(ended, tmp_path, *command)[1]
    assert "these hold them until you delete them: " in told
    listed = told.strip().partition("delete them: ")[2].split(", ")
    assert [any(name in path for path in listed) for name in named] == [True, True]
    assert len(listed) == 2
    assert all(Path(path).is_file() for path in listed)


@contextmanager
def another(store: Store, *statements: str) -> Iterator[None]:
    """Somebody else uses the database meanwhile."""
    with closing(sqlite3.connect(store.path, isolation_level=None)) as used:
        for statement in statements:
            used.execute(statement).fetchall()
        yield


@pytest.mark.parametrize("command", [("erase", "T-1", "--why", "own wish"), ("retention", "--erase", "--years", "10")])
def test_a_file_that_still_holds_it_is_said_with_the_way_to_clean_it(
    ended: Store, tmp_path: Path, eye_id: str, command: tuple[str, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A copy or an export that is being made, or a replica, keeps the log beside the file as it was."""
    monkeypatch.setattr("followup.records.store.BUSY_MS", 50)
    long_ago = (datetime.now(UTC) - timedelta(days=3700)).strftime("%Y-%m-%dT%H:%M:%S.000000Z")
    ended.execute("UPDATE eyes SET ended_at = :at WHERE id = :id", {"at": long_ago, "id": eye_id})
    with another(ended, "BEGIN", "SELECT * FROM patients"):
        code, told = run(ended, tmp_path, *command)
        assert code != 0
        assert in_the_file(ended, WORDS) == [*WORDS]
    assert "emptied" in told
    again = re.search(r"still holds what stood there.*followup (erase erased-[0-9a-f]+ --why again)", told)
    assert again is not None
    assert run(ended, tmp_path, *again[1].split())[0] == 0
    assert in_the_file(ended, WORDS) == []
    assert backup.faults(ended) == []


@pytest.mark.parametrize("use", ["BEGIN IMMEDIATE", "BEGIN"])
def test_a_file_in_use_is_not_clean(ended: Store, use: str) -> None:
    ended.db.conn.execute("PRAGMA busy_timeout = 50")
    with another(ended, use, "SELECT * FROM patients"):
        assert erasing.clean_file(ended) is False
    assert erasing.clean_file(ended) is True


def test_records_are_kept_unless_the_clinic_says_how_long(ended: Store, tmp_path: Path, eye_id: str) -> None:
    long_ago = (datetime.now(UTC) - timedelta(days=3700)).strftime("%Y-%m-%dT%H:%M:%S.000000Z")
    ended.execute("UPDATE eyes SET ended_at = :at WHERE id = :id", {"at": long_ago, "id": eye_id})
    for words in (("retention",), ("retention", "--erase")):
        assert run(ended, tmp_path, *words)[1].startswith("records are kept without an end")
    named = run(ended, tmp_path, "retention", more="records_kept_years = 10")[1]
    assert named.endswith("1 record is past 10 years; nothing was deleted\n")
    assert in_the_file(ended, WHO) == [*WHO]
    done = run(ended, tmp_path, "retention", "--erase", more="records_kept_years = 10")[1]
    assert done.endswith("1 record is past 10 years; emptied\n")
    assert in_the_file(ended, WORDS) == []
    assert run(ended, tmp_path, "retention", more="records_kept_years = 10")[1].startswith("0 records")
    assert backup.faults(ended) == []
