"""The clinic's keys: wrapped by a secret outside the database, replaced at will, and what devices hold is still read."""

import stat
from datetime import timedelta
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask.testing import FlaskClient
from itsdangerous import BadSignature

from followup import serving
from followup.care import signatures
from followup.care.home import sealing
from followup.cli import cli
from followup.exchange import push_keys
from followup.records import Store, audit, keys, open_store
from followup.records.store import StoreError
from tests.conftest import NOW, free_port
from tests.sealed import seal
from tests.test_commands import followup


def outside(folder: Path, monkeypatch: pytest.MonkeyPatch, name: str = "key", variable: str = keys.KEY_FILE) -> Path:
    """A secret beside the database, named in the environment."""
    file = folder / name
    file.write_text(name * 40, encoding="utf-8")
    monkeypatch.setenv(variable, str(file))
    return file


def made_all(store: Store) -> tuple[str, str, str]:
    return keys.secret(store), sealing.public_key(store), push_keys.public_key(store)


def test_with_a_secret_outside_the_file_holds_no_key_as_it_is(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    outside(tmp_path, monkeypatch)
    secret, _, _ = made_all(store)
    held = "\n".join(store.db.conn.iterdump())
    assert secret not in held
    assert "PRIVATE KEY" not in held
    assert keys.wrapped(store)
    assert made_all(open_store(store.path)) == made_all(store)


def test_without_one_they_lie_in_it_as_they_are(store: Store) -> None:
    secret, _, _ = made_all(store)
    assert secret in "\n".join(store.db.conn.iterdump())
    assert not keys.wrapped(store)


@pytest.mark.parametrize("wrong", ["none", "another", "short", "missing"])
def test_another_secret_opens_nothing_and_says_so(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, wrong: str
) -> None:
    file = outside(tmp_path, monkeypatch)
    made_all(store)
    if wrong == "none":
        monkeypatch.delenv(keys.KEY_FILE)
    elif wrong == "another":
        file.write_text("another" * 10, encoding="utf-8")
    elif wrong == "short":
        file.write_text("short", encoding="utf-8")
    else:
        file.unlink()
    with pytest.raises(StoreError, match="FOLLOWUP_KEY_FILE"):
        keys.secret(store)


@pytest.mark.parametrize("command", ["serve", "check"])
@pytest.mark.parametrize("wrong", ["none", "another", "short", "missing", "former missing"])
def test_nothing_is_served_or_called_whole_without_the_secret_that_opens_the_keys(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, wrong: str, command: str
) -> None:
    """Before anything is started: a worker that cannot read its keys would only end again and again."""
    file = outside(tmp_path, monkeypatch)
    made_all(store)
    store.close()
    monkeypatch.setattr(serving, "_keep_running", lambda *_: pytest.fail("it was started"))
    asked = [command] if command == "check" else ["serve", "--database", str(store.path), "--port", str(free_port())]
    environment = {"FOLLOWUP_DATABASE": str(store.path), "FOLLOWUP_PHONE": "+00 1 234"}
    if wrong == "none":
        monkeypatch.delenv(keys.KEY_FILE)
    elif wrong == "former missing":
        monkeypatch.setenv(keys.FORMER_KEY_FILE, str(tmp_path / "gone"))
    elif wrong == "missing":
        file.unlink()
    else:
        file.write_text({"another": "another" * 10, "short": "short"}[wrong], encoding="utf-8")
    done = CliRunner().invoke(cli, asked, env=environment)
    assert isinstance(done.exception, StoreError)
    assert str(done.exception).count("FOLLOWUP_KEY_FILE") + str(done.exception).count("FOLLOWUP_FORMER_KEY_FILE") == 1


def test_looking_at_the_keys_makes_none(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    outside(tmp_path, monkeypatch)
    keys.check_outside(store)
    assert store.rows("SELECT * FROM settings") == []


def test_rotating_wraps_replaces_and_remembers(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = made_all(store)
    signed = signatures.timed(store, NOW, "clinic-device").dumps("somebody")
    packet = sealing.Sealed.model_validate(seal(before[1], {"held": "on a device"}))
    outside(tmp_path, monkeypatch)
    far = NOW + timedelta(days=3650)  # the opening of packets goes by the real clock
    keys.rotate(store, far, {"secret": "s" * 64, "sealing_key": sealing.new_key()})
    after = made_all(store)
    assert (after[0] != before[0], after[1] != before[1], after[2] == before[2]) == (True, True, True)
    assert keys.wrapped(store)
    assert before[0] not in "\n".join(store.db.conn.iterdump())
    assert signatures.timed(store, NOW, "clinic-device").loads(signed) == "somebody"
    assert sealing.opened(store, packet) == {"held": "on a device"}
    with pytest.raises(BadSignature):
        signatures.timed(store, far + timedelta(days=1), "clinic-device").loads(signed)


def test_what_leaked_is_forgotten_at_once(store: Store) -> None:
    before = made_all(store)
    signed = signatures.timed(store, NOW, "clinic-device").dumps("somebody")
    packet = sealing.Sealed.model_validate(seal(before[1], []))
    keys.rotate(store, NOW, {"secret": "s" * 64, "sealing_key": sealing.new_key()}, leaked=True)
    with pytest.raises(BadSignature):
        signatures.timed(store, NOW, "clinic-device").loads(signed)
    with pytest.raises(ValueError, match="not sealed for this clinic"):
        sealing.opened(store, packet)


def test_the_secret_outside_is_replaced_too(store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = outside(tmp_path, monkeypatch, "first")
    before = made_all(store)
    outside(tmp_path, monkeypatch, "second")
    monkeypatch.setenv(keys.FORMER_KEY_FILE, str(first))
    keys.rotate(store, NOW, {})
    monkeypatch.delenv(keys.FORMER_KEY_FILE)
    assert made_all(store) == before


def test_rotating_at_the_prompt(tmp_path: Path) -> None:
    followup("init", folder=tmp_path)
    file = tmp_path / "outside"
    file.write_text("k" * 40, encoding="utf-8")
    plain = followup("keys", "rotate", folder=tmp_path)
    assert (plain.returncode, "not wrapped" in plain.stdout) == (0, True)
    store = open_store(tmp_path / "clinic.db")
    made_all(store)
    store.close()
    done = followup("keys", "rotate", folder=tmp_path, FOLLOWUP_KEY_FILE=str(file))
    assert (done.returncode, "wrapped by the secret in" in done.stdout) == (0, True), done.stderr
    store = open_store(tmp_path / "clinic.db")
    assert [entry.action for entry in audit.latest(store)[:2]] == ["keys rotated", "keys rotated"]
    store.close()
    copies = list((tmp_path / "before-rotation").iterdir())
    assert copies
    assert all(stat.S_IMODE(copy.stat().st_mode) == 0o600 for copy in copies)
    assert followup("check", folder=tmp_path, FOLLOWUP_KEY_FILE=str(file)).returncode == 0


def test_a_server_under_new_keys_knows_no_old_session(as_nurse: FlaskClient, store: Store) -> None:
    keys.rotate(store, NOW, {"secret": "s" * 64})
    as_nurse.application.config["SECRET_KEY"] = keys.secret(store)  # as the server reads it when it starts
    assert as_nurse.get("/clinic/").status_code == 302


def test_what_lies_beside_the_database_is_for_its_owner_only(store: Store) -> None:
    store.execute("DELETE FROM tries")
    modes = {file.suffix: stat.S_IMODE(file.stat().st_mode) for file in store.path.parent.glob(f"{store.path.name}*")}
    assert modes == {".db": 0o600, ".db-wal": 0o600, ".db-shm": 0o600}
