"""Two eyes on one phone: one plan on the first screen, and nothing goes to an eye only because that one was shown."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.changing import change_plan
from followup.clinical import schedule
from followup.records import Store, events, eyes
from followup.records.bodies.kinds import stored
from tests.browser.checking import answer, screen
from tests.browser.conftest import PHONE, RunningServer, all_received, clinic_day, enrol, go, ready
from tests.conftest import operation_note, patient_details

LEFT_PLAN = {"position": "left-cheek", "hours_a_day": 6, "days": 5}
STARTED_BEFORE = """async (timer) => {
    const { openDatabase, writeFact } = await import("/static/shared/database.js");
    const database = await openDatabase();
    await writeFact(database, "timer", timer);
    database.close();
}"""
STOPPED_IN_TWO_TABS = """async () => {
    const { openDatabase, readFact, writeFact } = await import("/static/shared/database.js");
    const { PhoneOutbox } = await import("/static/patient/outbox.js");
    const { stretch, takingOut } = await import("/static/patient/timers.js");
    const database = await openDatabase();
    const pack = await readFact(database, "pack");
    const { operation, eye, posture } = pack.eyes[0];
    const timer = { operation, eye, position: posture.position, start: new Date(Date.now() - 60000).toISOString() };
    await writeFact(database, "timer", [timer]);
    const stop = () => new PhoneOutbox(database).add("posture", operation, "patient", stretch(timer), { alongside: takingOut(timer) });
    const kept = await Promise.all([stop(), stop()]);
    return kept.filter(Boolean).length;
}"""


@pytest.fixture
def left(server: RunningServer, clinic_store: Store, nurse: Actor, enrolment: tuple[str, str]) -> str:
    """The same patient's left eye, operated later and without gas, to be seen today."""
    now = datetime.now(UTC)
    today = clinic_day()
    note = operation_note(
        eye="left",
        operated_at=now - timedelta(hours=3),
        agent="none",
        percent=0,
        fill_percent=0,
        posture=LEFT_PLAN,
        drops=[{"name": "steroid", "times_a_day": 6, "until": today + timedelta(days=5)}],
    )
    visits = [schedule.Window("day 1", today, today, today + timedelta(days=2), "pressure")]
    return leaving.discharge(Desk(clinic_store, now, nurse, server.settings.clinic.tz), patient_details(), note, visits)[0]


@pytest.fixture
def right(enrolment: tuple[str, str]) -> str:
    """The eye with gas, operated the day before."""
    return enrolment[0]


@pytest.fixture
def both(open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str], left: str) -> Page:
    """The phone of somebody with both eyes followed."""
    page = open_context(**PHONE).new_page()
    enrol(page, server, enrolment[1])
    return page


def plan(phone: Page, eye: str) -> Any:
    return phone.locator(".posture", has_text=eye)


def of_kind(store: Store, operation: str, kind: str) -> list[dict[str, Any]]:
    return [stored(event.body) for event in events.of_eye(store, operation) if event.kind == kind]


def test_the_first_screen_is_the_plan_of_both_eyes(both: Page) -> None:
    expect(both.locator("#gas-card")).to_be_visible()
    expect(both.locator("#gas-eyes")).to_have_text("Gas in the eye: right eye")
    expect(plan(both, "right eye").locator(".posture-words")).to_have_text("face down")
    expect(plan(both, "right eye").locator(".left-today")).to_contain_text("of 12")
    expect(plan(both, "left eye").locator(".posture-words")).to_have_text("left cheek on the pillow")
    expect(plan(both, "left eye").locator(".left-today")).to_contain_text("of 6")
    expect(both.locator("#different-postures")).to_be_visible()
    expect(both.locator("#next-visit")).to_contain_text("day 1 (left eye)")
    expect(both.locator("#drops-now")).to_contain_text("steroid (left eye): 0 of 6")
    expect(both.locator("#drops-now")).to_contain_text("antibiotic (right eye): 0 of 4")
    both.get_by_role("link", name="Bubble").click()
    expect(both.locator("#anaesthetist-eyes li")).to_have_count(1)
    expect(both.locator("#anaesthetist-eyes")).to_contain_text("right eye")
    both.locator("#which-eye").select_option(label="left eye")
    expect(both.locator("#no-bubble")).to_be_visible()
    expect(both.locator("#anaesthetist")).to_be_visible()


