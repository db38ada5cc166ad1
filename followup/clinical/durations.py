"""What has been published about how long gas lasts, beside what the forecast says of the same: range, mean or half-life.

Where only means (with or without their spread) are published, the row says so.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

from followup.clinical.agents import AGENTS
from followup.clinical.forecasts import Days, Forecast
from followup.clinical.tamponade import forecast

Kind = Literal["range", "mean ± 1.96 SD", "mean only"]


@dataclass(frozen=True, slots=True)
class Published:
    """One published duration in days (or share of the cavity in percent) of a mix, with its source key."""

    agent: str
    percent: float
    what: str
    kind: Kind
    low: float
    high: float
    source: str
    said: Callable[[Forecast], Days | None]
    lens: str = "unknown"
    unit: str = "days"


@dataclass(frozen=True, slots=True)
class Compared:
    """A published figure and the forecast’s median and 95 % interval for the same."""

    published: Published
    forecast: Days

    @property
    def held_percent(self) -> float:
        """How much of the published range lies in the interval; for a single figure 0 or 100."""
        low, high = self.published.low, self.published.high
        if low == high:
            return 100.0 if self.forecast.low <= low <= self.forecast.high else 0.0
        return 100 * max(0.0, min(high, self.forecast.high) - max(low, self.forecast.low)) / (high - low)


def compared() -> list[Compared]:
    """Every published figure, with the forecast for an eye filled to 95 %."""
    rows = []
    for published in PUBLISHED:
        days = published.said(forecast(published.agent, published.percent, 95, published.lens))
        assert days is not None
        rows.append(Compared(published, days))
    return rows


def _gone(eye: Forecast) -> Days | None:
    return eye.gone


def _half(eye: Forecast) -> Days | None:
    return eye.day_below(50)


def _left(day: float) -> Callable[[Forecast], Days]:
    def said(eye: Forecast) -> Days:
        level = eye.at(day)
        return Days(level.fill_percent, level.low_percent, level.high_percent)

    return said


def _first_order(eye: Forecast) -> Days:
    """The half-life of a straight line through the logarithms of fill between nine tenths and one tenth of the start.

    Of the middle of the cases, and of cases by a longer or shorter life alone.
    """
    high, low = eye.day_below(90 * eye.start), eye.day_below(10 * eye.start)
    assert high is not None
    assert low is not None
    halvings = math.log2(9)
    return Days((low.median - high.median) / halvings, (low.low - high.low) / halvings, (low.high - high.high) / halvings)


def _mean(mean: float, sd: float) -> tuple[float, float]:
    return mean - 1.96 * sd, mean + 1.96 * sd


_SPREAD: Kind = "mean ± 1.96 SD"
PUBLISHED: tuple[Published, ...] = (
    *(
        Published(name, AGENTS[name].life_at, "gone", "range", gone[0].value, gone[1].value, gone[0].source, _gone, "phakic")
        for name in ("air", "sf6", "c2f6")
        if (gone := AGENTS[name].published_gone)
    ),
    Published("c3f8", 14, "gone", "range", 56, 70, "IJRV24", _gone, "phakic"),
    Published("air", 100, "gone", "range", 3, 4, "NZCAA", _gone),
    Published("sf6", 20, "gone in all of 39 eyes by", "mean only", 14, 14, "Rah12", _gone),
    Published("c3f8", 12, "gone", _SPREAD, *_mean(46.9, 11.2), "Han93", _gone),
    Published("c3f8", 20, "gone", _SPREAD, *_mean(58.8, 12.6), "Han93", _gone),
    Published("c3f8", 14, "gone, one bubble", "mean only", 73, 73, "Bah16", _gone),
    Published("air", 100, "half left", _SPREAD, *_mean(3.97, 0.87), "Sel22", _half),
    Published("sf6", 20, "half left, concentration not shown", _SPREAD, *_mean(8.67, 1.47), "Sel22", _half),
    Published("sf6", 25, "half left, 20 gauge", _SPREAD, *_mean(8.6, 1.6), "GD", _half),
    Published("sf6", 25, "half left, 23 gauge", _SPREAD, *_mean(6.6, 2.2), "GD", _half),
    Published("c3f8", 14, "left on day 10", "mean only", 74, 74, "SR20", _left(10), unit="% fill"),
    Published("c3f8", 14, "left on day 28", "mean only", 24, 24, "SR20", _left(28), unit="% fill"),
    Published("c3f8", 20, "left on day 10", "mean only", 87, 87, "SR20", _left(10), unit="% fill"),
    Published("c3f8", 20, "left on day 28", "mean only", 44, 44, "SR20", _left(28), unit="% fill"),
    Published("air", 100, "first-order half-life", "mean only", 1.6, 1.6, "Th89", _first_order, "phakic"),
    Published("sf6", 20, "first-order half-life", "mean only", 2.8, 2.8, "Th89", _first_order, "phakic"),
    Published("c3f8", 10, "first-order half-life", "mean only", 5.7, 5.7, "Th89", _first_order, "phakic"),
    Published("c3f8", 5, "first-order half-life", "mean only", 4.2, 4.2, "Th92", _first_order),
    Published("c3f8", 10, "first-order half-life", "mean only", 6.5, 6.5, "Th92", _first_order),
    Published("c3f8", 15, "first-order half-life", "mean only", 8.0, 8.0, "Th92", _first_order),
    Published("c3f8", 20, "first-order half-life", "mean only", 12.5, 12.5, "Th92", _first_order),
)
