"""A month of a clinic with four hundred eyes: no visit of its book is lost.

What people do is drawn at random from a fixed seed; how often is from memory. The rules are silent here: they never touch
the book. What became of each visit is kept beside the clinic, and compared with what its records and lists say at the end.
"""

import random
from collections import Counter
from datetime import UTC, date, datetime, time, timedelta

import pytest

from followup.care.actors import Actor
from followup.care.corrections import correcting
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.patients import following
from followup.care.reading.attendance import attended_by_eye
from followup.care.today import arrivals, lists
from followup.care.visits import book, closing, in_book, openings, visit
from followup.clinical import schedule
from followup.config import Clinic, Settings
from followup.records import Store, audit, eyes, visits
from followup.records.bodies.clinic import BARRIERS
from tests.conftest import ZONE, operation_note, patient_details

EYES = 400
FIRST, LAST = date(2027, 3, 1), date(2027, 3, 31)
TOLD_ON, CLOSED = date(2027, 3, 8), date(2027, 3, 17)
PLAN = (("day 1", 1, 1, 2), ("week 1", 7, 5, 11), ("week 2", 14, 11, 18), ("month 1", 30, 23, 40), ("month 3", 90, 75, 110))
LEAVES = 20  # eyes a month whose follow-up ends, and as many that are operated again


class Month:
    """The clinic day by day. `told` is what this test knows of each visit: seen, cancelled, or still in the book."""

    def __init__(self, store: Store, nurse: Actor, clinic: Clinic) -> None:
        self.store, self.nurse, self.clinic = store, nurse, clinic
        self.chance = random.Random(4001)
        self.told: dict[str, str] = {}
        self.done: Counter[str] = Counter()
        self.today = FIRST

    def desk(self, hour: int = 9) -> Desk:
        at = datetime.combine(self.today, time(hour), ZONE).astimezone(UTC)
        return Desk(self.store, at, self.nurse, ZONE)

    def begin(self) -> None:
        """Eyes operated on the working days of the three months before."""
        with self.store.transaction():
            for n in range(EYES):
                operated = FIRST - timedelta(days=1 + n % 88)
                self.discharged(f"M-{n}", operated)

    def discharged(self, number: str, operated: date) -> str:
        days = openings.openings(self.store, self.clinic, operated, operated + timedelta(days=200))
        wanted = [
            schedule.Request(name, *(operated + timedelta(days=d) for d in (target, earliest, latest)))
            for name, target, earliest, latest in PLAN
        ]
        found = schedule.book(wanted, days.free()).placed
        windows = [schedule.Window(r.id, found.get(r.id, r.target), r.earliest, r.latest, "review") for r in wanted]
        at = datetime.combine(operated, time(14), ZONE)
        note = operation_note(operated_at=at, steroid_drops_until=operated + timedelta(days=28))
        desk = Desk(self.store, at.astimezone(UTC) + timedelta(hours=3), self.nurse, ZONE)
        eye, _ = leaving.discharge(desk, patient_details(number), note, windows)
        for v in visits.of_eye(self.store, eye):
            if v.identity not in self.told:
                self.told[v.identity] = "booked"
            if v.target < FIRST:  # what was before this month took place
                visit.record_visit(self.at(v.target), eye, [], visit=v.identity)
                self.told[v.identity] = "seen"
        return eye

    def at(self, day: date) -> Desk:
        return Desk(self.store, datetime.combine(day, time(10), ZONE).astimezone(UTC), self.nurse, ZONE)

    def live(self) -> None:
        while self.today <= LAST:
            if self.today in openings.ahead(self.store, self.clinic, self.today).places:
                with self.store.transaction():
                    self.day()
            self.today += timedelta(days=1)

    def day(self) -> None:
        desk = self.desk()
        for due in lists.due_in(self.store, desk.now, ZONE, lists.STATES):
            if due.state == "due" and due.visit.target == self.today:
                self.visit_of_today(due)
            elif due.state in ("missed", "due") and self.chance.random() < 0.5:
                self.another_day(due.visit.identity)
            elif due.state == "coming" and self.chance.random() < 0.04:
                self.called_ahead(due.visit.identity)
        self.beside_the_plan()
        if self.today == TOLD_ON:
            self.close()
        for change in visits.to_tell(self.store, self.today, 10):
            book.told(desk, change.changed.id)

    def visit_of_today(self, due: lists.Due) -> None:
        identity, eye, draw = due.visit.identity, due.eye.id, self.chance.random()
        if draw < 0.80:
            arrivals.arrive(self.desk(), eye, identity)
            visit.record_visit(self.desk(11), eye, [], visit=identity)
            self.now(identity, "seen")
        elif draw < 0.83:  # pressed for the wrong line, and taken back; nobody comes
            arrivals.arrive(self.desk(), eye, identity)
            here = next(
                d for d in lists.due_in(self.store, self.desk(10).now, ZONE, lists.STATES) if d.visit.identity == identity
            )
            arrivals.not_here(self.desk(10), here.arrival)
            self.now(identity, "booked", "arrival taken back")
        elif draw < 0.93:
            barrier = self.chance.choice([b for b in BARRIERS if b != "other"])
            book.did_not_come(self.desk(15), identity, barrier)
            self.now(identity, "booked", "did not come")
            if self.chance.random() < 0.5:
                self.another_day(identity)
        elif draw < 0.95:
            self.cancel(identity)
        else:
            self.done["nobody wrote anything"] += 1

    def another_day(self, identity: str) -> None:
        v = visits.standing(self.store, identity)
        assert v
        days = in_book.choices(openings.ahead(self.store, self.clinic, self.today + timedelta(days=1)), v)
        day = self.chance.choice(days[:6]).day
        try:
            version = book.move(self.desk(16), self.clinic, identity, day)
        except book.Asks as asks:
            version = book.move(self.desk(16), self.clinic, identity, day, accepted=asks.questions)
        self.now(identity, "booked", "moved")
        if self.chance.random() < 0.1:
            book.undo(self.desk(17), version)
            self.now(identity, "booked", "taken back")

    def called_ahead(self, identity: str) -> None:
        if self.chance.random() < 0.7:
            self.another_day(identity)
            return
        self.cancel(identity)
        if self.chance.random() < 0.5:
            book.put_back(self.desk(17), identity)
            self.now(identity, "booked", "put back")

    def cancel(self, identity: str) -> None:
        book.cancel(self.desk(15), identity, "seen elsewhere")
        self.now(identity, "cancelled")

    def beside_the_plan(self) -> None:
        """A walk-in who is seen, one who leaves, an extra visit; ends of follow-up, operations again, new patients."""
        for eye in self.some(2):
            identity = book.walk_in(self.desk(), eye, "a shadow")
            self.now(identity, "booked", "walk-in")
            if self.chance.random() < 0.8:
                visit.record_visit(self.desk(12), eye, [], visit=identity)
                self.now(identity, "seen")
        for eye in self.some(1):
            day = openings.ahead(self.store, self.clinic, self.today).open_between(self.today, LAST + timedelta(days=9))[1]
            try:
                identity = book.add(self.desk(), self.clinic, eye, "pressure", day, "")
            except book.Asks as asks:
                identity = book.add(self.desk(), self.clinic, eye, "pressure", day, "", accepted=asks.questions)
            self.now(identity, "booked", "added")
        for eye in self.some(1):
            self.leaves_book(eye, self.today)
            following.end(self.desk(18), eye, "finished", "")
            self.done["ended"] += 1
        for eye in self.some(1):
            operated_on = self.today - timedelta(days=1)
            self.leaves_book(eye, operated_on)
            known = eyes.eye(self.store, eye)
            assert known
            self.discharged(known.patient.number, operated_on)
            self.done["operated again"] += 1
        self.discharged(f"N-{self.today:%d}", self.today - timedelta(days=1))

    def leaves_book(self, eye: str, since: date) -> None:
        """What is still to come, from then on, of an eye that ends or is operated again leaves the book with that reason."""
        for v in visits.of_eye(self.store, eye):
            if self.told[v.identity] == "booked":
                self.now(v.identity, "cancelled" if v.latest >= since else "did not come")

    def close(self) -> None:
        found = closing.displaced(self.desk(), self.clinic, CLOSED)
        self.done["closed, moved"] += closing.close(
            self.desk(), self.clinic, CLOSED, "training", {one.visit.identity: one.to for one in found if one.to}
        )
        self.done["closed, left"] += sum(one.to is None for one in found)

    def some(self, count: int) -> list[str]:
        followed = [e.id for e in eyes.followed(self.store)]
        return self.chance.sample(followed, count)

    def now(self, identity: str, state: str, done: str = "") -> None:
        self.told[identity] = state
        self.done[done or state] += 1


