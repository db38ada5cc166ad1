"""The kinds of event, their bodies, and their translation into the clinical core's facts.

The same models check what a phone sends, what a nurse enters, and the facts of a course file.
"""

import math
import re
from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Annotated, Any, Literal

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

from followup.care import bounds
from followup.clinical import acuity, course, posture, pressure
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
CORRECTIONS: dict[str, str] = {
    "unaided": "unaided",
    "glasses": "own glasses",
    "pinhole": "pinhole",
    "best": "best corrected",
}
DROP_NAME_LENGTH = 60
VISIT_NAME_LENGTH = 60
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


class _Body(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, populate_by_name=True, allow_inf_nan=False)

    def fact(self, at: datetime) -> course.Fact | None:
        """The clinical fact this says, or None where it says none."""
        raise NotImplementedError

    @model_validator(mode="after")
    def _clinically_possible(self) -> "_Body":
        try:
            self.fact(_ANY_TIME)
        except ClinicalError as error:
            raise ValueError(str(error)) from error
        return self


class MeasuresBody(_Body):
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
        )


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


class SymptomsBody(_Body):
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


class PostureBody(_Body):
    """A stretch in a head position; `from` and `to` as on the phone's clock, `to` missing while it runs."""

    position: str
    start: Annotated[datetime, Field(validation_alias=AliasChoices("from", "start"), serialization_alias="from")]
    end: Annotated[datetime | None, Field(validation_alias=AliasChoices("to", "end"), serialization_alias="to")] = None

    _kept = field_validator("start", "end")(kept_time)

    def fact(self, at: datetime) -> course.Postured:
        return course.Postured(at, posture.Block(self.position, self.start, self.end))


class BubbleSeenBody(_Body):
    """The share of the view below the line, in percent, as the patient sees it."""

    percent: Annotated[float, Field(ge=0, le=100)]

    def fact(self, at: datetime) -> course.BubbleSeen:
        return course.BubbleSeen(at, self.percent)


class JourneyBody(_Body):
    """A journey planned or made: heights in metres, in order."""

    heights_metres: Annotated[tuple[float, ...], Field(min_length=1, max_length=50)]

    def fact(self, at: datetime) -> course.Journey:
        return course.Journey(at, self.heights_metres)


class AnaestheticBody(_Body):
    """An anaesthetic or sedation that is planned or was given."""

    words: Words = ""

    def fact(self, at: datetime) -> course.Anaesthetic:
        return course.Anaesthetic(at, self.words)


class DropsBody(_Body):
    """A drop taken, by the name the clinic entered."""

    name: Annotated[str, Field(max_length=DROP_NAME_LENGTH)]

    def fact(self, at: datetime) -> course.Heard:
        return course.Heard(at)


class VisitRequestBody(_Body):
    """The patient asks for another time for a visit."""

    visit: Name
    words: Words = ""

    def fact(self, at: datetime) -> course.Heard:
        return course.Heard(at)


class HeardBody(_Body):
    """The patient was reached on the phone."""

    words: Notes = ""

    def fact(self, at: datetime) -> course.Heard:
        return course.Heard(at)


class ArrivedBody(_Body):
    """The patient is in the clinic for a planned visit, known by its identity; older entries have only its name."""

    visit: Name
    visit_id: Word | None = None

    def fact(self, at: datetime) -> None:
        return None


class SeenBody(_Body):
    """A planned visit took place, known by its identity; older entries and course files have only its name."""

    visit: Name
    visit_id: Word | None = None

    def fact(self, at: datetime) -> course.Seen:
        return course.Seen(at, self.visit_id or self.visit)


class NoGasSeenBody(_Body):
    """A clinician looked and saw no gas."""

    def fact(self, at: datetime) -> course.NoGasSeen:
        return course.NoGasSeen(at)


class TamponadeRemovedBody(_Body):
    """Oil or gas was taken out."""

    def fact(self, at: datetime) -> course.TamponadeRemoved:
        return course.TamponadeRemoved(at)


class WithdrawalBody(_Body):
    """An earlier event was entered by mistake; `corrects` says which."""

    reason: Words = ""

    def fact(self, at: datetime) -> None:
        return None


