"""What staff enter."""

from datetime import date, datetime
from typing import Annotated, Literal

from pydantic import Field, field_validator, model_validator

from followup.clinical import acuity, facts, pressure
from followup.records.bodies.base import Body, Name, Notes, Word, Words

BARRIERS: dict[str, str] = {  # common practice, no source
    "forgot": "forgot",
    "not-told": "did not know of it, or of another time",
    "unwell": "was unwell, or in hospital",
    "way": "no way to come, or nobody to come along",
    "posture": "could not travel in the head position",
    "duties": "work, or somebody to look after",
    "cost": "what it costs",
    "afraid": "was afraid",
    "left": "came, and left before being seen",
    "not-known": "not known yet",
    "other": "something else",
}
"""What stood in the way of somebody who did not come."""


class MeasuresBody(Body):
    """One eye at a visit. `acuity` and `pinhole` as written on the chart; `bubble_percent` is the height of the meniscus."""

    KIND = "measures"
    eye: Literal["right", "left"]
    acuity: Word | None = None
    notation: Literal["snellen", "decimal", "logmar", "letters"] | None = None
    correction: Word | None = None
    iop_mmhg: Annotated[float, Field(ge=pressure.LOWEST_MMHG, le=pressure.HIGHEST_MMHG)] | None = None
    instrument: Word | None = None
    bubble_percent: Annotated[float, Field(ge=0, le=100)] | None = None
    pain: Annotated[int, Field(ge=0, le=10)] | None = None
    findings: tuple[str, ...] = ()
    notes: Notes = ""
    pinhole: Word | None = None
    finger: Literal["soft", "normal", "hard"] | None = None
    acuity_not: Literal["unable", "refused"] | None = None
    iop_not: Literal["unable", "refused"] | None = None

    @model_validator(mode="after")
    def _said_once(self) -> "MeasuresBody":
        if self.acuity_not and (self.acuity or self.pinhole):
            raise ValueError(f"an acuity is written, and it says {self.acuity_not}: take one away")
        if self.iop_not and (self.finger or self.iop_mmhg is not None):
            raise ValueError(f"a pressure is written, and it says {self.iop_not}: take one away")
        if self.pinhole and self.acuity and self.correction == "pinhole":
            raise ValueError("two acuities with the pinhole are written: say with what the first was read")
        return self

    def fact(self, at: datetime) -> facts.Measures:
        return facts.Measures(
            at=at,
            eye=self.eye,
            acuity=acuity.read(self.acuity, self.notation) if self.acuity else None,
            correction=self.correction,
            iop_mmhg=self.iop_mmhg,
            instrument=self.instrument,
            bubble_percent=self.bubble_percent,
            pain=self.pain,
            findings=frozenset(self.findings),
            pinhole=acuity.read(self.pinhole, self.notation) if self.pinhole else None,
            finger=self.finger,
        )


class VisitBody(Body):
    """About a planned visit, known by its identity; older entries and course files have only its name."""

    visit: Name
    visit_id: Word | None = None

    def fact(self, at: datetime) -> facts.Fact | None:
        return None


class ArrivedBody(VisitBody):
    """The patient is in the clinic for the visit."""

    KIND = "arrived"


class SeenBody(VisitBody):
    """The visit took place."""

    KIND = "seen"

    def fact(self, at: datetime) -> facts.Seen:
        return facts.Seen(at, self.visit_id or self.visit)


class DidNotComeBody(Body):
    """Nobody came for a visit on the day it was planned for, `on`, and what stood in the way."""

    KIND = "did-not-come"
    visit: Name
    visit_id: Word
    on: date
    barrier: str
    words: Words = ""

    @field_validator("barrier")
    @classmethod
    def _known(cls, value: str) -> str:
        if value not in BARRIERS:
            raise ValueError("choose what stood in the way")
        return value

    def fact(self, at: datetime) -> None:
        return None


class HeardBody(Body):
    """The patient was reached on the phone."""

    KIND = "heard"
    words: Notes = ""

    def fact(self, at: datetime) -> facts.Heard:
        return facts.Heard(at)


class NoGasSeenBody(Body):
    """A clinician looked and saw no gas."""

    KIND = "no-gas-seen"

    def fact(self, at: datetime) -> facts.NoGasSeen:
        return facts.NoGasSeen(at)


class TamponadeRemovedBody(Body):
    """Oil or gas was taken out."""

    KIND = "tamponade-removed"

    def fact(self, at: datetime) -> facts.TamponadeRemoved:
        return facts.TamponadeRemoved(at)
