"""The end of a callback: settled after a call, done, given up, or closed with the end of follow-up."""

from collections.abc import Collection
from datetime import date, timedelta

from followup.care.callbacks.calls import conversation, need_conversation
from followup.care.callbacks.deciding import keep_decision
from followup.care.callbacks.holding import chosen, in_hand, known_callback, my_task
from followup.care.callbacks.kinds import CHOICES, OUTCOME_OF, SETTLED_AT_ONCE, URGENT
from followup.care.callbacks.to_do import drop, due_with_its_tasks
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.config import Clinic
from followup.records import tasks, worries
from followup.records.values import Callback, Task

THEATRE_WITHIN = timedelta(days=366)


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

    The last task of a callback settles it. Theatre is confirmed with its day, and the list in `words`.
    """
    with desk.store.transaction():
        for same in tasks.of_decision(desk.store, my_task(desk, task_id)[0]):
            _finish(desk, same.id, words.strip(), theatre_on)


def _finish(desk: Desk, task_id: str, words: str, theatre_on: date | None) -> None:
    task, found = my_task(desk, task_id)
    if task.told_at is None:
        raise CareError("nobody has spoken to the patient or carer about this yet: record the call", "reached")
    need_conversation(desk.store, found)
    outcome = OUTCOME_OF[task.kind]
    detail = {"by": desk.actor.name, "outcome": outcome, "words": words}
    if task.kind == "theatre":
        detail["theatre_on"] = _theatre_day(desk, task, words, theatre_on).isoformat()
    tasks.end(desk.store, desk.now, task_id, desk.actor.id, words)
    worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "done", detail)
    desk.note("task done", task.callback_id, {"task": task.kind})
    if known_callback(desk.store, found.id).state == "to-do":
        due_with_its_tasks(desk.store, desk.now, found)
    else:
        _settle(desk, found, outcome, "")


def _theatre_day(desk: Desk, task: Task, words: str, day: date | None) -> date:
    """The day that was confirmed; raises `CareError` while the day or the list is not known."""
    first = task.made_at.astimezone(desk.zone).date()
    last = desk.now.astimezone(desk.zone).date() + THEATRE_WITHIN
    if day is None:
        raise CareError("say on which day theatre is: without one it stays to be confirmed", "theatre_on")
    if not first <= day <= last:
        raise CareError(f"theatre is between {first:%-d %B %Y}, when it was decided, and {last:%-d %B %Y}", "theatre_on")
    if not words:
        raise CareError("say on which list, and who confirmed it", "words")
    return day


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
    with desk.store.transaction():
        for task in tasks.of_callback(desk.store, found.id):
            if task.done_at is None:
                drop(desk, task, why)
        _settle(desk, found, "follow-up-ended", why)


def _settle(desk: Desk, found: Callback, outcome: str, words: str) -> None:
    worries.settle(desk.store, desk.now, found.id, desk.actor.id, outcome)
    detail = {"by": desk.actor.name, "outcome": outcome, "words": words}
    worries.add_step(desk.store, desk.now, found.id, desk.actor.signature, "settled", detail)
    desk.note("callback settled", found.id, {"outcome": outcome})
