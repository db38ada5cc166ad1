"""Edges of the core's comparisons, each where one step decides. By definition of the function beside each; no outside source."""

from datetime import date, timedelta

import pytest

from followup.clinical import acuity, altitude, outcomes, posture, schedule
from followup.clinical.callbacks import callbacks
from followup.clinical.course import Course
from followup.clinical.facts import Fact, Heard, Settled, TamponadeRemoved
from followup.clinical.warnings import Sign
from tests.courses import OIL, OPERATED, at, measures, operation, rules, signs, symptoms

HOUR = 1 / 24


def sign(day: float, how_soon: str, rule: str = "x") -> Sign:
    return Sign("right", rule, "pressure", how_soon, at(day), 1.0, {}, {}, "CP", "x")  # type: ignore[arg-type]


@pytest.mark.parametrize(("how_soon", "hours"), [("now", 1), ("today", 8), ("this-week", 120)])
def test_a_callback_is_due_within_its_urgency(how_soon: str, hours: float) -> None:
    assert [c.due_at for c in callbacks([sign(1, how_soon)], [])] == [at(1) + timedelta(hours=hours)]


def test_a_more_urgent_sign_never_puts_a_callback_off() -> None:
    late, early = (callbacks([sign(1, "this-week"), sign(day, "today", "y")], [])[0] for day in (5.9, 2))
    assert (late.due_at, late.how_soon) == (at(6), "today")
    assert early.due_at == at(2) + timedelta(hours=8)
    assert early.rules == ("x", "y")


def test_a_less_urgent_sign_changes_neither_time_nor_urgency() -> None:
    found = callbacks([sign(1, "today"), sign(1.1, "this-week", "y")], [])[0]
    assert (found.how_soon, found.due_at) == ("today", at(1) + timedelta(hours=8))


def test_silence_is_counted_once_from_the_moment_of_surgery_though_something_was_heard_in_it() -> None:
    stage = Course.after(operation(), facts=(Heard(OPERATED), Heard(at(1)))).timeline(at(3))
    assert stage.silences == [(OPERATED, 24.0), (at(1), 48.0)]


def test_silence_is_raised_at_its_very_deadline_and_again_at_the_next() -> None:
    assert [s.rule for s in signs([], 3)] == ["silent-early"]
    assert "silent-early" in rules(signs([Heard(at(3))], 3))
    settled: list[Fact] = [Settled(at(4), "silence")]
    assert [s.raised_at for s in signs(settled, 6) if s.rule == "silent-early"] == [at(3), at(6)]
    assert [s.raised_at for s in signs(settled, 5.99) if s.rule == "silent-early"] == [at(3)]


def test_what_is_settled_as_it_is_raised_calls_again_while_it_lasts() -> None:
    facts: list[Fact] = [measures(10, iop_mmhg=38), Settled(at(10), "pressure"), measures(17, iop_mmhg=37)]
    assert [s.raised_at for s in signs(facts, 20) if s.rule == "pressure-spike"] == [at(10), at(17)]


def test_oil_left_behind_is_no_gas_seen_again() -> None:
    facts: list[Fact] = [TamponadeRemoved(at(40)), measures(41, bubble_percent=10)]
    assert "gas-after-no-gas" not in rules(signs(facts, 42, **OIL))
    assert "gas-after-no-gas" in rules(signs(facts, 42))


@pytest.mark.parametrize(("day", "told"), [(42, True), (42.01, False)])
def test_a_steroid_response_is_told_for_two_weeks_after_the_drops(day: float, told: bool) -> None:
    assert ("steroid-response" in rules(signs([measures(day, iop_mmhg=28)], 50))) is told


def test_worse_pain_is_told_again() -> None:
    facts = [symptoms(2, pain=7), symptoms(2.5, pain=7), symptoms(3, pain=9)]
    assert [s.raised_at for s in signs(facts, 4) if s.rule == "severe-pain"] == [at(2), at(3)]


@pytest.mark.parametrize(("hours", "still"), [(30, True), (30.01, False)])
def test_two_looks_belong_together_for_thirty_hours(hours: float, still: bool) -> None:
    facts = [symptoms(5, vision="worse"), symptoms(5 + hours * HOUR, vision="worse")]
    assert ("vision-still-worse" in rules(signs(facts, 8))) is still


def test_what_is_recorded_as_the_operation_ends_belongs_to_it() -> None:
    assert "pressure-severe" in rules(signs([measures(0, iop_mmhg=44)], 0.1))


def test_going_home_and_staying_there_is_no_climb() -> None:
    assert altitude.journey((20, 20), 790) == altitude.Journey(790, 790, 0.0, 1.0)
    assert altitude.journey((20,), 790).climb_metres == 0
    assert altitude.journey((20, 300), 790).climb_metres == 280
    assert altitude.journey((20, 900), 790).from_metres == 20


def test_the_table_for_typing_reaches_better_than_zero() -> None:
    assert acuity.table()["logmar:-0.3"][0] == -0.3


def test_a_point_on_its_limit_is_inside() -> None:
    assert not outcomes.ChartPoint("x", 0.1, 0.2, 0.1, 0.3).outside
    assert not outcomes.ChartPoint("x", 0.3, 0.2, 0.1, 0.3).outside
    assert outcomes.ChartPoint("x", 0.31, 0.2, 0.1, 0.3).outside


def test_a_stretch_may_be_as_short_as_nothing() -> None:
    assert posture.Block("face-down", OPERATED, OPERATED).end == OPERATED


def test_a_day_without_places_is_not_open() -> None:
    day = date(2027, 3, 3)
    booking = schedule.book([schedule.Request("a", day, day, day)], {day: 0})
    assert booking.unplaced == {"a": "no clinic day is open from 2027-03-03 to 2027-03-03"}
