"""A database of every schema that ever landed opens whole: as a new one has it, with clean checks and working pages.

`schemas/<commit>.sql` was filled by that commit's own code (`dump_schema.py`).
"""

import hashlib
import inspect
import re
import sqlite3
from pathlib import Path

import pytest
from click.testing import CliRunner
from flask.testing import FlaskClient

from followup.cli import cli
from followup.config import Settings
from followup.records import Store, eyes, open_store, states, worries
from followup.records.migrations import steps
from followup.records.migrations.first import APPEND_ONLY
from followup.web import create_app
from tests.conftest import PASSWORD, Browser, Clock

DUMPS = sorted((Path(__file__).parent / "schemas").glob("*.sql"))
# A step that has run anywhere is never changed: to change one is to break every database that ran it before.
STEPS_AS_THEY_RAN: dict[str, str] = {
    "APPEND_ONLY": "b7837ab4af4a5595",
    "m001_people": "33bd4b36e49bb6df",
    "m002_eyes": "41eee371d1fad750",
    "m003_worries": "3abe58e6e823ea1a",
    "m004_audit": "a6bdb26070d9f285",
    "m005_messages": "af9c4553ed8e2569",
    "m006_repair": "7ff3c50b7a64db1f",
    "m007_tasks": "5b014c3e3e29971b",
    "m008_visit_identities": "6da5c9dfeb4c27c0",
    "m009_watch": "f1e7e344085f5578",
    "m011_bounds": "310223583f2b8100",
    "m020_two_eyes": "754083ea8cdca00a",
    "m021_grounds_of_warnings": "d117b772df373e5a",
    "m025_joined_by_index": "f68d4757e610aca6",
    "m026_one_call": "170bd5a31ae1a351",
    "m027_book_of_visits": "20637b34ed4de958",
    "m030_sealed_facts": "4e621864b7658bf1",
    "m029_sessions": "2d481dbdfad6720a",
    "m028_current_state": "9297834b3feb7b52",
    "m031_carers_and_drops": "5911c0cbd2d254a1",
    "m032_rights": "1f733285946a8c9a",
    "m033_kept_results": "9738fea2f524e958",
    "m034_theatre": "34209c930cb61311",
    "m035_passkeys": "598270418fbf847c",
    "m036_reminded_by_time": "b1952cea47dab258",
    "m037_packed_hashes": "4d645d79997f3ccd",
    "m038_narrow_indexes": "51e8d3c27b28139c",
    "m039_unsaid": "761eeb8984bc5bc8",
    "m040_narrow_traffic": "c0386ea70dc0a417",
    "m041_nothing_planned": "e48cf8354d836ff3",
    "m042_only_what_waits": "5f8613016ea32030",
}


def schema(store: Store) -> dict[str, tuple[str, ...]]:
    """Every table, index and trigger by name, its definition in parts that leave the order of columns aside."""
    found = {}
    for row in store.rows("SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'"):
        text = " ".join((row["sql"] or "").replace('"', "").split())
        start, end = text.find("("), text.rfind(")")
        if row["type"] == "table":
            parts = [text[:start].strip(), text[end + 1 :].strip(), *re.split(r",(?![^(]*\))", text[start + 1 : end])]
            found[row["name"]] = tuple(sorted(part.strip() for part in parts))
        else:
            found[row["name"]] = (text,)
    return found


@pytest.fixture(params=DUMPS, ids=lambda path: path.stem)
def old(request: pytest.FixtureRequest, settings: Settings) -> Path:
    """The file of a clinic that last ran an old version."""
    path = settings.server.database
    made = sqlite3.connect(path)
    made.executescript(request.param.read_text(encoding="utf-8"))
    made.close()
    return path


# What the steps themselves count in, what a later step took away, and what is made from the rest.
MADE = ("changed_results", *states.RESULTS)  # from facts, when somebody asks
GONE = ("_sqlite_migrations", "job_slots", "changed_patients", "state_made", *states.TABLES)
NOW_CALLED = {"unfounded_warnings": "warning_grounds"}


@pytest.fixture
def opened(old: Path) -> Store:
    return open_store(old)


