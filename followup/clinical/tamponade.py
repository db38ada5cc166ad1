"""What was left in the eye and how it fades: agents, half-lives, forecast with interval, update by what was seen.

Model: log fill at t days = a + log E(t) - k t, first order in volume [Th89, Har13], with E the
expansion of a mix above its non-expansile concentration. (a, k) is jointly normal; levels that were
seen update it in closed form (linear regression with a normal prior).

>>> eye = forecast("sf6", 20, 100, "phakic")
>>> round(eye.at(2.8).fill_percent), round(eye.at(7).fill_percent, 1)
(50, 17.7)
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from followup.clinical import bubble
from followup.clinical.coverage import Break, Moves, fill_needed_percent
from followup.clinical.errors import OutOfRange, one_of, within
from followup.clinical.evidence import Figure, Model

Lens = Literal["phakic", "pseudophakic", "aphakic", "unknown"]
LENSES: tuple[Lens, ...] = ("phakic", "pseudophakic", "aphakic", "unknown")
Observer = Literal["clinic", "patient"]


@dataclass(frozen=True, slots=True)
class Agent:
    """A tamponade. Gases fade; liquids stay until they are taken out.

    `half_lives` are (percent, figure in days) of a phakic eye, by rising concentration, from air at 0 %;
    `half_lives_all_eyes` the same where the lens is not known, if that was measured.
    `gone_below` is this agent's own cut: no single one fits all. `published_gone` is what was seen.
    """

    name: str
    words: str
    moves: Moves
    fades: bool
    non_expansile: Figure | None = None
    pure_expansion: Figure | None = None
    pure_peak: Figure | None = None
    mix_peak: Figure | None = None
    half_lives: tuple[tuple[float, Figure], ...] = ()
    half_lives_all_eyes: tuple[tuple[float, Figure], ...] = ()
    lens_factors: tuple[tuple[Lens, float], ...] = ()
    gone_below: Figure | None = None
    published_gone: tuple[Figure, ...] = ()
    spread: Figure | None = None
    removal_window: tuple[Figure, Figure] | None = None


AIR_PHAKIC = Figure("air, phakic", 1.6, "days", "Th89")
AIR_APHAKIC = Figure("air, aphakic", 0.9, "days", "Th89")
AIR_MIXED = Figure("air, all eyes", 1.3, "days", "Th92")
SF6_PHAKIC = Figure("SF6 20 %, phakic", 2.8, "days", "Th89")
SF6_APHAKIC = Figure("SF6 20 %, aphakic", 2.4, "days", "Th89")
C2F6_HALF_LIFE = Figure("C2F6 16 %", 6.0, "days", "CP", "derived", "no human half-life was found; 5 to 7 days is plausible")
C3F8_5 = Figure("C3F8 5 %, all eyes", 4.2, "days", "Th92")
C3F8_10_PHAKIC = Figure("C3F8 10 %, phakic", 5.7, "days", "Th89")
C3F8_10_MIXED = Figure("C3F8 10 %, all eyes", 6.5, "days", "Th92")
C3F8_10_PSEUDOPHAKIC = Figure("C3F8 10 %, pseudophakic", 4.3, "days", "Th89")
C3F8_10_APHAKIC = Figure("C3F8 10 %, aphakic", 4.5, "days", "Th89")
C3F8_15 = Figure("C3F8 15 %, all eyes", 8.0, "days", "Th92")
C3F8_20 = Figure("C3F8 20 %, all eyes", 12.5, "days", "Th92")

_C3F8_PSEUDO = C3F8_10_PSEUDOPHAKIC.value / C3F8_10_PHAKIC.value
_C3F8_APHAKIC = C3F8_10_APHAKIC.value / C3F8_10_PHAKIC.value
_AIR_LENS = AIR_APHAKIC.value / AIR_PHAKIC.value
_SF6_LENS = SF6_APHAKIC.value / SF6_PHAKIC.value

SPREAD_MEASURED = Figure("spread of half-life between eyes (1 SD of its logarithm)", 0.25, "", "Th92", "derived",
                         "two studies of one mix differ by 15 to 20 %, and later series saw gas for longer")  # fmt: skip
SPREAD_ASSUMED = Figure("spread where no half-life was measured", 0.30, "", "CP", "derived")
SPREAD_BEYOND = Figure("spread beyond the measured concentrations", 0.40, "", "CP", "derived")
FILL_ERROR = Figure("error of a surgeon’s estimate of fill (1 SD of its logarithm)", 0.10, "", "Can20", "derived",
                    "82 % of eyes hold 80 % or more on day 1")  # fmt: skip
CLINIC_ERROR = Figure("error of a level seen in clinic (1 SD)", 5, "% of height", "CP", "common practice")
PATIENT_ERROR = Figure("error of a level the patient reports (1 SD)", 12, "% of height", "CP", "common practice")
CONTRADICTS_BEYOND = Figure("an observation this many SD off is kept but not used", 3, "SD", "CP", "common practice")
INTERVAL_Z = Figure("width of the interval shown (95 %)", 1.959964, "SD", "DEF")
LINE_OF_SIGHT = Figure("fill at which the line of sight is clear, head upright", 50, "%", "DEF", "derived")
SMALLEST_LOG_ERROR = 0.05

AGENTS: dict[str, Agent] = {
    a.name: a
    for a in (
        Agent(
            "air", "air", "floats", True,
            half_lives=((0, AIR_PHAKIC), (100, AIR_PHAKIC)),
            lens_factors=(("pseudophakic", _AIR_LENS), ("aphakic", _AIR_LENS)),
            half_lives_all_eyes=((0, AIR_MIXED), (100, AIR_MIXED)),
            gone_below=Figure("air counts as gone below", 5, "% fill", "CP", "derived"),
            published_gone=(Figure("air gone, from", 5, "days", "RCO18"), Figure("air gone, to", 7, "days", "RCO18")),
            spread=SPREAD_MEASURED,
        ),
        Agent(
            "sf6", "sulphur hexafluoride (SF6)", "floats", True,
            non_expansile=Figure("SF6 non-expansile", 20, "%", "RCO18"),
            pure_expansion=Figure("pure SF6 expands", 2, "times", "RCO18"),
            pure_peak=Figure("pure SF6 peaks after", 2, "days", "RCO18", note="1 to 2 days"),
            mix_peak=Figure("20 % SF6 peaks after", 21, "hours", "IJRV24"),
            half_lives=((0, AIR_PHAKIC), (20, SF6_PHAKIC)),
            lens_factors=(("pseudophakic", _SF6_LENS), ("aphakic", _SF6_LENS)),
            gone_below=Figure("SF6 counts as gone below", 4, "% fill", "CP", "derived"),
            published_gone=(Figure("SF6 gone, from", 10, "days", "IJRV24"), Figure("SF6 gone, to", 14, "days", "RCO18")),
            spread=SPREAD_MEASURED,
        ),
        Agent(
            "c2f6", "hexafluoroethane (C2F6)", "floats", True,
            non_expansile=Figure("C2F6 non-expansile", 16, "%", "RCO18"),
            pure_expansion=Figure("pure C2F6 expands", 3, "times", "RCO18"),
            pure_peak=Figure("pure C2F6 peaks after", 3, "days", "RCO18", note="1 to 3 days"),
            mix_peak=Figure("16 % C2F6 peaks after", 27, "hours", "IJRV24"),
            half_lives=((0, AIR_PHAKIC), (16, C2F6_HALF_LIFE)),
            lens_factors=(("pseudophakic", _C3F8_PSEUDO), ("aphakic", _C3F8_APHAKIC)),
            gone_below=Figure("C2F6 counts as gone below", 2, "% fill", "CP", "derived"),
            published_gone=(Figure("C2F6 gone, from", 28, "days", "RCO18"), Figure("C2F6 gone, to", 42, "days", "IJRV24")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "c3f8", "perfluoropropane (C3F8)", "floats", True,
            non_expansile=Figure("C3F8 non-expansile", 14, "%", "RCO18"),
            pure_expansion=Figure("pure C3F8 expands", 4, "times", "RCO18"),
            pure_peak=Figure("pure C3F8 peaks after", 4, "days", "RCO18", note="3 to 4 days"),
            mix_peak=Figure("14 % C3F8 peaks after", 30, "hours", "IJRV24"),
            half_lives=((0, AIR_PHAKIC), (5, C3F8_5), (10, C3F8_10_PHAKIC), (15, C3F8_15), (20, C3F8_20)),
            half_lives_all_eyes=((0, AIR_MIXED), (5, C3F8_5), (10, C3F8_10_MIXED), (15, C3F8_15), (20, C3F8_20)),
            lens_factors=(("pseudophakic", _C3F8_PSEUDO), ("aphakic", _C3F8_APHAKIC)),
            gone_below=Figure("C3F8 counts as gone below", 0.5, "% fill", "CP", "derived"),
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
    """A forecast day after surgery with its 95 % interval; `high` is None where the interval is open."""

    median: float
    low: float
    high: float | None


@dataclass(frozen=True, slots=True)
class Forecast:
    """The joint normal of a (log of starting fill) and k (per day), and what was made of each observation."""

    agent: Agent
    growth: float
    peak_days: float
    mean_a: float
    mean_k: float
    var_a: float
    var_k: float
    cov: float
    used: tuple[Observation, ...] = ()
    contradicting: tuple[Observation, ...] = ()

    @property
    def half_life_days(self) -> float:
        return math.inf if self.mean_k <= 0 else math.log(2) / self.mean_k

    def log_expansion(self, day: float) -> float:
        """Log of the growth so far: straight to the peak, then kept."""
        return math.log1p((self.growth - 1) * min(1.0, day / self.peak_days)) if self.growth > 1 else 0.0

    def fill_percent(self, day: float) -> float:
        """The middle of the forecast alone, as `at` gives it."""
        return min(100.0, 100 * math.exp(self._log_fill(day)))

    def _log_fill(self, day: float) -> float:
        return self.mean_a - self.mean_k * day + self.log_expansion(day)

    def at(self, day: float) -> Level:
        """Fill in percent `day` days after surgery (0 or later), with its 95 % interval, never over 100."""
        within("a day of", day, 0, 3650)
        if self.mean_a == -math.inf:
            return Level(0.0, 0.0, 0.0)
        middle = self._log_fill(day)
        half = INTERVAL_Z.value * math.sqrt(self._variance(day))
        return Level(*(min(100.0, 100 * math.exp(x)) for x in (middle, middle - half, middle + half)))

    def day_below(self, fill_percent: float) -> Days | None:
        """The day on which the fill falls below a percentage (0 < x); None for what does not fade.

        The interval is Fieller's: exact for the ratio (a - c) / k of two correlated normals.
        """
        within("a fill of", fill_percent, 1e-6, 100, " %")
        if not self.agent.fades:
            return None
        distance = self.mean_a + math.log(self.growth) - math.log(fill_percent / 100)
        z2 = INTERVAL_Z.value**2
        square = self.mean_k**2 - z2 * self.var_k
        linear = distance * self.mean_k - z2 * self.cov
        constant = distance**2 - z2 * self.var_a
        root = math.sqrt(max(0.0, linear**2 - square * constant))
        median = max(0.0, distance / self.mean_k)
        if square <= 0:
            return Days(median, min(median, max(0.0, constant / (linear + root))), None)
        return Days(median, max(0.0, (linear - root) / square), max(0.0, (linear + root) / square))

    @property
    def clear_of_sight(self) -> Days | None:
        """When the line of sight clears with the head upright: at half fill."""
        return self.day_below(LINE_OF_SIGHT.value)

    @property
    def gone(self) -> Days | None:
        """When the model falls below this agent's own cut. It informs; it never clears anyone to fly."""
        return self.day_below(self.agent.gone_below.value) if self.agent.gone_below else None

    def contradiction(self, seen: Observation) -> float:
        """How many SD a sighting lies from this forecast; positive is more gas than expected.

        The observer's error is taken at the higher of the two levels (near the top of a small bubble the same
        slip of the eye means many times the volume), and a difference within that error alone counts for no more.
        """
        expected = min(0.0, self._log_fill(seen.day))
        height = bubble.meniscus_percent(100 * math.exp(expected))
        log_fill, _ = _log_fill(seen)
        _, error = _log_fill(Observation(seen.day, max(seen.meniscus_percent, height), seen.observer))
        by_volume = (log_fill - expected) / math.sqrt(self._variance(seen.day) + error * error)
        by_height = (seen.meniscus_percent - height) / (100 * _height_error(seen))
        return min(by_volume, by_height, key=abs)

    def _variance(self, day: float) -> float:
        return max(0.0, self.var_a - 2 * self.cov * day + self.var_k * day * day)

    def updated(self, seen: Observation) -> "Forecast":
        """The exact posterior after one more level; a contradicting one (beyond 3 SD) is kept but not used."""
        agent, growth, peak, a, k = self.agent, self.growth, self.peak_days, self.mean_a, self.mean_k
        var_a, var_k, cov, used, contradicting = self.var_a, self.var_k, self.cov, self.used, self.contradicting
        if abs(self.contradiction(seen)) > CONTRADICTS_BEYOND.value:
            return Forecast(agent, growth, peak, a, k, var_a, var_k, cov, used, (*contradicting, seen))
        log_fill, error = _log_fill(seen)
        residual = log_fill - self.log_expansion(seen.day) - (a - k * seen.day)
        with_a = var_a - cov * seen.day  # covariance of what was seen with a, and with k
        with_k = cov - var_k * seen.day
        total = self._variance(seen.day) + error * error
        return Forecast(
            agent,
            growth,
            peak,
            a + with_a / total * residual,
            k + with_k / total * residual,
            var_a - with_a * with_a / total,
            var_k - with_k * with_k / total,
            cov - with_a * with_k / total,
            (*used, seen),
            contradicting,
        )


