"""Every verb of care: what the audit says of it, what it leaves when it fails half-way (nothing), and who may call it.

A public function of care that takes a `Desk`, notes something in the audit, or begins a transaction stands in exactly one
of four lists: `VERBS`, which people or the clock call; `PARTS`, which a verb calls inside its own transaction; `READINGS`,
which write nothing; `ASIDE`, which write beside the facts. A new one that stands in none fails here, and so does a page to
which something is sent and that leads to no verb.
"""

import ast
import importlib
import inspect
import json
import pkgutil
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from functools import partial
from itertools import count
from types import ModuleType
from typing import Any, Literal, cast

import pytest

from followup import care, web
from followup.care import accounts, passkeys, resetting, second_factor, signatures, signing_in, taking_out, trail
from followup.care.actors import CLOCK, Actor
from followup.care.callbacks import calls, deciding, going_home, holding, lines, moving_up, settling, showing, theatre, to_do
from followup.care.corrections import caution, correcting, operation_note, particulars, standing_again
from followup.care.desk import Desk
from followup.care.discharge import changing, leaving, note, waiting, who
from followup.care.errors import CareError, Refused
from followup.care.home import enrol, helpers, receive, sealing
from followup.care.learning import contributions, results_csv, signing
from followup.care.learning.results import Asked
from followup.care.messages import outgoing
from followup.care.patients import consenting, erasing, following, joining, reaching
from followup.care.reading import eye as reading_eye
from followup.care.reading import person, state
from followup.care.today import arrivals, daysheet, handover
from followup.care.visits import book, closing, diary, in_book, visit
from followup.care.watch import grounds, raising
from followup.clinical import schedule
from followup.config import Settings
from followup.protocols.book import draft_text, fingerprint
from followup.records import Store, events, eyes, states, tasks, visits, watch, worries
from followup.records import messages as kept
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.home import SymptomsBody
from followup.records.store import new_id
from followup.records.values import Device, Task, Visit
from followup.web import context, create_app
from followup.web import sent as web_sent
from followup.web.routes import ADMINISTRATOR, ANYBODY, CARE, PHONE, ROUTES, STAFF, SURGEON, Who
from tests.authenticator import Authenticator
from tests.care.failing import Full, dump, failing_at
from tests.conftest import NOW, OPERATED, PASSWORD, ZONE, patient_details
from tests.conftest import operation_note as a_note
from tests.sealed import seal

FRIDAY, WEDNESDAY = date(2027, 3, 12), date(2027, 3, 10)
LISTED = waiting.Row(2, "T-3", "Pia Patient", NOW.date(), "right", {})
CLOCKS = ("clock", "command line")  # nobody reaches these by a page


@dataclass
class World:
    """A clinic with one discharged patient, whose phone is enrolled."""

    store: Store
    settings: Settings
    nurse: Desk
    surgeon: Desk
    administrator: Desk
    eye_id: str
    device: Device

    @property
    def clinic(self) -> Any:
        return self.settings.clinic

    def later(self, desk: Desk, **span: float) -> Desk:
        return Desk(self.store, desk.now + timedelta(**span), desk.actor, desk.zone)

    def planned(self, name: str = "week 1") -> Visit:
        return next(v for v in visits.of_eye(self.store, self.eye_id) if v.name == name)

    def callback(self) -> str:
        """A pressure of 34 mmHg, which is for today."""
        body = MeasuresBody(eye="right", iop_mmhg=34, instrument="applanation")
        visit.record_visit(self.nurse, self.eye_id, [body])
        return next(c.id for c in worries.open_callbacks(self.store) if c.worry == "pressure")

    def two_worries(self) -> str:
        """The same, and what the patient said from home is another callback."""
        receive.receive(self.store, NOW, self.device, [self.sent(body={"vision": "worse"})], ZONE)
        return self.callback()

    def claimed(self) -> str:
        id = self.callback()
        holding.claim_call(self.nurse, id)
        return id

    def reached(self) -> str:
        id = self.claimed()
        calls.attempt(self.nurse, id, "patient", "feels well", self.clinic)
        return id

    def task(self) -> Task:
        """A visit sooner, decided in the nurse's hands, and the patient was told of it."""
        made = settling.settle(self.nurse, self.reached(), "sooner", "", self.clinic, told=True)
        assert made is not None
        return made

    def for_theatre(self) -> Task:
        """Theatre on a day and list, decided in the nurse's hands, and the patient was told of it."""
        made = settling.settle(self.nurse, self.reached(), "theatre", "", self.clinic, told=True)
        assert made is not None
        theatre.plan(self.nurse, made.id, WEDNESDAY, "morning list")
        return made

    @property
    def open_one(self) -> str:
        return worries.open_callbacks(self.store)[0].id

    def measured(self) -> str:
        self.callback()
        return next(e.id for e in reversed(events.of_eye(self.store, self.eye_id)) if e.kind == "measures")

    def sent(self, **changes: Any) -> dict[str, Any]:
        usual = {"id": new_id(), "operation": self.eye_id, "kind": "symptoms", "at": NOW.isoformat(), "offset_minutes": 60}
        return {**usual, "sequence": 1, "by": "patient", "body": {"pain": 8, "vision": "worse"}, **changes}


Act = Callable[[], object]


@dataclass(frozen=True)
class Verb:
    """`leaves` are the audit's entries of one act in order, what the rules raise aside; `through` the routes to it."""

    does: Callable[..., Any]
    leaves: tuple[str, ...]
    may: Who
    through: tuple[str, ...]
    ready: Callable[[World], Act] = field(repr=False)

    @property
    def name(self) -> str:
        return f"{self.does.__module__.removeprefix('followup.care.')}.{self.does.__name__}"


VERBS: list[Verb] = []


def named(verbs: Sequence[Verb]) -> list[str]:
    """Each by its name, and a further case of it by its number too, as `tests/mutate_promises.py` asks for them."""
    names = [v.name for v in verbs]
    return [f"{name}-{n}" if (n := names[: place + 1].count(name)) > 1 else name for place, name in enumerate(names)]


SECRET = "GEZDGNBVGY3TQOJQGEZDGNBVGY3TQOJQ"


def shown(at: datetime) -> str:
    """The code that an app shows."""
    return str(second_factor.pyotp.TOTP(SECRET).at(at))


def nothing(w: World) -> None:
    """Nothing has to be there before."""


def verb(
    does: Callable[..., Any], *leaves: str, may: Who, through: tuple[str, ...] = ()
) -> Callable[[Callable[[World], Act]], Callable[[World], Act]]:
    """Put a verb into the table, once for each whom other pages let in; what is decorated returns the act, all being ready."""

    def put(ready: Callable[[World], Act]) -> Callable[[World], Act]:
        VERBS.append(Verb(does, leaves, may, through, ready))
        return ready

    return put


# ---- visits ----


