"""The note of an operation: one typed value from the form, the theatre list or a course file to the records and back."""

from datetime import date, datetime, timedelta, tzinfo
from typing import Any

from pydantic import (
    BaseModel,
    ConfigDict,
    SerializerFunctionWrapHandler,
    ValidationError,
    ValidationInfo,
    model_serializer,
    model_validator,
)

from followup.clinical import drops
from followup.records.bodies.base import DROP_NAME_LENGTH, STORED
from followup.records.times import from_text

MOST_PLAUSIBLE_DROPS = 12
IN_COLUMNS = {"eye", "operated_at", "agent", "surgeon"}


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, allow_inf_nan=False)


class Site(_Part):
    """Where a break is: its clock hour as the examiner sees it, and how far out."""

    clock: float
    reach: str


class Baseline(_Part):
    """What was measured before surgery; the acuity as written on the chart."""

    acuity: str | None = None
    notation: str | None = None
    iop_mmhg: float | None = None


class Positioning(_Part):
    """The head position asked for."""

    position: str
    hours_a_day: float
    days: int


class DropStep(_Part):
    """So often a day, until and with this day."""

    times_a_day: int
    until: date


class Drop(_Part):
    """A drop as the clinic prescribed it; the app repeats it and computes nothing.

    `steps` are those of a taper, in order; `times_a_day` is then the first and `until` the last day of all.
    """

    name: str
    times_a_day: int
    until: date
    steps: tuple[DropStep, ...] = ()

    @classmethod
    def of(cls, drop: drops.Prescribed) -> "Drop":
        first, *later = steps = tuple(DropStep(times_a_day=s.times_a_day, until=s.until) for s in drop.steps)
        return cls(name=drop.name, times_a_day=first.times_a_day, until=drop.until, steps=steps if later else ())

    @property
    def every_step(self) -> tuple[DropStep, ...]:
        """Its steps; a drop that stays the same has one."""
        return self.steps or (DropStep(times_a_day=self.times_a_day, until=self.until),)

    @property
    def prescribed(self) -> drops.Prescribed:
        return drops.Prescribed(self.name, tuple(drops.Step(s.times_a_day, s.until) for s in self.every_step))

    @model_serializer(mode="wrap")
    def _plain_without_steps(self, whole: SerializerFunctionWrapHandler) -> dict[str, Any]:
        """A drop that stays the same is written as notes had it before there were tapers."""
        said: dict[str, Any] = whole(self)
        return said if self.steps else {key: value for key, value in said.items() if key != "steps"}


class OperationNote(_Part):
    """What the nurse copies from the operation note. `steroid_ends_at` is the instant at which the last day of drops is over,
    where one is kept or given.
    """

    eye: str
    operated_at: datetime
    surgeon: str
    indication: str
    steps: tuple[str, ...] = ()
    breaks: tuple[Site, ...] = ()
    lens: str
    agent: str
    percent: float = 0
    fill_percent: float = 0
    risks: tuple[str, ...] = ()
    baseline: Baseline = Baseline()
    drops: tuple[Drop, ...] = ()
    steroid_drops_until: date | None = None
    height_metres: float = 0
    posture: Positioning | None = None
    notes: str = ""
    steroid_ends_at: datetime | None = None

    @model_validator(mode="after")
    def _bounded(self, info: ValidationInfo) -> "OperationNote":
        if self.operated_at.tzinfo is None:
            raise ValueError("the time of surgery needs its offset")
        if info.context is not STORED:
            self._check_drops()
        return self

    def _check_drops(self) -> None:
        """What was kept once stays readable, whatever the limits are now."""
        if len(self.drops) > MOST_PLAUSIBLE_DROPS:
            raise ValueError(f"write at most {MOST_PLAUSIBLE_DROPS} drops")
        for drop in self.drops:
            if not 1 <= len(drop.name) <= DROP_NAME_LENGTH:
                raise ValueError(f"the name of a drop has 1 to {DROP_NAME_LENGTH} characters")
            if not all(1 <= step.times_a_day <= drops.MOST_TIMES_A_DAY for step in drop.every_step):
                raise ValueError(f"{drop.name}: a drop is taken 1 to {drops.MOST_TIMES_A_DAY} times a day")
            if len(drop.steps) > drops.MOST_STEPS:
                raise ValueError(f"{drop.name}: a taper has up to {drops.MOST_STEPS} steps")

    def steroid_end(self, zone: tzinfo) -> datetime | None:
        """When steroid drops end: with their last local day."""
        if self.steroid_ends_at or self.steroid_drops_until is None:
            return self.steroid_ends_at
        return datetime.combine(self.steroid_drops_until + timedelta(days=1), datetime.min.time(), zone)

    def body(self, zone: tzinfo) -> dict[str, Any]:
        """What is kept beside the columns: without what was not said."""
        last_day, ends_at = self.steroid_drops_until, self.steroid_end(zone)
        kept = self.model_dump(
            mode="json", exclude={*IN_COLUMNS, "steroid_drops_until", "steroid_ends_at"}, exclude_none=True
        )
        kept |= {"steroid_drops_until": ends_at.isoformat()} if ends_at else {}
        return kept | ({"steroid_last_day": last_day.isoformat()} if last_day else {})


PARTS = tuple(name for name in OperationNote.model_fields if name != "steroid_ends_at")
"""What a note says, in the order of the form."""


Difference = tuple[str, Any, Any]
"""What differs between two notes: what, before, after."""


def between(before: OperationNote, after: OperationNote) -> list[Difference]:
    """What differs between two notes of one operation, in the order of the form."""
    parts = ((name, getattr(before, name), getattr(after, name)) for name in PARTS)
    return [(name, was, stands) for name, was, stands in parts if was != stands and not _in_another_order(was, stands)]


def _in_another_order(was: Any, stands: Any) -> bool:
    """Whether two lists of breaks differ in their order only."""
    both = [value for value in (was, stands) if isinstance(value, tuple) and all(isinstance(one, Site) for one in value)]
    return len(both) == 2 and set(was) == set(stands)


def kept_note(row: dict[str, Any], said: dict[str, Any]) -> OperationNote:
    """The note of a stored row. Of one that cannot be read only what stands in columns: no operation can be made of it."""
    columns = {name: row[name] for name in IN_COLUMNS} | {"operated_at": from_text(row["operated_at"])}
    ends_at, last_day = said.get("steroid_drops_until"), said.get("steroid_last_day")
    whole = {"lens": "", "indication": "", **said, "steroid_drops_until": last_day, "steroid_ends_at": ends_at, **columns}
    whole.pop("steroid_last_day", None)
    try:
        return OperationNote.model_validate({name: part for name, part in whole.items() if part is not None}, context=STORED)
    except ValidationError:
        return OperationNote(**columns, lens="", indication="")
