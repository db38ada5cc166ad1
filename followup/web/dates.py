"""Dates and times in words, as Babel writes them; a pattern is read once for each language, since pages write hundreds."""

import re
from collections.abc import Callable
from datetime import date, datetime
from functools import lru_cache
from typing import Any

from babel import Locale

_WRITTEN = {
    "EEE": "{1}",
    "MMM": "{2}",
    "d": "{0.day}",
    "y": "{0.year}",
    "HH": "{0.hour:02}",
    "mm": "{0.minute:02}",
}
_PART = re.compile("[A-Za-z]+")


def written(value: date | datetime, pattern: str, locale: Locale) -> str:
    """A date, or a time where it stands, by a pattern of Unicode's locale data of these parts: EEE, d, MMM, y, HH, mm."""
    return _writer(pattern, locale)(value)


@lru_cache
def _writer(pattern: str, locale: Locale) -> Callable[[Any], str]:
    shape = _PART.sub(lambda part: _WRITTEN[part[0]], pattern).format
    days, months = locale.days["format"]["abbreviated"], locale.months["format"]["abbreviated"]
    return lambda value: shape(value, days[value.weekday()], months[value.month])
