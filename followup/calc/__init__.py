"""`followup calc`: the clinical core at the prompt. Each command is one call of the core.

`--json` gives exactly the keys that DEVELOPERS.md promises to other programs; without it the same values come as a table
with units, rounded to what they are good for, and with what has to be kept in mind.
"""

import click

from followup.calc import course, gas, readings


@click.group(context_settings={"show_default": True})
def calc() -> None:
    """The clinical core at the prompt. It supports decisions and takes none."""


for command in (
    readings.acuity_,
    readings.pressure_,
    gas.bubble_,
    gas.coverage_,
    gas.altitude_,
    course.plan_,
    course.course_,
):
    calc.add_command(command)
