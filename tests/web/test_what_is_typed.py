"""What is typed into a field and what a device sends: read once, refused in words, and never half.

Common practice, no source, where none is named.
"""

import gzip
import json
from collections.abc import Iterator
from datetime import UTC, date, datetime
from typing import Any

import pytest
from flask import Flask
from markupsafe import escape
from werkzeug.datastructures import MultiDict
from wtforms import Form, SelectField, StringField
from wtforms.fields.choices import SelectChoice

from followup.care.errors import CareError
from followup.care.home.senders import Unreadable
from followup.records.bodies.clinic import SeenBody
from followup.records.values import Event
from followup.web import context, sent
from followup.web.clinic.entry_form import EntryForm
from followup.web.fields import (
    PLAN_POSITIONS,
    AcuityText,
    DayField,
    NumberText,
    PressureText,
    asked_with_position,
    choices,
    filled,
    say_beside,
    to_choose,
)
from tests.conftest import ZONE


class Typed(Form):
    percent = NumberText("Percent", low=0, high=100, unit=" %")
    days = NumberText("Days", low=1, high=30, whole=True)
    on = DayField("On")
    iop = PressureText("Pressure")
    notation = SelectField("Chart", choices=[SelectChoice(n, n) for n in ("", "decimal", "snellen")])
    acuity = AcuityText("Acuity", notation="notation")
    words = StringField("Words")


def typed(**fields: str) -> Typed:
    form = Typed(MultiDict({"notation": "", **fields}))
    form.validate()
    return form


def fault(form: Typed, name: str) -> str | None:
    return next((str(error) for error in form[name].errors), None)


# --- Fields ---


@pytest.mark.parametrize(
    ("text", "number"),
    [("16", 16), ("16,5", 16.5), ("16.5 %", 16.5), (" 0 ", 0), ("100", 100), ("", None), (" ", None), ("1e1", 10)],
)
def test_a_number_is_read_as_people_type_it(text: str, number: float | None) -> None:
    form = typed(percent=text)
    assert (form.percent.number, fault(form, "percent")) == (number, None)


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("percent", "100,1", "100,1 is out of range; accepted is 0 to 100 %"),
        ("percent", "-1", "-1 is out of range; accepted is 0 to 100 %"),
        ("percent", "much", "“much” is not a number; accepted is 0 to 100 %"),
        ("percent", "nan", "“nan” is not a number; accepted is 0 to 100 %"),
        ("percent", "inf", "“inf” is not a number; accepted is 0 to 100 %"),
        ("days", "2,5", "2,5 is not a whole number; accepted is 1 to 30"),
        ("days", "31", "31 is out of range; accepted is 1 to 30"),
        ("on", "5.3.2027", "“5.3.2027” is not a date; write day, month and the year with four digits"),
        ("on", "2027-02-29", "“2027-02-29” is not a date; write day, month and the year with four digits"),
        ("iop", "<5", "“<5” is a bound, not a pressure"),
        ("iop", "91", "91"),
        ("acuity", "6/0", "6/0"),
    ],
)
def test_what_cannot_be_is_said_with_what_was_typed_and_stays_in_the_field(name: str, text: str, said: str) -> None:
    form = typed(**{name: text})
    assert said in (fault(form, name) or "")
    assert escape(text) in form[name]()


def test_spaces_are_no_date_and_a_date_is_one() -> None:
    assert not typed(on="  ").on.errors
    assert typed(on="2028-02-29").on.data == date(2028, 2, 29)


@pytest.mark.parametrize(("text", "mmhg"), [("31", 31), ("4,1 kPa", 30.8), ("15 mm Hg", 15), ("", None)])
def test_a_pressure_is_in_mmhg_whatever_it_was_written_in(text: str, mmhg: float | None) -> None:
    """1 kPa is 7.50062 mmHg: NIST Special Publication 811 (2008), appendix B.8; kept to a tenth."""
    assert typed(iop=text).iop.mmhg == mmhg


def test_a_pressure_is_read_anew_where_another_was_written() -> None:
    form = typed(iop="31")
    assert form.iop.mmhg == form.iop.mmhg == 31
    form.iop.data = "2 kPa"
    assert form.iop.mmhg == 15
    form.iop.data = " "
    assert form.iop.mmhg is None


class Plan(Form):
    position = SelectField("Position", choices=PLAN_POSITIONS)
    hours = NumberText("Hours", validators=[asked_with_position], low=1, high=24)