def half_life_days(agent: str, percent: float, lens: str = "phakic") -> float:
    """Half-life of the bubble's volume in days, interpolated between measured concentrations [Th89, Th92].

    Beyond the highest measured concentration the last figure is held. Infinite for liquids.
    """
    substance = _checked(agent, percent)
    one_of("lens", lens, LENSES)
    if not substance.fades:
        return math.inf
    if lens == "unknown" and substance.half_lives_all_eyes:
        return _interpolated(substance.half_lives_all_eyes, percent)
    factors: dict[str, float] = dict(substance.lens_factors)
    return factors.get(lens, 1.0) * _interpolated(substance.half_lives, percent)


def growth(agent: str, percent: float) -> float:
    """By how much a mix expands in the eye: 1 up to the non-expansile concentration, the pure figure at 100 %."""
    substance = _checked(agent, percent)
    if substance.non_expansile is None or substance.pure_expansion is None:
        return 1.0
    above = max(0.0, percent - substance.non_expansile.value) / (100 - substance.non_expansile.value)
    return 1 + (substance.pure_expansion.value - 1) * above


def peak_days(agent: str, percent: float) -> float:
    """Days to the greatest expansion: about a day for mixtures [IJRV24], days for the pure gas [RCO18]."""
    substance = _checked(agent, percent)
    if substance.mix_peak is None or substance.pure_peak is None or substance.non_expansile is None:
        return 1.0
    mix = substance.mix_peak.value / 24
    share = max(0.0, percent - substance.non_expansile.value) / (100 - substance.non_expansile.value)
    return mix + (substance.pure_peak.value - mix) * share


