"""A clinic visit: what was measured on each eye, and what it raised; and visits that come and go with what was recorded."""

from collections.abc import Sequence
from datetime import date, datetime, tzinfo
from typing import Any

from followup.care.actors import barred
from followup.care.desk import Desk
from followup.care.errors import CareError, NotFound, Refused
from followup.care.reading.eye import load
from followup.care.watch.raising import most_urgent_first, raise_signs_of_patient, raised_at
from followup.records import Store, events, eyes, visits
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import MeasuresBody, NoGasSeenBody, SeenBody
from followup.records.bodies.kinds import body_of
from followup.records.store import new_id
from followup.records.values import Event, Eye, Visit, Warning

EXTRA_VISIT = "extra visit"
REMOVAL_VISIT = "list for oil removal"  # as the review protocol names it
OPERATED_AGAIN = "the eye was operated again"
"""Why the plan before an operation leaves the book."""


def record_visit(
    desk: Desk,
    eye_id: str,
    measures: Sequence[MeasuresBody],
    *,
    visit: str | None = None,
    no_gas_seen: bool = False,
    entry_id: str | None = None,
) -> list[Warning]:
    """Record the measures of a visit and the visit of that eye itself; returns the warnings it raised, on either eye.

    Measures go to the eye they were taken on. `visit` is its identity, or its name: then the open visit of that name is
    meant whose window holds today, else the nearest. Without it the visit was not a planned one, and none counts as having
    taken place. `entry_id` is the form's own: sent twice with the same words, it is kept once and says what it raised then.
    """
    if not measures and visit is None and not no_gas_seen:
        raise CareError("nothing was entered: write at least one measure")
    if no_gas_seen and any(body.bubble_percent for body in measures):
        raise CareError("a bubble that has a height and “no gas seen” cannot both be: correct one of them")
    with desk.store.transaction():
        eye = known_eye(desk.store, eye_id)
        said: list[tuple[Eye, Body]] = [(eye_on_side(desk.store, eye, body.eye), body) for body in measures]
        if visit is not None:
            said.append((eye, _named(desk.store, desk.now, eye.id, visit, desk.zone)))
        if no_gas_seen:
            said.append((eye, NoGasSeenBody()))
        both = [known.id for known in eyes.of_patient(desk.store, eye.patient.id)]
        first = events.event(desk.store, entry_id) if entry_id else None
        if first and _said_then(desk, first, both, [body for _, body in said]):
            return most_urgent_first([w for id in both for w in raised_at(desk.store, id, first.received_at)])
        ids = [new_id() if first or not entry_id else entry_id, *(new_id() for _ in said)]
        for (of, body), id in zip(said, ids, strict=False):
            _add(desk, of, body, id)
        return raise_signs_of_patient(desk.store, eye.patient.id, desk.now, desk.zone)


def new_entry_id() -> str:
    """An id for a form that is about to be filled in, so that it is kept once however often it is sent."""
    return new_id()


def _said_then(desk: Desk, first: Event, both: Sequence[str], said: Sequence[Body]) -> bool:
    """Whether this person recorded just this of these eyes together with an entry."""
    then = [e for id in both for e in events.history_of(desk.store, id) if e.received_at == first.received_at]
    mine = [e.body for e in then if e.author == desk.actor.signature]
    return len(mine) == len(said) and all(body in mine for body in said)


def record_clinic_event(desk: Desk, eye_id: str, kind: str, body: dict[str, Any]) -> list[Warning]:
    """Record one event by staff, such as no gas seen or oil taken out; returns the warnings it raised."""
    try:
        said = body_of(kind, body)
    except ValueError as error:
        raise CareError(str(error)) from error
    with desk.store.transaction():
        eye = known_eye(desk.store, eye_id)
        _add(desk, eye, said)
        if kind == "tamponade-removed":
            nothing_to_remove(desk, eye)
        return raise_signs_of_patient(desk.store, eye.patient.id, desk.now, desk.zone)


def add_extra_visit(desk: Desk, eye_id: str, today: date, target: date, reason: str) -> str:
    """Put a visit beside the plan, due from today to `target`; returns its identity. Nothing planned is touched."""
    id = visits.add(desk.store, desk.now, eye_id, EXTRA_VISIT, target, today, target, reason, desk.actor.signature)
    desk.note("extra visit", eye_id, {"on": target.isoformat()})
    return id


def withdraw_visit(desk: Desk, eye_id: str, identity: str, why: str = "what it was planned for fell away") -> None:
    """Take a visit out of the book because of something else that was recorded."""
    v = visits.standing(desk.store, identity)
    if v is not None and not v.withdrawn:
        visits.change(desk.store, desk.now, v, desk.actor.signature, why, withdrawn=True)
        desk.note("visit withdrawn", v.eye_id, {"visit": v.name, "on": v.target.isoformat()})


def plan_again(desk: Desk, v: Visit, why: str) -> str:
    """Put a visit that had left the book into it again; returns its new version."""
    version = visits.change(desk.store, desk.now, v, desk.actor.signature, why, withdrawn=False)
    desk.note("visit planned again", v.eye_id, {"visit": v.name, "on": v.target.isoformat()})
    return version


def nothing_to_remove(desk: Desk, eye: Eye) -> None:
    """The oil is out: the visit at which its removal was to be planned leaves the book."""
    for visit in load(desk.store, eye.id, desk.zone).open_visits:
        if visit.name == REMOVAL_VISIT:
            withdraw_visit(desk, eye.id, visit.identity, "the oil was taken out")


def removal_planned_again(desk: Desk, eye: Eye, entry: Event) -> None:
    """The oil is still there: the visit that left the book with that entry stands in it again."""
    for v in visits.withdrawn_at(desk.store, eye.id, entry.received_at):
        if v.name == REMOVAL_VISIT:
            plan_again(desk, v, "the oil is still there")


def known_eye(store: Store, eye_id: str) -> Eye:
    """An eye of the records; raises `NotFound`."""
    found = eyes.eye(store, eye_id)
    if found is None:
        raise NotFound("there is no such eye in the records")
    return found


def eye_on_side(store: Store, eye: Eye, side: str) -> Eye:
    """That eye, or its fellow."""
    return next(known for known in eyes.of_patient(store, eye.patient.id) if known.side == side)


def _named(store: Store, now: datetime, eye_id: str, visit: str, zone: tzinfo) -> SeenBody:
    """The visit that took place, as the book has it."""
    today = now.astimezone(zone).date()
    eye = load(store, eye_id, zone)
    known = [v for v in eye.visits if v.identity == visit] or [v for v in eye.visits if v.name == visit]
    if not known:
        raise CareError("this visit is not in the book any more; choose another, or none", "visit")

    def likelihood(v: Visit) -> tuple[bool, bool, int]:
        return v.identity in eye.seen_visits, not v.holds(today), abs((v.target - today).days)

    meant = min(known, key=likelihood)
    return SeenBody(visit=meant.name, visit_id=meant.identity)


def _add(desk: Desk, eye: Eye, said: Body, id: str | None = None) -> None:
    if fault := barred(desk.actor, said.KIND):
        raise Refused(fault, "no_gas_seen")
    id = id or new_id()
    events.add(desk.store, id, eye.id, said.KIND, desk.now, said, desk.actor.signature, desk.now)
    desk.note(f"event {said.KIND}", eye.id, {"id": id})
