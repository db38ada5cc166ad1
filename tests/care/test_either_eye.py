"""Whatever is measured on either eye is judged, whichever page it was entered on."""

from datetime import timedelta

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.visits.visit import record_visit
from followup.config import Settings
from followup.records import Store, worries
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import NOW, OPERATED, operation_note, patient_details


@pytest.fixture
def left_operation(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> str:
    """The same patient's left eye, operated too."""
    note = operation_note(eye="left", agent="silicone-oil", percent=0, operated_at=OPERATED + timedelta(days=1))
    return leaving.discharge(Desk(store, NOW, nurse, settings.clinic.tz), patient_details(), note, [])[0]


def enter_left(store: Store, nurse: Actor, on_page_of: str, settings: Settings, **values: object) -> set[str]:
    body = MeasuresBody.model_validate({"eye": "left", **values})
    return {w.rule for w in record_visit(Desk(store, NOW, nurse, settings.clinic.tz), on_page_of, [body])}


def test_the_fellow_eye_that_was_not_operated_is_judged(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    raised = enter_left(store, nurse, eye_id, settings, acuity="NLP", iop_mmhg=55)
    assert {"fellow-pressure-severe", "fellow-light-perception-lost"} <= raised
    urgent = [c.worry for c in worries.open_callbacks(store) if c.how_soon == "now"]
    assert urgent == ["other-eye"]


def test_a_pressure_of_the_second_operated_eye_on_the_first_ones_page_is_judged(
    store: Store, nurse: Actor, eye_id: str, left_operation: str, settings: Settings
) -> None:
    raised = enter_left(store, nurse, eye_id, settings, iop_mmhg=45)
    assert "pressure-severe" in raised
    assert not {rule for rule in raised if rule.startswith("fellow-")}
    urgent = [c for c in worries.open_callbacks(store) if c.how_soon == "now"]
    assert [(c.eye_id, c.worry) for c in urgent] == [(left_operation, "pressure")]
