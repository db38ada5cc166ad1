"""The one sum the phone makes itself: the same stretches give the same hours as the clinical core, clock changes included."""

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from followup.clinical import posture
from tests.phone.conftest import Run

ZONE = "Europe/Vienna"
ORIGIN = datetime(2027, 3, 27, tzinfo=UTC)
SCRIPT = """
import { hoursOn, lastTime, spanOf } from "./patient/hours.js";

process.env.TZ = "Europe/Vienna";
const at = (iso) => new Date(iso);
"""
SUM = f"""{SCRIPT}
answer = given.map(([day, blocks]) => {{
    const [year, month, date] = day.split("-").map(Number);
    return hoursOn(blocks.map(([from, to]) => [Date.parse(from), Date.parse(to)]), new Date(year, month - 1, date, 12));
}});
"""


# (local day, stretches as UTC hours from 27 March 2027 00:00); the time-zone database has the change on 28 March at 01:00 UTC.
@pytest.mark.parametrize(
    ("day", "stretches"),
    [
        (date(2027, 3, 27), [(6, 10), (9, 11)]),
        (date(2027, 3, 27), [(9, 11), (6, 10), (7, 8)]),
        (date(2027, 3, 28), [(22, 30)]),
        (date(2027, 3, 28), [(20, 50), (25, 26)]),
        (date(2027, 3, 28), [(23, 46)]),
        (date(2027, 3, 29), [(40, 48), (47, 49.5)]),
        (date(2027, 3, 30), [(1, 2)]),
    ],
)
def test_phone_and_core_count_the_same_hours(run: Run, day: date, stretches: list[tuple[float, float]]) -> None:
    times = [(ORIGIN + timedelta(hours=a), ORIGIN + timedelta(hours=b)) for a, b in stretches]
    blocks = [posture.Block("upright", a, min(b, a + timedelta(hours=24))) for a, b in times]
    expected = posture.hours_by_day(blocks, ZoneInfo(ZONE), ORIGIN + timedelta(days=9)).get(day, 0.0)
    given = [[b.start.isoformat(), b.end.isoformat()] for b in blocks if b.end]
    assert run(SUM, [[day.isoformat(), given]]) == [pytest.approx(expected)]


@pytest.mark.parametrize(
    ("start", "end", "hours"),
    [("08:00", "11:30", 3.5), ("22:00", "06:00", 8), ("08:00", "08:00", 24), ("23:59", "00:00", 1 / 60)],
)
def test_an_end_that_is_not_after_its_start_is_on_the_day_after(run: Run, start: str, end: str, hours: float) -> None:
    span = f"{SCRIPT}\nconst [from, to] = spanOf(...given);\nanswer = (to - from) / 3600000;"
    assert run(span, ["2027-03-05", start, end]) == pytest.approx(hours)


@pytest.mark.parametrize(("shown", "day"), [("09:59", 5), ("10:00", 5), ("10:01", 4), ("23:00", 4)])
def test_a_time_of_day_is_the_last_one_that_a_clock_showed(run: Run, shown: str, day: int) -> None:
    last = f"{SCRIPT}\nanswer = lastTime(given, new Date(2027, 2, 5, 10, 0)).getDate();"
    assert run(last, shown) == day
