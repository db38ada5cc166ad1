"""`python -m tests.benchmark [--eyes 1000,30000] [--seconds 5] [--phones 200] [--folder F] [--out benchmark.json]`

Every figure stands beside a yardstick that was measured in the same run (`yardsticks.py`), and as a ratio to it: machines
differ, and so do hours on one machine. A clinic of each size is built (`followup demo --eyes`) in the folder, unless one
stands there. The comparison with an admin framework needs the extra `benchmark`, and is left out (null) without it.
"""

import argparse
import importlib.util
import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

from demo_db import build, data, many
from followup import jobs
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home import enrol
from followup.records import Store, export, eyes, open_store
from tests.benchmark import side_by_side, yardsticks
from tests.benchmark.phones import Phone, a_days_entries, send
from tests.benchmark.serving import Server, alternately, cpu_of, program, yardstick
from tests.conftest import COMMAND

Found = dict[str, Any]
AT_ONCE, STARTS = 8, 7
CLOCK = ("check", "escalate", "messages")
SAME_LISTS = {"visits": "today", "callbacks": "callbacks", "patients": "search", "events": "one eye"}
"""Tables as an admin framework lists them, and the page of ours that people open for those."""


def main(words: Sequence[str] | None = None) -> Found:
    asked = _asked(words)
    with tempfile.TemporaryDirectory(prefix="followup-benchmark-") as made:
        folder = asked.folder or Path(made)
        found: Found = {
            "at": datetime.now(UTC).isoformat(timespec="seconds"),
            "machine": {"python": platform.python_version(), "processors": os.cpu_count(), "load": os.getloadavg()[0]},
            "start": start(),
            "sizes": {str(size): of_size(folder / str(size), size, asked.seconds, asked.phones) for size in asked.eyes},
            "ten clinics": ten_clinics(folder, min(asked.eyes), asked.seconds, asked.phones),
        }
    found["growth"] = growth(found["sizes"])
    if asked.out:
        asked.out.write_text(json.dumps(found, indent=2) + "\n", encoding="utf-8")
    print(shown(found))
    return found


def _asked(words: Sequence[str] | None) -> argparse.Namespace:
    options = argparse.ArgumentParser(prog="python -m tests.benchmark", description=__doc__)
    options.add_argument("--eyes", type=lambda text: [int(n) for n in text.split(",")], default=[1000, 30_000])
    options.add_argument("--seconds", type=float, default=5.0, help="for each figure")
    options.add_argument("--phones", type=int, default=200, help="that send after a day’s outage, at most")
    options.add_argument("--folder", type=Path, help="keep the clinics there")
    options.add_argument("--out", type=Path, default=Path("benchmark.json"))
    return options.parse_args(words)


def figure(measured: float, of_yardstick: float, unit: str, **more: Any) -> Found:
    ratio = measured / of_yardstick if of_yardstick else None
    return {"measured": measured, "yardstick": of_yardstick, "unit": unit, "ratio": ratio, **more}


def of_size(folder: Path, size: int, seconds: float, most_phones: int) -> Found:
    """Everything that is measured of a clinic of one size."""
    settings = build.settings(folder)
    folder.mkdir(parents=True, exist_ok=True)
    began = time.process_time()
    if not settings.server.database.exists():
        many.build(settings, datetime.now(UTC), size, seed=1)
    built = time.process_time() - began
    file = folder / "clinic.toml"
    file.write_text(
        f'[clinic]\nphone = "+00 1 234"\n[server]\ndatabase = "{settings.server.database}"\nsecure_cookies = false\n'
    )
    plain = folder / "yardstick.db"
    plain.unlink(missing_ok=True)
    yardsticks.fill(plain, size)
    store = open_store(settings.server.database)
    phones = _phones(store, settings.clinic.tz, most_phones)
    found: Found = {"built_cpu_seconds": built, "disk": disk(store, size)}
    with program(file) as ours, yardstick("twenty_rows", plain) as bare:
        paths = _paths(store)
        found["pages"] = pages(ours, bare, paths, seconds)
        found["admin"] = admin(settings.server.database, ours, paths, seconds)
        found["entries"] = entries(ours, phones, folder / "commits.db", seconds)
        found["clock"] = clock(store, settings, found["pages"])
        found["memory"] = figure(ours.memory_mb, bare.memory_mb, "MB")
    store.close()
    return found


