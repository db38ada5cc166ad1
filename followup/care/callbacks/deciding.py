"""Decisions on a callback, and taking them back."""

from datetime import date, datetime, timedelta

from followup.care.callbacks.holding import claim, known_callback
from followup.care.callbacks.kinds import DECISIONS
from followup.care.callbacks.to_do import drop, make_task
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.visits.openings import open_days
from followup.care.visits.visit import add_extra_visit
from followup.clinical import schedule
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Clinic
from followup.records import Store, tasks, visits, worries
from followup.records.values import Callback, Task

SOONER_DAYS = 3

UNDO_WITHIN = timedelta(minutes=5)


def decide(
    desk: Desk,
    callback_id: str,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    owner: str | None = None,
    due_at: datetime | None = None,
    decided_before: int | None = None,
) -> Task:
    """Decide, whoever has the callback; returns the task that this makes.

    It goes to `owner` (a staff id), else to whoever has the callback, else it is everybody's. `due_at` is by when the
    patient is told; without it the decision and the callback's urgency say. `decided_before` is how many decisions the
    decider has seen: `Conflict` if there was another one meanwhile.
    """
    if outcome not in DECISIONS:
        raise CareError("choose what is to happen", "outcome")
    with desk.store.transaction():
        found = known_callback(desk.store, callback_id)
        known = tasks.of_callback(desk.store, callback_id)
        if decided_before is not None and len(known) != decided_before:
            raise Conflict(f"meanwhile {known[-1].made_by_name} decided; look at it again")
        holder = found.claimed_by if found.state == "claimed" else None
        if found.state == "waiting":
            claim(desk, callback_id)
        return keep_decision(desk, found, outcome, words, clinic, owner=owner or holder, due_at=due_at)


def tell_of_plan(desk: Desk, callback_id: str, words: str) -> Task:
    """The plan was changed in answer to a callback: somebody tells the patient; returns the task."""
    with desk.store.transaction():
        found = known_callback(desk.store, callback_id)
        if found.state == "settled":
            raise Conflict("this callback is settled")
        holder = found.claimed_by if found.state == "claimed" else None
        if found.state == "waiting":
            claim(desk, callback_id)
        return make_task(desk, found, "plan-changed", words, owner=holder)


def can_undo(desk: Desk, found: Callback) -> bool:
    """Whether this person settled the callback, or decided, only a short while ago and nobody has called since."""
    if found.settled_at is not None:
        return (
            found.outcome != "follow-up-ended"
            and found.settled_by == desk.actor.id
            and desk.now - found.settled_at <= UNDO_WITHIN
        )
    return _just_decided(desk, found) is not None


def undo(desk: Desk, callback_id: str) -> None:
    """Take back a settlement or a decision within five minutes; a visit that it added leaves the book again."""
    with desk.store.transaction():
        found = known_callback(desk.store, callback_id)
        if not can_undo(desk, found):
            raise Conflict(
                "only the person who settled or decided it can take it back, for five minutes, and until somebody called"
            )
        task = _just_decided(desk, found)
        if task is not None:
            drop(desk, task, "taken back")
            worries.put_due(desk.store, callback_id, found.opened_at + DUE_WITHIN[found.how_soon])
            if ("claimed", task.made_at) in [(s.step, s.at) for s in worries.steps_of(desk.store, callback_id)]:
                worries.release(desk.store, callback_id, desk.actor.id)
        elif found.settled_at is not None and worries.reopen(desk.store, callback_id, desk.actor.id):
            tasks.reopen(desk.store, callback_id, found.settled_at)
        else:
            raise Conflict("the same worry was raised again meanwhile; see the new callback")
        worries.add_step(desk.store, desk.now, callback_id, desk.actor.signature, "taken back", {"by": desk.actor.name})
        desk.note("callback taken back", callback_id)


def _just_decided(desk: Desk, found: Callback) -> Task | None:
    """This person's fresh decision that nobody has acted on."""
    if found.state != "to-do":
        return None
    last = tasks.of_callback(desk.store, found.id)[-1]
    fresh = last.done_at is None and last.made_by == desk.actor.id and desk.now - last.made_at <= UNDO_WITHIN
    called = any(
        s.at >= last.made_at and s.step in ("reached", "not reached") for s in worries.steps_of(desk.store, found.id)
    )
    return last if fresh and not called else None


def keep_decision(
    desk: Desk,
    found: Callback,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    owner: str | None,
    due_at: datetime | None = None,
    told_at: datetime | None = None,
) -> Task:
    if found.state == "settled":
        raise Conflict("this callback is settled")
    if due_at is not None and due_at <= desk.now:
        raise CareError("by when it is done is still to come", "by")
    visit_id = None
    if outcome in ("sooner", "same-day"):
        target = _extra_day(desk.store, desk.today, SOONER_DAYS if outcome == "sooner" else 0, clinic)
        reason = f"after a callback ({found.worry})"
        visit_id = add_extra_visit(desk, found.eye_id, desk.today, target, reason)
    return make_task(desk, found, outcome, words, owner=owner, due_at=due_at, told_at=told_at, visit_id=visit_id)


def _extra_day(store: Store, today: date, within_days: int, clinic: Clinic) -> date:
    places = open_days(clinic, today, today + timedelta(days=within_days), store)
    return schedule.extra_day(today, within_days, places, visits.booked_counts(store))
