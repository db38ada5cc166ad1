"""What waits on a phone or a clinic device, without a browser: kept before it is said, sent in order, gone once it is confirmed."""

from typing import Any

import pytest

from tests.phone.conftest import Run

PAGE = """
import { outboxOf } from "./outboxes.js";
import { sealEverything } from "./patient/sealing.js";
import { entriesOf } from "./patient/standing.js";
import { startTimer, takingOut } from "./patient/timers.js";
import { opened } from "./shared/seal.js";
import { forgetDay } from "./staff/device/day-key.js";
import { receiptOf } from "./shared/clock.js";
import { heardOf } from "./shared/events.js";

const { outbox, clinic, database, timers, sent, said, keep, states, dayKey } = await outboxOf(given.sender);
""".strip()

both = pytest.mark.parametrize("sender", ["phone", "device"])


def script(body: str) -> str:
    return f"{PAGE}\n{body}"


def of(sender: str, **given: Any) -> dict[str, Any]:
    return {"sender": sender, **given}


@both
def test_entries_are_numbered_and_listed_as_they_were_made(run: Run, sender: str) -> None:
    told = run(script('clinic.status = 0; await keep("seen", "arrived", "measures"); answer = await states();'), of(sender))
    assert told == [["seen", 1, "saved"], ["arrived", 2, "saved"], ["measures", 3, "saved"]]


