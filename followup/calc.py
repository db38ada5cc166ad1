"""`followup calc`: the clinical core at the prompt. Each command is one call of the core.

`--json` gives exactly the keys that DEVELOPERS.md promises to other programs; without it the same values come as a table
with units, rounded to what they are good for, and with what has to be kept in mind.
"""

import json
import sys
from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any

import click
from click.shell_completion import CompletionItem

from followup.care import bounds
from followup.clinical import (
    acuity,
    agents,
    altitude,
    coverage,
    forecasts,
    pressure,
    schedule,
    seen_levels,
    tamponade,
    vision,
)
from followup.clinical.errors import Ambiguous, one_of, within
from followup.clinical.surgery import RISKS
from followup.exchange import course_file
from followup.protocols import book

Answer = dict[str, Any]
Rows = list[tuple[str, str]]
SUPPORT = "It supports decisions and takes none: local protocol and licensed judgement come first."
GAS = "This never clears anyone to fly, climb or have nitrous oxide: only a clinician who sees no gas does."
DRAFT = "Draft: the {what} used here came with the program; no surgeon has signed them."

TRIED = "Draft: the rules of {} are tried here, without asking whether a surgeon has signed them."


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


AGENT = OneOf("tamponade", tuple(agents.AGENTS))
as_json = click.option("--json", "as_json", is_flag=True, help="Give JSON for programs.")


@click.group()
def calc() -> None:
    """The clinical core at the prompt. It supports decisions and takes none."""


@calc.command("acuity", context_settings={"ignore_unknown_options": True})
@click.argument("text")
@click.option(
    "--notation",
    type=OneOf("notation", vision.NOTATIONS),
    help="snellen, decimal, logmar or letters, where the text alone is ambiguous.",
)
@as_json
def acuity_(text: str, notation: str | None, as_json: bool) -> None:
    """Convert a visual acuity, for example 6/12-2, 20/40, "logMAR 0.3", "70 letters", CF."""
    try:
        reading = acuity.read(text, notation)
    except Ambiguous as error:
        settled = ", for example --notation logmar" if "which notation" in str(error) else ""
        raise click.UsageError(f"{error}{settled}") from error
    answer = {
        "logmar": _round(reading.logmar),
        "decimal": _round(reading.decimal),
        "snellen_6m": reading.snellen_6m,
        "snellen_20ft": reading.snellen_20ft,
        "letters": reading.letters,
        "category": reading.category,
        "who_category": reading.who_category,
    }
    notes = [f"Read with: {reading.correction}."] if reading.correction else []
    notes += [f"How many letters is not said: taken as {reading.partial:+d}."] if reading.partial_unsaid else []
    notes += ["The logMAR and decimal of this are stand-ins by convention, not measured."] if reading.category else []
    rows = [
        ("logMAR", f"{reading.logmar:.2f}"),
        ("decimal", f"{reading.decimal:.2g}"),
        ("Snellen at 6 m", reading.snellen_6m or NONE),
        ("Snellen at 20 ft", reading.snellen_20ft or NONE),
        ("letter score", _number(reading.letters, 0, "letters")),
        *([("category", vision.CATEGORY_WORDS[reading.category])] if reading.category else []),
        ("vision impairment (WHO)", reading.who_category),
    ]
    _give(answer, as_json, rows, notes)


@calc.command("pressure", context_settings={"ignore_unknown_options": True})
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
    rows = [
        ("pressure", _number(mmhg, 1, "mmHg")),
        ("", _number(pressure.kpa(mmhg), 2, "kPa")),
        ("band", str(answer["band"])),
        ("above the eye’s own", _number(rise, 1, "mmHg")),
    ]
    notes = ["Far out: was it typed right?"] if pressure.unlikely(mmhg) else []
    _give(answer, as_json, rows, [*notes, SUPPORT, DRAFT.format(what="bands")])


