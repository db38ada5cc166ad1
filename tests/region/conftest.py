"""A region in this process: what the serving process, a worker and the clock do, without waiting for a second to pass."""

import io
import json
import logging
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from followup import logs
from followup.region import doors, porter
from followup.region.doors import Doors
from followup.region.porter import Porter
from followup.region.register import Register
from tests.conftest import NOW, Clock
from tests.region import clinics
from tests.region.clinics import Browser, Clinic


class Region:
    def __init__(self, folder: Path, migrated: Path, clock: Clock) -> None:
        self.folder, self.migrated, self.clock = folder, migrated, clock
        self.seconds = 0.0
        register = folder / "register.json"
        self.porter = Porter(folder, Register(register), patience_seconds=0)
        self.register = Register(register)
        self.doors = Doors(Register(register), clock=clock)

    def add(self, name: str, more: str = "") -> Clinic:
        """A clinic that came into the folder and was looked at."""
        clinic = clinics.made(self.folder, name, self.migrated, NOW, more)
        self.look()
        return clinic

    def look(self, seconds: float = 5) -> None:
        """What the serving process and a worker do each second, when so many have passed."""
        self.seconds += seconds
        self.porter.look(self.seconds)
        self.doors.sweep()

    def browser(self, host: str, cookies: dict[str, str] | None = None) -> Browser:
        return Browser(self.doors, host, cookies)

    def status(self, name: str, path: str = "/sign-in") -> int:
        return self.browser(clinics.host_of(name)).get(path).status_code

    def signed_in(self, clinic: Clinic, role: str) -> Browser:
        made = self.browser(clinic.host)
        assert made.sign_in(clinic.email(role)).status_code == 302
        return made

    def close(self) -> None:
        for file in self.folder.glob("*.toml"):
            file.unlink()
        self.look()


@pytest.fixture
def region(tmp_path: Path, migrated: Path, clock: Clock, monkeypatch: pytest.MonkeyPatch) -> Iterator[Region]:
    """Whoever waits for a clinic, waits until it is there, however busy the machine is."""
    for module in (doors, porter):
        monkeypatch.setattr(module, "MOMENT_SECONDS", 120)
    made = Region(tmp_path, migrated, clock)
    yield made
    made.close()


@pytest.fixture
def written() -> Iterator[io.StringIO]:
    stream = io.StringIO()
    handler = logs.to_stderr(stream)
    yield stream
    logging.getLogger().removeHandler(handler)


def said_of(written: io.StringIO, clinic: str) -> list[str]:
    lines: list[dict[str, Any]] = [json.loads(line) for line in written.getvalue().splitlines()]
    return [str(line["event"]) for line in lines if line.get("clinic") == clinic and line["event"] != "request"]
