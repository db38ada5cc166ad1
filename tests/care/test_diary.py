"""A day of the paper diary: which day can be, when it counts, and where its hours lie.

Summer time begins on 28 March 2027 at 1 h UTC (Directive 2000/84/EC). All else: common practice, no source.
"""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.visits import diary
from followup.records import Store, audit, events, eyes
from followup.records.bodies.home import SymptomsBody
from tests.conftest import NOW, ZONE, operation_note
from tests.records.rows import fellow, known

WELL = SymptomsBody(pain=0)
TODAY, YESTERDAY = date(2027, 3, 5), date(2027, 3, 4)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


def at(store: Store, desk: Desk, eye_id: str, operated_at: datetime, **changes: Any) -> str:
    """The eye, with its note put right to another time of surgery."""
    note = operation_note(operated_at=operated_at, steroid_drops_until=None, **changes)
    eyes.add_note(store, NOW, known(eyes.eye(store, eye_id)).note.operation_id, note, ZONE, "nurse:n", "another time")
    return eye_id


def postured(store: Store, eye_id: str) -> tuple[datetime, datetime | None]:
    (event,) = [e for e in events.of_eye(store, eye_id) if e.kind == "posture"]
    return event.body.start, event.body.end


def test_an_answer_counts_at_the_evening_of_its_day_or_now_where_that_is_to_come(
    store: Store, desk: Desk, eye_id: str
) -> None:
    for day in (YESTERDAY, TODAY):
        diary.enter(desk, eye_id, day, WELL)
    found = [(e.at, e.received_at, e.author) for e in events.of_eye(store, eye_id)]
    evening = datetime(2027, 3, 4, 19, tzinfo=UTC)  # 20 h in Vienna
    assert found == [(evening, NOW, desk.actor.signature), (NOW, NOW, desk.actor.signature)]


@pytest.mark.parametrize(
    ("day", "answers", "hours", "fault"),
    [
        (TODAY + timedelta(days=1), WELL, None, "this day is still to come"),
        (TODAY, None, None, "nothing was entered"),
        (date(2027, 3, 1), WELL, None, "the diary begins with surgery, 2 March 2027"),
        (YESTERDAY, None, 0, "write 0 to 24 hours; leave it empty for none"),
        (YESTERDAY, None, 24.5, "write 0 to 24 hours"),
        (YESTERDAY, WELL, -1, "write 0 to 24 hours"),
    ],
)
def test_a_day_that_cannot_be_is_refused_whole(
    store: Store, desk: Desk, eye_id: str, day: date, answers: SymptomsBody | None, hours: float | None, fault: str
) -> None:
    before = audit.head(store)
    with pytest.raises(CareError, match=fault):
        diary.enter(desk, eye_id, day, answers, hours)
    assert (events.of_eye(store, eye_id), audit.head(store)) == ([], before)


def test_surgery_of_the_night_is_named_by_the_clinics_day(store: Store, desk: Desk, eye_id: str) -> None:
    at(store, desk, eye_id, datetime(2027, 3, 3, 23, 30, tzinfo=UTC))
    with pytest.raises(CareError, match="the diary begins with surgery, 4 March 2027"):
        diary.enter(desk, eye_id, date(2027, 3, 3), WELL)


def test_an_eye_without_surgery_has_no_diary(store: Store, desk: Desk, eye_id: str) -> None:
    with pytest.raises(CareError, match="this eye was not operated"):
        diary.enter(desk, fellow(store, eye_id), YESTERDAY, WELL)


def test_hours_need_a_position_that_was_planned_and_answers_do_not(store: Store, desk: Desk, eye_id: str) -> None:
    at(store, desk, eye_id, datetime(2027, 3, 2, 14, tzinfo=UTC), posture=None)
    with pytest.raises(CareError, match="no head position is planned"):
        diary.enter(desk, eye_id, YESTERDAY, WELL, 3)
    diary.enter(desk, eye_id, YESTERDAY, WELL)
    assert [e.kind for e in events.of_eye(store, eye_id)] == ["symptoms"]


@pytest.mark.parametrize(
    ("day", "hours", "start", "end"),
    [
        (YESTERDAY, 3, datetime(2027, 3, 4, 16, tzinfo=UTC), datetime(2027, 3, 4, 19, tzinfo=UTC)),
        (YESTERDAY, 24, datetime(2027, 3, 3, 23, tzinfo=UTC), datetime(2027, 3, 4, 19, tzinfo=UTC)),  # its midnight
        (TODAY, 2, NOW - timedelta(hours=2), NOW),
        (TODAY, 24, datetime(2027, 3, 4, 23, tzinfo=UTC), NOW),
    ],
)
def test_the_hours_of_a_day_lie_on_that_day(
    store: Store, desk: Desk, eye_id: str, day: date, hours: float, start: datetime, end: datetime
) -> None:
    diary.enter(desk, eye_id, day, None, hours)
    assert postured(store, eye_id) == (start, end)


def test_the_day_on_which_summer_time_begins_has_an_hour_less(store: Store, nurse: Actor, eye_id: str) -> None:
    monday = Desk(store, datetime(2027, 3, 29, 10, tzinfo=UTC), nurse, ZONE)
    diary.enter(monday, eye_id, date(2027, 3, 28), None, 24)
    assert postured(store, eye_id) == (datetime(2027, 3, 27, 23, tzinfo=UTC), datetime(2027, 3, 28, 18, tzinfo=UTC))


def test_each_entry_of_a_day_has_its_own_line_in_the_audit(store: Store, desk: Desk, eye_id: str) -> None:
    diary.enter(desk, eye_id, YESTERDAY, WELL, 3)
    first, second = (e.id for e in events.of_eye(store, eye_id))
    noted = [row for row in audit.of_subject(store, eye_id) if row["action"].startswith("diary ")]
    assert [row["action"] for row in noted] == ["diary symptoms", "diary posture"]
    assert [[id in row["detail"] for row in noted].count(True) for id in (first, second)] == [1, 1]
