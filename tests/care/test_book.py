"""The book of visits: each verb in one transaction, each to be taken back, and no day taken silently that is closed or full."""

from collections.abc import Callable
from datetime import UTC, date, datetime, time, timedelta

import pytest

from followup.care.actors import Actor
from followup.care.corrections import correcting
from followup.care.desk import Desk
from followup.care.discharge import changing
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.eye import load
from followup.care.today import lists
from followup.care.visits import book, in_book, visit
from followup.care.watch.raising import check_eye
from followup.config import Clinic, Settings
from followup.records import Store, events, visits
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import new_id
from followup.records.values import Visit
from tests.conftest import NOW, ZONE, operation_note

WEDNESDAY, FRIDAY, SUNDAY = date(2027, 3, 10), date(2027, 3, 12), date(2027, 3, 14)
HOLIDAY = date(2027, 3, 29)  # Easter Monday, a public holiday in Austria (ZPO; the calendar of 2027)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


@pytest.fixture
def clinic(settings: Settings) -> Clinic:
    return settings.clinic.model_copy(update={"places": {"mon": 2, "wed": 2, "fri": 1}, "closed": ["2027-03-15"]})


@pytest.fixture
def week(store: Store, eye_id: str) -> Visit:
    return named(store, eye_id, "week 1")


def named(store: Store, eye_id: str, name: str) -> Visit:
    return next(v for v in visits.of_eye(store, eye_id) if v.name == name)


def notes_made(store: Store, act: Callable[[], object]) -> list[str]:
    """What the audit says was done."""
    actions = "SELECT action FROM audit ORDER BY number"
    before = len(store.rows(actions))
    act()
    return [row["action"] for row in store.rows(actions)[before:]]


def state(store: Store, identity: str, at: datetime = NOW) -> str | None:
    return {d.visit.identity: d.state for d in lists.due_in(store, at, ZONE, lists.STATES)}.get(identity)


