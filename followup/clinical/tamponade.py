"""What was left in the eye and how it fades: agents, forecast with interval, update by what was seen.

Model: fill at t days = start × 2^(−(t / T)^p), never above full; p is the shape of the fading (1, 1.5 or 2), and T
such that 2 % are left at the end of the gas’s life. Life, shape and start are uncertain together: a grid of cases,
each with its weight. A level that is seen multiplies the weights by its probability (Student’s t with three degrees
of freedom: one far off counts little, and never nothing).

Real eyes decided the form [Mey92: 16 eyes with C3F8, 103 levels]. One shape for all, p = 1 or 1.5, is less likely by a
log-likelihood of 10; a spread of the life, rather than of T, brings the days of disappearance to those of a trial [Han93];
and the half-lives of [Th89, Th92] come out as what a straight line through the logarithms would give. A first-order
model with the means of studies held 69, 50 and 36 % of the next levels after one, two and three; this one, its prior
made without the eye, holds 94, 100 and 93 %. `tests/clinical/
test_real_eyes.py` works the prior out without the eye that is forecast, and states what share of the next levels
the interval holds.

>>> eye = forecast("sf6", 20, 95, "phakic")
>>> round(eye.fill_percent(0)), round(eye.gone.median)
(95, 12)
"""

import itertools
import math
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from functools import lru_cache
from operator import itemgetter, mul
from statistics import NormalDist
from typing import Literal

from followup.clinical import bubble
from followup.clinical.coverage import Break, Moves, fill_needed_percent
from followup.clinical.errors import OutOfRange, one_of, within
from followup.clinical.evidence import Figure, Model

Lens = Literal["phakic", "pseudophakic", "aphakic", "unknown"]
LENSES: tuple[Lens, ...] = ("phakic", "pseudophakic", "aphakic", "unknown")
Observer = Literal["clinic", "patient"]


@dataclass(frozen=True, slots=True, eq=False)
class Agent:
    """A tamponade. Gases fade; liquids stay until they are taken out. Each is itself alone.

    `life` is the day on which 2 % are left in a typical eye filled with the mix of `life_at` percent; it grows with the
    root of the concentration up to `measured_to` percent. `published_gone` is what was seen.
    """

    name: str
    words: str
    moves: Moves
    fades: bool
    non_expansile: Figure | None = None
    pure_expansion: Figure | None = None
    pure_peak: Figure | None = None
    mix_peak: Figure | None = None
    life: Figure | None = None
    life_at: float = 100.0
    measured_to: float = 100.0
    lens_factors: tuple[tuple[Lens, float], ...] = ()
    gone_below: Figure | None = None
    published_gone: tuple[Figure, ...] = ()
    spread: Figure | None = None
    removal_window: tuple[Figure, Figure] | None = None


AIR_PHAKIC = Figure("first-order half-life: air, phakic", 1.6, "days", "Th89")
AIR_APHAKIC = Figure("first-order half-life: air, aphakic", 0.9, "days", "Th89")
SF6_PHAKIC = Figure("first-order half-life: SF6 20 %, phakic", 2.8, "days", "Th89")
SF6_APHAKIC = Figure("first-order half-life: SF6 20 %, aphakic", 2.4, "days", "Th89")
C3F8_10_PHAKIC = Figure("first-order half-life: C3F8 10 %, phakic", 5.7, "days", "Th89")
C3F8_10_PSEUDOPHAKIC = Figure("first-order half-life: C3F8 10 %, pseudophakic", 4.3, "days", "Th89")
C3F8_10_APHAKIC = Figure("first-order half-life: C3F8 10 %, aphakic", 4.5, "days", "Th89")

_C3F8_PSEUDO = C3F8_10_PSEUDOPHAKIC.value / C3F8_10_PHAKIC.value
_C3F8_APHAKIC = C3F8_10_APHAKIC.value / C3F8_10_PHAKIC.value
_AIR_LENS = AIR_APHAKIC.value / AIR_PHAKIC.value
_SF6_LENS = SF6_APHAKIC.value / SF6_PHAKIC.value