def test_one_eye_alone_is_not_asked_about(phone: Page) -> None:
    expect(phone.locator("#gas-eyes")).to_have_text("Gas in the eye: right eye")
    expect(phone.locator(".posture-eye")).to_be_hidden()
    for view, asked in (("Bubble", "#eyes"), ("Check", "[data-screen=eye]")):
        phone.get_by_role("link", name=view).click()
        expect(phone.locator(asked)).to_be_hidden()


def test_the_eye_chosen_for_details_is_remembered(both: Page, left: str) -> None:
    both.get_by_role("link", name="Bubble").click()
    expect(both.locator("#which-eye")).not_to_have_value(left)  # the one with gas comes first
    both.locator("#which-eye").select_option(label="left eye")
    expect(both.locator("#no-bubble")).to_be_visible()
    both.reload()
    ready(both)
    expect(both.locator("#which-eye")).to_have_value(left)
    expect(both.locator("#no-bubble")).to_be_visible()


def test_hours_go_to_the_eye_whose_timer_ran_whichever_is_shown(
    both: Page, clinic_store: Store, left: str, right: str
) -> None:
    both.get_by_role("button", name="Start: right eye").click()
    expect(plan(both, "right eye").locator(".timer-words")).to_contain_text("Started at")
    expect(plan(both, "left eye").locator(".timer-words")).to_be_empty()
    both.get_by_role("link", name="Bubble").click()
    both.locator("#which-eye").select_option(label="left eye")
    both.reload()
    ready(both)
    both.get_by_role("link", name="Now").click()
    both.get_by_role("button", name="Stop: right eye").click()
    expect(both.get_by_role("button", name="Start: right eye")).to_be_visible()
    all_received(both, 1)
    assert [body["position"] for body in of_kind(clinic_store, right, "posture")] == ["face-down"]
    assert of_kind(clinic_store, left, "posture") == []


def test_a_head_has_one_position(both: Page, clinic_store: Store, left: str, right: str) -> None:
    both.get_by_role("button", name="Start: right eye").click()
    expect(both.get_by_role("button", name="Stop: right eye")).to_be_visible()
    both.get_by_role("button", name="Start: left eye").click()
    expect(both.get_by_role("button", name="Start: right eye")).to_be_visible()
    both.get_by_role("button", name="Stop: left eye").click()
    all_received(both, 2)
    assert [body["position"] for body in of_kind(clinic_store, right, "posture")] == ["face-down"]
    assert [body["position"] for body in of_kind(clinic_store, left, "posture")] == ["left-cheek"]


def test_what_is_written_for_one_eye_does_not_count_for_the_other(both: Page, clinic_store: Store, right: str) -> None:
    both.context.set_offline(True)  # so that it counts from the phone itself
    both.get_by_text("Write hours by hand").click()
    yesterday = clinic_day(-1).isoformat()
    both.locator("#hand-day").fill(yesterday)
    both.locator("#hand-from").fill("10:00")
    both.locator("#hand-to").fill("11:00")
    both.get_by_role("button", name="Save these hours").click()
    expect(both.locator("#hand-error")).to_have_text("Say first which eye this is about.")
    both.locator("#hand-eye").select_option(label="right eye")
    both.get_by_role("button", name="Save these hours").click()
    expect(both.locator("#hand-from")).to_have_value("")
    both.get_by_role("button", name="I took it: antibiotic (right eye)").click()
    expect(both.locator("#drops-now")).to_contain_text("antibiotic (right eye): 1 of 4")
    both.context.set_offline(False)
    all_received(both, 2)
    assert len(of_kind(clinic_store, right, "posture")) == 1
    assert of_kind(clinic_store, right, "drops") == [{"name": "antibiotic"}]


def end_the_plan(store: Store, nurse: Actor, operation: str, server: RunningServer, position: str | None) -> None:
    now = datetime.now(UTC)
    posture = {"position": position, "hours_a_day": 8, "days": 5} if position else None
    note = operation_note(operated_at=now - timedelta(days=1), posture=posture)
    change_plan(Desk(store, now, nurse, server.settings.clinic.tz), operation, note)


