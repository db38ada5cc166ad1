"""A pressure typed the wrong way round, put right by a nurse; its callback settled by a surgeon; the note, seen on the phone."""

from collections.abc import Callable

from playwright.sync_api import BrowserContext, Page, expect

from followup.records import Store
from tests.browser.conftest import RunningServer, ready, sign_in

OpenContext = Callable[..., BrowserContext]


def test_61_typed_for_16_is_put_right_and_settled_by_a_person(
    open_context: OpenContext, server: RunningServer, clinic_store: Store, enrolment: tuple[str, str]
) -> None:
    nurse = open_context(viewport={"width": 390, "height": 800}).new_page()
    sign_in(nurse, server, "nurse@test.invalid")
    nurse.goto(f"{server.address}/clinic/eyes/{enrolment[0]}/visit")
    nurse.locator("#right-iop").fill("61")
    nurse.get_by_label("Visit", exact=True).select_option("")
    nurse.get_by_role("button", name="Save").click()
    nurse.get_by_label("Yes, that is right").check()
    nurse.get_by_role("button", name="Save").click()
    expect(nurse.get_by_text("Pressure 61 mmHg, at or above 40.")).to_be_visible()

    nurse.goto(f"{server.address}/clinic/eyes/{enrolment[0]}")
    expect(nurse.locator(".course")).to_contain_text("pressure 61 mmHg")
    entry = nurse.locator(".entries > li", has_text="pressure 61 mmHg")
    expect(entry).to_contain_text("by Nora Nurse")
    entry.get_by_role("link", name="Correct").click()
    strip = nurse.locator(".who-strip")
    for words in ("Pat Patient", "14 Mar 1952", "T-1", "right eye"):
        expect(strip).to_contain_text(words)
    reason = nurse.get_by_label("Why it is put right")
    reason.scroll_into_view_if_needed()
    expect(strip).to_be_in_viewport()
    nurse.get_by_label("Pressure, mmHg").fill("16")
    reason.fill("typed the wrong way round")
    nurse.get_by_role("button", name="Save what is right").click()
    expect(nurse.get_by_role("heading", name="Rested on this entry, and no longer does")).to_be_visible()
    expect(nurse.get_by_text("The callback stays open until a person settles it.")).to_be_visible()
    nurse.get_by_role("link", name="To the right eye").click()
    expect(nurse.locator(".course")).not_to_contain_text("pressure 61 mmHg")
    expect(nurse.locator(".course")).to_contain_text("pressure 16 mmHg")
    folded = nurse.locator(".entries > li", has_text="pressure 16 mmHg")
    expect(folded.get_by_text("Was: Measurements: right eye, pressure 61 mmHg")).to_be_hidden()
    folded.get_by_text("Put right: typed the wrong way round").click()
    expect(folded.get_by_text("Was: Measurements: right eye, pressure 61 mmHg")).to_be_visible()

    surgeon = open_context(viewport={"width": 1280, "height": 800}).new_page()
    sign_in(surgeon, server, "surgeon@test.invalid")
    surgeon.goto(f"{server.address}/surgeon/")
    row = surgeon.locator(".cards li", has_text="Pressure 61 mmHg")
    expect(row).to_contain_text("Rests on an entry that was put right.")
    row.locator("a", has_text="Pat Patient").click()
    story = surgeon.locator("section", has=surgeon.get_by_role("heading", name="What was done"))
    expect(story).to_contain_text("typed the wrong way round")
    surgeon.get_by_role("button", name="Claim: I will call").first.click()
    surgeon.get_by_label("No action, and why").check()
    surgeon.locator("#words").fill("It was 16.")
    surgeon.get_by_role("button", name="Save the call").click()
    expect(surgeon.get_by_text("Settled: no action, and why.")).to_be_visible()
    surgeon.goto(f"{server.address}/surgeon/results")
    expect(surgeon.locator("main")).to_contain_text("0 of 1")


def test_drops_put_right_in_the_note_are_told_on_the_phone(
    phone: Page, open_context: OpenContext, server: RunningServer, enrolment: tuple[str, str]
) -> None:
    nurse = open_context(viewport={"width": 1280, "height": 800}).new_page()
    sign_in(nurse, server, "nurse@test.invalid")
    nurse.goto(f"{server.address}/clinic/eyes/{enrolment[0]}")
    nurse.get_by_role("link", name="Correct the operation note").click()
    drops = nurse.get_by_label("Drops, as prescribed")
    drops.fill(drops.input_value().replace("antibiotic 4 ×", "antibiotic 2 ×"))
    nurse.get_by_label("Why it is put right").fill("the note says two")
    nurse.get_by_role("button", name="Save what is right").click()
    expect(nurse.get_by_role("region", name="What changed")).to_contain_text("antibiotic, 2 times a day")
    phone.reload()
    ready(phone)
    expect(phone.locator("#changes")).to_contain_text("Drop antibiotic: 2 × a day until")
    nurse.get_by_role("link", name="Print a new card").click()
    expect(nurse.locator(".card")).to_contain_text("an older card is wrong")
