"""On which days the clinic sees people, with how many places, and how many of them are taken."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from followup.care import bounds
from followup.clinical import schedule
from followup.config import Clinic
from followup.protocols import closures
from followup.records import Store, visits

AHEAD = timedelta(days=366 * bounds.YEARS_AFTER_SURGERY)  # as long as visits may be


@dataclass(frozen=True)
class Openings:
    """Every open clinic day from `first` to `last` with its places, and how many visits are booked on each day."""

    first: date
    last: date
    places: dict[date, int]
    booked: dict[date, int]
    closed: dict[date, str]

    def taken(self, day: date) -> int:
        return self.booked.get(day, 0)

    def free(self) -> dict[date, int]:
        """Places that are left on each open day; fewer than none where more were booked than there are."""
        return {day: places - self.taken(day) for day, places in self.places.items()}

    def open_between(self, first: date, last: date) -> list[date]:
        return [day for day in sorted(self.places) if first <= day <= last]

    def doubt(self, day: date) -> str | None:
        """What speaks against one more visit on a day; None where it is open and has a place."""
        if not self.first <= day <= self.last:
            return None
        said = f"{day:%A} {bounds.words(day)}"
        if day not in self.places:
            why = f" ({self.closed[day]})" if self.closed.get(day) else ""
            return f"the clinic is closed on {said}{why}"
        if self.taken(day) >= self.places[day]:
            return f"{said} is full: {self.taken(day)} of {self.places[day]} places are booked"
        return None


def openings(store: Store, clinic: Clinic, first: date, last: date) -> Openings:
    """The clinic's days by its settings and by what was closed since."""
    closed = {c.day: c.why for c in visits.closures(store, first, last)}
    return Openings(first, last, open_days(clinic, first, last, store), visits.booked_counts(store, first, last), closed)


def ahead(store: Store, clinic: Clinic, today: date) -> Openings:
    """From today on, for as long as visits are planned."""
    return openings(store, clinic, today, today + AHEAD)


def open_days(clinic: Clinic, first: date, last: date, store: Store) -> dict[date, int]:
    """Places on each open clinic day from first to last."""
    return schedule.clinic_days(first, last, closures.places_by_weekday(clinic.places), _closed(clinic, first, last, store))


def not_open(clinic: Clinic, days: Sequence[date], store: Store) -> list[date]:
    """Those of these days, which are in order, on which the clinic sees nobody."""
    closed = _closed(clinic, days[0], days[-1], store) if days else set()
    places = closures.places_by_weekday(clinic.places)
    return [day for day in days if day in closed or not places.get(day.weekday())]


def _closed(clinic: Clinic, first: date, last: date, store: Store) -> set[date]:
    closed = closures.closed_days(clinic.country, clinic.subdivision, first, last, clinic.closed)
    return closed | {c.day for c in visits.closures(store, first, last)}
