"""Whoever signs out or ends their day says what becomes of the calls and tasks in their hands."""

from dataclasses import dataclass

from followup.care.callbacks.holding import known_callback, one_who_may, who_may
from followup.care.callbacks.lines import one_for_each_decision
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.records import Store, eyes, tasks, worries
from followup.records.values import Callback, Staff, Task
from followup.records.values import Eye as KnownEye

WAYS: dict[str, str] = {
    "back": "Give all of it back to the list",
    "to": "Hand all of it to a colleague",
    "keep": "Keep it: I go on with it myself",
}


@dataclass(frozen=True)
class Held:
    """What somebody has in hand: claimed callbacks without a decision, and tasks; `eyes` by id."""

    callbacks: list[Callback]
    tasks: list[Task]
    eyes: dict[str, KnownEye]

    @property
    def callback_ids(self) -> list[str]:
        """Every callback of which something is held, each once."""
        return list(dict.fromkeys([c.id for c in self.callbacks] + [t.callback_id for t in self.tasks]))

    @property
    def things_to_do(self) -> list[Task]:
        """The tasks as people see them: what one decision made for several worries of an eye is one."""
        return one_for_each_decision(self.tasks)


def held(store: Store, staff_id: str) -> Held:
    """What this member of staff has in hand, the most urgent first."""
    claimed, todo = worries.held_by(store, staff_id), tasks.held_by(store, staff_id)
    ids = {c.eye_id for c in claimed} | {t.eye_id for t in todo}
    return Held(claimed, todo, eyes.by_ids(store, sorted(ids)))


def holds_anything(store: Store, staff_id: str) -> bool:
    return worries.holds_anything(store, staff_id)


def colleagues(desk: Desk) -> list[Staff]:
    """Whom this person may hand it to."""
    return [member for member in who_may(desk.store) if member.id != desk.actor.id]


def hand_over(desk: Desk, way: str, to: str | None = None) -> Held:
    """Give back, hand to a colleague (`to`, a staff id) or keep everything in this person's hands; each callback says so.

    Returns what it was. Raises `CareError` for no way or no colleague.
    """
    if way not in WAYS:
        raise CareError("say what becomes of it", "way")
    if way == "to" and to in (None, "", desk.actor.id):
        raise CareError("choose who takes it", "to")
    with desk.store.transaction():
        colleague = one_who_may(desk.store, to, "to") if way == "to" and to else None
        mine = held(desk.store, desk.actor.id)
        for c in mine.callbacks:
            if way == "back":
                moved = worries.release(desk.store, c.id, desk.actor.id)
            else:
                moved = colleague is None or worries.take_over(desk.store, c.id, colleague.id, desk.actor.id)
            _unless_faster(moved)
        for task in mine.tasks:
            owner = desk.actor.id if way == "keep" else colleague.id if colleague else None
            _unless_faster(tasks.give(desk.store, task.id, owner, desk.actor.id))
        step = {"back": "given back", "to": "handed over", "keep": "kept at the end of the day"}[way]
        detail = {"by": desk.actor.name} | ({"to": colleague.name, "to_id": colleague.id} if colleague else {})
        for id in mine.callback_ids:
            worries.add_step(desk.store, desk.now, known_callback(desk.store, id).id, desk.actor.signature, step, detail)
            desk.note(f"callback {step}", id, {"to": colleague.id} if colleague else None)
    return mine


def _unless_faster(moved: bool) -> None:
    if not moved:
        raise Conflict("meanwhile somebody took one of these over; look at it again")
