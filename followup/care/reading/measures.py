"""Measures of one eye: as they are kept, and as people type them."""

import math
from datetime import datetime
from typing import Annotated, Literal

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    ValidationError,
    model_validator,
)

from followup.care.reading.bodies import Body, Notes, Word, first_message
from followup.clinical import acuity, course, pressure

CORRECTIONS: dict[str, str] = {
    "unaided": "unaided",
    "glasses": "own glasses",
    "pinhole": "pinhole",
    "best": "best corrected",
}


class MeasuresBody(Body):
    """One eye at a visit. `acuity` as written on the chart; `bubble_percent` is the height of the meniscus."""

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

    def fact(self, at: datetime) -> course.Measures:
        return course.Measures(
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


NOT_MEASURED: dict[str, str] = {"unable": "unable", "refused": "refused"}


def number(text: str) -> float | None:
    """A number as people type it: with a comma or a point, with or without %. None for nothing. Raises ValueError."""
    plain = text.strip().replace(",", ".").removesuffix("%").strip()
    if not plain:
        return None
    try:
        typed = float(plain)
    except ValueError:
        typed = math.nan
    if math.isfinite(typed):
        return typed
    raise ValueError(f"“{text}” is not a number")


class EnteredMeasures(BaseModel):
    """One eye as it was typed on the entry screen: every field is text, and may be empty."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    eye: Literal["right", "left"]
    acuity: str = ""
    notation: str = ""
    correction: str = ""
    iop: str = ""
    instrument: str = ""
    bubble_percent: str = ""
    pain: str = ""
    findings: tuple[str, ...] = ()
    notes: Notes = ""
    pinhole: str = ""
    finger: str = ""
    acuity_not: str = ""
    iop_not: str = ""

    def body(self) -> MeasuresBody | None:
        """What was measured; None where nothing was entered. Raises ValueError in the user's words."""
        iop = pressure.read(self.iop) if self.iop.strip() else None
        pain = number(self.pain)
        entered = {
            "acuity": acuity.on_chart(self.acuity, self.notation).strip() or None,
            "pinhole": acuity.on_chart(self.pinhole, self.notation).strip() or None,
            "finger": self.finger or None,
            "acuity_not": self.acuity_not or None,
            "iop_not": self.iop_not or None,
            "iop_mmhg": iop,
            "bubble_percent": number(self.bubble_percent),
            "pain": pain,
            "findings": self.findings,
            "notes": self.notes.strip(),
        }
        if not any(value not in (None, (), "") for value in entered.values()):
            return None
        named = self.notation if self.notation not in acuity.CHARTS else ""
        entered["notation"] = (named or None) if entered["acuity"] or entered["pinhole"] else None
        entered["correction"] = (self.correction or None) if entered["acuity"] else None
        entered["instrument"] = (self.instrument or None) if iop is not None else None
        try:
            return MeasuresBody.model_validate({"eye": self.eye, **entered})
        except ValidationError as error:
            raise ValueError(f"{self.eye} eye: {first_message(error)}") from error
