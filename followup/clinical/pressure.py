"""Intraocular pressure: units, instruments, bands, spikes, steroid response, low pressure.

>>> read("4.0 kPa")
30.0
>>> band(31)
'spike'
"""

import math
import re
from dataclasses import dataclass
from datetime import timedelta
from typing import Literal

from followup.clinical.errors import OutOfRange, Unreadable, one_of, within
from followup.clinical.evidence import Figure, Model

KPA_PER_MMHG = Figure("1 mmHg", 0.133322, "kPa", "DEF")

LOWEST_MMHG = 0.0
HIGHEST_MMHG = 90.0
UNLIKELY_ABOVE = Figure("asked about, above", 50, "mmHg", "CP", "common practice")
UNLIKELY_BELOW = Figure("asked about, below", 3, "mmHg", "CP", "common practice")

# Upper edge of each band, mmHg (inclusive below `raised`, exclusive of the next band's start above).
HYPOTONY_AT_MOST = Figure("hypotony, at most", 5, "mmHg", "TSV25", note="under 6; other published cuts run from <5 to <8")
NORMAL_FROM = Figure("normal band, from", 10, "mmHg", "CP", "memory")
NORMAL_TO = Figure("normal band, to", 21, "mmHg", "CP", "memory")
SPIKE_FROM = Figure("spike, from", 30, "mmHg", "Bern12")
SEVERE_FROM = Figure("severe, from", 40, "mmHg", "Bern12")
REFER_FROM = Figure("refer and treat, from", 24, "mmHg", "NICE")

BECKER_LOW_BELOW = Figure("level on steroid drops: low responder below", 20, "mmHg", "Lew88")
BECKER_HIGH_ABOVE = Figure("level on steroid drops: high responder above", 31, "mmHg", "Lew88")
ARMALY_RESPONSE_FROM = Figure("rise on steroid drops that counts as a response", 6, "mmHg", "Arm67")
ARMALY_HIGH_ABOVE = Figure("rise on steroid drops: high responder above", 15, "mmHg", "Arm67", "memory")
STEROID_ONSET = Figure("usual days of drops before a response", 14, "days", "CP", "memory")


@dataclass(frozen=True, slots=True)
class Instrument:
    """A tonometer and its published 95 % agreement with Goldmann-type applanation (device minus applanation)."""

    name: str
    words: str
    low_mmhg: Figure | None = None
    high_mmhg: Figure | None = None


INSTRUMENTS: dict[str, Instrument] = {
    i.name: i
    for i in (
        Instrument(
            "applanation",
            "Goldmann-type applanation",
            Figure("second applanation observer, lower", -2.6, "mmHg", "BJO05"),
            Figure("second applanation observer, upper", 2.6, "mmHg", "BJO05"),
        ),
        Instrument(
            "rebound",
            "rebound tonometer",
            Figure("rebound, normal eyes 75+, lower", -3.3, "mmHg", "Reb13"),
            Figure("rebound, normal eyes 75+, upper", 4.0, "mmHg", "Reb13"),
        ),
        Instrument(
            "non-contact",
            "non-contact (air puff)",
            Figure("air puff, lower", -3.8, "mmHg", "Cook12"),
            Figure("air puff, upper", 4.3, "mmHg", "Cook12"),
        ),
        Instrument(
            "applanation-pen",
            "handheld applanation pen",
            Figure("applanation pen, lower", -5.9, "mmHg", "BJO05", "derived", "bias 0.6, ± 6.5"),
            Figure("applanation pen, upper", 7.1, "mmHg", "BJO05", "derived", "bias 0.6, ± 6.5"),
        ),
        Instrument("palpation", "finger estimate"),
    )
}

_FINGER_ESTIMATE = r"\b(soft|hard|firm|digital\w*|finger|fingers|palpation|normal to touch)\b"

Band = Literal["hypotony", "low", "normal", "raised", "spike", "severe"]


@dataclass(frozen=True, slots=True)
class Bands:
    """The clinic's own band edges in mmHg; the defaults are the published ones."""

    hypotony_at_most: float = HYPOTONY_AT_MOST.value
    normal_from: float = NORMAL_FROM.value
    normal_to: float = NORMAL_TO.value
    spike_from: float = SPIKE_FROM.value
    severe_from: float = SEVERE_FROM.value

    def __post_init__(self) -> None:
        edges = (self.hypotony_at_most, self.normal_from, self.normal_to, self.spike_from, self.severe_from)
        if list(edges) != sorted(edges):
            raise OutOfRange("the pressure bands must rise from hypotony to severe")


DEFAULT_BANDS = Bands()


@dataclass(frozen=True, slots=True)
class SteroidResponse:
    """Both schemes side by side: one is a level, the other a rise from baseline. `pattern` needs the rise."""

    pattern: bool
    level: Literal["low", "intermediate", "high"]
    rise_mmhg: float
    rise: Literal["low", "intermediate", "high"]
    days_on_drops: float


