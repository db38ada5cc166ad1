"""Rows as they stand, for whoever takes them elsewhere: every table, or all that is about one patient."""

from collections.abc import Iterator

from followup.records import audit
from followup.records.dictionary import KEPT_BACK, PACKED, SECRET, TABLES, meaning
from followup.records.store import Row, Store

_PATIENT = "SELECT id FROM patients WHERE id = :id OR joined_into = :id"
_EYES = f"SELECT id FROM eyes WHERE patient_id IN ({_PATIENT})"
_CALLBACKS = f"SELECT id FROM callbacks WHERE eye_id IN ({_EYES})"
_OPERATIONS = f"SELECT id FROM operations WHERE eye_id IN ({_EYES})"
_PERSON = f"SELECT 'patient:' || id FROM ({_PATIENT})"
OF_PATIENT = {
    "patients": f"id IN ({_PATIENT})",
    "eyes": f"id IN ({_EYES})",
    "operations": f"id IN ({_OPERATIONS})",
    "operation_records": f"operation_id IN ({_OPERATIONS})",
    "visits": f"eye_id IN ({_EYES})",
    "visits_to_tell": f"visit_id IN (SELECT id FROM visits WHERE eye_id IN ({_EYES}))",
    "events": f"eye_id IN ({_EYES})",
    "looks": f"eye_id IN ({_EYES})",
    "refused_events": f"eye_id IN ({_EYES}) OR device_id IN (SELECT id FROM devices WHERE patient_id IN ({_PATIENT}))",
    "warnings": f"eye_id IN ({_EYES})",
    "warning_grounds": f"warning_id IN (SELECT id FROM warnings WHERE eye_id IN ({_EYES}))",
    "callbacks": f"id IN ({_CALLBACKS})",
    "callback_steps": f"callback_id IN ({_CALLBACKS})",
    "tasks": f"callback_id IN ({_CALLBACKS})",
    "follow_ups": f"eye_id IN ({_EYES})",
    "consents": f"patient_id IN ({_PATIENT})",
    "listed_operations": f"number IN (SELECT number FROM patients WHERE id IN ({_PATIENT}))",
    "devices": f"patient_id IN ({_PATIENT})",
    "enrolments": f"patient_id IN ({_PATIENT})",
    "messages": f"person IN ({_PERSON})",
    "message_choices": f"person IN ({_PERSON})",
    "pages_opened": f"about IN ({_PATIENT}) OR about IN ({_EYES}) OR about IN ({_CALLBACKS})",
}


def tables(store: Store) -> list[str]:
    """The tables that may leave."""
    found = store.rows("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name")
    return [row["name"] for row in found if row["name"] not in KEPT_BACK and not row["name"].startswith(("sqlite_", "_"))]


def columns(store: Store, table: str) -> list[str]:
    """The columns of a table that may leave."""
    known = [row["name"] for row in store.rows(f"PRAGMA table_info({table})") if row["name"] not in SECRET]
    return [name for name in known if name not in PACKED]


def rows(store: Store, table: str) -> Iterator[Row]:
    """A table, row by row."""
    if table == "audit":
        names = columns(store, table)
        yield from ({name: entry[name] for name in names} for entry in audit.everything(store))
        return
    yield from store.each(f"SELECT {', '.join(columns(store, table))} FROM {table}")


def of_patient(store: Store, patient_id: str) -> dict[str, list[Row]]:
    """All that is about one patient, by table; records that were joined into this one's too."""
    found = {}
    for table, where in OF_PATIENT.items():
        sql = f"SELECT {', '.join(columns(store, table))} FROM {table} WHERE {where}"
        found[table] = store.rows(sql, {"id": patient_id})
    return found


def held_of(store: Store, patient_id: str) -> dict[str, list[Row]]:
    """The same with what never leaves: for a copy inside this database."""
    return {
        table: store.rows(f"SELECT * FROM {table} WHERE {where}", {"id": patient_id}) for table, where in OF_PATIENT.items()
    }


def dictionary(store: Store) -> list[tuple[str, str, str]]:
    """What every column means: table, column, meaning."""
    return [(table, name, meaning(table, name)) for table in tables(store) for name in columns(store, table)]


def described(table: str) -> str:
    """What a table holds."""
    return TABLES[table][0]
