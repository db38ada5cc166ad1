"""Measures of one eye as people type them."""

import math
from typing import Literal

from pydantic import (
    BaseModel,
    ConfigDict,
    ValidationError,
)

from followup.clinical import pressure
from followup.records.bodies.base import Notes, first_message
from followup.records.bodies.clinic import MeasuresBody

CORRECTIONS: dict[str, str] = {
    "unaided": "unaided",
    "glasses": "own glasses",
    "pinhole": "pinhole",
    "best": "best corrected",
}


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

    def body(self) -> MeasuresBody | None:
        """What was measured; None where nothing was entered. Raises ValueError in the user's words."""
        iop = pressure.read(self.iop) if self.iop.strip() else None
        pain = number(self.pain)
        entered = {
            "acuity": self.acuity.strip() or None,
            "iop_mmhg": iop,
            "bubble_percent": number(self.bubble_percent),
            "pain": pain,
            "findings": self.findings,
            "notes": self.notes.strip(),
        }
        if not any(value not in (None, (), "") for value in entered.values()):
            return None
        entered["notation"] = (self.notation or None) if entered["acuity"] else None
        entered["correction"] = (self.correction or None) if entered["acuity"] else None
        entered["instrument"] = (self.instrument or None) if iop is not None else None
        try:
            return MeasuresBody.model_validate({"eye": self.eye, **entered})
        except ValidationError as error:
            raise ValueError(f"{self.eye} eye: {first_message(error)}") from error
