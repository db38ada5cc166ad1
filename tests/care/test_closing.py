"""A clinic day closes: its visits find other days, as near as can be, and none is lost."""

from datetime import date, timedelta

import pytest

from followup.care.actors import Actor
from followup.care.callbacks import deciding
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError, Conflict
from followup.care.today import lists
from followup.care.visits import book, closing, visit
from followup.care.visits.openings import ahead
from followup.clinical import schedule
from followup.config import Clinic, Settings
from followup.records import Store, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.values import Visit
from tests.conftest import NOW, ZONE, operation_note, patient_details

DAY = date(2027, 3, 10)


@pytest.fixture
def desk(store: Store, nurse: Actor) -> Desk:
    return Desk(store, NOW, nurse, ZONE)


@pytest.fixture
def clinic(settings: Settings) -> Clinic:
    return settings.clinic.model_copy(update={"places": {"mon": 2, "wed": 6, "thu": 2, "fri": 2}})


@pytest.fixture
def six(desk: Desk) -> list[str]:
    """Six eyes with a visit on that Wednesday: five may come from Monday to Friday, one on that day only."""
    made = []
    for n in range(6):
        first, last = (DAY, DAY) if n == 5 else (date(2027, 3, 8), date(2027, 3, 12))
        window = schedule.Window("week 1", DAY, first, last, "retina")
        note = operation_note(steroid_drops_until=date(2027, 3, 30))
        made.append(leaving.discharge(desk, patient_details(f"C-{n}"), note, [window])[0])
    return made


def of(store: Store, eye: str) -> Visit:
    return next(iter(visits.of_eye(store, eye)))


def test_the_visits_of_the_day_go_to_the_nearest_places_and_who_finds_none_is_named(
    desk: Desk, clinic: Clinic, six: list[str]
) -> None:
    found = closing.displaced(desk, clinic, DAY)
    days = sorted(one.to for one in found if one.to)
    # Two places a day at one day's distance (Thursday), and at two (Monday, Friday): least in all is 2·1 + 3·2 days.
    assert sum(abs((day - DAY).days) for day in days) == 8
    assert len(days) == 5
    (left,) = [one for one in found if one.to is None]
    assert (left.eye.id, left.why_not) == (six[5], "it is due on that day alone")


def test_closing_moves_all_in_one_transaction_with_one_entry_and_each_is_to_be_told(
    store: Store, desk: Desk, clinic: Clinic, six: list[str]
) -> None:
    to = {one.visit.identity: one.to for one in closing.displaced(desk, clinic, DAY) if one.to}
    count = "SELECT count(*) AS n FROM audit"
    before = store.row(count)
    assert closing.close(desk, clinic, DAY, "training", to) == 5
    after = store.row(count)
    assert before
    assert after
    assert after["n"] - before["n"] == 1
    assert [of(store, eye).target for eye in six[:5]] == [to[of(store, eye).identity] for eye in six[:5]]
    assert {one.eye.id for one in lists.to_tell(store, desk.today)} == set(six[:5])
    assert [(eye.id, v.target) for eye, v in closing.on_closed_days(desk, clinic)] == [(six[5], DAY)]
    assert ahead(store, clinic, desk.today).doubt(DAY) == "the clinic is closed on Wednesday 10 March 2027 (training)"
    with pytest.raises(book.Asks, match="closed on Wednesday"):
        book.add(desk, clinic, six[0], "review", DAY, "")


def test_a_day_that_cannot_take_them_is_asked_about_and_nothing_is_kept_before(
    store: Store, desk: Desk, clinic: Clinic, six: list[str]
) -> None:
    monday = date(2027, 3, 8)
    to = dict.fromkeys((of(store, eye).identity for eye in six[:3]), monday)
    with pytest.raises(book.Asks) as asks:
        closing.close(desk, clinic, DAY, "training", to)
    assert asks.value.questions == ["Monday 8 March 2027 is full: 2 of 2 places are booked"]
    assert closing.closed_here(desk) == []
    assert {of(store, eye).target for eye in six} == {DAY}
    assert closing.close(desk, clinic, DAY, "training", to, accepted=asks.value.questions) == 3
    assert len(closing.on_closed_days(desk, clinic)) == 3


