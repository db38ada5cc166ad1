"""The phone without a signal: opens, answers danger at once, keeps everything, sends it once."""

from collections.abc import Callable
from datetime import UTC, datetime

from playwright.sync_api import BrowserContext, Page, Route, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home.enrol import issue_code, revoke
from followup.clinical.course import Course
from followup.clinical.facts import Symptoms
from followup.clinical.warnings import evaluate
from followup.protocols import book
from followup.records import Store, events, eyes, people
from followup.records.generation import begin_anew
from tests.browser.checking import SCREENS, WELL, answer, answer_screen, save, screen
from tests.browser.conftest import PHONE, ZONE, RunningServer, draft_kept, enrol, go, ready
from tests.conftest import until
from tests.courses import operation


def kept(store: Store, operation: str) -> list[str]:
    return [e.id for e in events.of_eye(store, operation)]


def test_opens_offline_and_answers_danger_at_once(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    phone.context.set_offline(True)
    phone.goto(phone.url.split("#")[0])
    ready(phone)
    expect(phone.locator(".posture-words")).to_have_text("face down")
    answer(phone, pain="8", vision="worse")
    expect(phone.locator("#verdict-title")).to_have_text("Call now")
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    go(phone, "more")
    expect(phone.locator("#entries li").first).to_contain_text("Saved on this phone")
    assert kept(clinic_store, enrolment[0]) == []
    phone.context.set_offline(False)
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert len(kept(clinic_store, enrolment[0])) == 1


def test_a_server_that_is_gone_loses_nothing_and_doubles_nothing(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    server.kill()
    for pain in (1, 2, 3):
        answer(phone, pain=str(pain))
    expect(phone.locator("#sending")).to_have_text("3 entries to send")
    phone.reload()
    ready(phone)
    expect(phone.locator("#sending")).to_have_text("3 entries to send")
    server.start()
    phone.reload()
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert len(kept(clinic_store, enrolment[0])) == 3


def test_an_answer_lost_on_the_way_back_is_asked_again_and_counted_once(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    # Without the service worker, whose requests the browser's driver cannot cut.
    phone = open_context(**PHONE, service_workers="block").new_page()
    enrol(phone, server, enrolment[1], wait_for_worker=False)
    lost = []

    def lose(route: Route) -> None:
        lost.append(route.fetch().status)
        route.abort()

    phone.context.route("**/api/v1/events*", lose, times=1)
    with phone.expect_event("requestfailed"):
        answer(phone, pain="2")
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    assert lost == [200]
    assert len(kept(clinic_store, enrolment[0])) == 1
    phone.reload()
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert len(kept(clinic_store, enrolment[0])) == 1


def test_after_a_restore_the_phone_sends_again_what_the_clinic_had_received(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    """The clinic put back a copy from before the entry: the phone still holds it, and asks nobody to do anything."""
    answer(phone, pain="2")
    expect(phone.locator("#sending")).to_have_text("All sent")
    (before,) = kept(clinic_store, enrolment[0])
    guard = clinic_store.row("SELECT sql FROM sqlite_master WHERE name = 'events_keeps_delete'")
    assert guard is not None
    for statement in ("DROP TRIGGER events_keeps_delete", "DELETE FROM events WHERE device_id IS NOT NULL", guard["sql"]):
        clinic_store.db.conn.execute(statement)
    phone.reload()
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert kept(clinic_store, enrolment[0]) == []
    begin_anew(clinic_store)
    phone.reload()
    until(lambda: kept(clinic_store, enrolment[0]), "the entry comes again")
    assert kept(clinic_store, enrolment[0]) == [before]
    expect(phone.locator("#sending")).to_have_text("All sent")


def test_hours_by_hand_and_drops_are_kept(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    phone.get_by_text("Write hours by hand").click()
    phone.get_by_role("button", name="Save these hours").click()
    expect(phone.locator("#hand-error")).to_have_text("Give a day, a start and an end.")
    phone.locator("#hand-from").fill("00:00")
    phone.locator("#hand-to").fill("00:00")
    phone.get_by_role("button", name="Save these hours").click()
    expect(phone.locator("#hand-error")).to_have_text("The end must come after the start.")
    phone.get_by_role("link", name="Visits").click()
    phone.get_by_role("button", name="I took it: antibiotic").click()
    expect(phone.locator("#drop-list")).to_contain_text("antibiotic: 1 of 4")
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert len(kept(clinic_store, enrolment[0])) == 1


def test_a_locked_out_phone_seals_what_it_has_and_gives_it_back_after_a_new_code(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.context.set_offline(True)
    answer(phone, pain="6", vision="worse")
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    now = datetime.now(UTC)
    device = people.devices_of(clinic_store, patient_of(clinic_store, enrolment[0]))[0]
    revoke(Desk(clinic_store, now, nurse, ZONE), device.id)
    phone.context.set_offline(False)
    expect(phone.get_by_role("heading", name="The clinic has closed this phone")).to_be_visible()
    expect(phone.get_by_text("The clinic has not seen it. If the eye is worse, call.")).to_be_visible()
    expect(phone.locator("#locked-call")).to_contain_text("+00 1 234")
    expect(phone.locator("#sealed-count")).to_have_text("1 entry to send")
    assert "Pat Patient" not in phone.inner_text("body")
    assert everything_on_the_phone(phone).count("vision") == 0
    assert kept(clinic_store, enrolment[0]) == []
    code = issue_code(Desk(clinic_store, now, nurse, ZONE), patient_of(clinic_store, enrolment[0]))
    enrol(phone, server, code)
    expect(phone.locator("#sending")).to_have_text("All sent")
    go(phone, "more")
    expect(phone.locator("#entries li")).to_have_count(1)
    assert len(kept(clinic_store, enrolment[0])) == 1


def patient_of(store: Store, operation: str) -> str:
    row = eyes.eye(store, operation)
    assert row is not None
    return str(row.patient.id)


def everything_on_the_phone(phone: Page) -> str:
    """All that a script can read of the phone's store, as text."""
    return str(
        phone.evaluate(
            """async () => {
            const { openDatabase, transact } = await import("/static/shared/database.js");
            const database = await openDatabase();
            const kept = [];
            await transact(database, ["entries", "facts"], "readonly", ({ entries, facts }) => {
                entries.getAll().onsuccess = (event) => kept.push(event.target.result);
                facts.getAll().onsuccess = (event) => kept.push(event.target.result);
            });
            return JSON.stringify(kept);
        }"""
        )
    )


def test_a_phone_that_lost_its_credential_keeps_its_entries_and_says_what_to_do(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.context.clear_cookies()
    answer(phone, pain="2")
    expect(phone.locator("#not-enrolled")).to_be_visible()
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    enrol(
        phone, server, issue_code(Desk(clinic_store, datetime.now(UTC), nurse, ZONE), patient_of(clinic_store, enrolment[0]))
    )
    expect(phone.locator("#sending")).to_have_text("All sent")
    expect(phone.locator("#not-enrolled")).to_be_hidden()
    assert len(kept(clinic_store, enrolment[0])) == 1


def test_a_timer_stopped_in_two_tabs_is_kept_once(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    second = phone.context.new_page()
    second.goto(phone.url)
    ready(second)
    phone.get_by_role("button", name="Start").click()
    expect(second.locator(".timer-words")).to_contain_text("Next break at")
    second.get_by_role("button", name="Stop").click()
    expect(phone.get_by_role("button", name="Start")).to_be_visible()
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert len(kept(clinic_store, enrolment[0])) == 1


def test_what_is_half_typed_survives_a_closed_tab(phone: Page) -> None:
    phone.get_by_role("link", name="Check").click()
    for name in SCREENS:
        answer_screen(phone, name, WELL)
    phone.locator("#symptom-words").fill("it itches")
    draft_kept(phone, "it itches")
    context = phone.context
    phone.close()
    again = context.new_page()
    again.goto(f"{phone.url.split('#')[0]}#check")
    ready(again)
    expect(again.locator("#symptom-words")).to_have_value("it itches")
    expect(screen(again, "words")).to_be_visible()
    for _ in SCREENS:
        again.locator("#check-back").click()
    expect(screen(again, "pain").locator("[aria-pressed=true]")).to_have_text("1")


def test_the_worker_sends_with_the_page_closed(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    context = phone.context
    context.set_offline(True)
    answer(phone, pain="2")
    expect(phone.locator("#sending")).to_have_text("1 entry to send")
    assert phone.evaluate("navigator.serviceWorker.getRegistration('/me/').then((r) => r.sync.getTags())") == [
        "followup-outbox"
    ]
    phone.goto("about:blank")
    assert kept(clinic_store, enrolment[0]) == []
    context.set_offline(False)
    until(lambda: kept(clinic_store, enrolment[0]), "the worker sends while no page of the clinic is open")
    assert len(kept(clinic_store, enrolment[0])) == 1


UNFIT = """async () => {
    const { openDatabase } = await import("/static/shared/database.js");
    const { PhoneOutbox } = await import("/static/patient/outbox.js");
    await new PhoneOutbox(await openDatabase()).add("drops", "nobody", "patient", { name: "antibiotic" });
    await navigator.serviceWorker.getRegistration("/me/").then((r) => r.sync.register("followup-outbox"));
}"""


def test_what_the_clinic_says_to_the_worker_is_in_the_language_chosen_on_the_phone(
    phone: Page, server: RunningServer, clinic_store: Store
) -> None:
    phone.goto(f"{server.address}/me/?language=de")
    ready(phone)
    context = phone.context
    context.set_offline(True)
    phone.evaluate(UNFIT)
    phone.goto("about:blank")
    context.set_offline(False)
    until(lambda: events.refused(clinic_store), "the worker sends while no page of the clinic is open")
    assert len(events.refused(clinic_store)) == 1
    phone.goto(f"{server.address}/me/")
    expect(phone.locator("#refused")).to_contain_text("Dieser Eintrag gehört zu einem anderen Auge.")


def test_a_full_phone_says_so_and_nothing_is_called_saved(
    phone: Page, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    # The browser's driver cannot fill a disk: writing fails here as it does when the quota is used up.
    phone.evaluate(
        """() => {
        const real = IDBDatabase.prototype.transaction;
        IDBDatabase.prototype.transaction = function (stores, mode, ...rest) {
            if (mode === "readwrite" && window.full) throw new DOMException("full", "QuotaExceededError");
            return real.call(this, stores, mode, ...rest);
        };
        window.full = true;
    }"""
    )
    answer(phone, kept=False, pain="2")
    expect(phone.locator("#trouble")).to_contain_text("This phone is full")
    expect(phone.locator("#check-done")).to_be_hidden()
    assert kept(clinic_store, enrolment[0]) == []
    phone.evaluate("window.full = false")
    save(phone, whole=False)
    expect(phone.locator("#trouble")).to_be_empty()
    expect(phone.locator("#sending")).to_have_text("All sent")
    assert len(kept(clinic_store, enrolment[0])) == 1


def test_the_phones_rules_say_what_the_server_raises(phone: Page, clinic_store: Store, enrolment: tuple[str, str]) -> None:
    # One set of answers against both: what the phone matches is what the rulebook raises for symptoms.
    vectors = [
        {"pain": 4, "vision": "worse"},
        {"pain": 3, "vision": "worse"},
        {"pain": 5},
        {"pain": 7},
        {"pain": 1, "curtain": True},
        {"pain": 4, "vomiting": True},
        {"floaters": "worse", "vision": "worse"},
        {"redness": "worse", "discharge": True},
        {"pain": 2, "vision": "better"},
    ]
    script = """async (answers) => {
        const { lookAtRules } = await import("/static/patient/second-looks.js");
        const { eyes } = await (await fetch("/api/v1/pack")).json();
        const begun = (rule) => Date.parse(rule.valid_from) <= Date.now();
        return lookAtRules(eyes, [{ at: Date.now(), answers }], begun).call.map((rule) => rule.id).sort();
    }"""
    for answers in vectors:
        now = datetime.now(UTC)
        told = Course.after(operation(at=now, risks=frozenset({"diabetic"})), (), (Symptoms(at=now, **answers),))
        signs = {s.rule for s in evaluate(told, book.rulebook(), now)}
        assert phone.evaluate(script, answers) == sorted(signs), answers
