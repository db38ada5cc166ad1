"""Files that come, change, break and go while the server runs: each takes only its own clinic along."""

import io
import sqlite3
from contextlib import closing
from datetime import timedelta
from typing import Any

import pytest

from followup import jobs
from followup.config import ConfigError
from followup.records import keys, lock, moving, open_store
from followup.records.store import StoreError
from followup.region import doors
from followup.region.clocks import Clocks
from followup.region.doors import Doors
from followup.settings_file import of_clinic, of_machine
from tests.conftest import NOW, until
from tests.region.clinics import Browser, Clinic, host_of, phone_of, settings
from tests.region.conftest import Region, said_of


def test_a_clinic_is_opened_when_asked_for_and_closed_when_nobody_asks(region: Region) -> None:
    north, south = region.add("north"), region.add("south")
    quick = Doors(region.register, idle_seconds=0, clock=region.clock)
    assert quick.open == set()
    Browser(quick, north.host).get("/sign-in")
    assert quick.open == {"north"}
    Browser(quick, south.host).get("/sign-in")
    quick.sweep()
    assert quick.open == set()
    assert Browser(quick, north.host).get("/sign-in").status_code == 200
    quick.sweep()
    region.look()
    for clinic in (north, south):
        clinic.file.unlink()
    region.look()
    for clinic in (north, south):
        with lock.held(clinic.database, "a test"):
            pass  # nobody holds it any more


def test_a_clinic_in_use_is_not_closed_under_its_reader(region: Region) -> None:
    north = region.add("north")
    quick = Doors(region.register, idle_seconds=0, clock=region.clock)
    environ = {"REQUEST_METHOD": "GET", "PATH_INFO": "/static/base.css", "HTTP_HOST": north.host, "SERVER_NAME": "x"}
    environ |= {"SERVER_PORT": "80", "wsgi.url_scheme": "http", "SERVER_PROTOCOL": "HTTP/1.1"}
    answer = quick(environ | {"wsgi.input": io.BytesIO(), "wsgi.errors": io.StringIO()}, lambda *_: lambda _: None)
    quick.sweep()
    north.file.unlink()
    region.look()  # the serving process lets it go
    quick.sweep()
    with pytest.raises(StoreError, match="in use"):
        lock.take(north.database, "a test")
    assert b"".join(answer)
    answer.close()  # type: ignore[attr-defined]
    quick.sweep()
    with lock.held(north.database, "a test"):
        pass


def test_a_file_that_comes_is_served_and_one_that_goes_is_not(region: Region, written: io.StringIO) -> None:
    region.add("north")
    assert (region.status("north"), region.status("south")) == (200, 421)
    south = region.add("south")
    assert (region.status("north"), region.status("south")) == (200, 200)
    south.file.rename(south.file.with_name(".south.toml"))
    region.look()
    assert (region.status("north"), region.status("south")) == (200, 421)
    assert said_of(written, "south") == [
        f"clinic south is served at {south.host}",
        "clinic south is served no more: its settings file is gone",
    ]


def test_changed_settings_are_taken_without_a_restart(region: Region) -> None:
    north = region.add("north")
    assert "clinic north" in region.browser(north.host).get("/sign-in").text
    settings(region.folder, "north", north.database, 'security_contact = "safety@north.invalid"')
    assert region.browser(north.host).get("/.well-known/security.txt").status_code == 404
    region.look()
    assert "safety@north.invalid" in region.browser(north.host).get("/.well-known/security.txt").text


def test_settings_that_the_serving_process_has_not_read_yet_open_no_clinic(region: Region) -> None:
    north = region.add("north")
    settings(region.folder, "north", north.database, 'security_contact = "safety@north.invalid"')
    assert region.status("north") == 503
    region.look()
    assert "safety@north.invalid" in region.browser(north.host).get("/.well-known/security.txt").text


