"""Operations and their records, planned visits, and the events of each eye."""

import json
from datetime import date, datetime
from typing import Any

from followup.records.store import Row, Store, as_json, new_id
from followup.records.times import FIRST_YEAR, LAST_YEAR, from_text, to_text
from followup.records.watch import readable


# Rows from before times had bounds may hold what no reader can use. They are left out of every reading, and `unreadable`
# names them.
def _readable(column: str) -> str:
    return f"({column} GLOB '[12][0-9][0-9][0-9]-*' AND {column} BETWEEN '{FIRST_YEAR}' AND '{LAST_YEAR + 1}')"


_READABLE_VISIT = " AND ".join(_readable(f"v.{day}") for day in ("target", "earliest", "latest"))

_OPERATIONS = f"""
    SELECT o.id, o.patient_id, o.created_at, o.ended_at,
           p.name AS patient_name, p.number AS patient_number, p.born_on, p.phone, p.language,
           r.id AS record_id, r.eye, r.operated_at, r.agent, r.surgeon, r.body, r.recorded_at, r.recorded_by
    FROM operations o
    JOIN patients p ON p.id = o.patient_id
    JOIN operation_records r ON r.id = (
        SELECT id FROM operation_records WHERE operation_id = o.id AND {_readable("operated_at")}
        ORDER BY recorded_at DESC, id DESC LIMIT 1)
"""


def add_operation(store: Store, now: datetime, patient_id: str, id: str | None = None) -> str:
    id = id or new_id()
    store.insert("operations", {"id": id, "patient_id": patient_id, "created_at": to_text(now)})
    return id


def add_operation_record(
    store: Store,
    now: datetime,
    operation_id: str,
    eye: str,
    operated_at: datetime,
    agent: str,
    surgeon: str,
    body: Any,
    by: str,
) -> str:
    id = new_id()
    row = {"id": id, "operation_id": operation_id, "eye": eye, "operated_at": to_text(operated_at), "agent": agent}
    store.insert(
        "operation_records",
        {**row, "surgeon": surgeon, "body": as_json(body), "recorded_by": by, "recorded_at": to_text(now)},
    )
    return id


def operation(store: Store, id: str) -> Row | None:
    """The operation with its patient and its latest record; `body` as a dictionary."""
    found = store.row(_OPERATIONS + " WHERE o.id = :id", {"id": id})
    return _opened(found) if found else None


def open_operations(store: Store) -> list[Row]:
    """Every eye still followed, newest operation first."""
    found = store.rows(_OPERATIONS + " WHERE o.ended_at IS NULL ORDER BY r.operated_at DESC")
    return readable(store, "operations", found, _opened)


def all_operations(store: Store) -> list[Row]:
    return readable(store, "operations", store.rows(_OPERATIONS + " ORDER BY r.operated_at"), _opened)


def operations_of(store: Store, patient_id: str) -> list[Row]:
    found = store.rows(_OPERATIONS + " WHERE o.patient_id = :id ORDER BY r.operated_at DESC", {"id": patient_id})
    return readable(store, "operations", found, _opened)


def records_of(store: Store, operation_id: str) -> list[Row]:
    """Every record of the operation, oldest first: what was changed later, and by whom."""
    sql = f"""
        SELECT * FROM operation_records WHERE operation_id = :id AND {_readable("operated_at")} ORDER BY recorded_at, id
    """
    return [{**row, "body": json.loads(row["body"])} for row in store.rows(sql, {"id": operation_id})]


def end_follow_up(store: Store, now: datetime, operation_id: str) -> None:
    store.execute("UPDATE operations SET ended_at = :now WHERE id = :id", {"id": operation_id, "now": to_text(now)})


def add_visit(
    store: Store,
    now: datetime,
    operation_id: str,
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
        "identity": changed["identity"] if changed else id,
        "operation_id": operation_id,
        "name": name,
        **dates,
        "reason": reason,
        "replaces": replaces,
        "withdrawn": int(withdrawn),
    }
    store.insert("visits", {**row, "recorded_by": by, "recorded_at": to_text(now)})
    return id


_CURRENT = f"NOT v.withdrawn AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id) AND {_READABLE_VISIT}"
_VISITS = """
    SELECT v.*, entered.recorded_at AS entered_at FROM visits v JOIN visits entered ON entered.id = v.identity
    JOIN operations o ON o.id = v.operation_id
"""


def visit(store: Store, id: str) -> Row | None:
    """A visit as planned once, replaced or not."""
    return store.row("SELECT * FROM visits WHERE id = :id", {"id": id})


