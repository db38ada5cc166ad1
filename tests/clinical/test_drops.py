"""Drops as they are written in a line: read, or asked back. Ways of writing: common practice, no source."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from followup.clinical import drops as d
from followup.clinical.errors import ClinicalError

DAY = date(2027, 3, 2)


def days(line: str) -> list[tuple[int, int]]:
    """(times a day, last day after surgery) of each step."""
    return [(step.times_a_day, (step.until - DAY).days) for step in d.read(line, DAY).steps]


@pytest.mark.parametrize(
    ("line", "name", "steps"),
    [
        ("antibiotic 4 × a day, 7 days", "antibiotic", [(4, 7)]),
        ("antibiotic 4x 7d", "antibiotic", [(4, 7)]),
        ("Antibiotic: 4 times a day for 1 week", "Antibiotic", [(4, 7)]),
        ("antibiotic 4/day, 10 days", "antibiotic", [(4, 10)]),
        ("antibiotic 4 daily 10 days", "antibiotic", [(4, 10)]),
        ("lubricant 24 per day, 2 weeks", "lubricant", [(24, 14)]),
        ("pupil drops once a day, a week", "pupil drops", [(1, 7)]),
        ("pressure drops twice daily, 4 w", "pressure drops", [(2, 28)]),
        ("steroid 0.1 % 4 x a day, 28 days", "steroid 0.1 %", [(4, 28)]),
        ("steroid 6-4-3-2-1 × a day, 1 week each", "steroid", [(6, 7), (4, 14), (3, 21), (2, 28), (1, 35)]),
        ("steroid 6-4-2 1w each", "steroid", [(6, 7), (4, 14), (2, 21)]),
        ("steroid 6 – 4 – 2 × a day, 7-7-14 days", "steroid", [(6, 7), (4, 14), (2, 28)]),
        ("antibiotic 4 × a day, until 9 March 2027", "antibiotic", [(4, 7)]),
        ("antibiotic 4 × a day until 2027-03-09", "antibiotic", [(4, 7)]),
        ("steroid 4-2 × a day, until 9 Mar 2027, 16 Mar 2027", "steroid", [(4, 7), (2, 14)]),
        ("  antibiotic   4 × a day,7 days ", "antibiotic", [(4, 7)]),
    ],
)
def test_a_line_is_read(line: str, name: str, steps: list[tuple[int, int]]) -> None:
    assert d.read(line, DAY).name == name
    assert days(line) == steps


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("antibiotic", "how many times a day"),
        ("antibiotic 7 days", "how many times a day"),
        ("antibiotic four times a day, 7 days", "how many times a day"),
        ("antibiotic qid 7 days", "how many times a day"),
        ("antibiotic 2.5 × a day, 7 days", "how many times a day"),
        ("antibiotic 4 7", "how many times a day"),
        ("antibiotic 0 × a day, 7 days", "accepted is 1 to 24"),
        ("antibiotic 25 × a day, 7 days", "accepted is 1 to 24"),
        ("antibiotic 4 × a day", "how long"),
        ("antibiotic 4 × a day, 7", "“7” was not understood"),
        ("antibiotic 4 × a day, 1 month", "in days or weeks"),
        ("antibiotic 4 × a day, 7 days then 2 × a day, 7 days", "was not understood"),
        ("antibiotic 4 × a day, 7 days, both eyes", "was not understood"),
        ("antibiotic 4 × a day, 0 days", "accepted is from 1 day"),
        ("antibiotic 4 × a day, 200 weeks", "accepted is from 1 day"),
        ("antibiotic 4 × a day, until Easter", "is not a date"),
        ("antibiotic 4 × a day, until 31 February 2027", "is not a date"),
        ("antibiotic 4 × a day, until 9 March", "is not a date"),
        ("antibiotic 4 × a day, 7-7 days", "how long each step lasts"),
        ("steroid 6-4-2 × a day, 3 weeks", "how long each step lasts"),
        ("steroid 6-4-2 × a day, 7-7 days each", "how long each step lasts"),
        ("steroid 6-4-2 × a day", "how long"),
        ("steroid 6-0-2 × a day, 1 week each", "accepted is 1 to 24"),
        ("steroid 2-3 × a day, 7 days", "how long each step lasts"),
        ("steroid 4-2 × a day, until 9 March 2027", "the last day of each step"),
        ("steroid 4-2 × a day, until 9 March 2027, 9 March 2027", "after the one before"),
        ("steroid 13-12-11-10-9-8-7-6-5-4-3-2-1 × a day, 1 day each", "up to 12 steps"),
        ("4 × a day, 7 days", "which drop this is"),
        ("7 4 × a day, 7 days", "which drop this is"),
        ("x" * 61 + " 4 × a day, 7 days", "up to 60 letters"),
    ],
)
def test_what_has_no_number_or_more_than_one_reading_is_asked_back(line: str, asked: str) -> None:
    with pytest.raises(ClinicalError, match=asked):
        d.read(line, DAY)


def test_the_example_is_of_the_drop_that_was_written() -> None:
    with pytest.raises(ClinicalError, match="for example: pupil drops 4 × a day, 7 days"):
        d.read("pupil drops", DAY)


def test_a_text_has_a_drop_in_each_line_and_each_drop_once() -> None:
    assert [drop.name for drop in d.read_all("a 4x 7d\n\n b 2x 7d; c 1x 7d", DAY)] == ["a", "b", "c"]
    with pytest.raises(ClinicalError, match="Steroid stands there twice"):
        d.read_all("Steroid 6x 7d\nantibiotic 4x 7d\nsteroid 4x 7d", DAY)


STEPS = st.lists(st.tuples(st.integers(1, 24), st.integers(1, 60)), min_size=1, max_size=12)


@given(STEPS, st.booleans())
def test_what_is_written_reads_as_the_same_drop(steps: list[tuple[int, int]], by_length: bool) -> None:
    ends = [date.fromordinal(DAY.toordinal() + sum(n for _, n in steps[: i + 1])) for i in range(len(steps))]
    drop = d.Prescribed("steroid", tuple(d.Step(times, end) for (times, _), end in zip(steps, ends, strict=True)))
    assert d.read(d.written(drop, DAY if by_length else None), DAY) == drop


def test_a_step_that_ended_by_the_operation_is_written_by_its_days() -> None:
    """No length of days says it, and the line must read as the same drop."""
    drop = d.Prescribed("steroid", (d.Step(4, DAY), d.Step(2, date(2027, 3, 9))))
    assert d.written(drop, DAY) == "steroid 4-2 × a day, until 2 March 2027, 9 March 2027"
    assert d.read(d.written(drop, DAY), DAY) == drop


# Non-proprietary names: WHO’s list of international non-proprietary names, from memory.
@pytest.mark.parametrize(
    ("name", "steroid"),
    [
        ("steroid", True), ("Steroid 0.1 %", True), ("preservative-free steroid", True), ("corticosteroid", True),
        ("dexamethasone", True), ("Dexamethason", True), ("dexametasona", True), ("prednisolone acetate", True),
        ("prednisolona", True), ("fluorometholone", True), ("fluorometolona", True), ("loteprednol", True),
        ("hydrocortisone", True), ("betamethasone", True), ("antibiotic with dexamethasone", True), ("esteroide", True),
        ("antibiotic", False), ("nonsteroidal", False), ("non-steroidal", False), ("non steroid", False), ("NSAID", False),
        ("steroid-free antibiotic", False), ("steroid sparing", False), ("ketorolac", False), ("pressure drops", False),
    ],
)  # fmt: skip
def test_a_steroid_is_told_by_its_name(name: str, steroid: bool) -> None:
    assert d.is_steroid(name) is steroid


def test_steroid_drops_end_with_the_last_step_of_the_last_one() -> None:
    both = d.read_all("antibiotic 4x 60d\nsteroid 4-2 7d each\ndexamethasone 1x 9d", DAY)
    assert d.steroid_until(both) == date(2027, 3, 16)
    assert d.steroid_until(both[:1]) is None
