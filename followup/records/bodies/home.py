"""What patients and carers enter at home."""

from datetime import datetime
from typing import Annotated, Literal

from pydantic import AliasChoices, Field, field_validator

from followup.clinical import facts, posture
from followup.records.bodies.base import DROP_NAME_LENGTH, Body, Name, Word, Words, kept_time

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


class SymptomsBody(Body):
    """The answers of one symptom check; what was not asked stays out. `cannot_tell` names questions answered so."""

    KIND = "symptoms"
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

    def fact(self, at: datetime) -> facts.Symptoms:
        return facts.Symptoms(at=at, **self.model_dump(exclude={"cannot_tell"}))


class PostureBody(Body):
    """A stretch in a head position; `from` and `to` as on the phone's clock, `to` missing while it runs."""

    KIND = "posture"
    position: str
    start: Annotated[datetime, Field(validation_alias=AliasChoices("from", "start"), serialization_alias="from")]
    end: Annotated[datetime | None, Field(validation_alias=AliasChoices("to", "end"), serialization_alias="to")] = None

    _kept = field_validator("start", "end")(kept_time)

    def fact(self, at: datetime) -> facts.Postured:
        return facts.Postured(at, posture.Block(self.position, self.start, self.end))


class BubbleSeenBody(Body):
    """The share of the view below the line, in percent, as the patient sees it."""

    KIND = "bubble-seen"
    percent: Annotated[float, Field(ge=0, le=100)]

    def fact(self, at: datetime) -> facts.BubbleSeen:
        return facts.BubbleSeen(at, self.percent)


class JourneyBody(Body):
    """A journey planned or made: heights in metres, in order."""

    KIND = "journey"
    heights_metres: Annotated[tuple[float, ...], Field(min_length=1, max_length=50)]

    def fact(self, at: datetime) -> facts.Journey:
        return facts.Journey(at, self.heights_metres)


class AnaestheticBody(Body):
    """An anaesthetic or sedation that is planned or was given."""

    KIND = "anaesthetic"
    words: Words = ""

    def fact(self, at: datetime) -> facts.Anaesthetic:
        return facts.Anaesthetic(at, self.words)


class DropsBody(Body):
    """A drop taken, by the name the clinic entered."""

    KIND = "drops"
    name: Annotated[str, Field(max_length=DROP_NAME_LENGTH)]

    def fact(self, at: datetime) -> facts.Heard:
        return facts.Heard(at)


class VisitRequestBody(Body):
    """The patient asks for another time for a visit, known by its identity; older entries have only its name."""

    KIND = "visit-request"
    visit: Name
    visit_id: Word | None = None
    words: Words = ""

    def fact(self, at: datetime) -> facts.Heard:
        return facts.Heard(at)


class WithdrawalBody(Body):
    """An earlier event was entered by mistake; `corrects` says which."""

    KIND = "withdrawal"
    reason: Words = ""

    def fact(self, at: datetime) -> None:
        return None
