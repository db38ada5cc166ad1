"""What an eye can see: one reading in every scale, its WHO category, and whether two readings really differ.

Arithmetic: `logMAR = log10(MAR) = -log10(decimal)`, letters = 85 - 50 logMAR on the 4 m
letter-score chart (0.02 logMAR a letter, five letters a line of 0.1).
"""

import math
from dataclasses import dataclass
from typing import Literal

from followup.clinical.evidence import Figure, Model

Notation = Literal["snellen", "decimal", "logmar", "letters"]
Category = Literal["CF", "HM", "LP", "NLP"]
NOTATIONS: tuple[Notation, ...] = ("snellen", "decimal", "logmar", "letters")
CATEGORIES: tuple[Category, ...] = ("CF", "HM", "LP", "NLP")
CATEGORY_WORDS: dict[Category, str] = {
    "CF": "counting fingers",
    "HM": "hand movements",
    "LP": "light perception",
    "NLP": "no light perception",
}

LOGMAR_PER_LETTER = Figure("logMAR for one letter", 0.02, "logMAR", "DEF")
LETTERS_AT_ZERO = Figure("letters at logMAR 0.00, 4 m chart", 85, "letters", "DEF")
LETTERS_PER_LINE = Figure("letters in a line", 5, "letters", "DEF")
PARTIAL_LETTERS = Figure("letters that a partial line (p, part, a bare + or −) stands for", 1, "letters", "CP", "common practice",
                         "how many is not said: the fewest it can mean")  # fmt: skip
FACE_METRES = Figure(
    "counting fingers at the face, distance",
    0.3,
    "m",
    "CP",
    "common practice",
    "a distance at which fingers were shown in SB06",
)

STAND_INS_VERSION = "bach-web-1"
STAND_INS: dict[Category, Figure] = {
    "CF": Figure("counting fingers", 1.9, "logMAR", "Bach"),
    "HM": Figure("hand movements", 2.3, "logMAR", "Bach"),
    "LP": Figure("light perception", 2.7, "logMAR", "Bach", note="imputed; a rank, not a measurement"),
    "NLP": Figure("no light perception", 3.0, "logMAR", "Bach", note="imputed; a rank, not a measurement"),
}
"""Numbers to plot a category with. They never decide a comparison: categories compare by rank."""

OTHER_STAND_INS: tuple[Figure, ...] = (
    Figure("counting fingers", 1.85, "logMAR", "SB06", "derived"),
    Figure("hand movements", 2.30, "logMAR", "SB06", "derived"),
    Figure("counting fingers", 1.98, "logMAR", "La09"),
    Figure("hand movements", 2.28, "logMAR", "La09"),
    Figure("counting fingers", 2.0, "logMAR", "Hol97", "memory"),
    Figure("hand movements", 3.0, "logMAR", "Hol97", "memory"),
    Figure("counting fingers", 2.1, "logMAR", "UKDB", "memory"),
    Figure("hand movements", 2.4, "logMAR", "UKDB", "memory"),
    Figure("light perception", 2.7, "logMAR", "UKDB", "memory"),
    Figure("counting fingers", 1.6, "logMAR", "Gro99", "memory"),
    Figure("hand movements", 2.0, "logMAR", "Gro99", "memory"),
    Figure("light perception", 2.5, "logMAR", "Gro99", "memory"),
)

NOISE_CLINIC = Figure("smallest real change, ordinary clinic", 0.15, "logMAR", "Lim10", "derived", "0.14 measured")
NOISE_CHART = Figure("95 % range of a repeated letter-score chart, normals in focus", 0.11, "logMAR", "Ros04")

# Worst logMAR still inside each WHO class. The step past 0.477 admits 6/19 (0.50) and 20/70 (0.544),
# which print the same boundary as 6/18; the thousandths admit 6/12, 3/60 and 1/60 themselves.
WHO_LIMITS: tuple[tuple[str, Figure], ...] = (
    ("none", Figure("none: 6/12 or better", 0.302, "logMAR", "Epi", "second-hand")),
    ("mild", Figure("mild: to 6/18 = 6/19 = 20/70", 0.545, "logMAR", "ICD10", note="one boundary printed three ways")),
    ("moderate", Figure("moderate: to 6/60", 1.001, "logMAR", "ICD10")),
    ("severe", Figure("severe: to 3/60", 1.302, "logMAR", "ICD10")),
    ("blindness 3", Figure("blindness 3: to 1/60, or counting fingers at 1 m", 1.801, "logMAR", "ICD10")),
)
WHO_BEYOND_CHART = "blindness 4"
WHO_NO_LIGHT = "blindness 5"
WHO_ORDER = (*(name for name, _ in WHO_LIMITS), WHO_BEYOND_CHART, WHO_NO_LIGHT)

BEST_LOGMAR = -0.5
WORST_LOGMAR = 3.0

# Denominators that charts print. A computed value within a third of a letter of one is shown as it.
PRINTED_DENOMINATORS: dict[int, tuple[float, ...]] = {
    6: (3, 3.8, 4.8, 6, 7.5, 9, 9.5, 12, 15, 18, 19, 24, 30, 36, 38, 48, 60, 75, 95, 120, 150, 190, 240, 300, 360),
    20: (10, 12.5, 16, 20, 25, 30, 32, 40, 50, 60, 63, 70, 80, 100, 125, 160, 200, 250, 320, 400, 500, 640, 800,
         1000, 1200, 1600, 2000),
}  # fmt: skip
PRINTED_WITHIN_LOGMAR = 0.006


