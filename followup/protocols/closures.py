"""Days on which the clinic sees nobody: public holidays of its country, and its own closures."""

from collections.abc import Mapping, Sequence
from datetime import date

import holidays

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def closed_days(country: str, subdivision: str, first: date, last: date, own: Sequence[str] = ()) -> set[date]:
    """Public holidays between two dates (none without a country) and the clinic's own closed dates (ISO)."""
    closed = {date.fromisoformat(day) for day in own}
    if country:
        years = range(first.year, last.year + 1)
        closed |= set(holidays.country_holidays(country, subdiv=subdivision or None, years=years))
    return {day for day in closed if first <= day <= last}


def places_by_weekday(places: Mapping[str, int]) -> dict[int, int]:
    """Places by weekday number (0 is Monday) from names such as `mon`."""
    return {WEEKDAYS.index(name): seats for name, seats in places.items()}
