"""How staff look somebody up: parts of a name, a number, a phone number, a birth date in any usual writing."""

import calendar
import re
import unicodedata
from collections.abc import Iterable, Iterator
from datetime import date

SHORTEST_PART = 2
_MONTHS = {
    name.casefold(): n for names in (calendar.month_name, calendar.month_abbr) for n, name in enumerate(names) if name
}
_NUMBERS = re.compile(r"^(\d{1,4})[./\- ]+(\d{1,2})[./\- ]+(\d{2,4})$")
_WORDS = re.compile(r"^(?:(\d{1,2})[. ]*([a-z]+)|([a-z]+)[. ]*(\d{1,2}))[., ]+(\d{2,4})$")


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
    """The dates that a text may mean: 14.3.1952, 14/3/52, 1952-03-14, 14 March 1952, March 14, 1952. Empty for none.

    Where day and month can be told either way round, both are given; two digits are a year that is not to come.

    >>> sorted(map(str, dates_in("3/4/52", date(2027, 1, 1))))
    ['1952-03-04', '1952-04-03']
    """
    return {day for y, m, d in _orders(plain(text.strip())) if (day := _date(y, m, d, today))}


def _orders(text: str) -> Iterator[tuple[str, int, int]]:
    if found := _NUMBERS.match(text):
        first, second, third = found.groups()
        if len(first) == 4:
            yield first, int(second), int(third[:2])
        else:
            yield third, int(second), int(first)
            yield third, int(first), int(second)
    elif found := _WORDS.match(text):
        month = _MONTHS.get(found[2] or found[3])
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
