"""A database in which an operation was the record opens as eyes: nothing is lost, and everything stands under its eye.

`old` is filled as the step before left it: rows of one eye that was operated three times, of measures of the fellow eye that
were entered on the operated eye's page, and of operations whose follow-up had ended.
"""

import json
import sqlite3
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlite_utils import Database

from followup.care import accounts
from followup.care.reading import person
from followup.care.reading.eye import load
from followup.config import Settings
from followup.protocols import book
from followup.records import Store, events, eyes, open_store, tasks, visits, worries
from followup.records.migrations import steps
from followup.records.store import as_json
from followup.records.times import to_text
from followup.web import create_app
from tests.conftest import NOW, OPERATED, PASSWORD, Browser, Clock, operation_note, signed_in

OPERATIONS = ("a", "b", "c")  # of one right eye, a week apart
SOURCE = book.rulebook().rules[0].source
AGENTS = {"a": "c2f6", "b": "sf6", "c": "silicone-oil"}
TABLES = (
    "operations", "operation_records", "visits", "events", "looks", "warnings", "callbacks", "tasks", "refused_events",
    "callback_steps", "patients",
)  # fmt: skip


class Old:
    """Writes rows as the code before the step did."""

    def __init__(self, db: Database, settings: Settings) -> None:
        self.db, self.zone = db, settings.clinic.tz

    def add(self, table: str, **row: Any) -> None:
        self.db[table].insert({key: to_text(v) if isinstance(v, datetime) else v for key, v in row.items()})

    def patient(self, id: str) -> None:
        about = {"born_on": "1952-03-14", "phone": "", "language": "en", "created_at": OPERATED}
        self.add("patients", id=id, number=id.upper(), name=f"Person {id.upper()}", **about)

    def operation(
        self, id: str, patient: str, at: datetime, eye: str = "right", agent: str = "c2f6", ended_at: datetime | None = None
    ) -> None:
        self.add("operations", id=id, patient_id=patient, created_at=at + timedelta(hours=4), ended_at=ended_at)
        self.record(f"{id}-record", id, at, eye, agent, at + timedelta(hours=4))

    def record(self, id: str, operation: str, at: datetime, eye: str, agent: str, recorded_at: datetime) -> None:
        percent = 0 if agent == "silicone-oil" else 16
        body = as_json(operation_note(operated_at=at, agent=agent, percent=percent).body(self.zone))
        told = {"surgeon": "Sol Surgeon", "body": body, "recorded_by": "nurse:n", "recorded_at": recorded_at}
        self.add("operation_records", id=id, operation_id=operation, eye=eye, operated_at=at, agent=agent, **told)

    def event(self, id: str, operation: str, kind: str, at: datetime, body: Any, corrects: str | None = None) -> None:
        said = {"body": as_json(body), "author": "nurse:n", "received_at": at, "corrects": corrects}
        self.add("events", id=id, operation_id=operation, kind=kind, at=at, **said)

    def visit(self, id: str, operation: str, identity: str, day: date, at: datetime, replaces: str | None = None) -> None:
        dates = dict.fromkeys(("target", "earliest", "latest"), day.isoformat())
        told = {"reason": "", "recorded_by": "nurse:n", "recorded_at": at, "replaces": replaces, "withdrawn": 0}
        self.add("visits", id=id, operation_id=operation, name="week 1", identity=identity, **dates, **told)

    def callback(self, id: str, operation: str, worry: str, state: str, rule: str, at: datetime) -> None:
        """With the warning that opened it, and a step."""
        times = {"opened_at": at, "due_at": at + timedelta(hours=1), "settled_at": at if state == "settled" else None}
        outcome = {"outcome": "advice", "settled_by": "n"} if state == "settled" else {}
        common = {"operation_id": operation, "worry": worry, "how_soon": "now"}
        self.add("callbacks", id=id, state=state, level=0, moved_up=0, **common, **times, **outcome)
        said = {"severity": 1.0, "values_json": "{}", "threshold": "{}", "source": SOURCE, "words": f"said of {operation}"}
        told = {"rulebook": "x", "raised_at": at, "recorded_at": at}
        self.add("warnings", id=f"{id}-warning", callback_id=id, rule=rule, **common, **said, **told)
        self.add("callback_steps", id=f"{id}-step", callback_id=id, at=at, who="clock", step="opened", detail="{}")


