"""A clinic for sequences of faults: its server, the line to it, its own file opened beside it, and patients."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from followup.care import signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home.enrol import issue_code, revoke
from followup.clinical import schedule
from followup.records import Store, eyes, open_store, people
from tests.browser.conftest import CLINIC_TOML, ZONE, RunningServer, clinic_day, made_server
from tests.browser.proxy import Line
from tests.conftest import PASSWORD, consented, operation_note, patient_details


@dataclass
class Clinic:
    server: RunningServer
    line: Line
    store: Store
    nurse: Actor
    _numbers: "count[int]" = field(default_factory=count)

    @property
    def address(self) -> str:
        """Of the line, as devices reach it."""
        return f"http://localhost:{self.line.port}"

    @property
    def desk(self) -> Desk:
        return Desk(self.store, datetime.now(UTC), self.nurse, ZONE)

    def patient(self) -> tuple[str, str]:
        """(operation, code) of somebody operated yesterday."""
        tomorrow = clinic_day(1)
        visits = [schedule.Window("week 1", tomorrow, tomorrow, tomorrow + timedelta(days=3), "retina")]
        drops = [{"name": "antibiotic", "times_a_day": 4, "until": tomorrow + timedelta(days=5)}]
        operated = datetime.now(UTC) - timedelta(days=1)
        note = operation_note(operated_at=operated, drops=drops, steroid_drops_until=tomorrow + timedelta(days=20))
        details = patient_details(f"F-{next(self._numbers)}")
        return consented(self.desk, leaving.discharge(self.desk, details, note, visits))

    def code(self, operation: str) -> str:
        return issue_code(self.desk, self._patient_of(operation))

    def lock_out(self, operation: str) -> None:
        """Close every phone of the patient."""
        for device in people.devices_of(self.store, self._patient_of(operation)):
            if device.revoked_at is None:
                revoke(self.desk, device.id)

    def kill(self) -> None:
        self.server.kill()

    def start(self) -> None:
        if self.server.process is None:
            self.server.start()

    def new_version(self, name: str) -> None:
        """What devices keep of the pages is another one from now on."""
        self.server.kill()
        settings = self.server.settings.server.database.with_suffix(".toml")
        settings.write_text(CLINIC_TOML + f'on_call = "{name}"\n', encoding="utf-8")
        self.server.start()

    def mend(self) -> None:
        self.line.mode = "through"
        self.start()

    def _patient_of(self, operation: str) -> str:
        row = eyes.eye(self.store, operation)
        assert row is not None
        return str(row.patient.id)


@contextmanager
def clinic(folder: Path, migrated: Path) -> Iterator[Clinic]:
    """A clinic of its own in this folder."""
    server = made_server(folder, migrated)
    server.start()
    line, store = Line(server.settings.server.port), open_store(server.settings.server.database)
    try:
        nurse = signing_in.sign_in(store, datetime.now(UTC), "nurse@test.invalid", PASSWORD)
        yield Clinic(server, line, store, nurse)
    finally:
        server.kill()
        line.close()
        store.close()
