"""Outcome statistics against published worked examples and lifelines, scipy as second opinions."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter
from scipy.stats import binom, binomtest

from followup.clinical import outcomes
from followup.clinical.errors import OutOfRange, Unreadable

# Freireich et al., Blood 1963;21:699, table of remission in weeks under treatment (+ censored): the textbook example
# of Kaplan and Meier's estimate.
REMISSION = [6, 6, 6, 7, 10, 13, 16, 22, 23, 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35]
RELAPSED = [True] * 9 + [False] * 12


def test_kaplan_meier_matches_the_published_worked_example() -> None:
    # Collett, Modelling Survival Data in Medical Research, chapter on the Kaplan-Meier estimate (from memory).
    # Survival 0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448 at weeks 6, 7, 10, 13, 16, 22, 23.
    steps = outcomes.kaplan_meier(REMISSION, RELAPSED)
    assert [s.day for s in steps] == [6, 7, 10, 13, 16, 22, 23]
    assert [s.survival for s in steps] == pytest.approx([0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448], abs=0.0006)
    assert [s.at_risk for s in steps] == [21, 17, 15, 12, 11, 7, 6]


def test_its_interval_is_that_of_the_same_example() -> None:
    # The same remissions with Greenwood’s variance and the log-log interval: Klein, Moeschberger, Survival Analysis, 2nd edition
    # 2003, table 4.1 (standard errors 0.076, 0.087, 0.096, 0.107, 0.114, 0.128, 0.135) and formula 4.3.2; from memory.
    published = [
        (0.620, 0.952),
        (0.563, 0.923),
        (0.503, 0.889),
        (0.432, 0.849),
        (0.368, 0.805),
        (0.268, 0.747),
        (0.188, 0.680),
    ]
    for step, expected in zip(outcomes.kaplan_meier(REMISSION, RELAPSED), published, strict=True):
        assert (step.low, step.high) == pytest.approx(expected, abs=0.0006)


# Newcombe. Two-sided confidence intervals for the single proportion: comparison of seven methods. Stat Med 1998;17:857, table I,
# method 3, score without continuity correction (read second-hand, as others quote the table).
@pytest.mark.parametrize(
    ("events", "total", "low", "high"),
    [
        (81, 263, 0.2553, 0.3662),
        (15, 148, 0.0624, 0.1605),
        (0, 20, 0.0, 0.1611),
        (1, 29, 0.0061, 0.1718),
        (29, 29, 0.8830, 1.0),
    ],
)
def test_wilson_matches_the_published_worked_examples(events: int, total: int, low: float, high: float) -> None:
    found = outcomes.wilson(events, total)
    assert (found.low, found.high) == pytest.approx((low, high), abs=0.00006)


@given(st.lists(st.tuples(st.integers(1, 30), st.booleans()), min_size=2, max_size=60))
def test_kaplan_meier_and_greenwood_match_lifelines(raw: list[tuple[int, bool]]) -> None:
    days, happened = [d for d, _ in raw], [e for _, e in raw]
    steps = outcomes.kaplan_meier(days, happened)
    fitted = KaplanMeierFitter().fit(days, happened)
    interval = fitted.confidence_interval_
    assert [step.day for step in steps] == sorted({day for day, event in raw if event})
    for step in steps:
        assert step.survival == pytest.approx(float(fitted.survival_function_.loc[step.day].iloc[0]), abs=1e-9)
        if step.survival > 0:
            assert (step.low, step.high) == pytest.approx(tuple(interval.loc[step.day]), abs=1e-6)


def test_when_every_eye_failed_the_curve_ends_at_nought() -> None:
    assert outcomes.kaplan_meier([1, 2], [True, True])[-1] == outcomes.Step(2, 1, 1, 0.0, 0.0, 0.0)


# Arithmetic, no check of a method: shares as abstracts print them beside their counts, to the last printed digit.
@pytest.mark.parametrize(
    ("events", "total", "printed"),
    [
        # Essex et al. The effect of postoperative face-down positioning and of long- versus short-acting gas in macular hole
        # surgery: results of a registry-based study. Ophthalmology 2016, doi 10.1016/j.ophtha.2015.12.039: holes closed.
        (2214, 2330, "95.0"),
        (23, 254, "9.1"),  # IJRV24: detached again under long-acting gas
        (24, 246, "9.8"),  # IJRV24: under short-acting gas
        (31, 156, "19.9"),  # Sel22: raised pressure under air
        (86, 138, "62.3"),  # Sel22: raised pressure under SF6
        (50, 256, "19.5"),  # Fan17: raised pressure within the year
        (27, 512, "5.3"),  # NV13: new vessels with pressure
    ],
)
def test_a_share_is_what_the_study_prints(events: int, total: int, printed: str) -> None:
    assert f"{outcomes.wilson(events, total).proportion * 100:.1f}" == printed


@given(st.integers(1, 500), st.integers(0, 500))
def test_wilson_matches_scipy(total: int, events: int) -> None:
    events = min(events, total)
    expected = binomtest(events, total).proportion_ci(method="wilson")
    found = outcomes.wilson(events, total)
    assert (found.low, found.high) == pytest.approx((expected.low, expected.high), abs=1e-6)


@given(st.integers(1, 60), st.lists(st.tuples(st.integers(0, 12), st.integers(1, 60)), max_size=6))
def test_the_limits_of_a_month_are_scipys_binomial_tails(total: int, others: list[tuple[int, int]]) -> None:
    months = [("Jan", total // 3, total), *((f"{n}", min(events, eyes), eyes) for n, (events, eyes) in enumerate(others))]
    for (_, _, eyes), point in zip(months, outcomes.proportion_chart(months), strict=True):
        chance = binom(eyes, point.centre)
        tail = 0.00135  # beyond 3 SD: definition, the normal distribution
        high, low = round(point.high * eyes), round(point.low * eyes)
        assert chance.sf(high) <= tail < chance.sf(high - 1) or high == 0
        assert chance.cdf(low - 1) <= tail < chance.cdf(low)


def test_a_month_of_three_eyes_is_quiet_and_a_bad_month_of_twenty_is_not() -> None:
    quiet = outcomes.proportion_chart([("Jan", 1, 40), ("Feb", 1, 3), ("Mar", 1, 40), ("Apr", 0, 0)])
    assert [(c.label, c.outside) for c in quiet] == [("Jan", False), ("Feb", False), ("Mar", False)]
    chart = outcomes.proportion_chart([("Jan", 2, 20), ("Feb", 2, 20), ("Mar", 14, 20)])
    assert [c.outside for c in chart] == [False, False, True]
    assert outcomes.proportion_chart([("Jan", 0, 0)]) == []


def test_value_chart_by_its_formula() -> None:
    # Individuals chart: mean +/- 2.66 mean moving range, Montgomery, Introduction to Statistical Quality Control, chapter 6, appendix VI
    # d2 = 1.128 for pairs (from memory).
    chart = outcomes.value_chart([("a", 10), ("b", 12), ("c", 11), ("d", 30)])
    moving = (2 + 1 + 19) / 3
    assert chart[0].high == pytest.approx(15.75 + 2.66 * moving)
    assert chart[0].low == pytest.approx(15.75 - 2.66 * moving)
    assert outcomes.value_chart([("a", 1)]) == []


@pytest.mark.parametrize(("events", "total"), [(3, 2), (-1, 5), (0, 0)])
def test_no_proportion(events: int, total: int) -> None:
    with pytest.raises(OutOfRange):
        outcomes.wilson(events, total)


def test_times_and_events_come_in_pairs() -> None:
    with pytest.raises(Unreadable):
        outcomes.kaplan_meier([1, 2], [True])


@pytest.mark.parametrize("share", [0.0, 0.001, 0.1, 0.5, 0.97, 1.0])
def test_a_month_of_a_whole_region_has_limits_too(share: float) -> None:
    """More than a thousand operations in a month: against scipy's binomial distribution."""
    total = 4000
    events = round(share * total)
    (point,) = outcomes.proportion_chart([("2027-03", events, total)])
    chance = binom(total, point.centre)
    low, high = round(point.low * total), round(point.high * total)
    assert chance.cdf(low) > 0.00135 >= (chance.cdf(low - 1) if low else 0.0)
    assert chance.sf(high - 1) > 0.00135 >= (chance.sf(high) if high < total else 0.0)
