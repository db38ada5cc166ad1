"""`followup erase` and `followup retention`: records that are emptied, on wish or when their time is over."""

from datetime import UTC, datetime
from typing import Any

import click

from followup.care import taking_out
from followup.care.accounts import COMMAND_LINE
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.patients import erasing
from followup.care.reading.person import standing
from followup.config import Settings
from followup.errors import FollowupError
from followup.records import Store, open_store
from followup.records.backup import copies_beside
from followup.settings_file import load

_ACTOR = Actor(COMMAND_LINE, f"the {COMMAND_LINE}", "administrator")


class NotClean(FollowupError):
    """Records were emptied, and the file still holds what stood in them."""


@click.command("erase")
@click.argument("number")
@click.option("--why", help="Why, for the record: the patient’s wish, for example.")
@click.option("--dry-run", is_flag=True, help="Only say what would be emptied.")
@click.pass_obj
def erase(config: Any, number: str, why: str | None, dry_run: bool) -> None:
    """Empty the record of the patient with NUMBER.

    Gone is who it is, and all that was written in words. Rows, counts and the audit chain stay whole. It cannot be undone;
    copies in the backup folder hold it until they go, and copies beside the database until somebody deletes them.
    """
    settings, store = _opened(config)
    known = taking_out.numbered(store, number)
    if dry_run:
        click.echo(f"{erasing.rows(store, known.id)} rows would be emptied; nothing was")
        return
    emptied = erasing.erase(_desk(store, settings), known.id, why or "")
    click.echo(f"{emptied} rows emptied{_copies(settings)}")
    _clean(store, known.id)


@click.command("retention")
@click.option("--years", type=click.IntRange(1, 100), help="Instead of clinic.records_kept_years.")
@click.option("--erase", "erasing_them", is_flag=True, help="Empty them, as “followup erase” does.")
@click.pass_obj
def retention(config: Any, years: int | None, erasing_them: bool) -> None:
    """Name the records that are past the clinic's time.

    Those whose follow-up ended longer ago than clinic.records_kept_years says; with --erase, they are emptied.
    """
    settings, store = _opened(config)
    years = years or settings.clinic.records_kept_years
    if not years:
        click.echo("records are kept without an end: clinic.records_kept_years is not set")
        return
    desk = _desk(store, settings)
    found = erasing.past(store, desk.now, years)
    for one in found:
        click.echo(f"number {one.patient.number}: follow-up ended {one.ended_at:%Y-%m-%d}, {one.rows} rows")
        if erasing_them:
            erasing.erase(desk, one.patient.id, f"kept for {years} years")
    many = "1 record is" if len(found) == 1 else f"{len(found)} records are"
    done = f"emptied{_copies(settings)}" if erasing_them else "nothing was deleted"
    click.echo(f"{many} past {years} years; {done}")
    if erasing_them and found:
        _clean(store, found[-1].patient.id)


def _opened(config: Any) -> tuple[Settings, Store]:
    settings = load(config)
    return settings, open_store(settings.server.database)


def _desk(store: Store, settings: Settings) -> Desk:
    return Desk(store, datetime.now(UTC), _ACTOR, settings.clinic.tz)


def _clean(store: Store, patient_id: str) -> None:
    """Clean the file after that record was emptied. Raises `NotClean`."""
    if not erasing.clean_file(store):
        number = standing(store, patient_id).number
        raise NotClean(
            f"{store.path} still holds what stood there, since something else uses it, or the disk is full: stop the server "
            f"and whatever copies the file, then run: followup erase {number} --why again"
        )


def _copies(settings: Settings) -> str:
    """Where the record still is: nothing takes those beside the database away by itself."""
    server = settings.server
    told = f"; copies in {server.backups} hold them until they go" if server.backups else ""
    beside = [str(path) for path in copies_beside(server.database)]
    return told + (f"; these hold them until you delete them: {', '.join(beside)}" if beside else "")
