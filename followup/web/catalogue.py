"""The patient's languages: collect what the phone says, keep the catalogues in step, and make what the server reads.

`python -m followup.web.catalogue` updates followup/translations/; a test fails while anything is untranslated.
Medical wording (everything from the rulebook, and what a page marks with `medical`) carries the comment below.
"""

import sys
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_python
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po
from jinja2.ext import babel_extract

from followup import web
from followup.care import bounds
from followup.care.home import enrol, helpers, pack, receive, senders
from followup.care.messages import outgoing
from followup.care.visits.visit import EXTRA_VISIT
from followup.care.watch import dangers
from followup.exchange import letters
from followup.protocols import book
from followup.resources import TRANSLATIONS, folder
from followup.web import fields, vocabulary
from followup.web.context import LANGUAGES
from followup.web.patient import forms, living

CLINICIAN = "to be read by a clinician before use"
MEDICAL_KINDS = ("posture", "agent")
Text = str | tuple[str, str]  # or singular and plural
KEYWORDS: dict[str, Any] = {
    "_": None,
    "ngettext": (1, 2),
    "gettext": None,
    "lazy_gettext": None,
    "translatable": None,
    "medical": None,
}


def texts() -> dict[Text, bool]:
    """Every English text of the patient's pages, and whether it is medical wording."""
    found: dict[Text, bool] = {}
    for function, text in [*_in_templates(), *_in_python()]:
        found[text] = found.get(text, False) or function == "medical"
    for rule in book.rulebook().rules:
        if rule.patient_words:
            found[rule.patient_words] = True
        if rule.second_look:
            found[rule.second_look.ask] = True
    for review in book.reviews():
        found.setdefault(review.name, False)
    found.setdefault(EXTRA_VISIT, False)
    for kind in ("posture", "agent", "eye"):
        for words in vocabulary.WORDS[kind].values():
            found[words] = found.get(words, False) or kind in MEDICAL_KINDS
    return found


def path(language: str, ending: str = "po") -> Path:
    return TRANSLATIONS / language / "LC_MESSAGES" / f"messages.{ending}"


def read(language: str) -> Catalog:
    if not path(language).exists():
        return Catalog(locale=language, project="followup")
    with path(language).open("rb") as file:
        return read_po(file, locale=language)


def updated(language: str) -> Catalog:
    """The catalogue of a language with today's messages: known translations kept, others empty, old ones gone."""
    old = read(language)
    new = Catalog(locale=language, project="followup", fuzzy=False, header_comment="# Translations of the patient's pages.")
    new.creation_date = new.revision_date = old.creation_date
    for text, medical in sorted(texts().items(), key=str):
        known = old.get(text)
        new.add(text, known.string if known else "", auto_comments=[CLINICIAN] if medical else [])
    return new


def compiled(catalogue: Catalog) -> bytes:
    out = BytesIO()
    write_mo(out, catalogue)
    return out.getvalue()


def missing(language: str) -> list[Text]:
    """Texts of today that the catalogue on disk does not translate."""
    kept = read(language)
    return [text for text in texts() if not (known := kept.get(text)) or known.fuzzy or not _whole(known.string)]


def _whole(said: str | tuple[str, ...] | list[str] | None) -> bool:
    return bool(said) and all(said or ())


def main() -> int:
    """Write the catalogues; exit code 1 while anything is untranslated."""
    untranslated = 0
    for language in LANGUAGES:
        if language == "en":
            continue
        catalogue = updated(language)
        path(language).parent.mkdir(parents=True, exist_ok=True)
        with path(language).open("wb") as file:
            write_po(file, catalogue, width=120, sort_output=True)
        path(language, "mo").write_bytes(compiled(catalogue))
        todo = missing(language)
        untranslated += len(todo)
        print(f"{language}: {len(texts())} texts, {len(todo)} untranslated")
        for text in todo:
            print(f"    {text}")
    return int(untranslated > 0)


def _in_templates() -> Iterator[tuple[str, Text]]:
    for file in sorted((folder("templates") / "patient").iterdir()):
        with file.open("rb") as opened:
            yield from _said(babel_extract(opened, list(KEYWORDS), [], {"encoding": "utf-8"}))


def _in_python() -> Iterator[tuple[str, Text]]:
    for module in (web, forms, living, fields, bounds, enrol, helpers, letters, outgoing, receive, senders, dangers, pack):
        with Path(str(module.__file__)).open("rb") as opened:
            yield from _said(extract_python(opened, KEYWORDS, [], {"encoding": "utf-8"}))


def _said(extracted: Any) -> Iterator[tuple[str, Text]]:
    for _line, function, text, _comments in extracted:
        if function == "ngettext":
            yield function, (text[0], text[1])
        elif first := text if isinstance(text, str) or not text else text[0]:  # a text by its name only stands elsewhere
            yield function, first


if __name__ == "__main__":
    sys.exit(main())
