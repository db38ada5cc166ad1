"""What a clinic device carries for one day, to work without a signal: today's list and what the entry screens need.

The sheet holds whom the day is about, and is asked for each minute. Everybody else who is followed may come all the same:
they are on a list of their own, with what tells them apart and their next visit, which is asked for each hour, a page at a
time; whose visit comes within the week is known from there.
The browser seals both under a key that only the signed-in person's password opens, and drops them when the day ends.
"""

import hashlib
import json
from collections import defaultdict
from collections.abc import Sequence
from datetime import date, datetime, time, timedelta, tzinfo
from functools import lru_cache

from pydantic import BaseModel

from followup.care.desk import Desk
from followup.care.home import sealing
from followup.care.reading import person, state
from followup.care.reading.eye import rulebook, visit_of_today
from followup.care.today import lists
from followup.care.watch import watching
from followup.clinical import pressure
from followup.clinical.agents import AGENTS
from followup.clinical.warnings import Rulebook
from followup.protocols import book
from followup.records import Store, audit, call_lists, day_lists, events, eyes, states, visits
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Event, Eye, NextVisit, Visit
from followup.records.values import FollowedEye as Followed

MOST_CALLS = 200
"""Of the patients who are called, those with the most pressing calls are on the sheet: a list of calls has no end."""
LAST_HEARD = 300
"""Of what phones sent today, so many entries say who was heard from: on a good day that is nearly everybody."""
PAGE = 2000
FIRST_PAGE = "~"
"""Behind every id."""


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


class FollowedEye(BaseModel):
    """A followed eye: who, what is in it, and its open visits; of one that is not on the sheet only the next."""

    operation: str
    patient: str
    number: str
    eye: str
    agent: str
    fades: bool
    operated_on: date
    visits: list[SheetVisit]


class FollowedPage(BaseModel):
    """Some of all followed eyes, and after which the next page begins; None on the last."""

    eyes: list[FollowedEye]
    next: str | None


class SheetEye(FollowedEye):
    """One on the sheet: `visit` is the one that they came for, else today's, if one is; the last measures of both eyes.

    `chart` is the one that the next acuity is expected on.
    """

    phone: str
    born_on: date
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
    """Everything the device shows without a signal until `expires_at`, the end of the clinic's day.

    `chart` is the one that somebody's next acuity is expected on of whom it says nothing more.
    """

    made_at: datetime
    expires_at: datetime
    staff: str
    author_pass: str
    may_lift_caution: bool
    sealing_key: str
    rows: list[SheetRow]
    eyes: list[SheetEye]
    chart: str
    limits: PressureLimits


def mark(desk: Desk) -> str:
    """Tells whether a sheet would be another one: by all that is on record, the day, who asks, and what this version ships."""
    said = [audit.head(desk.store)[1], desk.today.isoformat(), str(desk.zone), desk.actor.id, _shipped()]
    return hashlib.blake2s("\n".join(said).encode(), digest_size=16).hexdigest()


@lru_cache
def _shipped() -> str:
    return json.dumps(DaySheet.model_json_schema()) + book.draft_text("rulebook")


def daysheet(desk: Desk, author_pass: str) -> DaySheet:
    """The sheet of one member of staff; `author_pass` is what later proves whose entries the device sends."""
    store = desk.store
    rows: list[SheetRow] = []
    here: dict[str, str] = {}
    sheet_eyes: list[SheetEye] = []
    chart = person.chart_in_use(store, {})
    with watching.parts(store, desk.now, "daysheet") as part:
        listed = lists.of_the_day(store, desk.now, desk.zone)
        for due in listed:
            with part(f"visits {due.visit.id}"):
                rows.append(_sheet_row(due))
                if due.state == "here":
                    here.setdefault(due.eye.id, due.visit.identity)
        known = _Known(store, [*(due.eye.patient.id for due in listed), *_beside_the_list(desk)])
        for row in known.followed:
            with part(row.id):
                sheet_eyes.append(_sheet_eye(desk, row, known, here.get(row.id), chart))
    return DaySheet(
        made_at=desk.now,
        expires_at=datetime.combine(desk.today + timedelta(days=1), time(), desk.zone),
        staff=desk.actor.name,
        author_pass=author_pass,
        may_lift_caution=desk.actor.may_lift_caution,
        sealing_key=sealing.public_key(store),
        rows=rows,
        eyes=sheet_eyes,
        chart=chart,
        limits=pressure_limits(rulebook(store)),
    )


