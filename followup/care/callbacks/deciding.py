"""Decisions on a callback, and taking them back."""

from datetime import date, datetime, timedelta

from followup.care.actors import Actor
from followup.care.callbacks.holding import claim, known_callback
from followup.care.callbacks.kinds import DECISIONS
from followup.care.callbacks.to_do import drop, make_task
from followup.care.errors import CareError, Conflict
from followup.care.visits.openings import open_days
from followup.care.visits.visit import add_extra_visit
from followup.clinical import schedule
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Clinic
from followup.records import Store, audit, tasks, visits, worries
from followup.records.values import Callback, Task

SOONER_DAYS = 3

UNDO_WITHIN = timedelta(minutes=5)


def decide(
    store: Store,
    now: datetime,
    actor: Actor,
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
    with store.transaction():
        found = known_callback(store, callback_id)
        known = tasks.of_callback(store, callback_id)
        if decided_before is not None and len(known) != decided_before:
            raise Conflict(f"meanwhile {known[-1].made_by_name} decided; look at it again")
        holder = found.claimed_by if found.state == "claimed" else None
        if found.state == "waiting":
            claim(store, now, actor, callback_id)
        return keep_decision(store, now, actor, found, outcome, words, clinic, owner=owner or holder, due_at=due_at)


def tell_of_plan(store: Store, now: datetime, actor: Actor, callback_id: str, words: str) -> Task:
    """The plan was changed in answer to a callback: somebody tells the patient; returns the task."""
    with store.transaction():
        found = known_callback(store, callback_id)
        if found.state == "settled":
            raise Conflict("this callback is settled")
        holder = found.claimed_by if found.state == "claimed" else None
        if found.state == "waiting":
            claim(store, now, actor, callback_id)
        return make_task(store, now, actor, found, "plan-changed", words, owner=holder)


def can_undo(store: Store, found: Callback, actor: Actor, now: datetime) -> bool:
    """Whether this person settled the callback, or decided, only a short while ago and nobody has called since."""
    if found.settled_at is not None:
        return found.outcome != "follow-up-ended" and found.settled_by == actor.id and now - found.settled_at <= UNDO_WITHIN
    return _just_decided(store, found, actor, now) is not None


def undo(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Take back a settlement or a decision within five minutes; a visit that it added leaves the book again."""
    with store.transaction():
        found = known_callback(store, callback_id)
        if not can_undo(store, found, actor, now):
            raise Conflict(
                "only the person who settled or decided it can take it back, for five minutes, and until somebody called"
            )
        task = _just_decided(store, found, actor, now)
        if task is not None:
            drop(store, now, actor, task, "taken back")
            worries.put_due(store, callback_id, found.opened_at + DUE_WITHIN[found.how_soon])
            if ("claimed", task.made_at) in [(s.step, s.at) for s in worries.steps_of(store, callback_id)]:
                worries.release(store, callback_id, actor.id)
        elif found.settled_at is not None and worries.reopen(store, callback_id, actor.id):
            tasks.reopen(store, callback_id, found.settled_at)
        else:
            raise Conflict("the same worry was raised again meanwhile; see the new callback")
        worries.add_step(store, now, callback_id, actor.signature, "taken back", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback taken back", callback_id)


def _just_decided(store: Store, found: Callback, actor: Actor, now: datetime) -> Task | None:
    """This person's fresh decision that nobody has acted on."""
    if found.state != "to-do":
        return None
    last = tasks.of_callback(store, found.id)[-1]
    fresh = last.done_at is None and last.made_by == actor.id and now - last.made_at <= UNDO_WITHIN
    called = any(s.at >= last.made_at and s.step in ("reached", "not reached") for s in worries.steps_of(store, found.id))
    return last if fresh and not called else None


def keep_decision(
    store: Store,
    now: datetime,
    actor: Actor,
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
    if due_at is not None and due_at <= now:
        raise CareError("by when it is done is still to come", "by")
    today = now.astimezone(clinic.tz).date()
    visit_id = None
    if outcome in ("sooner", "same-day"):
        target = _extra_day(store, today, SOONER_DAYS if outcome == "sooner" else 0, clinic)
        reason = f"after a callback ({found.worry})"
        visit_id = add_extra_visit(store, now, actor, found.eye_id, today, target, reason)
    return make_task(
        store,
        now,
        actor,
        found,
        outcome,
        words,
        owner=owner,
        due_at=due_at,
        told_at=told_at,
        visit_id=visit_id,
        zone=clinic.tz,
    )


def _extra_day(store: Store, today: date, within_days: int, clinic: Clinic) -> date:
    places = open_days(clinic, today, today + timedelta(days=within_days))
    return schedule.extra_day(today, within_days, places, visits.booked_counts(store))