PATIENT_KINDS: dict[str, type[_Body]] = {
    "symptoms": SymptomsBody,
    "posture": PostureBody,
    "bubble-seen": BubbleSeenBody,
    "journey": JourneyBody,
    "anaesthetic": AnaestheticBody,
    "drops": DropsBody,
    "visit-request": VisitRequestBody,
    "withdrawal": WithdrawalBody,
}
CLINIC_KINDS: dict[str, type[_Body]] = {
    "measures": MeasuresBody,
    "arrived": ArrivedBody,
    "seen": SeenBody,
    "heard": HeardBody,
    "no-gas-seen": NoGasSeenBody,
    "tamponade-removed": TamponadeRemovedBody,
}
KINDS = PATIENT_KINDS | CLINIC_KINDS
_ANY_TIME = datetime.fromisoformat("2000-01-01T00:00:00+00:00")


class SentEvent(BaseModel):
    """One event as a device sends it: made there, never changed afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True)

    id: Annotated[str, Field(pattern=r"^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$")]
    operation: Word
    kind: str
    at: datetime
    offset_minutes: Annotated[int, Field(ge=-840, le=840)]
    sequence: Annotated[int, Field(ge=1, le=bounds.LARGEST_INTEGER)]
    corrects: Word | None = None
    body: dict[str, Any]

    _kept = field_validator("at")(kept_time)


class Envelope(SentEvent):
    """An event from a patient's phone."""

    kind: Literal["symptoms", "posture", "bubble-seen", "journey", "anaesthetic", "drops", "visit-request", "withdrawal"]
    by: Literal["patient", "carer"] = "patient"


class ClinicEnvelope(SentEvent):
    """An event from a clinic device that had no signal; the body of `measures` is an `EnteredMeasures`."""

    kind: Literal["measures", "arrived", "seen", "no-gas-seen"]

    def checked(self) -> _Body:
        """Its body as the records keep it. Raises ValueError in the user's words."""
        if self.kind != "measures":
            return body_of(self.kind, self.body)
        try:
            entered = EnteredMeasures.model_validate(self.body).body()
        except ValidationError as error:
            raise ValueError(first_message(error)) from error
        if entered is None:
            raise ValueError("nothing was measured")
        return entered


def body_of(kind: str, body: Mapping[str, Any]) -> _Body:
    """The checked body of a kind. Raises ValueError in the user's words."""
    if kind not in KINDS:
        raise ValueError(f"“{kind}” is not a known kind of entry; accepted are: {', '.join(KINDS)}")
    try:
        return KINDS[kind].model_validate(body)
    except ValidationError as error:
        raise ValueError(first_message(error)) from error


def moved(body: BaseModel, skew: timedelta) -> BaseModel:
    """The body with every time in it moved from the phone's clock to the clinic's."""
    times = {name: value + skew for name in type(body).model_fields if isinstance(value := getattr(body, name), datetime)}
    return body.model_copy(update=times) if skew and times else body


def times_in(body: BaseModel) -> list[datetime]:
    """Every time inside a body."""
    return [value for name in type(body).model_fields if isinstance(value := getattr(body, name), datetime)]


def stored(body: BaseModel) -> dict[str, Any]:
    """A body as it is kept: without what was not said."""
    return body.model_dump(mode="json", by_alias=True, exclude_none=True, exclude_defaults=False)


def fact_of(kind: str, at: datetime, body: Mapping[str, Any]) -> course.Fact | None:
    """The clinical fact of a stored event. Raises ValueError for one that cannot be read, or lies before every event."""
    read = KINDS[kind].model_validate(body, context=STORED)
    if any(time < bounds.FIRST_EVENT for time in (at, *times_in(read))):
        raise ValueError(f"a time in it lies before {bounds.FIRST_EVENT.year}")
    return read.fact(at)


def first_message(error: ValidationError) -> str:
    """The first fault of a validation in plain words, with its field in front."""
    first = error.errors()[0]
    message = re.sub(r"^Value error, ", "", first["msg"])
    place = ".".join(str(step) for step in first["loc"])
    return f"{place}: {message}" if place else message