@calc.command("bubble")
@click.option("--agent", type=AGENT, required=True, help=", ".join(agents.AGENTS))
@click.option("--percent", type=float, default=None, help="Concentration of the gas in air.")
@click.option("--fill", type=float, required=True, help="Fill at the end of surgery, percent of volume.")
@click.option("--lens", type=OneOf("lens", agents.LENSES), default="unknown", help=", ".join(agents.LENSES))
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
    rows = [
        (f"fill on day {day:g}", _number(level.fill_percent, 0, "% of the volume")),
        ("95 % of cases", f"{level.low_percent:.0f} to {level.high_percent:.0f} % of the volume"),
        ("meniscus", _number(level.meniscus_percent, 0, "% of the height")),
        ("arc of contact", _number(level.arc_degrees, 0, "degrees")),
        ("sight clears", f"about day {clear.median:.0f}" if clear else NONE),
        ("gone", f"about day {gone.median:.0f} (95 % of cases: {gone.low:.0f} to {gone.high:.0f})" if gone else NONE),
    ]
    if levels:
        low, high = forecast.reading(day)
        answer |= {"reading_low_percent": _round(low), "reading_high_percent": _round(high)}
        rows.append((f"next reading on day {day:g}", f"{low:.0f} to {high:.0f} % of the height (95 %)"))
    _give(answer, as_json, rows, [*([GAS] if agent in agents.GASES else []), SUPPORT])


@calc.command("coverage")
@click.option("--eye", type=OneOf("eye", coverage.EYES), required=True, help="right or left")
@click.option("--break", "clocks", type=float, multiple=True, required=True, help="Clock hour as the examiner sees it.")
@click.option("--reach", type=OneOf("reach", tuple(coverage.REACHES)), default="equator", help=", ".join(coverage.REACHES))
@click.option(
    "--posture", type=OneOf("posture", tuple(coverage.POSTURES)), default="upright", help=", ".join(coverage.POSTURES)
)
@click.option("--fill", type=float, required=True, help="Fill, percent of volume.")
@click.option("--agent", type=AGENT, default="sf6", help="Gas and oil float, heavy oil sinks.")
@as_json
def coverage_(eye: str, clocks: tuple[float, ...], reach: str, posture: str, fill: float, agent: str, as_json: bool) -> None:
    """Is a break covered in a posture, and which postures cover best?"""
    moves = agents.AGENTS[agent].moves
    breaks = [coverage.Break(clock, reach) for clock in clocks]
    cover = coverage.cover(breaks, fill, posture, moves)
    best = [
        {"name": c.name, "margin_degrees": _round(c.margin_degrees)} for c in coverage.best_postures(breaks, fill, moves)
    ]
    answer = {"covered": cover.covered, "margin_degrees": _round(cover.margin_degrees), "postures": best}
    rows = [
        (posture, f"{'covered' if cover.covered else 'not covered'}, margin {cover.margin_degrees:.0f} degrees"),
        *((f"{n}. {c['name']}", f"margin {c['margin_degrees']:.0f} degrees") for n, c in enumerate(best, 1)),
    ]
    _give(answer, as_json, rows, [POSTURE, SUPPORT])


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
    rows = [
        (f"pressure at {metres:g} m", _number(answer["pressure_hpa"], 0, "hPa")),
        (f"expansion from {from_metres:g} m", f"{ratio:.2f} times"),
        (f"{volume_ml:g} mL become", f"{volume_ml * ratio:.2f} mL"),
    ]
    _give(answer, as_json, rows, [GAS, SUPPORT])


@calc.command("plan")
@click.option("--agent", type=AGENT, required=True, help=", ".join(agents.AGENTS))
@click.option("--operated", required=True, help="Date of surgery, for example 2027-03-02.")
@click.option("--diabetic", is_flag=True, help="Short for --risk diabetic.")
@click.option("--risk", "risks", type=OneOf("risk", tuple(RISKS)), multiple=True, help=", ".join(RISKS))
@as_json
def plan_(agent: str, operated: str, diabetic: bool, risks: tuple[str, ...], as_json: bool) -> None:
    """Review visits that the draft protocol gives an operation."""
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
    rows = [(f"{v['name']}", f"{v['target']}  ({v['earliest']} to {v['latest']})  {v['reason']}") for v in visits]
    _give({"visits": visits}, as_json, rows, [SUPPORT, DRAFT.format(what="reviews")])