def visits_of(store: Store, operation_id: str) -> list[Row]:
    """The visits as planned now, by date; replaced ones are left out. `entered_at` is when each came into the book."""
    sql = _VISITS + f" WHERE v.operation_id = :id AND {_CURRENT} ORDER BY v.target, v.name, v.identity"
    return [_opened_visit(row) for row in store.rows(sql, {"id": operation_id})]


def visits_of_followed(store: Store) -> list[Row]:
    """Current visits of every followed eye, by date."""
    sql = _VISITS + f" WHERE o.ended_at IS NULL AND {_CURRENT} ORDER BY v.target, v.name, v.identity"
    return [_opened_visit(row) for row in store.rows(sql)]


def booked_counts(store: Store) -> dict[date, int]:
    """How many current visits fall on each day."""
    sql = f"""
        SELECT v.target, count(*) AS n FROM visits v JOIN operations o ON o.id = v.operation_id
        WHERE o.ended_at IS NULL AND {_CURRENT} GROUP BY v.target
    """
    return {date.fromisoformat(row["target"]): row["n"] for row in store.rows(sql)}


def add_event(
    store: Store,
    id: str,
    operation_id: str,
    kind: str,
    at: datetime,
    body: Any,
    author: str,
    received_at: datetime,
    *,
    device_id: str | None = None,
    sequence: int | None = None,
    offset_minutes: int | None = None,
    device_at: datetime | None = None,
    corrects: str | None = None,
) -> None:
    """Keep an event. `at` is when it happened by the clinic's clock, `device_at` by the phone's own."""
    row = {"id": id, "operation_id": operation_id, "kind": kind, "at": to_text(at), "body": as_json(body), "author": author}
    device = {"device_id": device_id, "sequence": sequence, "offset_minutes": offset_minutes}
    device |= {"device_at": to_text(device_at) if device_at else None}
    store.insert("events", {**row, **device, "received_at": to_text(received_at), "corrects": corrects})


def event(store: Store, id: str) -> Row | None:
    found = store.row("SELECT * FROM events WHERE id = :id", {"id": id})
    return _opened_event(found) if found else None


def correction_of(store: Store, event_id: str) -> Row | None:
    """The later event that corrects or withdraws this one."""
    found = store.row("SELECT * FROM events WHERE corrects = :id ORDER BY received_at LIMIT 1", {"id": event_id})
    return _opened_event(found) if found else None


def events_of(store: Store, operation_id: str) -> list[Row]:
    """The events that stand, by time: those that a later event corrects are left out."""
    sql = f"""
        SELECT e.* FROM events e WHERE e.operation_id = :id AND e.kind != 'withdrawal' AND {_readable("e.at")}
        AND NOT EXISTS (SELECT 1 FROM events later WHERE later.corrects = e.id) ORDER BY e.at, e.id
    """
    return readable(store, "events", store.rows(sql, {"id": operation_id}), _opened_event)


def events_beside(store: Store, operation_id: str, patient_id: str) -> list[Row]:
    """What was recorded at the patient's other operations and counts for every eye: measures, journeys, anaesthetics."""
    sql = """
        SELECT e.* FROM events e JOIN operations o ON o.id = e.operation_id
        WHERE o.patient_id = :patient AND o.id != :id AND e.kind IN ('measures', 'journey', 'anaesthetic')
        AND NOT EXISTS (SELECT 1 FROM events later WHERE later.corrects = e.id) ORDER BY e.at, e.id
    """
    return [_opened_event(row) for row in store.rows(sql, {"id": operation_id, "patient": patient_id})]


def history_of(store: Store, operation_id: str) -> list[Row]:
    """Every event, corrected ones included, in the order received."""
    sql = f"SELECT * FROM events WHERE operation_id = :id AND {_readable('at')} ORDER BY received_at, id"
    return readable(store, "events", store.rows(sql, {"id": operation_id}), _opened_event)


def visit_events(store: Store, kind: str) -> list[Row]:
    """What stands of `seen` or `arrived` events of the followed eyes, by time."""
    sql = """
        SELECT e.* FROM events e JOIN operations o ON o.id = e.operation_id
        WHERE e.kind = :kind AND o.ended_at IS NULL
        AND NOT EXISTS (SELECT 1 FROM events later WHERE later.corrects = e.id) ORDER BY e.at, e.id
    """
    return readable(store, "events", store.rows(sql, {"kind": kind}), _opened_event)


