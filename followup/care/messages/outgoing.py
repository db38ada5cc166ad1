"""Messages on their way: what each person wants, what may go out now, and what became of it.

A message is taken by one process only. If that process dies while sending, the message goes out again
after a while: a second copy does less harm than none.
"""

from collections import defaultdict
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from datetime import datetime, time, timedelta
from itertools import groupby
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, field_validator

from followup.care import resetting
from followup.care.errors import translatable
from followup.care.messages import reminders
from followup.care.messages.reminders import CHOSEN_WITH, ON_CALL, ONLY_IF_ASKED, PATIENT_KINDS, STAFF_KINDS, VISIT_CHANGED
from followup.care.watch import watching
from followup.config import ADDRESS, Clinic, Messages
from followup.records import Store, audit, consents, eyes, patients, people, unsaid, visits, watch, worries
from followup.records import messages as kept
from followup.records import values as kept_values
from followup.records.store import as_json

LATEST_SHOWN = 10
STUCK_AFTER = timedelta(minutes=10)
FIRST_WAIT = timedelta(minutes=2)
LONGEST_WAIT = timedelta(hours=2)


class Choices(BaseModel):
    """How one person wants to be reached. No `email`: none by e-mail. Quiet from = to: no quiet hours.

    `language` is that of the page on which it was chosen; empty: the one the clinic noted.
    """

    model_config = ConfigDict(extra="forbid")

    email: Annotated[str, Field(max_length=200)] = ""
    language: Annotated[str, Field(max_length=10)] = ""
    quiet_from: time
    quiet_to: time
    unwanted: set[str] = set()

    @field_validator("email")
    @classmethod
    def _an_address(cls, value: str) -> str:
        if value and not ADDRESS.fullmatch(value.strip()):
            raise ValueError(translatable("This is not an e-mail address. Write it like name@example.org."))
        return value.strip()

    @field_validator("unwanted")
    @classmethod
    def _known_kinds(cls, value: set[str]) -> set[str]:
        if not value <= {*PATIENT_KINDS, *STAFF_KINDS}:
            raise ValueError("there is no such kind of message")
        return value

    def quiet_at(self, local: time) -> bool:
        if self.quiet_from <= self.quiet_to:
            return self.quiet_from <= local < self.quiet_to
        return local >= self.quiet_from or local < self.quiet_to


class PushKeys(BaseModel):
    """A browser's public key (65 bytes, uncompressed P-256) and its secret (16 bytes), base64url."""

    model_config = ConfigDict(extra="forbid")

    p256dh: Annotated[str, Field(pattern=r"^[A-Za-z0-9_-]{87}=?$")]
    auth: Annotated[str, Field(pattern=r"^[A-Za-z0-9_-]{22}(==)?$")]


class Subscription(BaseModel):
    """Where a browser takes pushes, as it says itself (`PushSubscription.toJSON`)."""

    model_config = ConfigDict(extra="ignore")

    endpoint: Annotated[str, Field(max_length=2000)]
    keys: PushKeys


@dataclass(frozen=True, slots=True)
class Parcel:
    """Messages of one kind to one person, to be said in one text; where it may go, and how often it was tried."""

    person: str
    kind: str
    language: str
    keys: tuple[str, ...]
    email: str
    subscriptions: tuple[kept_values.Subscription, ...]
    tries: int


def choices_of(store: Store, person: str, clinic: Clinic, when: Messages) -> Choices:
    """What the person chose; else staff by their sign-in address without quiet hours, patients by nothing yet."""
    found = kept.choices(store, person)
    if found:  # an address that mail cannot reach is found out when it is used, and must not end what else was chosen
        known = {k: getattr(found, k) for k in Choices.model_fields if k != "email"}
        return Choices.model_validate(known).model_copy(update={"email": found.email})
    kind, _, id = person.partition(":")
    if kind == "patient":
        return Choices(quiet_from=when.quiet_from, quiet_to=when.quiet_to, unwanted=ONLY_IF_ASKED)
    member = people.staff_member(store, id) if kind == "staff" else None
    email = clinic.on_call_email if person == ON_CALL else member.email if member else ""
    return Choices(email=email, quiet_from=time(), quiet_to=time())


