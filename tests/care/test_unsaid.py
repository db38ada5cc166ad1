"""The clock that looks only at what changed makes every message that a look at everything would, after whatever people do."""

import re
from collections.abc import Callable
from contextlib import suppress
from datetime import time, timedelta
from typing import Any

import pytest

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.messages import outgoing, reminders
from followup.care.visits import visit
from followup.config import Messages, Settings
from followup.records import Store, people, states, tasks, unsaid, visits, watch, worries
from followup.records import messages as kept
from followup.records.bodies.clinic import MeasuresBody
from followup.records.store import RowRefused
from followup.records.times import to_text
from followup.records.values import Device, Visit
from tests.care.test_state import Clinic
from tests.conftest import NOW, ZONE

QUIET = time()
KEYS = outgoing.PushKeys(p256dh="B" * 87, auth="a" * 22)
MAIL = Messages(smtp_host="127.0.0.1", sender="clinic@test.invalid")


@pytest.fixture(autouse=True)
def never_everything(monkeypatch: pytest.MonkeyPatch) -> None:
    """What the hour's look at everything would catch shows here as missing."""
    monkeypatch.setattr(unsaid, "ANEW", timedelta(days=10_000))


@pytest.fixture
def posted(settings: Settings) -> Settings:
    clinic = settings.clinic.model_copy(update={"on_call_email": "oncall@test.invalid"})
    return settings.model_copy(update={"messages": MAIL, "clinic": clinic})


class Heard(Clinic):
    """A clinic in which people also choose how they hear of things, come and go."""

    def __init__(self, store: Store, settings: Settings, people: list[Actor], seed: int) -> None:
        super().__init__(store, settings, people, seed)
        self.made, self.others = 0, list[str]()
        self.verbs += [self.chose, self.subscribed, self.was_taken_on, self.left, self.silent, self.mail_set_up] * 2
        self.verbs += [self.moved, self.cancelled, self.measured, self.claimed, self.given_back, self.decided]

    def person(self) -> str:
        somebody = [f"patient:{id}" for id in states.patients(self.store)]
        staff = [*(f"staff:{member.id}" for member in people.all_staff(self.store)), reminders.ON_CALL]
        return self.chance.choice(self.chance.choice((somebody, somebody, staff)))

    def chose(self) -> None:
        email, unwanted = self.chance.choice(("", "x@test.invalid")), self.chance.choice(({"now"}, {"visit"}, set[str]()))
        chosen = outgoing.Choices(email=email, quiet_from=QUIET, quiet_to=QUIET, unwanted=unwanted)
        outgoing.choose(self.store, self.now, self.person(), chosen)

    def subscribed(self) -> None:
        endpoint = f"https://push.test.invalid/{self.chance.randrange(12)}"
        outgoing.subscribe(self.store, self.now, self.person(), outgoing.Subscription(endpoint=endpoint, keys=KEYS))

    def was_taken_on(self) -> None:
        role = self.chance.choice(("nurse", "surgeon"))
        email = f"{self.chance.random()}@test.invalid"
        self.others.append(accounts.add_staff(self.store, self.now, "An Other", role, email, "words that do not belong"))

    def left(self) -> None:
        accounts.end(self.store, self.now, self.others.pop(0))

    def silent(self) -> None:
        with suppress(RowRefused):  # there is one
            worries.add_callback(self.store, self.eye(), "silence", "this-week", self.now, self.now + timedelta(days=3))

    def mail_set_up(self) -> None:
        chosen = self.chance.choice((MAIL, Messages()))
        self.settings = self.settings.model_copy(update={"messages": chosen})

    def states_hold(self) -> None:
        self.line_up()
        if self.chance.random() < 0.5:  # what is told five minutes later, and a quiet minute
            self.now += timedelta(minutes=6)
            self.line_up()

    def line_up(self) -> None:
        clinic, when = self.settings.clinic, self.settings.messages
        self.made += outgoing.line_up(self.store, self.now, clinic, when)
        everything = "SELECT 'call', id FROM callbacks UNION ALL SELECT 'change', visit_id FROM visits_to_tell"
        before = self.store.rows("SELECT number, what, id FROM unsaid")
        self.store.execute(f"INSERT INTO unsaid (what, id) {everything}")
        assert outgoing.line_up(self.store, self.now, clinic, when) == 0
        self.store.execute("DELETE FROM unsaid")  # as it was before the look at everything
        for row in before:
            self.store.insert("unsaid", row)
        assert not [row for row in before if row["what"] == "call"], "what is said at once waits for nothing"


