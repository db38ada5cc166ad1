"""What may be left in the eye: gases, oils and heavy liquids, with their published figures, their life and their growth."""

import math
from dataclasses import dataclass
from typing import Literal

from followup.clinical.coverage import Moves
from followup.clinical.errors import OutOfRange, one_of
from followup.clinical.evidence import Figure

Lens = Literal["phakic", "pseudophakic", "aphakic", "unknown"]
LENSES: tuple[Lens, ...] = ("phakic", "pseudophakic", "aphakic", "unknown")


@dataclass(frozen=True, slots=True, eq=False)
class Agent:
    """A tamponade. Gases fade; liquids stay until they are taken out. Each is itself alone.

    `life` is the day on which 2 % are left in a typical eye filled with the mix of `life_at` percent; it grows with the
    root of the concentration up to `measured_to` percent. `published_gone` is what was seen.
    """

    name: str
    words: str
    moves: Moves
    fades: bool
    non_expansile: Figure | None = None
    pure_expansion: Figure | None = None
    pure_peak: Figure | None = None
    mix_peak: Figure | None = None
    life: Figure | None = None
    life_at: float = 100.0
    measured_to: float = 100.0
    lens_factors: tuple[tuple[Lens, float], ...] = ()
    gone_below: Figure | None = None
    published_gone: tuple[Figure, ...] = ()
    spread: Figure | None = None
    removal_window: tuple[Figure, Figure] | None = None


AIR_PHAKIC = Figure("first-order half-life: air, phakic", 1.6, "days", "Th89")
AIR_APHAKIC = Figure("first-order half-life: air, aphakic", 0.9, "days", "Th89")
SF6_PHAKIC = Figure("first-order half-life: SF6 20 %, phakic", 2.8, "days", "Th89")
SF6_APHAKIC = Figure("first-order half-life: SF6 20 %, aphakic", 2.4, "days", "Th89")
C3F8_10_PHAKIC = Figure("first-order half-life: C3F8 10 %, phakic", 5.7, "days", "Th89")
C3F8_10_PSEUDOPHAKIC = Figure("first-order half-life: C3F8 10 %, pseudophakic", 4.3, "days", "Th89")
C3F8_10_APHAKIC = Figure("first-order half-life: C3F8 10 %, aphakic", 4.5, "days", "Th89")

_C3F8_PSEUDO = C3F8_10_PSEUDOPHAKIC.value / C3F8_10_PHAKIC.value
_C3F8_APHAKIC = C3F8_10_APHAKIC.value / C3F8_10_PHAKIC.value
_AIR_LENS = AIR_APHAKIC.value / AIR_PHAKIC.value
_SF6_LENS = SF6_APHAKIC.value / SF6_PHAKIC.value

SPREAD_MEASURED = Figure("spread of the life between eyes (1 SD of its logarithm)", 0.35, "", "Mey92", "derived",
                         "0.30 to 0.35 most likely for 16 eyes; 0.21 to 0.24 in one trial [Han93]")  # fmt: skip
SPREAD_ASSUMED = Figure("spread where only means of studies are published", 0.55, "", "Sel22", "derived",
                        "holds the half-times of two series beside the days of the reviews")  # fmt: skip
SPREAD_BEYOND = Figure("spread beyond the measured concentrations", 0.65, "", "CP", "derived", "widened further")
CONCENTRATION_POWER = Figure("life grows with this power of the concentration", 0.5, "", "Han93", "derived",
                             "0.44 between 12 and 20 % in the trial, 0.48 in 16 eyes")  # fmt: skip
GONE_BELOW = Figure("a gas counts as gone below", 2, "% fill", "CP", "derived",
                    "with it the eyes’ C3F8 agrees with its published days; one cut for every gas")  # fmt: skip

