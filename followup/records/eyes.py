"""Eyes, their operations with every note of them, follow-up, and who looked."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime, tzinfo

from followup.records.operation_note import OperationNote, kept_note
from followup.records.store import Row, Store, as_json, marked, new_id
from followup.records.times import FIRST_YEAR, LAST_YEAR, from_text, to_text
from followup.records.values import Eye, FollowUp, Note, Patient, Unreadable, as_object, made
from followup.records.watch import readable


# Rows from before times had bounds may hold what no reader can use. They are left out of every reading, and `unreadable`
# names them.
def in_time(column: str) -> str:
    return f"({column} GLOB '[12][0-9][0-9][0-9]-*' AND {column} BETWEEN '{FIRST_YEAR}' AND '{LAST_YEAR + 1}')"


AT_A_TIME = 500
SAME_EYE = "(SELECT id FROM eyes WHERE id = :id OR joined_into = :id)"
"""The eye `:id`, with the eyes of records that were joined into its patient's."""

_LATEST_NOTE = f"""
    (SELECT id FROM operation_records WHERE operation_id = o.id AND {in_time("operated_at")}
     ORDER BY recorded_at DESC, id DESC LIMIT 1)
"""
_PATIENT = (
    "id", "number", "name", "born_on", "phone", "language", "created_at", "joined_into", "reached_by", "reached_since",
    "carer_phone",
)  # fmt: skip
_NOTE = (
    "id", "operation_id", "eye", "operated_at", "agent", "surgeon", "body", "recorded_by", "recorded_at", "reason",
)  # fmt: skip
_EYES = f"""
    SELECT e.id, e.side, e.followed_since, e.ended_at, e.end_reason,
           {", ".join(f"p.{name} AS p_{name}" for name in _PATIENT)}, {", ".join(f"r.{name} AS r_{name}" for name in _NOTE)}
    FROM eyes e JOIN patients p ON p.id = e.patient_id LEFT JOIN operation_records r ON r.id = (
        SELECT n.id FROM operations o JOIN operation_records n ON n.id = {_LATEST_NOTE}
        WHERE o.eye_id IN (SELECT id FROM eyes j WHERE j.id = e.id OR j.joined_into = e.id)
        ORDER BY n.operated_at DESC, n.id DESC LIMIT 1)
"""


def eye(store: Store, id: str) -> Eye | None:
    """An eye by its id, by that of an eye joined into it, or by one of its operations'."""
    sql = _EYES + " WHERE e.id = (SELECT coalesce(joined_into, id) FROM eyes WHERE id = :id)"
    found = store.row(sql, {"id": id})
    if found is None:
        operation = store.row("SELECT eye_id FROM operations WHERE id = :id", {"id": id})
        return eye(store, operation["eye_id"]) if operation else None
    return _made(found)


def followed(store: Store) -> list[Eye]:
    """Every eye still followed, the latest operated first."""
    sql = _EYES + " WHERE e.followed_since IS NOT NULL AND e.ended_at IS NULL AND e.joined_into IS NULL AND r.id IS NOT NULL"
    return readable(store, "eyes", store.rows(sql + " ORDER BY r.operated_at DESC"), _made)


def operated(store: Store) -> list[Eye]:
    """Every eye that was ever operated, followed or not."""
    sql = _EYES + " WHERE r.id IS NOT NULL AND e.joined_into IS NULL ORDER BY r.operated_at"
    return readable(store, "eyes", store.rows(sql), _made)


def surgeons(store: Store) -> list[str]:
    """Who operated, as the note of each operation has it that stands."""
    sql = f"SELECT DISTINCT n.surgeon FROM operations o JOIN operation_records n ON n.id = {_LATEST_NOTE} ORDER BY 1"
    return [row["surgeon"] for row in store.rows(sql)]


def of_patient(store: Store, patient_id: str) -> list[Eye]:
    """Both eyes of a patient, right and left."""
    sql = _EYES + " WHERE e.patient_id = :id ORDER BY e.side DESC"
    return readable(store, "eyes", store.rows(sql, {"id": patient_id}), _made)