def forecast(
    agent: str, percent: float, fill_percent: float, lens: str = "phakic", seen: Sequence[Observation] = ()
) -> Forecast:
    """Forecast of fill from the end of surgery, updated by every level seen (in order of day, whatever order they came in).

    `percent` is the concentration of gas in air (ignored for air and liquids), `fill_percent` the fill at
    the end of surgery. Raises `Unknown` for another agent or lens and `OutOfRange` for impossible numbers.
    """
    substance = _checked(agent, percent)
    within("a fill of", fill_percent, 0, 100, " %")
    one_of("lens", lens, LENSES)
    if agent == "none" or fill_percent == 0:
        return Forecast(_NOTHING, 1.0, 1.0, -math.inf, 0.0, 0.0, 0.0, 0.0)
    start = math.log(fill_percent / 100)
    k = math.log(2) / half_life_days(agent, percent, lens)  # 0 for liquids
    spread = _spread(substance, percent) if substance.fades else 0.0
    prior = Forecast(
        substance, growth(agent, percent), peak_days(agent, percent), start, k, FILL_ERROR.value**2, (k * spread) ** 2, 0.0
    )
    for level in sorted(seen, key=lambda o: (o.day, o.observer, o.meniscus_percent)):
        prior = prior.updated(level)
    return prior


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