@pytest.mark.parametrize(
    ("content", "words"),
    [
        ("[clinic", "is not TOML"),
        ('[clinic]\nname = "\xff"'.encode("latin-1"), "is not TOML"),
        ('[clinic]\nphone = "ring us"\n', "setting clinic.phone: “ring us” is not a telephone number"),
        ("[server]\nport = 8000\n", "setting server.port belongs to the whole server"),
        ('[clinic]\nphone = "+00 1 234"\n', "setting server.address: the clinic is found by it"),
        (
            '[clinic]\nphone = "+00 1 234"\n[server]\naddress = "http://north.clinics.invalid"\n',
            "setting server.database is missing",
        ),
        ("", "setting clinic.phone: it is missing"),
    ],
)
def test_a_file_that_breaks_takes_only_its_own_clinic_down(
    region: Region, written: io.StringIO, content: str | bytes, words: str
) -> None:
    north = region.add("north")
    region.add("south")
    assert (region.status("north"), region.status("south")) == (200, 200)
    north.file.write_bytes(content if isinstance(content, bytes) else content.encode())
    region.look()
    assert (region.status("north"), region.status("south")) == (503, 200)
    health = region.browser(north.host).get("/health")
    assert (health.status_code, health.json) == (503, {"ok": False, "stopped": ["settings"]})
    region.look()
    (told,) = [line for line in said_of(written, "north") if "not served" in line]  # once, however often it is tried
    assert words in told
    assert said_of(written, "south") == [f"clinic south is served at {host_of('south')}"]
    settings(region.folder, "north", north.database)
    region.look()
    assert (region.status("north"), region.status("south")) == (200, 200)


def test_patients_of_a_clinic_that_cannot_be_served_read_its_number(region: Region) -> None:
    north = region.add("north")
    settings(region.folder, "north", north.database, 'language = "de"\nplaces = { nonday = 3 }')
    region.look()
    page = region.browser(north.host).get("/me/")
    assert (page.status_code, page.headers["Retry-After"]) == (503, "5")
    assert phone_of("north") in page.text
    assert 'lang="de"' in page.text
    told = region.browser(north.host).get("/api/v1/pack").json
    assert told is not None
    assert told["phone"] == phone_of("north")


def test_a_newer_schema_or_a_broken_database_takes_only_its_own_clinic_down(region: Region, written: io.StringIO) -> None:
    region.add("south")
    for name, break_it, words in (
        ("newer", newer, "was made by a newer version"),
        ("broken", broken, "cannot be used as a database"),
        ("missing", missing, "there is no database at"),
    ):
        clinic = region.add(name)
        clinic.file.rename(clinic.file.with_suffix(".away"))
        region.look()
        break_it(clinic)
        clinic.file.with_suffix(".away").rename(clinic.file)
        region.look()
        assert (region.status(name), region.status("south")) == (503, 200), name
        health = region.browser(clinic.host).get("/health")
        assert (health.status_code, health.json) == (503, {"ok": False, "stopped": ["database"]})
        assert phone_of(name) in region.browser(clinic.host).get("/").text
        assert words in said_of(written, name)[-1]


def newer(clinic: Clinic) -> None:
    with closing(sqlite3.connect(clinic.database)) as database:
        database.execute(
            "INSERT INTO _sqlite_migrations (migration_set, name, applied_at) VALUES ('followup', 'from the future', '')"
        )
        database.commit()


def broken(clinic: Clinic) -> None:
    for file in clinic.database.parent.glob(f"{clinic.database.name}*"):
        file.write_bytes(b"no database" * 1000)


def missing(clinic: Clinic) -> None:
    for file in clinic.database.parent.glob(f"{clinic.database.name}*"):
        file.unlink()


