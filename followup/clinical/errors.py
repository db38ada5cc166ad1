"""What the clinical core says when it cannot take a value. Every message is fit for a person."""

from collections.abc import Collection

from followup.errors import FollowupError


class ClinicalError(FollowupError, ValueError):
    """A value the core will not work with; `str(error)` says what was wrong and what is accepted."""


class Unreadable(ClinicalError):
    """The text is in no notation we know."""


class Ambiguous(ClinicalError):
    """The text has more than one reading; the message names them all."""


class OutOfRange(ClinicalError):
    """The number is readable, but no eye can have it or it lies outside the model's range."""


class Unknown(ClinicalError):
    """A name (agent, posture, lens, instrument) that is not one of the accepted ones."""


def one_of(what: str, value: str, accepted: Collection[str]) -> str:
    """`value` if it is accepted; raises `Unknown` naming the accepted ones otherwise."""
    if value not in accepted:
        raise Unknown(f"“{value}” is not a known {what}; accepted are: {', '.join(accepted)}")
    return value


def within(what: str, value: float, low: float, high: float, unit: str = "") -> float:
    """`value` if low <= value <= high; raises `OutOfRange` naming the range otherwise."""
    if not low <= value <= high:
        raise OutOfRange(f"{what} {value:g}{unit} is out of range; accepted is {low:g} to {high:g}{unit}")
    return value
