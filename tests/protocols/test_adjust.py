"""Adjusting a protocol changes exactly the numbers asked for; the text is read again by another TOML library."""

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest

from followup.protocols import adjust, book


def numbers(value: Any) -> Iterator[float]:
    """Every number in a TOML document as the standard library reads it."""
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list):
        for part in value:
            yield from numbers(part)
    elif isinstance(value, int | float) and not isinstance(value, bool):
        yield value


@pytest.mark.parametrize("part", book.PARTS)
def test_every_number_can_be_adjusted_and_none_changes_by_itself(part: str) -> None:
    text = book.draft_text(part)
    settings = [s for entry in adjust.entries(text) for s in entry.settings]
    assert sorted(float(s.value) for s in settings if not s.choices) == sorted(numbers(tomllib.loads(text)))
    assert adjust.adjusted(text, {s.path: s.value for s in settings}) == text
    assert len({s.path for s in settings}) == len(settings)


def test_one_number_changes_one_line_and_keeps_every_comment() -> None:
    text = book.draft_text("rulebook")
    spike = next(e for e in adjust.entries(text) if e.name == "pressure-spike")
    (path,) = [s.path for s in spike.settings if s.label == "threshold mmHg"]
    changed = adjust.adjusted(text, {path: "38,5"})
    lines = [(a, b) for a, b in zip(text.splitlines(), changed.splitlines(), strict=True) if a != b]
    assert lines == [("threshold = { mmhg = 30 }", "threshold = { mmhg = 38.5 }")]
    assert [(r["threshold"]) for r in tomllib.loads(changed)["rules"] if r["id"] == "pressure-spike"] == [{"mmhg": 38.5}]
    assert adjust.differences(text, changed) == [("pressure-spike", "threshold mmHg", "30", "38.5")]


def test_how_soon_and_position_are_choices() -> None:
    text = book.draft_text("postures")
    first = adjust.entries(text)[0].settings[0]
    assert (first.label, "left-cheek" in first.choices) == ("position", True)
    assert tomllib.loads(adjust.adjusted(text, {first.path: "left-cheek"}))["plans"][0]["position"] == "left-cheek"


def test_what_is_no_number_or_no_toml_is_said_to_be_so() -> None:
    text = book.draft_text("rulebook")
    with pytest.raises(book.ProtocolError, match="spike from: “lots” is not a number"):
        adjust.adjusted(text, {"bands.spike_from": "lots"})
    with pytest.raises(book.ProtocolError, match="not TOML"):
        adjust.entries("rules = [")
    assert adjust.adjusted(text, {"no.such.place": "1"}) == text
