"""A callback that nobody settled in time moves up one level: nurse, surgeon, on call."""

from dataclasses import replace
from datetime import datetime, timedelta

from followup.care.actors import CLOCK
from followup.care.callbacks.kinds import LEVELS
from followup.care.watch import watching
from followup.clinical.callbacks import DUE_WITHIN
from followup.records import Store, audit, worries
from followup.records.values import Callback


def escalate_overdue(store: Store, now: datetime) -> list[Callback]:
    """Move every callback past its time one level up, each exactly once whoever asks; returns those moved.

    A callback whose task is late is late like one that nobody has taken. A fault in one holds up no other.
    """
    moved = []
    with watching.parts(store, now, "callback") as part:
        for found in worries.overdue_callbacks(store, now):
            if found.level >= len(LEVELS) - 1:
                continue
            with part(f"callbacks {found.id}"), store.transaction():
                due = now + max(DUE_WITHIN[found.how_soon] / 2, timedelta(minutes=30))
                if move_up(store, now, found, due, {}):
                    moved.append(replace(found, level=found.level + 1))
    return moved


def move_up(store: Store, now: datetime, found: Callback, due: datetime, detail: dict[str, str]) -> bool:
    if not worries.escalate(store, found.id, found.level, due):
        return False
    to = LEVELS[found.level + 1]
    worries.add_step(store, now, found.id, CLOCK.signature, "moved up", {"to": to, **detail})
    audit.note(store, now, CLOCK.signature, "callback moved up", found.id, {"to": to})
    return True