@verb(visit.record_visit, "event measures", "event measures", "event seen", may=CARE, through=("clinic.new_visit",))
def _(w: World) -> Act:
    both = [MeasuresBody(eye=side, iop_mmhg=iop, instrument="applanation") for side, iop in (("right", 34), ("left", 15))]
    return lambda: visit.record_visit(w.nurse, w.eye_id, both, visit="week 1")


@verb(visit.record_clinic_event, "event no-gas-seen", may=CARE, through=("clinic.no_gas", "clinic.oil_out"))
def _(w: World) -> Act:
    return lambda: visit.record_clinic_event(w.surgeon, w.eye_id, "no-gas-seen", {})


@verb(book.add, "visit added", may=CARE, through=("clinic.add_visit",))
def _(w: World) -> Act:
    return lambda: book.add(w.nurse, w.clinic, w.eye_id, "pressure again", FRIDAY, "pressure")


@verb(book.move, "visit moved", may=CARE, through=("clinic.change_visit",))
def _(w: World) -> Act:
    return lambda: book.move(w.nurse, w.clinic, w.planned().identity, FRIDAY)


@verb(book.cancel, "visit cancelled", may=CARE, through=("clinic.change_visit",))
def _(w: World) -> Act:
    return lambda: book.cancel(w.nurse, w.planned().identity, "seen elsewhere")


@verb(book.did_not_come, "did not come", may=CARE, through=("clinic.change_visit",))
def _(w: World) -> Act:
    return lambda: book.did_not_come(w.later(w.nurse, days=5), w.planned().identity, "forgot")


@verb(book.walk_in, "walk-in", may=CARE, through=("clinic.walk_in",))
def _(w: World) -> Act:
    return lambda: book.walk_in(w.nurse, w.eye_id, "red eye")


@verb(book.undo, "visit change taken back", may=CARE, through=("clinic.undo_visit",))
def _(w: World) -> Act:
    book.walk_in(w.nurse, w.eye_id, "red eye")
    return lambda: book.undo(w.nurse, w.planned(book.WALK_IN).id)


@verb(book.put_back, "visit put back", may=CARE, through=("clinic.put_back",))
def _(w: World) -> Act:
    identity = w.planned().identity
    book.cancel(w.nurse, identity, "a slip")
    return lambda: book.put_back(w.nurse, identity)


@verb(book.told, "visit change told", may=CARE, through=("clinic.told",))
def _(w: World) -> Act:
    version = book.move(w.nurse, w.clinic, w.planned().identity, FRIDAY)
    return lambda: book.told(w.nurse, version)


@verb(closing.close, "day closed", may=CARE, through=("clinic.close_day",))
def _(w: World) -> Act:
    return lambda: closing.close(w.nurse, w.clinic, WEDNESDAY, "no anaesthetist", {w.planned().identity: FRIDAY})


@verb(closing.open_again, "day opened again", may=CARE, through=("clinic.open_day",))
def _(w: World) -> Act:
    closing.close(w.nurse, w.clinic, WEDNESDAY, "no anaesthetist", {w.planned().identity: FRIDAY})
    return lambda: closing.open_again(w.nurse, WEDNESDAY, back=True)


@verb(diary.enter, "diary symptoms", "diary posture", may=CARE, through=("clinic.diary_entry",))
def _(w: World) -> Act:
    return lambda: diary.enter(w.nurse, w.eye_id, date(2027, 3, 4), SymptomsBody(pain=8), 6)


@verb(arrivals.arrive, "event arrived", may=CARE, through=("clinic.arrived",))
def _(w: World) -> Act:
    return lambda: arrivals.arrive(w.nurse, w.eye_id, w.planned().identity)


@verb(arrivals.not_here, "arrived taken back", may=CARE, through=("clinic.not_here",))
def _(w: World) -> Act:
    arrivals.arrive(w.nurse, w.eye_id, w.planned().identity)
    return lambda: arrivals.not_here(w.nurse, events.of_kind(w.store, "arrived")[0].id)


# ---- callbacks ----


@verb(holding.claim_call, "callback claimed", "callback claimed", may=CARE, through=("clinic.claim",))
def _(w: World) -> Act:
    id = w.two_worries()
    return lambda: holding.claim_call(w.nurse, id)


@verb(holding.take_call_over, "callback taken over", "callback claimed", may=CARE, through=("clinic.take_over",))
def _(w: World) -> Act:
    id = w.claimed()
    receive.receive(w.store, NOW, w.device, [w.sent(body={"vision": "worse"})], ZONE)
    return lambda: holding.take_call_over(w.surgeon, id, w.nurse.actor.id)


@verb(holding.take_call_over, "callback taken over", may=CARE, through=("clinic.take_over",))
def _(w: World) -> Act:
    id = w.reached()
    settling.settle(w.nurse, id, "sooner", "", w.clinic)  # decided, and nobody has told the patient
    return lambda: holding.take_call_over(w.surgeon, id, w.nurse.actor.id)


@verb(holding.give_call_back, "callback given back", "callback given back", may=CARE, through=("clinic.give_back",))
def _(w: World) -> Act:
    id = w.two_worries()
    holding.claim_call(w.nurse, id)
    return lambda: holding.give_call_back(w.nurse, id)


@verb(holding.take_task, "callback taken over", may=CARE, through=("clinic.take_task",))
def _(w: World) -> Act:
    task = w.task()
    return lambda: holding.take_task(w.surgeon, task.id, w.nurse.actor.id)


@verb(holding.take_task, "task taken", may=CARE, through=("clinic.take_task",))
def _(w: World) -> Act:
    task = w.task()
    holding.give_back_task(w.nurse, task.id)
    return lambda: holding.take_task(w.surgeon, task.id, None)


@verb(holding.give_back_task, "task given back", may=CARE, through=("clinic.give_back_task",))
def _(w: World) -> Act:
    task = w.task()
    return lambda: holding.give_back_task(w.nurse, task.id)


@verb(calls.attempt, "callback attempt", may=CARE, through=("clinic.attempt",))
def _(w: World) -> Act:
    id = w.claimed()
    return lambda: calls.attempt(w.nurse, id, "patient", "feels well", w.clinic)


@verb(settling.settle, "callback settled", may=CARE, through=("clinic.attempt",))
def _(w: World) -> Act:
    id = w.reached()
    return lambda: settling.settle(w.nurse, id, "advice", "as we said", w.clinic)


@verb(settling.finish, "task done", "callback settled", may=CARE, through=("clinic.attempt",))
def _(w: World) -> Act:
    task = w.task()
    visit.record_visit(w.nurse, task.eye_id, [], visit=task.visit_id)
    return lambda: settling.finish(w.nurse, task.id, "came")


@verb(settling.give_up, "visit withdrawn", "task given up", may=CARE, through=("clinic.attempt",))
def _(w: World) -> Act:
    task = w.task()
    return lambda: settling.give_up(w.nurse, task.id, "went elsewhere")


