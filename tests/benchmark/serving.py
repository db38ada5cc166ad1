"""Servers to be measured, each in processes of its own, and what they cost: time of answers, time of the processor, memory."""

import os
import re
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import requests

from tests.conftest import COMMAND, free_port, until

TICKS = os.sysconf("SC_CLK_TCK")


@dataclass
class Server:
    """A server that answers, with a connection to it."""

    process: "subprocess.Popen[bytes]"
    address: str
    session: requests.Session

    def get(self, path: str) -> requests.Response:
        answer = self.session.get(self.address + path, allow_redirects=False)
        assert answer.status_code == 200, f"{path}: {answer.status_code}"
        return answer

    def sign_in(self, email: str, password: str) -> None:
        token = re.search(r'name="csrf_token"[^>]*value="([^"]+)"', self.get("/sign-in").text)
        assert token is not None
        sent = {"email": email, "password": password, "csrf_token": token[1]}
        origin = f"http://{self.host}"
        headers = {"Origin": origin, "Referer": f"{origin}/sign-in"}
        answer = self.session.post(self.address + "/sign-in", data=sent, headers=headers, allow_redirects=False)
        assert answer.status_code == 302, answer.status_code

    @property
    def host(self) -> str:
        """The host name that it is asked for by."""
        return str(self.session.headers.get("Host") or self.address.removeprefix("http://"))

    @property
    def _pids(self) -> list[int]:
        """This process and all below it."""
        told = subprocess.run(["ps", "-e", "-o", "pid=,ppid="], capture_output=True, text=True, check=True).stdout
        below: dict[int, list[int]] = {}
        for pid, parent in (map(int, line.split()) for line in told.splitlines()):
            below.setdefault(parent, []).append(pid)
        found = [self.process.pid]
        for pid in found:
            found += below.get(pid, [])
        return found

    @property
    def cpu_ms(self) -> float:
        """Milliseconds of the processor that it has used."""
        fields = [_read(f"/proc/{pid}/stat").rpartition(")")[2].split() for pid in self._pids]
        return sum(int(f[11]) + int(f[12]) for f in fields if f) * 1000 / TICKS

    @property
    def memory_mb(self) -> float:
        """What its processes hold, what they share counted once."""
        found = [re.search(r"^Pss:\s+(\d+)", _read(f"/proc/{pid}/smaps_rollup"), re.M) for pid in self._pids]
        return sum(int(kb[1]) for kb in found if kb) / 1024


def _read(path: str) -> str:
    try:
        return Path(path).read_text()
    except OSError:
        return ""


@contextmanager
def served(command: Sequence[str], well: str = "/", **environment: str) -> Iterator[Server]:
    """Start a server (`PORT` in its command is replaced), and end it."""
    port = free_port()
    known = {k: v for k, v in os.environ.items() if not k.startswith("FOLLOWUP_")}
    words = [word.replace("PORT", str(port)) for word in command]
    process = subprocess.Popen(words, env=known | environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    try:
        with requests.Session() as session:
            server = Server(process, f"http://127.0.0.1:{port}", session)
            until(lambda: _answers(server, well), f"{command[-3:]} is well", 120)
            yield server
    finally:
        process.terminate()
        process.wait(60)


def _answers(server: Server, path: str) -> bool:
    assert server.process.poll() is None, "the server ended"
    try:
        return server.session.get(server.address + path).status_code < 500
    except requests.ConnectionError:
        return False


def program(settings: Path) -> Any:
    """The program itself, without the clock's jobs."""
    return served([*COMMAND, "--config", str(settings), "serve", "--no-jobs", "--port", "PORT"], "/sign-in")


def region(folder: Path) -> Any:
    """The program with every clinic of a folder, and its clock."""
    return served([*COMMAND, "serve", "--clinics", str(folder), "--port", "PORT"])


def yardstick(app: str, database: Path) -> Any:
    return served([sys.executable, "-m", "tests.benchmark.yardsticks", app, str(database), "PORT"])


def alternately(asked: Sequence[Callable[[], Any]], seconds: float) -> list[float]:
    """The middle time in milliseconds of each, asked in turn, so that what else the machine does falls on all alike."""
    took: list[list[float]] = [[] for _ in asked]
    for ask in asked:
        ask()
    began = time.perf_counter()
    while time.perf_counter() - began < seconds or not took[0]:
        for ask, times in zip(asked, took, strict=True):
            at = time.perf_counter()
            ask()
            times.append((time.perf_counter() - at) * 1000)
    return [statistics.median(times) for times in took]


def cpu_of(server: Server, ask: Callable[[], Any], seconds: float) -> float:
    """Milliseconds of the server's processor that one answer takes."""
    before, began, done = server.cpu_ms, time.perf_counter(), 0
    while time.perf_counter() - began < seconds or not done:
        ask()
        done += 1
    return (server.cpu_ms - before) / done
