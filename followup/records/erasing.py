"""What tells who a patient is, and what was written in words, is emptied: rows stay, and so do the chain and all counts.

Each row that is emptied, and each audit entry about the patient, is named in one entry of the chain with the hash of
what stood there. So a row that was emptied in any other way is still one that was tampered with.
"""

import json
from collections.abc import Callable, Iterator
from datetime import datetime
from typing import Any

from followup.records import audit, sealing, states
from followup.records.audit import EMPTIED, ERASED
from followup.records.export import OF_PATIENT
from followup.records.store import Row, Store, StoreError, Unavailable, as_json
from followup.records.times import to_text

MARKER = "(erased)"
_FREE = frozenset({"words", "notes", "said", "reason", "why", "name"})
"""Keys of JSON under which people write in words; the name of a drop is one."""
New = Callable[[Row, str], Any]
Erased = list[tuple[str, str, str]]


def _blank(row: Row, column: str) -> Any:
    return MARKER if row[column] else row[column]


def _inside(row: Row, column: str) -> Any:
    """JSON with every free text in it taken out; what cannot be read goes as a whole."""
    try:
        return as_json(_without_words(json.loads(row[column])))
    except ValueError:
        return "{}"


def _without_words(value: Any) -> Any:
    if isinstance(value, dict):
        return {k: MARKER if k in _FREE and isinstance(v, str) and v else _without_words(v) for k, v in value.items()}
    return [_without_words(part) for part in value] if isinstance(value, list) else value


def _said(row: Row, column: str) -> Any:
    """A sign's words, which repeat what the patient wrote where its values hold that."""
    return row[column] if _inside(row, "values_json") == row["values_json"] else MARKER


def _nth(row: Row, _: str) -> str:
    return f"{MARKER} {row['place']}"


def _own(row: Row, _: str) -> str:
    return f"erased-{row['id'].replace('-', '')[-16:]}"


_WHAT: dict[str, dict[str, New]] = {
    "patients": {
        "number": _own,
        "name": lambda *_: MARKER,
        "born_on": lambda *_: "1900-01-01",
        "phone": lambda *_: "",
        "carer_phone": lambda *_: "",
    },
    "operation_records": {"body": _inside, "reason": _blank},
    "visits": {"reason": _blank, "why": _blank},
    "events": {"body": _inside, "reason": _blank},
    "refused_events": {"text": _nth, "reason": _blank},
    "warnings": {"values_json": _inside, "words": _said},
    "callback_steps": {"detail": _inside},
    "tasks": {"words": _blank, "done_words": _blank, "theatre_list": _blank},
    "follow_ups": {"words": _blank},
    "consents": {"words": _blank},
    "devices": {"token_hash": _own, "carer_name": lambda *_: ""},
    "enrolments": {"carer_name": lambda *_: ""},
    "listed_operations": {
        "number": _own,
        "name": lambda *_: MARKER,
        "body": lambda *_: "{}",
        "source": lambda *_: MARKER,
        "put_aside_why": _blank,
    },
}
_GONE = ("message_choices", "push_subscriptions")


