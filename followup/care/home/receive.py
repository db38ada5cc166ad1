"""Take what a device sends: a batch in one transaction with all that follows from it; twice changes nothing.

Nothing is acknowledged before that transaction is on the disk. Each event is checked by itself and refused by itself. The
eyes are judged once, when all that came together is there, so that a day without a signal is not taken for a day without
a word. Where a batch cannot be kept as a whole, each event of it is taken alone. Batches that wait for the database at the
same time share a transaction, so that they wait for the disk once.
"""

import hashlib
import json
import logging
from collections.abc import Sequence
from datetime import datetime, timedelta, tzinfo
from typing import Any, Literal

from pydantic import BaseModel

from followup.care import bounds
from followup.care.actors import Actor
from followup.care.desk import Desk
from followup.care.errors import NotFound, translatable
from followup.care.home import sealing
from followup.care.home.clocks import Clocks
from followup.care.home.sealing import Sealed
from followup.care.home.senders import (
    NOT_OPENED,
    NOT_READ,
    NOT_TAKEN,
    UNKNOWN,
    ClinicDevice,
    Phone,
    Read,
    Sender,
    Unfit,
    Unreadable,
    read,
)
from followup.care.reading.entries import who
from followup.care.reading.events import SentEvent
from followup.care.visits.visit import eye_on_side
from followup.care.watch import grounds
from followup.care.watch.raising import raise_signs_of_patient
from followup.care.watch.watching import SHUT
from followup.records import Store, audit, events, eyes, people, watch
from followup.records.bodies.base import Body
from followup.records.bodies.clinic import MeasuresBody
from followup.records.bodies.kinds import times_in
from followup.records.store import fails
from followup.records.values import Device, Event, Eye

LONGEST_KEPT = 10_000
MOST_JUNK_FROM_ONE_ADDRESS = 20  # an hour, as for unknown codes: common practice, no source
MOST_JUNK = 200
MOST_SHUT_FROM_ANYBODY = 50_000  # bytes of a packet that nobody here can open: many times what an entry takes

PUTS_NOTHING_RIGHT = translatable("The entry that this one puts right is not known here.")

log = logging.getLogger(__name__)


class Result(BaseModel):
    """What became of one event. `refused` carries the reason; the event stays on the phone with it."""

    id: str
    status: Literal["received", "refused"]
    reason: str | None = None


def receive(
    store: Store, now: datetime, device: Device, batch: Sequence[Any], zone: tzinfo, sent_at: datetime | None = None
) -> list[Result]:
    """Take a batch from an enrolled phone; one bad event never holds up the others.

    `sent_at` is what the phone's clock said when it sent: where that is minutes or hours off, times are moved to the
    clinic's clock (`clocks`), and the phone's own time is kept beside them.
    """
    return _receive_all(store, now, Phone(device), batch, zone, sent_at)


def receive_sealed(
    store: Store, now: datetime, device: Device, packets: Sequence[Sealed], zone: tzinfo, sent_at: datetime | None = None
) -> list[Result]:
    """Take what a phone sealed when it was locked out; a packet that cannot be opened never holds up the others.

    That one is kept as it came and refused, and the clinic is told whom to ask.
    """
    sender, clocks = Phone(device), Clocks(now, sent_at)
    entries: list[Read | Unfit] = []
    for packet in packets:
        try:
            entries += [read(sender, raw, clocks) for raw in sealing.opened_entries(store, packet)]
        except ValueError:
            entries.append(Unfit(packet, f"A packet of entries {NOT_OPENED}", NOT_READ))
    return _take_all(store, now, sender, entries, zone)


def receive_from_clinic(desk: Desk, batch: Sequence[Any], sent_at: datetime | None = None) -> list[Result]:
    """Take what a member of staff entered on a device without a signal, in the same way."""
    return _receive_all(desk.store, desk.now, ClinicDevice(desk.actor), batch, desk.zone, sent_at)


def too_much_junk(store: Store, now: datetime, caller: str) -> bool:
    """Whether so much that nobody here made came from this address within the hour that no more is opened or kept.

    A device keeps what is not taken and sends it again later, or at once when somebody signs in on it.
    """
    hour = timedelta(hours=1)
    here, everywhere = (people.tries_within(store, now, "junk", key, hour) for key in (caller, ""))
    return here >= MOST_JUNK_FROM_ONE_ADDRESS or everywhere >= MOST_JUNK


def count_junk(store: Store, now: datetime, caller: str) -> None:
    """Something that nobody here made came from this address."""
    with store.transaction():
        for key in (caller, ""):
            people.count_try(store, now, "junk", key)


