"""What each entry may say at most: the last value that is taken and the first that is not, with the words that a person reads."""

from datetime import UTC, date, datetime, timedelta, timezone
from typing import Any

import pytest
from pydantic import ValidationError

from followup.records.bodies.base import STORED, first_message
from followup.records.bodies.kinds import KINDS
from followup.records.operation_note import Drop, DropStep, between
from followup.records.times import keeps, to_text
from tests.conftest import ZONE, operation_note

MEASURES = {"eye": "right"}
POSTURE = {"position": "face-down", "from": "2027-03-05T07:00:00Z"}
ABSENT = {"visit": "day 1", "visit_id": "v", "on": "2027-03-03", "barrier": "forgot"}
# kind, what else it says, the field, the last values that are taken, the first that are not.
# 0 to 10 for pain: Farrar et al., Pain 2001;94:149, the 11-point numerical rating scale. Other bounds: common practice.
BOUNDS: list[tuple[str, dict[str, Any], str, list[Any], list[Any]]] = [
    ("symptoms", {}, "pain", [0, 10], [-1, 11, 3.5, "a lot"]),
    ("symptoms", {}, "vision", ["better", "same", "worse"], ["gone", True, 1]),
    ("symptoms", {}, "cannot_tell", [[], ["flashes", "curtain"]], [["sleep"], "flashes"]),
    ("symptoms", {}, "words", ["x" * 1000], ["x" * 1001]),
    ("bubble-seen", {}, "percent", [0, 100], [-0.1, 100.1, None]),
    ("journey", {}, "heights_metres", [[0.0], [20.0] * 50], [[], [20.0] * 51]),
    ("drops", {}, "name", ["x" * 60], ["x" * 61]),
    ("visit-request", {}, "visit", ["x" * 60], ["x" * 61]),
    ("posture", POSTURE, "position", ["face-down"], ["standing on the head"]),
    ("posture", POSTURE, "to", ["2027-03-05T09:00:00Z"], ["2027-03-05T06:00:00Z", "2027-03-05T09:00:00", "0026-03-05T09:00:00Z"]),
    ("measures", MEASURES, "eye", ["left"], ["both", "r"]),
    ("measures", MEASURES, "iop_mmhg", [0, 90], [-1, 90.5, float("nan")]),
    ("measures", MEASURES, "pain", [0, 10], [11]),
    ("measures", MEASURES, "bubble_percent", [0, 100], [-1, 101]),
    ("measures", MEASURES, "findings", [[], ["detached"]], [["nothing of note"]]),
    ("measures", MEASURES, "finger", ["soft", "normal", "hard"], ["stone"]),
    ("measures", MEASURES, "acuity", ["6/12", "CF"], ["60", "6/0", "well"]),
    ("measures", MEASURES, "notes", ["x" * 2000], ["x" * 2001]),
    ("did-not-come", ABSENT, "barrier", ["afraid"], ["lazy", ""]),
    ("did-not-come", ABSENT, "on", ["2027-03-03"], ["03.03.2027", "2027-02-30"]),
]  # fmt: skip
TAKEN = [(kind, {**more, field: value}) for kind, more, field, last, _ in BOUNDS for value in last]
REFUSED = [(kind, {**more, field: value}) for kind, more, field, _, first in BOUNDS for value in first]


@pytest.mark.parametrize(("kind", "body"), TAKEN)
def test_the_last_value_is_taken(kind: str, body: dict[str, Any]) -> None:
    assert isinstance(KINDS[kind].model_validate(body), KINDS[kind])


@pytest.mark.parametrize(("kind", "body"), REFUSED)
def test_the_first_value_beyond_is_refused(kind: str, body: dict[str, Any]) -> None:
    with pytest.raises(ValidationError) as raised:
        KINDS[kind].model_validate(body)
    assert "Value error" not in first_message(raised.value)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_nothing_is_taken_under_a_name_that_is_not_known(kind: str) -> None:
    with pytest.raises(ValidationError):
        KINDS[kind].model_validate({**POSTURE, **MEASURES, **ABSENT, "dose": "2 drops"})


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"acuity": "6/12", "acuity_not": "refused"}, "an acuity is written, and it says refused: take one away"),
        ({"pinhole": "6/12", "acuity_not": "unable"}, "an acuity is written, and it says unable: take one away"),
        ({"iop_mmhg": 0, "iop_not": "unable"}, "a pressure is written, and it says unable: take one away"),
        ({"finger": "soft", "iop_not": "refused"}, "a pressure is written, and it says refused: take one away"),
        (
            {"acuity": "6/12", "pinhole": "6/9", "correction": "pinhole"},
            "two acuities with the pinhole are written: say with what the first was read",
        ),
    ],
)
def test_measures_do_not_contradict_themselves(said: dict[str, Any], words: str) -> None:
    with pytest.raises(ValidationError) as raised:
        KINDS["measures"].model_validate({**MEASURES, **said})
    assert first_message(raised.value) == words


