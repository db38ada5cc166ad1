"""What a person is told when something cannot be done. The web turns each into a status once."""

from typing import Any


def translatable(message: str) -> str:
    """Marks a message for the catalogue of the patient's languages; the message itself stays English here."""
    return message


class CareError(Exception):
    """Not possible as asked; `str(error)` is fit for the person, `field` names the entry it belongs to.

    `message` may hold places such as {left}, filled from `values`, so that it can be said in other languages.
    """

    def __init__(self, message: str, field: str | None = None, **values: Any) -> None:
        super().__init__(message.format_map(values) if values else message)
        self.message = message
        self.values = values
        self.field = field


class NotFound(CareError):
    """There is no such thing, or it is not for this person to see."""


class Conflict(CareError):
    """Somebody else was faster, or the state does not allow it any more."""


class Refused(CareError):
    """Wrong code, wrong password, or locked for now."""
