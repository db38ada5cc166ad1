"""The note of an operation as the clinic writes it, checked, and the operation that it says."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta, tzinfo
from typing import Annotated, Any

from pydantic import BaseModel, ConfigDict, Field, SerializerFunctionWrapHandler, model_serializer, model_validator

from followup.care import bounds
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.reading.bodies import DROP_NAME_LENGTH
from followup.care.reading.eye import operation_of
from followup.clinical import acuity, drops, pressure, schedule, second_thoughts, tamponade
from followup.clinical.course import Operation
from followup.clinical.errors import ClinicalError, OutOfRange
from followup.records import eyes

MOST_PLAUSIBLE_DROPS = 12

PROCEDURE_STEPS: dict[str, str] = {
    "vitrectomy": "vitrectomy",
    "membrane-peel": "membranes dissected or peeled",
    "ilm-peel": "inner limiting membrane peeled",
    "laser": "laser to breaks",
    "panretinal-laser": "laser to the whole periphery",
    "cryotherapy": "cryotherapy",
    "fluid-air-exchange": "fluid exchanged for air",
    "retinectomy": "retinectomy",
    "buckle": "scleral buckle",
    "cataract": "cataract removed",
    "anti-vegf": "anti-VEGF injected",
}


TimesADay = Annotated[int, Field(ge=1, le=drops.MOST_TIMES_A_DAY)]


class DropStep(BaseModel):
    model_config = ConfigDict(extra="forbid")

    times_a_day: TimesADay
    until: date


class Drop(BaseModel):
    """A drop as the clinic prescribed it; the app repeats it and computes nothing.

    `steps` are those of a taper, in order; `times_a_day` is then the first and `until` the last day of all.
    """

    model_config = ConfigDict(extra="forbid")

    name: Annotated[str, Field(min_length=1, max_length=DROP_NAME_LENGTH)]
    times_a_day: TimesADay
    until: date
    steps: Annotated[list[DropStep], Field(max_length=drops.MOST_STEPS)] = []

    @classmethod
    def of(cls, drop: drops.Prescribed) -> "Drop":
        first, *later = steps = [DropStep(times_a_day=s.times_a_day, until=s.until) for s in drop.steps]
        return cls(name=drop.name, times_a_day=first.times_a_day, until=drop.until, steps=steps if later else [])

    @property
    def prescribed(self) -> drops.Prescribed:
        steps = tuple(drops.Step(s.times_a_day, s.until) for s in self.steps)
        return drops.Prescribed(self.name, steps or (drops.Step(self.times_a_day, self.until),))

    @model_serializer(mode="wrap")
    def _plain_without_steps(self, whole: SerializerFunctionWrapHandler) -> dict[str, Any]:
        """A drop that stays the same is written as notes had it before there were tapers."""
        said: dict[str, Any] = whole(self)
        return said if self.steps else {key: value for key, value in said.items() if key != "steps"}


class OperationNote(BaseModel):
    """What the nurse copies from the operation note."""

    model_config = ConfigDict(extra="forbid")

    eye: str
    operated_at: datetime
    surgeon: str
    indication: str
    steps: list[str] = []
    breaks: list[dict[str, Any]] = []
    lens: str
    agent: str
    percent: float = 0
    fill_percent: float = 0
    risks: list[str] = []
    baseline: dict[str, Any] = {}
    drops: Annotated[list[Drop], Field(max_length=MOST_PLAUSIBLE_DROPS)] = []
    steroid_drops_until: date | None = None
    height_metres: float = 0
    posture: dict[str, Any] | None = None
    notes: str = ""

    @model_validator(mode="after")
    def _aware(self) -> "OperationNote":
        if self.operated_at.tzinfo is None:
            raise ValueError("the time of surgery needs its offset")
        return self

    def body(self, zone: tzinfo) -> dict[str, Any]:
        """The record's body. Drops end with the local day."""
        body = self.model_dump(mode="json", exclude={"eye", "operated_at", "agent", "surgeon"})
        if self.steroid_drops_until:
            end = datetime.combine(self.steroid_drops_until + timedelta(days=1), datetime.min.time(), zone)
            body |= {"steroid_drops_until": end.isoformat(), "steroid_last_day": self.steroid_drops_until.isoformat()}
        return body


