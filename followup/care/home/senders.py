"""Who sends entries, and what each says as it came: read by itself, and by the clinic's clock."""

import logging
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from pydantic import ValidationError

from followup.care import bounds
from followup.care.actors import Actor, barred
from followup.care.errors import translatable
from followup.care.home.clocks import Clocks
from followup.care.reading.events import ClinicEnvelope, Envelope, SentEvent
from followup.records import Store, people
from followup.records.bodies.base import Body, first_message
from followup.records.bodies.kinds import body_of, moved
from followup.records.values import Device, Eye

NOT_OPENED = (
    "was sealed with a key that the clinic no longer has, or is damaged, so nobody here can read it: "
    "ask what was entered, and enter it anew"
)
NOT_READ = translatable("The clinic cannot read it. Call the clinic and tell them what you wrote.")
NOT_TAKEN = translatable("The clinic could not take this entry. Call the clinic and tell them what it says.")

log = logging.getLogger(__name__)


@dataclass(frozen=True)
class Unreadable:
    """What came in the place of an event and is no JSON: its text, the id that stands in it, and why."""

    text: str
    id: str
    reason: str = translatable("This entry is built in a way that the clinic cannot read.")


@dataclass(frozen=True)
class Phone:
    """A patient's enrolled phone: it speaks for its own patient's eyes only."""

    device: Device

    @property
    def id(self) -> str:
        return str(self.device.id)

    @property
    def device_id(self) -> str | None:
        return self.id

    @property
    def signature(self) -> str:
        return f"device:{self.id}"

    @property
    def person(self) -> str | None:
        """Whom staff ask what was entered, as faults name people."""
        return f"patient:{self.device.patient_id}"

    def read(self, raw: Any) -> tuple[SentEvent, str]:
        event = Envelope.model_validate(raw)
        by = "carer" if self.device.carer_name else event.by  # a phone that was let in for a carer is theirs
        return event, f"{by}:{self.id}"

    def body(self, event: SentEvent) -> Body:
        return body_of(event.kind, event.body)

    def may_write_to(self, eye: Eye) -> bool:
        return eye.patient.id == self.device.patient_id

    def heard(self, store: Store, now: datetime) -> None:
        people.device_heard(store, now, self.device.id)


@dataclass(frozen=True)
class ClinicDevice:
    """A clinic device in the hands of a member of staff, or of somebody unknown."""

    actor: Actor
    device_id: None = None

    @property
    def person(self) -> str | None:
        return None if self == UNKNOWN else f"staff:{self.actor.id}"

    @property
    def id(self) -> str:
        return self.actor.signature

    @property
    def signature(self) -> str:
        return self.actor.signature

    def read(self, raw: Any) -> tuple[SentEvent, str]:
        return ClinicEnvelope.model_validate(raw), self.actor.signature

    def body(self, event: SentEvent) -> Body:
        assert isinstance(event, ClinicEnvelope)
        if fault := barred(self.actor, event.kind):
            raise ValueError(fault)
        return event.checked()

    def may_write_to(self, eye: Eye) -> bool:
        return True

    def heard(self, store: Store, now: datetime) -> None:
        """Clinic devices are not waited for."""


Sender = Phone | ClinicDevice
UNKNOWN = ClinicDevice(Actor("unknown", "somebody unknown", "staff"))


@dataclass(frozen=True, slots=True)
class Read:
    """An entry as it came, who says so, and what it says by the clinic's clock."""

    raw: Any
    event: SentEvent
    author: str
    device_at: datetime
    body: Body


@dataclass(frozen=True, slots=True)
class Unfit:
    """What came in the place of an entry, and why it is none: as the clinic reads it, and as a patient does where that differs."""

    raw: Any
    reason: str
    told: str | None = None


def read(sender: Sender, raw: Any, clocks: Clocks) -> Read | Unfit:
    """What was sent, with its times by the clinic's clock."""
    try:
        if fault := raw.reason if isinstance(raw, Unreadable) else bounds.entry(raw):
            return Unfit(raw, fault)
        event, author = sender.read(raw)
        device_at = event.at
        by = clocks.moved_by(device_at, event.heard)
        event = event.model_copy(update={"at": device_at + by})
        return Read(raw, event, author, device_at, moved(sender.body(event), by))
    except ValidationError as error:
        return Unfit(raw, first_message(error), NOT_TAKEN)
    except ValueError as error:
        return Unfit(raw, str(error), NOT_TAKEN)
    except Exception:
        log.exception("an entry could not be read")
        return Unfit(raw, NOT_TAKEN)
