"""Visual acuity as people write it: any notation in, any notation out.

>>> read("6/12").logmar == read("20/40").logmar
True
>>> read("6/12-2").letters
68
>>> read("6/9p ph").correction
'pinhole'
>>> read("0.5", "decimal").snellen_6m
'6/12'
"""

import math
import re
from dataclasses import replace

from followup.clinical.errors import Ambiguous, OutOfRange, Unreadable, one_of
from followup.clinical.vision import (
    BEST_LOGMAR,
    FACE_METRES,
    LETTERS_AT_ZERO,
    LOGMAR_PER_LETTER,
    NOTATIONS,
    PARTIAL_LETTERS,
    STAND_INS,
    WORST_LOGMAR,
    Acuity,
    Category,
    Notation,
    snellen,
)

MOST_PARTIAL_LETTERS = 7  # ordinary Snellen rows have up to eight letters
_CATEGORY_TEXT: dict[str, Category] = {
    "cf": "CF", "cfs": "CF", "fc": "CF", "countingfingers": "CF", "countsfingers": "CF", "countfingers": "CF",
    "hm": "HM", "hms": "HM", "handmovements": "HM", "handmovement": "HM", "handmotion": "HM", "handmotions": "HM",
    "lp": "LP", "pl": "LP", "lp+": "LP", "pl+": "LP", "lightperception": "LP", "perceptionoflight": "LP",
    "nlp": "NLP", "npl": "NLP", "nolightperception": "NLP", "noperceptionoflight": "NLP",
}  # fmt: skip
_PLAIN = str.maketrans({"−": "-", "–": "-", "‒": "-", "⁄": "/", "∕": "/", "＋": "+", ",": ".", "\u00a0": " "})
_NUMBER = r"[0-9]+(?:\.[0-9]+)?|\.[0-9]+"
_PARTIAL = r"(?P<partial>(?:\(?[+-][0-9]\)?)*(?:\(?(?:p|part|partial|partly|[+-])\)?)?)"
_FRACTION = re.compile(rf"(?P<top>{_NUMBER})/(?P<bottom>{_NUMBER}){_PARTIAL}")
_CATEGORY = re.compile(
    rf"(?P<name>[a-z]+?\+?)(?:(?:at|@)?(?:(?P<distance>{_NUMBER})(?P<unit>[a-z]+)|(?P<face>(?:the)?face)))?"
)
_LIGHT_OR_NOT = re.compile(r"(?:pl|lp)(?:-|-ve)")
_LOGMAR = re.compile(rf"logmar[:=]?(?P<a>[+-]?(?:{_NUMBER}))|(?P<b>[+-]?(?:{_NUMBER}))logmar")
_LETTERS = re.compile(
    rf"(?P<a>{_NUMBER})(?:letters?|l|etdrs|lettersetdrs|etdrsletters)|etdrs[:=]?(?P<b>{_NUMBER})(?:letters?)?"
)
_BARE = re.compile(rf"(?P<number>[+-]?(?:{_NUMBER})){_PARTIAL}")
_METRES = dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 1.0)
_METRES |= {"cm": 0.01, **dict.fromkeys(("ft", "foot", "feet"), 0.3048)}
_CORRECTION = re.compile(
    r"(?P<before>ph|pinhole|unaided|glasses)?:?(?P<reading>.*?)(?:(?:with)?\(?(?P<after>ph|pinhole|unaided|glasses)\)?)?"
)
_CORRECTIONS = {"ph": "pinhole", "pinhole": "pinhole", "unaided": "unaided", "glasses": "glasses"}


CHARTS = ("6/", "20/")
"""Charts whose lines are called by their lower number alone."""


def on_chart(typed: str, chart: str) -> str:
    """A line called by its lower number, written whole: `12-1` on the chart `6/` is `6/12-1`; anything else as it is.

    >>> on_chart("12-1", "6/"), on_chart("CF", "6/"), on_chart("0.5", "6/"), on_chart("70", "letters")
    ('6/12-1', 'CF', '0.5', '70')
    """
    if chart not in CHARTS:
        return typed
    named = _CORRECTION.fullmatch("".join(typed.split()).translate(_PLAIN).lower())
    line = _BARE.fullmatch(named["reading"]) if named else None
    if named is None or line is None or float(line["number"]) not in _CHART_LINES[chart.removesuffix("/")]:
        return typed
    return f"{named['before']} {chart}{named['reading']}" if named["before"] else f"{chart}{typed.strip()}"


def chart_of(typed: str, notation: str | None) -> str:
    """The chart or notation of a reading, for the next one: `6/` of `6/12`, else the notation, empty where it is neither."""
    return notation or next((chart for chart in CHARTS if typed.replace(" ", "").startswith(chart)), "")


