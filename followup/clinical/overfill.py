"""A gas mix stronger than needed, in an eye as full as it was left: will it outgrow the eye?

>>> round(grows_to_percent("c3f8", 20, 95), 1)
114.9
>>> question("sf6", 20, 95) is None
True
"""

from followup.clinical import agents
from followup.clinical.evidence import Figure, Model

FULL = Figure("an eye is full at", 100, "%", "DEF")
ALLOWED = Figure("error of an estimated fill that is let pass", 5, "%", "CP", "common practice")


def grows_to_percent(agent: str, percent: float, fill_percent: float) -> float:
    """What the gas would fill at its largest, in percent of the eye: over 100 cannot fit."""
    return fill_percent * agents.growth(agent, percent)


def question(agent: str, percent: float, fill_percent: float) -> str | None:
    """What to ask at discharge about a strength and fill that together outgrow the eye; None where they do not."""
    grown = grows_to_percent(agent, percent, fill_percent)
    if grown <= FULL.value + ALLOWED.value:
        return None
    words = agents.AGENTS[agent].words
    return (
        f"{words[0].upper()}{words[1:]} at {percent:g} % in an eye {fill_percent:g} % full would grow to about "
        f"{grown:.0f} % of it. Was this strength intended? If so, plan the pressure in the first days."
    )


MODEL = Model(
    "Too much gas",
    (
        "A mix above the strength that does not grow expands in proportion, up to the published figure of the pure gas.",
        "Strength and fill that together exceed the eye are asked about at discharge and flagged.",
    ),
    ("The line between is an assumption; it warns and is no dose.",),
    (FULL, ALLOWED),
)
