"""Days of the clinic: where one begins, which are open with how many places, and which visit somebody came for.

Public holidays of Austria: Arbeitsruhegesetz, BGBl. 144/1983, section 7 (from memory). Summer time: Directive 2000/84/EC. All else:
common practice, no source.
"""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.learning import agreement
from followup.care.reading.attendance import attended
from followup.care.today import arrivals, lists
from followup.care.visits import book, in_book, openings, visit
from followup.care.visits.openings import Openings
from followup.config import Clinic, Settings
from followup.records import Store, events, eyes, visits
from followup.records.bodies.clinic import MeasuresBody, SeenBody
from followup.records.values import Event, Visit
from tests.conftest import NOW, ZONE
from tests.records.rows import entry, fellow, known
from tests.records.rows import visit as booked

MONDAY, FRIDAY = date(2027, 3, 8), date(2027, 3, 12)
EASTER_MONDAY = date(2027, 3, 29)


@pytest.fixture
def clinic(settings: Settings) -> Clinic:
    return settings.clinic.model_copy(update={"places": {"mon": 2, "wed": 1, "fri": 0}, "closed": ["2027-03-15"]})


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


@pytest.mark.parametrize(
    ("now", "today"),
    [
        (datetime(2027, 3, 4, 22, 59, tzinfo=UTC), date(2027, 3, 4)),
        (datetime(2027, 3, 4, 23, 0, tzinfo=UTC), date(2027, 3, 5)),
        (datetime(2027, 3, 27, 22, 59, tzinfo=UTC), date(2027, 3, 27)),
        (datetime(2027, 3, 28, 21, 59, tzinfo=UTC), date(2027, 3, 28)),
        (datetime(2027, 3, 28, 22, 0, tzinfo=UTC), date(2027, 3, 29)),
        (datetime(2027, 10, 31, 22, 59, tzinfo=UTC), date(2027, 10, 31)),
        (datetime(2027, 10, 31, 23, 0, tzinfo=UTC), date(2027, 11, 1)),
    ],
)
def test_the_clinics_day_ends_at_its_own_midnight(store: Store, nurse: Actor, now: datetime, today: date) -> None:
    assert Desk(store, now, nurse, ZONE).today == today


# --- Places ---


def days(
    first: date, places: dict[int, int], booked_on: dict[int, int] | None = None, closed: dict[int, str] | None = None
) -> Openings:
    """Days counted from the first, thirty of them."""

    def on(counted: dict[int, Any]) -> dict[date, Any]:
        return {first + timedelta(days=n): value for n, value in counted.items()}

    return Openings(first, first + timedelta(days=30), on(places), on(booked_on or {}), on(closed or {}))


@pytest.mark.parametrize(
    ("day", "doubt"),
    [
        (0, None),
        (1, "Tuesday 9 March 2027 is full: 2 of 2 places are booked"),
        (2, "Wednesday 10 March 2027 is full: 3 of 2 places are booked"),
        (3, "the clinic is closed on Thursday 11 March 2027"),
        (4, "the clinic is closed on Friday 12 March 2027 (training)"),
        (-1, None),
        (31, None),
    ],
)
def test_what_speaks_against_one_more_visit_on_a_day(day: int, doubt: str | None) -> None:
    found = days(MONDAY, {0: 2, 1: 2, 2: 2}, {0: 1, 1: 2, 2: 3}, {4: "training"})
    assert found.doubt(MONDAY + timedelta(days=day)) == doubt


def test_places_that_are_left_may_be_fewer_than_none() -> None:
    found = days(MONDAY, {0: 2, 2: 2}, {2: 3, 3: 1})
    assert found.free() == {MONDAY: 2, MONDAY + timedelta(days=2): -1}


def test_holidays_closed_days_and_weekdays_without_places_are_not_open(store: Store, clinic: Clinic, desk: Desk) -> None:
    visits.close(store, NOW, date(2027, 3, 22), "training", "nurse:n")
    open_ones = openings.open_days(clinic, MONDAY, date(2027, 3, 31), store)
    assert open_ones == {MONDAY: 2, date(2027, 3, 10): 1, date(2027, 3, 17): 1, date(2027, 3, 24): 1, date(2027, 3, 31): 1}
    asked = [MONDAY, FRIDAY, date(2027, 3, 15), date(2027, 3, 22), date(2027, 3, 24), EASTER_MONDAY]
    assert openings.not_open(clinic, asked, store) == [FRIDAY, date(2027, 3, 15), date(2027, 3, 22), EASTER_MONDAY]
    assert openings.not_open(clinic, [], store) == []


def test_days_are_looked_at_for_as_long_as_a_visit_may_be(store: Store, clinic: Clinic) -> None:
    found = openings.ahead(store, clinic, MONDAY)
    assert found.first == min(found.places) == MONDAY
    assert found.last >= date(2030, 3, 8)


