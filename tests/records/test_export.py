"""What leaves: every table with what its columns mean, one patient's whole record, and no secrets."""

import csv
import io
import json
import stat
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zipfile import ZipFile

import pytest
from click.testing import CliRunner
from flask import Flask

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol
from followup.care.visits import visit
from followup.cli import cli
from followup.records import Store, audit, export
from followup.records.bodies.clinic import MeasuresBody
from followup.records.dictionary import KEPT_BACK, SECRET
from followup.records.values import Device
from tests.conftest import NOW, PASSWORD, ZONE, operation_note, patient_details, signed_in


@pytest.fixture
def lived(store: Store, nurse: Actor, surgeon: Actor, eye_id: str, device: Device) -> Store:
    desk = Desk(store, NOW, nurse, ZONE)
    visit.record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=41, instrument="applanation")], visit="day 1")
    other = patient_details("T-2").model_copy(update={"name": "Other Person"})
    leaving.discharge(desk, other, operation_note(), [])
    return store


@pytest.fixture
def config(lived: Store, tmp_path: Path) -> str:
    file = tmp_path / "clinic.toml"
    file.write_text(f'[clinic]\nphone = "+00 1 234"\n[server]\ndatabase = "{lived.path}"\n', encoding="utf-8")
    return str(file)


def followup(config: str, *words: str) -> tuple[int, str]:
    done = CliRunner().invoke(cli, ["--config", config, *words])
    return done.exit_code, done.output + str(done.exception or "")


def test_every_table_leaves_with_what_its_columns_mean(lived: Store, config: str, tmp_path: Path) -> None:
    folder = tmp_path / "out"
    assert followup(config, "export", "csv", str(folder))[0] == 0
    with (folder / "dictionary.csv").open(encoding="utf-8", newline="") as file:
        described = {(row["table"], row["column"]): row["meaning"] for row in csv.DictReader(file)}
    assert all(described.values())
    for table in export.tables(lived):
        with (folder / f"{table}.csv").open(encoding="utf-8", newline="") as file:
            reader = csv.DictReader(file)
            rows = list(reader)
            assert {(table, name) for name in reader.fieldnames or ()} <= set(described)
        expected = lived.row(f"SELECT count(*) AS n FROM {table}")
        assert expected is not None
        assert len(rows) == expected["n"]
    assert [e["action"] for e in audit.of_subject(lived, "all tables")] == ["exported"]


def test_what_signs_or_opens_something_stays(lived: Store, config: str, tmp_path: Path, token: str) -> None:
    folder = tmp_path / "out"
    followup(config, "export", "csv", str(folder))
    names = {path.stem for path in folder.iterdir()}
    assert not names & set(KEPT_BACK)
    everything = "".join(path.read_text(encoding="utf-8") for path in folder.iterdir())
    secrets = [row["password_hash"] for row in lived.rows("SELECT password_hash FROM staff")]
    secrets += [row["token_hash"] for row in lived.rows("SELECT token_hash FROM devices")]
    for secret in (*secrets, "$argon2", PASSWORD, token):
        assert secret not in everything
    for name in SECRET:
        assert f",{name}," not in everything


def test_one_patient_s_whole_record_and_nobody_else_s(lived: Store, config: str, tmp_path: Path, device: Device) -> None:
    folder = tmp_path / "out"
    assert followup(config, "export", "patient", "T-1", str(folder))[0] == 0
    record = json.loads((folder / "record.json").read_text(encoding="utf-8"))
    assert [row["name"] for row in record["patients"]["rows"]] == ["Pat Patient"]
    kept = {"eyes": 2, "operations": 1, "visits": 2, "devices": 1, "enrolments": 1}
    assert {table: len(record[table]["rows"]) for table in kept} == kept
    assert "41" in str(record["events"]["rows"])
    assert record["warnings"]["rows"]
    assert record["callbacks"]["rows"]
    text = (folder / "record.txt").read_text(encoding="utf-8")
    assert text.startswith("Record of Pat Patient, number T-1")
    for file in ("record.json", "record.txt"):
        assert "Other Person" not in (folder / file).read_text(encoding="utf-8")
        assert stat.S_IMODE((folder / file).stat().st_mode) == 0o600
    assert [e["action"] for e in audit.of_subject(lived, device.patient_id)].count("exported") == 1


def test_every_table_about_patients_is_in_a_patient_s_record(lived: Store) -> None:
    """Whoever adds a table with an eye or a patient in it adds it to the record, too."""
    about = [t for t in export.tables(lived) if {"eye_id", "patient_id", "callback_id"} & set(export.columns(lived, t))]
    assert set(about) <= set(export.OF_PATIENT)


