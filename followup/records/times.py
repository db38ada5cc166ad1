"""Times as the database keeps them: UTC text of one fixed width, so that text order is time order."""

from datetime import UTC, datetime

FIRST_YEAR, LAST_YEAR = 1900, 2200
_LENGTH = len("2027-03-05T08:00:00.000000Z")


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
    """The time that is kept so. Raises ValueError for any other text: rows from before times had bounds may hold one."""
    if len(text) == _LENGTH and text[4] == text[7] == "-" and text[10] == "T" and text[13] == ":" and text[-1] == "Z":
        return datetime.fromisoformat(text)
    raise ValueError("a time that is not kept as times are")