@pytest.mark.parametrize("day", [date(2029, 3, 4), date(2030, 2, 24), date(2028, 12, 25)])  # Sundays, and Christmas
def test_a_closed_day_is_asked_about_also_years_from_now(desk: Desk, clinic: Clinic, eye_id: str, day: date) -> None:
    with pytest.raises(book.Asks, match="the clinic is closed on"):
        book.add(desk, clinic, eye_id, "late look", day, "")
    assert "late look" not in {v.name for v in visits.of_eye(desk.store, eye_id)}


# --- Where a visit may go ---


def window(store: Store, eye_id: str, target: date, before: int, after: int) -> Visit:
    span = target - timedelta(days=before), target + timedelta(days=after)
    return known(visits.visit(store, visits.add(store, NOW, eye_id, "x", target, *span, "", "nurse:n")))


def test_open_days_are_offered_from_the_windows_beginning_and_its_own_day_is_not(store: Store, eye_id: str) -> None:
    found = days(MONDAY, dict.fromkeys(range(0, 30, 2), 1), {4: 1})
    v = window(store, eye_id, MONDAY + timedelta(days=6), 2, 2)
    offered = in_book.choices(found, v)
    assert [((c.day - MONDAY).days, c.in_window, c.full) for c in offered[:3]] == [
        (4, True, True),
        (8, True, False),
        (10, False, False),
    ]
    assert len(offered) == 12


@pytest.mark.parametrize(("before", "after"), [(2, 0), (9, 0)])
def test_of_a_window_that_is_over_days_are_offered_from_the_first_on(
    store: Store, eye_id: str, before: int, after: int
) -> None:
    found = days(MONDAY + timedelta(days=20), {0: 1, 1: 1})
    v = window(store, eye_id, MONDAY + timedelta(days=10), before, after)
    assert [(c.day - MONDAY).days for c in in_book.choices(found, v)] == [20, 21]


def test_the_day_proposed_is_offered_open_or_not() -> None:
    found = days(MONDAY, {0: 2, 4: 2}, {4: 1})
    assert [((c.day - MONDAY).days, c.taken, c.places) for c in in_book.with_day(found, MONDAY + timedelta(days=2))] == [
        (2, 0, 0),
        (4, 1, 2),
    ]
    assert [(c.day - MONDAY).days for c in in_book.with_day(found, MONDAY + timedelta(days=4))] == [4]


# --- What the book refuses ---


def test_what_a_version_changed_is_known_while_it_is_the_latest(store: Store, eye_id: str) -> None:
    first = booked(store, eye_id, MONDAY)
    second = booked(store, eye_id, FRIDAY, replaces=first.id)
    assert in_book.change_of(store, first.id) is in_book.change_of(store, "none") is None
    change = known(in_book.change_of(store, second.id))
    assert (change.before, change.changed) == (first, second)


@pytest.mark.parametrize(
    ("name", "reason", "fault"),
    [(" ", "", "write what this visit is called"), ("x" * 61, "", "write at most 60 characters")],
)
def test_a_visit_has_a_name(desk: Desk, clinic: Clinic, eye_id: str, name: str, reason: str, fault: str) -> None:
    with pytest.raises(CareError, match=fault):
        book.add(desk, clinic, eye_id, name, MONDAY, reason)


def test_an_eye_that_is_not_followed_has_no_visits(desk: Desk, clinic: Clinic, eye_id: str) -> None:
    eyes.end(desk.store, NOW, eye_id, "moved")
    for act in (lambda: book.add(desk, clinic, eye_id, "x", MONDAY, ""), lambda: book.walk_in(desk, eye_id, "pain")):
        with pytest.raises(Conflict, match="not followed"):
            act()


@pytest.mark.parametrize(
    ("barrier", "words", "fault"),
    [("lazy", "", "choose what stood in the way"), ("", "", "choose"), ("other", " ", "write what stood in the way")],
)
def test_what_stood_in_the_way_is_said(desk: Desk, eye_id: str, barrier: str, words: str, fault: str) -> None:
    v = booked(desk.store, eye_id, desk.today)
    with pytest.raises(CareError, match=fault):
        book.did_not_come(desk, v.identity, barrier, words)
    assert events.of_attendance(desk.store, eye_id) == []


@pytest.mark.parametrize(
    "act", [lambda d: book.undo(d, "none"), lambda d: book.told(d, "none"), lambda d: book.cancel(d, "none", "x")]
)
def test_a_visit_that_is_not_there_is_not_changed(desk: Desk, act: Any) -> None:
    with pytest.raises(NotFound):
        act(desk)


# --- Who came ---


