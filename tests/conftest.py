"""People, a clinic and a clock for the tests. Everything is real: a SQLite file, the whole application."""

import os
import random
import shutil
import socket
import sys
import time
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from argon2 import PasswordHasher
from flask import Flask
from flask.testing import FlaskClient
from hypothesis import settings as hypothesis_settings
from itsdangerous import URLSafeTimedSerializer

from followup.care import accounts, signing_in
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import Patient
from followup.care.home import enrol
from followup.care.patients import consenting
from followup.care.reading.eye import load
from followup.clinical import schedule
from followup.config import Clinic, Server, Settings
from followup.records import Store, open_store
from followup.records.operation_note import OperationNote
from followup.records.values import Device
from followup.web import create_app
from tests.made_once import compile_routes_once, compile_templates_once, make_few_sealing_keys

# The same examples in every run, so that what is green stays green; the full profile looks for new ones.
hypothesis_settings.register_profile("fast", max_examples=60, deadline=None, derandomize=True)
hypothesis_settings.register_profile("full", max_examples=1000, deadline=None)
hypothesis_settings.load_profile(os.environ.get("HYPOTHESIS_PROFILE", "fast"))

# Databases wait for the disk at each transaction: in memory that costs nothing, and it changes nothing else.
MEMORY = Path("/dev/shm")
ROOM_BYTES = 2**31
if MEMORY.is_dir() and os.access(MEMORY, os.W_OK) and shutil.disk_usage(MEMORY).free > ROOM_BYTES:
    os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(MEMORY))

compile_templates_once()
compile_routes_once()
make_few_sealing_keys(4)

ZONE = ZoneInfo("Europe/Vienna")
NOW = datetime(2027, 3, 5, 10, 0, tzinfo=UTC)
OPERATED = datetime(2027, 3, 2, 14, 0, tzinfo=UTC)
PASSWORD = "a long test password"
# The command in a process of its own, as a clinic has it: without pandas, which the tests bring along and which a
# library would load at each start if it found it.
COMMAND = [sys.executable, "-c", "import sys; sys.modules['pandas'] = None; from followup.cli import main; main()"]


def free_port() -> int:
    """A port below those that systems hand out: nobody's connection takes it while its server is down."""
    while True:
        port = random.SystemRandom().randrange(10_000, 32_000)
        with socket.socket() as probe, suppress(OSError):
            probe.bind(("127.0.0.1", port))
            return port


def until(true: Callable[[], Any], what: str, seconds: float = 40) -> Any:
    """Wait until something holds; returns what it gave."""
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        if found := true():
            return found
        time.sleep(0.05)
    raise AssertionError(f"never: {what}")


class Clock:
    """The time of a test; set `now` to move it."""

    def __init__(self) -> None:
        self.now = NOW

    def __call__(self) -> datetime:
        return self.now

    def pass_(self, **span: float) -> datetime:
        self.now += timedelta(**span)
        return self.now


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        folder, name = item.path.parent.name, item.path.stem
        if folder == "browser":
            item.add_marker("browser")
        if name in ("test_serving", "test_served", "test_wheel", "test_benchmark"):
            item.add_marker("server")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """How long each part took, all workers together."""
    parts: Counter[str] = Counter()
    for reports in terminalreporter.stats.values():
        for report in reports:
            if isinstance(report, pytest.TestReport):
                parts[report.nodeid.partition("::")[0].rpartition("/")[0]] += report.duration
    if parts:
        terminalreporter.write_line("seconds: " + ", ".join(f"{name} {spent:.0f}" for name, spent in parts.most_common()))


@pytest.fixture(autouse=True, scope="session")
def cheap_passwords() -> Iterator[None]:
    """The same hash with cheaper parameters: the default takes a tenth of a second each time."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(accounts, "_hasher", PasswordHasher(time_cost=1, memory_cost=8, parallelism=1))
        yield


@pytest.fixture
def clock() -> Clock:
    return Clock()


def clinic() -> Clinic:
    return Clinic(name="Test Eye Clinic", phone="+00 1 234", emergency_phone="112", zone=ZONE.key, country="AT")


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return Settings(clinic=clinic(), server=Server(database=tmp_path / "clinic.db", secure_cookies=False))


@pytest.fixture(scope="session")
def migrated(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An empty database of today's schema, to be copied."""
    path = tmp_path_factory.mktemp("migrated") / "clinic.db"
    open_store(path, create=True).close()
    return path


@dataclass(frozen=True)
class Begun:
    """What nearly every test begins with, made once: the database as each of the fixtures named here leaves it, to be copied."""

    nurse: Actor
    discharged: tuple[str, str]
    token: str
    files: dict[str, Path]

    def file(self, fixtures: Sequence[str]) -> Path:
        """The furthest that a test with these fixtures asks for."""
        return next(path for name, path in reversed(self.files.items()) if not name or name in fixtures)


@pytest.fixture(scope="session")
def begun(migrated: Path, tmp_path_factory: pytest.TempPathFactory, cheap_passwords: None) -> Begun:
    folder, files = tmp_path_factory.mktemp("begun"), {"": migrated}

    def then(name: str, do: Callable[[Store], Any]) -> Any:
        before, files[name] = [*files.values()][-1], folder / f"{name}.db"
        shutil.copy(before, files[name])
        with closing(open_store(files[name])) as store:
            return do(store)

    id = then("nurse", lambda store: accounts.add_staff(store, NOW, "Nora Nurse", "nurse", "nurse@test.invalid", PASSWORD))
    nurse = Actor(id, "Nora Nurse", "nurse")
    left = then("discharged", lambda store: discharge(Desk(store, OPERATED + timedelta(hours=5), nurse, ZONE)))
    token = then("token", lambda store: enrol.enrol(store, OPERATED + timedelta(hours=6), left[1], 1952, "patient", "test"))
    return Begun(nurse, left, token, files)


