"""Times as the database keeps them: UTC text of one fixed width, so that text order is time order."""

from datetime import UTC, datetime

_FORMAT = "%Y-%m-%dT%H:%M:%S.%fZ"


def to_text(at: datetime) -> str:
    return at.astimezone(UTC).strftime(_FORMAT)


def from_text(text: str) -> datetime:
    return datetime.strptime(text, _FORMAT).replace(tzinfo=UTC)
