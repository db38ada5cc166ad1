"""A passkey in a real browser, with the virtual device that Chromium has for this (Chrome DevTools Protocol, WebAuthn domain)."""

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, expect

from tests.browser.conftest import CLINIC_TOML, RunningServer, sign_in
from tests.browser.test_staff_pages import faults_of
from tests.conftest import PASSWORD

DEVICE = {
    "protocol": "ctap2",
    "transport": "internal",
    "hasResidentKey": True,
    "hasUserVerification": True,
    "isUserVerified": True,
    "automaticPresenceSimulation": True,
}


@pytest.fixture
def served_by_name(server: RunningServer) -> RunningServer:
    """The clinic under the address by which this browser calls it: a passkey is bound to that."""
    server.stop()
    settings = f'{CLINIC_TOML}[server]\naddress = "{server.address}"\n'
    server.settings.server.database.with_suffix(".toml").write_text(settings, encoding="utf-8")
    server.start()
    return server


def test_a_passkey_is_made_used_alone_and_after_the_password(
    open_context: Callable[..., BrowserContext], served_by_name: RunningServer
) -> None:
    page = open_context(viewport={"width": 1280, "height": 800}).new_page()
    device = page.context.new_cdp_session(page)
    device.send("WebAuthn.enable")
    id = device.send("WebAuthn.addVirtualAuthenticator", {"options": DEVICE})["authenticatorId"]
    here = served_by_name.address
    sign_in(page, served_by_name, "nurse@test.invalid")
    faults = []

    page.goto(f"{here}/my-account/new-passkey")
    faults += faults_of(page, "a name")
    page.get_by_label("Name").fill("the tablet in room 2")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Go on").click()
    faults += faults_of(page, "the device is asked")
    page.get_by_role("button", name="Make the passkey").click()
    page.wait_for_url("**/my-account")
    expect(page.get_by_text("the tablet in room 2")).to_be_visible()
    faults += faults_of(page, "my account")
    page.get_by_role("link", name="Rename or remove").click()
    faults += faults_of(page, "one passkey")

    def leave() -> None:
        page.get_by_role("button", name="Sign out").click()
        page.wait_for_url(f"{here}/")
        page.goto(f"{here}/sign-in")

    leave()
    faults += faults_of(page, "sign in")
    device.send("WebAuthn.setUserVerified", {"authenticatorId": id, "isUserVerified": False})
    page.get_by_role("button", name="Use a passkey").click()
    expect(page.get_by_text("No passkey was chosen, or it took too long.")).to_be_visible()
    device.send("WebAuthn.setUserVerified", {"authenticatorId": id, "isUserVerified": True})
    page.get_by_role("button", name="Use a passkey").click()
    page.wait_for_url("**/clinic/")

    page.goto(f"{here}/my-account/ask-for-a-passkey")
    page.get_by_role("button", name="Ask for a passkey from now on").click()
    faults += faults_of(page, "recovery codes")
    leave()
    page.get_by_label("E-mail").fill("nurse@test.invalid")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    faults += faults_of(page, "second step")
    page.get_by_role("button", name="Use a passkey").click()
    page.wait_for_url("**/clinic/")
    (held,) = device.send("WebAuthn.getCredentials", {"authenticatorId": id})["credentials"]
    assert (held["rpId"], held["signCount"]) == ("localhost", 3)
    assert faults == []
