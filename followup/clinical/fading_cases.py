"""The grid of cases that a forecast weighs: start (error of its logarithm), life (SD of its logarithm from the typical eye), shape."""

import itertools
import math
from collections.abc import Sequence
from statistics import NormalDist

from followup.clinical import bubble
from followup.clinical.evidence import Figure
from followup.clinical.seen_levels import PATIENT_BIAS

START_ERROR = Figure("error of a surgeon’s estimate of fill (1 SD of its logarithm), two eyes in three", 0.15, "", "Can20", "derived",
                     "82 % of eyes hold 80 % or more on day 1; 11 of 16 eyes of Mey92 do")  # fmt: skip
START_ERROR_OTHER = Figure(
    "the same in the third eye, which holds a quarter less in the middle", 0.5, "", "Mey92", "derived"
)
LIQUID_START_ERROR = Figure(
    "error of a surgeon’s estimate of an oil fill (1 SD of its logarithm)", 0.10, "", "CP", "common practice"
)
SHAPES = (1.0, 1.5, 2.0)
LONGER_BY = tuple(-2.8 + 0.4 * n for n in range(15))
_START = (-1.5, -1.1, -0.8, -0.57, -0.4, -0.27, -0.17, -0.08, 0.0, 0.08, 0.17, 0.35)
_START_SHARE = 0.35  # of the eyes in which the surgeon’s estimate says little
_START_MIDDLES = (0.04, -0.3)  # of the others and of these, so that the median start is the surgeon’s estimate
_BIASES = (-0.2, -0.1, 0.0, 0.1, 0.2)
NEGLIGIBLE = 1e-12
NORMAL = NormalDist()


def _shares(nodes: Sequence[float], *mixed: tuple[float, NormalDist]) -> list[float]:
    """Weight of each node: the probability that a mixture lies nearer to it than to its neighbours."""
    edges = [(a + b) / 2 for a, b in itertools.pairwise(nodes)]
    below = [0.0, *(sum(share * law.cdf(edge) for share, law in mixed) for edge in edges), 1.0]
    return [high - low for low, high in itertools.pairwise(below)]


STARTS = tuple(math.exp(z) for z in _START)
OF_STARTS = _shares(
    _START,
    (1 - _START_SHARE, NormalDist(_START_MIDDLES[0], START_ERROR.value)),
    (_START_SHARE, NormalDist(_START_MIDDLES[1], START_ERROR_OTHER.value)),
)
OF_LIQUID_STARTS = _shares(_START, (1.0, NormalDist(0.0, LIQUID_START_ERROR.value)))
OF_COURSES = [share / len(SHAPES) for share in _shares(LONGER_BY, (1.0, NORMAL)) for _ in SHAPES]
OF_BIASES = _shares(_BIASES, (1.0, NormalDist(0.0, PATIENT_BIAS.value / 100)))

# Heights are worked with in steps of half a percent; the table leads from fill to the step.
_STEPS = 200
BIAS_STEPS = tuple(round(bias * _STEPS) for bias in _BIASES)
MOST_BIAS = max(BIAS_STEPS)
EXPECTED = tuple(n / _STEPS for n in range(-MOST_BIAS, _STEPS + MOST_BIAS + 1))  # heights as a biased eye sees them
CELLS = 2000
STEP_OF = (*(round(bubble.meniscus_percent((n + 0.5) / CELLS * 100) / 100 * _STEPS) for n in range(CELLS)), _STEPS)


def quantiles(values: Sequence[float], weights: Sequence[float], shares: Sequence[float]) -> list[float]:
    """Weighted quantiles for rising `shares`, between the middles of the cases in a straight line."""
    cases = sorted(case for case in zip(values, weights, strict=True) if case[1] > NEGLIGIBLE)
    found: list[float] = []
    value, reached, below = cases[0][0], 0.0, 0.0
    for at, weight in cases:
        middle = below + weight / 2
        while len(found) < len(shares) and middle >= shares[len(found)]:
            part = (shares[len(found)] - reached) / (middle - reached)
            found.append(value + (at - value) * part)
        value, reached, below = at, middle, below + weight
    return found + [value] * (len(shares) - len(found))
