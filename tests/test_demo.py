"""The invented clinic: about thirty eyes, every agent, at every stage, some in trouble, dated from today."""

from datetime import UTC, datetime
from pathlib import Path

from demo_db import build
from followup.clinical import tamponade
from followup.records import audit, eyes, worries


def test_the_demo_clinic(tmp_path: Path) -> None:
    now = datetime.now(UTC)
    made = build.settings(tmp_path)
    store = build.ensure(made, now)
    rows = eyes.followed(store)
    assert 28 <= len(rows) <= 34
    assert {r.agent for r in rows} == set(tamponade.AGENTS)
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
    assert audit.broken_at(store) is None
    assert store.integrity_faults() == []
    words = build.sign_in_words(store, made, now)
    for person in ("nurse", "surgeon", "patient", "/enrol?code="):
        assert person in words
    store.close()
    again = build.ensure(made, now)
    assert len(eyes.operated(again)) == len(rows)
    again.close()
