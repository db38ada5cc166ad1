"""Warnings, and the callbacks that settle them."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from followup.clinical.warnings import Sign
from followup.records.eyes import SAME_EYE
from followup.records.store import Row, Store, as_json, new_id
from followup.records.times import to_text
from followup.records.values import Callback, Reason, Step, Taken, Warning, made
from followup.records.watch import readable

URGENCY = "CASE c.how_soon WHEN 'now' THEN 0 WHEN 'today' THEN 1 ELSE 2 END"
_OPEN_TASKS = "SELECT count(*) FROM tasks t WHERE t.callback_id = c.id AND t.done_at IS NULL"
_CALLBACKS = f"""
    SELECT c.*, coalesce(y.joined_into, c.eye_id) AS eye_id, s.name AS claimed_by_name,
           ({_OPEN_TASKS}) AS open_tasks, ({_OPEN_TASKS} AND t.owner IS NULL) AS free_tasks
    FROM callbacks c JOIN eyes y ON y.id = c.eye_id LEFT JOIN staff s ON s.id = c.claimed_by
"""

_UNFOUNDED = """
    coalesce((SELECT g.unfounded FROM warning_grounds g WHERE g.warning_id = c.id ORDER BY g.number DESC LIMIT 1), 0)
"""
_WARNINGS = f"""
    SELECT c.*, coalesce(y.joined_into, c.eye_id) AS eye_id, c.values_json AS "values",
           {_UNFOUNDED} AS unfounded
    FROM warnings c JOIN eyes y ON y.id = c.eye_id
