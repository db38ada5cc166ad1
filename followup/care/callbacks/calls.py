"""Calls on a callback: whom they reached, when to try again, and whether anybody was spoken to."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from followup.care.callbacks.holding import has_in_hand, in_hand, known_callback, open_of_patient
from followup.care.callbacks.kinds import CANCELLED, LEVELS, URGENT
from followup.care.callbacks.moving_up import move_up
from followup.care.callbacks.to_do import do_by, due_with_its_tasks
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.clinical.callbacks import DUE_WITHIN
from followup.config import Clinic
from followup.records import Store, events, tasks, worries
from followup.records.bodies.clinic import HeardBody
from followup.records.store import new_id
from followup.records.values import Callback, Step

TRY_AGAIN_AFTER = {"now": timedelta(minutes=15), "today": timedelta(hours=1), "this-week": timedelta(days=1)}

LATE_AFTER = timedelta(minutes=15)


def attempt(
    desk: Desk, callback_id: str, spoke_to: str | None, words: str, clinic: Clinic, next_try: datetime | None = None
) -> None:
    """Record a call: whom it reached (`patient`, `carer` or None for nobody) and what was said.

    One call counts for every open callback of that patient that the caller has in hand. A call that reached nobody closes
    nothing: it sets the next try, and after as many in a row as the clinic set the callbacks move up.
    """
    with desk.store.transaction():
        asked = known_callback(desk.store, callback_id)
        in_hand(desk, asked)
        mine = [c for c in open_of_patient(desk.store, asked) if has_in_hand(desk, c)]
        due = None if spoke_to else _next_try(mine[0], desk.now, next_try)
        if due is None:
            heard, by = HeardBody(words=words), desk.actor.signature
            events.add(desk.store, new_id(), asked.eye_id, heard.KIND, desk.now, heard, by, desk.now)
        for found in mine:
            _count(desk, found, spoke_to, words, clinic, due)


def _count(desk: Desk, found: Callback, spoke_to: str | None, words: str, clinic: Clinic, due: datetime | None) -> None:
    """What a call means for one of the callbacks it is about."""
    step = "reached" if spoke_to else "not reached"
    detail = {"by": desk.actor.name, "words": words, "spoke_to": spoke_to, "next_try": due.isoformat() if due else None}
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, step, detail)
    if due is None:
        for task in tasks.of_callback(desk.store, found.id):
            if task.done_at is None:
                tasks.told(desk.store, desk.now, task.id, do_by(task, desk.now, clinic.tz))
        due_with_its_tasks(desk.store, desk.now, found)
    else:
        worries.put_due(desk.store, found.id, due + LATE_AFTER, due)
        _move_up_after_tries(desk.store, desk.now, found, due + LATE_AFTER, clinic.calls_before_moving_up)
    desk.note("callback attempt", found.id, {"reached": bool(spoke_to)})


def _next_try(found: Callback, now: datetime, asked: datetime | None) -> datetime:
    latest = now + DUE_WITHIN[found.how_soon]
    next_try = asked or now + TRY_AGAIN_AFTER[found.how_soon]
    if not now < next_try <= latest:
        hours = DUE_WITHIN[found.how_soon] / timedelta(hours=1)
        raise CareError(f"the next try is still to come, and within {hours:g} hour{'s' if hours != 1 else ''}", "next_try")
    return next_try


def _move_up_after_tries(store: Store, now: datetime, found: Callback, due: datetime, calls: int) -> None:
    steps = [s.step for s in worries.steps_of(store, found.id) if s.step in ("reached", "not reached")]
    tries = next((n for n, step in enumerate(reversed(steps)) if step == "reached"), len(steps))
    if tries % calls == 0 and found.level < len(LEVELS) - 1:
        move_up(store, now, found, due, {"why": f"not reached in {tries} calls"})


def need_conversation(store: Store, found: Callback) -> None:
    """Raises `CareError` unless somebody was spoken to since the last urgent sign."""
    if not conversation(worries.steps_of(store, found.id)):
        raise CareError(
            "nobody has spoken to the patient or carer since this was raised: record the call that reached them", "outcome"
        )


def conversation(steps: Sequence[Step]) -> bool:
    """Whether a call reached somebody after the last urgent sign, or after any where none was urgent, and since theatre that was
    decided fell away.
    """
    spoken = False
    for step in steps:
        if step.step == "reached":
            spoken = True
        elif step.step == CANCELLED or (step.step in ("opened", "raised again") and step.detail.get("how_soon") in URGENT):
            spoken = False
    return spoken
