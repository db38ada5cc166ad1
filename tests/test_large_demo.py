"""The invented clinic of any size: rows that fit each other and the chain, the same for the same seed, pages that answer."""

from datetime import UTC, datetime
from pathlib import Path

import pytest
from click.testing import CliRunner

from demo_db import build, data, many
from followup.care.reading import state
from followup.care.watch import watching
from followup.care.watch.raising import check_eye
from followup.cli import cli
from followup.config import Settings
from followup.records import Store, backup, export, eyes, kept_waiting, listed, open_store, patients, states, visits, worries
from followup.web import create_app
from tests.conftest import Staff

TODAY = datetime(2027, 3, 5, 10, 0, tzinfo=UTC)
EYES, LIVED = 240, 4
FACTS = (
    "patients",
    "eyes",
    "operation_records",
    "visits",
    "events",
    "warnings",
    "callbacks",
    "callback_steps",
    "follow_ups",
)


@pytest.fixture(autouse=True)
def few_lived_eyes(monkeypatch: pytest.MonkeyPatch) -> None:
    told = [eye for eye in data.eyes() if 5 < eye.operated_days_ago < 40]
    monkeypatch.setattr(data, "eyes", lambda: told[:LIVED])
    monkeypatch.setattr(many, "MOST_LIVED", 2)


def made(folder: Path, seed: int = 1) -> Settings:
    settings = build.settings(folder)
    folder.mkdir(exist_ok=True)
    many.build(settings, TODAY, EYES, seed)
    return settings


def particulars(store: Store) -> list[tuple[str, str, str]]:
    return [(p.id, p.name, str(p.born_on)) for p in patients.everybody(store) if p.number.startswith("C-")]


def test_what_it_makes_is_a_clinic(tmp_path: Path) -> None:
    settings = made(tmp_path)
    store = open_store(settings.server.database)
    assert backup.faults(store) == []
    assert watching.unreadable(store) == []
    assert states.changed(store, 1) == []
    assert state.differences(store, settings.clinic.tz) == []
    assert kept_waiting.differences(store) == []
    assert states.to_look_at(store, TODAY) == []
    followed, operated = eyes.followed(store), eyes.operated(store)
    assert (len(operated), len(followed)) == (EYES, EYES // 10)
    assert len({p.number for p in patients.everybody(store)}) == EYES
    for eye in followed:
        assert check_eye(store, eye.id, TODAY, settings.clinic.tz) == [], "the rules find what the lived eye was told"
    assert {c.eye_id for c in worries.open_callbacks(store)} <= {eye.id for eye in followed}
    ended = [e.ended_at for e in operated if e.ended_at]
    assert len(ended) == EYES - EYES // 10
    assert max(ended).year - min(ended).year >= 9
    copies = [e.patient.id for e in operated if e.patient.number.startswith("C-")]
    wholes = [export.of_patient(store, id) for id in copies]
    for table in ("events", "visits", "visits_to_tell", "listed_operations", "warnings", "callbacks", "callback_steps"):
        assert any(whole[table] for whole in wholes), f"no copy has {table}"
    assert listed.count(store) == many.LISTED
    assert visits.count_to_tell(store, TODAY.date()) == 0
    lived = [p.name for p in patients.everybody(store) if not p.number.startswith("C-")]
    assert not [name for name in lived if name in str(wholes)], "a copy tells of whom it was made from"
    store.close()


def test_the_same_seed_gives_the_same_clinic_and_another_another(tmp_path: Path) -> None:
    stores = [open_store(made(tmp_path / name, seed).server.database) for name, seed in (("a", 7), ("b", 7), ("c", 8))]
    first, same, other = (particulars(store) for store in stores)
    assert first == same
    assert len(first) > EYES // 2
    assert not {p[:2] for p in first} & {p[:2] for p in other}
    for table in FACTS:
        numbers = [len(list(export.rows(store, table))) for store in stores[:2]]
        assert numbers[0] == numbers[1], table
    for store in stores:
        store.close()


def test_its_pages_answer(tmp_path: Path) -> None:
    settings = made(tmp_path)
    store = open_store(settings.server.database)
    app = create_app(settings, store, lambda: TODAY)
    app.config.update(TESTING=True)
    client = Staff(app, app.response_class)
    nurse = data.clinic().first("nurse")
    answer = client.post("/sign-in", data={"email": nurse.email, "password": nurse.password})
    assert answer.status_code == 302
    copied = next(e for e in eyes.followed(store) if e.patient.number.startswith("C-"))
    for page in ("/clinic/callbacks", f"/clinic/eyes/{copied.id}", f"/clinic/?find={copied.patient.number}"):
        answer = client.get(page)
        assert answer.status_code == 200, page
    assert copied.patient.name in answer.text
    store.close()


def test_the_command_builds_without_serving_and_replaces_nothing_unasked(tmp_path: Path) -> None:
    words = ["demo", "--eyes", "30", "--folder", str(tmp_path), "--no-serve"]
    done = CliRunner().invoke(cli, words)
    assert done.exit_code == 0, done.output
    assert "30 of 30 eyes\n" in done.output
    assert f"start the demo with --folder {tmp_path}, and it is served" in done.output
    assert not [words for words in ("http://", "Ctrl-C", "@demo.invalid") if words in done.output]
    again = CliRunner().invoke(cli, words)
    assert again.exit_code == 2
    assert "--fresh" in again.output
