"""What a phone that is full goes on saying of a danger it was told of and could not keep. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { played } from "./checked.js";

answer = await played(given);
""".strip()
CURTAIN, REDNESS, SEVERE, WELL = {"curtain": "yes"}, {"redness": "worse"}, {"pain": "8"}, {}


def said(run: Run, *acts: Any) -> list[dict[str, Any]]:
    return list(run(SCRIPT, acts))


FULL = pytest.mark.parametrize("full", ["all", "entries"])  # nothing more goes in, or a verdict still does


@FULL
def test_a_danger_that_could_not_be_kept_stands_after_a_good_check_and_goes_to_the_clinic_with_it(
    run: Run, full: str
) -> None:
    first = [[0, "full", full], [0, "check", [CURTAIN]], [5, "full", False], [6, "check", [WELL]]]
    told = said(run, *first, [7, "show", None], [8, "open", None], [9, "check", [WELL]])
    assert [one["says"] for one in told] == [None, *["now"] * 6]
    assert [one["well"] for one in told] == [False] * 7
    assert told[1]["trouble"] == "full"
    assert told[3]["entries"] == [["symptoms", 0], ["symptoms", 6]]  # each at its own time
    assert told[-1]["entries"] == [["symptoms", 0], ["symptoms", 6], ["symptoms", 9]]


@FULL
def test_it_ends_as_any_other_once_the_clinic_has_settled_it(run: Run, full: str) -> None:
    acts = [[0, "full", full], [0, "check", [CURTAIN]], [5, "full", False], [6, "check", [WELL]], [7, "send", None]]
    told = said(
        run, *acts, [8, "pack", {"a": {"calling": True}}], [9, "pack", {"a": {"settled": True}}], [20, "check", [WELL]]
    )
    assert [one["says"] for one in told[-3:]] == ["now", None, None]
    assert told[-1]["well"]


@FULL
def test_while_it_is_full_no_lesser_answer_takes_the_danger_away(run: Run, full: str) -> None:
    acts = [[0, "full", full], [0, "check", [CURTAIN]], [3, "check", [REDNESS]], [4, "check", [WELL]], [5, "full", False]]
    told = said(run, *acts, [6, "check", [WELL]], [7, "check", [WELL]])
    assert [one["says"] for one in told[1:]] == ["now"] * 6
    assert [at for _, at in told[-1]["entries"]] == [0, 3, 6, 7]  # what was told under it goes to the clinic too


@FULL
def test_the_same_answers_saved_at_last_are_one_check(run: Run, full: str) -> None:
    told = said(run, [0, "full", full], [0, "check", [CURTAIN]], [5, "full", False], [6, "check", [CURTAIN]])
    assert (told[-1]["says"], told[-1]["entries"]) == ("now", [["symptoms", 6]])


def test_a_verdict_kept_without_its_check_stands_in_the_next_session_too(run: Run) -> None:
    acts = [[0, "full", "entries"], [0, "check", [REDNESS]], [5, "open", None], [6, "full", False], [7, "check", [WELL]]]
    told = said(run, *acts)
    assert [one["says"] for one in told[1:]] == ["today"] * 4
    assert told[-1]["entries"] == [["symptoms", 0], ["symptoms", 7]]