def test_a_clinic_that_a_worker_cannot_open_is_away_alone(
    region: Region, written: io.StringIO, monkeypatch: pytest.MonkeyPatch
) -> None:
    region.add("north")
    region.add("south")
    whole = doors.create_app

    def fails(settings: Any, *more: Any) -> Any:
        if "north" in str(settings.server.database):
            raise ValueError("something about Pat Patient")
        return whole(settings, *more)

    monkeypatch.setattr(doors, "create_app", fails)
    assert (region.status("north"), region.status("south")) == (503, 200)
    assert phone_of("north") in region.browser(host_of("north")).get("/").text
    assert said_of(written, "north")[-1].startswith("clinic north could not be opened: ValueError in ")
    assert "Pat" not in written.getvalue()
    monkeypatch.setattr(doors, "create_app", whole)
    monkeypatch.setattr(doors, "AGAIN_SECONDS", 0)
    until(lambda: region.status("north") == 200, "it is tried again", 20)


def test_who_has_a_host_or_a_database_keeps_it(region: Region, written: io.StringIO) -> None:
    north = region.add("north")
    text = north.file.read_text()
    (region.folder / "a copy.toml").write_text(text)  # it comes before the other by its name
    region.look()
    assert region.status("north") == 200
    assert "http://" not in said_of(written, "a copy")[-1]
    assert f"{north.host} is the clinic north’s already" in said_of(written, "a copy")[-1]
    (region.folder / "a copy.toml").write_text(text.replace(north.host, "other.clinics.invalid"))
    region.look()
    assert (region.status("north"), region.status("other")) == (200, 503)
    assert f"{north.database} is the clinic north’s already" in said_of(written, "a copy")[-1]
    north.file.unlink()
    region.look()
    region.look()
    assert region.status("other") == 200


def test_no_two_clinics_keep_their_copies_in_one_folder(region: Region, written: io.StringIO) -> None:
    """Copies of the same second would have one name, and the heads of two trails lie in one file."""
    north, south = region.add("north"), region.add("south")
    (region.folder / "kept").mkdir()
    (region.folder / "link").symlink_to(region.folder / "kept")
    for clinic, folder in ((north, "kept"), (south, "link")):
        clinic.file.write_text(clinic.file.read_text() + f'backups = "{region.folder / folder}"\n')
        region.look()
    assert (region.status("north"), region.status("south")) == (200, 503)
    told = f"setting server.backups: {region.folder / 'kept'} is the clinic north’s already"
    assert told in said_of(written, "south")[-1]
    north.file.unlink()
    region.look()
    region.look()
    assert region.status("south") == 200


def test_a_database_in_use_elsewhere_is_named(region: Region, written: io.StringIO) -> None:
    north = region.add("north")
    with pytest.raises(StoreError, match="a server of several clinics is running on it"):
        lock.take(north.database, "a test")
    north.file.rename(region.folder / "away")
    region.look()
    with lock.held(north.database, "a restore is running"):
        (region.folder / "away").rename(north.file)
        region.look()
        assert region.status("north") == 503
        assert "in use: a restore is running" in said_of(written, "north")[-1]
    region.look()
    assert region.status("north") == 200


def test_a_clinic_whose_keys_another_secret_wraps_is_away_alone(
    region: Region, written: io.StringIO, monkeypatch: pytest.MonkeyPatch
) -> None:
    north = region.add("north")
    region.add("south")
    north.file.rename(region.folder / "away")
    region.look()
    secret = region.folder / "secret"
    secret.write_text("s" * 40)
    monkeypatch.setenv(keys.KEY_FILE, str(secret))
    store = open_store(north.database)
    keys.secret(store)
    store.close()
    secret.write_text("t" * 40)
    (region.folder / "away").rename(north.file)
    region.look()
    assert (region.status("north"), region.status("south")) == (503, 200)
    assert said_of(written, "north")[-1].startswith("clinic north is not served: the clinic’s keys are wrapped by another")
    secret.write_text("s" * 40)
    region.look()
    assert region.status("north") == 200


