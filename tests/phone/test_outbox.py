"""The queue of the phone without a browser: kept before it is said, sent in order, gone only when the clinic confirmed it."""

from typing import Any

import pytest

from tests.phone.conftest import Run

PAGE = """
import { Database, page } from "./indexed_db.js";
import { Outbox, eventOf } from "./patient/outbox.js";
import { entriesOf } from "./patient/standing.js";
import { startTimer, takingOut } from "./patient/timers.js";

const timers = page();
const database = new Database();
const sent = [];
let answering = (events) => ({ results: events.map(({ id }) => ({ id, status: "received", reason: null })) });
let status = 200;
const unpacked = (body) => new Response(new Blob([body]).stream().pipeThrough(new DecompressionStream("gzip"))).text();
globalThis.fetch = async (_address, { body }) => {
    const { events } = JSON.parse(typeof body === "string" ? body : await unpacked(body));
    sent.push(events.map(({ kind, sequence }) => [kind, sequence]));
    if (status === 0) throw new TypeError("no line");
    return { ok: status === 200, status, json: async () => answering(events) };
};
const said = [];
const outbox = new Outbox(database, (outcome) => said.push(outcome ?? "changed"));
const keep = async (...kinds) => {
    for (const kind of kinds) await outbox.add(kind, "eye", "patient", {});
};
const states = async () => (await outbox.all()).map(({ event, state, reason }) => [event.kind, event.sequence, state, reason]);
""".strip()


def script(body: str) -> str:
    return f"{PAGE}\n{body}"


def test_entries_are_numbered_and_listed_as_they_were_made(run: Run) -> None:
    told = run(script('status = 0; await keep("drops", "posture", "symptoms"); answer = await states();'), None)
    assert told == [["drops", 1, "saved", None], ["posture", 2, "saved", None], ["symptoms", 3, "saved", None]]


def test_a_check_goes_before_whatever_waits_and_the_rest_in_the_order_made(run: Run) -> None:
    body = """
        status = 0;
        await keep("drops", "posture", "symptoms", "words", "symptoms");
        await outbox.flush();
        status = 200;
        sent.length = 0;
        const outcome = await outbox.flush();
        answer = { outcome, sent, states: await states() };
    """
    told = run(script(body), None)
    assert told["outcome"] == "sent"
    assert told["sent"] == [[["symptoms", 3], ["symptoms", 5], ["drops", 1], ["posture", 2], ["words", 4]]]
    assert {state for _, _, state, _ in told["states"]} == {"received"}


@pytest.mark.parametrize(
    ("status", "outcome"), [(0, "unreachable"), (500, "unreachable"), (503, "unreachable"), (413, "unreachable")]
)
def test_what_the_clinic_did_not_confirm_stays_and_is_tried_again(run: Run, status: int, outcome: str) -> None:
    body = """
        status = given;
        await keep("drops");
        answer = { outcome: await outbox.flush(), states: await states(), tries: timers.size > 0 };
    """
    assert run(script(body), status) == {"outcome": outcome, "states": [["drops", 1, "saved", None]], "tries": True}


@pytest.mark.parametrize(("locked", "outcome"), [(True, "locked"), (False, "unknown")])
def test_a_phone_that_the_clinic_does_not_know_keeps_all_it_has(run: Run, locked: bool, outcome: str) -> None:
    body = """
        status = 401;
        answering = () => ({ locked: given });
        await keep("drops");
        answer = { outcome: await outbox.flush(), states: await states() };
    """
    assert run(script(body), locked) == {"outcome": outcome, "states": [["drops", 1, "saved", None]]}


def test_each_answer_is_of_its_own_entry_and_one_of_nobody_s_changes_nothing(run: Run) -> None:
    body = """
        status = 0;
        await keep("drops", "posture", "words");
        await outbox.flush();
        status = 200;
        let asked = 0;
        answering = (events) => ({ results: asked++ > 0 ? [] : [
            { id: events[1].id, status: "refused", reason: "not so" },
            { id: "of somebody else", status: "received", reason: null },
            { id: events[0].id, status: "received", reason: null },
        ] });
        answer = { outcome: await outbox.flush(), states: await states() };
    """
    told = run(script(body), None)
    assert told["states"] == [
        ["drops", 1, "received", None],
        ["posture", 2, "refused", "not so"],
        ["words", 3, "saved", None],
    ]
    assert told["outcome"] == "unreachable"  # the third was not answered: it waits