def read(text: str, notation: str | None = None) -> Acuity:
    """Read an acuity as people write it: 6/12-2, 6/9p, 20/40, 0,5, logMAR 0.30, 70 letters, CF 1m, NPL, 6/9 ph.

    `notation` (snellen, decimal, logmar, letters) settles a bare number. Raises `Ambiguous` when a
    bare number has several readings, `OutOfRange` when no eye can have it, else `Unreadable`.
    A partial line without a number of letters counts as one letter.
    """
    if notation is not None:
        one_of("notation", notation, NOTATIONS)
    plain = re.sub(r"\s+", "", text.translate(_PLAIN)).lower()
    if not plain:
        raise Unreadable("no acuity was given; write for example 6/12, 20/40, logMAR 0.3, 70 letters, CF or HM")
    named = _CORRECTION.fullmatch(plain)
    assert named is not None
    correction = _CORRECTIONS.get(named["before"] or named["after"] or "")
    if correction:
        return replace(_reading(text, named["reading"], notation), correction=correction)
    return _reading(text, plain, notation)


def _reading(text: str, plain: str, notation: str | None) -> Acuity:
    if _LIGHT_OR_NOT.fullmatch(plain):
        raise Ambiguous(f"“{text.strip()}” can be read as light perception or no light perception; say which: LP or NLP")
    if category := _category(text, plain):
        return category
    explicit = _explicit(text, plain)
    if explicit is None:
        return _bare(text, plain, notation)
    if notation not in (None, explicit.notation):
        raise Unreadable(
            f"“{text.strip()}” is written as {_NAMES[explicit.notation]}, but {_NAMES[notation or '']} was chosen"
        )
    return explicit


def table() -> dict[str, tuple[float, str, str, int | None]]:
    """Every usual way to write a chart reading, with (logMAR, 6 m, 20 ft, letters): for offline pages.

    Keys are lower case without spaces; bare numbers stand under `decimal:` and `logmar:` prefixes. A page that looks
    up a text first brings it into this form (`lookUp` in static/staff/acuity-table.js); the same texts are tried on both.
    """
    lines: dict[str, tuple[str, str | None]] = {}
    for top, bottoms in _CHART_LINES.items():
        for bottom in bottoms:
            for missed in range(-4, 5):
                text = f"{top}/{bottom:g}" + (f"{missed:+d}" if missed else "")
                lines[text] = (text, None)
    for score in range(101):
        lines[f"{score}letters"] = (f"{score} letters", None)
    for hundredth in range(-30, 301):
        lines[f"logmar:{hundredth / 100:g}"] = (f"{hundredth / 100:g}", "logmar")
    for hundredth in range(1, 201):
        for partial in ("-1", "", "+1"):
            lines[f"decimal:{hundredth / 100:g}{partial}"] = (f"{hundredth / 100:g}{partial}", "decimal")
    rows = {}
    for key, (text, notation) in lines.items():
        reading = read(text, notation)
        rows[key] = (round(reading.logmar, 3), snellen(reading.logmar, 6), snellen(reading.logmar, 20), reading.letters)
    return rows


_CHART_LINES: dict[str, tuple[float, ...]] = {
    "6": (3, 3.8, 4, 4.8, 5, 6, 7.5, 7.6, 9, 9.5, 12, 15, 18, 19, 24, 30, 36, 38, 48, 60, 75, 95, 120),
    "20": (10, 12.5, 15, 16, 20, 25, 30, 32, 40, 50, 60, 63, 70, 80, 100, 125, 150, 160, 200, 250, 320, 400, 500, 640, 800),
    "4": (2, 2.5, 3.2, 4, 5, 6.3, 8, 10, 12.5, 16, 20, 25, 32, 40),
    "5": (5, 6, 7.5, 9, 10, 12, 15, 18, 24, 36, 50, 60),
    "3": (3, 4.8, 6, 7.5, 9, 9.5, 12, 18, 19, 24, 36, 38, 48, 60),
    "2": (36, 60),
    "1": (6, 9, 12, 18, 24, 36, 60),
}
_LINES_CALLED_BY_NUMBER = ("6", "20")  # a bare 60 may be 60 letters or the line 6/60
_NAMES = {"snellen": "Snellen", "decimal": "decimal", "logmar": "logMAR", "letters": "letters"}


def _category(typed: str, plain: str) -> Acuity | None:
    match = _CATEGORY.fullmatch(plain)
    name = _CATEGORY_TEXT.get(match["name"]) if match else None
    if match is None or name is None:
        return None
    if match["face"]:
        return Acuity(typed, "category", STAND_INS[name].value, name, FACE_METRES.value)
    if match["distance"] is None:
        return Acuity(typed, "category", STAND_INS[name].value, name)
    metres = _METRES.get(match["unit"])
    if metres is None:
        raise Unreadable(f"“{typed.strip()}”: write the distance in m, cm or ft, for example CF 1 m")
    return Acuity(typed, "category", STAND_INS[name].value, name, float(match["distance"]) * metres)


