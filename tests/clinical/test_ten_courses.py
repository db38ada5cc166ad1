"""Ten invented courses: each flagged at the right time with the right urgency, and the uneventful ones raise nothing."""

from followup.clinical.facts import Fact, Seen
from tests.courses import GAS_PLAN, OIL, at, diary, gas_course, measures, oil_course, rules, signs, symptoms, visit


# What an uneventful course looks like: common practice, no source.
def test_uneventful_gas_raises_nothing() -> None:
    facts, visits = gas_course()
    assert signs(facts, 91, visits, plan=GAS_PLAN) == []


def test_uneventful_oil_raises_nothing() -> None:
    facts, visits = oil_course()
    assert signs(facts, 120, visits, **OIL) == []


def first(facts: list[Fact], until: float, worry: str, **changes: object) -> tuple[str, object]:
    """The most urgent sign of a worry, and when it came."""
    found = sorted(
        (s for s in signs(facts, until, **changes) if s.worry == worry),
        key=lambda s: ("now", "today", "this-week").index(s.how_soon),
    )
    return found[0].how_soon, found[0].raised_at


def test_spike_on_day_1_is_for_today() -> None:
    # Bern12, table of pressures: 24 h after 20-gauge vitrectomy 23.9 % had reached 30 mmHg.
    facts, _ = gas_course(20)
    assert first([*facts, measures(1.05, iop_mmhg=34)], 20, "pressure", plan=GAS_PLAN) == ("today", at(1.05))


def test_severe_spike_on_day_1_is_for_now() -> None:
    # Bern12: severe from 40 mmHg. Within the hour: common practice, no source.
    facts, _ = gas_course(20)
    assert first([*facts, measures(1.05, iop_mmhg=44)], 20, "pressure", plan=GAS_PLAN) == ("now", at(1.05))


def test_steroid_response_in_week_3_is_for_this_week() -> None:
    # Arm67: a rise of 6 mmHg or more; onset at 2 to 6 weeks from memory.
    facts, _ = gas_course(20)
    spiked = [*facts, measures(19, iop_mmhg=26)]
    found = signs(spiked, 20, plan=GAS_PLAN)
    assert "steroid-response" in rules(found)
    assert first(spiked, 20, "pressure", plan=GAS_PLAN) == ("this-week", at(19))


def test_infection_on_day_4_is_for_now() -> None:
    # Days 1 to 5: Int J Retina Vitreous 2022, doi 10.1186/s40942-022-00435-8, and BMC Ophthalmol 2018,
    # doi 10.1186/s12886-018-0678-5. Blur 85 %, pain 78 %, redness 56 %: BOSU.
    facts, _ = gas_course(20)
    assert first(
        [*facts, symptoms(4.2, pain=7, vision="worse", redness="worse", discharge=True)], 20, "infection", plan=GAS_PLAN
    ) == ("now", at(4.2))


def test_new_detachment_in_week_3_is_for_today() -> None:
    # RD14: 73 % of failures are found in the first two months; Air23: breaks that open again, median day 18.
    facts, _ = gas_course(25)
    assert first([*facts, symptoms(20, curtain=True, vision="worse")], 25, "retina", plan=GAS_PLAN) == ("today", at(20))


def test_new_detachment_in_week_7_is_for_today_by_symptom_and_by_acuity() -> None:
    # IJRV24: detached again at a median of 4.4 (short gas) and 5.7 weeks (long gas).
    facts, _ = gas_course(50)
    assert first([*facts, symptoms(47, flashes="worse", curtain=True)], 50, "retina", plan=GAS_PLAN) == ("today", at(47))
    assert first([*facts, measures(47, acuity="HM")], 50, "retina", plan=GAS_PLAN) == ("today", at(47))


def test_bleed_in_week_2_is_for_today() -> None:
    # BMC Ophthalmol 2020, doi 10.1186/s12886-020-01532-8: 24 of 38 bleeds after diabetic surgery within 2 weeks.
    facts, _ = gas_course(20)
    assert "bleeding" in rules(signs([*facts, symptoms(12.1, floaters="worse", vision="worse")], 20, plan=GAS_PLAN))
    assert first([*facts, symptoms(12.1, floaters="worse", vision="worse")], 20, "retina", plan=GAS_PLAN) == (
        "today",
        at(12.1),
    )


def test_leak_on_day_2_is_for_today() -> None:
    # TSV25: under 6 mmHg on day 1 in 139 of 840 eyes. The same day: common practice, no source.
    facts, _ = gas_course(10)
    assert first([*facts, measures(2, iop_mmhg=4, findings=["leak"])], 10, "low-pressure", plan=GAS_PLAN) == ("today", at(2))


def test_a_missed_visit_is_raised_once_at_the_end_of_its_window() -> None:
    # Common practice, no source.
    facts, visits = gas_course(25)
    missed = [f for f in facts if not (isinstance(f, Seen) and f.visit == "week 2")]
    found = [s for s in signs(missed, 25, visits[:3], plan=GAS_PLAN) if s.worry == "missed-visit"]
    assert [(s.rule, s.how_soon, s.raised_at.isoformat()) for s in found] == [
        ("missed-visit", "this-week", "2027-03-23T00:00:00+00:00")
    ]


def test_a_silent_phone_is_raised_during_posturing_and_after() -> None:
    # 36 h, 72 h, two weeks: common practice, no source.
    found = signs([symptoms(0.2)], 20, [visit("day 1", 0, 30)], plan=GAS_PLAN)
    assert rules(found) == {"no-posture-entry", "silent-while-posturing", "silent-early", "silent-late"}
    assert [(s.how_soon, s.raised_at) for s in found if s.rule == "silent-while-posturing"] == [("this-week", at(1.7))]
    fell_silent_late = signs(diary(10.2), 20)
    assert [(s.rule, s.raised_at) for s in fell_silent_late] == [("silent-early", at(9.3 + 3))]
