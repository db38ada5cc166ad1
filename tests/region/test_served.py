"""A folder of clinics served as a region has it: real processes, files that come and go, and a clinic that moves to another server."""

import http.client
import json
import os
import signal
import subprocess
import threading
from collections.abc import Iterator
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
import uuid_utils

from followup.records import backup, lock, open_store
from followup.records.store import StoreError
from tests.conftest import COMMAND, free_port, until
from tests.region import clinics
from tests.region.clinics import Clinic


class Server:
    """`followup serve --clinics` on a folder of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, free_port()
        folder.mkdir()
        self._process: subprocess.Popen[str] | None = None

    @property
    def environment(self) -> dict[str, str]:
        return {name: value for name, value in os.environ.items() if not name.startswith("FOLLOWUP_")}

    def start(self) -> None:
        words = [*COMMAND, "serve", "--clinics", str(self.folder), "--port", str(self.port), "--workers", "1"]
        with (self.folder / "log").open("a") as log:
            self._process = subprocess.Popen(words, env=self.environment, stdout=log, stderr=log, text=True)
        until(lambda: self.ask("nobody.invalid", "/")[0] == 421, "it answers")

    def run(self, *words: str) -> str:
        done = subprocess.run(
            [*COMMAND, *words], env=self.environment, capture_output=True, text=True, timeout=60, check=False
        )
        assert done.returncode == 0, done.stderr
        return done.stdout

    def ask(self, host: str, path: str, content: object = None, device: str = "") -> tuple[int, Any]:
        return asked(self.port, host, path, content, device)

    def health(self, name: str) -> tuple[int, Any]:
        return self.ask(clinics.host_of(name), "/health")

    def stop(self, how: int = signal.SIGTERM) -> None:
        if self._process is not None and self._process.poll() is None:
            self._process.send_signal(how)
            self._process.wait(40)


def asked(port: int, host: str, path: str, content: object = None, device: str = "") -> tuple[int, Any]:
    """Status and content; status 0 where nobody answers."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    headers = {"Host": host, "Content-Type": "application/json", "Cookie": f"device={device}"}
    body = None if content is None else json.dumps(content)
    try:
        connection.request("GET" if body is None else "POST", path, body, headers)
        answer = connection.getresponse()
        told = answer.read().decode()
        return answer.status, json.loads(told) if answer.getheader("Content-Type", "").startswith(
            "application/json"
        ) else told
    except (OSError, http.client.HTTPException):
        return 0, None
    finally:
        connection.close()


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


def is_well(server: Server, name: str) -> bool:
    return server.health(name) == (200, {"ok": True})


def until_well(server: Server, *names: str) -> None:
    """Each is served, and its clock has run."""
    until(lambda: all(is_well(server, name) for name in names), f"{names} are well", 90)


def free(database: Path) -> bool:
    try:
        with lock.held(database, "a test"):
            return True
    except StoreError:
        return False


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


class Proxy:
    """A proxy that leads by host name, as a region has it in front; `to` may change at any time."""

    def __init__(self, to: dict[str, int]) -> None:
        self.to = to
        proxy = self

        class Handler(BaseHTTPRequestHandler):
            def do_POST(self) -> None:
                content = json.loads(self.rfile.read(int(self.headers["Content-Length"])))
                device = self.headers["Cookie"].partition("=")[2]
                status, told = asked(proxy.to[self.headers["Host"]], self.headers["Host"], self.path, content, device)
                body = json.dumps(told).encode()
                self.send_response(status or 502)
                self.send_header("Content-Type", "application/json")
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body)

            def log_message(self, format: str, *args: Any) -> None:
                pass

        self._server = ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.port = int(self._server.server_address[1])
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    def close(self) -> None:
        self._server.shutdown()
        self._server.server_close()


class Phone(threading.Thread):
    """Makes entries one after the other, and sends each until it is acknowledged, as the phone's outbox does."""

    def __init__(self, port: int, clinic: Clinic) -> None:
        super().__init__(daemon=True)
        self._port, self._clinic, self._ended = port, clinic, threading.Event()
        self.acknowledged: list[str] = []
        self.met: list[int] = []
        self.refused: list[Any] = []

    def run(self) -> None:
        while not self._ended.is_set():
            entry = {"id": str(uuid_utils.uuid7()), "operation": self._clinic.eye, "kind": "symptoms", "by": "patient"}
            entry |= {"at": datetime.now(UTC).isoformat(), "offset_minutes": 0, "sequence": len(self.acknowledged) + 1}
            while not self._sent(entry | {"body": {"pain": 1}}):
                if self._ended.wait(0.05):
                    return

    def _sent(self, entry: dict[str, Any]) -> bool:
        status, told = asked(self._port, self._clinic.host, "/api/v1/events", {"events": [entry]}, self._clinic.token)
        self.met.append(status)
        if status != 200:
            return False
        (result,) = told["results"]
        (self.acknowledged if result["status"] == "received" else self.refused).append(result["id"])
        return True

    def end(self) -> None:
        self._ended.set()
        self.join(30)


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
