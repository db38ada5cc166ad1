"""Operations of a theatre list: each waits until an operation of its id is on record, or it is put aside."""

from datetime import date, datetime
from typing import Any

from followup.records.store import Store, as_json
from followup.records.times import to_text
from followup.records.values import ListedOperation, made

WAITING = """
    SELECT l.id, l.operated_on FROM listed_operations l
    WHERE l.put_aside_at IS NULL AND NOT EXISTS (SELECT 1 FROM operations o WHERE o.id = l.id)
"""
"""What waits, as the facts have it; triggers keep the same in `listed_waiting`, which is what lists read."""
_WAITING = "SELECT l.* FROM listed_waiting w CROSS JOIN listed_operations l ON l.id = w.id"


def add(
    store: Store,
    now: datetime,
    id: str,
    number: str,
    name: str,
    operated_on: date,
    eye: str,
    body: dict[str, Any],
    source: str,
    by: str,
) -> None:
    row = {"id": id, "number": number, "name": name, "operated_on": operated_on.isoformat(), "eye": eye}
    row |= {"body": as_json(body), "source": source, "listed_by": by, "listed_at": to_text(now)}
    store.insert("listed_operations", row)


def waiting(store: Store, most: int = -1, after: int = 0) -> list[ListedOperation]:
    """What waits for its discharge, the earliest day first; at most so many after so many."""
    sql = f"{_WAITING} ORDER BY w.operated_on, l.name, l.id LIMIT :most OFFSET :after"
    return [made(ListedOperation, row) for row in store.rows(sql, {"most": most, "after": after})]


def count(store: Store, until: date = date.max) -> int:
    """How many wait whose day is not after that one."""
    sql = "SELECT count(*) AS n FROM listed_waiting WHERE operated_on <= :until"
    return int(store.rows(sql, {"until": until.isoformat()})[0]["n"])


def waits(store: Store, id: str) -> ListedOperation | None:
    """One that waits, or None: it was discharged, put aside, or never listed."""
    found = store.row(f"{_WAITING} WHERE w.id = :id", {"id": id})
    return made(ListedOperation, found) if found else None


def put_aside(store: Store, now: datetime, id: str, by: str, why: str) -> None:
    sql = "UPDATE listed_operations SET put_aside_at = :now, put_aside_by = :by, put_aside_why = :why WHERE id = :id"
    store.execute(sql, {"id": id, "now": to_text(now), "by": by, "why": why})