@pytest.mark.parametrize("said", [{"acuity_not": "unable"}, {"iop_not": "refused"}, {"acuity": "6/12", "pinhole": "6/9"}])
def test_what_could_not_be_measured_is_said(said: dict[str, Any]) -> None:
    assert KINDS["measures"].model_validate({**MEASURES, **said})


def test_a_text_that_was_kept_before_there_were_limits_stays_readable() -> None:
    long = {"visit": "x" * 500, "words": "y" * 5000}
    assert KINDS["visit-request"].model_validate(long, context=STORED).visit == "x" * 500


@pytest.mark.parametrize(
    ("at", "kept"),
    [
        (datetime(1900, 1, 1, tzinfo=UTC), True),
        (datetime(1899, 12, 31, 23, 59, tzinfo=UTC), False),
        (datetime(2200, 12, 31, 23, 59, tzinfo=UTC), True),
        (datetime(2201, 1, 1, tzinfo=UTC), False),
        (datetime(1900, 1, 1, 1, tzinfo=timezone(timedelta(hours=2))), False),
        (datetime(2200, 12, 31, 23, tzinfo=timezone(timedelta(hours=-2))), False),
    ],
)
def test_times_are_kept_in_years_of_one_width_also_in_utc(at: datetime, kept: bool) -> None:
    assert keeps(at) is kept
    if kept:
        assert len(to_text(at)) == len("2027-03-05T08:00:00.000000Z")
    else:
        with pytest.raises(ValueError, match="cannot be kept; accepted is 1900 to 2200"):
            to_text(at)


def test_a_time_without_its_offset_is_asked_back() -> None:
    with pytest.raises(ValueError, match="a time needs its offset"):
        to_text(datetime(2027, 3, 5))


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"drops": [{"name": "", "times_a_day": 4, "until": "2027-03-09"}]}, "the name of a drop has 1 to 60 characters"),
        ({"drops": [{"name": "x", "times_a_day": 0, "until": "2027-03-09"}]}, "x: a drop is taken 1 to 24 times a day"),
        ({"drops": [{"name": "x", "times_a_day": 25, "until": "2027-03-09"}]}, "x: a drop is taken 1 to 24 times a day"),
        ({"drops": [{"name": "x", "times_a_day": 1, "until": "2027-03-09"}] * 13}, "write at most 12 drops"),
        ({"operated_at": datetime(2027, 3, 2, 14)}, "the time of surgery needs its offset"),
    ],
)
def test_an_operation_note_is_bounded(changes: dict[str, Any], words: str) -> None:
    with pytest.raises(ValidationError) as raised:
        operation_note(**changes)
    assert first_message(raised.value) == words


def test_a_taper_is_written_with_its_steps_and_a_plain_drop_without() -> None:
    plain = Drop(name="antibiotic", times_a_day=4, until=date(2027, 3, 9))
    steps = (DropStep(times_a_day=4, until=date(2027, 3, 9)), DropStep(times_a_day=2, until=date(2027, 3, 16)))
    taper = Drop(name="steroid", times_a_day=4, until=date(2027, 3, 16), steps=steps)
    assert plain.model_dump(mode="json") == {"name": "antibiotic", "times_a_day": 4, "until": "2027-03-09"}
    assert len(taper.model_dump(mode="json")["steps"]) == 2
    assert Drop.of(plain.prescribed) == plain
    assert Drop.of(taper.prescribed) == taper


@pytest.mark.parametrize(
    ("until", "ends"),
    [
        (None, None),
        (date(2027, 3, 20), "2027-03-20T23:00:00+00:00"),
        (date(2027, 3, 28), "2027-03-28T22:00:00+00:00"),  # summer time begins that day in Vienna: Directive 2000/84/EC
    ],
)
def test_steroid_drops_end_with_their_last_local_day(until: date | None, ends: str | None) -> None:
    end = operation_note(steroid_drops_until=until).steroid_end(ZONE)
    assert (end.astimezone(UTC).isoformat() if end else None) == ends


def test_what_differs_between_two_notes_stands_in_the_order_of_the_form() -> None:
    before = operation_note(breaks=[{"clock": 11, "reach": "equator"}, {"clock": 2, "reach": "ora"}])
    turned = before.model_copy(update={"breaks": tuple(reversed(before.breaks))})
    changed = turned.model_copy(update={"agent": "sf6", "eye": "left", "notes": "again"})
    assert between(before, turned) == []
    assert [name for name, _, _ in between(before, changed)] == ["eye", "agent", "notes"]
