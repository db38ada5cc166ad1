"""Who has a callback or a task: claimed, taken over, given back."""

from followup.care.desk import Desk
from followup.care.errors import Conflict, NotFound
from followup.records import Store, tasks, worries
from followup.records.values import Callback, Task


def claim(desk: Desk, callback_id: str) -> None:
    """Take a waiting callback. Raises `Conflict` if somebody has it or it is settled."""
    with desk.store.transaction():
        found = known_callback(desk.store, callback_id)
        if found.state == "to-do":
            raise Conflict("this callback is decided; take what is to do")
        if not worries.claim(desk.store, desk.now, callback_id, desk.actor.id):
            who = found.claimed_by_name or "somebody"
            state = "is settled" if found.state == "settled" else f"was claimed by {who}"
            raise Conflict(f"this callback {state}")
        worries.add_step(desk.store, desk.now, callback_id, desk.actor.signature, "claimed", {"by": desk.actor.name})
        desk.note("callback claimed", callback_id)


def take_over(desk: Desk, callback_id: str, whose: str) -> None:
    """Take a claimed callback from `whose` (a staff id). Raises `Conflict` if that person has it no more."""
    with desk.store.transaction():
        found = known_callback(desk.store, callback_id)
        if found.state != "claimed" or not worries.take_over(desk.store, callback_id, desk.actor.id, whose):
            raise Conflict(_meanwhile(found.claimed_by_name if found.state == "claimed" else None))
        _note_taken(desk, callback_id, whose, found.claimed_by_name)


def release(desk: Desk, callback_id: str) -> None:
    """Give a claimed callback back to the list."""
    with desk.store.transaction():
        if known_callback(desk.store, callback_id).state == "to-do" or not worries.release(
            desk.store, callback_id, desk.actor.id
        ):
            raise Conflict("only the person who claimed a callback can give it back")
        worries.add_step(desk.store, desk.now, callback_id, desk.actor.signature, "given back", {"by": desk.actor.name})
        desk.note("callback given back", callback_id)


def take_task(desk: Desk, task_id: str, whose: str | None) -> None:
    """Take what is to do from `whose` (a staff id, None: nobody's yet). Raises `Conflict` if it is theirs no more."""
    with desk.store.transaction():
        task = known_task(desk.store, task_id)
        if not tasks.give(desk.store, task_id, desk.actor.id, whose):
            raise Conflict(_meanwhile(None if task.done_at else task.owner_name))
        if whose is None:
            worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "taken", {"by": desk.actor.name})
            desk.note("task taken", task.callback_id)
        else:
            _note_taken(desk, task.callback_id, whose, task.owner_name)


def give_back_task(desk: Desk, task_id: str) -> None:
    """Put what is to do back on everybody's list."""
    with desk.store.transaction():
        task = known_task(desk.store, task_id)
        if not tasks.give(desk.store, task_id, None, desk.actor.id):
            raise Conflict("only the person who has it can give it back")
        worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "given back", {"by": desk.actor.name})
        desk.note("task given back", task.callback_id)


def _note_taken(desk: Desk, callback_id: str, whose: str, name: str | None) -> None:
    detail = {"by": desk.actor.name, "from": name, "from_id": whose}
    worries.add_step(desk.store, desk.now, callback_id, desk.actor.signature, "taken over", detail)
    desk.note("callback taken over", callback_id, {"from": whose})


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


def my_task(desk: Desk, task_id: str) -> tuple[Task, Callback]:
    """An open task of this person, and its callback."""
    task = known_task(desk.store, task_id)
    if task.done_at:
        raise Conflict("this was ended meanwhile")
    if task.owner != desk.actor.id:
        raise Conflict(f"{task.owner_name or 'nobody'} has this now; take it first")
    return task, known_callback(desk.store, task.callback_id)


def has_in_hand(desk: Desk, found: Callback) -> bool:
    """Whether this person has the callback, or a task of it."""
    open_tasks = [t for t in tasks.of_callback(desk.store, found.id) if t.done_at is None]
    mine = any(t.owner == desk.actor.id for t in open_tasks) if open_tasks else found.claimed_by == desk.actor.id
    return mine and found.state != "settled"


def in_hand(desk: Desk, found: Callback) -> list[Task]:
    """The open tasks of a callback that this person has or works on. Raises `Conflict` where it is somebody else's."""
    if found.state == "settled":
        raise Conflict("this callback is settled")
    if not has_in_hand(desk, found):
        raise Conflict("claim the callback first, so that nobody else calls at the same time")
    return [t for t in tasks.of_callback(desk.store, found.id) if t.done_at is None]