def followed(desk: Desk, before: str = FIRST_PAGE) -> FollowedPage:
    """A page of all followed eyes, on the sheet or not: those whose ids stand before that one."""
    state.bring_up_to_date(desk.store, desk.now, desk.zone)
    found = states.followed(desk.store, before, PAGE)
    return FollowedPage(
        eyes=[_followed_eye(one, desk.zone) for one in found], next=found[-1].eye_id if len(found) == PAGE else None
    )


def _beside_the_list(desk: Desk) -> list[str]:
    """Patients with an open call, and those who were here or heard from today."""
    since = state.midnight(desk.now, desk.zone)
    return [
        *call_lists.calls(desk.store, MOST_CALLS, 0),
        *events.patients_here_since(desk.store, since),
        *events.patients_heard_since(desk.store, since, LAST_HEARD),
    ]


class _Known:
    """What the sheet says of some patients, read together: `followed` eyes, the latest operated first; by eye, open visits
    and last measures."""

    def __init__(self, store: Store, patient_ids: Sequence[str]) -> None:
        ids = list(dict.fromkeys(patient_ids))
        self.both = eyes.of_patients(store, ids)
        all_eyes = [eye for both in self.both.values() for eye in both]
        operated = [(eye.note.operated_at, eye) for eye in all_eyes if eye.is_followed and eye.note]
        self.followed = [eye for _, eye in sorted(operated, key=lambda found: found[0], reverse=True)]
        kept = states.of_eyes(store, [eye.id for eye in self.followed])
        told = events.by_ids(store, [one.last_measures for one in kept.values() if one.last_measures])
        self.measures = {event.eye_id: event for event in told.values()}
        self.measures |= events.last_measures(store, [eye.id for eye in all_eyes if eye.id not in kept])
        self.visits: defaultdict[str, list[Visit]] = defaultdict(list)
        planned = visits.versions(store, [one.visit_id for one in day_lists.unseen_of(store, ids)])
        for visit in sorted(planned.values(), key=lambda v: (v.target, v.name, v.identity)):
            self.visits[visit.eye_id].append(visit)


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


def _sheet_eye(desk: Desk, row: Eye, known: _Known, here: str | None, chart: str) -> SheetEye:
    open_visits = known.visits[row.id]
    likely = visit_of_today(open_visits, desk.today)
    measured = {eye.side: known.measures.get(eye.id) for eye in known.both[row.patient.id]}
    sides = {side: _last(event, desk.zone) for side, event in measured.items()}
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
        operated_on=row.note.operated_at.astimezone(desk.zone).date(),
        visits=[_sheet_visit(v) for v in open_visits],
        visit=here or (likely.identity if likely else ""),
        chart=person.chart_of(event for event in measured.values() if event) or chart,
        right=sides.get("right"),
        left=sides.get("left"),
    )


def _followed_eye(one: Followed, zone: tzinfo) -> FollowedEye:
    return FollowedEye(
        operation=one.eye_id,
        patient=one.name,
        number=one.number,
        eye=one.side,
        agent=one.agent,
        fades=AGENTS[one.agent].fades,
        operated_on=one.operated_at.astimezone(zone).date(),
        visits=[_sheet_visit(one.visit)] if one.visit else [],
    )


def _sheet_visit(v: Visit | NextVisit) -> SheetVisit:
    return SheetVisit(id=v.identity, name=v.name, target=v.target, earliest=v.earliest, latest=v.latest)


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
