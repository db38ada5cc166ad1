"""Today's list: who is here, due, missing, seen and coming, the most urgent first; nobody too early, nobody too late."""

from datetime import UTC, date, datetime, time, timedelta

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import lines
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.today import arrivals, lists
from followup.care.visits import book, visit
from followup.clinical import schedule
from followup.records import Store, visits
from followup.records.bodies.clinic import MeasuresBody
from tests.conftest import NOW, OPERATED, ZONE, operation_note, patient_details

FRIDAY = date(2027, 3, 5)  # the clinic's day of `NOW`
DAY = timedelta(days=1)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


def patient(desk: Desk, number: str, target: date, latest: date | None = None) -> str:
    """Somebody with one planned visit; returns the eye's id."""
    window = schedule.Window("check", target, target, latest or target, "retina")
    at = Desk(desk.store, OPERATED + timedelta(hours=5), desk.actor, ZONE)
    details = patient_details(number).model_copy(update={"name": f"Pat {number}"})
    return leaving.discharge(at, details, operation_note(posture=None), [window])[0]


def measured(desk: Desk, eye_id: str, **what: object) -> None:
    body = MeasuresBody.model_validate({"eye": "right", "instrument": "applanation", **what})
    visit.record_visit(desk, eye_id, [body])


def listed(desk: Desk, now: datetime = NOW) -> list[tuple[str, str]]:
    """(number, state), in order."""
    return [(d.eye.patient.number, d.state) for d in lists.due_in(desk.store, now, ZONE, lists.STATES)]


def test_of_those_due_on_a_day_the_most_urgent_come_first(desk: Desk) -> None:
    eyes = {number: patient(desk, number, FRIDAY) for number in ("A", "B", "C", "D")}
    measured(desk, eyes["B"], iop_mmhg=62)  # now
    measured(desk, eyes["C"], iop_mmhg=34)  # today
    measured(desk, eyes["D"], iop_mmhg=34)
    assert [d.how_soon for d in lists.of_the_day(desk.store, NOW, ZONE)] == ["now", "today", "today", None]
    assert [number for number, _ in listed(desk)] == ["B", "C", "D", "A"]
    by_time = lists.due_in(desk.store, NOW, ZONE, lists.ON_THE_DAY)
    assert [d.eye.patient.number for d in by_time] == ["B", "C", "D", "A"]


def test_with_times_the_day_runs_by_them_and_without_one_comes_last(desk: Desk) -> None:
    for number in ("A", "B", "C"):
        patient(desk, number, FRIDAY)
    due = {d.eye.patient.number: d.visit for d in lists.due_in(desk.store, NOW, ZONE, lists.STATES)}
    for number, starts in (("A", time(11)), ("B", time(9))):
        book.put_on(desk, due[number], FRIDAY, starts, "")
    assert [d.eye.patient.number for d in lists.due_in(desk.store, NOW, ZONE, lists.ON_THE_DAY)] == ["B", "A", "C"]


@pytest.mark.parametrize(
    ("days", "state"),
    [(-4, "missed"), (-1, "missed"), (0, "due"), (1, "coming"), (7, "coming"), (8, None)],
)
def test_a_visit_is_missed_only_after_its_latest_day_and_comes_into_view_a_week_before(
    desk: Desk, days: int, state: str | None
) -> None:
    patient(desk, "A", FRIDAY + days * DAY) if days > -3 else patient(desk, "A", date(2027, 3, 3))
    assert dict(listed(desk)).get("A") == state


def test_a_visit_waits_until_its_window_ends(desk: Desk) -> None:
    patient(desk, "A", FRIDAY, FRIDAY + 2 * DAY)
    states = [dict(listed(desk, NOW + n * DAY))["A"] for n in range(4)]
    assert states == ["due", "due", "due", "missed"]


@pytest.mark.parametrize(
    ("at", "state"), [(datetime(2027, 3, 5, 22, 59, tzinfo=UTC), "due"), (datetime(2027, 3, 5, 23, tzinfo=UTC), "missed")]
)
def test_the_day_is_the_clinic_s(desk: Desk, at: datetime, state: str) -> None:
    """Vienna is an hour ahead: its Friday ends at 23:00 UTC."""
    patient(desk, "A", FRIDAY)
    assert listed(desk, at) == [("A", state)]


def test_who_came_is_here_that_day_only_and_who_was_seen_stands_below(desk: Desk) -> None:
    first, second = patient(desk, "A", FRIDAY, FRIDAY + 2 * DAY), patient(desk, "B", FRIDAY)
    (planned,) = visits.of_eye(desk.store, first)
    arrivals.arrive(desk, first, planned.identity)
    visit.record_visit(desk, second, [], visit="check")
    assert listed(desk) == [("A", "here"), ("B", "seen")]
    assert listed(desk, NOW + DAY) == [("A", "due")]


def test_the_worst_of_an_eye_s_worries_is_named_and_the_others_counted(desk: Desk) -> None:
    eye = patient(desk, "A", FRIDAY)
    measured(desk, eye, iop_mmhg=34)
    measured(desk, eye, pain=9, findings=("detached",))
    (due,) = lists.due_in(desk.store, NOW, ZONE, lists.STATES)
    found = [c.how_soon for line in lines.listed(desk).lines for c in line.callbacks]
    assert due.how_soon == min(found, key=["now", "today", "this-week"].index)
    assert due.reason.endswith(f"And {len(found) - 1} more.")


def test_the_list_of_calls_begins_with_the_most_urgent(desk: Desk) -> None:
    mild, severe = patient(desk, "A", FRIDAY), patient(desk, "B", FRIDAY)
    measured(desk, mild, iop_mmhg=34)
    measured(Desk(desk.store, NOW + timedelta(minutes=5), desk.actor, ZONE), severe, iop_mmhg=62)
    assert [line.worst.how_soon for line in lines.listed(desk).lines] == ["now", "today"]


def test_what_a_visit_raised_is_told_from_the_most_urgent(desk: Desk) -> None:
    body = MeasuresBody.model_validate({"eye": "right", "instrument": "applanation", "iop_mmhg": 62, "pain": 5})
    raised = [w.how_soon for w in visit.record_visit(desk, patient(desk, "A", FRIDAY), [body])]
    assert raised[0] == "now"
    assert raised == sorted(raised, key=["now", "today", "this-week"].index)
    assert len(set(raised)) > 1


def test_a_change_is_told_until_the_later_of_its_two_days_is_over(desk: Desk) -> None:
    patient(desk, "A", FRIDAY)
    (due,) = lists.due_in(desk.store, NOW, ZONE, lists.STATES)
    book.put_on(desk, due.visit, FRIDAY + 3 * DAY, None, "")
    waits = [bool(lists.to_tell(desk.store, FRIDAY + n * DAY)) for n in range(5)]
    assert waits == [True, True, True, True, False]