@pytest.mark.parametrize("seed", [1, 2, 4, 5])
def test_no_message_is_missed(store: Store, posted: Settings, nurse: Actor, surgeon: Actor, seed: int) -> None:
    clinic = Heard(store, posted, [nurse, surgeon], seed)
    clinic.live(110)
    assert clinic.made > 15, clinic.done


Act = Callable[["Standing"], Any]


class Standing:
    """A clinic in which nobody has to hear of anything new: a call for now, one for silence, a visit that was moved."""

    def __init__(self, store: Store, settings: Settings, nurse: Actor, eye_id: str, device: Device) -> None:
        self.store, self.settings, self.nurse, self.eye_id, self.device = store, settings, nurse, eye_id, device
        self.now = NOW + timedelta(minutes=10)
        self.patient, self.staff = f"patient:{device.patient_id}", f"staff:{nurse.id}"
        visit.record_visit(self.desk, eye_id, [MeasuresBody(eye="right", iop_mmhg=48)])
        self.call = worries.open_callbacks(store)[0]
        assert self.call.how_soon == "now"
        assert worries.open_callback_of(store, eye_id, "silence")
        self.moved = visits.of_eye(store, eye_id)[-1]
        self.move(self.moved)
        self.choose(self.staff, {"now"})
        self.wants_nothing_more()

    @property
    def desk(self) -> Desk:
        return Desk(self.store, NOW, self.nurse, ZONE)

    def move(self, v: Visit) -> None:
        with self.store.transaction():
            later = visits.change(self.store, NOW, v, "nurse:x", "full", target=v.target + timedelta(days=1))
            visits.must_tell(self.store, NOW, later)

    def choose(self, person: str, unwanted: set[str], email: str = "x@test.invalid") -> None:
        chosen = outgoing.Choices(email=email, quiet_from=QUIET, quiet_to=QUIET, unwanted=unwanted)
        outgoing.choose(self.store, NOW, person, chosen)

    def subscribe(self, person: str, device_id: str | None = None) -> None:
        asked = outgoing.Subscription(endpoint="https://push.test.invalid/1", keys=KEYS)
        outgoing.subscribe(self.store, NOW, person, asked, device_id=device_id)

    def heard(self) -> list[str]:
        """The kinds of messages that come up now."""
        known = {row["key"] for row in self.store.rows("SELECT key FROM messages")}
        self.now += timedelta(seconds=1)
        outgoing.line_up(self.store, self.now, self.settings.clinic, self.settings.messages)
        made = self.store.rows("SELECT key, kind FROM messages ORDER BY kind")
        return sorted({row["kind"] for row in made if row["key"] not in known})

    def wants_nothing_more(self) -> None:
        self.heard()
        assert self.heard() == []
        assert self.store.rows("SELECT * FROM unsaid") == []


def joined(s: Standing) -> None:
    """The record under which a patient is reached is another now."""
    others, at = "name, born_on, phone, language, created_at", to_text(NOW)
    s.store.execute(f"INSERT INTO patients (id, number, {others}) SELECT 'p', 'other', {others} FROM patients")
    s.choose("patient:p", set())
    row = {"id": "e", "patient_id": "p", "side": "right", "created_at": at, "followed_since": at}
    s.store.insert("eyes", row)
    s.store.execute("UPDATE eyes SET joined_into = 'e' WHERE id = :id", {"id": s.eye_id})
    s.store.execute("DELETE FROM unsaid")
    s.store.execute("UPDATE patients SET joined_into = 'p' WHERE id != 'p'")


def given_back_task(s: Standing) -> None:
    s.choose(s.staff, set())
    id = tasks.add(s.store, NOW, s.call, "bring-forward", "", s.nurse.id, s.nurse.id, NOW, "d")
    s.wants_nothing_more()
    assert tasks.give(s.store, id, None, s.nurse.id)


