"""A clinic's month with its callbacks and its book: 400 eyes, three nurses, two surgeons, leave, a day that closes while one
of them is away, and evenings on which people go home.

No open worry is without an owner or a place on a list, nothing is settled without an outcome or, where it was urgent,
without a conversation; no visit is lost, planned or decided on; and who is for theatre is on its list. What happens is drawn
at random from a fixed seed; how often it does is invented.
"""

import random
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta

import pytest

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, going_home, holding, moving_up, settling, theatre
from followup.care.callbacks import lines as list_of_calls
from followup.care.callbacks.kinds import CHOICES, DECISIONS, OUTCOMES, URGENT
from followup.care.callbacks.lines import Line, for_surgeon, listed
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.who import Patient
from followup.care.errors import CareError
from followup.care.reading.attendance import attended_by_eye
from followup.care.today import lists
from followup.care.today.handover import handover
from followup.care.visits import book, closing, diary, in_book, visit
from followup.care.visits.openings import ahead
from followup.care.watch.raising import check_eye
from followup.clinical import schedule
from followup.config import Settings
from followup.records import Store, audit, eyes, tasks, visits, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.home import SymptomsBody
from followup.records.values import Callback
from tests.conftest import PASSWORD, ZONE, operation_note, patient_details

EYES, DAYS = 400, 30
FIRST = datetime(2027, 3, 1, 8, tzinfo=UTC)
TOLD_ON, CLOSED = 8, date(2027, 3, 17)  # a Wednesday on which a nurse is on leave
PLAN = (("week 1", 7, 5, 11), ("week 2", 14, 12, 18), ("month 1", 28, 23, 40))
REACHED_BY = ("own-phone", "own-phone", "carer-phone", "no-app")
FINDINGS = ((), (), (), (), ("hypopyon",), ("leak",), ("detached",))
BAD = (
    SymptomsBody(pain=8),
    SymptomsBody(curtain=True, vision="worse"),
    SymptomsBody(redness="worse", vision="worse", pain=5),
    SymptomsBody(words="odd"),
)


