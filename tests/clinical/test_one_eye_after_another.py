"""Several operations on one eye, the eye that was not operated, and dangers that last after their callback was settled."""

from typing import Any

import pytest

from followup.clinical.acuity import read
from followup.clinical.callbacks import callbacks
from followup.clinical.course import Course
from followup.clinical.errors import Unknown
from followup.clinical.facts import Anaesthetic, BubbleSeen, Fact, Measures, NoGasSeen, Settled, TamponadeRemoved
from followup.clinical.posture import Plan
from followup.clinical.surgery import Operation
from followup.clinical.warnings import Rule, Sign, evaluate
from followup.protocols import book
from tests.courses import OIL, at, diary, measures, operation, postured, rules, signs, symptoms, visit


def fellow_signs(*facts: Fact, until: float = 90) -> list[Sign]:
    return evaluate(Course("left", facts=facts), book.rulebook(), at(until))


def of_fellow(day: float, **given: Any) -> Measures:
    typed = given.pop("acuity", None)
    findings = frozenset(given.pop("findings", ()))
    return Measures(at(day), "left", acuity=read(typed) if typed else None, findings=findings, **given)


# --- A danger that lasts calls again ---


def raised(facts: list[Fact], rule: str, until: float = 60, **changes: Any) -> list[float]:
    """The days on which that rule raised a sign."""
    return [
        round((s.raised_at - at(0)).total_seconds() / 86400, 2) for s in signs(facts, until, **changes) if s.rule == rule
    ]


def test_a_pressure_that_stays_high_after_settling_calls_again() -> None:
    high = [measures(10, iop_mmhg=38), measures(17, iop_mmhg=37)]
    assert raised([*high, *diary(20)], "pressure-spike") == [10]
    assert raised([*high, *diary(20), Settled(at(10.2), "pressure")], "pressure-spike") == [10, 17]
    assert raised([*high, *diary(20), Settled(at(10.2))], "pressure-spike") == [10, 17]


def test_settling_another_worry_changes_nothing() -> None:
    high = [measures(10, iop_mmhg=38), measures(17, iop_mmhg=37)]
    assert raised([*high, *diary(20), Settled(at(10.2), "retina")], "pressure-spike") == [10]


def test_each_curtain_after_a_settlement_calls_once() -> None:
    curtains: list[Fact] = [symptoms(d, curtain=True) for d in (20, 21, 22, 23, 24)]
    settled: list[Fact] = [Settled(at(20.1), "retina"), Settled(at(22.1), "retina")]
    assert raised([*curtains, *settled], "curtain") == [20, 21, 23]


def test_what_was_seen_before_or_as_it_was_settled_is_settled() -> None:
    same_moment = [measures(10, iop_mmhg=38), Settled(at(10), "pressure")]
    assert raised(same_moment, "pressure-spike") == [10]


def test_silence_that_lasts_after_settling_calls_again() -> None:
    assert raised([symptoms(1)], "silent-early", 13) == [4]
    assert raised([symptoms(1), Settled(at(5), "silence")], "silent-early", 13) == [4, 7]
    assert raised([symptoms(1), Settled(at(5), "silence"), symptoms(6.9)], "silent-early", 9) == [4]


def test_oil_past_its_time_calls_again_after_four_weeks() -> None:
    oil = {**OIL, "plan": None}
    assert raised([], "oil-past-removal", 300, **oil) == [183]
    assert raised([Settled(at(190), "oil")], "oil-past-removal", 300, **oil) == [183, 211]
    assert raised([Settled(at(190), "oil"), TamponadeRemoved(at(200))], "oil-past-removal", 300, **oil) == [183]


def test_callbacks_open_join_close_and_open_anew() -> None:
    facts: list[Fact] = [measures(10, iop_mmhg=34), measures(10.5, iop_mmhg=44), measures(17, iop_mmhg=37)]
    settled = Settled(at(11), "pressure")
    found = callbacks(signs([*facts, settled, *diary(20)], 20), [settled])
    assert [(c.how_soon, c.opened_at, c.settled_at) for c in found] == [("now", at(10), at(11)), ("today", at(17), None)]
    assert found[0].due_at < at(10.6)
    assert found[0].rules[0] == "pressure-spike"
    assert "pressure-severe" in found[0].rules


# --- The fellow eye ---

