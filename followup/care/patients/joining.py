"""Two records of one person become one: nothing is lost, and both numbers find the person."""

import hashlib
from dataclasses import dataclass
from datetime import date, tzinfo
from typing import Literal

from followup.care.desk import Desk
from followup.care.errors import CareError, Conflict, NotFound
from followup.care.reading.person import index
from followup.care.watch.raising import raise_signs_of_patient
from followup.records import Store, eyes, patients
from followup.records.store import as_json
from followup.records.values import Patient

Which = Literal["one", "other"]


@dataclass(frozen=True, slots=True)
class Joining:
    """Two records beside each other. `same_day` names operations of both on one eye and one day: one operation recorded
    twice, or two people. `mark` stands for exactly what was shown.
    """

    one: Patient
    other: Patient
    same_day: tuple[tuple[str, date], ...]
    mark: str


def look(store: Store, one_id: str, other_id: str, zone: tzinfo) -> Joining:
    """Two records as they would be joined. Raises `NotFound`, and `CareError` for one record or one already joined."""
    one, other = _patient(store, one_id), _patient(store, other_id)
    if one.id == other.id:
        raise CareError("these are one record already", "other")
    days = [_operated(store, known.id, zone) for known in (one, other)]
    seen = [_particulars(known) for known in (one, other)]
    mark = hashlib.sha256(as_json([one.id, other.id, seen, sorted(map(str, days[0] | days[1]))]).encode()).hexdigest()[:16]
    return Joining(one, other, tuple(sorted(days[0] & days[1])), mark)


def join(desk: Desk, found: Joining, *, number: Which, particulars: Which, mark: str, same_day_meant: bool = False) -> str:
    """Join two records under one number and one set of particulars; returns the id of the record that stands.

    Raises `Conflict` where something changed since it was shown, and `CareError` where both have an operation on the same
    eye on the same day, unless that is `same_day_meant`.
    """
    with desk.store.transaction():
        found = look(desk.store, found.one.id, found.other.id, desk.zone)
        if mark != found.mark:
            raise Conflict("one of the two records was changed meanwhile; look at them again")
        if found.same_day and not same_day_meant:
            raise CareError("both have an operation on the same eye on the same day: say that this is meant", "same_day")
        stays, goes = (found.one, found.other) if number == "one" else (found.other, found.one)
        right = found.one if particulars == "one" else found.other
        before = {"stays": _particulars(stays), "joined": _particulars(goes)}
        follow_ups = [
            (e.side, e.is_followed, bool(e.ended_at)) for k in (stays, goes) for e in eyes.of_patient(desk.store, k.id)
        ]
        patients.join(desk.store, goes.id, stays.id)
        patients.correct(desk.store, stays.id, stays.number, right.name, right.born_on, right.phone, right.language)
        _go_on(desk, stays, follow_ups)
        index(desk.store, stays.id)
        index(desk.store, goes.id)
        for id in (stays.id, goes.id):
            desk.note("records joined", id, {**before, "particulars": right.number})
        raise_signs_of_patient(desk.store, stays.id, desk.now, desk.zone)
    return stays.id


def _go_on(desk: Desk, stays: Patient, before: list[tuple[str, bool, bool]]) -> None:
    """Where one record's eye is followed and the other's had ended, the joined eye is followed."""
    for eye in eyes.of_patient(desk.store, stays.id):
        known = [(followed, ended) for side, followed, ended in before if side == eye.side]
        if any(followed for followed, _ in known) and any(ended for _, ended in known):
            eyes.begin(desk.store, desk.now, eye.id)
            eyes.add_follow_up(desk.store, desk.now, eye.id, "resumed", "joined", "", desk.actor.signature)


def _operated(store: Store, patient_id: str, zone: tzinfo) -> set[tuple[str, date]]:
    known = eyes.of_patient(store, patient_id)
    return {(e.side, n.operated_at.astimezone(zone).date()) for e in known for n in eyes.notes_of(store, e.id)}


def _patient(store: Store, id: str) -> Patient:
    found = patients.patient(store, id)
    if found is None:
        raise NotFound("there is no such patient")
    if found.joined_into is not None:
        raise CareError("that record was joined into another already", "other")
    return found


def _particulars(known: Patient) -> dict[str, str]:
    return {key: str(getattr(known, key)) for key in ("number", "name", "born_on", "phone", "language")}