def free_task(s: Standing) -> None:
    s.choose(s.staff, set())
    s.wants_nothing_more()
    tasks.add(s.store, NOW, s.call, "bring-forward", "", s.nurse.id, None, NOW, "d")


def followed_again(s: Standing) -> None:
    ended = "UPDATE eyes SET ended_at = '2027-03-05T10:00:00.000000Z'"
    s.store.execute(ended)
    s.subscribe(s.patient)
    s.wants_nothing_more()
    s.store.execute("UPDATE eyes SET ended_at = NULL")


def other_role(s: Standing) -> None:
    worries.escalate(s.store, s.call.id, 0, NOW + timedelta(hours=1))
    other = people.add_staff(s.store, NOW, "An Other", "nurse", "other@test.invalid", "x")
    s.wants_nothing_more()
    s.store.execute("UPDATE staff SET role = 'surgeon' WHERE id = :id", {"id": other})


def on_call(s: Standing) -> None:
    """Whoever is on call says where to be reached, in a clinic whose settings do not."""
    clinic = s.settings.clinic.model_copy(update={"on_call_email": ""})
    s.settings = s.settings.model_copy(update={"clinic": clinic})
    for level in range(2):
        worries.escalate(s.store, s.call.id, level, NOW + timedelta(hours=1))
    s.wants_nothing_more()
    s.choose(reminders.ON_CALL, set())


def back(s: Standing, person: str) -> None:
    """A browser that takes pushes again."""
    s.choose(person, set(), "")
    s.subscribe(person)
    kept.end_subscription(s.store, NOW, "https://push.test.invalid/1")
    s.wants_nothing_more()
    s.subscribe(person)


ACTS: dict[str, tuple[Act, list[str]]] = {
    "a call for now": (
        lambda s: worries.add_callback(s.store, s.eye_id, "retina", "now", NOW, NOW + timedelta(hours=1)), ["now"]
    ),
    "a call that moved up": (lambda s: worries.escalate(s.store, s.call.id, 0, NOW + timedelta(hours=1)), ["escalation"]),
    "a task that is nobody's": (free_task, ["now"]),
    "a task that was given back": (given_back_task, ["now"]),
    "somebody taken on": (
        lambda s: people.add_staff(s.store, NOW, "An Other", "nurse", "other@test.invalid", "x"), ["now"]
    ),
    "a nurse made surgeon": (other_role, ["escalation"]),
    "where whoever is on call is reached": (on_call, ["escalation"]),
    "staff who want it now": (lambda s: s.choose(s.staff, set()), ["now"]),
    "a browser of the staff": (lambda s: (s.choose(s.staff, set(), ""), s.wants_nothing_more(), s.subscribe(s.staff)), ["now"]),
    "a patient who chose": (lambda s: s.choose(s.patient, set()), ["not-heard", "visit-changed"]),
    "a patient who wants it now": (
        lambda s: (s.choose(s.patient, {"visit"}), s.wants_nothing_more(), s.choose(s.patient, set())), ["visit-changed"]
    ),
    "a patient's browser": (lambda s: s.subscribe(s.patient), ["not-heard", "visit-changed"]),
    "a browser of the staff that is back": (lambda s: back(s, s.staff), ["now"]),
    "a patient's browser that is back": (lambda s: back(s, s.patient), ["not-heard", "visit-changed"]),
    "a phone let in again": (
        lambda s: (
            s.store.execute("UPDATE devices SET revoked_at = '2027-03-05T10:00:00.000000Z'"), s.subscribe(s.patient, s.device.id),
            s.wants_nothing_more(), s.store.execute("UPDATE devices SET revoked_at = NULL"),
        ),
        ["not-heard", "visit-changed"],
    ),
    "an eye followed again": (followed_again, ["visit-changed"]),
    "records joined": (joined, ["not-heard", "visit-changed"]),
    "a visit moved again": (
        lambda s: (s.subscribe(s.patient), s.wants_nothing_more(), s.move(visits.of_eye(s.store, s.eye_id)[-1])), ["visit-changed"]
    ),
}  # fmt: skip


