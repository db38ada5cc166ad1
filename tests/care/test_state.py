"""The current state is what the facts say after whatever people do, and the clock that looks only where it is due misses nothing.

What people do is drawn at random from fixed seeds. Common practice, no source.
"""

import random
import sqlite3
from collections import Counter
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from followup import jobs
from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import deciding, going_home, holding, moving_up, settling
from followup.care.callbacks.kinds import CHOICES, DECISIONS
from followup.care.corrections import correcting, operation_note
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.errors import CareError
from followup.care.patients import following, joining, reaching
from followup.care.reading import state
from followup.care.reading.eye import load, rulebook
from followup.care.today import arrivals, lists
from followup.care.visits import book, diary
from followup.care.visits.visit import record_visit
from followup.care.watch import raising
from followup.cli import cli
from followup.clinical import schedule
from followup.config import Settings
from followup.records import Store, events, eyes, kept_waiting, states, tasks, visits, watch, worries
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.home import SymptomsBody
from tests.conftest import NOW, OPERATED, ZONE, patient_details
from tests.conftest import operation_note as note_of

PLAN = (("day 1", 1, 1, 2), ("week 1", 7, 5, 11), ("week 2", 14, 11, 18), ("month 1", 30, 23, 40))
SAID = (
    SymptomsBody(pain=8), SymptomsBody(floaters="worse"), SymptomsBody(vision="worse"), SymptomsBody(curtain=True),
    SymptomsBody(words="odd"), SymptomsBody(pain=1, vision="same"),
)  # fmt: skip


