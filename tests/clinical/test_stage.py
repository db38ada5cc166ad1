"""A stage of a course: the order of its facts, and what it says at the very moment of a record."""

from datetime import timedelta

import pytest

from followup.clinical.course import Course
from followup.clinical.facts import BubbleSeen, Fact, Measures, NoGasSeen, Symptoms, in_order
from tests.courses import at, operation


@pytest.mark.parametrize(
    "pair",
    [
        (Measures(at(1), "right", iop_mmhg=20), Measures(at(1), "right", iop_mmhg=34)),
        (Symptoms(at(1), pain=2), Symptoms(at(1), pain=8)),
    ],
)
def test_two_facts_of_one_kind_and_instant_have_one_order_whichever_came_first(pair: tuple[Fact, Fact]) -> None:
    assert list(in_order(pair)) == list(in_order(pair[::-1]))


def test_no_gas_seen_holds_from_its_own_moment_and_gas_seen_ends_it_at_its_own() -> None:
    none, gas = at(20), at(22)
    stage = Course.after(operation(), facts=(NoGasSeen(none), BubbleSeen(gas, 30))).timeline(at(30))
    assert [stage.empty_at(none - timedelta(seconds=1)), stage.empty_at(none), stage.empty_at(gas)] == [False, True, False]


@pytest.mark.parametrize(("said", "since"), [(None, 0), (-3, 0), (5, 5)])
def test_a_patient_is_reached_as_now_since_that_was_said_but_never_from_before_surgery(said: int | None, since: int) -> None:
    told = Course("right", (operation(),), reached_since=None if said is None else at(said))
    assert told.timeline(at(9)).reached_since == at(since)


def test_a_stage_begins_with_its_operation_and_the_latest_stands() -> None:
    first, second = operation(), operation(at=at(40), agent="silicone-oil", percent=0)
    told = Course("right", (second, first))
    assert not told.timeline(at(0) - timedelta(seconds=1)).operated
    assert [told.timeline(at(day)).operation for day in (0, 39, 40, 90)] == [first, first, second, second]
