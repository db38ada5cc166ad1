"""The list of calls, drawn from the kept states: whoever has something open, in the order of how soon and since when."""

from collections import Counter
from dataclasses import dataclass

from followup.records.store import Row, Store


@dataclass(frozen=True, slots=True)
class Reader:
    """Who reads the list of calls: a member of staff by id, and by the name under which they operated."""

    id: str
    name: str

    @property
    def row(self) -> Row:
        return {"surgeon": f"surgeon:{self.name}", "has": f"has:{self.id}", "task": f"task:{self.id}"}


_WITH_ME = "EXISTS (SELECT 1 FROM call_people p WHERE p.who IN ({who}) AND p.patient_id = c.patient_id)"
_MINE = _WITH_ME.format(who=":surgeon, :has, :task")
_ONLY_TO_DO = f"c.decided AND NOT c.level AND NOT {_WITH_ME.format(who=':task')}"
_PARTS = {
    "mine": f"{_MINE} AND NOT ({_ONLY_TO_DO})",
    "moved_up": f"c.level AND NOT {_MINE}",
    "colleagues": f"NOT c.level AND NOT c.decided AND NOT {_MINE}",
    "decided": _ONLY_TO_DO,
}
_IN_TURN = "ORDER BY c.urgency, c.since, c.first LIMIT :most OFFSET :after"


def calls(store: Store, most: int, after: int) -> list[str]:
    """Patients with something open, by how soon and since when."""
    rows = store.rows(f"SELECT c.patient_id FROM call_states c {_IN_TURN}", {"most": most, "after": after})
    return [row["patient_id"] for row in rows]


def count_calls(store: Store) -> int:
    found = store.row("SELECT count(*) AS n FROM call_states INDEXED BY calls_counted")
    return int(found["n"]) if found else 0


def calls_of_part(store: Store, me: Reader, part: str, most: int, after: int) -> list[str]:
    """The patients of one part of a surgeon's list: `mine`, what `moved_up`, `colleagues`, only `decided`; in the same order."""
    sql = f"SELECT c.patient_id FROM call_states c WHERE {_PARTS[part]} {_IN_TURN}"
    return [row["patient_id"] for row in store.rows(sql, {**me.row, "most": most, "after": after})]


def count_parts(store: Store, me: Reader) -> dict[str, tuple[int, int]]:
    """How many patients each part holds, and how many of those are for now.

    Everything open is counted by what its row says; only what is the reader's is looked up.
    """
    kind = "c.urgency = 0 AS now, c.level > 0 AS moved, c.decided AS decided, count(*) AS n FROM call_states c INDEXED BY calls_counted"
    counted: dict[str, Counter[bool]] = {part: Counter() for part in _PARTS}
    for row in store.rows(f"SELECT {kind} GROUP BY 1, 2, 3"):
        part = "moved_up" if row["moved"] else "decided" if row["decided"] else "colleagues"
        counted[part][bool(row["now"])] += row["n"]
    mine = f"""
        SELECT m.to_me, {kind.replace(" INDEXED BY calls_counted", "")} JOIN (SELECT patient_id, max(who = :task) AS to_me FROM call_people
            WHERE who IN (:surgeon, :has, :task) GROUP BY patient_id) m ON m.patient_id = c.patient_id GROUP BY 1, 2, 3, 4
    """
    for row in store.rows(mine, me.row):
        only_to_do = row["decided"] and not row["moved"]
        if not (only_to_do and not row["to_me"]):
            part = "moved_up" if row["moved"] else "decided" if only_to_do else "colleagues"
            counted[part][bool(row["now"])] -= row["n"]
            counted["mine"][bool(row["now"])] += row["n"]
    return {part: (found.total(), found[True]) for part, found in counted.items()}