@verb(deciding.decide, "callback claimed", "extra visit", "callback decided", may=SURGEON, through=("clinic.decide",))
def _(w: World) -> Act:
    id = w.callback()
    return lambda: deciding.decide(w.surgeon, id, "sooner", "", w.clinic)


@verb(theatre.plan, "theatre planned", may=CARE, through=("clinic.change_theatre",))
def _(w: World) -> Act:
    task = w.for_theatre()
    return lambda: theatre.plan(w.nurse, task.id, WEDNESDAY, "afternoon list")


@verb(theatre.confirm, "task done", "callback settled", may=CARE, through=("clinic.change_theatre",))
def _(w: World) -> Act:
    task = w.for_theatre()
    return lambda: theatre.confirm(w.nurse, task.id)


@verb(theatre.confirm, "task taken", "task done", "callback settled", may=CARE, through=("clinic.change_theatre",))
def _(w: World) -> Act:
    task = w.for_theatre()
    holding.give_back_task(w.nurse, task.id)
    return lambda: theatre.confirm(w.surgeon, task.id)


@verb(theatre.cancel, "theatre cancelled", may=CARE, through=("clinic.change_theatre",))
def _(w: World) -> Act:
    task = w.for_theatre()
    return lambda: theatre.cancel(w.nurse, task.id, "the retina is attached")


@verb(deciding.undo, "visit withdrawn", "callback taken back", may=CARE, through=("clinic.undo",))
def _(w: World) -> Act:
    id = w.callback()
    deciding.decide(w.surgeon, id, "sooner", "", w.clinic)
    return lambda: deciding.undo(w.surgeon, id)


@verb(going_home.hand_over, "callback given back", may=CARE, through=("account.going_home",))
def _(w: World) -> Act:
    w.claimed()
    return lambda: going_home.hand_over(w.nurse, "back")


@verb(reading_eye.looked_at, "eye looked at", may=CARE, through=("clinic.eye_page",))
def _(w: World) -> Act:
    return lambda: reading_eye.looked_at(w.nurse, w.eye_id)


@verb(raising.look, "warning", "warning", "warning", may="clock")
def _(w: World) -> Act:
    return lambda: raising.look(w.store, w.eye_id, OPERATED + timedelta(days=7), ZONE)  # neither heard from nor posturing


@verb(moving_up.escalate_overdue, "callback moved up", may="clock")
def _(w: World) -> Act:
    w.callback()
    return lambda: moving_up.escalate_overdue(w.store, NOW + timedelta(days=1))


# ---- discharge and what follows it ----


def discharged_again(w: World, right: Literal["written", "recorded"]) -> Act:
    """The other eye of somebody whose name was written otherwise than it stands in the records."""
    written = patient_details().model_copy(update={"name": "Pat Patientt"})
    other = who.other_particulars(w.store, written)
    assert other is not None
    answer = who.SamePerson(right, other.mark)
    return lambda: leaving.discharge(w.nurse, written, a_note(eye="left"), [], same_person=answer)


@verb(leaving.discharge, "enrolment code", "discharge", may=CARE, through=("clinic.new_discharge",))
def _(w: World) -> Act:
    window = schedule.Window("week 1", WEDNESDAY, WEDNESDAY, FRIDAY, "retina")
    return lambda: leaving.discharge(w.nurse, patient_details("T-2"), a_note(), [window])


@verb(
    leaving.discharge, "visit withdrawn", "task done", "callback settled", "enrolment code", "discharge",
    may=CARE, through=("clinic.new_discharge",),
)  # fmt: skip
def _(w: World) -> Act:
    task = w.for_theatre()
    at = task.made_at + timedelta(days=1)
    again = a_note(operated_at=at)
    return lambda: leaving.discharge(w.later(w.nurse, days=2), patient_details(), again, [])


@verb(
    leaving.discharge, "particulars corrected", "enrolment code", "discharge",
    may=CARE, through=("clinic.new_discharge",),
)  # fmt: skip
def _(w: World) -> Act:
    return discharged_again(w, "written")


@verb(
    leaving.discharge, "particulars kept", "enrolment code", "discharge",
    may=CARE, through=("clinic.new_discharge",),
)  # fmt: skip
def _(w: World) -> Act:
    return discharged_again(w, "recorded")


@verb(changing.change_plan, "visit moved", "plan changed", may=CARE, through=("clinic.change_plan",))
def _(w: World) -> Act:
    moves = changing.Moves(w.clinic, {w.planned().identity: FRIDAY})
    return lambda: changing.change_plan(w.nurse, w.eye_id, a_note(fill_percent=90), moves)


@verb(reaching.put, "reached by", may=CARE, through=("clinic.reached_by",))
def _(w: World) -> Act:
    return lambda: reaching.put(w.nurse, w.device.patient_id, "no-app", "")


@verb(following.end, "visit withdrawn", "follow-up ended", may=CARE, through=("clinic.end_follow_up",))
def _(w: World) -> Act:
    return lambda: following.end(w.nurse, w.eye_id, "moved", "to the sea")


@verb(following.take_up, "follow-up taken up", may=CARE, through=("clinic.take_up",))
def _(w: World) -> Act:
    following.end(w.nurse, w.eye_id, "moved", "to the sea")
    return lambda: following.take_up(w.later(w.nurse, days=3), w.eye_id, "came back")


@verb(joining.join, "records joined", "records joined", may=CARE, through=("clinic.join",))
def _(w: World) -> Act:
    other, _ = leaving.discharge(w.nurse, patient_details("T-2"), a_note(eye="left"), [])
    known = eyes.eye(w.store, other)
    assert known is not None
    shown = joining.look(w.store, w.device.patient_id, known.patient.id, ZONE)
    return lambda: joining.join(w.nurse, shown, number="one", particulars="other", mark=shown.mark)


@verb(consenting.give, "consent given", may=CARE, through=("clinic.consent",))
def _(w: World) -> Act:
    return lambda: consenting.give(w.nurse, w.device.patient_id, "patient", "")


@verb(consenting.take_back, "consent taken back", "device revoked", may=CARE, through=("clinic.consent",))
def _(w: World) -> Act:
    return lambda: consenting.take_back(w.nurse, w.device.patient_id, "patient", "")


@verb(erasing.erase, "erased", may="command line")
def _(w: World) -> Act:
    visit.record_visit(w.nurse, w.eye_id, [MeasuresBody(eye="right", iop_mmhg=15, notes="said it in words")])
    following.end(w.nurse, w.eye_id, "finished", "")
    return lambda: erasing.erase(w.administrator, w.device.patient_id, "the patient’s wish")


@verb(waiting.put_on, "theatre list taken in", may=STAFF, through=("clinic.theatre_list",))
def _(w: World) -> Act:
    return lambda: waiting.put_on(w.nurse, [LISTED, replace(LISTED, line=3, eye="left")], "list.csv")


