"""What each operated eye contributes to the results, kept: made from the facts, never a fact itself; and the sums of it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from datetime import date, datetime
from itertools import groupby
from typing import Any

from followup.records.states import RESULTS, in_column
from followup.records.store import Row, Store, as_json
from followup.records.times import to_text
from followup.records.values import Contribution, ListedResult, OperationResult, made


@dataclass(frozen=True, slots=True)
class Asked:
    """Which operations: by their surgeon, what they left in the eye, why, and when; None is any."""

    surgeon: str | None = None
    agent: str | None = None
    indication: str | None = None
    first_day: date | None = None
    last_day: date | None = None

    @property
    def where(self) -> str:
        """Which rows of `operation_results` it means."""
        compared = {"surgeon": "surgeon =", "agent": "agent =", "indication": "indication ="}
        compared |= {"first_day": "day >=", "last_day": "day <="}
        return " AND ".join([f"{how} :{name}" for name, how in compared.items() if getattr(self, name) is not None] or ["1"])

    @property
    def row(self) -> Row:
        return {f.name: in_column(getattr(self, f.name)) for f in fields(self)}


# --- What is old ---


def changed(store: Store, now: datetime, most: int) -> list[tuple[str, str]]:
    """Patients whose results are old, each with the version of that mark: also by time alone, and those that failed."""
    for_now = """
        SELECT patient_id FROM eye_results WHERE since IS NOT NULL AND since > :now
        UNION SELECT patient_id FROM eye_results WHERE until IS NOT NULL AND until <= :now
        UNION SELECT y.patient_id FROM faults f JOIN eyes y ON y.id = f.about WHERE f.what = 'results' AND f.last_at != :now
    """
    known = {"now": to_text(now), "most": most}
    by_time = [(row["patient_id"], "") for row in store.rows(f"SELECT patient_id FROM ({for_now}) LIMIT :most", known)]
    marked = store.rows("SELECT patient_id, version FROM changed_results LIMIT :most", {"most": most})
    return list((dict(by_time) | {row["patient_id"]: row["version"] for row in marked}).items())


def put(store: Store, patient_id: str, version: str, found: Sequence[Contribution]) -> None:
    """Keep what a patient's eyes contribute in the place of the former; nothing where they changed since `version`."""
    known = {"id": patient_id, "version": version}
    marked = store.row("SELECT version FROM changed_results WHERE patient_id = :id", known)
    if marked and marked["version"] != version:
        return
    for table in ("changed_results", *RESULTS):
        store.execute(f"DELETE FROM {table} WHERE patient_id = :id", known)
    for one in found:
        _put(store, "eye_results", _row(one, but=("operations",)), patient_id)
        for operation in one.operations:
            _put(store, "operation_results", _row(operation), patient_id)


def _put(store: Store, table: str, row: Row, patient_id: str) -> None:
    """Also where another record had it until now: records of one person are joined, and their eyes with them."""
    store.put(table, {**row, "patient_id": patient_id})


def _row(value: Any, but: Sequence[str] = ()) -> Row:
    row = {f.name: in_column(getattr(value, f.name)) for f in fields(value) if f.name not in but}
    return {name: as_json(held) if isinstance(held, list) else held for name, held in row.items()}


def kept(store: Store, patient_id: str) -> list[Contribution]:
    """What is kept of a patient's eyes, by eye."""
    known = {"id": patient_id}
    rows = store.rows("SELECT * FROM operation_results WHERE patient_id = :id ORDER BY eye_id, number", known)
    of_eye = {eye: tuple(made(OperationResult, row) for row in of) for eye, of in groupby(rows, lambda row: row["eye_id"])}
    found = store.rows("SELECT * FROM eye_results WHERE patient_id = :id ORDER BY eye_id", known)
    return [made(Contribution, row, operations=of_eye.get(row["eye_id"], ())) for row in found]


# --- Sums ---


@dataclass(frozen=True, slots=True)
class Sums:
    """Of the operations asked for: how many, on how many eyes, how many were found detached under liquid.

    `followed` are days without liquid and whether they ended with a detachment, in order of time. `spikes` are the months
    (`2027-03`) with how many had a pressure from the edge on, of how many measured. `sight` counts eyes by how it changed.
    The rest counts eyes, their visits and their callbacks.
    """

    operations: int
    eyes: int
    under_liquid: int
    followed: list[tuple[float, bool]]
    spikes: list[tuple[str, int, int]]
    sight: dict[str, int]
    ends: int
    once: int
    attached: int
    liquid_left: int
    visits: int
    visits_seen: int
    calls: int
    calls_in_time: int
    hours_to_claim: list[float]


def sums(store: Store, asked: Asked, spike_from_mmhg: float) -> Sums:
    """What is kept, added up."""
    where, known = asked.where, {**asked.row, "edge": spike_from_mmhg}
    chosen = f"FROM operation_results WHERE {where}"
    these = f"WHERE eye_id IN (SELECT eye_id {chosen})"

    def rows(sql: str) -> list[Row]:
        return store.rows(sql, known)

    (counted,) = rows(
        f"""
        SELECT count(*) AS operations, count(DISTINCT eye_id) AS eyes, coalesce(sum(under_liquid), 0) AS under_liquid {chosen}
        """
    )
    (of_eyes,) = rows(
        f"""
        SELECT count(state) AS ends, coalesce(sum(once), 0) AS once, coalesce(sum(state = 'attached'), 0) AS attached,
            coalesce(sum(state = 'under-liquid'), 0) AS liquid_left, coalesce(sum(visits), 0) AS visits,
            coalesce(sum(visits_seen), 0) AS visits_seen, coalesce(sum(calls), 0) AS calls,
            coalesce(sum(calls_in_time), 0) AS calls_in_time
        FROM eye_results {these}
        """
    )
    followed = rows(f"SELECT days_followed, detached {chosen} AND days_followed IS NOT NULL ORDER BY days_followed")
    spikes = rows(
        f"""
        SELECT substr(day, 1, 7) AS month, sum(highest_early_mmhg >= :edge) AS spikes, count(*) AS measured
        {chosen} AND highest_early_mmhg IS NOT NULL GROUP BY month ORDER BY month
        """
    )
    first = f"SELECT min(number) AS first, sight {chosen} GROUP BY eye_id"  # SQLite: `sight` of the row with that minimum
    sight = rows(f"SELECT sight, count(*) AS eyes FROM ({first}) WHERE sight IS NOT NULL GROUP BY sight")
    hours = rows(f"SELECT value FROM eye_results, json_each(hours_to_claim) {these}")
    return Sums(
        **counted,
        **of_eyes,
        followed=[(row["days_followed"], bool(row["detached"])) for row in followed],
        spikes=[(row["month"], row["spikes"], row["measured"]) for row in spikes],
        sight={row["sight"]: row["eyes"] for row in sight},
        hours_to_claim=[row["value"] for row in hours],
    )


def listed(store: Store, asked: Asked) -> Iterable[ListedResult]:
    """The operations asked for, a row each, by when each eye was last operated."""
    sql = f"""
        SELECT o.*, e.state, e.once, e.last_logmar, p.number AS patient_number, y.side
        FROM (SELECT * FROM operation_results WHERE {asked.where}) o
        JOIN eye_results e ON e.eye_id = o.eye_id JOIN eyes y ON y.id = o.eye_id JOIN patients p ON p.id = o.patient_id
        ORDER BY e.operated_at, o.eye_id, o.number
    """
    for row in store.rows(sql, asked.row):
        yield made(ListedResult, row, operation=made(OperationResult, row))