def test_who_came_is_noted_once_a_day_and_again_the_next(desk: Desk, store: Store, eye_id: str) -> None:
    v = booked(store, eye_id, desk.today)
    for hours in (0, 5, 13, 14):  # midnight in Vienna comes after thirteen hours
        arrivals.arrive(Desk(store, NOW + timedelta(hours=hours), desk.actor, ZONE), eye_id, v.identity)
        assert stands_on_the_list(store, v, hours) == "here"
    assert [e.at for e in events.of_attendance(store, eye_id)] == [NOW, NOW + timedelta(hours=13)]


def stands_on_the_list(store: Store, visit: Visit, hours: float) -> str:
    due = lists.due_in(store, NOW + timedelta(hours=hours), ZONE, lists.STATES)
    return next(d.state for d in due if d.visit.identity == visit.identity)


def test_that_somebody_came_is_taken_back_once(desk: Desk, store: Store, eye_id: str) -> None:
    v = booked(store, eye_id, desk.today)
    arrivals.arrive(desk, eye_id, v.identity)
    (came,) = events.of_attendance(store, eye_id)
    arrivals.not_here(desk, came.id)
    assert [d.state for d in lists.due_in(store, NOW, ZONE, lists.STATES) if d.visit.identity == v.identity] == ["due"]
    for id in (came.id, "none", entry(store, eye_id)):
        with pytest.raises(Conflict, match="taken back already"):
            arrivals.not_here(desk, id)


def test_who_comes_early_in_a_long_window_stands_on_todays_list_as_here_and_then_as_seen(
    desk: Desk, store: Store, eye_id: str
) -> None:
    """Some windows of the draft protocol open three weeks before their day."""
    days = (date(2027, 3, 26), date(2027, 3, 5), date(2027, 4, 23))
    identity = visits.add(store, NOW, eye_id, "month 12", *days, "retina", "nurse:n")

    def stands() -> list[str]:
        return [d.state for d in lists.due_in(store, NOW, ZONE, lists.STATES) if d.visit.identity == identity]

    found = [stands()]
    arrivals.arrive(desk, eye_id, identity)
    found.append(stands())
    visit.record_visit(desk, eye_id, [], visit=identity)
    assert [*found, stands()] == [[], ["here"], ["seen"]]


def test_nobody_comes_for_a_visit_that_is_not_in_the_book(desk: Desk, store: Store, eye_id: str) -> None:
    v = booked(store, eye_id, desk.today)
    visits.change(store, NOW, v, "nurse:n", "", withdrawn=True)
    with pytest.raises(CareError, match="not in the book any more, or has taken place"):
        arrivals.arrive(desk, eye_id, v.identity)


def seen(name: str, at: datetime, received_at: datetime | None = None) -> Event:
    return Event(f"{at}", "e", "seen", at, SeenBody(visit=name), "nurse:n", None, received_at or at, None, "")


def at_noon(day: date) -> datetime:
    return datetime.combine(day, time(12), ZONE)


@pytest.mark.parametrize(
    ("seen_on", "names"),
    [
        ([MONDAY], ["first"]),
        ([FRIDAY], ["second"]),
        ([MONDAY, MONDAY], ["first", "second"]),
        ([MONDAY, MONDAY, MONDAY], ["first", "second"]),
        ([MONDAY + timedelta(days=1)], ["first"]),
        ([FRIDAY - timedelta(days=1)], ["second"]),
    ],
)
def test_an_entry_without_an_identity_is_for_the_visit_that_holds_its_day_or_the_nearest(
    store: Store, eye_id: str, seen_on: list[date], names: list[str]
) -> None:
    planned = {
        booked(store, eye_id, day, "extra", NOW - timedelta(days=2)).identity: n
        for day, n in ((MONDAY, "first"), (FRIDAY, "second"))
    }
    book_of_eye = [v for v in visits.of_eye(store, eye_id) if v.name == "extra"]
    told = [seen("extra", at_noon(day) + timedelta(minutes=n)) for n, day in enumerate(seen_on)]
    assert [planned[identity] for identity in attended(book_of_eye, told, ZONE)] == names


def test_an_entry_from_before_a_visit_stood_in_the_book_is_not_for_it(store: Store, eye_id: str) -> None:
    v = booked(store, eye_id, MONDAY, "extra", NOW)
    assert attended([v], [seen("extra", at_noon(MONDAY), NOW - timedelta(seconds=1))], ZONE) == {}
    assert list(attended([v], [seen("extra", at_noon(MONDAY), NOW)], ZONE)) == [v.identity]
    assert attended([v], [seen("another", at_noon(MONDAY))], ZONE) == {}


