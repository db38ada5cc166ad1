"""What the records hold, as frozen, typed values. A row is parsed once, on its way out; above here there are no rows."""

import json
import typing
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field, fields
from datetime import date, datetime, time
from functools import lru_cache
from types import UnionType
from typing import Any, TypeVar

from followup.clinical.warnings import HowSoon
from followup.records.bodies.base import Body
from followup.records.operation_note import OperationNote
from followup.records.store import Row
from followup.records.times import from_text

SIDES = ("right", "left")
Value = TypeVar("Value")
Said = TypeVar("Said", bound=Body)


@dataclass(frozen=True, slots=True)
class Staff:
    id: str
    name: str
    role: str
    email: str
    password_hash: str
    created_at: datetime
    left_at: datetime | None


@dataclass(frozen=True, slots=True)
class Session:
    """A member of staff signed in on one browser; `seen_at` is when it was last used, to the minute."""

    id: str
    staff_id: str
    begun_at: datetime
    seen_at: datetime
    address: str


@dataclass(frozen=True, slots=True)
class AuditEntry:
    """One entry of the audit chain."""

    number: int
    at: datetime
    who: str
    action: str
    subject: str


@dataclass(frozen=True, slots=True)
class PageOpened:
    """A page that a member of staff opened, and the record it is about."""

    at: datetime
    who: str
    page: str
    about: str


@dataclass(frozen=True, slots=True)
class ListedOperation:
    """An operation as a theatre list has it; `body` holds what else the list says, by the discharge form's fields."""

    id: str
    number: str
    name: str
    operated_on: date
    eye: str
    body: dict[str, Any]
    source: str
    listed_by: str
    listed_at: datetime


@dataclass(frozen=True, slots=True)
class Consent:
    """What was said about consent to something: given, or taken back."""

    at: datetime
    what: str
    given: bool
    said_by: str
    words: str
    recorded_by: str


@dataclass(frozen=True, slots=True)
class Patient:
    """A person; `joined_into` is the record of the same person that this one was joined into.

    `reached_by` is own-phone, carer-phone or no-app; empty while nobody has said. Whether there is the app stands so since
    `reached_since` (None: from the beginning).
    """

    id: str
    number: str
    name: str
    born_on: date
    phone: str
    language: str
    created_at: datetime
    joined_into: str | None
    reached_by: str
    reached_since: datetime | None
    carer_phone: str

    @property
    def has_app(self) -> bool:
        """Whether entries from a phone are waited for: also while nobody has said that there is none."""
        return self.reached_by != "no-app"


@dataclass(frozen=True, slots=True)
class Enrolment:
    """A one-time code for a phone; one that a patient made is for the carer whom it names."""

    id: str
    patient_id: str
    created_at: datetime
    expires_at: datetime
    used_at: datetime | None
    wrong_tries: int
    carer_name: str = ""


@dataclass(frozen=True, slots=True)
class Device:
    """A patient's phone, with the language noted for its patient, and what the patient calls the carer whom it was let in for."""

    id: str
    patient_id: str
    used_by: str
    enrolled_at: datetime
    heard_at: datetime
    revoked_at: datetime | None
    revoked_by: str | None
    language: str
    carer_name: str = ""


@dataclass(frozen=True, slots=True)
class Note:
    """One record of an operation: the operation note as it was written then, by whom, and why it was changed."""

    id: str
    operation_id: str
    body: OperationNote
    recorded_by: str
    recorded_at: datetime
    reason: str

    @property
    def eye(self) -> str:
        return self.body.eye

    @property
    def operated_at(self) -> datetime:
        return self.body.operated_at

    @property
    def agent(self) -> str:
        return self.body.agent

    @property
    def surgeon(self) -> str:
        return self.body.surgeon


@dataclass(frozen=True, slots=True)
class Eye:
    """One of a patient's two eyes. `note` is that of its latest operation; None where it was never operated.

    Followed from `followed_since` on (None: never), until `ended_at` for `end_reason`.
    """

    id: str
    side: str
    patient: Patient
    note: Note | None
    followed_since: datetime | None
    ended_at: datetime | None
    end_reason: str | None

    @property
    def is_followed(self) -> bool:
        return self.followed_since is not None and self.ended_at is None

    @property
    def agent(self) -> str:
        """What was left in the eye by its latest operation."""
        return self.note.agent if self.note else "none"


@dataclass(frozen=True, slots=True)
class FollowUp:
    """Follow-up of an eye began, ended or was taken up again."""

    id: str
    eye_id: str
    at: datetime
    what: str
    reason: str
    words: str
    recorded_by: str


