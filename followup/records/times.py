"""Times as the database keeps them: UTC text of one fixed width, so that text order is time order."""

from datetime import UTC, datetime

FIRST_YEAR, LAST_YEAR = 1900, 2200
_FORMAT = "%Y-%m-%dT%H:%M:%S.%fZ"
_WIDTH = len("2027-03-05T08:00:00.000000Z")


def to_text(at: datetime) -> str:
    """The time as it is kept. Raises ValueError without an offset, or outside the years that have fixed width here."""
    if at.tzinfo is None:
        raise ValueError("a time needs its offset, for example 2027-03-05T08:00:00Z")
    if keeps(at):
        return at.astimezone(UTC).isoformat(timespec="microseconds").replace("+00:00", "Z")
    raise ValueError(f"the year {at.year} cannot be kept; accepted is {FIRST_YEAR} to {LAST_YEAR}")


def keeps(at: datetime) -> bool:
    """Whether a time with its offset lies in the years that the database keeps, also in UTC (whose year 1 or 9999 overflows)."""
    return FIRST_YEAR <= at.year <= LAST_YEAR and FIRST_YEAR <= at.astimezone(UTC).year <= LAST_YEAR


def from_text(text: str) -> datetime:
    """A time as it is kept. Raises ValueError for what is none."""
    if len(text) == _WIDTH and text[10] == "T" and text.endswith("Z"):  # as all are since there are bounds; the rest is slow
        return datetime.fromisoformat(text)
    return datetime.strptime(text, _FORMAT).replace(tzinfo=UTC)