@pytest.mark.parametrize(
    ("position", "hours", "said"),
    [
        ("", "", None),
        ("face-down", "12", None),
        ("face-down", "", "write this for the head position, or choose no posturing"),
        ("face-down", "25", "25 is out of range; accepted is 1 to 24"),
        ("", "12", None),
    ],
)
def test_a_head_position_is_asked_for_its_hours(position: str, hours: str, said: str | None) -> None:
    form = Plan(MultiDict({"position": position, "hours": hours}))
    form.validate()
    assert [str(error) for error in form.hours.errors] == ([said] if said else [])


def test_nobody_is_asked_to_lie_on_the_back_with_a_plan() -> None:
    assert {choice.value for choice in PLAN_POSITIONS} == {"", "face-down", "upright", "left-cheek", "right-cheek"}


@pytest.mark.parametrize(
    ("chart", "text", "read"), [("", "6/12", True), ("decimal", "0.5", True), ("", "0.5", False), ("", " ", True)]
)
def test_an_acuity_is_read_by_the_chart_that_was_chosen(chart: str, text: str, read: bool) -> None:
    assert (fault(typed(notation=chart, acuity=text), "acuity") is None) is read


@pytest.mark.parametrize(("text", "stands"), [("x", True), (" ", False), ("", False)])
def test_spaces_fill_no_field(text: str, stands: bool) -> None:
    assert filled(typed(words=text).words) is stands


def test_what_is_wrong_fills_its_field() -> None:
    assert filled(typed(percent="much").percent)


@pytest.mark.parametrize(("field", "beside"), [("words", "words"), ("unknown", "percent"), ("", "percent")])
def test_a_refusal_is_said_beside_its_field_else_beside_the_one_named(field: str, beside: str) -> None:
    form = typed()
    say_beside(form, CareError("not so", field), "percent")
    assert {name: list(errors) for name, errors in form.errors.items()} == {beside: ["not so"]}


def test_a_refusal_that_belongs_to_no_field_is_an_answer_of_its_own() -> None:
    with pytest.raises(CareError, match="not so"):
        say_beside(typed(), CareError("not so", "unknown"))


def test_nothing_is_chosen_for_whoever_has_to_choose() -> None:
    assert [tuple(choice)[:2] for choice in map(_pair, choices({"a": "one thing"}))] == [("a", "One thing")]
    assert _pair(to_choose({"a": "one"})[0]) == ("", "– choose –")


def _pair(choice: Any) -> tuple[str, str]:
    return choice.value, choice.label


# Summer time ends on 31 October 2027 at 1 h UTC (Directive 2000/84/EC): half past two is there twice.
@pytest.mark.parametrize(
    ("stands_at", "written", "told"),
    [
        (datetime(2027, 10, 31, 0, 30, 12, tzinfo=UTC), "2027-10-31T02:30", None),
        (datetime(2027, 10, 31, 1, 30, 12, tzinfo=UTC), "2027-10-31T02:30", None),
        (datetime(2027, 10, 31, 1, 30, tzinfo=UTC), "2027-10-31T02:31", datetime(2027, 10, 31, 0, 31, tzinfo=UTC)),
        (datetime(2027, 3, 5, 10, 0, tzinfo=UTC), "2027-03-05T10:59", datetime(2027, 3, 5, 9, 59, tzinfo=UTC)),
    ],
)
def test_a_time_that_was_left_as_it_stood_moves_nothing(
    app: Flask, stands_at: datetime, written: str, told: datetime | None
) -> None:
    event = Event("e", "eye", "seen", stands_at, SeenBody(visit="x"), "nurse:n", None, stands_at, None, "")
    with app.test_request_context("/", method="POST", data={"at": written}):
        found = EntryForm(meta={"csrf": False}).time(event, ZONE)
    assert (found and found.astimezone(UTC)) == told


# --- What a device sends ---


def read(app: Flask, data: bytes, **headers: str) -> Any:
    with app.test_request_context("/api/v1/events", method="POST", data=data, headers=headers):
        return sent.sent_events()


def test_entries_come_as_they_were_sent_with_the_time_of_the_sender(app: Flask) -> None:
    found = read(app, json.dumps({"events": [{"id": "a"}, 7, None, "x"], "sent_at": "now"}).encode())
    assert (found.events, found.sent_at) == ([{"id": "a"}, 7, None, "x"], "now")


@pytest.mark.parametrize(
    "data", [b"", b"[]", b"{}", b'{"events": {}}', b'{"events": null}', b"7", b"\xff\xfe", b'{"events": [1, 2']
)
def test_what_is_no_batch_is_none(app: Flask, data: bytes) -> None:
    assert read(app, data) is None


