"""`followup calc`: the clinical core at the prompt. Each command is one call of the core.

`--json` gives exactly the keys of the contract; without it the same values come as a table.
"""

import json
import sys
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import click

from followup.care import bounds
from followup.clinical import acuity, altitude, coverage, pressure, schedule, tamponade
from followup.clinical.course import RISKS
from followup.clinical.errors import Ambiguous, one_of, within
from followup.exchange import course_file
from followup.protocols import book

Answer = dict[str, Any]
as_json = click.option("--json", "as_json", is_flag=True, help="Give JSON for programs.")


@click.group()
def calc() -> None:
    """The clinical core at the prompt. It supports decisions and takes none."""


@calc.command("acuity", context_settings={"ignore_unknown_options": True})
@click.argument("text")
@click.option("--notation", help="snellen, decimal, logmar or letters, where the text alone is ambiguous.")
@as_json
def acuity_(text: str, notation: str | None, as_json: bool) -> None:
    """Convert a visual acuity, for example 6/12-2, 20/40, "logMAR 0.3", "70 letters", CF."""
    try:
        reading = acuity.read(text, notation)
    except Ambiguous as error:
        raise click.UsageError(f"{error} (--notation)") from error
    answer = {
        "logmar": _round(reading.logmar),
        "decimal": _round(reading.decimal),
        "snellen_6m": reading.snellen_6m,
        "snellen_20ft": reading.snellen_20ft,
        "letters": reading.letters,
        "category": reading.category,
        "who_category": reading.who_category,
    }
    notes = [f"read with: {reading.correction}"] if reading.correction else []
    notes += [f"how many letters is not said: taken as {reading.partial:+d}"] if reading.partial_unsaid else []
    _give(answer, as_json, "; ".join(notes) or None)


@calc.command("pressure")
@click.argument("value")
@click.option("--baseline", help="The eye's own pressure before, in mmHg.")
@as_json
def pressure_(value: str, baseline: str | None, as_json: bool) -> None:
    """Convert and judge an eye pressure, for example 31 or "4.1 kPa"."""
    mmhg = pressure.read(value)
    rise = pressure.rise(mmhg, None if baseline is None else pressure.read(baseline))
    answer = {
        "mmhg": mmhg,
        "kpa": _round(pressure.kpa(mmhg)),
        "band": pressure.band(mmhg, book.rulebook().bands),
        "rise_mmhg": rise,
    }
    _give(answer, as_json)


@calc.command("bubble")
@click.option("--agent", required=True, help=", ".join(tamponade.AGENTS))
@click.option("--percent", type=float, default=None, help="Concentration of the gas in air.")
@click.option("--fill", type=float, required=True, help="Fill at the end of surgery, percent of volume.")
@click.option("--lens", default="unknown", help=", ".join(tamponade.LENSES))
@click.option("--day", type=float, default=0.0, help="Days after surgery.")
@click.option(
    "--seen",
    "levels",
    multiple=True,
    metavar="DAY:HEIGHT",
    help="A level seen in clinic, height of the meniscus in percent.",
)
@as_json
def bubble_(
    agent: str, percent: float | None, fill: float, lens: str, day: float, levels: tuple[str, ...], as_json: bool
) -> None:
    """Forecast a bubble: fill with its 95 % interval, height, arc, when sight clears, when it is gone.

    With levels that were seen in clinic, also where the next one seen on that day will be (95 %).
    """
    forecast = tamponade.forecast(agent, _percent(agent, percent), fill, lens, [_seen(level) for level in levels])
    level = forecast.at(day)
    clear, gone = forecast.clear_of_sight, forecast.gone
    answer = {
        "fill_percent": _round(level.fill_percent),
        "low_percent": _round(level.low_percent),
        "high_percent": _round(level.high_percent),
        "meniscus_percent": _round(level.meniscus_percent),
        "arc_degrees": _round(level.arc_degrees),
        "clear_of_sight_day": _round(clear.median) if clear else None,
        "gone_day": _round(gone.median) if gone else None,
        "gone_day_low": _round(gone.low) if gone else None,
        "gone_day_high": _round(gone.high) if gone else None,
    }
    if levels:
        low, high = forecast.reading(day)
        answer |= {"reading_low_percent": _round(low), "reading_high_percent": _round(high)}
    _give(answer, as_json, None if agent not in tamponade.GASES else CAUTION)


@calc.command("coverage")
@click.option("--eye", required=True, help="right or left")
@click.option("--break", "clocks", type=float, multiple=True, required=True, help="Clock hour as the examiner sees it.")
@click.option("--reach", default="equator", help=", ".join(coverage.REACHES))
@click.option("--posture", default="upright", help=", ".join(coverage.POSTURES))
@click.option("--fill", type=float, required=True, help="Fill, percent of volume.")
@click.option("--agent", default="sf6", help="Gas and oil float, heavy oil sinks.")
@as_json
def coverage_(eye: str, clocks: tuple[float, ...], reach: str, posture: str, fill: float, agent: str, as_json: bool) -> None:
    """Is a break covered in a posture, and which postures cover best?"""
    one_of("eye", eye, coverage.EYES)
    moves = tamponade.AGENTS[one_of("tamponade", agent, tamponade.AGENTS)].moves
    breaks = [coverage.Break(clock, reach) for clock in clocks]
    cover = coverage.cover(breaks, fill, posture, moves)
    best = [
        {"name": c.name, "margin_degrees": _round(c.margin_degrees)} for c in coverage.best_postures(breaks, fill, moves)
    ]
    answer = {"covered": cover.covered, "margin_degrees": _round(cover.margin_degrees), "postures": best}
    _give(answer, as_json)


