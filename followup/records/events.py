"""What was recorded about each eye: append-only; a correction or a withdrawal is a later event that points back."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any

from followup.records.bodies.base import Body
from followup.records.bodies.kinds import kept, kept_or_illegible, stored
from followup.records.eyes import SAME_EYE, in_time
from followup.records.store import Row, Store, as_json, first_id, marked
from followup.records.times import from_text, to_text
from followup.records.values import Event, Refused, as_object, made
from followup.records.watch import readable

_STANDS = f"NOT EXISTS (SELECT 1 FROM events later WHERE later.corrects = e.id) AND {in_time('e.at')}"
_WITH_EYE = "SELECT e.*, coalesce(y.joined_into, e.eye_id) AS eye_id FROM events e JOIN eyes y ON y.id = e.eye_id"
_OF_CLINIC = "e.kind IN ('seen', 'measures', 'did-not-come')"
_FOLLOWED = f"{_WITH_EYE} WHERE y.followed_since IS NOT NULL AND y.ended_at IS NULL"


def add(
    store: Store,
    id: str,
    eye_id: str,
    kind: str,
    at: datetime,
    body: Body | Mapping[str, Any],
    author: str,
    received_at: datetime,
    *,
    device_id: str | None = None,
    sequence: int | None = None,
    offset_minutes: int | None = None,
    device_at: datetime | None = None,
    corrects: str | None = None,
    reason: str = "",
) -> None:
    """Keep an event. `at` is when it happened by the clinic's clock, `device_at` by the phone's own."""
    said = stored(body) if isinstance(body, Body) else body
    row = {"id": id, "eye_id": eye_id, "kind": kind, "at": to_text(at), "body": as_json(said), "author": author}
    device = {"device_id": device_id, "sequence": sequence, "offset_minutes": offset_minutes}
    device |= {"device_at": to_text(device_at) if device_at else None}
    store.insert("events", {**row, **device, "received_at": to_text(received_at), "corrects": corrects, "reason": reason})


def event(store: Store, id: str) -> Event | None:
    found = store.row("SELECT * FROM events WHERE id = :id", {"id": id})
    return _made(found) if found else None


def correction_of(store: Store, id: str) -> Event | None:
    """The later event that corrects or withdraws this one."""
    found = store.row("SELECT * FROM events WHERE corrects = :id ORDER BY received_at LIMIT 1", {"id": id})
    return _made(found) if found else None


def of_eye(store: Store, eye_id: str) -> list[Event]:
    """The events that stand, by time: those that a later event corrects are left out."""
    sql = f"SELECT * FROM events e WHERE e.eye_id IN {SAME_EYE} AND e.kind != 'withdrawal' AND {_STANDS} ORDER BY e.at, e.id"
    return readable(store, "events", store.rows(sql, {"id": eye_id}), _made)


def levels_taken_back(store: Store, eye_id: str) -> list[Event]:
    """Levels of the bubble that a phone sent of an eye and put right or took back later, by time."""
    sql = f"""
        SELECT * FROM events e WHERE e.eye_id IN {SAME_EYE} AND e.kind = 'bubble-seen' AND {in_time("e.at")} AND EXISTS
            (SELECT 1 FROM events later WHERE later.corrects = e.id AND later.device_id IS NOT NULL) ORDER BY e.at, e.id
    """
    return readable(store, "events", store.rows(sql, {"id": eye_id}), _legible)


def beside(store: Store, eye_id: str, patient_id: str, kinds: tuple[str, ...]) -> list[Event]:
    """What was recorded on the patient's other eye and is about the person."""
    marks = ", ".join(f"'{kind}'" for kind in kinds)
    sql = f"""
        SELECT e.* FROM events e JOIN eyes y ON y.id = e.eye_id
        WHERE y.patient_id IN (SELECT id FROM patients WHERE id = :patient OR joined_into = :patient)
        AND e.eye_id NOT IN {SAME_EYE} AND e.kind IN ({marks}) AND {_STANDS} ORDER BY e.at, e.id
    """
    return readable(store, "events", store.rows(sql, {"id": eye_id, "patient": patient_id}), _made)


def history_of(store: Store, eye_id: str) -> list[Event]:
    """Every event, corrected ones included, in the order received."""
    sql = f"SELECT * FROM events WHERE eye_id IN {SAME_EYE} AND {in_time('at')} ORDER BY received_at, id"
    return readable(store, "events", store.rows(sql, {"id": eye_id}), _made)


def of_kind(store: Store, kind: str) -> list[Event]:
    """What stands of one kind on the followed eyes, by time."""
    sql = f"{_FOLLOWED} AND e.kind = :kind AND {_STANDS} ORDER BY e.at, e.id"
    return readable(store, "events", store.rows(sql, {"kind": kind}), _legible)


def of_clinic_since(store: Store, at: datetime) -> list[Event]:
    """Who was seen, measured, or did not come, on eyes that were followed then, from a time on, by time."""
    then = "y.followed_since IS NOT NULL AND coalesce(y.ended_at, :at) >= :at"
    sql = f"{_WITH_EYE} WHERE {then} AND {_OF_CLINIC} AND e.at >= :at AND {_STANDS} ORDER BY e.at, e.id"
    return readable(store, "events", store.rows(sql, {"at": to_text(at)}), _legible)


def latest(store: Store, kind: str, most: int) -> list[Event]:
    """What stands of the latest `seen`, `measures` or `did-not-come`, of any eye followed, the latest first."""
    sql = f"{_FOLLOWED} AND {_OF_CLINIC} AND e.kind = :kind AND {_STANDS} ORDER BY e.at DESC, e.id DESC LIMIT :most"
    return readable(store, "events", store.rows(sql, {"kind": kind, "most": most}), _made)