@verb(waiting.put_aside, "listed operation put aside", may=CARE, through=("clinic.put_aside",))
def _(w: World) -> Act:
    waiting.put_on(w.nurse, [LISTED], "list.csv")
    listed = waiting.waiting_page(w.store).lines[0]
    return lambda: waiting.put_aside(w.nurse, listed.id, "was not operated")


@verb(enrol.issue_code, "enrolment code", may=CARE, through=("clinic.new_code",))
def _(w: World) -> Act:
    return lambda: enrol.issue_code(w.nurse, w.device.patient_id)


@verb(enrol.revoke, "device revoked", may=CARE, through=("clinic.revoke",))
def _(w: World) -> Act:
    return lambda: enrol.revoke(w.nurse, w.device.id)


@verb(helpers.invite, "enrolment code", may=PHONE, through=("api.invite",))
def _(w: World) -> Act:
    return lambda: helpers.invite(w.nurse, w.device, "Ada")


@verb(helpers.remove, "device revoked", may=PHONE, through=("api.remove_helper",))
def _(w: World) -> Act:
    enrol.enrol(w.store, NOW, helpers.invite(w.nurse, w.device, "Ada"), 1952, "carer", "test")
    other = next(known.id for known in helpers.phones(w.store, w.device) if known.used_by == "carer")
    return lambda: helpers.remove(w.nurse, w.device, other)


@verb(correcting.correct, "measures corrected", may=CARE, through=("clinic.correct_entry",))
def _(w: World) -> Act:
    id = w.measured()
    body = MeasuresBody(eye="right", iop_mmhg=16, instrument="applanation")
    return lambda: correcting.correct(w.nurse, id, body, "61 typed for 16")


@verb(correcting.withdraw, "measures taken back", may=CARE, through=("clinic.correct_entry", "clinic.take_back"))
def _(w: World) -> Act:
    id = w.measured()
    return lambda: correcting.withdraw(w.nurse, id, "another patient")


@verb(
    correcting.withdraw, "visit planned again", "tamponade-removed taken back", may=CARE, through=("clinic.correct_entry",)
)
def _(w: World) -> Act:
    day = w.nurse.today + timedelta(days=90)
    to_plan = [schedule.Window(visit.REMOVAL_VISIT, day, day, day, "retina")]
    oil = a_note(eye="left", agent="silicone-oil", percent=0, breaks=[])
    left, _ = leaving.discharge(w.nurse, patient_details(), oil, to_plan)
    visit.record_clinic_event(w.nurse, left, "tamponade-removed", {})
    (removed,) = events.of_eye(w.store, left)
    return lambda: correcting.withdraw(w.nurse, removed.id, "the oil is still in")


@verb(operation_note.correct, "operation note corrected", may=CARE, through=("clinic.correct_note",))
def _(w: World) -> Act:
    known = eyes.eye(w.store, w.eye_id)
    assert known is not None
    assert known.note is not None
    operation = known.note.operation_id
    return lambda: operation_note.correct(w.nurse, w.eye_id, operation, a_note(eye="left"), "the other eye")


@verb(particulars.correct, "particulars corrected", may=CARE, through=("clinic.correct_particulars",))
def _(w: World) -> Act:
    written = patient_details().model_copy(update={"name": "Pat Patientt"})
    return lambda: particulars.correct(w.nurse, w.device.patient_id, written, "spelt wrongly")


# ---- protocols and results ----


@verb(signing.save, "protocol saved", may=SURGEON, through=("surgeon.adjust_part", "surgeon.edit_text"))
def _(w: World) -> Act:
    return lambda: signing.save(w.surgeon, "rulebook", draft_text("rulebook") + "\n# read\n")


@verb(signing.sign, "protocol signed", may=SURGEON, through=("surgeon.sign",))
def _(w: World) -> Act:
    return lambda: signing.sign(w.surgeon, "rulebook", fingerprint(draft_text("rulebook")))


@verb(results_csv.table, "results exported", may=SURGEON, through=("surgeon.results_table",))
def _(w: World) -> Act:
    contributions.bring_up_to_date(w.store, NOW, ZONE)
    return lambda: results_csv.table(w.surgeon, Asked())


@verb(taking_out.tables, "exported", may=SURGEON, through=("surgeon.export_tables",))
def _(w: World) -> Act:
    return lambda: [list(rows) for _, rows in taking_out.tables(w.store, NOW, w.surgeon.actor.signature)]


@verb(taking_out.record, "exported", may=CARE, through=("clinic.record_to_read", "clinic.record_for_programs"))
def _(w: World) -> Act:
    return lambda: taking_out.record(w.store, NOW, w.nurse.actor.signature, w.device.patient_id)


@verb(trail.note_export, "exported", may=ADMINISTRATOR, through=("administrator.audit_csv",))
def _(w: World) -> Act:
    return lambda: trail.note_export(w.administrator, "audit")


# ---- devices and messages ----


@verb(receive.receive, "event symptoms", may=PHONE, through=("api.events",))
def _(w: World) -> Act:
    receive.receive(w.store, NOW, w.device, [], ZONE)  # that a phone was heard from is kept whatever it sent
    entry = w.sent()
    return lambda: receive.receive(w.store, NOW, w.device, [entry], ZONE)


@verb(receive.receive_sealed, "event symptoms", "entry refused", may=PHONE, through=("api.sealed",))
def _(w: World) -> Act:
    receive.receive(w.store, NOW, w.device, [], ZONE)
    good = sealing.Sealed.model_validate(seal(sealing.public_key(w.store), [w.sent()]))
    packets = [good, good.model_copy(update={"data": b"none"})]
    return lambda: receive.receive_sealed(w.store, NOW, w.device, packets, ZONE)


@verb(receive.receive_from_clinic, "event measures", may=ANYBODY, through=("clinic_api.entries",))
def _(w: World) -> Act:
    body = {"eye": "right", "iop": "34", "instrument": "applanation"}
    entry = {k: v for k, v in w.sent(kind="measures", body=body).items() if k != "by"}
    return lambda: receive.receive_from_clinic(w.nurse, [entry])


@verb(receive.refuse_from_clinic, "entry refused", "entry refused", may=ANYBODY, through=("clinic_api.entries",))
def _(w: World) -> Act:
    return lambda: receive.refuse_from_clinic(w.store, NOW, [w.sent(), w.sent()], "too old")


@verb(receive.refuse_packet, "entry refused", may=ANYBODY, through=("clinic_api.entries",))
def _(w: World) -> Act:
    return lambda: receive.refuse_packet(w.store, NOW, [w.sent(), w.sent()], "not signed here")


@verb(receive.refuse_shut, "entry refused", may=ANYBODY, through=("clinic_api.entries",))
def _(w: World) -> Act:
    packet = sealing.Sealed(key="", iv="", data="")
    return lambda: receive.refuse_shut(w.store, NOW, w.nurse.actor, packet)


