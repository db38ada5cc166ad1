"""The note of an operation, checked, and the operation that it says."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, tzinfo

from followup.care import bounds
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.reading.eye import operation_of
from followup.clinical import acuity, drops, pressure, schedule, second_thoughts, tamponade
from followup.clinical.errors import ClinicalError, OutOfRange
from followup.clinical.surgery import Operation
from followup.records import eyes
from followup.records.operation_note import MOST_PLAUSIBLE_DROPS, Drop, OperationNote

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
        if note.operated_at.astimezone(zone).date() == now.astimezone(zone).date():
            raise CareError("that time of today is still to come: write when surgery was", "operated_time")
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
        if note.baseline.acuity:
            acuity.read(note.baseline.acuity, note.baseline.notation)
    except ClinicalError as error:
        raise CareError(str(error), "baseline_acuity") from error
    try:
        if note.baseline.iop_mmhg is not None:
            pressure.read(note.baseline.iop_mmhg)
    except ClinicalError as error:
        raise CareError(str(error), "baseline_iop") from error
    try:
        return operation_of(note, zone)
    except ClinicalError as error:
        raise CareError(str(error)) from error


def record_operation(desk: Desk, operation_id: str, note: OperationNote, why: str = "") -> str:
    """Keep the note of an operation, or (with `why`) one that puts it right; returns its id."""
    return eyes.add_note(desk.store, desk.now, operation_id, note, desk.zone, desk.actor.signature, why)
