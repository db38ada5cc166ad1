"""Windows and booking; the least displacement against scipy's assignment solver."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from followup.clinical import schedule as s
from followup.clinical.errors import OutOfRange

DAY = date(2027, 3, 2)
RULES = [
    s.VisitRule("day 1", 1, 1, 1, "pressure"),
    s.VisitRule("gas check", 16, 13, 21, "gas", agents=("sf6",)),
    s.VisitRule("gas check", 63, 56, 72, "gas", agents=("c3f8",)),
    s.VisitRule("extra", 5, 4, 6, "risk", risks=("diabetic",)),
]


def test_windows_follow_agent_and_risk() -> None:
    plain = s.windows(RULES, DAY, "sf6")
    assert [(w.name, (w.target - DAY).days) for w in plain] == [("day 1", 1), ("gas check", 16)]
    risky = s.windows(RULES, DAY, "c3f8", {"diabetic"})
    assert [(w.name, (w.target - DAY).days) for w in risky] == [("day 1", 1), ("extra", 5), ("gas check", 63)]
    assert (risky[-1].earliest, risky[-1].latest) == (DAY + timedelta(days=56), DAY + timedelta(days=72))


def test_days_of_a_rule_follow_one_another() -> None:
    with pytest.raises(OutOfRange, match="follow one another"):
        s.VisitRule("wrong", 3, 4, 5, "")


def test_clinic_days_leave_out_weekends_closures_and_days_without_places() -> None:
    days = s.clinic_days(DAY, DAY + timedelta(days=6), {0: 3, 1: 3, 2: 0, 3: 3}, {date(2027, 3, 4)})
    assert days == {date(2027, 3, 2): 3, date(2027, 3, 8): 3}


def request(id: str, target: int, early: int = 0, late: int = 9) -> s.Request:
    return s.Request(id, *(DAY + timedelta(days=d) for d in (target, early, late)))


def test_the_batch_moves_as_little_as_possible() -> None:
    booking = s.book([request("a", 1), request("b", 1), request("c", 2)], {DAY + timedelta(days=d): 1 for d in range(5)})
    assert booking.displacement_days == 1
    assert booking.unplaced == {}
    assert len(set(booking.placed.values())) == 3


def test_no_place_is_said_with_its_reason() -> None:
    full = s.book([request("a", 1, 1, 1), request("b", 1, 1, 1), request("c", 4, 4, 4)], {DAY + timedelta(days=1): 1})
    assert len(full.placed) == 1
    assert sorted(full.unplaced.values()) == [
        "every clinic day from 2027-03-03 to 2027-03-03 is full",
        "no clinic day is open from 2027-03-06 to 2027-03-06",
    ]


def test_placing_everybody_comes_before_moving_little() -> None:
    booking = s.book(
        [request("free", 1, 0, 9), request("bound", 1, 1, 1)], {DAY + timedelta(days=1): 1, DAY + timedelta(days=9): 1}
    )
    assert booking.placed == {"bound": DAY + timedelta(days=1), "free": DAY + timedelta(days=9)}


def test_a_closing_day_moves_its_own_visits_only() -> None:
    places = {DAY + timedelta(days=d): 2 for d in range(4)}
    booked = {
        "a": DAY + timedelta(days=1),
        "b": DAY + timedelta(days=1),
        "c": DAY + timedelta(days=2),
        "d": DAY + timedelta(days=2),
    }
    requests = {id: request(id, 1) for id in booked}
    moved = s.close_day(DAY + timedelta(days=1), booked, requests, places)
    assert moved.placed == {"a": DAY, "b": DAY}
    assert moved.displacement_days == 2


@given(
    st.lists(st.tuples(st.integers(0, 9), st.integers(0, 4), st.integers(0, 4)), min_size=1, max_size=7),
    st.lists(st.integers(0, 2), min_size=10, max_size=10),
)
def test_displacement_equals_scipys_assignment(raw: list[tuple[int, int, int]], capacity: list[int]) -> None:
    requests = [request(str(n), t, max(0, t - a), t + b) for n, (t, a, b) in enumerate(raw)]
    places = {DAY + timedelta(days=d): n for d, n in enumerate(capacity) if n}
    seats = [d for d, n in places.items() for _ in range(n)]
    none = 1000.0
    cost = np.full((len(requests), len(seats) + len(requests)), none)
    for i, r in enumerate(requests):
        for j, d in enumerate(seats):
            if r.earliest <= d <= r.latest:
                cost[i, j] = abs((d - r.target).days)
    rows, columns = linear_sum_assignment(cost)
    chosen = [cost[i, j] for i, j in zip(rows, columns, strict=True)]
    booking = s.book(requests, places)
    assert len(booking.placed) == sum(x < none for x in chosen)
    assert booking.displacement_days == sum(x for x in chosen if x < none)
    for id, day in booking.placed.items():
        assert requests[int(id)].earliest <= day <= requests[int(id)].latest


@pytest.mark.parametrize(
    ("places", "booked", "within", "expected"),
    [
        ({1: 2, 2: 2}, {}, 3, 1),  # the first open day
        ({2: 2, 3: 2}, {}, 3, 2),  # tomorrow is closed
        ({1: 2, 2: 2}, {1: 2}, 3, 2),  # tomorrow is full
        ({1: 2, 2: 2}, {1: 2, 2: 3}, 3, 1),  # every day is full: one more on the first
        ({4: 2}, {}, 3, 0),  # closed throughout: today
        ({}, {}, 0, 0),  # come today: open or not
        ({0: 5, 1: 5}, {}, 0, 0),
    ],
)
def test_an_extra_visit_is_on_an_open_day_with_a_place_or_today(
    places: dict[int, int], booked: dict[int, int], within: int, expected: int
) -> None:
    """Common practice, no source."""

    def dated(days: dict[int, int]) -> dict[date, int]:
        return {DAY + timedelta(days=n): seats for n, seats in days.items()}

    assert s.extra_day(DAY, within, dated(places), dated(booked)) == DAY + timedelta(days=expected)