@dataclass(frozen=True, slots=True)
class Visit:
    """An entry of the clinic's book as it stands: `id` of this version, `identity` through every change of it.

    `starts` is the appointment's local time, where the clinic keeps times; `why` is why this version was made.
    """

    id: str
    identity: str
    eye_id: str
    name: str
    target: date
    earliest: date
    latest: date
    reason: str
    recorded_by: str
    recorded_at: datetime
    replaces: str | None
    withdrawn: bool
    starts: time | None
    why: str
    entered_at: datetime

    def holds(self, day: date) -> bool:
        """Whether its window holds that day."""
        return self.earliest <= day <= self.latest


@dataclass(frozen=True, slots=True)
class Change:
    """A visit as it was before and as it stands now; `changed` is withdrawn where it was cancelled."""

    before: Visit
    changed: Visit


@dataclass(frozen=True, slots=True)
class Closure:
    """A day on which the clinic sees nobody, closed by somebody who said why."""

    day: date
    why: str
    recorded_by: str
    recorded_at: datetime


@dataclass(frozen=True, slots=True)
class Event:
    """Something recorded about an eye: `body` is what it says. `corrects` is the event it puts right, for `reason`."""

    id: str
    eye_id: str
    kind: str
    at: datetime
    body: Body
    author: str
    device_id: str | None
    received_at: datetime
    corrects: str | None
    reason: str


def saying(found: Iterable[Event], kind: type[Said]) -> Iterator[tuple[Event, Said]]:
    """The events whose body is of a kind, each with it."""
    return ((event, event.body) for event in found if isinstance(event.body, kind))


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A row with a time that cannot be, left out everywhere else: where it is kept, whose it is, and what it says."""

    kept_in: str
    what: str
    id: str
    eye_id: str
    says: str
    patient_name: str
    patient_number: str


@dataclass(frozen=True, slots=True)
class Refused:
    """What could not be taken, as it came."""

    id: str
    eye_id: str | None
    device_id: str | None
    text: str
    reason: str
    received_at: datetime


@dataclass(frozen=True, slots=True)
class Warning:
    """A sign that came up; `unfounded` where what it rested on was put right later."""

    id: str
    eye_id: str
    callback_id: str
    rule: str
    worry: str
    how_soon: HowSoon
    raised_at: datetime
    severity: float
    values: dict[str, Any]
    threshold: dict[str, Any]
    source: str
    words: str
    rulebook: str
    recorded_at: datetime
    unfounded: bool


@dataclass(frozen=True, slots=True)
class Callback:
    """Somebody has to be spoken to. `state` is waiting, claimed, to-do or settled; `free` is whether somebody is to take it."""

    id: str
    eye_id: str
    worry: str
    how_soon: HowSoon
    opened_at: datetime
    due_at: datetime
    state: str
    claimed_by: str | None
    claimed_by_name: str | None
    claimed_at: datetime | None
    settled_at: datetime | None
    settled_by: str | None
    outcome: str | None
    level: int
    moved_up: int
    next_try_at: datetime | None
    free: bool


@dataclass(frozen=True, slots=True)
class Step:
    """What was done about a callback."""

    id: str
    callback_id: str
    at: datetime
    who: str
    step: str
    detail: dict[str, Any]


@dataclass(frozen=True, slots=True)
class Taken:
    """A callback that somebody took over."""

    callback_id: str
    eye_id: str
    worry: str
    at: datetime
    by: str


@dataclass(frozen=True, slots=True)
class Task:
    """What was decided about a callback and stays to be done; `owner` None: nobody has it yet.

    What one decision made for several callbacks of a patient has one `decision` (None in older records). `seen_at` is when
    the eye was last looked at in clinic since.
    """

    id: str
    callback_id: str
    eye_id: str
    kind: str
    words: str
    visit_id: str | None
    visit_on: date | None
    owner: str | None
    owner_name: str | None
    due_at: datetime
    made_by: str
    made_by_name: str
    made_at: datetime
    told_at: datetime | None
    done_at: datetime | None
    done_by: str | None
    done_words: str
    given_up: bool
    decision: str | None
    seen_at: datetime | None = None


@dataclass(frozen=True, slots=True)
class EyeState:
    """What stands now of a followed eye. `how_soon` to `reason` are of its worst open worry; None and empty without one.

    `next_visit` is the identity of the first visit that is waited for. Posturing days lie after the local day
    `posture_from` and before `posture_until`. `last_measures` is the entry's id.
    """

    eye_id: str
    agent: str
    operated_at: datetime
    posture_from: date | None
    posture_until: date | None
    next_visit: str | None
    next_earliest: date | None
    next_target: date | None
    next_latest: date | None
    how_soon: HowSoon | None
    worry: str
    worry_since: datetime | None
    worry_due_at: datetime | None
    reason: str
    last_heard: datetime | None
    last_measures: str | None


@dataclass(frozen=True, slots=True)
class VisitState:
    """What stands now of a visit of a followed eye; `visit_id` is its version in the book.

    `waited`: it has not taken place and did not run out before the latest operation or the taking up of follow-up.
    `away`: its patient did not come on its day. `here_at` is when they last came, said by the entry `arrival`.
    `hour` and `urgency` are as lists sort by them; `name` is the patient's.
    """

    identity: str
    visit_id: str
    eye_id: str
    target: date
    latest: date
    hour: str
    urgency: int
    name: str
    waited: bool
    away: bool
    seen_at: datetime | None
    here_at: datetime | None
    arrival: str


@dataclass(frozen=True, slots=True)
class WishState:
    """What a patient asked about a visit, in entry `event_id`, and nobody has answered.

    `identity` is the visit's, None where the book has none of that name.
    """

    event_id: str
    eye_id: str
    at: datetime
    visit: str
    identity: str | None
    words: str


@dataclass(frozen=True, slots=True)
class CallState:
    """The call of a patient with open callbacks: its worst one's urgency (0 is now), since when, and which (`first`).

    `level` is the highest of all, `decided` whether all wait only for what is to be done. `people` are who has to do with
    it: `surgeon:<name>` who operated, `has:<staff id>` who has it in hand, `task:<staff id>` who is to do something.
    """

    urgency: int
    since: datetime
    first: str
    level: int
    decided: bool
    people: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Message:
    """A message with what became of it; `about` is a record's id or a date."""

    key: str
    person: str
    kind: str
    about: str
    made_at: datetime
    useless_after: datetime
    state: str
    tries: int
    next_try_at: datetime
    taken_at: datetime | None
    ended_at: datetime | None
    detail: str


