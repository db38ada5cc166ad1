"""`followup …`: each command is one call. Bad input ends with exit code 2 and one line."""

import os
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path
from secrets import token_hex

import click

from followup.calc import calc
from followup.care.home import sealing
from followup.care.watch import watching
from followup.config import Settings, load, ready, with_server
from followup.errors import FollowupError
from followup.exchange import push_keys
from followup.export_commands import export_commands
from followup.import_commands import import_commands
from followup.records import Store, audit, keys, open_store, watch
from followup.records import backup as backups
from followup.records.lock import held
from followup.rights_commands import erase, retention
from followup.staff_commands import staff


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="followup")
@click.option("--config", type=click.Path(path_type=Path), help="The clinic's settings (TOML); also FOLLOWUP_CONFIG.")
@click.pass_context
def cli(context: click.Context, config: Path | None) -> None:
    """Follows each eye after retinal surgery with gas or oil left inside."""
    context.obj = config


cli.add_command(calc)
cli.add_command(staff)
cli.add_command(export_commands)
cli.add_command(erase)
cli.add_command(retention)
cli.add_command(import_commands)


@cli.command()
@click.option("--host", default=None, help="Address to listen on.")
@click.option("--port", type=int, default=None, help="Port to listen on.")
@click.option("--folder", type=click.Path(path_type=Path), default=Path(".followup-demo"), help="Where the demo is kept.")
@click.option("--fresh", is_flag=True, help="Build the invented clinic anew.")
def demo(host: str | None, port: int | None, folder: Path, fresh: bool) -> None:
    """Build the invented clinic if it is missing, serve it, and print how to sign in."""
    from demo_db import build
    from followup.serving import serve as run_server

    settings = build.settings(folder, host, port)
    with held(settings.server.database, "the demo is being built"):
        store = build.ensure(settings, datetime.now(UTC), fresh=fresh)
        click.echo(build.sign_in_words(store, settings, datetime.now(UTC)))
        store.close()
    run_server(settings)


@cli.command()
@click.option("--database", type=click.Path(path_type=Path), help="The clinic's database.")
@click.option("--host", help="Address to listen on.")
@click.option("--port", type=int, help="Port to listen on.")
@click.option("--workers", type=click.IntRange(1, 64), help="Server processes.")
@click.option("--jobs/--no-jobs", default=None, help="Whether the clock's jobs run: without them nobody is reminded.")
@click.pass_obj
def serve(config: Path | None, /, **options: object) -> None:
    """The clinic's own server. Options win over the environment, and that over the settings file."""
    from followup.serving import serve as run_server

    given = {key: value for key, value in options.items() if value is not None}
    settings = ready(with_server(load(config), given))
    run_server(settings)


@cli.command()
@click.pass_obj
def init(config: Path | None) -> None:
    """Make the database of a new clinic."""
    settings = ready(load(config))
    if settings.server.database.exists():
        raise click.UsageError(f"{settings.server.database} exists already")
    open_store(settings.server.database, create=True).close()
    click.echo(f"made {settings.server.database}; add people with “followup staff”")


@cli.command()
@click.option("--head", metavar="NUMBER:HASH", help="A head of the audit chain that left this machine, for example by mail.")
@click.pass_obj
def check(config: Path | None, head: str | None) -> None:
    """Check the settings, the database and the audit chain, and name what is not working; exit code 1 if anything is.

    What each row holds is compared with the audit entry that recorded it, and the chain with the heads in the backup folder.
    """
    settings = ready(load(config))
    store = _store(settings)
    faults = backups.faults(store, _heads(settings, head)) or _not_working(store)
    for fault in faults:
        click.echo(fault)
    if faults:
        sys.exit(1)
    click.echo("the database and the audit chain are whole")


def _heads(settings: Settings, given: str | None) -> list[audit.Head]:
    """The heads of the chain that left this machine: when, number, hash."""
    kept = audit.heads_kept(settings.server.backups) if settings.server.backups else []
    if given is None:
        return kept
    number, _, hash = given.strip().partition(":")
    if not number.isdigit() or len(hash) != 64:
        raise click.UsageError(f"“{given}” is no head of a chain; write NUMBER:HASH as the mail says it")
    return [*kept, ("the day of that mail", int(number), hash)]


