"""Heights of a journey as people type them: each writing of a thousand that is known, and what is asked about.

Marks of thousands: Unicode CLDR, *Number symbols* (group: comma, full stop, no-break and narrow no-break space, right single
quotation mark, Arabic thousands separator); the International System of Units, 9th brochure, 5.4.4 (a thin space).
"""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { parts } from "./parts.js";
import { BubbleView } from "./patient/bubble-view.js";

const gas = {
    caution: true, fades: true, anaesthetics: [],
    heights: [{
        from_metres: 1000, climb_metres: 250, how_soon: "now", words: "high", valid_from: "2000-01-01", valid_until: "2100-01-01",
    }],
};
const eyes = [{ operation: "a", eye: "right", gas, bubble: [], visits: [] }];
answer = [];
for (const [home, height] of given) {
    const byId = parts();
    const kept = [];
    const receipt = { made_at: Date.now(), received_at: Date.now(), seen_at: Date.now() };
    const save = async (kind, body) => kept.push(body.heights_metres);
    const view = new BubbleView({ eyes: () => eyes, receipt: () => receipt, save }, { eye: {}, agent: {} });
    view.show({ eye: eyes[0], eyes, pack: { eyes, ended: [] }, names: new Map([["a", "right eye"]]) });
    byId("journey-said").hidden = true;
    [byId("journey-home").value, byId("journey-height").value] = [home, height];
    await byId("journey").tell("submit");
    answer.push({
        kept, error: byId("journey-error").textContent,
        said: byId("journey-said").hidden ? null : [byId("journey-title").textContent, byId("journey-words").said],
    });
}
""".strip()
MARKS = ",.\u0020\u00a0\u2009\u202f'\u2019\u066c\u060c"
THOUSANDS = [f"2{mark}500" for mark in MARKS]
HIGH = [*THOUSANDS, "2500", " 2.500 ", "2500 m", "2,500m", "٢٥٠٠", "٢٬٥٠٠", "۲۵۰۰"]
LOW = {"0": 0, "800": 800, "1.200": 1200, "11,000": 11000, "11 000": 11000, "-430": -430, "\u221228": -28, "٨٠٠": 800}
ASKED = [
    *(
        "2,5",
        "2.5",
        "2.5 km",
        "2,5 km",
        "2.50",
        "2,5000",
        "25,00",
        "0.500",
        "0,500",
        "1.200.5",
        "1,200.0",
        "2..500",
        "2. 500",
    ),
    *(
        "2500 ft",
        "2500 feet",
        "two thousand",
        "1e3",
        "0x10",
        "+",
        "-",
        ",500",
        "2500,",
        "500 - 2500",
        "12,000",
        "-431",
        "٢٫٥",
    ),
]


def told(run: Run, *typed: tuple[str, str]) -> list[dict[str, Any]]:
    return list(run(SCRIPT, typed))


def test_a_height_with_a_mark_of_thousands_is_that_high_and_stands_in_the_answer(run: Run) -> None:
    for typed, said in zip(HIGH, told(run, *(("", typed) for typed in HIGH)), strict=True):
        assert said == {"kept": [[2500]], "error": "", "said": ["call-now", "2,500 m: high"]}, typed
    for (typed, metres), said in zip(LOW.items(), told(run, *(("", typed) for typed in LOW)), strict=True):
        assert said["kept"] == [[metres]], typed


def test_a_home_is_read_in_the_same_way_and_both_stand_in_the_answer(run: Run) -> None:
    for typed, said in zip(THOUSANDS, told(run, *((typed, "2600") for typed in THOUSANDS)), strict=True):
        assert said["kept"] == [[2500, 2600]], typed
        assert said["said"][1].startswith("2,500 m and 2,600 m: "), typed


@pytest.mark.parametrize("place", ["home", "height"])
def test_what_is_no_height_or_could_be_another_is_asked_about_and_nothing_is_kept(run: Run, place: str) -> None:
    for typed, said in zip(ASKED, told(run, *((t, "300") if place == "home" else ("", t) for t in ASKED)), strict=True):
        assert said == {"kept": [], "error": "metres", "said": None}, typed