EXAMPLE = """{"operation": {"eye": "right", "at": "2027-03-02T14:00:00Z", "agent": "sf6",
               "percent": 20, "fill_percent": 90},
 "facts": [
  {"at": "2027-03-03T09:00:00Z", "kind": "measures", "eye": "right", "iop_mmhg": 34},
  {"at": "2027-03-05T20:00:00Z", "kind": "symptoms", "pain": 7, "vision": "worse"}],
 "until": "2027-03-06T00:00:00Z"}"""


@calc.command("course", epilog=f"\b\nA course to try, as eye.json:\n{EXAMPLE}")
@click.argument("files", type=click.Path(path_type=Path), nargs=-1, required=True)
@click.option("--rulebook", "rules", type=click.Path(path_type=Path), help="A changed rulebook (TOML) to try.")
@as_json
def course_(files: tuple[Path, ...], rules: Path | None, as_json: bool) -> None:
    """Run the rulebook over one eye's course, as the server would have.

    Several FILES answer one JSON line each; “-” reads courses from standard input, one JSON line each.
    """
    book_in_use = book.rulebook(None if rules is None else _text(rules))
    if len(files) == 1 and files[0] != STANDARD_INPUT:
        told = course_file.told(_object(_text(files[0]), str(files[0])), book_in_use)
        _give(
            dict(told),
            as_json,
            _course_rows(told),
            [SUPPORT, DRAFT.format(what="rules") if rules is None else TRIED.format(rules)],
        )
        return
    for text, name in _course_texts(files):
        try:
            told = course_file.told(_object(text, name), book_in_use)
        except course_file.CourseFileError as error:
            raise click.UsageError(f"{name}: {error}") from error
        click.echo(json.dumps(told, ensure_ascii=False))


def _course_rows(told: dict[str, list[Answer]]) -> Rows:
    """Signs in the order raised, what they called for, and what was asked back."""
    rows = [(f"{_minute(w['raised_at'])}  {w['how_soon']}", f"{w['rule']}: {w['words']}") for w in told["warnings"]]
    rows += [
        (
            f"call {_minute(c['opened_at'])}  {c['how_soon']}",
            f"due {_minute(c['due_at'])}, "
            + (f"settled {_minute(c['settled_at'])}" if c["settled_at"] else "not settled")
            + f": {', '.join(c['rules'])}",
        )
        for c in told["callbacks"]
    ]
    rows += [
        (f"asked back {_minute(r['asked_at'])}", f"{', '.join(r['signs'])}, until {_minute(r['due_at'])}")
        for r in told["rechecks"]
    ]
    return rows or [("nothing raised", "in this course by these rules")]


def _minute(at: str) -> str:
    return f"{datetime.fromisoformat(at):%Y-%m-%d %H:%M} UTC"


STANDARD_INPUT = Path("-")
NONE = "–"
POSTURE = "Geometry of a round eye that looks straight ahead; the surgeon says which posture, and whether it can be held."


def _percent(agent: str, percent: float | None) -> float:
    if percent is not None:
        return percent
    substance = agents.AGENTS.get(agent)
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


def _seen(level: str) -> seen_levels.Observation:
    """A level as it is typed, DAY:HEIGHT; both checked here, so that the message names the option."""
    day, _, height = level.partition(":")
    try:
        seen = seen_levels.Observation(float(day), float(height))
    except ValueError as error:
        raise click.UsageError(
            f"--seen “{level}” is not DAY:HEIGHT; write for example 7:60, seen on day 7 at 60 % of the height"
        ) from error
    within("--seen: a day of", seen.day, 0, forecasts.LAST_DAY)
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


def _number(value: float | None, digits: int, unit: str) -> str:
    """A value to so many decimals, without empty ones, and its unit; a dash where there is none."""
    if value is None:
        return NONE
    said = f"{value:.{digits}f}"
    return f"{said.rstrip('0').rstrip('.') if digits else said} {unit}"


def _give(answer: Answer, as_json: bool, rows: Rows, notes: Sequence[str] = ()) -> None:
    if as_json:
        click.echo(json.dumps(answer, ensure_ascii=False))
        return
    width = max(len(name) for name, _ in rows)
    for name, value in rows:
        click.echo(f"{name:{width}}  {value}")
    if notes:
        click.echo("\n" + "\n".join(notes))
