"""What the discharge of an operation had ended on an eye stands again: it was of the other eye, or no later operation at all.

Visits of the plan before, calls about visits that were missed, and theatre that was decided. All of it bears the moment in
which the operation was recorded.
"""

from datetime import date, datetime

from followup.care.callbacks.holding import known_callback
from followup.care.callbacks.kinds import CANCELLED
from followup.care.callbacks.settling import OPERATED
from followup.care.desk import Desk
from followup.care.visits.visit import OPERATED_AGAIN, plan_again
from followup.clinical.callbacks import DUE_WITHIN
from followup.records import tasks, visits, worries
from followup.records.values import Callback, Task, Visit

STEP = "taken back"


def plan(desk: Desk, eye_id: str, ended_at: datetime, why: str) -> list[Visit]:
    """The visits that left the book then are in it again, and their patient is to be told; whoever missed one is asked why."""
    gone = [v for v in visits.withdrawn_at(desk.store, eye_id, ended_at) if v.why == OPERATED_AGAIN]
    for v in gone:
        visits.must_tell(desk.store, desk.now, plan_again(desk, v, why))
    for found in worries.callbacks_of(desk.store, eye_id):
        if found.worry == "missed-visit" and (found.settled_at, found.outcome) == (ended_at, "no-action"):
            _open(desk, found, why)
    return gone


def theatre(desk: Desk, eye_id: str, ended_at: datetime, why: str, operated_on: date | None = None) -> list[Callback]:
    """Theatre that was done by this operation is still to come; returns its callbacks. `operated_on` is the day of surgery
    where that was of this eye: then only what was decided after it.
    """
    ended = [t for t in tasks.for_theatre_of(desk.store, eye_id) if (t.done_at, t.done_words) == (ended_at, OPERATED)]
    still = [t for t in ended if operated_on is None or t.made_at.astimezone(desk.zone).date() > operated_on]
    return list({found.id: found for found in (_to_come(desk, task, why) for task in still)}.values())


def _to_come(desk: Desk, task: Task, why: str) -> Callback:
    """Everybody's to do again, planned as it was; where the same worry is open anew by now, that has to be decided."""
    found = known_callback(desk.store, task.callback_id)
    if found.state == "settled" and not _open(desk, found, why):
        tasks.end(desk.store, desk.now, task.id, desk.actor.id, why, given_up=True)
        other = worries.open_callback_of(desk.store, found.eye_id, found.worry)
        assert other is not None
        worries.add_step(desk.store, desk.now, other.id, desk.actor.signature, CANCELLED, _said(desk, why))
        return other
    day, on_list = _planned(desk, task)
    tasks.reopen(desk.store, task.callback_id, task.done_at or desk.now)
    tasks.plan_theatre(desk.store, task.id, day, on_list)
    tasks.give(desk.store, task.id, None, task.owner)
    if found.state != "settled":
        _say(desk, found, why)
        worries.put_due(desk.store, found.id, desk.now + DUE_WITHIN[found.how_soon])
    return known_callback(desk.store, found.id)


def _planned(desk: Desk, task: Task) -> tuple[date | None, str]:
    """Day and list as they were last planned, before the operation was taken for it."""
    said = [s.detail for s in worries.steps_of(desk.store, task.callback_id) if s.step == "theatre planned"]
    day = said[-1].get("theatre_on") if said else None
    return date.fromisoformat(day) if day else None, task.theatre_list


def _open(desk: Desk, found: Callback, why: str) -> bool:
    """Whether a settled callback is open again; it is not where another is for the same worry."""
    if not worries.open_anew(desk.store, found.id, desk.now + DUE_WITHIN[found.how_soon]):
        return False
    _say(desk, found, why)
    return True


def _say(desk: Desk, found: Callback, why: str) -> None:
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, STEP, _said(desk, why))
    desk.note("callback taken back", found.id)


def _said(desk: Desk, why: str) -> dict[str, str]:
    return {"by": desk.actor.name, "words": why}
