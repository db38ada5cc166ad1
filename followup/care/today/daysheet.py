"""What a clinic device carries for one day, to work without a signal: today's list and what the entry screens need.

The browser seals it under a key that only the signed-in person's password opens, and drops it when the day ends.
"""

from datetime import date, datetime, time, timedelta, tzinfo

from pydantic import BaseModel

from followup.care.desk import Desk
from followup.care.home import sealing
from followup.care.reading import person
from followup.care.reading.attendance import attended_by_eye
from followup.care.reading.eye import rulebook, visit_of_today
from followup.care.today import lists
from followup.care.watch import watching
from followup.clinical import pressure
from followup.clinical.agents import AGENTS
from followup.clinical.warnings import Rulebook
from followup.records import events, eyes, visits
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Event, Eye


class LastMeasures(BaseModel):
    """What was measured last, as it stands beside the fields."""

    on: date
    acuity: str
    pinhole: str = ""
    correction: str
    iop_mmhg: float | None
    instrument: str


class SheetVisit(BaseModel):
    """A visit of the book that has not taken place, with the dates between which it is due."""

    id: str
    name: str
    target: date
    earliest: date
    latest: date


class SheetEye(BaseModel):
    """One followed eye: who, what is in it, its open visits (`visit` is the one that they came for, else
    today's, if one is), the last measures of both.

    `chart` is the one that the next acuity is expected on.
    """

    operation: str
    patient: str
    number: str
    phone: str
    born_on: date
    eye: str
    agent: str
    fades: bool
    operated_on: date
    visits: list[SheetVisit]
    visit: str
    chart: str = ""
    right: LastMeasures | None
    left: LastMeasures | None


class SheetRow(BaseModel):
    """One line of today's list."""

    operation: str
    visit: str
    visit_id: str
    target: date
    state: str
    how_soon: str | None
    reason: str


class PressureLimits(BaseModel):
    """Numbers the entry screens read, ask about or warn at, in mmHg; from the core and the rulebook in force."""

    lowest: float
    highest: float
    unlikely_below: float
    unlikely_above: float
    low_at_most: float
    high_from: float
    kpa_per_mmhg: float


class DaySheet(BaseModel):
    """Everything the device shows without a signal until `expires_at`, the end of the clinic's day."""

    made_at: datetime
    expires_at: datetime
    staff: str
    author_pass: str
    may_lift_caution: bool
    sealing_key: str
    rows: list[SheetRow]
    eyes: list[SheetEye]
    limits: PressureLimits


def daysheet(desk: Desk, author_pass: str) -> DaySheet:
    """The sheet of one member of staff; `author_pass` is what later proves whose entries the device sends."""
    last = events.last_measures(desk.store)
    followed = eyes.followed(desk.store)
    seen = attended_by_eye(desk.store, "seen", desk.zone)
    rows: list[SheetRow] = []
    here: dict[str, str] = {}
    sheet_eyes: list[SheetEye] = []
    with watching.parts(desk.store, desk.now, "daysheet") as part:
        for due in lists.due_visits(desk.store, desk.now, desk.zone):
            with part(f"visits {due.visit.id}"):
                rows.append(_sheet_row(due))
                if due.state == "here":
                    here.setdefault(due.eye.id, due.visit.identity)
        for row in followed:
            with part(row.id):
                sheet_eyes.append(_sheet_eye(desk, row, seen[row.id], last, here.get(row.id)))
    return DaySheet(
        made_at=desk.now,
        expires_at=datetime.combine(desk.today + timedelta(days=1), time(), desk.zone),
        staff=desk.actor.name,
        author_pass=author_pass,
        may_lift_caution=desk.actor.may_lift_caution,
        sealing_key=sealing.public_key(desk.store),
        rows=rows,
        eyes=sheet_eyes,
        limits=pressure_limits(rulebook(desk.store)),
    )


def pressure_limits(book: Rulebook) -> PressureLimits:
    """What a device needs to read a pressure, ask about it and warn at it without a signal."""
    return PressureLimits(
        lowest=pressure.LOWEST_MMHG,
        highest=pressure.HIGHEST_MMHG,
        unlikely_below=pressure.UNLIKELY_BELOW.value,
        unlikely_above=pressure.UNLIKELY_ABOVE.value,
        low_at_most=max(_pressing(book, "iop-at-most"), default=book.bands.hypotony_at_most),
        high_from=min(_pressing(book, "iop-at-least"), default=book.bands.spike_from),
        kpa_per_mmhg=pressure.KPA_PER_MMHG.value,
    )


def _sheet_row(due: lists.Due) -> SheetRow:
    return SheetRow(
        operation=due.eye.id,
        visit=due.visit.name,
        visit_id=due.visit.identity,
        target=due.visit.target,
        state=due.state,
        how_soon=due.how_soon,
        reason=due.reason,
    )


def _pressing(book: Rulebook, check: str) -> list[float]:
    """The pressures in mmHg from which a rule of the book in force asks for somebody within the day."""
    rules = (r for r in book.rules if r.check == check and r.how_soon != "this-week" and set(r.threshold) == {"mmhg"})
    return [rule.number("mmhg") for rule in rules]


def _sheet_eye(desk: Desk, row: Eye, seen: dict[str, datetime], last: dict[str, Event], here: str | None) -> SheetEye:
    store, zone = desk.store, desk.zone
    open_visits = [v for v in visits.of_eye(store, row.id) if v.identity not in seen]
    likely = visit_of_today(open_visits, desk.today)
    measured = {known.side: last.get(known.id) for known in eyes.of_patient(store, row.patient.id)}
    sides = {side: _last(event, zone) for side, event in measured.items()}
    assert row.note is not None
    return SheetEye(
        operation=row.id,
        patient=row.patient.name,
        number=row.patient.number,
        phone=row.patient.phone,
        born_on=row.patient.born_on,
        eye=row.side,
        agent=row.agent,
        fades=AGENTS[row.agent].fades,
        operated_on=row.note.operated_at.astimezone(zone).date(),
        visits=[
            SheetVisit(id=v.identity, name=v.name, target=v.target, earliest=v.earliest, latest=v.latest)
            for v in open_visits
        ],
        visit=here or (likely.identity if likely else ""),
        chart=person.chart_in_use(store, measured),
        right=sides.get("right"),
        left=sides.get("left"),
    )


def _last(event: Event | None, zone: tzinfo) -> LastMeasures | None:
    if event is None or not isinstance(body := event.body, MeasuresBody):
        return None
    return LastMeasures(
        on=event.at.astimezone(zone).date(),
        acuity=body.acuity or "",
        pinhole=body.pinhole or "",
        correction=body.correction or "",
        iop_mmhg=body.iop_mmhg,
        instrument=body.instrument or "",
    )
