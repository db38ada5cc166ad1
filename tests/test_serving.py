"""The server as a clinic runs it: what dies is started again, what is killed leaves nothing behind, one server on one file."""

import http.client
import json
import os
import signal
import sqlite3
import subprocess
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from unittest.mock import Mock

import pytest

from followup import serving
from followup.records import open_store
from tests.conftest import COMMAND, free_port, until


def children(pid: int) -> set[int]:
    told = subprocess.run(["ps", "-ww", "-o", "pid=,args=", "--ppid", str(pid)], capture_output=True, text=True, check=False)
    lines = [line.split(maxsplit=1) for line in told.stdout.splitlines()]
    return {int(pid) for pid, args in lines if "resource_tracker" not in args and "defunct" not in args}


def alive(pid: int) -> bool:
    told = subprocess.run(["ps", "-o", "stat=", "-p", str(pid)], capture_output=True, text=True, check=False)
    return bool(told.stdout.strip()) and not told.stdout.startswith("Z")


@dataclass
class Clinic:
    folder: Path
    port: int
    process: subprocess.Popen[str] | None = None

    @property
    def database(self) -> Path:
        return self.folder / "clinic.db"

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            [*COMMAND, *words], env=self.environment, capture_output=True, text=True, timeout=60, check=False
        )

    @property
    def environment(self) -> dict[str, str]:
        known = {k: v for k, v in os.environ.items() if not k.startswith("FOLLOWUP_")}
        return known | {"FOLLOWUP_DATABASE": str(self.database), "FOLLOWUP_PHONE": "+00 1 234"}

    def start(self) -> None:
        words = [*COMMAND, "serve", "--port", str(self.port), "--workers", "2"]
        with (self.folder / "log").open("a") as log:
            self.process = subprocess.Popen(words, env=self.environment, stdout=log, stderr=log, text=True)
        until(lambda: self.health() == (200, {"ok": True}), "the server is well")

    def health(self) -> tuple[int, Any]:
        try:
            with urllib.request.urlopen(f"http://127.0.0.1:{self.port}/health", timeout=5) as answer:
                return answer.status, json.load(answer)
        except urllib.error.HTTPError as error:
            return error.code, json.load(error)
        except (OSError, http.client.HTTPException):  # nobody is there, or died while answering
            return 0, None

    @property
    def main(self) -> int:
        assert self.process is not None
        return self.process.pid

    def web(self) -> int:
        """The web server's process: the one that has workers."""
        return int(until(lambda: next((pid for pid in children(self.main) if len(children(pid)) == 2), 0), "two workers"))

    def clock(self) -> int:
        (found,) = children(self.main) - {self.web()}
        return found


@pytest.fixture
def clinic(tmp_path: Path) -> Iterator[Clinic]:
    made = Clinic(tmp_path, free_port())
    assert made.run("init").returncode == 0
    made.start()
    yield made
    if made.process is not None and made.process.poll() is None:
        made.process.terminate()
        made.process.wait(timeout=40)


def test_a_clock_that_is_killed_runs_again(clinic: Clinic) -> None:
    old = clinic.clock()
    with closing(sqlite3.connect(clinic.database)) as database:
        database.execute("DELETE FROM job_runs")
        database.commit()
    os.kill(old, signal.SIGKILL)
    new = until(lambda: children(clinic.main) - {old, clinic.web()}, "another clock")
    assert new != {old}
    until(lambda: clinic.health() == (200, {"ok": True}), "its jobs ran")
    assert "clock ended (-9)" in (clinic.folder / "log").read_text()


def test_workers_that_die_again_and_again_never_end_the_server(clinic: Clinic) -> None:
    for _ in range(3):
        for worker in children(clinic.web()):
            os.kill(worker, signal.SIGKILL)
        until(lambda: clinic.health()[0] == 200, "pages again")
    os.kill(clinic.web(), signal.SIGKILL)
    until(lambda: clinic.health()[0] == 200, "pages again after the web server itself was killed")
    assert clinic.process is not None
    assert clinic.process.poll() is None


def test_whoever_keeps_dying_is_started_again_in_time_for_pages_within_ten_seconds(monkeypatch: pytest.MonkeyPatch) -> None:
    """A start takes some three seconds."""
    monkeypatch.setattr(serving.time, "monotonic", lambda: 100.0)
    child, waits = serving._Child("web server", lambda _: None, 0), []
    child._started = 100.0
    for _ in range(20):
        child.process = Mock(exitcode=-9)
        child.ended()
        waits.append(child.start_at - 100.0)
    assert waits[0] < waits[1]
    assert max(waits) < 6


def test_a_killed_server_leaves_nobody_behind_and_starts_again_on_its_port(clinic: Clinic) -> None:
    web = clinic.web()
    everybody = {web, clinic.clock(), *children(web)}
    assert len(everybody) == 4
    os.kill(clinic.main, signal.SIGKILL)
    assert clinic.process is not None
    clinic.process.wait(timeout=20)
    until(lambda: not any(alive(pid) for pid in everybody), "all of them are gone")
    clinic.start()


def test_a_stopped_server_takes_everybody_along(clinic: Clinic) -> None:
    web = clinic.web()
    everybody = {web, clinic.clock(), *children(web)}
    assert clinic.process is not None
    clinic.process.terminate()
    assert clinic.process.wait(timeout=40) == 0
    assert not any(alive(pid) for pid in everybody)


def test_nobody_else_serves_or_restores_the_same_file(clinic: Clinic) -> None:
    clinic.run("backup", str(clinic.folder / "kept"))
    (copy,) = (clinic.folder / "kept").iterdir()
    link = clinic.folder / "elsewhere.db"
    link.symlink_to(clinic.database)
    second = clinic.run("serve", "--port", str(free_port()))
    assert (second.returncode, second.stderr.count("\n")) == (2, 1)
    assert f"a server is running on it (process {clinic.main})" in second.stderr
    linked = clinic.run("serve", "--port", str(free_port()), "--database", str(link))
    assert (linked.returncode, "a server is running" in linked.stderr) == (2, True)
    refused = clinic.run("restore", "--replace", str(copy))
    assert (refused.returncode, "a server is running" in refused.stderr) == (2, True)
    assert not list(clinic.folder.glob("*before-restore*"))
    os.kill(clinic.main, signal.SIGKILL)
    assert clinic.process is not None
    clinic.process.wait(timeout=20)
    assert clinic.run("restore", "--replace", str(copy)).returncode == 0


def test_the_database_and_all_that_lies_beside_it_are_its_owner_s_only(clinic: Clinic) -> None:
    names = {path.name: path.stat().st_mode & 0o777 for path in clinic.folder.glob("clinic.db*")}
    assert set(names) >= {"clinic.db", "clinic.db-wal", "clinic.db-shm", "clinic.db-lock"}
    assert set(names.values()) == {0o600}


def test_an_open_file_of_before_is_closed_to_others(tmp_path: Path) -> None:
    path = tmp_path / "a.db"
    open_store(path, create=True).close()
    assert path.stat().st_mode & 0o777 == 0o600
    path.chmod(0o644)
    open_store(path).close()
    assert path.stat().st_mode & 0o777 == 0o600
