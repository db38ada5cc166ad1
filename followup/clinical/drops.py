"""Drops as they are prescribed, in a line of text: what, how often a day, how long; a taper as its steps.

Only days are counted: the first full day is the day after surgery. What has more than one reading is asked back, and a
drop without a number is never taken.

>>> drop = read("steroid 6-4-2 × a day, 1 week each", date(2027, 3, 2))
>>> [(step.times_a_day, step.until.isoformat()) for step in drop.steps]
[(6, '2027-03-09'), (4, '2027-03-16'), (2, '2027-03-23')]
>>> read("antibiotic", date(2027, 3, 2))
Traceback (most recent call last):
followup.clinical.errors.Unreadable: “antibiotic”: write how many times a day, for example: antibiotic 4 × a day, 7 days
"""

import itertools
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from followup.clinical.errors import Ambiguous, OutOfRange, Unreadable

MOST_TIMES_A_DAY = 24
MOST_STEPS = 12
MOST_DAYS = 3 * 366  # as long as anything may be planned after surgery
LONGEST_NAME = 60

_MANY = r"\d+(?:\s*[-–]\s*\d+)*"
_STEPS = r"\d+(?:\s*[-–]\s*\d+)+"
_A_DAY = r"(?:(?:a|per)\s*day|/\s*(?:day|d)|daily)"
_OFTEN = re.compile(
    rf"(?<![\w.,/])(?:(?P<counts>{_MANY})\s*(?:(?:×|x|times)(?:\s*{_A_DAY})?|{_A_DAY})|(?P<steps>{_STEPS})|"
    rf"(?P<word>once|twice)(?:\s*{_A_DAY})?)(?![\w/.%])",
    re.IGNORECASE,
)
_LONG = re.compile(
    rf"(?:for\s+)?(?P<lengths>{_MANY}|an?|one)\s*(?P<unit>days?|d|weeks?|wks?|w)(?P<each>\s*(?:each|(?:per|a|every)\s+step))?",
    re.IGNORECASE,
)
_UNTIL = re.compile(r"(?:until|till|to)\s+(?P<days>.+)", re.IGNORECASE)
_DAY = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})|(\d{1,2})\.?\s+([a-z]{3,9})\.?(?:\s+(\d{4}))?", re.IGNORECASE)
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december",
)  # fmt: skip
# Beginnings of the non-proprietary names of steroids in drops, and the word itself, in some languages: from memory.
_STEROID = re.compile(
    r"(?<!non)(?<!non\W)(?:e?steroid|cortison|kortison|dexamet|prednis|betamet|flu?oromet|fluormet|loteprednol|rimexolon|"
    r"difluprednat|triamcinolon|fluocinolon)(?!\w*\W?(?:free|sparing))",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Step:
    """So often a day, until and with this day."""

    times_a_day: int
    until: date


@dataclass(frozen=True, slots=True)
class Prescribed:
    """A drop with its steps in order; one that stays the same has one."""

    name: str
    steps: tuple[Step, ...]

    @property
    def until(self) -> date:
        return self.steps[-1].until


def read_all(text: str, operated_on: date) -> list[Prescribed]:
    """Every drop of a text, one a line. Raises `ClinicalError` for the first that cannot be read, and for one named twice."""
    found = [read(line, operated_on) for part in text.splitlines() for line in part.split(";") if line.strip()]
    names = [drop.name.casefold() for drop in found]
    for drop, name in zip(found, names, strict=True):
        if names.count(name) > 1:
            raise Ambiguous(f"{drop.name} stands there twice: write its steps in one line, for example: {_taper(drop.name)}")
    return found


def read(line: str, operated_on: date) -> Prescribed:
    """One drop of a line, its days counted from `operated_on`. Raises `ClinicalError` that says what to write."""
    said = " ".join(line.split())
    often = _OFTEN.search(said)
    name = (said[: often.start()] if often else said).strip(" ,:;-–")
    if not re.search(r"[^\W\d_]", name):
        raise Unreadable(f"“{said}”: write which drop this is first, for example: antibiotic 4 × a day, 7 days")
    if len(name) > LONGEST_NAME:
        raise OutOfRange(f"“{name[:20]}…”: the name of a drop has up to {LONGEST_NAME} letters")
    if often is None:
        raise Unreadable(f"“{said}”: write how many times a day, for example: {name} 4 × a day, 7 days")
    word = (often["word"] or "").lower()
    counts = (
        [{"once": 1, "twice": 2}[word]] if word else [int(n) for n in re.findall(r"\d+", often["counts"] or often["steps"])]
    )
    for count in counts:
        if not 1 <= count <= MOST_TIMES_A_DAY:
            raise OutOfRange(f"“{said}”: {count} times a day is out of range; accepted is 1 to {MOST_TIMES_A_DAY}")
    if len(counts) > MOST_STEPS:
        raise OutOfRange(f"“{said}”: a taper has up to {MOST_STEPS} steps")
    ends = _ends(said, said[often.end() :].strip(" ,:;"), counts, operated_on, name)
    return Prescribed(name, tuple(Step(count, end) for count, end in zip(counts, ends, strict=True)))


def _ends(said: str, rest: str, counts: Sequence[int], operated_on: date, name: str) -> list[date]:
    """The last day of each step, as the rest of a line says them."""
    taper = len(counts) > 1
    example = _taper(name) if taper else f"{name} {counts[0]} × a day, 7 days"
    if until := _UNTIL.fullmatch(rest):
        ends = [_day(part.strip(), said) for part in until["days"].split(",")]
        if len(ends) != len(counts):
            raise Ambiguous(f"“{said}”: write the last day of each step, or how long each is, for example: {example}")
        if any(later <= earlier for earlier, later in itertools.pairwise(ends)):
            raise OutOfRange(f"“{said}”: each step ends after the one before")
        return ends
    long = _LONG.fullmatch(rest)
    if long is None:
        what = f"“{rest}” was not understood; write" if rest else "write"
        raise Unreadable(f"“{said}”: {what} how long, in days or weeks, for example: {example}")
    lengths = [int(n) for n in re.findall(r"\d+", long["lengths"])] or [1]
    if taper and len(lengths) == 1 and long["each"]:
        lengths *= len(counts)
    if len(lengths) != len(counts):
        raise Ambiguous(f"“{said}”: say how long each step lasts, for example: {example}")
    days = [n * (7 if long["unit"].lower().startswith("w") else 1) for n in lengths]
    if min(days) < 1 or sum(days) > MOST_DAYS:
        raise OutOfRange(f"“{said}”: accepted is from 1 day to three years")
    return [operated_on + timedelta(days=sum(days[: n + 1])) for n in range(len(days))]


def _day(text: str, said: str) -> date:
    found = _DAY.fullmatch(text)
    try:
        if found and found[1]:
            return date(int(found[1]), int(found[2]), int(found[3]))
        if found and found[6]:
            months = [n for n, month in enumerate(_MONTHS, 1) if month.startswith(found[5].lower())]
            return date(int(found[6]), months[0] if len(months) == 1 else 0, int(found[4]))
    except ValueError:
        pass
    raise Unreadable(f"“{said}”: “{text}” is not a date; write it like 12 March 2027")


def _taper(name: str) -> str:
    return f"{name} 6-4-3-2-1 × a day, 1 week each"


def written(drop: Prescribed, operated_on: date | None = None) -> str:
    """The line that reads as this drop: by the length of its steps after `operated_on`, else (or where that cannot be) by days."""
    often = f"{drop.name} {'-'.join(str(step.times_a_day) for step in drop.steps)} × a day"
    lengths: list[int] = []
    if operated_on:
        ends = [operated_on, *(step.until for step in drop.steps)]
        lengths = [(end - start).days for start, end in itertools.pairwise(ends)]
    if not lengths or min(lengths) < 1:
        return f"{often}, until {', '.join(f'{s.until.day} {s.until:%B} {s.until.year}' for s in drop.steps)}"
    if len(set(lengths)) > 1:
        return f"{often}, {'-'.join(map(str, lengths))} days"
    weeks, odd = divmod(lengths[0], 7)
    one = (
        f"{lengths[0]} day{'s' if lengths[0] > 1 else ''}"
        if odd or len(lengths) == 1
        else f"{weeks} week{'s' if weeks > 1 else ''}"
    )
    return f"{often}, {one}{' each' if len(lengths) > 1 else ''}"


def is_steroid(name: str) -> bool:
    """Whether the name says a steroid: the word, or a steroid's non-proprietary name."""
    return _STEROID.search(name) is not None


def steroid_until(drops: Iterable[Prescribed]) -> date | None:
    """The last day on which a steroid drop is due; None where no drop is one by its name."""
    return max((drop.until for drop in drops if is_steroid(drop.name)), default=None)
