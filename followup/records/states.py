"""What stands now of each followed eye, its visits and each patient's call: made from the facts, never a fact itself.

The database itself notes whose facts changed (triggers, in the transaction that changes them). Until somebody has worked
that patient's state out anew, it is known to be old.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from datetime import date, datetime, time
from typing import Any

from followup.records.consents import not_taken_back
from followup.records.messages import STAND
from followup.records.store import Row, Store, new_id
from followup.records.times import from_text, to_text
from followup.records.values import CallState, EyeState, FollowedEye, NextVisit, VisitState, WishState, made

AT_ONCE = ""
NO_HOUR = "~"
TABLES = ("eye_states", "visit_states", "wish_states", "call_states", "call_people")
RESULTS = ("eye_results", "operation_results")
"""What each operated eye contributes to the results (`records/kept_results.py`): old whenever a state was."""
OF_PERSON = "(SELECT id FROM patients WHERE id = :patient OR joined_into = :patient)"
"""The records of the person `:patient`."""


def changed(store: Store, most: int) -> list[str]:
    """Patients whose state is old, by the record that stands; the same one may be given until `put`."""
    found = store.rows("SELECT patient_id FROM changed_patients LIMIT :most", {"most": most})
    return [row["patient_id"] for row in found]


def standing(store: Store, patient_id: str) -> str:
    """The record that this one was joined into, or itself."""
    found = store.row("SELECT coalesce(joined_into, id) AS id FROM patients WHERE id = :id", {"id": patient_id})
    return str(found["id"]) if found else patient_id


def made_how(store: Store) -> str | None:
    """What the states were last made by and for."""
    found = store.row("SELECT how FROM state_made WHERE only = 1")
    return found["how"] if found else None


def make_all_anew(store: Store, how: str) -> None:
    """Every state is old from now on, and what each patient contributes to the results.

    Whoever has no followed eye, no open call and no kept state has none to be made: most of a clinic in its tenth year.
    """
    store.execute("INSERT OR REPLACE INTO state_made (only, how) VALUES (1, :how)", {"how": how})
    store.execute(f"""
        INSERT OR IGNORE INTO changed_patients
        SELECT patient_id FROM eyes WHERE followed_since IS NOT NULL AND ended_at IS NULL
        UNION SELECT e.patient_id FROM callbacks c JOIN eyes e ON e.id = c.eye_id WHERE c.state != 'settled'
        UNION {" UNION ".join(f"SELECT patient_id FROM {table}" for table in TABLES)}
    """)
    store.execute("INSERT OR REPLACE INTO changed_results SELECT id, :version FROM patients", {"version": new_id()})


def patients(store: Store) -> list[str]:
    """Every record that stands."""
    return [row["id"] for row in store.rows("SELECT id FROM patients WHERE joined_into IS NULL ORDER BY id")]


@dataclass(frozen=True)
class State:
    """All that stands now of a patient: of the followed eyes, their visits and wishes by their ids, and the call."""

    eyes: tuple[EyeState, ...]
    visits: tuple[VisitState, ...]
    wishes: tuple[WishState, ...]
    call: CallState | None


def put(store: Store, patient_id: str, state: State) -> None:
    """Keep a patient's state in the place of the former one. The clock looks at these eyes at once."""
    forget(store, patient_id)
    for eye in state.eyes:
        drops_at = AT_ONCE if eye.drops_until else None
        _put(store, "eye_states", eye, patient_id=patient_id, version=new_id(), look_at=AT_ONCE, drops_at=drops_at)
    for visit in state.visits:
        _put(store, "visit_states", visit, patient_id=patient_id)
    for wish in state.wishes:
        _put(store, "wish_states", wish, patient_id=patient_id)
    if state.call is not None:
        row = _row(state.call)
        people = row.pop("people")
        store.insert("call_states", {**row, "patient_id": patient_id})
        for who in people:
            store.insert("call_people", {"who": who, "patient_id": patient_id})


def forget(store: Store, patient_id: str) -> None:
    """That record has no state (of its own, where it was joined into another), and none that is old. Its results are."""
    _results_are_old(store, patient_id)
    for table in (*TABLES, "changed_patients"):
        store.execute(f"DELETE FROM {table} WHERE patient_id = :id", {"id": patient_id})


