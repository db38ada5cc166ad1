"""The forecast of a tamponade: fill with its interval on any day, what the next level will be, and what a level seen changes."""

import itertools
import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from operator import itemgetter, mul

from followup.clinical import bubble
from followup.clinical.agents import Agent
from followup.clinical.errors import within
from followup.clinical.evidence import Figure
from followup.clinical.fading_cases import (
    BIAS_STEPS,
    CELLS,
    EXPECTED,
    MOST_BIAS,
    NEGLIGIBLE,
    NORMAL,
    OF_BIASES,
    STARTS,
    STEP_OF,
    quantiles,
)
from followup.clinical.seen_levels import (
    CONTRADICTS_BEYOND,
    ERRORS,
    FULL_FROM,
    NONE_TO,
    Observation,
    Observer,
    height_below,
    height_of,
    likelihood_of,
    scale_of,
)

INTERVAL = Figure("share of cases in the interval shown", 95, "%", "DEF")
LINE_OF_SIGHT = Figure("fill at which the line of sight is clear, head upright", 50, "%", "DEF", "derived")

# The grid of cases: start (error of its logarithm), life (SD of its logarithm from the typical eye), shape.
LAST_DAY = 3650
_INTERVAL = (0.025, 0.5, 0.975)


@dataclass(frozen=True, slots=True)
class Level:
    """Forecast fill (percent of the cavity) at one time with its 95 % interval."""

    fill_percent: float
    low_percent: float
    high_percent: float

    @property
    def meniscus_percent(self) -> float:
        return bubble.meniscus_percent(self.fill_percent)

    @property
    def arc_degrees(self) -> float:
        return bubble.arc_degrees(self.fill_percent)


