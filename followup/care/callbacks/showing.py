"""Callbacks as the pages show them: the list, and one with all that a caller needs."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from followup.care.callbacks.deciding import can_undo
from followup.care.callbacks.holding import has_in_hand, known_callback
from followup.care.desk import Desk
from followup.care.reading.eye import Eye, load, rulebook
from followup.records import eyes, people, tasks, worries
from followup.records.values import Callback, Staff, Step, Taken, Task, Warning
from followup.records.values import Eye as KnownEye

TAKEN_SHOWN = timedelta(days=1)


@dataclass(frozen=True)
class Listed:
    """Every open callback with its eye, its reasons and what is to do; and what was lately taken from the reader."""

    callbacks: list[Callback]
    eyes: dict[str, KnownEye]
    reasons: dict[str, list[Warning]]
    to_do: dict[str, list[Task]]
    taken: list[Taken]


def listed(desk: Desk) -> Listed:
    """By how soon, then by how long it has waited."""
    store = desk.store
    open_ones = worries.open_callbacks(store)
    taken = worries.taken_from(store, desk.actor.id, desk.now - TAKEN_SHOWN)
    return Listed(
        open_ones,
        eyes.by_ids(store, sorted({c.eye_id for c in open_ones} | {t.eye_id for t in taken})),
        {c.id: worries.warnings_of_callback(store, c.id) for c in open_ones},
        tasks.open_by_callback(store),
        taken,
    )


@dataclass(frozen=True)
class Call:
    """A callback with what the rules ask, what was done, what is to do, and what the reader may do."""

    callback: Callback
    eye: Eye
    warnings: list[Warning]
    asks: list[str]
    steps: list[Step]
    tasks: list[Task]
    decisions: int
    mine: bool
    since: datetime | None
    undoable: bool
    owners: list[Staff]


def call(desk: Desk, callback_id: str) -> Call:
    """Raises `NotFound` for an unknown callback."""
    store = desk.store
    found = known_callback(store, callback_id)
    raised = worries.warnings_of_callback(store, callback_id)
    rules = {rule.id: rule for rule in rulebook(store).rules}
    made, steps = tasks.of_callback(store, callback_id), worries.steps_of(store, callback_id)
    return Call(
        callback=found,
        eye=load(store, found.eye_id, desk.zone),
        warnings=raised,
        asks=list(dict.fromkeys(question for w in raised if w.rule in rules for question in rules[w.rule].ask)),
        steps=steps,
        tasks=[task for task in made if task.done_at is None],
        decisions=len(made),
        mine=has_in_hand(desk, found),
        since=next((s.at for s in reversed(steps) if s.step in ("claimed", "taken over")), None),
        undoable=can_undo(desk, found),
        owners=people.all_staff(store),
    )