@verb(receive.entered_anew, "unopened entries asked about", may=CARE, through=("clinic.entered_anew",))
def _(w: World) -> Act:
    person = f"patient:{w.device.patient_id}"
    watch.note(w.store, NOW, "sealed", person, "")
    return lambda: receive.entered_anew(w.nurse, person)


@verb(enrol.enrol, "device enrolled", may=ANYBODY, through=("patient.enrolment",))
def _(w: World) -> Act:
    code = enrol.issue_code(w.nurse, w.device.patient_id)
    return lambda: enrol.enrol(w.store, NOW, code, 1952, "carer", "test")


@verb(outgoing.choose, "messages chosen", may=PHONE, through=("api.choose_messages",))
@verb(outgoing.choose, "messages chosen", may=STAFF, through=("account.my_messages",))
def _(w: World) -> Act:
    quiet = outgoing.Choices(quiet_from=NOW.time(), quiet_to=NOW.time(), unwanted={"now"})
    return lambda: outgoing.choose(w.store, NOW, w.nurse.actor.signature, quiet)


@verb(outgoing.subscribe, "push subscribed", may=PHONE, through=("api.push",))
@verb(outgoing.subscribe, "push subscribed", may=STAFF, through=("clinic_api.push",))
def _(w: World) -> Act:
    keys = outgoing.PushKeys(p256dh="A" * 87, auth="A" * 22)
    asked = outgoing.Subscription(endpoint="https://push.test.invalid/1", keys=keys)
    return lambda: outgoing.subscribe(w.store, NOW, w.nurse.actor.signature, asked)


@verb(outgoing.drop_faults, "fault dropped", may="clock")
def _(w: World) -> Act:
    watch.note(w.store, NOW, "e-mail", "staff:who-left", "e-mail: no room")
    return lambda: outgoing.drop_faults(w.store, NOW, w.settings.clinic, w.settings.messages)


@verb(outgoing.sent, "message now", may="clock")
def _(w: World) -> Act:
    person = w.nurse.actor.signature
    kept.add(w.store, NOW, "now:1", person, "now", "1", NOW + timedelta(days=1))
    parcel = outgoing.Parcel(person, "now", "en", ("now:1",), "nurse@test.invalid", (), 0)
    return lambda: outgoing.sent(w.store, NOW, parcel, "e-mail")


# ---- accounts ----


@verb(accounts.add_staff, "staff added", may=ADMINISTRATOR, through=("administrator.people",))
def _(w: World) -> Act:
    who = w.administrator.actor.signature
    return lambda: accounts.add_staff(w.store, NOW, "Nils Novice", "nurse", "nils@test.invalid", PASSWORD, who)


@verb(accounts.end, "staff ended", may=ADMINISTRATOR, through=("administrator.end",))
def _(w: World) -> Act:
    return lambda: accounts.end(w.store, NOW, w.nurse.actor.id, w.administrator.actor.signature)


@verb(accounts.set_password, "password changed", may="command line")
def _(w: World) -> Act:
    return lambda: accounts.set_password(w.store, NOW, w.nurse.actor.id, "another long test password")


@verb(accounts.change_password, "password changed", may=STAFF, through=("account.my_account",))
def _(w: World) -> Act:
    new = "another long test password"
    return lambda: accounts.change_password(w.store, NOW, w.nurse.actor, PASSWORD, new, "")


@verb(resetting.ask, "password reset asked", may=ANYBODY, through=("account.forgotten",))
def _(w: World) -> Act:
    return lambda: resetting.ask(w.store, NOW, "nurse@test.invalid", "192.0.2.1")


@verb(resetting.hand_out, "password reset link made", may=ADMINISTRATOR, through=("administrator.reset_link",))
def _(w: World) -> Act:
    return lambda: resetting.hand_out(w.store, NOW, w.nurse.actor.id, w.administrator.actor.signature)


@verb(resetting.reset, "password changed", may=ANYBODY, through=("account.new_password",))
def _(w: World) -> Act:
    token = resetting.hand_out(w.store, NOW, w.nurse.actor.id, w.administrator.actor.signature)
    return lambda: resetting.reset(w.store, NOW, token, "another long test password")


@verb(signing_in.sign_in, "signed in", may=ANYBODY, through=("account.sign_in",))
def _(w: World) -> Act:
    return lambda: signing_in.sign_in(w.store, NOW, "nurse@test.invalid", PASSWORD)


@verb(signing_in.end, "signed out", may=ANYBODY, through=("account.sign_out", "clinic_api.leave"))
def _(w: World) -> Act:
    token = signing_in.begin(w.store, NOW, w.nurse.actor, signing_in.Caller())
    return lambda: signing_in.end(w.store, NOW, token)


@verb(signing_in.second_step, "signed in", may=ANYBODY, through=("account.second_step",))
def _(w: World) -> Act:
    second_factor.set_up(w.store, NOW - timedelta(hours=1), w.nurse.actor, SECRET, shown(NOW - timedelta(hours=1)), PASSWORD)
    half = signing_in.half(w.store, NOW, w.nurse.actor, "nurse@test.invalid")
    return lambda: signing_in.second_step(w.store, NOW, half, shown(NOW), signing_in.Caller())


@verb(signing_in.end_sessions, "sessions ended", may=ADMINISTRATOR, through=("administrator.sign_out",))
@verb(signing_in.end_sessions, "sessions ended", may=STAFF, through=("account.sign_others_out",))
def _(w: World) -> Act:
    signing_in.begin(w.store, NOW, w.nurse.actor, signing_in.Caller())
    return lambda: signing_in.end_sessions(w.store, NOW, w.nurse.actor.id, w.nurse.actor.signature)


@verb(second_factor.set_up, "second factor set up", may=STAFF, through=("account.set_up_second_factor",))
def _(w: World) -> Act:
    return lambda: second_factor.set_up(w.store, NOW, w.nurse.actor, SECRET, shown(NOW), PASSWORD)


@verb(second_factor.remove, "second factor removed", may=STAFF, through=("account.remove_second_factor",))
def _(w: World) -> Act:
    return lambda: second_factor.remove(w.store, NOW, w.nurse.actor, PASSWORD)


@verb(second_factor.drop, "second factor removed", may="command line")
def _(w: World) -> Act:
    return lambda: second_factor.drop(w.store, NOW, w.nurse.actor.id, "command line")


HERE = passkeys.Site("eyes.example", "https://eyes.example", "Test Eye Clinic")


def new_passkey(w: World) -> tuple[Authenticator, passkeys.Answer]:
    """A device that was asked for a new passkey of the nurse's, and what it answered."""
    made, asked = Authenticator(), passkeys.to_register(w.nurse, HERE, "here", "tablet", PASSWORD)
    return made, passkeys.Answer(asked.token, made.make(asked.options), "here")


def own_passkey(w: World) -> Authenticator:
    made, answer = new_passkey(w)
    passkeys.register(w.nurse, HERE, answer, "tablet")
    return made


