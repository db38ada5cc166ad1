"""Data taken out: every table for the clinic's own use, or one patient's whole record. Each is put on record."""

import csv
import io
import json
from collections.abc import Iterator
from datetime import datetime
from typing import Any

from followup.care.errors import NotFound
from followup.records import Store, audit, export, patients
from followup.records.values import Patient


def tables(store: Store, now: datetime, by: str) -> Iterator[tuple[str, Iterator[str]]]:
    """Each table, as the name of its file and its lines as CSV; what the columns mean comes last."""
    names = export.tables(store)
    audit.note(store, now, by, "exported", "all tables", {"tables": len(names)})
    for table in names:
        columns = export.columns(store, table)
        yield f"{table}.csv", _lines(columns, ([row[n] for n in columns] for row in export.rows(store, table)))
    yield "dictionary.csv", _lines(["table", "column", "meaning"], (list(row) for row in export.dictionary(store)))


def numbered(store: Store, number: str) -> Patient:
    """The patient of a number. Raises `NotFound`."""
    found = patients.by_number(store, number)
    if found is None:
        raise NotFound(f"there is no patient with the number {number}")
    return found


def record(store: Store, now: datetime, by: str, patient_id: str) -> tuple[str, str]:
    """All that is on record about a patient: to read, and as JSON. Raises `NotFound`."""
    found = patients.patient(store, patient_id)
    if found is None:
        raise NotFound("there is no such patient")
    held = export.of_patient(store, found.id)
    audit.note(store, now, by, "exported", found.id, {"rows": sum(len(rows) for rows in held.values())})
    told = {table: {"holds": export.described(table), "rows": rows} for table, rows in held.items()}
    to_read = _readable(held, f"Record of {found.name}, number {found.number}", now)
    return to_read, json.dumps(told, ensure_ascii=False, indent=1)


def _lines(names: list[str], rows: Iterator[list[Any]]) -> Iterator[str]:
    yield _line(names)
    for row in rows:
        yield _line(row)


def _line(values: list[Any]) -> str:
    written = io.StringIO()
    csv.writer(written).writerow(values)
    return written.getvalue()


def _readable(held: dict[str, list[dict[str, Any]]], title: str, now: datetime) -> str:
    lines = [title, f"Written {now:%Y-%m-%d %H:%M} UTC. Times are UTC.", ""]
    for table, rows in held.items():
        lines += [f"{export.described(table)} ({len(rows)})", ""]
        for row in rows:
            lines += [f"  {name.replace('_', ' ')}: {value}" for name, value in row.items() if value not in (None, "")]
            lines.append("")
    return "\n".join(lines)
