"""Measures of one eye as people type them."""

import math
from typing import Literal

from pydantic import (
    BaseModel,
    ConfigDict,
    ValidationError,
)

from followup.clinical import acuity, pressure
from followup.records.bodies.base import Notes, first_message
from followup.records.bodies.clinic import MeasuresBody

CORRECTIONS: dict[str, str] = {
    "unaided": "unaided",
    "glasses": "own glasses",
    "pinhole": "pinhole",
    "best": "best corrected",
}


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

    def body(self, iop_mmhg: float | None = None) -> MeasuresBody | None:
        """What was measured; None where nothing was entered. Raises ValueError in the user's words.

        `iop_mmhg` is the pressure where a form has read it already.
        """
        seen, pinhole = (acuity.on_chart(said, self.notation).strip() or None for said in (self.acuity, self.pinhole))
        named, notes = self.notation if self.notation not in acuity.CHARTS else "", self.notes.strip()
        instead = (self.finger, self.acuity_not, self.iop_not)
        iop = iop_mmhg if iop_mmhg is not None or not self.iop.strip() else pressure.read(self.iop)
        level, pain = number(self.bubble_percent), number(self.pain)
        if not any(
            value not in (None, (), "") for value in (seen, pinhole, iop, level, pain, self.findings, notes, *instead)
        ):
            return None
        entered = {
            "eye": self.eye,
            "acuity": seen,
            "pinhole": pinhole,
            "notation": (named or None) if seen or pinhole else None,
            "correction": (self.correction or None) if seen else None,
            "finger": self.finger or None,
            "acuity_not": self.acuity_not or None,
            "iop_not": self.iop_not or None,
            "iop_mmhg": iop,
            "instrument": (self.instrument or None) if iop is not None else None,
            "bubble_percent": level,
            "pain": pain,
            "findings": self.findings,
            "notes": notes,
        }
        try:
            return MeasuresBody.model_validate(entered)
        except ValidationError as error:
            raise ValueError(f"{self.eye} eye: {first_message(error)}") from error