def _paths(store: Store) -> dict[str, tuple[str, str]]:
    """Each page, and who reads it."""
    eye = eyes.followed(store)[-1]
    return {
        "today": ("nurse", "/clinic/"),
        "callbacks": ("nurse", "/clinic/callbacks"),
        "search": ("nurse", f"/clinic/?find={eye.patient.name.split()[-1]}"),
        "one eye": ("nurse", f"/clinic/eyes/{eye.id}"),
        "day sheet": ("nurse", "/api/v1/clinic/daysheet"),
        "needs me": ("surgeon", "/surgeon/"),
    }


def pages(ours: Server, bare: Server, paths: dict[str, tuple[str, str]], seconds: float) -> Found:
    """Pages over HTTP against one of twenty rows: time of an answer, and the server's processor."""
    people = {role: data.clinic().first(role) for role in ("nurse", "surgeon")}
    bare_cpu = cpu_of(bare, lambda: bare.get("/"), seconds)
    found, who = {}, ""
    for name, (role, path) in paths.items():
        if who != role:
            ours.session.cookies.clear()
            ours.sign_in(people[role].email, people[role].password)
            who = role
        asking: Callable[[], Any] = lambda path=path: ours.get(path)  # noqa: E731
        bare_ms, ms = alternately([lambda: bare.get("/"), asking], seconds)
        cpu = cpu_of(ours, asking, seconds)
        size = len(ours.get(path).content)
        found[name] = figure(ms, bare_ms, "ms", cpu=figure(cpu, bare_cpu, "ms of the processor"), bytes=size)
    return found


def admin(database: Path, ours: Server, paths: dict[str, tuple[str, str]], seconds: float) -> Found | None:
    """Lists of the same data in an admin framework: how many times longer they take than ours."""
    if importlib.util.find_spec("flask_admin") is None or importlib.util.find_spec("sqlalchemy") is None:
        return None
    people = {role: data.clinic().first(role) for role in ("nurse", "surgeon")}
    ours.session.cookies.clear()
    ours.sign_in(people["nurse"].email, people["nurse"].password)
    found = {}
    with yardstick("admin", database) as framework:
        for table, page in SAME_LISTS.items():
            asking: Callable[[], Any] = lambda table=table: framework.get(f"/admin/{table}/")  # noqa: E731
            our_own: Callable[[], Any] = lambda page=page: ours.get(paths[page][1])  # noqa: E731
            ms, our_ms = alternately([asking, our_own], seconds)
            found[table] = figure(ms, our_ms, "ms")
    return found


def entries(ours: Server, phones: Sequence[Phone], plain: Path, seconds: float) -> Found:
    """Entries that are on the disk, a second: phones after a day without a signal, against plain commits."""
    plain.unlink(missing_ok=True)
    commits = yardsticks.commits_a_second(plain, seconds)
    waiting = [(phone, a_days_entries(phone)) for phone in phones]
    before, began = ours.cpu_ms, time.perf_counter()
    with ThreadPoolExecutor(AT_ONCE) as pool:
        taken = sum(pool.map(lambda one: send(ours.address, *one), waiting))
    passed = time.perf_counter() - began
    cpu = (ours.cpu_ms - before) / taken
    return figure(taken / passed, commits, "a second", cpu_ms=cpu, phones=len(phones))


def ten_clinics(folder: Path, size: int, seconds: float, most_phones: int) -> Found:
    """Ten clinics of the smallest size on one server, against one."""
    settings = build.settings(folder / str(size))
    store = open_store(settings.server.database)
    phones = _phones(store, settings.clinic.tz, most_phones)
    store.close()
    return side_by_side.measured(folder / "side by side", settings.server.database, phones, seconds)


