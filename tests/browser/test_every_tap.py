"""Every tap is answered: saved beside what was tapped, undone, put right or taken back; hours as they were; two taps count once."""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from followup.records import Store, events
from followup.records.bodies.kinds import stored
from tests.browser.conftest import FULL, ZONE, RunningServer, all_received, go, ready
from tests.conftest import until

HOUR = timedelta(hours=1)
TIMER_SINCE = """async ([start, position]) => {
    const { openDatabase, readFact, writeFact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    const { eyes: [{ operation, eye, posture }] } = await readFact(database, "pack");
    await writeFact(database, "timer", [{ operation, eye, position: position ?? posture.position, start }]);
    database.close();
}"""
IN_DOUBT = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    await transact(database, ["entries"], "readwrite", ({ entries }) => {
        entries.openCursor().onsuccess = ({ target: { result: cursor } }) => cursor?.update({ ...cursor.value, unsure: true });
    });
    database.close();
}"""
KEPT_AS = """async ([state, reason, belongs]) => {
    const { openDatabase, readFact, transact } = await import("/static/shared/database.js");
    const { eventOf } = await import("/static/shared/events.js");
    const database = await openDatabase();
    const { eyes: [{ operation }] } = await readFact(database, "pack");
    const how = { at: new Date(), sequence: 1, by: "patient", corrects: null };
    const event = eventOf("drops", belongs ?? operation, { name: "antibiotic" }, how);
    const entry = { id: event.id, event, state, reason };
    await transact(database, ["entries"], "readwrite", ({ entries }) => { entries.put(entry); });
    database.close();
}"""


def stands(store: Store, operation: str, kind: str) -> list[dict[str, Any]]:
    return [stored(event.body) for event in events.of_eye(store, operation) if event.kind == kind]


def again(phone: Page) -> None:
    phone.goto(phone.url.split("#")[0])
    ready(phone)


def timer_since(phone: Page, ago: timedelta, position: str | None = None) -> None:
    phone.evaluate(TIMER_SINCE, [(datetime.now(UTC) - ago).isoformat(), position])
    again(phone)


def hours(body: dict[str, Any]) -> float:
    return (datetime.fromisoformat(body["to"]) - datetime.fromisoformat(body["from"])) / HOUR


def test_what_i_see_is_answered_once_and_can_be_undone(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    go(phone, "bubble")
    phone.get_by_role("button", name="Save what I see").dblclick()
    expect(phone.locator("#bubble-seen button + #kept")).to_contain_text("Saved on this phone")
    all_received(phone, 1)
    assert stands(clinic_store, enrolment[0], "bubble-seen") == [{"percent": 50}]
    go(phone, "bubble")
    phone.get_by_role("button", name="Less").click()
    phone.get_by_role("button", name="Save what I see").click()
    phone.locator("#kept").get_by_role("button", name="Undo").click()
    expect(phone.locator("#kept")).to_be_hidden()
    until(lambda: len(events.history_of(clinic_store, enrolment[0])) == 3, "two entries and what takes one back came")
    go(phone, "more")
    expect(phone.locator("#entries li", has_text="Taken back")).to_have_count(1)
    assert stands(clinic_store, enrolment[0], "bubble-seen") == [{"percent": 50}]


def test_a_drop_tapped_twice_counts_once_and_is_undone_in_its_row(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    phone.context.set_offline(True)
    phone.locator("#drops-now").get_by_role("button", name="I took it: antibiotic").dblclick()
    expect(phone.locator("#drops-now")).to_contain_text("antibiotic: 1 of 4. Today at: ")
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    phone.locator("#drops-now").get_by_role("button", name="Undo: antibiotic").click()
    expect(phone.locator("#drops-now")).to_contain_text("antibiotic: 0 of 4")
    phone.context.set_offline(False)
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert stands(clinic_store, enrolment[0], "drops") == []
    assert len(events.history_of(clinic_store, enrolment[0])) == 2


def test_start_tapped_twice_runs_and_a_stop_undone_runs_on(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    phone.get_by_role("button", name="Start").dblclick()
    expect(phone.get_by_role("button", name="Stop", exact=True)).to_be_visible()
    phone.get_by_role("button", name="Stop", exact=True).click()
    expect(phone.get_by_role("button", name="Start")).to_be_visible()
    phone.locator(".timer-words + #kept").get_by_role("button", name="Undo").click()
    expect(phone.get_by_role("button", name="Stop", exact=True)).to_be_visible()
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert stands(clinic_store, enrolment[0], "posture") == []


def by_hand(phone: Page, day: str, start: str, end: str) -> None:
    if not phone.locator("#hand-day").is_visible():
        phone.get_by_text("Write hours by hand").click()
    phone.locator("#hand-day").fill(day)
    phone.locator("#hand-from").fill(start)
    phone.locator("#hand-to").fill(end)
    phone.get_by_role("button", name="Save these hours").click()


def test_a_night_written_by_hand_crosses_midnight(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    yesterday = (datetime.now(ZONE) - timedelta(days=2)).date().isoformat()
    by_hand(phone, yesterday, "22:00", "06:00")
    expect(phone.locator("#hand-save + #kept")).to_be_visible()
    by_hand(phone, datetime.now(ZONE).date().isoformat(), "23:59", "23:58")
    expect(phone.locator("#hand-error")).to_contain_text("give the day it began")
    all_received(phone, 1)
    [body] = stands(clinic_store, enrolment[0], "posture")
    assert 7 <= hours(body) <= 9  # 8, and an hour more or less in the night when the clocks change


def test_hours_are_changed_on_the_phone(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    day = (datetime.now(ZONE) - timedelta(days=2)).date().isoformat()
    by_hand(phone, day, "10:00", "11:00")
    all_received(phone, 1)
    phone.get_by_role("button", name="Change: Head position").click()
    expect(phone.locator("#hand-from")).to_have_value("10:00")
    expect(phone.locator("#hand-from")).to_be_focused()
    expect(phone.locator("#hand-from")).to_be_in_viewport()
    expect(phone.locator("#hand-changing")).to_contain_text("You change these hours")
    by_hand(phone, day, "10:00", "12:30")
    expect(phone.locator("#hand-changing")).to_be_hidden()
    all_received(phone, 1)
    expect(phone.locator("#entries li", has_text="Put right")).to_have_count(1)
    assert [hours(body) for body in stands(clinic_store, enrolment[0], "posture")] == [2.5]


def test_an_entry_is_taken_back_with_a_reason(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    phone.locator("#drops-now").get_by_role("button", name="I took it: antibiotic").click()
    all_received(phone, 1)
    phone.get_by_role("button", name="Take back: Drops").click()
    phone.get_by_role("button", name="Take it back").click()
    expect(phone.locator("#take-back-error")).to_have_text("Say why, in a few words.")
    phone.get_by_label("Why do you take it back?").fill("it was the other bottle")
    phone.get_by_role("button", name="Take it back").click()
    expect(phone.locator("#entries li", has_text="Taken back")).to_have_count(1)
    expect(phone.locator("#sending")).to_have_text("All sent")
    said = [stored(e.body) for e in events.history_of(clinic_store, enrolment[0]) if e.kind == "withdrawal"]
    assert said == [{"reason": "it was the other bottle"}]
    assert stands(clinic_store, enrolment[0], "drops") == []


def test_a_timer_running_long_asks_until_when_it_was(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    timer_since(phone, 11 * HOUR)
    expect(phone.locator(".still")).to_contain_text("Are you still in this position?")
    expect(phone.locator(".left-today")).not_to_contain_text("Done for today")
    phone.get_by_role("button", name="Stop", exact=True).click()  # asks until when, rather than keep 11 hours
    expect(phone.locator(".still-until")).to_be_visible()
    phone.locator(".still-time").fill(f"{datetime.now(ZONE) - 9 * HOUR:%H:%M}")
    phone.locator(".still-until button").click()
    expect(phone.get_by_role("button", name="Start")).to_be_visible()
    all_received(phone, 1)
    [body] = stands(clinic_store, enrolment[0], "posture")
    assert 1.9 < hours(body) < 2.2


def test_a_long_timer_whose_plan_ended_asks_until_when_too(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    timer_since(phone, 11 * HOUR, "upright")
    running = phone.locator("#running")
    running.get_by_role("button", name="Stop").click()
    running.get_by_label("Until when?").fill(f"{datetime.now(ZONE) - 9 * HOUR:%H:%M}")
    running.get_by_role("button", name="Save").click()
    expect(running).to_be_hidden()
    all_received(phone, 1)
    [body] = stands(clinic_store, enrolment[0], "posture")
    assert body["position"] == "upright"
    assert 1.9 < hours(body) < 2.2


def test_what_nobody_can_tell_is_asked_for_and_counts_once_it_is_said(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    timer_since(phone, 26 * HOUR)
    question = phone.get_by_role("group", name="This phone cannot tell how long this ran: face down, right eye.")
    expect(question).to_be_visible()
    expect(phone.locator(".left-today")).to_have_text("Hours today: 0 of 12. Left: 12.")
    expect(phone.get_by_role("button", name="Take a break")).to_be_hidden()
    phone.get_by_role("button", name="Stop", exact=True).click()
    expect(question.get_by_label("Hours")).to_be_focused()
    question.get_by_role("button", name="Save").click()
    expect(question).to_contain_text("Give hours and minutes, at most 24 hours.")
    question.get_by_label("Hours").fill("2")
    question.get_by_label("Minutes").fill("30")
    question.get_by_role("button", name="Save").click()
    expect(question).to_be_hidden()
    expect(phone.get_by_role("button", name="Start")).to_be_visible()
    all_received(phone, 1)
    assert [hours(body) for body in stands(clinic_store, enrolment[0], "posture")] == [2.5]


def test_kept_hours_in_doubt_are_asked_about_until_somebody_says_how_long_it_was(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    timer_since(phone, HOUR)
    phone.get_by_role("button", name="Stop", exact=True).click()
    all_received(phone, 1)
    phone.evaluate(IN_DOUBT)
    again(phone)
    question = phone.get_by_role("group", name="These hours may be wrong too: face down, right eye")
    expect(question.get_by_label("Hours")).to_have_value("1")
    question.get_by_label("Hours").fill("0")
    question.get_by_label("Minutes").fill("15")
    question.get_by_role("button", name="Save").click()
    expect(question).to_be_hidden()
    all_received(phone, 1)
    assert [hours(body) for body in stands(clinic_store, enrolment[0], "posture")] == [0.25]


def test_a_night_with_the_timer_counts_once_somebody_says_so(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    timer_since(phone, 8 * HOUR)
    phone.get_by_role("button", name="Yes, still").click()
    expect(phone.locator(".still")).to_be_hidden()
    again(phone)
    expect(phone.locator(".still")).to_be_hidden()
    phone.get_by_role("button", name="Stop", exact=True).click()
    all_received(phone, 1)
    [body] = stands(clinic_store, enrolment[0], "posture")
    assert 8 <= hours(body) < 8.2


def test_a_break_is_no_posturing(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    timer_since(phone, HOUR)
    now = datetime.now(UTC)
    phone.get_by_role("button", name="Take a break").click()
    expect(phone.locator(".timer-words")).to_contain_text("On a break since")
    phone.clock.set_fixed_time(now + timedelta(minutes=30))
    again(phone)
    expect(phone.locator(".timer-words")).to_contain_text("On a break since")
    phone.get_by_role("button", name="I am back in position").click()
    expect(phone.get_by_role("button", name="Stop", exact=True)).to_be_visible()
    phone.clock.set_fixed_time(now + timedelta(minutes=40))
    phone.get_by_role("button", name="Stop", exact=True).click()
    all_received(phone, 2)
    kept = [hours(body) for body in stands(clinic_store, enrolment[0], "posture")]
    assert kept == [pytest.approx(1, abs=0.05), pytest.approx(1 / 6, abs=0.05)]


def test_a_break_that_ends_the_day_keeps_nothing_more(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    timer_since(phone, HOUR)
    phone.get_by_role("button", name="Take a break").click()
    phone.get_by_role("button", name="Stop for now").click()
    expect(phone.get_by_role("button", name="Start")).to_be_visible()
    all_received(phone, 1)


def test_a_refused_entry_is_on_the_first_screen_in_the_patients_language_until_it_was_seen(
    phone: Page, server: RunningServer
) -> None:
    phone.goto(f"{server.address}/me/?language=de")
    ready(phone)
    phone.evaluate(KEPT_AS, ["saved", None, "nobody"])
    again(phone)
    refused = phone.locator("#refused")
    expect(refused).to_contain_text("Die Klinik konnte es nicht annehmen: Dieser Eintrag gehört zu einem anderen Auge.")
    refused.get_by_role("button").click()
    expect(refused).to_be_hidden()
    go(phone, "more")
    expect(phone.locator("#entries li", has_text="zu einem anderen Auge")).to_have_count(1)


def test_a_full_phone_says_in_view_what_it_could_not_do(phone: Page) -> None:
    phone.evaluate(KEPT_AS, ["refused", "This entry belongs to another eye.", None])
    again(phone)
    phone.evaluate(FULL)
    trouble = phone.locator("#trouble")
    for button in ("Start", "I have seen it"):
        phone.evaluate("scrollTo(0, document.body.scrollHeight)")
        expect(trouble).not_to_be_in_viewport()
        phone.get_by_role("button", name=button, exact=True).first.dispatch_event("click")  # clicking would scroll to it
        expect(trouble).to_have_text("This phone is full. The entry could not be saved. Please call the clinic.")
        expect(trouble).to_be_in_viewport()
    expect(phone.locator("#refused")).to_be_visible()


PLAN_ENDS_WHILE_DRAWING = """(milliseconds) => {
    const RealDate = Date;
    let ahead = 0;
    globalThis.Date = class extends RealDate {
        constructor(...given) { super(...(given.length > 0 ? given : [RealDate.now() + ahead])); }
        static now() { return RealDate.now() + ahead; }
    };
    const get = IDBObjectStore.prototype.get;
    IDBObjectStore.prototype.get = function (key) {
        if (key === "sealed") ahead = milliseconds;
        return get.call(this, key);
    };
    new BroadcastChannel("followup").postMessage("changed");
}"""


def test_a_timer_whose_plan_ends_while_the_page_is_drawn_is_on_it(phone: Page) -> None:
    phone.get_by_role("button", name="Start").click()
    expect(phone.locator(".posture .timer[aria-pressed=true]")).to_be_visible()
    phone.evaluate(PLAN_ENDS_WHILE_DRAWING, 40 * 24 * HOUR / timedelta(milliseconds=1))
    expect(phone.locator(".posture")).to_have_count(0)
    expect(phone.locator("#running li")).to_be_visible()


TWO_QUESTIONS = """async () => {
    const { RunningView } = await import("/static/patient/running-view.js");
    const view = new RunningView({}, { posture: {}, eye: {} });
    const of = (start) => ({ position: "face-down", eye: "right", start });
    const [first, second] = ["2027-03-05T08:00:00Z", "2027-03-05T09:00:00Z"].map(of);
    view.show([], [first]);
    const field = document.querySelector("#running input");
    field.focus();
    field.value = "3";
    view.show([], [first, second]);
    const kept = [field.isConnected, document.activeElement === field, document.querySelectorAll("#running fieldset").length];
    view.show([], [second]);
    return [...kept, field.isConnected, document.querySelectorAll("#running fieldset").length];
}"""


def test_what_somebody_types_stays_when_another_question_comes(phone: Page) -> None:
    assert phone.evaluate(TWO_QUESTIONS) == [True, True, 2, False, 1]
