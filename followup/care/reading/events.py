"""Entries: their kinds, the envelopes that devices send, and the clinical fact in each."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Annotated, Any, Literal

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    ValidationError,
    field_validator,
)

from followup.care import bounds
from followup.care.reading.bodies import (
    STORED,
    AnaestheticBody,
    ArrivedBody,
    Body,
    BubbleSeenBody,
    DidNotComeBody,
    DropsBody,
    HeardBody,
    JourneyBody,
    NoGasSeenBody,
    PostureBody,
    SeenBody,
    SymptomsBody,
    TamponadeRemovedBody,
    VisitRequestBody,
    WithdrawalBody,
    Word,
    first_message,
    kept_time,
)
from followup.care.reading.measures import EnteredMeasures, MeasuresBody
from followup.clinical import course
from followup.records.values import Event

CALENDAR = range(1900, 2200)
PATIENT_KINDS: dict[str, type[Body]] = {
    "symptoms": SymptomsBody,
    "posture": PostureBody,
    "bubble-seen": BubbleSeenBody,
    "journey": JourneyBody,
    "anaesthetic": AnaestheticBody,
    "drops": DropsBody,
    "visit-request": VisitRequestBody,
    "withdrawal": WithdrawalBody,
}

CLINIC_KINDS: dict[str, type[Body]] = {
    "measures": MeasuresBody,
    "arrived": ArrivedBody,
    "seen": SeenBody,
    "did-not-come": DidNotComeBody,
    "heard": HeardBody,
    "no-gas-seen": NoGasSeenBody,
    "tamponade-removed": TamponadeRemovedBody,
}

KINDS = PATIENT_KINDS | CLINIC_KINDS


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

    def checked(self) -> Body:
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


def body_of(kind: str, body: Mapping[str, Any]) -> Body:
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


def fact_in_time(event: Event) -> course.Fact | None:
    """The clinical fact of an event, if it says one. Raises where it says none that can be, or a time off the calendar."""
    fact = fact_of(event.kind, event.at, event.body)
    block = getattr(fact, "block", None)
    times = [event.at, *(t for t in (getattr(block, "start", None), getattr(block, "end", None)) if t)]
    if any(at.year not in CALENDAR for at in times):
        raise ValueError("a time off the calendar")
    return fact
