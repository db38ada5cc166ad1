"""A level that somebody saw, and how probable it is where another was expected: by the clinic or by the patient."""

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Literal

from followup.clinical import bubble
from followup.clinical.errors import within
from followup.clinical.evidence import Figure

Observer = Literal["clinic", "patient"]
CLINIC_ERROR = Figure("error of a level seen in clinic (1 SD)", 7, "% of height", "Mey92", "derived",
                      "against volume withdrawn 7 % of the cavity [Th92]")  # fmt: skip
PATIENT_ERROR = Figure("error of a level the patient reports (1 SD)", 12, "% of height", "CP", "common practice")
PATIENT_BIAS = Figure(
    "what one patient sees too high or too low every time (1 SD)", 10, "% of height", "CP", "common practice"
)
CONTRADICTS_BEYOND = Figure("a level this many SD off is flagged", 3, "SD", "CP", "common practice")
READ_AS_FULL = Figure("fill from which a level is read as full", 99, "%", "DEF", "derived")
READ_AS_NONE = Figure("fill up to which a level is read as none", 1, "%", "DEF", "derived")
ERRORS: dict[Observer, float] = {"clinic": CLINIC_ERROR.value / 100, "patient": PATIENT_ERROR.value / 100}
FULL_FROM = bubble.meniscus_percent(READ_AS_FULL.value) / 100
NONE_TO = bubble.meniscus_percent(READ_AS_NONE.value) / 100


@dataclass(frozen=True, slots=True)
class Observation:
    """A level somebody saw: meniscus height in percent, days after surgery, and who saw it."""

    day: float
    meniscus_percent: float
    observer: Observer = "clinic"


def height_of(seen: Observation) -> float:
    """The height that was seen, 0 to 1. Raises `OutOfRange`."""
    return within("a bubble height of", seen.meniscus_percent, 0, 100, " %") / 100


def scale_of(observer: Observer) -> float:
    """Scale of Student’s t with three degrees of freedom whose standard deviation is the observer’s error."""
    return ERRORS[observer] / math.sqrt(3)


def likelihood_of(height: float, scale: float) -> Callable[[float], float]:
    """How probable the level seen is for an expected height, up to a constant factor."""
    if height >= FULL_FROM:
        return lambda expected: _t_below((expected - FULL_FROM) / scale)
    if height <= NONE_TO:
        return lambda expected: _t_below((NONE_TO - expected) / scale)
    narrow = 1 / (3 * scale * scale)

    def density(expected: float) -> float:
        off = expected - height
        return 1 / (1 + off * off * narrow) ** 2

    return density


def _t_below(t: float) -> float:
    """Probability that Student’s t with three degrees of freedom is below `t`."""
    x = t / math.sqrt(3)
    return 0.5 + (math.atan(x) + x / (1 + x * x)) / math.pi


def height_below(weights: Mapping[float, float], scale: float, share: float) -> float:
    """The height below which the next level lies with that probability, by halving."""
    low, high = -1.0, 2.0
    for _ in range(20):
        middle = (low + high) / 2
        if sum(weight * _t_below((middle - height) / scale) for height, weight in weights.items()) < share:
            low = middle
        else:
            high = middle
    return (low + high) / 2