AGENTS: dict[str, Agent] = {
    a.name: a
    for a in (
        Agent(
            "air", "air", "floats", True,
            life=Figure("life of air", 6, "days", "RCO18", "derived", "gone in 5 to 7 days"),
            lens_factors=(("pseudophakic", _AIR_LENS), ("aphakic", _AIR_LENS)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("air gone, from", 5, "days", "RCO18"), Figure("air gone, to", 7, "days", "RCO18")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "sf6", "sulphur hexafluoride (SF6)", "floats", True,
            non_expansile=Figure("SF6 non-expansile", 20, "%", "RCO18"),
            pure_expansion=Figure("pure SF6 expands", 2, "times", "RCO18"),
            pure_peak=Figure("pure SF6 peaks after", 2, "days", "RCO18", note="1 to 2 days"),
            mix_peak=Figure("20 % SF6 peaks after", 21, "hours", "IJRV24"),
            life=Figure("life of SF6 20 %", 12.5, "days", "IJRV24", "derived", "gone in 10 to 14 days"),
            life_at=20, measured_to=25,
            lens_factors=(("pseudophakic", _SF6_LENS), ("aphakic", _SF6_LENS)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("SF6 gone, from", 10, "days", "IJRV24"), Figure("SF6 gone, to", 14, "days", "RCO18")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "c2f6", "hexafluoroethane (C2F6)", "floats", True,
            non_expansile=Figure("C2F6 non-expansile", 16, "%", "RCO18"),
            pure_expansion=Figure("pure C2F6 expands", 3, "times", "RCO18"),
            pure_peak=Figure("pure C2F6 peaks after", 3, "days", "RCO18", note="1 to 3 days"),
            mix_peak=Figure("16 % C2F6 peaks after", 27, "hours", "IJRV24"),
            life=Figure("life of C2F6 16 %", 35, "days", "RCO18", "derived", "gone in 4 to 6 weeks"),
            life_at=16, measured_to=16,
            lens_factors=(("pseudophakic", _C3F8_PSEUDO), ("aphakic", _C3F8_APHAKIC)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("C2F6 gone, from", 28, "days", "RCO18"), Figure("C2F6 gone, to", 42, "days", "IJRV24")),
            spread=SPREAD_ASSUMED,
        ),
        Agent(
            "c3f8", "perfluoropropane (C3F8)", "floats", True,
            non_expansile=Figure("C3F8 non-expansile", 14, "%", "RCO18"),
            pure_expansion=Figure("pure C3F8 expands", 4, "times", "RCO18"),
            pure_peak=Figure("pure C3F8 peaks after", 4, "days", "RCO18", note="3 to 4 days"),
            mix_peak=Figure("14 % C3F8 peaks after", 30, "hours", "IJRV24"),
            life=Figure("life of C3F8 20 %", 76, "days", "Mey92", "derived", "most likely for 16 eyes; 64 at 14 %"),
            life_at=20, measured_to=25,
            lens_factors=(("pseudophakic", _C3F8_PSEUDO), ("aphakic", _C3F8_APHAKIC)),
            gone_below=GONE_BELOW,
            published_gone=(Figure("C3F8 gone, from", 56, "days", "RCO18"), Figure("C3F8 gone, to", 70, "days", "IJRV24")),
            spread=SPREAD_MEASURED,
        ),
        Agent(
            "silicone-oil", "silicone oil", "floats", False,
            removal_window=(Figure("silicone oil out, from", 91, "days", "CP", "common practice"),
                            Figure("silicone oil out, by", 183, "days", "SOR24a", note="median dwell 5.9 months")),
        ),
        Agent(
            "heavy-silicone-oil", "heavy silicone oil", "sinks", False,
            removal_window=(Figure("heavy oil out, from", 60, "days", "CP", "common practice"),
                            Figure("heavy oil out, by", 91, "days", "HSO14", "common practice", "about 3 months")),
        ),
        Agent("none", "no tamponade", "floats", False),
    )
}  # fmt: skip
GASES = tuple(name for name, agent in AGENTS.items() if agent.fades)
LIQUIDS = tuple(name for name, agent in AGENTS.items() if agent.removal_window)


def life_days(agent: str, percent: float, lens: str = "phakic") -> float:
    """Days until 2 % are left in a typical eye: by the root of the concentration, up to what was measured.

    Infinite for liquids.
    """
    substance = known_agent(agent, percent)
    one_of("lens", lens, LENSES)
    if substance.life is None:
        return math.inf
    factors: dict[str, float] = dict(substance.lens_factors)
    share = 1.0 if agent == "air" else min(percent, substance.measured_to) / substance.life_at
    return factors.get(lens, 1.0) * substance.life.value * math.pow(share, CONCENTRATION_POWER.value)


def growth(agent: str, percent: float) -> float:
    """By how much a mix expands in the eye: 1 up to the non-expansile concentration, the pure figure at 100 %."""
    substance = known_agent(agent, percent)
    if substance.pure_expansion is None:
        return 1.0
    return 1 + (substance.pure_expansion.value - 1) * expansile(substance, percent)


def peak_days(agent: str, percent: float) -> float:
    """Days to the greatest expansion: about a day for mixtures [IJRV24], days for the pure gas [RCO18]."""
    substance = known_agent(agent, percent)
    if substance.mix_peak is None or substance.pure_peak is None:
        return 1.0
    mix = substance.mix_peak.value / 24
    return mix + (substance.pure_peak.value - mix) * expansile(substance, percent)


def known_agent(agent: str, percent: float) -> Agent:
    """The agent of that name. Raises `Unknown` for none, `OutOfRange` for a concentration in percent that cannot be."""
    one_of("tamponade", agent, AGENTS)
    if not 0 <= percent <= 100:
        raise OutOfRange(f"a concentration of {percent:g} % is out of range; accepted is 0 to 100 %")
    if AGENTS[agent].non_expansile and percent == 0:
        raise OutOfRange(f"{AGENTS[agent].words} needs its concentration, above 0 to 100 %")
    return AGENTS[agent]


def expansile(substance: Agent, percent: float) -> float:
    """How far a mix lies between its non-expansile concentration (0) and the pure gas (1)."""
    if substance.non_expansile is None:
        return 0.0
    return max(0.0, percent - substance.non_expansile.value) / (100 - substance.non_expansile.value)


def spread_of(substance: Agent, percent: float) -> float:
    """How far the life differs between eyes: 1 SD of its logarithm."""
    beyond = substance.name != "air" and substance.measured_to < percent
    figure = SPREAD_BEYOND if beyond else substance.spread
    assert figure is not None
    return figure.value
