"""The clinic's book: visits have identities; what happens today consumes no visit that is not meant."""

from datetime import UTC, date, datetime, timedelta

import pytest
from sqlite_utils import Database

from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import CareError
from followup.care.home.receive import receive_from_clinic
from followup.care.reading import attendance
from followup.care.reading.eye import load
from followup.care.today import lists
from followup.care.visits import book, visit
from followup.care.watch.raising import check_eye
from followup.config import Settings
from followup.records import Store, events, open_store, visits
from followup.records.bodies.clinic import MeasuresBody
from followup.records.migrations import steps
from followup.records.store import Row, new_id
from tests.conftest import NOW, ZONE


def extra(store: Store, nurse: Actor, eye_id: str, at: datetime = NOW) -> str:
    return visit.add_extra_visit(Desk(store, at, nurse, ZONE), eye_id, at.date(), at.date(), "after a callback")


def by_name(store: Store, nurse: Actor, eye_id: str, name: str, at: datetime) -> None:
    """As entries were kept before visits had identities."""
    events.add(store, new_id(), eye_id, "seen", at, {"visit": name}, nurse.signature, at)


def open_names(store: Store, eye_id: str, settings: Settings) -> list[str]:
    return [v.name for v in load(store, eye_id, settings.clinic.tz).open_visits]


def iop(value: float = 15) -> list[MeasuresBody]:
    return [MeasuresBody(eye="right", iop_mmhg=value, instrument="applanation")]


def test_a_visit_not_planned_consumes_none(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, iop())
    assert open_names(store, eye_id, settings) == ["day 1", "week 1"]


def test_a_visit_keeps_its_identity_when_it_is_moved(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    book.move(Desk(store, NOW, nurse, ZONE), settings.clinic, week.identity, date(2027, 3, 12))
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, iop(), visit=week.identity)
    moved = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")
    assert (moved.identity, moved.target) == (week.identity, date(2027, 3, 12))
    assert moved.id != week.id
    assert open_names(store, eye_id, settings) == ["day 1"]


def test_a_visit_that_is_not_in_the_book_is_refused_and_nothing_is_kept(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    id = extra(store, nurse, eye_id)
    visit.withdraw_visit(Desk(store, NOW, nurse, ZONE), eye_id, id)
    with pytest.raises(CareError, match="not in the book any more"):
        visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, iop(), visit=id)
    assert events.of_eye(store, eye_id) == []


