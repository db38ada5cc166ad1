"""A clinic that stands still, opens slowly or is upgraded for hours keeps no other waiting."""

import resource
import sqlite3
import threading
from collections.abc import Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
import uuid_utils
from werkzeug.test import TestResponse

from followup import serving
from followup.exchange import directory
from followup.records import store
from followup.records.opening import is_older
from followup.records.store import StoreError
from followup.region import clocks, doors, porter, taking
from followup.region.clocks import Clocks
from followup.region.doors import AT_ONCE
from followup.web.anybody.pages import Health
from tests.conftest import NOW, until
from tests.region import clinics
from tests.region.clinics import Browser, Clinic, host_of, phone_of
from tests.region.conftest import Region, said_of
from tests.region.served import free

THREADS = serving.THREADS_OF_REGION
HANGS_SECONDS = 60
"""After so long a test that waits for an answer fails."""


@pytest.fixture
def worker() -> Iterator[ThreadPoolExecutor]:
    """The threads of one of the web server's workers: whoever comes when all are taken, waits."""
    with ThreadPoolExecutor(THREADS) as pool:
        yield pool


class Hall:
    """An application in which each request stays until it is let out."""

    def __init__(self) -> None:
        self._came, self._out, self._lock = threading.Semaphore(0), threading.Semaphore(0), threading.Lock()
        self.inside = self.most = 0

    def __call__(self, environ: Any, start_response: Any) -> list[bytes]:
        with self._lock:
            self.inside += 1
            self.most = max(self.most, self.inside)
        self._came.release()
        assert self._out.acquire(timeout=HANGS_SECONDS)
        with self._lock:
            self.inside -= 1
        start_response("200 OK", [])
        return [b""]

    def wait_for(self, count: int) -> None:
        for _ in range(count):
            assert self._came.acquire(timeout=HANGS_SECONDS)

    def let_out(self, count: int) -> None:
        self._out.release(count)


@pytest.fixture
def hall(region: Region, monkeypatch: pytest.MonkeyPatch) -> Hall:
    """What answers in place of north's pages."""
    made, whole = Hall(), doors.create_app
    region.add("north")
    region.add("south")
    monkeypatch.setattr(
        doors, "create_app", lambda of, *more: made if "north" in str(of.server.database) else whole(of, *more)
    )
    return made


def entry(clinic: Clinic) -> dict[str, Any]:
    made = {"id": str(uuid_utils.uuid7()), "operation": clinic.eye, "kind": "symptoms", "at": NOW.isoformat()}
    return made | {"offset_minutes": 60, "sequence": 1, "by": "patient", "body": {"pain": 1}}


def ended(asked: list["Future[TestResponse]"]) -> list[int]:
    return sorted(one.result(HANGS_SECONDS).status_code for one in asked)


@pytest.mark.parametrize("who", ["nurse", "phone"])
def test_a_clinic_whose_database_is_held_leaves_threads_to_the_others(
    region: Region, worker: ThreadPoolExecutor, monkeypatch: pytest.MonkeyPatch, who: str
) -> None:
    monkeypatch.setattr(store, "BUSY_MS", 3_600_000)  # whoever waits for the lock stays until it is free
    north, south = region.add("north"), region.add("south")

    def asks(clinic: Clinic) -> Any:
        if who == "nurse":
            nurse = region.signed_in(clinic, "nurse")
            return lambda: nurse.get("/clinic/")
        phone = region.browser(clinic.host, {"device": clinic.token})
        assert phone.get("/api/v1/pack").status_code == 200
        return lambda: phone.post("/api/v1/events", json={"events": [entry(clinic)]})

    of_north, of_south = asks(north), asks(south)
    monkeypatch.setattr(doors, "MOMENT_SECONDS", 0)
    with closing(sqlite3.connect(north.database, isolation_level=None)) as another:
        another.execute("BEGIN IMMEDIATE")
        asked = [worker.submit(of_north) for _ in range(2 * THREADS)]
        for _ in range(AT_ONCE):
            assert ended([worker.submit(of_south)]) == [200]
        until(lambda: sum(one.done() for one in asked) == 2 * THREADS - AT_ONCE, "the others were sent away")
        another.execute("ROLLBACK")
    assert ended(asked) == [200] * AT_ONCE + [503] * (2 * THREADS - AT_ONCE)
    assert of_north().status_code == 200


