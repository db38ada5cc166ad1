"""A clinic that stands still, opens slowly or is upgraded for hours keeps no other waiting."""

import sqlite3
import threading
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest

from followup.records.opening import is_older
from followup.records.store import StoreError
from followup.region import porter, taking
from tests.conftest import NOW, until
from tests.region import clinics
from tests.region.clinics import Browser, host_of, phone_of
from tests.region.conftest import Region, said_of
from tests.region.served import free

HANGS_SECONDS = 60
"""After so long a test that waits for an answer fails."""


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

    with ThreadPoolExecutor(4) as pool:
        first = pool.submit(upgraded, 5)
        assert began.wait(HANGS_SECONDS)
        others = [pool.submit(upgraded, size_bytes) for size_bytes in (9, 2, 4)]
        until(lambda: len(upgrades._waiting) == 3, "three wait")
        assert order == [5]
        go_on.set()
        first.result(HANGS_SECONDS)
        assert [type(one.exception(HANGS_SECONDS)) for one in others] == [type(None), StoreError, type(None)]
    assert order == [5, 2, 4, 9]


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