@pytest.mark.parametrize("position", [None, "upright"])
def test_a_timer_whose_plan_ended_or_changed_is_shown_and_keeps_its_hours(
    both: Page, server: RunningServer, clinic_store: Store, nurse: Actor, left: str, right: str, position: str | None
) -> None:
    both.get_by_role("button", name="Start: right eye").click()
    expect(both.get_by_role("button", name="Stop: right eye")).to_be_visible()
    end_the_plan(clinic_store, nurse, right, server, position)
    both.reload()
    ready(both)
    expect(both.locator("#running")).to_contain_text("Still running: face down, right eye. Started:")
    go(both, "more")
    both.locator("#running").get_by_role("button", name="Stop").click()
    expect(both.locator("#running")).to_be_hidden()
    all_received(both, 1)
    assert [body["position"] for body in of_kind(clinic_store, right, "posture")] == ["face-down"]
    assert of_kind(clinic_store, left, "posture") == []


def test_a_timer_outlives_the_follow_up_of_its_eyes(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    phone.get_by_role("button", name="Start").click()
    expect(phone.get_by_role("button", name="Stop")).to_be_visible()
    eyes.end(clinic_store, datetime.now(UTC), enrolment[0], "finished")
    phone.reload()
    ready(phone)
    expect(phone.locator("#running")).to_contain_text("face down, right eye")
    with phone.expect_response("**/api/v1/events*"):
        phone.get_by_role("button", name="Stop").click()
    expect(phone.locator("#running")).to_be_hidden()
    assert len(of_kind(clinic_store, enrolment[0], "posture")) == 1


def test_a_timer_of_an_earlier_version_goes_to_the_eye_it_fits(
    both: Page, clinic_store: Store, left: str, right: str
) -> None:
    start = (datetime.now(UTC) - timedelta(minutes=5)).isoformat()
    both.evaluate(STARTED_BEFORE, {"start": start, "position": "face-down"})
    both.reload()
    ready(both)
    both.get_by_role("button", name="Stop: right eye").click()
    all_received(both, 1)
    assert len(of_kind(clinic_store, right, "posture")) == 1
    assert of_kind(clinic_store, left, "posture") == []


def test_a_timer_stopped_in_two_tabs_at_one_moment_is_kept_once(phone: Page) -> None:
    assert phone.evaluate(STOPPED_IN_TWO_TABS) == 1


def test_a_check_asks_which_eye_and_goes_there(both: Page, clinic_store: Store, left: str, right: str) -> None:
    both.get_by_role("link", name="Check").click()
    expect(both.get_by_role("group", name="Which eye is this about?")).to_be_visible()
    expect(screen(both, "pain")).to_be_hidden()
    answer(both, eye="left eye", pain="8", vision="worse")
    expect(both.locator("#verdict-title")).to_have_text("Call now")
    both.get_by_role("button", name="Check again").click()
    expect(screen(both, "eye").locator("[aria-pressed=true]")).to_have_count(0)  # the next check asks again
    all_received(both, 1)
    expect(both.locator("#entries li")).to_contain_text("Eye check (left eye)")
    assert [body["pain"] for body in of_kind(clinic_store, left, "symptoms")] == [8]
    assert of_kind(clinic_store, right, "symptoms") == []


def test_a_journey_is_about_every_eye_with_gas(both: Page, clinic_store: Store, left: str, right: str) -> None:
    both.get_by_role("link", name="Bubble").click()
    both.locator("#which-eye").select_option(label="left eye")
    both.get_by_text("I am going on a journey").click()
    both.get_by_label("Highest point").fill("2500")
    both.get_by_role("button", name="Tell the clinic").click()
    all_received(both, 1)
    assert len(of_kind(clinic_store, right, "journey")) == 1
    assert of_kind(clinic_store, left, "journey") == []


def test_a_change_of_either_plan_is_on_the_first_screen(
    both: Page, server: RunningServer, clinic_store: Store, nurse: Actor, right: str
) -> None:
    end_the_plan(clinic_store, nurse, right, server, "upright")
    both.reload()
    ready(both)
    expect(both.locator("#change-list")).to_contain_text("right eye. Head position: sit upright. Before: face down.")
    both.get_by_role("button", name="I have seen it").click()
    expect(both.locator("#changes")).to_be_hidden()