SPREAD_MEASURED = Figure("spread of the life between eyes (1 SD of its logarithm)", 0.35, "", "Mey92", "derived",
                         "0.30 to 0.35 most likely for 16 eyes; 0.21 to 0.24 in one trial [Han93]")  # fmt: skip
SPREAD_ASSUMED = Figure("spread where only means of studies are published", 0.55, "", "Sel20", "derived",
                        "holds the half-times of two series beside the days of the reviews")  # fmt: skip
SPREAD_BEYOND = Figure("spread beyond the measured concentrations", 0.65, "", "CP", "derived", "widened further")
CONCENTRATION_POWER = Figure("life grows with this power of the concentration", 0.5, "", "Han93", "derived",
                             "0.44 between 12 and 20 % in the trial, 0.48 in 16 eyes")  # fmt: skip
START_ERROR = Figure("error of a surgeon’s estimate of fill (1 SD of its logarithm), two eyes in three", 0.15, "", "Can20", "derived",
                     "82 % of eyes hold 80 % or more on day 1; 11 of 16 eyes of Mey92 do")  # fmt: skip
START_ERROR_OTHER = Figure(
    "the same in the third eye, which holds a quarter less in the middle", 0.5, "", "Mey92", "derived"
)
LIQUID_START_ERROR = Figure(
    "error of a surgeon’s estimate of an oil fill (1 SD of its logarithm)", 0.10, "", "CP", "common practice"
)
CLINIC_ERROR = Figure("error of a level seen in clinic (1 SD)", 7, "% of height", "Mey92", "derived",
                      "against volume withdrawn 7 % of the cavity [Th92]")  # fmt: skip
PATIENT_ERROR = Figure("error of a level the patient reports (1 SD)", 12, "% of height", "CP", "common practice")
PATIENT_BIAS = Figure(
    "what one patient sees too high or too low every time (1 SD)", 10, "% of height", "CP", "common practice"
)
CONTRADICTS_BEYOND = Figure("a level this many SD off is flagged", 3, "SD", "CP", "common practice")
READ_AS_FULL = Figure("fill from which a level is read as full", 99, "%", "DEF", "derived")
READ_AS_NONE = Figure("fill up to which a level is read as none", 1, "%", "DEF", "derived")
INTERVAL = Figure("share of cases in the interval shown", 95, "%", "DEF")
LINE_OF_SIGHT = Figure("fill at which the line of sight is clear, head upright", 50, "%", "DEF", "derived")
GONE_BELOW = Figure("a gas counts as gone below", 2, "% fill", "CP", "derived",
                    "with it the eyes’ C3F8 agrees with its published days; one cut for every gas")  # fmt: skip