class Clinic:
    """A small clinic in which anything may happen to anybody at any time."""

    def __init__(self, store: Store, settings: Settings, people: list[Actor], seed: int) -> None:
        self.store, self.settings, self.people, self.chance = store, settings, people, random.Random(seed)
        self.now, self.done = OPERATED + timedelta(hours=5), Counter[str]()
        self.eyes: list[str] = []
        verbs: list[Callable[[], Any]] = [
            self.discharged, self.measured, self.told, self.came, self.took_it_back, self.moved, self.cancelled,
            self.stayed_away, self.walked_in, self.undone, self.corrected, self.withdrawn, self.other_note, self.ended,
            self.taken_up, self.claimed, self.decided, self.settled, self.finished, self.given_back, self.went_home,
            self.reached_otherwise, self.joined, self.escalated, self.seen, self.asked, self.called,
        ]  # fmt: skip
        self.verbs = verbs

    def live(self, steps: int) -> None:
        for _ in range(3):
            self.discharged()
        for n in range(steps):
            self.now += self.chance.choice((timedelta(minutes=2), timedelta(hours=3), timedelta(hours=20)))
            verb = self.chance.choice(self.verbs)
            try:
                verb()
                self.done[verb.__name__] += 1
            except (CareError, IndexError, StopIteration):  # what cannot be done now, or on nothing
                self.done["could not be"] += 1
            self.states_hold()
            if n % 3 == 0:
                self.the_clock_looks()

    def states_hold(self) -> None:
        """Whoever is not marked has the right state, and so has everybody once the marked ones are made anew."""
        old = {states.standing(self.store, id) for id in states.changed(self.store, 1000)}
        for id in states.patients(self.store):
            if id not in old:
                assert states.kept(self.store, id) == state.state_of(self.store, id, ZONE)
        state.bring_up_to_date(self.store, self.now, ZONE)
        assert state.differences(self.store, ZONE) == []
        assert kept_waiting.differences(self.store) == []

    def the_clock_looks(self) -> None:
        jobs.check_all(self.store, self.settings, self.now)
        for eye in eyes.followed(self.store):
            read = load(self.store, eye.id, ZONE)
            assert list(raising.new_signs(self.store, read, rulebook(self.store), self.now)) == []
        assert watch.faults(self.store) == []
        assert raising.looked_at_too_late(self.store, ZONE) == []

    @property
    def desk(self) -> Desk:
        return Desk(self.store, self.now, self.chance.choice(self.people), ZONE)

    def eye(self) -> str:
        return self.chance.choice(self.eyes)

    def visit(self) -> str:
        return self.chance.choice(visits.of_eye(self.store, self.eye())).identity

    def entry(self) -> str:
        return self.chance.choice([e for e in events.of_eye(self.store, self.eye()) if e.kind != "withdrawal"]).id

    def open_one(self) -> str:
        return self.chance.choice(worries.open_callbacks(self.store)).id

    def task(self) -> str:
        calls = [call.id for call in worries.open_callbacks(self.store)]
        return self.chance.choice([t for of_one in tasks.open_of(self.store, calls).values() for t in of_one]).id

    def discharged(self) -> None:
        number, day = self.chance.randrange(6), self.now.astimezone(ZONE).date()
        days = [[day + timedelta(days=d) for d in (target, earliest, latest)] for _, target, earliest, latest in PLAN]
        windows = [schedule.Window(name, *those, "review") for (name, *_), those in zip(PLAN, days, strict=True)]
        agent, percent = self.chance.choice((("c2f6", 16), ("silicone-oil", 0), ("air", 0)))
        note = note_of(
            eye=self.chance.choice(("right", "right", "left")), operated_at=self.now - timedelta(hours=3), agent=agent,
            percent=percent, steroid_drops_until=None, surgeon=self.chance.choice(self.people).name,
        )  # fmt: skip
        who = patient_details(f"S-{number}").model_copy(update={"name": f"Person {number}"})
        self.eyes.append(leaving.discharge(self.desk, who, note, windows)[0])

    def measured(self) -> None:
        iop, side = self.chance.choice((4, 16, 33, 48)), self.chance.choice(("right", "left"))
        record_visit(self.desk, self.eye(), [MeasuresBody(eye=side, iop_mmhg=iop)])  # type: ignore[arg-type]

    def told(self) -> None:
        answers = self.chance.choice(SAID)
        diary.enter(self.desk, self.eye(), self.now.astimezone(ZONE).date(), answers)

    def asked(self) -> None:
        """A wish that came from a phone, kept as phones' entries are."""
        eye = self.eye()
        name = self.chance.choice(visits.of_eye(self.store, eye)).name
        body = {"visit": name, "words": "later, please"}
        events.add(
            self.store, f"wish-{len(self.done)}-{self.now}", eye, "visit-request", self.now, body, "patient:x", self.now
        )

    def came(self) -> None:
        identity = self.visit()
        v = visits.standing(self.store, identity)
        assert v
        arrivals.arrive(self.desk, v.eye_id, identity)

    def took_it_back(self) -> None:
        here = next(d for d in lists.due_in(self.store, self.now, ZONE, lists.STATES) if d.state == "here")
        arrivals.not_here(self.desk, here.arrival)

    def seen(self) -> None:
        identity = self.visit()
        v = visits.standing(self.store, identity)
        assert v
        record_visit(self.desk, v.eye_id, [], visit=self.chance.choice((identity, v.name)))

    def moved(self) -> None:
        identity, day = self.visit(), self.now.astimezone(ZONE).date() + timedelta(days=self.chance.randrange(1, 20))
        try:
            book.move(self.desk, self.settings.clinic, identity, day)
        except book.Asks as asks:
            book.move(self.desk, self.settings.clinic, identity, day, accepted=asks.questions)

    def cancelled(self) -> None:
        book.cancel(self.desk, self.visit(), "not needed")

    def stayed_away(self) -> None:
        book.did_not_come(self.desk, self.visit(), "forgot")

    def walked_in(self) -> None:
        book.walk_in(self.desk, self.eye(), "worried")

    def undone(self) -> None:
        book.undo(self.desk, self.chance.choice(visits.of_eye(self.store, self.eye())).id)

    def corrected(self) -> None:
        measured = [e for e in events.of_eye(self.store, self.eye()) if isinstance(e.body, MeasuresBody)]
        entry = self.chance.choice(measured)
        assert isinstance(entry.body, MeasuresBody)
        right = entry.body.model_copy(update={"iop_mmhg": self.chance.choice((14, 41))})
        correcting.correct(self.desk, entry.id, right, "misread")

    def withdrawn(self) -> None:
        correcting.withdraw(self.desk, self.entry(), "wrong patient")

    def other_note(self) -> None:
        eye = self.eye()
        note = self.chance.choice(eyes.notes_of(self.store, eye))
        side = self.chance.choice(("right", "left"))
        changed = note_of(eye=side, operated_at=note.operated_at, steroid_drops_until=None, surgeon="Somebody Else")
        operation_note.correct(self.desk, eye, note.operation_id, changed, "written wrong")

    def ended(self) -> None:
        eye = eyes.eye(self.store, self.eye())
        assert eye
        reason = self.chance.choice(("finished", "died"))
        concerned = following.concerned(self.store, eye, reason)
        open_ones, booked = following.still_open(self.store, concerned), following.confirmed_theatre(self.store, concerned)
        following.end(self.desk, eye.id, reason, "", closes=[one.callback.id for one in open_ones], withdraws=booked)

    def taken_up(self) -> None:
        following.take_up(self.desk, self.eye(), "came back")

    def claimed(self) -> None:
        holding.claim_call(self.desk, self.open_one())

    def called(self) -> None:
        phone_calls.attempt(self.desk, self.open_one(), self.chance.choice(("patient", None)), "", self.settings.clinic)

    def decided(self) -> None:
        owner = self.chance.choice([None, self.people[0].id])
        deciding.decide(
            self.desk, self.open_one(), self.chance.choice(tuple(DECISIONS)), "", self.settings.clinic, owner=owner
        )

    def settled(self) -> None:
        id, who = self.open_one(), Desk(self.store, self.now, self.people[1], ZONE)
        holding.claim(who, id)
        phone_calls.attempt(who, id, "patient", "", self.settings.clinic)
        settling.settle(who, id, self.chance.choice(tuple(CHOICES)), "all well", self.settings.clinic)

    def finished(self) -> None:
        settling.finish(self.desk, self.task(), "on the list", self.now.astimezone(ZONE).date())

    def given_back(self) -> None:
        holding.give_call_back(self.desk, self.open_one())

    def went_home(self) -> None:
        going_home.hand_over(Desk(self.store, self.now, self.people[0], ZONE), "back")

    def escalated(self) -> None:
        assert moving_up.escalate_overdue(self.store, self.now) is not None

    def reached_otherwise(self) -> None:
        eye = eyes.eye(self.store, self.eye())
        assert eye
        reaching.put(self.desk, eye.patient.id, self.chance.choice(("own-phone", "no-app")), "+00 5")

    def joined(self) -> None:
        one, other = (eyes.eye(self.store, self.eye()) for _ in range(2))
        assert one
        assert other
        if self.chance.random() < 0.3 and one.patient.id != other.patient.id:
            found = joining.look(self.store, one.patient.id, other.patient.id, ZONE)
            joining.join(self.desk, found, number="one", particulars="one", mark=found.mark, same_day_meant=True)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_states_are_what_the_facts_say_and_no_look_is_missed(
    store: Store, settings: Settings, nurse: Actor, surgeon: Actor, seed: int
) -> None:
    clinic = Clinic(store, settings, [nurse, surgeon], seed)
    clinic.live(90)
    assert len(clinic.done) > 18, clinic.done  # most of what can happen did


