"""The picture of an eye: up is more pressure, more gas, more hours, and better sight; the days run to the right."""

from datetime import date, datetime, timedelta
from itertools import pairwise

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.reading.eye import load
from followup.care.visits import diary, visit
from followup.clinical.pressure import DEFAULT_BANDS
from followup.records import Store
from followup.records.bodies.clinic import MeasuresBody
from followup.web.charts import Chart, Panel, course_chart, day_ticks
from tests.conftest import NOW, OPERATED, ZONE

DAY = timedelta(days=1)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


def measured(desk: Desk, eye_id: str, at: datetime, **what: object) -> None:
    body = MeasuresBody.model_validate({"eye": "right", "instrument": "applanation", "correction": "unaided"} | what)
    visit.record_visit(Desk(desk.store, at, desk.actor, ZONE), eye_id, [body])


def chart(desk: Desk, eye_id: str, now: datetime = NOW) -> Chart:
    return course_chart(load(desk.store, eye_id, ZONE), now, DEFAULT_BANDS)


def panel(found: Chart, title: str) -> Panel:
    return next(p for p in found.panels if p.title.startswith(title))


def test_better_sight_stands_higher(desk: Desk, eye_id: str) -> None:
    for n, typed in enumerate(["NLP", "LP", "HM", "CF", "6/60", "6/24", "6/12", "6/6", "6/4"]):
        measured(desk, eye_id, NOW + n * timedelta(hours=1), acuity=typed)
    found = panel(chart(desk, eye_id, NOW + DAY), "Acuity")
    heights = [mark.y for mark in found.marks]
    assert heights == sorted(heights, reverse=True)  # y grows downward in SVG
    assert len(set(heights)) == len(heights)
    assert found.top <= min(heights) < max(heights) <= found.bottom


@pytest.mark.parametrize(
    ("title", "field", "values"), [("Pressure", "iop_mmhg", [4, 15, 34, 60]), ("Bubble", "bubble_percent", [0, 20, 95])]
)
def test_more_stands_higher(desk: Desk, eye_id: str, title: str, field: str, values: list[float]) -> None:
    for n, value in enumerate(values):
        measured(desk, eye_id, NOW + n * timedelta(hours=1), **{field: value})
    found = panel(chart(desk, eye_id, NOW + DAY), title)
    heights = [mark.y for mark in found.marks]
    assert heights == sorted(heights, reverse=True)
    assert found.top <= heights[-1] < heights[0] <= found.bottom
    assert [y for y, _ in found.ticks] == sorted((y for y, _ in found.ticks), reverse=True)


def test_the_high_band_of_pressure_lies_above_the_normal_one(desk: Desk, eye_id: str) -> None:
    bands = {kind: (y, y + height) for y, height, kind in panel(chart(desk, eye_id), "Pressure").bands}
    assert bands["high"][1] <= bands["normal"][0] < bands["normal"][1] <= bands["low"][0]


def test_hours_of_posture_rise_from_the_ground(desk: Desk, eye_id: str) -> None:
    for day, hours in ((date(2027, 3, 3), 4.0), (date(2027, 3, 4), 12.0)):
        diary.enter(desk, eye_id, day, {}, hours)
    found = panel(chart(desk, eye_id), "Posture")
    (short, _, _), (long, _, _) = [(height, y, x) for x, y, _, height, _ in found.bars]
    assert long == pytest.approx(3 * short, abs=0.2)
    assert all(y + height == pytest.approx(found.bottom, abs=0.2) for _, y, _, height, _ in found.bars)


def test_days_run_to_the_right_and_the_operation_is_the_first(desk: Desk, eye_id: str) -> None:
    measured(desk, eye_id, OPERATED + DAY, iop_mmhg=15)
    measured(desk, eye_id, OPERATED + 2 * DAY, iop_mmhg=15)
    found = chart(desk, eye_id)
    first, second = (mark.x for mark in panel(found, "Pressure").marks)
    ((operated, _),) = found.operations
    assert found.left == operated < first < second < found.now_x < found.right


def test_of_one_moment_s_signs_the_most_urgent_comes_first_and_none_covers_another(desk: Desk, eye_id: str) -> None:
    measured(desk, eye_id, NOW, iop_mmhg=62, pain=8)
    signs = next(strip for strip in chart(desk, eye_id).strips if strip.title == "signs")
    latest = max(mark.x for mark in signs.marks)
    kinds = [mark.kind for mark in signs.marks if mark.x == latest]
    assert len(set(kinds)) > 1
    assert kinds == sorted(kinds, key=["now", "today", "this-week"].index)
    assert len({(mark.x, mark.y) for mark in signs.marks}) == len(signs.marks)


@pytest.mark.parametrize("last", [14, 15, 40, 90, 200, 400, 3000])
def test_there_are_few_marks_of_days_and_they_are_even(last: int) -> None:
    found = day_ticks(last)
    assert 2 <= len(found) <= 9
    assert len({b - a for a, b in pairwise(found)}) == 1