def of_patients(store: Store, patient_ids: Iterable[str]) -> dict[str, list[Eye]]:
    """Both eyes of these patients, right and left, by patient, in one reading."""
    marks, named = marked(patient_ids)
    rows = store.rows(f"{_EYES} WHERE e.patient_id IN ({marks}) ORDER BY e.side DESC", named) if named else []
    found: dict[str, list[Eye]] = {}
    for known in readable(store, "eyes", rows, _made):
        found.setdefault(known.patient.id, []).append(known)
    return found


def by_ids(store: Store, ids: Sequence[str]) -> dict[str, Eye]:
    """These eyes by their id, in one reading."""
    marks = ", ".join(f":i{n}" for n, _ in enumerate(ids))
    rows = store.rows(f"{_EYES} WHERE e.id IN ({marks})", {f"i{n}": id for n, id in enumerate(ids)}) if ids else []
    return {known.id: known for known in readable(store, "eyes", rows, _made)}


def in_turn(store: Store, ids: Sequence[str]) -> Iterator[Eye]:
    """These eyes, read some at a time."""
    for n in range(0, len(ids), AT_A_TIME):
        yield from by_ids(store, ids[n : n + AT_A_TIME]).values()


def followed_of(store: Store, patient_id: str) -> list[Eye]:
    return [known for known in of_patient(store, patient_id) if known.is_followed and known.note]


# --- Operations ---


def add_operation(store: Store, now: datetime, eye_id: str, id: str | None = None) -> str:
    id = id or new_id()
    store.insert("operations", {"id": id, "eye_id": eye_id, "created_at": to_text(now)})
    return id


def add_note(
    store: Store,
    now: datetime,
    operation_id: str,
    note: OperationNote,
    zone: tzinfo,
    by: str,
    reason: str = "",
) -> str:
    """Record the note of an operation; a later note of it stands in place of this one. Drops end with the day in `zone`."""
    id = new_id()
    row = {"id": id, "operation_id": operation_id, "eye": note.eye, "operated_at": to_text(note.operated_at)}
    row |= {"agent": note.agent, "surgeon": note.surgeon, "body": as_json(note.body(zone))}
    store.insert("operation_records", {**row, "recorded_by": by, "recorded_at": to_text(now), "reason": reason})
    return id


def has_operation(store: Store, id: str) -> bool:
    return store.row("SELECT 1 FROM operations WHERE id = :id", {"id": id}) is not None


def eye_of_operation(store: Store, id: str) -> str | None:
    """The id of the eye that this operation is recorded on."""
    sql = """
        SELECT coalesce(e.joined_into, e.id) AS eye_id FROM operations o JOIN eyes e ON e.id = o.eye_id WHERE o.id = :id
    """
    found = store.row(sql, {"id": id})
    return str(found["eye_id"]) if found else None


def move_operation(store: Store, id: str, eye_id: str) -> None:
    """Put an operation that was recorded on the wrong eye on the right one."""
    store.execute("UPDATE operations SET eye_id = :eye WHERE id = :id", {"id": id, "eye": eye_id})


def notes_of(store: Store, eye_id: str) -> list[Note]:
    """The note of each of the eye's operations as it stands, in the order operated."""
    sql = f"""
        SELECT n.*, o.created_at AS entered_at FROM operations o JOIN operation_records n ON n.id = {_LATEST_NOTE}
        WHERE o.eye_id IN {SAME_EYE} ORDER BY n.operated_at, n.id
    """
    return readable(store, "operation_records", store.rows(sql, {"id": eye_id}), _note)


def latest_notes(store: Store, most: int) -> list[Note]:
    """The notes that were recorded last, of any eye, the latest first."""
    sql = f"SELECT * FROM operation_records WHERE {in_time('operated_at')} ORDER BY recorded_at DESC, id DESC LIMIT :most"
    return readable(store, "operation_records", store.rows(sql, {"most": most}), _note)


def history_of(store: Store, operation_id: str) -> list[Note]:
    """Every note of an operation, oldest first: what was changed later, by whom, and why."""
    sql = f"SELECT * FROM operation_records WHERE operation_id = :id AND {in_time('operated_at')} ORDER BY recorded_at, id"
    return readable(store, "operation_records", store.rows(sql, {"id": operation_id}), _note)


# --- Follow-up ---