def _not_working(store: Store) -> list[str]:
    """Rows that cannot be read, and what the clock met, without names."""
    rows = [f"cannot be read: {row} ({watch.words_of(error)})" for row, error in watching.unreadable(store)]
    met = [
        f"not working: {f.what} {f.about}, {f.times} times since {f.first_at:%Y-%m-%d %H:%M} UTC ({f.words})"
        for f in watch.faults(store)
        if f.what != "row"
    ]
    return rows + met


@cli.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.pass_obj
def backup(config: Path | None, folder: Path) -> None:
    """Copy the database into FOLDER while the clinic works, and check the copy."""
    click.echo(f"made and checked {backups.backup(_store(load(config)), folder, datetime.now(UTC))}")


@cli.command()
@click.argument("source", metavar="BACKUP", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--replace", is_flag=True, help="Also where a database stands; a copy of that is kept beside it.")
@click.pass_obj
def restore(config: Path | None, source: Path, replace: bool) -> None:
    """Check BACKUP and put it in the database's place."""
    database = load(config).server.database
    if database.exists() and not replace:
        raise click.UsageError(f"{database} exists; with --replace it is put aside and replaced")
    before = backups.restore(source, database, datetime.now(UTC))
    store, folder = _store(load(config)), load(config).server.backups
    audit.note(store, datetime.now(UTC), "command line", "restored", source.name)
    if folder and folder.is_dir():
        audit.keep_head(store, folder, datetime.now(UTC), restored=True)
    store.close()
    click.echo(f"restored {database}" + (f"; what stood there is in {before}" if before else ""))


@cli.group("keys")
def key_commands() -> None:
    """The clinic's keys, which sign, seal and open what devices hold."""


@key_commands.command("rotate")
@click.option("--leaked", is_flag=True, help="Also forget the keys of before: what devices still hold under them is lost.")
@click.option("--push", is_flag=True, help="Also the key of pushes: every browser has to be asked anew.")
@click.pass_obj
def rotate(config: Path | None, leaked: bool, push: bool) -> None:
    """Put new keys in the place of the old, wrapped by the secret in the file that FOLLOWUP_KEY_FILE names.

    Everybody signs in again. For fourteen days entries that devices hold under the keys of before are still taken.
    """
    settings = load(config)
    with held(settings.server.database, "keys are being rotated"):
        store, now = _store(settings), datetime.now(UTC)
        made = {"secret": token_hex(32), "sealing_key": sealing.new_key()} | (
            {"push_key": push_keys.new_key()} if push else {}
        )
        backups.backup(store, settings.server.database.parent / "before-rotation", now)
        keys.rotate(store, now + timedelta(days=14), made, leaked=leaked)
        audit.note(store, now, "command line", "keys rotated", ", ".join(made), {"leaked": leaked})
        outside = os.environ.get(keys.KEY_FILE)
        told = f"wrapped by the secret in {outside}" if outside else f"not wrapped: {keys.KEY_FILE} names no file"
        store.close()
    click.echo(f"new keys for {settings.server.database}, {told}; start the server anew")


def _store(settings: Settings) -> Store:
    return open_store(settings.server.database)


def main() -> None:
    """Run the command line; every fault of input becomes one line and exit code 2."""
    try:
        code = cli.main(standalone_mode=False)
    except click.exceptions.NoArgsIsHelpError as error:
        error.show()
        sys.exit(2)
    except click.ClickException as error:
        click.echo(f"followup: {' '.join(error.format_message().split())}", err=True)
        sys.exit(2)
    except FollowupError as error:
        click.echo(f"followup: {' '.join(str(error).split())}", err=True)
        sys.exit(2)
    except click.Abort:
        sys.exit(130)
    sys.exit(code if isinstance(code, int) else 0)


if __name__ == "__main__":
    main()
