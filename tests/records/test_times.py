"""Times as text: what is kept is read back as it was, in order of time, and nothing else is taken for a time."""

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.records.times import from_text, to_text

zones = st.integers(-14 * 60, 14 * 60).map(lambda minutes: timezone(timedelta(minutes=minutes)))
kept = st.datetimes(datetime(1901, 1, 1), datetime(2199, 12, 30), timezones=zones)
# RFC 3339, with a fraction of six digits and Z, as the standard library writes and reads it by its parts.
FORMAT = "%Y-%m-%dT%H:%M:%S.%fZ"


@given(kept)
def test_a_time_is_kept_and_read_as_the_standard_writes_it(at: datetime) -> None:
    text = to_text(at)
    assert text == at.astimezone(UTC).strftime(FORMAT)
    assert from_text(text) == at == datetime.strptime(text, FORMAT).replace(tzinfo=UTC)
    assert from_text(text).utcoffset() == timedelta(0)


@given(kept, kept)
def test_text_order_is_time_order(one: datetime, other: datetime) -> None:
    assert (to_text(one) < to_text(other)) == (one < other)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "2027-03-05",
        "2027-03-05T08:00:00Z",
        "2027-03-05T08:00:00.000000+00:00",
        "2027-03-05 08:00:00.000000Z",
        "2027-13-05T08:00:00.000000Z",
        "2027-02-30T08:00:00.000000Z",
        "2027-03-05T24:30:00.000000Z",
        "2027-W10-5T08:00:00.00000Z",
        "20270305T080000.0000000000Z",
    ],
)
def test_what_is_no_time_of_ours_is_not_read_as_one(text: str) -> None:
    with pytest.raises(ValueError, match=r"time|month|day|hour|Invalid"):
        from_text(text)