FELLOW_CASES = [
    ("fellow-pressure-severe", of_fellow(5, iop_mmhg=55), of_fellow(5, iop_mmhg=39)),
    ("fellow-pressure-spike", of_fellow(5, iop_mmhg=30), of_fellow(5, iop_mmhg=29)),
    ("fellow-pressure-raised", of_fellow(5, iop_mmhg=24), of_fellow(5, iop_mmhg=23)),
    ("fellow-hypotony", of_fellow(5, iop_mmhg=5), of_fellow(5, iop_mmhg=6)),
    ("fellow-severe-pain", of_fellow(5, pain=7), of_fellow(5, pain=6)),
    ("fellow-light-perception-lost", of_fellow(5, acuity="NLP"), of_fellow(5, acuity="LP")),
    ("fellow-only-light-perception", of_fellow(5, acuity="LP"), of_fellow(5, acuity="HM")),
    ("fellow-hypopyon", of_fellow(5, findings=["hypopyon"]), of_fellow(5, findings=["inflammation"])),
    ("fellow-inflammation", of_fellow(5, findings=["inflammation"]), of_fellow(5, findings=["haemorrhage"])),
    ("fellow-hard-by-finger", of_fellow(5, finger="hard"), of_fellow(5, finger="soft")),
    ("fellow-detached", of_fellow(5, findings=["detached"]), of_fellow(5, findings=["traction"])),
    ("fellow-haemorrhage", of_fellow(5, findings=["haemorrhage"]), of_fellow(5, findings=["traction"])),
    ("fellow-iris-vessels", of_fellow(5, findings=["iris-vessels"]), of_fellow(5, findings=["traction"])),
    (
        "fellow-iris-vessels-with-pressure",
        of_fellow(5, findings=["iris-vessels"], iop_mmhg=24),
        of_fellow(5, findings=["iris-vessels"], iop_mmhg=23),
    ),
]


@pytest.mark.parametrize(("rule", "fires", "quiet"), FELLOW_CASES, ids=[c[0] for c in FELLOW_CASES])
def test_the_fellow_eye_is_watched(rule: str, fires: Measures, quiet: Measures) -> None:
    assert rule in rules(fellow_signs(fires))
    assert rule not in rules(fellow_signs(quiet))


def test_sight_that_falls_in_the_fellow_eye_is_noticed() -> None:
    best, fallen = of_fellow(1, acuity="70 letters"), of_fellow(30, acuity="55 letters")
    assert "fellow-vision-fell" in rules(fellow_signs(best, fallen))
    assert "fellow-vision-fell" not in rules(fellow_signs(best, of_fellow(30, acuity="56 letters")))


def test_every_fellow_rule_is_in_these_tests() -> None:
    tested = {c[0] for c in FELLOW_CASES} | {"fellow-vision-fell"}
    assert tested == {r.id for r in book.rulebook().rules if r.eyes == "fellow"}


def test_a_fellow_eye_known_to_be_blind_calls_once() -> None:
    blind = [of_fellow(d, acuity="NLP") for d in (1, 8, 30)]
    found = [
        s.raised_at for s in fellow_signs(*blind, Settled(at(2), "other-eye")) if s.rule == "fellow-light-perception-lost"
    ]
    assert found == [at(1)]
    lost = [of_fellow(1, acuity="LP"), of_fellow(8, acuity="NLP")]
    found = [
        s.raised_at for s in fellow_signs(*lost, Settled(at(2), "other-eye")) if s.rule == "fellow-light-perception-lost"
    ]
    assert found == [at(8)]


def test_a_quiet_fellow_eye_raises_nothing_and_needs_no_visits_or_entries() -> None:
    assert fellow_signs(of_fellow(1, acuity="6/9", iop_mmhg=16), of_fellow(40, acuity="6/9", iop_mmhg=17)) == []


def test_rules_of_the_operated_eye_leave_the_fellow_alone_and_the_other_way_round() -> None:
    raised = [s.rule for s in fellow_signs(of_fellow(5, iop_mmhg=55))]
    assert "fellow-pressure-severe" in raised
    assert all(rule.startswith("fellow-") for rule in raised)
    assert signs([of_fellow(5, iop_mmhg=55), *diary(6)], 6) == []
    assert not [s for s in signs([measures(5, iop_mmhg=55), *diary(6)], 6) if s.rule.startswith("fellow-")]


def test_a_fellow_rule_must_be_able_to_look_at_an_eye_without_an_operation() -> None:
    with pytest.raises(Unknown, match="operated eye"):
        Rule("x", "silence", "x", "now", "x", "CP", {"hours": 1}, eyes="fellow")


# --- One operation after another ---