def _interpolated(anchors: tuple[tuple[float, Figure], ...], percent: float) -> float:
    below = max((a for a in anchors if a[0] <= percent), key=lambda a: a[0])
    above = min((a for a in anchors if a[0] >= percent), key=lambda a: a[0], default=below)
    if above[0] == below[0]:
        return below[1].value
    return below[1].value + (above[1].value - below[1].value) * (percent - below[0]) / (above[0] - below[0])


def _spread(substance: Agent, percent: float) -> float:
    beyond = substance.half_lives[-1][0] < percent
    figure = SPREAD_BEYOND if beyond else substance.spread
    assert figure is not None
    return figure.value


def _height_error(seen: Observation) -> float:
    return (CLINIC_ERROR if seen.observer == "clinic" else PATIENT_ERROR).value / 100


def _log_fill(seen: Observation) -> tuple[float, float]:
    """Log of the fill for a level seen, and the error of that log carried over from the error of the height."""
    error = _height_error(seen)
    x = max(within("a bubble height of", seen.meniscus_percent, 0, 100, " %") / 100, error / 2)
    fill = x * x * (3 - 2 * x)
    return math.log(fill), max(SMALLEST_LOG_ERROR, 6 * x * (1 - x) * error / fill)


_NOTHING = AGENTS["none"]

