"""Turn the invented clinic's data into a database, living through each eye's course in order of time."""

import shlex
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

from demo_db import data
from demo_db.data import ToldEye, ToldMeasures
from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.note import drops_in, steroid_end
from followup.care.discharge.proposal import propose
from followup.care.discharge.who import Patient
from followup.care.home import enrol
from followup.care.home.receive import receive
from followup.care.patients import consenting
from followup.care.reading.eye import load
from followup.care.visits import diary
from followup.care.visits.openings import AHEAD, openings
from followup.care.visits.visit import record_visit
from followup.care.watch.raising import check_eye
from followup.clinical.schedule import Window
from followup.clinical.surgery import RISKS
from followup.config import Clinic, Server, Settings
from followup.errors import FollowupError
from followup.records import Store, backup, open_store, patients, visits, worries
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.home import PostureBody, SymptomsBody
from followup.records.bodies.kinds import body_of, stored
from followup.records.operation_note import Baseline, OperationNote, Positioning, Site
from followup.records.store import FAMILY, StoreError, new_id
from followup.records.values import Device

EVERYWHERE = ("0.0.0.0", "::")  # noqa: S104  # compared with, not bound to

Step = tuple[datetime, Callable[[datetime], None]]
NOBODY = Actor("demo", "the demo", "clock")
# Said of both ways to start it (`bash demo_db/run`, `followup demo`) and of any folder.
RENEW = "start it the same way with --fresh added, and it is built anew, from today"
SETTLED_AFTER = timedelta(days=2)
STAFF_SINCE = timedelta(days=365)
DIARY_HOUR = timedelta(hours=5)
CALM = SymptomsBody(
    pain=1,
    vision="same",
    redness="same",
    discharge=False,
    curtain=False,
    flashes="same",
    floaters="same",
    vomiting=False,
    fever=False,
    injury=False,
)


class DemoError(FollowupError):
    """The demo that was built before cannot be used; the message says how to renew it."""


def settings(folder: Path, host: str | None = None, port: int | None = None) -> Settings:
    """The demo's settings: its own folder, plain cookies, two workers. Where it listens everywhere, phones reach it by this
    machine's own number.
    """
    server = Server(database=folder / "demo.db", secure_cookies=False, demo=True)
    given = {key: value for key, value in (("host", host), ("port", port)) if value is not None}
    server = server.model_validate({**server.model_dump(), **given})
    if server.host in EVERYWHERE:
        server = server.model_copy(update={"address": f"http://{_own_number()}:{server.port}"})
    return Settings(clinic=data.clinic().clinic, server=server)


def ensure(made: Settings, now: datetime, *, fresh: bool = False) -> Store:
    """The demo's database, built if it is missing (or `fresh`). Raises `DemoError` for one that fits no more."""
    path = made.server.database
    if path.exists() and not fresh:
        return _fitting(path)
    with building(path) as unfinished:
        store = open_store(unfinished, create=True)
        fill(store, made.clinic, now)
        store.close()
    return open_store(path)


@contextmanager
def building(path: Path) -> Iterator[Path]:
    """Where a database is built; it takes its place once it is whole."""
    unfinished = path.with_name("unfinished.db")
    for file in (unfinished.with_name(unfinished.name + ending) for ending in FAMILY):
        file.unlink(missing_ok=True)
    yield unfinished
    for file in (path.with_name(path.name + ending) for ending in FAMILY):
        file.unlink(missing_ok=True)
    unfinished.rename(path)


def _fitting(path: Path) -> Store:
    """The database of a demo that was built before, if this version can go on with it."""
    renew = f"the demo in {path.parent} was built by another version and does not fit: {RENEW}"
    try:
        store = open_store(path)
    except StoreError as error:
        raise DemoError(renew) from error
    people = {member.email for member in accounts.everybody(store)}
    fits = backup.is_ours(store) and people >= {person.email for person in data.clinic().staff}
    if not fits or patients.by_number(store, data.eyes()[0].number) is None:
        store.close()
        raise DemoError(renew)
    return store


def built_at(store: Store) -> datetime:
    """Until when the invented clinic had worked when it was built."""
    return min(member.created_at for member in accounts.everybody(store)) + STAFF_SINCE


def _own_number() -> str:
    """This machine's number in its own network. Nothing is sent: the address is one of those kept for examples (RFC 5737)."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        try:
            asking.connect(("192.0.2.1", 9))
        except OSError:  # no network at all
            return "127.0.0.1"
        return str(asking.getsockname()[0])


def fill(store: Store, clinic: Clinic, now: datetime) -> None:
    """Put the invented people and eyes into an empty database, as if the clinic had worked until `now`."""
    with store.transaction():
        nurse, surgeon = staff(store, now)
        for eye in data.eyes():
            Life(store, clinic, eye, nurse, surgeon, now).live()


def staff(store: Store, now: datetime) -> tuple[Actor, Actor]:
    """The clinic's people get their accounts; returns the nurse and the surgeon who do everything."""
    made = []
    for person in data.clinic().staff:
        id = accounts.add_staff(store, now - STAFF_SINCE, **person.model_dump())
        made.append(Actor(id, person.name, person.role))
    nurse, surgeon = (next(a for a in made if a.role == role) for role in ("nurse", "surgeon"))
    return nurse, surgeon


