"""What the clock must look at before it knows that nobody has to hear of it: calls, and changed visits, by their ids.

The database's own triggers write it whenever something changes that a message depends on. It is no fact: all of it is
written anew each hour, so that nobody stays without word where it should have been written and was not.
"""

from collections.abc import Collection, Iterable
from datetime import date, datetime, timedelta
from typing import Literal

from followup.records import visits
from followup.records.store import Store, as_json
from followup.records.times import from_text, to_text

What = Literal["call", "change"]
Entry = tuple[What, str]
"""A callback, or the version of a visit, by its id."""
ANEW = timedelta(hours=1)
_EVERYTHING = (
    "SELECT 'call', id FROM callbacks WHERE state != 'settled' AND how_soon = 'now' AND level = 0",
    "SELECT 'call', id FROM callbacks WHERE state != 'settled' AND level > 0",
    "SELECT 'call', id FROM callbacks WHERE state != 'settled' AND worry = 'silence'",
    f"SELECT 'change', v.id {visits.STILL_TO_TELL}",
)


def waiting(store: Store, now: datetime, today: date, how: str) -> tuple[int, set[Entry]]:
    """What must be looked at, and the number that was written last; `how` says what the settings are, `today` the clinic's day.

    Everything that anybody may still have to hear of, when those have changed and each hour.
    """
    made = store.row("SELECT at, how FROM unsaid_made WHERE only = 1")
    if made is None or made["how"] != how or not timedelta(0) <= now - from_text(made["at"]) < ANEW:
        with store.transaction():
            for found in _EVERYTHING:
                store.execute(f"INSERT INTO unsaid (what, id) {found}", {"today": today.isoformat()})
            store.put("unsaid_made", {"only": 1, "at": to_text(now), "how": how})
    rows = store.rows("SELECT number, what, id FROM unsaid ORDER BY number")
    return rows[-1]["number"] if rows else 0, {(row["what"], row["id"]) for row in rows}


def said(store: Store, last: int, done: Collection[Entry]) -> None:
    """These need no look any more, unless they were written again after the number `last`."""
    if done:
        known = {"last": last, "done": as_json([f"{what} {id}" for what, id in done])}
        sql = "DELETE FROM unsaid WHERE number <= :last AND what || ' ' || id IN (SELECT value FROM json_each(:done))"
        store.execute(sql, known)


def ids(entries: Iterable[Entry], what: What) -> list[str]:
    """The ids of one kind among them."""
    return [id for kind, id in entries if kind == what]