MODEL = Model(
    "How the bubble fades",
    (
        "A gas bubble loses the same share of its volume each day: fill = start × growth × 2^(−t / half-life).",
        "Half-lives are published by gas, concentration and lens; between measured concentrations they are interpolated, from air at 0 %.",
        "A mix above its non-expansile concentration first grows, at most by the pure gas’s figure; fill never passes 100 %.",
        "Start and rate are uncertain together. Every level that is seen updates both exactly; "
        "a level seen in clinic weighs more than one the patient reports.",
        "A level more than 3 SD from the forecast is kept and flagged, and does not move the forecast.",
        "“Gone” has a cut of its own for each gas. The published range stands beside the model’s day.",
    ),
    (
        "No human half-life of C2F6 was found: its figure is derived from how long it is seen.",
        "No pseudophakic half-life of air or SF6 was found: the aphakic one is used.",
        "A pure exponential may underestimate days 1 to 4, while the gas still takes up nitrogen; no published lag was found.",
        "The forecast informs. It never lifts the caution on flying, climbing or nitrous oxide.",
    ),
    (
        AIR_PHAKIC, AIR_APHAKIC, AIR_MIXED, SF6_PHAKIC, SF6_APHAKIC, C2F6_HALF_LIFE, C3F8_5, C3F8_10_PHAKIC,
        C3F8_10_PSEUDOPHAKIC, C3F8_10_APHAKIC, C3F8_10_MIXED, C3F8_15, C3F8_20,
        *(f for a in AGENTS.values() for f in (a.non_expansile, a.pure_expansion, a.pure_peak, a.mix_peak, a.gone_below) if f),
        *(f for a in AGENTS.values() for f in (*a.published_gone, *(a.removal_window or ()))),
        SPREAD_MEASURED, SPREAD_ASSUMED, SPREAD_BEYOND, FILL_ERROR, CLINIC_ERROR, PATIENT_ERROR,
        CONTRADICTS_BEYOND, INTERVAL_Z, LINE_OF_SIGHT,
    ),
)  # fmt: skip
