"""Rows for the tests of the records: each builder writes one thing with what is usual, and gives it as it is read."""

from collections.abc import Mapping
from datetime import date, datetime, timedelta
from typing import Any, TypeVar

from followup.care.actors import Actor
from followup.records import Store, events, eyes, patients, tasks, visits, worries
from followup.records.store import new_id
from followup.records.values import Callback, Eye, Patient, Task, Visit
from tests.conftest import NOW, OPERATED, ZONE, operation_note

BORN = date(1950, 1, 2)
Given = TypeVar("Given")


def known(found: Given | None) -> Given:
    assert found is not None
    return found


def person(store: Store, number: str = "N-1", name: str = "Ada Ash", born: date = BORN) -> Patient:
    return known(patients.patient(store, patients.add(store, NOW, number, name, born, "+00 1", "de")))


def right(store: Store, patient: Patient) -> Eye:
    return eyes.of_patient(store, patient.id)[0]


def left(store: Store, patient: Patient) -> Eye:
    return eyes.of_patient(store, patient.id)[1]


def fellow(store: Store, eye_id: str) -> str:
    """The patient's other eye."""
    patient = known(eyes.eye(store, eye_id)).patient
    return next(eye.id for eye in eyes.of_patient(store, patient.id) if eye.id != eye_id)


def operated(store: Store, eye_id: str, at: datetime = OPERATED, now: datetime = NOW, **changes: Any) -> str:
    """Put an operation on record and follow the eye; returns the operation's id."""
    id = eyes.add_operation(store, now, eye_id)
    eyes.add_note(store, now, id, operation_note(operated_at=at, **changes), ZONE, "nurse:n")
    eyes.begin(store, now, eye_id)
    return id


def callback(store: Store, eye_id: str, worry: str = "pressure", how_soon: str = "today", at: datetime = NOW) -> Callback:
    """A callback opened at a time and due four hours later."""
    id = worries.add_callback(store, eye_id, worry, how_soon, at, at + timedelta(hours=4))
    return known(worries.callback(store, id))


def task(
    store: Store, of: Callback, by: Actor, owner: Actor | None = None, kind: str = "phone", at: datetime = NOW, **more: Any
) -> Task:
    """What `by` decided about a callback `at` a time, due a day later unless `due_at` says so."""
    due, decision = more.pop("due_at", at + timedelta(days=1)), more.pop("decision", "one")
    id = tasks.add(store, at, of, kind, "words", by.id, owner and owner.id, due, decision, **more)
    return known(tasks.task(store, id))


def entry(
    store: Store, eye_id: str, kind: str = "symptoms", at: datetime = NOW, body: Mapping[str, Any] | None = None, **more: Any
) -> str:
    """An entry of a nurse, received as it happened; returns its id."""
    id = more.pop("id", None) or new_id()
    events.add(store, id, eye_id, kind, at, body or {}, "nurse:n", more.pop("received_at", at), **more)
    return str(id)


def visit(store: Store, eye_id: str, day: date, name: str = "extra", at: datetime = NOW, **more: Any) -> Visit:
    """A visit on one day alone."""
    return known(visits.visit(store, visits.add(store, at, eye_id, name, day, day, day, "retina", "nurse:n", **more)))
