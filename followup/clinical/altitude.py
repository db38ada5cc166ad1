"""Height and gas: standard atmosphere, expansion of wet gas, journeys with several heights.

>>> round(pressure_hpa(2438), 1), round(expansion(2438), 3), round(expansion(2438, wet=False), 3)
(752.7, 1.378, 1.346)
"""

from collections.abc import Sequence
from dataclasses import dataclass

from followup.clinical.errors import Unreadable, within
from followup.clinical.evidence import Figure, Model

SEA_LEVEL_HPA = Figure("pressure at sea level", 1013.25, "hPa", "ICAO")
SEA_LEVEL_K = Figure("temperature at sea level", 288.15, "K", "ICAO")
LAPSE_K_PER_M = Figure("temperature lapse", 0.0065, "K/m", "ICAO")
EXPONENT = Figure("exponent g·M/(R·L)", 5.25588, "", "ICAO")
CEILING_M = Figure("height the formula is valid to", 11000, "m", "ICAO")
LOWEST_M = Figure("lowest inhabited land, about", -430, "m", "CP", "memory")
WATER_VAPOUR_HPA = Figure("water vapour at 37 °C (47 mmHg)", 62.66, "hPa", "DEF")
CABIN_M = Figure("highest cabin height of an airliner (8000 ft)", 2438, "m", "Lin89b")
MOUNTAIN_ROAD_M = Figure("highest point of a road journey that 75 patients tolerated", 1187, "m", "Mtn")
RISE_PER_100_M = Figure("human estimate of pressure rise, pure SF6, for 100 m climbed", 2.1, "mmHg", "Mex16")

METRES_PER_FOOT = 0.3048


@dataclass(frozen=True, slots=True)
class Journey:
    """The worst climb of a journey: from its lowest point so far, the place of surgery included.

    Coming down and climbing back counts as climbing: the eye refills with fluid below [Gse16].
    """

    from_metres: float
    to_metres: float
    climb_metres: float
    expansion: float


def pressure_hpa(metres: float) -> float:
    """Standard-atmosphere pressure in hPa at a height in metres (-430 to 11 000) [ICAO]."""
    within("a height of", metres, LOWEST_M.value, CEILING_M.value, " m")
    return float(SEA_LEVEL_HPA.value * (1 - LAPSE_K_PER_M.value * metres / SEA_LEVEL_K.value) ** EXPONENT.value)


def expansion(metres: float, from_metres: float = 0.0, *, wet: bool = True) -> float:
    """Volume ratio of free gas going from one height to another.

    Wet (the default, as in the eye) leaves out the water vapour, whose pressure does not change.
    """
    vapour = WATER_VAPOUR_HPA.value if wet else 0.0
    return (pressure_hpa(from_metres) - vapour) / (pressure_hpa(metres) - vapour)


def journey(heights_metres: Sequence[float], surgery_metres: float = 0.0) -> Journey:
    """The worst climb of a journey in metres and as a wet expansion ratio; at least one height."""
    if not heights_metres:
        raise Unreadable("a journey needs at least one height in metres")
    lowest = surgery_metres
    worst = Journey(surgery_metres, surgery_metres, 0.0, 1.0)
    for height in heights_metres:
        ratio = expansion(height, lowest)
        if ratio > worst.expansion:
            worst = Journey(lowest, height, height - lowest, ratio)
        lowest = min(lowest, height)
    return worst


MODEL = Model(
    "Height and gas",
    (
        "Pressure falls with height as in the standard atmosphere: p = 1013.25·(1 − 0.0065·h / 288.15)^5.25588 hPa, to 11 km.",
        "Gas in the eye is wet: it grows by (p₀ − 62.7) / (p − 62.7). At 2438 m (8000 ft) that is 1.378, dry 1.346.",
        "Height counts from where the operation was done. Coming down and climbing back counts as climbing.",
    ),
    (
        "The ratio is for free gas. In an eye the wall holds back, and the pressure rises instead.",
        "Elapsed time never clears anyone to fly or climb: only a clinician’s record that no gas is seen does.",
    ),
    (
        SEA_LEVEL_HPA,
        SEA_LEVEL_K,
        LAPSE_K_PER_M,
        EXPONENT,
        CEILING_M,
        WATER_VAPOUR_HPA,
        CABIN_M,
        MOUNTAIN_ROAD_M,
        RISE_PER_100_M,
    ),
)
