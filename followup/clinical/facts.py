"""What is recorded of an eye, as plain values: each with the time it happened, whatever the order in which it arrives."""

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar, Literal

from followup.clinical import altitude, posture
from followup.clinical.coverage import EYES
from followup.clinical.errors import OutOfRange, one_of, within
from followup.clinical.pressure import HIGHEST_MMHG, INSTRUMENTS, LOWEST_MMHG
from followup.clinical.vision import Acuity

Trend = Literal["better", "same", "worse"]
TRENDS: tuple[Trend, ...] = ("better", "same", "worse")
FINDINGS: dict[str, str] = {
    "attached": "retina attached",
    "hole-closed": "macular hole closed",
    "hole-open": "macular hole open",
    "leak": "wound leak",
    "hypopyon": "cells settled in the front chamber (hypopyon)",
    "iris-vessels": "new vessels on the iris or in the angle",
    "inflammation": "inflammation inside the eye (cells, haze)",
    "detached": "retina detached",
    "traction": "traction on the retina",
    "haemorrhage": "blood in the vitreous cavity",
    "tamponade-in-front": "gas or oil in the front chamber",
}
CONTRARY = (("attached", "detached"), ("hole-closed", "hole-open"))
FINGER: dict[str, str] = {"soft": "soft", "normal": "normal", "hard": "hard"}
"""Pressure felt by finger: words, never a number."""
PAIN_RANGE = (0, 10)
SYMPTOM_TRENDS = ("vision", "redness", "flashes", "floaters", "other_eye")
SYMPTOM_SIGNS = ("discharge", "curtain", "vomiting", "fever", "injury")
SYMPTOM_NAMES = ("pain", *SYMPTOM_TRENDS, *SYMPTOM_SIGNS)


@dataclass(frozen=True, slots=True)
class Measures:
    """What the clinic measured on one eye. `bubble_percent` is the height of the meniscus, pain runs from 0 to 10.

    `acuity` is as the eye came (with `correction`), `pinhole` a second reading of the same look.
    """

    at: datetime
    eye: str
    acuity: Acuity | None = None
    correction: str | None = None
    iop_mmhg: float | None = None
    instrument: str | None = None
    bubble_percent: float | None = None
    pain: int | None = None
    findings: frozenset[str] = frozenset()
    pinhole: Acuity | None = None
    finger: str | None = None
    from_patient: ClassVar[bool] = False

    @property
    def better_acuity(self) -> Acuity | None:
        """The better of the two readings."""
        if self.acuity is None or self.pinhole is None:
            return self.acuity or self.pinhole
        return self.pinhole if self.acuity.worse_than(self.pinhole) else self.acuity

    @property
    def readings(self) -> list[tuple[Acuity, str | None]]:
        """Each acuity with its correction."""
        read = ((self.acuity, self.correction), (self.pinhole, "pinhole"))
        return [(seen, correction) for seen, correction in read if seen is not None]

    def __post_init__(self) -> None:
        one_of("eye", self.eye, EYES)
        if self.finger is not None:
            one_of("pressure by finger", self.finger, FINGER)
        for one, other in CONTRARY:
            if {one, other} <= self.findings:
                raise OutOfRange(f"“{FINDINGS[one]}” and “{FINDINGS[other]}” cannot both be")
        if self.iop_mmhg is not None:
            within("a pressure of", self.iop_mmhg, LOWEST_MMHG, HIGHEST_MMHG, " mmHg")
        if self.instrument is not None:
            one_of("instrument", self.instrument, INSTRUMENTS)
        if self.bubble_percent is not None:
            within("a bubble height of", self.bubble_percent, 0, 100, " %")
        if self.pain is not None:
            within("pain of", self.pain, *PAIN_RANGE)
        for finding in self.findings:
            one_of("finding", finding, FINDINGS)


