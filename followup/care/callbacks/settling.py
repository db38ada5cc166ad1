"""The end of a callback: settled after a call, done, given up, or closed with the end of follow-up."""

from collections.abc import Collection
from datetime import date, datetime, timedelta

from followup.care.callbacks.calls import conversation, need_conversation
from followup.care.callbacks.deciding import keep_decision
from followup.care.callbacks.holding import chosen, in_hand, known_callback, my_task
from followup.care.callbacks.kinds import CHOICES, COMES, OUTCOME_OF, SETTLED_AT_ONCE, URGENT, WITHDRAWN
from followup.care.callbacks.to_do import drop, due_with_its_tasks
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.reading import state
from followup.care.visits.visit import OPERATED_AGAIN
from followup.config import Clinic
from followup.records import tasks, visits, worries
from followup.records.values import Callback, Task

THEATRE_WITHIN = timedelta(days=366)
OPERATED = "operated"
"""What is said of theatre that a recorded operation ended."""


def settle(
    desk: Desk,
    callback_id: str,
    outcome: str,
    words: str,
    clinic: Clinic,
    *,
    also: Collection[str] = (),
    told: bool = False,
    on: date | None = None,
    accepted: Collection[str] = (),
) -> Task | None:
    """What came of a call, by whoever has the callback: advice given and no action settle it; what is still to be done
    becomes this person's task, which is returned. `also` are other callbacks of the patient of which the same comes.
    `told`: the patient or carer knows of it from the call on record. `on` and `accepted` are of the day of an extra visit.
    """
    if outcome not in CHOICES:
        raise CareError("choose an outcome: nothing is closed without one", "outcome")
    words = words.strip()
    if outcome == "no-action" and not words:
        raise CareError("say why no action is needed", "words")
    with desk.store.transaction():
        about = chosen(desk, callback_id, also)
        for found in about:
            if found.state == "to-do":
                raise Conflict("it is decided what is to do; that comes first")
            in_hand(desk, found)
        if outcome not in SETTLED_AT_ONCE:
            if told:
                for found in about:
                    need_conversation(desk.store, found)
            told_at = desk.now if told else None
            return keep_decision(
                desk, about, outcome, words, clinic, owner=desk.actor.id, told_at=told_at, on=on, accepted=accepted
            )[0]
        for found in about:
            if found.how_soon in URGENT:
                if not (outcome == "no-action" and desk.actor.role == "surgeon"):
                    need_conversation(desk.store, found)
            elif not words and not conversation(worries.steps_of(desk.store, found.id)):
                raise CareError("nobody was spoken to: say why that is enough", "words")
            _settle(desk, found, outcome, words)
        return None


def finish(desk: Desk, task_id: str, words: str, theatre_on: date | None = None) -> None:
    """What was decided is done, and the patient or carer was spoken to: this task and those of the same decision.

    The last task of a callback settles it. Theatre is confirmed with its day, and the list in `words`, each eye by itself;
    without them as they were planned (`theatre.plan`).
    """
    with desk.store.transaction():
        task = my_task(desk, task_id)[0]
        for same in tasks.of_decision(desk.store, task):
            if task.kind != "theatre" or same.eye_id == task.eye_id:
                _finish(desk, same.id, words.strip(), theatre_on)


def _finish(desk: Desk, task_id: str, words: str, theatre_on: date | None) -> None:
    task, found = my_task(desk, task_id)
    if task.told_at is None:
        raise CareError("nobody has spoken to the patient or carer about this yet: record the call", "reached")
    need_conversation(desk.store, found)
    _need_visit(desk, task)
    outcome = OUTCOME_OF[task.kind]
    detail = {"by": desk.actor.name, "outcome": outcome, "words": words}
    if task.kind == "theatre":
        day, on_list = theatre_on or task.theatre_on, words or task.theatre_list
        detail["theatre_on"] = _confirmed(desk, task, day, on_list).isoformat()
        tasks.plan_theatre(desk.store, task.id, day, on_list)
    tasks.end(desk.store, desk.now, task_id, desk.actor.id, words)
    worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "done", detail)
    desk.note("task done", task.callback_id, {"task": task.kind})
    if known_callback(desk.store, found.id).state == "to-do":
        due_with_its_tasks(desk.store, desk.now, found)
    else:
        _settle(desk, found, outcome, "")


def _need_visit(desk: Desk, task: Task) -> None:
    """Raises `CareError` where somebody was to come and was not seen: to be told of a visit is not to be seen."""
    if task.kind not in COMES:
        return
    v = visits.standing(desk.store, task.visit_id) if task.visit_id else None
    if v is not None and not v.withdrawn:
        if v.identity not in state.seen(desk.store, v.eye_id, desk.zone):
            raise CareError(
                f"the {v.name} of {v.target:%-d %B %Y} has not taken place: record it as seen first, or say that it will not "
                "be done",
                "words",
            )
    elif task.seen_at is None:
        raise CareError(
            "nobody was seen since this was decided: enter the visit first, or say that it will not be done", "words"
        )


