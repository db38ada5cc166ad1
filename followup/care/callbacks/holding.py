"""Who has a callback or a task: claimed, taken over, given back.

Whoever calls a patient has all open worries of both eyes; each callback keeps its own trace.
"""

from collections.abc import Collection

from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.person import eyes_beside
from followup.clinical.warnings import HOW_SOON
from followup.records import Store, people, tasks, worries
from followup.records.values import Callback, Staff, Task

WHO_MAY = ("nurse", "surgeon")
"""Roles that open calls."""


def of_patient(store: Store, found: Callback) -> list[Callback]:
    """The callbacks of both eyes of that callback's patient. An eye whose record cannot be read has none: it stands alone."""
    return [c for eye in eyes_beside(store, found.eye_id) for c in worries.callbacks_of(store, eye.id)] or [found]


def open_of_patient(store: Store, found: Callback) -> list[Callback]:
    """The open callbacks of both eyes of that callback's patient, the worst first, then the longest open."""
    open_ones = (c for c in of_patient(store, found) if c.state != "settled")
    return sorted(open_ones, key=lambda c: (HOW_SOON.index(c.how_soon), c.opened_at, c.id))


def callers(desk: Desk, open_ones: list[Callback]) -> dict[str, str]:
    """The names, by staff id, of the others who are about to call this patient: they claimed it, or are to tell them."""
    found = {c.claimed_by: c.claimed_by_name or "" for c in open_ones if c.state == "claimed" and c.claimed_by}
    for c in open_ones:
        found |= {t.owner: t.owner_name or "" for t in open_tasks(desk.store, c) if t.owner and t.told_at is None}
    return {id: name for id, name in found.items() if id != desk.actor.id}


def who_may(store: Store) -> list[Staff]:
    """Who may have calls and tasks in hand: nobody else can open them."""
    return [member for member in people.all_staff(store) if member.role in WHO_MAY]


def one_who_may(store: Store, staff_id: str, field: str) -> Staff:
    """Whoever gets something in hand. Raises `CareError` for an account that was ended, or that cannot open calls."""
    member = people.staff_member(store, staff_id)
    if member is None:
        raise CareError("choose who does it: this account is not there any more", field)
    if member.role not in WHO_MAY:
        raise CareError(f"choose a nurse or a surgeon: calls cannot be opened by {member.name}, {member.role}", field)
    return member


def claim_call(desk: Desk, callback_id: str) -> None:
    """Take every waiting callback of that patient, to make one call. Raises `Conflict` while somebody else has the call."""
    with desk.store.transaction():
        open_ones = open_of_patient(desk.store, known_callback(desk.store, callback_id))
        for name in callers(desk, open_ones).values():
            raise Conflict(f"this patient’s call was claimed by {name}; take it over")
        waiting = [c.id for c in open_ones if c.state == "waiting"]
        for id in waiting or [callback_id]:
            claim(desk, id)


def take_call_over(desk: Desk, callback_id: str, whose: str) -> None:
    """Take all that `whose` (a staff id) has of that patient, and what is waiting. Raises `Conflict` if that is nothing."""
    with desk.store.transaction():
        open_ones = open_of_patient(desk.store, known_callback(desk.store, callback_id))
        theirs = [c for c in open_ones if c.state == "claimed" and c.claimed_by == whose]
        todo = [t for c in open_ones for t in open_tasks(desk.store, c) if t.owner == whose]
        if not theirs and not todo:
            raise Conflict(_meanwhile(next(iter(callers(desk, open_ones).values()), None)))
        for c in theirs:
            take_over(desk, c.id, whose)
        for task in todo:
            _give_task(desk, task, whose)
        for c in open_ones:
            if c.state == "waiting":
                claim(desk, c.id)


