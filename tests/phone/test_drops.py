"""Drops on the phone: which today and what comes next, against the core's own slots. Common practice, no source."""

from datetime import date, time, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.home import pack
from followup.clinical import drop_times as drops
from followup.config import Settings
from followup.records import Store
from followup.records.values import Device
from tests.conftest import OPERATED, operation_note, patient_details
from tests.phone.conftest import Run

NEXT = """
import { dropsOn, nextDrops, timesOf } from "./patient/drops-view.js";

const at = ([hour, minute]) => new Date(2027, 2, 10, hour, minute);
answer = given.map(({ drop, now, taken }) => {
    const entries = taken.map((clock, n) => (
        { id: `${n}`, state: "saved", event: { operation: "e", kind: "drops", at: at(clock).toISOString(), body: { name: "Steroid" } } }
    ));
    const found = nextDrops([{ operation: "e", receipts: [], drops: [drop] }], entries, at(now));
    const told = timesOf(drop, taken.map((clock) => ({ at: at(clock).toISOString() })), at(now)).map((one) => one.taken);
    return [found.map((one) => [one.at.getHours(), one.at.getMinutes()]), told];
});
""".strip()


def packed(times_a_day: int) -> dict[str, Any]:
    times = [{"at": f"{s.at:%H:%M}", "opens": f"{s.opens:%H:%M}"} for s in drops.slots(times_a_day)]
    return {"name": "steroid", "times_a_day": times_a_day, "first": "2027-03-03", "until": "2027-03-20", "times": times}


def parts(clock: time) -> list[int]:
    return [clock.hour, clock.minute]


@pytest.mark.parametrize("times_a_day", [1, 2, 3, 4, 6, 13, 24])
def test_the_next_time_is_the_open_one_or_the_one_after_it(run: Run, times_a_day: int) -> None:
    slots = drops.slots(times_a_day)
    clocks = [time(hour, minute) for hour in range(24) for minute in (0, 15, 45)]
    cases, expected = [], []
    for now in clocks:
        for taken in ([], [now], [time(0, 1)], [time(0, 1), now], [slots[0].at, slots[-1].at]):
            past = [clock for clock in taken if clock <= now]
            cases.append({"drop": packed(times_a_day), "now": parts(now), "taken": [parts(c) for c in past]})
            left = [
                slot
                for n, slot in enumerate(slots)
                if n >= drops.open_slot(slots, now) and not drops.is_taken(slots, n, past)
            ]
            told = [drops.is_taken(slots, n, past) for n in range(times_a_day)]
            expected.append([[parts(left[0].at)] if left else [], told])
    assert run(NEXT, cases) == expected


def test_a_taper_shows_the_step_of_the_day(run: Run, store: Store, settings: Settings, nurse: Actor, device: Device) -> None:
    first = date(2027, 3, 2)
    written = [("steroid", 4, 7), ("steroid", 2, 14), ("antibiotic", 3, 7)]
    given = [{"name": name, "times_a_day": n, "until": first + timedelta(days=day)} for name, n, day in written]
    note = operation_note(eye="left", drops=given)
    id, _ = leaving.discharge(Desk(store, OPERATED, nurse, settings.clinic.tz), patient_details(), note, [])
    made = pack.pack(store, settings.clinic, device, OPERATED).model_dump(mode="json")
    (eye,) = [eye for eye in made["eyes"] if eye["operation"] == id]
    script = """
import { dropsOn } from "./patient/drops-view.js";

answer = given.days.map((day) => dropsOn(given.eye, new Date(2027, 2, day, 12)).map((drop) => `${drop.name} ${drop.times_a_day}`));
    """.strip()
    told = run(script, {"eye": eye, "days": [2, 9, 10, 16, 17]})
    assert told == [["steroid 4", "antibiotic 3"]] * 2 + [["steroid 2"]] * 2 + [[]]
    assert [one["at"] for one in eye["drops"][0]["times"]] == ["08:00", "12:00", "16:00", "20:00"]


def test_a_pack_of_an_earlier_version_still_shows_its_drops(run: Run) -> None:
    old = {"name": "steroid", "times_a_day": 4, "until": "2027-03-20"}
    assert run(NEXT, [{"drop": old, "now": [12, 0], "taken": [[8, 0]]}]) == [[[], []]]
    script = """
import { dropsOn } from "./patient/drops-view.js";

answer = dropsOn({ drops: [given] }, new Date(2027, 2, 10)).length;
    """.strip()
    assert run(script, old) == 1


