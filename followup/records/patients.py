"""Patients: their particulars, the terms they are found by, and records of one person that were joined."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime

from followup.records.store import Row, Store, new_id
from followup.records.times import from_text, to_text
from followup.records.values import SIDES, Patient, made


def add(store: Store, now: datetime, number: str, name: str, born_on: date, phone: str, language: str) -> str:
    """A new patient, with two eyes."""
    id = new_id()
    row = {"id": id, "number": number, "name": name, "born_on": born_on.isoformat(), "phone": phone, "language": language}
    store.insert("patients", {**row, "created_at": to_text(now)})
    for side in SIDES:
        store.insert("eyes", {"id": new_id(), "patient_id": id, "created_at": to_text(now), "side": side})
    return id


def correct(store: Store, id: str, number: str, name: str, born_on: date, phone: str, language: str) -> None:
    """Replace a patient's particulars; the audit entry of whoever asks holds what stood there."""
    sql = """
        UPDATE patients SET number = :number, name = :name, born_on = :born_on, phone = :phone, language = :language
        WHERE id = :id
    """
    row = {"number": number, "name": name, "born_on": born_on.isoformat(), "phone": phone, "language": language}
    store.execute(sql, {**row, "id": id})


def put_reach(store: Store, now: datetime, id: str, reached_by: str, carer_phone: str) -> None:
    """How a patient is reached from now on; `reached_since` moves where the app is given up or taken up."""
    sql = """
        UPDATE patients SET reached_since =
            CASE WHEN (reached_by = 'no-app') = (:by = 'no-app') THEN reached_since ELSE :now END,
        reached_by = :by, carer_phone = :phone WHERE id = :id
    """
    store.execute(sql, {"id": id, "by": reached_by, "phone": carer_phone, "now": to_text(now)})


def patient(store: Store, id: str) -> Patient | None:
    return _one(store.row("SELECT * FROM patients WHERE id = :id", {"id": id}))


def by_number(store: Store, number: str) -> Patient | None:
    """The patient of a hospital number, also of one whose record was joined into another's."""
    sql = "SELECT * FROM patients WHERE id = (SELECT coalesce(joined_into, id) FROM patients WHERE number = :number)"
    return _one(store.row(sql, {"number": number}))


def everybody(store: Store) -> list[Patient]:
    return [made(Patient, row) for row in store.rows("SELECT * FROM patients ORDER BY name, id")]


def index(store: Store, id: str, terms: Iterable[str]) -> None:
    """Keep the terms that a patient is found by."""
    store.execute("DELETE FROM patient_terms WHERE patient_id = :id", {"id": id})
    for term in dict.fromkeys(terms):
        store.insert("patient_terms", {"term": term, "patient_id": id})


def without_terms(store: Store) -> list[Patient]:
    """Patients that cannot be found yet."""
    sql = "SELECT * FROM patients p WHERE NOT EXISTS (SELECT 1 FROM patient_terms t WHERE t.patient_id = p.id)"
    return [made(Patient, row) for row in store.rows(sql)]


def found(store: Store, words: Sequence[str], born: Iterable[date], limit: int, *, both: bool = False) -> list[Patient]:
    """Patients of whom every word begins a term, or who were born on one of these days (or `both`, which takes words and
    days): those with an eye that is followed first. Joined ones stand under one record.
    """
    same = " INTERSECT ".join(
        f"SELECT patient_id FROM patient_terms WHERE term >= :w{n} AND term < :e{n}" for n, _ in enumerate(words)
    )
    days = [day.isoformat() for day in born]
    asked: Row = {f"w{n}": word for n, word in enumerate(words)} | {
        f"e{n}": word + "\U0010ffff" for n, word in enumerate(words)
    }
    asked |= {f"d{n}": day for n, day in enumerate(days)} | {"limit": limit}
    ways = [f"id IN ({same})"] * bool(words) + [f"born_on IN ({', '.join(f':d{n}' for n, _ in enumerate(days))})"] * bool(
        days
    )
    if len(ways) < (2 if both else 1):
        return []
    joined = " AND " if both else " OR "
    sql = f"""
        SELECT p.*, EXISTS (SELECT 1 FROM eyes e WHERE e.patient_id = p.id AND e.followed_since IS NOT NULL
            AND e.ended_at IS NULL) AS followed
        FROM patients p WHERE id IN (SELECT coalesce(joined_into, id) FROM patients WHERE {joined.join(ways)})
        ORDER BY followed DESC, name, born_on, id LIMIT :limit
    """
    return [made(Patient, row) for row in store.rows(sql, asked)]


