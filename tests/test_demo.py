"""The invented clinic: about thirty eyes, every agent, at every stage, some in trouble, dated from today."""

from datetime import UTC, datetime
from pathlib import Path

import pytest

from demo_db import build
from followup.care.visits.openings import openings
from followup.clinical import agents
from followup.config import Clinic
from followup.records import Store, audit, eyes, visits, worries


def on_closed_days(store: Store, clinic: Clinic) -> list[str]:
    planned = visits.of_followed(store)
    days = openings(store, clinic, min(v.target for v in planned), max(v.target for v in planned))
    return [f"{v.name}, {v.target:%a %d %b}" for v in planned if v.target not in days.places]


def test_no_visit_of_the_demo_is_on_a_day_on_which_the_clinic_sees_nobody(
    store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Begun on a Saturday, with eyes operated a day or two before."""
    whole = build._data
    few = {"eyes": whole("eyes")["eyes"][:4]}
    monkeypatch.setattr(build, "_data", lambda name: few if name == "eyes" else whole(name))
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
    assert audit.broken_at(store) is None
    assert store.integrity_faults() == []
    words = build.sign_in_words(store, made, now)
    for person in ("nurse", "surgeon", "patient", "/enrol?code="):
        assert person in words
    store.close()
    again = build.ensure(made, now)
    assert len(eyes.operated(again)) == len(rows)
    again.close()