def test_a_patient_s_record_and_every_table_leave_from_pages_too(
    lived: Store, app: Flask, nurse: Actor, device: Device
) -> None:
    """A nurse hands the patient the record; all of the clinic leaves with a surgeon. Both are on record first."""
    as_nurse = signed_in(app, "nurse@test.invalid")
    page = as_nurse.get(f"/clinic/patients/{device.patient_id}").text
    for name, begins in (("record.txt", "Record of Pat Patient, number T-1"), ("record.json", "{")):
        address = f"/clinic/patients/{device.patient_id}/{name}"
        assert f'href="{address}"' in page
        answer = as_nurse.get(address)
        assert answer.text.startswith(begins)
        assert "Other Person" not in answer.text
    assert as_nurse.get("/surgeon/export.zip").status_code == 403
    as_surgeon = signed_in(app, "surgeon@test.invalid")
    assert 'href="/surgeon/export.zip"' in as_surgeon.get("/surgeon/results").text
    packed = ZipFile(io.BytesIO(as_surgeon.get("/surgeon/export.zip").data))
    assert set(packed.namelist()) == {*(f"{table}.csv" for table in export.tables(lived)), "dictionary.csv"}
    with packed.open("events.csv") as file:
        assert "41" in file.read().decode()
    assert [e["action"] for e in audit.of_subject(lived, "all tables")] == ["exported"]
    assert [e["who"] for e in audit.of_subject(lived, device.patient_id) if e["action"] == "exported"] == [
        nurse.signature
    ] * 2


def test_what_another_program_keeps_in_the_file_is_not_ours_to_export(lived: Store, config: str, tmp_path: Path) -> None:
    """A program that replicates keeps tables of its own there, whose names begin with a low line."""
    lived.execute("CREATE TABLE _replica_lock (id INTEGER)")
    assert followup(config, "export", "csv", str(tmp_path / "out"))[0] == 0
    assert not list((tmp_path / "out").glob("_*"))
    assert followup(config, "check")[1].startswith("the database and the audit chain are whole")


@pytest.mark.parametrize("wrong", ["unknown", "not empty"])
def test_nothing_is_written_over(config: str, tmp_path: Path, wrong: str) -> None:
    folder = tmp_path / "out"
    folder.mkdir()
    if wrong == "not empty":
        (folder / "mine.txt").write_text("keep", encoding="utf-8")
    code, said = followup(config, "export", "patient", "T-1" if wrong == "not empty" else "T-99", str(folder))
    assert (code, wrong.replace("unknown", "there is no patient") in said) == (1, True)
    assert [path.name for path in folder.iterdir()] == (["mine.txt"] if wrong == "not empty" else [])


def test_records_past_their_time_are_named_and_stay(lived: Store, config: str, nurse: Actor, eye_id: str) -> None:
    """A patient with one eye still followed is not past it, however long ago the other one ended."""
    assert followup(config, "retention", "--years", "10")[1] == "0 records are past 10 years; nothing was deleted\n"
    ended = (datetime.now(UTC) - timedelta(days=3700)).strftime("%Y-%m-%dT%H:%M:%S.000000Z")
    lived.execute("UPDATE eyes SET ended_at = :at WHERE id = :id", {"at": ended, "id": eye_id})
    patient = next(row["patient_id"] for row in lived.rows("SELECT * FROM eyes WHERE id = :id", {"id": eye_id}))
    fellow = "UPDATE eyes SET followed_since = created_at, ended_at = :at WHERE patient_id = :p AND id != :id"
    before = lived.row("SELECT count(*) AS n FROM events")
    lived.execute(fellow, {"p": patient, "id": eye_id, "at": None})
    assert followup(config, "retention", "--years", "10")[1].startswith("0 records")
    lived.execute(fellow, {"p": patient, "id": eye_id, "at": ended})
    said = followup(config, "retention", "--years", "10")[1]
    assert said.startswith(f"number T-1: follow-up ended {ended[:10]}, ")
    assert "1 record is past" in said
    assert followup(config, "retention", "--years", "11")[1].startswith("0 records")
    assert lived.row("SELECT count(*) AS n FROM events") == before


def test_a_second_phone_is_in_the_record(lived: Store, nurse: Actor, device: Device) -> None:
    code = enrol.issue_code(Desk(lived, NOW, nurse, ZONE), device.patient_id)
    enrol.enrol(lived, NOW, code, 1952, "carer", "test")
    assert len(export.of_patient(lived, device.patient_id)["devices"]) == 2