def _explicit(typed: str, plain: str) -> Acuity | None:
    """A text that names its own notation, or None for a bare number. Raises Unreadable for the rest."""
    if match := _FRACTION.fullmatch(plain.removeprefix("snellen")):
        return _fraction(typed, float(match["top"]), float(match["bottom"]), *_partial(typed, match["partial"]))
    if match := _LOGMAR.fullmatch(plain):
        return _chart(typed, "logmar", float(match["a"] or match["b"]))
    if match := _LETTERS.fullmatch(plain):
        return _letters(typed, float(match["a"] or match["b"]))
    if _BARE.fullmatch(plain):
        return None
    if "/" in plain:
        raise Unreadable(f"“{typed.strip()}” is not a whole Snellen fraction; write for example 6/12, 6/12-2 or 20/40")
    raise Unreadable(
        f"“{typed.strip()}” is not an acuity we can read; write for example 6/12, 20/40, logMAR 0.3, 70 letters, CF or HM"
    )


def _bare(typed: str, plain: str, notation: str | None) -> Acuity:
    match = _BARE.fullmatch(plain)
    assert match is not None
    number = float(match["number"])
    if notation == "snellen":
        raise Unreadable(f"“{typed.strip()}” is not a whole Snellen fraction; write for example 6/12 or 20/40")
    if match["partial"]:  # charts scored by letters have no partial lines
        if notation not in (None, "decimal"):
            raise Unreadable(
                f"“{typed.strip()}”: partial lines are written behind a Snellen fraction or a decimal, for example 6/9p"
            )
        letters, unsaid = _partial(typed, match["partial"])
        line = _decimal(typed, number)
        return _chart(typed, "decimal", line.logmar - LOGMAR_PER_LETTER.value * letters, letters, unsaid)
    if notation is not None:
        return _READERS[notation](typed, number)
    readings = []
    for reader in _READERS.values():
        try:
            readings.append(reader(typed, number))
        except (OutOfRange, Unreadable):
            continue
    if not readings:
        raise OutOfRange(f"“{typed.strip()}” is no acuity in any notation; write for example 6/12, logMAR 0.3 or 70 letters")
    named = [f"{_NAMES[r.notation]} ({snellen(r.logmar, 6)})" for r in readings]
    named += [f"the line {top}/{number:g}" for top in _LINES_CALLED_BY_NUMBER if number in _CHART_LINES[top]]
    if len(named) > 1:
        raise Ambiguous(
            f"“{typed.strip()}” can be read as {' or '.join(named)}; say which notation: {', '.join(NOTATIONS[:-1])} or {NOTATIONS[-1]}"
        )
    return readings[0]


def _partial(typed: str, text: str) -> tuple[int, bool]:
    """Letters added (or missed, negative) that a text behind a line names, and whether their number was left unsaid."""
    said = re.findall(r"[+-][0-9]", text)
    letters = [int(part) for part in said]
    unsaid = re.sub(r"[+-][0-9]|[()]", "", text)
    if any(abs(n) > MOST_PARTIAL_LETTERS for n in letters):
        raise OutOfRange(f"“{typed.strip()}”: at most {MOST_PARTIAL_LETTERS} letters of a line can be added or missed")
    if unsaid:
        letters.append(round(PARTIAL_LETTERS.value) * (1 if unsaid == "+" else -1))
    return sum(letters), bool(unsaid)


def _fraction(typed: str, top: float, bottom: float, partial: int, unsaid: bool) -> Acuity:
    if top == 0 or bottom == 0:
        raise OutOfRange(f"“{typed.strip()}” has a zero in it; write the distance over the line, for example 6/60")
    logmar = math.log10(bottom / top) - LOGMAR_PER_LETTER.value * partial
    return _chart(typed, "snellen", logmar, partial, unsaid)


def _decimal(typed: str, number: float) -> Acuity:
    if number <= 0:
        raise OutOfRange(f"“{typed.strip()}” is not a decimal acuity; accepted is above 0, for example 0.5")
    return _chart(typed, "decimal", -math.log10(number))


def _letters(typed: str, number: float) -> Acuity:
    if not 0 <= number <= 100:
        raise OutOfRange(f"“{typed.strip()}”: a letter score lies between 0 and 100")
    return _chart(typed, "letters", (LETTERS_AT_ZERO.value - number) * LOGMAR_PER_LETTER.value)


def _bare_letters(typed: str, number: float) -> Acuity:
    if not number.is_integer():
        raise Unreadable(f"“{typed.strip()}”: a letter score is a whole number from 0 to 100")
    return _letters(typed, number)


def _chart(typed: str, notation: Notation, logmar: float, partial: int = 0, unsaid: bool = False) -> Acuity:
    if not BEST_LOGMAR <= logmar <= WORST_LOGMAR:
        raise OutOfRange(
            f"“{typed.strip()}” is {'better' if logmar < BEST_LOGMAR else 'worse'} than a chart can show; "
            f"accepted is logMAR {BEST_LOGMAR:g} to {WORST_LOGMAR:g}, or CF, HM, LP, NLP"
        )
    return Acuity(typed, notation, logmar, partial=partial, partial_unsaid=unsaid)


_READERS = {
    "decimal": _decimal,
    "logmar": lambda typed, number: _chart(typed, "logmar", number),
    "letters": _bare_letters,
}
