"""How staff look somebody up: parts of a name, a number, a phone number, a birth date in any usual writing."""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from datetime import date
from functools import cache

from babel.dates import get_month_names

from followup.config import LANGUAGES

SHORTEST_PART = 2
_BETWEEN = r"[.,/\- ]+"
_NUMBERS = re.compile(rf"(\d{{1,4}}){_BETWEEN}(\d{{1,2}}){_BETWEEN}(\d{{2,4}})")
_MONTH, _DAY = r"([^\W\d_]{3,})", r"(\d{1,2})(?:st|nd|rd|th)?"
_WORDS = re.compile(rf"(?:{_DAY}(?:{_BETWEEN})?(?:de )?{_MONTH}|{_MONTH}(?:{_BETWEEN})?{_DAY}){_BETWEEN}(?:de )?(\d{{2,4}})")
_DATE_IN_TEXT = re.compile(rf"(?<!\w)(?:{_NUMBERS.pattern}|{_WORDS.pattern}|\d{{8}})(?!\w)")


def plain(text: str) -> str:
    """Text as it is compared: without accents and case, `ß` as `ss`, letters of other shapes and signs as letters.

    >>> plain("Ángel Größl-Đurić")
    'angel grossl-duric'
    """
    # Taken apart before the case goes too: some signs hold capitals that show only then (㍱ is hPa).
    folded = unicodedata.normalize("NFKD", unicodedata.normalize("NFKD", text).translate(_UNDECOMPOSED).casefold())
    return "".join(letter for letter in folded if not unicodedata.combining(letter))


_UNDECOMPOSED = str.maketrans({"ø": "o", "Ø": "O", "đ": "d", "Đ": "D", "ł": "l", "Ł": "L", "ı": "i", "æ": "ae", "Æ": "Ae"})


def words_of(text: str) -> list[str]:
    """The words of a text as they are compared; a number keeps its digits together.

    >>> words_of("Anna-Lena O’Hara, H 20-17")
    ['anna', 'lena', 'o', 'hara', 'h', '20', '17']
    """
    return re.findall(r"[^\W_]+", plain(text))


def asked(text: str) -> list[list[str]]:
    """What a text may ask for, each as words that all have to be found; a number written in groups also as one.

    >>> asked("0 660 12-34")
    [['0', '660', '12', '34'], ['6601234']]
    """
    words = words_of(text)
    together = "".join(words).lstrip("0")
    return [words, [together]] if len(words) > 1 and together.isdigit() else [words]


def terms(texts: Iterable[str], numbers: Iterable[str]) -> set[str]:
    """What an index holds, so that the beginning of a term is any part of a word; of `numbers` also the digits alone."""
    words = {word for text in texts for word in words_of(text)}
    for number in numbers:
        together = "".join(words_of(number))
        words |= {together, *words_of(number), re.sub(r"\D", "", number)}
    return {word[start:] for word in words for start in range(max(1, len(word) - SHORTEST_PART + 1)) if word}


def dates_in(text: str, today: date) -> set[date]:
    """The dates that a text may mean: 14.3.1952, 14/3/52, 1952-03-14, 14 March 1952, March 14th, 1952. Empty for none.

    Months by name in any language of this program. Where day and month can be told either way round, both are given; two
    digits are a year that is not to come.

    >>> sorted(map(str, dates_in("3/4/52", date(2027, 1, 1))))
    ['1952-03-04', '1952-04-03']
    """
    return {day for y, m, d in _orders(plain(text.strip())) if (day := _date(y, m, d, today))}


def date_beside(text: str, today: date) -> tuple[list[str], set[date]]:
    """A date that stands among other words, as those words and what it may mean; no date where there is none.

    >>> date_beside("Größl, 14.3.52", date(2027, 1, 1))
    (['grossl'], {datetime.date(1952, 3, 14)})
    """
    for found in _DATE_IN_TEXT.finditer(plain(text)):
        if born := dates_in(found[0], today):
            return words_of(found.string[: found.start()] + " " + found.string[found.end() :]), born
    return [], set()


@cache
def _months() -> dict[str, int]:
    return {
        plain(name).rstrip("."): n
        for language in LANGUAGES
        for width in ("wide", "abbreviated")
        for context in ("format", "stand-alone")
        for n, name in get_month_names(width, context, language).items()
    }


def _orders(text: str) -> Iterator[tuple[str, int, int]]:
    if found := _NUMBERS.fullmatch(text):
        first, second, third = found.groups()
        if len(first) == 4:
            yield first, int(second), int(third[:2])
        else:
            yield third, int(second), int(first)
            yield third, int(first), int(second)
    elif found := _WORDS.fullmatch(text):
        month = _months().get(found[2] or found[3])
        if month:
            yield found[5], month, int(found[1] or found[4])
    elif re.fullmatch(r"\d{8}", text):
        yield text[4:], int(text[2:4]), int(text[:2])
        yield text[:4], int(text[4:6]), int(text[6:])


def _date(year: str, month: int, day: int, today: date) -> date | None:
    full = int(year)
    if len(year) == 2:
        full += 1900 if 2000 + full > today.year else 2000
    try:
        return date(full, month, day)
    except ValueError:
        return None