@both
def test_the_order_is_that_of_making_whatever_the_clock_showed(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        const RealDate = Date;
        for (const [kind, year] of [["seen", 2027], ["arrived", 2017], ["measures", 2037]]) {
            globalThis.Date = class extends RealDate {
                constructor(...all) { super(...(all.length ? all : [RealDate.UTC(year, 0)])); }
                static now() { return RealDate.UTC(year, 0); }
            };
            await keep(kind);
        }
        await outbox.flush();
        answer = { states: await states(), last: sent.at(-1) };
    """
    told = run(script(body), of(sender))
    assert told["last"] == [["seen", 1], ["arrived", 2], ["measures", 3]]
    assert [n for _, n, _ in told["states"]] == [1, 2, 3]


def test_a_check_goes_before_whatever_waits_and_the_rest_in_the_order_made(run: Run) -> None:
    body = """
        clinic.status = 0;
        await keep("drops", "posture", "symptoms", "words", "symptoms");
        await outbox.flush();
        clinic.status = 200;
        sent.length = 0;
        const outcome = await outbox.flush();
        answer = { outcome, sent, states: await states() };
    """
    told = run(script(body), of("phone"))
    assert told["outcome"] == "sent"
    assert told["sent"] == [[["symptoms", 3], ["symptoms", 5], ["drops", 1], ["posture", 2], ["words", 4]]]
    assert {state for _, _, state in told["states"]} == {"received"}


@both
@pytest.mark.parametrize("status", [0, 400, 413, 429, 500, 503])
def test_what_the_clinic_did_not_confirm_stays_and_is_tried_again(run: Run, sender: str, status: int) -> None:
    body = """
        clinic.status = given.status;
        await keep("drops");
        answer = { outcome: await outbox.flush(), states: await states(), tries: timers.size > 0 };
    """
    told = run(script(body), of(sender, status=status))
    assert told == {"outcome": "unreachable", "states": [["drops", 1, "saved"]], "tries": True}


@both
@pytest.mark.parametrize("answer", ["not json", "{}", "null", "[]"])
def test_an_answer_of_somebody_else_on_the_line_confirms_nothing(run: Run, sender: str, answer: str) -> None:
    body = """
        clinic.status = 0;
        await keep("drops");
        await outbox.flush();
        globalThis.fetch = async () => ({ ok: true, status: 200, json: async () => JSON.parse(given.answer) });
        answer = { outcome: await outbox.flush(), states: await states(), tries: timers.size > 0 };
    """
    told = run(script(body), of(sender, answer=answer))
    assert told == {"outcome": "unreachable", "states": [["drops", 1, "saved"]], "tries": True}


@both
def test_one_that_the_clinic_cannot_take_at_all_holds_up_none_of_the_others(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        for (let n = 0; n < 30; n += 1) await keep(n === 7 ? "poison" : "drops");
        await outbox.flush();
        clinic.status = (events) => (events.some(({ kind }) => kind === "poison") ? 400 : 200);
        sent.length = 0;
        const outcome = await outbox.flush();
        answer = { outcome, requests: sent.length, saved: (await states()).filter(([, , state]) => state === "saved") };
    """
    told = run(script(body), of(sender))
    assert told["saved"] == [["poison", 8, "saved"]]  # it stays, and is shown as not sent
    assert told["outcome"] == "unreachable"
    assert told["requests"] <= 50


@both
@pytest.mark.parametrize(("locked", "outcome"), [(True, "locked"), (False, "unknown")])
def test_a_device_that_the_clinic_does_not_know_keeps_all_it_has(run: Run, sender: str, locked: bool, outcome: str) -> None:
    body = """
        clinic.status = 401;
        clinic.answering = () => ({ locked: given.locked });
        await keep("drops");
        answer = { outcome: await outbox.flush(), states: await states() };
    """
    assert run(script(body), of(sender, locked=locked)) == {"outcome": outcome, "states": [["drops", 1, "saved"]]}


@both
def test_each_answer_is_of_its_own_entry_and_a_refusal_of_one_is_none_of_the_others(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        await keep("drops", "posture", "words");
        await outbox.flush();
        clinic.status = 200;
        clinic.answering = (events) => ({ results: events.map(({ id, kind }) => (
            kind === "posture" ? { id, status: "refused", reason: "not so" } : { id, status: "received", reason: null })) });
        const outcome = await outbox.flush();
        const refused = (await outbox.all()).find(({ state }) => state === "refused");
        const reason = refused.reason ?? (await opened(refused.outcome, dayKey)).refused;
        answer = { outcome, states: await states(), reason };
    """
    assert run(script(body), of(sender)) == {
        "outcome": "sent",
        "states": [["drops", 1, "received"], ["posture", 2, "refused"], ["words", 3, "received"]],
        "reason": "not so",
    }


def test_an_answer_about_somebody_else_s_entry_changes_nothing(run: Run) -> None:
    body = """
        clinic.status = 0;
        await keep("drops", "posture", "words");
        await outbox.flush();
        clinic.status = 200;
        let asked = 0;
        clinic.answering = (events) => ({ results: asked++ > 0 ? [] : [
            { id: events[1].id, status: "refused", reason: "not so" },
            { id: "of somebody else", status: "received", reason: null },
            { id: events[0].id, status: "received", reason: null },
        ] });
        answer = { outcome: await outbox.flush(), states: await states() };
    """
    told = run(script(body), of("phone"))
    assert told["states"] == [["drops", 1, "received"], ["posture", 2, "refused"], ["words", 3, "saved"]]
    assert told["outcome"] == "unreachable"  # the third was not answered: it waits


@both
def test_an_answer_about_none_of_them_does_not_send_them_for_ever(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        await keep("drops");
        await outbox.flush();
        clinic.status = 200;
        sent.length = 0;
        clinic.answering = () => ({ results: [{ id: "of somebody else", status: "received", reason: null }] });
        answer = { outcome: await outbox.flush(), requests: sent.length, states: await states() };
    """
    told = run(script(body), of(sender))
    assert told == {"outcome": "unreachable", "requests": 1, "states": [["drops", 1, "saved"]]}


@both
def test_sixty_entries_go_in_parts(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        for (let n = 0; n < 60; n += 1) await keep("drops");
        await outbox.flush();
        clinic.status = 200;
        sent.length = 0;
        await outbox.flush();
        answer = sent.map((events) => events.length);
    """
    assert run(script(body), of(sender)) == {"phone": [50, 10], "device": [20, 20, 20]}[sender]


@both
def test_a_lost_answer_sends_the_same_again(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        await keep("drops");
        await outbox.flush();
        clinic.status = 200;
        await outbox.flush();
        const [first, last] = [clinic.bodies[0], clinic.bodies.at(-1)].map(({ events, sealed }) => JSON.stringify(events ?? sealed));
        answer = [first === last, await states()];
    """
    assert run(script(body), of(sender)) == [True, [["drops", 1, "received"]]]


@both
def test_after_the_clinic_put_back_an_older_copy_all_that_is_here_goes_again_once(run: Run, sender: str) -> None:
    body = """
        await keep("drops", "posture");
        await outbox.flush();
        clinic.generation = "after a restore";
        sent.length = 0;
        await keep("words");
        await outbox.flush();
        await outbox.flush();
        answer = { sent: sent.flat().map(([kind]) => kind).sort(), states: (await states()).map(([, , state]) => state) };
    """
    told = run(script(body), of(sender))
    assert told["sent"] == ["drops", "posture", "words", "words"]
    assert told["states"] == ["received"] * 3


@both
def test_an_entry_says_when_this_device_last_heard_the_clinic(run: Run, sender: str) -> None:
    body = """
        clinic.status = 0;
        const heard = new Map();
        const known = clinic.answering;
        clinic.answering = (events) => {
            for (const event of events) heard.set(event.id, event.heard ?? null);
            return known(events);
        };
        await keep("drops");
        database.stores.facts.set("clock", receiptOf({ made_at: "2027-03-05T09:00:00Z" }, Date.parse("2027-03-05T10:30:00Z")));
        await keep("posture");
        clinic.status = 200;
        await outbox.flush();
        answer = [...heard.values()];
    """
    last = {"clinic_at": "2027-03-05T09:00:00.000Z", "device_at": "2027-03-05T10:30:00.000Z"}
    assert run(script(body), of(sender)) == [None, last]


def test_what_an_open_page_keeps_after_the_phone_was_closed_says_when_it_heard_the_clinic(run: Run) -> None:
    """By that a clock that was wrong, and was put right before it is sent, moves no time (`tests/care/test_clocks.py`)."""
    body = """
        clinic.status = 0;
        database.stores.facts.set("clock", receiptOf({ made_at: "2027-03-05T09:00:00Z" }, Date.parse("2027-03-05T10:30:00Z")));
        database.stores.facts.set("pack", { eyes: [], sealing_key: "any" });
        await sealEverything(database);
        await keep("drops");
        answer = [database.stores.facts.has("pack"), (await outbox.all())[0].event.heard];
    """
    last = {"clinic_at": "2027-03-05T09:00:00.000Z", "device_at": "2027-03-05T10:30:00.000Z"}
    assert run(script(body), of("phone")) == [False, last]


@pytest.mark.parametrize("receipt", [None, {}, {"made_at": 0}, {"made_at": 1e300, "received_at": 0}, {"made_at": "soon"}])
def test_a_receipt_that_says_nothing_is_left_out(run: Run, receipt: Any) -> None:
    assert run(script("answer = heardOf(given.receipt);"), of("phone", receipt=receipt)) == {}


def test_an_outcome_that_comes_after_the_author_s_day_leaves_nothing_on_the_device(run: Run) -> None:
    body = """
        clinic.status = 0;
        await keep("measures");
        await outbox.flush();
        clinic.status = 200;
        clinic.before = () => forgetDay(database); // signed out in another tab, while it is sent
        answer = { outcome: await outbox.flush(), left: (await outbox.all()).length };
    """
    assert run(script(body), of("device")) == {"outcome": "sent", "left": 0}


def test_an_entry_made_while_the_day_ends_is_kept_and_without_a_copy(run: Run) -> None:
    body = """
        clinic.status = 0;
        const encrypt = crypto.subtle.encrypt.bind(crypto.subtle);
        crypto.subtle.encrypt = async (...all) => { await forgetDay(database); return encrypt(...all); };
        await keep("measures");
        answer = (await outbox.all()).map((entry) => [entry.state, "packet" in entry, "copy" in entry]);
    """
    assert run(script(body), of("device")) == [["saved", True, False]]


def test_only_what_was_confirmed_long_ago_leaves_the_phone(run: Run) -> None:
    body = """
        const [OLD, NEW] = ["2027-01-01T08:00:00Z", "2027-02-20T08:00:00Z"];
        const put = (id, state, at, clinicAt) => {
            const heard = clinicAt ? { clinic_at: clinicAt, device_at: clinicAt } : undefined;
            database.stores.entries.set(id, { id, event: { at, kind: "drops", heard }, state, reason: null });
        };
        for (const state of ["saved", "received", "refused"]) put(state, state, OLD, OLD);
        put("from before clocks were noted", "received", OLD);
        put("new", "received", NEW, NEW);
        put("after long without a signal", "received", NEW, OLD);
        put("while the clock was behind", "received", OLD, NEW);
        await outbox.prune(Date.parse("2027-03-01T08:00:00Z"));
        answer = (await outbox.all()).map(({ id }) => id);
    """
    kept = {"saved", "refused", "new", "after long without a signal", "while the clock was behind"}
    assert set(run(script(body), of("phone"))) == kept


def test_an_entry_that_its_transaction_does_not_keep_was_never_made(run: Run) -> None:
    body = """
        clinic.status = 0;
        await outbox.add("drops", "eye", "patient", {}, { alongside: () => {} });
        const nothing = await states();
        await outbox.add("drops", "eye", "patient", {}, { alongside: () => { throw new Error("no"); } }).catch(() => {});
        await keep("words");
        answer = [nothing, await states()];
    """
    assert run(script(body), of("phone")) == [[], [["words", 1, "saved"]]]


STOPPED = """
    clinic.status = 0;
    const timer = { operation: "eye", eye: "right", position: "face-down", start: "2027-03-01T08:00:00Z" };
    for (let n = 0; n < given.tabs; n += 1) await startTimer(database, timer);
    const running = [database.stores.facts.get("timer")].flat();
    for (let n = 0; n < 2; n += 1) {
        await outbox.add("posture", "eye", "patient", {}, { alongside: takingOut(timer) });
    }
    answer = { running: running.length, left: database.stores.facts.get("timer").length, kept: (await states()).length };
"""


@pytest.mark.parametrize("tabs", [1, 2])
def test_a_timer_runs_once_and_is_kept_once_whatever_tabs_are_open(run: Run, tabs: int) -> None:
    assert run(script(STOPPED), of("phone", tabs=tabs)) == {"running": 1, "left": 0, "kept": 1}


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
    assert run(script(body), of("phone", receipts=receipts, entries=entries)) == stand