@pytest.mark.parametrize("what", ACTS)
def test_whatever_a_message_depends_on_is_looked_at_again(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, device: Device, what: str
) -> None:
    act, kinds = ACTS[what]
    standing = Standing(store, posted, nurse, eye_id, device)
    act(standing)
    assert standing.heard() == kinds
    standing.wants_nothing_more()


def test_a_quiet_minute_reads_no_call_and_no_visit(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, device: Device
) -> None:
    standing = Standing(store, posted, nurse, eye_id, device)
    statements: list[str] = []
    store.db.conn.set_trace_callback(statements.append)
    outgoing.line_up(store, standing.now, posted.clinic, posted.messages)
    store.db.conn.set_trace_callback(None)
    assert len(statements) > 1
    assert not [s for s in statements if re.search("callbacks|visits|tasks|staff", s)]


def test_a_browser_that_says_again_that_it_takes_pushes_makes_nothing_be_looked_at(
    store: Store, posted: Settings, nurse: Actor, surgeon: Actor, eye_id: str, device: Device
) -> None:
    standing = Standing(store, posted, nurse, eye_id, device)
    for person in (standing.staff, standing.patient):
        standing.subscribe(person)
        standing.wants_nothing_more()
        standing.subscribe(person)
        assert store.rows("SELECT * FROM unsaid") == []


def test_mail_that_was_set_up_since_and_another_hour_look_at_everything(
    store: Store,
    posted: Settings,
    nurse: Actor,
    surgeon: Actor,
    eye_id: str,
    device: Device,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    without_mail = posted.model_copy(update={"messages": Messages()})
    standing = Standing(store, without_mail, nurse, eye_id, device)
    standing.settings = posted
    assert standing.heard() == ["now"]
    standing.wants_nothing_more()
    for trigger in store.rows("SELECT name FROM sqlite_master WHERE name GLOB 'callbacks_unsaid_*'"):
        store.execute(f"DROP TRIGGER {trigger['name']}")
    worries.escalate(store, standing.call.id, 0, NOW + timedelta(hours=1))
    assert standing.heard() == []
    monkeypatch.setattr(unsaid, "ANEW", timedelta(minutes=-1))
    assert standing.heard() == ["escalation"]


def test_what_went_wrong_and_what_came_meanwhile_is_looked_at_again(
    store: Store,
    posted: Settings,
    nurse: Actor,
    surgeon: Actor,
    eye_id: str,
    device: Device,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    standing = Standing(store, posted, nurse, eye_id, device)
    worries.escalate(store, standing.call.id, 0, NOW + timedelta(hours=1))

    with monkeypatch.context() as fault:
        fault.setattr(reminders, "for_staff", lambda *_: 1 / 0)
        assert standing.heard() == []
        assert watch.faults(store) != []
    other = people.add_staff(store, NOW, "An Other", "surgeon", "other@test.invalid", "x")
    choices = outgoing.choices_of
    for person in (f"staff:{other}", f"staff:{surgeon.id}"):  # whoever comes first
        with monkeypatch.context() as fault:
            fault.setattr(
                outgoing, "choices_of", lambda s, p, *rest, who=person: 1 / 0 if p == who else choices(s, p, *rest)
            )
            standing.heard()
            assert watch.faults(store) != []
            store.execute("DELETE FROM messages")
    assert standing.heard() == ["escalation"]
    assert len(store.rows("SELECT 1 FROM messages WHERE kind = 'escalation'")) == 2
    worries.escalate(store, standing.call.id, 1, NOW + timedelta(hours=2))
    add = kept.add

    def meanwhile(*given: Any) -> bool:
        """Somebody moves it up again while the clock is at it."""
        worries.back_to_the_clinic(store, standing.call.id)
        worries.escalate(store, standing.call.id, 0, NOW + timedelta(hours=3))
        return add(*given)

    with monkeypatch.context() as race:
        race.setattr(kept, "add", meanwhile)
        assert standing.heard() == ["escalation"]
    assert watch.faults(store) == []
    assert standing.heard() == ["escalation"]
    standing.wants_nothing_more()
