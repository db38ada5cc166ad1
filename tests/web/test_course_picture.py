"""The picture of an eye: the eye before surgery and its fellow in it, the first weeks or all, nothing covering another."""

from datetime import timedelta
from typing import Any

import pytest
from flask.testing import FlaskClient

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.reading.eye import load
from followup.care.reading.measures import EnteredMeasures
from followup.care.visits import visit
from followup.care.watch.raising import check_eye
from followup.clinical.pressure import DEFAULT_BANDS
from followup.records import Store, eyes
from followup.web import charts, drawing
from tests.conftest import NOW, ZONE, Clock
from tests.pages import parsed


def measured(store: Store, nurse: Actor, eye_id: str, days: float = 0, **typed: Any) -> None:
    body = EnteredMeasures.model_validate({"eye": "right", **typed}).body()
    assert body
    visit.record_visit(Desk(store, NOW + timedelta(days=days), nurse, ZONE), eye_id, [body])


def drawn(store: Store, eye_id: str, days: float = 0, early: bool = False) -> drawing.Chart:
    eye = load(store, eye_id, ZONE)
    fellow = next(load(store, e.id, ZONE) for e in eyes.of_patient(store, eye.patient.id) if e.id != eye.id)
    return charts.course_chart(eye, NOW + timedelta(days=days), DEFAULT_BANDS, fellow, early)


def test_the_eye_before_surgery_and_the_fellow_eye_are_in_it(store: Store, nurse: Actor, eye_id: str) -> None:
    measured(store, nurse, eye_id, acuity="6/36", iop="18")
    measured(store, nurse, eye_id, eye="left", acuity="6/6", iop="14")
    acuity, pressure, *_ = drawn(store, eye_id).panels
    assert [m.words for m in acuity.before] == ["before surgery, acuity 6/60"]
    assert [m.words for m in pressure.before] == ["before surgery, pressure 15 mmHg"]
    assert [m.words for m in acuity.fellow] == ["fellow eye, acuity 6/6"]
    assert [m.words for m in pressure.fellow] == ["fellow eye, pressure 14 mmHg"]
    assert [m.label for m in acuity.marks] == ["6/36"]


def test_of_two_acuities_the_better_is_drawn_and_both_are_said(store: Store, nurse: Actor, eye_id: str) -> None:
    measured(store, nurse, eye_id, acuity="6/60", correction="unaided", pinhole="6/12")
    (mark,) = drawn(store, eye_id).panels[0].marks
    assert (mark.label, mark.words) == ("6/12", "acuity 6/60 and 6/12")


def test_values_stand_at_points_that_have_room_the_latest_first(store: Store, nurse: Actor, eye_id: str) -> None:
    for days in (0, 0.2, 30, 60):
        measured(store, nurse, eye_id, days, iop="16")
    marks = drawn(store, eye_id, 60).panels[1].marks
    assert [bool(m.label) for m in marks] == [False, True, True, True]


def test_no_sign_covers_another_and_the_most_urgent_of_a_moment_is_on_top(store: Store, nurse: Actor, eye_id: str) -> None:
    measured(store, nurse, eye_id, iop="62", pain="8", findings=("hypopyon", "detached", "leak"))
    for days in range(0, 12):
        check_eye(store, eye_id, NOW + timedelta(days=days), ZONE)
    signs = drawn(store, eye_id, 12).strips[0].marks
    assert len(signs) >= 5
    for n, one in enumerate(signs):
        for other in signs[n + 1 :]:
            assert abs(one.x - other.x) >= charts.SIGN_WIDTH - 0.01 or abs(one.y - other.y) >= charts.SIGN_ROW - 0.01
    urgent = next(m for m in signs if m.kind == "now")
    of_that_moment = [m for m in signs if m.x == urgent.x]
    assert len(of_that_moment) >= 3
    assert urgent.y == min(m.y for m in of_that_moment)


def test_the_first_weeks_alone_hold_only_what_was_then(
    as_nurse: FlaskClient, store: Store, nurse: Actor, eye_id: str, clock: Clock
) -> None:
    for days in (1, 100):
        measured(store, nurse, eye_id, days, iop="16")
    early, whole = (drawn(store, eye_id, 110, early).panels[1].marks for early in (True, False))
    assert (len(early), len(whole)) == (1, 2)
    for panel in drawn(store, eye_id, 110, early=True).panels:
        for x, _ in [(m.x, m.y) for m in panel.marks] + [point for line in panel.lines for point in line]:
            assert drawing.LEFT <= x <= drawing.WIDTH - drawing.RIGHT
    clock.pass_(days=110)
    chosen = parsed(as_nurse.get(f"/clinic/eyes/{eye_id}?weeks=early").text).one("a", aria_current="true")
    assert (chosen.words, chosen.get("href")) == ("First six weeks", f"/clinic/eyes/{eye_id}?weeks=early")


def test_a_young_eye_is_not_asked_for_its_first_weeks(as_nurse: FlaskClient, eye_id: str) -> None:
    assert "First six weeks" not in as_nurse.get(f"/clinic/eyes/{eye_id}").text


@pytest.mark.parametrize("days", [3, 200])
def test_every_day_on_the_axis_lies_in_it(store: Store, eye_id: str, days: int) -> None:
    for early in (True, False):
        ticks = drawn(store, eye_id, days, early).day_ticks
        assert 2 <= len(ticks) <= 9
        assert all(drawing.LEFT <= x <= drawing.WIDTH - drawing.RIGHT for x, _ in ticks)