@dataclass(frozen=True, slots=True)
class Days:
    """A forecast day after surgery with its 95 % interval."""

    median: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Forecast:
    """A grid of cases with their weights, and what was made of each level seen.

    `start` is the fill at the end of surgery (0 to 1); a mix that expands fades only after `lag_days`; `courses` are
    the (half-time in days, shape) considered.
    `weights` has a row for each bias of the patient’s eye for levels, one row while no patient has reported any;
    in it the cases run over starts, then courses. All levels are `used`; `contradicting` are those seen in
    clinic that lay beyond 3 SD from the forecast when they came.

    What a forecast gives is kept for a while, and given again to whoever asks the same: every rule asks for the levels of
    an eye in turn, and so does each new entry of that eye. Its hash is of what tells forecasts apart in practice.
    """

    agent: Agent
    start: float
    growth: float
    peak_days: float
    lag_days: float
    courses: tuple[tuple[float, float], ...] = field(hash=False)
    weights: tuple[tuple[float, ...], ...] = field(hash=False)
    used: tuple[Observation, ...] = ()
    contradicting: tuple[Observation, ...] = field(default=(), hash=False)

    @property
    def half_time_days(self) -> float:
        """Time in which half of the volume goes: the middle of the cases; infinite for what does not fade."""
        if not self.agent.fades:
            return math.inf
        return quantiles([half_time for _ in STARTS for half_time, _ in self.courses], self._of_cases, (0.5,))[0]

    def fill_percent(self, day: float) -> float:
        """The middle of the forecast alone, as `at` gives it."""
        return _middle_percent(self, day)

    def at(self, day: float) -> Level:
        """Fill in percent `day` days after surgery (0 or later), with its 95 % interval, never over 100."""
        within("a day of", day, 0, LAST_DAY)
        low, middle, high = quantiles(self._volumes(day), self._of_cases, _INTERVAL)
        return Level(100 * middle, 100 * low, 100 * high)

    def reading(self, day: float, observer: Observer = "clinic") -> tuple[float, float]:
        """Between which heights (percent) the next level seen on `day` will be, 95 %: forecast and observer’s error.

        A level read as full (fill from 99 %) or as none (up to 1 %) may be any height there.
        """
        within("a day of", day, 0, LAST_DAY)
        at_height: defaultdict[float, float] = defaultdict(float)
        steps = self._steps(day)
        for bias, row in self._rows(observer):
            for step, weight in zip(steps, row, strict=True):
                at_height[EXPECTED[step + bias]] += weight
        low, _, high = (100 * height_below(at_height, scale_of(observer), share) for share in _INTERVAL)
        none, full = 100 * NONE_TO, 100 * FULL_FROM
        return (0.0 if low <= none else min(low, full)), (100.0 if high >= full else max(high, none))

    def day_below(self, fill_percent: float) -> Days | None:
        """The day on which the fill falls below a percentage (0 < x), grown as far as it will; None for what does not fade."""
        within("a fill of", fill_percent, 1e-6, 100, " %")
        if not self.agent.fades:
            return None
        grown = min(1.0, self.start * self.growth)
        doublings = [math.log2(max(1.0, grown * start / (fill_percent / 100))) for start in STARTS]
        days = [
            self.lag_days + half_time * n ** (1 / shape) if n else 0.0
            for n in doublings
            for half_time, shape in self.courses
        ]
        low, median, high = quantiles(days, self._of_cases, _INTERVAL)
        return Days(median, low, high)

    @property
    def clear_of_sight(self) -> Days | None:
        """When the line of sight clears with the head upright: at half fill."""
        return self.day_below(LINE_OF_SIGHT.value)

    @property
    def gone(self) -> Days | None:
        """When less than 2 % is left. It informs; it never clears anyone to fly."""
        return self.day_below(self.agent.gone_below.value) if self.agent.gone_below else None

    def contradiction(self, seen: Observation) -> float:
        """How many SD a sighting lies from this forecast; positive is more gas than expected.

        Forecast and the observer’s ordinary error together give the probability of a level as far off or further;
        a normal law would give that probability at this many SD. Between two levels read as full, or as none, there is no difference.
        """
        return _contradiction(self, seen)

    def _contradiction(self, seen: Observation) -> float:
        height = height_of(seen)
        full, none = height >= FULL_FROM, height <= NONE_TO
        edge = min(FULL_FROM, max(NONE_TO, height))
        width = ERRORS[seen.observer] * math.sqrt(2)
        tails = [math.erfc((edge - expected) / width) / 2 for expected in EXPECTED]
        of_cases = itemgetter(*self._steps(seen.day))
        higher = sum(
            itertools.chain.from_iterable(map(mul, row, of_cases(tails[bias:])) for bias, row in self._rows(seen.observer))
        )
        lower = 1.0 if full else 1 - higher
        higher = 1.0 if none else higher
        if higher < lower:
            return max(0.0, -NORMAL.inv_cdf(max(higher, NEGLIGIBLE)))
        return min(0.0, NORMAL.inv_cdf(min(max(lower, NEGLIGIBLE), 1 - NEGLIGIBLE)))

    def updated(self, seen: Observation) -> "Forecast":
        """The forecast after one more level: every case weighted by the probability of that level."""
        return _updated(self, seen)

    def _updated(self, seen: Observation) -> "Forecast":
        flagged = seen.observer == "clinic" and abs(self.contradiction(seen)) > CONTRADICTS_BEYOND.value
        likelihood = [*map(likelihood_of(height_of(seen), scale_of(seen.observer)), EXPECTED)]
        of_cases = itemgetter(*self._steps(seen.day))
        rows = [list(map(mul, row, of_cases(likelihood[bias:]))) for bias, row in self._rows(seen.observer)]
        total = sum(map(sum, rows))
        return replace(
            self,
            weights=tuple(tuple([w / total for w in row]) for row in rows),
            used=(*self.used, seen),
            contradicting=(*self.contradicting, seen) if flagged else self.contradicting,
        )

    @property
    def _of_cases(self) -> Sequence[float]:
        """Weight of each case, whatever the patient’s bias."""
        return self.weights[0] if len(self.weights) == 1 else [sum(of_case) for of_case in zip(*self.weights, strict=True)]

    def _rows(self, observer: Observer) -> list[tuple[int, Sequence[float]]]:
        """The weights by bias, each with where its heights begin in what this observer may see.

        A patient’s first level spreads them over the biases. No bias bears on the clinic’s levels.
        """
        if observer == "clinic":
            return [(MOST_BIAS, row) for row in self.weights]
        rows = self.weights if len(self.weights) > 1 else [[w * share for w in self.weights[0]] for share in OF_BIASES]
        return [(MOST_BIAS + bias, row) for bias, row in zip(BIAS_STEPS, rows, strict=True)]

    def _volumes(self, day: float) -> list[float]:
        """Fill of each case, 0 to 1: what fits of start and growth, then the fading."""
        to_go = max(0.0, 1 - day / self.peak_days)
        grown = min(1.0, self.start * (1 + (self.growth - 1) * (1 - to_go * to_go)))
        fading = max(0.0, day - self.lag_days)
        left = [2 ** -((fading / half_time) ** shape) for half_time, shape in self.courses]
        grown_to = [grown * start for start in STARTS]
        return [volume if (volume := fill * share) < 1 else 1.0 for fill in grown_to for share in left]

    def _steps(self, day: float) -> list[int]:
        """Height of the meniscus in each case, in steps."""
        return [STEP_OF[int(volume * CELLS)] for volume in self._volumes(day)]


@lru_cache(maxsize=256)
def _updated(forecast: Forecast, seen: Observation) -> Forecast:
    return forecast._updated(seen)


@lru_cache(maxsize=1024)
def _contradiction(forecast: Forecast, seen: Observation) -> float:
    return forecast._contradiction(seen)


@lru_cache(maxsize=1024)
def _middle_percent(forecast: Forecast, day: float) -> float:
    return 100 * quantiles(forecast._volumes(day), forecast._of_cases, (0.5,))[0]
