"""A folder of clinics served as a region has it: real processes, files that come and go, and a clinic that moves to another server."""

import signal
import subprocess
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from followup.records import backup, open_store
from tests.conftest import COMMAND
from tests.region import clinics
from tests.region.clinics import Clinic
from tests.region.served import Phone, Proxy, Server, free, soon, until_served


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
    until_served(server, "north")
    south = clinic(server, "south", migrated)
    until_served(server, "south")
    assert server.ask(north.host, "/api/v1/pack", device=north.token)[0] == 200
    assert server.ask(south.host, "/api/v1/pack", device=north.token)[0] == 401
    for name in ("north", "south"):
        soon(lambda name=name: any(" done: " in line for line in server.said(name)), f"the clock of {name} runs")
    north.file.write_text("[clinic")
    soon(lambda: server.health("north") == (503, {"ok": False, "stopped": ["settings"]}), "north is down")
    until_served(server, "south")
    assert any("is not TOML" in line for line in server.said("north"))
    clinics.settings(server.folder, "north", north.database)
    until_served(server, "north")
    assert not free(south.database)
    south.file.unlink()
    soon(lambda: server.health("south")[0] == 421, "south is gone")
    soon(lambda: free(south.database), "no process holds it any more")
    assert not any("south" in line for line in server.said("north"))


def test_a_killed_server_of_several_leaves_no_database_in_use(server: Server, migrated: Path) -> None:
    north = clinic(server, "north", migrated)
    server.start()
    until_served(server, "north")
    assert not free(north.database)
    server.stop(signal.SIGKILL)
    soon(lambda: free(north.database), "nobody holds it any more")
    server.start()
    until_served(server, "north")


def test_bad_settings_of_the_machine_are_refused_at_once(server: Server) -> None:
    for words, said in (
        (["--clinics", str(server.folder / "nowhere")], "there is no folder of clinics at"),
        (["--clinics", str(server.folder), "--database", "x.db"], "--database would hold for every clinic"),
    ):
        done = subprocess.run(
            [*COMMAND, "serve", *words], env=server.environment, capture_output=True, text=True, timeout=180, check=False
        )
        assert (done.returncode, done.stderr.count("\n")) == (2, 1)
        assert said in done.stderr


def test_a_clinic_moves_while_its_phones_keep_sending_and_nothing_acknowledged_is_lost(
    server: Server, other: Server, migrated: Path, tmp_path: Path
) -> None:
    north, south = clinic(server, "north", migrated), clinic(server, "south", migrated)
    for one in (server, other):
        one.start()
    until_served(server, "north", "south")
    proxy = Proxy({north.host: server.port, south.host: server.port})
    phones = [Phone(proxy.port, north), Phone(proxy.port, north), Phone(proxy.port, south)]
    try:
        for phone in phones:
            phone.start()
        soon(lambda: all(len(phone.acknowledged) > 10 for phone in phones), "entries are acknowledged")
        early = backup.backup(open_store(north.database), tmp_path / "early", datetime.now(UTC))

        server.run("--config", str(north.file), "close")
        soon(lambda: phones[0].met[-1] == phones[1].met[-1] == 503, "north takes nothing more here")
        before = [len(phone.acknowledged) for phone in phones]
        server.run("--config", str(north.file), "backup", str(tmp_path / "last"))
        (last,) = (tmp_path / "last").iterdir()
        north.file.unlink()
        soon(lambda: server.health("north")[0] == 421, "north is gone from the old server")

        there = other.folder / "north.db"
        file = clinics.settings(other.folder, "north", there)
        with pytest.raises(AssertionError, match="copied before the clinic was closed"):
            other.run("--config", str(file), "restore", "--closed", str(early))
        other.run("--config", str(file), "restore", "--closed", str(last))
        until_served(other, "north")
        assert [len(phone.acknowledged) for phone in phones[:2]] == before[:2]
        assert len(phones[2].acknowledged) > before[2]  # in the other clinic nobody notices
        proxy.to[north.host] = other.port

        soon(lambda: all(len(phone.acknowledged) > n + 10 for phone, n in zip(phones, before, strict=True)), "on they go")
    finally:
        for phone in phones:
            phone.end()
        proxy.close()
    for phone in phones[:2]:
        assert 401 not in phone.met  # else it would hold its credential for lost
        assert phone.refused == []
    assert 421 not in phones[2].met
    store = open_store(there)
    kept = {row["id"] for row in store.rows("SELECT id FROM events")}
    assert {id for phone in phones[:2] for id in phone.acknowledged} <= kept
    assert backup.faults(store) == []
    store.close()