class Life:
    """One invented eye's course, step by step."""

    def __init__(self, store: Store, clinic: Clinic, eye: ToldEye, nurse: Actor, surgeon: Actor, now: datetime) -> None:
        self.store, self.clinic, self.zone = store, clinic, clinic.tz
        self.eye, self.nurse, self.surgeon, self.now = eye, nurse, surgeon, now
        self.operated_at = (now - timedelta(days=eye.operated_days_ago)).replace(second=0, microsecond=0)
        self.height_metres = clinic.height_metres
        self.sequence = 0

    def live(self) -> None:
        again = self.eye.again
        operated_again_at = self.operated_at + timedelta(days=again.after_days) if again else self.now
        home_at = min(self.operated_at + timedelta(hours=4), self.now)
        self.operation = self._discharged(home_at)
        self.on_paper = self.eye.reached_by == "no-app"
        self.device = None if self.on_paper else self._phone(home_at)
        self._until(operated_again_at)
        if again:
            self.eye = self.eye.operated_again(again)
            self.operated_at = operated_again_at
            self._discharged(operated_again_at + timedelta(hours=4))
            self._until(self.now)
        check_eye(self.store, self.operation, self.now, self.zone)

    def _until(self, end: datetime) -> None:
        """What happens from the latest operation to then."""
        for at, act in sorted(self._steps(), key=lambda step: step[0]):
            if at <= end:
                act(at)
                self.work_through_callbacks(at)

    def _discharged(self, at: datetime) -> str:
        eye = self.eye
        day = self.operated_at.astimezone(self.zone).date()
        drops = drops_in("\n".join(eye.drops), day, day)
        note = OperationNote(
            eye=eye.eye,
            operated_at=self.operated_at,
            surgeon=self.surgeon.name,
            indication=eye.indication,
            steps=("vitrectomy", "membrane-peel", "laser"),
            breaks=tuple(Site(clock=float(clock), reach=reach) for clock, reach in map(str.split, eye.breaks)),
            lens=eye.lens,
            agent=eye.agent,
            percent=eye.percent,
            fill_percent=eye.fill,
            risks=tuple(r for r in eye.risks if r in RISKS),
            baseline=Baseline(acuity=eye.before.acuity, iop_mmhg=eye.before.iop),
            drops=drops,
            steroid_drops_until=steroid_end(drops),
            height_metres=self.height_metres,
        )
        places = openings(self.store, self.clinic, day, day + AHEAD).places
        proposed = propose(self.store, note, at, self.zone, places)
        if proposed.plan:
            plan = proposed.plan
            asked = Positioning(position=plan.position, hours_a_day=plan.hours_a_day, days=plan.days)
            note = note.model_copy(update={"posture": asked})
        patient = Patient(
            number=eye.number,
            name=eye.name,
            born_on=eye.born,
            phone=eye.phone,
            reached_by=eye.reached_by,
            carer_phone=eye.carer_phone,
        )
        windows = [_on_open_day(w, places) for w in proposed.visits]
        desk = Desk(self.store, at, self.nurse, self.zone)
        operation, _ = leaving.discharge(desk, patient, note, windows)
        if patient.reached_by != "no-app":
            consenting.give(desk, load(self.store, operation, self.zone).patient.id, "patient", "")
        return operation

    def _phone(self, at: datetime) -> Device:
        patient_id = load(self.store, self.operation, self.zone).patient.id
        code = enrol.issue_code(Desk(self.store, at, self.nurse, self.zone), patient_id)
        used_by = "carer" if self.eye.reached_by == "carer-phone" else "patient"
        token = enrol.enrol(self.store, at, code, self.eye.born.year, used_by, "demo")
        device = enrol.device(self.store, token)
        assert device is not None
        return device

    def _steps(self) -> Iterator[Step]:
        yield from self._visits()
        yield from self._on_paper() if self.on_paper else self._diary()
        for line in self.eye.home:
            day, kind, *words = shlex.split(line)
            yield self.operated_at + timedelta(days=float(day)), partial(self._enter, body_of(kind, _home_body(words)))

    def _visits(self) -> Iterator[Step]:
        """Each planned visit but those missed; where the data say nothing of one, it finds what the one before found."""
        said = {**data.usual(self.eye.agent), **self.eye.clinic}
        told = next(iter(said.values()), "")
        for visit in visits.of_eye(self.store, self.operation):
            if visit.name in self.eye.missed or visit.target < self.operated_at.astimezone(self.zone).date():
                continue
            told = said.get(visit.name, told.removesuffix(" no-gas"))
            at = datetime.combine(visit.target, datetime.min.time(), self.zone)
            at = max(at + timedelta(hours=9, minutes=40), self.operated_at + timedelta(hours=12)).astimezone(UTC)
            if at.astimezone(self.zone).date() == self.now.astimezone(self.zone).date():
                continue  # today's visits are left for whoever tries the demo
            yield at, partial(self._seen, visit.name, ToldMeasures.read(told))

    def _diary(self) -> Iterator[Step]:
        """Daily for two weeks, then weekly: a calm check, and the hours of posturing while the plan lasts."""
        plan = load(self.store, self.operation, self.zone).operation.plan
        last = self.eye.operated_days_ago if self.eye.diary_until is None else self.eye.diary_until
        first_noon = self.operated_at.astimezone(self.zone).replace(hour=21, minute=30)
        for n in range(0, int(last) + 1):
            at = (first_noon + timedelta(days=n)).astimezone(UTC)
            if at < self.operated_at or (at - self.operated_at) / timedelta(days=1) > last:
                continue
            if n <= 14 or n % 7 == 0:
                yield at, partial(self._enter, CALM)
            if plan and 0 < n < plan.days:
                hours = plan.hours_a_day if self.eye.posture_hours is None else self.eye.posture_hours
                start = at - timedelta(minutes=15) - timedelta(hours=hours)
                lay = PostureBody(position=plan.position, start=start, end=at - timedelta(minutes=15))
                yield at + timedelta(minutes=2), partial(self._enter, lay)

    def _on_paper(self) -> Iterator[Step]:
        """At each planned call the nurse enters the days of the diary since the one before; the last is left to be made."""
        known = load(self.store, self.operation, self.zone)
        since = self.operated_at.astimezone(self.zone).date()
        today = self.now.astimezone(self.zone).date()
        come = sorted(day for day in diary.sheet(self.store, known, str).calls if day <= today)
        for day in come[:-1]:
            at = datetime.combine(day, datetime.min.time(), self.zone).replace(hour=9, minute=50).astimezone(UTC)
            yield at, partial(self._copied, [since + timedelta(days=n) for n in range(1, (day - since).days)])
            since = day - timedelta(days=1)

    def _copied(self, days: list[date], at: datetime) -> None:
        for day in days:
            diary.enter(Desk(self.store, at, self.nurse, self.zone), self.operation, day, CALM)

    def _seen(self, visit: str, told: ToldMeasures, at: datetime) -> None:
        measures = MeasuresBody(
            eye=self.eye.eye,
            acuity=told.acuity,
            correction="pinhole",
            iop_mmhg=told.iop,
            instrument="applanation",
            pain=told.pain,
            findings=told.findings,
            bubble_percent=told.level,
        )
        who = self.surgeon if told.no_gas else self.nurse
        record_visit(Desk(self.store, at, who, self.zone), self.operation, [measures], visit=visit, no_gas_seen=told.no_gas)

    def _enter(self, said: Body, at: datetime) -> None:
        self.sequence += 1
        event = {"id": new_id(), "operation": self.operation, "kind": said.KIND, "at": at.isoformat()}
        sent = [{**event, "body": stored(said), "offset_minutes": 60, "sequence": self.sequence, "by": "patient"}]
        assert self.device is not None, "on paper nothing comes from a phone"
        result = receive(self.store, at, self.device, sent, self.zone)[0]
        assert result.status == "received", result.reason

    def work_through_callbacks(self, at: datetime) -> None:
        """The clinic settled what came up more than two days before today."""
        if at > self.now - SETTLED_AFTER:
            return
        for found in worries.callbacks_of(self.store, self.operation):
            if found.state == "waiting":
                later = at + timedelta(minutes=40)
                holding.claim(Desk(self.store, later, self.nurse, self.zone), found.id)
                said = "Spoke with the patient."
                phone_calls.attempt(Desk(self.store, later, self.nurse, self.zone), found.id, "patient", said, self.clinic)
                done = "Advice given, review kept."
                settling.settle(Desk(self.store, later, self.nurse, self.zone), found.id, "advice", done, self.clinic)


def _on_open_day(window: Window, places: dict[date, int]) -> Window:
    """As a nurse does with a visit that finds no place in its window: the next day on which the clinic sees people."""
    target = min(day for day in places if day >= window.target) if window.target not in places else window.target
    return replace(window, target=target, latest=max(window.latest, target))


def _home_body(words: list[str]) -> dict[str, Any]:
    return dict(_home_word(*word.split("=", 1)) for word in words)


def _home_word(key: str, value: str) -> tuple[str, Any]:
    if key == "heights":
        return "heights_metres", value.split(",")
    return key, int(value) if value.isdigit() else {"yes": True, "no": False}.get(value, value)