def test_an_entry_counts_once_and_not_after_it_was_taken_back(run: Run) -> None:
    script = """
import { takenToday } from "./patient/drops-view.js";

const now = new Date(2027, 2, 10, 12);
const at = now.toISOString();
const event = (id, kind, corrects, body) => ({ id, state: "saved", event: { operation: "e", kind, at, corrects, body } });
const eye = { operation: "e", receipts: [{ id: "1", kind: "drops", at, body: { name: "steroid" } }] };
const entries = [
    event("1", "drops", null, { name: "steroid" }), event("2", "drops", null, { name: "STEROID" }),
    event("3", "drops", null, { name: "antibiotic" }), event("4", "withdrawal", "2", { reason: "" }),
];
answer = [entries.slice(0, 3), entries].map((known) => takenToday({ name: "steroid" }, eye, known, now).map(({ id }) => id));
    """.strip()
    assert run(script, None) == [["1", "2"], ["1"]]


def test_the_day_is_the_phones_own(run: Run) -> None:
    script = """
import { takenToday } from "./patient/drops-view.js";

const receipt = { id: "1", kind: "drops", at: new Date(2027, 2, 9, 23, 30).toISOString(), body: { name: "steroid" } };
const eye = { operation: "e", receipts: [receipt] };
answer = [9, 10].map((day) => takenToday({ name: "steroid" }, eye, [], new Date(2027, 2, day, 23, 40)).length);
    """.strip()
    assert run(script, None) == [1, 0]


SAID = """
import { parts } from "./parts.js";
import { DropsView } from "./patient/drops-view.js";

const byId = parts();
const at = ([hour, minute]) => new Date(2027, 2, 10, hour, minute);
byId("texts");
globalThis.setTimeout = () => 0;
const view = new DropsView({}, { signal() {} });
answer = given.cases.map(([now, ...taken]) => {
    const entries = taken.map((clock, n) => (
        { id: `${n}`, state: "saved", event: { operation: "e", kind: "drops", at: at(clock).toISOString(), body: { name: "steroid" } } }
    ));
    view.show({ eyes: [{ operation: "e", receipts: [], drops: [given.drop] }], names: new Map([["e", "right"]]), entries }, at(now));
    return byId("next-drop").textContent;
});
""".strip()
MORNING, NOON, AFTERNOON, EVENING = [8, 5], [12, 5], [16, 5], [20, 5]


@pytest.mark.parametrize(
    ("taken", "said"),
    [
        ([MORNING, NOON, AFTERNOON, EVENING], "drops-done"),
        ([MORNING, NOON, AFTERNOON, AFTERNOON, EVENING], "drops-done"),
        ([NOON, NOON, AFTERNOON, EVENING], "drops-done"),  # the morning's was ticked late: the row says 4 of 4
        ([EVENING], "drops-over"),
        ([MORNING, NOON, EVENING], "drops-over"),
        ([MORNING, NOON, AFTERNOON], "drop-now"),
        ([], "drop-now"),
    ],
)
def test_all_done_is_said_where_all_were_ticked_off_and_no_sooner(run: Run, taken: list[list[int]], said: str) -> None:
    assert run(SAID, {"drop": packed(4), "cases": [[[21, 0], *taken]]}) == [said]


NONE = """
import { parts } from "./parts.js";
import { DropsView } from "./patient/drops-view.js";

const byId = parts();
byId("texts");
globalThis.setTimeout = () => 0;
const view = new DropsView({}, { signal() {} });
answer = given.map(({ eyes, fault, day }) => {
    const known = eyes.map((drops, n) => ({ operation: `${n}`, receipts: [], drops }));
    view.show({ eyes: known, names: new Map([["0", "right"]]), entries: [], fault }, new Date(2027, 2, day, 12));
    return byId("no-drops").hidden ? null : byId("no-drops").textContent;
});
""".strip()


def test_where_there_are_no_drops_today_it_says_why(run: Run) -> None:
    """*No drops were entered* was said after a course had ended, and on a clock that is years ahead."""
    course = {**packed(4), "until": "2027-03-20"}
    cases: list[tuple[Any, str | None, int, str | None]] = [
        # drops of each eye, what is at fault, the day, what is said
        ([[course]], None, 10, None),
        ([[course]], None, 1, None),  # it begins later: the plan says so
        ([[course]], None, 21, "no-drops-today"),
        ([[], [course]], None, 21, "no-drops-today"),
        ([[]], None, 10, "no-drops"),
        ([[course]], "clock", 21, "in-doubt"),
        ([[course]], "stale", 21, "in-doubt"),
        ([[]], "stale", 10, "in-doubt"),  # some may have been entered since
        ([[course]], "clock", 10, None),
    ]
    given = [{"eyes": eyes, "fault": fault, "day": day} for eyes, fault, day, _ in cases]
    assert run(NONE, given) == [said for *_, said in cases]
