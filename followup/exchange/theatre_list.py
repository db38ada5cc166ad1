"""A theatre list as a table (CSV, RFC 4180; also with semicolons or tabs), read line by line: what cannot be read is named."""

import csv
import io
import re
from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from followup.care import bounds
from followup.care.discharge.waiting import Problem, Row
from followup.care.reading.measures import number
from followup.clinical.agents import AGENTS, LENSES
from followup.clinical.surgery import INDICATIONS
from followup.config import LANGUAGES
from followup.errors import FollowupError

DayOrder = Literal["day-first", "month-first"]
LARGEST_BYTES = 300_000
MOST_LINES = 2000
DAYS_AHEAD = 92  # a list is of operations that are planned, too. Common sense, no source.
SIDES = {
    "right": ("right", "r", "re", "od"),
    "left": ("left", "l", "le", "os"),
}
_DAY = re.compile(r"(\d{1,2})[./-](\d{1,2})[./-](\d{4})")
_TOO_LONG = "is longer than {most} characters"


class NotATable(FollowupError):
    """The file as a whole cannot be read."""


@dataclass(frozen=True, slots=True)
class _Reader:
    today: date
    order: DayOrder | None

    def day(self, text: str) -> date:
        if re.fullmatch(r"\d{4}-\d{2}-\d{2}", text):
            return date.fromisoformat(text)
        if not (found := _DAY.fullmatch(text)):
            raise ValueError(f"“{text}” is no date; write it as {self.today}")
        first, second, year = map(int, found.groups())
        ways = {"day-first": (second, first), "month-first": (first, second)}
        days = {order: date(year, month, day) for order, (month, day) in ways.items() if month <= 12}
        if self.order and self.order in days:
            return days[self.order]
        if len(set(days.values())) != 1:
            raise ValueError(
                f"“{text}” can be read in two ways, or in none; write it as {self.today}, or say which comes first"
            )
        return next(iter(days.values()))

    def born_on(self, text: str) -> str:
        born = self.day(text)
        if fault := bounds.birth(born, self.today):
            raise ValueError(fault)
        return born.isoformat()

    def operated_on(self, text: str) -> str:
        day = self.day(text)
        if day > self.today + timedelta(days=DAYS_AHEAD):
            raise ValueError(f"lies more than {DAYS_AHEAD} days ahead")
        if fault := bounds.surgery(min(day, self.today), self.today):
            raise ValueError(fault)
        return day.isoformat()

    def time(self, text: str) -> str:
        try:
            return f"{datetime.strptime(text.replace('.', ':'), '%H:%M'):%H:%M}"
        except ValueError:
            raise ValueError(f"“{text}” is no time; write it as 14:30") from None

    def eye(self, text: str) -> str:
        for side, written in SIDES.items():
            if text.casefold() in written:
                return side
        raise ValueError(f"“{text}” is no eye; accepted are right and left, R and L, RE and LE, OD and OS")

    def percent(self, text: str) -> str:
        typed = number(text)
        if typed is None or not 0 <= typed <= 100:
            raise ValueError(f"{text} is out of range; accepted is 0 to 100")
        return f"{typed:g}"


def _text(most: int) -> Callable[[_Reader, str], str]:
    def read(_: _Reader, text: str) -> str:
        if len(text) > most:
            raise ValueError(_TOO_LONG.format(most=most))
        return text

    return read


def _one_of(accepted: dict[str, str] | Collection[str]) -> Callable[[_Reader, str], str]:
    """A code, or its words."""
    codes = {code.casefold(): code for code in accepted}
    if isinstance(accepted, dict):
        codes |= {words.casefold(): code for code, words in accepted.items()}

    def read(_: _Reader, text: str) -> str:
        if text.casefold() not in codes:
            raise ValueError(f"“{text}” is not known; accepted are {', '.join(accepted)}")
        return codes[text.casefold()]

    return read


COLUMNS: dict[str, tuple[str, Callable[[_Reader, str], str]]] = {
    "number": ("hospital number", _text(40)),
    "name": ("name", _text(120)),
    "born_on": ("date of birth", _Reader.born_on),
    "eye": ("eye", _Reader.eye),
    "operated_on": ("date of surgery", _Reader.operated_on),
    "operated_time": ("time, 14:30", _Reader.time),
    "surgeon": ("surgeon", _text(120)),
    "phone": ("phone", _text(40)),
    "language": ("language of the phone pages", _one_of(LANGUAGES)),
    "indication": ("indication", _one_of(INDICATIONS)),
    "lens": ("lens", _one_of(LENSES)),
    "agent": ("left in the eye", _one_of({name: agent.words for name, agent in AGENTS.items()})),
    "percent": ("concentration, %", _Reader.percent),
    "fill_percent": ("fill at the end of surgery, %", _Reader.percent),
    "notes": ("notes", _text(2000)),
}
"""Each column's name with what it holds; a heading may be either."""
NEEDED = ("number", "name", "born_on", "eye", "operated_on")


