"""What a date, a time or an entry can be, in one place: for forms, for what devices send, and for course files.

A fault is said in the user's words, with what is accepted; None where there is none. Common sense, no source.
"""

import json
from datetime import UTC, date, datetime, timedelta
from typing import Any

from followup.care.errors import translatable
from followup.records.times import LAST_YEAR, keeps

FIRST_BIRTH = date(1900, 1, 1)
FIRST_SURGERY = date(1990, 1, 1)
LAST_SURGERY = date(LAST_YEAR - 20, 12, 31)  # of an invented course, told before it happens
FIRST_EVENT = datetime(1990, 1, 1, tzinfo=UTC)
YEARS_AFTER_SURGERY = 3
FUTURE_TOLERANCE = timedelta(hours=26)  # a phone with the wrong date or zone is kept, a year off is not

LARGEST_INTEGER = 2**53  # what every JSON reader holds exactly
DEEPEST_ENTRY = 8
LONGEST_TEXT = 4000
LONGEST_ENTRY = 20_000


def birth(born_on: date, today: date) -> str | None:
    if born_on > today:
        return f"the date of birth lies in the future: {words(born_on)}"
    return _outside(born_on, FIRST_BIRTH, today, "the date of birth")


def surgery(operated_on: date, today: date) -> str | None:
    if operated_on > today:
        return f"the date of surgery lies in the future: {words(operated_on)}"
    return _outside(operated_on, FIRST_SURGERY, today, "the date of surgery")


def after_surgery(day: date, operated_on: date, today: date, what: str) -> str | None:
    """For visits and the ends of drops: an eye that is still followed later may have them within a year from today."""
    return _outside(day, operated_on, max(_years_after(operated_on, YEARS_AFTER_SURGERY), _years_after(today, 1)), what)


def event(at: datetime, now: datetime) -> str | None:
    """When something happened, by the clinic's clock."""
    if at > now + FUTURE_TOLERANCE:
        return translatable("The time of this entry is still to come. Check the date on the phone.")
    if at < FIRST_EVENT:
        return translatable("The time of this entry is too long ago. Check the date on the phone.")
    return None


def entry(raw: Any) -> str | None:
    """Whether what a device sent can be kept at all: its depth, its numbers, its text. Walks without recursion."""
    waiting = [(raw, 1)]
    while waiting:
        value, depth = waiting.pop()
        if depth > DEEPEST_ENTRY:
            return translatable("This entry is built in a way that the clinic cannot read.")
        if isinstance(value, dict):
            waiting += [(part, depth + 1) for pair in value.items() for part in pair]
        elif isinstance(value, list):
            waiting += [(part, depth + 1) for part in value]
        elif isinstance(value, str) and (fault := text(value)):
            return fault
        elif isinstance(value, int | float) and not -LARGEST_INTEGER <= value <= LARGEST_INTEGER:
            return translatable("This entry holds a number that cannot be.")
    if len(json.dumps(raw)) > LONGEST_ENTRY:
        return translatable("This entry is too long. Write it in parts.")
    return None


def text(value: str) -> str | None:
    """Whether a text can be kept: of a length that somebody writes, and of whole characters."""
    if len(value) > LONGEST_TEXT:
        return translatable("This entry is too long. Write it in parts.")
    try:
        value.encode("utf-8")
    except UnicodeEncodeError:
        return translatable("This entry holds half a character. Write it again without that character.")
    return None


def clock(sent_at: Any) -> datetime | None:
    """What a device says its clock shows; None where that says nothing: no time, no offset, a year that cannot be."""
    if not isinstance(sent_at, str):
        return None
    try:
        told = datetime.fromisoformat(sent_at)
    except ValueError:
        return None
    return told if told.tzinfo is not None and keeps(told) else None


def words(day: date) -> str:
    """A date as it is said in a message."""
    return f"{day.day} {day:%B} {day.year:04}"


def _outside(day: date, first: date, last: date, what: str) -> str | None:
    if first <= day <= last:
        return None
    return f"{what} is {words(day)}; accepted is {words(first)} to {words(last)}, with four digits for the year"


def _years_after(day: date, years: int) -> date:
    year = min(day.year + years, date.max.year)
    try:
        return day.replace(year=year)
    except ValueError:  # 29 February
        return day.replace(year=year, day=28)
