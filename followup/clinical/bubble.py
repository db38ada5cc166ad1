"""Sphere geometry of a bubble: volume fill, meniscus height and arc of contact, both ways.

With x the meniscus height as a share of the cavity's height: fill = x²(3 - 2x), arc = 2 acos(1 - 2x).

>>> round(fill_percent(30), 1), round(meniscus_percent(21.6), 1), round(arc_degrees(50))
(21.6, 30.0, 180)
"""

import math

from followup.clinical.errors import one_of, within
from followup.clinical.evidence import Figure, Model

UNRELIABLE_BELOW = Figure("volume below which a bubble stays rounded", 0.3, "mL", "Fos10")
CHECK_ARC_90 = Figure("cap of 90° in a 21 mm cavity", 0.28, "mL", "Fos10")

# Axial length (mm) to cavity volume, lowest power first. ABO gives mL, Zh gives cubic millimetres.
AXIAL_POLYNOMIALS: dict[str, tuple[tuple[float, ...], float, tuple[float, float]]] = {
    "ABO": ((-5.08822667262079, 0.685961117595624, -0.025114926401582700, 0.000589052857847605), 1.0, (20, 32)),
    "Zh": ((-6331.14, 458.35), 1000.0, (20, 26)),
    "Zh-myopic": ((-6977.12, 546.27), 1000.0, (26, 32)),
}


def fill_percent(meniscus_percent: float) -> float:
    """Volume fill in percent from the height of the meniscus in percent of the cavity's height."""
    x = within("a bubble height of", meniscus_percent, 0, 100, " %") / 100
    return 100 * x * x * (3 - 2 * x)


def meniscus_percent(fill_percent: float) -> float:
    """Height of the meniscus in percent, from the volume fill in percent: the exact root of the cubic."""
    f = within("a fill of", fill_percent, 0, 100, " %") / 100
    if f > 0.5:  # the cubic is symmetric about one half, and small numbers keep their digits
        return 100 - _height_of_small_fill(1 - f) * 100
    return _height_of_small_fill(f) * 100


def _height_of_small_fill(f: float) -> float:
    """The root of x²(3 - 2x) = f for 0 <= f <= 0.5: in closed form, then two Newton steps for the digits it lost."""
    x = math.sqrt(f / 3) if f < 1e-6 else 0.5 - math.sin(math.asin(1 - 2 * f) / 3)
    if x > 0:
        for _ in range(2):
            x -= (x * x * (3 - 2 * x) - f) / (6 * x * (1 - x))
    return x


def arc_degrees(fill_percent: float) -> float:
    """Arc of retina that the bubble touches, in degrees through the bubble's axis (0 to 360)."""
    return arc_of_height(meniscus_percent(fill_percent))


def arc_of_height(meniscus_percent: float) -> float:
    """Arc of contact in degrees from the meniscus height in percent."""
    x = within("a bubble height of", meniscus_percent, 0, 100, " %") / 100
    return math.degrees(2 * math.acos(1 - 2 * x))


def fill_for_arc(arc_degrees: float) -> float:
    """Volume fill in percent whose arc of contact is `arc_degrees` (0 to 360)."""
    within("an arc of", arc_degrees, 0, 360, "°")
    return fill_percent(100 * (1 - math.cos(math.radians(arc_degrees) / 2)) / 2)


def cap_volume_ml(radius_mm: float, arc_degrees: float) -> float:
    """Volume in mL of the spherical cap of that arc in a cavity of that radius [Fos10]."""
    height_mm = radius_mm * (1 - math.cos(math.radians(arc_degrees) / 2))
    return math.pi * height_mm**2 * (3 * radius_mm - height_mm) / 3000


def cavity_ml(axial_length_mm: float, relation: str = "ABO") -> float:
    """Vitreous cavity volume in mL from axial length in mm; show to 0.1 mL at most (published relations differ by 0.4)."""
    coefficients, per_ml, (low, high) = AXIAL_POLYNOMIALS[one_of("relation", relation, AXIAL_POLYNOMIALS)]
    within("an axial length of", axial_length_mm, low, high, " mm")
    return sum(c * axial_length_mm**power for power, c in enumerate(coefficients)) / per_ml


def reliable(fill_percent: float, cavity_volume_ml: float = 4.85) -> bool:
    """Whether the flat-meniscus geometry holds; below about 0.3 mL a bubble stays rounded [Fos10]."""
    return fill_percent / 100 * cavity_volume_ml >= UNRELIABLE_BELOW.value


MODEL = Model(
    "Bubble geometry",
    (
        "The cavity is taken as a sphere and the bubble as a cap with a flat lower edge.",
        "With x the height of the meniscus as a share of the cavity: volume fill = x²(3 − 2x), arc of contact = 2·acos(1 − 2x).",
        "Height is not volume: a bubble 30 % high fills 21.6 % of the cavity.",
        "Cavity volume from axial length a (mm): 0.000589a³ − 0.0251a² + 0.686a − 5.088 mL (20–32 mm).",
    ),
    (
        "Bubbles below about 0.3 mL stay rounded: the cap overstates what they touch.",
        "Volumes are shown to 0.1 mL at most: published relations differ by 0.3 to 0.4 mL.",
    ),
    (CHECK_ARC_90, UNRELIABLE_BELOW),
)
