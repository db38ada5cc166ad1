"""Times as text: the quick reading and writing give what Python's own `strftime` and `strptime` give."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.records.times import from_text, to_text

FORMAT = "%Y-%m-%dT%H:%M:%S.%fZ"
ZONES = st.integers(-12 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))


@given(st.datetimes(datetime(1900, 1, 2), datetime(2200, 12, 30), timezones=ZONES))
def test_a_time_is_kept_and_read_as_strftime_and_strptime_have_it(at: datetime) -> None:
    text = to_text(at)
    assert text == at.astimezone(UTC).strftime(FORMAT)
    assert from_text(text) == at
    assert from_text(text) == datetime.strptime(text, FORMAT).replace(tzinfo=UTC)
    assert from_text(text).tzinfo is UTC


@pytest.mark.parametrize(
    "text",
    [
        "", "soon", "26-11-24", "2027-03-05", "2027-13-05T08:00:00.000000Z", "2027-03-05 08:00:00.000000Z",
        "2027-03-05T08:00:00.000+00:0Z", "2027-W09-5T08:00:00.0000000Z", "2027-03-05T08:00:00.000000+00:00",
    ],
)  # fmt: skip
def test_what_is_no_time_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"time data|must be in"):
        from_text(text)


def test_a_shorter_fraction_of_an_old_row_is_read() -> None:
    assert from_text("2027-03-05T08:00:00.5Z") == datetime(2027, 3, 5, 8, 0, 0, 500_000, UTC)
