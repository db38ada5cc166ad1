"""From which fall on an acuity really fell: by the two charts, and whether both corrections are known.

>>> from followup.clinical.acuity import read
>>> round(real_fall(read("80 letters"), read("70 letters"), 0.1), 2)
0.15
>>> round(real_fall(read("80 letters"), read("6/12"), 0.2), 2)
0.43
"""

from followup.clinical.evidence import Figure, Model
from followup.clinical.vision import Acuity

LETTERS = Figure("smallest real change, letter-score charts", 0.15, "logMAR", "Lim10", "derived", "0.14 measured")
LINES = Figure("smallest real change, charts read by lines", 0.20, "logMAR", "Lim10", "derived", "0.18 measured")
ACROSS = Figure("smallest real change across charts or methods", 0.30, "logMAR", "CP", "common practice")
LINES_READ_WORSE = Figure("lines read worse than letters in the same sitting, by", 0.13, "logMAR", "Kai09")
LINES_READ_WORSE_LOW = Figure("the same below 6/60", 0.20, "logMAR", "Kai09")
_LOW_FROM_LOGMAR = 1.0


def real_fall(
    before: Acuity, now: Acuity, at_least: float, *, known_correction: bool = True, weak_reference: bool = False
) -> float:
    """The fall in logMAR from which it counts: `at_least`, what these charts vary by, and what a change of chart makes.

    With an unknown correction it is what methods vary by; against a weak reference (the reading before surgery) that
    comes on top.
    """
    by_letters = (_by_letters(before), _by_letters(now))
    noise = {2: LETTERS, 1: ACROSS, 0: LINES}[sum(by_letters)].value
    limit = max(at_least, noise if known_correction else ACROSS.value)
    if by_letters == (True, False):
        low = max(before.logmar, now.logmar) > _LOW_FROM_LOGMAR
        limit += LINES_READ_WORSE_LOW.value if low else LINES_READ_WORSE.value
    return limit + ACROSS.value if weak_reference else limit


def _by_letters(reading: Acuity) -> bool:
    return reading.notation in ("letters", "logmar")


MODEL = Model(
    "Whether sight fell",
    (
        "A fall counts from the rule’s own number on, and never below what the two charts vary by.",
        "From a letter chart to lines, what lines read worse by is allowed for.",
        "Where a correction is unknown, what methods vary by counts; against the reading before surgery it comes on top.",
    ),
    ("The limits are from stable eyes with a clear view.",),
    (LETTERS, LINES, ACROSS, LINES_READ_WORSE, LINES_READ_WORSE_LOW),
)
