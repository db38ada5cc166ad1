"""The administrator's pages and one's own account, looked at as all staff pages are. The second factor is set up by its QR code."""

from collections.abc import Callable
from datetime import UTC, datetime

import pyotp
from playwright.sync_api import BrowserContext

from followup.care import accounts
from followup.records import Store
from tests.browser.conftest import RunningServer, sign_in
from tests.browser.test_staff_pages import faults_of, walk
from tests.conftest import PASSWORD


def test_an_administrator_s_pages_and_one_s_own_account(
    open_context: Callable[..., BrowserContext], server: RunningServer, clinic_store: Store
) -> None:
    accounts.add_staff(clinic_store, datetime.now(UTC), "Ada Admin", "administrator", "admin@test.invalid", PASSWORD)
    page = open_context(viewport={"width": 1280, "height": 800}).new_page()
    sign_in(page, server, "admin@test.invalid")
    faults = walk(page, server, clinic_store, "administrator", ["/administrator/", "/my-account/no-second-factor"])
    page.goto(f"{server.address}/my-account/second-factor")
    secret = page.locator("code").first.inner_text()
    page.get_by_label("Code").fill(pyotp.TOTP(secret).now())
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Ask for codes from now on").click()
    page.get_by_role("link", name="I have them").wait_for()
    faults += faults_of(page, "recovery codes")
    recovery = page.locator("strong.code").first.inner_text()
    with page.expect_navigation():
        page.get_by_role("button", name="Sign out").click()
    page.goto(f"{server.address}/sign-in")
    page.get_by_label("E-mail").fill("admin@test.invalid")
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in").click()
    page.get_by_label("Code").wait_for()
    faults += faults_of(page, "the code at sign-in")
    page.get_by_label("Code").fill(recovery)
    page.get_by_role("button", name="Sign in").click()
    page.wait_for_url("**/administrator/")
    assert faults == []