def begin(store: Store, now: datetime, eye_id: str) -> None:
    """Follow an eye from its first operation on, or again after another one."""
    sql = """
        UPDATE eyes SET followed_since = coalesce(followed_since, :now), ended_at = NULL, end_reason = NULL
        WHERE id = :id OR joined_into = :id
    """
    store.execute(sql, {"id": eye_id, "now": to_text(now)})


def end(store: Store, now: datetime, eye_id: str, reason: str) -> None:
    sql = "UPDATE eyes SET ended_at = :now, end_reason = :reason WHERE id = :id OR joined_into = :id"
    store.execute(sql, {"id": eye_id, "now": to_text(now), "reason": reason})


def never_followed(store: Store, eye_id: str) -> None:
    """An eye that was taken for operated by mistake: it is watched as the fellow eye, as if it had never been followed."""
    sql = "UPDATE eyes SET followed_since = NULL, ended_at = NULL, end_reason = NULL WHERE id = :id OR joined_into = :id"
    store.execute(sql, {"id": eye_id})


def add_follow_up(store: Store, now: datetime, eye_id: str, what: str, reason: str, words: str, by: str) -> None:
    row = {"id": new_id(), "eye_id": eye_id, "at": to_text(now), "what": what, "reason": reason, "words": words}
    store.insert("follow_ups", {**row, "recorded_by": by})


def follow_ups_of(store: Store, eye_id: str) -> list[FollowUp]:
    sql = f"SELECT * FROM follow_ups WHERE eye_id IN {SAME_EYE} ORDER BY at, id"
    return [made(FollowUp, row) for row in store.rows(sql, {"id": eye_id})]


# --- Looks ---


def add_look(store: Store, now: datetime, eye_id: str, who: str) -> None:
    """A member of staff opened this eye: what had been received by then was looked at."""
    store.insert("looks", {"id": new_id(), "eye_id": eye_id, "at": to_text(now), "who": who})


def last_look(store: Store, eye_id: str) -> datetime | None:
    found = store.row(f"SELECT max(at) AS at FROM looks WHERE eye_id IN {SAME_EYE}", {"id": eye_id})
    return from_text(found["at"]) if found and found["at"] else None


# --- Rows that cannot be read ---


def unreadable(store: Store) -> list[Unreadable]:
    """What stands in the database with a time that cannot be."""
    days = " AND ".join(in_time(f"v.{day}") for day in ("target", "earliest", "latest"))
    sql = f"""
        SELECT 'operation_records' AS kept_in, 'surgery' AS what, r.id, o.eye_id, r.operated_at AS says
        FROM operation_records r JOIN operations o ON o.id = r.operation_id WHERE NOT {in_time("r.operated_at")}
        UNION ALL
        SELECT 'visits', 'visit ' || v.name, v.id, v.eye_id, v.target || ' (' || v.earliest || ' to ' || v.latest || ')'
        FROM visits v WHERE NOT ({days}) AND NOT EXISTS (SELECT 1 FROM visits later WHERE later.replaces = v.id)
        UNION ALL
        SELECT 'events', 'entry ' || e.kind, e.id, e.eye_id, e.at FROM events e WHERE NOT {in_time("e.at")}
    """
    named = f"""
        SELECT found.*, p.name AS patient_name, p.number AS patient_number FROM ({sql}) found
        JOIN eyes e ON e.id = found.eye_id JOIN patients p ON p.id = e.patient_id ORDER BY p.name, found.id
    """
    return [made(Unreadable, row) for row in store.rows(named)]


def _part(row: Row, mark: str, names: Sequence[str]) -> Row:
    return {name: row[f"{mark}_{name}"] for name in names}


def _note(row: Row) -> Note:
    return made(Note, {"entered_at": None, **row}, body=kept_note(row, as_object(row["body"])))


def _made(row: Row) -> Eye:
    note = _note(_part(row, "r", _NOTE)) if row["r_id"] else None
    return made(Eye, row, patient=made(Patient, _part(row, "p", _PATIENT)), note=note)


READ_AS = {"eyes": (_EYES + " WHERE true", "e.id", _made)}
"""How every row of a table is read, and the column it is known by, for whoever looks for rows that cannot be."""
