"""What is always in view: that something is wrong can be said at once, the tabs, and where a change of the tab leads."""

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.web.context import LANGUAGES
from tests.browser.conftest import PHONE, RunningServer, enrol, ready

VIEWS = ("now", "check", "bubble", "visits", "help", "more")
LATER = ("living", "history", "helpers", "install", "privacy")
# Small phones, and a screen of 1280 × 1024 px zoomed to 400 % (WCAG 2.2, 1.4.10 Reflow: 320 × 256 CSS px).
SCREENS = ((320, 568), (360, 740), (320, 256), (740, 360))
IN_VIEW = """(number) => {
    const link = document.querySelector(".always a[href^='tel:']");
    const box = link.getBoundingClientRect();
    const words = document.querySelector(".always-words").getBoundingClientRect();
    const onTop = [box, words].every((b) => document.elementFromPoint(b.x + b.width / 2, b.y + b.height / 2)?.closest(".always"));
    return onTop && box.top >= 0 && box.bottom <= innerHeight && box.right <= innerWidth && link.textContent.includes(number);
}"""
COVERED = """() => [...document.body.querySelectorAll("*")]
    .filter((e) => ["fixed", "sticky"].includes(getComputedStyle(e).position))
    .reduce((sum, e) => sum + e.getBoundingClientRect().height, 0) / innerHeight"""
# Where the keyboard stands: whether anything that is always in view lies over it.
HIDDEN = """() => {
    const e = document.activeElement;
    if (e === document.body || e.closest(".always, .tabs")) return null;
    const box = (e.closest("label") ?? e).getBoundingClientRect();
    const bars = [...document.querySelectorAll(".always, .tabs")].filter((b) => ["fixed", "sticky"].includes(getComputedStyle(b).position));
    const top = Math.max(...bars.map((b) => b.getBoundingClientRect()).filter((b) => b.top <= 0).map((b) => b.bottom));
    const low = Math.min(innerHeight, ...bars.map((b) => b.getBoundingClientRect()).filter((b) => b.top > 0).map((b) => b.top));
    const tall = box.height > low - top;
    const seen = tall ? box.top < low && box.bottom > top : box.top >= top - 1 && box.bottom <= low + 1;
    return seen ? null : `${e.outerHTML.slice(0, 90)} at ${Math.round(box.top)}–${Math.round(box.bottom)}, free is ${top}–${low}`;
}"""
TABS = """() => [...document.querySelectorAll(".tabs a")].map((a) => {
    const box = a.getBoundingClientRect();
    return [box.top, a.scrollWidth > a.clientWidth + 1 || box.right > innerWidth + 1 || box.left < -1];
})"""


def to_the_end(page: Page) -> None:
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")


def test_something_is_wrong_and_the_number_are_in_view_on_every_screen(phone: Page, server: RunningServer) -> None:
    for width, height in SCREENS:
        phone.set_viewport_size({"width": width, "height": height})
        for view in VIEWS if height > 256 else VIEWS + LATER:
            phone.goto(f"{server.address}/me/#{view}")
            expect(phone.locator(f"#{view}")).to_be_visible()
            for _ in range(2):
                assert phone.evaluate(IN_VIEW, "+00 1 234"), (view, width, height)
                assert phone.evaluate(COVERED) <= 0.2, (view, width, height)
                to_the_end(phone)
    phone.goto(f"{server.address}/enrol")
    to_the_end(phone)
    assert phone.evaluate(IN_VIEW, "+00 1 234")


def test_it_leads_to_whom_to_call_also_before_the_phone_is_set_up(
    open_context: Callable[..., BrowserContext], server: RunningServer
) -> None:
    page = open_context(**PHONE).new_page()
    page.goto(f"{server.address}/enrol")
    page.get_by_role("link", name="Something is wrong").click()
    ready(page)
    expect(page.locator("#help-call")).to_be_visible()
    expect(page.locator("#help-emergency")).to_be_visible()
    assert page.evaluate(IN_VIEW, "+00 1 234")


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_tabs_stand_in_one_row_at_320_px(phone: Page, server: RunningServer, language: str) -> None:
    phone.set_viewport_size({"width": 320, "height": 568})
    phone.goto(f"{server.address}/me/?language={language}")
    ready(phone)
    tabs = phone.evaluate(TABS)
    assert len({top for top, _ in tabs}) == 1
    assert not any(over for _, over in tabs), tabs
    assert phone.evaluate(IN_VIEW, "234")
    assert phone.evaluate(COVERED) <= 0.2


def test_another_tab_begins_at_its_top_with_its_heading(phone: Page) -> None:
    for name, view in (("Visits", "visits"), ("Now", "now"), ("Bubble", "bubble"), ("Something is wrong", "help")):
        to_the_end(phone)
        phone.get_by_role("link", name=name).click()
        expect(phone.locator(f"#{view} h1")).to_be_focused()
        assert phone.evaluate("scrollY") == 0
    phone.get_by_role("link", name="My entries, reminders, language").click()
    expect(phone.locator("#more h1")).to_be_focused()


@pytest.mark.parametrize(("width", "height"), [(320, 568), (320, 256)])
def test_the_focus_is_never_beneath_what_is_always_in_view(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str], width: int, height: int
) -> None:
    page = open_context(viewport={"width": width, "height": height}).new_page()
    enrol(page, server, enrolment[1])
    for view in VIEWS if height > 256 else VIEWS + LATER:
        page.goto(f"{server.address}/me/#{view}")
        expect(page.locator(f"#{view}")).to_be_visible()
        for key in ("Tab", "Shift+Tab"):
            for _ in range(30):
                page.keyboard.press(key)
                assert (fault := page.evaluate(HIDDEN)) is None, (view, key, fault)


def test_only_a_phone_that_was_never_set_up_is_told_so_before_the_rest_has_come(
    phone: Page, open_context: Callable[..., BrowserContext], server: RunningServer
) -> None:
    """The page's own program never comes: what is said by then is all there is."""
    without_app = (
        "navigator.serviceWorker.getRegistrations().then((known) => Promise.all(known.map((one) => one.unregister())))"
    )
    phone.evaluate(without_app)
    for page, said in ((phone, False), (open_context(**PHONE).new_page(), True)):
        page.route("**/patient/app.js", lambda route: route.abort())
        page.goto(f"{server.address}/me/")
        expect(page.locator("#not-enrolled h1")).to_be_visible(visible=said)


def test_who_has_just_set_it_up_is_never_told_otherwise(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    page = open_context(**PHONE).new_page()
    page.route("**/patient/app.js", lambda route: route.abort())
    page.goto(f"{server.address}/enrol?code={enrolment[1]}")
    page.get_by_label("Year of birth").fill("1952")
    page.get_by_role("button", name="Set up").click()
    page.wait_for_url("**/me/**")
    expect(page.locator("#not-enrolled h1")).to_be_hidden()
