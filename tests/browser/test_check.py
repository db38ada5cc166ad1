"""The check on a real phone: when it reassures, when it says call, and that the verdict stays; journey and help with it."""

from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.visits import visit
from followup.records import Store, events, worries
from followup.records.bodies.kinds import stored
from tests.browser.checking import SCREENS, WELL, answer, answer_screen, press, save, screen
from tests.browser.conftest import FULL, PHONE, ZONE, RunningServer, all_received, draft_kept, enrol, go, ready
from tests.conftest import operation_note, patient_details

ALL_CLEAR = "Nothing here needs a call"
DAY, YEAR = timedelta(days=1), timedelta(days=365)


def says(phone: Page, title: str, *, emergency: bool) -> None:
    """The verdict is on the screen with the number to call, and the all-clear is not."""
    expect(phone.locator("#verdict-title")).to_have_text(title)
    expect(phone.locator("#verdict-call")).to_be_visible()
    expect(phone.locator("#verdict-call")).to_contain_text("+00 1 234")
    expect(phone.locator("#verdict-emergency")).to_be_visible(visible=emergency)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_hidden()


def again(phone: Page) -> None:
    phone.goto(phone.url.split("#")[0])
    ready(phone)


def test_the_all_clear_needs_every_answer(phone: Page) -> None:
    answer(phone, pain="2")
    says(phone, "Call us", emergency=True)
    answer(phone, **{**WELL, "fever": "cannot-tell"})
    says(phone, "Call us", emergency=True)
    answer(phone, **WELL)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_visible()
    expect(phone.locator("#verdict")).to_be_hidden()
    phone.get_by_role("button", name="Check again").click()
    expect(screen(phone, "pain")).to_be_visible()
    expect(phone.get_by_text(ALL_CLEAR)).to_be_hidden()
    again(phone)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_hidden()