def test_an_answer_about_none_of_them_does_not_send_them_for_ever(run: Run) -> None:
    body = """
        status = 0;
        await keep("drops");
        await outbox.flush();
        status = 200;
        sent.length = 0;
        answering = () => ({ results: [{ id: "of somebody else", status: "received", reason: null }] });
        answer = { outcome: await outbox.flush(), requests: sent.length, states: await states() };
    """
    told = run(script(body), None)
    assert told == {"outcome": "unreachable", "requests": 1, "states": [["drops", 1, "saved", None]]}


def test_sixty_entries_go_in_two_requests(run: Run) -> None:
    body = """
        status = 0;
        for (let n = 0; n < 60; n += 1) await keep("drops");
        await outbox.flush();
        status = 200;
        sent.length = 0;
        await outbox.flush();
        answer = sent.map((events) => events.length);
    """
    assert run(script(body), None) == [50, 10]


def test_only_what_was_confirmed_long_ago_leaves_the_phone(run: Run) -> None:
    body = """
        const old = new Date("2027-01-01T08:00:00Z");
        const put = (state, at) => {
            const event = { ...eventOf("drops", "eye", "patient", {}, at), sequence: database.stores.entries.size + 1 };
            database.stores.entries.set(event.id, { id: event.id, event, state, reason: null });
        };
        for (const state of ["saved", "received", "refused"]) put(state, old);
        put("received", new Date("2027-02-20T08:00:00Z"));
        await outbox.prune(Date.parse("2027-03-01T08:00:00Z"));
        answer = (await states()).map(([, , state]) => state);
    """
    assert run(script(body), None) == ["saved", "refused", "received"]


def test_an_entry_that_its_transaction_does_not_keep_was_never_made(run: Run) -> None:
    body = """
        status = 0;
        await outbox.add("drops", "eye", "patient", {}, { alongside: () => {} });
        const nothing = await states();
        await outbox.add("drops", "eye", "patient", {}, { alongside: () => { throw new Error("no"); } }).catch(() => {});
        await keep("words");
        answer = [nothing, await states()];
    """
    assert run(script(body), None) == [[], [["words", 1, "saved", None]]]


STOPPED = """
    status = 0;
    const timer = { operation: "eye", eye: "right", position: "face-down", start: "2027-03-01T08:00:00Z" };
    for (let n = 0; n < given; n += 1) await startTimer(database, timer);
    const running = [database.stores.facts.get("timer")].flat();
    for (let n = 0; n < 2; n += 1) {
        await outbox.add("posture", "eye", "patient", {}, { alongside: takingOut(timer) });
    }
    answer = { running: running.length, left: database.stores.facts.get("timer").length, kept: (await states()).length };
"""


@pytest.mark.parametrize("tabs", [1, 2])
def test_a_timer_runs_once_and_is_kept_once_whatever_tabs_are_open(run: Run, tabs: int) -> None:
    assert run(script(STOPPED), tabs) == {"running": 1, "left": 0, "kept": 1}


def entry(id: str, kind: str = "drops", state: str = "received", **more: Any) -> dict[str, Any]:
    event = {"id": id, "operation": "eye", "kind": kind, "at": "2027-03-01T08:00:00Z", "body": {}, "corrects": None, **more}
    return {"id": id, "event": event, "state": state}


@pytest.mark.parametrize(
    ("entries", "stand"),
    [
        ([entry("a")], ["r", "a"]),
        ([entry("a", state="refused")], ["r"]),
        ([entry("r")], ["r"]),
        ([entry("a"), entry("b", "withdrawal", corrects="a")], ["r"]),
        ([entry("b", "withdrawal", corrects="r")], []),
        ([entry("b", "withdrawal", state="refused", corrects="r")], ["r"]),
        ([entry("b", state="saved", corrects="r")], ["b"]),
        ([entry("a", operation="other")], ["r"]),
    ],
)
def test_what_stands_is_each_entry_once_without_what_was_taken_back(
    run: Run, entries: list[dict[str, Any]], stand: list[str]
) -> None:
    receipts = [{"id": "r", "kind": "drops", "at": "2027-03-01T07:00:00Z", "body": {}}]
    body = 'answer = entriesOf({ operation: "eye", receipts: given.receipts }, given.entries).map(({ id }) => id);'
    assert run(script(body), {"receipts": receipts, "entries": entries}) == stand