def test_no_visit_of_a_month_is_lost(
    store: Store, nurse: Actor, settings: Settings, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module in (visit, correcting):
        monkeypatch.setattr(module, "raise_signs_of_patient", lambda *_: [])
    clinic = settings.clinic.model_copy(update={"places": dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), 30)})
    month = Month(store, nurse, clinic)
    month.begin()
    month.live()
    assert set(month.done) >= {
        "seen", "moved", "cancelled", "did not come", "walk-in", "added", "taken back", "put back", "arrival taken back",
        "nobody wrote anything", "closed, moved", "ended", "operated again",
    }  # fmt: skip
    month.today = LAST + timedelta(days=1)
    assert became_of(month) == month.told
    assert audit.broken_at(store) is None


def became_of(month: Month) -> dict[str, str]:
    """What the clinic's records and lists say of every visit that was ever in its book."""
    store, desk = month.store, month.desk()
    seen = {identity for found in attended_by_eye(store, "seen", ZONE).values() for identity in found}
    listed = {d.visit.identity for d in lists.due_in(store, desk.now, ZONE, lists.STATES)}
    stranded = {v.identity for _, v in closing.on_closed_days(desk, month.clinic)}
    open_days = openings.ahead(store, month.clinic, desk.today).places
    found = {}
    for row in store.rows("SELECT DISTINCT identity FROM visits"):
        v = visits.standing(store, row["identity"])
        assert v
        eye = eyes.eye(store, v.eye_id)
        assert eye
        if v.identity in seen or row_seen(store, v.identity):
            found[v.identity] = "seen"
        elif v.withdrawn:
            found[v.identity] = "cancelled" if v.why else "cancelled, nobody knows why"
        elif v.identity in listed | stranded or v.target in open_days:
            found[v.identity] = "booked"
        else:
            over = not eye.is_followed or (eye.note and eye.note.operated_at.date() > v.latest)
            found[v.identity] = "did not come" if over and v.latest < desk.today else "lost"
    return found


def row_seen(store: Store, identity: str) -> bool:
    """Whether an entry says that it took place, also of an eye that is no longer followed."""
    sql = "SELECT 1 FROM events WHERE kind = 'seen' AND json_extract(body, '$.visit_id') = :id"
    return store.row(sql, {"id": identity}) is not None
