"""What a person is told when something cannot be done."""

from followup.errors import FollowupError


def translatable(message: str) -> str:
    """Marks a message for the catalogue of the patient's languages; the message itself stays English here."""
    return message


class CareError(FollowupError):
    """What somebody wants to do cannot be done, or not so."""


class NotFound(CareError):
    """There is no such thing, or it is not for this person to see."""


class Conflict(CareError):
    """Somebody else was faster, or the state does not allow it any more."""


class Refused(CareError):
    """Wrong code, wrong password, or locked for now."""
