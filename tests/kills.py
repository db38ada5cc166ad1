"""Kills processes of a serving clinic under load: `python -m tests.kills --kills 200 --seed 1`.

Several threads enter what happens at home and in the clinic and keep what was acknowledged. One process after another is
killed: a worker, the web server, the clock, or main, which whoever runs the server starts again. Prints how long pages
took to answer after each kind; ends with 1 where that was longer than `--seconds`, where an acknowledged entry is missing
or there twice, where `followup check` finds a fault, where a job did not run again, or where a process stayed behind.
"""

import argparse
import os
import random
import re
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import requests
import uuid_utils

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import enrol
from followup.records import open_store
from tests.conftest import COMMAND, PASSWORD, consented, free_port, operation_note, patient_details, until

KINDS = ("worker", "worker", "web server", "clock", "main")
WORKERS, PHONES, NURSES = 2, 3, 2
BETWEEN_ENTRIES_SECONDS = 0.05
NURSE = "nurse@test.invalid"
USUAL = {"correction": "unaided", "instrument": "applanation"}
BACK_WITHIN_SECONDS = 180  # for all of the processes; pages answer before


@dataclass
class Told:
    """What happened: seconds until pages answered, by what was killed; entries acknowledged; what went wrong."""

    answered_after: defaultdict[str, list[float]] = field(default_factory=lambda: defaultdict(list))
    acknowledged: int = 0
    faults: list[str] = field(default_factory=list)

    @property
    def kills(self) -> int:
        return sum(len(times) for times in self.answered_after.values())

    @property
    def longest(self) -> float:
        return max((time for times in self.answered_after.values() for time in times), default=0.0)


class Clinic:
    """A clinic with patients who have phones, and a nurse; served by processes in a group of their own."""

    def __init__(self, folder: Path, patients: int) -> None:
        self.folder, self.port, self.database = folder, free_port(), folder / "clinic.db"
        self.address = f"http://127.0.0.1:{self.port}"
        self.eyes: list[tuple[str, str]] = []
        self._fill(patients)
        self.group = self._start()

    def _fill(self, patients: int) -> None:
        store, now = open_store(self.database, create=True), datetime.now(UTC)
        id = accounts.add_staff(store, now, "Nora Nurse", "nurse", NURSE, PASSWORD)
        accounts.add_staff(store, now, "Sol Surgeon", "surgeon", "surgeon@test.invalid", PASSWORD)
        desk = Desk(store, now, Actor(id, "Nora Nurse", "nurse"), ZoneInfo("UTC"))
        note = operation_note(operated_at=now - timedelta(days=1), steroid_drops_until=None)
        for n in range(patients):
            eye, code = consented(desk, leaving.discharge(desk, patient_details(f"K-{n}"), note, []))
            self.eyes.append((eye, enrol.enrol(store, now, code, 1952, "patient", f"here {n}")))
        store.close()

    def run(self, *words: str) -> "subprocess.CompletedProcess[str]":
        return subprocess.run([*COMMAND, *words], env=self._environment, capture_output=True, text=True, check=False)

    @property
    def _environment(self) -> dict[str, str]:
        known = {k: v for k, v in os.environ.items() if not k.startswith("FOLLOWUP_")}
        own = {"FOLLOWUP_DATABASE": str(self.database), "FOLLOWUP_PHONE": "+00 1 234", "FOLLOWUP_SECURE_COOKIES": "false"}
        return known | own

    def _start(self) -> int:
        words = [*COMMAND, "serve", "--port", str(self.port), "--workers", str(WORKERS)]
        with (self.folder / "log").open("a") as log:
            self.process = subprocess.Popen(words, env=self._environment, stdout=log, stderr=log, start_new_session=True)
        return self.process.pid

    def answers(self) -> bool:
        """Whether a page comes, over a new connection."""
        try:
            return requests.get(f"{self.address}/sign-in", timeout=5).status_code == 200
        except requests.RequestException:
            return False

    def processes(self) -> dict[str, list[int]]:
        """Whose process ids are which; empty until all of them run."""
        web = [pid for pid in _children(self.group) if len(_children(pid)) == WORKERS]
        clock = [pid for pid in _children(self.group) if pid not in web]
        if (len(web), len(clock)) != (1, 1) or _children(clock[0]):
            return {}
        return {"main": [self.group], "web server": web, "clock": clock, "worker": _children(web[0])}

    def kill(self, kind: str, pick: random.Random) -> float:
        """Kill one of the server’s own processes, start main again if it was that; how long until a page answered."""
        running = until(self.processes, "all of them run", BACK_WITHIN_SECONDS)
        os.kill(pick.choice(running[kind]), signal.SIGKILL)
        killed = time.monotonic()
        if kind == "main":
            self.process.wait()
            self.group = self._start()
        until(self.answers, f"pages after the {kind} was killed", BACK_WITHIN_SECONDS)
        return time.monotonic() - killed

    def ran_since(self, moment: datetime) -> bool:
        """Whether the job of each minute has started since."""
        with closing(sqlite3.connect(self.database, timeout=10)) as database:
            found = dict(database.execute("SELECT job, started_at FROM job_runs").fetchall())
        return "messages" in found and found["messages"] >= f"{moment:%Y-%m-%dT%H:%M:%S}"

    def stop(self) -> list[int]:
        """End it as whoever runs it does; the processes that stayed behind, which are then killed."""
        self.process.terminate()
        self.process.wait(60)
        try:
            until(lambda: not _of_group(self.group), "nobody is left", 10)
        except AssertionError:
            left = _of_group(self.group)
            os.killpg(self.group, signal.SIGKILL)
            return left
        return []


