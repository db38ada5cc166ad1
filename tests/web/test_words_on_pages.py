"""Times, dates, numbers and parts of a note as pages say them: on the clinic's clock, in the reader's language, without codes.

Summer time: Directive 2000/84/EC (2027: 28 March and 31 October, at 1 h UTC). All else: common practice, no source.
"""

from collections.abc import Callable, Iterator
from datetime import UTC, date, datetime, time, timedelta
from types import SimpleNamespace
from typing import Any

import pytest
from flask import Flask
from markupsafe import Markup

from followup.records.operation_note import Baseline, Drop, DropStep, Positioning, Site
from followup.web import display
from tests.conftest import NOW

SUMMER, WINTER = datetime(2027, 3, 28, 1, tzinfo=UTC), datetime(2027, 10, 31, 1, tzinfo=UTC)


@pytest.fixture
def in_clinic(app: Flask) -> Iterator[None]:
    """In a request of the clinic in Vienna, on Friday 5 March 2027 at 11 h there."""
    with app.test_request_context("/clinic/"):
        yield


@pytest.mark.usefixtures("in_clinic")
@pytest.mark.parametrize(
    ("at", "said"),
    [
        (NOW, "Fri 5 Mar, 11:00"),
        (datetime(2027, 3, 4, 22, 59, tzinfo=UTC), "Thu 4 Mar, 23:59"),
        (datetime(2027, 3, 4, 23, 0, tzinfo=UTC), "Fri 5 Mar, 00:00"),
        (SUMMER - timedelta(minutes=1), "Sun 28 Mar, 01:59"),
        (SUMMER, "Sun 28 Mar, 03:00"),
        (WINTER - timedelta(minutes=1), "Sun 31 Oct, 02:59"),
        (WINTER, "Sun 31 Oct, 02:00"),
        (NOW.replace(tzinfo=None), "Fri 5 Mar, 11:00"),  # without its offset it is in UTC
    ],
)
def test_a_moment_is_said_by_the_clinics_clock(at: datetime, said: str) -> None:
    assert (display.moment(at), display.clock(at)) == (said, said[-5:])


@pytest.mark.usefixtures("in_clinic")
@pytest.mark.parametrize(
    ("value", "said"),
    [
        (date(2027, 3, 5), "Fri 5 Mar 2027"),
        (datetime(2027, 3, 4, 23, 0, tzinfo=UTC), "Fri 5 Mar 2027"),
        ("2027-03-05", "Fri 5 Mar 2027"),
        ("2027-03-05T23:30:00Z", "Fri 5 Mar 2027"),
        (date(26, 11, 4), "Wed 4 Nov 26"),
    ],
)
def test_a_day_is_that_of_the_clinic(value: Any, said: str) -> None:
    assert display.day(value) == said


@pytest.mark.usefixtures("in_clinic")
def test_narrow_columns_say_less_of_a_day() -> None:
    day = date(2027, 3, 5)
    assert (display.short_day(day), display.week_day(day), display.day_month(day)) == ("5 Mar 2027", "Fri 5 Mar", "5 Mar")
    assert display.month("2027-12") == "Dec 2027"
    assert display.local_day(datetime(2027, 3, 4, 23, tzinfo=UTC)) == day


@pytest.mark.usefixtures("in_clinic")
@pytest.mark.parametrize(
    ("by", "said"),
    [
        (datetime(2027, 3, 5, 22, 59, tzinfo=UTC), "23:59"),
        (datetime(2027, 3, 5, 23, 0, tzinfo=UTC), "Sat 6 Mar, 00:00"),
        (datetime(2027, 3, 4, 22, 59, tzinfo=UTC), "Thu 4 Mar, 23:59"),
        ("2027-03-05T12:30:00+00:00", "13:30"),
    ],
)
def test_a_time_to_keep_is_the_clock_alone_today_and_has_its_day_otherwise(by: Any, said: str) -> None:
    assert display.by_when(by) == said


@pytest.mark.parametrize(
    ("seconds", "said"),
    [
        (0, ""),
        (59, ""),
        (60, "1 minute"),
        (119, "1 minute"),
        (120, "2 minutes"),
        (3599, "59 minutes"),
        (3600, "1 hour"),
        (86399, "23 hours"),
        (86400, "1 day"),
        (10 * 86400, "10 days"),
        (-300, ""),
    ],
)
def test_how_long_is_said_in_the_largest_whole_unit(seconds: int, said: str) -> None:
    assert display.span(timedelta(seconds=seconds)) == said


@pytest.mark.usefixtures("in_clinic")
@pytest.mark.parametrize(
    ("before", "said"), [(None, "never"), (timedelta(seconds=30), "just now"), (timedelta(hours=5), "5 hours ago")]
)
def test_how_long_ago_something_was(before: timedelta | None, said: str) -> None:
    assert display.ago(NOW - before if before is not None else None) == said


