"""What a message says, in the reader's language. Nothing clinical and no name stands in it: the page behind the link has that."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from babel import Locale
from babel.support import NullTranslations, Translations

from followup.resources import TRANSLATIONS

PATIENT_PAGE, STAFF_PAGE, NEW_PASSWORD_PAGE = "/me/", "/clinic/callbacks", "/sign-in/new-password/"


@dataclass(frozen=True, slots=True)
class Letter:
    """One message: a title, a few sentences, and the path of the page that says more."""

    title: str
    words: str
    path: str


def letter(kind: str, language: str, count: int, clinic: str, phone: str) -> Letter:
    """The letter of a kind of message; `count` is how many callbacks it is about (staff)."""
    if kind in _STAFF:
        one, many = _STAFF[kind]
        return Letter((one if count == 1 else many).format(count=count), "Open the list of callbacks.", STAFF_PAGE)
    known = _translations(language)
    title, words = _PATIENT[kind](known.gettext)
    return Letter(title, words.format(clinic=clinic, phone=_isolated(phone, language)), PATIENT_PAGE)


def audit_head(number: int, hash: str, at: datetime) -> Letter:
    """The head of the audit chain, for somebody to keep where the database is not."""
    words = (
        f"The audit chain has {number} entries on {at:%Y-%m-%d %H:%M} UTC. Keep this message: it shows later whether "
        f"entries were cut off or written anew.\n\n  followup check --head {number}:{hash}"
    )
    return Letter("Audit chain", words, "/administrator/audit")


def password_reset(token: str) -> Letter:
    """The link by which whoever reads this mail chooses a new password."""
    words = (
        "Somebody asked for a new password for this address. The link holds for 30 minutes, and once. "
        "If it was not you, do nothing: your password stays."
    )
    return Letter("A new password", words, f"{NEW_PASSWORD_PAGE}{token}")


def _isolated(phone: str, language: str) -> str:
    """A phone number whose groups stay in order between words that run from right to left (Unicode's LRI and PDI)."""
    return f"\u2066{phone}\u2069" if Locale(language).text_direction == "rtl" else phone


def footer(language: str) -> str:
    """Stands under every e-mail."""
    _ = _translations(language).gettext
    return _("Please do not answer this e-mail: nobody reads it. You choose what you get on the same page.")


@lru_cache
def _translations(language: str) -> NullTranslations:
    return Translations.load(TRANSLATIONS, [language])


_STAFF = {
    "now": ("A callback needs somebody within the hour", "{count} callbacks need somebody within the hour"),
    "escalation": ("A callback was not settled in time", "{count} callbacks were not settled in time"),
}


def _posture(_: Callable[[str], str]) -> tuple[str, str]:
    return _("A reminder for you"), _("Please open your page: it says what to do now.")


def _visit(_: Callable[[str], str]) -> tuple[str, str]:
    return _("You have a visit tomorrow"), _("Your page says more. To change the date, call {phone}.")


def _visit_changed(_: Callable[[str], str]) -> tuple[str, str]:
    return _("One of your visits has changed"), _("Your page shows your visits. If a day does not suit you, call {phone}.")


def _not_heard(_: Callable[[str], str]) -> tuple[str, str]:
    return _("We have not heard from you"), _("Please open your page and tell us how you are, or call {phone}.")


_PATIENT = {
    "posture": _posture,
    "drops": _posture,
    "visit": _visit,
    "visit-changed": _visit_changed,
    "not-heard": _not_heard,
}
