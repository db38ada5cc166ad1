"""A clinic moves to another server: closed where it was, it takes nothing more there, and its last copy is whole.

The mark is the last thing that is written to the database, in a transaction as all others: what was acknowledged came
before it. So a copy that carries the mark lacks nothing, and whoever goes on with that copy takes the mark off.
"""

from datetime import datetime

from followup.records import audit
from followup.records.store import Store

_WHO = "command line"


def close(store: Store, now: datetime) -> None:
    """From now on nothing more is taken here. Raises `Closed` where that is so already."""
    with store.transaction():
        audit.note(store, now, _WHO, "closed for a move", "clinic")
        store.mark_closed(True)


def reopen(store: Store, now: datetime) -> None:
    """Take entries again: in the copy that goes on, or where the move did not take place."""
    with store.transaction(although_closed=True):
        store.mark_closed(False)
        audit.note(store, now, _WHO, "opened after a move", "clinic")
