"""How people choose their messages, and a push that arrives in a real browser's service worker."""

import json
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.messages import outgoing
from followup.exchange import letters, push_keys
from followup.records import Store, eyes
from followup.records import messages as kept
from tests.browser.conftest import RunningServer, go, sign_in
from tests.conftest import until

SHOWN = """async (scope) => {
    const registration = await navigator.serviceWorker.getRegistration(scope);
    const shown = await registration.getNotifications();
    return shown.map(({ title, body, data }) => ({ title, body, path: data.path }));
}"""


def push(page: Page, scope: str, said: dict[str, Any]) -> list[dict[str, Any]]:
    """Hand a push to the browser as a push service would; returns the notifications that the worker shows."""
    session = page.context.new_cdp_session(page)
    found: list[str] = []
    session.on(
        "ServiceWorker.workerRegistrationUpdated",
        lambda event: found.extend(r["registrationId"] for r in event["registrations"] if r["scopeURL"].endswith(scope)),
    )
    session.send("ServiceWorker.enable")
    while not found:
        page.wait_for_timeout(50)
    origin = page.evaluate("location.origin")
    session.send(
        "ServiceWorker.deliverPushMessage", {"origin": origin, "registrationId": found[0], "data": json.dumps(said)}
    )
    return list(until(lambda: page.evaluate(SHOWN, scope), "a notification is shown"))


@pytest.mark.parametrize(("scope", "kind"), [("/me/", "visit"), ("/clinic/", "now")])
def test_a_push_is_shown_with_nothing_clinical_and_leads_to_the_page(
    open_context: Callable[..., BrowserContext], phone: Page, server: RunningServer, scope: str, kind: str
) -> None:
    page = phone
    if scope == "/clinic/":
        page = open_context().new_page()
        sign_in(page, server, "nurse@test.invalid")
        page.wait_for_selector("html[data-device=ready]")
        page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.context.grant_permissions(["notifications"], origin=server.address)
    letter = letters.letter(kind, "en", 1, "Test Eye Clinic", "+00 1 234")
    said = {"title": letter.title, "words": letter.words, "path": letter.path, "language": "en"}
    assert push(page, scope, said) == [{"title": letter.title, "body": letter.words, "path": letter.path}]


def test_the_patient_chooses_on_the_phone(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    operation = eyes.eye(clinic_store, enrolment[0])
    assert operation is not None
    go(phone, "more")
    form = phone.locator("#messages")
    expect(form).to_be_visible()
    expect(form.get_by_label("No messages from")).to_have_value("21:00")
    form.get_by_label("No messages from").fill("20:30")
    form.get_by_label("holding my head").uncheck()
    form.get_by_role("button", name="Save").click()
    expect(phone.locator("#messages-told")).to_have_text("Saved.")
    chosen = kept.choices(clinic_store, f"patient:{operation.patient.id}")
    assert chosen is not None
    assert (chosen.quiet_from, chosen.unwanted, chosen.language) == ("20:30:00", ["drops", "posture"], "en")
    phone.reload()
    expect(form.get_by_label("No messages from")).to_have_value("20:30")
    expect(form.get_by_label("holding my head")).not_to_be_checked()


# The push service of a browser cannot be reached from here: its answer is played.
SUBSCRIBED = """() => {
    const keys = { p256dh: "BPRs0Y3x" + "A".repeat(79), auth: "A".repeat(22) };
    const subscription = { endpoint: "https://push.invalid/abc", keys };
    PushManager.prototype.subscribe = async ({ applicationServerKey }) => {
        window.subscribedWith = applicationServerKey;
        return { toJSON: () => subscription };
    };
}"""


@pytest.mark.parametrize("allowed", [True, False])
def test_reminders_come_to_this_phone_once_they_are_asked_for_and_allowed(
    phone: Page, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str], allowed: bool
) -> None:
    eye = eyes.eye(clinic_store, enrolment[0])
    assert eye is not None
    person = f"patient:{eye.patient.id}"
    if allowed:
        phone.context.grant_permissions(["notifications"], origin=server.address)
    go(phone, "more")
    expect(phone.locator("#messages")).to_be_visible()
    phone.evaluate(SUBSCRIBED)
    assert kept.subscriptions(clinic_store, person) == []
    phone.get_by_role("button", name="Send reminders to this phone").click()
    told = "Reminders will come to this phone." if allowed else "This phone does not allow it."
    expect(phone.locator("#push-told")).to_contain_text(told)
    known = [one.endpoint for one in kept.subscriptions(clinic_store, person)]
    assert known == (["https://push.invalid/abc"] if allowed else [])
    if allowed:
        assert phone.evaluate("window.subscribedWith") == push_keys.public_key(clinic_store)


def test_without_a_signal_the_phone_says_so_and_keeps_what_was_typed(phone: Page, server: RunningServer) -> None:
    go(phone, "more")
    form = phone.locator("#messages")
    form.get_by_label("No messages from").fill("19:15")
    server.kill()
    form.get_by_role("button", name="Save").click()
    expect(phone.locator("#messages-error")).to_have_text("There is no signal. Please try again later.")
    expect(form.get_by_label("No messages from")).to_have_value("19:15")
    phone.reload()
    expect(phone.get_by_text("You can choose this when there is a signal.")).to_be_visible()


def test_staff_choose_on_their_page(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store
) -> None:
    page = open_context().new_page()
    sign_in(page, server, "nurse@test.invalid")
    page.get_by_role("link", name="My messages").click()
    page.get_by_label("E-mail (empty for none)").fill("not an address")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#email-error")).to_contain_text("This is not an e-mail address.")
    expect(page.get_by_label("E-mail (empty for none)")).to_have_value("not an address")
    page.get_by_label("E-mail (empty for none)").fill("nora@test.invalid")
    page.get_by_label("No messages from").fill("22:00")
    page.get_by_role("button", name="Save").click()
    expect(page.get_by_role("status").filter(has_text="Saved.")).to_be_visible()
    staff = clinic_store.row("SELECT id FROM staff WHERE email = 'nurse@test.invalid'")
    assert staff is not None
    found = outgoing.choices_of(clinic_store, f"staff:{staff['id']}", server.settings.clinic, server.settings.messages)
    assert (found.email, found.quiet_from.hour, found.unwanted) == ("nora@test.invalid", 22, set())
