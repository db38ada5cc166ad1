"""What every command of `followup calc` shares: names of the core as options, and an answer as JSON or as a table."""

import json
from collections.abc import Sequence
from typing import Any

import click
from click.shell_completion import CompletionItem

from followup.clinical.agents import AGENTS
from followup.clinical.errors import one_of

Rows = list[tuple[str, str]]
SUPPORT = "It supports decisions and takes none: local protocol and licensed judgement come first."
GAS = "This never clears anyone to fly, climb or have nitrous oxide: only a clinician who sees no gas does."
DRAFT = "Draft: the {what} used here came with the program; no surgeon has signed them."
NONE = "–"


class OneOf(click.ParamType):  # type: ignore[type-arg]  # generic only since 8.5, and 8.1 is accepted
    """One of the core’s names, in any case; the shell completes it, and a wrong one is answered in the core’s words."""

    def __init__(self, name: str, accepted: Sequence[str]) -> None:
        self.name, self.accepted = name, accepted

    def convert(self, value: Any, param: click.Parameter | None, context: click.Context | None) -> str:
        return one_of(self.name, str(value).strip().lower(), self.accepted)

    def shell_complete(self, context: click.Context, param: click.Parameter, incomplete: str) -> list[CompletionItem]:
        return [CompletionItem(name) for name in self.accepted if name.startswith(incomplete.lower())]

    def get_metavar(self, param: click.Parameter, ctx: click.Context | None = None) -> str:
        return self.name.upper()


class _Number(click.ParamType):  # type: ignore[type-arg]  # as above
    """A number as people write it: with a point, or with one comma."""

    name = "number"

    def convert(self, value: Any, param: click.Parameter | None, context: click.Context | None) -> float:
        try:
            return float(str(value).strip().replace(",", ".", 1))
        except ValueError:
            self.fail(f"“{value}” is not a number; write for example 95 or 95.5", param, context)


NUMBER = _Number()
AGENT = OneOf("tamponade", tuple(AGENTS))
as_json = click.option("--json", "as_json", is_flag=True, help="Give JSON for programs.")


def rounded(value: float | None) -> float | None:
    """To the four decimals that programs get."""
    return None if value is None else round(value, 4)


def number(value: float | None, digits: int, unit: str) -> str:
    """A value to so many decimals, without empty ones, and its unit; a dash where there is none."""
    if value is None:
        return NONE
    said = f"{value:.{digits}f}"
    return f"{said.rstrip('0').rstrip('.') if digits else said} {unit}"


def give(answer: dict[str, Any], as_json: bool, rows: Rows, notes: Sequence[str] = ()) -> None:
    """Print an answer: exactly its keys for programs, else the rows and what has to be kept in mind."""
    if as_json:
        click.echo(json.dumps(answer, ensure_ascii=False))
        return
    width = max(len(name) for name, _ in rows)
    for name, value in rows:
        click.echo(f"{name:{width}}  {value}")
    if notes:
        click.echo("\n" + "\n".join(notes))