def latest(store: Store, person: str) -> list[kept_values.Message]:
    """What was sent to a person lately, and how it fared."""
    return kept.of_person(store, person, LATEST_SHOWN)


def choose(store: Store, now: datetime, person: str, chosen: Choices) -> None:
    """Keep a person's choice."""
    with store.transaction():
        kept.keep_choices(store, now, person, chosen.model_dump(mode="json"))
        watch.clear(store, "e-mail", person)  # what was wrong with the former address
        audit.note(store, now, person, "messages chosen", person, {"unwanted": sorted(chosen.unwanted)})


def subscribe(store: Store, now: datetime, person: str, asked: Subscription, *, device_id: str | None = None) -> None:
    """Push to this browser from now on; whoever calls has seen where its address leads."""
    with store.transaction():
        keys = asked.keys
        kept.subscribe(store, now, person, asked.endpoint, keys.p256dh, keys.auth, device_id)
        audit.note(store, now, person, "push subscribed", person)


def line_up(store: Store, now: datetime, clinic: Clinic, when: Messages) -> int:
    """Make every message that is due and wanted, each once whichever process asks; returns how many are new."""
    made = 0
    today, how = now.astimezone(clinic.tz).date(), as_json([bool(when.smtp_host), clinic.on_call_email])
    last, entries = unsaid.waiting(store, now, today, how)
    with watching.parts(store, now, "reminder") as part:
        wanted = list(reminders.due(store, now, when, clinic.tz, part))
        news = dict(reminders.news(store, now, clinic.tz, entries, part))
    wanted += [due for of_entry in news.values() for due in of_entry]
    known = kept.made_already(store, [due.key for due in wanted])
    by_person: dict[str, list[reminders.Due]] = defaultdict(list)
    for due in wanted:
        if due.useless_after > now and due.key not in known:
            by_person[due.person].append(due)
    failed = {*by_person}
    with watching.parts(store, now, "message") as part:
        for person, of_person in by_person.items():
            with part(person):
                chosen = choices_of(store, person, clinic, when)
                reachable = (chosen.email and when.smtp_host) or kept.subscriptions(store, person)
                wants = [due for due in of_person if CHOSEN_WITH.get(due.kind, due.kind) not in chosen.unwanted]
                for due in wants if reachable else ():
                    made += kept.add(store, now, due.key, due.person, due.kind, due.about, due.useless_after)
                failed.discard(person)
    done = [entry for entry, of_entry in news.items() if not failed & {due.person for due in of_entry}]
    unsaid.said(store, last, done)
    return made


def take(store: Store, now: datetime, clinic: Clinic, when: Messages) -> Iterator[Parcel]:
    """What may go out now, taken by this process. Outside quiet hours; what is no longer of use is dropped."""
    kept.give_back_stuck(store, now - STUCK_AFTER)
    with watching.parts(store, now, "parcel") as part:
        for (person, kind), rows in groupby(kept.waiting(store, now), key=lambda m: (m.person, m.kind)):
            parcel = None
            with part(person):
                parcel = _taken(store, now, person, kind, list(rows), clinic, when)
            if parcel:
                yield parcel


def _taken(
    store: Store, now: datetime, person: str, kind: str, rows: list[kept_values.Message], clinic: Clinic, when: Messages
) -> Parcel | None:
    """What of one kind may go to one person now, taken; None in quiet hours, or when nothing of it is of use."""
    if over := _over(store, person):
        _drop(store, now, rows, over)
        return None
    chosen = choices_of(store, person, clinic, when)
    member = people.staff_member(store, person.partition(":")[2]) if kind == resetting.MESSAGE else None
    if member:  # asked for just now, and for the address that signs in alone
        chosen = chosen.model_copy(update={"email": member.email, "quiet_from": time(), "quiet_to": time()})
    if chosen.quiet_at(now.astimezone(clinic.tz).time()):
        return None
    with store.transaction():
        mine = [row for row in rows if kept.take(store, now, row.key)]
        useful = [row for row in mine if _useful(store, row, now)]
        for row in mine:
            if row not in useful:
                kept.end(store, now, row.key, "dropped", "no longer of use")
        if not useful:
            return None
        return Parcel(
            person,
            kind,
            chosen.language or _language(store, person),
            tuple(row.key for row in useful),
            chosen.email,
            () if member else tuple(kept.subscriptions(store, person)),
            max(row.tries for row in useful),
        )


