"""What each operated eye contributes to the results of the clinic."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Literal

Sight = Literal["better", "worse", "same"]


@dataclass(frozen=True, slots=True)
class OperationResult:
    """One operation, `number` among those of its eye, on the local `day`; what was found until the next.

    `days_followed` without liquid until `detached` (or not, at the last look); None if never looked at so. `sight` is that
    before this operation against the last of the eye, beyond test-retest noise; None where one is missing.
    """

    operation_id: str
    eye_id: str
    number: int
    surgeon: str
    agent: str
    indication: str
    day: date
    counted_from: datetime | None
    last_look: datetime | None
    detached_at: datetime | None
    days_followed: float | None
    detached: bool | None
    under_liquid: bool
    highest_early_mmhg: float | None
    before_logmar: float | None
    sight: Sight | None


@dataclass(frozen=True, slots=True)
class Contribution:
    """What an eye contributes at any time from `since` (None: ever) until just before `until` (None: for good), and its operations.

    `state` and `once` say how it stands in the end, None before that counts. `visits` are those whose time is over, `calls`
    its callbacks that were settled or are past their time; `hours_to_claim` until somebody took each that was taken.
    """

    eye_id: str
    since: datetime | None
    until: datetime | None
    operated_at: datetime
    state: str | None
    once: bool | None
    last_logmar: float | None
    visits: int
    visits_seen: int
    calls: int
    calls_in_time: int
    hours_to_claim: list[float]
    operations: tuple[OperationResult, ...]


@dataclass(frozen=True, slots=True)
class ListedResult:
    """One operation with its patient's hospital number, its eye's side, and how that eye stands in the end."""

    operation: OperationResult
    patient_number: str
    side: str
    state: str | None
    once: bool | None
    last_logmar: float | None
