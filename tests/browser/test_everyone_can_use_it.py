"""The patient's pages for people who see badly: WCAG 2.2 up to AAA (axe) in every language, light and dark; size, zoom,
keyboard, direction."""

from collections.abc import Callable

import pytest
from playwright.sync_api import BrowserContext, Page, expect

from followup.web.context import LANGUAGES
from tests.browser import axe
from tests.browser.checking import answer
from tests.browser.conftest import PHONE, RunningServer, enrol, enrol_through, go, ready
from tests.browser.proxy import Line

VIEWS = ("now", "check", "bubble", "visits", "help", "more")
# Every visible piece of text under 20 px; what is pressed has sides of 48 px. Both are common practice, no source: WCAG 2.2
# sets no size of text, and 44 px for what is pressed (2.5.5).
LEAST_PX = 48
SMALL_TEXT = """() => [...document.body.querySelectorAll("*")].filter((e) => e.checkVisibility({ visibilityProperty: true })
    && [...e.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim()) && parseFloat(getComputedStyle(e).fontSize) < 20)
    .map((e) => `text: ${e.textContent.trim().slice(0, 40)}`)"""


def faults_of(page: Page, widths: tuple[int, ...] = ()) -> list[str]:
    """What is wrong with the page as it is, in light and in dark, and at which widths it has to be pushed sideways."""
    faults = axe.violations_in_both(page) + axe.too_small(page, LEAST_PX) + page.evaluate(SMALL_TEXT)
    for width in widths:
        page.set_viewport_size({"width": width, "height": 740})
        if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
            faults.append(f"wider than {width} px")
    if widths:
        page.set_viewport_size(PHONE["viewport"])
    return faults


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_no_violation_on_any_page_in_any_language(phone: Page, server: RunningServer, language: str) -> None:
    phone.goto(f"{server.address}/me/?language={language}")
    ready(phone)
    faults = []
    for view in VIEWS:
        go(phone, view)
        phone.locator(f"#{view}").wait_for(state="visible")
        open_all(phone)
        faults += [f"{view}: {fault}" for fault in faults_of(phone, (320, 360, 768, 1280))]
    assert faults == []


# What comes only sometimes: all that one part of the page can say, at once, with words where the page would put some.
SOMETIMES = ("now", "running", "locked", "ended", "away", "new-version")
ALL_AT_ONCE = """(place) => {
    const part = document.getElementById(place);
    if (part.matches("section")) for (const view of document.querySelectorAll("[data-view]")) view.hidden = view !== part;
    const words = document.querySelector("#texts [data-text=still-so]").textContent;
    for (const e of [part, ...part.querySelectorAll("*")]) {
        e.hidden = false;
        if (e.matches("p, h2, li") && !e.textContent.trim() && !e.matches(".error")) e.textContent = words;
    }
    for (const list of part.querySelectorAll("ul:empty")) list.append(Object.assign(document.createElement("li"), { textContent: words }));
}"""


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_no_violation_in_what_comes_only_sometimes(phone: Page, server: RunningServer, language: str) -> None:
    faults = []
    for part in SOMETIMES:
        phone.goto(f"{server.address}/me/?language={language}")
        ready(phone)
        phone.evaluate(ALL_AT_ONCE, part)
        faults += [f"{part}: {fault}" for fault in faults_of(phone, (320, 360))]
    assert faults == []


def open_all(page: Page) -> None:
    page.evaluate("document.querySelectorAll('details').forEach((details) => { details.open = true; })")


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_setting_up_and_danger_are_as_usable(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str], language: str
) -> None:
    page = open_context(**PHONE).new_page()
    page.goto(f"{server.address}/me/?language={language}")
    ready(page)
    page.locator("#not-enrolled").wait_for(state="visible")
    faults = faults_of(page)
    for path in ("/", "/me/calendar", "/no-such-page"):
        page.goto(f"{server.address}{path}?language={language}")
        faults += [f"{path}: {fault}" for fault in faults_of(page, (320,))]
    page.goto(f"{server.address}/enrol?language={language}&code={enrolment[1]}")
    page.locator("button.main").click()
    page.locator("#birth_year-error").wait_for(state="visible")
    faults += faults_of(page, (320,))
    page.locator("#birth_year").fill("1952")
    page.locator("button.main").click()
    page.wait_for_url(f"**/me/?language={language}")
    ready(page)
    page.goto(f"{server.address}/me/?language={language}#check")
    answer(page, pain="8", vision="worse")
    page.locator("#verdict").wait_for(state="visible")
    faults += faults_of(page)
    assert faults == []
    assert page.evaluate("document.dir") == ("rtl" if language == "ar" else "ltr")


def test_a_language_once_chosen_stays_offline_too(phone: Page, server: RunningServer) -> None:
    go(phone, "more")
    phone.get_by_role("link", name="Deutsch").click()
    expect(phone.get_by_role("heading", name="Sprache", exact=True)).to_be_visible()
    ready(phone)
    phone.context.set_offline(True)
    phone.goto(f"{server.address}/me/")
    ready(phone)
    expect(phone.get_by_role("heading", name="Jetzt", exact=True)).to_be_visible()
    expect(phone.locator(".posture-words")).to_have_text("Gesicht nach unten")