def fill(old: Old) -> None:
    old.db["staff"].insert(
        {"id": "n", "name": "Nora", "role": "nurse", "email": "n@x", "password_hash": "", "created_at": to_text(OPERATED)}
    )
    old.patient("p")
    for n, id in enumerate(OPERATIONS):
        at = OPERATED + timedelta(weeks=n)
        old.operation(id, "p", at, agent=AGENTS[id])
        old.event(f"{id}-pain", id, "symptoms", at + timedelta(days=1), {"pain": n})
        old.visit(f"{id}-visit", id, f"{id}-visit", date(2027, 4, 1 + n), at)
        old.add("looks", id=f"{id}-look", operation_id=id, at=at + timedelta(days=2), who="nurse:n")
        old.add("refused_events", id=f"{id}-refused", operation_id=id, device_id="x", text="?", reason="odd", received_at=at)
        old.callback(f"{id}-open", id, "pressure", "waiting", "pressure-severe", NOW)  # one rule, one time, one worry
        old.callback(f"{id}-settled", id, "pain", "settled", f"pain-{id}", at + timedelta(days=1))
    at = OPERATED + timedelta(weeks=1, days=1)
    old.record("b-changed", "b", OPERATED + timedelta(weeks=1), "right", "c3f8", at)
    old.visit("b-moved", "b", "b-visit", date(2027, 4, 9), at, replaces="b-visit")
    old.add(
        "tasks", id="task", callback_id="b-open", operation_id="b", kind="come", words="soon", due_at=NOW, made_by="n",
        made_at=NOW, done_words="", given_up=0,
    )  # fmt: skip
    old.event("right-b", "b", "measures", at, {"eye": "right", "iop_mmhg": 21})
    old.event("left-a", "a", "measures", OPERATED + timedelta(days=1), {"eye": "left", "iop_mmhg": 14})
    old.event("left-b", "b", "measures", at, {"eye": "left", "iop_mmhg": 45})
    old.event("left-wrong", "b", "measures", at, {"eye": "left", "iop_mmhg": 61})
    old.event("left-taken-back", "b", "withdrawal", at, {"reason": "typed wrongly"}, corrects="left-wrong")

    first, second = OPERATED + timedelta(days=20), OPERATED + timedelta(days=40)
    for patient, ends in (("q", (first,)), ("r", (first, second)), ("s", (first, None)), ("t", (None, second))):
        old.patient(patient)
        for n, ended_at in enumerate(ends):
            old.operation(f"{patient}{n}", patient, OPERATED + timedelta(weeks=n), "left", ended_at=ended_at)


@pytest.fixture
def old(settings: Settings) -> Path:
    path = settings.server.database
    db = Database(path)
    steps.apply(db, stop_before="m020_two_eyes")
    fill(Old(db, settings))
    db.conn.commit()
    db.conn.close()
    return path


def counts(path: Path) -> dict[str, int]:
    with sqlite3.connect(path) as db:
        return {table: db.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in TABLES}


@pytest.fixture
def upgraded(old: Path) -> Iterator[Store]:
    store = open_store(old)
    yield store
    store.close()


def fellow(store: Store) -> str:
    (left,) = [eye for eye in eyes.of_patient(store, "p") if eye.side == "left"]
    return left.id


def test_no_row_is_lost_and_every_reference_holds(old: Path) -> None:
    before = counts(old)
    store = open_store(old)
    assert counts(old) == before
    assert store.damage() + store.dangling() == []
    store.close()


def test_every_patient_has_two_eyes_and_each_keeps_the_id_of_its_first_operation(upgraded: Store) -> None:
    assert [(e.side, e.id == "a", e.note is not None) for e in eyes.of_patient(upgraded, "p")] == [
        ("right", True, True),
        ("left", False, False),
    ]
    for patient in "qrst":
        assert [(e.side, e.id == f"{patient}0") for e in eyes.of_patient(upgraded, patient)] == [
            ("right", False),
            ("left", True),
        ]
    for operation in OPERATIONS:  # as a phone that was enrolled before, or an old address, names it
        known = eyes.eye(upgraded, operation)
        assert known
        assert known.id == "a"


def test_the_eye_has_its_operations_in_order_with_every_note(upgraded: Store, settings: Settings) -> None:
    assert [(n.operation_id, n.agent) for n in eyes.notes_of(upgraded, "a")] == [
        ("a", "c2f6"),
        ("b", "c3f8"),
        ("c", "silicone-oil"),
    ]
    assert [n.id for n in eyes.history_of(upgraded, "b")] == ["b-record", "b-changed"]
    assert [o.agent for o in load(upgraded, "a", settings.clinic.tz).operations] == ["c2f6", "c3f8", "silicone-oil"]


def test_what_was_recorded_under_each_operation_stands_under_the_eye(upgraded: Store) -> None:
    assert {e.id for e in events.of_eye(upgraded, "a")} == {"a-pain", "b-pain", "c-pain", "right-b"}
    assert [(v.id, v.identity) for v in visits.of_eye(upgraded, "a")] == [
        ("a-visit", "a-visit"),
        ("c-visit", "c-visit"),
        ("b-moved", "b-visit"),
    ]
    assert eyes.last_look(upgraded, "a") == OPERATED + timedelta(weeks=2, days=2)
    assert {(r.id, r.eye_id) for r in events.refused(upgraded)} == {(f"{id}-refused", "a") for id in OPERATIONS}
    assert [(t.id, t.eye_id) for t in tasks.of_callback(upgraded, "b-open")] == [("task", "a")]