@dataclass(frozen=True, slots=True)
class Subscription:
    """Where a browser takes pushes."""

    endpoint: str
    person: str
    device_id: str | None
    p256dh: str
    auth: str


@dataclass(frozen=True, slots=True)
class Choice:
    """How a person wants to be reached, as kept."""

    email: str
    language: str
    quiet_from: str
    quiet_to: str
    unwanted: list[str] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Signature:
    """Who signed exactly this text of a protocol, and when."""

    part: str
    fingerprint: str
    signed_by: str
    name: str
    signed_at: datetime


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that goes wrong."""

    what: str
    about: str
    words: str
    first_at: datetime
    last_at: datetime
    times: int


@dataclass(frozen=True, slots=True)
class Run:
    """When a job last started and ended, and how."""

    job: str
    started_at: datetime
    ended_at: datetime | None
    result: str | None


def made(kind: type[Value], row: Row, **given: Any) -> Value:
    """The value of a row: columns by the name of the field, parsed by its type. Raises ValueError for what cannot be."""
    readers: tuple[tuple[str, Callable[[Any], Any]], ...] = _readers(kind)  # type: ignore[arg-type]
    return kind(**{name: given[name] if name in given else read(row[name]) for name, read in readers})


@lru_cache
def _readers(kind: Any) -> tuple[tuple[str, Callable[[Any], Any]], ...]:
    hints = typing.get_type_hints(kind)
    return tuple((f.name, _reader(hints[f.name])) for f in fields(kind))


def _reader(hint: Any) -> Callable[[Any], Any]:
    options = typing.get_args(hint) if typing.get_origin(hint) in (UnionType, typing.Union) else (hint,)
    named = next(option for option in options if option is not type(None))
    parse = _PARSERS.get(typing.get_origin(named) or named, lambda value: value)
    optional = type(None) in options

    def read(value: Any) -> Any:
        if value is None and optional:
            return None
        return parse(value)

    return read


def as_object(text: str) -> dict[str, Any]:
    """A JSON object as it is kept. Raises ValueError for anything else."""
    read = json.loads(text)
    if not isinstance(read, dict):
        raise ValueError("not an object")
    return read


_PARSERS: dict[Any, Callable[[Any], Any]] = {
    datetime: from_text,
    date: date.fromisoformat,
    time: time.fromisoformat,
    bool: bool,
    dict: as_object,
    list: json.loads,
}
