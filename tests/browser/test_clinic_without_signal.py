"""A clinic device without a signal: the list opens with the password, entries are kept sealed and sent, nothing is overwritten."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.clinical import pressure, schedule
from followup.records import Store, events, visits, worries
from tests.browser.conftest import RunningServer, clinic_day, sign_in
from tests.browser.device import TABLET, device_ready, unlock
from tests.browser.kept import of_both_eyes
from tests.browser.proxy import Line
from tests.browser.test_faults import HANG_WITH_THE_TURN, LONGER_THAN_A_REQUEST_MS
from tests.conftest import PASSWORD, operation_note, patient_details, until

EVERYTHING_KEPT = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    const database = await openDatabase("followup-clinic");
    return transact(database, ["entries", "facts"], "readonly", ({ entries, facts }, give) => {
        const all = {};
        entries.getAll().onsuccess = (read) => { all.entries = read.target.result; };
        facts.getAllKeys().onsuccess = (read) => { all.keys = read.target.result; };
        facts.getAll().onsuccess = (read) => { all.facts = read.target.result; give(all); };
    });
}"""

KEY_GOES = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    await transact(await openDatabase("followup-clinic"), ["facts"], "readwrite", ({ facts }) => { facts.delete("day-key"); });
}"""


THE_SHEET_IS_TEN_MINUTES_OLD = """async () => {
    const { openDatabase, transact } = await import("/static/shared/database.js");
    await transact(await openDatabase("followup-clinic"), ["facts"], "readwrite", ({ facts }) => {
        facts.get("sheet").onsuccess = ({ target: { result } }) => facts.put({ ...result, fetched: result.fetched - 600000 }, "sheet");
    });
}"""


A_NEWER_VERSION_LETS_GO_OF_THIS_ONE = """async () => {
    for (const name of (await caches.keys()).filter((name) => name.startsWith("followup-clinic-"))) {
        const [own, newer] = [await caches.open(name), await caches.open("followup-clinic-newer")];
        for (const request of await own.keys()) await newer.put(request, await own.match(request));
        await caches.delete(name);
    }
}"""


NO_ENTRY_CAN_BE_KEPT = """() => {
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = function (...given) {
        const asked = add.apply(this, given);
        if (this.name === "entries") this.transaction.abort(); // as the browser does where the disk is full
        return asked;
    };
}"""
SIGNS_OUT_AS_THE_KEY_IS_WORKED_OUT = """() => {
    const unwrap = crypto.subtle.unwrapKey.bind(crypto.subtle);
    crypto.subtle.unwrapKey = async (...asked) => {
        document.getElementById("leave").click();
        const key = await unwrap(...asked);
        window.workedOut = true;
        return key;
    };
}"""


@pytest.fixture
def tablet(open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]) -> Page:
    """A nurse's tablet, signed in, with today's list on it."""
    return nurse_tablet(open_context, server, "nurse@test.invalid")


def nurse_tablet(open_context: Callable[..., BrowserContext], server: RunningServer, email: str) -> Page:
    page = open_context(**TABLET).new_page()
    sign_in(page, server, email)
    device_ready(page)
    return page


def behind_a_line(open_context: Callable[..., BrowserContext], server: RunningServer) -> tuple[Line, RunningServer, Page]:
    """A line to the server, the server as it is reached by that, and a nurse's tablet that does."""
    line, through = Line(server.settings.server.port), replace(server, settings=server.settings.model_copy(deep=True))
    through.settings.server.port = line.port
    return line, through, nurse_tablet(open_context, through, "nurse@test.invalid")


def without_signal(page: Page, server: RunningServer) -> None:
    """The server is gone, and the nurse asks for today's list."""
    server.kill()
    page.goto(f"{server.address}/clinic/")
    unlock(page)
    expect(page.get_by_role("heading", name="Today’s list", exact=True)).to_be_visible()