def refuse_from_clinic(store: Store, now: datetime, batch: Sequence[Any], reason: str) -> list[Result]:
    """Keep entries whose author cannot be told as they came, for the clinic to see, and say why they were not taken."""
    with store.transaction():
        return [_refuse(store, now, UNKNOWN, raw, reason) for raw in batch]


def refuse_packet(store: Store, now: datetime, batch: Sequence[Any], reason: str) -> list[Result]:
    """The same for what nobody of this clinic signed: kept in one row, so that it cannot fill the list."""
    kept = _refuse(store, now, UNKNOWN, list(batch), reason)
    return [kept.model_copy(update={"id": str(raw.get("id", "")) if isinstance(raw, dict) else ""}) for raw in batch]


def refuse_shut(store: Store, now: datetime, actor: Actor | None, packet: Sealed) -> Result | None:
    """The same for a packet of a clinic device that cannot be opened, which `actor` sends: kept as it came.

    None where nobody is signed in and it is so long that it is not kept: the device does.
    """
    if actor is None and len(packet.data) > MOST_SHUT_FROM_ANYBODY:
        return None
    sender = ClinicDevice(actor) if actor else UNKNOWN
    return _refuse(store, now, sender, packet, f"An entry from a clinic device {NOT_OPENED}")


def entered_anew(desk: Desk, person: str) -> None:
    """Somebody asked what was in the packets that could not be opened: they are a fault no more, and stay on record.

    Raises `NotFound` where nothing waits for that.
    """
    with desk.store.transaction():
        if not any((fault.what, fault.about) == (SHUT, person) for fault in watch.faults(desk.store)):
            raise NotFound("nothing that could not be opened waits for this person")
        watch.clear(desk.store, SHUT, person)
        desk.note("unopened entries asked about", person)


def _receive_all(
    store: Store, now: datetime, sender: Sender, batch: Sequence[Any], zone: tzinfo, sent_at: datetime | None
) -> list[Result]:
    return _take_all(store, now, sender, [read(sender, raw, Clocks(now, sent_at)) for raw in batch], zone)


def _take_all(store: Store, now: datetime, sender: Sender, entries: Sequence[Read | Unfit], zone: tzinfo) -> list[Result]:
    try:
        return _together(store, now, sender, entries, zone)
    except Exception as error:
        if fails(error):
            raise
    return [_alone(store, now, sender, one, zone) for one in entries]


def _together(store: Store, now: datetime, sender: Sender, batch: Sequence[Read | Unfit], zone: tzinfo) -> list[Result]:
    """All of a batch or nothing of it. Whatever is raised says that it cannot be kept as a whole."""

    def kept() -> list[Result]:
        sender.heard(store, now)
        taking = _Taking(store, now, sender, zone)
        results = [taking.take(one) for one in batch]
        taking.judge()
        return results

    return store.shared(kept)


def _alone(store: Store, now: datetime, sender: Sender, one: Read | Unfit, zone: tzinfo) -> Result:
    """One event, whatever is wrong with it: what cannot be taken is refused alone. Only a database that fails is raised."""
    try:
        return _together(store, now, sender, [one], zone)[0]
    except Exception as error:
        if fails(error):
            raise
        log.exception("an entry could not be taken")
        return _refuse(store, now, sender, one.raw, NOT_TAKEN)


