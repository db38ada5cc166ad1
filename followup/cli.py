"""`followup …`: each command is one call. Bad input ends with exit code 2 and one line.

A command loads what it needs when it is called, so that help is there at once.
"""

import os
import sys
from datetime import UTC, datetime, timedelta
from importlib import import_module
from pathlib import Path
from secrets import token_hex
from typing import TYPE_CHECKING

import click

from followup.errors import FollowupError

if TYPE_CHECKING:
    from followup.config import Settings
    from followup.records import Store, audit

ELSEWHERE = {
    "calc": ("followup.calc", "calc", "The clinical core at the prompt."),
    "staff": ("followup.staff_commands", "staff", "Who has an account."),
    "protocol": (
        "followup.protocol_commands",
        "protocol_commands",
        "What the clinic works by, and who signed it. Without a command: as `protocol list`. A surgeon signs on the Protocols page.",
    ),
    "export": ("followup.export_commands", "export_commands", "Take data out."),
    "import": ("followup.import_commands", "import_commands", "Take data in."),
    "erase": ("followup.rights_commands", "erase", "Empty the record of the patient with NUMBER."),
    "retention": ("followup.rights_commands", "retention", "Name the records that are past the clinic's time."),
}
"""Commands of other modules: where they are, and the line that help says of them without loading them."""


