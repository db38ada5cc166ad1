"""A clinic that is closed for its move takes nothing more, whoever asks, and its copy goes on elsewhere with all it had."""

import sqlite3
import threading
from pathlib import Path
from types import SimpleNamespace

import pytest
from click.testing import CliRunner, Result
from flask.testing import FlaskClient

from followup.cli import cli
from followup.config import Settings
from followup.records import Store, audit, backup, generation, moving, open_store, opening
from followup.records.store import Closed, StoreError
from tests.conftest import NOW, Clock


def test_what_is_written_after_the_close_is_refused_and_what_came_before_stands(store: Store) -> None:
    other = Store(store.path)  # another process of the server: it learns of the close from the file alone
    moving.close(store, NOW)
    before = audit.head(store)
    for one in (store, other):
        with pytest.raises(Closed, match="followup close --undo"), one.transaction():
            raise AssertionError("nobody gets in")
        with pytest.raises(Closed):
            one.shared(lambda: None)
    assert audit.head(store) == before
    assert audit.latest(store)[0].action == "closed for a move"
    moving.reopen(store, NOW)
    assert audit.latest(store)[0].action == "opened after a move"
    other.execute("DELETE FROM faults")
    assert backup.faults(store) == []
    other.close()


def test_a_close_waits_for_what_is_being_written(store: Store) -> None:
    asked = threading.Event()

    def close() -> None:
        asked.set()
        moving.close(store, NOW)
        store.close()

    thread = threading.Thread(target=close)
    with store.transaction():
        thread.start()
        asked.wait(20)
        audit.note(store, NOW, "T", "wrote", "it")
    thread.join(20)
    assert [entry.action for entry in audit.latest(store)[:2]] == ["closed for a move", "wrote"]


def test_a_closed_copy_goes_on_elsewhere_and_phones_need_send_nothing_again(store: Store, tmp_path: Path) -> None:
    moving.close(store, NOW)
    copy = backup.backup(store, tmp_path / "copies", NOW)
    there = tmp_path / "there" / "clinic.db"
    there.parent.mkdir()
    assert backup.restore(copy, there, NOW, closed=True) is None
    moved = open_store(there)
    moved.execute("DELETE FROM faults")
    assert (moved.closed, generation.generation(moved), backup.faults(moved)) == (False, "", [])
    moved.close()
    assert store.closed


def test_the_commands_close_a_clinic_and_take_it_back(store: Store) -> None:
    settings = ["--database", str(store.path), "--port", "8000"]
    environment = {"FOLLOWUP_DATABASE": str(store.path), "FOLLOWUP_PHONE": "+00 1 234"}
    store.close()

    def run(*words: str) -> Result:
        return CliRunner().invoke(cli, words, env=environment)

    assert "is closed" in run("close").output
    for again in (run("close"), run("serve", *settings)):
        assert isinstance(again.exception, Closed)
        assert "followup close --undo" in str(again.exception)
    assert "takes entries again" in run("close", "--undo").output
    assert run("check").output == "the database and the audit chain are whole\n"


def test_a_copy_from_before_the_close_is_refused_as_a_whole_one(store: Store, tmp_path: Path) -> None:
    copy, there = backup.backup(store, tmp_path / "copies", NOW), tmp_path / "there.db"
    moving.close(store, NOW)
    with pytest.raises(StoreError, match="copied before the clinic was closed"):
        backup.restore(copy, there, NOW, closed=True)
    assert not there.exists()


def test_a_move_never_takes_the_place_of_a_clinic_that_works(store: Store, tmp_path: Path) -> None:
    moving.close(store, NOW)
    copy, there = backup.backup(store, tmp_path / "copies", NOW), tmp_path / "there.db"
    open_store(there, create=True).close()
    with pytest.raises(StoreError, match="is not closed"):
        backup.restore(copy, there, NOW, closed=True)
    back = open_store(there)
    moving.close(back, NOW)
    back.close()
    assert backup.restore(copy, there, NOW, closed=True) is not None


def test_a_plain_restore_of_a_closed_copy_opens_it_and_phones_send_again(store: Store, tmp_path: Path) -> None:
    moving.close(store, NOW)
    copy, there = backup.backup(store, tmp_path / "copies", NOW), tmp_path / "there.db"
    backup.restore(copy, there, NOW)
    moved = open_store(there)
    assert (moved.closed, bool(generation.generation(moved))) == (False, True)
    moved.close()


def test_a_closed_clinic_is_not_changed_by_a_newer_version(store: Store, monkeypatch: pytest.MonkeyPatch) -> None:
    moving.close(store, NOW)
    before = audit.head(store)
    monkeypatch.setattr(opening.steps, "pending", lambda _: [SimpleNamespace(name="a new step")])
    monkeypatch.setattr(opening, "later_steps", lambda _: [])
    with pytest.raises(Closed):
        open_store(store.path)
    assert (audit.head(store), list(store.path.parent.glob("*-before-*"))) == (before, [])
    undone = CliRunner().invoke(cli, ["close", "--undo"], env={"FOLLOWUP_DATABASE": str(store.path)})
    assert (undone.exit_code, store.closed) == (0, False)


def test_pages_that_need_no_database_do_without(client: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    def gone(_: Store) -> bool:
        raise sqlite3.DatabaseError("file is not a database")

    monkeypatch.setattr(Store, "closed", property(gone))
    assert client.get("/me/").status_code == 200


def test_every_thread_s_connection_is_let_go(store: Store) -> None:
    mine = store.db.conn
    theirs: list[sqlite3.Connection] = []
    done, read = threading.Event(), threading.Event()

    def use() -> None:
        theirs.append(store.db.conn)
        read.set()
        done.wait(20)

    thread = threading.Thread(target=use)
    thread.start()
    read.wait(20)
    store.let_go()
    for connection in (mine, *theirs):
        with pytest.raises(sqlite3.ProgrammingError, match="closed"):
            connection.execute("SELECT 1")
    done.set()
    thread.join(20)
    assert store.rows("SELECT 1 AS one") == [{"one": 1}]


def test_every_page_and_interface_says_to_come_again(
    store: Store, settings: Settings, clock: Clock, client: FlaskClient, as_nurse: FlaskClient, as_patient: FlaskClient
) -> None:
    moving.close(store, NOW)
    for who, path in ((client, "/"), (client, "/sign-in"), (as_nurse, "/"), (as_nurse, "/clinic/"), (as_patient, "/me/")):
        answer = who.get(path)
        assert (answer.status_code, answer.headers["Retry-After"]) == (503, "5")
        assert settings.clinic.phone in answer.text
    for path in ("/api/v1/pack", "/api/v1/events"):
        answer = as_patient.open(path, method="POST" if path.endswith("events") else "GET", json={"events": []})
        assert (answer.status_code, answer.json["phone"]) == (503, settings.clinic.phone)
    assert as_nurse.get("/static/base.css").status_code == 200
    told = client.get("/health")
    assert (told.status_code, told.json) == (503, {"ok": False, "stopped": ["closed"]})
    moving.reopen(store, NOW)
    assert as_nurse.get("/clinic/").status_code == 200
