"""A folder of clinics served as a region has it: real processes, files that come and go, and a clinic that moves to another server."""

import json
import signal
import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from followup.records import backup, open_store
from tests.conftest import COMMAND, until
from tests.region import clinics
from tests.region.clinics import Clinic
from tests.region.served import Phone, Proxy, Server, free, is_well, until_well


@pytest.fixture
def server(tmp_path: Path) -> Iterator[Server]:
    made = Server(tmp_path / "one")
    yield made
    made.stop()


@pytest.fixture
def other(tmp_path: Path) -> Iterator[Server]:
    made = Server(tmp_path / "other")
    yield made
    made.stop()


def clinic(server: Server, name: str, migrated: Path) -> Clinic:
    return clinics.made(server.folder, name, migrated, datetime.now(UTC))


def test_clinics_come_break_and_go_while_the_others_are_served(server: Server, migrated: Path) -> None:
    north = clinic(server, "north", migrated)
    server.start()
    until_well(server, "north")
    south = clinic(server, "south", migrated)
    until_well(server, "south")
    assert server.ask(north.host, "/api/v1/pack", device=north.token)[0] == 200
    assert server.ask(south.host, "/api/v1/pack", device=north.token)[0] == 401
    north.file.write_text("[clinic")
    until(lambda: server.health("north") == (503, {"ok": False, "stopped": ["settings"]}), "north is down")
    assert is_well(server, "south")
    clinics.settings(server.folder, "north", north.database)
    until_well(server, "north")
    assert not free(south.database)
    south.file.unlink()
    until(lambda: server.health("south")[0] == 421, "south is gone")
    until(lambda: free(south.database), "no process holds it any more")
    lines = [json.loads(line) for line in (server.folder / "log").read_text().splitlines() if line.startswith("{")]
    assert any(line.get("clinic") == "north" and "is not TOML" in line["event"] for line in lines)
    assert any(line.get("clinic") == "south" and line["event"].startswith("job check done") for line in lines)
    assert not any("south" in json.dumps(line) for line in lines if line.get("clinic") == "north")


def test_a_killed_server_of_several_leaves_no_database_in_use(server: Server, migrated: Path) -> None:
    north = clinic(server, "north", migrated)
    server.start()
    until_well(server, "north")
    assert not free(north.database)
    server.stop(signal.SIGKILL)
    until(lambda: free(north.database), "nobody holds it any more")
    server.start()
    until_well(server, "north")


def test_bad_settings_of_the_machine_are_refused_at_once(server: Server) -> None:
    for words, said in (
        (["--clinics", str(server.folder / "nowhere")], "there is no folder of clinics at"),
        (["--clinics", str(server.folder), "--database", "x.db"], "--database would hold for every clinic"),
    ):
        done = subprocess.run(
            [*COMMAND, "serve", *words], env=server.environment, capture_output=True, text=True, timeout=60, check=False
        )
        assert (done.returncode, done.stderr.count("\n")) == (2, 1)
        assert said in done.stderr


def test_a_clinic_moves_while_its_phones_keep_sending_and_nothing_acknowledged_is_lost(
    server: Server, other: Server, migrated: Path, tmp_path: Path
) -> None:
    north, south = clinic(server, "north", migrated), clinic(server, "south", migrated)
    for one in (server, other):
        one.start()
    until_well(server, "north", "south")
    proxy = Proxy({north.host: server.port, south.host: server.port})
    phones = [Phone(proxy.port, north), Phone(proxy.port, north), Phone(proxy.port, south)]
    try:
        for phone in phones:
            phone.start()
        until(lambda: all(len(phone.acknowledged) > 10 for phone in phones), "entries are acknowledged")
        early = backup.backup(open_store(north.database), tmp_path / "early", datetime.now(UTC))

        server.run("--config", str(north.file), "close")
        until(lambda: phones[0].met[-1] == phones[1].met[-1] == 503, "north takes nothing more here")
        before = [len(phone.acknowledged) for phone in phones]
        server.run("--config", str(north.file), "backup", str(tmp_path / "last"))
        (last,) = (tmp_path / "last").iterdir()
        north.file.unlink()
        until(lambda: server.health("north")[0] == 421, "north is gone from the old server")

        there = other.folder / "north.db"
        file = clinics.settings(other.folder, "north", there)
        with pytest.raises(AssertionError, match="copied before the clinic was closed"):
            other.run("--config", str(file), "restore", "--closed", str(early))
        other.run("--config", str(file), "restore", "--closed", str(last))
        until_well(other, "north")
        assert [len(phone.acknowledged) for phone in phones[:2]] == before[:2]
        proxy.to[north.host] = other.port

        until(lambda: all(len(phone.acknowledged) > n + 10 for phone, n in zip(phones, before, strict=True)), "on they go")
    finally:
        for phone in phones:
            phone.end()
        proxy.close()
    for phone in phones[:2]:
        assert set(phone.met) <= {200, 503, 421}
        assert phone.refused == []
    assert set(phones[2].met) == {200}  # of the other clinic nobody noticed anything
    store = open_store(there)
    kept = {row["id"] for row in store.rows("SELECT id FROM events")}
    assert {id for phone in phones[:2] for id in phone.acknowledged} <= kept
    assert backup.faults(store) == []
    store.close()
