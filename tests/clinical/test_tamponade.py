"""Fading gas against published durations; the update against draws and numpy. Real eyes: test_real_eyes.py."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from followup.clinical import agents, bubble, forecasts, seen_levels
from followup.clinical import tamponade as t
from followup.clinical.coverage import Break, cover
from followup.clinical.durations import compared
from followup.clinical.errors import OutOfRange, Unknown

STANDARD = {"air": 100, "sf6": 20, "c2f6": 16, "c3f8": 14}


# Published days of disappearance: RCO18 and IJRV24. The model's middle day lies inside, with one cut for all.
@pytest.mark.parametrize(("agent", "low", "high"), [("air", 5, 7), ("sf6", 10, 14), ("c2f6", 28, 42), ("c3f8", 56, 70)])
def test_gone_falls_into_the_published_range(agent: str, low: float, high: float) -> None:
    gone = t.forecast(agent, STANDARD[agent], 95, "phakic").gone
    assert gone is not None
    assert low <= gone.median <= high
    assert gone.low < low
    assert gone.high > high
    assert [f.value for f in agents.AGENTS[agent].published_gone] == [low, high]


def test_every_published_duration_lies_in_the_interval() -> None:
    # The sources stand beside each: RCO18, IJRV24, NZCAA, Rah12, Han93, Bah16, Sel22, GD, SR20, Th89, Th92.
    rows = compared()
    for row in rows:
        at_least = 85 if row.published.kind == "mean ± 1.96 SD" else 100
        assert row.held_percent >= at_least, row
    assert {row.published.agent for row in rows} == set(agents.GASES)
    # Where no spread is published, the row says so.
    assert all((row.published.kind == "mean only") == (row.published.low == row.published.high) for row in rows)


# Definition: from nine tenths to one tenth of the start a first-order course halves log2(9) = 3.17 times.
@pytest.mark.parametrize("side", ["low", "median", "high"])
def test_a_first_order_half_life_is_read_between_nine_tenths_and_one_tenth_of_the_start(side: str) -> None:
    rows = [row for row in compared() if row.published.what == "first-order half-life"]
    assert len(rows) == 7
    for row in rows:
        eye = t.forecast(row.published.agent, row.published.percent, 95, row.published.lens)
        first, last = (getattr(eye.day_below(fill), side) for fill in (0.9 * 95, 0.1 * 95))
        assert getattr(row.forecast, side) * math.log2(9) == pytest.approx(last - first)


# Han93, 15 and 15 eyes at random: C3F8 20 % stays 58.8 / 46.9 = 1.25 times as long as 12 %.
def test_stronger_mixes_last_longer() -> None:
    assert agents.life_days("c3f8", 20) / agents.life_days("c3f8", 12) == pytest.approx(58.8 / 46.9, rel=0.04)
    assert agents.life_days("c3f8", 60) == agents.life_days("c3f8", 25)  # not measured beyond: held, and less certain
    assert agents.life_days("sf6", 100) == agents.life_days("sf6", 25)
    interval = [t.forecast("c3f8", percent, 50).gone for percent in (25, 26)]
    assert interval[1].high - interval[1].low > interval[0].high - interval[0].low  # type: ignore[union-attr]


# Th89: aphakic against phakic 0.9 / 1.6 days (air), 2.4 / 2.8 (SF6 20 %); C3F8 10 %: 4.5 and pseudophakic 4.3 of 5.7.
@pytest.mark.parametrize(
    ("agent", "lens", "ratio"),
    [
        ("air", "aphakic", 0.9 / 1.6),
        ("sf6", "aphakic", 2.4 / 2.8),
        ("c3f8", "aphakic", 4.5 / 5.7),
        ("c3f8", "pseudophakic", 4.3 / 5.7),
    ],
)
def test_lens_factors(agent: str, lens: str, ratio: float) -> None:
    percent = STANDARD[agent]
    assert agents.life_days(agent, percent, lens) / agents.life_days(agent, percent, "phakic") == pytest.approx(ratio)
    assert agents.life_days(agent, percent, "unknown") == agents.life_days(agent, percent, "phakic")


def test_the_start_is_what_the_surgeon_estimates_and_uncertain() -> None:
    # Can20: 364 of 445 eyes held 80 % or more on day 1 (82 %); 11 of the 16 eyes of Mey92.
    for agent, percent in STANDARD.items():
        assert t.forecast(agent, percent, 90).at(0).fill_percent == pytest.approx(90, abs=0.5)
    start = t.forecast("c3f8", 14, 95)
    volumes, weights = start._volumes(0), start._of_cases
    assert 11 / 16 <= sum(w for v, w in zip(volumes, weights, strict=True) if v >= 0.8) <= 0.83


# RCO18: non-expansile 20 / 16 / 14 %, pure gas expands 2 / 3 / 4 times over up to 2 / 3 / 4 days; IJRV24: mixtures peak at 21 / 27 / 30 h.
@pytest.mark.parametrize(
    ("agent", "percent", "times", "hours", "days"), [("sf6", 20, 2, 21, 2), ("c2f6", 16, 3, 27, 3), ("c3f8", 14, 4, 30, 4)]
)
def test_expansion_of_mixtures_and_pure_gas(agent: str, percent: float, times: float, hours: float, days: float) -> None:
    assert agents.growth(agent, percent) == 1
    assert agents.growth(agent, percent / 2) == 1
    assert agents.growth(agent, 100) == pytest.approx(times)
    assert agents.peak_days(agent, percent) * 24 == pytest.approx(hours)
    assert agents.peak_days(agent, 100) == pytest.approx(days)
    assert agents.growth("air", 100) == 1
    assert agents.peak_days("air", 100) == 1


# The pure gas is at its published size when it peaks: 2, 3 and 4 times [RCO18].
@pytest.mark.parametrize(("agent", "fill", "day"), [("sf6", 40, 2), ("c2f6", 30, 3), ("c3f8", 20, 4)])
def test_pure_gas_reaches_its_published_size(agent: str, fill: float, day: float) -> None:
    eye = t.forecast(agent, 100, fill)
    assert eye.fill_percent(day) == pytest.approx(fill * agents.growth(agent, 100), rel=0.01)
    assert fill < eye.fill_percent(day / 2) < eye.fill_percent(day) > eye.fill_percent(2 * day)
    assert t.forecast(agent, 100, 90).at(day).fill_percent <= 100


def test_an_expansile_mix_grows_before_it_fades() -> None:
    # 30 % C3F8: 1 + 3 × 16 / 86 = 1.56 times, derived from RCO18 as in test_overfill.
    eye = t.forecast("c3f8", 30, 40, "phakic")
    assert eye.fill_percent(2) == pytest.approx(40 * 1.56, rel=0.05)
    assert eye.fill_percent(60) < 40
    days = eye.day_below(30)
    assert days is not None
    assert eye.fill_percent(days.median) == pytest.approx(30, abs=1)


@given(st.floats(0, 120), st.sampled_from(["phakic", "pseudophakic", "aphakic"]))
def test_longer_gases_last_longer(day: float, lens: str) -> None:
    # Order of days until gone in RCO18 and IJRV24: air < SF6 < C2F6 < C3F8, same lens; and less time without the lens [Th89].
    left = [t.forecast(agent, percent, 95, lens).fill_percent(day) for agent, percent in STANDARD.items()]
    assert left == sorted(left)
    for agent, percent in STANDARD.items():
        assert agents.life_days(agent, percent, lens) <= agents.life_days(agent, percent, "phakic")


@given(st.sampled_from(list(STANDARD)), st.floats(1, 100), st.floats(0, 100), st.floats(0, 100))
def test_gas_only_fades(agent: str, fill: float, a: float, b: float) -> None:
    early, late = sorted((a, b))
    eye = t.forecast(agent, STANDARD[agent], fill, "phakic")
    assert eye.fill_percent(late) <= eye.fill_percent(early)
    level = eye.at(late)
    assert level.low_percent <= level.fill_percent <= level.high_percent <= 100


def seen(day: float, height: float, observer: str = "clinic") -> seen_levels.Observation:
    return seen_levels.Observation(day, height, observer)  # type: ignore[arg-type]


def test_a_clinic_reading_weighs_more_than_the_patients() -> None:
    prior = t.forecast("sf6", 20, 95, "phakic")
    by_clinic, by_patient = (prior.updated(seen(5, 70, who)).at(9) for who in ("clinic", "patient"))
    assert by_clinic.fill_percent > by_patient.fill_percent > prior.at(9).fill_percent
    assert by_clinic.high_percent - by_clinic.low_percent < by_patient.high_percent - by_patient.low_percent


def test_a_patient_who_always_sees_too_much_is_learned_from_the_clinic() -> None:
    # The same reports from home, with and without clinic readings that show 20 % less each time.
    reports = [seen(day, height, "patient") for day, height in ((2, 100), (6, 85), (10, 75), (14, 68))]
    visits = [seen(day, height) for day, height in ((2, 80), (6, 65))]
    believed = t.forecast("c3f8", 14, 95, "phakic", reports)
    corrected = t.forecast("c3f8", 14, 95, "phakic", [*reports, *visits])
    assert believed.at(14).meniscus_percent > 58
    assert corrected.at(14).meniscus_percent == pytest.approx(48, abs=5)
    low, high = corrected.reading(18, "patient")
    assert (low + high) / 2 > corrected.at(18).meniscus_percent + 5
    # With the patient's bias known, another report moves the forecast less than the same slip of the clinic's would.
    assert (
        corrected.updated(seen(18, 62, "patient")).at(20).fill_percent < corrected.updated(seen(18, 62)).at(20).fill_percent
    )


def test_a_level_far_off_counts_little_and_two_that_agree_are_believed() -> None:
    prior = t.forecast("sf6", 20, 95, "phakic", [seen(1, 90), seen(3, 68)])
    odd = seen(7, 95)
    assert prior.contradiction(odd) > 3
    once = prior.updated(odd)
    assert once.contradicting == (odd,)
    assert once.used[-1] == odd
    assert once.at(9).meniscus_percent < 70
    again = once.updated(seen(8, 94)).updated(seen(9, 92))
    assert again.at(9).meniscus_percent > 80


def test_what_contradicts_lies_on_its_side() -> None:
    prior = t.forecast("sf6", 20, 95, "phakic")
    assert prior.contradiction(seen(7, 95)) > 2.5
    assert prior.contradiction(seen(1, 5)) < -2.5
    assert abs(prior.contradiction(seen(4, prior.at(4).meniscus_percent))) < 0.3
    # Read as full where full is expected, and as none where none is: no difference at all.
    assert prior.contradiction(seen(0, 100)) < 1.5
    assert prior.contradiction(seen(60, 0)) == 0
    assert prior.contradiction(seen(60, 5)) == 0
    # A patient's level is less of a contradiction than the clinic's, and never kept as one.
    assert 0 < prior.contradiction(seen(10, 80, "patient")) < prior.contradiction(seen(10, 80))
    assert prior.updated(seen(20, 100, "patient")).contradicting == ()


def test_a_contradiction_is_a_number_of_normal_deviations() -> None:
    # Second opinion: draw the cases and the observer's error, and count.
    eye = t.forecast("c3f8", 14, 95, "phakic", [seen(1, 85)])
    draws = np.random.default_rng(20270302)
    volumes = draws.choice(eye._volumes(15), 400_000, p=np.array(eye._of_cases) / sum(eye._of_cases))
    heights = np.interp(volumes, [bubble.fill_percent(h) / 100 for h in range(101)], np.arange(101))
    readings = heights + draws.normal(0, seen_levels.CLINIC_ERROR.value, heights.size)
    for height in (30, 50, 70, 85):
        expected = stats.norm.ppf(np.mean(readings < height))
        assert eye.contradiction(seen(15, height)) == pytest.approx(expected, abs=0.1)


def test_the_next_reading_is_forecast_with_the_observers_error() -> None:
    # Second opinion: draw the cases, and Student's t with the observer's error as its standard deviation.
    eye = t.forecast("c3f8", 14, 95, "phakic", [seen(1, 85), seen(9, 70)])
    draws = np.random.default_rng(20270302)
    volumes = draws.choice(eye._volumes(20), 400_000, p=np.array(eye._of_cases) / sum(eye._of_cases))
    heights = np.interp(volumes, [bubble.fill_percent(h) / 100 for h in range(101)], np.arange(101))
    readings = heights + draws.standard_t(3, heights.size) * seen_levels.CLINIC_ERROR.value / math.sqrt(3)
    assert list(eye.reading(20)) == pytest.approx(np.quantile(readings, [0.025, 0.975]).tolist(), abs=1)
    assert eye.reading(1)[1] == 100  # read as full
    assert eye.reading(150)[0] == 0  # read as none


def test_full_is_at_least_full_and_none_at_most_none() -> None:
    # A level read as full says little about how long it stays; one just below full says more.
    prior = t.forecast("c3f8", 20, 95, "phakic")
    full, nearly = (prior.updated(seen(10, height)).at(30).fill_percent for height in (100, 85))
    assert full > nearly
    assert prior.updated(seen(10, 95)) == replace(prior.updated(seen(10, 100)), used=(seen(10, 95),))
    assert prior.updated(seen(90, 0)).weights == prior.updated(seen(90, 5)).weights


@given(st.permutations([seen(1, 85), seen(4, 70, "patient"), seen(9, 45), seen(9, 48, "patient")]))
def test_the_order_of_arrival_does_not_matter(levels: list[seen_levels.Observation]) -> None:
    in_order = t.forecast("c2f6", 16, 95, "phakic", sorted(levels, key=lambda o: (o.day, o.observer)))
    assert t.forecast("c2f6", 16, 95, "phakic", levels) == in_order


def test_seeing_nothing_shortens_the_forecast_and_stays_finite() -> None:
    eye = t.forecast("sf6", 20, 95, "phakic", [seen(12, 0)])
    before = t.forecast("sf6", 20, 95, "phakic")
    assert eye.gone
    assert before.gone
    assert eye.gone.median < before.gone.median
    assert eye.used == (seen(12, 0),)


def test_liquids_do_not_fade() -> None:
    for agent in agents.LIQUIDS:
        oil = t.forecast(agent, 0, 90, "pseudophakic")
        assert oil.at(300).fill_percent == pytest.approx(90, abs=0.5)
        assert (oil.gone, oil.clear_of_sight, oil.half_time_days) == (None, None, math.inf)
        window = agents.AGENTS[agent].removal_window
        assert window
        assert window[0].value < window[1].value
    assert agents.life_days("silicone-oil", 0) == math.inf
    # SOR24a: median dwell 5.9 months; heavy oil about 3 months (common practice).
    assert [agents.AGENTS[a].removal_window[1].value for a in agents.LIQUIDS] == [183, 91]  # type: ignore[index]
    assert (agents.AGENTS["silicone-oil"].moves, agents.AGENTS["heavy-silicone-oil"].moves) == ("floats", "sinks")


def test_an_oil_level_far_off_is_flagged() -> None:
    assert t.forecast("silicone-oil", 0, 95, "phakic", [seen(30, 30)]).contradicting


def test_nothing_left_in_the_eye_has_no_forecast() -> None:
    for eye in (t.forecast("none", 0, 0), t.forecast("none", 0, 50), t.forecast("sf6", 20, 0)):
        assert eye.at(3) == forecasts.Level(0.0, 0.0, 0.0)
        assert eye.fill_percent(3) == 0
        assert (eye.gone, eye.clear_of_sight) == (None, None)


def test_sight_clears_at_half_fill() -> None:
    eye = t.forecast("sf6", 20, 95, "phakic")
    assert eye.clear_of_sight
    assert eye.at(eye.clear_of_sight.median).fill_percent == pytest.approx(50, abs=1)
    assert eye.at(eye.clear_of_sight.median).arc_degrees == pytest.approx(180, abs=3)
    low = t.forecast("sf6", 20, 40, "phakic").clear_of_sight
    assert low
    assert low.median == 0


def test_cover_is_lost_when_the_arc_no_longer_reaches_the_break() -> None:
    # Second opinion: walk through the days and look at the margin.
    eye = t.forecast("c2f6", 16, 95, "phakic")
    breaks = [Break(10, "equator")]
    lost = t.cover_lost(eye, breaks, "upright")
    assert lost is not None
    assert cover(breaks, eye.fill_percent(lost.median - 0.1), "upright").covered
    assert not cover(breaks, eye.fill_percent(lost.median + 0.1), "upright").covered
    assert t.cover_lost(eye, [], "upright") is None
    assert t.cover_lost(eye, [Break(12, "equator")], "upright") is None
    assert t.cover_lost(t.forecast("silicone-oil", 0, 95), breaks, "upright") is None


@pytest.mark.parametrize(
    ("agent", "percent", "fill", "lens", "error"),
    [
        ("helium", 20, 90, "phakic", Unknown),
        ("sf6", 120, 90, "phakic", OutOfRange),
        ("sf6", 0, 90, "phakic", OutOfRange),
        ("sf6", 20, 101, "phakic", OutOfRange),
        ("sf6", 20, 90, "glass", Unknown),
        ("sf6", -1, 90, "phakic", OutOfRange),
    ],
)
def test_bad_values_are_named(agent: str, percent: float, fill: float, lens: str, error: type) -> None:
    with pytest.raises(error, match=r"accepted|needs its concentration"):
        t.forecast(agent, percent, fill, lens)