def test_one_check_by_keyboard_alone(phone: Page) -> None:
    def go_to(what: str) -> None:
        for _ in range(20):
            if phone.evaluate("what => document.activeElement.matches(what)", what):
                return
            phone.keyboard.press("Tab")
        raise AssertionError(f"no Tab leads to {what}")

    phone.get_by_role("link", name="Check").focus()
    phone.keyboard.press("Enter")
    expect(phone.locator("#check h1")).to_be_focused()
    for wanted in (
        "[value='3']",
        "[value=same]",
        "[value=none]",
        "[value=none]",
        "[value=none]",
        "[value=same]",
        "#check-save",
    ):
        go_to(wanted)
        phone.keyboard.press("Enter")
    expect(phone.locator("#all-well")).to_be_visible()
    expect(phone.locator("#sending")).to_have_text("All sent")


def test_numbers_and_dates_follow_the_language(phone: Page, server: RunningServer) -> None:
    # Outside check: the browser's own CLDR data.
    for language, month in (("de", r"\d+\. \w+"), ("es", r"de \w+"), ("en", r"\d+ \w+")):
        phone.goto(f"{server.address}/me/?language={language}")
        ready(phone)
        told = phone.locator("#next-visit").text_content() or ""
        expected = phone.evaluate(
            "l => new Date(Date.now() + 86400000).toLocaleDateString(l, { weekday: 'long', day: 'numeric', month: 'long' })",
            "en-GB" if language == "en" else language,
        )
        assert expected in told, month


def test_it_can_be_installed(phone: Page) -> None:
    devtools = phone.context.new_cdp_session(phone)
    errors = devtools.send("Page.getInstallabilityErrors")["installabilityErrors"]
    assert [e["errorId"] for e in errors if e["errorId"] != "in-incognito"] == []
    manifest = devtools.send("Page.getAppManifest")
    assert manifest["errors"] == []


WORKER_READY = """async () => {
    await navigator.serviceWorker.ready;
    return (await caches.keys()).some((name) => name.startsWith("followup-shell-"));
}"""


def test_first_visit_is_small_and_the_next_needs_no_network(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str]
) -> None:
    # 100 kB: common practice, no source. Every byte of every answer, heads and what the worker fetches included, from the
    # card's code to a phone ready to work.
    line = Line(server.settings.server.port)
    page = open_context(**PHONE).new_page()
    enrol_through(page, f"http://localhost:{line.port}", enrolment[1])
    assert page.evaluate(WORKER_READY)
    assert 20_000 < line.answered_bytes < 100_000
    line.close()
    server.kill()
    page.goto(f"http://localhost:{line.port}/me/")
    ready(page)
    expect(page.locator(".posture-words")).to_be_visible()


SHIFTS = """() => new Promise((told) => {
    new PerformanceObserver((list) => told(list.getEntries().reduce((sum, shift) => sum + shift.value, 0)))
        .observe({ type: "layout-shift", buffered: true });
    setTimeout(() => told(0), 1000);
})"""


@pytest.mark.parametrize("size", [(360, 740), (320, 568)])
def test_nothing_jumps_before_the_phone_is_set_up_or_after(
    open_context: Callable[..., BrowserContext], server: RunningServer, enrolment: tuple[str, str], size: tuple[int, int]
) -> None:
    # Outside check: the browser's own layout shift score (Layout Instability API).
    page = open_context(**{**PHONE, "viewport": {"width": size[0], "height": size[1]}}).new_page()
    page.goto(f"{server.address}/me/")
    ready(page)
    expect(page.locator("#not-enrolled")).to_be_visible()
    assert page.evaluate(SHIFTS) == 0
    enrol(page, server, enrolment[1])
    page.reload()
    ready(page)
    assert page.evaluate(SHIFTS) == 0


def test_a_browser_that_keeps_nothing_says_so_with_the_number(
    open_context: Callable[..., BrowserContext], server: RunningServer
) -> None:
    context = open_context(**PHONE)
    context.add_init_script(
        "Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('no', 'SecurityError'); } });"
    )
    page = context.new_page()
    page.goto(f"{server.address}/me/")
    ready(page)
    expect(page.get_by_role("heading", name="This phone does not let this page keep anything")).to_be_visible()
    expect(page.locator("#blocked-call")).to_be_visible()
    expect(page.locator("#blocked-emergency")).to_be_visible()
    assert faults_of(page) == []


# WCAG 2.2, 1.4.4: text at twice its size, nothing cut off and nothing to push sideways.
OVERFLOWS = """() => {
    const wide = document.documentElement.scrollWidth > innerWidth ? ["the page"] : [];
    const shown = (e) => e.getClientRects().length > 0 && !e.closest(".aside");
    const cut = [...document.body.querySelectorAll("*")].filter((e) => shown(e) && (e.scrollWidth > e.clientWidth + 1)
        && e.clientWidth > 0 && getComputedStyle(e).display !== "inline" && e.tagName !== "INPUT");
    return [...wide, ...cut.map((e) => `${e.outerHTML.slice(0, 80)} ${e.scrollWidth} > ${e.clientWidth}`)];
}"""


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_text_at_200_percent_fits(phone: Page, server: RunningServer, language: str) -> None:
    phone.add_init_script(
        "document.addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '200%'; });"
    )
    faults = []
    phone.goto(f"{server.address}/me/?language={language}")
    for width in (320, 360):
        phone.set_viewport_size({"width": width, "height": 740})
        phone.reload()
        ready(phone)
        for view in VIEWS:
            go(phone, view)
            phone.locator(f"#{view}").wait_for(state="visible")
            open_all(phone)
            faults += [f"{view} at {width} px: {fault}" for fault in phone.evaluate(OVERFLOWS)]
    assert faults == []
