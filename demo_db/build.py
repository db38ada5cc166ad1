"""Turn the invented clinic's data into a database, living through each eye's course in order of time."""

import shlex
import socket
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import partial
from importlib import resources
from pathlib import Path
from typing import Any

from followup.care import accounts
from followup.care.actors import Actor
from followup.care.callbacks import calls as phone_calls
from followup.care.callbacks import holding, settling
from followup.care.desk import Desk
from followup.care.discharge import leaving
from followup.care.discharge.note import Drop, OperationNote
from followup.care.discharge.proposal import propose
from followup.care.discharge.who import Patient
from followup.care.home import enrol
from followup.care.home.receive import receive
from followup.care.reading.eye import load
from followup.care.reading.measures import MeasuresBody
from followup.care.visits import diary
from followup.care.visits.openings import AHEAD, openings
from followup.care.visits.visit import record_visit
from followup.care.watch.raising import check_eye
from followup.clinical.course import RISKS
from followup.clinical.schedule import Window
from followup.config import Clinic, Server, Settings
from followup.errors import FollowupError
from followup.records import Store, backup, open_store, patients, visits, worries
from followup.records.store import StoreError, new_id
from followup.records.values import Device

EVERYWHERE = ("0.0.0.0", "::")
Step = tuple[datetime, Callable[[datetime], None]]
NOBODY = Actor("demo", "the demo", "clock")
SETTLED_AFTER = timedelta(days=2)
STAFF_SINCE = timedelta(days=365)
DIARY_HOUR = timedelta(hours=5)
CALM = {"pain": 1, "vision": "same", "redness": "same", "discharge": False, "curtain": False, "flashes": "same"}
CALM |= {"floaters": "same", "vomiting": False, "fever": False, "injury": False}


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
    return Settings(clinic=Clinic.model_validate(data("clinic")["clinic"]), server=server)


def ensure(made: Settings, now: datetime, *, fresh: bool = False) -> Store:
    """The demo's database, built if it is missing (or `fresh`). Raises `DemoError` for one that fits no more."""
    path = made.server.database
    if fresh:
        for file in (path, path.with_name(path.name + "-wal"), path.with_name(path.name + "-shm")):
            file.unlink(missing_ok=True)
    if path.exists():
        return _fitting(path)
    unfinished = path.with_name("unfinished.db")
    unfinished.unlink(missing_ok=True)
    store = open_store(unfinished, create=True)
    fill(store, made.clinic, now)
    store.close()
    unfinished.rename(path)
    return open_store(path)


def _fitting(path: Path) -> Store:
    """The database of a demo that was built before, if this version can go on with it."""
    renew = (
        f"the demo in {path.parent} was built by another version and does not fit: “followup demo --fresh” builds it anew"
    )
    try:
        store = open_store(path)
    except StoreError as error:
        raise DemoError(renew) from error
    people = {member.email for member in accounts.everybody(store)}
    fits = backup.is_ours(store) and people >= {person["email"] for person in data("clinic")["staff"]}
    if not fits or patients.by_number(store, data("eyes")["eyes"][0]["number"]) is None:
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
        staff = {}
        for person in data("clinic")["staff"]:
            id = accounts.add_staff(store, now - STAFF_SINCE, **person)
            staff[person["email"]] = Actor(id, person["name"], person["role"])
        nurse, surgeon = (next(a for a in staff.values() if a.role == role) for role in ("nurse", "surgeon"))
        for eye in data("eyes")["eyes"]:
            _Life(store, clinic, eye, nurse, surgeon, now).live()