def join(store: Store, id: str, into: str) -> None:
    """Two records of one person: the first is read with the second from now on."""
    store.execute("UPDATE patients SET joined_into = :into WHERE id = :id OR joined_into = :id", {"id": id, "into": into})
    for table in ("devices", "enrolments"):
        store.execute(f"UPDATE {table} SET patient_id = :into WHERE patient_id = :id", {"id": id, "into": into})
    for table in ("message_choices", "push_subscriptions", "messages"):
        sql = f"UPDATE OR IGNORE {table} SET person = 'patient:' || :into WHERE person = 'patient:' || :id"
        store.execute(sql, {"id": id, "into": into})
    said = """UPDATE patients SET carer_phone = (SELECT carer_phone FROM patients WHERE id = :id)
              WHERE id = :into AND carer_phone = ''"""
    store.execute(said, {"id": id, "into": into})
    said = """UPDATE patients SET (reached_by, reached_since) = (SELECT reached_by, reached_since FROM patients WHERE id = :id)
              WHERE id = :into AND reached_by = ''"""
    store.execute(said, {"id": id, "into": into})
    for side in SIDES:
        eyes = "SELECT id FROM eyes WHERE patient_id = {} AND side = :side"
        sides = {"id": id, "into": into, "side": side}
        joined = f"UPDATE eyes SET joined_into = ({eyes.format(':into')}) WHERE id = ({eyes.format(':id')})"
        store.execute(joined + f" OR joined_into = ({eyes.format(':id')})", sides)
        both = f"(id = ({eyes.format(':into')}) OR joined_into = ({eyes.format(':into')}))"
        store.execute(
            f"""
            UPDATE eyes SET followed_since = (SELECT min(followed_since) FROM eyes WHERE {both}),
            ended_at = CASE WHEN EXISTS (SELECT 1 FROM eyes WHERE {both} AND followed_since IS NOT NULL AND ended_at IS NULL)
                THEN NULL ELSE (SELECT max(ended_at) FROM eyes WHERE {both}) END,
            end_reason = (SELECT end_reason FROM eyes WHERE {both} ORDER BY ended_at DESC LIMIT 1) WHERE {both}
            """,
            sides,
        )


def finished_before(store: Store, at: datetime) -> list[tuple[Patient, datetime]]:
    """Patients of whom no eye is followed, and whose last follow-up ended before that time; with that end, the earliest first."""
    sql = """
        SELECT p.*, max(e.ended_at) AS last_end FROM patients p JOIN eyes e ON e.patient_id = p.id
        WHERE p.joined_into IS NULL GROUP BY p.id
        HAVING sum(e.followed_since IS NOT NULL AND e.ended_at IS NULL) = 0 AND last_end < :at ORDER BY last_end, p.id
    """
    return [(made(Patient, row), from_text(row["last_end"])) for row in store.rows(sql, {"at": to_text(at)})]


def joined_to(store: Store, id: str) -> list[Patient]:
    """Records that were joined into this one."""
    return [made(Patient, row) for row in store.rows("SELECT * FROM patients WHERE joined_into = :id", {"id": id})]


def _one(row: Row | None) -> Patient | None:
    return made(Patient, row) if row else None
