"""Who acts: a member of staff, a patient's device, or the clock."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Actor:
    id: str
    name: str
    role: str  # nurse, surgeon, patient, carer or clock

    @property
    def signature(self) -> str:
        """How the records name this actor."""
        return f"{self.role}:{self.id}"


CLOCK = Actor("clock", "the clock", "clock")