def _phones(store: Store, zone: Any, most: int) -> list[Phone]:
    """Phones of followed patients, enrolled anew."""
    found, desk = [], Desk(store, datetime.now(UTC), Actor("benchmark", "the benchmark", "clock"), zone)
    with store.transaction():
        for eye in [eye for eye in eyes.followed(store) if eye.patient.has_app][:most]:
            code = enrol.issue_code(desk, eye.patient.id)
            token = enrol.enrol(store, desk.now, code, eye.patient.born_on.year, "patient", "benchmark")
            found.append(Phone(token, eye.id))
    return found


def clock(store: Store, settings: Any, measured: Found) -> Found:
    """A quiet minute: each of the clock's jobs once more, after it has done what was due, and what came of that."""
    now = datetime.now(UTC)
    for minutes in (0, 1):
        for name in CLOCK:
            jobs.JOBS[name](store, settings, now + timedelta(minutes=minutes))
    bare = measured["today"]["cpu"]["yardstick"]
    found = {}
    for name in CLOCK:
        began = time.process_time()
        jobs.JOBS[name](store, settings, now + timedelta(minutes=2))
        found[name] = figure((time.process_time() - began) * 1000, bare, "ms of the processor")
    return found


def disk(store: Store, size: int) -> Found:
    """Bytes an eye, against the text that was entered."""
    said = sum(
        len(str(value)) for table in ("patients", "operation_records", "visits", "events") for row in export.rows(store, table)
        for value in row.values() if value is not None
    )  # fmt: skip
    store.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    return figure(store.path.stat().st_size / size, said / size, "bytes an eye")


def start() -> Found:
    """The command until its help is there, against a start of Python that loads the same library for commands."""
    ours, bare = [], []
    for _ in range(STARTS):
        for times, command in ((ours, [*COMMAND, "--help"]), (bare, [sys.executable, "-c", "import click"])):
            began = time.perf_counter()
            subprocess.run(command, capture_output=True, check=True)
            times.append((time.perf_counter() - began) * 1000)
    return figure(statistics.median(ours), statistics.median(bare), "ms")


def growth(sizes: Found) -> Found:
    """By how much each page's ratio grows from the smallest to the largest clinic."""
    smallest, largest = (sizes[pick(sizes, key=int)]["pages"] for pick in (min, max))
    return {name: largest[name]["ratio"] / smallest[name]["ratio"] for name in smallest}


def shown(found: Found) -> str:
    lines = [("", "measured", "yardstick", "ratio", "")]

    def add(name: str, one: Found, more: str = "") -> None:
        ratio = "" if one["ratio"] is None else f"{one['ratio']:.2f}"
        lines.append((name, f"{one['measured']:,.2f}", f"{one['yardstick']:,.2f}", ratio, f"{one['unit']}{more}"))

    add("followup --help", found["start"])
    for size, of in found["sizes"].items():
        lines.append((f"{int(size):,} eyes", "", "", "", f"built in {of['built_cpu_seconds']:.0f} s of the processor"))
        for name, page in of["pages"].items():
            add(f"  {name}", page, f", {page['bytes']:,} bytes")
            add(f"  {name}, processor", page["cpu"])
        for name, page in (of["admin"] or {}).items():
            add(f"  admin framework’s {name} / our {SAME_LISTS[name]}", page)
        add("  durable entries", of["entries"])
        for name, job in of["clock"].items():
            add(f"  quiet minute: {name}", job)
        add("  memory of the server", of["memory"])
        add("  on disk", of["disk"])
    lines.append(("ten clinics side by side", "ten", "one", "", ""))
    for name, one in found["ten clinics"].items():
        add(f"  {name}", one)
    lines += [(f"growth of {name}", "", "", f"{by:.2f}", "") for name, by in found["growth"].items()]
    widths = [max(len(line[n]) for line in lines) for n in range(4)]
    return "\n".join(
        f"{line[0]:<{widths[0]}}  " + "  ".join(f"{line[n]:>{widths[n]}}" for n in (1, 2, 3)) + f"  {line[4]}"
        for line in lines
    )


if __name__ == "__main__":
    main()