def used_passkey(w: World, staff_id: str | None = None) -> passkeys.Answer:
    made, asked = own_passkey(w), passkeys.to_sign_in(w.store, NOW, HERE, "here", staff_id)
    return passkeys.Answer(asked.token, made.sign(asked.options), "here")


@verb(passkeys.register, "passkey registered", may=STAFF, through=("account.new_passkey", "account.keep_passkey"))
def _(w: World) -> Act:
    _, answer = new_passkey(w)
    return lambda: passkeys.register(w.nurse, HERE, answer, "tablet")


@verb(passkeys.rename, "passkey renamed", may=STAFF, through=("account.rename_passkey",))
def _(w: World) -> Act:
    own_passkey(w)
    return lambda: passkeys.rename(w.nurse, passkeys.of(w.store, w.nurse.actor.id)[0].id, "blue key")


@verb(passkeys.remove, "passkey removed", may=STAFF, through=("account.remove_passkey",))
def _(w: World) -> Act:
    own_passkey(w)
    one = passkeys.of(w.store, w.nurse.actor.id)[0].id
    return lambda: passkeys.remove(w.nurse, one)


@verb(signing_in.by_passkey, "signed in", may=ANYBODY, through=("account.passkey",))
def _(w: World) -> Act:
    answer = used_passkey(w)
    return lambda: signing_in.by_passkey(w.store, NOW, HERE, answer, signing_in.Caller())


@verb(signing_in.second_step_by_passkey, "signed in", may=ANYBODY, through=("account.second_step_by_passkey",))
def _(w: World) -> Act:
    answer = used_passkey(w, w.nurse.actor.id)
    half = signing_in.half(w.store, NOW, w.nurse.actor, "nurse@test.invalid")
    return lambda: signing_in.second_step_by_passkey(w.store, NOW, half, HERE, answer, signing_in.Caller())


@verb(signing_in.by_directory, "signed in", may=ANYBODY, through=("account.back_from_directory",))
def _(w: World) -> Act:
    return lambda: signing_in.by_directory(w.store, NOW, "person-7", "nurse@test.invalid", signing_in.Caller())


@verb(signing_in.refused_by_directory, "directory sign-in refused", may=ANYBODY, through=("account.back_from_directory",))
def _(w: World) -> Act:
    return lambda: signing_in.refused_by_directory(w.store, NOW, "nonce", signing_in.Caller())


@verb(accounts.name_in_directory, "directory subject noted", may="command line")
def _(w: World) -> Act:
    return lambda: accounts.name_in_directory(w.store, NOW, w.nurse.actor.id, "person-7")


@verb(second_factor.remove_passkeys, "passkeys removed", may="command line")
def _(w: World) -> Act:
    own_passkey(w)
    return lambda: second_factor.remove_passkeys(w.store, NOW, w.nurse.actor.id, "command line")


@verb(second_factor.ask_for_passkey, "passkey asked after the password", may=STAFF, through=("account.ask_for_passkey",))
def _(w: World) -> Act:
    own_passkey(w)
    return lambda: second_factor.ask_for_passkey(w.nurse)


# What a verb calls inside its own transaction; no page and no command calls these.
PARTS: dict[Callable[..., Any], str] = {
    visit.add_extra_visit: "a decision to see somebody sooner",
    visit.withdraw_visit: "a decision taken back, a new operation, the end of follow-up",
    visit.nothing_to_remove: "oil taken out",
    visit.removal_planned_again: "oil taken out, put right",
    visit.plan_again: "oil taken out, put right; an operation, put right",
    book.put_on: "move, and closing a day",
    book.change_back: "undo, put back, opening a day again",
    holding.claim: "claiming a call, a decision",
    holding.take_over: "taking a call over",
    holding.release: "giving a call back",
    moving_up.move_up: "what is overdue, and a call that reached nobody",
    deciding.tell_of_plan: "a changed plan",
    deciding.keep_decision: "a decision, and what came of a call",
    settling.close_for_end: "the end of follow-up",
    settling.withdraw_theatre: "the end of follow-up",
    settling.end_with_operation: "a discharge",
    settling.end_missed: "a discharge",
    to_do.make_task: "a decision",
    to_do.drop: "a task given up, a decision taken back",
    changing.add_visit: "a discharge",
    note.record_operation: "a discharge, a changed plan, a corrected note",
    who.known_or_new_patient: "a discharge",
    following.follow: "a discharge, and follow-up taken up",
    grounds.follow: "whatever is put right",
    standing_again.plan: "a corrected note",
    standing_again.theatre: "a corrected note",
    second_factor.passes: "the second step of signing in",
    accounts.confirmed: "a changed password, no second factor, a new passkey",
}

# Whatever only reads, or notes on the side that somebody looked (which is no fact about a patient).
READINGS: dict[Callable[..., Any], Callable[[World], object]] = {
    holding.callers: lambda w: holding.callers(w.nurse, worries.open_callbacks(w.store)),
    holding.my_task: lambda w: [holding.my_task(w.nurse, t.id) for t in tasks.open_of(w.store, [w.open_one])[w.open_one]],
    holding.has_in_hand: lambda w: [holding.has_in_hand(w.nurse, c) for c in worries.open_callbacks(w.store)],
    holding.in_hand: lambda w: [holding.in_hand(w.nurse, c) for c in worries.open_callbacks(w.store) if c.claimed_by],
    holding.chosen: lambda w: [holding.chosen(w.nurse, c.id, ()) for c in worries.open_callbacks(w.store)],
    deciding.can_undo: lambda w: [deciding.can_undo(w.nurse, c) for c in worries.open_callbacks(w.store)],
    settling.check_theatre_day: lambda w: [
        settling.check_theatre_day(w.nurse, t, WEDNESDAY) for t in tasks.for_theatre(w.store)
    ],
    theatre.listed: lambda w: theatre.listed(w.nurse),
    theatre.withdrawn: lambda w: theatre.withdrawn(w.nurse),
    going_home.colleagues: lambda w: going_home.colleagues(w.nurse),
    lines.listed: lambda w: lines.listed(w.nurse),
    lines.listed_page: lambda w: lines.listed_page(w.nurse),
    lines.for_surgeon: lambda w: lines.for_surgeon(w.surgeon),
    showing.call: lambda w: [showing.call(w.nurse, c.id) for c in worries.open_callbacks(w.store)],
    arrivals.likely_visit: lambda w: arrivals.likely_visit(w.nurse, reading_eye.load(w.store, w.eye_id, ZONE)),
    daysheet.daysheet: lambda w: daysheet.daysheet(w.nurse, "pass"),
    daysheet.mark: lambda w: daysheet.mark(w.nurse),
    daysheet.followed: lambda w: daysheet.followed(w.nurse),
    handover.handover: lambda w: handover.handover(w.nurse),
    book.check_day: lambda w: book.check_day(w.nurse, reading_eye.load(w.store, w.eye_id, ZONE), WEDNESDAY, "the visit"),
    book.doubts_of_day: lambda w: book.doubts_of_day(w.nurse, w.clinic, WEDNESDAY),
    in_book.entry: lambda w: in_book.entry(w.nurse, w.planned().identity),
    in_book.open_visit: lambda w: in_book.open_visit(w.nurse, w.planned().identity),
    in_book.followed_eye: lambda w: in_book.followed_eye(w.nurse, w.eye_id),
    closing.displaced: lambda w: closing.displaced(w.nurse, w.clinic, WEDNESDAY),
    closing.moved_by: lambda w: [closing.moved_by(w.nurse, c) for c in closing.closed_here(w.nurse)],
    closing.closed_here: lambda w: closing.closed_here(w.nurse),
    closing.on_closed_days: lambda w: closing.on_closed_days(w.nurse, w.clinic),
    caution.under_caution: lambda w: caution.under_caution(w.nurse, w.device.patient_id),
    passkeys.to_register: lambda w: passkeys.to_register(w.nurse, HERE, "here", "tablet", PASSWORD),
    caution.keep: lambda w: caution.keep(w.nurse, w.device.patient_id, set()),
}


