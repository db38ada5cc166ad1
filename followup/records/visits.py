"""The clinic's book: visits as they stand, each with one identity through every change."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import date, datetime, time
from typing import Any

from followup.records.eyes import SAME_EYE, in_time
from followup.records.store import Row, Store, new_id
from followup.records.times import to_text
from followup.records.values import Change, Closure, Visit, made
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
    starts: time | None = None,
    why: str = "",
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
        "starts": f"{starts:%H:%M}" if starts else None,
        "why": why,
    }
    store.insert("visits", {**row, "recorded_by": by, "recorded_at": to_text(now)})
    return id


def change(store: Store, now: datetime, v: Visit, by: str, why: str, **changes: Any) -> str:
    """Write a changed version of a visit; returns its id."""
    to = replace(v, **changes)
    dates = (to.target, to.earliest, to.latest)
    return add(
        store, now, v.eye_id, v.name, *dates, v.reason, by, v.id, withdrawn=to.withdrawn, starts=to.starts, why=why
    )  # fmt: skip


def visit(store: Store, id: str) -> Visit | None:
    """A visit as planned once, replaced or not."""
    found = store.row(_VISITS + " WHERE v.id = :id", {"id": id})
    return _made(found) if found else None


def standing(store: Store, identity: str) -> Visit | None:
    """The latest version of a visit, cancelled or not."""
    latest = " AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id)"
    found = store.row(_VISITS + " WHERE v.identity = :id" + latest, {"id": identity})
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


def cancelled_of_eye(store: Store, eye_id: str) -> list[Visit]:
    """Visits that were taken out of the book and are not in it, by date."""
    left = "v.withdrawn AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id)"
    sql = f"{_VISITS} WHERE v.eye_id IN {SAME_EYE} AND {left} AND {_READABLE}{_IN_ORDER}"
    return readable(store, "visits", store.rows(sql, {"id": eye_id}), _made)


UNTOLD = """
    SELECT v.id, min(v.target, b.target) AS soonest, max(v.target, b.target) AS until
    FROM visits_to_tell t JOIN visits v ON v.id = t.visit_id JOIN visits b ON b.id = v.replaces
    WHERE t.told_at IS NULL AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id)
"""
"""Changes that stand and that nobody was told of, as the facts have them; triggers keep the same in `changes_untold`."""
_TO_TELL = f"{_FOLLOWED} AND {_READABLE} AND v.id IN (SELECT visit_id FROM changes_untold)"
STILL_TO_TELL = f"""
    FROM changes_untold u CROSS JOIN visits v ON v.id = u.visit_id CROSS JOIN eyes e ON e.id = v.eye_id
    WHERE u.until >= :today AND {_FOLLOWED} AND {_READABLE}
"""
"""Those of visits of followed eyes of which not both days are over."""


def to_tell(store: Store, today: date, most: int = -1, after: int = 0) -> list[Change]:
    """Changes that patients are still to be told of, each until the later of its two days is over: the soonest first, then the
    oldest; at most so many after so many.
    """
    first_made = "(SELECT t.made_at FROM visits_to_tell t WHERE t.visit_id = v.id)"
    sql = f"SELECT v.id, v.replaces {STILL_TO_TELL} ORDER BY u.soonest, {first_made}, v.id LIMIT :most OFFSET :after"
    found = store.rows(sql, {"today": today.isoformat(), "most": most, "after": after})
    known = versions(store, [id for row in found for id in (row["id"], row["replaces"])])
    pairs = ((known.get(row["replaces"]), known.get(row["id"])) for row in found)
    return [Change(before, changed) for before, changed in pairs if before and changed]


def count_to_tell(store: Store, today: date) -> int:
    """How many there are."""
    return int(store.rows(f"SELECT count(*) AS n {STILL_TO_TELL}", {"today": today.isoformat()})[0]["n"])


def untold_of_eye(store: Store, eye_id: str) -> frozenset[str]:
    """The versions of an eye's visits that stand and whose patient nobody has told, over or not."""
    sql = f"SELECT v.id FROM visits v JOIN changes_untold u ON u.visit_id = v.id WHERE v.eye_id IN {SAME_EYE}"
    return frozenset(row["id"] for row in store.rows(sql, {"id": eye_id}))