class _Commands(click.Group):
    """Loads the module of a command that is elsewhere when that is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted({*self.commands, *ELSEWHERE})

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in ELSEWHERE and cmd_name not in self.commands:
            module, attribute, _ = ELSEWHERE[cmd_name]
            self.add_command(getattr(import_module(module), attribute), cmd_name)
        return super().get_command(ctx, cmd_name)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        own = {name: command.get_short_help_str(formatter.width) for name, command in self.commands.items()}
        said = {name: line for name, (_, _, line) in ELSEWHERE.items()} | own
        with formatter.section("Commands"):
            formatter.write_dl(sorted(said.items()))


@click.group(cls=_Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(package_name="followup")
@click.option("--config", type=click.Path(path_type=Path), help="The clinic's settings (TOML); also FOLLOWUP_CONFIG.")
@click.pass_context
def cli(context: click.Context, config: Path | None) -> None:
    """Follows each eye after retinal surgery with gas or oil left inside."""
    context.obj = config


@cli.command()
@click.option("--host", default=None, help="Address to listen on.")
@click.option("--port", type=int, default=None, help="Port to listen on.")
@click.option("--folder", type=click.Path(path_type=Path), default=Path(".followup-demo"), help="Where the demo is kept.")
@click.option("--fresh", is_flag=True, help="Build the invented clinic anew.")
@click.option("--eyes", type=click.IntRange(1, 10_000_000), help="A clinic with so many eyes, a tenth of them followed.")
@click.option("--seed", type=int, default=1, help="With --eyes: the same number gives the same clinic on the same day.")
@click.option("--serve/--no-serve", "serves", default=True, help="Whether it is served once it is built.")
def demo(host: str | None, port: int | None, folder: Path, fresh: bool, eyes: int | None, seed: int, serves: bool) -> None:
    """Build the invented clinic if it is missing, serve it, and print how to sign in.

    With --host 0.0.0.0 a phone in the same network opens it, by the code that is printed.
    """
    from demo_db import build, many, welcome
    from followup.records.lock import held
    from followup.serving import check_port
    from followup.serving import serve as run_server

    settings = build.settings(folder, host, port)
    path, now = settings.server.database, datetime.now(UTC)
    if eyes is not None and path.exists() and not fresh:
        raise click.UsageError(f"{path} exists; with --fresh it is built anew with {eyes} eyes")
    with held(path, "the demo is being built"):
        if serves:
            check_port(settings.server.host, settings.server.port)
        if eyes is not None:
            many.build(settings, now, eyes, seed, lambda known: click.echo(f"{known} of {eyes} eyes", err=True))
        store = build.ensure(settings, now, fresh=fresh and eyes is None)
        click.echo(welcome.words(store, settings, now) if serves else welcome.built(store))
        store.close()
    if serves:
        run_server(settings)


@cli.command()
@click.option("--database", type=click.Path(path_type=Path), help="The clinic's database.")
@click.option("--host", help="Address to listen on.")
@click.option("--port", type=int, help="Port to listen on.")
@click.option("--workers", type=click.IntRange(1, 64), help="Server processes.")
@click.option("--jobs/--no-jobs", default=None, help="Whether the clock's jobs run: without them nobody is reminded.")
@click.option("--clinics", type=click.Path(path_type=Path), help="Serve every clinic with a settings file in this folder.")
@click.pass_obj
def serve(config: Path | None, /, clinics: Path | None, **options: object) -> None:
    """The clinic's own server. Options win over the environment, and that over the settings file.

    With --clinics one server for several, found by the host name of their address; files may come and go meanwhile.
    """
    from followup.serving import serve as run_server
    from followup.serving import serve_region
    from followup.settings_file import load, of_machine, ready, with_server

    given = {key: value for key, value in options.items() if value is not None}
    if clinics is not None:
        serve_region(clinics, of_machine(config, given))
        return
    settings = ready(with_server(load(config), given), config)
    run_server(settings)


@cli.command()
@click.pass_obj
def init(config: Path | None) -> None:
    """Make the database of a new clinic."""
    from followup.records import open_store
    from followup.settings_file import load, ready

    settings = ready(load(config), config)
    if settings.server.database.exists():
        raise click.UsageError(f"{settings.server.database} exists already")
    open_store(settings.server.database, create=True).close()
    click.echo(f"made {settings.server.database}; add people with “followup staff”")


@cli.command()
@click.option("--head", metavar="NUMBER:HASH", help="A head of the audit chain that left this machine, for example by mail.")
@click.option("--rebuild", is_flag=True, help="Make the current state of each eye anew from what is recorded, then check.")
@click.pass_obj
def check(config: Path | None, head: str | None, rebuild: bool) -> None:
    """Check the settings, the database and the audit chain, and name what is not working; exit code 1 if anything is.

    What each row holds is compared with the audit entry that recorded it, the chain with the heads in the backup folder, and
    the current state of each eye and what waits, from which lists and the clock work, with what is recorded.
    """
    from followup.records import backup as backups
    from followup.records import keys
    from followup.settings_file import load, ready

    settings = ready(load(config), config)
    store = _store(settings)
    faults = backups.faults(store, _heads(settings, head))
    if not faults:
        keys.check_outside(store)
        faults = (
            _no_copies(settings)
            + _heads_unread(settings)
            + _not_working(store)
            + _not_as_recorded(store, settings, rebuild=rebuild)
        )
    for fault in faults:
        click.echo(fault)
    if faults:
        sys.exit(1)
    click.echo("the database and the audit chain are whole")


def _heads(settings: "Settings", given: str | None) -> "list[audit.Head]":
    """The heads of the chain that left this machine: when, number, hash."""
    from followup.records import audit

    kept = audit.heads_kept(settings.server.backups) if settings.server.backups else []
    if given is None:
        return kept
    number, _, hash = given.strip().partition(":")
    if not number.isdigit() or len(hash) != 64:
        raise click.UsageError(f"“{given}” is no head of a chain; write NUMBER:HASH as the mail says it")
    return [*kept, audit.Head("the day of that mail", int(number), hash)]


def _heads_unread(settings: "Settings") -> list[str]:
    """Lines among the heads that left this machine which say nothing."""
    from followup.records import audit

    return audit.heads_unread(settings.server.backups) if settings.server.backups else []


def _no_copies(settings: "Settings") -> list[str]:
    """Why the daily copy could not be written, before its time comes."""
    folder = settings.server.backups
    if folder is None:
        return []
    above = next(path for path in (folder.absolute(), *folder.absolute().parents) if path.exists())
    if above.is_dir() and os.access(above, os.W_OK | os.X_OK):
        return []
    return [f"setting server.backups: no copy can be written to {folder}"]


def _not_working(store: "Store") -> list[str]:
    """Rows that cannot be read, and what the clock met, without names."""
    from followup.care.watch import watching
    from followup.records import watch

    rows = [f"cannot be read: {row} ({watch.words_of(error)})" for row, error in watching.unreadable(store)]
    met = [
        f"not working: {f.what} {f.about}, {f.times} times since {f.first_at:%Y-%m-%d %H:%M} UTC ({f.words})"
        for f in watch.faults(store)
        if f.what != "row"
    ]
    return rows + met


def _not_as_recorded(store: "Store", settings: "Settings", *, rebuild: bool) -> list[str]:
    """Where the current state, what lists keep of what waits, or what is kept for the results, is not what is recorded."""
    from followup.care.learning import contributions
    from followup.care.reading import state
    from followup.care.watch import raising
    from followup.records import kept_waiting

    now, zone = datetime.now(UTC), settings.clinic.tz
    if rebuild:
        kept_waiting.rebuild(store)
        state.rebuild(store, now, zone)
    else:
        state.bring_up_to_date(store, now, zone)
    contributions.bring_up_to_date(store, now, zone)
    late = [f"the clock would look at eye {id} too late" for id in raising.looked_at_too_late(store, zone)]
    found = state.differences(store, zone) + kept_waiting.differences(store)
    found += contributions.differences(store, now, zone) + late
    return [f"{fault}; mend it with “followup check --rebuild”" for fault in found]


@cli.command()
@click.argument("folder", type=click.Path(path_type=Path, file_okay=False))
@click.pass_obj
def backup(config: Path | None, folder: Path) -> None:
    """Copy the database into FOLDER while the clinic works, and check the copy."""
    from followup.records import backup as backups
    from followup.settings_file import load

    click.echo(f"made and checked {backups.backup(_store(load(config)), folder, datetime.now(UTC))}")


@cli.command()
@click.option(
    "--undo", is_flag=True, help="Take entries again: the move did not take place, and no other server has the clinic."
)
@click.pass_obj
def close(config: Path | None, undo: bool) -> None:
    """Take nothing more here, since the clinic moves to another server: a copy that is made from now on lacks nothing.

    Works while the server runs; phones keep what they enter meanwhile. The other server goes on with
    “followup restore --closed”.
    """
    from followup.records import Store, moving
    from followup.records.opening import check_ours
    from followup.settings_file import load

    settings = load(config)
    path = settings.server.database
    store = Store(path) if undo and path.exists() else _store(settings)
    check_ours(store)
    (moving.reopen if undo else moving.close)(store, datetime.now(UTC))
    store.close()
    click.echo(f"{settings.server.database} {'takes entries again' if undo else 'is closed: copy it and go on elsewhere'}")


@cli.command()
@click.argument("source", metavar="BACKUP", type=click.Path(path_type=Path, dir_okay=False))
@click.option("--replace", is_flag=True, help="Also where a database stands; a copy of that is kept beside it.")
@click.option("--closed", is_flag=True, help="Only the whole copy of a clinic that was closed to move here.")
@click.pass_obj
def restore(config: Path | None, source: Path, replace: bool, closed: bool) -> None:
    """Check BACKUP and put it in the database's place."""
    from followup.records import audit
    from followup.records import backup as backups
    from followup.settings_file import load

    database = load(config).server.database
    if database.exists() and not replace:
        raise click.UsageError(f"{database} exists; with --replace it is put aside and replaced")
    before = backups.restore(source, database, datetime.now(UTC), closed=closed)
    store, folder = _store(load(config)), load(config).server.backups
    audit.note(store, datetime.now(UTC), "command line", "restored", source.name)
    if folder and audit.heads_kept(folder):
        audit.keep_head(store, folder, datetime.now(UTC), restored=True)
    store.close()
    click.echo(f"restored {database}" + (f"; what stood there is in {before}" if before else ""))