@pytest.fixture
def store(settings: Settings, begun: Begun, request: pytest.FixtureRequest) -> Iterator[Store]:
    shutil.copy(begun.file(request.fixturenames), settings.server.database)
    made = open_store(settings.server.database)
    yield made
    made.close()


@pytest.fixture
def nurse(store: Store, begun: Begun) -> Actor:
    return begun.nurse


@pytest.fixture
def surgeon(store: Store) -> Actor:
    id = accounts.add_staff(store, NOW, "Sol Surgeon", "surgeon", "surgeon@test.invalid", PASSWORD)
    return Actor(id, "Sol Surgeon", "surgeon")


def operation_note(**changes: Any) -> OperationNote:
    """A right eye with 16 % C2F6 after diabetic traction; `changes` replace parts of it."""
    note: dict[str, Any] = {
        "eye": "right",
        "operated_at": OPERATED,
        "surgeon": "Sol Surgeon",
        "indication": "diabetic-traction",
        "breaks": [{"clock": 11, "reach": "equator"}],
        "lens": "phakic",
        "agent": "c2f6",
        "percent": 16,
        "fill_percent": 95,
        "risks": ["diabetic"],
        "baseline": {"acuity": "6/60", "iop_mmhg": 15},
        "steroid_drops_until": date(2027, 3, 30),
        "posture": {"position": "face-down", "hours_a_day": 12, "days": 5},
    }
    return OperationNote.model_validate({**note, **changes})


def patient_details(number: str = "T-1") -> Patient:
    return Patient(number=number, name="Pat Patient", born_on=date(1952, 3, 14), phone="+00 9 876")


def consented(desk: Desk, discharged: tuple[str, str]) -> tuple[str, str]:
    """The same discharge after the patient consented to the phone pages: now the code works."""
    consenting.give(desk, load(desk.store, discharged[0], desk.zone).patient.id, "patient", "")
    return discharged


def discharge(desk: Desk) -> tuple[str, str]:
    visits = [
        schedule.Window("day 1", date(2027, 3, 3), date(2027, 3, 3), date(2027, 3, 3), "pressure"),
        schedule.Window("week 1", date(2027, 3, 10), date(2027, 3, 8), date(2027, 3, 14), "retina"),
    ]
    return consented(desk, leaving.discharge(desk, patient_details(), operation_note(), visits))


@pytest.fixture
def discharged(nurse: Actor, begun: Begun) -> tuple[str, str]:
    """(operation id, enrolment code) of a discharged patient with two planned visits."""
    return begun.discharged


@pytest.fixture
def eye_id(discharged: tuple[str, str]) -> str:
    return discharged[0]


@pytest.fixture
def token(discharged: tuple[str, str], begun: Begun) -> str:
    """The secret of the patient's enrolled phone."""
    return begun.token


@pytest.fixture
def device(store: Store, token: str) -> Device:
    """The patient's enrolled phone."""
    found = enrol.device(store, token)
    assert found is not None
    return found


@pytest.fixture
def app(settings: Settings, store: Store, clock: Clock) -> Flask:
    made = create_app(settings, store, clock)
    made.config.update(TESTING=True)
    made.test_client_class = Browser
    return made


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    """Somebody who has not signed in."""
    return app.test_client()


class Browser(FlaskClient):
    """Sends with each form the token that our pages write into it; not where `tokens` is turned off."""

    tokens = True

    def open(self, *args: Any, **kwargs: Any) -> Any:
        form, path = kwargs.get("data"), str(args[0] if args else kwargs.get("path", ""))
        page = kwargs.get("method") == "POST" and "json" not in kwargs and not path.startswith("/api/")
        if self.tokens and page and (form is None or isinstance(form, dict)):
            kwargs["data"] = {"csrf_token": self._token(kwargs.get("base_url")), **(form or {})}
        return super().open(*args, **kwargs)

    def _token(self, base_url: str | None) -> str:
        with self.session_transaction(base_url=base_url) as kept:
            kept.setdefault("csrf_token", "the token of this session")
            signer = URLSafeTimedSerializer(self.application.secret_key or "", salt="wtf-csrf-token")
            return str(signer.dumps(kept["csrf_token"]))


class Staff(Browser):
    """A member of staff, who signs in anew whenever so much time has passed that the session is over."""

    email, since = "", NOW

    def open(self, *args: Any, **kwargs: Any) -> Any:
        now = self.application.extensions["followup"].clock()
        if self.email and abs(now - self.since) >= signing_in.IDLE:
            self.sign_in(now)
        return super().open(*args, **kwargs)

    def sign_in(self, now: datetime) -> None:
        self.since = now
        answer = self.post("/sign-in", data={"email": self.email, "password": PASSWORD})
        assert answer.status_code == 302


def signed_in(app: Flask, email: str) -> FlaskClient:
    made = Staff(app, app.response_class)
    made.email = email
    made.sign_in(app.extensions["followup"].clock())
    return made


@pytest.fixture
def as_nurse(app: Flask, nurse: Actor) -> FlaskClient:
    return signed_in(app, "nurse@test.invalid")


@pytest.fixture
def as_surgeon(app: Flask, surgeon: Actor) -> FlaskClient:
    return signed_in(app, "surgeon@test.invalid")


@pytest.fixture
def as_patient(app: Flask, token: str) -> FlaskClient:
    made = app.test_client()
    made.set_cookie("device", token)
    return made
