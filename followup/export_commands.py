"""`followup export …`: all tables for the clinic's own use, or one patient's whole record for that patient."""

import os
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click

from followup.care import taking_out
from followup.care.accounts import COMMAND_LINE
from followup.errors import FollowupError
from followup.records import open_store
from followup.settings_file import load

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
    _check(folder)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    written = 0
    for name, lines in taking_out.tables(store, datetime.now(UTC), COMMAND_LINE):
        with _private(folder / name) as file:
            file.writelines(lines)
        written += 1
    click.echo(f"wrote {written - 1} tables and dictionary.csv to {folder}")


@export_commands.command("patient")
@click.argument("number")
@_FOLDER
@click.pass_obj
def patient(config: Any, number: str, folder: Path) -> None:
    """All that is on record about the patient of NUMBER, as record.txt to read and record.json for programs."""
    store = open_store(load(config).server.database)
    _check(folder)
    to_read, as_json = taking_out.record(store, datetime.now(UTC), COMMAND_LINE, taking_out.numbered(store, number).id)
    folder.mkdir(mode=0o700, parents=True, exist_ok=True)
    for name, text in {"record.txt": to_read, "record.json": as_json}.items():
        with _private(folder / name) as file:
            file.write(text)
    click.echo(f"wrote record.txt and record.json to {folder}")


def _check(folder: Path) -> None:
    if folder.exists() and any(folder.iterdir()):
        raise NotExported(f"{folder} is not empty; name a new folder")


def _private(path: Path) -> Any:
    return os.fdopen(os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600), "w", encoding="utf-8", newline="")
