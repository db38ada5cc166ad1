"""No correction lifts the caution of gas where nobody was asked: that is done by *no gas seen*, or by a note that says that no
gas was left, and both by whoever may.
"""

from collections.abc import Iterator

from followup.care.desk import Desk
from followup.care.errors import CareError, Refused
from followup.care.reading.eye import Eye
from followup.care.reading.person import both_eyes


def under_caution(desk: Desk, patient_id: str) -> set[str]:
    """The operations whose gas has its caution now: ask before something is put right."""
    return {eye.notes[-1].operation_id for eye in _with_gas(desk, patient_id) if eye.caution(desk.now)}


def keep(desk: Desk, patient_id: str, before: set[str]) -> None:
    """Raises `CareError` where, by what was put right, an older *no gas seen* counts for gas that was under caution, and
    `Refused` where by what is said now there was none, for a person who may not say that no gas is left.
    """
    for eye in _with_gas(desk, patient_id):
        if eye.notes[-1].operation_id in before and eye.no_gas_by(desk.now):
            raise CareError(
                f"by this an older “no gas seen” would count and lift the caution of gas of the {eye.side} eye: take that "
                "back first, on the eye’s page, and record it anew when somebody has looked"
            )
    if not desk.actor.may_lift_caution:
        for eye in both_eyes(desk.store, patient_id, desk.zone):
            if not eye.caution(desk.now) and any(note.operation_id in before for note in eye.notes):
                raise Refused(
                    f"by this the caution of gas of the {eye.side} eye would go: in this clinic a surgeon says that no gas is "
                    "left, and puts this right",
                    "agent",
                )


def _with_gas(desk: Desk, patient_id: str) -> Iterator[Eye]:
    """The patient's eyes whose latest operation left gas."""
    return (eye for eye in both_eyes(desk.store, patient_id, desk.zone) if eye.operated and eye.operation.fades)
