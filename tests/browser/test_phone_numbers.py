"""A phone number reads in the order in which it is dialled, in every language and wherever it stands."""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from babel import Locale
from playwright.sync_api import BrowserContext, Page, expect

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.exchange import letters
from followup.records import Store
from followup.web.context import LANGUAGES
from tests.browser.checking import answer
from tests.browser.conftest import CLINIC_TOML, PHONE, ZONE, RunningServer, enrol, ready, sign_in
from tests.conftest import consented, operation_note, patient_details

CLINIC, EMERGENCY, PATIENT = "+00 1 234", "0 11 22", "+00 9 876"
# For each place on the screen that shows the number: where its groups stand, from left to right as drawn.
GROUPS_AS_DRAWN = """(number) => {
    const found = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const at = node.data.indexOf(number);
        if (at < 0 || !node.parentElement.getClientRects().length) continue;
        const groups = [...number.matchAll(/\\S+/g)].map((group) => {
            const range = document.createRange();
            range.setStart(node, at + group.index);
            range.setEnd(node, at + group.index + group[0].length);
            const [box] = range.getClientRects();
            return { group: group[0], left: box.left, top: box.top };
        });
        groups.sort((a, b) => (Math.abs(a.top - b.top) > 5 ? a.top - b.top : a.left - b.left));
        found.push(groups.map(({ group }) => group).join(" "));
    }
    return found;
}"""


@pytest.fixture
def grouped(server: RunningServer) -> RunningServer:
    """A clinic whose emergency number has groups too."""
    server.stop()
    server.settings.server.database.with_suffix(".toml").write_text(
        CLINIC_TOML + f'emergency_phone = "{EMERGENCY}"\n', encoding="utf-8"
    )
    server.start()
    return server


def drawn(page: Page, number: str) -> list[str]:
    found: list[str] = page.evaluate(GROUPS_AS_DRAWN, number)
    return found


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_on_every_page_of_the_patient(
    open_context: Callable[..., BrowserContext], grouped: RunningServer, enrolment: tuple[str, str], language: str
) -> None:
    page = open_context(**PHONE).new_page()
    page.goto(f"{grouped.address}/enrol?language={language}")
    assert (set(drawn(page, CLINIC)), set(drawn(page, EMERGENCY))) == ({CLINIC}, {EMERGENCY})
    enrol(page, grouped, enrolment[1])
    for view in ("now", "check", "bubble", "visits", "help", "more"):
        page.goto(f"{grouped.address}/me/?language={language}#{view}")
        ready(page)
        assert (set(drawn(page, CLINIC)), set(drawn(page, EMERGENCY))) == ({CLINIC}, {EMERGENCY}), view
    page.goto(f"{grouped.address}/me/?language={language}#check")
    answer(page, pain="8", vision="worse")
    expect(page.locator("#verdict")).to_be_visible()
    assert (set(drawn(page, CLINIC)), set(drawn(page, EMERGENCY))) == ({CLINIC}, {EMERGENCY})
    for link in page.locator("a[href^='tel:']").all():
        assert link.get_attribute("href") in ("tel:+001234", "tel:01122")


def test_on_staff_pages_and_the_card(
    open_context: Callable[..., BrowserContext], grouped: RunningServer, enrolment: tuple[str, str]
) -> None:
    page = open_context().new_page()
    page.goto(grouped.address)
    assert (set(drawn(page, CLINIC)), set(drawn(page, EMERGENCY))) == ({CLINIC}, {EMERGENCY})
    sign_in(page, grouped, "nurse@test.invalid")
    for language in LANGUAGES:
        page.goto(f"{grouped.address}/clinic/eyes/{enrolment[0]}/card?language={language}")
        assert (set(drawn(page, CLINIC)), set(drawn(page, EMERGENCY))) == ({CLINIC}, {EMERGENCY}), language
    page.goto(f"{grouped.address}/clinic/eyes/{enrolment[0]}")
    assert drawn(page, PATIENT) == [PATIENT]
    page.evaluate("document.documentElement.dir = 'rtl'")  # also where the words around it run the other way
    assert drawn(page, PATIENT) == [PATIENT]


def test_on_the_paper_diary_of_somebody_who_reads_from_right_to_left(
    open_context: Callable[..., BrowserContext], grouped: RunningServer, clinic_store: Store, nurse: Actor
) -> None:
    page = open_context().new_page()
    sign_in(page, grouped, "nurse@test.invalid")
    desk = Desk(clinic_store, datetime.now(UTC), nurse, ZONE)
    details = patient_details("F-9").model_copy(update={"language": "ar"})
    eye, _ = consented(
        desk, leaving.discharge(desk, details, operation_note(operated_at=datetime.now(UTC) - timedelta(days=1)), [])
    )
    page.goto(f"{grouped.address}/clinic/eyes/{eye}/diary-page")
    assert page.locator("[dir=rtl]").count() > 0
    assert (set(drawn(page, CLINIC)), set(drawn(page, EMERGENCY))) == ({CLINIC}, {EMERGENCY})


@pytest.mark.parametrize("language", list(LANGUAGES))
def test_in_messages(open_context: Callable[..., BrowserContext], server: RunningServer, language: str) -> None:
    page = open_context(**PHONE).new_page()
    page.goto(server.address)
    for kind in ("visit", "not-heard"):
        said: Any = letters.letter(kind, language, 1, "Test Eye Clinic", CLINIC)
        # A mail program or a notification shows plain text in the direction of its words.
        page.evaluate(
            "([words, dir]) => { document.body.replaceChildren(document.createTextNode(words)); document.body.dir = dir; }",
            [said.words, Locale(language).text_direction],
        )
        assert drawn(page, CLINIC) == [CLINIC], kind