def test_whoever_finds_a_clinic_full_that_moves_on_waits_for_a_place(
    region: Region, hall: Hall, worker: ThreadPoolExecutor
) -> None:
    asked = [worker.submit(region.status, "north") for _ in range(3 * THREADS)]
    hall.wait_for(AT_ONCE)
    hall.let_out(3 * THREADS)
    assert {one.result(HANGS_SECONDS) for one in asked} == {200}
    assert hall.most == AT_ONCE


def test_whoever_finds_a_clinic_full_that_stands_still_is_sent_away_at_once(
    region: Region, hall: Hall, worker: ThreadPoolExecutor, written: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    now = 0.0
    monkeypatch.setattr(doors, "MOMENT_SECONDS", 2)
    monkeypatch.setattr(doors, "time", SimpleNamespace(monotonic=lambda: now))

    def ask() -> "Future[int]":
        return worker.submit(region.status, "north")

    stuck = [ask() for _ in range(AT_ONCE)]
    hall.wait_for(AT_ONCE)
    now = 3.0
    assert ask().result(HANGS_SECONDS) == 503
    assert worker.submit(region.status, "south").result(HANGS_SECONDS) == 200
    now = 10.0
    hall.let_out(1)  # it gave up, after long
    until(lambda: sum(one.done() for one in stuck) == 1, "one place is free")
    stuck.append(ask())
    hall.wait_for(1)
    assert ask().result(HANGS_SECONDS) == 503  # who came in just now shows nothing: no time passes here
    hall.let_out(AT_ONCE)
    assert {one.result(HANGS_SECONDS) for one in stuck} == {200}
    assert [line for line in said_of(written, "north") if "stands still" in line] == [
        "clinic north stands still: none of its 3 requests moves on, others get 503"
    ]
    asked = [ask() for _ in range(AT_ONCE + 1)]
    hall.wait_for(AT_ONCE)
    hall.let_out(AT_ONCE + 1)
    assert {one.result(HANGS_SECONDS) for one in asked} == {200}


def test_phones_staff_and_whoever_watches_read_that_a_clinic_lets_nobody_in(
    region: Region, hall: Hall, worker: ThreadPoolExecutor, monkeypatch: pytest.MonkeyPatch
) -> None:
    inside = [worker.submit(region.status, "north") for _ in range(AT_ONCE)]
    hall.wait_for(AT_ONCE)
    monkeypatch.setattr(doors, "MOMENT_SECONDS", 0)
    is_sent_away(region.browser(host_of("north")), "busy")
    hall.let_out(AT_ONCE)
    assert {one.result(HANGS_SECONDS) for one in inside} == {200}


def is_sent_away(browser: Browser, why: str) -> None:
    """The number to call for people, JSON for phones and devices, which send again later (`tests/phone/test_outbox.py`)."""
    page = browser.get("/clinic/")
    assert (page.status_code, page.headers["Retry-After"]) == (503, "5")
    assert phone_of("north") in page.text
    assert "What was saved before is still saved" in page.text
    told = browser.post("/api/v1/events", json={"events": []})
    assert (told.status_code, told.headers["Retry-After"]) == (503, "5")
    assert told.json == {"error": "This page does not work now", "phone": phone_of("north"), "emergency_phone": "112"}
    health = browser.get("/health")
    assert (health.status_code, health.json) == (503, {"ok": False, "stopped": [why]})
    assert Health.model_validate(health.json)
    assert browser.get("/static/base.css").status_code == 200


class Slow:
    """A part of the program that stays at north's database until it may go on."""

    def __init__(self, whole: Any, database_of: Any) -> None:
        self._whole, self._database_of = whole, database_of
        self.begun, self.go_on, self.asked = threading.Event(), threading.Event(), 0

    def __call__(self, *given: Any) -> Any:
        if Path(self._database_of(given[0])).stem == "north":
            self.asked += 1
            self.begun.set()
            assert self.go_on.wait(HANGS_SECONDS)
        return self._whole(*given)


@pytest.fixture
def opening(monkeypatch: pytest.MonkeyPatch) -> Iterator[Slow]:
    """North's application takes long to make, as where all its states are made anew."""
    made = Slow(doors.create_app, lambda settings: settings.server.database)
    monkeypatch.setattr(doors, "create_app", made)
    yield made
    made.go_on.set()


def test_a_clinic_that_opens_slowly_is_waited_for_by_nobody(
    region: Region, opening: Slow, worker: ThreadPoolExecutor, monkeypatch: pytest.MonkeyPatch
) -> None:
    region.add("north")
    region.add("south")
    assert region.status("south") == 200
    monkeypatch.setattr(doors, "MOMENT_SECONDS", 0)
    asked = [worker.submit(region.status, "north") for _ in range(2 * THREADS)]
    assert worker.submit(region.status, "south").result(HANGS_SECONDS) == 200
    assert {one.result(HANGS_SECONDS) for one in asked} == {503}
    is_sent_away(region.browser(host_of("north")), "opening")
    region.doors.sweep()
    opening.go_on.set()
    until(lambda: region.status("north") == 200, "it is open")
    assert opening.asked == 1


def test_whoever_comes_while_a_clinic_is_opened_in_a_moment_finds_it_open(
    region: Region, opening: Slow, worker: ThreadPoolExecutor
) -> None:
    region.add("north")
    asked = [worker.submit(region.status, "north") for _ in range(2 * THREADS)]
    assert opening.begun.wait(HANGS_SECONDS)
    opening.go_on.set()
    assert {one.result(HANGS_SECONDS) for one in asked} == {200}
    assert opening.asked == 1


def test_a_clinic_that_went_while_it_was_opened_is_held_by_nobody(
    region: Region, opening: Slow, worker: ThreadPoolExecutor
) -> None:
    north = region.add("north")
    asked = worker.submit(region.status, "north")
    assert opening.begun.wait(HANGS_SECONDS)
    north.file.unlink()
    region.look()
    assert region.status("north") == 421
    opening.go_on.set()
    assert asked.result(HANGS_SECONDS) == 503
    until(lambda: (region.look(), free(north.database))[1], "nobody holds it")
    assert region.doors.open == set()


@pytest.fixture
def upgrade(monkeypatch: pytest.MonkeyPatch) -> Iterator[Slow]:
    """North's database takes long to be brought up to date."""
    made = Slow(taking.check_usable, lambda database: database)
    monkeypatch.setattr(taking, "check_usable", made)
    monkeypatch.setattr(porter, "MOMENT_SECONDS", 0)
    yield made
    made.go_on.set()


def served(region: Region, *names: str) -> None:
    until(lambda: (region.look(), all(region.status(name) == 200 for name in names))[1], f"{names} are served")


def test_the_others_are_served_while_one_is_upgraded(region: Region, upgrade: Slow, written: Any) -> None:
    north = region.add("north")
    region.add("south")
    assert upgrade.begun.wait(HANGS_SECONDS)
    served(region, "south")
    is_sent_away(region.browser(north.host), "opening")
    east = region.add("east", 'security_contact = "safety@east.invalid"')  # comes, is changed and goes meanwhile
    served(region, "east")
    east.file.unlink()
    region.look()
    assert region.status("east") == 421
    assert (region.status("north"), region.status("south")) == (503, 200)
    assert said_of(written, "north") == ["clinic north is being opened: its database is brought up to date, or in use"]
    upgrade.go_on.set()
    served(region, "north")
    assert said_of(written, "north")[1:] == [f"clinic north is served at {north.host}"]


def test_a_clinic_that_is_being_upgraded_keeps_its_host_and_its_database(
    region: Region, upgrade: Slow, written: Any
) -> None:
    north = region.add("north")
    assert upgrade.begun.wait(HANGS_SECONDS)
    (region.folder / "a copy.toml").write_text(north.file.read_text())
    region.look()
    assert f"{north.host} is the clinic north’s already" in said_of(written, "a copy")[-1]
    upgrade.go_on.set()
    served(region, "north")


def test_a_clinic_that_went_while_it_was_upgraded_is_held_by_nobody(region: Region, upgrade: Slow) -> None:
    north = region.add("north")
    assert upgrade.begun.wait(HANGS_SECONDS)
    north.file.unlink()
    region.look()
    assert region.status("north") == 421
    assert not free(north.database)
    upgrade.go_on.set()
    until(lambda: free(north.database), "nobody holds it")


def test_an_upgrade_that_fails_is_told_of_its_clinic_and_stops_no_other(
    region: Region, written: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    whole, fails = taking.check_usable, True

    def check_usable(database: Path) -> None:
        if fails and database.stem == "north":
            raise ValueError("something about Pat Patient")
        whole(database)

    monkeypatch.setattr(taking, "check_usable", check_usable)
    monkeypatch.setattr(taking, "is_older", lambda database: True)
    north = region.add("north")
    region.add("south")
    assert (region.status("north"), region.status("south")) == (503, 200)
    (told,) = said_of(written, "north")
    assert told.startswith("clinic north is not served: ValueError in ")
    assert "Pat" not in written.getvalue()
    assert said_of(written, "south") == [f"clinic south is served at {host_of('south')}"]
    assert phone_of("north") in region.browser(north.host).get("/").text
    fails = False
    region.look()
    assert region.status("north") == 200


def test_upgrades_take_turns_and_the_smallest_is_next() -> None:
    upgrades, order = taking.Turns(), []
    began, go_on = threading.Event(), threading.Event()

    def upgraded(size_bytes: int) -> None:
        with upgrades.turn(size_bytes):
            order.append(size_bytes)
            began.set()
            assert go_on.wait(HANGS_SECONDS)
            if size_bytes == 2:
                raise StoreError("this one fails")

    waiting = (9, 8, 7, 6, 2, 4, 3)  # so many that chance alone does not put them in order
    with ThreadPoolExecutor(8) as pool:
        first = pool.submit(upgraded, 5)
        assert began.wait(HANGS_SECONDS)
        others = {size_bytes: pool.submit(upgraded, size_bytes) for size_bytes in waiting}
        until(lambda: len(upgrades._waiting) == len(waiting), "all of them wait")
        assert order == [5]
        go_on.set()
        first.result(HANGS_SECONDS)
        became = {size_bytes: type(one.exception(HANGS_SECONDS)) for size_bytes, one in others.items()}
        assert became == {**dict.fromkeys(waiting, type(None)), 2: StoreError}
    assert order == [5, *sorted(waiting)]


def test_small_databases_are_taken_first(region: Region, monkeypatch: pytest.MonkeyPatch) -> None:
    """So that after an update the largest is not upgraded before all others."""
    order: list[str] = []
    whole = taking.begun

    def begun(clinic: str, *more: Any) -> Any:
        order.append(clinic)
        return whole(clinic, *more)

    monkeypatch.setattr(taking, "begun", begun)
    sizes = {"large": 3, "small": 1, "middle": 2}
    monkeypatch.setattr(taking, "size_bytes", lambda database: sizes[database.stem])
    for name in sizes:
        clinics.made(region.folder, name, region.migrated, NOW)
    region.look()
    assert order == ["small", "middle", "large"]


def test_an_older_schema_is_known_before_it_is_upgraded(region: Region, tmp_path: Path) -> None:
    north = region.add("north")
    assert not is_older(north.database)
    with closing(sqlite3.connect(north.database)) as database:
        database.execute("DELETE FROM _sqlite_migrations WHERE rowid = (SELECT max(rowid) FROM _sqlite_migrations)")
        database.commit()
    assert is_older(north.database)
    for content in (b"", b"no database" * 1000):
        (tmp_path / "other.db").write_bytes(content)
        assert not is_older(tmp_path / "other.db")


def test_a_clock_that_starts_slowly_is_waited_for_by_no_other(
    region: Region, written: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    slow = Slow(clocks.open_store, lambda database: database)
    monkeypatch.setattr(clocks, "open_store", slow)
    both = [region.add("north"), region.add("south")]
    made = Clocks(region.register, region.clock)

    def running() -> set[str]:
        made.look()
        return made.running

    until(lambda: running() == {"south"}, "south’s runs")
    slow.go_on.set()
    until(lambda: running() == {"north", "south"}, "both run")
    assert slow.asked == 1
    assert not any("could not be started" in line for line in said_of(written, "north"))
    for clinic in both:
        clinic.file.unlink()
    region.look()
    assert running() == set()
    until(lambda: all(free(clinic.database) for clinic in both), "nobody holds them")


def test_a_server_of_many_clinics_may_open_many_files() -> None:
    before = resource.getrlimit(resource.RLIMIT_NOFILE)
    try:
        resource.setrlimit(resource.RLIMIT_NOFILE, (256, before[1]))
        serving.allow_many_files()
        assert resource.getrlimit(resource.RLIMIT_NOFILE) == (min(serving.MANY_FILES, before[1]), before[1])
    finally:
        resource.setrlimit(resource.RLIMIT_NOFILE, before)


def test_what_hangs_in_one_clinic_leaves_a_place_for_its_pages() -> None:
    assert directory.AT_A_TIME < AT_ONCE < THREADS
    assert 2 * AT_ONCE < THREADS
    assert directory.IN_ALL < THREADS