def read(content: bytes, today: date, order: DayOrder | None = None) -> tuple[list[Row], list[Problem]]:
    """Every line that can be read, and what is wrong with every other, by line and column.

    `order` says what comes first in dates such as 3/4/1952, which are refused without it. Raises `NotATable`.
    """
    table = _table(content)
    if not table:
        raise NotATable("the file is empty")
    names, problems = _headings(*table[0])
    if problems:
        return [], problems
    rows: list[Row] = []
    for line, cells in table[1:]:
        if not any(cell.strip() for cell in cells):
            continue
        found = _line(line, dict(zip(names, cells, strict=False)), _Reader(today, order), problems)
        if len(cells) > len(names):
            problems.append(
                Problem(line, "", f"has {len(cells)} cells, {len(cells) - len(names)} more than there are headings")
            )
        elif found:
            rows.append(found)
    return rows, problems + _at_odds(rows)


def _table(content: bytes) -> list[tuple[int, list[str]]]:
    """The lines with their numbers, the one with the headings first."""
    if len(content) > LARGEST_BYTES:
        raise NotATable(f"the file has more than {LARGEST_BYTES // 1000} kB: take it in in parts")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content[: error.start].count(b"\n") + 1
        raise NotATable(f"line {line} is not in UTF-8: save the table as “CSV UTF-8”") from error
    if "\0" in text:
        raise NotATable("the file is no text: save the table as “CSV UTF-8”")
    heading = text.partition("\n")[0]
    apart = max(",;\t", key=heading.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=apart, strict=True)
    found: list[tuple[int, list[str]]] = []
    begins = 1
    try:
        for cells in reader:
            found.append((begins, cells))
            begins = reader.line_num + 1
    except csv.Error as error:
        raise NotATable(f"line {begins} cannot be read: {error}") from error
    if len(found) > MOST_LINES + 1:
        raise NotATable(f"the table has {len(found) - 1} lines; accepted are {MOST_LINES} at a time")
    return found


def _headings(line: int, cells: list[str]) -> tuple[list[str], list[Problem]]:
    """The column of each heading. One that nobody knows is a problem: what stands under it would be lost."""
    known = {words: name for name, (words, _) in COLUMNS.items()} | {name.replace("_", " "): name for name in COLUMNS}
    names: list[str] = []
    problems: list[Problem] = []
    for cell in cells:
        name = known.get(cell.strip().casefold().replace("_", " "))
        if name is None:
            problems.append(Problem(line, cell.strip() or "a heading", f"is not known; accepted are {', '.join(COLUMNS)}"))
        elif name in names:
            problems.append(Problem(line, cell.strip(), "stands there twice"))
        else:
            names.append(name)
    missing = [name for name in NEEDED if name not in names]
    if missing and not problems:
        problems.append(Problem(line, missing[0], f"is missing; needed are {', '.join(NEEDED)}"))
    return names, problems


def _line(line: int, cells: dict[str, str], reader: _Reader, problems: list[Problem]) -> Row | None:
    """A line, or None after saying what is wrong with it: everything, not only the first."""
    said: dict[str, str] = {}
    before = len(problems)
    for name, (_, read_cell) in COLUMNS.items():
        text = (
            " ".join(cells.get(name, "").split()) if name != "notes" else cells.get(name, "").replace("\r\n", "\n").strip()
        )
        try:
            if text:
                said[name] = read_cell(reader, text)
            elif name in NEEDED:
                raise ValueError("is empty")
        except ValueError as error:
            problems.append(Problem(line, name, str(error)))
    if len(problems) > before:
        return None
    day = date.fromisoformat(said.pop("operated_on"))
    return Row(line, said.pop("number"), said.pop("name"), day, said.pop("eye"), said)


def _at_odds(rows: list[Row]) -> list[Problem]:
    """Lines that cannot both be: one operation twice, or one number for two people."""
    problems: list[Problem] = []
    operations: dict[tuple[str, date, str], int] = {}
    people: dict[str, tuple[int, tuple[str, str]]] = {}
    for row in rows:
        first = operations.setdefault(row.operation, row.line)
        if first != row.line:
            problems.append(Problem(row.line, "", f"is the same operation as line {first}"))
        line, person = people.setdefault(row.number, (row.line, (row.name, row.more["born_on"])))
        if person != (row.name, row.more["born_on"]):
            problems.append(Problem(row.line, "number", f"is another person’s in line {line}"))
    return problems
