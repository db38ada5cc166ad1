"""How the operations turned out: attachment over time, proportions, run charts.

>>> round(wilson(2214, 2330).proportion, 3)
0.95
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from operator import itemgetter

from followup.clinical.errors import OutOfRange, Unreadable
from followup.clinical.evidence import Figure, Model

Z_95 = Figure("standard normal quantile for 95 %", 1.959964, "SD", "DEF")
BY_CHANCE = Figure("a month lies outside its limits when chance alone gives as many or more, or as few or fewer, in", 0.00135,
                   "share of months, the tail beyond 3 SD", "DEF")  # fmt: skip
MOVING_RANGE_FACTOR = Figure("limits of single values: mean moving range times", 2.66, "", "DEF")


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a Kaplan-Meier curve: at `day`, `events` of `at_risk` eyes; survival with its 95 % interval."""

    day: float
    at_risk: int
    events: int
    survival: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Proportion:
    """Events over total with the Wilson 95 % interval, all as shares of 1."""

    events: int
    total: int
    proportion: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class ChartPoint:
    """One point of a run chart with its limits; `outside` marks special cause."""

    label: str
    value: float
    centre: float
    low: float
    high: float

    @property
    def outside(self) -> bool:
        return not self.low <= self.value <= self.high


def kaplan_meier(days: Sequence[float], happened: Sequence[bool]) -> list[Step]:
    """Kaplan-Meier survival with Greenwood's variance on the log-minus-log scale, a step for each day with an event.

    `days` is the time to the event or to the last sight of the eye, `happened` whether it was the event.
    """
    if len(days) != len(happened):
        raise Unreadable("each eye needs both a time and whether the event happened")
    steps: list[Step] = []
    survival, greenwood, at_risk = 1.0, 0.0, len(days)
    for day, same_day in itertools.groupby(sorted(zip(days, happened, strict=True)), key=itemgetter(0)):
        ended = [event for _, event in same_day]
        events = sum(ended)
        if events:
            survival *= 1 - events / at_risk
            if at_risk == events:
                steps.append(Step(day, at_risk, events, 0.0, 0.0, 0.0))
                break
            greenwood += events / (at_risk * (at_risk - events))
            steps.append(Step(day, at_risk, events, survival, *_log_log_interval(survival, greenwood)))
        at_risk -= len(ended)
    return steps


def _log_log_interval(survival: float, greenwood: float) -> tuple[float, float]:
    log_survival = math.log(survival)
    half = Z_95.value * math.sqrt(greenwood) / abs(log_survival)
    low, high = (math.exp(log_survival * math.exp(sign * half)) for sign in (1, -1))
    return low, high


def wilson(events: int, total: int) -> Proportion:
    """Share of events with its Wilson 95 % interval; raises OutOfRange unless 0 <= events <= total and total > 0."""
    if not 0 <= events <= total or total == 0:
        raise OutOfRange(f"{events} of {total} is not a proportion")
    share = events / total
    z2 = Z_95.value**2
    middle = (share + z2 / (2 * total)) / (1 + z2 / total)
    half = Z_95.value * math.sqrt(share * (1 - share) / total + z2 / (4 * total * total)) / (1 + z2 / total)
    return Proportion(events, total, share, max(0.0, middle - half), min(1.0, middle + half))


def proportion_chart(points: Sequence[tuple[str, int, int]]) -> list[ChartPoint]:
    """Run chart of proportions (label, events, total) with the binomial limits of each point's own total.

    The limits are the fewest and the most events that the clinic's mean gives with no more than 0.00135 beyond on either
    side, the share beyond 3 SD of a normal curve. That curve itself would call one event in a month of three eyes a signal.
    """
    total = sum(n for _, _, n in points)
    if total == 0:
        return []
    centre = sum(events for _, events, _ in points) / total
    chart = []
    for label, events, n in points:
        if n == 0:
            continue
        low, high = _limits(n, centre)
        chart.append(ChartPoint(label, events / n, centre, low / n, high / n))
    return chart


def _limits(total: int, share: float) -> tuple[int, int]:
    """The fewest and the most events that are no surprise."""
    chances = [math.comb(total, k) * share**k * (1 - share) ** (total - k) for k in range(total + 1)]
    high = next(k for k in range(total, -1, -1) if sum(chances[k:]) > BY_CHANCE.value)
    low = next(k for k in range(total + 1) if sum(chances[: k + 1]) > BY_CHANCE.value)
    return low, high


def value_chart(points: Sequence[tuple[str, float]]) -> list[ChartPoint]:
    """Run chart of single values (label, value) with limits from the mean moving range."""
    if len(points) < 2:
        return []
    values = [value for _, value in points]
    centre = sum(values) / len(values)
    moving = sum(abs(b - a) for a, b in itertools.pairwise(values)) / (len(values) - 1)
    half = MOVING_RANGE_FACTOR.value * moving
    return [ChartPoint(label, value, centre, centre - half, centre + half) for label, value in points]


MODEL = Model(
    "Results",
    (
        "Attachment over time is Kaplan–Meier: eyes still under review count until they were last seen.",
        "Its interval uses Greenwood’s variance on the log-minus-log scale; proportions carry Wilson’s 95 % interval.",
        "Run charts show each month against the clinic’s own mean with the binomial limits of its number of eyes.",
    ),
    ("Small numbers have wide intervals. Compare like with like: casemix differs between surgeons.",),
    (Z_95, BY_CHANCE, MOVING_RANGE_FACTOR),
)
