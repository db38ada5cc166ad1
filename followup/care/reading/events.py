"""Entries as devices send them, and the clinical fact in each that was taken."""

from datetime import datetime
from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator

from followup.care import bounds
from followup.care.reading.measures import EnteredMeasures
from followup.clinical import facts
from followup.records.bodies.base import Body, Illegible, Word, first_message, kept_time
from followup.records.bodies.kinds import body_of, times_in
from followup.records.values import Event

CALENDAR = range(1900, 2200)


class SentEvent(BaseModel):
    """One event as a device sends it: made there, never changed afterwards.

    `heard` is what both clocks showed when the device last heard the clinic: {clinic_at, device_at}.
    """

    model_config = ConfigDict(extra="forbid", frozen=True)

    id: Annotated[str, Field(pattern=r"^[0-9a-f]{8}-[0-9a-f]{4}-7[0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$")]
    operation: Word
    kind: str
    at: datetime
    offset_minutes: Annotated[int, Field(ge=-840, le=840)]
    sequence: Annotated[int, Field(ge=1, le=bounds.LARGEST_INTEGER)]
    corrects: Word | None = None
    body: dict[str, Any]
    heard: Any = None

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


def fact_in_time(event: Event) -> facts.Fact | None:
    """The clinical fact of an event, if it says one. Raises ValueError where it says none that can be, or a time that cannot."""
    if isinstance(event.body, Illegible):
        raise ValueError("this entry cannot be read")
    times = (event.at, *times_in(event.body))
    if any(time < bounds.FIRST_EVENT for time in times):
        raise ValueError(f"a time in it lies before {bounds.FIRST_EVENT.year}")
    if any(time.year not in CALENDAR for time in times):
        raise ValueError("a time off the calendar")
    return event.body.fact(event.at)
