"""The picture of one's own weeks: what is drawn stands where its value is. Geometry by hand."""

from typing import Any

from tests.phone.conftest import Run

SCRIPT = """
import { drawing } from "./patient/later/picture.js";

globalThis.document = { createElementNS: (_space, name) => ({
    name, attributes: {}, parts: [],
    setAttribute(key, value) { this.attributes[key] = value; },
    append(...more) { this.parts.push(...more); },
}) };
answer = given.map((arguments_) => drawing(...arguments_).parts.map(({ name, attributes }) => ({ name, ...attributes })));
""".strip()


def drawn(run: Run, *cases: list[Any]) -> list[list[dict[str, str]]]:
    found: list[list[dict[str, str]]] = run(SCRIPT, list(cases))
    return found


def test_values_stand_at_their_height_and_day_and_what_is_missing_is_not_drawn(run: Run) -> None:
    (parts,) = drawn(run, ["line", [0, None, 10], 10])
    ground, line, *dots = parts
    assert ground["class"] == "ground"
    # 320 wide and 72 high with 4 around: three days of 104, nought at 68, ten at 4.
    assert line["d"] == "M56 68L264 4"
    assert [(dot["cx"], dot["cy"]) for dot in dots] == [("56", "68"), ("264", "4")]


def test_bars_stand_on_the_ground_and_never_above_the_top(run: Run) -> None:
    (parts,) = drawn(run, ["bars", [6, 30, None], 12, 12])
    _, goal, half, whole = parts
    assert goal["d"] == "M0 4H320"
    assert (half["y"], half["height"]) == ("36", "32")
    assert (whole["y"], whole["height"]) == ("4", "64")


def test_a_mark_and_a_single_value_are_dots(run: Run) -> None:
    marks, one, none = drawn(run, ["marks", [None, True], 1], ["line", [5], 10], ["line", [], 10])
    assert [part["name"] for part in marks] == ["path", "circle"]
    assert marks[1]["cy"] == "36"
    assert [part["name"] for part in one] == ["path", "circle"]
    assert [part["name"] for part in none] == ["path"]