STEPS = (DropStep(times_a_day=4, until=date(2027, 3, 9)), DropStep(times_a_day=1, until=date(2027, 3, 16)))
PARTS: dict[str, tuple[Any, str, str]] = {
    "nothing": (None, "posture", "none"),
    "an empty word": ("", "notes", "none"),
    "no break": ((), "breaks", "none"),
    "breaks": (
        (Site(clock=11, reach="equator"), Site(clock=2.5, reach="macula")),
        "breaks",
        "11 o’clock equator, 2.5 o’clock macula",
    ),
    "posture": (Positioning(position="face-down", hours_a_day=12, days=5), "posture", "face down, 12 hours a day, 5 days"),
    "baseline": (Baseline(acuity="6/60", iop_mmhg=15), "baseline", "acuity 6/60, pressure 15 mmHg"),
    "an empty baseline": (Baseline(), "baseline", "none"),
    "a time": (NOW, "operated_at", "Fri 5 Mar, 11:00"),
    "a day": (date(2027, 3, 5), "steroid_drops_until", "Fri 5 Mar 2027"),
    "a number": (16.0, "percent", "16"),
    "half a number": (14.25, "percent", "14.2"),
    "a code": ("left", "eye", "left eye"),
    "words": ("as she said", "notes", "as she said"),
    "a visit": ("2027-03-09", "visit day 1", "Tue 9 Mar 2027"),
}


@pytest.mark.usefixtures("in_clinic")
@pytest.mark.parametrize(("value", "key", "said"), PARTS.values(), ids=PARTS.keys())
def test_each_part_of_a_note_is_said_in_words(value: Any, key: str, said: str) -> None:
    assert display.note_part(value, key) == said


@pytest.mark.usefixtures("in_clinic")
def test_drops_are_said_with_how_often_and_each_step_of_a_taper() -> None:
    taper = Drop(name="steroid", times_a_day=4, until=date(2027, 3, 16), steps=STEPS)
    plain = Drop(name="antibiotic", times_a_day=2, until=date(2027, 3, 9))
    said = "steroid, 4 times a day until Tue 9 Mar 2027, then once a day until Tue 16 Mar 2027"
    assert display.drop_words(taper) == said
    assert display.note_part((taper, plain), "drops") == f"{said}; antibiotic, 2 times a day until Tue 9 Mar 2027"


@pytest.mark.usefixtures("in_clinic")
@pytest.mark.parametrize(
    ("value", "digits", "said"), [(1234.56, 0, "1,235"), (1234.56, 1, "1,234.6"), (0.5, 0, "0"), (-3.04, 1, "-3")]
)
def test_a_number_has_the_digits_that_it_is_asked_for(value: float, digits: int, said: str) -> None:
    assert display.number(value, digits) == said


@pytest.mark.parametrize(
    ("language", "said"), [("de", "Fr. 5 März 2027"), ("es", "vie 5 mar 2027"), ("en", "Fri 5 Mar 2027")]
)
def test_a_patients_page_names_days_in_its_language(app: Flask, language: str, said: str) -> None:
    with app.test_request_context(f"/me/?language={language}"):
        assert display.day(date(2027, 3, 5)) == said
        assert display.speaking()["language"] == language


@pytest.mark.parametrize(("language", "direction"), [("ar", "rtl"), ("de", "ltr")])
def test_a_page_says_which_way_it_is_read(app: Flask, language: str, direction: str) -> None:
    with app.test_request_context(f"/me/?language={language}"):
        assert display.speaking()["direction"] == direction


def test_a_phone_number_keeps_its_order_and_is_dialled_without_spaces() -> None:
    assert display.phone("+00 1 <23>") == Markup('<bdi dir="ltr">+00 1 &lt;23&gt;</bdi>')
    assert display.tel("+00 1  23\u00a04") == "tel:+001234"


@pytest.mark.parametrize(
    ("id", "title"),
    [
        ("pressure-high", "Pressure high"),
        ("fellow-pressure-high", "Fellow eye: pressure high"),
        ("fellow-", "Fellow "),
        ("", ""),
    ],
)
def test_a_rule_is_called_by_words(id: str, title: str) -> None:
    assert display.rule_title(id) == title


def test_a_source_that_is_no_more_is_named_by_its_key() -> None:
    assert display.citation("no such source") == "no such source"
    known = next(iter(display.SOURCES))
    assert display.citation(known) == display.SOURCES[known] != known


@pytest.mark.parametrize(
    ("errors", "hint", "told"),
    [
        ([], "", {}),
        ([], "in mmHg", {"aria-describedby": "iop-hint"}),
        (["too high"], "", {"aria-describedby": "iop-error", "aria-invalid": "true"}),
        (["too high"], "in mmHg", {"aria-describedby": "iop-error iop-hint", "aria-invalid": "true"}),
    ],
)
def test_a_screen_reader_hears_the_error_before_the_hint(errors: list[str], hint: str, told: dict[str, str]) -> None:
    field = SimpleNamespace(id="iop", errors=errors)
    assert display.beside(field, hint, {"class": "short"}) == {"class": "short", **told}


@pytest.mark.parametrize("say", [display.words, lambda code, kind: display.WORDS[kind].get(code, code)])
def test_a_code_that_nobody_knows_is_said_as_it_is(say: Callable[[str, str], str]) -> None:
    assert say("of another version", "agent") == "of another version"


def test_times_of_day_have_two_digits(app: Flask) -> None:
    with app.test_request_context("/clinic/"):
        assert display.clock(datetime.combine(date(2027, 3, 5), time(8, 5), UTC)) == "09:05"
