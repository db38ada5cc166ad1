"""Hours by hand on a page that stays open, drawn anew every minute: the day and the eye in the form. Common practice, no source."""

from typing import Any

import pytest

from tests.phone.conftest import Run

SCRIPT = """
import { Part, parts } from "./parts.js";
import { PostureView } from "./patient/posture-view.js";

// A list to choose from: made anew, it stands at its first choice.
class Choices extends Part {
    get options() {
        const field = this;
        return Object.defineProperty([...this.children], "selectedIndex", { set(n) { field.value = field.children[n]?.value ?? ""; } });
    }
    replaceChildren(...children) {
        super.replaceChildren(...children);
        this.value = children[0]?.value ?? "";
    }
}
globalThis.Option = class { constructor(words, value) { Object.assign(this, { said: words, value }); } };
process.env.TZ = "Europe/Vienna";
const RealDate = Date;
let now = RealDate.now();
globalThis.Date = class extends RealDate {
    constructor(...given) { super(...(given.length > 0 ? given : [now])); }
    static now() { return now; }
};
const waiting = [];
globalThis.setTimeout = (work) => waiting.push(work);
const byId = parts({ "hand-eye": Choices });
const kept = [];
const saveHours = async (operation, from, to) => kept.push([operation, ...[from, to].map((at) => at.toString().slice(4, 21))]);
const words = { posture: {}, eye: {} };
now = new RealDate(2027, 2, 4, 8).getTime();
const view = new PostureView({ saveHours, toggleTimer: async () => ({}), pauseTimer: async () => ({}) }, words, { signal() {} });
const dates = ["2027-03-04", "2027-03-05", "2027-03-06", "2027-03-29"];
const posture = { position: "face-down", hours_a_day: 8, dates, cycle_minutes: 50, break_minutes: 10 };
let eyes = [];
const show = () => {
    const names = new Map(eyes.map(({ operation }) => [operation, operation]));
    view.show({ eyes, names, entries: [], timers: [], unsure: [], fault: null }, new Date());
};
const acts = {
    eyes: (known) => { eyes = known.map((operation) => ({ operation, posture, receipts: [] })); show(); },
    at: ([day, hour]) => { now = new RealDate(2027, 2, day, hour).getTime(); show(); },
    later: () => { for (const work of waiting.splice(0)) work(); },
    fill: (fields) => { acts.later(); for (const [name, value] of Object.entries(fields)) byId(`hand-${name}`).value = value; },
    change: ([from, to]) => view.change({ operation: "left", body: { from, to } }),
    leave: () => byId("hand-stop").tell("click"),
    save: () => byId("by-hand").tell("submit"),
};
answer = [];
for (const [act, what] of given) {
    await acts[act](what);
    const [day, eye, from] = ["day", "eye", "from"].map((name) => byId(`hand-${name}`).value);
    answer.push({ day, eye, from, error: byId("hand-error").textContent, kept: [...kept] });
}
""".strip()
HOURS = {"from": "10:00", "to": "11:00"}


def played(run: Run, *acts: Any) -> list[dict[str, Any]]:
    return list(run(SCRIPT, acts))


def test_a_form_that_nobody_filled_in_has_the_day_of_today(run: Run) -> None:
    told = played(run, ["eyes", ["right"]], ["at", [5, 12]], ["fill", HOURS], ["save", None], ["at", [6, 12]])
    assert [one["day"] for one in told] == ["2027-03-04", *["2027-03-05"] * 3, "2027-03-06"]
    assert told[-1]["kept"] == [["right", "Mar 05 2027 10:00", "Mar 05 2027 11:00"]]


def test_a_day_that_somebody_chose_and_hours_half_filled_in_stay(run: Run) -> None:
    chosen = played(run, ["eyes", ["right"]], ["at", [5, 12]], ["fill", {"day": "2027-03-04"}], ["at", [5, 13]])
    assert chosen[-1]["day"] == "2027-03-04"
    half = played(run, ["eyes", ["right"]], ["at", [4, 23]], ["fill", {"from": "22:00"}], ["at", [5, 0]], ["at", [5, 1]])
    assert (half[-1]["day"], half[-1]["from"]) == ("2027-03-04", "22:00")
    times = ["2027-03-04T09:00:00", "2027-03-04T10:00:00"]
    changing = played(run, ["eyes", ["left"]], ["change", times], ["at", [5, 12]], ["leave", None])
    assert [one["day"] for one in changing[1:]] == ["2027-03-04", "2027-03-04", "2027-03-05"]


def test_the_eye_chosen_stays_while_the_page_is_drawn_anew_and_is_asked_for_again_after_each_save(run: Run) -> None:
    both = ["right", "left"]
    acts = [
        ["at", [4, 12]],
        ["fill", {**HOURS, "eye": "left"}],
        ["at", [4, 13]],
        ["save", None],
        ["fill", HOURS],
        ["save", None],
    ]
    told = played(run, ["eyes", both], *acts)
    assert [one["eye"] for one in told] == ["", "", "left", "left", "", "", ""]
    assert (told[-1]["error"], [eye for eye, *_ in told[-1]["kept"]]) == ("which-eye", ["left"])
    one = played(
        run, ["eyes", both], ["fill", {"eye": "left"}], ["eyes", ["right"]], ["fill", HOURS], ["at", [4, 13]], ["save", None]
    )
    assert [eye for eye, *_ in one[-1]["kept"]] == ["right"]
    assert one[-1]["eye"] == "right"


def test_the_second_of_a_double_tap_finds_nothing_wrong_with_the_form_that_the_first_emptied(run: Run) -> None:
    twice = [["save", None], ["save", None], ["later", None], ["save", None]]
    told = played(run, ["eyes", ["right"]], ["at", [4, 12]], ["fill", HOURS], *twice)
    assert [(one["error"], len(one["kept"])) for one in told[3:]] == [("", 1), ("", 1), ("", 1), ("hours", 1)]


@pytest.mark.parametrize(
    ("start", "end", "kept"),
    [
        ("02:30", "03:15", None),  # no clock showed 02:30: a phone takes it for 03:30
        ("02:30", "03:30", None),
        ("02:30", "04:00", ["Mar 28 2027 03:30", "Mar 28 2027 04:00"]),
        ("01:30", "02:30", ["Mar 28 2027 01:30", "Mar 28 2027 03:30"]),
        ("01:30", "03:30", ["Mar 28 2027 01:30", "Mar 28 2027 03:30"]),
    ],
)
def test_hours_in_the_night_that_skips_one_end_after_they_start(
    run: Run, start: str, end: str, kept: list[str] | None
) -> None:
    """The clocks of Vienna go from 02:00 to 03:00 on 28 March 2027, by the time-zone database."""
    hours = {"day": "2027-03-28", "from": start, "to": end}
    told = played(run, ["eyes", ["right"]], ["at", [29, 12]], ["fill", hours], ["save", None])
    assert told[-1]["kept"] == ([["right", *kept]] if kept else [])
    assert told[-1]["error"] == ("" if kept else "order")
