"""Heights against the ICAO standard atmosphere (Doc 7488/3, 1993, table 1), and ratios derived from it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import altitude
from followup.clinical.errors import OutOfRange, Unreadable


# ICAO Doc 7488/3, Manual of the ICAO Standard Atmosphere, 1993, table 1, pressure in hPa; the last two rows
# from memory.
@pytest.mark.parametrize(
    ("metres", "hpa"),
    [
        (0, 1013.25),
        (500, 954.6),
        (610, 942.1),
        (1000, 898.7),
        (1500, 845.6),
        (2000, 795.0),
        (2438, 752.7),
        (3000, 701.1),
        (5000, 540.2),
        (11000, 226.3),
    ],
)
def test_standard_atmosphere(metres: float, hpa: float) -> None:
    assert altitude.pressure_hpa(metres) == pytest.approx(hpa, rel=0.001)


@pytest.mark.parametrize(
    ("metres", "dry", "wet"),
    [
        (500, 1.061, 1.066),
        (1000, 1.127, 1.137),
        (1500, 1.198, 1.214),
        (2000, 1.275, 1.298),
        (2438, 1.346, 1.378),
        (3000, 1.445, 1.489),
    ],
)
def test_expansion_from_sea_level(metres: float, dry: float, wet: float) -> None:
    # Derived: Boyle dry, and with 47 mmHg of water vapour taken off.
    assert altitude.expansion(metres, wet=False) == pytest.approx(dry, abs=0.001)
    assert altitude.expansion(metres) == pytest.approx(wet, abs=0.001)


def test_height_counts_from_the_place_of_surgery() -> None:
    # Derived: 845.6 / 752.7 hPa of the table above.
    assert altitude.expansion(2438, 1500, wet=False) == pytest.approx(1.123, abs=0.001)


def test_eight_thousand_feet() -> None:
    # Definition: the international foot is 0.3048 m.
    assert pytest.approx(2438.4) == 8000 * altitude.METRES_PER_FOOT


def test_coming_down_and_climbing_back_counts_as_climbing() -> None:
    # Gse16: returning to the height of surgery can still peak, because the eye refills below.
    there_and_back = altitude.journey([20, 790], surgery_metres=790)
    assert (there_and_back.from_metres, there_and_back.to_metres, there_and_back.climb_metres) == (20, 790, 770)
    assert there_and_back.expansion == pytest.approx(altitude.expansion(790, 20))


def test_a_journey_takes_its_worst_climb() -> None:
    assert altitude.journey([500, 200, 900, 1000], 100).climb_metres == 900
    assert altitude.journey([50, 10], 100).climb_metres == 0


@pytest.mark.parametrize("metres", [11001, -431])
def test_outside_the_formula_is_refused(metres: float) -> None:
    with pytest.raises(OutOfRange):
        altitude.pressure_hpa(metres)


def test_an_empty_journey_is_refused() -> None:
    with pytest.raises(Unreadable):
        altitude.journey([])


@given(st.floats(-430, 11000), st.floats(-430, 11000))
def test_higher_means_more_expansion(a: float, b: float) -> None:
    low, high = sorted((a, b))
    assert altitude.expansion(high) >= altitude.expansion(low)
    assert altitude.expansion(low, high) * altitude.expansion(high, low) == pytest.approx(1)


@given(st.floats(0, 5000))
def test_wet_gas_grows_more_than_dry(metres: float) -> None:
    assert altitude.expansion(metres) >= altitude.expansion(metres, wet=False)