class Month:
    """The clinic, lived through day by day."""

    def __init__(self, store: Store, settings: Settings) -> None:
        self.store, self.chance = store, random.Random(1904)
        places = dict.fromkeys(("mon", "tue", "wed", "thu", "fri"), 40)
        self.clinic = settings.clinic.model_copy(update={"places": places})
        self.done: Counter[str] = Counter()
        self.nurses = [self._hired(f"Nurse {name}", "nurse") for name in "ABC"]
        self.surgeons = [self._hired(f"Surgeon {name}", "surgeon") for name in "AB"]
        self.eyes: list[str] = []

    def _hired(self, name: str, role: str) -> Actor:
        address = f"{name.lower().replace(' ', '.')}@test.invalid"
        return Actor(accounts.add_staff(self.store, FIRST, name, role, address, PASSWORD), name, role)

    def desk(self, who: Actor, at: datetime) -> Desk:
        return Desk(self.store, at, who, ZONE)

    def operated(self, number: int, at: datetime, side: str = "right") -> None:
        person = patient_details(f"M-{number}").model_copy(
            update={"name": f"Person {number}", "reached_by": REACHED_BY[number % 4], "carer_phone": "+00 5"}
        )
        assert isinstance(person, Patient)
        surgeon = self.chance.choice(self.surgeons).name
        note = operation_note(eye=side, operated_at=at - timedelta(hours=6), surgeon=surgeon, steroid_drops_until=None)
        desk = self.desk(self.nurses[0], at)
        open_days = sorted(ahead(self.store, self.clinic, desk.today).places)
        windows = []
        for name, *days in PLAN:
            target, earliest, latest = (desk.today + timedelta(days=n) for n in days)
            target = next(day for day in open_days if day >= target)
            windows.append(schedule.Window(name, target, earliest, max(target, latest), "review"))
        self.eyes.append(leaving.discharge(desk, person, note, windows)[0])

    def at_work(self, day: int) -> list[Actor]:
        """Who is not on leave: each person is away for a week of the month, and on Sundays all but one are."""
        people = [*self.nurses, *self.surgeons]
        here = [who for n, who in enumerate(people) if not n * 6 <= day < n * 6 + 5]
        return here[:1] if day % 7 == 6 else here

    def morning(self, at: datetime, here: list[Actor]) -> None:
        """What is measured, written in diaries, or found by the clock."""
        nurse = here[0]
        for eye in self.chance.sample(self.eyes, min(20, len(self.eyes))):
            iop, findings = self.chance.choice((14, 16, 17, 4, 26, 33, 48)), self.chance.choice(FINDINGS)
            side = self.chance.choice(("right", "right", "left"))
            body = MeasuresBody(eye=side, iop_mmhg=iop, findings=findings)  # type: ignore[arg-type]
            visit.record_visit(self.desk(nurse, at), eye, [body])
        for eye in self.chance.sample(self.eyes, min(8, len(self.eyes))):
            try:
                diary.enter(self.desk(nurse, at), eye, at.date(), self.chance.choice(BAD))
            except CareError:  # operated only later that day
                self.done["too early"] += 1
        for eye in self.chance.sample(self.eyes, len(self.eyes) // 8):
            check_eye(self.store, eye, at, ZONE)
        for due in lists.due_in(self.store, at, ZONE, ["due", "missed"]):
            self.comes(nurse, at, due)

    def comes(self, nurse: Actor, at: datetime, due: lists.Due) -> None:
        """Most come on their day; some are given another, and some do not come."""
        desk, identity, draw = self.desk(nurse, at), due.visit.identity, self.chance.random()
        if draw < 0.75 and due.visit.target == desk.today:
            visit.record_visit(desk, due.eye.id, [], visit=identity)
            self.done["came"] += 1
        elif draw > 0.95 and due.visit.target <= desk.today:
            day = in_book.choices(ahead(self.store, self.clinic, desk.today + timedelta(days=1)), due.visit)[0].day
            try:
                book.move(desk, self.clinic, identity, day)
            except book.Asks as asks:
                book.move(desk, self.clinic, identity, day, accepted=asks.questions)
            self.done["moved"] += 1

    def closes(self, who: Actor, at: datetime) -> None:
        """A day is closed, and its visits get the days proposed for them."""
        desk = self.desk(who, at)
        found = closing.displaced(desk, self.clinic, CLOSED)
        to = {one.visit.identity: one.to for one in found if one.to}
        try:
            moved = closing.close(desk, self.clinic, CLOSED, "training", to)
        except book.Asks as asks:  # about those that are to be called now
            moved = closing.close(desk, self.clinic, CLOSED, "training", to, accepted=asks.questions)
        self.done["closed, moved"] += moved

    def works(self, who: Actor, at: datetime) -> None:
        """One person goes through the top of the list."""
        lines = listed(self.desk(who, at)).lines
        for line in lines[: 12 if who.role == "nurse" else 6]:
            try:
                self._decides(who, at, line) if who.role == "surgeon" else self._calls(who, at, line)
            except CareError as error:
                self.done[type(error).__name__] += 1

    def _decides(self, who: Actor, at: datetime, line: Line) -> None:
        about = [c.id for c in line.callbacks if c.state != "to-do" and self.chance.random() < 0.8]
        if about:
            owner = self.chance.choice([None, None, *(n.id for n in self.nurses)])
            outcome = self.chance.choice(DECISIONS)
            deciding.decide(self.desk(who, at), about[0], outcome, "", self.clinic, also=about[1:], owner=owner)
            self.done["decided"] += 1
            if self.chance.random() < 0.1:
                deciding.undo(self.desk(who, at + timedelta(minutes=2)), about[-1])

    def _calls(self, who: Actor, at: datetime, line: Line) -> None:
        desk, first = self.desk(who, at), line.worst
        theirs = next((c.claimed_by for c in line.callbacks if c.state == "claimed" and c.claimed_by != who.id), None)
        if theirs and self.chance.random() < 0.3:
            holding.take_call_over(desk, first.id, theirs)
        elif any(c.state == "waiting" for c in line.callbacks):
            holding.claim_call(desk, first.id)
        for task in line.to_do:
            if task.owner is None:
                holding.take_task(desk, task.id, None)
        reached = self.chance.choice(("patient", "carer", None))
        phone_calls.attempt(desk, first.id, reached, "", self.clinic)
        self.done[f"reached {reached}"] += 1
        for task in line.to_do:
            if self.chance.random() < 0.5:
                settling.finish(desk, task.id, "on the list", desk.now.astimezone(desk.zone).date())
            elif self.chance.random() < 0.1:
                settling.give_up(desk, task.id, "cannot come")
        mine = [c.id for c in holding.open_of_patient(self.store, first) if c.state == "claimed" and c.claimed_by == who.id]
        about = [id for id in mine if self.chance.random() < 0.8]
        if about and self.chance.random() < 0.8:
            outcome = self.chance.choice(list(CHOICES))
            settling.settle(desk, about[0], outcome, "as said", self.clinic, also=about[1:], told=bool(reached))
            self.done["outcome"] += 1

    def evening(self, at: datetime, here: list[Actor]) -> None:
        """Everybody goes home, and whoever holds something says what becomes of it."""
        for who in here:
            if going_home.holds_anything(self.store, who.id):
                colleague = self.chance.choice([a.id for a in (*self.nurses, *self.surgeons) if a.id != who.id])
                way = self.chance.choice(list(going_home.WAYS))
                going_home.hand_over(self.desk(who, at), way, colleague)
                self.done[f"went home: {way}"] += 1

    def live(self) -> Iterator[datetime]:
        """Each day up to its evening, whose time is given."""
        number = 0
        for day in range(DAYS):
            at = FIRST + timedelta(days=day)
            while len(self.eyes) < EYES * min(1, (day + 1) / 15):
                self.operated(number, at)
                if number % 5 == 0:
                    self.operated(number, at, "left")
                number += 1
            here = self.at_work(day)
            with self.store.transaction():
                self.morning(at + timedelta(hours=1), here)
                if day == TOLD_ON:
                    self.closes(here[-1], at + timedelta(hours=1))
                for hour in (2, 7):
                    moving_up.escalate_overdue(self.store, at + timedelta(hours=hour))
                    for who in here:
                        self.works(who, at + timedelta(hours=hour, minutes=20))
                self.evening(at + timedelta(hours=9), here)
                moving_up.escalate_overdue(self.store, at + timedelta(hours=10))
            yield at + timedelta(hours=10)


def callbacks(store: Store, *, settled: bool) -> list[Callback]:
    """As the table has them, past the queries that make the lists."""
    ids = store.rows("SELECT id FROM callbacks WHERE (state = 'settled') = :settled", {"settled": int(settled)})
    return [found for row in ids if (found := worries.callback(store, row["id"]))]


def fates(month: Month, at: datetime) -> Counter[str]:
    """What became of every visit that ever stood in the book, as records and lists say: none may be lost."""
    store, desk = month.store, month.desk(month.nurses[0], at)
    seen = {identity for found in attended_by_eye(store, "seen", ZONE).values() for identity in found}
    listed_now = {due.visit.identity for due in lists.due_in(store, at, ZONE, lists.STATES)}
    stranded = {v.identity for _, v in closing.on_closed_days(desk, month.clinic)}
    open_days = ahead(store, month.clinic, desk.today).places
    found: Counter[str] = Counter()
    for row in store.rows("SELECT DISTINCT identity FROM visits"):
        v = visits.standing(store, row["identity"])
        assert v is not None
        if v.identity in seen:
            found["seen"] += 1
        elif v.withdrawn:
            found["cancelled" if v.why else "lost"] += 1
        elif v.target >= desk.today and v.target in open_days:
            found["to come"] += 1
        else:
            found["on a list" if v.identity in listed_now | stranded else "lost"] += 1
    return found


def for_theatre(month: Month, at: datetime) -> None:
    """Whoever is for theatre, confirmed or not, is on its list: nobody is operated in this month."""
    decided = {t.eye_id for id in month.eyes for t in tasks.for_theatre_of(month.store, id)}
    on_list = {b.task.eye_id for b in theatre.listed(month.desk(month.surgeons[0], at))}
    assert decided
    assert decided <= on_list


def test_nothing_falls_off_a_list_in_a_month(store: Store, settings: Settings, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(list_of_calls, "LINES", EYES)  # the whole list on one page
    month = Month(store, settings)
    staff = {who.id for who in (*month.nurses, *month.surgeons)}
    looked = Counter[str]()
    for at in month.live():
        desk = month.desk(month.nurses[0], at)
        lines = listed(desk).lines
        shown = Counter(c.id for line in lines for c in line.callbacks)
        open_ones = callbacks(store, settled=False)
        assert shown == Counter(c.id for c in open_ones), "every open callback on exactly one line"
        patients = [line.eye.patient.id for line in lines if line.eye]
        assert len(set(patients)) == len(patients), "one line a patient"
        for c in open_ones:
            todo = holding.open_tasks(store, c)
            assert c.free or c.claimed_by in staff or all(t.owner in staff for t in todo)
            assert (c.state == "to-do") == bool(todo)
            assert c.due_at > at or c.level == 2, "what is late has moved up as far as it can, or will be due"
            waited_for = [visits.standing(store, t.visit_id) for t in todo if t.visit_id]
            assert all(v is not None and not v.withdrawn for v in waited_for)
            looked["waited for a visit"] += len(waited_for)
        left = handover(desk)
        on_page = {line.worst.id for line in left.waiting} | {i.line.worst.id for items in left.held.values() for i in items}
        assert on_page == {line.worst.id for line in lines}, "the handover names everything that is open"
        needs = for_surgeon(month.desk(month.surgeons[0], at))
        assert sorted(line.worst.id for line in (*needs.open, *needs.decided)) == sorted(line.worst.id for line in lines)

    became = fates(month, at)
    assert became["lost"] == 0, became
    assert became["seen"] > EYES / 2
    assert {"cancelled", "to come", "on a list"} <= set(became), became
    for_theatre(month, at)
    settled = callbacks(store, settled=True)
    for c in settled:
        steps = worries.steps_of(store, c.id)
        assert c.outcome in OUTCOMES
        assert c.settled_by in staff
        assert [s.detail["outcome"] for s in steps if s.step == "settled"][-1] == c.outcome
        assert holding.open_tasks(store, c) == []
        if c.how_soon in URGENT:
            assert phone_calls.conversation(steps), "spoken to after the last urgent sign"
        made = [t for t in tasks.of_callback(store, c.id) if not t.given_up]
        assert all(t.told_at for t in made)
        looked["told"] += len(made)
    assert len(month.eyes) >= EYES
    assert len(settled) > 100, month.done
    assert min(looked["waited for a visit"], looked["told"]) > 0, looked
    assert {
        "went home: back",
        "went home: to",
        "went home: keep",
        "decided",
        "outcome",
        "Conflict",
        "came",
        "moved",
        "closed, moved",
    } <= set(month.done), month.done
    worried = {c.worry for c in (*settled, *callbacks(store, settled=False))}
    assert worried >= {"infection", "pressure", "retina", "silence", "diary", "words"}
    on_paper = [id for id, eye in eyes.by_ids(store, month.eyes).items() if not eye.patient.has_app]
    assert len(on_paper) > EYES / 5
    assert not [w for eye in on_paper for w in worries.warnings_of(store, eye) if w.worry in ("silence", "posture")]
    assert audit.broken_at(store) is None