def kept(store: Store, patient_id: str) -> State:
    """The state of a patient as it is kept."""

    def rows(table: str, order: str) -> list[Row]:
        return store.rows(f"SELECT * FROM {table} WHERE patient_id = :id ORDER BY {order}", {"id": patient_id})

    people = tuple(row["who"] for row in rows("call_people", "who"))
    return State(
        tuple(made(EyeState, row) for row in rows("eye_states", "eye_id")),
        tuple(made(VisitState, row) for row in rows("visit_states", "identity")),
        tuple(made(WishState, row) for row in rows("wish_states", "event_id")),
        next((made(CallState, row, people=people) for row in rows("call_states", "since")), None),
    )


def keep_old(store: Store, patient_id: str) -> None:
    """The state could not be made: it stays marked as old, and the clock looks at these eyes at once."""
    _results_are_old(store, patient_id)
    store.execute(f"UPDATE eye_states SET look_at = '{AT_ONCE}' WHERE patient_id = :id", {"id": patient_id})


def _results_are_old(store: Store, patient_id: str) -> None:
    store.put("changed_results", {"patient_id": patient_id, "version": new_id()})


def strays(store: Store) -> list[str]:
    """Kept states of records that do not stand."""
    sql = " UNION ".join(
        f"SELECT s.patient_id FROM {table} s LEFT JOIN patients p ON p.id = s.patient_id "
        "WHERE p.id IS NULL OR p.joined_into IS NOT NULL"
        for table in TABLES
    )
    return [row["patient_id"] for row in store.rows(sql)]


def of_eyes(store: Store, eye_ids: Sequence[str]) -> dict[str, EyeState]:
    """The states of these eyes, by eye."""
    named = {f"e{n}": id for n, id in enumerate(eye_ids)}
    sql = f"SELECT * FROM eye_states WHERE eye_id IN ({', '.join(':' + name for name in named)})"
    return {row["eye_id"]: made(EyeState, row) for row in (store.rows(sql, named) if named else [])}


def followed(store: Store, before: str, most: int) -> list[FollowedEye]:
    """Followed eyes whose ids stand before that one, from the last on: whose records were made last come first."""
    sql = """
        SELECT s.eye_id, e.side, p.name, p.number, s.agent, s.operated_at, s.next_visit AS identity, v.name AS visit_name,
               s.next_target AS target, s.next_earliest AS earliest, s.next_latest AS latest
        FROM eye_states s JOIN eyes e ON e.id = s.eye_id JOIN patients p ON p.id = s.patient_id
        LEFT JOIN visits v ON v.id = s.next_visit
        WHERE s.eye_id < :before ORDER BY s.eye_id DESC LIMIT :most
    """
    return [
        made(FollowedEye, row, visit=made(NextVisit, row, name=row["visit_name"]) if row["identity"] else None)
        for row in store.rows(sql, {"before": before, "most": most})
    ]


# --- Whom to remind ---

_REACHABLE = f"""
    (EXISTS (SELECT 1 FROM message_choices m WHERE m.person = 'patient:' || s.patient_id AND m.email != '' AND {STAND})
     OR EXISTS (SELECT 1 FROM push_subscriptions m LEFT JOIN devices d ON d.id = m.device_id
        WHERE m.person = 'patient:' || s.patient_id AND {not_taken_back("s.patient_id")}
        AND m.ended_at IS NULL AND d.revoked_at IS NULL))
"""
_REACHED = f"""
    {_REACHABLE} AND NOT EXISTS (SELECT 1 FROM message_choices m, json_each(iif(json_valid(m.unwanted), m.unwanted, '[]')) w
        WHERE m.person = 'patient:' || s.patient_id AND w.value = '{{kind}}' AND {STAND})
    AND NOT EXISTS (SELECT 1 FROM messages m WHERE m.key = {{key}})
"""
"""Who can be reached, does not say that they want no such message, and has not had it: whoever is none of these would be
looked at each minute. Choices that cannot be read are named by whoever goes on with them."""


def to_remind_of_visit(store: Store, day: date, key: str) -> list[VisitState]:
    """Visits of a day that have not taken place, of patients who can be reached and want to hear of it.

    Left out is whoever has that message: its key is `key` and the visit's version.
    """
    unasked = _REACHED.format(kind="visit", key=":key || s.visit_id")
    sql = f"SELECT s.* FROM visit_states s WHERE s.seen_at IS NULL AND s.target = :day AND {unasked} ORDER BY s.name, s.identity"
    return [made(VisitState, row) for row in store.rows(sql, {"day": day.isoformat(), "key": key})]