@dataclass(frozen=True, slots=True)
class Symptoms:
    """What the patient answered; a missing answer is None and never counts as well or as bad. `words` as typed."""

    at: datetime
    pain: int | None = None
    vision: Trend | None = None
    redness: Trend | None = None
    discharge: bool | None = None
    curtain: bool | None = None
    flashes: Trend | None = None
    floaters: Trend | None = None
    vomiting: bool | None = None
    fever: bool | None = None
    injury: bool | None = None
    other_eye: Trend | None = None
    words: str = ""
    from_patient: ClassVar[bool] = True

    def __post_init__(self) -> None:
        if self.pain is not None:
            within("pain of", self.pain, *PAIN_RANGE)
        for name in SYMPTOM_TRENDS:
            if (answer := getattr(self, name)) is not None:
                one_of(f"answer for {name}", answer, TRENDS)

    @property
    def said(self) -> frozenset[str]:
        """The answers as rules name them: `vision=worse`, `discharge`. Pain is a number and stays apart."""
        trends = [f"{name}={answer}" for name in SYMPTOM_TRENDS if (answer := getattr(self, name))]
        return frozenset(trends + [name for name in SYMPTOM_SIGNS if getattr(self, name)])


@dataclass(frozen=True, slots=True)
class Postured:
    """A stretch of posturing that the patient or carer logged."""

    at: datetime
    block: posture.Block
    from_patient: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class BubbleSeen:
    """The level the patient sees: share of the view below the line, in percent."""

    at: datetime
    percent: float
    from_patient: ClassVar[bool] = True

    def __post_init__(self) -> None:
        within("a bubble height of", self.percent, 0, 100, " %")


@dataclass(frozen=True, slots=True)
class GasTakenBack:
    """Gas that the patient said to see, and took back: no level, but whether none is left is for a clinician to say again."""

    at: datetime
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class Journey:
    """A journey planned or made, as heights in metres in order."""

    at: datetime
    heights_metres: tuple[float, ...]
    from_patient: ClassVar[bool] = True

    def __post_init__(self) -> None:
        altitude.journey(self.heights_metres)


@dataclass(frozen=True, slots=True)
class Anaesthetic:
    """An anaesthetic, dental sedation or gas-and-air that is planned or was given, and what was written with it."""

    at: datetime
    words: str = ""
    from_patient: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class Heard:
    """The patient or carer was heard from in some other way: a call, a message, drops ticked off."""

    at: datetime
    from_patient: ClassVar[bool] = True


@dataclass(frozen=True, slots=True)
class Seen:
    """The planned visit of that id took place, or, where visits have no id, of that name."""

    at: datetime
    visit: str
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class NoGasSeen:
    """A clinician looked and saw no gas: the only thing that lifts the travel and nitrous oxide caution."""

    at: datetime
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class TamponadeRemoved:
    """The oil (or gas) was taken out."""

    at: datetime
    from_patient: ClassVar[bool] = False


@dataclass(frozen=True, slots=True)
class Settled:
    """The open callbacks of one worry, or of every worry, were settled: a danger that lasts calls again at the next look."""

    at: datetime
    worry: str | None = None
    from_patient: ClassVar[bool] = False


Fact = (
    Measures
    | Symptoms
    | Postured
    | BubbleSeen
    | GasTakenBack
    | Journey
    | Anaesthetic
    | Heard
    | Seen
    | NoGasSeen
    | TamponadeRemoved
    | Settled
)


def in_order(facts: Iterable[Fact]) -> Sequence[Fact]:
    """By time and kind; those of one instant and kind by what they say, looked at only when there are such."""
    ordered = sorted(facts, key=_time_and_kind)
    if any(a.at == b.at and type(a) is type(b) for a, b in itertools.pairwise(ordered)):
        ordered.sort(key=lambda fact: (*_time_and_kind(fact), _words(fact)))
    return ordered


def _time_and_kind(fact: Fact) -> tuple[datetime, str]:
    return fact.at, type(fact).__name__


def _words(fact: Fact) -> str:
    """A fact as text that does not depend on the order of a set or the notation of its time."""
    parts = (getattr(fact, name) for name in fact.__dataclass_fields__ if name != "at")
    return repr([sorted(p) if isinstance(p, frozenset) else p for p in parts])
