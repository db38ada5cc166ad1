"""Servers of several clinics, phones and a proxy in front of them, all real, for whoever watches a clinic move."""

import http.client
import json
import os
import signal
import subprocess
import threading
from datetime import UTC, datetime
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import uuid_utils

from followup.records import lock
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
        interface = answer.getheader("Content-Type", "").startswith("application/json")
        return answer.status, json.loads(told) if interface else told
    except (OSError, http.client.HTTPException):
        return 0, None
    finally:
        connection.close()


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
