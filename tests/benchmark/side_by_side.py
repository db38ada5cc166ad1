"""Ten clinics on one server against one on the same server: pages and entries a second, and memory."""

import itertools
import json
import shutil
import time
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import requests

from demo_db import data
from followup.records.store import copy_database
from tests.benchmark.phones import Phone, a_days_entries, send
from tests.benchmark.serving import Server, region
from tests.conftest import until

CLINICS, AT_ONCE = 10, 8
RESTING_MS = 100  # of the processor in a second
Found = dict[str, Any]


def measured(folder: Path, database: Path, phones: Sequence[Phone], seconds: float) -> Found:
    """What a server with one clinic does and holds, and the same server after nine more came into its folder.

    Each is a copy of one database, so all have the same phones, each with a day of entries for a clinic.
    """
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(parents=True)
    _add(folder, 0, database)
    with region(folder) as server:
        one = [_clinic(server, 0)]
        alone = _throughput(server, one, phones, seconds)
        for n in range(1, CLINICS):
            _add(folder, n, database)
        ten = one + [_clinic(server, n) for n in range(1, CLINICS)]
        together = _throughput(server, ten, phones, seconds)
    return {
        name: {"measured": together[name], "yardstick": alone[name], "unit": unit, "ratio": together[name] / alone[name]}
        for name, unit in (
            ("pages", "a second"),
            ("cpu", "ms of the processor a page"),
            ("entries", "a second"),
            ("memory", "MB"),
        )
    }


def _add(folder: Path, n: int, database: Path) -> None:
    copy_database(database, folder / f"{n}.db")
    fresh = folder / f"{n}.fresh"
    fresh.write_text(
        f'[clinic]\nphone = "+00 1 234"\n[server]\naddress = "http://{_host(n)}"\n'
        f"database = {json.dumps(str(folder / f'{n}.db'))}\nsecure_cookies = false\n",
        encoding="utf-8",
    )
    fresh.replace(folder / f"{n}.toml")


def _host(n: int) -> str:
    return f"clinic-{n}.invalid"


def _clinic(server: Server, n: int) -> Server:
    """The server as the nurse of one clinic has it, signed in, once the clinic is served."""
    session = requests.Session()
    session.headers["Host"] = _host(n)
    found = Server(server.process, server.address, session)
    until(lambda: session.get(f"{server.address}/sign-in").status_code == 200, f"clinic {n} is served", 120)
    nurse = data.clinic().first("nurse")
    found.sign_in(nurse.email, nurse.password)
    return found


def _answers(clinic: Server) -> bool:
    """Whether today's list came; a worker that is just opening the clinic says to come back."""
    status = clinic.session.get(f"{clinic.address}/clinic/", allow_redirects=False).status_code
    assert status in (200, 503), status
    return status == 200


def _rests(server: Server) -> bool:
    """Whether its clock has done what is due in clinics that came in."""
    before = server.cpu_ms
    time.sleep(1)
    return server.cpu_ms - before < RESTING_MS


def _throughput(server: Server, clinics: Sequence[Server], phones: Sequence[Phone], seconds: float) -> Found:
    """Today's list asked for by eight at once, then phones after a day without a signal; the clinics take turns."""
    for clinic in clinics:  # each worker opens it when it is first asked
        until(lambda clinic=clinic: all(_answers(clinic) for _ in range(AT_ONCE)), "it is open", 120)
    until(lambda: _rests(server), "its clock rests", 300)
    ends = time.perf_counter() + seconds

    def read(first: int) -> int:
        done = 0
        turns = itertools.islice(itertools.cycle(clinics), first, None)
        while not done or time.perf_counter() < ends:
            done += _answers(next(turns))
        return done

    waiting = [(phone, a_days_entries(phone)) for phone in phones]
    before, began = server.cpu_ms, time.perf_counter()
    with ThreadPoolExecutor(AT_ONCE) as pool:
        pages = sum(pool.map(read, range(AT_ONCE)))
        passed, cpu = time.perf_counter() - began, server.cpu_ms - before
        began = time.perf_counter()
        turns = zip(waiting, itertools.cycle(clinics), strict=False)
        sent = [pool.submit(send, server.address, *one, host=clinic.host) for one, clinic in turns]
        entries = sum(one.result() for one in sent)
        took = time.perf_counter() - began
    return {"pages": pages / passed, "cpu": cpu / pages, "entries": entries / took, "memory": server.memory_mb}