class _Taking:
    """Keeps entries inside one transaction, and judges the eyes once, when all are kept."""

    def __init__(self, store: Store, now: datetime, sender: Sender, zone: tzinfo) -> None:
        self.store, self.now, self.sender, self.zone = store, now, sender, zone
        self._unjudged: dict[str, None] = {}

    def take(self, one: Read | Unfit) -> Result:
        """Keep an entry that fits, refuse one that does not, and take one that is known as received."""
        if isinstance(one, Unfit):
            return _refuse(self.store, self.now, self.sender, one.raw, one.reason, one.told)
        try:
            eye = _belongs(self.store, self.sender, one.event, one.body, self.now)
            known = events.event(self.store, one.event.id)
            if known is not None and known.author != one.author and not self._sent_again(known, one, eye):
                raise ValueError(translatable("This entry has the number of another one."))
        except ValueError as error:
            return _refuse(self.store, self.now, self.sender, one.raw, str(error))
        if known is None and one.event.corrects:
            self._put_right(one, eye)
        elif known is None:
            self._keep(one, eye)
        return Result(id=one.event.id, status="received")

    def _sent_again(self, known: Event, one: Read, eye: Eye) -> bool:
        """Whether a phone of the same patient sent it that is closed by now: set up anew, it never heard the answer."""
        same = (known.eye_id, known.kind, known.corrects) == (eye.id, one.event.kind, one.event.corrects)
        if not same or not isinstance(self.sender, Phone) or known.device_id is None:
            return False
        before = people.device(self.store, known.device_id)
        return before is not None and before.revoked_at is not None

    def judge(self) -> None:
        """What the rules find in the eyes of everybody about whom something was kept."""
        for patient_id in self._unjudged:
            raise_signs_of_patient(self.store, patient_id, self.now, self.zone)
        self._unjudged.clear()

    def _keep(self, one: Read, eye: Eye) -> None:
        event = one.event
        events.add(
            self.store,
            event.id,
            eye.id,
            event.kind,
            event.at,
            one.body,
            one.author,
            self.now,
            device_id=self.sender.device_id,
            sequence=event.sequence,
            offset_minutes=event.offset_minutes,
            device_at=one.device_at,
            corrects=event.corrects,
        )
        audit.note(self.store, self.now, one.author, f"event {event.kind}", eye.id, {"id": event.id})
        self._unjudged[eye.patient.id] = None

    def _put_right(self, one: Read, eye: Eye) -> None:
        """Judged by itself: what an entry gave cause for stays on record with its callback, also when it is taken back at once."""
        self.judge()
        before = grounds.found(self.store, eye.patient.id, self.now, self.zone)
        self._keep(one, eye)
        role, _, id = one.author.partition(":")
        desk = Desk(self.store, self.now, Actor(id, who(self.store, one.author), role), self.zone)
        told = f"{one.event.kind.replace('-', ' ')} from the phone"
        grounds.follow(desk, eye.patient.id, before, told, "taken back there", event_id=one.event.id)
        self.judge()


def _belongs(store: Store, sender: Sender, event: SentEvent, body: Body, now: datetime) -> Eye:
    """The eye that an entry is about. Raises ValueError for one that cannot be, or is not the sender's."""
    eye = eyes.eye(store, event.operation)
    if eye is None or not sender.may_write_to(eye):
        raise ValueError(translatable("This entry belongs to another eye."))
    for time in (event.at, *times_in(body)):
        if fault := bounds.event(time, now):
            raise ValueError(fault)
    if event.corrects is not None:
        corrected = events.event(store, event.corrects)
        of = eyes.eye(store, corrected.eye_id) if corrected else None
        if corrected is None or of is None or of.id != eye.id or corrected.device_id is None:
            raise ValueError(PUTS_NOTHING_RIGHT)
    elif event.kind == "withdrawal":
        raise ValueError(PUTS_NOTHING_RIGHT)
    return eye_on_side(store, eye, body.eye) if isinstance(body, MeasuresBody) else eye


def _refuse(store: Store, now: datetime, sender: Sender, raw: Any, reason: str, told: str | None = None) -> Result:
    """Keep what was sent as it came (as ASCII, so that whatever it holds can be kept), once, with the reason.

    A patient reads `told` in its place.
    """
    longest: int | None = LONGEST_KEPT
    if isinstance(raw, Sealed):  # whole: a part of it opens with no key
        text, longest = raw.model_dump_json(), None
        id, operation = hashlib.sha256(text.encode()).hexdigest(), None
    elif isinstance(raw, Unreadable):
        id, operation, text = raw.id, None, raw.text
    else:
        fields = raw if isinstance(raw, dict) else {}
        id, operation, text = str(fields.get("id", "")), fields.get("operation"), _written(raw)
    with store.transaction():
        new = events.refuse(
            store,
            now,
            _keepable(id),
            _keepable(operation) if isinstance(operation, str) else None,
            sender.id,
            _keepable(text, longest),
            _keepable(reason, LONGEST_KEPT),
        )
        if new:
            audit.note(store, now, sender.signature, "entry refused", _keepable(id))
        if new and isinstance(raw, Sealed) and sender.person:
            watch.note(store, now, SHUT, sender.person, reason)
    said = told if told and isinstance(sender, Phone) else reason
    return Result.model_construct(id=id, status="refused", reason=said)


def _written(raw: Any) -> str:
    try:
        return json.dumps(raw)
    except RecursionError:
        return "(nested too deeply to be written down)"


def _keepable(text: str, longest: int | None = 80) -> str:
    return text.encode("utf-8", "backslashreplace").decode()[:longest]
