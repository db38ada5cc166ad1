"""Take what a device sends: each event in one transaction with all that follows from it; twice changes nothing."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, tzinfo
from typing import Any, Literal

from pydantic import BaseModel, ValidationError

from followup.care.actors import Actor
from followup.care.errors import translatable
from followup.care.events import ClinicEnvelope, Envelope, SentEvent, body_of, first_message, moved, stored
from followup.care.raising import raise_signs_of_patient
from followup.records import Store, audit, eyes, people
from followup.records.store import Row

FUTURE_TOLERANCE = timedelta(hours=26)  # a phone with the wrong date or zone is kept, a year off is not
SKEW_FROM = timedelta(minutes=2)  # smaller differences between two clocks are the time on the way


class Result(BaseModel):
    """What became of one event. `refused` carries the reason; the event stays on the phone with it."""

    id: str
    status: Literal["received", "refused"]
    reason: str | None = None


@dataclass(frozen=True)
class Phone:
    """A patient's enrolled phone: it speaks for its own patient's eyes only."""

    device: Row

    @property
    def id(self) -> str:
        return str(self.device["id"])

    @property
    def device_id(self) -> str | None:
        return self.id

    def read(self, raw: Any) -> tuple[SentEvent, str]:
        event = Envelope.model_validate(raw)
        return event, f"{event.by}:{self.id}"

    def body(self, event: SentEvent) -> BaseModel:
        return body_of(event.kind, event.body)

    def may_write_to(self, operation: Row) -> bool:
        return bool(operation["patient_id"] == self.device["patient_id"])


@dataclass(frozen=True)
class ClinicDevice:
    """A clinic device in the hands of a member of staff."""

    actor: Actor
    device_id: None = None

    @property
    def id(self) -> str:
        return self.actor.signature

    def read(self, raw: Any) -> tuple[SentEvent, str]:
        return ClinicEnvelope.model_validate(raw), self.actor.signature

    def body(self, event: SentEvent) -> BaseModel:
        assert isinstance(event, ClinicEnvelope)
        return event.checked()

    def may_write_to(self, operation: Row) -> bool:
        return True


Sender = Phone | ClinicDevice
_UNKNOWN = ClinicDevice(Actor("unknown", "somebody unknown", "staff"))


def receive(
    store: Store, now: datetime, device: Row, batch: Sequence[Any], zone: tzinfo, sent_at: datetime | None = None
) -> list[Result]:
    """Take a batch from an enrolled phone, event by event; one bad event never holds up the others.

    `sent_at` is what the phone's clock said when it sent: where that is minutes or hours off, every time in
    the batch is moved by the difference, and the phone's own time is kept beside it.
    """
    people.device_heard(store, now, device["id"])
    return _receive_all(store, now, Phone(device), batch, zone, sent_at)


def receive_from_clinic(
    store: Store, now: datetime, actor: Actor, batch: Sequence[Any], zone: tzinfo, sent_at: datetime | None = None
) -> list[Result]:
    """Take what a member of staff entered on a device without a signal, in the same way."""
    return _receive_all(store, now, ClinicDevice(actor), batch, zone, sent_at)


def refuse_from_clinic(store: Store, now: datetime, batch: Sequence[Any], reason: str) -> list[Result]:
    """Keep entries whose author cannot be told as they came, for the clinic to see, and say why they were not taken."""
    return [
        _refuse(store, now, _UNKNOWN, str(raw.get("id", "")) if isinstance(raw, dict) else "", raw, reason) for raw in batch
    ]


def _receive_all(
    store: Store, now: datetime, sender: Sender, batch: Sequence[Any], zone: tzinfo, sent_at: datetime | None
) -> list[Result]:
    skew = now - sent_at if sent_at is not None and abs(now - sent_at) >= SKEW_FROM else timedelta(0)
    return [_receive_one(store, now, sender, raw, zone, skew) for raw in batch]


def _receive_one(store: Store, now: datetime, sender: Sender, raw: Any, zone: tzinfo, skew: timedelta) -> Result:
    id = str(raw.get("id", "")) if isinstance(raw, dict) else ""
    try:
        event, author = sender.read(raw)
        device_at = event.at
        event = event.model_copy(update={"at": device_at + skew})
        body = moved(sender.body(event), skew)
        _belongs(store, sender, event, now)
    except ValidationError as error:
        return _refuse(store, now, sender, id, raw, first_message(error))
    except ValueError as error:
        return _refuse(store, now, sender, id, raw, str(error))
    known = eyes.event(store, event.id)
    if known is not None:
        if known["author"] != author:
            return _refuse(store, now, sender, id, raw, translatable("This entry has the number of another one."))
        return Result(id=event.id, status="received")
    with store.transaction():
        if eyes.event(store, event.id) is None:
            eyes.add_event(
                store,
                event.id,
                event.operation,
                event.kind,
                event.at,
                stored(body),
                author,
                now,
                device_id=sender.device_id,
                sequence=event.sequence,
                offset_minutes=event.offset_minutes,
                device_at=device_at,
                corrects=event.corrects,
            )
            audit.note(store, now, author, f"event {event.kind}", event.operation, {"id": event.id})
            raise_signs_of_patient(store, event.operation, now, zone)
    return Result(id=event.id, status="received")


def _belongs(store: Store, sender: Sender, event: SentEvent, now: datetime) -> None:
    operation = eyes.operation(store, event.operation)
    if operation is None or not sender.may_write_to(operation):
        raise ValueError(translatable("This entry belongs to another eye."))
    if event.at > now + FUTURE_TOLERANCE:
        raise ValueError(translatable("The time of this entry is still to come. Check the date on the phone."))
    if event.corrects is not None:
        corrected = eyes.event(store, event.corrects)
        if corrected is None or corrected["operation_id"] != event.operation or corrected["device_id"] is None:
            raise ValueError(translatable("The entry that this one puts right is not known here."))
    elif event.kind == "withdrawal":
        raise ValueError("a withdrawal names the entry it takes back")


def _refuse(store: Store, now: datetime, sender: Sender, id: str, raw: Any, reason: str) -> Result:
    operation = raw.get("operation") if isinstance(raw, dict) else None
    text = json.dumps(raw, ensure_ascii=False)[:10_000]
    with store.transaction():
        eyes.add_refused_event(store, now, id, operation if isinstance(operation, str) else None, sender.id, text, reason)
    return Result(id=id, status="refused", reason=reason)
