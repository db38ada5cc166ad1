"""What in an operation note does not go together, asked once at discharge: often a slip, sometimes meant."""

from collections.abc import Collection

from followup.clinical import agents, overfill
from followup.clinical.evidence import Figure, Model

PURE_FROM = Figure("a strength that is taken for undiluted gas, from", 50, "%", "CP", "common practice")
WEAK_BELOW = Figure(
    "a strength that is asked about, below this share of the one that does not grow", 0.5, "", "CP", "common practice"
)
LOW_FILL = Figure("a fill at the end of surgery that is asked about, below", 50, "%", "CP", "common practice")


def questions(
    agent: str, percent: float, fill_percent: float, lens: str = "unknown", steps: Collection[str] = ()
) -> list[str]:
    """Each question with what it rests on; none where all goes together. Raises `ClinicalError` for what cannot be at all.

    `steps` are the codes of what was done (`cataract`, `fluid-air-exchange` and others).
    """
    found = [overfill.question(agent, percent, fill_percent), *_strength(agent, percent), *_fill(agent, fill_percent)]
    if "cataract" in steps and lens in ("phakic", "unknown"):
        found.append(
            f"The cataract was removed, and the lens is given as {lens}. Which is right? "
            "After that the eye is pseudophakic, or aphakic where no lens was put in."
        )
    if agent == "none" and "fluid-air-exchange" in steps:
        found.append(
            "Fluid was exchanged for air, and nothing is given as left in the eye. Is the eye free of gas? "
            "Without it the patient gets no warning of heights and nitrous oxide."
        )
    return [question for question in found if question]


def _strength(agent: str, percent: float) -> list[str]:
    substance = agents.AGENTS[agent]
    mixed = substance.non_expansile
    if mixed is None:
        plain = {0, 100} if agent == "air" else {0}
        return (
            []
            if percent in plain
            else [f"{_name(agent)} has no concentration, and {percent:g} % is given. Is it this, or a gas?"]
        )
    if percent >= PURE_FROM.value:
        return [
            f"{_name(agent)} at {percent:g} % is all but undiluted; it does not grow up to {mixed.value:g} %. "
            "Was it left undiluted?"
        ]
    if percent < mixed.value * WEAK_BELOW.value:
        return [f"{_name(agent)} at {percent:g} % is weak; {mixed.value:g} % does not grow yet. Is the number right?"]
    return []


def _fill(agent: str, fill_percent: float) -> list[str]:
    if agent == "none" or not 0 < fill_percent < LOW_FILL.value:
        return []
    return [f"The eye is given as {fill_percent:g} % full at the end of surgery. Is it not more?"]


def _name(agent: str) -> str:
    words = agents.AGENTS[agent].words
    return "“Nothing”" if agent == "none" else words[0].upper() + words[1:]


MODEL = Model(
    "What is asked once at discharge",
    (
        "What in an operation note does not go together is asked before it is saved: it may be meant, and then stands.",
        "Asked are: a strength and fill that outgrow the eye, gas all but undiluted or weak, a concentration where there is "
        "none, a low fill, a phakic eye after its cataract was removed, and nothing left after fluid was exchanged for air.",
    ),
    ("The limits are common practice; they ask and refuse nothing.",),
    (PURE_FROM, WEAK_BELOW, LOW_FILL),
)
