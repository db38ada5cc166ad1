"""What a person is told when something cannot be done. The web turns each into a status once."""


class CareError(Exception):
    """Not possible as asked; `str(error)` is fit for the person, `field` names the entry it belongs to."""

    def __init__(self, message: str, field: str | None = None) -> None:
        super().__init__(message)
        self.field = field


class NotFound(CareError):
    """There is no such thing, or it is not for this person to see."""


class Conflict(CareError):
    """Somebody else was faster, or the state does not allow it any more."""


class Refused(CareError):
    """Wrong code, wrong password, or locked for now."""
