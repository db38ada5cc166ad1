"""On which days the clinic sees people, and with how many places: from its settings."""

from datetime import date

from followup.clinical import schedule
from followup.config import Clinic
from followup.protocols import closures


def open_days(clinic: Clinic, first: date, last: date) -> dict[date, int]:
    """Places on each open clinic day from first to last."""
    closed = closures.closed_days(clinic.country, clinic.subdivision, first, last, clinic.closed)
    return schedule.clinic_days(first, last, closures.places_by_weekday(clinic.places), closed)
