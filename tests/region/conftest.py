"""A region in this process: what the serving process, a worker and the clock do, without waiting for a second to pass."""

from collections.abc import Iterator
from pathlib import Path

import pytest

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
def region(tmp_path: Path, migrated: Path, clock: Clock) -> Iterator[Region]:
    made = Region(tmp_path, migrated, clock)
    yield made
    made.close()
