"""Coverage against the published and derived rules for breaks and head positions, and against numpy's vectors."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import coverage as c
from followup.clinical.bubble import arc_degrees
from followup.clinical.errors import OutOfRange, Unknown


def best(clock: float, reach: str = "equator", fill: float = 60, moves: c.Moves = "floats") -> str:
    return c.best_postures([c.Break(clock, reach)], fill, moves)[0].name


# Derived: gas lies uppermost, and the left cheek on the pillow puts the patient’s right side (9 o’clock as the examiner sees
# either eye) uppermost. Upright for what lies above: common practice, no source.
@pytest.mark.parametrize(
    ("clock", "posture"), [(9, "left-cheek"), (3, "right-cheek"), (12, "upright"), (11, "upright"), (1, "upright")]
)
def test_breaks_have_their_posture(clock: int, posture: str) -> None:
    assert best(clock) == posture


def test_the_macula_is_covered_face_down() -> None:
    # VRS: face down for the macula.
    assert best(12, "macula") == "face-down"


def test_heavy_oil_covers_below_when_upright_and_never_face_down() -> None:
    # HSO14: inferior support (Morescalchi et al., BioMed Res Int 2014;574825); face-down is the wrong default (common practice).
    names = [p.name for p in c.best_postures([c.Break(6, "equator")], 90, "sinks")]
    assert names[0] == "upright"
    assert "face-down" not in names


def test_face_up_is_never_proposed_with_what_floats() -> None:
    # Common practice, no source: gas lies on the lens then.
    for clock in range(1, 13):
        assert "face-up" not in [p.name for p in c.best_postures([c.Break(clock, "periphery")], 90)]


# Definition: nasal is towards the nose, so it swaps between the eyes; clock hours, as the examiner sees them, do not.
@pytest.mark.parametrize(
    ("side", "eye", "clock"),
    [("temporal", "right", 9), ("temporal", "left", 3), ("nasal", "right", 3), ("nasal", "left", 9)],
)
def test_nasal_and_temporal(side: str, eye: str, clock: int) -> None:
    assert c.clock_hour(side, eye) == clock


def test_upright_covers_twelve_by_half_the_arc() -> None:
    # Derived: a half-full sphere is covered to 90 degrees from the top.
    cover = c.cover([c.Break(12, "equator")], 50, "upright")
    assert cover.margin_degrees == pytest.approx(90)
    assert cover.covered
    assert c.cover([c.Break(6, "equator")], 50, "upright").margin_degrees == pytest.approx(-90)


def test_reaches_lie_where_anatomy_puts_them() -> None:
    # Equator 90 degrees from the posterior pole by definition; arcade about 30 and periphery about 105, from memory.
    face_down = {r: c.angle_degrees(c.Break(12, r), c.POSTURES["face-down"]) for r in c.REACHES}
    assert face_down == pytest.approx({"macula": 0, "arcade": 30, "equator": 90, "periphery": 105})


def test_the_worst_break_decides() -> None:
    breaks = [c.Break(11, "equator"), c.Break(2, "equator")]
    alone = [c.cover([b], 60, "upright").margin_degrees for b in breaks]
    assert c.cover(breaks, 60, "upright").margin_degrees == pytest.approx(min(alone))


@given(
    st.floats(1, 12),
    st.sampled_from(list(c.REACHES)),
    st.floats(0.5, 99.5),
    st.sampled_from(["upright", "face-down", "face-up"]),
)
def test_mirrored_break_has_the_mirrored_answer(clock: float, reach: str, fill: float, posture: str) -> None:
    mirrored = c.Break(12 - clock if clock <= 11.5 else 24 - clock, reach)
    assert c.cover([c.Break(clock, reach)], fill, posture).margin_degrees == pytest.approx(
        c.cover([mirrored], fill, posture).margin_degrees
    )
    left, right = c.cover([c.Break(clock, reach)], fill, "left-cheek"), c.cover([mirrored], fill, "right-cheek")
    assert left.margin_degrees == pytest.approx(right.margin_degrees)


@given(
    st.floats(0.5, 12.5),
    st.sampled_from(list(c.REACHES)),
    st.sampled_from(list(c.POSTURES)),
    st.floats(0, 100),
    st.floats(0, 100),
)
def test_less_gas_covers_less(clock: float, reach: str, posture: str, a: float, b: float) -> None:
    less, more = sorted((a, b))
    at = [c.Break(clock, reach)]
    assert c.cover(at, less, posture).margin_degrees <= c.cover(at, more, posture).margin_degrees


@given(st.floats(0.5, 12.5), st.sampled_from(list(c.REACHES)), st.floats(-90, 90), st.floats(-180, 180))
def test_angles_are_those_between_unit_vectors(clock: float, reach: str, pitch: float, roll: float) -> None:
    # Second opinion: numpy rotates a head by matrices.
    p, r = math.radians(pitch), math.radians(roll)
    about_x = np.array([[1, 0, 0], [0, math.cos(p), math.sin(p)], [0, -math.sin(p), math.cos(p)]])
    about_z = np.array([[math.cos(r), math.sin(r), 0], [-math.sin(r), math.cos(r), 0], [0, 0, 1]])
    up = about_z @ about_x @ np.array([0.0, 1.0, 0.0])
    assert c.up_vector(pitch, roll) == pytest.approx(tuple(up), abs=1e-9)
    at = c.Break(clock, reach)
    expected = math.degrees(math.acos(max(-1, min(1, float(np.dot(at.direction, up))))))
    assert c.angle_degrees(at, c.up_vector(pitch, roll)) == pytest.approx(expected, abs=1e-5)


# By definition the named postures are tilts: upright, 90 degrees forward, 90 to either shoulder, and back.
@pytest.mark.parametrize(
    ("name", "pitch", "roll"),
    [("upright", 0, 0), ("face-down", 90, 0), ("face-up", -90, 0), ("left-cheek", 0, 90), ("right-cheek", 0, -90)],
)
def test_named_postures_are_tilts(name: str, pitch: float, roll: float) -> None:
    assert c.up_vector(pitch, roll) == pytest.approx(c.POSTURES[name], abs=1e-12)


def test_a_tilt_between_covers_an_oblique_break_best() -> None:
    oblique = [c.Break(10.5, "equator")]
    tilted = c.cover_tilted(oblique, 60, 0, 45)
    assert tilted.margin_degrees == pytest.approx(arc_degrees(60) / 2)
    assert tilted.margin_degrees > c.cover(oblique, 60, "upright").margin_degrees
    assert "roll 45" in tilted.name


@given(st.floats(0.5, 12.5), st.sampled_from(["arcade", "equator", "periphery"]), st.sampled_from(list(c.POSTURES)))
def test_fill_needed_just_covers(clock: float, reach: str, posture: str) -> None:
    at = [c.Break(clock, reach)]
    assert c.cover(at, c.fill_needed_percent(at, posture), posture).margin_degrees == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(
    ("call", "error"),
    [
        (lambda: c.Break(13, "equator"), OutOfRange),
        (lambda: c.Break(3, "ora"), Unknown),
        (lambda: c.cover([], 50, "upright"), Unknown),
        (lambda: c.cover([c.Break(3, "macula")], 50, "sideways"), Unknown),
        (lambda: c.clock_hour("nasal", "middle"), Unknown),
        (lambda: c.clock_hour("up", "left"), Unknown),
        (lambda: c.fill_needed_percent([c.Break(3, "macula")], "sideways"), Unknown),
    ],
)
def test_bad_values_are_named(call: object, error: type) -> None:
    with pytest.raises(error):
        call()  # type: ignore[operator]


@given(
    st.floats(1, 100), st.sampled_from(list(c.REACHES)), st.sampled_from(list(c.POSTURES)), st.sampled_from(["floats", "sinks"]),
    st.floats(0.5, 12.5),
)  # fmt: skip
def test_the_hours_drawn_as_covered_are_those_that_are(
    fill: float, reach: str, posture: str, moves: c.Moves, clock: float
) -> None:
    margin = c.cover([c.Break(clock, reach)], fill, posture, moves).margin_degrees
    hours = c.hours_covered(reach, fill, posture, moves)
    off = 6.0 if hours is None else abs((clock - hours[0] + 6) % 12 - 6)
    if abs(margin) > 0.01:
        assert (hours is not None and off <= hours[1] / 2) is (margin > 0)