AGENTS: dict[str, Agent] = {
    a.name: a
    for a in (
        Agent(
            "air", "air", "floats", True,
            life=Figure("life of air", 6, "days", "RCO18", "derived", "gone in 5 to 7 days"),
            lens_factors=(("pseudophakic", _AIR_LENS), ("aphakic", _AIR_LENS)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("air gone, from", 5, "days", "RCO18"), Figure("air gone, to", 7, "days", "RCO18")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "sf6", "sulphur hexafluoride (SF6)", "floats", True,
            non_expansile=Figure("SF6 non-expansile", 20, "%", "RCO18"),
            pure_expansion=Figure("pure SF6 expands", 2, "times", "RCO18"),
            pure_peak=Figure("pure SF6 peaks after", 2, "days", "RCO18", note="1 to 2 days"),
            mix_peak=Figure("20 % SF6 peaks after", 21, "hours", "IJRV24"),
            life=Figure("life of SF6 20 %", 12.5, "days", "IJRV24", "derived", "gone in 10 to 14 days"),
            life_at=20, measured_to=25,
            lens_factors=(("pseudophakic", _SF6_LENS), ("aphakic", _SF6_LENS)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("SF6 gone, from", 10, "days", "IJRV24"), Figure("SF6 gone, to", 14, "days", "RCO18")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "c2f6", "hexafluoroethane (C2F6)", "floats", True,
            non_expansile=Figure("C2F6 non-expansile", 16, "%", "RCO18"),
            pure_expansion=Figure("pure C2F6 expands", 3, "times", "RCO18"),
            pure_peak=Figure("pure C2F6 peaks after", 3, "days", "RCO18", note="1 to 3 days"),
            mix_peak=Figure("16 % C2F6 peaks after", 27, "hours", "IJRV24"),
            life=Figure("life of C2F6 16 %", 35, "days", "RCO18", "derived", "gone in 4 to 6 weeks"),
            life_at=16, measured_to=16,
            lens_factors=(("pseudophakic", _C3F8_PSEUDO), ("aphakic", _C3F8_APHAKIC)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("C2F6 gone, from", 28, "days", "RCO18"), Figure("C2F6 gone, to", 42, "days", "IJRV24")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "c3f8", "perfluoropropane (C3F8)", "floats", True,
            non_expansile=Figure("C3F8 non-expansile", 14, "%", "RCO18"),
            pure_expansion=Figure("pure C3F8 expands", 4, "times", "RCO18"),
            pure_peak=Figure("pure C3F8 peaks after", 4, "days", "RCO18", note="3 to 4 days"),
            mix_peak=Figure("14 % C3F8 peaks after", 30, "hours", "IJRV24"),
            life=Figure("life of C3F8 20 %", 76, "days", "Mey92", "derived", "most likely for 16 eyes; 64 at 14 %"),
            life_at=20, measured_to=25,
            lens_factors=(("pseudophakic", _C3F8_PSEUDO), ("aphakic", _C3F8_APHAKIC)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("C3F8 gone, from", 56, "days", "RCO18"), Figure("C3F8 gone, to", 70, "days", "IJRV24")),
            spread=SPREAD_MEASURED,
        ),
        Agent(
            "silicone-oil", "silicone oil", "floats", False,
            removal_window=(Figure("silicone oil out, from", 91, "days", "CP", "common practice"),
                            Figure("silicone oil out, by", 183, "days", "SOR24a", note="median dwell 5.9 months")),
        ),
        Agent(
            "heavy-silicone-oil", "heavy silicone oil", "sinks", False,
            removal_window=(Figure("heavy oil out, from", 60, "days", "CP", "common practice"),
                            Figure("heavy oil out, by", 91, "days", "HSO14", "common practice", "about 3 months")),
        ),
        Agent("none", "no tamponade", "floats", False),
    )
}  # fmt: skip
GASES = tuple(name for name, agent in AGENTS.items() if agent.fades)
LIQUIDS = tuple(name for name, agent in AGENTS.items() if agent.removal_window)

# The grid of cases: start (error of its logarithm), life (SD of its logarithm from the typical eye), shape.
LAST_DAY = 3650
SHAPES = (1.0, 1.5, 2.0)
_LONGER_BY = tuple(-2.8 + 0.4 * n for n in range(15))
_START = (-1.5, -1.1, -0.8, -0.57, -0.4, -0.27, -0.17, -0.08, 0.0, 0.08, 0.17, 0.35)
_START_SHARE = 0.35  # of the eyes in which the surgeon’s estimate says little
_START_MIDDLES = (0.04, -0.3)  # of the others and of these, so that the median start is the surgeon’s estimate
_BIASES = (-0.2, -0.1, 0.0, 0.1, 0.2)
_NEGLIGIBLE = 1e-12
_NORMAL = NormalDist()
_INTERVAL = (0.025, 0.5, 0.975)
_ERRORS: dict[Observer, float] = {"clinic": CLINIC_ERROR.value / 100, "patient": PATIENT_ERROR.value / 100}


def _shares(nodes: Sequence[float], *mixed: tuple[float, NormalDist]) -> list[float]:
    """Weight of each node: the probability that a mixture lies nearer to it than to its neighbours."""
    edges = [(a + b) / 2 for a, b in itertools.pairwise(nodes)]
    below = [0.0, *(sum(share * law.cdf(edge) for share, law in mixed) for edge in edges), 1.0]
    return [high - low for low, high in itertools.pairwise(below)]


_STARTS = tuple(math.exp(z) for z in _START)
_OF_STARTS = _shares(
    _START,
    (1 - _START_SHARE, NormalDist(_START_MIDDLES[0], START_ERROR.value)),
    (_START_SHARE, NormalDist(_START_MIDDLES[1], START_ERROR_OTHER.value)),
)
_OF_LIQUID_STARTS = _shares(_START, (1.0, NormalDist(0.0, LIQUID_START_ERROR.value)))
_OF_COURSES = [share / len(SHAPES) for share in _shares(_LONGER_BY, (1.0, _NORMAL)) for _ in SHAPES]
_OF_BIASES = _shares(_BIASES, (1.0, NormalDist(0.0, PATIENT_BIAS.value / 100)))

# Heights are worked with in steps of half a percent; the table leads from fill to the step.
_STEPS = 200
_BIAS_STEPS = tuple(round(bias * _STEPS) for bias in _BIASES)
_MOST_BIAS = max(_BIAS_STEPS)
_EXPECTED = tuple(n / _STEPS for n in range(-_MOST_BIAS, _STEPS + _MOST_BIAS + 1))  # heights as a biased eye sees them
_CELLS = 2000
_STEP_OF = (*(round(bubble.meniscus_percent((n + 0.5) / _CELLS * 100) / 100 * _STEPS) for n in range(_CELLS)), _STEPS)
_FULL_FROM = bubble.meniscus_percent(READ_AS_FULL.value) / 100
_NONE_TO = bubble.meniscus_percent(READ_AS_NONE.value) / 100


@dataclass(frozen=True, slots=True)
class Observation:
    """A level somebody saw: meniscus height in percent, days after surgery, and who saw it."""

    day: float
    meniscus_percent: float
    observer: Observer = "clinic"


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
        return _quantiles([half_time for _ in _STARTS for half_time, _ in self.courses], self._of_cases, (0.5,))[0]

    def fill_percent(self, day: float) -> float:
        """The middle of the forecast alone, as `at` gives it."""
        return _middle_percent(self, day)

    def at(self, day: float) -> Level:
        """Fill in percent `day` days after surgery (0 or later), with its 95 % interval, never over 100."""
        within("a day of", day, 0, LAST_DAY)
        low, middle, high = _quantiles(self._volumes(day), self._of_cases, _INTERVAL)
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
                at_height[_EXPECTED[step + bias]] += weight
        low, _, high = (100 * _height_below(at_height, _scale(observer), share) for share in _INTERVAL)
        none, full = 100 * _NONE_TO, 100 * _FULL_FROM
        return (0.0 if low <= none else min(low, full)), (100.0 if high >= full else max(high, none))

    def day_below(self, fill_percent: float) -> Days | None:
        """The day on which the fill falls below a percentage (0 < x), grown as far as it will; None for what does not fade."""
        within("a fill of", fill_percent, 1e-6, 100, " %")
        if not self.agent.fades:
            return None
        grown = min(1.0, self.start * self.growth)
        doublings = [math.log2(max(1.0, grown * start / (fill_percent / 100))) for start in _STARTS]
        days = [
            self.lag_days + half_time * n ** (1 / shape) if n else 0.0
            for n in doublings
            for half_time, shape in self.courses
        ]
        low, median, high = _quantiles(days, self._of_cases, _INTERVAL)
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
        height = _height(seen)
        full, none = height >= _FULL_FROM, height <= _NONE_TO
        edge = min(_FULL_FROM, max(_NONE_TO, height))
        width = _ERRORS[seen.observer] * math.sqrt(2)
        tails = [math.erfc((edge - expected) / width) / 2 for expected in _EXPECTED]
        of_cases = itemgetter(*self._steps(seen.day))
        higher = sum(
            itertools.chain.from_iterable(map(mul, row, of_cases(tails[bias:])) for bias, row in self._rows(seen.observer))
        )
        lower = 1.0 if full else 1 - higher
        higher = 1.0 if none else higher
        if higher < lower:
            return max(0.0, -_NORMAL.inv_cdf(max(higher, _NEGLIGIBLE)))
        return min(0.0, _NORMAL.inv_cdf(min(max(lower, _NEGLIGIBLE), 1 - _NEGLIGIBLE)))

    def updated(self, seen: Observation) -> "Forecast":
        """The forecast after one more level: every case weighted by the probability of that level."""
        return _updated(self, seen)

    def _updated(self, seen: Observation) -> "Forecast":
        flagged = seen.observer == "clinic" and abs(self.contradiction(seen)) > CONTRADICTS_BEYOND.value
        likelihood = [*map(_likelihood(_height(seen), _scale(seen.observer)), _EXPECTED)]
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
            return [(_MOST_BIAS, row) for row in self.weights]
        rows = self.weights if len(self.weights) > 1 else [[w * share for w in self.weights[0]] for share in _OF_BIASES]
        return [(_MOST_BIAS + bias, row) for bias, row in zip(_BIAS_STEPS, rows, strict=True)]

    def _volumes(self, day: float) -> list[float]:
        """Fill of each case, 0 to 1: what fits of start and growth, then the fading."""
        to_go = max(0.0, 1 - day / self.peak_days)
        grown = min(1.0, self.start * (1 + (self.growth - 1) * (1 - to_go * to_go)))
        fading = max(0.0, day - self.lag_days)
        left = [2 ** -((fading / half_time) ** shape) for half_time, shape in self.courses]
        grown_to = [grown * start for start in _STARTS]
        return [volume if (volume := fill * share) < 1 else 1.0 for fill in grown_to for share in left]

    def _steps(self, day: float) -> list[int]:
        """Height of the meniscus in each case, in steps."""
        return [_STEP_OF[int(volume * _CELLS)] for volume in self._volumes(day)]


@lru_cache(maxsize=256)
def _updated(forecast: Forecast, seen: Observation) -> Forecast:
    return forecast._updated(seen)


@lru_cache(maxsize=1024)
def _contradiction(forecast: Forecast, seen: Observation) -> float:
    return forecast._contradiction(seen)


@lru_cache(maxsize=1024)
def _middle_percent(forecast: Forecast, day: float) -> float:
    return 100 * _quantiles(forecast._volumes(day), forecast._of_cases, (0.5,))[0]


def life_days(agent: str, percent: float, lens: str = "phakic") -> float:
    """Days until 2 % are left in a typical eye: by the root of the concentration, up to what was measured.

    Infinite for liquids.
    """
    substance = _checked(agent, percent)
    one_of("lens", lens, LENSES)
    if substance.life is None:
        return math.inf
    factors: dict[str, float] = dict(substance.lens_factors)
    share = 1.0 if agent == "air" else min(percent, substance.measured_to) / substance.life_at
    return factors.get(lens, 1.0) * substance.life.value * math.pow(share, CONCENTRATION_POWER.value)


def growth(agent: str, percent: float) -> float:
    """By how much a mix expands in the eye: 1 up to the non-expansile concentration, the pure figure at 100 %."""
    substance = _checked(agent, percent)
    if substance.pure_expansion is None:
        return 1.0
    return 1 + (substance.pure_expansion.value - 1) * _expansile(substance, percent)


def peak_days(agent: str, percent: float) -> float:
    """Days to the greatest expansion: about a day for mixtures [IJRV24], days for the pure gas [RCO18]."""
    substance = _checked(agent, percent)
    if substance.mix_peak is None or substance.pure_peak is None:
        return 1.0
    mix = substance.mix_peak.value / 24
    return mix + (substance.pure_peak.value - mix) * _expansile(substance, percent)


def forecast(
    agent: str, percent: float, fill_percent: float, lens: str = "phakic", seen: Sequence[Observation] = ()
) -> Forecast:
    """Forecast of fill from the end of surgery, updated by every level seen (in order of day, whatever order they came in).

    `percent` is the concentration of gas in air (ignored for air and liquids), `fill_percent` the fill at
    the end of surgery. Raises `Unknown` for another agent or lens and `OutOfRange` for impossible numbers.
    """
    latest = _prior(_checked(agent, percent), agent, percent, fill_percent, lens)
    for level in sorted(seen, key=lambda o: (o.day, o.observer, o.meniscus_percent)):
        latest = latest.updated(level)
    return latest


@lru_cache(maxsize=256)
def _prior(substance: Agent, agent: str, percent: float, fill_percent: float, lens: str) -> Forecast:
    within("a fill of", fill_percent, 0, 100, " %")
    life = life_days(agent, percent, lens)
    if agent == "none" or fill_percent == 0:
        substance, fill_percent = _NOTHING, 0
    if substance.fades:
        spread, halvings = _spread(substance, percent), math.log2(100 / GONE_BELOW.value)
        courses = tuple(
            (life * math.exp(spread * z) / halvings ** (1 / shape), shape) for z in _LONGER_BY for shape in SHAPES
        )
        weights = tuple(a * b for a in _OF_STARTS for b in _OF_COURSES)
    else:
        courses, weights = ((math.inf, 1.0),), tuple(_OF_LIQUID_STARTS)
    peak = peak_days(agent, percent)
    lag = peak * _expansile(AGENTS[agent], percent)
    return Forecast(substance, fill_percent / 100, growth(agent, percent), peak, lag, courses, (weights,))


def cover_lost(forecast: Forecast, breaks: Sequence[Break], posture: str) -> Days | None:
    """The day on which the bubble no longer reaches every break in that posture; None for no break or what does not fade."""
    if not breaks:
        return None
    needed = fill_needed_percent(breaks, posture, forecast.agent.moves)
    return forecast.day_below(min(100.0, needed)) if needed > 0 else None


def _checked(agent: str, percent: float) -> Agent:
    one_of("tamponade", agent, AGENTS)
    if not 0 <= percent <= 100:
        raise OutOfRange(f"a concentration of {percent:g} % is out of range; accepted is 0 to 100 %")
    if AGENTS[agent].non_expansile and percent == 0:
        raise OutOfRange(f"{AGENTS[agent].words} needs its concentration, above 0 to 100 %")
    return AGENTS[agent]


def _expansile(substance: Agent, percent: float) -> float:
    """How far a mix lies between its non-expansile concentration (0) and the pure gas (1)."""
    if substance.non_expansile is None:
        return 0.0
    return max(0.0, percent - substance.non_expansile.value) / (100 - substance.non_expansile.value)


def _spread(substance: Agent, percent: float) -> float:
    beyond = substance.name != "air" and substance.measured_to < percent
    figure = SPREAD_BEYOND if beyond else substance.spread
    assert figure is not None
    return figure.value


def _height(seen: Observation) -> float:
    return within("a bubble height of", seen.meniscus_percent, 0, 100, " %") / 100


def _scale(observer: Observer) -> float:
    """Scale of Student’s t with three degrees of freedom whose standard deviation is the observer’s error."""
    return _ERRORS[observer] / math.sqrt(3)


def _likelihood(height: float, scale: float) -> Callable[[float], float]:
    """How probable the level seen is for an expected height, up to a constant factor."""
    if height >= _FULL_FROM:
        return lambda expected: _t_below((expected - _FULL_FROM) / scale)
    if height <= _NONE_TO:
        return lambda expected: _t_below((_NONE_TO - expected) / scale)
    narrow = 1 / (3 * scale * scale)

    def density(expected: float) -> float:
        off = expected - height
        return 1 / (1 + off * off * narrow) ** 2

    return density


def _t_below(t: float) -> float:
    """Probability that Student’s t with three degrees of freedom is below `t`."""
    x = t / math.sqrt(3)
    return 0.5 + (math.atan(x) + x / (1 + x * x)) / math.pi


def _height_below(weights: Mapping[float, float], scale: float, share: float) -> float:
    """The height below which the next level lies with that probability, by halving."""
    low, high = -1.0, 2.0
    for _ in range(20):
        middle = (low + high) / 2
        if sum(weight * _t_below((middle - height) / scale) for height, weight in weights.items()) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def _quantiles(values: Sequence[float], weights: Sequence[float], shares: Sequence[float]) -> list[float]:
    """Weighted quantiles for rising `shares`, between the middles of the cases in a straight line."""
    cases = sorted(case for case in zip(values, weights, strict=True) if case[1] > _NEGLIGIBLE)
    found: list[float] = []
    value, reached, below = cases[0][0], 0.0, 0.0
    for at, weight in cases:
        middle = below + weight / 2
        while len(found) < len(shares) and middle >= shares[len(found)]:
            part = (shares[len(found)] - reached) / (middle - reached)
            found.append(value + (at - value) * part)
        value, reached, below = at, middle, below + weight
    return found + [value] * (len(shares) - len(found))


_NOTHING = AGENTS["none"]

MODEL = Model(
    "How the bubble fades",
    (
        "Fill = start × growth × 2^(−(t / T)^p), never above full. The shape p is 1, 1.5 or 2, equally likely; "
        "T follows from p and the life of the gas, at whose end 2 % are left.",
        "Life, shape and start are uncertain together: a grid of cases, each with its weight. "
        "The forecast is their middle, the interval holds 95 % of their weight.",
        "The prior comes from 16 real eyes with C3F8 (103 levels), and from published durations for the other gases. "
        "The life grows with the root of the concentration.",
        "A mix above its non-expansile concentration first grows, at most by the pure gas’s figure, as far as it fits.",
        "Every level seen weighs the cases by its probability, with tails (Student’s t, three degrees of freedom): "
        "a level far off counts little, and never nothing. A level beyond 3 SD seen in clinic is flagged.",
        "Levels reported by the patient may be too high or too low every time; how much is learned from the clinic’s levels.",
        "A level read as full may be any fill from 99 %, one read as none any up to 1 %.",
    ),
    (
        "Forecast without its own data, the 95 % interval held 44 of the next 46 levels of those eyes (after one, two and three "
        "levels); the middle erred by 5, 6 and 10 % of the cavity, "
        "four fifths of what a line from the last level to day 63 does. All those eyes had 15 to 25 % C3F8.",
        "Of air, SF6 and C2F6 only ranges and means are published: their spread is widened, and no eye’s course has tested it.",
        "No pseudophakic figure of air or SF6 was found: the aphakic one is used. Studies disagree on what the lens does.",
        "The forecast informs. It never lifts the caution on flying, climbing or nitrous oxide.",
    ),
    (
        AIR_PHAKIC, AIR_APHAKIC, SF6_PHAKIC, SF6_APHAKIC, C3F8_10_PHAKIC, C3F8_10_PSEUDOPHAKIC, C3F8_10_APHAKIC,
        *(f for a in AGENTS.values() for f in (a.life, a.non_expansile, a.pure_expansion, a.pure_peak, a.mix_peak) if f),
        *(f for a in AGENTS.values() for f in (*a.published_gone, *(a.removal_window or ()))),
        CONCENTRATION_POWER, SPREAD_MEASURED, SPREAD_ASSUMED, SPREAD_BEYOND, START_ERROR, START_ERROR_OTHER,
        LIQUID_START_ERROR, CLINIC_ERROR, PATIENT_ERROR, PATIENT_BIAS, CONTRADICTS_BEYOND, READ_AS_FULL, READ_AS_NONE,
        INTERVAL, LINE_OF_SIGHT, GONE_BELOW,
    ),
)  # fmt: skip