def undelivered(w: World) -> outgoing.Parcel:
    person = w.nurse.actor.signature
    kept.add(w.store, NOW, "now:1", person, "now", "1", NOW + timedelta(days=1))
    return outgoing.Parcel(person, "now", "en", ("now:1",), "nurse@test.invalid", (), 0)


def session_of(w: World) -> str:
    return signing_in.begin(w.store, NOW, w.nurse.actor, signing_in.Caller())


def without_index(w: World) -> None:
    w.store.execute("DELETE FROM patient_terms")


# What is written beside the facts: the only tables that it touches, what is there before, and the act.
ASIDE: dict[Callable[..., Any], tuple[set[str], Callable[[World], Any], Callable[[World, Any], object]]] = {
    trail.opened: ({"pages_opened"}, nothing, lambda w, _: trail.opened(w.nurse, "clinic.today", "")),
    receive.count_junk: ({"tries"}, nothing, lambda w, _: receive.count_junk(w.store, NOW, "192.0.2.1")),
    outgoing.failed: ({"messages"}, undelivered, lambda w, parcel: outgoing.failed(w.store, NOW, parcel, "no answer")),
    signing_in.begun_by_directory: (
        {"used_once"},
        nothing,
        lambda w, _: signing_in.begun_by_directory(w.store, NOW, "a state"),
    ),
    signing_in.begin: ({"sessions"}, nothing, lambda w, _: session_of(w)),
    signing_in.session: (
        {"sessions"},
        session_of,
        lambda w, token: signing_in.session(w.store, NOW + signing_in.IDLE, token),
    ),
    person.index_whoever_is_missing: (
        {"patient_terms"},
        without_index,
        lambda w, _: person.index_whoever_is_missing(w.store),
    ),
    state.bring_up_to_date: (
        {*states.TABLES, "changed_patients", "changed_results", "state_made"},
        nothing,
        lambda w, _: state.bring_up_to_date(w.store, NOW, ZONE),
    ),
    contributions.bring_up_to_date: (
        {*states.RESULTS, "changed_results"},
        lambda w: state.bring_up_to_date(w.store, NOW, ZONE),
        lambda w, _: contributions.bring_up_to_date(w.store, NOW, ZONE),
    ),
}


@pytest.fixture
def world(store: Store, settings: Settings, nurse: Actor, surgeon: Actor, eye_id: str, device: Device) -> World:
    id = accounts.add_staff(store, NOW, "Ada Administrator", "administrator", "admin@test.invalid", PASSWORD)
    desks = [Desk(store, NOW, actor, ZONE) for actor in (nurse, surgeon, Actor(id, "Ada Administrator", "administrator"))]
    signatures.secret(store)  # made on first use, whatever becomes of that
    made = World(store, settings, *desks, eye_id, device)
    visit.record_visit(made.later(desks[0], days=-2), eye_id, [], visit="day 1")
    for at in (NOW - timedelta(days=n) for n in (2, 1, 0)):  # well, and heard from: nothing is open
        lay = {"position": "face-down", "from": (at - timedelta(hours=15)).isoformat(), "to": at.isoformat()}
        receive.receive(store, at, device, [made.sent(kind="posture", body=lay, at=at.isoformat())], ZONE)
    assert not worries.open_callbacks(store)
    return made


def public() -> Iterator[Callable[..., Any]]:
    """Every public function of care that takes a desk, notes something in the audit itself, or begins a transaction."""
    for found in pkgutil.walk_packages(care.__path__, "followup.care."):
        module = importlib.import_module(found.name)
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                takes_desk = any(p.annotation is Desk for p in inspect.signature(function).parameters.values())
                source = inspect.getsource(function)
                if takes_desk or "audit.note(" in source or ".transaction()" in source:
                    yield function


def test_every_verb_of_care_stands_in_the_table() -> None:
    known = [{v.does for v in VERBS}, set(PARTS), set(READINGS), set(ASIDE)]
    found = list(public())
    assert len(found) > 100
    for function in found:
        assert sum(function in list for list in known) == 1, f"{function.__module__}.{function.__name__}"


@pytest.mark.parametrize("found", VERBS, ids=named(VERBS))
def test_a_verb_leaves_its_entries_and_nothing_when_it_fails_half_way(
    world: World, found: Verb, monkeypatch: pytest.MonkeyPatch
) -> None:
    act = found.ready(world)
    before, entries = dump(world.store), world.store.rows("SELECT number FROM audit")
    for number in count(1):
        with monkeypatch.context() as patch:
            world.store.execute("DELETE FROM tries")  # as if the tries of before were long ago
            failed = failing_at(number, patch)
            with suppress(Full):
                act()
        if not failed:
            break
        assert dump(world.store) == before, f"something stayed when row or entry {number} could not be written"
    new = world.store.rows("SELECT * FROM audit ORDER BY number")[len(entries) :]
    of_clock = [e["action"] for e in new if e["who"] == CLOCK.signature and found.may != "clock"]
    assert tuple(e["action"] for e in new if e["who"] != CLOCK.signature or found.may == "clock") == found.leaves
    assert set(of_clock) <= {"warning"}


@pytest.mark.parametrize("found", VERBS, ids=named(VERBS))
def test_a_verb_is_reached_by_whom_the_table_says(found: Verb, settings: Settings, store: Store) -> None:
    if found.may in CLOCKS:
        assert not found.through
        return
    views = create_app(settings, store).view_functions
    for endpoint in found.through:
        assert ROUTES[endpoint].write or ROUTES[endpoint].read, endpoint
        assert (ROUTES[endpoint].write or ROUTES[endpoint].read) == found.may, endpoint
        modules = (cast(ModuleType, inspect.getmodule(views[endpoint])), context, web_sent)
        assert any(used is found.does for module in modules for used in used_in(module)), (
            f"{endpoint} does not call {found.name}"
        )
    assert found.through