class Load:
    """Threads that enter things until told to stop, and what was acknowledged: ids of entries, and words of visits."""

    def __init__(self, clinic: Clinic, seed: int) -> None:
        self.clinic, self.seed = clinic, seed
        self.entries: list[str] = []
        self.visits: list[str] = []
        self.faults: list[str] = []
        self._stop = threading.Event()
        work = [self._phone] * PHONES + [self._nurse] * NURSES
        self._threads = [threading.Thread(target=self._guarded, args=(one, n)) for n, one in enumerate(work)]

    @contextmanager
    def going(self) -> Iterator[None]:
        for thread in self._threads:
            thread.start()
        try:
            yield
        finally:
            self._stop.set()
            for thread in self._threads:
                thread.join(120)

    def _guarded(self, work: Callable[[int, random.Random], None], n: int) -> None:
        try:
            work(n, random.Random(f"{self.seed} {n}"))
        except Exception as error:
            self.faults.append(f"thread {n} ended: {error!r}")

    def _phone(self, n: int, pick: random.Random) -> None:
        """A phone sends each entry until it is acknowledged."""
        sequence = 0
        while not self._stop.wait(BETWEEN_ENTRIES_SECONDS):
            sequence += 1
            eye, token = pick.choice(self.clinic.eyes)
            entry = {
                "id": str(uuid_utils.uuid7()),
                "operation": eye,
                "kind": "symptoms",
                "at": datetime.now(UTC).isoformat(),
            }
            entry |= {"offset_minutes": 0, "sequence": sequence, "by": "patient", "body": {"pain": pick.randint(0, 3)}}
            while (told := self._sent(entry, token)) is None:
                time.sleep(BETWEEN_ENTRIES_SECONDS)  # a phone tries again, too
            if told == "received":
                self.entries.append(str(entry["id"]))
            else:
                self.faults.append(f"entry {entry['id']}: {told}")

    def _sent(self, entry: dict[str, object], token: str) -> str | None:
        headers = {"Cookie": f"device={token}"}
        try:
            answer = requests.post(
                f"{self.clinic.address}/api/v1/events", json={"events": [entry]}, headers=headers, timeout=20
            )
            if answer.status_code != 200:
                return None if answer.status_code == 503 else f"answered {answer.status_code}"
            return str(answer.json()["results"][0]["status"])
        except (requests.RequestException, ValueError):  # killed while it answered
            return None

    def _nurse(self, n: int, pick: random.Random) -> None:
        """A nurse enters visits; one that was not acknowledged is not entered again."""
        browser, made = requests.Session(), 0
        while not self._stop.wait(BETWEEN_ENTRIES_SECONDS * 4):
            made += 1
            words = f"visit {made} of nurse {n}"
            try:
                if self._entered(browser, pick.choice(self.clinic.eyes)[0], words):
                    self.visits.append(words)
            except requests.RequestException:
                continue

    def _entered(self, browser: requests.Session, eye: str, words: str) -> bool:
        path = f"{self.clinic.address}/clinic/eyes/{eye}/visit"
        page = browser.get(path, timeout=20, allow_redirects=False)
        if page.status_code == 302:
            self._sign_in(browser)
            return False
        if page.status_code == 503:
            return False
        form = {"csrf_token": _token(page.text), "visit": "", "sure": "y", "right-notes": words}
        form |= {f"{side}-{name}": value for side in ("right", "left") for name, value in USUAL.items()}
        form["right-acuity"] = "6/60"
        answer = browser.post(path, data=form, timeout=20, allow_redirects=False)
        if answer.status_code not in (303, 503):
            self.faults.append(f"{words}: answered {answer.status_code}")
        return answer.status_code == 303

    def _sign_in(self, browser: requests.Session) -> None:
        page = browser.get(f"{self.clinic.address}/sign-in", timeout=20)
        form = {"csrf_token": _token(page.text), "email": NURSE, "password": PASSWORD}
        browser.post(f"{self.clinic.address}/sign-in", data=form, timeout=20, allow_redirects=False)