@calc.command("altitude")
@click.option("--metres", type=float, required=True, help="Height reached.")
@click.option("--from-metres", type=float, default=0.0, help="Height of the place of surgery.")
@click.option("--volume-ml", type=float, default=1.0, help="Volume of gas at the place of surgery.")
@as_json
def altitude_(metres: float, from_metres: float, volume_ml: float, as_json: bool) -> None:
    """Pressure at a height, and how much wet gas would expand on the way there."""
    within("a volume of", volume_ml, 0, 20, " mL")
    ratio = altitude.expansion(metres, from_metres)
    answer = {
        "pressure_hpa": _round(altitude.pressure_hpa(metres)),
        "expansion": _round(ratio),
        "volume_ml": _round(volume_ml * ratio),
    }
    _give(answer, as_json, CAUTION)


@calc.command("plan")
@click.option("--agent", required=True, help=", ".join(tamponade.AGENTS))
@click.option("--operated", required=True, help="Date of surgery, for example 2027-03-02.")
@click.option("--diabetic", is_flag=True, help="Short for --risk diabetic.")
@click.option("--risk", "risks", multiple=True, help=", ".join(RISKS))
@as_json
def plan_(agent: str, operated: str, diabetic: bool, risks: tuple[str, ...], as_json: bool) -> None:
    """Review visits that the draft protocol gives an operation."""
    one_of("tamponade", agent, tamponade.AGENTS)
    for risk in risks:
        one_of("risk", risk, RISKS)
    try:
        day = datetime.strptime(operated, "%Y-%m-%d").date()
    except ValueError as error:
        raise click.UsageError(f"“{operated}” is not a date; write for example 2027-03-02") from error
    if fault := bounds.surgery(day, bounds.LAST_SURGERY):
        raise click.UsageError(fault)
    wanted = {*risks, *(["diabetic"] if diabetic else [])}
    visits = [
        {
            "name": w.name,
            "target": w.target.isoformat(),
            "earliest": w.earliest.isoformat(),
            "latest": w.latest.isoformat(),
            "reason": w.reason,
        }
        for w in schedule.windows(book.reviews(), day, agent, wanted)
    ]
    _give({"visits": visits}, as_json)


@calc.command("course")
@click.argument("files", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option("--rulebook", "rules", type=click.Path(path_type=Path), help="A changed rulebook (TOML) to try.")
@as_json
def course_(files: tuple[Path, ...], rules: Path | None, as_json: bool) -> None:
    """Run the rulebook over one eye's course, as the server would have.

    Several FILES answer one JSON line each; “-” reads courses from standard input, one JSON line each.
    """
    book_in_use = book.rulebook(None if rules is None else _text(rules))
    if len(files) == 1 and files[0] != STANDARD_INPUT:
        _give(dict(course_file.told(_object(_text(files[0]), str(files[0])), book_in_use)), as_json)
        return
    for text, name in _course_texts(files):
        try:
            told = course_file.told(_object(text, name), book_in_use)
        except course_file.CourseFileError as error:
            raise click.UsageError(f"{name}: {error}") from error
        click.echo(json.dumps(told, ensure_ascii=False))


STANDARD_INPUT = Path("-")
CAUTION = "The forecast never clears anyone to fly, climb or have nitrous oxide: only a clinician who sees no gas does."


def _percent(agent: str, percent: float | None) -> float:
    if percent is not None:
        return percent
    substance = tamponade.AGENTS.get(agent)
    if substance and substance.non_expansile:
        raise click.UsageError(f"{substance.words} needs --percent, its concentration: above 0 to 100")
    return 100.0 if agent == "air" else 0.0


def _course_texts(files: tuple[Path, ...]) -> Iterator[tuple[str, str]]:
    """Each course's text, and what to call it where something is wrong."""
    for file in files:
        if file == STANDARD_INPUT:
            typed = sys.stdin.read().splitlines()
            yield from ((line, f"line {number}") for number, line in enumerate(typed, 1) if line.strip())
        else:
            yield _text(file), str(file)


def _seen(level: str) -> tamponade.Observation:
    """A level as it is typed, DAY:HEIGHT; both checked here, so that the message names the option."""
    day, _, height = level.partition(":")
    try:
        seen = tamponade.Observation(float(day), float(height))
    except ValueError as error:
        raise click.UsageError(
            f"--seen “{level}” is not DAY:HEIGHT; write for example 7:60, seen on day 7 at 60 % of the height"
        ) from error
    within("--seen: a day of", seen.day, 0, tamponade.LAST_DAY)
    within("--seen: a bubble height of", seen.meniscus_percent, 0, 100, " %")
    return seen


def _object(text: str, name: str) -> Answer:
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
    except (OSError, UnicodeDecodeError) as error:
        raise click.UsageError(f"{file} cannot be read: {error}") from error


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 4)


def _give(answer: Answer, as_json: bool, caution: str | None = None) -> None:
    if as_json:
        click.echo(json.dumps(answer, ensure_ascii=False))
        return
    for key, value in answer.items():
        if isinstance(value, list):
            click.echo(f"{key}:" + ("" if value else " none"))
            for row in value:
                click.echo("  " + "  ".join(f"{k}={v}" for k, v in row.items()))
        else:
            click.echo(f"{key:20} {'–' if value is None else value}")
    if caution:
        click.echo(f"\n{caution}")