"""


def has_warning(store: Store, eye_id: str, rule: str, raised_at: datetime) -> bool:
    sql = f"SELECT 1 FROM warnings WHERE eye_id IN {SAME_EYE} AND rule = :rule AND raised_at = :at"
    return store.row(sql, {"id": eye_id, "rule": rule, "at": to_text(raised_at)}) is not None


def add_warning(store: Store, now: datetime, eye_id: str, callback_id: str, sign: Sign, rulebook: str) -> Warning:
    """Keep a sign that came up, under its callback."""
    id = new_id()
    row = {key: getattr(sign, key) for key in ("rule", "worry", "how_soon", "severity", "source", "words")}
    told = {"values_json": as_json(sign.values), "threshold": as_json(sign.threshold)}
    row |= {"raised_at": to_text(sign.raised_at), "recorded_at": to_text(now), "rulebook": rulebook, **told}
    store.insert("warnings", {"id": id, "eye_id": eye_id, "callback_id": callback_id, **row})
    return made(Warning, store.rows(_WARNINGS + " WHERE c.id = :id", {"id": id})[0])


def warnings_of(store: Store, eye_id: str) -> list[Warning]:
    sql = f"{_WARNINGS} WHERE c.eye_id IN {SAME_EYE} ORDER BY c.raised_at, c.id"
    return readable(store, "warnings", store.rows(sql, {"id": eye_id}), _warning)


def warnings_of_callback(store: Store, callback_id: str) -> list[Warning]:
    """The most urgent first, then the latest."""
    sql = f"{_WARNINGS} WHERE c.callback_id = :id ORDER BY {URGENCY}, c.raised_at DESC, c.id DESC"
    return readable(store, "warnings", store.rows(sql, {"id": callback_id}), _warning)


def reasons_of_callbacks(store: Store, callback_ids: Sequence[str]) -> dict[str, list[Reason]]:
    """What the same of several callbacks say, by callback: for lists, which show nothing of what they rest on."""
    named = {f"c{n}": id for n, id in enumerate(callback_ids)}
    marks = ", ".join(f":{name}" for name in named)
    sql = f"""
        SELECT c.callback_id, c.words, {_UNFOUNDED} AS unfounded FROM warnings c
        WHERE c.callback_id IN ({marks}) ORDER BY {URGENCY}, c.raised_at DESC, c.id DESC
    """
    found: dict[str, list[Reason]] = {}
    for row in store.rows(sql, named) if named else ():
        found.setdefault(row["callback_id"], []).append(Reason(row["words"], bool(row["unfounded"])))
    return found


def mark(
    store: Store,
    now: datetime,
    warning_id: str,
    *,
    unfounded: bool,
    event_id: str | None = None,
    note_id: str | None = None,
) -> None:
    """What a warning rested on was put right by that event or that note of the operation: it has no grounds, or has them again.

    The latest mark of a warning counts.
    """
    sql = """
        INSERT INTO warning_grounds (warning_id, unfounded, event_id, note_id, at)
        VALUES (:warning, :unfounded, :event, :note, :now)
    """
    row = {"warning": warning_id, "unfounded": int(unfounded), "event": event_id, "note": note_id}
    store.execute(sql, {**row, "now": to_text(now)})


def marked_by(store: Store, event_id: str) -> set[str]:
    """The warnings that lost their grounds by this event, by id."""
    sql = "SELECT warning_id FROM warning_grounds WHERE event_id = :id AND unfounded"
    return {row["warning_id"] for row in store.rows(sql, {"id": event_id})}


def open_callback_of(store: Store, eye_id: str, worry: str) -> Callback | None:
    sql = _CALLBACKS + f" WHERE c.eye_id IN {SAME_EYE} AND c.worry = :worry AND c.state != 'settled'"
    found = store.row(sql, {"id": eye_id, "worry": worry})
    return _callback(found) if found else None


def callback(store: Store, id: str) -> Callback | None:
    found = store.row(_CALLBACKS + " WHERE c.id = :id", {"id": id})
    return _callback(found) if found else None


def callbacks_of(store: Store, eye_id: str) -> list[Callback]:
    sql = _CALLBACKS + f" WHERE c.eye_id IN {SAME_EYE} ORDER BY c.opened_at"
    return readable(store, "callbacks", store.rows(sql, {"id": eye_id}), _callback)


def open_callbacks(store: Store) -> list[Callback]:
    """All that are not settled: by how soon, then by how long they have waited."""
    sql = _CALLBACKS + f" WHERE c.state != 'settled' ORDER BY {URGENCY}, c.opened_at, c.id"
    return readable(store, "callbacks", store.rows(sql), _callback)


def open_of_person(store: Store, patient_id: str) -> list[Callback]:
    """What is open about either eye of a patient, the worst first, then the longest open."""
    sql = f"""
        {_CALLBACKS} WHERE c.state != 'settled' AND c.eye_id IN (SELECT id FROM eyes WHERE patient_id IN
            (SELECT id FROM patients WHERE id = :patient OR joined_into = :patient)) ORDER BY {URGENCY}, c.opened_at, c.id
    """
    return readable(store, "callbacks", store.rows(sql, {"patient": patient_id}), _callback)


def open_of_people(store: Store, patient_ids: Sequence[str]) -> list[Callback]:
    """What is open about either eye of these patients: by how soon, then by how long they have waited."""
    named = {f"p{n}": id for n, id in enumerate(patient_ids)}
    marks = ", ".join(f":{name}" for name in named)
    sql = f"""
        {_CALLBACKS} WHERE c.state != 'settled' AND c.eye_id IN (SELECT id FROM eyes WHERE patient_id IN
            (SELECT id FROM patients WHERE id IN ({marks}) OR joined_into IN ({marks})))
        ORDER BY {URGENCY}, c.opened_at, c.id
    """
    return readable(store, "callbacks", store.rows(sql, named) if named else [], _callback)


def settled_since(store: Store, at: datetime) -> list[Callback]:
    """What was settled from a time on, in that order."""
    sql = _CALLBACKS + " WHERE c.state = 'settled' AND c.settled_at >= :at ORDER BY c.settled_at, c.id"
    return readable(store, "callbacks", store.rows(sql, {"at": to_text(at)}), _callback)


def held_by(store: Store, staff_id: str) -> list[Callback]:
    """The open callbacks that a member of staff has claimed and nobody has decided, as `open_callbacks` orders them."""
    return [c for c in open_callbacks(store) if c.state == "claimed" and c.claimed_by == staff_id]


def overdue_callbacks(store: Store, now: datetime) -> list[Callback]:
    sql = _CALLBACKS + " WHERE c.state IN ('waiting', 'claimed') AND c.due_at <= :now ORDER BY c.due_at"
    return readable(store, "callbacks", store.rows(sql, {"now": to_text(now)}), _callback)


def to_tell_of(store: Store, ids: Sequence[str], moved_since: datetime, silent_since: datetime) -> list[Callback]:
    """Those of these callbacks that are open and of which somebody may have to hear.

    Those for now that have not moved up; those that moved up and were due since a time; those opened for silence since one.
    """
    sql = f"""
        {_CALLBACKS} WHERE c.id IN (SELECT value FROM json_each(:ids)) AND c.state != 'settled' AND (
            c.how_soon = 'now' AND c.level = 0 OR c.level > 0 AND c.due_at > :moved
            OR c.worry = 'silence' AND c.opened_at > :silent)
        ORDER BY {URGENCY}, c.opened_at, c.id
    """
    known = {"ids": as_json(ids), "moved": to_text(moved_since), "silent": to_text(silent_since)}
    return readable(store, "callbacks", store.rows(sql, known), _callback)


def add_callback(store: Store, eye_id: str, worry: str, how_soon: str, opened_at: datetime, due_at: datetime) -> str:
    id = new_id()
    row = {"id": id, "eye_id": eye_id, "worry": worry, "how_soon": how_soon, "state": "waiting"}
    store.insert("callbacks", {**row, "opened_at": to_text(opened_at), "due_at": to_text(due_at)})
    return id


def raise_callback(store: Store, id: str, how_soon: str, due_at: datetime) -> None:
    """Make an open callback more urgent, or due sooner."""
    sql = "UPDATE callbacks SET how_soon = :how_soon, due_at = :due WHERE id = :id"
    store.execute(sql, {"id": id, "how_soon": how_soon, "due": to_text(due_at)})


def claim(store: Store, now: datetime, id: str, staff_id: str) -> bool:
    """Take a waiting callback; False if it is not waiting any more. `claimed_at` keeps the first time."""
    sql = """UPDATE callbacks SET state = 'claimed', claimed_by = :who, claimed_at = coalesce(claimed_at, :now)
             WHERE id = :id AND state = 'waiting'"""
    return store.execute(sql, {"id": id, "who": staff_id, "now": to_text(now)}) == 1


def take_over(store: Store, id: str, staff_id: str, whose: str) -> bool:
    """Take a claimed callback from whoever has it; False if that person has it no more."""
    sql = "UPDATE callbacks SET claimed_by = :who WHERE id = :id AND state = 'claimed' AND claimed_by = :whose"
    return store.execute(sql, {"id": id, "who": staff_id, "whose": whose}) == 1


def release(store: Store, id: str, staff_id: str) -> bool:
    """Put a callback that this person has claimed back on the list; False otherwise."""
    sql = """UPDATE callbacks SET state = 'waiting', claimed_by = NULL
             WHERE id = :id AND state = 'claimed' AND claimed_by = :who"""
    return store.execute(sql, {"id": id, "who": staff_id}) == 1


def settle(store: Store, now: datetime, id: str, staff_id: str, outcome: str) -> None:
    sql = """UPDATE callbacks SET state = 'settled', settled_at = :now, settled_by = :who, outcome = :outcome,
             next_try_at = NULL WHERE id = :id AND state != 'settled'"""
    store.execute(sql, {"id": id, "who": staff_id, "now": to_text(now), "outcome": outcome})


def reopen(store: Store, id: str, staff_id: str) -> bool:
    """Take a settled callback up again, with the person who settled it; False if another is open for the same worry."""
    sql = """UPDATE OR IGNORE callbacks
             SET state = 'claimed', claimed_by = :who, settled_at = NULL, settled_by = NULL, outcome = NULL
             WHERE id = :id AND state = 'settled' AND settled_by = :who"""
    return store.execute(sql, {"id": id, "who": staff_id}) == 1


def open_anew(store: Store, id: str, due_at: datetime) -> bool:
    """Put a settled callback on the list again, for everybody; False if another is open for the same worry."""
    sql = """UPDATE OR IGNORE callbacks
             SET state = 'waiting', claimed_by = NULL, settled_at = NULL, settled_by = NULL, outcome = NULL, level = 0,
                 due_at = :due, next_try_at = NULL WHERE id = :id AND state = 'settled'"""
    return store.execute(sql, {"id": id, "due": to_text(due_at)}) == 1


def put_due(store: Store, id: str, due_at: datetime, next_try_at: datetime | None = None) -> None:
    """By when something has to happen, and when whoever was not reached is called again."""
    sql = "UPDATE callbacks SET due_at = :due, next_try_at = :next WHERE id = :id"
    store.execute(sql, {"id": id, "due": to_text(due_at), "next": to_text(next_try_at) if next_try_at else None})


def back_to_the_clinic(store: Store, id: str) -> None:
    """Somebody decided: from here it may move up anew."""
    store.execute("UPDATE callbacks SET level = 0 WHERE id = :id", {"id": id})


def escalate(store: Store, id: str, from_level: int, due_at: datetime) -> bool:
    """Move a callback one level up; False if another process was faster."""
    sql = """UPDATE callbacks SET level = level + 1, moved_up = moved_up + 1, due_at = :due
             WHERE id = :id AND level = :level AND state != 'settled'"""
    return store.execute(sql, {"id": id, "level": from_level, "due": to_text(due_at)}) == 1


def add_step(store: Store, at: datetime, callback_id: str, who: str, step: str, detail: Any = None) -> None:
    row = {"id": new_id(), "callback_id": callback_id, "at": to_text(at), "who": who, "step": step}
    store.insert("callback_steps", {**row, "detail": as_json(detail or {})})


def steps_of(store: Store, callback_id: str) -> list[Step]:
    sql = "SELECT * FROM callback_steps WHERE callback_id = :id ORDER BY at, id"
    return [made(Step, row) for row in store.rows(sql, {"id": callback_id})]


def times_put_back(store: Store, callback_id: str) -> int:
    """How often somebody who had it, or what was to do about it, put it back on the list."""
    sql = """
        SELECT count(*) AS n FROM callback_steps WHERE callback_id = :id
        AND step IN ('given back', 'will not be done', 'taken back', 'theatre cancelled')
    """
    found = store.row(sql, {"id": callback_id})
    return int(found["n"]) if found else 0


def taken_from(store: Store, staff_id: str, since: datetime) -> list[Taken]:
    """What others took over from this person since a time, newest first: its callback, by whom, when."""
    sql = """
        SELECT s.callback_id, s.at, json_extract(s.detail, '$.by') AS by, coalesce(y.joined_into, c.eye_id) AS eye_id, c.worry
        FROM callback_steps s JOIN callbacks c ON c.id = s.callback_id JOIN eyes y ON y.id = c.eye_id
        WHERE s.step = 'taken over' AND json_extract(s.detail, '$.from_id') = :who AND s.at >= :since
        ORDER BY s.at DESC, s.id
    """
    return [made(Taken, row) for row in store.rows(sql, {"who": staff_id, "since": to_text(since)})]


def handed_to(store: Store, staff_id: str, since: datetime) -> list[Taken]:
    """What others handed to this person since a time, newest first: its callback, by whom, when."""
    sql = """
        SELECT s.callback_id, s.at, json_extract(s.detail, '$.by') AS by, coalesce(y.joined_into, c.eye_id) AS eye_id, c.worry
        FROM callback_steps s JOIN callbacks c ON c.id = s.callback_id JOIN eyes y ON y.id = c.eye_id
        WHERE s.step = 'handed over' AND json_extract(s.detail, '$.to_id') = :who AND s.at >= :since
            AND c.state != 'settled'
        ORDER BY s.at DESC, s.id
    """
    return [made(Taken, row) for row in store.rows(sql, {"who": staff_id, "since": to_text(since)})]


def holds_anything(store: Store, staff_id: str) -> bool:
    """Whether somebody has an open callback or a task in hand."""
    sql = """
        SELECT 1 WHERE EXISTS (SELECT 1 FROM callbacks c WHERE c.state = 'claimed' AND c.claimed_by = :who
            AND NOT EXISTS (SELECT 1 FROM tasks t WHERE t.callback_id = c.id AND t.done_at IS NULL))
        OR EXISTS (SELECT 1 FROM tasks WHERE owner = :who AND done_at IS NULL)
    """
    return store.row(sql, {"who": staff_id}) is not None


def _callback(row: Row) -> Callback:
    """An open callback with a task that is not done is `to-do`."""
    to_do = row["state"] != "settled" and row["open_tasks"] > 0
    if to_do:
        return made(Callback, row, state="to-do", free=row["free_tasks"] > 0)
    return made(Callback, row, free=row["state"] == "waiting")


def _warning(row: Row) -> Warning:
    return made(Warning, row)


READ_AS = {
    "callbacks": (_CALLBACKS + " WHERE true", "c.id", _callback),
    "warnings": (_WARNINGS + " WHERE true", "c.id", _warning),
}
"""How every row of a table is read, and the column it is known by, for whoever looks for rows that cannot be."""