def test_a_visit_moves_with_one_entry_in_the_audit_and_keeps_its_identity(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    assert notes_made(store, lambda: book.move(desk, clinic, week.identity, FRIDAY)) == ["visit moved"]
    moved = named(store, eye_id, "week 1")
    assert (moved.identity, moved.target, moved.latest) == (week.identity, FRIDAY, week.latest)


def test_a_visit_may_come_forward_to_today_and_its_window_with_it(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    with pytest.raises(book.Asks) as asks:
        book.move(desk, clinic, week.identity, desk.today)
    book.move(desk, clinic, week.identity, desk.today, accepted=asks.value.questions)
    moved = named(store, eye_id, "week 1")
    assert (moved.target, moved.earliest, moved.latest) == (desk.today, desk.today, week.latest)
    assert state(store, week.identity) == "due"


@pytest.mark.parametrize(
    ("day", "asked"),
    [
        (SUNDAY, ["the clinic is closed on Sunday 14 March 2027"]),
        (date(2027, 3, 9), ["the clinic is closed on Tuesday 9 March 2027"]),  # no places on that weekday
        (date(2027, 3, 15), ["the clinic is closed on Monday 15 March 2027", "week 1 is due 8 March 2027 to 14 March 2027"]),
        (HOLIDAY, ["the clinic is closed on Monday 29 March 2027", "week 1 is due 8 March 2027 to 14 March 2027"]),
        (date(2027, 3, 17), ["week 1 is due 8 March 2027 to 14 March 2027"]),
        (FRIDAY, []),
    ],
)
def test_a_closed_day_and_one_out_of_the_window_are_asked_about(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit, day: date, asked: list[str]
) -> None:
    if asked:
        with pytest.raises(book.Asks) as asks:
            book.move(desk, clinic, week.identity, day, accepted=asked[:-1])
        assert asks.value.questions == asked
        assert named(store, eye_id, "week 1").target == WEDNESDAY
    book.move(desk, clinic, week.identity, day, accepted=asked)
    assert named(store, eye_id, "week 1").target == day


def test_a_full_day_is_asked_about_with_its_numbers(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    book.add(desk, clinic, eye_id, "review", FRIDAY, "retina")
    full = "Friday 12 March 2027 is full: 1 of 1 places are booked"
    with pytest.raises(book.Asks, match=full):
        book.move(desk, clinic, week.identity, FRIDAY)
    with pytest.raises(book.Asks, match=full):
        book.add(desk, clinic, eye_id, "another", FRIDAY, "")
    book.move(desk, clinic, week.identity, FRIDAY, accepted=[full])
    assert visits.booked_counts(store)[FRIDAY] == 2


@pytest.mark.parametrize(("day", "said"), [(date(2027, 3, 4), "is over"), (date(2031, 3, 3), "accepted is")])
def test_no_visit_moves_into_the_past_or_beyond_its_bounds(
    desk: Desk, clinic: Clinic, eye_id: str, week: Visit, day: date, said: str
) -> None:
    with pytest.raises(CareError, match=said):
        book.move(desk, clinic, week.identity, day)
    with pytest.raises(CareError, match=said):
        book.add(desk, clinic, eye_id, "review", day, "")


def test_what_took_place_does_not_move_and_is_not_cancelled(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    visit.record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=15)], visit=week.identity)
    for act in (
        lambda: book.move(desk, clinic, week.identity, FRIDAY),
        lambda: book.cancel(desk, week.identity, "x"),
        lambda: book.did_not_come(desk, week.identity, "forgot"),
    ):
        with pytest.raises(Conflict, match="has taken place"):
            act()
    moves = changing.Moves(clinic, {week.identity: FRIDAY})
    with pytest.raises(CareError, match="took place"):
        changing.change_plan(desk, eye_id, operation_note(), moves)


def test_a_cancelled_visit_keeps_its_reason_and_can_be_put_back(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    with pytest.raises(CareError, match="say why"):
        book.cancel(desk, week.identity, "  ")
    assert notes_made(store, lambda: book.cancel(desk, week.identity, "seen elsewhere")) == ["visit cancelled"]
    (gone,) = in_book.cancelled(store, eye_id)
    assert (gone.name, gone.why) == ("week 1", "seen elsewhere")
    with pytest.raises(NotFound):
        book.move(desk, clinic, week.identity, FRIDAY)
    raised = check_eye(store, eye_id, NOW + timedelta(days=20), ZONE)
    assert "week 1" not in [w.values["visit"] for w in raised if w.worry == "missed-visit"]
    assert notes_made(store, lambda: book.put_back(desk, week.identity)) == ["visit put back"]
    assert named(store, eye_id, "week 1").target == WEDNESDAY
    assert in_book.cancelled(store, eye_id) == []


def test_who_did_not_come_stays_on_the_list_until_there_is_another_day(
    store: Store, nurse: Actor, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    at = datetime(2027, 3, 10, 15, tzinfo=UTC)
    desk = Desk(store, at, nurse, ZONE)
    assert state(store, week.identity, at) == "due"
    with pytest.raises(CareError, match="choose what stood in the way"):
        book.did_not_come(desk, week.identity, "")
    with pytest.raises(CareError, match="write what stood in the way"):
        book.did_not_come(desk, week.identity, "other")
    assert notes_made(store, lambda: book.did_not_come(desk, week.identity, "way", "no train")) == ["did not come"]
    assert state(store, week.identity, at) == "missed"
    with pytest.raises(Conflict, match="on record already"):
        book.did_not_come(desk, week.identity, "way")
    later = Desk(store, at + timedelta(days=5), nurse, ZONE)
    assert state(store, week.identity, later.now) == "missed"  # its window is over as well
    book.move(later, clinic, week.identity, date(2027, 3, 17))
    assert state(store, week.identity, later.now) == "coming"
    book.did_not_come(Desk(store, at + timedelta(days=7), nurse, ZONE), week.identity, "forgot")
    assert state(store, week.identity, at + timedelta(days=7)) == "missed"


def test_a_visit_that_nobody_came_to_still_raises_its_missed_visit(
    store: Store, nurse: Actor, eye_id: str, week: Visit
) -> None:
    """To have written down why nobody came does not mean that somebody was seen."""
    at = datetime(2027, 3, 10, 15, tzinfo=UTC)
    book.did_not_come(Desk(store, at, nurse, ZONE), week.identity, "forgot")
    raised = check_eye(store, eye_id, datetime(2027, 3, 15, 6, tzinfo=UTC), ZONE)
    assert {"visit": "week 1", "latest": "2027-03-14"} in [w.values for w in raised if w.worry == "missed-visit"]


def test_not_come_yet_is_refused_and_a_wrong_entry_is_taken_back(
    store: Store, nurse: Actor, desk: Desk, eye_id: str, week: Visit
) -> None:
    with pytest.raises(CareError, match="still to come"):
        book.did_not_come(desk, week.identity, "forgot")
    at = Desk(store, datetime(2027, 3, 10, 15, tzinfo=UTC), nurse, ZONE)
    entry = book.did_not_come(at, week.identity, "forgot")
    said = load(store, eye_id, ZONE).events[-1].body
    correcting.correct(at, entry, said.model_copy(update={"barrier": "unwell"}), "asked again")
    assert state(store, week.identity, at.now) == "missed"
    correcting.withdraw(at, load(store, eye_id, ZONE).events[-1].id, "came after all")
    assert state(store, week.identity, at.now) == "due"


def test_a_walk_in_is_here_at_once_and_consumes_nothing(store: Store, desk: Desk, eye_id: str, settings: Settings) -> None:
    made: list[str] = []
    assert notes_made(store, lambda: made.append(book.walk_in(desk, eye_id, "a shadow"))) == ["walk-in"]
    assert state(store, made[0]) == "here"
    visit.record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=15)], visit=made[0])
    assert state(store, made[0]) == "seen"
    assert [v.name for v in load(store, eye_id, ZONE).open_visits] == ["day 1", "week 1"]


