"""What an entry of each kind says, checked and bounded."""

import re
from datetime import date, datetime
from typing import Annotated, Literal

from pydantic import (
    AfterValidator,
    AliasChoices,
    BaseModel,
    ConfigDict,
    Field,
    ValidationError,
    ValidationInfo,
    field_validator,
    model_validator,
)

from followup.clinical import course, posture
from followup.clinical.errors import ClinicalError
from followup.records.times import FIRST_YEAR, LAST_YEAR, keeps

Trend = Literal["better", "same", "worse"]

Question = Literal[
    "pain",
    "vision",
    "redness",
    "discharge",
    "curtain",
    "flashes",
    "floaters",
    "vomiting",
    "fever",
    "injury",
    "other_eye",
]

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
    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True, allow_inf_nan=False)

    def fact(self, at: datetime) -> course.Fact | None:
        """The clinical fact this says, or None where it says none."""
        raise NotImplementedError

    @model_validator(mode="after")
    def _clinically_possible(self) -> "Body":
        try:
            self.fact(ANY_TIME)
        except ClinicalError as error:
            raise ValueError(str(error)) from error
        return self


class SymptomsBody(Body):
    """The answers of one symptom check; what was not asked stays out. `cannot_tell` names questions answered so."""

    pain: Annotated[int, Field(ge=0, le=10)] | None = None
    vision: Trend | None = None
    redness: Trend | None = None
    discharge: bool | None = None
    curtain: bool | None = None
    flashes: Trend | None = None
    floaters: Trend | None = None
    vomiting: bool | None = None
    fever: bool | None = None
    injury: bool | None = None
    other_eye: Trend | None = None
    cannot_tell: tuple[Question, ...] = ()
    words: Words = ""

    def fact(self, at: datetime) -> course.Symptoms:
        return course.Symptoms(at=at, **self.model_dump(exclude={"cannot_tell"}))


class PostureBody(Body):
    """A stretch in a head position; `from` and `to` as on the phone's clock, `to` missing while it runs."""

    position: str
    start: Annotated[datetime, Field(validation_alias=AliasChoices("from", "start"), serialization_alias="from")]
    end: Annotated[datetime | None, Field(validation_alias=AliasChoices("to", "end"), serialization_alias="to")] = None

    _kept = field_validator("start", "end")(kept_time)

    def fact(self, at: datetime) -> course.Postured:
        return course.Postured(at, posture.Block(self.position, self.start, self.end))


class BubbleSeenBody(Body):
    """The share of the view below the line, in percent, as the patient sees it."""

    percent: Annotated[float, Field(ge=0, le=100)]

    def fact(self, at: datetime) -> course.BubbleSeen:
        return course.BubbleSeen(at, self.percent)


class JourneyBody(Body):
    """A journey planned or made: heights in metres, in order."""

    heights_metres: Annotated[tuple[float, ...], Field(min_length=1, max_length=50)]

    def fact(self, at: datetime) -> course.Journey:
        return course.Journey(at, self.heights_metres)


class AnaestheticBody(Body):
    """An anaesthetic or sedation that is planned or was given."""

    words: Words = ""

    def fact(self, at: datetime) -> course.Anaesthetic:
        return course.Anaesthetic(at, self.words)


class DropsBody(Body):
    """A drop taken, by the name the clinic entered."""

    name: Annotated[str, Field(max_length=DROP_NAME_LENGTH)]

    def fact(self, at: datetime) -> course.Heard:
        return course.Heard(at)


class VisitRequestBody(Body):
    """The patient asks for another time for a visit."""

    visit: Name
    words: Words = ""

    def fact(self, at: datetime) -> course.Heard:
        return course.Heard(at)


class HeardBody(Body):
    """The patient was reached on the phone."""

    words: Notes = ""

    def fact(self, at: datetime) -> course.Heard:
        return course.Heard(at)


class ArrivedBody(Body):
    """The patient is in the clinic for a planned visit, known by its identity; older entries have only its name."""

    visit: Name
    visit_id: Word | None = None

    def fact(self, at: datetime) -> None:
        return None


class SeenBody(Body):
    """A planned visit took place, known by its identity; older entries and course files have only its name."""

    visit: Name
    visit_id: Word | None = None

    def fact(self, at: datetime) -> course.Seen:
        return course.Seen(at, self.visit_id or self.visit)


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


class DidNotComeBody(Body):
    """Nobody came for a visit on the day it was planned for, `on`, and what stood in the way."""

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


class NoGasSeenBody(Body):
    """A clinician looked and saw no gas."""

    def fact(self, at: datetime) -> course.NoGasSeen:
        return course.NoGasSeen(at)


class TamponadeRemovedBody(Body):
    """Oil or gas was taken out."""

    def fact(self, at: datetime) -> course.TamponadeRemoved:
        return course.TamponadeRemoved(at)


class WithdrawalBody(Body):
    """An earlier event was entered by mistake; `corrects` says which."""

    reason: Words = ""

    def fact(self, at: datetime) -> None:
        return None


def first_message(error: ValidationError) -> str:
    """The first fault of a validation in plain words, with its field in front."""
    first = error.errors()[0]
    message = re.sub(r"^Value error, ", "", first["msg"])
    place = ".".join(str(step) for step in first["loc"])
    return f"{place}: {message}" if place else message
