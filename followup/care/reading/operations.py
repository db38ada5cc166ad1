"""Each operation of an eye with every state of its note: what was changed, by whom, when and why."""

from collections.abc import Iterable
from dataclasses import dataclass

from followup.records import Store, eyes
from followup.records.operation_note import Difference, between
from followup.records.values import Note


@dataclass(frozen=True, slots=True)
class State:
    """A note as it was written then, and what that changed; nothing for the first."""

    note: Note
    changed: list[Difference]


def states(store: Store, operation_id: str) -> list[State]:
    """Every state of an operation's note, oldest first."""
    known = eyes.history_of(store, operation_id)
    before = [None, *known[:-1]] if known else []
    return [State(now, between(was.body, now.body) if was else []) for was, now in zip(before, known, strict=True)]


def histories(store: Store, notes: Iterable[Note]) -> dict[str, list[State]]:
    """Every state of each operation's note, by the operation."""
    return {note.operation_id: states(store, note.operation_id) for note in notes}


def last_change(store: Store, operation_id: str) -> State | None:
    """The latest state that changed an operation's note; None where it was never changed."""
    known = states(store, operation_id)
    return known[-1] if len(known) > 1 else None