def last_measures(store: Store) -> dict[tuple[str, str], Row]:
    """The latest measures of either eye of every followed patient, by (operation, eye)."""
    sql = f"""
        SELECT e.*, json_extract(e.body, '$.eye') AS side, max(e.at || e.id) FROM events e
        JOIN operations o ON o.id = e.operation_id
        WHERE e.kind = 'measures' AND json_valid(e.body) AND {_readable("e.at")} AND o.ended_at IS NULL
        GROUP BY e.operation_id, side
    """
    return {(row["operation_id"], row["side"]): row for row in readable(store, "events", store.rows(sql), _opened_event)}


def requests_since(store: Store, since: str) -> list[Row]:
    """What patients asked of the clinic about their visits since a time, newest first."""
    sql = f"SELECT * FROM events WHERE kind = 'visit-request' AND {_readable('at')} AND at >= :since ORDER BY at DESC"
    return readable(store, "events", store.rows(sql, {"since": since}), _opened_event)


def last_heard(store: Store) -> dict[str, datetime]:
    """When each eye's patient was last heard from."""
    sql = "SELECT operation_id, max(received_at) AS at FROM events WHERE device_id IS NOT NULL GROUP BY operation_id"
    return {row["operation_id"]: from_text(row["at"]) for row in store.rows(sql)}


def add_look(store: Store, now: datetime, operation_id: str, who: str) -> None:
    """A member of staff opened this eye: what had been received by then was looked at."""
    store.insert("looks", {"id": new_id(), "operation_id": operation_id, "at": to_text(now), "who": who})


def last_look(store: Store, operation_id: str) -> datetime | None:
    found = store.row("SELECT max(at) AS at FROM looks WHERE operation_id = :id", {"id": operation_id})
    return from_text(found["at"]) if found and found["at"] else None


def add_refused_event(
    store: Store, now: datetime, id: str, operation_id: str | None, device_id: str, text: str, reason: str
) -> None:
    """Keep what could not be taken, as it came, once."""
    sql = """
        INSERT OR IGNORE INTO refused_events (id, operation_id, device_id, text, reason, received_at)
        VALUES (:id, :operation_id, :device_id, :text, :reason, :now)
    """
    row = {"id": id, "operation_id": operation_id, "device_id": device_id, "text": text, "reason": reason}
    store.execute(sql, {**row, "now": to_text(now)})


def refused_events(store: Store) -> list[Row]:
    return store.rows("SELECT * FROM refused_events ORDER BY received_at DESC LIMIT 100")


def unreadable(store: Store) -> list[Row]:
    """What stands in the database with a time that cannot be, left out everywhere else: its table, id and what it says."""
    sql = f"""
        SELECT 'operation_records' AS kept_in, 'surgery' AS what, r.id, r.operation_id, r.operated_at AS says FROM operation_records r
        WHERE NOT {_readable("r.operated_at")}
        UNION ALL
        SELECT 'visits', 'visit ' || v.name, v.id, v.operation_id, v.target || ' (' || v.earliest || ' to ' || v.latest || ')' FROM visits v
        WHERE NOT ({_READABLE_VISIT}) AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id)
        UNION ALL
        SELECT 'events', 'entry ' || e.kind, e.id, e.operation_id, e.at FROM events e WHERE NOT {_readable("e.at")}
    """
    named = f"""
        SELECT found.*, p.name AS patient_name, p.number AS patient_number FROM ({sql}) found
        JOIN operations o ON o.id = found.operation_id JOIN patients p ON p.id = o.patient_id ORDER BY p.name, found.id
    """
    return store.rows(named)


def _opened(row: Row) -> Row:
    return {**row, "body": json.loads(row["body"]), "operated_at": from_text(row["operated_at"])}


def _opened_visit(row: Row) -> Row:
    return {**row, "entered_at": from_text(row["entered_at"])}


def _opened_event(row: Row) -> Row:
    times = {"at": from_text(row["at"]), "received_at": from_text(row["received_at"])}
    return {**row, **times, "body": json.loads(row["body"])}


def _dated(row: Row) -> Row:
    return {**row, **{key: date.fromisoformat(row[key]) for key in ("target", "earliest", "latest")}}


READ_AS = {
    "operations": (_OPERATIONS, _opened),
    "events": ("SELECT * FROM events", _opened_event),
    "visits": ("SELECT * FROM visits", _dated),
}
"""How every row of a table is read, for whoever looks for rows that cannot be."""
