"""Fading gas against published half-lives and days of disappearance; the update against numpy's linear algebra."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from followup.clinical import tamponade as t
from followup.clinical.coverage import Break, cover
from followup.clinical.errors import OutOfRange, Unknown

STANDARD = {"air": 100, "sf6": 20, "c2f6": 16, "c3f8": 14}


# Thompson 1989 (by lens) and 1992 (C3F8 mixtures, all eyes): half of the volume is left after one half-life.
@pytest.mark.parametrize(
    ("agent", "percent", "lens", "days"),
    [
        ("air", 100, "phakic", 1.6),
        ("air", 100, "aphakic", 0.9),
        ("air", 100, "unknown", 1.3),
        ("sf6", 20, "phakic", 2.8),
        ("sf6", 20, "aphakic", 2.4),
        ("c3f8", 10, "phakic", 5.7),
        ("c3f8", 10, "aphakic", 4.5),
        ("c3f8", 10, "pseudophakic", 4.3),
        ("c3f8", 5, "unknown", 4.2),
        ("c3f8", 10, "unknown", 6.5),
        ("c3f8", 15, "unknown", 8.0),
        ("c3f8", 20, "unknown", 12.5),
    ],
)
def test_published_half_lives(agent: str, percent: float, lens: str, days: float) -> None:
    assert t.half_life_days(agent, percent, lens) == pytest.approx(days)
    # Above the non-expansile concentration the mix also grows; the half-life is of what fades.
    fades = t.forecast(agent, percent, 50, lens)
    assert fades.fill_percent(days) == pytest.approx(25 * t.growth(agent, percent), rel=0.02)


# Derived in the reference: what the first-order model leaves.
@pytest.mark.parametrize(
    ("agent", "percent", "lens", "day", "left"),
    [
        ("sf6", 20, "phakic", 7, 17.7),
        ("sf6", 20, "phakic", 14, 3.1),
        ("air", 100, "phakic", 7, 4.8),
        ("air", 100, "phakic", 3, 27),
    ],
)
def test_what_is_left_by_day(agent: str, percent: float, lens: str, day: float, left: float) -> None:
    assert t.forecast(agent, percent, 100, lens).fill_percent(day) == pytest.approx(left, abs=0.3)


def test_interpolation_between_published_mixtures() -> None:
    # Derived: 14 % C3F8 between the 1992 means of 10 and 15 %.
    assert t.half_life_days("c3f8", 14, "unknown") == pytest.approx(7.7)
    assert t.half_life_days("c3f8", 60, "unknown") == 12.5


# Published days of disappearance: RCO18 and IJRV24. The model's middle day lies inside; no single cut does that.
@pytest.mark.parametrize(("agent", "low", "high"), [("air", 5, 7), ("sf6", 10, 14), ("c2f6", 28, 42), ("c3f8", 56, 70)])
def test_gone_falls_into_the_published_range(agent: str, low: float, high: float) -> None:
    gone = t.forecast(agent, STANDARD[agent], 95, "phakic").gone
    assert gone is not None
    assert gone.high is not None
    assert low <= gone.median <= high
    assert gone.low < gone.median < gone.high
    assert [f.value for f in t.AGENTS[agent].published_gone] == [low, high]


def test_c3f8_is_not_called_gone_at_five_weeks() -> None:
    # Reference vector 25b: 4.8 % is left at day 35 of 15 % C3F8; published disappearance is 8 weeks.
    eye = t.forecast("c3f8", 15, 100, "unknown")
    assert eye.gone is not None
    assert eye.gone.median > 49
    assert math.exp(-math.log(2) * 35 / 8.0) == pytest.approx(0.048, abs=0.001)
    assert eye.fill_percent(35) > 4


# RCO18: non-expansile 20 / 16 / 14 %, pure gas expands 2 / 3 / 4 times over up to 2 / 3 / 4 days; IJRV24: mixtures peak at 21 / 27 / 30 h.
@pytest.mark.parametrize(
    ("agent", "percent", "times", "hours", "days"), [("sf6", 20, 2, 21, 2), ("c2f6", 16, 3, 27, 3), ("c3f8", 14, 4, 30, 4)]
)
def test_expansion_of_mixtures_and_pure_gas(agent: str, percent: float, times: float, hours: float, days: float) -> None:
    assert t.growth(agent, percent) == 1
    assert t.growth(agent, percent / 2) == 1
    assert t.growth(agent, 100) == pytest.approx(times)
    assert t.peak_days(agent, percent) * 24 == pytest.approx(hours)
    assert t.peak_days(agent, 100) == pytest.approx(days)
    assert t.growth("air", 100) == 1
    assert t.peak_days("air", 100) == 1


def test_an_expansile_mix_grows_before_it_fades() -> None:
    eye = t.forecast("c3f8", 30, 40, "phakic")
    assert eye.fill_percent(2) > 40
    assert eye.fill_percent(30) < 40


@given(st.floats(0, 120), st.sampled_from(["phakic", "pseudophakic", "aphakic"]))
def test_longer_gases_last_longer(day: float, lens: str) -> None:
    # Published order: air < SF6 < C2F6 < C3F8 on any day, same lens; and less time without the lens [Th89].
    left = [t.forecast(agent, percent, 95, lens).fill_percent(day) for agent, percent in STANDARD.items()]
    assert left == sorted(left)
    for agent, percent in STANDARD.items():
        assert t.half_life_days(agent, percent, lens) <= t.half_life_days(agent, percent, "phakic")


@given(st.sampled_from(list(STANDARD)), st.floats(1, 100), st.floats(0, 100), st.floats(0, 100))
def test_gas_only_fades(agent: str, fill: float, a: float, b: float) -> None:
    early, late = sorted((a, b))
    eye = t.forecast(agent, STANDARD[agent], fill, "phakic")
    assert eye.fill_percent(late) <= eye.fill_percent(early)
    level = eye.at(late)
    assert level.low_percent <= level.fill_percent <= level.high_percent <= 100


def seen(day: float, height: float, observer: str = "clinic") -> t.Observation:
    return t.Observation(day, height, observer)  # type: ignore[arg-type]


def test_the_update_is_the_exact_posterior_of_a_linear_regression() -> None:
    # Second opinion: numpy solves the normal equations of the same Gaussian model at once.
    levels = [seen(1, 88), seen(6, 55, "patient"), seen(8, 50), seen(15, 32)]
    eye = t.forecast("c2f6", 16, 95, "phakic", levels)
    assert len(eye.used) == 4
    k = math.log(2) / 6.0
    precision = np.diag([1 / 0.10**2, 1 / (k * 0.30) ** 2])
    right_side = precision @ np.array([math.log(0.95), k])
    for level in levels:
        error = 0.05 if level.observer == "clinic" else 0.12
        x = level.meniscus_percent / 100
        fill = x * x * (3 - 2 * x)
        noise = max(0.05, 6 * x * (1 - x) * error / fill)
        row = np.array([1, -level.day])
        precision += np.outer(row, row) / noise**2
        right_side += row * math.log(fill) / noise**2
    covariance = np.linalg.inv(precision)
    mean = covariance @ right_side
    assert [eye.mean_a, eye.mean_k] == pytest.approx(mean.tolist())
    assert [eye.var_a, eye.cov, eye.var_k] == pytest.approx([covariance[0, 0], covariance[0, 1], covariance[1, 1]])


def test_the_interval_of_a_day_is_the_ratio_of_two_normals() -> None:
    # Second opinion: simulate (a, k) and look where the fill crosses one half.
    eye = t.forecast("c2f6", 16, 95, "phakic", [seen(8, 50)])
    draws = stats.multivariate_normal.rvs(
        [eye.mean_a, eye.mean_k], [[eye.var_a, eye.cov], [eye.cov, eye.var_k]], size=200_000, random_state=20270302
    )
    days = (draws[:, 0] - math.log(0.5)) / draws[:, 1]
    found = eye.day_below(50)
    assert found is not None
    assert found.high is not None
    low, middle, high = np.quantile(days, [0.025, 0.5, 0.975])
    assert [found.low, found.median, found.high] == pytest.approx([low, middle, high], rel=0.02)


def test_the_interval_opens_when_the_rate_is_hardly_known() -> None:
    vague = t.Forecast(t.AGENTS["c3f8"], 1.0, 1.0, math.log(0.9), 0.05, 0.01, 0.01, 0.0)
    days = vague.day_below(50)
    assert days is not None
    assert days.high is None
    assert 0 <= days.low <= days.median


def test_a_clinic_reading_weighs_more_than_the_patients() -> None:
    prior = t.forecast("sf6", 20, 95, "phakic")
    by_clinic, by_patient = (prior.updated(seen(5, 60, who)) for who in ("clinic", "patient"))
    shift = [abs(after.mean_k - prior.mean_k) for after in (by_clinic, by_patient)]
    assert shift[0] > shift[1] > 0
    assert by_clinic.var_k < by_patient.var_k < prior.var_k


def test_a_contradicting_level_is_kept_and_does_not_drag() -> None:
    prior = t.forecast("sf6", 20, 95, "phakic")
    after = prior.updated(seen(7, 95))
    assert prior.contradiction(seen(7, 95)) > 3
    assert prior.contradiction(seen(2, 5)) < -3
    assert after.contradicting == (seen(7, 95),)
    assert (after.mean_a, after.mean_k, after.var_k, after.used) == (prior.mean_a, prior.mean_k, prior.var_k, ())


def test_levels_of_a_longer_series_are_still_believed() -> None:
    # Sel20 (138 eyes): the level of SF6 reached half after 8.67 days; the same day empty is not believed.
    prior = t.forecast("sf6", 20, 95, "phakic")
    assert 2 < prior.contradiction(seen(8.67, 50)) < 3
    assert prior.contradiction(seen(4, 0)) < -3


@given(st.permutations([seen(1, 85), seen(4, 70, "patient"), seen(9, 45), seen(9, 48, "patient")]))
def test_the_order_of_arrival_does_not_matter(levels: list[t.Observation]) -> None:
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
    for agent in t.LIQUIDS:
        oil = t.forecast(agent, 0, 90, "pseudophakic")
        assert oil.at(300).fill_percent == pytest.approx(90)
        assert (oil.gone, oil.clear_of_sight, oil.half_life_days) == (None, None, math.inf)
        window = t.AGENTS[agent].removal_window
        assert window
        assert window[0].value < window[1].value
    assert t.half_life_days("silicone-oil", 0) == math.inf
    # SOR24a: median dwell 5.9 months; heavy oil about 3 months (common practice).
    assert [t.AGENTS[a].removal_window[1].value for a in t.LIQUIDS] == [183, 91]  # type: ignore[index]
    assert (t.AGENTS["silicone-oil"].moves, t.AGENTS["heavy-silicone-oil"].moves) == ("floats", "sinks")


def test_an_oil_level_far_off_is_flagged() -> None:
    assert t.forecast("silicone-oil", 0, 95, "phakic", [seen(30, 30)]).contradicting


def test_nothing_left_in_the_eye_has_no_forecast() -> None:
    for eye in (t.forecast("none", 0, 0), t.forecast("sf6", 20, 0)):
        assert eye.at(3) == t.Level(0.0, 0.0, 0.0)
        assert eye.fill_percent(3) == 0
        assert (eye.gone, eye.clear_of_sight) == (None, None)


def test_sight_clears_at_half_fill() -> None:
    eye = t.forecast("sf6", 20, 100, "phakic")
    assert eye.clear_of_sight
    assert eye.clear_of_sight.median == pytest.approx(2.8)
    assert eye.at(2.8).meniscus_percent == pytest.approx(50)
    assert eye.at(2.8).arc_degrees == pytest.approx(180)
    low = t.forecast("sf6", 20, 40, "phakic").clear_of_sight
    assert low
    assert low.median == 0


def test_cover_is_lost_when_the_arc_no_longer_reaches_the_break() -> None:
    # Second opinion: walk through the days and look at the margin.
    eye = t.forecast("c2f6", 16, 95, "phakic")
    breaks = [Break(10, "equator")]
    lost = t.cover_lost(eye, breaks, "upright")
    assert lost is not None
    assert cover(breaks, eye.fill_percent(lost.median - 0.01), "upright").covered
    assert not cover(breaks, eye.fill_percent(lost.median + 0.01), "upright").covered
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


def test_a_negative_rate_has_no_half_life() -> None:
    assert t.Forecast(t.AGENTS["sf6"], 1, 1, 0, -0.1, 0, 0, 0).half_life_days == math.inf
