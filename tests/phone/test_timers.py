"""What of a timer counts: what somebody spoke for, at most what the core takes, and never more than the clinic can keep."""

from followup.clinical import posture
from followup.records.bodies import kinds
from tests.phone.conftest import Run

HOUR_MS = 3_600_000
SCRIPT = """
import { ASK_AFTER_MS, counted, isInDoubt, isLong, LONGEST_MS, stretch, sureOf } from "./patient/timers.js";

const start = Date.parse("2027-03-01T20:00:00Z");
const after = (hours) => new Date(start + hours * 3600000);
const fresh = { position: "face-down", start: after(0).toISOString() };
const told = (timer, now) => ({
    counted: counted(timer, now).map((at) => (at - start) / 3600000), doubt: isInDoubt(timer, now), long: isLong(timer, now),
    kept: stretch(timer, now),
});
answer = {
    longest: LONGEST_MS, asked: ASK_AFTER_MS / 3600000,
    cases: [
        told(fresh, after(1)), told(fresh, after(26)), told(sureOf(fresh, after(8)), after(9)),
        told(sureOf(fresh, after(12)), after(40)),
    ],
};
"""


def test_only_what_somebody_spoke_for_counts_and_nothing_is_refused(run: Run) -> None:
    told = run(SCRIPT, None)
    assert told["longest"] == posture.LONGEST_OPEN_HOURS.value * HOUR_MS
    asked = told["asked"]
    short, long, night, days = told["cases"]
    assert (short["counted"], short["doubt"]) == ([0, 1], False)
    assert (long["counted"], long["doubt"], long["long"]) == ([0, asked], True, True)
    assert (night["counted"], night["doubt"]) == ([0, 9], False)
    assert days["counted"] == [0, 12 + asked]
    for case in told["cases"]:
        kinds.body_of("posture", case["kept"])  # the clinic takes it: at most 24 hours