@pytest.mark.parametrize(
    ("text", "events"),
    [
        ('{"events": [{"id": "a", "n": NaN-}, {"id": "b"}]}', [Unreadable('{"id": "a", "n": NaN-}', "a"), {"id": "b"}]),
        (
            '{"events": [{"id": "a"}, {"w": "x, ] } \\" [", "n": 01}]}',
            [{"id": "a"}, Unreadable(' {"w": "x, ] } \\" [", "n": 01}', "")],
        ),
        ('{"events": [oops, [1, [2, 3]]]}', [Unreadable("oops", ""), [1, [2, 3]]]),
        ('{"sent_at": "now", "events": [01]}', [Unreadable("01", "")]),
    ],
)
def test_one_entry_that_is_no_json_takes_no_other_with_it(app: Flask, text: str, events: list[object]) -> None:
    found = read(app, text.encode())
    assert found.events == events


def test_the_time_of_the_sender_is_read_around_an_entry_that_is_no_json(app: Flask) -> None:
    assert read(app, b'{"sent_at": "before", "events": [01]}').sent_at == "before"
    assert read(app, b'{"events": [01], "sent_at": "after"}').sent_at == "after"


def test_a_gzipped_batch_is_the_same_and_half_of_one_is_none(app: Flask) -> None:
    packed = gzip.compress(json.dumps({"events": [1, 2]}).encode())
    assert read(app, packed, **{"Content-Encoding": "gzip"}).events == [1, 2]
    assert read(app, packed[:-12], **{"Content-Encoding": "gzip"}) is None
    assert read(app, b"not packed", **{"Content-Encoding": "gzip"}) is None


@pytest.mark.parametrize(("more", "taken"), [(0, True), (1, False)])
def test_what_unpacks_to_more_than_is_taken_is_none(
    app: Flask, monkeypatch: pytest.MonkeyPatch, more: int, taken: bool
) -> None:
    data = json.dumps({"events": ["x" * 5000]}).encode()
    monkeypatch.setattr(sent, "MAX_UNPACKED_BYTES", len(data) - more)
    assert (read(app, gzip.compress(data), **{"Content-Encoding": "gzip"}) is not None) is taken


# --- Addresses ---


@pytest.fixture
def at(app: Flask) -> Iterator[Any]:
    def ask(path: str, **headers: str) -> Any:
        return app.test_request_context(path, headers=headers)

    return ask


@pytest.mark.parametrize(
    "target",
    [
        "//elsewhere.invalid",
        "https://elsewhere.invalid/",
        "elsewhere",
        "",
        None,
        "/\\elsewhere.invalid",
        "/a\nb",
        "javascript:x",
        "\t/clinic",
    ],
)
def test_nobody_is_led_out_of_the_application(target: str | None) -> None:
    assert context.inside(target) is None


@pytest.mark.parametrize("target", ["/", "/clinic/?find=a%20b#line", "/clinic/eyes/1"])
def test_a_path_of_ours_leads_where_it_says(target: str) -> None:
    assert context.inside(target) == target


@pytest.mark.parametrize(
    ("asked", "page"),
    [("", 1), ("2", 2), ("0", 0), ("-1", 1), ("x", 1), ("999999", 999999), ("1000000", 1), ("²", 1), ("1.5", 1)],
)
def test_which_page_of_a_list_is_asked_for(at: Any, asked: str, page: int) -> None:
    with at(f"/clinic/?page={asked}"):
        assert context.page() == page


@pytest.mark.parametrize(
    ("path", "accepted", "own", "spoken"),
    [
        ("/me/?language=ar", "de", "es", "ar"),
        ("/me/", "de-AT,en;q=0.5", "es", "de"),
        ("/me/", "ar-EG,en;q=0.9", "es", "ar"),
        ("/me/", "en;q=0.2,DE-at;q=0.1", "es", "en"),
        ("/me/", "de;q=0,en-GB;q=0.3", "es", "en"),
        ("/me/", "fr", "es", "es"),
        ("/me/", "fr,*;q=0.5", "es", "es"),
        ("/me/?language=fr", "es;q=0.3,ar", "en", "ar"),
        ("/me/", "", "xx", "en"),
    ],
)
def test_the_address_speaks_before_the_browser_and_the_browser_before_the_clinic(
    at: Any, path: str, accepted: str, own: str, spoken: str
) -> None:
    """Weights: RFC 9110, section 12.5.4; a language of one country is the language: RFC 4647, section 3.4 (lookup)."""
    with at(path, **{"Accept-Language": accepted}):
        assert context.asked_language(own) == spoken


def test_a_code_for_the_card_is_read_for_its_own_eye_alone(at: Any) -> None:
    with at("/clinic/"):
        assert context.kept_code("eye") is None
        context.keep_code("eye", "ABCD2345")
        assert (context.kept_code("eye"), context.kept_code("another")) == ("ABCD2345", None)
        assert "ABCD2345" not in str(dict(context.session))
        context.session["code"] = "forged"
        assert context.kept_code("eye") is None