def erase(store: Store, now: datetime, patient_id: str, by: str, why: str) -> Erased:
    """Empty the rows of a patient and of every record joined into it; returns which, with the hash of what stood there.

    Raises `StoreError`, and then nothing has changed, where one of the rows does not hold what was recorded: to empty it
    would hide that.
    """
    connection = store.db.conn
    connection.execute("PRAGMA secure_delete = ON")  # what was deleted is overwritten
    with store.transaction():
        ids, rows = _ids(store, patient_id), list(_rows(store, patient_id))
        facts = [fact for table, row in rows if (fact := _fact(store, table, row))]
        unfit = audit.unfit(store, facts)
        found: Erased = []
        guards = _without_guards(store)
        for table, row in rows:
            fact = _fact(store, table, row)
            if fact and fact[:2] in unfit:
                raise StoreError(f"{fact[0]} {fact[1]} does not hold what was recorded; see “followup check” first")
            new = {column: made(row, column) for column, made in _WHAT[table].items()}
            if table == "devices":  # locked out
                new |= {"revoked_at": row["revoked_at"] or to_text(now), "revoked_by": row["revoked_by"] or by}
            if any(row[column] != value for column, value in new.items()):
                names = ", ".join(f"{column} = :{column}" for column in new)
                store.execute(f"UPDATE {table} SET {names} WHERE rowid = :rowid", {**new, "rowid": row["place"]})
                found += [fact] if fact else []
        person = {"id": patient_id}
        for table in _GONE:
            store.execute(f"DELETE FROM {table} WHERE {OF_PATIENT['messages']}", person)
        store.execute(f"UPDATE messages SET detail = '' WHERE {OF_PATIENT['messages']}", person)
        own = f"SELECT id FROM patients WHERE {OF_PATIENT['patients']}"
        for table in ("patient_terms", *states.TABLES):
            store.execute(f"DELETE FROM {table} WHERE patient_id IN ({own})", person)
        entries = _empty_entries(store, ids)
        for guard in guards:
            connection.execute(guard)
        audit.note(store, now, by, ERASED, patient_id, {"why": why, "rows": found, "entries": entries})
    return found


def clean_file(store: Store) -> bool:
    """Write the file anew, so that nothing of what was emptied is left in pages that are free, or in the log beside it.

    False where others use it, or it could not be written: then something may be left.
    """
    try:
        store.db.conn.execute("VACUUM")
        (busy, *_) = store.db.conn.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    except Unavailable:
        return False
    return not busy


def many(store: Store, patient_id: str) -> int:
    """How many rows of a patient hold something that would be emptied."""
    return sum(any(row[c] != made(row, c) for c, made in _WHAT[table].items()) for table, row in _rows(store, patient_id))


def _rows(store: Store, patient_id: str) -> Iterator[tuple[str, Row]]:
    """Every row of the patient that may hold such things, with its `place` in the table."""
    for table in _WHAT:
        sql = f"SELECT rowid AS place, * FROM {table} WHERE {OF_PATIENT[table]}"
        for row in store.rows(sql, {"id": patient_id}):
            yield table, row


def _fact(store: Store, table: str, row: Row) -> sealing.Fact | None:
    """What the chain knows of a row; None for a table that it does not vouch for."""
    if table not in sealing.SEALED:
        return None
    key = row["id"] if table != "refused_events" else sealing.key_of_refused(row)
    return next(sealing.of_table(store.db.conn, table, key))


def _ids(store: Store, patient_id: str) -> set[str]:
    """Whatever an audit entry about the patient may name as its subject."""
    found: set[str] = set()
    for table, where in OF_PATIENT.items():
        if "id" in store.db[table].columns_dict and table != "pages_opened":
            found |= {row["id"] for row in store.rows(f"SELECT id FROM {table} WHERE {where}", {"id": patient_id})}
    return found | {f"patient:{id}" for id in found}


def _empty_entries(store: Store, ids: set[str]) -> list[tuple[int, str, str]]:
    """Empty the details of audit entries about these; for each its number, its hash, and the hash of what stands now."""
    emptied = []
    for entry in audit.everything(store):
        number, kept = entry.pop("number"), entry.pop("hash")
        if entry["subject"] in ids and entry["action"] != ERASED and entry["detail"] not in ("null", EMPTIED):
            emptied.append((number, kept, sealing.entry_hash({**entry, "detail": EMPTIED})))
    for number, *_ in emptied:
        store.execute("UPDATE audit SET detail = :detail WHERE number = :n", {"detail": EMPTIED, "n": number})
    return emptied


def _without_guards(store: Store) -> list[str]:
    """Take the guards against updates off, for this transaction; returns how to put them back."""
    sql = "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND name LIKE '%\\_keeps\\_update' ESCAPE '\\'"
    found = store.rows(sql)
    for row in found:
        store.db.conn.execute(f"DROP TRIGGER {row['name']}")
    return [row["sql"] for row in found]
