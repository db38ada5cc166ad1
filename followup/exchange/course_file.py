"""A course file: one eye's operations, visits and facts (of the fellow eye too) as JSON, for `followup calc course`."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime, timedelta
from typing import Annotated, Any
from zoneinfo import ZoneInfo

from pydantic import BaseModel, ConfigDict, Field, ValidationError, field_validator, model_validator

from followup.care import bounds
from followup.care.reading.eye import operation_of
from followup.clinical import course
from followup.clinical.coverage import EYES
from followup.clinical.errors import ClinicalError
from followup.clinical.facts import Fact, Measures, Settled
from followup.errors import FollowupError
from followup.records.bodies.base import first_message, kept_time
from followup.records.bodies.kinds import body_of, times_in
from followup.records.operation_note import Baseline, OperationNote, Positioning, Site


class CourseFileError(FollowupError, ValueError):
    """A course file that cannot be read; the message names the place."""


LONGEST_COURSE = timedelta(days=3653)


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", allow_inf_nan=False)


class _Operation(_Part):
    eye: str = "right"
    at: datetime
    indication: str = "other"
    agent: str = "none"
    percent: float | None = None
    fill_percent: float | None = None
    lens: str = "unknown"
    breaks: list[Site] = []
    risks: list[str] = []
    steroid_drops_until: date | datetime | None = None
    baseline: Baseline = Baseline()
    posture: Positioning | None = None
    height_metres: float = 0
    zone: str = "UTC"

    _kept = field_validator("at")(kept_time)

    @field_validator("eye", "indication", "agent", "lens")
    @classmethod
    def _in_any_case(cls, value: str) -> str:
        return value.strip().lower()

    def note(self) -> OperationNote:
        """The same as an operation note; air is 100 % where nothing else is said, and an eye is left nine tenths full."""
        until = self.steroid_drops_until
        ends_at = until if isinstance(until, datetime) else None
        if ends_at is not None and ends_at.tzinfo is None:
            ends_at = ends_at.replace(tzinfo=ZoneInfo(self.zone))
        return OperationNote(
            eye=self.eye,
            operated_at=self.at,
            surgeon="",
            indication=self.indication,
            breaks=tuple(self.breaks),
            lens=self.lens,
            agent=self.agent,
            percent=100.0 if self.percent is None and self.agent == "air" else self.percent or 0.0,
            fill_percent=self.fill_percent if self.fill_percent is not None else (0.0 if self.agent == "none" else 90.0),
            risks=tuple(self.risks),
            baseline=self.baseline,
            steroid_drops_until=None if isinstance(until, datetime) else until,
            height_metres=self.height_metres,
            posture=self.posture,
            steroid_ends_at=ends_at,
        )

    @property
    def on(self) -> date:
        """The local day of surgery."""
        return self.at.astimezone(ZoneInfo(self.zone)).date()

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
    operation: _Operation | None = None
    operations: list[_Operation] = []
    visits: list[_Visit] = []
    facts: list[dict[str, Any]] = []
    until: datetime | None = None
    app: bool = True

    _kept = field_validator("until")(kept_time)

    @model_validator(mode="after")
    def _operated(self) -> "_CourseFile":
        if (self.operation is None) == (not self.operations):
            raise ValueError("give either “operation”, or “operations” of the same eye in order")
        return self

    @model_validator(mode="after")
    def _within_bounds(self) -> "_CourseFile":
        for place, fault in self._faults():
            if fault:
                raise ValueError(f"{place}: {fault}")
        return self

    def _faults(self) -> Iterator[tuple[str, str | None]]:
        one = self.operation is not None
        for n, operation in enumerate(self.done):
            place, day = "operation" if one else f"operations.{n}", operation.on
            yield f"{place}.at", bounds.surgery(day, bounds.LAST_SURGERY)
            if until := operation.steroid_drops_until:
                ends = until.date() if isinstance(until, datetime) else until
                yield f"{place}.steroid_drops_until", bounds.after_surgery(ends, day, day, "this day")
        first, last = self.done[0], self.done[-1]
        for n, visit in enumerate(self.visits):
            for day in (visit.target or visit.latest, visit.earliest, visit.latest):
                yield f"visits.{n}", bounds.after_surgery(day, first.on, last.on, "this day")
        if self.until and not first.at <= self.until <= last.at + LONGEST_COURSE:
            yield "until", "a course is told from its operation to ten years after it"

    @property
    def done(self) -> list[_Operation]:
        """What was done, in order of time."""
        return sorted(self.operations or [op for op in (self.operation,) if op], key=lambda op: op.at)


class _SettledBody(_Part):
    outcome: Annotated[str, Field(min_length=1)]
    worry: str | None = None


def read(raw: Mapping[str, Any]) -> tuple[tuple[course.Course, course.Course], datetime]:
    """The courses of the operated eye and of its fellow, and the time up to which they are told. Raises `CourseFileError`."""
    try:
        file = _CourseFile.model_validate(raw)
        operations = tuple(operation_of(o.note(), ZoneInfo(o.zone)) for o in file.done)
        last = operations[-1].at
        facts = tuple(f for n, fact in enumerate(file.facts) if (f := _fact(n, fact, last)) is not None)
        visits = tuple(course.PlannedVisit(v.name, v.earliest, v.latest) for v in file.visits)
        eye, zone = operations[0].eye, ZoneInfo(file.done[0].zone)
        fellow = next(side for side in EYES if side != eye)
        of_fellow = tuple(f for f in facts if isinstance(f, Measures | Settled))
        told = (
            course.Course(eye, operations, visits, facts, zone, file.app),
            course.Course(fellow, facts=of_fellow, zone=zone),
        )
    except ValidationError as error:
        raise CourseFileError(first_message(error)) from error
    except (ClinicalError, KeyError) as error:
        raise CourseFileError(f"operation: {error}") from error
    return told, file.until or max(thing.at for thing in (*operations, *facts))


def _fact(number: int, raw: dict[str, Any], operated_at: datetime) -> Fact | None:
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
        if kind == "settled":
            done = _SettledBody.model_validate(fields)
            return None if done.outcome == "not-reached" else Settled(at, done.worry)
        body = body_of(kind, fields)
        for time in (at, *times_in(body)):
            if not bounds.FIRST_EVENT <= time <= operated_at + LONGEST_COURSE:
                raise ValueError(f"{bounds.words(time.date())} lies outside of the ten years after the operation")
        return body.fact(at)
    except ValidationError as error:
        raise CourseFileError(f"{place} ({kind}): {first_message(error)}") from error
    except ValueError as error:
        raise CourseFileError(f"{place} ({kind}): {error}") from error