def not_there_once(database: Path, entries: list[str], visits: list[str]) -> list[str]:
    """What was acknowledged and is missing, or there more than once."""
    with closing(sqlite3.connect(database)) as opened:
        kept = Counter(id for (id,) in opened.execute("SELECT id FROM events"))
        notes = opened.execute("SELECT json_extract(body, '$.notes') FROM events WHERE kind = 'measures'")
        kept.update(words for (words,) in notes)
    return [f"{one} was acknowledged, and is there {kept[one]} times" for one in (*entries, *visits) if kept[one] != 1]


def run(kills: int, seed: int, folder: Path, patients: int = 24, seconds: float = 10.0, say: bool = False) -> Told:
    """Kill so many processes under load, and look at what is left."""
    told, pick = Told(), random.Random(seed)
    clinic = Clinic(folder, patients)
    until(clinic.answers, "the server answers", BACK_WITHIN_SECONDS)
    load = Load(clinic, seed)
    try:
        with load.going():
            for n in range(kills):
                time.sleep(pick.uniform(0.2, 2))  # let entries be under way
                kind = KINDS[n] if n < len(KINDS) else pick.choice(KINDS)
                took = clinic.kill(kind, pick)
                told.answered_after[kind].append(took)
                if took > seconds:
                    told.faults.append(f"kill {n}, of the {kind}: pages answered after {took:.1f} s")
                if say:
                    print(
                        f"{n + 1}: {kind}, {took:.2f} s; {len(load.entries)} + {len(load.visits)}; load {os.getloadavg()[0]:.0f}",
                        flush=True,
                    )
            last = datetime.now(UTC)
        until(lambda: clinic.ran_since(last), "a job ran again", 150)
    finally:
        left = clinic.stop()
    told.acknowledged = len(load.entries) + len(load.visits)
    told.faults += load.faults + [f"process {pid} stayed behind" for pid in left]
    told.faults += not_there_once(clinic.database, load.entries, load.visits)
    checked = clinic.run("check")
    told.faults += [] if checked.returncode == 0 else checked.stdout.splitlines()
    return told


def _token(page: str) -> str:
    found = re.search(r'name="csrf_token"[^>]* value="([^"]+)"', page)
    if found is None:
        raise requests.RequestException("no form came")
    return found[1]


def _listed() -> Iterator[tuple[int, int, int]]:
    """Process, parent and group of everything that runs."""
    told = subprocess.run(["ps", "-eo", "pid=,ppid=,pgid=,stat=,args=", "-ww"], capture_output=True, text=True, check=True)
    for line in told.stdout.splitlines():
        pid, parent, group, state, *args = line.split(None, 4)
        if not state.startswith("Z") and "resource_tracker" not in " ".join(args):
            yield int(pid), int(parent), int(group)


def _children(parent: int) -> list[int]:
    return [pid for pid, of, _ in _listed() if of == parent]


def _of_group(group: int) -> list[int]:
    return [pid for pid, _, of in _listed() if of == group]


def main() -> int:
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--kills", type=int, default=20)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--seconds", type=float, default=10.0)
    given = asked.parse_args()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit("told to end"))  # and the server with it
    with tempfile.TemporaryDirectory() as folder:
        told = run(given.kills, given.seed, Path(folder), seconds=given.seconds, say=True)
    for kind, times in sorted(told.answered_after.items()):
        print(f"{kind}: {len(times)} killed, pages after {sum(times) / len(times):.2f} s, at most {max(times):.2f} s")
    print(f"{told.kills} kills, {told.acknowledged} entries acknowledged, {len(told.faults)} faults")
    for fault in told.faults[:40]:
        print(fault)
    return 1 if told.faults else 0


if __name__ == "__main__":
    sys.exit(main())
