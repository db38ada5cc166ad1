"""The book of visits: add, move, cancel, did not come, walk in, and each of these taken back.

Each verb is one transaction with one audit entry. What speaks against a day is asked about, never taken silently: a verb
raises `Asks` until the questions that it asks are among those `accepted`.
"""

from collections.abc import Collection, Iterable
from datetime import date, time, timedelta
from typing import Any

from followup.care import bounds
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.eye import Eye, load
from followup.care.visits.in_book import followed_eye, open_visit, said_not_to_have_come
from followup.care.visits.openings import ahead
from followup.config import Clinic
from followup.records import events, visits
from followup.records.bodies.base import VISIT_NAME_LENGTH, Body
from followup.records.bodies.clinic import BARRIERS, ArrivedBody, DidNotComeBody
from followup.records.bodies.home import WithdrawalBody
from followup.records.store import new_id
from followup.records.values import Callback, Visit, saying

WALK_IN = "walk-in"
LONGEST_WHY = 200
SOON = timedelta(days=7)  # common practice, no source


class Asks(CareError):
    """What speaks against it, to be answered by whoever asked for it."""

    def __init__(self, questions: list[str]) -> None:
        super().__init__("; ".join(questions))
        self.questions = questions


def add(
    desk: Desk,
    clinic: Clinic,
    eye_id: str,
    name: str,
    target: date,
    reason: str,
    *,
    starts: time | None = None,
    accepted: Collection[str] = (),
) -> str:
    """Put one more visit beside the plan, due on that day; returns its identity."""
    name, reason = _said(name, "write what this visit is called", "name"), reason.strip()[:LONGEST_WHY]
    with desk.store.transaction():
        eye = followed_eye(desk, eye_id)
        check_day(desk, eye, target, "the visit")
        ask(doubts_of_day(desk, clinic, target), accepted)
        id = visits.add(
            desk.store, desk.now, eye.id, name, target, target, target, reason, desk.actor.signature, starts=starts
        )
        desk.note("visit added", eye.id, {"visit": name, "on": target.isoformat()})
    return id


def move(
    desk: Desk,
    clinic: Clinic,
    identity: str,
    target: date,
    *,
    starts: time | None = None,
    why: str = "",
    accepted: Collection[str] = (),
) -> str:
    """Put a visit on another day, or at another time; its window grows to hold that day. Returns the new version's id."""
    with desk.store.transaction():
        eye, v = open_visit(desk, identity)
        if (target, starts) == (v.target, v.starts):
            raise CareError(f"{v.name} is on that day already", "target")
        if target != v.target:
            check_day(desk, eye, target, f"the visit {v.name}")
            doubts = [*doubts_of_day(desk, clinic, target), *_doubts_of_window(v, target, desk.today)]
            ask([*doubts, *doubts_of_calls(eye.side, eye.callbacks, target, desk.today)], accepted)
        id = put_on(desk, v, target, starts, why.strip()[:LONGEST_WHY])
        desk.note("visit moved", eye.id, {"visit": v.name, "from": v.target.isoformat(), "to": target.isoformat()})
    return id


def put_on(desk: Desk, v: Visit, target: date, starts: time | None, why: str) -> str:
    """A visit stands on that day, its window grows to hold it, and its patient is to be told; returns the new version's id."""
    window = {"earliest": min(v.earliest, target), "latest": max(v.latest, target)}
    id = visits.change(desk.store, desk.now, v, desk.actor.signature, why, target=target, starts=starts, **window)
    visits.must_tell(desk.store, desk.now, id)
    return id


def change_back(desk: Desk, v: Visit, why: str, *, knows: bool = True, **as_it_was: Any) -> None:
    """A visit is again what it was: whoever was told of the change (and `knows` of the visit) is to be told of this too."""
    told_of_it = knows and not visits.is_untold(desk.store, v.id)
    id = visits.change(desk.store, desk.now, v, desk.actor.signature, why, **as_it_was)
    if told_of_it:
        visits.must_tell(desk.store, desk.now, id)


def cancel(desk: Desk, identity: str, why: str) -> str:
    """Take a visit out of the book, with the reason; returns the id of the version that says so."""
    why = _said(why, "say why this visit is cancelled", "why")
    with desk.store.transaction():
        eye, v = open_visit(desk, identity)
        id = visits.change(desk.store, desk.now, v, desk.actor.signature, why, withdrawn=True)
        visits.must_tell(desk.store, desk.now, id)
        desk.note("visit cancelled", eye.id, {"visit": v.name, "on": v.target.isoformat(), "why": why})
    return id


def did_not_come(desk: Desk, identity: str, barrier: str, words: str = "") -> str:
    """Nobody came; what stood in the way. The visit stays on the list until it is moved, cancelled, or takes place.

    Returns the id of the entry, which is put right like any other.
    """
    if barrier not in BARRIERS:
        raise CareError("choose what stood in the way", "barrier")
    if barrier == "other" and not words.strip():
        raise CareError("write what stood in the way", "words")
    with desk.store.transaction():
        eye, v = open_visit(desk, identity)
        if v.target > desk.today:
            raise CareError(f"{v.name} is still to come: it is planned for {bounds.words(v.target)}", "barrier")
        if said_not_to_have_come(eye, v):
            raise Conflict(f"that nobody came for {v.name} is on record already")
        said = DidNotComeBody(visit=v.name, visit_id=v.identity, on=v.target, barrier=barrier, words=words.strip())
        id = _event(desk, eye.id, said)
        desk.note("did not come", eye.id, {"id": id, "visit": v.name, "barrier": barrier})
    return id


