"""Who has a callback or a task: claimed, taken over, given back."""

from datetime import datetime

from followup.care.actors import Actor
from followup.care.errors import Conflict, NotFound
from followup.records import Store, audit, tasks, worries
from followup.records.values import Callback, Task


def claim(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Take a waiting callback. Raises `Conflict` if somebody has it or it is settled."""
    with store.transaction():
        found = known_callback(store, callback_id)
        if found.state == "to-do":
            raise Conflict("this callback is decided; take what is to do")
        if not worries.claim(store, now, callback_id, actor.id):
            who = found.claimed_by_name or "somebody"
            state = "is settled" if found.state == "settled" else f"was claimed by {who}"
            raise Conflict(f"this callback {state}")
        worries.add_step(store, now, callback_id, actor.signature, "claimed", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback claimed", callback_id)


def take_over(store: Store, now: datetime, actor: Actor, callback_id: str, whose: str) -> None:
    """Take a claimed callback from `whose` (a staff id). Raises `Conflict` if that person has it no more."""
    with store.transaction():
        found = known_callback(store, callback_id)
        if found.state != "claimed" or not worries.take_over(store, callback_id, actor.id, whose):
            raise Conflict(_meanwhile(found.claimed_by_name if found.state == "claimed" else None))
        _note_taken(store, now, actor, callback_id, whose, found.claimed_by_name)


def release(store: Store, now: datetime, actor: Actor, callback_id: str) -> None:
    """Give a claimed callback back to the list."""
    with store.transaction():
        if known_callback(store, callback_id).state == "to-do" or not worries.release(store, callback_id, actor.id):
            raise Conflict("only the person who claimed a callback can give it back")
        worries.add_step(store, now, callback_id, actor.signature, "given back", {"by": actor.name})
        audit.note(store, now, actor.signature, "callback given back", callback_id)


def take_task(store: Store, now: datetime, actor: Actor, task_id: str, whose: str | None) -> None:
    """Take what is to do from `whose` (a staff id, None: nobody's yet). Raises `Conflict` if it is theirs no more."""
    with store.transaction():
        task = known_task(store, task_id)
        if not tasks.give(store, task_id, actor.id, whose):
            raise Conflict(_meanwhile(None if task.done_at else task.owner_name))
        if whose is None:
            worries.add_step(store, now, task.callback_id, actor.signature, "taken", {"by": actor.name})
            audit.note(store, now, actor.signature, "task taken", task.callback_id)
        else:
            _note_taken(store, now, actor, task.callback_id, whose, task.owner_name)


def give_back_task(store: Store, now: datetime, actor: Actor, task_id: str) -> None:
    """Put what is to do back on everybody's list."""
    with store.transaction():
        task = known_task(store, task_id)
        if not tasks.give(store, task_id, None, actor.id):
            raise Conflict("only the person who has it can give it back")
        worries.add_step(store, now, task.callback_id, actor.signature, "given back", {"by": actor.name})
        audit.note(store, now, actor.signature, "task given back", task.callback_id)


def _note_taken(store: Store, now: datetime, actor: Actor, callback_id: str, whose: str, name: str | None) -> None:
    detail = {"by": actor.name, "from": name, "from_id": whose}
    worries.add_step(store, now, callback_id, actor.signature, "taken over", detail)
    audit.note(store, now, actor.signature, "callback taken over", callback_id, {"from": whose})


def _meanwhile(holder: str | None) -> str:
    return f"meanwhile {holder} has it" if holder else "meanwhile this has changed; look at it again"


def known_callback(store: Store, callback_id: str) -> Callback:
    found = worries.callback(store, callback_id)
    if found is None:
        raise NotFound("there is no such callback")
    return found


def known_task(store: Store, task_id: str) -> Task:
    found = tasks.task(store, task_id)
    if found is None:
        raise NotFound("there is no such task")
    return found


def my_task(store: Store, actor: Actor, task_id: str) -> tuple[Task, Callback]:
    """An open task of this person, and its callback."""
    task = known_task(store, task_id)
    if task.done_at:
        raise Conflict("this was ended meanwhile")
    if task.owner != actor.id:
        raise Conflict(f"{task.owner_name or 'nobody'} has this now; take it first")
    return task, known_callback(store, task.callback_id)


def in_hand(store: Store, found: Callback, actor: Actor) -> list[Task]:
    """The open tasks of a callback that this person has or works on. Raises `Conflict` where it is somebody else's."""
    if found.state == "settled":
        raise Conflict("this callback is settled")
    open_tasks = [t for t in tasks.of_callback(store, found.id) if t.done_at is None]
    mine = any(t.owner == actor.id for t in open_tasks) if open_tasks else found.claimed_by == actor.id
    if not mine:
        raise Conflict("claim the callback first, so that nobody else calls at the same time")
    return open_tasks