TIMERS = """
import { Database, page } from "./indexed_db.js";
import { parts } from "./parts.js";
import { Keeping } from "./patient/keeping.js";
import { PhoneOutbox } from "./patient/outbox.js";
import { entriesOf } from "./patient/standing.js";
import { runningTimers, Timers } from "./patient/timers.js";

const byId = parts();
page();
console.info = () => {};
globalThis.fetch = async () => { throw new TypeError("no line"); };
let minute = 0;
const RealDate = Date;
const now = () => RealDate.parse("2027-03-05T10:00:00Z") + minute * 60000;
globalThis.Date = class extends RealDate {
    constructor(...given) { super(...(given.length > 0 ? given : [now()])); }
    static now() { return now(); }
};
performance.now = () => minute * 60000;
const database = new Database();
let full = false;
const transaction = database.transaction.bind(database);
database.transaction = (stores, mode, ...rest) => {
    if (full && mode === "readwrite") throw new DOMException("full", "QuotaExceededError");
    return transaction(stores, mode, ...rest);
};
const outbox = new PhoneOutbox(database);
const eye = { operation: "eye", eye: "right", position: "face-down", posture: {}, receipts: [] };
const draw = async () => { timers.running = runningTimers(database.stores.facts.get("timer"), [eye]); };
const keeping = new Keeping(outbox, { usedBy: () => "patient", show: draw });
const receipt = () => undefined;
const timers = new Timers(database, keeping, { planOf: () => eye, receipt, sure: (id) => outbox.sure(id), changed: draw });
const doing = {
    full: (is) => { full = is; },
    start: () => timers.toggle("eye", byId("timer-words")),
    stop: () => timers.toggle("eye", byId("timer-words")),
    pause: () => timers.pause("eye", byId("timer-words")),
    still: () => timers.stillSo("eye"),
    until: () => timers.stopAt("eye", new Date(now() - 60000), byId("timer-words")),
    away: () => timers.stop(timers.running[0], undefined, byId("running")),
    undo: () => byId("undo").tell("click"),
};
byId("kept").hidden = true;
answer = [];
for (const [at, act, what] of given) {
    minute = at;
    byId("trouble").inView = false;
    byId("trouble").scrollIntoView = () => { byId("trouble").inView = true; };
    const gave = await doing[act](what);
    await draw();
    answer.push({
        trouble: byId("trouble").textContent, inView: byId("trouble").inView, note: !byId("kept").hidden,
        runs: timers.running.map(({ start, on_break, sure_at }) => [start.slice(11, 16), on_break ? "break" : sure_at ? "sure" : "runs"]),
        kept: entriesOf(eye, await outbox.all()).map(({ body }) => [body.from.slice(11, 16), body.to.slice(11, 16)]),
        gave: gave ?? null,
    });
}
""".strip()


def timed(run: Run, *acts: Any) -> list[dict[str, Any]]:
    return list(run(TIMERS, acts))


@pytest.mark.parametrize(
    ("before", "act"),
    [
        ([], "start"),
        ([[0, "start", None]], "stop"),
        ([[0, "start", None]], "still"),
        ([[0, "start", None]], "pause"),
        ([[0, "start", None]], "until"),
        ([[0, "start", None], [9, "pause", None]], "start"),  # back from a break
        ([[0, "start", None], [9, "pause", None]], "pause"),  # stop for now
        ([[0, "start", None], [9, "stop", None]], "undo"),
    ],
)
def test_what_a_full_phone_cannot_do_with_a_timer_is_said_in_view_and_all_stays_as_it_was(
    run: Run, before: list[Any], act: str
) -> None:
    *_, was, failed, done = timed(run, *before, [10, "full", True], [11, act, None], [12, "full", False])
    assert (failed["trouble"], failed["inView"]) == ("full", True)
    assert (failed["runs"], failed["kept"]) == (was["runs"], was["kept"])
    assert (done["trouble"], done["runs"]) == ("full", was["runs"])


def test_it_is_said_no_more_once_something_could_be_kept_again(run: Run) -> None:
    *_, failed, started = timed(run, [0, "full", True], [1, "start", None], [2, "full", False], [3, "start", None])
    assert (failed["trouble"], started["trouble"], started["runs"]) == ("full", "", [["10:03", "runs"]])


def test_what_could_not_be_kept_is_not_called_a_time_before_the_start(run: Run) -> None:
    """Of *until when*, `false` is what lies before the start."""
    *_, full, before, early = timed(
        run, [0, "start", None], [9, "full", True], [9, "until", None], [9, "full", False], [0, "until", None]
    )
    assert full["trouble"] == "full"
    assert (full["gave"] is False, early["gave"]) == (False, False)
    assert before["runs"] == [["10:00", "runs"]]


@pytest.mark.parametrize("act", ["stop", "pause", "away"])
def test_a_stop_and_a_break_say_that_the_hours_are_saved_and_run_on_when_undone(run: Run, act: str) -> None:
    _, kept, undone = timed(run, [0, "start", None], [30, act, None], [31, "undo", None])
    assert (kept["note"], kept["kept"]) == (True, [["10:00", "10:30"]])
    assert kept["runs"] == ([["10:30", "break"]] if act == "pause" else [])
    assert (undone["note"], undone["kept"], undone["runs"]) == (False, [], [["10:00", "runs"]])
