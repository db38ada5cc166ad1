"""`followup export …`: all tables for the clinic's own use, or one patient's whole record for that patient."""

import csv
import json
import os
from collections.abc import Iterable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import click

from followup.config import load
from followup.errors import FollowupError
from followup.records import Store, audit, export, open_store, patients

_FOLDER = click.argument("folder", type=click.Path(path_type=Path, file_okay=False))


class NotExported(FollowupError):
    """Nothing was written, and why."""


@click.group("export")
def export_commands() -> None:
    """Take data out: it is put on record, and the files can be read by their owner only."""


@export_commands.command("csv")
@_FOLDER
@click.pass_obj
def tables(config: Any, folder: Path) -> None:
    """Every table as a CSV file in FOLDER, with a data dictionary. What signs or opens something is left out."""
    store = open_store(load(config).server.database)
    folder = _empty(folder)
    for table in export.tables(store):
        names = export.columns(store, table)
        _write_csv(folder / f"{table}.csv", names, ([row[n] for n in names] for row in export.rows(store, table)))
    _write_csv(folder / "dictionary.csv", ("table", "column", "meaning"), export.dictionary(store))
    _note(store, "all tables", {"folder": folder.name})
    click.echo(f"wrote {len(export.tables(store))} tables and dictionary.csv to {folder}")


@export_commands.command("patient")
@click.argument("number")
@_FOLDER
@click.pass_obj
def patient(config: Any, number: str, folder: Path) -> None:
    """All that is on record about the patient of NUMBER, as record.txt to read and record.json for programs."""
    store = open_store(load(config).server.database)
    found = patients.by_number(store, number)
    if found is None:
        raise NotExported(f"there is no patient with the number {number}")
    folder = _empty(folder)
    record = export.of_patient(store, found.id)
    told = {table: {"holds": export.described(table), "rows": rows} for table, rows in record.items()}
    with _private(folder / "record.json") as file:
        json.dump(told, file, ensure_ascii=False, indent=1)
    with _private(folder / "record.txt") as file:
        file.write(_readable(record, f"Record of {found.name}, number {found.number}"))
    _note(store, found.id, {"folder": folder.name})
    click.echo(f"wrote record.txt and record.json to {folder}")


@click.command("retention")
@click.option("--years", type=click.IntRange(1, 100), required=True, help="How long a record is kept after follow-up ended.")
@click.pass_obj
def retention(config: Any, years: int) -> None:
    """Name the records that are past the clinic's time. Nothing is deleted: this only says what would be."""
    store = open_store(load(config).server.database)
    found = patients.finished_before(store, datetime.now(UTC) - timedelta(days=round(365.2425 * years)))
    for member, ended in found:
        rows = sum(len(part) for part in export.of_patient(store, member.id).values())
        click.echo(f"number {member.number}: follow-up ended {ended:%Y-%m-%d}, {rows} rows")
    many = "1 record is" if len(found) == 1 else f"{len(found)} records are"
    click.echo(f"{many} past {years} years; nothing was deleted")


def _readable(record: dict[str, list[dict[str, Any]]], title: str) -> str:
    lines = [title, f"Written {datetime.now(UTC):%Y-%m-%d %H:%M} UTC. Times are UTC.", ""]
    for table, rows in record.items():
        lines += [f"{export.described(table)} ({len(rows)})", ""]
        for row in rows:
            lines += [f"  {name.replace('_', ' ')}: {value}" for name, value in row.items() if value not in (None, "")]
            lines.append("")
    return "\n".join(lines)


def _empty(folder: Path) -> Path:
    if folder.exists() and any(folder.iterdir()):
        raise NotExported(f"{folder} is not empty; name a new folder")
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    return folder


def _write_csv(path: Path, names: Iterable[str], rows: Iterable[Iterable[Any]]) -> None:
    with _private(path) as file:
        writer = csv.writer(file)
        writer.writerow(names)
        writer.writerows(rows)


def _private(path: Path) -> Any:
    return os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8", newline="")


def _note(store: Store, what: str, detail: Any) -> None:
    audit.note(store, datetime.now(UTC), "command line", "exported", what, detail)
