"""The book of visits as rows: each keeps its identity through every change, and only what stands is read."""

from datetime import date, datetime, time, timedelta

import pytest

from followup.care.actors import Actor
from followup.records import Store, eyes, visits
from followup.records.values import Visit
from tests.conftest import NOW

DAY = date(2027, 4, 1)


def entered(store: Store, eye_id: str, name: str = "extra", day: date = DAY, at: datetime = NOW) -> Visit:
    id = visits.add(store, at, eye_id, name, day, day, day + timedelta(days=3), "retina", "nurse:n")
    found = visits.visit(store, id)
    assert found is not None
    return found


def moved(store: Store, visit: Visit, day: date, at: datetime = NOW) -> Visit:
    id = visits.change(store, at, visit, "nurse:m", "the ward asked", target=day, earliest=day, latest=day)
    found = visits.visit(store, id)
    assert found is not None
    return found


def names(found: list[Visit]) -> list[str]:
    return [v.name for v in found]


def test_a_visit_is_read_as_it_was_entered(store: Store, eye_id: str) -> None:
    known = entered(store, eye_id)
    assert (known.identity, known.target, known.latest, known.reason) == (
        known.id, DAY, DAY + timedelta(days=3), "retina",
    )  # fmt: skip
    assert (known.recorded_by, known.entered_at, known.starts, known.withdrawn) == ("nurse:n", NOW, None, False)


def test_a_moved_visit_keeps_its_identity_and_when_it_was_entered(store: Store, eye_id: str) -> None:
    first = entered(store, eye_id)
    later = moved(store, first, DAY + timedelta(days=7), NOW + timedelta(hours=1))
    again = moved(store, later, DAY + timedelta(days=9), NOW + timedelta(hours=2))
    assert {first.identity, later.identity, again.identity} == {first.id}
    assert (again.entered_at, again.recorded_by, again.why) == (NOW, "nurse:m", "the ward asked")
    assert visits.standing(store, first.id) == again
    assert [v for v in visits.of_eye(store, eye_id) if v.name == "extra"] == [again]


def test_two_visits_of_one_name_are_two(store: Store, eye_id: str) -> None:
    first, second = entered(store, eye_id), entered(store, eye_id)
    moved(store, first, DAY + timedelta(days=7))
    assert second in visits.of_eye(store, eye_id)
    assert names(visits.of_eye(store, eye_id)).count("extra") == 2


def test_an_appointment_keeps_its_hour_until_it_is_given_another(store: Store, eye_id: str) -> None:
    timed = visits.visit(store, visits.change(store, NOW, entered(store, eye_id), "nurse:n", "", starts=time(9, 40)))
    assert timed is not None
    assert timed.starts == time(9, 40)
    assert moved(store, timed, DAY).starts == time(9, 40)


def test_a_cancelled_visit_is_out_of_the_book_and_can_be_put_back(store: Store, eye_id: str) -> None:
    first = entered(store, eye_id)
    gone = visits.visit(store, visits.change(store, NOW, first, "nurse:n", "moved away", withdrawn=True))
    assert gone is not None
    assert "extra" not in names(visits.of_eye(store, eye_id))
    assert visits.cancelled_of_eye(store, eye_id) == visits.withdrawn_at(store, eye_id, NOW) == [gone]
    assert visits.withdrawn_at(store, eye_id, NOW + timedelta(seconds=1)) == []
    visits.change(store, NOW, gone, "nurse:n", "stays", withdrawn=False)
    assert "extra" in names(visits.of_eye(store, eye_id))
    assert visits.cancelled_of_eye(store, eye_id) == []


def test_the_book_of_an_eye_stands_by_date(store: Store, eye_id: str) -> None:
    for name, days in (("late", 5), ("early", -5), ("middle", 0)):
        entered(store, eye_id, name, DAY + timedelta(days=days))
    days = [v.target for v in visits.of_eye(store, eye_id)]
    assert days == sorted(days)


def test_only_the_latest_version_of_a_followed_eye_stands(store: Store, eye_id: str) -> None:
    first = entered(store, eye_id)
    assert visits.stands(store, first.id)
    later = moved(store, first, DAY + timedelta(days=1))
    assert (visits.stands(store, first.id), visits.stands(store, later.id)) == (False, True)
    eyes.end(store, NOW, eye_id, "healed")
    assert not visits.stands(store, later.id)


