"""`followup staff …`: who has an account, and how one is added, changed and ended."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import click

from followup.care import accounts, second_factor, signing_in
from followup.care import passkeys as held
from followup.records import Store, open_store
from followup.settings_file import load

_WHOM = click.argument("email")


def _asked(of: Callable[..., Any]) -> Callable[..., Any]:
    for option in (
        click.option("--email", help="Used to sign in."),
        click.option("--role", help=", ".join(accounts.ROLES)),
        click.option("--name", help="Full name."),
        click.option("--password", help="At least ten characters; asked for when missing."),
    ):
        of = option(of)
    return of


@click.group(invoke_without_command=True)
@_asked
@click.pass_context
def staff(context: click.Context, /, **asked: str | None) -> None:
    """Who has an account. Without a command: add one, as `staff add` does."""
    if context.invoked_subcommand is None:
        _add(context.obj, **asked)


@staff.command("add")
@_asked
@click.pass_obj
def add(config: Any, /, **asked: str | None) -> None:
    """Add a nurse, a surgeon or an administrator."""
    _add(config, **asked)


@staff.command("list")
@click.pass_obj
def listed(config: Any) -> None:
    """Everybody who has an account, and on how many browsers they are signed in."""
    store, now = _store(config), _now()
    for member in accounts.everybody(store):
        held = len(signing_in.open_sessions(store, now, member.id))
        click.echo(
            f"{member.role:<14}{member.email:<32}{member.name}, signed in on {held} browser{'s' if held != 1 else ''}"
        )


@staff.command("end")
@_WHOM
@click.pass_obj
def end(config: Any, email: str) -> None:
    """End the account of EMAIL at once; what the person recorded stays."""
    store = _store(config)
    accounts.end(store, _now(), accounts.by_email(store, email).id)
    click.echo(f"{email} cannot sign in any more")


@staff.command("password")
@_WHOM
@click.option("--password", help="At least ten characters; asked for when missing.")
@click.option("--no-second-factor", is_flag=True, help="Also for whoever lost app, recovery codes or passkeys: all go.")
@click.pass_obj
def password(config: Any, email: str, password: str | None, no_second_factor: bool) -> None:
    """Give EMAIL a new password; everything that is signed in with the old one is signed out."""
    store = _store(config)
    member = accounts.by_email(store, email)
    accounts.set_password(store, _now(), member.id, password or _ask())
    if no_second_factor:
        second_factor.drop(store, _now(), member.id, accounts.COMMAND_LINE)
    click.echo(f"{email} has a new password")


@staff.command("passkeys")
@_WHOM
@click.option("--remove", "removing", is_flag=True, help="Remove them all, and ask for none after the password.")
@click.pass_obj
def passkeys(config: Any, email: str, removing: bool) -> None:
    """Which passkeys EMAIL has."""
    store, now = _store(config), _now()
    member = accounts.by_email(store, email)
    known = held.of(store, member.id)
    if not known and not removing:
        click.echo(f"{email} has no passkey")
    for one in known:
        used = f"last used {one.used_at:%Y-%m-%d %H:%M} UTC" if one.used_at else "never used"
        click.echo(f"{one.name}, made {one.created_at:%Y-%m-%d}, {used}")
    if removing:
        click.echo(f"removed: {second_factor.remove_passkeys(store, now, member.id, accounts.COMMAND_LINE)}")


@staff.command("directory")
@_WHOM
@click.argument("subject", default="")
@click.pass_obj
def directory(config: Any, email: str, subject: str) -> None:
    """Note how the clinic's own directory knows EMAIL (its SUBJECT); without one, what was noted is forgotten."""
    store = _store(config)
    accounts.name_in_directory(store, _now(), accounts.by_email(store, email).id, subject)
    click.echo(f"{email} is {subject} there" if subject else f"nothing is noted of {email} there")


@staff.command("sessions")
@_WHOM
@click.option("--end", "ending", is_flag=True, help="Sign them all out.")
@click.pass_obj
def sessions(config: Any, email: str, ending: bool) -> None:
    """Where EMAIL is signed in."""
    store, now = _store(config), _now()
    member = accounts.by_email(store, email)
    known = signing_in.open_sessions(store, now, member.id)
    if not known and not ending:
        click.echo(f"{email} is signed in nowhere")
    for session in known:
        click.echo(
            f"since {session.begun_at:%Y-%m-%d %H:%M} UTC, last used {session.seen_at:%H:%M}, "
            f"from {session.address or 'here'}"
        )
    if ending:
        click.echo(f"ended: {signing_in.end_sessions(store, now, member.id, accounts.COMMAND_LINE)}")


def _add(config: Any, name: str | None, role: str | None, email: str | None, password: str | None) -> None:
    for option, value in (("name", name), ("role", role), ("email", email)):
        if not value:
            raise click.UsageError(f"--{option} is missing")
    store = _store(config)
    accounts.add_staff(store, _now(), name or "", (role or "").strip().lower(), email or "", password or _ask())
    click.echo(f"{name} can sign in as {email}")


def _ask() -> str:
    return str(click.prompt("Password", hide_input=True, confirmation_prompt=True))


def _store(config: Any) -> Store:
    return open_store(load(config).server.database)


def _now() -> datetime:
    return datetime.now(UTC)
