"""The list of a clinic day, drawn from the kept states: visits by what became of them, wishes, and days that fell away."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from followup.clinical.rulebook import HOW_SOON
from followup.records.store import Row, Store, marked
from followup.records.times import from_text, to_text
from followup.records.values import VisitState, WishState, made


@dataclass(frozen=True, slots=True)
class Day:
    """A clinic day: its date, the instant at which it begins, and up to which day its list looks ahead.

    Who came or was seen stands on it whatever the day of their visit: some windows open weeks before their day.
    """

    today: date
    midnight: datetime
    until: date

    @property
    def row(self) -> Row:
        return {"today": self.today.isoformat(), "midnight": to_text(self.midnight), "until": self.until.isoformat()}


_ABSENT = "waited AND (here_at IS NULL OR here_at < :midnight)"
_ON_LIST = {
    "here": "waited AND here_at >= :midnight",
    "due": f"{_ABSENT} AND NOT away AND latest >= :today AND target <= :today",
    "missed": f"{_ABSENT} AND (away OR latest < :today) AND target <= :until",
    "seen": "seen_at >= :midnight",
    "coming": f"{_ABSENT} AND NOT away AND latest >= :today AND target > :today AND target <= :until",
}
_FEW = {"here": " INDEXED BY visits_here"}
"""Few are here: without being told, SQLite looks for them among all who are waited for, since those stand in order."""
LIST_STATES = tuple(_ON_LIST)
_IN_ORDER = "target, hour, urgency, name, identity"


def on_list(
    store: Store, kinds: Sequence[str], day: Day, *, signs: bool = False, most: int = -1, after: int = 0
) -> list[tuple[str, VisitState]]:
    """Visits on the list of a day that are in one of these states, in the order expected; with `signs`, those of a worry."""
    one = "SELECT '{kind}' AS kind, visit_states.* FROM visit_states{by} WHERE {where}{signs}"
    with_sign = f" AND urgency < {len(HOW_SOON)}" if signs else ""
    parts = " UNION ALL ".join(
        one.format(kind=kind, by=_FEW.get(kind, ""), where=_ON_LIST[kind], signs=with_sign) for kind in kinds
    )
    rows = store.rows(f"{parts} ORDER BY {_IN_ORDER} LIMIT :most OFFSET :after", {**day.row, "most": most, "after": after})
    return [(row["kind"], made(VisitState, row)) for row in rows]


def count_on_list(store: Store, day: Day) -> dict[str, tuple[int, int]]:
    """How many visits are in each state on the list of a day, and how many of those have a worry; who is absent in one pass."""
    counted = f"count(*) AS n, coalesce(sum(urgency < {len(HOW_SOON)}), 0) AS signs FROM visit_states"
    absent = "CASE WHEN away OR latest < :today THEN 'missed' WHEN target <= :today THEN 'due' ELSE 'coming' END"
    sql = f"""
        SELECT {absent} AS kind, {counted} WHERE {_ABSENT} AND target <= :until GROUP BY 1
        UNION ALL SELECT 'here', {counted} WHERE {_ON_LIST["here"]}
        UNION ALL SELECT 'seen', {counted} WHERE {_ON_LIST["seen"]}
    """
    return dict.fromkeys(LIST_STATES, (0, 0)) | {row["kind"]: (row["n"], row["signs"]) for row in store.rows(sql, day.row)}


def unseen_of(store: Store, patient_ids: Iterable[str]) -> list[VisitState]:
    """The visits of these patients that have not taken place."""
    marks, named = marked(patient_ids)
    sql = f"SELECT * FROM visit_states WHERE patient_id IN ({marks}) AND seen_at IS NULL"
    return [made(VisitState, row) for row in (store.rows(sql, named) if named else [])]


def wishes(store: Store, most: int) -> list[WishState]:
    """Wishes that nobody has answered, newest first; -1: all."""
    sql = "SELECT * FROM wish_states WHERE at > '' ORDER BY at DESC, event_id DESC LIMIT :most"
    return [made(WishState, row) for row in store.rows(sql, {"most": most})]


def count_unplanned(store: Store) -> int:
    """How many followed eyes have nothing planned."""
    found = store.row("SELECT count(*) AS n FROM eye_states WHERE unplanned_since IS NOT NULL")
    return int(found["n"]) if found else 0


def unplanned(store: Store, most: int, after: int) -> list[tuple[str, datetime]]:
    """Those eyes by id, each with since when: the longest first."""
    sql = """
        SELECT eye_id, unplanned_since FROM eye_states WHERE unplanned_since IS NOT NULL
        ORDER BY unplanned_since, eye_id LIMIT :most OFFSET :after
    """
    rows = store.rows(sql, {"most": most, "after": after})
    return [(row["eye_id"], from_text(row["unplanned_since"])) for row in rows]


def days_unseen(store: Store, after: date, until: date) -> list[date]:
    """The days after one and until another on which a visit stands that has not taken place; steps from day to day."""
    following = "SELECT min(target) FROM visit_states WHERE seen_at IS NULL AND target > {day}"
    sql = f"""
        WITH RECURSIVE days (day) AS (
            {following.format(day=":after")} UNION ALL SELECT ({following.format(day="day")}) FROM days WHERE day < :until
        ) SELECT day FROM days WHERE day <= :until
    """
    return [
        date.fromisoformat(row["day"]) for row in store.rows(sql, {"after": after.isoformat(), "until": until.isoformat()})
    ]


def unseen_on(store: Store, days: Sequence[date]) -> list[VisitState]:
    """Visits that have not taken place and stand on one of these days, by date."""
    named = {f"d{n}": day.isoformat() for n, day in enumerate(days)}
    marks = ", ".join(f":{name}" for name in named)
    sql = f"SELECT * FROM visit_states WHERE seen_at IS NULL AND target IN ({marks}) ORDER BY target, name, identity"
    return [made(VisitState, row) for row in (store.rows(sql, named) if named else [])]