def test_a_change_is_told_once(store: Store, eye_id: str) -> None:
    first = entered(store, eye_id)
    later = moved(store, first, DAY + timedelta(days=1))
    assert not visits.is_to_tell(store, later.id)
    visits.must_tell(store, NOW, later.id)
    assert [(c.before, c.changed) for c in visits.to_tell(store, DAY)] == [(first, later)]
    assert visits.is_untold(store, later.id)
    assert [visits.told(store, NOW, later.id, "nurse:n") for _ in range(2)] == [True, False]
    assert visits.to_tell(store, DAY) == []
    assert not visits.is_untold(store, later.id)


def test_a_change_that_was_changed_again_is_not_told(store: Store, eye_id: str) -> None:
    later = moved(store, entered(store, eye_id), DAY + timedelta(days=1))
    visits.must_tell(store, NOW, later.id)
    moved(store, later, DAY + timedelta(days=2))
    assert visits.to_tell(store, DAY) == []
    assert not visits.is_to_tell(store, later.id)


def test_the_oldest_change_is_told_first(store: Store, eye_id: str) -> None:
    first, second = (moved(store, entered(store, eye_id, name), DAY + timedelta(days=1)) for name in ("b", "a"))
    visits.must_tell(store, NOW + timedelta(minutes=1), first.id)
    visits.must_tell(store, NOW, second.id)
    assert [c.changed.name for c in visits.to_tell(store, DAY)] == ["a", "b"]


def test_nobody_is_told_of_an_eye_that_is_not_followed(store: Store, eye_id: str) -> None:
    later = moved(store, entered(store, eye_id), DAY + timedelta(days=1))
    visits.must_tell(store, NOW, later.id)
    eyes.end(store, NOW, eye_id, "healed")
    assert visits.to_tell(store, DAY) == []


@pytest.mark.parametrize(
    ("first", "last", "closed"),
    [(DAY, DAY, [DAY]), (DAY - timedelta(days=9), DAY - timedelta(days=1), []), (DAY + timedelta(days=1), date.max, [])],
)
def test_a_closed_day_is_found_between_two_dates(
    store: Store, nurse: Actor, first: date, last: date, closed: list[date]
) -> None:
    visits.close(store, NOW, DAY, "training", nurse.signature)
    assert [c.day for c in visits.closures(store, first, last)] == closed


def test_a_day_that_was_opened_again_is_not_closed(store: Store, nurse: Actor) -> None:
    for closed in (True, False):
        visits.close(store, NOW, DAY, "training", nurse.signature, closed=closed)
    assert visits.closures(store, date.min, date.max) == []
    visits.close(store, NOW, DAY, "flood", nurse.signature)
    assert [c.why for c in visits.closures(store, date.min, date.max)] == ["flood"]


def test_a_day_holds_as_many_as_are_booked_on_it_now(store: Store, eye_id: str) -> None:
    first, _ = entered(store, eye_id, "a"), entered(store, eye_id, "b")
    assert visits.booked_counts(store, DAY, DAY) == {DAY: 2}
    moved(store, first, DAY + timedelta(days=1))
    assert visits.booked_counts(store, DAY, DAY + timedelta(days=1)) == {DAY: 1, DAY + timedelta(days=1): 1}
    eyes.end(store, NOW, eye_id, "healed")
    assert visits.booked_counts(store) == {}


def test_versions_are_read_by_their_ids(store: Store, eye_id: str) -> None:
    first = entered(store, eye_id)
    later = moved(store, first, DAY + timedelta(days=1))
    assert visits.versions(store, [first.id, later.id, "none"]) == {first.id: first, later.id: later}
    assert visits.versions(store, []) == {}


def test_the_visits_of_all_followed_eyes_leave_out_those_of_ended_ones(store: Store, eye_id: str) -> None:
    entered(store, eye_id)
    assert visits.of_followed(store) == visits.of_eye(store, eye_id)
    eyes.end(store, NOW, eye_id, "healed")
    assert visits.of_followed(store) == []
