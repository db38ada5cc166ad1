"""When somebody face down is told to take a break, and to come back: by the clinic's plan, on a page that is drawn anew all the time.

Common practice, no source.
"""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { parts } from "./parts.js";
import { PostureView } from "./patient/posture-view.js";

const MINUTE_MS = 60000;
let now = Date.parse("2027-03-04T08:00:00Z");
Date.now = () => now;
const start = now;
const waiting = new Map();
globalThis.setTimeout = (work, after = 0) => {
    const id = waiting.size ? Math.max(...waiting.keys()) + 1 : 1;
    waiting.set(id, [now + after, work]);
    return id;
};
globalThis.clearTimeout = (id) => waiting.delete(id);
const byId = parts();
byId("hand-eye").options = [];
globalThis.Option = class {};
const cues = [];
const view = new PostureView({}, { posture: {}, eye: {} }, { signal: (words) => cues.push([(now - start) / MINUTE_MS, words]) });
const posture = { position: "face-down", hours_a_day: 8, dates: ["2027-03-04"], cycle_minutes: 50, break_minutes: 10 };
const eyes = given.eyes.map((operation) => ({ operation, posture, receipts: [] }));
let timers = [];
const draw = () => {
    const planned = given.over && now - start >= given.over * MINUTE_MS ? [] : eyes;
    const names = new Map(planned.map(({ operation }) => [operation, operation]));
    view.show({ eyes: planned, names, entries: [], timers, unsure: [], fault: null }, new Date(now));
};
for (let minute = 0; minute <= 240; minute += 1) {
    now = start + minute * MINUTE_MS;
    for (const [id, [at, work]] of [...waiting]) if (at <= now && waiting.delete(id)) work();
    for (const [at, ...running] of given.timers) {
        if (at !== minute) continue;
        timers = running.map(([operation, since, on_break]) => (
            { operation, position: "face-down", start: new Date(start + since * MINUTE_MS).toISOString(), on_break }
        ));
    }
    if (minute >= given.opened) draw();
}
answer = cues;
""".strip()


@pytest.mark.parametrize(
    ("timers", "opened", "cues"),
    [
        # from minute, then each timer: eye, since minute, whether on a break
        ([[0, ["a", 0, False]]], 0, [[50, "break"], [100, "break"], [150, "break"], [200, "break"]]),
        ([[0, ["a", 0, False]]], 130, [[150, "break"], [200, "break"]]),  # the page was closed meanwhile
        ([[0, ["a", 0, False]], [60]], 0, [[50, "break"]]),  # stopped
        ([[0, ["a", 0, False]], [50, ["a", 50, True]]], 0, [[50, "break"], [60, "back"]]),  # said once, not every ten minutes
        ([[0, ["a", 0, True]]], 30, []),  # a break that was over before the page was opened
        ([[0, ["a", 0, False]], [50, ["a", 50, True]], [62, ["a", 62, False]], [120]], 0, [[50, "break"], [60, "back"], [112, "break"]]),
        ([[0, ["a", 0, False], ["b", 20, False]], [90]], 0, [[50, "break"], [70, "break"]]),  # each eye by its own timer
        ([[0]], 0, []),
    ],
)  # fmt: skip
def test_a_break_is_called_at_its_time_and_its_end_once(run: Run, timers: list[Any], opened: int, cues: list[Any]) -> None:
    assert run(SCRIPT, {"eyes": ["a", "b"], "timers": timers, "opened": opened}) == cues


def test_a_plan_that_is_over_calls_nobody(run: Run) -> None:
    assert run(SCRIPT, {"eyes": ["a"], "timers": [[0, ["a", 0, False]]], "opened": 0, "over": 70}) == [[50, "break"]]