def test_a_closed_clinic_is_away_until_it_is_opened_again(region: Region) -> None:
    north = region.add("north")
    phone = region.browser(north.host, {"device": north.token})
    assert phone.get("/api/v1/pack").status_code == 200
    store = open_store(north.database)
    moving.close(store, NOW)
    answer = phone.post("/api/v1/events", json={"events": []})
    assert (answer.status_code, answer.headers["Retry-After"]) == (503, "5")
    north.file.rename(region.folder / "away")
    region.look()
    (region.folder / "away").rename(north.file)
    region.look()  # as after a restart of the server: it is closed from the start
    health = region.browser(north.host).get("/health")
    assert (health.status_code, health.json) == (503, {"ok": False, "stopped": ["closed"]})
    moving.reopen(store, NOW)
    store.close()
    region.look()
    assert phone.get("/api/v1/pack").status_code == 200


def test_each_clinic_has_its_own_clock_and_none_stops_another(
    region: Region, written: io.StringIO, monkeypatch: pytest.MonkeyPatch
) -> None:
    region.add("north")
    region.add("south")
    whole = jobs.JOBS["escalate"]

    def fails(store: Any, *more: Any) -> int:
        if "north" in str(store.path):
            raise ValueError("north alone")
        return whole(store, *more)

    monkeypatch.setitem(jobs.JOBS, "escalate", fails)
    clocks = Clocks(region.register, region.clock)
    clocks.look()
    until(lambda: clocks.running == {"north", "south"}, "both run")
    until(lambda: any("escalate failed: ValueError" in line for line in said_of(written, "north")), "north’s job ran")
    until(lambda: any("escalate done" in line for line in said_of(written, "south")), "south’s job ran")
    assert not any("failed" in line for line in said_of(written, "south"))
    (region.folder / "north.toml").unlink()
    region.look()
    clocks.look()
    assert clocks.running == {"south"}
    north = region.folder / "databases" / "north.db"
    until(lambda: free(north), "nobody holds it any more")
    (region.folder / "south.toml").unlink()
    region.look()
    clocks.look()
    until(lambda: free(region.folder / "databases" / "south.db"), "nobody holds it any more")


def free(database: Any) -> bool:
    try:
        with lock.held(database, "a test"):
            return True
    except StoreError:
        return False


def test_what_belongs_to_one_clinic_is_refused_for_all(region: Region, monkeypatch: pytest.MonkeyPatch) -> None:
    file = region.folder / "machine"
    file.write_text("[server]\nport = 9000\nproxies = 1\n")
    assert (of_machine(file, {"workers": 3}).server.port, of_machine(file, {"workers": 3}).server.workers) == (9000, 3)
    for given, words in (({"database": "x.db"}, "--database would hold for every clinic"),):
        with pytest.raises(ConfigError, match=words):
            of_machine(file, given)
    monkeypatch.setenv("FOLLOWUP_SMTP_PASSWORD", "secret of one clinic")
    with pytest.raises(
        ConfigError, match=r"FOLLOWUP_SMTP_PASSWORD would hold for every clinic: write messages.smtp_password"
    ):
        of_machine(file, {})
    monkeypatch.setenv("FOLLOWUP_SMTP_PASSWORD", "")
    monkeypatch.setenv("FOLLOWUP_PORT", "9001")
    assert of_machine(file, {}).server.port == 9001
    file.write_text('[clinic]\nphone = "+00 1 234"\n')
    with pytest.raises(ConfigError, match=r"setting clinic.phone belongs to one clinic"):
        of_machine(file, {})


def test_a_clinic_s_settings_are_those_of_its_file_alone(region: Region, monkeypatch: pytest.MonkeyPatch) -> None:
    north = region.add("north")
    monkeypatch.setenv("FOLLOWUP_PHONE", "+00 9 999")
    monkeypatch.setenv("FOLLOWUP_DATABASE", "elsewhere.db")
    found = of_clinic(north.file)
    assert (found.clinic.phone, found.server.database) == (phone_of("north"), north.database)


def test_time_passes_for_each(region: Region) -> None:
    north = region.add("north")
    nurse = region.signed_in(north, "nurse")
    assert nurse.get("/clinic/").status_code == 200
    region.clock.pass_(hours=13)
    assert nurse.get("/clinic/").status_code == 302
    assert region.clock() == NOW + timedelta(hours=13)
