"""Sphere geometry against the published arc-to-volume set, exact identities and numerical integration."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from followup.clinical import bubble
from followup.clinical.errors import OutOfRange, Unknown


# Fos10, introduction, citing Parver and Lincoff: 90 degrees is 0.28 mL in a 21 mm cavity; 0.75 and 2.4 mL from memory; 4.85 mL the sphere.
@pytest.mark.parametrize(("arc", "ml"), [(90, 0.28), (120, 0.75), (180, 2.42), (360, 4.849), (150, 1.504)])
def test_arc_to_volume_matches_the_published_set(arc: float, ml: float) -> None:
    assert bubble.cap_volume_ml(10.5, arc) == pytest.approx(ml, rel=0.015)


@pytest.mark.parametrize(
    ("radius", "ml_90", "ml_180"), [(9, 0.177, 1.53), (10, 0.243, 2.09), (11, 0.324, 2.79), (12, 0.420, 3.62)]
)
def test_other_cavities(radius: float, ml_90: float, ml_180: float) -> None:
    # Derived from the cap’s volume, pi h² (3 R - h) / 3 with h = R (1 - cos(arc / 2)).
    assert bubble.cap_volume_ml(radius, 90) == pytest.approx(ml_90, rel=0.005)
    assert bubble.cap_volume_ml(radius, 180) == pytest.approx(ml_180, rel=0.005)


def test_cap_volume_is_the_integral_of_its_slices() -> None:
    # Second opinion: scipy integrates the discs of the sphere.
    radius, arc = 10.5, 137.0
    height = radius * (1 - math.cos(math.radians(arc / 2)))
    area = lambda z: math.pi * (radius**2 - z**2)  # noqa: E731
    volume, _ = integrate.quad(area, radius - height, radius)
    assert bubble.cap_volume_ml(radius, arc) == pytest.approx(volume / 1000, rel=1e-9)


# Derived from the cap in a sphere: fill = x² (3 - 2 x), arc = 2 acos(1 - 2 x), x the height as a share of the whole.
@pytest.mark.parametrize(
    ("height", "fill", "arc"),
    [
        (0, 0, 0),
        (10, 2.8, 73.7),
        (20, 10.4, 106.3),
        (25, 15.6, 120),
        (30, 21.6, 132.8),
        (40, 35.2, 156.9),
        (50, 50, 180),
        (60, 64.8, 203.1),
        (70, 78.4, 227.2),
        (75, 84.4, 240),
        (80, 89.6, 253.7),
        (90, 97.2, 286.3),
        (100, 100, 360),
    ],
)
def test_height_is_not_volume(height: float, fill: float, arc: float) -> None:
    assert bubble.fill_percent(height) == pytest.approx(fill, abs=0.05)
    assert bubble.arc_of_height(height) == pytest.approx(arc, abs=0.05)
    assert bubble.meniscus_percent(fill) == pytest.approx(height, abs=0.05)


@pytest.mark.parametrize(
    ("fill", "height", "arc"), [(80, 71.3, 230.4), (10, 19.6, None), (25, 32.6, None), (70, 63.7, None), (90, 80.4, None)]
)
def test_fill_to_height(fill: float, height: float, arc: float | None) -> None:
    assert bubble.meniscus_percent(fill) == pytest.approx(height, abs=0.05)
    if arc is not None:
        assert bubble.arc_degrees(fill) == pytest.approx(arc, abs=0.05)


# The polynomial of the fill is a definition.
@pytest.mark.parametrize("fill", [1e-9, 9e-5, 1.1e-4, 0.01, 5, 30])
def test_the_height_of_a_small_fill_has_all_its_digits(fill: float) -> None:
    x = bubble.meniscus_percent(fill) / 100
    assert 100 * x * x * (3 - 2 * x) == pytest.approx(fill, rel=1e-13)


@given(st.floats(0, 100))
def test_height_and_fill_are_inverse_to_machine_precision(fill: float) -> None:
    assert bubble.fill_percent(bubble.meniscus_percent(fill)) == pytest.approx(fill, rel=1e-12, abs=1e-12)


@given(st.floats(0.01, 99.99))
def test_arc_and_fill_are_inverse(fill: float) -> None:
    assert bubble.fill_for_arc(bubble.arc_degrees(fill)) == pytest.approx(fill, rel=1e-9)


@given(st.floats(0, 100), st.floats(0, 100))
def test_less_gas_means_less_arc(a: float, b: float) -> None:
    less, more = sorted((a, b))
    assert bubble.arc_degrees(less) <= bubble.arc_degrees(more)


@given(st.floats(0.001, 99.999))
def test_the_bubble_and_the_fluid_mirror_each_other(fill: float) -> None:
    assert bubble.meniscus_percent(fill) + bubble.meniscus_percent(100 - fill) == pytest.approx(100, abs=1e-6)


# The relations of ABO (cubic in axial length, 144 eyes) and Zh (straight lines, MRI, 280 and 290 eyes), worked out by hand.
@pytest.mark.parametrize(
    ("axial", "relation", "ml"),
    [
        (22, "ABO", 4.12),
        (23.5, "ABO", 4.81),
        (24, "ABO", 5.05),
        (26, "ABO", 6.12),
        (28, "ABO", 7.36),
        (30, "ABO", 8.79),
        (24, "Zh", 4.67),
        (23, "Zh", 4.21),
        (28, "Zh-myopic", 8.32),
        (30, "Zh-myopic", 9.41),
    ],
)
def test_cavity_volume_from_axial_length(axial: float, relation: str, ml: float) -> None:
    assert bubble.cavity_ml(axial, relation) == pytest.approx(ml, abs=0.006)


def test_small_bubbles_are_marked_unreliable() -> None:
    # Fos10: about 0.3 mL in water-loving model eyes.
    assert not bubble.reliable(6.0, 4.85)
    assert bubble.reliable(6.2, 4.85)


@pytest.mark.parametrize(
    "call",
    [
        lambda: bubble.fill_percent(101),
        lambda: bubble.meniscus_percent(-1),
        lambda: bubble.fill_for_arc(361),
        lambda: bubble.cavity_ml(40),
    ],
)
def test_what_no_eye_has_is_refused(call: object) -> None:
    with pytest.raises(OutOfRange, match="accepted is"):
        call()  # type: ignore[operator]


def test_an_unknown_relation_is_named() -> None:
    with pytest.raises(Unknown, match="ABO"):
        bubble.cavity_ml(24, "mine")
