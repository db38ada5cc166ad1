"""A lone mild sign is looked at twice before it calls; what must not wait does not. Hours and minutes: common practice, no source."""

from datetime import timedelta
from typing import Any

import pytest

from followup.clinical.callbacks import callbacks
from followup.clinical.course import Course
from followup.clinical.errors import ClinicalError
from followup.clinical.facts import Fact, Settled, Symptoms
from followup.clinical.rulebook import Rule, SecondLook
from followup.clinical.second_looks import second_looks
from followup.clinical.warnings import evaluate
from followup.protocols import book
from tests.courses import at, diary, measures, operation, signs, symptoms

URGENT = ("now", "today")
HOUR = 1 / 24


def urgent(facts: list[Fact], until: float, **changes: Any) -> list[tuple[str, str, float]]:
    """Rule, urgency and hours after day 20 of each urgent sign."""
    return [
        (s.rule, s.how_soon, round((s.raised_at - at(20)) / timedelta(hours=1), 2))
        for s in signs([*diary(19), *facts], until, **changes)
        if s.how_soon in URGENT
    ]


def asked(facts: list[Fact], until: float, **changes: Any) -> list[tuple[float, float, tuple[str, ...]]]:
    course = Course.after(operation(**changes), facts=tuple(facts))
    return [
        (round((a.asked_at - at(20)) / timedelta(hours=1), 2), round((a.due_at - at(20)) / timedelta(hours=1), 2), a.signs)
        for a in second_looks(course, book.rulebook(), at(until))
    ]


def only(day: float, **given: Any) -> Symptoms:
    return Symptoms(at(day), **given)


FLOATERS = symptoms(20, floaters="worse")


def test_a_lone_mild_sign_is_asked_back_before_anybody_is_called() -> None:
    assert urgent([FLOATERS], 20 + 3.9 * HOUR) == []
    assert asked([FLOATERS], 20) == [(0, 4, ("floaters",))]


def test_no_answer_by_then_calls() -> None:
    assert urgent([FLOATERS], 20 + 4 * HOUR) == [("floaters", "today", 4)]
    assert urgent([FLOATERS, only(20 + 4.1 * HOUR, floaters="same")], 21) == [("floaters", "today", 4)]


def test_still_there_calls_at_the_second_look() -> None:
    knock = symptoms(20, injury=True)
    assert urgent([knock, only(20 + HOUR, injury=True)], 21) == [("injury", "today", 1)]


def test_what_is_often_a_slip_is_looked_at_twice_more() -> None:
    still = only(20 + 3 * HOUR, floaters="worse")
    assert asked([FLOATERS, still], 20 + 3 * HOUR) == [(0, 4, ("floaters",)), (3, 7, ("floaters",))]
    assert urgent([FLOATERS, still], 20 + 6.9 * HOUR) == []
    assert urgent([FLOATERS, still], 21) == [("floaters", "today", 7)]
    assert urgent([FLOATERS, still, only(20 + 6 * HOUR, floaters="worse")], 21) == [("floaters", "today", 6)]
    assert urgent([FLOATERS, still, only(20 + 6 * HOUR, floaters="same")], 21) == []


def test_more_at_the_second_look_calls_at_once() -> None:
    more = only(20 + 3 * HOUR, floaters="worse", flashes="worse")
    assert ("floaters", "today", 3) in urgent([FLOATERS, more], 20 + 3 * HOUR)


@pytest.mark.parametrize("hours", [0.01, 2, 4])
def test_gone_at_the_second_look_calls_nobody(hours: float) -> None:
    assert urgent([FLOATERS, only(20 + hours * HOUR, floaters="same")], 22) == []


def test_said_again_within_minutes_is_no_second_look_yet() -> None:
    at_once = only(20 + HOUR / 60, floaters="worse")
    assert urgent([FLOATERS, at_once], 20 + 3 * HOUR) == []
    assert urgent([FLOATERS, at_once, only(20 + 2 * HOUR, floaters="same")], 22) == []
    assert urgent([FLOATERS, at_once], 21) == [("floaters", "today", 4)]


def test_an_answer_about_something_else_is_no_second_look() -> None:
    assert urgent([FLOATERS, only(20 + HOUR, redness="same")], 21) == [("floaters", "today", 4)]