def to_remind_of_posture(store: Store, day: date, key: str, start: datetime) -> list[tuple[str, str]]:
    """Eyes in the days of their posture plan, of patients who can be reached and want to hear of it, with the state's version.

    Left out is whose hours were enough when they were looked at for the reminder of `start`, and who has that message: its
    key is `key`, the eye and that time.
    """
    unasked = _REACHED.format(kind="posture", key=":key || s.eye_id || :mark")
    sql = f"""
        SELECT s.eye_id, s.version FROM eye_states s WHERE s.posture_until > :day AND s.posture_from < :day
        AND s.posture_seen IS NOT :start AND {unasked}
    """
    known = {"day": day.isoformat(), "key": key, "mark": f":{start.isoformat()}", "start": to_text(start)}
    return [(row["eye_id"], row["version"]) for row in store.rows(sql, known)]


def posture_was_enough(store: Store, start: datetime, looked: Iterable[tuple[str, str]]) -> None:
    """These eyes, as those versions have them, need no reminder of `start`."""
    with store.transaction():
        for eye_id, version in looked:
            sql = "UPDATE eye_states SET posture_seen = :start WHERE eye_id = :id AND version = :version"
            store.execute(sql, {"id": eye_id, "version": version, "start": to_text(start)})


def to_remind_of_drops(store: Store, now: datetime) -> dict[str, str]:
    """Eyes whose drops must be thought of now, of patients who can be reached, each with the version of its state."""
    sql = f"""
        SELECT s.eye_id, s.version FROM eye_states s
        WHERE s.drops_at IS NOT NULL AND s.drops_at <= :now AND {_REACHABLE} ORDER BY s.drops_at
    """
    return {row["eye_id"]: row["version"] for row in store.rows(sql, {"now": to_text(now)})}


def drops_again(store: Store, looked: Iterable[tuple[str, str, datetime | None]]) -> None:
    """When to think of each eye's drops again; nothing where its state was made anew since that version was read."""
    with store.transaction():
        for eye_id, version, at in looked:
            sql = "UPDATE eye_states SET drops_at = :at WHERE eye_id = :id AND version = :version"
            store.execute(sql, {"id": eye_id, "version": version, "at": in_column(at)})


# --- When the clock must look ---


def to_look_at(store: Store, now: datetime) -> list[tuple[str, str]]:
    """Each eye at which the clock must look now, with the version of its state; empty while that could not be made."""
    sql = "SELECT eye_id, version FROM eye_states WHERE look_at <= :now ORDER BY look_at"
    found = {row["eye_id"]: row["version"] for row in store.rows(sql, {"now": to_text(now)})}
    without = """
        SELECT coalesce(e.joined_into, e.id) AS id FROM changed_patients c CROSS JOIN eyes e ON e.patient_id = c.patient_id
        WHERE e.followed_since IS NOT NULL AND e.ended_at IS NULL
    """
    return list((found | {row["id"]: "" for row in store.rows(without)}).items())


def look_again(store: Store, looks: Iterable[tuple[str, str, datetime]]) -> None:
    """When the clock must next look at each eye; nothing where its state was made anew since that version was read."""
    with store.transaction():
        for eye_id, version, at in looks:
            sql = "UPDATE eye_states SET look_at = :at WHERE eye_id = :id AND version = :version"
            store.execute(sql, {"id": eye_id, "version": version, "at": to_text(at)})


def looks(store: Store) -> dict[str, datetime | None]:
    """When the clock must next look, by eye; None for at once."""
    rows = store.rows("SELECT eye_id, look_at FROM eye_states ORDER BY eye_id")
    return {row["eye_id"]: from_text(row["look_at"]) if row["look_at"] else None for row in rows}


def _put(store: Store, table: str, value: Any, **more: Any) -> None:
    """Also where another record had it until now: records of one person are joined, and their eyes with them."""
    store.put(table, {**_row(value), **more})


def _row(value: Any) -> Row:
    return {f.name: in_column(getattr(value, f.name)) for f in fields(value)}


def in_column(value: Any) -> Any:
    """A part of a value as its column holds it."""
    if isinstance(value, datetime):
        return to_text(value)
    if isinstance(value, date | time):
        return value.isoformat()
    return int(value) if isinstance(value, bool) else value