def test_warnings_of_one_rule_and_time_and_open_callbacks_of_one_worry_all_stand(upgraded: Store) -> None:
    warned = {w.id: (w.callback_id, w.rule, w.words) for w in worries.warnings_of(upgraded, "a")}
    assert len(warned) == 6
    for id in OPERATIONS:
        callback, rule, words = warned[f"{id}-open-warning"]
        assert (callback, words) == (f"{id}-open", f"said of {id}")
        assert rule.startswith("pressure-severe")
        assert warned[f"{id}-settled-warning"] == (f"{id}-settled", f"pain-{id}", f"said of {id}")
    known = {c.id: (c.state, c.worry) for c in worries.callbacks_of(upgraded, "a")}
    assert known["a-open"] == ("waiting", "pressure")
    assert known["b-open"][0] == "to-do"
    assert known["c-open"][0] == "waiting"
    assert len({worry for id, (_, worry) in known.items() if id.endswith("-open")}) == 3
    assert {known[f"{id}-settled"] for id in OPERATIONS} == {("settled", "pain")}
    assert {c.id for c in worries.open_callbacks(upgraded)} == {f"{id}-open" for id in OPERATIONS}
    assert [s.id for s in worries.steps_of(upgraded, "c-open")] == ["c-open-step"]


def test_measures_of_the_fellow_eye_stand_on_the_fellow_eye(upgraded: Store, settings: Settings) -> None:
    left = fellow(upgraded)
    assert [(e.id, e.body.iop_mmhg) for e in events.of_eye(upgraded, left)] == [("left-a", 14), ("left-b", 45)]
    assert {e.id for e in events.history_of(upgraded, left)} == {"left-a", "left-b", "left-wrong", "left-taken-back"}
    last = person.last_measures(person.both_eyes(upgraded, "p", settings.clinic.tz))
    assert {side: event.id for side, event in last.items() if event} == {"right": "right-b", "left": "left-b"}


@pytest.mark.parametrize(
    ("patient", "ended_at"),
    [
        ("p", None),
        ("q", OPERATED + timedelta(days=20)),
        ("r", OPERATED + timedelta(days=40)),  # both ended: with the later
        ("s", None),  # the second operation is followed still
        ("t", None),  # the first one is
    ],
)
def test_follow_up_ended_where_that_of_every_operation_had(upgraded: Store, patient: str, ended_at: datetime | None) -> None:
    (known,) = [eye for eye in eyes.of_patient(upgraded, patient) if eye.note]
    assert known.followed_since == OPERATED + timedelta(hours=4)
    assert (known.ended_at, known.end_reason) == (ended_at, "finished" if ended_at else None)
    assert (known.id in {eye.id for eye in eyes.followed(upgraded)}) is (ended_at is None)
    (other,) = [eye for eye in eyes.of_patient(upgraded, patient) if not eye.note]
    assert (other.followed_since, other.is_followed) == (None, False)


@pytest.mark.parametrize("table", ["operation_records", "visits", "events", "looks", "warnings", "refused_events"])
def test_what_is_append_only_is_so_again(upgraded: Store, table: str) -> None:
    for sql in (f"UPDATE {table} SET id = 'x'", f"DELETE FROM {table}"):
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            upgraded.execute(sql)


def test_todays_pages_show_it_all(upgraded: Store, settings: Settings) -> None:
    accounts.add_staff(upgraded, NOW, "Nora Nurse", "nurse", "nurse@test.invalid", PASSWORD)
    clock = Clock()
    clock.now = datetime(2027, 4, 20, 10, tzinfo=UTC)
    app = create_app(settings, upgraded, clock)
    app.config.update(TESTING=True)
    app.test_client_class = Browser
    nurse = signed_in(app, "nurse@test.invalid")
    assert "Person P" in nurse.get("/clinic/?find=person p").text
    listed = nurse.get("/clinic/callbacks").text
    assert any(f"/clinic/callbacks/{id}-open" in listed for id in OPERATIONS)  # one line a patient
    for id in OPERATIONS:
        assert f"said of {id}" in nurse.get(f"/clinic/callbacks/{id}-open").text
        assert nurse.get(f"/clinic/eyes/{id}").status_code == 200
    assert "pressure 45 mmHg" in nurse.get(f"/clinic/eyes/{fellow(upgraded)}").text
    assert json.loads(nurse.get("/api/v1/clinic/daysheet").data)["eyes"]