def test_a_second_sign_while_the_first_waits_calls_at_once() -> None:
    assert ("bleeding", "today", 1) in urgent([FLOATERS, only(20 + HOUR, vision="worse")], 20 + HOUR)
    red = symptoms(20, redness="worse")
    assert ("infection-suspected", "now", 1) in urgent([red, only(20 + HOUR, vision="worse")], 20 + HOUR)


@pytest.mark.parametrize(
    "more",
    [{"pain": 4}, {"discharge": True}, {"fever": True}],
    ids=["pain", "discharge", "fever"],
)
def test_what_comes_beside_it_within_minutes_is_no_answer_to_the_plain_question(more: dict[str, Any]) -> None:
    both = only(20 + 5 * HOUR / 60, floaters="worse", **more)
    assert ("floaters", "today", 0.08) in urgent([FLOATERS, both], 20 + HOUR)


def test_what_was_said_more_than_a_day_ago_stands_no_longer() -> None:
    red = symptoms(20, redness="worse")
    assert "infection-suspected" in [r for r, _, _ in urgent([red, only(21, vision="worse")], 21)]
    assert "infection-suspected" not in [r for r, _, _ in urgent([red, only(21.01, vision="worse")], 21.01)]


@pytest.mark.parametrize(
    ("facts", "rule", "how_soon"),
    [
        ([symptoms(20, curtain=True)], "curtain", "today"),
        ([symptoms(20, pain=4, vomiting=True)], "pain-with-vomiting", "now"),
        ([symptoms(20, pain=7)], "severe-pain", "now"),
        ([symptoms(20, pain=7)], "pain", "today"),
        ([symptoms(20, floaters="worse", vision="worse")], "bleeding", "today"),
        ([symptoms(20, floaters="worse", flashes="worse")], "flashes-and-floaters", "today"),
        ([symptoms(20, floaters="worse", pain=4)], "floaters", "today"),
        ([symptoms(20, redness="worse", pain=4)], "infection-suspected", "now"),
        ([symptoms(20, injury=True, discharge=True)], "injury", "today"),
    ],
)
def test_dangerous_signs_and_combinations_never_wait(facts: list[Fact], rule: str, how_soon: str) -> None:
    assert (rule, how_soon, 0) in urgent(facts, 20)
    taken_back = symptoms(20 + HOUR)
    assert (rule, how_soon, 0) in urgent([*facts, taken_back], 21)


@pytest.mark.parametrize("facts", [[symptoms(20, curtain=True)], [symptoms(20, pain=5, vomiting=True)]])
def test_what_is_never_cancelled_is_not_asked_back(facts: list[Fact]) -> None:
    assert asked(facts, 21) == []


def test_fallen_sight_keeps_its_callback_whatever_is_said_later() -> None:
    facts: list[Fact] = [symptoms(20, vision="worse"), only(20 + HOUR, vision="same"), *diary(19)]
    found = callbacks(signs(facts, 21), [])
    assert [(c.how_soon, c.opened_at, c.settled_at) for c in found if c.worry == "retina"] == [("this-week", at(20), None)]


def test_fallen_sight_that_is_still_there_is_for_today_and_in_the_first_two_weeks_for_now() -> None:
    facts: list[Fact] = [symptoms(20, vision="worse"), only(20 + HOUR, vision="worse")]
    assert urgent(facts, 21) == [("vision-worse", "today", 3)]
    assert urgent([*facts, only(20 + 2 * HOUR, vision="worse")], 21) == [("vision-worse", "today", 2)]
    early = signs([symptoms(13, vision="worse"), only(13 + HOUR, vision="worse")], 13.2)
    assert ("vision-still-worse", "now", at(13 + HOUR)) in [(s.rule, s.how_soon, s.raised_at) for s in early]


def test_a_sign_that_lasts_after_settling_calls_at_the_first_look() -> None:
    looks = [only(20 + hours * HOUR, floaters="worse") for hours in (3, 6)]
    facts: list[Fact] = [FLOATERS, *looks, Settled(at(20.5), "retina")]
    found = urgent([*facts, symptoms(21, floaters="worse")], 22)
    assert found == [("floaters", "today", 6), ("floaters", "today", 24)]
    assert len(asked([*facts, symptoms(21, floaters="worse")], 22)) == 2


