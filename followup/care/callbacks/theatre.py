"""Eyes for theatre by day and list: planned, moved, cancelled. Confirmed as any task is done; an operation ends it."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date

from followup.care.callbacks.holding import known_callback, known_task, take_task
from followup.care.callbacks.kinds import CANCELLED
from followup.care.callbacks.settling import THEATRE_WITHIN, check_theatre_day, finish
from followup.care.callbacks.to_do import due_with_its_tasks, make_task
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.clinical.callbacks import DUE_WITHIN
from followup.records import eyes, tasks, worries
from followup.records.store import new_id
from followup.records.values import Callback, Eye, Task

LONGEST_LIST = 120


@dataclass(frozen=True)
class Booked:
    """An eye for theatre; `worry` what it is for. A task that is done is confirmed."""

    task: Task
    eye: Eye
    worry: str

    @property
    def confirmed(self) -> bool:
        return self.task.done_at is not None


def listed(desk: Desk) -> list[Booked]:
    """Every eye for theatre once for each decision: those without a day first, then by day and list."""
    found: dict[tuple[str, str], Task] = {}
    for task in tasks.for_theatre(desk.store):
        found.setdefault((task.decision or task.id, task.eye_id), task)
    return _with_eyes(desk, found.values())


def withdrawn(desk: Desk) -> list[Booked]:
    """Theatre that the end of follow-up took off the list and whose day is not over: whoever keeps that list is to know."""
    gone = tasks.theatre_withdrawn(desk.store, desk.now - THEATRE_WITHIN, desk.today)
    return _with_eyes(desk, {(t.decision or t.id, t.eye_id): t for t in gone}.values())


def _with_eyes(desk: Desk, found: Collection[Task]) -> list[Booked]:
    known = eyes.by_ids(desk.store, sorted({t.eye_id for t in found}))
    return [Booked(t, known[t.eye_id], known_callback(desk.store, t.callback_id).worry) for t in found if t.eye_id in known]


def plan(desk: Desk, task_id: str, on: date | None, on_list: str) -> str:
    """Say on which day theatre is and on which list, as far as that is known, of that eye; returns the task to go on with.

    What was confirmed for another day is to be told and confirmed anew, as a new task.
    """
    on_list = on_list.strip()
    if len(on_list) > LONGEST_LIST:
        raise CareError(f"write at most {LONGEST_LIST} characters", "theatre_list")
    with desk.store.transaction():
        task = _standing(desk, task_id)
        if on is not None:
            check_theatre_day(desk, task, on)
        if (on, on_list) == (task.theatre_on, task.theatre_list):
            return task.id
        together = _together(desk, task)
        if task.done_at is not None:
            decision, words = new_id(), f"moved from {task.theatre_on:%-d %B %Y}" if task.theatre_on else "moved"
            opened = {found.id: found for found in (_fall_away(desk, t, words) for t in together)}
            together = [make_task(desk, found, "theatre", words, decision, owner=None) for found in opened.values()]
        for same in together:
            tasks.plan_theatre(desk.store, same.id, on, on_list)
            detail = {"by": desk.actor.name, "words": on_list, "theatre_on": on.isoformat() if on else None}
            worries.add_step(desk.store, desk.now, same.callback_id, desk.actor.signature, "theatre planned", detail)
        desk.note("theatre planned", task.eye_id, {"on": on.isoformat() if on else None, "list": on_list})
        return together[0].id


def confirm(desk: Desk, task_id: str) -> None:
    """Theatre takes place as it is planned, and the patient knows: it is done, and stays on the list until the operation."""
    with desk.store.transaction():
        task = _standing(desk, task_id)
        if task.done_at is None and task.owner is None:
            take_task(desk, task_id, None)
        finish(desk, task_id, "")


def cancel(desk: Desk, task_id: str, why: str) -> None:
    """Theatre falls away: what it was for waits again to be decided, with the reason."""
    if not why.strip():
        raise CareError("say why it is cancelled", "why")
    with desk.store.transaction():
        task = _standing(desk, task_id)
        for same in _together(desk, task):
            found = _fall_away(desk, same, why.strip())
            due_with_its_tasks(desk.store, desk.now, found)
        desk.note("theatre cancelled", task.eye_id, {"why": why.strip()})


def _standing(desk: Desk, task_id: str) -> Task:
    """What is still to come of a decision for theatre. Raises `Conflict` where nothing is."""
    task = known_task(desk.store, task_id)
    if task.kind != "theatre" or task.given_up:
        raise Conflict("this fell away meanwhile; look at the list again")
    if not tasks.is_for_theatre(desk.store, task.id):
        raise Conflict("this eye was operated meanwhile, or its follow-up ended")
    return task


def _together(desk: Desk, task: Task) -> list[Task]:
    """That task and those that the same decision made for other worries of the eye."""
    return [
        t
        for t in tasks.for_theatre_of(desk.store, task.eye_id)
        if t.id == task.id
        or (task.decision is not None and t.decision == task.decision and (t.done_at is None) == (task.done_at is None))
    ]


def _fall_away(desk: Desk, task: Task, why: str) -> Callback:
    """End a task that does not take place; its callback, or the one that is open for the same worry, waits again."""
    tasks.end(desk.store, desk.now, task.id, desk.actor.id, why, given_up=True)
    found = known_callback(desk.store, task.callback_id)
    due = desk.now + DUE_WITHIN[found.how_soon]
    if found.state == "settled" and not worries.open_anew(desk.store, found.id, due):
        other = worries.open_callback_of(desk.store, found.eye_id, found.worry)
        assert other is not None
        found = other
    elif found.state == "claimed" and found.claimed_by:
        worries.release(desk.store, found.id, found.claimed_by)
    detail = {"by": desk.actor.name, "words": why}
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, CANCELLED, detail)
    return known_callback(desk.store, found.id)
