"""From signs to warnings and callbacks: kept once, merged while open, raised again when worse."""

from datetime import datetime, tzinfo
from typing import Any

from followup.care.actors import CLOCK
from followup.care.eye import Eye, load, rulebook
from followup.clinical import warnings
from followup.clinical.callbacks import DUE_WITHIN
from followup.records import Store, audit, eyes, worries
from followup.records.store import Row


def raise_signs(store: Store, eye: Eye, now: datetime) -> list[Row]:
    """Keep every sign of the eye's course, and of a fellow eye without an operation, that is not kept yet.

    Returns the new ones, the most urgent first. Call it inside the transaction that recorded the cause. A late entry is
    judged at its own time; what it raises opens or joins a callback now.
    """
    book = rulebook(store)
    courses = [eye.course] if _fellow_was_operated(store, eye) else [eye.course, eye.fellow]
    new = [
        _kept(store, eye, sign, book.version, now)
        for course in courses
        for sign in warnings.evaluate(course, book, now)
        if not worries.has_warning(store, eye.operation_id, sign.rule, sign.raised_at)
    ]
    return sorted(new, key=lambda w: warnings.HOW_SOON.index(w["how_soon"]))


def raise_signs_of_patient(store: Store, operation_id: str, now: datetime, zone: tzinfo) -> list[Row]:
    """`raise_signs` for that eye and for every other followed eye of its patient: what is measured may be of either."""
    eye = load(store, operation_id, zone)
    others = [row["id"] for row in eyes.operations_of(store, eye.row["patient_id"]) if row["id"] != operation_id]
    new = raise_signs(store, eye, now) + [w for id in others for w in raise_signs(store, load(store, id, zone), now)]
    return sorted(new, key=lambda w: warnings.HOW_SOON.index(w["how_soon"]))


def _fellow_was_operated(store: Store, eye: Eye) -> bool:
    return any(row["eye"] == eye.fellow.eye for row in eyes.operations_of(store, eye.row["patient_id"]))


def check_eye(store: Store, operation_id: str, now: datetime, zone: Any) -> list[Row]:
    """What the clock alone may raise: silence, missed visits, missed posture, oil past its time."""
    with store.transaction():
        return raise_signs(store, load(store, operation_id, zone), now)


def _kept(store: Store, eye: Eye, sign: warnings.Sign, version: str, now: datetime) -> Row:
    told: Row = {name: getattr(sign, name) for name in sign.__dataclass_fields__}
    open_one = worries.open_callback_of(store, eye.operation_id, sign.worry)
    if open_one is None:
        due = now + DUE_WITHIN[sign.how_soon]
        callback_id = worries.add_callback(store, eye.operation_id, sign.worry, sign.how_soon, now, due)
        worries.add_step(store, now, callback_id, CLOCK.signature, "opened", _summary(told))
    else:
        callback_id = open_one["id"]
        worries.add_step(store, now, callback_id, CLOCK.signature, "raised again", _summary(told))
        if warnings.HOW_SOON.index(sign.how_soon) < warnings.HOW_SOON.index(open_one["how_soon"]):
            due = min(open_one["due_at"], now + DUE_WITHIN[sign.how_soon])
            worries.raise_callback(store, callback_id, sign.how_soon, due)
    warning_id = worries.add_warning(store, now, eye.operation_id, callback_id, told, version)
    audit.note(store, now, CLOCK.signature, "warning", eye.operation_id, {"rule": sign.rule, "how_soon": sign.how_soon})
    return {**told, "id": warning_id, "callback_id": callback_id}


def _summary(told: Row) -> dict[str, Any]:
    return {"rule": told["rule"], "how_soon": told["how_soon"], "words": told["words"]}
