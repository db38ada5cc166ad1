"""The invented clinic: about thirty eyes, every agent, at every stage, some in trouble, dated from today."""

import logging
import socket
from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner

from demo_db import build, data, welcome
from followup import serving
from followup.care.learning import results
from followup.care.visits.openings import openings
from followup.cli import cli
from followup.clinical import agents
from followup.config import Clinic, ConfigError, Server, Settings
from followup.records import Store, audit, eyes, patients, visits, worries

OF_PERSON = "SELECT v.name FROM visits v JOIN eyes e ON e.id = v.eye_id WHERE e.patient_id = :id"


def on_closed_days(store: Store, clinic: Clinic) -> list[str]:
    planned = visits.of_followed(store)
    days = openings(store, clinic, min(v.target for v in planned), max(v.target for v in planned))
    return [f"{v.name}, {v.target:%a %d %b}" for v in planned if v.target not in days.places]


def test_no_visit_of_the_demo_is_on_a_day_on_which_the_clinic_sees_nobody(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Begun on a Saturday, with eyes operated a day or two before."""
    few = data.eyes()[:4]
    monkeypatch.setattr(data, "eyes", lambda: few)
    clinic = build.settings(tmp_path).clinic
    build.fill(store, clinic, datetime(2027, 3, 6, 10, tzinfo=UTC))
    assert on_closed_days(store, clinic) == []


def test_the_demo_clinic(tmp_path: Path) -> None:
    now = datetime.now(UTC)
    made = build.settings(tmp_path)
    store = build.ensure(made, now)
    rows = eyes.followed(store)
    assert 28 <= len(rows) <= 34
    assert {r.agent for r in rows} == set(agents.AGENTS)
    ages = [(now - r.note.operated_at).days for r in rows if r.note]
    assert min(ages) == 0
    assert max(ages) > 180
    open_worries = {c.worry for c in worries.open_callbacks(store)}
    assert {"infection", "pressure", "retina", "silence", "gas-and-height", "oil", "diary"} <= open_worries
    on_paper = [r for r in rows if not r.patient.has_app]
    assert len(on_paper) == 2
    assert not {c.worry for r in on_paper for c in worries.callbacks_of(store, r.id)} & {"silence", "posture"}
    assert {r.patient.reached_by for r in rows} == {"own-phone", "carer-phone", "no-app"}
    in_trouble = {c.eye_id for c in worries.open_callbacks(store)}
    assert 5 <= len(in_trouble) <= len(rows) // 2
    assert on_closed_days(store, made.clinic) == []
    shown = results.results(store, now, made.clinic.tz)
    assert len({point.value for point in shown.spikes_by_month}) > 1, "a run chart without one spike shows nothing"
    assert len(shown.attached) >= 4, "a curve of detachments shows some, early and late"
    assert shown.finally_attached.events > shown.once.events > 0, "some are attached after a second operation only"
    for told in data.eyes():
        known = patients.by_number(store, told.number)
        assert known is not None
        planned = {v["name"] for v in store.rows(OF_PERSON, {"id": known.id})}
        assert {*told.clinic, *told.missed} <= planned, (
            f"{told.number}: what the data say of a visit that is not planned is lost"
        )
    assert audit.broken_at(store) is None
    assert store.damage() + store.dangling() == []
    store.close()
    again = build.ensure(made, now)
    assert len(eyes.operated(again)) == len(rows)
    again.close()


NOW = datetime(2027, 3, 5, 10, tzinfo=UTC)


@pytest.fixture
def small(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A demo of one eye, in its folder."""
    first = data.eyes()[:1]
    monkeypatch.setattr(data, "eyes", lambda: first)
    build.ensure(build.settings(tmp_path), NOW).close()
    return tmp_path


def said(folder: Path, now: datetime = NOW, host: str | None = None) -> str:
    made = build.settings(folder, host)
    store = build.ensure(made, now)
    words = welcome.words(store, made, now)
    store.close()
    return words


def test_it_says_how_to_sign_in_as_each_of_its_people(small: Path) -> None:
    words = said(small)
    people = data.clinic().staff
    assert {p.role for p in people} == {"nurse", "surgeon", "administrator"}
    assert sum(p.role == "nurse" for p in people) == 2
    for person in people:
        assert any(person.email in line and person.password in line for line in words.splitlines())
    assert "http://127.0.0.1:8000/enrol?code=" in words
    assert "█" not in words  # nothing to scan where no phone comes
    assert "days ago" not in words


@pytest.mark.parametrize("host", ["0.0.0.0", "::"])
def test_where_it_listens_everywhere_a_phone_gets_an_address_and_a_code_to_scan(
    small: Path, monkeypatch: pytest.MonkeyPatch, host: str
) -> None:
    monkeypatch.setattr(build, "_own_number", lambda: "192.0.2.7")
    words = said(small, host=host)
    assert "http://192.0.2.7:8000/enrol?code=" in words
    assert host not in words.replace("/sign-in", "")
    assert (
        max(len(line) for line in words.splitlines() if "█" in line) >= 25
    )  # ISO/IEC 18004: 21 modules at least, and its quiet zone


def test_a_port_that_is_taken_is_said_before_anything_is_built_or_promised(tmp_path: Path) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = str(taken.getsockname()[1])
        done = CliRunner().invoke(cli, ["demo", "--folder", str(tmp_path), "--port", port])
    assert isinstance(done.exception, ConfigError)
    assert f"cannot listen on 127.0.0.1:{port}" in str(done.exception)
    assert (done.output, (tmp_path / "demo.db").exists()) == ("", False)


@pytest.mark.parametrize(("demo", "level"), [(True, logging.WARNING), (False, logging.INFO)])
def test_requests_do_not_push_the_sign_ins_out_of_the_terminal(demo: bool, level: int) -> None:
    """Whoever runs a clinic reads them in its journal."""
    log = logging.getLogger()
    before, handlers = log.level, list(log.handlers)
    try:
        serving._log(Settings(server=Server(demo=demo)))
        assert log.level == level
    finally:
        log.handlers = handlers
        log.setLevel(before)


def test_its_own_number_is_one_that_a_phone_can_write() -> None:
    first, *_ = build._own_number().split(".")
    assert 1 <= int(first) <= 223


def test_an_old_demo_says_how_old_it_is(small: Path) -> None:
    """However it was started: by `bash demo_db/run` nothing named followup need be on the PATH, and a folder may be named."""
    told = said(small, datetime(2027, 3, 6, 11, tzinfo=UTC))
    assert "It was built 1 day ago: start it the same way with --fresh added, and it is built anew, from today.\n" in told
    assert "followup demo" not in told


@pytest.mark.parametrize("how", ["of another version", "no database", "other people"])
def test_a_demo_that_fits_no_more_says_how_to_renew_it(small: Path, how: str) -> None:
    path = build.settings(small).server.database
    if how == "no database":
        path.write_text("Dear reader, this is no database at all. " * 50)
    else:
        store = build.ensure(build.settings(small), NOW)
        if how == "of another version":
            store.execute("INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('followup', 'm999', '')")
        else:
            store.execute("UPDATE staff SET email = 'x@demo.invalid' WHERE role = 'surgeon'")
        store.close()
    with pytest.raises(build.DemoError, match="does not fit: start it the same way with --fresh added"):
        said(small)
    build.ensure(build.settings(small), NOW, fresh=True).close()
    assert "The invented clinic is at" in said(small)


def test_no_two_of_its_people_share_a_name() -> None:
    people = (*data.eyes(), *data.clinic().staff)
    names = [p.name.removeprefix("Dr ") for p in people]
    for part in (0, -1):
        assert len({name.split()[part] for name in names}) == len(names)
