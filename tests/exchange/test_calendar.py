"""The calendar feed as another library reads it (vobject), by RFC 5545: all-day events end on the day after (3.6.1), alarms
are counted from the start (3.8.6.3), one UID stays through every change (3.8.4.7)."""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest
import vobject

from followup.exchange import calendar
from followup.records.values import Visit
from tests.conftest import NOW, ZONE

DAY = date(2027, 3, 10)


def planned(starts: time | None = None, target: date = DAY) -> Visit:
    known = {"id": "v2", "identity": "v1", "eye_id": "e", "name": "week 1", "reason": "retina", "replaces": None}
    days = {"target": target, "earliest": target, "latest": target, "starts": starts}
    stands = {"withdrawn": False, "why": "", "recorded_by": "nurse:1", "recorded_at": NOW, "entered_at": NOW}
    return Visit(**{name: value for name, value in (known | days | stands).items() if name in Visit.__dataclass_fields__})


def read(*visits: Visit) -> Any:
    made = calendar.visits(visits, "Test Eye Clinic", "+00 1 234", NOW, ZONE)
    return vobject.readOne(made.decode())


def test_a_day_without_a_time_is_a_whole_day() -> None:
    event = read(planned()).vevent
    assert (event.dtstart.value, event.dtend.value) == (DAY, DAY + timedelta(days=1))
    assert event.uid.value == "v1@followup"
    assert event.dtstamp.value == NOW


@pytest.mark.parametrize(
    ("target", "starts", "utc"),
    [
        (date(2027, 3, 10), time(9, 40), datetime(2027, 3, 10, 8, 40, tzinfo=UTC)),  # Vienna is UTC+1 in winter
        (date(2027, 7, 7), time(9, 40), datetime(2027, 7, 7, 7, 40, tzinfo=UTC)),  # and UTC+2 in summer
        (date(2027, 7, 7), time(0, 30), datetime(2027, 7, 6, 22, 30, tzinfo=UTC)),
    ],
)
def test_a_time_is_an_instant_wherever_the_phone_is(target: date, starts: time, utc: datetime) -> None:
    assert read(planned(starts, target)).vevent.dtstart.value == utc


@pytest.mark.parametrize("starts", [None, time(0, 5), time(9, 40), time(18, 0)])
def test_the_alarm_is_at_nine_on_the_day_before(starts: time | None) -> None:
    event = read(planned(starts)).vevent
    start = event.dtstart.value if starts else datetime.combine(event.dtstart.value, time(), ZONE)
    rings = (start + event.valarm.trigger.value).astimezone(ZONE)
    assert rings == datetime(2027, 3, 9, 9, 0, tzinfo=ZONE)
    assert event.valarm.action.value == "DISPLAY"


def test_it_says_where_to_call_and_nothing_clinical() -> None:
    made = calendar.visits([planned()], "Test Eye Clinic; wing B, left", "+00 1 234", NOW, ZONE)
    event = vobject.readOne(made.decode()).vevent
    assert event.summary.value == "Eye clinic visit: Test Eye Clinic; wing B, left"
    assert "+00 1 234" in event.description.value
    assert b"retina" not in made
    assert b"week 1" not in made


def test_lines_are_as_the_standard_wants_them() -> None:
    """RFC 5545 3.1: lines end with CR LF and have at most 75 octets."""
    made = calendar.visits([planned()], "A clinic of a very long name " * 9, "+00 1 234", NOW, ZONE)
    lines = made.split(b"\r\n")
    assert b"\n" not in b"".join(lines)
    assert max(map(len, lines)) <= 75


def test_an_empty_plan_is_a_calendar_too() -> None:
    assert not hasattr(read(), "vevent")
