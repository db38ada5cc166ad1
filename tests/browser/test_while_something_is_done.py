"""What the phone shows only while something is done there is as usable as its pages: each question, what is said in between, a
timer that runs, a wish, an entry that is taken back."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from followup.web.context import LANGUAGES
from tests.browser.checking import SCREENS, WELL, answer_screen, press, screen
from tests.browser.conftest import RunningServer, go, ready
from tests.browser.test_everyone_can_use_it import OVERFLOWS, faults_of, open_all

Step = Callable[[Page], None]


def answered(name: str) -> Step:
    def do(phone: Page) -> None:
        answer_screen(phone, name, WELL)

    return do


def begin(phone: Page) -> None:
    go(phone, "check")
    screen(phone, "pain").wait_for(state="visible")


def tap(view: str, button: str) -> Step:
    def do(phone: Page) -> None:
        go(phone, view)
        phone.locator(f"#{view}").wait_for(state="visible")
        open_all(phone)
        phone.locator(button).first.click()

    return do


STEPS: dict[str, Step] = {
    "pain": begin,
    "call now in between, sight": lambda phone: press(phone, "pain", "9"),
    **{f"after {name}": answered(name) for name in [*SCREENS][1:]},
    "the check is kept": lambda phone: phone.locator("#check-save").click(),
    "a call that stands on the first screen": lambda phone: go(phone, "now"),
    "a timer that runs": tap("now", ".timer"),
    "a break": tap("now", ".pause"),
    "a journey": tap("bubble", "#anaesthetic button"),
    "a wish": tap("visits", "#visit-list button"),
    "an entry is taken back": tap("more", "#entries button"),
}


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_each_step_is_as_usable(phone: Page, server: RunningServer, language: str) -> None:
    phone.goto(f"{server.address}/me/?language={language}")
    ready(phone)
    faults = []
    for name, do in STEPS.items():
        do(phone)
        phone.evaluate("scrollTo(0, 0)")  # what is half under the strip would count as too small
        faults += [f"{name}: {fault}" for fault in faults_of(phone, (320,))]
    assert faults == []


def test_each_step_fits_with_text_at_200_percent(phone: Page, server: RunningServer) -> None:
    phone.add_init_script(
        "document.addEventListener('DOMContentLoaded', () => { document.documentElement.style.fontSize = '200%'; });"
    )
    phone.set_viewport_size({"width": 320, "height": 740})
    phone.goto(f"{server.address}/me/?language=de")
    ready(phone)
    faults = []
    for name, do in STEPS.items():
        do(phone)
        faults += [f"{name}: {fault}" for fault in phone.evaluate(OVERFLOWS)]
    assert faults == []
