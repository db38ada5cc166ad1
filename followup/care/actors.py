"""Who acts: a member of staff, a patient's device, or the clock."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Actor:
    id: str
    name: str
    role: str  # nurse, surgeon, patient, carer or clock
    trusted: bool = False  # a nurse whose clinic lets nurses record that no gas was seen

    @property
    def signature(self) -> str:
        """How the records name this actor."""
        return f"{self.role}:{self.id}"

    @property
    def may_lift_caution(self) -> bool:
        """Whether this actor may record that no gas is left, which lifts the caution against flying and nitrous oxide."""
        return self.role == "surgeon" or (self.role == "nurse" and self.trusted)


def barred(actor: Actor, kind: str) -> str | None:
    """Why this actor may not record an event of that kind, or None."""
    if kind == "no-gas-seen" and not actor.may_lift_caution:
        return "in this clinic a surgeon records that no gas was seen, since it lifts a caution"
    return None


CLOCK = Actor("clock", "the clock", "clock")