def give_call_back(desk: Desk, callback_id: str) -> None:
    """Give every callback of that patient that this person has claimed back to the list."""
    with desk.store.transaction():
        open_ones = open_of_patient(desk.store, known_callback(desk.store, callback_id))
        mine = [c.id for c in open_ones if c.state == "claimed" and c.claimed_by == desk.actor.id]
        for id in mine or [callback_id]:
            release(desk, id)


def claim(desk: Desk, callback_id: str) -> None:
    """Take a waiting callback. Raises `Conflict` if somebody has it or it is settled."""
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
    found = known_callback(desk.store, callback_id)
    if found.state != "claimed" or not worries.take_over(desk.store, callback_id, desk.actor.id, whose):
        raise Conflict(_meanwhile(found.claimed_by_name if found.state == "claimed" else None))
    _note_taken(desk, callback_id, whose, found.claimed_by_name)


def release(desk: Desk, callback_id: str) -> None:
    """Give a claimed callback back to the list."""
    if known_callback(desk.store, callback_id).state == "to-do" or not worries.release(
        desk.store, callback_id, desk.actor.id
    ):
        raise Conflict("only the person who claimed a callback can give it back")
    worries.add_step(desk.store, desk.now, callback_id, desk.actor.signature, "given back", {"by": desk.actor.name})
    desk.note("callback given back", callback_id)


def take_task(desk: Desk, task_id: str, whose: str | None) -> None:
    """Take what is to do, with all that the same decision made, from `whose` (a staff id, None: nobody's yet).

    Raises `Conflict` if it is theirs no more.
    """
    with desk.store.transaction():
        task = known_task(desk.store, task_id)
        if task.done_at or task.owner != whose:
            raise Conflict(_meanwhile(None if task.done_at else task.owner_name))
        for same in tasks.of_decision(desk.store, task):
            _give_task(desk, same, whose)


def _give_task(desk: Desk, task: Task, whose: str | None) -> None:
    if not tasks.give(desk.store, task.id, desk.actor.id, whose):
        raise Conflict(_meanwhile(task.owner_name))
    if whose is None:
        worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "taken", {"by": desk.actor.name})
        desk.note("task taken", task.callback_id)
    else:
        _note_taken(desk, task.callback_id, whose, task.owner_name)


def give_back_task(desk: Desk, task_id: str) -> None:
    """Put what is to do back on everybody's list, with all that the same decision made."""
    with desk.store.transaction():
        for task in tasks.of_decision(desk.store, known_task(desk.store, task_id)):
            if not tasks.give(desk.store, task.id, None, desk.actor.id):
                raise Conflict("only the person who has it can give it back")
            detail = {"by": desk.actor.name}
            worries.add_step(desk.store, desk.now, task.callback_id, desk.actor.signature, "given back", detail)
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


def open_tasks(store: Store, found: Callback) -> list[Task]:
    """What was decided about a callback and is not done."""
    return [t for t in tasks.of_callback(store, found.id) if t.done_at is None]


def has_in_hand(desk: Desk, found: Callback) -> bool:
    """Whether this person has the callback, or a task of it."""
    todo = open_tasks(desk.store, found)
    mine = any(t.owner == desk.actor.id for t in todo) if todo else found.claimed_by == desk.actor.id
    return mine and found.state != "settled"


def in_hand(desk: Desk, found: Callback) -> None:
    """Raises `Conflict` where this person has neither the callback nor a task of it."""
    if found.state == "settled":
        raise Conflict("this callback is settled")
    if not has_in_hand(desk, found):
        raise Conflict("claim the callback first, so that nobody else calls at the same time")


def chosen(desk: Desk, callback_id: str, also: Collection[str]) -> list[Callback]:
    """That callback and `also` (ids of the same patient), the worst first. Raises `Conflict` if one is not open any more."""
    first = known_callback(desk.store, callback_id)
    wanted = {callback_id, *also}
    found = [c for c in open_of_patient(desk.store, first) if c.id in wanted]
    if len(found) < len(wanted):
        raise Conflict("this callback is settled" if first.state == "settled" else "one of these was settled meanwhile")
    return found
