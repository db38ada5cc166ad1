"""What was entered is put right: corrected or withdrawn by a new event that points back, with all that follows from it."""

from dataclasses import dataclass
from datetime import datetime, tzinfo
from typing import Any

from followup.care import bounds
from followup.care.corrections import caution
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.entries import said, who
from followup.care.visits.visit import eye_on_side, known_eye, nothing_to_remove, removal_planned_again
from followup.care.watch import grounds
from followup.care.watch.raising import most_urgent_first, raise_signs_of_patient
from followup.clinical import agents
from followup.records import Store, events, eyes, visits, worries
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import MeasuresBody, VisitBody
from followup.records.bodies.home import WithdrawalBody
from followup.records.bodies.kinds import times_in
from followup.records.store import new_id
from followup.records.values import Callback, Event, Eye, Warning

LONGEST_REASON = 500


@dataclass(frozen=True, slots=True)
class PutRight:
    """The new event, the eye it stands on, what it raised, the warnings that lost their grounds, and the callbacks that call
    again: what was put right is worse than it was said to be, or was found after all.
    """

    event_id: str
    eye_id: str
    raised: list[Warning]
    unfounded: list[Warning]
    called_again: list[Callback]


def correct(
    desk: Desk, event_id: str, body: Body, reason: str, *, side: str | None = None, at: datetime | None = None
) -> PutRight:
    """Put another body in the place of an entry's, on the same eye or on the one of `side`, at its own time or at `at`.

    Raises `NotFound` for an entry that is not there, `Conflict` for one that was put right already, and `CareError` for
    what cannot be, or where no reason is given.
    """
    why = reason_of(reason)
    with desk.store.transaction():
        entry = _standing(desk.store, event_id, desk.zone)
        eye = known_eye(desk.store, entry.eye_id)
        onto = eye_on_side(desk.store, eye, side or eye.side)
        when = at or entry.at
        right = _checked(desk.store, desk.now, entry, eye, onto, body, when)
        if (onto.id, when, right) == (eye.id, entry.at, entry.body):
            raise CareError("nothing was changed: correct something, or withdraw the entry")
        before = grounds.found(desk.store, eye.patient.id, desk.now, desk.zone)
        cautions = caution.under_caution(desk, eye.patient.id)
        id = new_id()
        events.add(
            desk.store, id, onto.id, entry.kind, when, right, desk.actor.signature, desk.now, corrects=event_id, reason=why
        )  # fmt: skip
        if entry.kind == "tamponade-removed" and onto.id != eye.id:
            removal_planned_again(desk, eye, entry)
            nothing_to_remove(desk, onto)
        caution.keep(desk, eye.patient.id, cautions)
        moved_to = onto.side if onto.id != eye.id else ""
        after = _told(moved_to, right, when if when != entry.at else None, desk.zone)
        told = f"was: {said(entry.body, desk.zone)}; is: {after}"
        detail = {"id": event_id, "now": id, "eye": onto.id, "reason": why}
        return _follow(desk, eye, entry, id, onto.id, before, told, why, "corrected", detail)


def withdraw(desk: Desk, event_id: str, reason: str) -> PutRight:
    """Take back what was entered by mistake: the entry stays on record and counts no more. Raises as `correct` does."""
    why = reason_of(reason)
    with desk.store.transaction():
        entry = _standing(desk.store, event_id, desk.zone)
        eye = known_eye(desk.store, entry.eye_id)
        before = grounds.found(desk.store, eye.patient.id, desk.now, desk.zone)
        cautions = caution.under_caution(desk, eye.patient.id)
        id = new_id()
        events.add(
            desk.store,
            id,
            entry.eye_id,
            "withdrawal",
            desk.now,
            WithdrawalBody(reason=why),
            desk.actor.signature,
            desk.now,
            corrects=event_id,
            reason=why,
        )
        if entry.kind == "tamponade-removed":
            removal_planned_again(desk, eye, entry)
        caution.keep(desk, eye.patient.id, cautions)
        told = f"was: {said(entry.body, desk.zone)}; is withdrawn"
        detail = {"id": event_id, "reason": why}
        return _follow(desk, eye, entry, id, eye.id, before, told, why, "taken back", detail)


def outcome(store: Store, later: Event) -> PutRight:
    """What an event that put another right raised, which warnings lost their grounds by it, and what calls again."""
    eye = known_eye(store, later.eye_id)
    both = eyes.of_patient(store, eye.patient.id)
    kept = most_urgent_first([w for known in both for w in worries.warnings_of(store, known.id)])
    lost = worries.marked_by(store, later.id)
    raised = [w for w in kept if w.recorded_at == later.received_at]
    again = grounds.called_again(store, eye.patient.id, later.id)
    return PutRight(later.id, eye.id, raised, [w for w in kept if w.id in lost], again)


