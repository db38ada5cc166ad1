"""What the body of every entry has: its limits, its faults in plain words, and the clinical fact in it."""

import re
from datetime import datetime
from typing import Annotated, Any, ClassVar

from pydantic import AfterValidator, BaseModel, ConfigDict, ValidationError, ValidationInfo, model_validator

from followup.clinical import facts
from followup.clinical.errors import ClinicalError
from followup.records.times import FIRST_YEAR, LAST_YEAR, keeps

DROP_NAME_LENGTH = 60
VISIT_NAME_LENGTH = 60
ANY_TIME = datetime.fromisoformat("2000-01-01T00:00:00+00:00")
STORED = {"stored": True}  # read with this, a text that was taken when nothing limited it stays readable


def _at_most(length: int) -> AfterValidator:
    def check(value: str, info: ValidationInfo) -> str:
        if len(value) > length and info.context is not STORED:
            raise ValueError(f"write at most {length} characters")
        return value

    return AfterValidator(check)


def kept_time(value: datetime | None) -> datetime | None:
    """A time with its offset in the years that are kept. Raises ValueError in the user's words."""
    if value is not None and value.tzinfo is None:
        raise ValueError("a time needs its offset, for example 2027-03-05T08:00:00Z")
    if value is not None and not keeps(value):
        raise ValueError(f"the year {value.year:04} is not possible; accepted is {FIRST_YEAR} to {LAST_YEAR}")
    return value


Name = Annotated[str, _at_most(VISIT_NAME_LENGTH)]

Word = Annotated[str, _at_most(40)]

Words = Annotated[str, _at_most(1000)]

Notes = Annotated[str, _at_most(2000)]


class Body(BaseModel):
    """What an entry of one kind says: checked and bounded, and never changed afterwards."""

    KIND: ClassVar[str]
    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True, allow_inf_nan=False)

    def fact(self, at: datetime) -> facts.Fact | None:
        """The clinical fact this says, or None where it says none."""
        raise NotImplementedError

    @model_validator(mode="after")
    def _clinically_possible(self, info: ValidationInfo) -> "Body":
        if info.context is STORED:  # whoever reads what was kept asks for its fact
            return self
        try:
            self.fact(ANY_TIME)
        except ClinicalError as error:
            raise ValueError(str(error)) from error
        return self


class Illegible(Body):
    """What is kept under a kind and cannot be for it, as it stands there: people still see it and may withdraw it."""

    KIND = "illegible"
    kept: dict[str, Any]

    def fact(self, at: datetime) -> None:
        return None


_PLAIN = {"string_pattern_mismatch": "it is not written as it has to be"}
"""What a library says by patterns and kinds, for people."""


def first_message(error: ValidationError) -> str:
    """The first fault of a validation in plain words, with its field in front."""
    first = error.errors()[0]
    message = _PLAIN.get(first["type"]) or re.sub(r"^Value error, ", "", first["msg"])
    place = ".".join(str(step) for step in first["loc"])
    return f"{place}: {message}" if place else message
