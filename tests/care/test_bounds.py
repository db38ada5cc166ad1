"""What a date, a time, a text or an entry can be: the last that is taken, the first that is not, and what is said then.

Common sense, no source, where none is named.
"""

from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest

from followup.care import bounds
from tests.conftest import NOW

TODAY = date(2027, 3, 5)
LEAP = date(2024, 2, 29)


@pytest.mark.parametrize(
    ("born", "fault"),
    [
        (TODAY, None),
        (date(1900, 1, 1), None),
        (TODAY + timedelta(days=1), "the date of birth lies in the future: 6 March 2027"),
        (
            date(1899, 12, 31),
            "the date of birth is 31 December 1899; accepted is 1 January 1900 to 5 March 2027, with four digits for the year",
        ),
    ],
)
def test_somebody_was_born_between_1900_and_today(born: date, fault: str | None) -> None:
    assert bounds.birth(born, TODAY) == fault


@pytest.mark.parametrize(
    ("day", "fault"),
    [
        (TODAY, None),
        (date(1990, 1, 1), None),
        (TODAY + timedelta(days=1), "the date of surgery lies in the future: 6 March 2027"),
        (date(1989, 12, 31), "the date of surgery is 31 December 1989; accepted is 1 January 1990 to 5 March 2027"),
    ],
)
def test_surgery_was_between_1990_and_today(day: date, fault: str | None) -> None:
    said = bounds.surgery(day, TODAY)
    assert said is None if fault is None else (said or "").startswith(fault)


@pytest.mark.parametrize(
    ("day", "operated", "today", "taken"),
    [
        (TODAY, TODAY, TODAY, True),
        (TODAY - timedelta(days=1), TODAY, TODAY, False),
        (date(2030, 3, 5), TODAY, TODAY, True),
        (date(2030, 3, 6), TODAY, TODAY, False),
        (date(2032, 3, 5), TODAY, date(2031, 3, 5), True),  # still followed after years: within a year from today
        (date(2032, 3, 6), TODAY, date(2031, 3, 5), False),
        (date(2027, 2, 28), LEAP, LEAP, True),  # three years after a 29 February
        (date(2027, 3, 1), LEAP, LEAP, False),
    ],
)
def test_visits_lie_within_three_years_after_surgery_or_one_from_today(
    day: date, operated: date, today: date, taken: bool
) -> None:
    assert (bounds.after_surgery(day, operated, today, "the visit") is None) is taken


def test_an_operation_at_the_end_of_the_calendar_has_no_year_beyond_it() -> None:
    assert bounds.after_surgery(date(9999, 1, 1), date(9998, 1, 1), date(9998, 1, 1), "the visit") is None


@pytest.mark.parametrize(
    ("after", "fault"),
    [
        (timedelta(hours=26), None),
        (timedelta(hours=26, seconds=1), "still to come"),
        (datetime(1990, 1, 1, tzinfo=UTC) - NOW, None),
        (datetime(1990, 1, 1, tzinfo=UTC) - NOW - timedelta(seconds=1), "too long ago"),
    ],
)
def test_an_entry_is_of_a_time_that_a_wrong_zone_explains(after: timedelta, fault: str | None) -> None:
    said = bounds.event(NOW + after, NOW)
    assert (said is None) if fault is None else (fault in (said or ""))


@pytest.mark.parametrize(
    ("value", "taken"),
    [
        ("x" * 4000, True),
        ("x" * 4001, False),
        ("ü" * 4000, True),
        ("", True),
        ("half \ud83d a character", False),
        ("👁", True),
    ],
)
def test_a_text_is_of_whole_characters_and_no_longer_than_somebody_writes(value: str, taken: bool) -> None:
    assert (bounds.text(value) is None) is taken


def nested(depth: int) -> Any:
    return [nested(depth - 1)] if depth > 1 else []


def objects(depth: int) -> Any:
    return {"a": objects(depth - 1)} if depth > 1 else {}


@pytest.mark.parametrize(
    ("raw", "taken"),
    [
        (nested(8), True),
        (nested(9), False),
        (objects(8), True),
        (objects(9), False),
        (["x" * 4000] * 4 + ["x" * 3980], True),  # 20 000 characters as JSON
        (["x" * 4000] * 4 + ["x" * 3981], False),
        ({"a": {"b": 2**53}}, True),
        ({"a": 2**53 + 2}, False),
        ({"a": -(2**53)}, True),
        ({"a": -(2**53) - 2}, False),
        ({"a": float("inf")}, False),
        ({"a": float("nan")}, False),
        ({"a": True, "b": None}, True),
        ({"x" * 4001: 1}, False),
        (["x" * 4000] * 4, True),
        (["x" * 4000] * 5, False),
    ],
)
def test_what_a_device_sends_is_no_deeper_no_larger_and_no_longer_than_can_be_kept(raw: Any, taken: bool) -> None:
    """2**53: what every reader of JSON holds exactly (RFC 8259, section 6)."""
    assert (bounds.entry(raw) is None) is taken


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("2027-03-05T10:00:00Z", NOW),
        ("2027-03-05T11:00:00+01:00", NOW),
        ("2027-03-05T10:00:00", None),
        ("1899-12-31T23:59:59Z", None),
        ("2201-01-01T00:00:00Z", None),
        ("yesterday", None),
        (1234567890, None),
        (None, None),
        ({"at": "now"}, None),
    ],
)
def test_a_clock_says_a_time_with_its_offset_in_a_year_that_can_be(said: Any, told: datetime | None) -> None:
    assert bounds.clock(said) == told


def test_an_offset_is_kept_as_it_was_told() -> None:
    told = bounds.clock("2027-03-05T11:00:00+01:00")
    assert told is not None
    assert told.tzinfo == timezone(timedelta(hours=1))


@pytest.mark.parametrize(("day", "said"), [(TODAY, "5 March 2027"), (date(26, 11, 4), "4 November 0026")])
def test_a_year_is_said_with_four_digits(day: date, said: str) -> None:
    assert bounds.words(day) == said
