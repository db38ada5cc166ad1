"""Hours of posturing: overlaps, midnights, clock changes (the time-zone database is the outside check)."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import posture as p
from followup.clinical.errors import OutOfRange, Unknown

VIENNA = ZoneInfo("Europe/Vienna")
NOW = datetime(2027, 3, 10, 12, tzinfo=UTC)


def block(start: str, end: str | None, position: str = "face-down") -> p.Block:
    return p.Block(position, datetime.fromisoformat(start), datetime.fromisoformat(end) if end else None)


def test_overlaps_count_once() -> None:
    blocks = [
        block("2027-03-05T08:00Z", "2027-03-05T10:00Z"),
        block("2027-03-05T09:00Z", "2027-03-05T11:30Z"),
        block("2027-03-05T09:30Z", "2027-03-05T09:40Z"),
    ]
    assert p.hours_by_day(blocks, UTC, NOW) == {date(2027, 3, 5): 3.5}


def test_midnight_splits_by_the_local_day() -> None:
    blocks = [block("2027-03-05T22:00Z", "2027-03-06T02:00Z")]
    assert p.hours_by_day(blocks, VIENNA, NOW) == {date(2027, 3, 5): 1.0, date(2027, 3, 6): 3.0}


# European summer time starts on 28 March 2027 at 01:00 UTC and ends on 31 October 2027 (time-zone database).
@pytest.mark.parametrize(
    ("day", "hours"), [(date(2027, 3, 28), 23.0), (date(2027, 10, 31), 25.0), (date(2027, 3, 27), 24.0)]
)
def test_days_with_a_clock_change_have_their_length(day: date, hours: float) -> None:
    start = datetime.combine(day - timedelta(days=1), datetime.min.time(), UTC)
    blocks = [p.Block("upright", start + timedelta(hours=12 * n), start + timedelta(hours=12 * (n + 1))) for n in range(6)]
    assert p.hours_by_day(blocks, VIENNA, start + timedelta(days=4))[day] == pytest.approx(hours)


def test_an_open_block_runs_to_now_at_most_twelve_hours() -> None:
    # Twelve hours: common practice, no source.
    assert p.hours_by_day([block("2027-03-10T10:00Z", None)], UTC, NOW) == {date(2027, 3, 10): 2.0}
    assert sum(p.hours_by_day([block("2027-03-08T10:00Z", None)], UTC, NOW).values()) == 12


def test_only_the_planned_position_counts_and_nothing_after_now() -> None:
    blocks = [
        block("2027-03-10T08:00Z", "2027-03-10T09:00Z", "upright"),
        block("2027-03-10T11:00Z", "2027-03-10T14:00Z"),
        block("2027-03-11T08:00Z", None),
    ]
    assert p.hours_by_day(blocks, UTC, NOW, "face-down") == {date(2027, 3, 10): 1.0}


def test_adherence_by_day_with_named_gaps() -> None:
    plan = p.Plan("face-down", 8, 4)
    operated = datetime(2027, 3, 8, 14, tzinfo=UTC)
    blocks = [block("2027-03-09T07:00Z", "2027-03-09T13:00Z"), block("2027-03-10T09:00Z", None)]
    days = p.adherence(plan, blocks, operated, UTC, NOW)
    assert [(d.day.day, d.hours, d.target_hours) for d in days] == [(8, 0.0, 0.0), (9, 6.0, 8), (10, 3.0, 8)]
    assert [d.share for d in days] == [1.0, 0.75, 0.375]
    assert [d.still_running for d in days] == [False, False, True]
    gaps = p.gaps("face-down", blocks, date(2027, 3, 9), UTC, NOW)
    assert [(g.start.hour, g.end.hour, g.hours) for g in gaps] == [(13, 22, 9.0)]
    assert p.gaps("face-down", blocks, date(2027, 3, 10), UTC, NOW) == []


def test_two_waking_hours_make_a_gap_and_less_does_not() -> None:
    # Common practice, no source.
    blocks = [block("2027-03-09T09:59Z", "2027-03-09T20:00Z")]
    gaps = p.gaps("face-down", blocks, date(2027, 3, 9), UTC, NOW)
    assert [(g.start.hour, g.hours) for g in gaps] == [(20, 2.0)]


def test_the_trial_of_eight_hours_for_five_days_fits_the_plan() -> None:
    # PIMS (JAMA Ophthalmol 2020;138:725): 8 hours a day for 5 days.
    plan = p.Plan("face-down", p.TRIAL_HOURS.value, 5)
    assert plan.hours_a_day == 8
    assert p.plan_days(plan, datetime(2027, 3, 2, 23, 30, tzinfo=UTC), VIENNA) == [
        date(2027, 3, 3) + timedelta(days=n) for n in range(5)
    ]


def test_cycle_is_fifty_minutes_and_ten() -> None:
    # "50 minutes in the hour": common practice, no source.
    assert (p.CYCLE_MINUTES.value, p.BREAK_MINUTES.value) == (50, 10)


@pytest.mark.parametrize(
    ("call", "error"),
    [
        (lambda: block("2027-03-05T10:00Z", "2027-03-05T09:00Z"), OutOfRange),
        (lambda: block("2027-03-05T10:00Z", "2027-03-06T10:01Z"), OutOfRange),
        (lambda: block("2027-03-05T10:00Z", None, "sideways"), Unknown),
        (lambda: p.Plan("face-down", 25, 3), OutOfRange),
        (lambda: p.Plan("face-down", 8, 61), OutOfRange),
    ],
)
def test_what_cannot_be_is_refused(call: object, error: type) -> None:
    with pytest.raises(error):
        call()  # type: ignore[operator]


spans = st.lists(st.tuples(st.integers(0, 3000), st.integers(1, 1400)), max_size=12)


@given(spans, st.randoms())
def test_hours_equal_minutes_counted_one_by_one(raw: list[tuple[int, int]], random: object) -> None:
    # Second opinion: mark every minute of the week.
    start = datetime(2027, 3, 3, tzinfo=UTC)
    blocks = [p.Block("upright", start + timedelta(minutes=a), start + timedelta(minutes=a + n)) for a, n in raw]
    minutes = {m for a, n in raw for m in range(a, a + n)}
    random.shuffle(blocks)  # type: ignore[attr-defined]
    assert sum(p.hours_by_day(blocks, VIENNA, NOW + timedelta(days=9)).values()) == pytest.approx(len(minutes) / 60)


@pytest.mark.parametrize(
    ("clock", "hours", "expected"),
    [("08:00", 0, False), ("15:00", 5.9, True), ("15:00", 6.1, False), ("22:00", 11.9, True), ("23:30", 12.1, False)],
)
def test_behind_is_less_than_the_share_of_the_waking_day(clock: str, hours: float, expected: bool) -> None:
    """Waking from 8 to 22: at 15:00 half of twelve hours. Common practice, no source."""
    now = datetime.combine(date(2027, 3, 4), time.fromisoformat(clock), VIENNA)
    done = [p.Block("face-down", now - timedelta(hours=hours), now)] if hours else []
    assert p.behind(p.Plan("face-down", 12, 5), done, VIENNA, now) is expected
    assert p.behind(p.Plan("face-down", 12, 5), [p.Block("upright", b.start, b.end) for b in done], VIENNA, now) is (
        clock > "08:00"
    )
