"""`followup calc bubble`, `coverage` and `altitude`: what gas or oil does in the eye."""

import click

from followup.calc.answers import AGENT, GAS, NONE, NUMBER, SUPPORT, OneOf, as_json, give, number, rounded
from followup.clinical import agents, altitude, coverage, forecasts, second_thoughts, seen_levels, tamponade
from followup.clinical.errors import within

POSTURE = "Geometry of a round eye that looks straight ahead; the surgeon says which posture, and whether it can be held."


@click.command("bubble")
@click.option("--agent", type=AGENT, required=True, help=", ".join(agents.AGENTS))
@click.option("--percent", type=NUMBER, default=None, help="Concentration of the gas in air.")
@click.option("--fill", type=NUMBER, required=True, help="Fill at the end of surgery, percent of volume.")
@click.option("--lens", type=OneOf("lens", agents.LENSES), default="unknown", help=", ".join(agents.LENSES))
@click.option("--day", type=NUMBER, default=0, help="Days after surgery.")
@click.option(
    "--seen",
    "levels",
    multiple=True,
    metavar="DAY:HEIGHT",
    help="A level seen in clinic, height of the meniscus in percent; may be given again.",
)
@as_json
def bubble_(
    agent: str, percent: float | None, fill: float, lens: str, day: float, levels: tuple[str, ...], as_json: bool
) -> None:
    """Forecast a bubble: fill with its 95 % interval, height, arc, when sight clears, when it is gone.

    With levels that were seen in clinic, also where the next one seen on that day will be (95 %).
    """
    _something_left(agent, fill)
    strength = _percent(agent, percent)
    forecast = tamponade.forecast(agent, strength, fill, lens, [_seen(level) for level in levels])
    level = forecast.at(day)
    clear, gone = forecast.clear_of_sight, forecast.gone
    answer = {
        "fill_percent": rounded(level.fill_percent),
        "low_percent": rounded(level.low_percent),
        "high_percent": rounded(level.high_percent),
        "meniscus_percent": rounded(level.meniscus_percent),
        "arc_degrees": rounded(level.arc_degrees),
        "clear_of_sight_day": rounded(clear.median) if clear else None,
        "gone_day": rounded(gone.median) if gone else None,
        "gone_day_low": rounded(gone.low) if gone else None,
        "gone_day_high": rounded(gone.high) if gone else None,
    }
    rows = [
        (f"fill on day {day:g}", number(level.fill_percent, 0, "% of the volume")),
        ("95 % of cases", f"{level.low_percent:.0f} to {level.high_percent:.0f} % of the volume"),
        ("meniscus", number(level.meniscus_percent, 0, "% of the height")),
        ("arc of contact", number(level.arc_degrees, 0, "degrees")),
        ("sight clears", f"about day {clear.median:.0f}" if clear else NONE),
        ("gone", f"about day {gone.median:.0f} (95 % of cases: {gone.low:.0f} to {gone.high:.0f})" if gone else NONE),
    ]
    if levels:
        low, high = forecast.reading(day)
        answer |= {"reading_low_percent": rounded(low), "reading_high_percent": rounded(high)}
        rows.append((f"next reading on day {day:g}", f"{low:.0f} to {high:.0f} % of the height (95 %)"))
    asked = second_thoughts.questions(agent, strength, fill, lens, ())
    give(answer, as_json, rows, [*asked, *([GAS] if agent in agents.GASES else []), SUPPORT])


@click.command("coverage")
@click.option("--eye", type=OneOf("eye", coverage.EYES), required=True, help="right or left")
@click.option(
    "--break",
    "clocks",
    type=NUMBER,
    multiple=True,
    required=True,
    help="Clock hour as the examiner sees it; may be given again.",
)
@click.option("--reach", type=OneOf("reach", tuple(coverage.REACHES)), default="equator", help=", ".join(coverage.REACHES))
@click.option(
    "--posture", type=OneOf("posture", tuple(coverage.POSTURES)), default="upright", help=", ".join(coverage.POSTURES)
)
@click.option("--fill", type=NUMBER, required=True, help="Fill, percent of volume.")
@click.option("--agent", type=AGENT, default="sf6", help="Gas and oil float, heavy oil sinks.")
@as_json
def coverage_(eye: str, clocks: tuple[float, ...], reach: str, posture: str, fill: float, agent: str, as_json: bool) -> None:
    """Is a break covered in a posture, and which postures cover best?"""
    _something_left(agent, fill)
    moves = agents.AGENTS[agent].moves
    breaks = [coverage.Break(clock, reach) for clock in clocks]
    cover = coverage.cover(breaks, fill, posture, moves)
    best = coverage.best_postures(breaks, fill, moves)
    postures = [{"name": c.name, "margin_degrees": rounded(c.margin_degrees)} for c in best]
    answer = {"covered": cover.covered, "margin_degrees": rounded(cover.margin_degrees), "postures": postures}
    rows = [
        (posture, f"{'covered' if cover.covered else 'not covered'}, margin {cover.margin_degrees:.0f} degrees"),
        *((f"{n}. {c.name}", f"margin {c.margin_degrees:.0f} degrees") for n, c in enumerate(best, 1)),
    ]
    give(answer, as_json, rows, [POSTURE, SUPPORT])


@click.command("altitude")
@click.option("--metres", type=NUMBER, required=True, help="Height reached.")
@click.option("--from-metres", type=NUMBER, default=0, help="Height of the place of surgery.")
@click.option("--volume-ml", type=NUMBER, default=1, help="Volume of gas at the place of surgery.")
@as_json
def altitude_(metres: float, from_metres: float, volume_ml: float, as_json: bool) -> None:
    """Pressure at a height, and how much wet gas would expand on the way there."""
    within("a volume of", volume_ml, 0, 20, " mL")
    ratio, hpa = altitude.expansion(metres, from_metres), altitude.pressure_hpa(metres)
    answer = {"pressure_hpa": rounded(hpa), "expansion": rounded(ratio), "volume_ml": rounded(volume_ml * ratio)}
    rows = [
        (f"pressure at {metres:g} m", number(hpa, 0, "hPa")),
        (f"expansion from {from_metres:g} m", f"{ratio:.2f} times"),
        (f"{volume_ml:g} mL become", f"{volume_ml * ratio:.2f} mL"),
    ]
    give(answer, as_json, rows, [GAS, SUPPORT])


def _something_left(agent: str, fill_percent: float) -> None:
    if agent == "none" and fill_percent > 0:
        raise click.UsageError(f"nothing was left in the eye, and a fill of {fill_percent:g} % is given: name what fills it")


def _percent(agent: str, percent: float | None) -> float:
    if percent is not None:
        return percent
    substance = agents.AGENTS.get(agent)
    if substance and substance.non_expansile:
        raise click.UsageError(f"{substance.words} needs --percent, its concentration: above 0 to 100")
    return 100.0 if agent == "air" else 0.0


def _seen(level: str) -> seen_levels.Observation:
    """A level as it is typed, DAY:HEIGHT; both checked here, so that the message names the option."""
    day, _, height = level.partition(":")
    try:
        days, percent = (float(part.replace(",", ".", 1)) for part in (day, height))
        seen = seen_levels.Observation(days, percent)
    except ValueError as error:
        raise click.UsageError(
            f"--seen “{level}” is not DAY:HEIGHT; write for example 7:60, seen on day 7 at 60 % of the height"
        ) from error
    within("--seen: a day of", seen.day, 0, forecasts.LAST_DAY)
    within("--seen: a bubble height of", seen.meniscus_percent, 0, 100, " %")
    return seen