class _Life:
    """One invented eye's course, step by step."""

    def __init__(
        self, store: Store, clinic: Clinic, eye: dict[str, Any], nurse: Actor, surgeon: Actor, now: datetime
    ) -> None:
        self.store, self.clinic, self.zone = store, clinic, clinic.tz
        self.eye, self.nurse, self.surgeon, self.now = eye, nurse, surgeon, now
        self.operated_at = (now - timedelta(days=eye["operated_days_ago"])).replace(second=0, microsecond=0)
        self.height_metres = clinic.height_metres
        self.sequence = 0

    def live(self) -> None:
        again = self.eye.get("again")
        operated_again_at = self.operated_at + timedelta(days=again["after_days"]) if again else self.now
        home_at = min(self.operated_at + timedelta(hours=4), self.now)
        self.operation = self._discharged(home_at)
        self.on_paper = self.eye.get("reached_by") == "no-app"
        self.device = None if self.on_paper else self._phone(home_at)
        self._until(operated_again_at)
        if again:
            self.eye = {**self.eye, "clinic": {}, "home": [], "missed": [], **again}
            self.operated_at = operated_again_at
            self._discharged(operated_again_at + timedelta(hours=4))
            self._until(self.now)
        check_eye(self.store, self.operation, self.now, self.zone)

    def _until(self, end: datetime) -> None:
        """What happens from the latest operation to then."""
        for at, act in sorted(self._steps(), key=lambda step: step[0]):
            if at <= end:
                act(at)
                self._work_through_callbacks(at)

    def _discharged(self, at: datetime) -> str:
        eye = self.eye
        day = self.operated_at.astimezone(self.zone).date()
        drops = [_drop(text, day) for text in eye.get("drops", ["antibiotic 4 7", "steroid 4 28"])]
        note = OperationNote(
            eye=eye["eye"],
            operated_at=self.operated_at,
            surgeon=self.surgeon.name,
            indication=eye["indication"],
            steps=["vitrectomy", "membrane-peel", "laser"],
            breaks=[{"clock": int(b.split()[0]), "reach": b.split()[1]} for b in eye.get("breaks", [])],
            lens=eye["lens"],
            agent=eye["agent"],
            percent=eye.get("percent", 0),
            fill_percent=eye.get("fill", 0),
            risks=[r for r in eye.get("risks", []) if r in RISKS],
            baseline={"acuity": eye["before"]["acuity"], "iop_mmhg": eye["before"]["iop"]},
            drops=drops,
            steroid_drops_until=day + timedelta(days=28),
            height_metres=self.height_metres,
        )
        places = openings(self.store, self.clinic, day, day + AHEAD).places
        proposed = propose(self.store, note, at, self.zone, places)
        if proposed.plan:
            plan = proposed.plan
            note.posture = {"position": plan.position, "hours_a_day": plan.hours_a_day, "days": plan.days}
        patient = Patient(
            number=eye["number"],
            name=eye["name"],
            born_on=eye["born"],
            phone=eye["phone"],
            reached_by=eye.get("reached_by", "own-phone"),
            carer_phone=eye.get("carer_phone", ""),
        )
        windows = [_on_open_day(w, places) for w in proposed.visits]
        operation, _ = leaving.discharge(Desk(self.store, at, self.nurse, self.zone), patient, note, windows)
        return operation

    def _phone(self, at: datetime) -> Device:
        patient_id = load(self.store, self.operation, self.zone).patient.id
        code = enrol.issue_code(Desk(self.store, at, self.nurse, self.zone), patient_id)
        used_by = "carer" if self.eye.get("reached_by") == "carer-phone" else "patient"
        token = enrol.enrol(self.store, at, code, self.eye["born"].year, used_by, "demo")
        device = enrol.device(self.store, token)
        assert device is not None
        return device

    def _steps(self) -> Iterator[Step]:
        yield from self._visits()
        yield from self._on_paper() if self.on_paper else self._diary()
        for line in self.eye.get("home", []):
            day, kind, *words = shlex.split(line)
            body = _home_body(words)
            yield self.operated_at + timedelta(days=float(day)), partial(self._enter, kind, body)

    def _visits(self) -> Iterator[Step]:
        said = {**data("patterns")[self.eye["agent"]], **self.eye.get("clinic", {})}
        for visit in visits.of_eye(self.store, self.operation):
            if visit.name in self.eye.get("missed", []) or visit.name not in said:
                continue
            at = datetime.combine(visit.target, datetime.min.time(), self.zone)
            at = max(at + timedelta(hours=9, minutes=40), self.operated_at + timedelta(hours=12)).astimezone(UTC)
            if at.astimezone(self.zone).date() == self.now.astimezone(self.zone).date():
                continue  # today's visits are left for whoever tries the demo
            yield at, partial(self._seen, visit.name, said[visit.name])

    def _diary(self) -> Iterator[Step]:
        """Daily for two weeks, then weekly: a calm check, and the hours of posturing while the plan lasts."""
        plan = load(self.store, self.operation, self.zone).operation.plan
        last = self.eye.get("diary_until", self.eye["operated_days_ago"])
        first_noon = self.operated_at.astimezone(self.zone).replace(hour=21, minute=30)
        for n in range(0, int(last) + 1):
            at = (first_noon + timedelta(days=n)).astimezone(UTC)
            if at < self.operated_at or (at - self.operated_at) / timedelta(days=1) > last:
                continue
            if n <= 14 or n % 7 == 0:
                yield at, partial(self._enter, "symptoms", CALM)
            if plan and 0 < n < plan.days:
                hours = self.eye.get("posture_hours", plan.hours_a_day)
                start = at - timedelta(minutes=15) - timedelta(hours=hours)
                body = {"position": plan.position, "from": start.isoformat(), "to": (at - timedelta(minutes=15)).isoformat()}
                yield at + timedelta(minutes=2), partial(self._enter, "posture", body)

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

    def _seen(self, visit: str, words: str, at: datetime) -> None:
        given = {name: value for name, _, value in (word.partition("=") for word in shlex.split(words))}
        body = {
            "eye": self.eye["eye"],
            "acuity": given["acuity"],
            "correction": "pinhole",
            "iop_mmhg": float(given["iop"]),
            "instrument": "applanation",
            "pain": int(given["pain"]),
            "findings": tuple(given["findings"].split(",")) if "findings" in given else (),
        }
        if "level" in given:
            body["bubble_percent"] = float(given["level"])
        measures = [MeasuresBody.model_validate(body)]
        gone = "no-gas" in given
        who = self.surgeon if gone else self.nurse
        record_visit(Desk(self.store, at, who, self.zone), self.operation, measures, visit=visit, no_gas_seen=gone)

    def _enter(self, kind: str, body: dict[str, Any], at: datetime) -> None:
        self.sequence += 1
        event = {"id": new_id(), "operation": self.operation, "kind": kind, "at": at.isoformat(), "body": body}
        sent = [{**event, "offset_minutes": 60, "sequence": self.sequence, "by": "patient"}]
        assert self.device is not None, "on paper nothing comes from a phone"
        result = receive(self.store, at, self.device, sent, self.zone)[0]
        assert result.status == "received", result.reason

    def _work_through_callbacks(self, at: datetime) -> None:
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


def _drop(text: str, day: date) -> Drop:
    name, times, days = text.rsplit(maxsplit=2)
    return Drop(name=name, times_a_day=int(times), until=day + timedelta(days=int(days)))


def _home_body(words: list[str]) -> dict[str, Any]:
    body: dict[str, Any] = {}
    for word in words:
        key, value = word.split("=", 1)
        if key == "heights":
            body["heights_metres"] = [float(h) for h in value.split(",")]
        elif key in ("pain", "percent"):
            body[key] = int(value)
        else:
            body[key] = {"yes": True, "no": False}.get(value, value)
    return body


def data(name: str) -> dict[str, Any]:
    """The invented clinic, its eyes, or what visits of each agent find."""
    return tomllib.loads(resources.files(__package__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))