def test_every_table_that_a_state_is_made_from_marks_its_patient(store: Store, eye_id: str) -> None:
    """Asked of SQLite itself: it names each table that is read. Names of staff are no part of a state."""
    patient = eyes.eye(store, eye_id)
    assert patient
    read: set[str] = set()

    def reads(action: int, table: str | None, *_: Any) -> int:
        if action == sqlite3.SQLITE_READ and table:
            read.add(table)
        return sqlite3.SQLITE_OK

    store.db.conn.set_authorizer(reads)
    record_visit(Desk(store, NOW, Actor("x", "X", "nurse"), ZONE), eye_id, [MeasuresBody(eye="right", iop_mmhg=48)])
    read.clear()
    state.state_of(store, patient.patient.id, ZONE)
    store.db.conn.set_authorizer(None)
    marked = {row["tbl_name"] for row in store.rows("SELECT tbl_name FROM sqlite_master WHERE name GLOB '*_changed_insert'")}
    assert {"events", "visits", "callbacks", "warnings", "eyes", "patients"} <= read
    assert read - {"staff"} <= marked


def test_a_state_that_cannot_be_made_is_named_and_its_eye_looked_at_each_time(
    store: Store, settings: Settings, eye_id: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    jobs.check_all(store, settings, NOW)
    jobs.check_all(store, settings, NOW)
    assert states.to_look_at(store, NOW) == []
    record_visit(Desk(store, NOW, Actor("x", "X", "nurse"), ZONE), eye_id, [MeasuresBody(eye="right", iop_mmhg=15)])

    def broken(*_: Any) -> None:
        raise ValueError("as a row that nobody foresaw")

    with monkeypatch.context() as fault:
        fault.setattr(state, "state_of", broken)
        jobs.check_all(store, settings, NOW)
        assert [f.what for f in watch.faults(store)] == ["state"]
        assert eye_id in {id for id, _ in states.to_look_at(store, NOW)}
        assert [d.eye.id for d in lists.due_in(store, NOW, ZONE, lists.STATES)] == [eye_id] * 2  # as it stood before
    jobs.check_all(store, settings, NOW)
    assert watch.faults(store) == []


def test_a_change_while_the_clock_looks_is_looked_at_again(store: Store, settings: Settings, eye_id: str) -> None:
    state.bring_up_to_date(store, NOW, ZONE)
    ((_, version),) = states.to_look_at(store, NOW)
    store.execute("UPDATE eyes SET followed_since = followed_since WHERE id = :id", {"id": eye_id})  # somebody wrote
    state.bring_up_to_date(store, NOW, ZONE)  # and somebody else's page made the state anew
    states.look_again(store, [(eye_id, version, NOW + timedelta(days=3))])
    assert [id for id, _ in states.to_look_at(store, NOW)] == [eye_id]


def test_another_rulebook_looks_at_every_eye_again(store: Store, settings: Settings, surgeon: Actor, eye_id: str) -> None:
    from followup.care.learning import signing
    from followup.protocols import book as texts

    for _ in range(2):
        jobs.check_all(store, settings, NOW)
    assert states.to_look_at(store, NOW) == []
    stricter = texts.draft_text("rulebook").replace('version = "draft-2"', 'version = "ours"')
    signing.save(Desk(store, NOW, surgeon, ZONE), "rulebook", stricter)
    assert [id for id, _ in states.to_look_at(store, NOW)] == [eye_id]


def test_check_names_a_state_that_is_not_what_the_facts_say_and_can_rebuild_it(
    store: Store, settings: Settings, eye_id: str, tmp_path: Path
) -> None:
    for _ in range(2):
        jobs.check_all(store, settings, NOW)
    config = tmp_path / "clinic.toml"
    config.write_text(
        f'[clinic]\nname = "Test"\nphone = "+00 1 234"\nzone = "{ZONE.key}"\n[server]\n'
        f'database = "{settings.server.database}"\n',
        encoding="utf-8",
    )

    def check(*options: str) -> tuple[int, str]:
        said = CliRunner().invoke(cli, ["--config", str(config), "check", *options])
        return said.exit_code, said.output

    assert check() == (0, "the database and the audit chain are whole\n")
    store.execute("UPDATE eye_states SET worry = 'none'")
    store.execute("DELETE FROM visit_states WHERE target = '2027-03-10'")
    code, said = check()
    assert code == 1
    assert f"the state of eye {eye_id} is not what the facts say" in said
    assert said.count("the state of visit") == 1
    assert check("--rebuild")[0] == 0
    store.execute("UPDATE eye_results SET calls = 7")
    assert f"what eye {eye_id} contributes to the results is not what the facts say" in check()[1]
    assert check("--rebuild")[0] == 0
    store.execute("UPDATE eye_states SET look_at = '2199-01-01T00:00:00.000000Z'")
    assert f"the clock would look at eye {eye_id} too late" in check()[1]
    assert check("--rebuild")[0] == 0
    store.insert("theatre_to_come", {"task_id": "x"})
    assert "theatre_to_come x is not what the facts say; mend it with “followup check --rebuild”" in check()[1]
    assert check("--rebuild")[0] == 0
    assert check()[0] == 0


def test_other_days_of_the_clinic_make_every_state_anew(store: Store, eye_id: str) -> None:
    from zoneinfo import ZoneInfo

    state.bring_up_to_date(store, NOW, ZONE)
    state.bring_up_to_date(store, NOW, ZoneInfo("Pacific/Auckland"))
    assert state.differences(store, ZoneInfo("Pacific/Auckland")) == []
