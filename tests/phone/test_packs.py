"""When a phone asks for what the clinic has for it, and which of two answers stays. Common practice, no source."""

from itertools import pairwise
from typing import Any

from tests.phone.conftest import Run

SCRIPT = """
import { Database, page } from "./indexed_db.js";
import { FromClinic } from "./patient/from-clinic.js";

page();
const clock = { shown: Date.parse("2027-03-05T10:00:00Z"), off: 0, minute: 0 };
Date.now = () => clock.shown + (clock.minute + clock.off) * 60000;
performance.now = () => clock.minute * 60000;
globalThis.document = { documentElement: { lang: "en" }, visibilityState: "visible" };
const database = new Database();
const outbox = { flush: async () => {}, prune: async () => {}, sendAgain: async () => 0 };
const waiting = [];
let [made, line, told] = [0, "good", 0];
const answered = (pack) => ({ ok: true, status: 200, json: async () => pack });
globalThis.fetch = async (address) => {
    if (address.startsWith("/api/v1/known")) return answered({ set_up: given.set_up ?? true });
    made += 1;
    const pack = { made_at: new Date(clock.shown + clock.minute * 60000).toISOString(), eyes: [], mark: made };
    if (line === "none") throw new TypeError("no line");
    if (line === "slow") await new Promise((go) => waiting.push(go));
    return answered(pack);
};
const tabs = [0, 1].map(() => new FromClinic(database, outbox, async () => { told += 1; }));
const draw = () => Promise.all(tabs.map((tab) => tab.lookAtClock(database.stores.facts.get("clock"))));
const settled = () => new Promise((done) => setImmediate(() => setImmediate(() => setImmediate(done))));
const acts = {
    open: (tab) => tabs[tab].refresh(),
    minute: (tab) => { tabs[tab].keepUp(); },
    hide: (hidden) => { document.visibilityState = hidden ? "hidden" : "visible"; },
    clock: (minutes) => { clock.off = minutes; },
    line: (is) => { line = is; },
    ask: (tab) => { tabs[tab].refresh(); },
    answer: (n) => waiting[n](),
};
answer = [];
for (const [minute, act, what] of given.acts) {
    clock.minute = minute;
    await draw();
    await acts[act](what);
    await settled();
    answer.push([made, database.stores.facts.get("pack")?.mark ?? null, told]);
}
""".strip()


def asked(run: Run, *acts: Any, **given: Any) -> list[int]:
    return [made for made, *_ in run(SCRIPT, {"acts": acts, **given})]


def test_a_page_that_stays_visible_asks_about_every_quarter_of_an_hour(run: Run) -> None:
    minutes = [[n, "minute", 0] for n in range(1, 61)]
    told = asked(run, [0, "open", 0], *minutes)
    assert [n for n, (was, made) in enumerate(pairwise(told), 1) if made > was] == [15, 30, 45, 60]


def test_what_came_is_told_to_whoever_looks(run: Run) -> None:
    (_, _, before), (_, mark, after) = run(SCRIPT, {"acts": [[0, "open", 0], [15, "minute", 0]]})
    assert (mark, after > before) == (2, True)


def test_nobody_asks_behind_another_page_or_where_no_phone_was_set_up(run: Run) -> None:
    assert asked(run, [0, "open", 0], [1, "hide", True], [60, "minute", 0], [61, "hide", False], [61, "minute", 0])[-3:] == [
        1,
        1,
        2,
    ]
    assert asked(run, [0, "open", 0], [60, "minute", 0], set_up=False) == [0, 0]


def test_one_tab_asks_for_all(run: Run) -> None:
    told = asked(
        run, [0, "open", 0], [3, "open", 1], [15, "minute", 0], [18, "minute", 1], [20, "minute", 0], [33, "minute", 1]
    )
    assert told == [1, 2, 2, 3, 3, 4]


def test_a_line_that_stalls_or_is_gone_is_tried_again_after_as_long(run: Run) -> None:
    for line in ("slow", "none"):
        told = asked(run, [0, "open", 0], [1, "line", line], *([n, "minute", 0] for n in (15, 16, 29, 30, 31)))
        assert told == [1, 1, 2, 2, 2, 3, 3]


def test_a_clock_put_back_by_hours_keeps_nobody_from_asking(run: Run) -> None:
    assert asked(run, [0, "open", 0], [1, "clock", -300], [14, "minute", 0], [15, "minute", 0]) == [1, 1, 1, 2]


def test_of_two_answers_on_the_way_at_once_the_later_one_stays(run: Run) -> None:
    acts = [[0, "open", 0], [1, "line", "slow"], [1, "ask", 0], [2, "ask", 1], [3, "answer", 1], [4, "answer", 0]]
    assert [mark for _, mark, _ in run(SCRIPT, {"acts": acts})] == [1, 1, 1, 1, 3, 3]
    in_turn = [*acts[:4], [3, "answer", 0], [4, "answer", 1]]
    assert [mark for _, mark, _ in run(SCRIPT, {"acts": in_turn})] == [1, 1, 1, 1, 2, 3]