def _confirmed(desk: Desk, task: Task, day: date | None, on_list: str) -> date:
    """The day that was confirmed; raises `CareError` while the day or the list is not known."""
    if day is None:
        raise CareError("say on which day theatre is: without one it stays to be confirmed", "theatre_on")
    check_theatre_day(desk, task, day)
    if not on_list:
        raise CareError("say on which list, and who confirmed it", "words")
    return day


def check_theatre_day(desk: Desk, task: Task, day: date) -> None:
    """Raises `CareError` for a day on which theatre cannot be."""
    first, last = task.made_at.astimezone(desk.zone).date(), desk.today + THEATRE_WITHIN
    if not first <= day <= last:
        raise CareError(f"theatre is between {first:%-d %B %Y}, when it was decided, and {last:%-d %B %Y}", "theatre_on")


def end_with_operation(desk: Desk, eye_id: str, operated_at: datetime) -> None:
    """The eye was operated: theatre that was decided before is done, and settles its callback.

    A callback that heard of something urgent since the operation stays open.
    """
    day = operated_at.astimezone(desk.zone).date()
    for task in tasks.for_theatre_of(desk.store, eye_id):
        if task.done_at is not None or task.made_at.astimezone(desk.zone).date() > day:
            continue
        tasks.plan_theatre(desk.store, task.id, day, task.theatre_list)
        tasks.end(desk.store, desk.now, task.id, desk.actor.id, OPERATED)
        detail = {"by": desk.actor.name, "outcome": "theatre", "words": OPERATED, "theatre_on": day.isoformat()}
        worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "done", detail)
        desk.note("task done", task.callback_id, {"task": task.kind})
        found = known_callback(desk.store, task.callback_id)
        if found.state != "to-do" and not _urgent_since(desk, found, operated_at):
            _settle(desk, found, "theatre", "")
            continue
        due_with_its_tasks(desk.store, desk.now, found)
        if found.state == "claimed" and found.claimed_by:
            worries.release(desk.store, found.id, found.claimed_by)


def end_missed(desk: Desk, eye_id: str) -> None:
    """The eye was operated again: nobody asks any more why a visit of the plan before was missed."""
    for found in worries.callbacks_of(desk.store, eye_id):
        if found.worry == "missed-visit" and found.state in ("waiting", "claimed"):
            _settle(desk, found, "no-action", OPERATED_AGAIN)


def _urgent_since(desk: Desk, found: Callback, at: datetime) -> bool:
    return any(w.how_soon in URGENT and w.raised_at > at for w in worries.warnings_of_callback(desk.store, found.id))


def give_up(desk: Desk, task_id: str, words: str) -> None:
    """What was decided will not be done: the callbacks it was for are on the list again, to be decided anew."""
    if not words.strip():
        raise CareError("say why it will not be done", "words")
    with desk.store.transaction():
        for same in tasks.of_decision(desk.store, my_task(desk, task_id)[0]):
            _give_up(desk, same.id, words.strip())


def _give_up(desk: Desk, task_id: str, words: str) -> None:
    task, found = my_task(desk, task_id)
    detail = {"by": desk.actor.name, "task": task.kind, "words": words}
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, "will not be done", detail)
    drop(desk, task, words)
    due_with_its_tasks(desk.store, desk.now, found)
    left = known_callback(desk.store, found.id)
    if left.state == "claimed" and left.claimed_by:
        worries.release(desk.store, found.id, left.claimed_by)
    desk.note("task given up", found.id, {"task": task.kind})


def close_for_end(desk: Desk, found: Callback, why: str) -> None:
    """Follow-up ended: what was to do will not be done, and the callback is closed with the reason."""
    for task in tasks.of_callback(desk.store, found.id):
        if task.done_at is None and task.kind == "theatre":
            withdraw_theatre(desk, task, why)
        elif task.done_at is None:
            drop(desk, task, why)
    _settle(desk, found, "follow-up-ended", why)


def withdraw_theatre(desk: Desk, task: Task, why: str) -> None:
    """Follow-up ended: theatre does not take place, confirmed or not, which its list and its callback say with the reason."""
    tasks.end(desk.store, desk.now, task.id, desk.actor.id, why, given_up=True)
    day = task.theatre_on.isoformat() if task.theatre_on else None
    detail = {"by": desk.actor.name, "words": why, "theatre_on": day, "task": task.id}
    worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, WITHDRAWN, detail)
    desk.note("theatre withdrawn", task.eye_id, {"on": day})


def _settle(desk: Desk, found: Callback, outcome: str, words: str) -> None:
    worries.settle(desk.store, desk.now, found.id, desk.actor.id, outcome)
    detail = {"by": desk.actor.name, "outcome": outcome, "words": words}
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, "settled", detail)
    desk.note("callback settled", found.id, {"outcome": outcome})