def test_a_visit_that_took_place_did_so_the_first_time_it_was_said(store: Store, eye_id: str) -> None:
    v = booked(store, eye_id, MONDAY, "extra", NOW)
    told = [seen("extra", at_noon(MONDAY) + timedelta(hours=hours)) for hours in (3, 1, 2)]
    assert attended([v], told, ZONE) == {v.identity: at_noon(MONDAY) + timedelta(hours=1)}


def test_measures_of_a_visit_name_the_one_whose_window_holds_today(desk: Desk, store: Store, eye_id: str) -> None:
    far, near = booked(store, eye_id, MONDAY, "extra"), booked(store, eye_id, desk.today, "extra")
    visit.record_visit(desk, eye_id, [], visit="extra")
    assert [e.body.visit_id for e in events.of_attendance(store, eye_id)] == [near.identity]
    visit.record_visit(desk, eye_id, [], visit=far.identity)
    assert [e.body.visit_id for e in events.of_attendance(store, eye_id)] == [near.identity, far.identity]


@pytest.mark.parametrize(
    ("measures", "no_gas", "fault"),
    [([], False, "nothing was entered"), ([MeasuresBody(eye="right", bubble_percent=10)], True, "cannot both be")],
)
def test_a_visit_says_something_and_not_two_things_at_once(
    desk: Desk, eye_id: str, measures: list[MeasuresBody], no_gas: bool, fault: str
) -> None:
    with pytest.raises(CareError, match=fault):
        visit.record_visit(desk, eye_id, measures, no_gas_seen=no_gas)


# --- Two people, one eye ---


def measured(store: Store, eye_id: str, author: str, minutes: int = 0, **said: Any) -> Event:
    body = MeasuresBody(**{"eye": "right", **said})
    at = NOW + timedelta(minutes=minutes)
    return Event(f"{author}{minutes}", eye_id, "measures", at, body, author, None, at, None, "")


@pytest.mark.parametrize(
    ("first", "second", "what"),
    [
        ({"iop_mmhg": 15}, {"iop_mmhg": 16}, ["pressure"]),
        ({"iop_mmhg": 15}, {"iop_mmhg": 15.0}, []),
        ({"iop_mmhg": 15}, {"acuity": "6/6"}, []),
        ({"acuity": "6/6"}, {"acuity": "6/6", "correction": "pinhole"}, ["acuity"]),
        ({"acuity": "6/6"}, {"acuity": "6/6", "correction": "unaided"}, []),
        ({"pinhole": "6/9"}, {"pinhole": "6/6"}, ["acuity with the pinhole"]),
        ({"bubble_percent": 40, "iop_mmhg": 15}, {"bubble_percent": 50, "iop_mmhg": 21}, ["pressure", "bubble"]),
        ({"bubble_percent": 0}, {"bubble_percent": 10}, ["bubble"]),
    ],
)
def test_what_two_people_measured_differently_on_one_day_is_named(
    store: Store, eye_id: str, first: dict[str, Any], second: dict[str, Any], what: list[str]
) -> None:
    rows = [measured(store, eye_id, "nurse:a", 0, **first), measured(store, eye_id, "nurse:b", 1, **second)]
    assert [d.what for d in agreement.differences(store, rows, ZONE)] == what


def test_one_person_measuring_twice_is_a_repeat_and_their_last_counts(store: Store, eye_id: str) -> None:
    rows = [measured(store, eye_id, "nurse:a", n, iop_mmhg=iop) for n, iop in enumerate((34, 15))]
    assert agreement.differences(store, rows, ZONE) == []
    rows.append(measured(store, eye_id, "nurse:b", 5, iop_mmhg=15))
    assert agreement.differences(store, rows, ZONE) == []


def test_the_other_eye_and_another_day_are_no_difference(store: Store, eye_id: str) -> None:
    other = measured(store, fellow(store, eye_id), "nurse:b", 1, eye="left", iop_mmhg=30)
    tomorrow = measured(store, eye_id, "nurse:c", 13 * 60, iop_mmhg=40)  # midnight in Vienna has come
    assert agreement.differences(store, [measured(store, eye_id, "nurse:a", iop_mmhg=15), other, tomorrow], ZONE) == []


def test_differences_stand_the_newest_day_first_and_readings_by_time(store: Store, eye_id: str) -> None:
    rows = [
        measured(store, eye_id, who, 24 * 60 * day + minute, iop_mmhg=15 + minute)
        for day, minute, who in ((0, 2, "nurse:a"), (0, 1, "nurse:b"), (1, 1, "nurse:a"), (1, 2, "nurse:b"))
    ]
    rows.append(measured(store, eye_id, "nurse:a", 48 * 60, iop_mmhg=40))  # a later day of one person alone
    found = agreement.differences(store, rows, ZONE)
    assert [d.day.day for d in found] == [6, 5]
    assert [r.words for r in found[1].readings] == ["16 mmHg", "17 mmHg"]
