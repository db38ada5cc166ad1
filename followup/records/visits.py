"""The clinic's book: visits as they stand, each with one identity through every change."""

from datetime import date, datetime

from followup.records.eyes import SAME_EYE, in_time
from followup.records.store import Row, Store, new_id
from followup.records.times import to_text
from followup.records.values import Visit, made
from followup.records.watch import readable

_READABLE = " AND ".join(in_time(f"v.{day}") for day in ("target", "earliest", "latest"))
_CURRENT = f"NOT v.withdrawn AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id) AND {_READABLE}"
_VISITS = """
    SELECT v.*, coalesce(e.joined_into, v.eye_id) AS eye_id, entered.recorded_at AS entered_at
    FROM visits v JOIN visits entered ON entered.id = v.identity JOIN eyes e ON e.id = v.eye_id
"""
_FOLLOWED = "e.followed_since IS NOT NULL AND e.ended_at IS NULL"
_IN_ORDER = " ORDER BY v.target, v.name, v.identity"


def add(
    store: Store,
    now: datetime,
    eye_id: str,
    name: str,
    target: date,
    earliest: date,
    latest: date,
    reason: str,
    by: str,
    replaces: str | None = None,
    *,
    withdrawn: bool = False,
) -> str:
    """Write a visit into the book, or a change of one: what replaces another keeps its `identity`."""
    id = new_id()
    changed = visit(store, replaces) if replaces else None
    dates = {"target": target.isoformat(), "earliest": earliest.isoformat(), "latest": latest.isoformat()}
    row = {
        "id": id,
        "identity": changed.identity if changed else id,
        "eye_id": eye_id,
        "name": name,
        **dates,
        "reason": reason,
        "replaces": replaces,
        "withdrawn": int(withdrawn),
    }
    store.insert("visits", {**row, "recorded_by": by, "recorded_at": to_text(now)})
    return id


def visit(store: Store, id: str) -> Visit | None:
    """A visit as planned once, replaced or not."""
    found = store.row(_VISITS + " WHERE v.id = :id", {"id": id})
    return _made(found) if found else None


def stands(store: Store, id: str) -> bool:
    """Whether this version of a visit is in the book now, and its eye followed."""
    sql = f"SELECT 1 FROM visits v JOIN eyes e ON e.id = v.eye_id WHERE v.id = :id AND {_FOLLOWED} AND {_CURRENT}"
    return store.row(sql, {"id": id}) is not None


def of_eye(store: Store, eye_id: str) -> list[Visit]:
    """The visits as planned now, by date; replaced ones are left out. `entered_at` is when each came into the book."""
    sql = _VISITS + f" WHERE v.eye_id IN {SAME_EYE} AND {_CURRENT}" + _IN_ORDER
    return readable(store, "visits", store.rows(sql, {"id": eye_id}), _made)


def withdrawn_at(store: Store, eye_id: str, at: datetime) -> list[Visit]:
    """Visits that were taken out of the book at that instant and are not in it."""
    sql = f"{_VISITS} WHERE v.eye_id IN {SAME_EYE} AND v.withdrawn AND v.recorded_at = :at AND {_READABLE}"
    left = f" AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id){_IN_ORDER}"
    return readable(store, "visits", store.rows(sql + left, {"id": eye_id, "at": to_text(at)}), _made)


def of_followed(store: Store) -> list[Visit]:
    """Current visits of every followed eye, by date."""
    return readable(store, "visits", store.rows(_VISITS + f" WHERE {_FOLLOWED} AND {_CURRENT}" + _IN_ORDER), _made)


def booked_counts(store: Store) -> dict[date, int]:
    """How many current visits fall on each day."""
    sql = f"""
        SELECT v.target, count(*) AS n FROM visits v JOIN eyes e ON e.id = v.eye_id
        WHERE {_FOLLOWED} AND {_CURRENT} GROUP BY v.target
    """
    return {date.fromisoformat(row["target"]): row["n"] for row in store.rows(sql)}


def _made(row: Row) -> Visit:
    return made(Visit, row)


READ_AS = {"visits": (_VISITS + " WHERE " + _READABLE, _made)}
"""How every row of a table is read, for whoever looks for rows that cannot be."""
