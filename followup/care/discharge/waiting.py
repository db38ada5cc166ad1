"""Operations of a theatre list, which wait for their discharge: nothing follows from one until somebody confirms its note."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, tzinfo

from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict
from followup.care.reading import paging
from followup.records import Store, eyes, listed, patients
from followup.records.store import new_id
from followup.records.values import ListedOperation

LONGEST_WHY = 500


@dataclass(frozen=True, slots=True)
class Row:
    """A line of a list, read: `more` holds what else it says, by the discharge form's fields."""

    line: int
    number: str
    name: str
    operated_on: date
    eye: str
    more: dict[str, str] = field(default_factory=dict)

    @property
    def operation(self) -> tuple[str, date, str]:
        """Whose operation, when and on which eye: what makes two lines one operation."""
        return self.number, self.operated_on, self.eye


@dataclass(frozen=True, slots=True)
class Problem:
    """Why a line cannot be taken, and in which column."""

    line: int
    column: str
    words: str

    def __str__(self) -> str:
        where = f"line {self.line}, {self.column}" if self.column else f"line {self.line}"
        return f"{where}: {self.words}"


@dataclass(frozen=True, slots=True)
class Compared:
    """Lines beside what is known: `new` ones to put on the list, how many are `known` already, and what speaks against them."""

    new: list[Row]
    known: int
    problems: list[Problem]


def compare(store: Store, rows: Sequence[Row], zone: tzinfo) -> Compared:
    """Which of these lines are new. One that waits already, or was discharged, is no problem unless it says otherwise now."""
    waiting = {(one.number, one.operated_on, one.eye): one for one in listed.waiting(store)}
    new: list[Row] = []
    problems: list[Problem] = []
    known = 0
    for row in rows:
        there = waiting.get(row.operation)
        if there is None and not _is_recorded(store, row, zone):
            new.append(row)
        elif there is None or (there.name, there.body) == (row.name, row.more):
            known += 1
        else:
            problems.append(Problem(row.line, "", "waits already, with other particulars: put that one aside first"))
    return Compared(new, known, problems)


def put_on(desk: Desk, rows: Sequence[Row], source: str) -> Compared:
    """Put every new line on the list, or none: raises `CareError` where one of them cannot be taken."""
    with desk.store.transaction():
        found = compare(desk.store, rows, desk.zone)
        if found.problems:
            raise CareError("; ".join(str(problem) for problem in found.problems))
        for row in found.new:
            came = f"{source}, line {row.line}"
            by = desk.actor.signature
            listed.add(desk.store, desk.now, new_id(), row.number, row.name, row.operated_on, row.eye, row.more, came, by)
        desk.note("theatre list taken in", source, {"new": len(found.new), "known": found.known})
    return found


def waiting_page(store: Store, page: int = 1) -> paging.Page[ListedOperation]:
    """One page of what waits for its discharge, the earliest day first."""
    return paging.page_of(listed.count(store), page, paging.LINES, lambda most, after: listed.waiting(store, most, after))


def count_until(store: Store, day: date) -> int:
    """How many operations of that day and before wait for their discharge."""
    return listed.count(store, day)


def waits(store: Store, id: str) -> ListedOperation | None:
    """One that waits, by the id that its operation will have; None if it was discharged or put aside."""
    return listed.waits(store, id)


def put_aside(desk: Desk, id: str, why: str) -> None:
    """It will not be discharged here, and why. Raises `CareError` without a reason, `Conflict` where it does not wait."""
    why = why.strip()
    if not why or len(why) > LONGEST_WHY:
        raise CareError(f"say why this operation is put aside, in at most {LONGEST_WHY} characters", "why")
    with desk.store.transaction():
        if listed.waits(desk.store, id) is None:
            raise Conflict("this operation does not wait any more")
        listed.put_aside(desk.store, desk.now, id, desk.actor.signature, why)
        desk.note("listed operation put aside", id, {"why": why})


def _is_recorded(store: Store, row: Row, zone: tzinfo) -> bool:
    """Whether an operation on that eye on that day is on record."""
    known = patients.by_number(store, row.number)
    if known is None:
        return False
    sides = [eye for eye in eyes.of_patient(store, known.id) if eye.side == row.eye]
    notes = [note for eye in sides for note in eyes.notes_of(store, eye.id)]
    return any(note.operated_at.astimezone(zone).date() == row.operated_on for note in notes)
