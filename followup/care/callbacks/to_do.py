"""Tasks: made by a decision, due by a time, told to the patient, dropped."""

from datetime import datetime, time, timedelta, tzinfo

from followup.care.callbacks.holding import known_task
from followup.care.callbacks.kinds import TASK_OF
from followup.care.desk import Desk
from followup.care.visits.visit import withdraw_visit
from followup.clinical.callbacks import DUE_WITHIN
from followup.records import Store, tasks, worries
from followup.records.values import Callback, Task

# How soon to tell, try again and confirm. Common practice, no source.
TELL_WITHIN = {"come-today": timedelta(hours=1), "theatre": timedelta(hours=4)}

CONFIRM_WITHIN = timedelta(days=1)


def make_task(
    desk: Desk,
    found: Callback,
    outcome: str,
    words: str,
    decision: str,
    *,
    owner: str | None,
    due_at: datetime | None = None,
    told_at: datetime | None = None,
    visit_id: str | None = None,
) -> Task:
    """`decision` is the id that all tasks of one decision share."""
    kind = TASK_OF[outcome]
    usual = DUE_WITHIN[found.how_soon]
    due = due_at or desk.now + min(TELL_WITHIN.get(kind, usual), usual)
    words = words.strip()
    id = tasks.add(
        desk.store, desk.now, found, kind, words, desk.actor.id, owner, due, decision, told_at=told_at, visit_id=visit_id
    )
    if told_at is not None:
        tasks.told(desk.store, told_at, id, do_by(known_task(desk.store, id), desk.now, desk.zone))
    detail = {"by": desk.actor.name, "outcome": outcome, "words": words, "task": id}
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, "decided", detail)
    worries.back_to_the_clinic(desk.store, found.id)
    due_with_its_tasks(desk.store, desk.now, found)
    desk.note("callback decided", found.id, {"outcome": outcome})
    return known_task(desk.store, id)


def do_by(task: Task, now: datetime, zone: tzinfo) -> datetime:
    """By when it is done once the patient knows: with the day of its visit, else as soon as it is confirmed."""
    if task.visit_on:
        day = max(task.visit_on, now.astimezone(zone).date())
        return datetime.combine(day + timedelta(days=1), time(), zone)
    return now + (CONFIRM_WITHIN if task.kind == "theatre" else DUE_WITHIN["now"])


def due_with_its_tasks(store: Store, now: datetime, found: Callback) -> None:
    """A callback is due with the earliest of its tasks; without one, anew by its urgency."""
    open_tasks = [t for t in tasks.of_callback(store, found.id) if t.done_at is None]
    due = min((t.due_at for t in open_tasks), default=now + DUE_WITHIN[found.how_soon])
    worries.put_due(store, found.id, due)


def drop(desk: Desk, task: Task, why: str) -> None:
    """End a task that is not done, and take its visit out of the book once no other task waits for it."""
    tasks.end(desk.store, desk.now, task.id, desk.actor.id, why, given_up=True)
    if task.visit_id and not tasks.needs_visit(desk.store, task.visit_id):
        withdraw_visit(desk, task.eye_id, task.visit_id)
