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

import math
from collections.abc import Sequence
from functools import lru_cache

from followup.clinical.agents import (
    AGENTS,
    AIR_APHAKIC,
    AIR_PHAKIC,
    C3F8_10_APHAKIC,
    C3F8_10_PHAKIC,
    C3F8_10_PSEUDOPHAKIC,
    CONCENTRATION_POWER,
    GONE_BELOW,
    SF6_APHAKIC,
    SF6_PHAKIC,
    SPREAD_ASSUMED,
    SPREAD_BEYOND,
    SPREAD_MEASURED,
    Agent,
    expansile,
    growth,
    known_agent,
    life_days,
    peak_days,
    spread_of,
)
from followup.clinical.coverage import Break, fill_needed_percent
from followup.clinical.errors import within
from followup.clinical.evidence import Model
from followup.clinical.fading_cases import (
    LIQUID_START_ERROR,
    LONGER_BY,
    OF_COURSES,
    OF_LIQUID_STARTS,
    OF_STARTS,
    SHAPES,
    START_ERROR,
    START_ERROR_OTHER,
)
from followup.clinical.forecasts import INTERVAL, LINE_OF_SIGHT, Days, Forecast
from followup.clinical.seen_levels import (
    CLINIC_ERROR,
    CONTRADICTS_BEYOND,
    PATIENT_BIAS,
    PATIENT_ERROR,
    READ_AS_FULL,
    READ_AS_NONE,
    Observation,
)


def forecast(
    agent: str, percent: float, fill_percent: float, lens: str = "phakic", seen: Sequence[Observation] = ()
) -> Forecast:
    """Forecast of fill from the end of surgery, updated by every level seen (in order of day, whatever order they came in).

    `percent` is the concentration of gas in air (ignored for air and liquids), `fill_percent` the fill at
    the end of surgery. Raises `Unknown` for another agent or lens and `OutOfRange` for impossible numbers.
    """
    latest = _prior(known_agent(agent, percent), agent, percent, fill_percent, lens)
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
        spread, halvings = spread_of(substance, percent), math.log2(100 / GONE_BELOW.value)
        courses = tuple(
            (life * math.exp(spread * z) / halvings ** (1 / shape), shape) for z in LONGER_BY for shape in SHAPES
        )
        weights = tuple(a * b for a in OF_STARTS for b in OF_COURSES)
    else:
        courses, weights = ((math.inf, 1.0),), tuple(OF_LIQUID_STARTS)
    peak = peak_days(agent, percent)
    lag = peak * expansile(AGENTS[agent], percent)
    return Forecast(substance, fill_percent / 100, growth(agent, percent), peak, lag, courses, (weights,))


def cover_lost(forecast: Forecast, breaks: Sequence[Break], posture: str) -> Days | None:
    """The day on which the bubble no longer reaches every break in that posture; None for no break or what does not fade."""
    if not breaks:
        return None
    needed = fill_needed_percent(breaks, posture, forecast.agent.moves)
    return forecast.day_below(min(100.0, needed)) if needed > 0 else None


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
