"""The kinds of entries, and their bodies on the way in and out of the database."""

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any

from pydantic import BaseModel, ValidationError

from followup.records.bodies.base import STORED, Body, Illegible, first_message
from followup.records.bodies.clinic import (
    ArrivedBody,
    DidNotComeBody,
    HeardBody,
    MeasuresBody,
    NoGasSeenBody,
    SeenBody,
    TamponadeRemovedBody,
)
from followup.records.bodies.home import (
    AnaestheticBody,
    BubbleSeenBody,
    DropsBody,
    JourneyBody,
    PostureBody,
    SymptomsBody,
    VisitRequestBody,
    WithdrawalBody,
)

PATIENT_KINDS: dict[str, type[Body]] = {
    body.KIND: body
    for body in (
        SymptomsBody,
        PostureBody,
        BubbleSeenBody,
        JourneyBody,
        AnaestheticBody,
        DropsBody,
        VisitRequestBody,
        WithdrawalBody,
    )
}
CLINIC_KINDS: dict[str, type[Body]] = {
    body.KIND: body
    for body in (
        MeasuresBody,
        ArrivedBody,
        SeenBody,
        DidNotComeBody,
        HeardBody,
        NoGasSeenBody,
        TamponadeRemovedBody,
    )
}
KINDS = PATIENT_KINDS | CLINIC_KINDS


def body_of(kind: str, said: Mapping[str, Any]) -> Body:
    """The checked body of a kind. Raises ValueError in the user's words."""
    if kind not in KINDS:
        raise ValueError(f"“{kind}” is not a known kind of entry; accepted are: {', '.join(KINDS)}")
    try:
        return KINDS[kind].model_validate(said)
    except ValidationError as error:
        raise ValueError(first_message(error)) from error


def kept(kind: str, said: Mapping[str, Any]) -> Body:
    """The body of a stored entry. Raises ValueError or KeyError for what cannot be."""
    return KINDS[kind].model_validate(said, context=STORED)


def kept_or_illegible(kind: str, said: dict[str, Any]) -> Body:
    """The same; what cannot be is given as it stands there, so that it is seen and can be withdrawn."""
    try:
        return kept(kind, said)
    except (KeyError, OverflowError, TypeError, ValueError):
        return Illegible(kept=said)


def stored(body: BaseModel) -> dict[str, Any]:
    """A body as it is kept: without what was not said."""
    if isinstance(body, Illegible):
        return body.kept
    return body.model_dump(mode="json", by_alias=True, exclude_none=True, exclude_defaults=False)


def moved(body: Body, skew: timedelta) -> Body:
    """The body with every time in it moved from the phone's clock to the clinic's."""
    times = {name: value + skew for name in type(body).model_fields if isinstance(value := getattr(body, name), datetime)}
    return body.model_copy(update=times) if skew and times else body


def times_in(body: Body) -> list[datetime]:
    """Every time inside a body."""
    return [value for name in type(body).model_fields if isinstance(value := getattr(body, name), datetime)]
