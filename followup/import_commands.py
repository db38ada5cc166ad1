"""`followup import …`: takes in what another program wrote, as a whole or not at all."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import click

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.discharge import waiting
from followup.errors import FollowupError
from followup.exchange import theatre_list
from followup.records import open_store
from followup.settings_file import load

_COMMAND_LINE = Actor("command line", "the command line", "administrator")


class NotTakenIn(FollowupError):
    """Nothing was taken in, and why."""


@click.group("import")
def import_commands() -> None:
    """Take data in: it is put on record, as a whole or not at all."""


@import_commands.command("operations")
@click.argument("file", type=click.Path(path_type=Path, dir_okay=False, exists=True))
@click.option("--dry-run", is_flag=True, help="Only say what would be taken in, and what is wrong.")
@click.option("--dates", type=click.Choice(["day-first", "month-first"]), help="What 3/4/1952 means; refused unless said.")
@click.pass_obj
def operations(config: Any, file: Path, dry_run: bool, dates: theatre_list.DayOrder | None) -> None:
    """Put the operations of FILE (a theatre list as CSV) on the list of what waits for its discharge.

    Whatever is wrong is named by line and column, and then nothing is taken in. An operation that waits or was
    discharged already stays as it is. Nothing follows from a listed operation until somebody confirms its discharge.
    """
    settings = load(config)
    store, now, zone = open_store(settings.server.database), datetime.now(UTC), settings.clinic.tz
    rows, problems = theatre_list.read(file.read_bytes(), now.astimezone(zone).date(), dates)
    found = waiting.compare(store, rows, zone)
    problems = sorted([*problems, *found.problems], key=lambda problem: problem.line)
    for problem in problems:
        click.echo(problem)
    if problems:
        many = "1 problem" if len(problems) == 1 else f"{len(problems)} problems"
        raise NotTakenIn(f"{many} in {file.name}; nothing was taken in")
    told = f"{len(found.new)} new, {found.known} known already"
    if dry_run:
        click.echo(f"{told}; nothing was taken in")
        return
    waiting.put_on(Desk(store, now, _COMMAND_LINE, zone), rows, file.name)
    click.echo(f"{told}; the new ones wait for their discharge")
