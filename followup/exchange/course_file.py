"""A course file: one eye's operation, visits and facts as JSON, for `followup calc course`."""

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from pydantic import BaseModel, ConfigDict, ValidationError, field_validator, model_validator

from followup.care import bounds
from followup.care.events import body_of, first_message, kept_time, times_in
from followup.clinical import acuity, course, posture, warnings
from followup.clinical.coverage import Break
from followup.clinical.errors import ClinicalError


class CourseFileError(ValueError):
    """A course file that cannot be read; the message names the place."""


LONGEST_COURSE = timedelta(days=3653)


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)


class _Break(_Part):
    clock: float
    reach: str


class _Baseline(_Part):
    acuity: str | None = None
    notation: str | None = None
    iop_mmhg: float | None = None


class _Posture(_Part):
    position: str
    hours_a_day: float
    days: int


class _Operation(_Part):
    eye: str = "right"
    at: datetime
    indication: str = "other"
    agent: str = "none"
    percent: float | None = None
    fill_percent: float | None = None
    lens: str = "unknown"
    breaks: list[_Break] = []
    risks: list[str] = []
    steroid_drops_until: date | datetime | None = None
    baseline: _Baseline = _Baseline()
    posture: _Posture | None = None
    height_metres: float = 0
    zone: str = "UTC"

    _kept = field_validator("at")(kept_time)

    @field_validator("zone")
    @classmethod
    def _known(cls, value: str) -> str:
        try:
            ZoneInfo(value)
        except (KeyError, ValueError, OSError):
            raise ValueError(f"“{value}” is not a time zone; write for example Europe/Vienna") from None
        return value


class _Visit(_Part):
    name: str
    target: date | None = None
    earliest: date
    latest: date
    reason: str = ""


class _CourseFile(_Part):
    operation: _Operation
    visits: list[_Visit] = []
    facts: list[dict[str, Any]] = []
    until: datetime | None = None

    _kept = field_validator("until")(kept_time)

    @model_validator(mode="after")
    def _within_bounds(self) -> "_CourseFile":
        operated_on = self.operation.at.astimezone(ZoneInfo(self.operation.zone)).date()
        faults = [("operation.at", bounds.surgery(operated_on, bounds.LAST_SURGERY))]
        days = [
            (f"visits.{n}", day) for n, v in enumerate(self.visits) for day in (v.target or v.latest, v.earliest, v.latest)
        ]
        if until := self.operation.steroid_drops_until:
            days.append(("operation.steroid_drops_until", until.date() if isinstance(until, datetime) else until))
        faults += [(place, bounds.after_surgery(day, operated_on, operated_on, "this day")) for place, day in days]
        if self.until and not self.operation.at <= self.until <= self.operation.at + LONGEST_COURSE:
            faults.append(("until", "a course is told from its operation to ten years after it"))
        for place, fault in faults:
            if fault:
                raise ValueError(f"{place}: {fault}")
        return self


def read(raw: Mapping[str, Any]) -> tuple[course.Course, datetime]:
    """The course, and the time up to which it is told. Raises `CourseFileError`."""
    try:
        file = _CourseFile.model_validate(raw)
        operation = _operation(file.operation)
        facts = tuple(f for n, fact in enumerate(file.facts) if (f := _fact(n, fact, operation.at)) is not None)
        visits = tuple(course.PlannedVisit(v.name, v.earliest, v.latest) for v in file.visits)
        told = course.Course(operation, visits, facts, ZoneInfo(file.operation.zone))
    except ValidationError as error:
        raise CourseFileError(first_message(error)) from error
    except (ClinicalError, KeyError) as error:
        raise CourseFileError(f"operation: {error}") from error
    until = file.until or max([operation.at, *(f.at for f in facts)])
    return told, until


def signs_as_json(signs: list[warnings.Sign]) -> list[dict[str, Any]]:
    """The signs as the command line gives them."""
    return [
        {
            "rule": s.rule,
            "how_soon": s.how_soon,
            "raised_at": s.raised_at.isoformat().replace("+00:00", "Z"),
            "values": s.values,
            "threshold": dict(s.threshold),
            "source": s.source,
            "words": s.words,
        }
        for s in signs
    ]


def _operation(o: _Operation) -> course.Operation:
    zone = ZoneInfo(o.zone)
    until = o.steroid_drops_until
    if isinstance(until, date) and not isinstance(until, datetime):
        until = course.end_of(until, zone)
    elif until is not None and until.tzinfo is None:
        until = until.replace(tzinfo=zone)
    return course.Operation(
        eye=o.eye,
        at=o.at,
        agent=o.agent,
        percent=100.0 if o.percent is None and o.agent == "air" else o.percent or 0.0,
        fill_percent=o.fill_percent if o.fill_percent is not None else (0.0 if o.agent == "none" else 90.0),
        lens=o.lens,
        indication=o.indication,
        breaks=tuple(Break(b.clock, b.reach) for b in o.breaks),
        risks=frozenset(o.risks),
        steroid_drops_until=until,
        baseline_acuity=acuity.read(o.baseline.acuity, o.baseline.notation) if o.baseline.acuity else None,
        baseline_iop_mmhg=o.baseline.iop_mmhg,
        plan=posture.Plan(o.posture.position, o.posture.hours_a_day, o.posture.days) if o.posture else None,
        height_metres=o.height_metres,
    )


def _fact(number: int, raw: dict[str, Any], operated_at: datetime) -> course.Fact | None:
    place = f"fact {number + 1}"
    fields = dict(raw)
    if fault := bounds.entry(raw):
        raise CourseFileError(f"{place}: {fault}")
    try:
        at = datetime.fromisoformat(str(fields.pop("at")))
        kind = str(fields.pop("kind"))
    except KeyError as error:
        raise CourseFileError(f"{place} has no {error}") from error
    except ValueError as error:
        raise CourseFileError(f"{place}: “{raw['at']}” is not a time; write for example 2027-03-03T09:10:00Z") from error
    try:
        kept_time(at)
        body = body_of(kind, fields)
        for time in (at, *times_in(body)):
            if not bounds.FIRST_EVENT <= time <= operated_at + LONGEST_COURSE:
                raise ValueError(f"{bounds.words(time.date())} lies outside of the ten years after the operation")
        return body.fact(at)
    except ValueError as error:
        raise CourseFileError(f"{place} ({kind}): {error}") from error