def _follow(
    desk: Desk,
    eye: Eye,
    entry: Event,
    id: str,
    onto: str,
    before: grounds.Found,
    told: str,
    why: str,
    verb: str,
    detail: dict[str, Any],
) -> PutRight:
    lost = grounds.follow(desk, eye.patient.id, before, told, why, at=entry.at, event_id=id)
    desk.note(f"{entry.kind} {verb}", eye.id, detail)
    raised = raise_signs_of_patient(desk.store, eye.patient.id, desk.now, desk.zone)
    return PutRight(id, onto, raised, lost, grounds.called_again(desk.store, eye.patient.id, id))


def reason_of(reason: str) -> str:
    """Why something is put right; raises `CareError` where nobody says so."""
    why = reason.strip()
    if not why:
        raise CareError("say why this is put right", "reason")
    if len(why) > LONGEST_REASON:
        raise CareError(f"write at most {LONGEST_REASON} characters", "reason")
    return why


def _standing(store: Store, event_id: str, zone: tzinfo) -> Event:
    """The entry, which nothing has put right yet."""
    entry = events.event(store, event_id)
    if entry is None or entry.kind == "withdrawal":
        raise NotFound("there is no such entry")
    newer = events.correction_of(store, event_id)
    if newer is None:
        return entry
    by = f"by {who(store, newer.author)} on {_moment(newer.received_at, zone)}"
    if newer.kind == "withdrawal":
        raise Conflict(f"this entry was withdrawn {by}: enter what is right anew")
    raise Conflict(f"this entry was corrected {by}; it says now: {said(newer.body, zone)}. Correct that newer entry")


def _checked(
    store: Store,
    now: datetime,
    entry: Event,
    eye: Eye,
    onto: Eye,
    body: Body,
    when: datetime,
) -> Body:
    """The body as it is kept. Raises `CareError` for what cannot be."""
    match body:
        case MeasuresBody():
            right: Body = body.model_copy(update={"eye": onto.side})
        case VisitBody():
            right = _visit_of(store, onto, body, entry)
        case _:
            right = body
    if entry.kind != right.KIND:
        raise CareError("an entry is put right by one of its own kind")
    if when != entry.at and when > now:
        raise CareError("the time of an entry cannot lie in the future", "at")
    for time in (when, *times_in(right)):
        if fault := bounds.event(time, now):
            raise CareError(fault, "at")
    _keeps_the_caution(store, entry, eye, onto, when)
    return right


def _visit_of(store: Store, onto: Eye, given: VisitBody, entry: Event) -> VisitBody:
    """The visit that took place, as it stands in the eye's book; what was not changed may have left the book since."""
    if given == entry.body and onto.id == known_eye(store, entry.eye_id).id:
        return given
    found = next((v for v in visits.of_eye(store, onto.id) if v.identity == given.visit_id), None)
    if found is None:
        raise CareError("this visit is not in the book of that eye: choose another, or withdraw the entry", "visit")
    return given.model_copy(update={"visit": found.name, "visit_id": found.identity})


def _keeps_the_caution(store: Store, entry: Event, eye: Eye, onto: Eye, when: datetime) -> None:
    """No correction lifts the caution of gas where nobody was asked: that is done by *no gas seen* alone."""
    if entry.kind == "no-gas-seen" and (onto.id != eye.id or when > entry.at):
        raise CareError("“no gas seen” lifts a caution: withdraw it here and record it anew, beside the last level seen")
    if entry.kind == "tamponade-removed" and onto.id != eye.id:
        left = next((n.agent for n in reversed(eyes.notes_of(store, onto.id)) if n.operated_at <= when), "none")
        if left not in agents.LIQUIDS:
            raise CareError(f"there was no oil in the {onto.side} eye then: withdraw the entry instead", "side")


def _told(side: str, body: Body, at: datetime | None, zone: tzinfo) -> str:
    words = said(body, zone)
    moved = f"{side} eye, {words}" if side and not isinstance(body, MeasuresBody) else words
    return f"{moved}, on {_moment(at, zone)}" if at else moved


def _moment(at: datetime, zone: tzinfo) -> str:
    local = at.astimezone(zone)
    return f"{bounds.words(local.date())} at {local:%H:%M}"
