"""The pages that come when they are opened: with a signal at first, from the second visit on without; and who helps."""

from collections.abc import Callable
from datetime import datetime, time, timedelta

import icalendar
from playwright.sync_api import BrowserContext, Page, Route, expect

from followup.web.context import LANGUAGES
from tests.browser.conftest import PHONE, ZONE, RunningServer, clinic_day, enrol, go, ready
from tests.browser.test_everyone_can_use_it import faults_of
from tests.conftest import until

VIEWS = ("living", "history", "helpers", "install", "privacy")
LATER_KEPT = """async () => {
    const name = (await caches.keys()).find((name) => name.startsWith("followup-shell-"));
    const kept = (await (await caches.open(name)).keys()).map(({ url }) => new URL(url).pathname);
    return kept.includes("/me/later") && kept.filter((path) => path.startsWith("/static/patient/later/")).length > 5;
}"""


def test_they_come_with_a_signal_and_stay_from_the_second_visit_on(phone: Page, server: RunningServer) -> None:
    assert not phone.evaluate(LATER_KEPT)  # nobody needs them at first sight
    phone.context.set_offline(True)
    go(phone, "living")
    expect(phone.get_by_text("This page comes as soon as there is a signal.").first).to_be_visible()
    phone.context.set_offline(False)
    go(phone, "now")
    go(phone, "living")
    expect(phone.get_by_role("heading", name="Living with it")).to_be_focused()
    phone.reload()
    ready(phone)
    phone.wait_for_function(LATER_KEPT)
    phone.context.set_offline(True)
    phone.reload()
    ready(phone)
    expect(phone.get_by_role("heading", name="Living with it")).to_be_visible()
    go(phone, "history")
    phone.locator("#now").evaluate("() => { location.hash = 'now'; }")
    phone.get_by_role("button", name="I took it: antibiotic").click()
    expect(phone.locator("#next-drop")).not_to_be_empty()
    go(phone, "history")
    expect(phone.locator("#history-eyes")).to_contain_text("Drops: antibiotic 1 ×")
    go(phone, "visits")
    phone.get_by_label("With my drops").check()
    with phone.expect_download() as waiting:
        phone.get_by_role("button", name="Put them in my calendar").click()
    made = icalendar.Calendar.from_ical(waiting.value.path().read_bytes())
    told = [str(event["SUMMARY"]) for event in made.walk("VEVENT")]
    assert sorted(set(told)) == ["Drop: antibiotic", "Visit: Test Eye Clinic"]
    assert len(told) == 5


def test_they_are_usable_in_every_language_at_every_width(phone: Page, server: RunningServer) -> None:
    faults = []
    for language in LANGUAGES:
        phone.goto(f"{server.address}/me/?language={language}")
        ready(phone)
        for view in VIEWS:
            go(phone, view)
            phone.locator(f"#{view}").wait_for(state="visible")
            faults += [f"{language} {view}: {fault}" for fault in faults_of(phone, (320,))]
    assert faults == []


def test_own_weeks_are_printed_and_sent(phone: Page) -> None:
    phone.add_init_script("navigator.share = async (given) => { window.sent = given; };")
    phone.reload()
    ready(phone)
    go(phone, "visits")
    phone.get_by_role("button", name="I took it: antibiotic").click()
    go(phone, "history")
    phone.locator("#history").get_by_role("button", name="Print").click()
    assert phone.evaluate("window.timesPrinted") == 1
    phone.emulate_media(media="print")
    expect(phone.locator("#history-eyes")).to_be_visible()
    expect(phone.locator("#history-print")).to_be_hidden()
    phone.emulate_media(media="screen")
    phone.locator("#history").get_by_role("button", name="Send").click()
    sent = phone.evaluate("window.sent")
    assert sent["title"] == phone.locator("#history-who").inner_text()
    assert "Pat Patient" in sent["title"]
    assert "- Drops: antibiotic 1 ×" in sent["text"].splitlines()


def test_a_carer_is_let_in_writes_and_is_removed(
    phone: Page, server: RunningServer, open_context: Callable[..., BrowserContext]
) -> None:
    go(phone, "helpers")
    phone.get_by_label("what do you call them?").fill("Ada")
    phone.get_by_role("button", name="Make a code").click()
    expect(phone.locator("#invited")).to_be_focused()
    code = phone.locator("#invited-code").inner_text().replace(" ", "")
    helper = open_context(**PHONE).new_page()
    enrol(helper, server, code)
    expect(helper.locator("#who")).to_have_text("Pat Patient · You write as the carer")
    helper.get_by_role("button", name="I took it: antibiotic").click()
    expect(helper.locator("#sending")).to_have_text("All sent")
    phone.reload()
    ready(phone)
    go(phone, "more")
    expect(phone.locator("#entries")).to_contain_text("Drops, by Ada. Received by the clinic")
    held: list[Route] = []
    phone.route("**/api/v1/helpers", lambda route: held.append(route))
    go(phone, "helpers")
    phone.get_by_role("button", name="Remove: Ada").click()
    until(lambda: phone.evaluate("1") and held, "the list is asked for again")
    with phone.expect_response("**/api/v1/helpers"):
        held[0].continue_()
    phone.unroute("**/api/v1/helpers")
    # The list that comes now leaves the question standing that was asked under the old one.
    phone.get_by_role("button", name="Yes, remove: Ada").click()
    expect(phone.locator("#helper-list li")).to_have_count(1)
    helper.reload()
    for _ in ("with a signal", "without"):
        expect(helper.get_by_role("heading", name="You are no longer a helper here")).to_be_visible()
        expect(helper.get_by_text("The clinic has closed this phone")).to_be_hidden()
        expect(helper.get_by_text("was not sent")).to_be_hidden()
        expect(helper.locator("#locked-call")).to_contain_text("+00 1 234")
        helper.context.set_offline(True)
        helper.reload()


def test_a_drop_is_reminded_of_at_its_time_while_the_page_is_open(phone: Page) -> None:
    almost_noon = datetime.combine(clinic_day(), time(11, 58), ZONE)
    phone.clock.install(time=almost_noon)
    phone.reload()
    ready(phone)
    expect(phone.locator("#next-drop")).to_have_text("12:00: antibiotic")
    phone.clock.run_for(timedelta(minutes=3) // timedelta(milliseconds=1))
    expect(phone.locator("#drop-due")).to_have_text("Time for your drop: antibiotic.")
    expect(phone.locator("#next-drop")).to_have_text("Now: antibiotic")
    phone.get_by_role("button", name="I took it: antibiotic").click()
    expect(phone.locator("#next-drop")).to_have_text("16:00: antibiotic")
    expect(phone.locator("#drop-due")).to_be_empty()