def change_to_tell(store: Store, visit_id: str) -> Change | None:
    """The change that this version of a visit is, where its patient is to be told; None where nobody is.

    Of a followed eye, whether its days are over or not.
    """
    found = store.row(f"{_VISITS} WHERE v.id = :id AND {_TO_TELL}", {"id": visit_id})
    changed = _made(found) if found else None
    before = visit(store, changed.replaces) if changed and changed.replaces else None
    return Change(before, changed) if changed and before else None


def is_to_tell(store: Store, visit_id: str) -> bool:
    """Whether there is such a change."""
    sql = f"SELECT 1 FROM visits v JOIN eyes e ON e.id = v.eye_id WHERE v.id = :id AND {_TO_TELL}"
    return store.row(sql, {"id": visit_id}) is not None


def must_tell(store: Store, now: datetime, visit_id: str) -> None:
    """The patient is to be told of this version."""
    store.insert("visits_to_tell", {"visit_id": visit_id, "made_at": to_text(now)})


def told(store: Store, now: datetime, visit_id: str, by: str) -> bool:
    """The patient was told of this version; False if that was known, or need not be."""
    sql = "UPDATE visits_to_tell SET told_at = :at, told_by = :by WHERE visit_id = :id AND told_at IS NULL"
    return store.execute(sql, {"id": visit_id, "by": by, "at": to_text(now)}) == 1


def is_untold(store: Store, visit_id: str) -> bool:
    """Whether the patient is still to be told of this version."""
    return store.row("SELECT 1 FROM visits_to_tell WHERE visit_id = :id AND told_at IS NULL", {"id": visit_id}) is not None


def close(store: Store, now: datetime, day: date, why: str, by: str, *, closed: bool = True) -> None:
    """Close a clinic day, or open it again."""
    row = {"day": day.isoformat(), "closed": int(closed), "why": why}
    store.insert("closures", {**row, "recorded_by": by, "recorded_at": to_text(now)})


def closures(store: Store, first: date, last: date) -> list[Closure]:
    """The days between two dates that stand closed, in order."""
    sql = """
        SELECT c.* FROM closures c WHERE c.closed AND c.day BETWEEN :first AND :last
        AND NOT EXISTS (SELECT 1 FROM closures later WHERE later.day = c.day AND later.number > c.number) ORDER BY c.day
    """
    return [made(Closure, row) for row in store.rows(sql, {"first": first.isoformat(), "last": last.isoformat()})]


def versions(store: Store, ids: Sequence[str]) -> dict[str, Visit]:
    """These versions of visits, by their id."""
    named = {f"v{n}": id for n, id in enumerate(ids)}
    sql = f"{_VISITS} WHERE v.id IN ({', '.join(':' + name for name in named)})"
    rows = store.rows(sql, named) if named else []
    return {v.id: v for v in readable(store, "visits", rows, _made)}


def of_followed(store: Store) -> list[Visit]:
    """Current visits of every followed eye, by date."""
    return readable(store, "visits", store.rows(_VISITS + f" WHERE {_FOLLOWED} AND {_CURRENT}" + _IN_ORDER), _made)


def booked_counts(store: Store, first: date = date.min, last: date = date.max) -> dict[date, int]:
    """How many current visits fall on each day, from the first to the last."""
    sql = f"""
        SELECT v.target, count(*) AS n FROM visits v JOIN eyes e ON e.id = v.eye_id
        WHERE v.target BETWEEN :first AND :last AND {_FOLLOWED} AND {_CURRENT} GROUP BY v.target
    """
    days = {"first": first.isoformat(), "last": last.isoformat()}
    return {date.fromisoformat(row["target"]): row["n"] for row in store.rows(sql, days)}


def _made(row: Row) -> Visit:
    return made(Visit, row)


READ_AS = {"visits": (_VISITS + " WHERE " + _READABLE, "v.id", _made)}
"""How every row of a table is read, and the column it is known by, for whoever looks for rows that cannot be."""