@cli.group("keys")
def key_commands() -> None:
    """The clinic's keys, which sign, seal and open what devices hold."""


@key_commands.command("rotate")
@click.option(
    "--leaked", is_flag=True, help="Also forget the keys of before: nobody can read what devices still hold under them."
)
@click.option("--push", is_flag=True, help="Also the key of pushes: every browser has to be asked anew.")
@click.pass_obj
def rotate(config: Path | None, leaked: bool, push: bool) -> None:
    """Put new keys in the place of the old, wrapped by the secret in the file that FOLLOWUP_KEY_FILE names.

    Everybody signs in again. For fourteen days entries that devices hold under the keys of before are still taken.
    """
    from followup.care.home import sealing
    from followup.exchange import push_keys
    from followup.records import audit, keys
    from followup.records import backup as backups
    from followup.records.lock import held
    from followup.settings_file import load

    settings = load(config)
    with held(settings.server.database, "keys are being rotated"):
        store, now = _store(settings), datetime.now(UTC)
        made = {"secret": token_hex(32), "sealing_key": sealing.new_key()} | (
            {"push_key": push_keys.new_key()} if push else {}
        )
        backups.backup(store, settings.server.database.parent / backups.BEFORE_ROTATION, now)
        keys.rotate(store, now + timedelta(days=14), made, leaked=leaked)
        audit.note(store, now, "command line", "keys rotated", ", ".join(made), {"leaked": leaked})
        outside = os.environ.get(keys.KEY_FILE)
        told = f"wrapped by the secret in {outside}" if outside else f"not wrapped: {keys.KEY_FILE} names no file"
        store.close()
    click.echo(f"new keys for {settings.server.database}, {told}; start the server anew")


def _store(settings: "Settings") -> "Store":
    from followup.records import open_store

    return open_store(settings.server.database)


def main() -> None:
    """Run the command line; every fault of input, and every path that cannot be used, becomes one line and exit code 2."""
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
    except OSError as error:
        if error.filename is None:
            raise  # no path that somebody named: a machine short of something, which may have it at the next start
        click.echo(f"followup: {error.filename}: {error.strerror}", err=True)
        sys.exit(2)
    except click.Abort:
        sys.exit(130)
    except Exception as error:
        from followup.records.store import why_away

        if not (why := why_away(error)):
            raise
        click.echo(f"followup: the database cannot be used now: {why}", err=True)
        sys.exit(1 if serve.name in sys.argv else 2)  # a server is started again: it may be usable then
    sys.exit(code if isinstance(code, int) else 0)


if __name__ == "__main__":
    main()