@dataclass(frozen=True, slots=True)
class Acuity:
    """One reading. `typed` is what the person wrote, untouched.

    `logmar` is the measured value for a chart reading and the versioned stand-in for a category.
    `distance_m` is the distance of a finger count where one was written. `partial` marks Snellen
    readings with letters added or missed (0.02 logMAR each, approximate: rows are unequal); `partial_unsaid`
    those marked partial without a number of letters. `correction` is set where the text named it (pinhole).
    """

    typed: str
    notation: Notation | Literal["category"]
    logmar: float
    category: Category | None = None
    distance_m: float | None = None
    partial: int = 0
    partial_unsaid: bool = False
    correction: str | None = None

    @property
    def decimal(self) -> float:
        """Decimal acuity, 1 / MAR."""
        return float(10**-self.logmar)

    @property
    def letters(self) -> int | None:
        """Letter score 0 to 100, or None where the chart has none."""
        if self.category:
            return None
        return letters_of(self.logmar)

    @property
    def snellen_6m(self) -> str | None:
        return None if self.category else snellen(self.logmar, 6)

    @property
    def snellen_20ft(self) -> str | None:
        return None if self.category else snellen(self.logmar, 20)

    @property
    def who_category(self) -> str:
        """ICD-11 9D90 class of this eye alone; `who_category_of_person` takes the better eye."""
        if self.category == "NLP":
            return WHO_NO_LIGHT
        if self.category == "CF" and (self.distance_m is None or self.distance_m >= 1):
            return "blindness 3"
        if self.category:
            return WHO_BEYOND_CHART
        return next((name for name, limit in WHO_LIMITS if self.logmar <= limit.value), WHO_BEYOND_CHART)

    @property
    def rank(self) -> int:
        """0 for any chart reading, then 1 to 4 for counting fingers to no light perception."""
        return 0 if self.category is None else 1 + CATEGORIES.index(self.category)

    def worse_than(self, other: "Acuity") -> bool:
        """Ordinal between categories, by logMAR between chart readings."""
        if self.rank or other.rank:
            return self.rank > other.rank
        return self.logmar > other.logmar


@dataclass(frozen=True, slots=True)
class Change:
    """From one reading to the next; positive letters and lines are better.

    The numbers are None when either reading is a category: then only `direction` is known.
    """

    direction: Literal["better", "same", "worse"]
    logmar: float | None
    letters: float | None
    lines: float | None
    exceeds_noise: bool
    noise_limit_logmar: float


def change(before: Acuity, after: Acuity, noise_limit_logmar: float = NOISE_CLINIC.value) -> Change:
    """How `after` differs from `before`, and whether by more than test-retest noise.

    The default limit is 0.15 logMAR (8 letters) of an ordinary clinic [Lim10]: 7 letters are noise.
    A step between categories, or between chart and category, always counts as real.
    """
    direction: Literal["better", "same", "worse"] = "same"
    if after.worse_than(before):
        direction = "worse"
    elif before.worse_than(after):
        direction = "better"
    if before.category or after.category:
        return Change(direction, None, None, None, direction != "same", noise_limit_logmar)
    difference = after.logmar - before.logmar
    letters = -difference / LOGMAR_PER_LETTER.value
    exceeds = abs(difference) >= noise_limit_logmar - 1e-9
    return Change(direction, difference, letters, letters / LETTERS_PER_LINE.value, exceeds, noise_limit_logmar)


def who_category_of_person(right: Acuity, left: Acuity) -> str:
    """ICD-11 9D90 class by the better eye."""
    return min(right.who_category, left.who_category, key=WHO_ORDER.index)


def letters_of(logmar: float) -> int | None:
    """Letter score of a logMAR, rounded to a letter; None where the score would leave 0 to 100."""
    score = round(LETTERS_AT_ZERO.value - logmar / LOGMAR_PER_LETTER.value)
    return score if 0 <= score <= 100 else None


def snellen(logmar: float, distance: int) -> str:
    """The Snellen fraction at 6 (metres) or 20 (feet), as charts print it.

    >>> snellen(0.3, 20), snellen(0.6, 6), snellen(0.02, 6)
    ('20/40', '6/24', '6/6.3')
    """
    exact = distance * 10**logmar
    nearest = min(PRINTED_DENOMINATORS[distance], key=lambda printed: abs(math.log10(printed / exact)))
    if abs(math.log10(nearest / exact)) <= PRINTED_WITHIN_LOGMAR:
        return f"{distance}/{nearest:g}"
    return f"{distance}/{exact:.0f}" if exact >= 30 else f"{distance}/{round(exact, 1):g}"


MODEL = Model(
    "Visual acuity",
    (
        "logMAR = log10 of the minimum angle of resolution; decimal = 1 / MAR; letters = 85 − 50 × logMAR.",
        "What was typed is kept as typed. Letters added to or missed from a Snellen line count 0.02 logMAR each; "
        "a partial line without their number counts as one letter.",
        "Counting fingers, hand movements and light perception are compared by rank. "
        f"Their stand-in numbers (version {STAND_INS_VERSION}) only place them on a chart.",
    ),
    (
        "Rows of an ordinary Snellen chart differ in letters and steps, so partial lines are approximate.",
        "While gas covers the line of sight, acuity says little about the retina.",
    ),
    (
        LOGMAR_PER_LETTER,
        LETTERS_AT_ZERO,
        PARTIAL_LETTERS,
        FACE_METRES,
        NOISE_CLINIC,
        NOISE_CHART,
        *STAND_INS.values(),
        *OTHER_STAND_INS,
        *(limit for _, limit in WHO_LIMITS),
    ),
)