def by_ids(store: Store, ids: Iterable[str]) -> dict[str, Event]:
    """These entries by their id, in one reading."""
    marks, named = marked(ids)
    rows = store.rows(f"{_WITH_EYE} WHERE e.id IN ({marks})", named) if named else []
    return {found.id: found for found in readable(store, "events", rows, _legible)}


def last_measures(store: Store, eye_ids: Iterable[str]) -> dict[str, Event]:
    """The latest measures of these eyes, by eye, in one reading."""
    marks, named = marked(eye_ids)
    sql = f"""
        SELECT e.*, coalesce(y.joined_into, e.eye_id) AS eye_id, max(e.at || e.id) FROM eyes y JOIN events e ON e.eye_id = y.id
        WHERE (y.id IN ({marks}) OR y.joined_into IN ({marks})) AND e.kind = 'measures' AND json_valid(e.body) AND {_STANDS}
        GROUP BY coalesce(y.joined_into, e.eye_id)
    """
    rows = store.rows(sql, named) if named else []
    return {found.eye_id: found for found in readable(store, "events", rows, _legible)}


_WHOSE = "JOIN eyes y ON y.id = e.eye_id JOIN patients p ON p.id = y.patient_id"


def patients_here_since(store: Store, at: datetime) -> list[str]:
    """Patients who were seen or measured from a time on, by the record that stands."""
    here = f"{_OF_CLINIC} AND e.kind != 'did-not-come' AND e.at >= :at AND {_STANDS}"
    sql = f"SELECT DISTINCT coalesce(p.joined_into, p.id) AS id FROM events e {_WHOSE} WHERE {here} ORDER BY 1"
    return [row["id"] for row in store.rows(sql, {"at": to_text(at)})]


def patients_heard_since(store: Store, at: datetime, most: int) -> list[str]:
    """Patients on whose phones something was entered from a time on, by the record that stands; told by the last so many entries.

    It goes by their ids, which begin with the time at which the phone made them.
    """
    last = "SELECT eye_id FROM events WHERE id >= :first AND device_id IS NOT NULL ORDER BY id DESC LIMIT :most"
    sql = f"SELECT DISTINCT coalesce(p.joined_into, p.id) AS id FROM ({last}) e {_WHOSE} ORDER BY 1"
    return [row["id"] for row in store.rows(sql, {"first": first_id(at), "most": most})]


def visit_requests_of(store: Store, eye_id: str) -> list[Event]:
    """What a patient asked of the clinic about visits of an eye and was not taken back, newest first."""
    sql = f"""
        SELECT e.* FROM events e WHERE e.eye_id IN {SAME_EYE} AND e.kind = 'visit-request' AND {_STANDS}
        ORDER BY e.at DESC, e.id DESC
    """
    return readable(store, "events", store.rows(sql, {"id": eye_id}), _legible)


def of_attendance(store: Store, eye_id: str) -> list[Event]:
    """What stands of who came, was seen, or did not come, by time."""
    sql = f"""
        SELECT * FROM events e WHERE e.eye_id IN {SAME_EYE} AND e.kind IN ('seen', 'arrived', 'did-not-come')
        AND {_STANDS} ORDER BY e.at, e.id
    """
    return readable(store, "events", store.rows(sql, {"id": eye_id}), _legible)


def last_heard_of(store: Store, eye_id: str) -> datetime | None:
    """When an eye's patient last sent something about it."""
    sql = f"SELECT max(received_at) AS at FROM events WHERE eye_id IN {SAME_EYE} AND device_id IS NOT NULL"
    found = store.row(sql, {"id": eye_id})
    return from_text(found["at"]) if found and found["at"] else None


def last_measures_of(store: Store, eye_id: str) -> str | None:
    """The entry with the latest measures of an eye."""
    sql = f"""
        SELECT e.id FROM events e WHERE e.eye_id IN {SAME_EYE} AND e.kind = 'measures' AND json_valid(e.body)
        AND {_STANDS} ORDER BY e.at DESC, e.id DESC LIMIT 1
    """
    found = store.row(sql, {"id": eye_id})
    return found["id"] if found else None


def refuse(store: Store, now: datetime, id: str, eye_id: str | None, device_id: str, text: str, reason: str) -> bool:
    """Keep what could not be taken, as it came, once; returns whether it is new."""
    sql = """
        INSERT OR IGNORE INTO refused_events (id, eye_id, device_id, text, reason, received_at)
        VALUES (:id, :eye_id, :device_id, :text, :reason, :now)
    """
    row = {"id": id, "eye_id": eye_id, "device_id": device_id, "text": text, "reason": reason}
    return store.execute(sql, {**row, "now": to_text(now)}) > 0


def refused(store: Store, most: int = 100) -> list[Refused]:
    """The latest that could not be taken: whole packets may be among them, so no more than are wanted."""
    sql = "SELECT * FROM refused_events ORDER BY received_at DESC LIMIT :most"
    return [made(Refused, row) for row in store.rows(sql, {"most": most})]


def _made(row: Row) -> Event:
    return made(Event, row, body=kept_or_illegible(row["kind"], as_object(row["body"])))


def _legible(row: Row) -> Event:
    """For lists of one kind, which read what its bodies say."""
    return made(Event, row, body=kept(row["kind"], as_object(row["body"])))


READ_AS = {"events": ("SELECT * FROM events WHERE true", "id", _made)}
"""How every row of a table is read, and the column it is known by, for whoever looks for rows that cannot be."""
