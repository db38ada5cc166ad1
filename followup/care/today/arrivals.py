"""Who came: said once, and taken back where it was pressed by mistake."""

from followup.care.corrections import correcting
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.reading.eye import Eye, load, visit_of_today
from followup.care.visits import visit
from followup.records import events
from followup.records.bodies.clinic import ArrivedBody
from followup.records.values import Visit, saying


def arrive(desk: Desk, eye_id: str, identity: str) -> None:
    """The patient is in the clinic for a visit of the book; said twice on one day, it counts once."""
    with desk.store.transaction():
        eye = load(desk.store, eye_id, desk.zone)
        planned = next((v for v in eye.open_visits if v.identity == identity), None)
        if planned is None:
            raise CareError("this visit is not in the book any more, or has taken place")
        here = [e for e, arrived in saying(eye.events, ArrivedBody) if arrived.visit_id == identity]
        if not any(e.at.astimezone(desk.zone).date() == desk.today for e in here):
            body = {"visit": planned.name, "visit_id": identity}
            visit.record_clinic_event(desk, eye.id, "arrived", body)


def not_here(desk: Desk, event_id: str) -> None:
    """Take back that somebody came. Raises `Conflict` for an entry that does not say so any more."""
    found = events.event(desk.store, event_id)
    if found is None or found.kind != "arrived" or events.correction_of(desk.store, event_id):
        raise Conflict("that somebody came was taken back already")
    correcting.withdraw(desk, event_id, "pressed by mistake")


def likely_visit(desk: Desk, eye: Eye) -> Visit | None:
    """The open visit that is being entered: the one for which the patient arrived today, else the one whose window holds today."""
    came = saying(eye.events, ArrivedBody)
    named = {arrived.visit_id for e, arrived in came if e.at.astimezone(desk.zone).date() == desk.today}
    here = next((v for v in eye.open_visits if v.identity in named), None)
    return here or visit_of_today(eye.open_visits, desk.today)
