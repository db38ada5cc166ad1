"""The one tree of errors that people read. The command line answers each with exit code 2;
pages and interfaces map those of care to a status, and take any other for a fault of their own."""

from typing import Any


class FollowupError(Exception):
    """Not possible as asked; `str(error)` is fit for the person, `field` names the entry it belongs to.

    `message` may hold places such as {left}, filled from `values`, so that it can be said in other languages.
    """

    def __init__(self, message: str, field: str | None = None, **values: Any) -> None:
        super().__init__(message.format_map(values) if values else message)
        self.message = message
        self.values = values
        self.field = field
