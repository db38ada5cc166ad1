"""The one sum the phone makes itself: the same stretches give the same hours as the clinical core, clock changes included."""

from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from playwright.sync_api import BrowserContext

from followup.clinical import posture
from tests.browser.conftest import PHONE, RunningServer

ZONE = "Europe/Vienna"
# (local day, stretches as UTC hours from 27 March 2027 00:00); the time-zone database has the change on 28 March at 01:00 UTC.
VECTORS = [
    (date(2027, 3, 27), [(6, 10), (9, 11)]),
    (date(2027, 3, 28), [(22, 30)]),
    (date(2027, 3, 28), [(20, 50), (25, 26)]),
    (date(2027, 3, 28), [(23, 46)]),
    (date(2027, 3, 29), [(40, 48), (47, 49.5)]),
    (date(2027, 3, 30), [(1, 2)]),
]
SUM = """async ([day, blocks]) => {
    const { hoursOn } = await import("/static/patient/hours.js");
    const [year, month, date] = day.split("-").map(Number);
    return hoursOn(blocks.map(([from, to]) => [Date.parse(from), Date.parse(to)]), new Date(year, month - 1, date, 12));
}"""


def test_phone_and_core_count_the_same_hours(open_context: Callable[..., BrowserContext], server: RunningServer) -> None:
    page = open_context(**PHONE, timezone_id=ZONE).new_page()
    page.goto(f"{server.address}/me/")
    origin = datetime(2027, 3, 27, tzinfo=UTC)
    for day, stretches in VECTORS:
        times = [(origin + timedelta(hours=a), origin + timedelta(hours=b)) for a, b in stretches]
        blocks = [posture.Block("upright", a, min(b, a + timedelta(hours=24))) for a, b in times]
        expected = posture.hours_by_day(blocks, ZoneInfo(ZONE), origin + timedelta(days=9)).get(day, 0.0)
        given = [[b.start.isoformat(), b.end.isoformat()] for b in blocks if b.end]
        assert abs(page.evaluate(SUM, [day.isoformat(), given]) - expected) < 1e-6, (day, stretches)