def test_a_second_operation_begins_its_own_days_and_forecast() -> None:
    gas, oil = operation(), operation(at=at(30), agent="silicone-oil", percent=0, steroid_drops_until=None)
    course = Course("right", (gas, oil), facts=(measures(29, bubble_percent=20), measures(31, iop_mmhg=18)))
    first, second = course.timelines(at(60))[1:]
    assert (first.operation, second.operation) == (gas, oil)
    assert [m.at for m in first.measures] == [at(29)]
    assert [m.at for m in second.measures] == [at(31)]
    assert second.forecasts[-1][1].agent.moves == "floats"
    overdue = evaluate(course, book.rulebook(), at(30 + 184))
    assert [s.raised_at for s in overdue if s.rule == "oil-past-removal"] == [at(30 + 183)]


def test_oil_taken_out_by_a_second_operation_is_not_overdue() -> None:
    oil = operation(agent="silicone-oil", percent=0)
    out = operation(at=at(120), agent="none", percent=0, fill_percent=0)
    found = evaluate(Course("right", (oil, out), facts=tuple(diary(200, 3))), book.rulebook(), at(200))
    assert "oil-past-removal" not in rules(found)


def test_gas_put_in_anew_brings_its_cautions_back() -> None:
    gas, again = operation(), operation(at=at(60), agent="sf6", percent=20)
    facts = (NoGasSeen(at(40)), Anaesthetic(at(50)), Anaesthetic(at(61)))
    found = evaluate(Course("right", (gas, again), facts=facts), book.rulebook(), at(62))
    assert [s.raised_at for s in found if s.rule == "nitrous-oxide-with-gas"] == [at(61)]


def test_a_posture_plan_ends_with_the_next_operation() -> None:
    gas, again = operation(plan=Plan("face-down", 12, 10)), operation(at=at(3.1), plan=None)
    facts = (*diary(12), postured(1), postured(2))

    def missed(*operations: Operation) -> list[str]:
        found = evaluate(Course("right", operations, facts=facts), book.rulebook(), at(12))
        return [s.values["date"] for s in found if s.rule == "no-posture-entry"]

    assert missed(gas) == ["2027-03-05"]
    assert missed(gas, again) == []


def test_a_visit_counts_in_the_stage_in_which_its_time_runs_out() -> None:
    gas, again = operation(), operation(at=at(20))
    course = Course("right", (gas, again), (visit("week 1", 8), visit("day 1", 21)), tuple(diary(40, 2)))
    found = [(s.rule, s.values["visit"]) for s in evaluate(course, book.rulebook(), at(40)) if s.worry == "missed-visit"]
    assert found == [("missed-early-visit", "week 1"), ("missed-early-visit", "day 1")]


def test_what_was_measured_before_the_first_operation_is_judged_as_an_eye_not_operated() -> None:
    course = Course("right", (operation(),), facts=(measures(-5, iop_mmhg=42), *diary(2)))
    assert [s.rule for s in evaluate(course, book.rulebook(), at(2)) if s.raised_at == at(-5)] == [
        "fellow-pressure-severe",
        "fellow-pressure-spike",
        "fellow-pressure-raised",
    ]


def test_an_operation_on_the_other_eye_is_no_part_of_this_course() -> None:
    with pytest.raises(Unknown, match="eye of an operation"):
        Course("left", (operation(),))


# --- No gas seen, and gas seen again ---


@pytest.mark.parametrize(
    ("later", "stands"),
    [
        ([], False),
        ([measures(41, bubble_percent=85)], True),
        ([measures(41, bubble_percent=0)], False),
        ([BubbleSeen(at(41), 10)], True),
        ([measures(41, bubble_percent=85), NoGasSeen(at(45))], False),
        ([measures(39, bubble_percent=5)], False),
        ([of_fellow(41, bubble_percent=85)], False),
    ],
)
def test_gas_seen_later_revokes_no_gas_seen(later: list[Fact], stands: bool) -> None:
    facts: list[Fact] = [NoGasSeen(at(40)), Anaesthetic(at(50)), *later]
    assert ("nitrous-oxide-with-gas" in rules(signs(facts, 51))) is stands


def test_gas_seen_again_is_told_each_time() -> None:
    facts: list[Fact] = [
        NoGasSeen(at(40)),
        measures(41, bubble_percent=5),
        NoGasSeen(at(45)),
        measures(46, bubble_percent=5),
    ]
    assert raised([*facts, *diary(50)], "gas-after-no-gas") == [41, 46]