def read(text: str | float) -> float:
    """Pressure in mmHg from `31`, `31 mmHg`, `15,5 mm Hg` or `4,1 kPa`.

    Raises `Unreadable`, asking back for a bound (`<5`) or a finger estimate (`soft`), or `OutOfRange` beyond 0-90 mmHg.
    """
    typed = str(text).strip()
    match = re.fullmatch(r"([0-9]+(?:[.,][0-9]+)?)\s*(mm\s*hg|kpa)?", typed, re.IGNORECASE)
    if match is None and re.match(r"[<>≤≥~]", typed):
        raise Unreadable(
            f"“{typed}” is a bound, not a pressure; write the number that was read, for example 5, and the rest in the notes"
        )
    if match is None and re.search(_FINGER_ESTIMATE, typed, re.IGNORECASE):
        raise Unreadable(
            f"“{typed}” is a finger estimate, not a pressure; write it in the notes, or the number with the instrument finger estimate"
        )
    if match is None:
        raise Unreadable(f"“{typed}” is not a pressure; write it in mmHg, for example 15, or 2.0 kPa")
    number = float(match[1].replace(",", "."))
    in_mmhg = mmhg(number) if (match[2] or "").lower() == "kpa" else number
    return within("a pressure of", in_mmhg, LOWEST_MMHG, HIGHEST_MMHG, " mmHg")


def unlikely(iop_mmhg: float) -> bool:
    """Whether a reading is so far out (above 50 or below 3 mmHg) that it is worth asking whether it was typed right."""
    return not UNLIKELY_BELOW.value <= iop_mmhg <= UNLIKELY_ABOVE.value


def kpa(iop_mmhg: float) -> float:
    return iop_mmhg * KPA_PER_MMHG.value


def mmhg(iop_kpa: float) -> float:
    """Pressure in mmHg, to the tenth that any tonometer can show."""
    return round(iop_kpa / KPA_PER_MMHG.value, 1)


def band(iop_mmhg: float, bands: Bands = DEFAULT_BANDS) -> Band:
    """hypotony, low, normal, raised, spike or severe [Bern12, TSV25]; the edges come from the clinic's rulebook."""
    if iop_mmhg >= bands.severe_from:
        return "severe"
    if iop_mmhg >= bands.spike_from:
        return "spike"
    if iop_mmhg > bands.normal_to:
        return "raised"
    if iop_mmhg >= bands.normal_from:
        return "normal"
    return "hypotony" if iop_mmhg <= bands.hypotony_at_most else "low"


def rise(iop_mmhg: float, baseline_mmhg: float | None) -> float | None:
    """Rise over the eye's own baseline in mmHg, or None without one."""
    return None if baseline_mmhg is None else iop_mmhg - baseline_mmhg


def agreement_mmhg(before: str | None, after: str | None, *, rising: bool) -> float | None:
    """How far two instruments may differ, one way, on one unchanged eye: the published 95 % limits of both, combined.

    None where a limit is not published (a finger estimate). An unnamed instrument is taken as the loosest published.
    """
    limits = []
    for name, upper in ((before, not rising), (after, rising)):
        one_of("instrument", name or "applanation", INSTRUMENTS)
        instrument = INSTRUMENTS[name] if name else _LOOSEST
        figure = instrument.high_mmhg if upper else instrument.low_mmhg
        if figure is None:
            return None
        limits.append(figure.value)
    return math.hypot(*limits)


def really_changed(before_mmhg: float, after_mmhg: float, before: str | None, after: str | None) -> bool:
    """Whether a pressure moved by more than its two instruments differ by; never told from a finger estimate."""
    agreement = agreement_mmhg(before, after, rising=after_mmhg > before_mmhg)
    return agreement is not None and abs(after_mmhg - before_mmhg) > agreement


_LOOSEST = INSTRUMENTS["applanation-pen"]


def steroid_response(
    iop_mmhg: float,
    baseline_mmhg: float,
    on_drops: timedelta,
    response_from_mmhg: float = ARMALY_RESPONSE_FROM.value,
    onset_days: float = STEROID_ONSET.value,
) -> SteroidResponse:
    """Whether a pressure looks like a steroid response: a rise of 6 mmHg or more [Arm67] after 14 days of drops."""
    risen = iop_mmhg - baseline_mmhg
    days = on_drops / timedelta(days=1)
    return SteroidResponse(
        pattern=risen >= response_from_mmhg and days >= onset_days,
        level=_grade(iop_mmhg, BECKER_LOW_BELOW.value, BECKER_HIGH_ABOVE.value),
        rise_mmhg=risen,
        rise=_grade(risen, ARMALY_RESPONSE_FROM.value, ARMALY_HIGH_ABOVE.value),
        days_on_drops=days,
    )


def _grade(value: float, low_below: float, high_above: float) -> Literal["low", "intermediate", "high"]:
    if value < low_below:
        return "low"
    return "high" if value > high_above else "intermediate"


MODEL = Model(
    "Eye pressure",
    (
        "kPa = mmHg × 0.133322.",
        "Bands: hypotony, low, normal, raised, spike, severe. The clinic's signed rulebook sets what is done about each.",
        "A steroid response is a rise over the eye's own baseline after days on steroid drops. "
        "The level scheme and the rise scheme are shown side by side and never mixed.",
    ),
    (
        "Instruments differ: a change counts where it exceeds the published limits of agreement of both, combined.",
        "In gas-filled eyes portable instruments may read low when the true pressure is high (from memory).",
    ),
    (
        KPA_PER_MMHG,
        HYPOTONY_AT_MOST,
        NORMAL_FROM,
        NORMAL_TO,
        REFER_FROM,
        SPIKE_FROM,
        SEVERE_FROM,
        BECKER_LOW_BELOW,
        BECKER_HIGH_ABOVE,
        ARMALY_RESPONSE_FROM,
        ARMALY_HIGH_ABOVE,
        STEROID_ONSET,
        UNLIKELY_BELOW,
        UNLIKELY_ABOVE,
        *(f for i in INSTRUMENTS.values() for f in (i.low_mmhg, i.high_mmhg) if f),
    ),
)