@pytest.mark.parametrize(
    ("day", "why", "said"),
    [(DAY, "  ", "say why"), (date(2027, 3, 4), "x", "is over")],
)
def test_what_cannot_be_closed(desk: Desk, clinic: Clinic, day: date, why: str, said: str) -> None:
    with pytest.raises(CareError, match=said):
        closing.close(desk, clinic, day, why, {})


def test_what_changed_meanwhile_is_not_moved_blindly(store: Store, desk: Desk, clinic: Clinic, six: list[str]) -> None:
    moved = of(store, six[0])
    book.move(desk, clinic, moved.identity, date(2027, 3, 11))
    with pytest.raises(Conflict, match="changed meanwhile"):
        closing.close(desk, clinic, DAY, "training", {moved.identity: date(2027, 3, 12)})
    closing.close(desk, clinic, DAY, "training", {})
    with pytest.raises(Conflict, match="closed already"):
        closing.close(desk, clinic, DAY, "training", {})


def test_a_day_closed_by_mistake_opens_again_with_its_visits(
    store: Store, desk: Desk, clinic: Clinic, six: list[str], nurse: Actor
) -> None:
    to = {one.visit.identity: one.to for one in closing.displaced(desk, clinic, DAY) if one.to}
    closing.close(desk, clinic, DAY, "training", to)
    later = Desk(store, NOW + timedelta(hours=1), nurse, ZONE)
    kept = of(store, six[0])
    book.move(later, clinic, kept.identity, date(2027, 3, 15), accepted=["week 1 is due 8 March 2027 to 12 March 2027"])
    told = of(store, six[1])
    book.told(later, told.id)
    assert closing.open_again(later, DAY, back=True) == 4
    assert [of(store, eye).target for eye in six] == [date(2027, 3, 15), *[DAY] * 5]
    assert ahead(store, clinic, desk.today).doubt(DAY) is None
    # Who knew of the new day is to be told again; who never heard of it need not be.
    assert {one.eye.id for one in lists.to_tell(store, desk.today)} == {six[0], six[1]}
    with pytest.raises(Conflict, match="is not closed"):
        closing.open_again(later, DAY, back=True)


def test_who_was_seen_that_day_already_is_not_moved(store: Store, desk: Desk, clinic: Clinic, six: list[str]) -> None:
    v = of(store, six[0])
    visit.record_visit(desk, six[0], [MeasuresBody(eye="right", iop_mmhg=15)], visit=v.identity)
    assert v.identity not in [one.visit.identity for one in closing.displaced(desk, clinic, DAY)]


def test_an_extra_visit_after_a_callback_is_not_put_on_a_closed_day(
    store: Store, desk: Desk, clinic: Clinic, six: list[str]
) -> None:
    monday = date(2027, 3, 8)  # the only clinic day within three days of that Friday
    closing.close(desk, clinic, monday, "training", {})
    body = MeasuresBody(eye="right", iop_mmhg=44, instrument="applanation")
    visit.record_visit(desk, six[0], [body])
    (call,) = [c for c in worries.open_callbacks(store) if c.worry == "pressure"]
    task = deciding.decide(desk, call.id, "sooner", "look again", clinic)
    assert task.visit_on == desk.today  # no day is open: today, as where nothing was ever open


@pytest.mark.parametrize(("iop_mmhg", "asked"), [(62, True), (33, False)])
def test_a_visit_of_an_eye_that_is_to_be_called_now_is_asked_about_before_it_moves(
    store: Store, desk: Desk, clinic: Clinic, six: list[str], iop_mmhg: int, asked: bool
) -> None:
    """As where that visit is moved alone; with the name, since a day has many."""
    body = MeasuresBody(eye="right", iop_mmhg=iop_mmhg, instrument="applanation")
    visit.record_visit(desk, six[0], [body])
    (open_one,) = {c.eye_id for c in worries.open_callbacks(store) if c.worry == "pressure"}
    assert open_one == six[0]
    to = {of(store, eye).identity: date(2027, 3, 11) for eye in six[:2]}
    if asked:
        with pytest.raises(book.Asks) as asks:
            closing.close(desk, clinic, DAY, "training", to)
        (question,) = asks.value.questions
        assert question.startswith("Pat Patient: the right eye has an open call for now (pressure")
        assert closing.closed_here(desk) == []
        assert closing.close(desk, clinic, DAY, "training", to, accepted=asks.value.questions) == 2
    else:
        assert closing.close(desk, clinic, DAY, "training", to) == 2