def test_words_are_never_cleared_and_reach_a_person(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    answer(phone, "I can see nothing at all since this morning, all black")
    says(phone, "Call us", emergency=True)
    expect(phone.locator("#verdict-words")).to_contain_text("A person has to read what you wrote.")
    answer(phone, "it itches", **WELL)
    says(phone, "Call us", emergency=True)
    all_received(phone, 2)
    assert "words" in {c.worry for c in worries.callbacks_of(clinic_store, enrolment[0])}


def relied_on(phone: Page, *, yes: bool) -> None:
    """Whether the first screen says what holds today without a doubt; in doubt it never says that nothing is to be done."""
    go(phone, "now")
    expect(phone.locator("#in-doubt")).to_be_visible(visible=not yes)
    if not yes:
        expect(phone.locator("#in-doubt")).to_contain_text("Your plan may be another by now. Call us and ask.")
        expect(phone.get_by_text("No special position today.")).to_be_hidden()
        expect(phone.get_by_text("No visit is planned.")).to_be_hidden()


@pytest.mark.parametrize("off", [DAY, -DAY, 10 * YEAR, -10 * YEAR])
def test_a_wrong_clock_gives_no_all_clear_and_drops_no_rule(phone: Page, off: timedelta) -> None:
    phone.context.set_offline(True)
    phone.clock.set_fixed_time(datetime.now(UTC) + off)
    again(phone)
    answer(phone, **WELL)
    if off == DAY:
        # A day put forward since looks like a day that passed: the pack counts as a day old, which is fresh enough.
        expect(phone.get_by_text(ALL_CLEAR)).to_be_visible()
    else:
        says(phone, "Call us", emergency=True)
    relied_on(phone, yes=off == DAY)
    answer(phone, **{**WELL, "pain": "9", "curtain": "yes"})
    says(phone, "Call now", emergency=True)


@pytest.mark.parametrize("off", [DAY, -DAY, 10 * YEAR, -10 * YEAR])
def test_a_clock_that_was_wrong_when_the_clinic_was_heard_from_gives_no_all_clear(phone: Page, off: timedelta) -> None:
    phone.clock.set_fixed_time(datetime.now(UTC) + off)
    again(phone)
    answer(phone, **WELL)
    says(phone, "Call us", emergency=True)
    expect(phone.locator("#verdict-words")).to_contain_text("The clock of this phone may be wrong.")


def test_four_days_without_a_word_from_the_clinic_give_no_all_clear(phone: Page) -> None:
    phone.context.set_offline(True)
    phone.clock.set_fixed_time(datetime.now(UTC) + 4 * DAY)
    again(phone)
    answer(phone, **WELL)
    says(phone, "Call us", emergency=True)
    expect(phone.locator("#verdict-words")).to_contain_text("has not heard from the clinic for days")
    relied_on(phone, yes=False)


def test_the_verdict_stays_after_a_reload_and_offline(phone: Page) -> None:
    phone.context.set_offline(True)
    answer(phone, **{**WELL, "curtain": "yes"})
    says(phone, "Call today", emergency=True)
    answer(phone, **{**WELL, "pain": "8"})
    says(phone, "Call now", emergency=True)
    for view in ("", "#check"):
        phone.goto(phone.url.split("#")[0] + view)
        ready(phone)
        says(phone, "Call now", emergency=True)
        expect(phone.locator("#verdict-title")).to_be_in_viewport()
    answer(phone, pain="0")
    says(phone, "Call now", emergency=True)
    answer(phone, **WELL)
    says(phone, "Call now", emergency=True)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_hidden()


def test_a_good_check_takes_no_call_away_and_it_goes_when_the_clinic_has_settled_the_matter(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    answer(phone, **{**WELL, "pain": "8"})
    says(phone, "Call now", emergency=True)
    all_received(phone, 1)
    again(phone)
    answer(phone, **WELL)
    all_received(phone, 2)
    says(phone, "Call now", emergency=True)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_hidden()
    again(phone)
    says(phone, "Call now", emergency=True)
    now = datetime.now(UTC)
    for open_one in worries.open_callbacks(clinic_store):
        holding.claim(Desk(clinic_store, now, nurse, ZONE), open_one.id)
        clinic = server.settings.clinic
        phone_calls.attempt(Desk(clinic_store, now, nurse, ZONE), open_one.id, "patient", "spoken to", clinic)
        settling.settle(Desk(clinic_store, now, nurse, ZONE), open_one.id, "advice", "spoken to", clinic)
    again(phone)
    expect(phone.locator("#verdict")).to_be_hidden()
    answer(phone, **WELL)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_visible()


def test_what_could_not_be_saved_is_still_answered(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    phone.evaluate(FULL)
    answer(phone, kept=False, **WELL)
    expect(phone.locator("#trouble")).to_contain_text("This phone is full")
    expect(phone.get_by_text(ALL_CLEAR)).to_be_hidden()
    while not screen(phone, "pain").is_visible():
        phone.locator("#check-back").click()
    answer(phone, kept=False, **{**WELL, "pain": "8"})
    says(phone, "Call now", emergency=True)
    phone.get_by_role("link", name="Visits").click()
    says(phone, "Call now", emergency=True)
    phone.get_by_role("link", name="Bubble").click()
    journey(phone, "2500")
    expect(phone.locator("#journey-title")).to_have_text("Call now")
    assert events.of_eye(clinic_store, enrolment[0]) == []


def test_two_eyes_keep_a_verdict_each(
    open_context: Callable[..., BrowserContext],
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
    nurse: Actor,
) -> None:
    now = datetime.now(UTC)
    note = operation_note(eye="left", operated_at=now - DAY, agent="none", percent=0, fill_percent=0)
    other, _ = leaving.discharge(Desk(clinic_store, now, nurse, server.settings.clinic.tz), patient_details(), note, [])
    phone = open_context(**PHONE).new_page()
    enrol(phone, server, enrolment[1])
    answer(phone, eye="right eye", **{**WELL, "pain": "8"})
    answer(phone, eye="left eye", **WELL)
    says(phone, "Call now", emergency=True)
    expect(phone.locator("#check-kept")).to_be_visible()
    all_received(phone, 2)
    says(phone, "Call now", emergency=True)
    expect(phone.locator("#verdict-words")).to_contain_text("right eye")
    # The eye without gas is on the screen; the other one's caution counts, and the entry goes to that eye.
    phone.get_by_role("link", name="Bubble").click()
    phone.locator("#which-eye").select_option(label="left eye")
    expect(phone.locator("#no-bubble")).to_be_visible()
    journey(phone, "2500")
    expect(phone.locator("#journey-title")).to_have_text("Call now")
    all_received(phone, 3)
    assert [e.kind for e in events.of_eye(clinic_store, enrolment[0])] == ["symptoms", "journey"]
    assert [e.kind for e in events.of_eye(clinic_store, other)] == ["symptoms"]


def journey(phone: Page, metres: str) -> None:
    if not phone.locator("#journey-height").is_visible():
        phone.get_by_text("I am going on a journey").click()
    phone.get_by_label("Highest point of the journey").fill(metres)
    phone.get_by_role("button", name="Tell the clinic").click()


# Above the clinic's 0 m: the draft's thresholds are 250 and 1,200 m of climb.
@pytest.mark.parametrize(
    ("metres", "title", "words", "emergency"),
    [
        ("2500", "Call now", "Flying or high mountains with gas in the eye can blind it. Do not go.", True),
        ("250", "Call today", "Do not go before the clinic says so.", False),
        ("249", "", "below the limit of the clinic. Do not fly.", False),
    ],
)
def test_a_journey_is_answered_at_once_offline(phone: Page, metres: str, title: str, words: str, emergency: bool) -> None:
    phone.context.set_offline(True)
    again(phone)
    phone.get_by_role("link", name="Bubble").click()
    journey(phone, metres)
    expect(phone.locator("#journey-title")).to_have_text(title)
    expect(phone.locator("#journey-words")).to_contain_text(words)
    expect(phone.locator("#journey-call")).to_contain_text("+00 1 234")
    expect(phone.locator("#journey-emergency")).to_be_visible(visible=emergency)
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    expect(phone.locator("#journey-said")).to_be_in_viewport()
    expect(phone.locator("#kept")).to_contain_text("Saved on this phone")
    again(phone)
    if title:
        says(phone, title, emergency=emergency)
        expect(phone.locator("#verdict-words")).to_contain_text(words)
    else:
        expect(phone.locator("#verdict")).to_be_hidden()


def test_an_anaesthetic_is_answered_until_the_clinic_lifts_the_caution(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.get_by_role("link", name="Bubble").click()
    phone.get_by_text("I am going on a journey").click()
    phone.get_by_role("button", name="I am having an anaesthetic").click()
    expect(phone.locator("#journey-title")).to_have_text("Call now")
    expect(phone.locator("#journey-words")).to_contain_text("Laughing gas")
    expect(phone.locator("#journey-emergency")).to_be_visible()
    phone.locator("#kept").get_by_role("button", name="Undo").click()
    expect(phone.locator("#verdict")).to_be_hidden()
    phone.get_by_role("button", name="I am having an anaesthetic").click()
    says(phone, "Call now", emergency=True)
    now, zone = datetime.now(UTC), server.settings.clinic.tz
    visit.record_clinic_event(Desk(clinic_store, now, replace(nurse, trusted=True), zone), enrolment[0], "no-gas-seen", {})
    again(phone)
    phone.get_by_role("link", name="Bubble").click()
    journey(phone, "3000")
    expect(phone.locator("#journey-words")).to_contain_text(
        "The clinic looked and found no gas left. It lifted this caution."
    )
    expect(phone.locator("#journey-emergency")).to_be_hidden()


def test_help_says_the_same_urgency_as_the_check_with_both_numbers(phone: Page) -> None:
    phone.context.set_offline(True)
    again(phone)
    phone.get_by_role("link", name="Something is wrong").click()
    expect(phone.locator("#dangers-now h2")).to_have_text("Call now")
    expect(phone.locator("#dangers-now li", has_text="Pain of 7 or more out of 10")).to_be_visible()
    expect(phone.locator("#dangers-today h2")).to_have_text("Call today")
    expect(phone.locator("#dangers-today li", has_text="A dark curtain")).to_be_visible()
    expect(phone.locator("#dangers-again h2")).to_have_text("Look again soon")
    expect(phone.locator("#dangers-again p")).to_contain_text(
        "Call today if it is still there. Call at once if it gets worse"
    )
    expect(phone.locator("#dangers-again li", has_text="More dots or threads that float by")).to_be_visible()
    expect(phone.locator("#help-call")).to_contain_text("+00 1 234")
    expect(phone.locator("#help-emergency")).to_contain_text("112")
    for name, value, title in (
        ("floaters", "worse", "Look again"),
        ("curtain", "yes", "Call today"),
        ("pain", "7", "Call now"),
    ):
        answer(phone, **{**WELL, name: value})
        expect(phone.locator("#verdict-title")).to_have_text(title)


def test_a_page_closed_right_after_a_check_was_kept_does_not_bring_its_answers_back(phone: Page) -> None:
    phone.context.set_offline(True)
    answer(phone, **{**WELL, "pain": "8"})
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    again(phone)
    phone.get_by_role("link", name="Check").click()
    expect(screen(phone, "pain")).to_be_visible()
    expect(phone.locator("#symptoms [aria-pressed=true], #symptoms input:checked")).to_have_count(0)


def test_answers_of_this_morning_do_not_come_back_in_the_evening_but_words_do(phone: Page) -> None:
    half_a_check(phone)
    again(phone)
    phone.get_by_role("link", name="Check").click()
    expect(phone.locator("#symptom-words")).to_have_value("half a sentence")
    expect(screen(phone, "words")).to_be_visible()
    phone.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=9))
    again(phone)
    begins_anew_with_words(phone)


def test_a_half_filled_check_of_yesterday_never_comes_back_as_todays(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    phone = open_context(**PHONE, timezone_id="Europe/Vienna").new_page()
    tonight = datetime.now(ZoneInfo("Europe/Vienna")).replace(hour=23, minute=40)
    phone.clock.set_fixed_time(tonight)
    enrol(phone, server, enrolment[1])
    half_a_check(phone)
    phone.clock.set_fixed_time(tonight + timedelta(minutes=30))
    again(phone)
    begins_anew_with_words(phone)


def half_a_check(phone: Page) -> None:
    phone.get_by_role("link", name="Check").click()
    for name in SCREENS:
        answer_screen(phone, name, WELL)
    phone.locator("#symptom-words").fill("half a sentence")
    draft_kept(phone, "half a sentence")


def begins_anew_with_words(phone: Page) -> None:
    """No answer is there; what was written is, and says that it is from before."""
    phone.get_by_role("link", name="Check").click()
    expect(screen(phone, "pain")).to_be_visible()
    expect(phone.locator("#symptoms [aria-pressed=true], #symptoms input:checked")).to_have_count(0)
    for name in SCREENS:
        answer_screen(phone, name, WELL)
    expect(phone.locator("#symptom-words")).to_have_value("half a sentence")
    expect(phone.locator("#words-from")).to_contain_text("You wrote this before and did not save it")


def test_words_from_before_are_not_sent_unseen(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    half_a_check(phone)
    phone.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=9))
    again(phone)
    phone.get_by_role("link", name="Check").click()
    press(phone, "pain", "2")
    save(phone, whole=False, kept=False)
    expect(phone.locator("#symptom-words")).to_have_value("half a sentence")
    expect(screen(phone, "words")).to_be_visible()
    assert events.of_eye(clinic_store, enrolment[0]) == []


def test_a_good_day_takes_eight_taps_and_back_keeps_what_was_said(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    assert answer(phone, **WELL) <= 8  # from the first screen; one question after the other took 13
    expect(phone.get_by_text(ALL_CLEAR)).to_be_visible()
    phone.get_by_role("button", name="Check again").click()
    press(phone, "pain", "1")
    expect(phone.locator("#check-step")).to_have_text("Question 2 of 7")
    phone.get_by_role("button", name="Back").click()
    expect(screen(phone, "pain").get_by_role("button", name="1", exact=True)).to_have_attribute("aria-pressed", "true")
    expect(phone.get_by_role("button", name="Back")).to_be_hidden()
    press(phone, "pain", "4")
    for name in list(SCREENS)[1:]:
        answer_screen(phone, name, WELL)
    save(phone)
    all_received(phone, 2)
    assert [event.body.pain for event in events.of_eye(clinic_store, enrolment[0])] == [1, 4]


def test_each_screen_puts_the_reader_on_its_question(phone: Page) -> None:
    phone.get_by_role("link", name="Check").click()
    for name in SCREENS:
        answer_screen(phone, name, WELL)
        assert phone.evaluate("document.activeElement.matches('[data-screen]:not([hidden]) h2')"), name
    phone.get_by_role("button", name="Back").click()
    expect(screen(phone, "other_eye").get_by_role("heading")).to_be_focused()


def test_a_double_tap_answers_one_question(phone: Page) -> None:
    phone.get_by_role("link", name="Check").click()
    answer_screen(phone, "pain", WELL)
    answer_screen(phone, "vision", WELL)
    screen(phone, "seeing").get_by_role("button", name="None of these").dblclick()
    expect(screen(phone, "looking")).to_be_visible()


def test_a_danger_is_answered_before_the_last_question(phone: Page) -> None:
    phone.get_by_role("link", name="Check").click()
    press(phone, "pain", "8")
    not_sent_yet(phone)
    expect(phone.locator("#verdict")).to_be_in_viewport()
    phone.get_by_role("button", name="Back").click()
    press(phone, "pain", "2")
    expect(phone.locator("#verdict")).to_be_hidden()


def not_sent_yet(phone: Page) -> None:
    says(phone, "Call now", emergency=True)
    expect(phone.locator("#verdict-words")).to_contain_text("Not sent yet: the clinic does not know of it.")
    expect(phone.get_by_role("button", name="Send it as it is")).to_be_visible()
    expect(phone.locator("#sending")).to_be_hidden()


def test_a_danger_in_the_middle_of_a_check_stands_on_every_screen_until_it_is_sent(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    phone.get_by_role("link", name="Check").click()
    press(phone, "pain", "8")
    for view in ("Now", "Visits"):
        phone.get_by_role("link", name=view, exact=True).click()
        not_sent_yet(phone)
    again(phone)
    not_sent_yet(phone)
    expect(phone.locator("#verdict")).to_be_in_viewport()
    phone.get_by_role("button", name="Send it as it is").click()
    expect(phone.get_by_role("button", name="Send it as it is")).to_be_hidden()
    says(phone, "Call now", emergency=True)
    all_received(phone, 1)
    again(phone)
    says(phone, "Call now", emergency=True)
    (kept,) = events.of_eye(clinic_store, enrolment[0])
    assert stored(kept.body)["pain"] == 8


def test_cannot_tell_to_any_question_reaches_the_clinic_as_such_and_says_call_us(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    answer(phone, **{**WELL, "floaters": "cannot-tell"})
    says(phone, "Call us", emergency=True)
    expect(phone.locator("#verdict-words")).to_contain_text("You cannot tell some things.")
    answer(phone, **{**WELL, "curtain": "yes", "floaters": "cannot-tell"})
    says(phone, "Call today", emergency=True)
    all_received(phone, 2)
    unsure, partly = (stored(event.body) for event in events.of_eye(clinic_store, enrolment[0]))
    assert unsure["cannot_tell"] == ["curtain", "flashes", "floaters"]
    assert partly["curtain"] is True
    assert partly["cannot_tell"] == ["flashes", "floaters"]


def test_a_lone_mild_sign_asks_for_a_second_look_and_calls_when_it_is_still_there_or_none_came(phone: Page) -> None:
    answer(phone, **{**WELL, "floaters": "worse"})
    says(phone, "Look again", emergency=False)
    expect(phone.locator("#verdict-words")).to_contain_text("does it move like the bubble?")
    expect(phone.locator("#verdict-words")).to_contain_text("Call us at once if it gets worse")
    answer(phone, **WELL)
    expect(phone.get_by_text(ALL_CLEAR)).to_be_visible()
    answer(phone, **{**WELL, "floaters": "worse"})
    says(phone, "Look again", emergency=False)
    phone.context.set_offline(True)
    phone.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=2))
    again(phone)
    says(phone, "Look again", emergency=False)
    answer(phone, **{**WELL, "floaters": "worse"})
    says(phone, "Look again", emergency=False)
    phone.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=5))
    answer(phone, **{**WELL, "floaters": "worse"})
    says(phone, "Call today", emergency=True)


def test_a_second_look_that_did_not_come_calls(phone: Page) -> None:
    answer(phone, **{**WELL, "floaters": "worse"})
    says(phone, "Look again", emergency=False)
    phone.context.set_offline(True)
    phone.clock.set_fixed_time(datetime.now(UTC) + timedelta(hours=4, minutes=1))
    again(phone)
    says(phone, "Call today", emergency=True)
