"""Days on which the clinic sees nobody: public holidays of its country, and its own closures."""

from collections.abc import Mapping, Sequence
from datetime import date
from functools import lru_cache

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def closed_days(country: str, subdivision: str, first: date, last: date, own: Sequence[str] = ()) -> set[date]:
    """Public holidays between two dates (none without a country) and the clinic's own closed dates (ISO)."""
    closed = {date.fromisoformat(day) for day in own}
    if country:
        closed |= _public(country, subdivision, first.year, last.year)
    return {day for day in closed if first <= day <= last}


@lru_cache
def _public(country: str, subdivision: str, first_year: int, last_year: int) -> frozenset[date]:
    """Public holidays of these years; to work them out takes longer than a page may."""
    import holidays  # slow to load, and most commands need none

    years = range(first_year, last_year + 1)
    return frozenset(holidays.country_holidays(country, subdiv=subdivision or None, years=years))


def places_by_weekday(places: Mapping[str, int]) -> dict[int, int]:
    """Places by weekday number (0 is Monday) from names such as `mon`."""
    return {WEEKDAYS.index(name): seats for name, seats in places.items()}


def check_country(country: str) -> None:
    """Raise ValueError unless its public holidays are known ("" for none)."""
    if country:
        import holidays

        if country not in holidays.list_supported_countries():
            raise ValueError(f"“{country}” is not a known country; write its two letters (ISO 3166), for example AT")


def check_subdivision(country: str, subdivision: str) -> None:
    """Raise ValueError, saying which are accepted, unless it is a part of the country with holidays of its own."""
    if subdivision:
        import holidays

        try:
            holidays.country_holidays(country, subdiv=subdivision)
        except NotImplementedError:
            accepted = ", ".join(holidays.list_supported_countries().get(country, [])) or "none without a country"
            raise ValueError(f"“{subdivision}” is not a part of “{country}”; accepted are: {accepted}") from None
