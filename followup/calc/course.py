"""`followup calc plan` and `course`: which visits the draft gives, and what the rules raise over one eye’s course."""

import json
import sys
from collections.abc import Iterator
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any

import click

from followup.calc.answers import AGENT, DRAFT, SUPPORT, OneOf, Rows, as_json, give
from followup.care import bounds
from followup.clinical import schedule
from followup.clinical.agents import AGENTS
from followup.clinical.surgery import RISKS
from followup.exchange.course_file import CourseFileError
from followup.exchange.course_told import Told, told_by
from followup.protocols import book

LONGEST_AHEAD = timedelta(days=366)
STANDARD_INPUT = Path("-")
TRIED = "Draft: the rules of {} are tried here, without asking whether a surgeon has signed them."


@click.command("plan")
@click.option("--agent", type=AGENT, required=True, help=", ".join(AGENTS))
@click.option("--operated", required=True, help="Date of surgery, for example 2027-03-02.")
@click.option("--diabetic", is_flag=True, help="Short for --risk diabetic.")
@click.option(
    "--risk", "risks", type=OneOf("risk", tuple(RISKS)), multiple=True, help=f"{', '.join(RISKS)}; may be given again."
)
@as_json
def plan_(agent: str, operated: str, diabetic: bool, risks: tuple[str, ...], as_json: bool) -> None:
    """Review visits that the draft protocol gives an operation."""
    try:
        day = datetime.strptime(operated, "%Y-%m-%d").date()
    except ValueError as error:
        raise click.UsageError(f"“{operated}” is not a date; write for example 2027-03-02") from error
    if day > date.today() + LONGEST_AHEAD:
        raise click.UsageError(
            f"a date of surgery more than a year ahead: {bounds.words(day)}; write for example 2027-03-02"
        )
    if fault := bounds.surgery(day, bounds.LAST_SURGERY):
        raise click.UsageError(fault)
    wanted = {*risks, *(["diabetic"] if diabetic else [])}
    windows = schedule.windows(book.reviews(), day, agent, wanted)
    visits = [
        {
            "name": w.name,
            "target": w.target.isoformat(),
            "earliest": w.earliest.isoformat(),
            "latest": w.latest.isoformat(),
            "reason": w.reason,
        }
        for w in windows
    ]
    rows = [(w.name, f"{w.target}  ({w.earliest} to {w.latest})  {w.reason}") for w in windows]
    give({"visits": visits}, as_json, rows, [SUPPORT, DRAFT.format(what="reviews")])


EXAMPLE = """{"operation": {"eye": "right", "at": "2027-03-02T14:00:00Z", "agent": "sf6",
               "percent": 20, "fill_percent": 90},
 "facts": [
  {"at": "2027-03-03T09:00:00Z", "kind": "measures", "eye": "right", "iop_mmhg": 34},
  {"at": "2027-03-05T20:00:00Z", "kind": "symptoms", "pain": 7, "vision": "worse"}],
 "until": "2027-03-06T00:00:00Z"}"""


@click.command("course", epilog=f"\b\nA course to try, as eye.json:\n{EXAMPLE}")
@click.argument("files", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option("--rulebook", "rules", type=click.Path(path_type=Path), help="A changed rulebook (TOML) to try.")
@as_json
def course_(files: tuple[Path, ...], rules: Path | None, as_json: bool) -> None:
    """Run the rulebook over one eye's course, as the server would have.

    Several FILES answer one JSON line each; “-” reads courses from standard input, one JSON line each. What has to be kept
    in mind then goes to standard error, once, unless --json is given.
    """
    book_in_use = book.rulebook(None if rules is None else _text(rules))
    notes = [SUPPORT, DRAFT.format(what="rules") if rules is None else TRIED.format(rules)]
    if len(files) == 1 and files[0] != STANDARD_INPUT:
        told = told_by(_object(_text(files[0]), str(files[0])), book_in_use)
        give(told.as_json(), as_json, _rows(told), notes)
        return
    for number, (text, name) in enumerate(_course_texts(files)):
        try:
            told = told_by(_object(text, name), book_in_use)
        except CourseFileError as error:
            raise click.UsageError(f"{name}: {error}") from error
        if number == 0 and not as_json:
            click.echo("\n".join(notes), err=True)
        click.echo(json.dumps(told.as_json(), ensure_ascii=False))


def _rows(told: Told) -> Rows:
    """Signs in the order raised, what they called for, and what was asked back."""
    rows = [(f"{_minute(sign.raised_at)}  {sign.how_soon}", f"{sign.rule}: {sign.words}") for sign in told.signs]
    for call in told.callbacks:
        settled = f"settled {_minute(call.settled_at)}" if call.settled_at else "not settled"
        until = f"due {_minute(call.due_at)}, {settled}"
        rows.append((f"call {_minute(call.opened_at)}  {call.how_soon}", f"{until}: {', '.join(call.rules)}"))
    for look in told.rechecks:
        rows.append((f"asked back {_minute(look.asked_at)}", f"{', '.join(look.signs)}, until {_minute(look.due_at)}"))
    return rows or [("nothing raised", "in this course by these rules")]


def _minute(at: datetime) -> str:
    return f"{at:%Y-%m-%d %H:%M} UTC"


def _course_texts(files: tuple[Path, ...]) -> Iterator[tuple[str, str]]:
    """Each course's text, and what to call it where something is wrong."""
    for file in files:
        if file == STANDARD_INPUT:
            typed = sys.stdin.read().splitlines()
            yield from ((line, f"line {number}") for number, line in enumerate(typed, 1) if line.strip())
        else:
            yield _text(file), str(file)


def _object(text: str, name: str) -> dict[str, Any]:
    try:
        raw = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise click.UsageError(f"{name} is not JSON: {error}") from error
    if not isinstance(raw, dict):
        raise click.UsageError(f"{name} must hold one object with the key “operation”")
    return raw


def _text(file: Path) -> str:
    try:
        return file.read_text(encoding="utf-8")
    except OSError as error:
        raise click.UsageError(f"{file} cannot be read: {error.strerror}") from error
    except UnicodeDecodeError as error:
        raise click.UsageError(f"{file} is not text in UTF-8") from error
