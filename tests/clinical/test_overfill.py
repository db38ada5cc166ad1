"""Strength and fill that outgrow the eye: the derived line between the published ends (RCO18: 20, 16, 14 %; 2, 3, 4 times)."""

from typing import Any

import pytest

from followup.clinical import agents, overfill
from tests.courses import at, measures, rules, signs


# Derived from RCO18: a straight line from 1 at the strength that does not expand to 2, 3 and 4 at 100 %,
# 1 + (X - 1) (c - c0) / (100 - c0). SF6 30 %: 1 + 10 / 80 = 1.125; C3F8 28 %: 1 + 3 × 14 / 86 = 1.488.
@pytest.mark.parametrize(
    ("agent", "percent", "times"),
    [
        ("sf6", 18, 1), ("sf6", 20, 1), ("sf6", 30, 1.125), ("sf6", 100, 2), ("c2f6", 20, 1.095), ("c2f6", 32, 1.381),
        ("c2f6", 100, 3), ("c3f8", 16, 1.070), ("c3f8", 28, 1.488), ("c3f8", 100, 4), ("air", 100, 1), ("silicone-oil", 0, 1),
    ],
)  # fmt: skip
def test_a_stronger_mix_grows_more(agent: str, percent: float, times: float) -> None:
    assert agents.growth(agent, percent) == pytest.approx(times, abs=0.0006)


@pytest.mark.parametrize(
    ("agent", "percent", "fill", "asked"),
    [
        ("c3f8", 20, 95, True), ("c3f8", 14, 100, False), ("sf6", 30, 90, False), ("sf6", 30, 94, True),
        ("sf6", 100, 52.5, False), ("sf6", 100, 53, True), ("air", 100, 100, False),
    ],
)  # fmt: skip
def test_what_outgrows_the_eye_is_asked_about_and_flagged(agent: str, percent: float, fill: float, asked: bool) -> None:
    operation: dict[str, Any] = {"agent": agent, "percent": percent, "fill_percent": fill}
    assert (overfill.question(agent, percent, fill) is not None) is asked
    found = [s for s in signs([], 0.1, **operation) if s.rule == "gas-will-outgrow-eye"]
    assert [(s.raised_at, s.how_soon) for s in found] == ([(at(0), "today")] if asked else [])


def test_the_question_names_strength_fill_and_what_would_come() -> None:
    assert overfill.question("c3f8", 20, 95) is not None
    assert str(overfill.question("c3f8", 20, 95)).startswith("Perfluoropropane")
    assert "20 % in an eye 95 % full would grow to about 115 %" in str(overfill.question("c3f8", 20, 95))


def test_a_strength_that_fits_is_left_alone_whatever_is_seen_later() -> None:
    assert "gas-will-outgrow-eye" not in rules(signs([measures(1, bubble_percent=100)], 2))
