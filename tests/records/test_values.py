"""How a row becomes a value: each column parsed by the type of its field, and what cannot be says so."""

from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest

from followup.records import Store, eyes, visits
from followup.records.bodies.clinic import MeasuresBody, SeenBody
from followup.records.bodies.home import DropsBody, PostureBody
from followup.records.bodies.kinds import KINDS, body_of, moved, times_in
from followup.records.values import Callback, Event, Eye, Patient, Visit, as_object, made, saying
from tests.conftest import NOW
from tests.records.rows import callback, known, person, right, visit


@dataclass(frozen=True)
class Everything:
    """A field of each type that rows are parsed into."""

    word: str
    number: int
    at: datetime
    day: date
    hour: time | None
    is_so: bool
    maybe: bool | None
    said: dict[str, Any]
    several: list[str]
    later: datetime | None = None
    more: tuple[str, ...] = field(default=())


ROW = {
    "word": "x", "number": 3, "at": "2027-03-05T10:00:00.000000Z", "day": "2027-03-05", "hour": "09:40", "is_so": 1,
    "maybe": 0, "said": '{"a": 1}', "several": '["b", "c"]', "later": None,
}  # fmt: skip


def test_each_column_is_parsed_by_the_type_of_its_field() -> None:
    assert made(Everything, ROW, more=("d",)) == Everything(
        "x", 3, NOW, date(2027, 3, 5), time(9, 40), True, False, {"a": 1}, ["b", "c"], None, ("d",)
    )


@pytest.mark.parametrize("name", ["hour", "maybe", "later"])
def test_what_may_be_missing_is_none_where_it_is(name: str) -> None:
    assert getattr(made(Everything, {**ROW, name: None}, more=()), name) is None


def test_what_is_given_takes_the_place_of_the_column_and_is_not_parsed() -> None:
    assert made(Everything, ROW, more=(), said={"b": 2}, at=NOW + timedelta(days=1)).said == {"b": 2}
    assert made(Everything, {**ROW, "said": "not json"}, more=(), said={}).said == {}


def test_columns_that_no_field_asks_for_are_left() -> None:
    assert made(Everything, {**ROW, "another": object()}, more=()).word == "x"


@pytest.mark.parametrize(
    ("name", "held"),
    [
        ("at", None),
        ("at", "2027-03-05 10:00"),
        ("day", "05.03.2027"),
        ("day", "2027-02-29"),
        ("hour", "25:00"),
        ("said", "[1]"),
        ("said", "{"),
        ("several", "{"),
    ],
)
def test_what_cannot_be_is_refused(name: str, held: Any) -> None:
    with pytest.raises((ValueError, TypeError)):
        made(Everything, {**ROW, name: held}, more=())


@pytest.mark.parametrize("text", ["null", "[]", '"x"', "3", "", "{"])
def test_only_an_object_is_an_object(text: str) -> None:
    with pytest.raises(ValueError, match=r"not an object|Expecting"):
        as_object(text)


def test_values_are_never_changed_in_place(store: Store, eye_id: str) -> None:
    eye, call = known(eyes.eye(store, eye_id)), callback(store, eye_id)
    for value, name in ((eye, "side"), (eye.patient, "name"), (call, "state"), (visits.of_eye(store, eye_id)[0], "target")):
        with pytest.raises((AttributeError, TypeError)):
            setattr(value, name, "x")


# --- What a value says of itself ---


@pytest.mark.parametrize(("days", "holds"), [(-1, False), (0, True), (3, True), (6, True), (7, False)])
def test_a_window_holds_its_first_and_its_last_day(store: Store, eye_id: str, days: int, holds: bool) -> None:
    first = date(2027, 4, 1)
    id = visits.add(store, NOW, eye_id, "x", first + timedelta(days=3), first, first + timedelta(days=6), "", "nurse:n")
    assert known(visits.visit(store, id)).holds(first + timedelta(days=days)) is holds


@pytest.mark.parametrize(
    ("since", "ended", "followed"), [(None, None, False), (NOW, None, True), (NOW, NOW, False), (None, NOW, False)]
)
def test_an_eye_is_followed_from_its_beginning_until_its_end(
    store: Store, since: datetime | None, ended: datetime | None, followed: bool
) -> None:
    patient = person(store)
    eye = Eye("e", "right", patient, None, since, ended, None)
    assert (eye.is_followed, eye.agent) == (followed, "none")


@pytest.mark.parametrize(("by", "app"), [("", True), ("own-phone", True), ("carer-phone", True), ("no-app", False)])
def test_entries_are_waited_for_unless_somebody_said_that_there_is_no_app(by: str, app: bool) -> None:
    patient = Patient("p", "N-1", "Ada Ash", date(1950, 1, 2), "", "en", NOW, None, by, None, "")
    assert patient.has_app is app


def test_an_hour_is_kept_to_the_minute(store: Store, eye_id: str) -> None:
    assert visit(store, eye_id, date(2027, 4, 1), starts=time(9, 5, 59)).starts == time(9, 5)


def test_entries_of_one_kind_are_picked_with_what_they_say(store: Store, eye_id: str) -> None:
    def event(id: str, body: Any) -> Event:
        return Event(id, eye_id, body.KIND, NOW, body, "nurse:n", None, NOW, None, "")

    said = [event("a", SeenBody(visit="x")), event("b", DropsBody(name="y")), event("c", SeenBody(visit="z"))]
    assert [(e.id, body.visit) for e, body in saying(said, SeenBody)] == [("a", "x"), ("c", "z")]


# --- Bodies ---

START, END = datetime(2027, 3, 5, 8, tzinfo=UTC), datetime(2027, 3, 5, 9, tzinfo=UTC)
POSTURED = PostureBody(position="face-down", start=START, end=END)


def test_a_phones_times_are_moved_inside_the_entry_too() -> None:
    later = moved(POSTURED, timedelta(minutes=7))
    assert times_in(later) == [START + timedelta(minutes=7), END + timedelta(minutes=7)]
    assert times_in(POSTURED) == [START, END]


def test_a_stretch_that_still_runs_has_one_time() -> None:
    running = PostureBody(position="face-down", start=START)
    assert times_in(moved(running, timedelta(minutes=7))) == [START + timedelta(minutes=7)]


@pytest.mark.parametrize("skew", [timedelta(0), timedelta(hours=1)])
def test_what_holds_no_time_stays_as_it_is(skew: timedelta) -> None:
    body = MeasuresBody(eye="right", iop_mmhg=15)
    assert moved(body, skew) is body
    assert times_in(body) == []


def test_an_unknown_kind_is_refused_with_those_that_are_known() -> None:
    with pytest.raises(ValueError, match="“sleep” is not a known kind of entry; accepted are: symptoms, posture"):
        body_of("sleep", {})
    assert {body_of("no-gas-seen", {}).KIND, body_of("heard", {}).KIND} <= set(KINDS)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        ({"pain": 11}, "pain: Input should be less than or equal to 10"),
        ({"cannot_tell": ["sleep"]}, "cannot_tell.0: "),
        ({"words": "x" * 1001}, "words: write at most 1000 characters"),
    ],
)
def test_what_is_wrong_is_told_with_its_field(said: dict[str, Any], words: str) -> None:
    with pytest.raises(ValueError, match=f"^{words}"):
        body_of("symptoms", said)


def test_a_callback_knows_nothing_of_a_row_that_lacks_a_column(store: Store) -> None:
    for kind in (Callback, Visit):
        with pytest.raises(KeyError):
            made(kind, {"id": "x"})
    assert right(store, person(store)).note is None
