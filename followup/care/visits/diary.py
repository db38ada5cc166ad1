"""The paper diary of a patient without the app: the printed sheet, and its days entered by staff as if by the patient."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from pydantic import ValidationError

from followup.care import bounds
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.reading.eye import Eye, load, rulebook
from followup.care.visits.visit import known_eye
from followup.care.watch.dangers import Danger, Translate, dangers
from followup.care.watch.raising import raise_signs_of_patient
from followup.clinical.checks.attendance import planned_calls
from followup.records import Store, events
from followup.records.bodies.base import Body, first_message
from followup.records.bodies.home import PostureBody, SymptomsBody
from followup.records.store import new_id
from followup.records.values import Warning

EVENING = time(20)  # a diary has days: what it says of one is put at its evening, or now where that is to come


DIARY_DAYS = 21


@dataclass(frozen=True)
class Sheet:
    """A paper diary: its days, those on which somebody calls, and what to call for."""

    days: list[date]
    calls: set[date]
    dangers: list[Danger]


def sheet(store: Store, eye: Eye, translate: Translate) -> Sheet:
    """The diary of an operated eye, from the day after surgery; `translate` puts the dangers into the patient's words."""
    book = rulebook(store)
    operated_on = eye.operation.at.astimezone(eye.zone).date()
    calls = {
        day
        for rule in book.rules
        if rule.check == "diary-call"
        for day in planned_calls(operated_on, rule.threshold["days"], rule.threshold["weekdays"])
    }
    days = [operated_on + timedelta(days=n) for n in range(1, DIARY_DAYS + 1)]
    return Sheet(days, calls, dangers(book, eye.operations, translate))


def enter(
    desk: Desk, eye_id: str, day: date, answers: SymptomsBody | None, posture_hours: float | None = None
) -> list[Warning]:
    """Record one day of the diary: the answers of an eye check, and hours in the planned position; returns what it raised.

    Raises `CareError` for an empty day, one that is to come or before surgery, and hours without a planned position.
    """
    if day > desk.today:
        raise CareError("this day is still to come", "day")
    if answers is None and posture_hours is None:
        raise CareError("nothing was entered: write at least one answer", "day")
    at = min(datetime.combine(day, EVENING, desk.zone).astimezone(UTC), desk.now)
    with desk.store.transaction():
        eye = load(desk.store, eye_id, desk.zone)
        if not eye.operated or at < eye.operation.at:
            operated_on = bounds.words(eye.operation.at.astimezone(desk.zone).date()) if eye.operated else ""
            since = f"the diary begins with surgery, {operated_on}" if operated_on else "this eye was not operated"
            raise CareError(since, "day")
        if answers:
            _add(desk, eye.id, at, answers)
        if posture_hours is not None:
            plan = eye.operation.plan
            if plan is None:
                raise CareError("no head position is planned for this eye", "posture_hours")
            if not 0 < posture_hours <= 24:
                raise CareError("write 0 to 24 hours; leave it empty for none", "posture_hours")
            start = max(datetime.combine(day, time(), desk.zone).astimezone(UTC), at - timedelta(hours=posture_hours))
            _add(desk, eye.id, at, _lay(plan.position, start, at))
        return raise_signs_of_patient(desk.store, eye.patient.id, desk.now, desk.zone)


def _lay(position: str, start: datetime, end: datetime) -> PostureBody:
    try:
        return PostureBody(position=position, start=start, end=end)
    except ValidationError as error:
        raise CareError(first_message(error)) from error


def _add(desk: Desk, eye_id: str, at: datetime, said: Body) -> None:
    id = new_id()
    events.add(desk.store, id, known_eye(desk.store, eye_id).id, said.KIND, at, said, desk.actor.signature, desk.now)
    desk.note(f"diary {said.KIND}", eye_id, {"id": id})