def test_an_old_entry_by_name_counts_for_one_visit_and_never_for_one_added_later(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    by_name(store, nurse, eye_id, "week 1", datetime(2027, 3, 10, 9, tzinfo=UTC))
    assert open_names(store, eye_id, settings) == ["day 1"]
    first = extra(store, nurse, eye_id)
    by_name(store, nurse, eye_id, "extra visit", NOW + timedelta(hours=1))
    later = NOW + timedelta(days=2)
    second = extra(store, nurse, eye_id, later)
    eye = load(store, eye_id, settings.clinic.tz)
    assert first in eye.seen_visits
    assert [v.identity for v in eye.open_visits if v.name == "extra visit"] == [second]
    by_name(store, nurse, eye_id, "extra visit", later + timedelta(hours=1))
    assert open_names(store, eye_id, settings) == ["day 1"]


@pytest.mark.parametrize(
    ("at", "meant"),
    [
        (datetime(2027, 3, 5, 12, tzinfo=UTC), "first"),  # its window holds the day
        (datetime(2027, 3, 9, 12, tzinfo=UTC), "second"),
        (datetime(2027, 3, 30, 12, tzinfo=UTC), "second"),  # neither: the nearest
    ],
)
def test_of_two_visits_of_one_name_the_fitting_one_is_meant(
    store: Store, nurse: Actor, eye_id: str, settings: Settings, at: datetime, meant: str
) -> None:
    ids = {"first": extra(store, nurse, eye_id)}
    ids["second"] = visit.add_extra_visit(
        Desk(store, NOW, nurse, ZONE), eye_id, date(2027, 3, 8), date(2027, 3, 10), "again"
    )
    by_name(store, nurse, eye_id, "extra visit", at)
    assert set(load(store, eye_id, settings.clinic.tz).seen_visits) == {ids[meant]}


def test_an_entry_taken_back_counts_no_more(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    visit.record_visit(Desk(store, NOW, nurse, settings.clinic.tz), eye_id, iop(), visit="day 1")
    (event,) = [e for e in events.of_eye(store, eye_id) if e.kind == "seen"]
    assert attendance.attended_by_eye(store, "seen", settings.clinic.tz)[eye_id]
    events.add(store, new_id(), eye_id, "withdrawal", NOW, {"reason": "x"}, nurse.signature, NOW, corrects=event.id)
    assert attendance.attended_by_eye(store, "seen", settings.clinic.tz)[eye_id] == {}
    assert open_names(store, eye_id, settings) == ["day 1", "week 1"]


def test_an_extra_visit_that_nobody_came_to_is_missed_though_another_of_its_name_was_kept(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    zone = settings.clinic.tz
    first = extra(store, nurse, eye_id)
    visit.record_visit(Desk(store, NOW, nurse, zone), eye_id, iop(), visit=first)
    extra(store, nurse, eye_id, NOW + timedelta(days=1))
    raised = check_eye(store, eye_id, NOW + timedelta(days=2), zone)
    missed = [w.values for w in raised if w.worry == "missed-visit"]
    assert {"visit": "extra visit", "latest": "2027-03-06"} in missed
    assert {"visit": "extra visit", "latest": "2027-03-05"} not in missed


def test_who_arrived_for_which_visit(store: Store, nurse: Actor, eye_id: str, settings: Settings) -> None:
    zone = settings.clinic.tz
    first, second = extra(store, nurse, eye_id), extra(store, nurse, eye_id)
    body = {"visit": "extra visit", "visit_id": second}
    visit.record_clinic_event(Desk(store, NOW, nurse, zone), eye_id, "arrived", body)
    states = {d.visit.identity: d.state for d in lists.due_in(store, NOW, zone, lists.STATES)}
    assert (states[first], states[second]) == ("due", "here")
    visit.record_visit(Desk(store, NOW, nurse, zone), eye_id, iop(), visit=second)
    states = {d.visit.identity: d.state for d in lists.due_in(store, NOW, zone, lists.STATES)}
    assert (states[first], states[second]) == ("due", "seen")


def test_a_device_without_a_signal_names_the_visit_by_its_identity_or_as_before_by_its_name(
    store: Store, nurse: Actor, eye_id: str, settings: Settings
) -> None:
    week = next(v for v in visits.of_eye(store, eye_id) if v.name == "week 1")

    def sent(**body: str) -> Row:
        made = {"id": new_id(), "operation": eye_id, "kind": "seen", "body": body, "at": NOW.isoformat()}
        return {**made, "offset_minutes": 60, "sequence": 1}

    batch = [sent(visit="week 1", visit_id=week.identity), sent(visit="day 1")]
    results = receive_from_clinic(Desk(store, NOW, nurse, settings.clinic.tz), batch)
    assert [r.status for r in results] == ["received", "received"]
    assert open_names(store, eye_id, settings) == []


def test_visits_of_an_older_database_get_the_identity_under_which_they_first_stood(store: Store, settings: Settings) -> None:
    path = settings.server.database.with_name("old.db")
    old = Database(path)
    steps.apply(old, stop_before="m008_visit_identities")
    at = "2027-03-02T18:00:00.000000Z"
    old["patients"].insert(
        {"id": "p", "number": "1", "name": "P", "born_on": "1950-01-01", "phone": "", "language": "en", "created_at": at}
    )
    old["operations"].insert({"id": "o", "patient_id": "p", "created_at": at})
    for id, replaces in (("a", None), ("b", "a"), ("c", "b"), ("d", None)):
        dates = dict.fromkeys(("target", "earliest", "latest"), "2027-03-03")
        row = {"id": id, "operation_id": "o", "name": "week 1", **dates, "reason": "", "recorded_by": "x"}
        old["visits"].insert({**row, "recorded_at": at, "replaces": replaces, "withdrawn": 0})
    old.conn.close()
    upgraded = open_store(path)
    assert {v.id: v.identity for v in visits.of_eye(upgraded, "o")} == {"c": "a", "d": "d"}
    with pytest.raises(Exception, match="append-only"):
        upgraded.execute("UPDATE visits SET name = 'x'")
    upgraded.close()
