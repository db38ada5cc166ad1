"""The next visit on the first screen: the next one that is to come, and beside it what may be made up for. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { parts } from "./parts.js";
import { PlanView } from "./patient/plan-view.js";

answer = given.map(({ eyes, fault = null, day = 8 }) => {
    const byId = parts();
    globalThis.document.querySelector = (asked) => (asked.includes("visit-over") ? { textContent: "{visit} is over" } : null);
    const view = new PlanView({ visitWords: (eye, visit) => `${visit.target} ${eye.operation}` }, { eye: {} });
    const known = eyes.map((visits, n) => ({ operation: "ab"[n], gas: { caution: false }, visits }));
    view.show({ eyes: known, pack: { clinic: "Clinic", place: "Street 1" }, names: new Map(), fault }, new Date(2027, 2, day, 18));
    return [byId("next-visit").textContent, byId("next-place").textContent];
});
""".strip()


def visit(target: str, latest: str, *, seen: bool = False) -> dict[str, Any]:
    return {"target": f"2027-03-{target}", "latest": f"2027-03-{latest}", "seen": seen}


PLACE = "Clinic, Street 1"
MISSED, TODAY, NEXT = visit("04", "10"), visit("08", "09"), visit("16", "20")
OVER = "2027-03-04 a is over"


@pytest.mark.parametrize(
    ("eyes", "said", "beside"),
    [
        ([[NEXT]], "2027-03-16 a", PLACE),
        ([[MISSED, NEXT]], "2027-03-16 a", f"{PLACE}\n{OVER}"),
        ([[NEXT], [MISSED]], "2027-03-16 a", f"{PLACE}\n2027-03-04 b is over"),
        ([[MISSED, TODAY, NEXT]], "2027-03-08 a", f"{PLACE}\n{OVER}"),
        ([[TODAY, NEXT], [TODAY]], "2027-03-08 a\n2027-03-08 b", PLACE),
        ([[MISSED]], OVER, ""),
        ([[{**MISSED, "seen": True}, NEXT]], "2027-03-16 a", PLACE),
        ([[visit("04", "07"), NEXT]], "2027-03-16 a", PLACE),  # its window has closed: the clinic calls
        ([[visit("04", "07")]], "none-planned", ""),
        ([[]], "none-planned", ""),
    ],
)
def test_a_visit_that_was_missed_does_not_hide_the_next_one(run: Run, eyes: Any, said: str, beside: str) -> None:
    assert run(SCRIPT, [{"eyes": eyes}]) == [[said, beside]]


def test_a_clock_in_doubt_never_says_that_none_is_planned(run: Run) -> None:
    assert run(SCRIPT, [{"eyes": [[NEXT]], "fault": "clock", "day": 30}]) == [["in-doubt", ""]]


TIMED = """
import { parts } from "./parts.js";
import { PlanView } from "./patient/plan-view.js";
import { whenOf, whenWords } from "./shared/dates.js";

const byId = parts();
const view = new PlanView({ visitWords: (_eye, visit) => whenWords(whenOf(visit)) }, { eye: {} });
answer = given.map((visit) => {
    const eyes = [{ operation: "a", gas: { caution: false }, visits: [visit] }];
    view.show({ eyes, pack: {}, names: new Map(), fault: null }, new Date(2027, 2, 8, 18));
    return byId("next-visit").textContent;
});
""".strip()


def test_a_visit_with_a_time_says_it(run: Run) -> None:
    assert run(TIMED, [{**NEXT, "starts": "09:40"}, {**NEXT, "starts": None}]) == [
        "Tuesday 16 March, 09:40",
        "Tuesday 16 March",
    ]


FORECAST = """
import { parts } from "./parts.js";
import { BubbleView } from "./patient/bubble-view.js";

answer = given.map(({ fault, year }) => {
    const byId = parts();
    const view = new BubbleView({}, { eye: {}, agent: {} });
    const gas = { caution: true, agent: "sf6", clear_of_sight: "2027-03-12" };
    const bubble = [["08", 60], ["09", 55], ["30", 2]].map(([day, level]) => ({ date: `2027-03-${day}`, meniscus_percent: level }));
    const eye = { operation: "a", gas, bubble, visits: [] };
    view.show({ eye, eyes: [eye], names: new Map([["a", "right"]]), pack: {}, fault }, new Date(year, 2, 8, 12));
    return byId("bubble-forecast").textContent;
});
""".strip()


def test_a_clock_in_doubt_forecasts_no_bubble(run: Run) -> None:
    """Ten years ahead it said what is left on the last day of the forecast: nearly gone."""
    cases = [{"fault": fault, "year": year} for fault in (None, "clock", "stale") for year in (2027, 2037)]
    assert run(FORECAST, cases) == ["bubble-now", "bubble-now", "", "", "", ""]
