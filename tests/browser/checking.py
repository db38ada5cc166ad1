"""Doing a check on the phone as a person does: one screen after the other."""

from playwright.sync_api import Locator, Page, expect

from followup.clinical.facts import SYMPTOM_SIGNS, SYMPTOM_TRENDS

CANNOT_TELL = "cannot-tell"
WELL: dict[str, str] = {"pain": "1", **dict.fromkeys(SYMPTOM_TRENDS, "same"), **dict.fromkeys(SYMPTOM_SIGNS, "no")}
SCREENS = {
    "pain": ("pain",),
    "vision": ("vision",),
    "seeing": ("curtain", "flashes", "floaters"),
    "looking": ("redness", "discharge", "injury"),
    "body": ("vomiting", "fever"),
    "other_eye": ("other_eye",),
}


def screen(phone: Page, name: str) -> Locator:
    return phone.locator(f"[data-screen={name}]")


def press(phone: Page, name: str, value: str) -> None:
    """One answer, or what is said of a screen's signs."""
    screen(phone, name).locator(f"button[value='{value}']").click()


def answer_screen(phone: Page, name: str, answers: dict[str, str]) -> int:
    """Answer one screen; what it asks and `answers` leave out cannot be told. Returns how many taps it took."""
    asked = SCREENS[name]
    if len(asked) == 1:
        press(phone, name, answers.get(name, CANNOT_TELL))
        return 1
    said = [answers.get(question, CANNOT_TELL) for question in asked]
    ticks = [question for question, value in zip(asked, said, strict=True) if value in ("yes", "worse")]
    for question in ticks:
        screen(phone, name).locator(f"input[name={question}]").check()
    press(phone, name, CANNOT_TELL if CANNOT_TELL in said else "none")
    return len(ticks) + 1


def answer(phone: Page, words: str = "", *, eye: str = "", kept: bool = True, **answers: str) -> int:
    """A whole check from its tab: up to the last screen that `answers` name, or to the words. Returns how many taps it took."""
    taps = fill_in(phone, words, eye=eye, **answers)
    save(phone, whole=_is_whole(words, answers), kept=kept)
    return taps + 1


def fill_in(phone: Page, words: str = "", *, eye: str = "", **answers: str) -> int:
    """All of a check but the tap that saves it. Returns how many taps it took."""
    phone.locator(".tabs a[href='#check']").click()
    taps = 1
    if eye:
        screen(phone, "eye").get_by_role("button", name=eye).click()
        taps += 1
    last = max((n for n, asked in enumerate(SCREENS.values()) if answers.keys() & set(asked)), default=-1)
    for name in list(SCREENS)[: len(SCREENS) if _is_whole(words, answers) else last + 1]:
        taps += answer_screen(phone, name, answers)
    if words:
        phone.locator("#symptom-words").fill(words)
    return taps


def _is_whole(words: str, answers: dict[str, str]) -> bool:
    return bool(words) or answers.keys() >= {question for asked in SCREENS.values() for question in asked}


def save(phone: Page, *, whole: bool = True, kept: bool = True) -> None:
    phone.locator("#check-save" if whole else "#check-stop").click()
    if kept:
        expect(phone.locator("#check-done")).to_be_visible()