def test_after_it_was_gone_it_is_asked_back_anew() -> None:
    facts: list[Fact] = [FLOATERS, only(20 + HOUR, floaters="same"), symptoms(25, floaters="worse")]
    assert asked(facts, 26) == [(0, 4, ("floaters",)), (120, 124, ("floaters",))]


def test_one_question_for_the_same_signs_the_soonest() -> None:
    facts: list[Fact] = [symptoms(20, vision="worse")]
    assert asked(facts, 21, risks=frozenset({"residual-traction"})) == [(0, 2, ("vision",))]


def test_pain_is_asked_back_by_its_name_and_an_operation_ends_the_wait() -> None:
    assert asked([symptoms(20, pain=5)], 21) == [(0, 2, ("pain",))]
    again = operation(at=at(20 + HOUR), agent="none", fill_percent=0)
    course = Course("right", (operation(), again), facts=(FLOATERS,))
    assert "floaters" not in {s.rule for s in evaluate(course, book.rulebook(), at(21))}


def test_before_an_operation_and_without_the_risk_nothing_is_asked_back() -> None:
    early = symptoms(-1, floaters="worse")
    assert asked([early], 1) == []
    assert len(asked([symptoms(20, vision="worse")], 20)) == 1


def test_a_wait_may_end_after_the_days_of_its_rule() -> None:
    late = [s for s in signs([symptoms(13.95, redness="worse")], 15) if s.rule == "redness-or-discharge"]
    assert [s.raised_at for s in late] == [at(13.95 + 2 * HOUR)]
    assert late[0].values["second_look"] == "no answer"


@pytest.mark.parametrize("sign", ["vision", "redness"])
def test_the_same_answer_to_the_plain_question_is_not_yet_the_same_at_two_looks(sign: str) -> None:
    first, rule = symptoms(10, **{sign: "worse"}), f"{sign}-still-worse"

    def now(*minutes: float) -> list[float]:
        looks = [only(10 + m / 1440, **{sign: "worse"}) for m in minutes]
        return [round((s.raised_at - at(10)) / timedelta(minutes=1)) for s in signs([first, *looks], 11) if s.rule == rule]

    assert now(1) == now(14.9) == []
    assert now(15) == [15]
    assert now(1, 90) == [90]
    assert now(14, 28) == [28]


def test_fallen_sight_that_a_second_look_confirms_is_one_call_and_it_is_urgent() -> None:
    facts = [symptoms(10, vision="worse"), only(10 + 1.5 * HOUR, vision="worse")]
    (opened,) = [c for c in callbacks(signs(facts, 10.2), []) if c.worry != "silence"]
    assert (opened.how_soon, opened.due_at) == ("now", at(10 + 2.5 * HOUR))
    assert {"vision-said-worse", "vision-still-worse", "vision-worse"} <= set(opened.rules)


def test_low_pressure_after_two_weeks_calls_within_the_week_and_a_leak_the_same_day() -> None:
    late = signs([measures(20, iop_mmhg=4)], 21)
    assert {s.how_soon for s in late if s.worry == "low-pressure"} == {"this-week"}
    leaks = signs([measures(20, iop_mmhg=4, findings=["leak"])], 21)
    assert ("wound-leak", "today") in [(s.rule, s.how_soon) for s in leaks]


@pytest.mark.parametrize(
    ("check", "hours"), [("symptoms", 8.1), ("symptoms", 0.2), ("iop-at-least", 2)], ids=["late", "hasty", "measured"]
)
def test_a_second_look_that_cannot_be_is_refused(check: str, hours: float) -> None:
    threshold = {"signs": ["discharge"], "count": 1, "mmhg": 30}
    with pytest.raises(ClinicalError):
        Rule("x", check, "x", "today", "x", "CP", threshold, second_look=SecondLook("?", hours))
    Rule("x", "symptoms", "x", "today", "x", "CP", threshold, second_look=SecondLook("?", 8))


def test_only_rules_that_may_wait_have_a_second_look() -> None:
    waits = {r.id for r in book.rulebook().rules if r.second_look}
    assert waits == {
        "pain", "vomiting", "vomiting-late", "floaters", "flashes", "flashes-early", "vision-worse", "vision-worse-with-traction",
        "redness-or-discharge", "redness-or-discharge-late", "fever", "injury", "other-eye",
    }  # fmt: skip