def used_in(module: ModuleType) -> Iterator[object]:
    """What a module names in its own lines, whatever name it gave to it."""
    for node in ast.walk(ast.parse(inspect.getsource(module))):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name):
            of = vars(module).get(node.value.id)
            yield vars(of).get(node.attr) if inspect.ismodule(of) else None
        elif isinstance(node, ast.Name):
            yield vars(module).get(node.id)


def test_whatever_is_sent_leads_to_a_verb() -> None:
    known = {endpoint for v in VERBS for endpoint in v.through}
    assert {endpoint for endpoint, route in ROUTES.items() if route.write} == {e for e in known if ROUTES[e].write}


def test_no_page_calls_a_part_by_itself() -> None:
    for found in pkgutil.walk_packages(web.__path__, "followup.web."):
        module = importlib.import_module(found.name)
        called = [used for used in used_in(module) if any(used is part for part in PARTS)]
        assert not called, f"{found.name} calls {called}"


@pytest.mark.parametrize("reading", READINGS, ids=lambda f: f.__name__)
def test_a_reading_writes_nothing(world: World, reading: Callable[..., Any]) -> None:
    world.task()
    READINGS[reading](world)  # keys are made on first use
    before = dump(world.store)
    READINGS[reading](world)
    assert dump(world.store) == before


@pytest.mark.parametrize("aside", ASIDE, ids=lambda f: f.__name__)
def test_what_is_written_aside_touches_no_fact(world: World, aside: Callable[..., Any]) -> None:
    tables, ready, act = ASIDE[aside]
    there = ready(world)
    before = set(dump(world.store, ()))
    act(world, there)
    changed = {line.split('"')[1] for line in before ^ set(dump(world.store, ())) if line.startswith("INSERT INTO")}
    assert changed
    assert changed <= tables | {"sqlite_sequence"}


@pytest.mark.parametrize(
    "act",
    [
        lambda w: signing.sign(w.nurse, "rulebook", fingerprint(draft_text("rulebook"))),
        lambda w: visit.record_clinic_event(w.nurse, w.eye_id, "no-gas-seen", {}),
        lambda w: visit.record_visit(w.nurse, w.eye_id, [], visit="week 1", no_gas_seen=True),
        lambda w: settling.settle(w.nurse, w.open_one, "no-action", "it was 24", w.clinic),
    ],
)
def test_what_only_a_surgeon_may_leaves_nothing_where_a_nurse_tries(world: World, act: Callable[[World], object]) -> None:
    world.claimed()
    before = dump(world.store)
    with pytest.raises(CareError):
        act(world)
    assert dump(world.store) == before


REFUSED: dict[str, tuple[Callable[[World], Act], str, bool]] = {  # the act, what the audit says, and whether it knows of whom
    "a wrong password": (
        lambda w: lambda: signing_in.sign_in(w.store, NOW, "nurse@test.invalid", "not this password", FROM),
        "sign-in failed",
        True,
    ),
    "nobody’s address": (
        lambda w: lambda: signing_in.sign_in(w.store, NOW, "nobody@test.invalid", PASSWORD, FROM),
        "sign-in failed",
        False,
    ),
    "a wrong code": (
        lambda w: partial(signing_in.second_step, w.store, NOW, half_signed_in(w), "000000", FROM),
        "second factor failed",
        True,
    ),
    "a removed passkey": (
        lambda w: partial(signing_in.by_passkey, w.store, NOW, HERE, removed_passkey(w), FROM),
        "passkey refused",
        False,
    ),
    "a removed passkey after the password": (
        lambda w: partial(
            signing_in.second_step_by_passkey, w.store, NOW, half_signed_in(w), HERE,
            removed_passkey(w, w.nurse.actor.id), FROM,
        ),
        "passkey refused",
        True,
    ),
    "nobody whom the directory knows": (
        lambda w: lambda: signing_in.by_directory(w.store, NOW, "person-7", "nobody@test.invalid", FROM),
        "directory sign-in refused",
        False,
    ),
    "somebody else’s address in the directory": (
        lambda w: partial(signing_in.by_directory, w.store, NOW, named_in_directory(w), "nurse@test.invalid", FROM),
        "directory sign-in refused",
        True,
    ),
}  # fmt: skip
FROM = signing_in.Caller("192.0.2.1")


def half_signed_in(w: World) -> str:
    return signing_in.half(w.store, NOW, w.nurse.actor, "nurse@test.invalid")


def removed_passkey(w: World, staff_id: str | None = None) -> passkeys.Answer:
    """What a device answers whose passkey was taken away."""
    made, asked = own_passkey(w), passkeys.to_sign_in(w.store, NOW, HERE, "here", staff_id)
    passkeys.remove(w.nurse, passkeys.of(w.store, w.nurse.actor.id)[0].id)
    return passkeys.Answer(asked.token, made.sign(asked.options), "here")


def named_in_directory(w: World) -> str:
    """How the directory knows the surgeon."""
    accounts.name_in_directory(w.store, NOW, w.surgeon.actor.id, "person-7")
    return "person-7"


@pytest.mark.parametrize("how", REFUSED)
def test_a_failed_sign_in_is_on_record_once_with_where_it_came_from(world: World, how: str) -> None:
    ready, action, of_nurse = REFUSED[how]
    act = ready(world)
    before = world.store.rows("SELECT number FROM audit")
    with suppress(Refused):
        act()
    (entry,) = world.store.rows("SELECT * FROM audit ORDER BY number")[len(before) :]
    assert (entry["who"], entry["action"]) == ("somebody", action)
    assert entry["subject"] == (world.nurse.actor.id if of_nurse else "unknown")
    assert json.loads(entry["detail"])["from"] == "192.0.2.1"
    assert "test.invalid" not in entry["detail"]


def test_tries_count_until_the_sign_in_is_on_record(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        failing_at(7, patch)  # three tries were counted and are forgotten, then comes the entry
        with pytest.raises(Full):
            signing_in.sign_in(world.store, NOW, "nurse@test.invalid", PASSWORD, FROM)
    assert len(world.store.rows("SELECT * FROM tries")) == 3  # the pair, the address, the account
    signing_in.sign_in(world.store, NOW, "nurse@test.invalid", PASSWORD, FROM)
    assert len(world.store.rows("SELECT * FROM tries")) == 3


def test_what_time_alone_raises_is_kept_whole_or_not_at_all(world: World, monkeypatch: pytest.MonkeyPatch) -> None:
    at = OPERATED + timedelta(days=12)  # week 1 was missed, and nobody was heard from
    before = dump(world.store)
    failing_at(2, monkeypatch)
    with pytest.raises(Full):
        raising.check_eye(world.store, world.eye_id, at, ZONE)
    assert dump(world.store) == before