def test_every_change_is_taken_back_in_one_step(store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit) -> None:
    was = named(store, eye_id, "week 1")
    version = book.move(desk, clinic, week.identity, date(2027, 3, 22), accepted=book_accepts(desk, clinic, week))
    assert notes_made(store, lambda: book.undo(desk, version)) == ["visit change taken back"]
    now = named(store, eye_id, "week 1")
    assert (now.target, now.earliest, now.latest) == (was.target, was.earliest, was.latest)
    with pytest.raises(Conflict, match="changed again"):
        book.undo(desk, version)
    book.undo(desk, book.cancel(desk, week.identity, "by mistake"))
    assert named(store, eye_id, "week 1").target == WEDNESDAY
    added = book.add(desk, clinic, eye_id, "review", FRIDAY, "")
    book.undo(desk, added)
    here = book.walk_in(desk, eye_id, "pain")
    book.undo(desk, here)
    assert [v.name for v in load(store, eye_id, ZONE).open_visits] == ["day 1", "week 1"]
    assert state(store, here) is None


def book_accepts(desk: Desk, clinic: Clinic, v: Visit) -> list[str]:
    with pytest.raises(book.Asks) as asks:
        book.move(desk, clinic, v.identity, date(2027, 3, 22))
    return asks.value.questions


def test_what_has_taken_place_is_not_taken_back(store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit) -> None:
    version = book.move(desk, clinic, week.identity, FRIDAY)
    visit.record_visit(desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=15)], visit=week.identity)
    with pytest.raises(Conflict, match="has taken place"):
        book.undo(desk, version)


