"""`followup calc acuity` and `pressure`: what was measured, in other notations and judged."""

import click

from followup.calc.answers import DRAFT, NONE, SUPPORT, OneOf, as_json, give, number, rounded
from followup.clinical import acuity, pressure, vision
from followup.clinical.errors import Ambiguous
from followup.protocols import book


@click.command("acuity", context_settings={"ignore_unknown_options": True})
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
        "logmar": rounded(reading.logmar),
        "decimal": rounded(reading.decimal),
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
        ("letter score", number(reading.letters, 0, "letters")),
        *([("category", vision.CATEGORY_WORDS[reading.category])] if reading.category else []),
        ("vision impairment (WHO)", reading.who_category),
    ]
    give(answer, as_json, rows, notes)


@click.command("pressure", context_settings={"ignore_unknown_options": True})
@click.argument("value")
@click.option("--baseline", help="The eye's own pressure before, in mmHg.")
@as_json
def pressure_(value: str, baseline: str | None, as_json: bool) -> None:
    """Convert and judge an eye pressure, for example 31 or "4.1 kPa"."""
    mmhg = pressure.read(value)
    rise = pressure.rise(mmhg, None if baseline is None else pressure.read(baseline))
    band = pressure.band(mmhg, book.rulebook().bands)
    answer = {"mmhg": mmhg, "kpa": rounded(pressure.kpa(mmhg)), "band": band, "rise_mmhg": rise}
    rows = [
        ("pressure", number(mmhg, 1, "mmHg")),
        ("", number(pressure.kpa(mmhg), 2, "kPa")),
        ("band", str(band)),
        ("above the eye’s own", number(rise, 1, "mmHg")),
    ]
    notes = ["Far out: was it typed right?"] if pressure.unlikely(mmhg) else []
    give(answer, as_json, rows, [*notes, SUPPORT, DRAFT.format(what="bands")])