def check_days(note: OperationNote, visits: Sequence[schedule.Window], now: datetime, zone: tzinfo) -> None:
    """Raise `CareError` for a day that cannot be after this operation."""
    today, operated_on = now.astimezone(zone).date(), note.operated_at.astimezone(zone).date()
    if fault := bounds.surgery(operated_on, today):
        raise CareError(fault, "operated_at")
    days = [(drop.until, f"the last day of {drop.name}", "drops") for drop in note.drops]
    days += [(day, f"the visit {v.name}", "visits") for v in visits for day in (v.target, v.earliest, v.latest)]
    if note.steroid_drops_until:
        days.append((note.steroid_drops_until, "the last day of steroid drops", "steroid_drops_until"))
    for day, what, field in days:
        if fault := bounds.after_surgery(day, operated_on, today, what):
            raise CareError(fault, field)


def drops_in(text: str, operated_on: date, today: date) -> list[Drop]:
    """The drops that a text says, one a line. Raises `CareError` for what cannot be read, or cannot be."""
    try:
        found = drops.read_all(text, operated_on)
    except ClinicalError as error:
        raise CareError(str(error), "drops") from error
    for drop in found:
        if fault := bounds.after_surgery(drop.until, operated_on, today, f"the last day of {drop.name}"):
            raise CareError(fault, "drops")
    if len(found) > MOST_PLAUSIBLE_DROPS:
        raise CareError(f"up to {MOST_PLAUSIBLE_DROPS} drops have a place", "drops")
    return [Drop.of(drop) for drop in found]


def drops_text(prescribed: Iterable[Drop], operated_on: date | None = None) -> str:
    """The lines that say these drops, by the length of their steps where the day of surgery is given, else by their days."""
    return "\n".join(drops.written(drop.prescribed, operated_on) for drop in prescribed)


def steroid_end(prescribed: Iterable[Drop]) -> date | None:
    """The last day on which a steroid drop is due; None where no drop is one by its name."""
    return drops.steroid_until(drop.prescribed for drop in prescribed)


def asks_about(note: OperationNote) -> list[str]:
    """What in a note does not go together, as questions; none where all does, or where it is refused anyway."""
    try:
        return second_thoughts.questions(note.agent, note.percent, note.fill_percent, note.lens, note.steps)
    except ClinicalError:
        return []


def operation_from(note: OperationNote, now: datetime, zone: tzinfo) -> Operation:
    """The clinical operation of a note. Raises `CareError` beside the field that cannot be."""
    if note.operated_at > now:
        raise CareError("the date of surgery lies in the future", "operated_at")
    check_days(note, (), now, zone)
    try:
        tamponade.forecast(note.agent, note.percent, 0)
    except ClinicalError as error:
        field = "percent" if isinstance(error, OutOfRange) else "agent"
        raise CareError(str(error), field) from error
    try:
        tamponade.forecast(note.agent, note.percent, note.fill_percent)
    except ClinicalError as error:
        raise CareError(str(error), "fill_percent") from error
    if note.agent != "none" and note.fill_percent == 0:
        raise CareError("write how full the eye was at the end of surgery, for example 90", "fill_percent")
    try:
        if note.baseline.get("acuity"):
            acuity.read(note.baseline["acuity"], note.baseline.get("notation"))
    except ClinicalError as error:
        raise CareError(str(error), "baseline_acuity") from error
    try:
        if note.baseline.get("iop_mmhg") is not None:
            pressure.read(note.baseline["iop_mmhg"])
    except ClinicalError as error:
        raise CareError(str(error), "baseline_iop") from error
    try:
        return operation_of(note.eye, note.operated_at, note.agent, note.body(zone))
    except ClinicalError as error:
        raise CareError(str(error)) from error


def record_operation(desk: Desk, operation_id: str, note: OperationNote, why: str = "") -> str:
    """Keep the note of an operation, or (with `why`) one that puts it right; returns its id."""
    return eyes.add_note(
        desk.store,
        desk.now,
        operation_id,
        note.eye,
        note.operated_at,
        note.agent,
        note.surgeon,
        note.body(desk.zone),
        desk.actor.signature,
        why,
    )
