"""A clinic device in the hands of a nurse: signed in, and its page for work without a signal."""

from typing import Any

from playwright.sync_api import Page

from tests.conftest import PASSWORD

TABLET: dict[str, Any] = {"viewport": {"width": 820, "height": 1180}, "has_touch": True}


def device_ready(page: Page) -> None:
    """Signed in, the day's sheet kept, the worker in charge."""
    page.wait_for_selector("html[data-device=ready]")
    page.evaluate(
        """async () => {
            await navigator.serviceWorker.ready;
            if (!navigator.serviceWorker.controller)
                await new Promise((done) => navigator.serviceWorker.addEventListener("controllerchange", done));
        }"""
    )


def unlock(page: Page, password: str = PASSWORD) -> None:
    page.get_by_label("Password of whoever signed in on this device").fill(password)
    page.get_by_role("button", name="Open").click()