def _drop(store: Store, now: datetime, rows: list[kept_values.Message], why: str) -> None:
    with store.transaction():
        for row in rows:
            if kept.take(store, now, row.key):
                kept.end(store, now, row.key, "dropped", why)


def sent(store: Store, now: datetime, parcel: Parcel, how: str) -> None:
    with store.transaction():
        for key in parcel.keys:
            kept.end(store, now, key, "sent", how)
            if parcel.kind == VISIT_CHANGED:
                visits.told(store, now, key.partition(":")[2], "clock:messages")
        audit.note(store, now, "clock:messages", f"message {parcel.kind}", parcel.person, {"how": how})


def failed(store: Store, now: datetime, parcel: Parcel, why: str) -> None:
    """Try again later, waiting longer each time, as long as the message is of use."""
    wait = min(LONGEST_WAIT, FIRST_WAIT * 2 ** min(10, parcel.tries))
    with store.transaction():
        for key in parcel.keys:
            kept.try_later(store, key, now + wait, why[:300])


def drop_faults(store: Store, now: datetime, clinic: Clinic, when: Messages) -> None:
    """Take off the list what nobody can mend any more: faults of a way by which nothing goes to that person now."""
    for fault in watch.faults(store):
        if fault.what not in ("e-mail", "push"):
            continue
        with suppress(ValueError):  # choices that cannot be read are named when there is a message
            if _goes_by(store, fault.what, fault.about, clinic, when):
                continue
            with store.transaction():
                watch.clear(store, fault.what, fault.about)
                detail = {"what": fault.what, "times": fault.times, "words": fault.words}
                audit.note(store, now, "clock:messages", "fault dropped", fault.about, detail)


def _goes_by(store: Store, way: str, person: str, clinic: Clinic, when: Messages) -> bool:
    """Whether anything goes to this person by e-mail or push, or may at any time: a followed eye may need a visit moved."""
    kind, _, id = person.partition(":")
    if _over(store, person):
        return False
    if kind == "patient" and not (kept.on_the_way(store, person) or any(e.is_followed for e in eyes.of_patient(store, id))):
        return False
    return bool(kept.subscriptions(store, person) if way == "push" else choices_of(store, person, clinic, when).email)


def _over(store: Store, person: str) -> str:
    """Why nothing goes to this person any more; empty while it may."""
    kind, _, id = person.partition(":")
    if kind == "staff":
        return "" if people.staff_member(store, id) else "the account ended"
    if kind != "patient":
        return ""
    known = patients.patient(store, id)
    if known is None or known.joined_into:
        return "the record was joined with another"
    return "consent was taken back" if consents.taken_back(store, id) else ""


def _useful(store: Store, row: kept_values.Message, now: datetime) -> bool:
    if row.useless_after <= now:
        return False
    if row.kind == "visit":
        return visits.stands(store, row.key.partition(":")[2])
    if row.kind == VISIT_CHANGED:
        return visits.is_to_tell(store, row.key.partition(":")[2])
    if row.kind in ("posture", "drops"):
        eye = eyes.eye(store, row.about)
        return eye is not None and eye.is_followed
    if row.kind not in ("now", "escalation", "not-heard"):
        return True
    callback = worries.callback(store, row.about)
    assert callback is not None
    if callback.state == "settled":
        return False
    return bool(callback.free if row.kind == "now" else callback.level if row.kind == "escalation" else True)


def _language(store: Store, person: str) -> str:
    kind, _, id = person.partition(":")
    patient = patients.patient(store, id) if kind == "patient" else None
    return str(patient.language) if patient else "en"