def test_a_time_is_kept_moved_and_sorts_the_day(store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit) -> None:
    book.move(desk, clinic, week.identity, week.target, starts=time(11, 30))
    early = book.add(desk, clinic, eye_id, "pressure", week.target, "", starts=time(9, 15))
    assert named(store, eye_id, "week 1").starts == time(11, 30)
    day = [d for d in lists.due_in(store, NOW, ZONE, lists.STATES) if d.visit.target == week.target]
    assert [d.visit.identity for d in day] == [early, week.identity]
    with pytest.raises(CareError, match="on that day already"):
        book.move(desk, clinic, week.identity, week.target, starts=time(11, 30))


def test_whom_to_tell_stands_on_a_list_until_somebody_did(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    version = book.move(desk, clinic, week.identity, FRIDAY)
    (one,) = lists.to_tell(store, desk.today)
    assert (one.change.before.target, one.change.changed.target) == (WEDNESDAY, FRIDAY)
    assert notes_made(store, lambda: book.told(desk, version)) == ["visit change told"]
    assert notes_made(store, lambda: book.told(desk, version)) == []
    assert lists.to_tell(store, desk.today) == []
    book.undo(desk, version)  # who knew of the new day is to be told that it does not hold
    (one,) = lists.to_tell(store, desk.today)
    assert (one.change.before.target, one.change.changed.target) == (FRIDAY, WEDNESDAY)


def test_a_change_that_nobody_heard_of_and_was_taken_back_is_nothing_to_tell(
    store: Store, desk: Desk, clinic: Clinic, week: Visit
) -> None:
    book.undo(desk, book.move(desk, clinic, week.identity, FRIDAY))
    assert lists.to_tell(store, desk.today) == []


def test_the_plan_asks_about_every_day_at_once_and_keeps_nothing_before(
    store: Store, desk: Desk, clinic: Clinic, eye_id: str, week: Visit
) -> None:
    other = book.add(desk, clinic, eye_id, "review", FRIDAY, "")
    to = {week.identity: SUNDAY, other: date(2027, 3, 15)}
    note = operation_note(notes="changed")
    with pytest.raises(book.Asks) as asks:
        changing.change_plan(desk, eye_id, note, changing.Moves(clinic, to))
    assert len(asks.value.questions) == 3
    assert load(store, eye_id, ZONE).note.body.notes == ""
    changed = changing.change_plan(desk, eye_id, note, changing.Moves(clinic, to, asks.value.questions))
    assert [what for what, _, _ in changed] == ["notes", "visit week 1", "visit review"]


@pytest.mark.parametrize("answer", ["move", "cancel", "nothing"])
def test_a_wish_for_another_time_is_answered_by_moving_or_cancelling_that_visit(
    store: Store, nurse: Actor, clinic: Clinic, eye_id: str, week: Visit, answer: str
) -> None:
    events.add(store, new_id(), eye_id, "visit-request", NOW, {"visit": "week 1", "words": ""}, "patient:x", NOW)
    (wish,) = lists.open_requests(store, NOW, ZONE)
    assert wish.identity == week.identity
    later = Desk(store, NOW + timedelta(hours=1), nurse, ZONE)
    if answer == "move":
        book.move(later, clinic, week.identity, FRIDAY)
    if answer == "cancel":
        book.cancel(later, week.identity, "seen elsewhere")
    assert len(lists.open_requests(store, later.now, ZONE)) == (1 if answer == "nothing" else 0)


@pytest.mark.parametrize(("iop_mmhg", "asked"), [(45, True), (33, False)])  # for now, and for today
def test_a_visit_of_an_eye_with_an_open_call_for_now_is_not_moved_off_silently(
    desk: Desk, clinic: Clinic, week: Visit, iop_mmhg: float, asked: bool
) -> None:
    visit.record_visit(desk, week.eye_id, [MeasuresBody(eye="right", iop_mmhg=iop_mmhg)])
    if not asked:
        assert book.move(desk, clinic, week.identity, FRIDAY)
        return
    with pytest.raises(book.Asks, match="open call for now") as raised:
        book.move(desk, clinic, week.identity, FRIDAY)
    assert book.move(desk, clinic, week.identity, FRIDAY, accepted=raised.value.questions)
