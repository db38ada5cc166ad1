"""Operations of a theatre list: each waits until an operation of its id is on record, or it is put aside."""

from datetime import date, datetime
from typing import Any

from followup.records.store import Store, as_json
from followup.records.times import to_text
from followup.records.values import ListedOperation, made

_WAITS = "put_aside_at IS NULL AND NOT EXISTS (SELECT 1 FROM operations o WHERE o.id = l.id)"


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


def waiting(store: Store) -> list[ListedOperation]:
    """What waits for its discharge, the earliest day first."""
    sql = f"SELECT * FROM listed_operations l WHERE {_WAITS} ORDER BY operated_on, name, id"
    return [made(ListedOperation, row) for row in store.rows(sql)]


def waits(store: Store, id: str) -> ListedOperation | None:
    """One that waits, or None: it was discharged, put aside, or never listed."""
    found = store.row(f"SELECT * FROM listed_operations l WHERE id = :id AND {_WAITS}", {"id": id})
    return made(ListedOperation, found) if found else None


def put_aside(store: Store, now: datetime, id: str, by: str, why: str) -> None:
    sql = "UPDATE listed_operations SET put_aside_at = :now, put_aside_by = :by, put_aside_why = :why WHERE id = :id"
    store.execute(sql, {"id": id, "now": to_text(now), "by": by, "why": why})