def measure(page: Page, acuity: str, iop: str) -> None:
    """Not at a planned visit, whatever they arrived for."""
    page.get_by_role("link", name="Enter visit: Pat Patient").first.click()
    page.get_by_label("Visit", exact=True).select_option("")
    page.locator("#right-acuity").fill(acuity)
    page.locator("#right-iop").fill(iop)
    page.get_by_role("button", name="Keep").click()


def test_the_list_and_the_entry_screen_work_and_the_entry_arrives_once(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    without_signal(tablet, server)
    coming = tablet.locator("[data-state=coming] li")
    expect(coming).to_have_count(1)
    expect(coming).to_contain_text("Pat Patient")
    expect(coming).to_contain_text("week 1")
    coming.get_by_role("button", name="Arrived: Pat Patient").click()
    expect(tablet.locator("[data-state=here] li")).to_contain_text("Pat Patient")
    tablet.get_by_role("link", name="Enter visit: Pat Patient").first.click()
    planned = tablet.get_by_label("Visit", exact=True).locator("option", has_text="week 1")
    # They came for it, though its window does not hold today.
    expect(tablet.get_by_label("Visit", exact=True)).to_have_value(planned.get_attribute("value") or "none")
    tablet.locator("#right-acuity").fill("20/40-1")
    expect(tablet.locator("output[data-field=right-acuity]")).to_contain_text("logMAR 0.32 · 6/12.6 · 20/42 · 69 letters")
    tablet.locator("#right-iop").fill("36")
    tablet.locator("#left-iop").fill("14")
    tablet.get_by_role("button", name="Keep").click()
    expect(tablet.get_by_role("alert").filter(has_text="week 1 is due")).to_contain_text("takes place today?")
    tablet.get_by_label("Yes, that is right").check()
    tablet.get_by_role("button", name="Keep").click()
    expect(tablet.get_by_role("alert").filter(has_text="No warning goes out")).to_contain_text("36 mmHg is at or above")
    expect(tablet.locator("[data-state=seen] li")).to_contain_text("Pat Patient")
    expect(tablet.locator("#entries li").first).to_contain_text("Kept on this device.")
    assert of_both_eyes(clinic_store, enrolment[0], "measures") == []
    server.start()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li").first).to_contain_text("Received by the clinic.")
    expect(tablet.locator("#entries li").first).to_contain_text("Pressure 36 mmHg")
    expect(tablet.get_by_text("The signal is back.")).to_be_visible()
    kept = of_both_eyes(clinic_store, enrolment[0])
    kinds = sorted(e.kind for e in kept)
    assert kinds == ["arrived", "measures", "measures", "seen"]
    assert {e.author.split(":")[0] for e in kept} == {"nurse"}
    (week,) = visits.of_eye(clinic_store, enrolment[0])
    assert {e.body.visit_id for e in kept if e.kind in ("arrived", "seen")} == {week.identity}
    assert {getattr(e.body, "iop_mmhg", None) for e in kept if e.kind == "measures"} == {36, 14}
    assert "pressure" in {c.worry for c in worries.open_callbacks(clinic_store)}


def test_whoever_comes_unplanned_is_found_by_name_and_entered(
    open_context: Callable[..., BrowserContext],
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
    nurse: Actor,
) -> None:
    """Nothing is due for them in weeks, so they are not on the day's sheet."""
    day = clinic_day(60)
    windows = [schedule.Window("month 2", day, day - timedelta(days=7), day + timedelta(days=7), "retina")]
    desk = Desk(clinic_store, datetime.now(UTC), nurse, server.settings.clinic.tz)
    patient = patient_details("T-2").model_copy(update={"name": "Una Unplanned"})
    note = operation_note(operated_at=desk.now - timedelta(days=9), steroid_drops_until=day)
    eye, _ = leaving.discharge(desk, patient, note, windows)
    tablet = nurse_tablet(open_context, server, "nurse@test.invalid")
    without_signal(tablet, server)
    expect(tablet.get_by_text("Una Unplanned")).to_have_count(0)
    tablet.get_by_label("Find by name or number").fill("unpl")
    expect(tablet.get_by_text("Nobody of that name or number")).to_be_hidden()
    tablet.get_by_role("link", name="Enter visit: Una Unplanned").click()
    expect(tablet.locator("#entry-about")).to_contain_text("T-2")
    expect(tablet.get_by_label("Visit", exact=True)).to_have_value("")
    tablet.locator("#right-iop").fill("36")
    tablet.get_by_role("button", name="Keep").click()
    expect(tablet.get_by_role("alert").filter(has_text="No warning goes out")).to_contain_text("36 mmHg is at or above")
    tablet.get_by_label("Find by name or number").fill("xyz")
    expect(tablet.get_by_text("Nobody of that name or number is on this device.")).to_be_visible()
    server.start()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li").first).to_contain_text("Received by the clinic.")
    assert [e.body.iop_mmhg for e in of_both_eyes(clinic_store, eye, "measures")] == [36]


def test_a_page_says_that_the_list_on_this_device_grows_old_and_the_list_says_of_when_it_is(
    tablet: Page, server: RunningServer
) -> None:
    old = tablet.locator("#sheet-old")
    expect(old).to_be_hidden()
    tablet.evaluate(THE_SHEET_IS_TEN_MINUTES_OLD)
    server.kill()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(old).to_contain_text("no newer one comes")
    without_signal(tablet, server)
    expect(tablet.locator("#no-signal")).to_contain_text(re.compile(r"This is the list as it was at \d\d:\d\d\."))
    server.start()
    tablet.goto(f"{server.address}/clinic/")
    device_ready(tablet)
    expect(old).to_be_hidden()


def test_a_page_that_opens_while_a_newer_version_takes_over_opens(tablet: Page, server: RunningServer) -> None:
    """Between the moment when the newer one lets go of the files of this one and the moment when it answers for this page."""
    tablet.evaluate(A_NEWER_VERSION_LETS_GO_OF_THIS_ONE)
    without_signal(tablet, server)


def test_a_pressure_that_cannot_be_kept_is_alarming_all_the_same_and_stays_to_be_read(
    tablet: Page, server: RunningServer
) -> None:
    without_signal(tablet, server)
    tablet.evaluate(NO_ENTRY_CAN_BE_KEPT)
    measure(tablet, "CF", "45")
    expect(tablet.get_by_role("alert").filter(has_text="No warning goes out")).to_contain_text("45 mmHg is at or above")
    expect(tablet.locator("#told")).to_have_text("This could not be kept on this device. Write it on paper.")
    expect(tablet.locator("#right-iop")).to_have_value("45")


def test_what_the_device_keeps_cannot_be_read_and_goes_with_signing_out(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    without_signal(tablet, server)
    tablet.get_by_role("button", name="Arrived: Pat Patient").click()
    measure(tablet, "CF", "27")
    expect(tablet.locator("#entries li")).to_have_count(2)
    kept = json.dumps(tablet.evaluate(EVERYTHING_KEPT))
    assert "sheet" in kept
    for secret in ("Pat Patient", "T-1", "week 1", enrolment[0], '"CF"', PASSWORD, "Nora Nurse"):
        assert secret not in kept
    tablet.reload()
    unlock(tablet, "not the password")
    expect(tablet.get_by_role("alert").filter(has_text="not the password")).to_be_visible()
    unlock(tablet)
    expect(tablet.locator("#entries li").first).to_contain_text("acuity CF, pressure 27")
    expect(tablet.locator("[data-state=here] li")).to_contain_text("Pat Patient")
    tablet.get_by_role("button", name="Sign out of this device").click()
    expect(tablet.get_by_role("heading", name="Nothing is kept on this device")).to_be_visible()
    left = tablet.evaluate(EVERYTHING_KEPT)
    assert [sorted(entry) for entry in left["entries"]] == [["id", "packet", "sequence", "state"]] * 2
    assert set(left["keys"]) == {"clock", "left", "sequence"}
    # The session ends as soon as there is a signal, and the entry, sealed for the clinic alone, still arrives.
    server.start()
    tablet.goto(f"{server.address}/clinic/")
    tablet.wait_for_url(f"{server.address}/")
    tablet.goto(f"{server.address}/clinic/")
    expect(tablet.get_by_role("heading", name="Staff sign-in")).to_be_visible()
    sign_in(tablet, server, "surgeon@test.invalid")
    tablet.wait_for_selector("html[data-device=ready]")
    kept = events.of_eye(clinic_store, enrolment[0])
    assert [(e.kind, e.author.split(":")[0]) for e in kept if e.kind == "measures"] == [("measures", "nurse")]
    assert [entry for entry in tablet.evaluate(EVERYTHING_KEPT)["entries"] if entry["state"] == "saved"] == []


def test_signing_out_with_a_signal_leaves_nothing(tablet: Page, server: RunningServer) -> None:
    assert {"day-key", "sheet", "followed"} <= set(tablet.evaluate(EVERYTHING_KEPT)["keys"])
    tablet.get_by_role("button", name="Sign out").click()
    tablet.wait_for_url(f"{server.address}/")
    assert not {"day-key", "sheet", "followed"} & set(tablet.evaluate(EVERYTHING_KEPT)["keys"])


def test_the_list_is_gone_when_the_day_is_over(tablet: Page, server: RunningServer) -> None:
    tablet.clock.install(time=datetime.now(UTC) + timedelta(hours=25))
    server.kill()
    tablet.goto(f"{server.address}/clinic/")
    expect(tablet.get_by_role("heading", name="Nothing is kept on this device")).to_be_visible()
    assert not {"day-key", "sheet", "followed"} & set(tablet.evaluate(EVERYTHING_KEPT)["keys"])


def test_an_answer_lost_on_the_way_back_is_asked_again_and_the_entry_stands_once(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    line, through, tablet = behind_a_line(open_context, server)
    tablet.goto(f"{through.address}/clinic/without-signal")
    unlock(tablet)
    line.mode = "lose answers"
    measure(tablet, "6/60", "21")
    expect(tablet.locator("#entries li")).to_contain_text("Kept on this device.")
    while not of_both_eyes(clinic_store, enrolment[0], "measures"):
        tablet.wait_for_timeout(50)
    expect(tablet.locator("#entries li")).to_contain_text("Kept on this device.")
    line.mode = "through"
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li")).to_contain_text("Received by the clinic.")
    assert len(of_both_eyes(clinic_store, enrolment[0], "measures")) == 1
    assert line.lost >= 1
    line.close()


def test_on_a_line_that_stalls_the_list_is_there_and_holds_nothing_up_once_there_is_a_signal(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    """More pages than a browser has connections: each was given up, so the next one has its own."""
    line, through, tablet = behind_a_line(open_context, server)
    line.mode = "stall"

    def all_connections_were_held() -> bool:
        """A busy browser may give a page up before its request is on the line: then more are opened."""
        pages = [tablet.context.new_page() for _ in range(8)]
        for page in pages:
            page.evaluate("address => { location.href = address; }", f"{through.address}/clinic/without-signal")
        for page in pages:
            expect(page.get_by_role("heading", name="Open today’s list")).to_be_visible()
        return line.stalled.count("GET /clinic/without-signal") >= 6

    until(all_connections_were_held, "each connection was held by a page", seconds=120)
    line.mode = "through"
    tablet.goto(f"{through.address}/clinic/callbacks")
    expect(tablet.get_by_role("heading", name="Callbacks")).to_be_visible()
    line.close()


def test_on_a_line_that_stalls_in_the_answer_the_list_opens_and_signing_out_comes_to_its_page(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    """The head of a page is no page: the worker gives what is kept, with its own script and looks."""
    line, through, tablet = behind_a_line(open_context, server)
    line.mode = "stall in the answer"
    tablet.goto(f"{through.address}/clinic/without-signal")
    unlock(tablet)
    expect(tablet.get_by_role("heading", name="Today’s list", exact=True)).to_be_visible()
    with tablet.expect_navigation(timeout=60_000):  # first it tries for 15 seconds to end the session
        tablet.get_by_role("button", name="Sign out of this device").click()
    tablet.wait_for_selector("html[data-ready=yes]")
    expect(tablet.locator("#no-sheet")).to_be_visible()
    assert "GET /clinic/without-signal" in line.stalled
    line.close()


def test_signing_out_on_a_line_that_stalls_leaves_nothing_to_read(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    line, through, tablet = behind_a_line(open_context, server)
    tablet.goto(f"{through.address}/clinic/without-signal")
    unlock(tablet)
    expect(tablet.get_by_role("heading", name="Today’s list", exact=True)).to_be_visible()
    line.mode = "stall"
    tablet.evaluate("document.getElementById('leave').click()")
    until(lambda: any(asked.startswith("POST /api/v1/clinic/leave") for asked in line.stalled), "the session is to end")
    assert "Pat Patient" not in tablet.locator("body").inner_text()
    line.close()


def test_signing_out_while_the_list_is_being_opened_leaves_nothing_to_read(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    line, through, tablet = behind_a_line(open_context, server)
    tablet.goto(f"{through.address}/clinic/without-signal")
    tablet.wait_for_selector("html[data-ready=yes]")
    password = tablet.get_by_label("Password of whoever signed in on this device")
    password.fill(PASSWORD)
    line.mode = "stall"
    tablet.evaluate(SIGNS_OUT_AS_THE_KEY_IS_WORKED_OUT)
    tablet.evaluate("document.getElementById('unlock-form').requestSubmit()")
    until(lambda: tablet.evaluate("window.workedOut"), "the key is worked out")
    expect(password).to_have_value("")
    until(lambda: any(asked.startswith("POST /api/v1/clinic/leave") for asked in line.stalled), "the session is to end")
    assert "Pat Patient" not in tablet.locator("body").inner_text()
    line.close()


def test_signing_out_in_one_tab_closes_the_list_in_every_other(tablet: Page, server: RunningServer) -> None:
    other = tablet.context.new_page()
    for page in (tablet, other):
        page.goto(f"{server.address}/clinic/without-signal")
        unlock(page)
        expect(page.get_by_role("heading", name="Today’s list", exact=True)).to_be_visible()
    other.locator("#leave").click()
    expect(tablet.get_by_role("heading", name="Nothing is kept on this device")).to_be_visible()
    assert "Pat Patient" not in (tablet.locator("body").text_content() or "")


def test_what_is_entered_as_the_day_ends_is_kept_and_sent_though_nobody_here_can_read_it(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    tablet.goto(f"{server.address}/clinic/without-signal")
    unlock(tablet)
    tablet.evaluate(KEY_GOES)
    measure(tablet, "6/60", "21")
    until(lambda: len(of_both_eyes(clinic_store, enrolment[0], "measures")) == 1, "the clinic has it")


def test_two_nurses_on_one_visit_both_stand_and_the_difference_shows(
    open_context: Callable[..., BrowserContext],
    tablet: Page,
    server: RunningServer,
    clinic_store: Store,
    enrolment: tuple[str, str],
) -> None:
    accounts.add_staff(clinic_store, datetime.now(UTC), "Noah Second", "nurse", "second@test.invalid", PASSWORD)
    second = nurse_tablet(open_context, server, "second@test.invalid")
    without_signal(tablet, server)
    measure(tablet, "6/60", "21")
    second.goto(f"{server.address}/clinic/")
    unlock(second)
    measure(second, "6/36", "27")
    server.start()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li").first).to_contain_text("Received by the clinic.")
    second.evaluate("window.dispatchEvent(new Event('online'))")
    entry = second.locator("#entries li").first
    expect(entry).to_contain_text(
        "Two readings differ, right eye, pressure: Nora Nurse 21 mmHg; Noah Second 27 mmHg. Both stand."
    )
    expect(entry).to_contain_text("Nora Nurse 6/60 (unaided); Noah Second 6/36 (unaided)")
    measures = of_both_eyes(clinic_store, enrolment[0], "measures")
    assert sorted(e.body.iop_mmhg for e in measures) == [21, 27]
    second.goto(f"{server.address}/clinic/eyes/{enrolment[0]}")
    expect(second.get_by_role("heading", name="Two people measured differently")).to_be_visible()


def test_a_signal_that_goes_while_typing_loses_nothing(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    tablet.goto(f"{server.address}/clinic/eyes/{enrolment[0]}/visit")
    tablet.locator("#right-acuity").fill("HM")
    tablet.locator("#right-iop").fill("18")
    server.kill()
    tablet.get_by_role("button", name="Save").dblclick()  # the second press while it looks for a signal adds nothing
    expect(tablet.get_by_text("The entry is kept on this device")).to_be_visible()
    server.start()
    tablet.goto(f"{server.address}/clinic/")
    tablet.wait_for_selector("html[data-device=ready]")
    (kept,) = of_both_eyes(clinic_store, enrolment[0], "measures")
    assert (kept.body.acuity, kept.body.iop_mmhg) == ("HM", 18)


def test_keep_pressed_twice_keeps_once(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    without_signal(tablet, server)
    tablet.get_by_role("button", name="Arrived: Pat Patient").dblclick()
    tablet.get_by_role("link", name="Enter visit: Pat Patient").first.click()
    tablet.locator("#right-iop").fill("18")
    tablet.get_by_label("Visit", exact=True).select_option("Not a planned visit")  # week 1 is due another day
    tablet.get_by_role("button", name="Keep").dblclick()
    expect(tablet.locator("#entries li")).to_have_count(2)
    server.start()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li", has_text="Received by the clinic.")).to_have_count(2)
    assert sorted(e.kind for e in of_both_eyes(clinic_store, enrolment[0])) == ["arrived", "measures"]


def test_a_clock_set_back_by_more_than_a_year_signs_nobody_out(tablet: Page, server: RunningServer) -> None:
    tablet.context.add_init_script("const real = Date.now.bind(Date); Date.now = () => real() - 400 * 86400000;")
    without_signal(tablet, server)
    measure(tablet, "6/60", "21")
    expect(tablet.locator("#entries li")).to_contain_text("Kept on this device.")
    expect(tablet.get_by_role("button", name="Sign out of this device")).to_be_visible()


def test_what_cannot_be_is_asked_about_before_it_is_kept_and_a_refusal_is_shown(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    without_signal(tablet, server)
    measure(tablet, "0.3", "310")
    wrong = tablet.locator("#wrong")
    expect(wrong).to_contain_text("is 0.3 decimal or logMAR? Choose the notation.")
    expect(wrong).to_contain_text("pressure “310”: accepted is 0 to 90 mmHg.")
    expect(tablet.locator("#right-iop")).to_have_value("310")
    tablet.locator("#right-acuity").fill("6/0")
    tablet.locator("#right-iop").fill("52")
    tablet.get_by_role("button", name="Keep").click()
    expect(wrong).to_contain_text("is the acuity “6/0” right?")
    expect(wrong).to_contain_text("is a pressure of 52 mmHg right?")
    tablet.get_by_label("Yes, that is right").check()
    tablet.get_by_role("button", name="Keep").click()
    expect(tablet.locator("#entries li")).to_have_count(1)
    server.start()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li").first).to_contain_text("Not taken:")
    assert [r.text for r in events.refused(clinic_store) if "6/0" in r.text]


@pytest.mark.parametrize(("typed", "said"), [("4.8 kPa", "4.8 kPa (36 mmHg) is at or above"), ("0,6kPa", "is at or below")])
def test_a_pressure_in_kpa_raises_the_same_alarm(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], typed: str, said: str
) -> None:
    without_signal(tablet, server)
    measure(tablet, "6/60", typed)
    expect(tablet.get_by_role("alert").filter(has_text="No warning goes out")).to_contain_text(said)
    server.start()
    tablet.evaluate("window.dispatchEvent(new Event('online'))")
    expect(tablet.locator("#entries li").first).to_contain_text("Received by the clinic.")
    (kept,) = of_both_eyes(clinic_store, enrolment[0], "measures")
    assert kept.body.iop_mmhg == pressure.read(typed)


def test_a_pressure_in_kpa_is_asked_about_like_one_in_mmhg(tablet: Page, server: RunningServer) -> None:
    without_signal(tablet, server)
    measure(tablet, "6/60", "21 kPa")
    expect(tablet.locator("#wrong")).to_contain_text("pressure “21 kPa”: accepted is 0 to 90 mmHg.")
    tablet.locator("#right-iop").fill("7.1 kPa")
    tablet.get_by_role("button", name="Keep").click()
    expect(tablet.locator("#wrong")).to_contain_text("is a pressure of 7.1 kPa (53.3 mmHg) right?")
    tablet.locator("#right-iop").fill("high")
    tablet.get_by_role("button", name="Keep").click()
    expect(tablet.locator("#wrong")).to_contain_text("“high” is not a pressure")
    expect(tablet.locator("#right-iop")).to_have_value("high")


def test_device_and_core_read_the_same_pressures(tablet: Page) -> None:
    # One set of texts against both; the unit's factor itself comes from the core with the sheet.
    typed = [f"{tenths / 10} kPa" for tenths in range(121)] + ["31", " 31,5 mmHg", "4,1KPA", "0", "90 mmhg", "15,5 mm Hg"]
    not_pressures = ["", "high", "-3", "1.2.3", "30 torr", "kPa", "<5", "soft"]
    script = """async ([typed, factor]) => {
        const { asMmhg } = await import("/static/staff/measures.js");
        return typed.map((text) => { const read = asMmhg(text, { kpa_per_mmhg: factor }); return Number.isNaN(read) ? null : read; });
    }"""
    given = tablet.evaluate(script, [typed + not_pressures, pressure.KPA_PER_MMHG.value])
    assert given[: len(typed)] == pytest.approx([pressure.read(text) for text in typed])
    assert given[len(typed) :] == [None] * len(not_pressures)


def test_a_signal_that_goes_while_typing_a_high_pressure_raises_the_alarm(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    tablet.goto(f"{server.address}/clinic/eyes/{enrolment[0]}/visit")
    tablet.locator("#right-iop").fill("34")
    tablet.locator("#left-iop").fill("7.3 kPa")
    server.kill()
    tablet.get_by_role("button", name="Save").click()
    expect(tablet.locator("#wrong")).to_contain_text("left eye: is a pressure of 7.3 kPa (54.8 mmHg) right?")
    tablet.get_by_label("Yes, that is right").check()
    tablet.get_by_role("button", name="Save").click()
    alarm = tablet.get_by_role("alert").filter(has_text="No warning goes out")
    expect(alarm).to_contain_text("right eye: 34 mmHg is at or above the clinic’s limit of 30.")
    expect(alarm).to_contain_text("left eye: 7.3 kPa (54.8 mmHg) is at or above")
    expect(tablet.get_by_text("The entry is kept on this device")).to_be_visible()
    server.start()
    tablet.goto(f"{server.address}/clinic/")
    tablet.wait_for_selector("html[data-device=ready]")
    measured = [e.body for e in of_both_eyes(clinic_store, enrolment[0], "measures")]
    assert sorted(body.iop_mmhg for body in measured) == [34, 54.8]


def test_a_page_that_hangs_while_it_sends_does_not_hold_the_device_up(
    tablet: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    hanging = tablet.context.new_page()
    hanging.goto(f"{server.address}/clinic/")
    hanging.wait_for_selector("html[data-device=ready]")
    hanging.evaluate(HANG_WITH_THE_TURN, "followup-clinic-entries")
    tablet.goto(f"{server.address}/clinic/without-signal")
    unlock(tablet)
    measure(tablet, "6/60", "21")
    expect(tablet.locator("#entries li")).to_contain_text("Received by the clinic.", timeout=LONGER_THAN_A_REQUEST_MS)
    assert len(of_both_eyes(clinic_store, enrolment[0], "measures")) == 1
