"""`followup protocol …`: which texts the clinic works by, who signed each, and the text itself."""

from pathlib import Path

import click

from followup.care.reading.eye import Protocol, protocol
from followup.protocols import book
from followup.records import open_store
from followup.settings_file import load


@click.group("protocol", invoke_without_command=True)
@click.pass_context
def protocol_commands(context: click.Context) -> None:
    """What the clinic works by, and who signed it. Without a command: as `protocol list`. A surgeon signs on the Protocols page."""
    if context.invoked_subcommand is None:
        _list(context.obj)


@protocol_commands.command("list")
@click.pass_obj
def listed(config: Path | None) -> None:
    """Each part: the fingerprint of the text in force, and who signed exactly that, or that it is a draft."""
    _list(config)


@protocol_commands.command("show")
@click.argument("part", type=click.Choice(book.PARTS))
@click.pass_obj
def show(config: Path | None, part: str) -> None:
    """The text in force of PART (TOML), as it was saved, or as it ships."""
    (found,) = _in_force(config, part)
    click.echo(found.text, nl=not found.text.endswith("\n"))
    if found.is_draft:
        click.echo("a draft: nobody has signed this text", err=True)


def _list(config: Path | None) -> None:
    for found in _in_force(config, *book.PARTS):
        signed = found.signature
        how = f"signed by {signed.name} on {signed.signed_at:%Y-%m-%d}" if signed else "draft: not signed"
        click.echo(f"{found.part:<10}{found.fingerprint}  {how}")


def _in_force(config: Path | None, *parts: str) -> list[Protocol]:
    store = open_store(load(config).server.database)
    try:
        return [protocol(store, part) for part in parts]
    finally:
        store.close()