# A commit that changed no step has none of its own: af6f283 has the schema of c3f17cb.
def test_there_is_a_dump_of_every_schema_that_landed() -> None:
    assert [path.stem for path in DUMPS] == sorted(
        [
            "742635f",
            "c3f17cb",
            "c09d377",
            "df089fd",
            "a0ee3a3",
            "a67427a",
            "c5f6826",
            "e4d1ee3",
            "14ebc96",
            "dc0b2bb",
            "6c1eef7",
            "fe9aaa9",
            "98a75a2",
            "eeb3e0b",
            "0c798e3",
            "8d4badf",
            "013a862",
            "3468ec9",
            "4bcf27e",
            "d7e7998",
            "fb12cae",
            "9485ac2",
            "352efaf",
            "d9ee9aa",
        ]
    )


def test_an_old_database_gets_the_schema_of_a_new_one(opened: Store, tmp_path: Path) -> None:
    fresh = open_store(tmp_path / "fresh.db", create=True)
    assert schema(opened) == schema(fresh)
    fresh.close()


def test_nothing_is_lost_and_checks_are_clean(old: Path, tmp_path: Path) -> None:
    before = sqlite3.connect(old)
    tables = [name for (name,) in before.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
    counts = {t: before.execute(f"SELECT count(*) FROM {t}").fetchone()[0] for t in tables if t not in {*GONE, *MADE}}
    before.close()
    config = tmp_path / "clinic.toml"
    config.write_text(f'[clinic]\nname = "Test"\nphone = "+00 1 234"\n[server]\ndatabase = "{old}"\n', encoding="utf-8")
    checked = CliRunner().invoke(cli, ["--config", str(config), "check"])
    assert (checked.exit_code, checked.output) == (0, "the database and the audit chain are whole\n")
    after = sqlite3.connect(old)
    entries = counts.pop("audit")  # an entry more says what every row holds after a step
    assert after.execute("SELECT count(*) FROM audit").fetchone()[0] >= entries > 10
    assert counts == {t: after.execute(f"SELECT count(*) FROM {NOW_CALLED.get(t, t)}").fetchone()[0] for t in counts}
    assert counts["events"] >= 5
    after.close()


def test_todays_pages_work_on_it_and_take_entries(opened: Store, settings: Settings) -> None:
    app = create_app(settings, opened, Clock())
    app.config.update(TESTING=True)
    app.test_client_class = Browser
    nurse = signed_in(app.test_client(), "nurse@test.invalid")
    surgeon = signed_in(app.test_client(), "surgeon@test.invalid")
    gas = next(row.id for row in eyes.followed(opened) if row.patient.number == "S-1")
    calls = [c.id for c in worries.callbacks_of(opened, gas)]
    paths = ["/clinic/", "/clinic/?find=pia", "/clinic/callbacks", "/clinic/discharge", f"/clinic/callbacks/{calls[0]}"]
    paths += [f"/clinic/eyes/{gas}", *(f"/clinic/eyes/{gas}/{page}" for page in ("visit", "plan", "card"))]
    for path in paths:
        answer = nurse.get(path, follow_redirects=True)
        assert answer.status_code == 200, path
    assert "Pia Person" in nurse.get("/clinic/?find=pia").text
    for path in ("/surgeon/", "/surgeon/results", "/surgeon/protocols"):
        assert surgeon.get(path).status_code == 200, path
    visit = {"visit": "week 1", "right-acuity": "6/36", "right-correction": "pinhole", "right-iop": "19"}
    visit |= {"right-instrument": "rebound", "left-correction": "unaided", "left-instrument": "rebound"}
    assert nurse.post(f"/clinic/eyes/{gas}/visit", data=visit).status_code == 303
    with pytest.raises(sqlite3.IntegrityError, match="append-only"):
        opened.execute("DELETE FROM looks")


def test_no_step_that_has_run_was_changed() -> None:
    sources = {step.name: inspect.getsource(step.fn) for step in steps._migrations}
    sources["APPEND_ONLY"] = repr(APPEND_ONLY)
    now = {name: hashlib.sha256(" ".join(text.split()).encode()).hexdigest()[:16] for name, text in sources.items()}
    assert now == STEPS_AS_THEY_RAN, "a step that has run is never changed; a new one gets its line here"


def signed_in(client: FlaskClient, email: str) -> FlaskClient:
    assert client.post("/sign-in", data={"email": email, "password": PASSWORD}).status_code == 302
    return client
