"""A locked-out phone: whatever happens while it seals, each entry is in exactly one packet or still in its place."""

from datetime import UTC, datetime
from typing import Any

from playwright.sync_api import Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.home.enrol import issue_code, revoke
from followup.records import Store, events, eyes, people
from followup.records.bodies.kinds import stored
from tests.browser.conftest import ZONE, RunningServer, all_received, enrol, ready

# What the scripts below share: the phone's store, an entry made by hand, and what is left in it.
TOOLS = """
    const { openDatabase, readFact, transact, writeFact } = await import("/static/shared/database.js");
    const { PhoneOutbox } = await import("/static/patient/outbox.js");
    const { sealEverything, sealedCount, sendSealed } = await import("/static/patient/sealing.js");
    const database = await openDatabase();
    const { eyes: [{ operation }], sealing_key: key } = await readFact(database, "pack");
    const enter = (name) => new PhoneOutbox(database).add("drops", operation, "patient", { name });
    const readable = () => transact(database, ["entries"], "readonly", ({ entries }, give) => {
        entries.count().onsuccess = (read) => give(read.target.result);
    });
    const encrypt = crypto.subtle.encrypt.bind(crypto.subtle);
"""
ENTERED_WHILE_SEALING = f"""async () => {{
    {TOOLS}
    await enter("before");
    let first = true;
    crypto.subtle.encrypt = async (...given) => {{
        if (first) {{ first = false; await enter("meanwhile"); }}
        return encrypt(...given);
    }};
    await sealEverything(database, key);
    return [await sealedCount(database), await readable()];
}}"""
SEALED_UNFIT = f"""async () => {{
    {TOOLS}
    await new PhoneOutbox(database).add("drops", "nobody", "patient", {{ name: "antibiotic" }});
    await sealEverything(database, key);
}}"""
SEALED_IN_TWO_TABS = f"""async () => {{
    {TOOLS}
    await enter("one");
    await enter("two");
    await Promise.all([sealEverything(database, key), sealEverything(database, key)]);
    return [await sealedCount(database), await readable()];
}}"""
CLOSED_WHILE_SEALING = f"""async () => {{
    {TOOLS}
    await enter("one");
    await new Promise((there) => {{
        crypto.subtle.encrypt = () => {{ there(); return new Promise(() => {{}}); }};
        sealEverything(database, key);
    }});
}}"""
SEALED_WHILE_SENDING = f"""async () => {{
    {TOOLS}
    await enter("one");
    await sealEverything(database, key);
    const real = window.fetch;
    window.fetch = async () => {{
        window.fetch = real;
        await enter("two");
        await sealEverything(database, key);
        return new Response(`{{"results": []}}`);
    }};
    await sendSealed(database).catch(() => {{}});
    return sealedCount(database);
}}"""


def patient_of(store: Store, operation: str) -> str:
    row = eyes.eye(store, operation)
    assert row is not None
    return str(row.patient.id)


def lock_out(store: Store, operation: str, nurse: Actor) -> None:
    (device,) = [one for one in people.devices_of(store, patient_of(store, operation)) if one.revoked_at is None]
    revoke(Desk(store, datetime.now(UTC), nurse, ZONE), device.id)


def enrol_again(page: Page, server: RunningServer, store: Store, operation: str, nurse: Actor) -> None:
    enrol(page, server, issue_code(Desk(store, datetime.now(UTC), nurse, ZONE), patient_of(store, operation)))
    expect(page.locator("#sending")).to_have_text("All sent")


def kept(store: Store, operation: str) -> list[dict[str, Any]]:
    return [stored(event.body) for event in events.of_eye(store, operation)]


def test_an_entry_saved_while_it_seals_is_sealed_too(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.context.set_offline(True)
    assert phone.evaluate(ENTERED_WHILE_SEALING) == [2, 0]
    phone.context.set_offline(False)
    lock_out(clinic_store, enrolment[0], nurse)
    enrol_again(phone, server, clinic_store, enrolment[0], nurse)
    assert sorted(body["name"] for body in kept(clinic_store, enrolment[0])) == ["before", "meanwhile"]


def test_two_tabs_that_seal_at_once_seal_each_entry_once(phone: Page) -> None:
    phone.context.set_offline(True)
    assert phone.evaluate(SEALED_IN_TWO_TABS) == [2, 0]


def test_a_phone_closed_while_it_seals_has_everything_and_seals_at_the_next_start(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    context = phone.context
    context.set_offline(True)
    phone.evaluate(CLOSED_WHILE_SEALING)
    phone.close()
    lock_out(clinic_store, enrolment[0], nurse)
    context.set_offline(False)
    again = context.new_page()
    again.goto(f"{server.address}/me/")
    ready(again)
    expect(again.locator("#sealed-count")).to_have_text("1 entry to send")
    enrol_again(again, server, clinic_store, enrolment[0], nurse)
    assert kept(clinic_store, enrolment[0]) == [{"name": "one"}]


def test_what_is_sealed_while_packets_are_sent_stays(phone: Page) -> None:
    phone.context.set_offline(True)
    assert phone.evaluate(SEALED_WHILE_SENDING) == 1


def test_a_timer_that_runs_at_the_lock_out_keeps_its_hours(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.get_by_role("button", name="Start").click()
    expect(phone.get_by_role("button", name="Stop")).to_be_visible()
    lock_out(clinic_store, enrolment[0], nurse)
    phone.reload()
    expect(phone.locator("#sealed-count")).to_have_text("1 entry to send")
    enrol_again(phone, server, clinic_store, enrolment[0], nurse)
    (body,) = kept(clinic_store, enrolment[0])
    assert body["position"] == "face-down"


def test_what_another_tab_saves_after_the_lock_out_is_sealed_too(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.wait_for_load_state("networkidle")  # what it asks for as it opens has been answered
    lock_out(clinic_store, enrolment[0], nurse)
    phone.get_by_role("link", name="Visits").click()
    phone.get_by_role("button", name="I took it: antibiotic").click()
    expect(phone.locator("#sealed-count")).to_have_text("1 entry to send")
    # As a tab does that was drawn before: its entry comes when the pack is already gone.
    phone.evaluate(
        """async (operation) => {
        const { openDatabase } = await import("/static/shared/database.js");
        const { PhoneOutbox } = await import("/static/patient/outbox.js");
        await new PhoneOutbox(await openDatabase()).add("drops", operation, "patient", { name: "antibiotic" });
    }""",
        enrolment[0],
    )
    phone.reload()
    expect(phone.locator("#sealed-count")).to_have_text("2 entries to send")
    enrol_again(phone, server, clinic_store, enrolment[0], nurse)
    all_received(phone, 2)
    assert len(kept(clinic_store, enrolment[0])) == 2


def test_what_was_sealed_and_cannot_be_taken_is_on_the_first_screen(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], nurse: Actor
) -> None:
    phone.context.set_offline(True)
    phone.evaluate(SEALED_UNFIT)
    phone.context.set_offline(False)
    lock_out(clinic_store, enrolment[0], nurse)
    enrol_again(phone, server, clinic_store, enrolment[0], nurse)
    refused = phone.locator("#refused")
    expect(refused).to_contain_text("Written before this phone was closed. The clinic could not take it: This entry belongs")
    # Locked out once more it has nothing to seal: what it was, only the clinic knows.
    lock_out(clinic_store, enrolment[0], nurse)
    phone.reload()
    expect(phone.locator("#locked")).to_be_visible()
    expect(phone.locator("#sealed-here")).to_be_hidden()