def walk_in(desk: Desk, eye_id: str, reason: str) -> str:
    """Somebody came without an appointment: a visit of today, for which they are here. Returns its identity."""
    reason = _said(reason, "write why they come", "reason")
    with desk.store.transaction():
        eye, today = followed_eye(desk, eye_id), desk.today
        id = visits.add(desk.store, desk.now, eye.id, WALK_IN, today, today, today, reason, desk.actor.signature)
        _event(desk, eye.id, ArrivedBody(visit=WALK_IN, visit_id=id))
        desk.note("walk-in", eye.id, {"visit": id, "reason": reason})
    return id


def undo(desk: Desk, version: str) -> None:
    """Take back what made this version of a visit: the one before it stands again, or the visit leaves the book.

    Raises `Conflict` where the visit was changed again, or took place.
    """
    with desk.store.transaction():
        v = visits.visit(desk.store, version)
        if v is None:
            raise NotFound("there is no such visit")
        latest = visits.standing(desk.store, v.identity)
        if latest is None or latest.id != v.id:
            raise Conflict(f"{v.name} was changed again meanwhile; look at it as it stands now")
        if v.identity in load(desk.store, v.eye_id, desk.zone).seen_visits:
            raise Conflict(f"{v.name} has taken place")
        before = visits.visit(desk.store, v.replaces) if v.replaces else None
        as_it_was = {"withdrawn": True}
        if before is not None:
            as_it_was = {n: getattr(before, n) for n in ("target", "earliest", "latest", "withdrawn", "starts")}
        change_back(desk, v, "taken back", knows=before is not None, **as_it_was)
        if before is None:
            _take_back_arrival(desk, v)
        desk.note("visit change taken back", v.eye_id, {"visit": v.name})


def put_back(desk: Desk, identity: str) -> None:
    """A cancelled visit stands in the book again, as it was."""
    with desk.store.transaction():
        v = visits.standing(desk.store, identity)
        if v is None or not v.withdrawn:
            raise Conflict("this visit is in the book")
        followed_eye(desk, v.eye_id)
        change_back(desk, v, "put back", withdrawn=False)
        desk.note("visit put back", v.eye_id, {"visit": v.name, "on": v.target.isoformat()})


def told(desk: Desk, version: str) -> None:
    """The patient knows of a change."""
    with desk.store.transaction():
        v = visits.visit(desk.store, version)
        if v is None:
            raise NotFound("there is no such visit")
        if visits.told(desk.store, desk.now, version, desk.actor.signature):
            desk.note("visit change told", v.eye_id, {"visit": v.name, "on": v.target.isoformat()})


def check_day(desk: Desk, eye: Eye, target: date, what: str) -> None:
    """Raises `CareError` for a day that is over, or that no visit of this eye can be on."""
    if target < desk.today:
        raise CareError(f"{bounds.words(target)} is over; choose today or a later day", "target")
    first = eye.operations[0].at.astimezone(desk.zone).date() if eye.operated else desk.today
    last = eye.operations[-1].at.astimezone(desk.zone).date() if eye.operated else desk.today
    fault = bounds.after_surgery(target, first, desk.today, what) and bounds.after_surgery(target, last, desk.today, what)
    if fault:
        raise CareError(fault, "target")


def doubts_of_day(desk: Desk, clinic: Clinic, target: date) -> list[str]:
    """What speaks against one more visit on a day: it is closed, or full."""
    doubt = ahead(desk.store, clinic, desk.today).doubt(target)
    return [doubt] if doubt else []


def _doubts_of_window(v: Visit, target: date, today: date) -> list[str]:
    """A day out of the window is asked about; where the window is over already, one that is not soon."""
    if v.holds(target) or (v.latest < today and target <= today + SOON):
        return []
    window = bounds.words(v.earliest)
    if v.latest != v.earliest:
        window += f" to {bounds.words(v.latest)}"
    return [f"{v.name} {'was' if v.latest < today else 'is'} due {window}"]


def doubts_of_calls(side: str, callbacks: Iterable[Callback], target: date, today: date) -> list[str]:
    """A visit that is put after today while something about its eye is for now."""
    urgent = [c.worry.replace("-", " ") for c in callbacks if c.how_soon == "now" and c.state != "settled"]
    if not urgent or target <= today:
        return []
    return [f"the {side} eye has an open call for now ({', '.join(urgent)}): it must not wait for that day"]


def ask(questions: list[str], accepted: Collection[str]) -> None:
    """Raises `Asks` where a question was not answered with yes."""
    if not set(questions) <= set(accepted):
        raise Asks(questions)


def _event(desk: Desk, eye_id: str, said: Body) -> str:
    id = new_id()
    events.add(desk.store, id, eye_id, said.KIND, desk.now, said, desk.actor.signature, desk.now)
    return id


def _take_back_arrival(desk: Desk, v: Visit) -> None:
    """A visit that leaves the book was not come for."""
    for event, arrived in saying(events.of_eye(desk.store, v.eye_id), ArrivedBody):
        if arrived.visit_id == v.identity:
            body, by = WithdrawalBody(reason="taken back"), desk.actor.signature
            events.add(
                desk.store, new_id(), v.eye_id, "withdrawal", desk.now, body, by, desk.now, corrects=event.id,
                reason="taken back",
            )  # fmt: skip


def _said(words: str, asks: str, field: str) -> str:
    words = words.strip()
    if not words:
        raise CareError(asks, field)
    longest = VISIT_NAME_LENGTH if field == "name" else LONGEST_WHY
    if len(words) > longest:
        raise CareError(f"write at most {longest} characters", field)
    return words
